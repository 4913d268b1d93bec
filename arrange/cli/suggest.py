"""``arrange suggest``: the best arrangements of a scenario, as plans, text or data."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from arrange.budget import Budget
from arrange.cli.common import (
    EXIT,
    LEAST,
    Delivery,
    Names,
    count_option,
    json_option,
    out_option,
    piece_named,
    plan_from,
    scenario_from,
    seed_option,
    time_option,
    watching,
)

if TYPE_CHECKING:
    from arrange.data.result import Result
    from arrange.data.scenario import Scenario
    from arrange.draw.painters import Painters


@click.command(epilog="Example: arrange suggest bedroom.toml --top 3 --out bedroom-plans")
@click.argument("file", metavar="FILE")
@count_option("--top", 5, 50, "How many different arrangements at most, up to 50.")
@out_option()
@time_option(60.0, "How long to search and draw at most.")
@seed_option
@click.option(
    "--families",
    is_flag=True,
    help="Also count every way the large pieces can stand (in result.json).",
)
@click.option(
    "--all",
    "everything",
    is_flag=True,
    help="Tell more: parts and reasons of each score, room to spare, every caution.",
)
@click.option(
    "--tape",
    is_flag=True,
    help="Also print where each piece goes: two lengths each, in the order to carry them in.",
)
@click.option("--from", "plan", metavar="PLAN", help="A plan or version whose places --hold keeps.")
@click.option(
    "--hold",
    "held",
    multiple=True,
    metavar="PIECE",
    help="Keep this piece where the plan of --from has it; may be given several times.",
)
@click.option(
    "--format",
    "suffix",
    type=click.Choice(["png", "svg", "pdf", "booklet"]),
    default="png",
    show_default=True,
    help="How the pictures are written; booklet is one PDF with all of them, to send to somebody.",
)
@json_option("result.json")
@click.pass_context
def suggest(
    ctx: click.Context,
    file: str,
    top: int,
    out: Path | None,
    seconds: float,
    seed: int,
    families: bool,
    everything: bool,
    tape: bool,
    plan: str | None,
    held: tuple[str, ...],
    suffix: str,
    as_json: bool,
) -> None:
    """Find the best arrangements of FILE and draw them.

    FILE is a scenario (scenarios/README.md); - reads it from stdin. Writes one plan sheet for
    each arrangement (plan-1, plan-2, ...) and one that says where each piece goes (place-1, ...),
    all of them side by side (overview), every number
    (result.json, see scenarios/RESULT.md) and the times taken (run.json). Ctrl-C ends the search
    and shows the best so far.
    """
    clock = Budget(seconds)
    from arrange.draw.painters import BOOKLET, MOST, Painters  # noqa: PLC0415

    to = Delivery(file, out, suffix, as_json=as_json)
    files: Names = ()
    # Reading and the solver take a while to load: meanwhile the painters get ready.
    with Painters(2 * top + 1 if to.writes else 0, 1 if suffix == BOOKLET else MOST) as painters:
        scenario = _held(scenario_from(file), plan, held)
        to.look()
        keep = painters.keeping(scenario) if to.writes else None
        with watching("reading the room") as watch:
            from arrange.suggesting import suggest as search  # noqa: PLC0415

            result = search(
                scenario,
                top=top,
                seconds=max(clock.left, LEAST * seconds),
                seed=seed,
                families=families,
                listener=watch,
                stop=watch.stop,
                keep=keep or (lambda _: 0.0),
            )
            if result.outcome == "impossible":
                from arrange.whatif.why import with_why  # noqa: PLC0415

                watch.say("looking for what clashes")
                result = with_why(result, clock.left, watch.stop)
            if to.writes:
                watch.say("drawing the plans")
                files = written(to, result, seconds, painters)
    from arrange.output.records import as_data  # noqa: PLC0415
    from arrange.words.suggest import placing_words, words  # noqa: PLC0415

    def said() -> str:
        told = words(result, to.path, files, everything=everything)
        return f"{told}\n\n{placing_words(result)}" if tape and result.suggestions else told

    to.tell(lambda: as_data(result, files[:-2]), said)
    ctx.exit(EXIT[result.outcome])


def _held(scenario: Scenario, plan: str | None, held: tuple[str, ...]) -> Scenario:
    """The scenario with these pieces kept where an earlier plan has them."""
    if plan is None and not held:
        return scenario
    if plan is None or not held:
        raise click.UsageError("--from names the plan and --hold the pieces: give both")
    from arrange.data.lengths import listed  # noqa: PLC0415
    from arrange.whatif.swap import holding  # noqa: PLC0415

    planned, arrangement, path, _ = plan_from(plan)
    if planned.room.corners != scenario.room.corners:
        raise click.UsageError(f"{path} is a plan of another room; --from needs one of this room")
    names = [piece_named(scenario, word) for word in held]
    there = {piece.name for piece in planned.pieces}
    if missing := [name for name in names if name not in there]:
        raise click.UsageError(f"{path} has no {listed(missing, 'and no')} to hold in its place")
    return holding(scenario, [arrangement.of(name) for name in names])


def written(to: Delivery, result: Result, seconds: float, painters: Painters) -> Names:
    """Write every file of the run; returns names: of the pictures, run.json, result.json."""
    from concurrent.futures import BrokenExecutor  # noqa: PLC0415

    from arrange.draw.painters import pictures  # noqa: PLC0415
    from arrange.output.files import RESULT, RUN  # noqa: PLC0415
    from arrange.output.records import as_data, run_data  # noqa: PLC0415

    jobs = pictures(result, to.suffix)
    data = (
        (RUN, lambda _: run_data(result, seconds)),
        (RESULT, lambda names: as_data(result, names[:-2])),
    )
    try:
        return to.put([(name, painters.maker(job)) for name, job in jobs], *data)
    except BrokenExecutor:
        # The processes are gone, for want of memory perhaps: here it only takes longer.
        return to.put(jobs, *data)
