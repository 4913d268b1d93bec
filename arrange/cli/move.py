"""``arrange move``: one piece of a plan put elsewhere, judged at once and kept as a version."""

from __future__ import annotations

from pathlib import Path

import click

from arrange.cli.common import (
    IMPOSSIBLE,
    Delivery,
    format_option,
    out_option,
    piece_named,
    plan_from,
    say,
)

DATA = "version.json"


@click.command(epilog='Example: arrange move bedroom-plans armchair "20 cm left"')
@click.argument("plan", metavar="PLAN")
@click.argument("piece", metavar="PIECE", required=False)
@click.argument("how", metavar="HOW", required=False)
@click.option("--undo", is_flag=True, help="Take away the last version, or the one that PLAN is.")
@out_option("the folder of PLAN")
@format_option
def move(
    plan: str, piece: str | None, how: str | None, undo: bool, out: Path | None, suffix: str
) -> None:
    """Move one PIECE of a PLAN and hear at once what that does.

    PLAN is a folder that arrange suggest wrote, with #2 for its second arrangement, or a version
    that an earlier move kept (version.json). HOW is "20 cm left" (right, up or down on the plan),
    "onto wall B", "across the corner of A and B", "turned left" (right, round), or "swapped with"
    another piece. What goes with the piece goes along; all else stays. What works is drawn beside
    what was and kept as a version, which can be moved on from, compared, or taken away with --undo.
    What does not work is not kept.
    """
    if undo:
        say(_taken_back(plan))
        return
    if piece is None or how is None:
        example = 'arrange move PLAN armchair "20 cm left"'
        raise click.UsageError(f"say which piece and where to: {example}")
    scenario, arrangement, path, rank = plan_from(plan)
    from arrange.data.result import FULL, Result, Suggestion  # noqa: PLC0415
    from arrange.data.swap import Answer, Plan, Reading  # noqa: PLC0415
    from arrange.draw.swap import moved_sheet  # noqa: PLC0415
    from arrange.output.records import version_data  # noqa: PLC0415
    from arrange.whatif.move import MoveError  # noqa: PLC0415
    from arrange.whatif.move import move as put  # noqa: PLC0415
    from arrange.whatif.swap import compared, moved  # noqa: PLC0415
    from arrange.words.swap import move_words  # noqa: PLC0415

    name = piece_named(scenario, piece)
    try:
        found = put(scenario, arrangement, name, how)
    except MoveError as error:
        raise click.UsageError(f"{error.given}; {error.hint}") from None
    plans = (
        Plan(scenario, arrangement, found.before, FULL),
        Plan(scenario, found.arrangement, found.verdict, FULL),
    )
    before, after = (Answer("works", one) for one in plans)
    reading = Reading(
        before,
        after,
        compared(found.before, found.verdict),
        moved(*plans),
    )
    answer = move_words(scenario, found, reading)
    if not found.works:
        say(answer)
        raise click.exceptions.Exit(IMPOSSIBLE)
    to = Delivery(plan, out or path.parent, suffix)
    to.look()
    best = Suggestion(1, found.arrangement, found.verdict, proven=False, bound=FULL)
    result = Result(scenario, "found", (best,), FULL, 0.0, None, 0, notes=(f"{name}: {how}",))
    origin = f"{path.name}#{rank}" if rank > 1 else path.name
    files = to.write(
        {"version": lambda: moved_sheet(answer, reading)},
        (DATA, lambda names: version_data(result, found, origin, names[:-1])),
    )
    say(f"{answer}\n\nKept: {to.path / files[-1]}; picture: {to.path / files[0]}")


def _taken_back(plan: str) -> str:
    """Remove the files of a version; what to say."""
    from arrange.errors import Fault, ScenarioError  # noqa: PLC0415
    from arrange.output.files import take_away  # noqa: PLC0415
    from arrange.output.reading import read_result, result_named  # noqa: PLC0415

    path = _last_version(result_named(plan)[0])
    version = read_result(path, 1)  # refuses what is no result
    if not version.moved_from:
        fault = Fault("", "this did not come from a move", "only a version can be taken back")
        raise ScenarioError(str(path), (fault,))
    take_away(path)
    return f"{path.name} is gone; it was made from {version.moved_from}."


def _last_version(path: Path) -> Path:
    """The version kept last beside a plan, if there is one; a version is meant itself."""
    stem = Path(DATA).stem
    if path.name.startswith(stem):
        return path
    kept = path.parent.glob(f"{stem}*{Path(DATA).suffix}")
    return max(kept, key=lambda one: one.stat().st_mtime_ns, default=path)
