"""Pictures and printed output of the README and the tour, and the generated lists, made anew.

    python -m benchmarks.tour
    python -m benchmarks.tour bedroom flat --seconds 120
    python -m benchmarks.tour tables

Pictures go to ``scenarios/pictures/``; what the program prints takes the place of the
blocks between ``<!-- tour: name -->`` and ``<!-- end -->`` in the pages. Nothing is
edited on the way. Fails if a command ends with another exit code than expected, or if a
block has no place in a page. ``tables`` (modules, rules, sources, people and sentences,
each beside what it lists) runs no solver.
"""

from __future__ import annotations

import ast
import json
import os
import re
import shlex
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any

import click
from PIL import Image

from arrange.data import people
from arrange.data.lengths import listed
from arrange.data.sources import TABLE, source
from arrange.draw import save
from arrange.rules import RULES
from arrange.rules.rule import Rule
from arrange.rules.wished import OwnWish
from arrange.scenario.wishes import WEIGHT
from arrange.scoring import WEIGHTS
from benchmarks import sentences

HERE = Path(__file__).parent.parent
EXAMPLES = HERE / "scenarios"
PICTURES = EXAMPLES / "pictures"
PACKAGE = HERE / "arrange"
PAGES = (
    HERE / "README.md",
    EXAMPLES / "TOUR.md",
    PACKAGE / "README.md",
    PACKAGE / "rules" / "README.md",
    PACKAGE / "data" / "SOURCES.md",
    PACKAGE / "data" / "PEOPLE.md",
    PACKAGE / "words" / "SENTENCES.md",
)
BLOCK = re.compile(r"(<!-- tour: ([a-z-]+) -->\n).*?(<!-- end -->)", re.DOTALL)
START = "from arrange.cli import main; main(prog_name='arrange')"
LISTED = 6  # families shown of those counted

Blocks = dict[str, str]


class Stage:
    """A folder that looks like the top of the project, to run commands in."""

    def __init__(self, folder: Path, seconds: float | None) -> None:
        self.folder = folder
        self.seconds = seconds
        (folder / "scenarios").symlink_to(EXAMPLES)

    def run(self, words: str, expected: int = 0, answers: str = "") -> str:
        """The command as typed, what it printed, and its exit code unless 0.

        ``answers`` is a file that is piped in.
        """
        if self.seconds is not None and words.startswith("suggest"):
            words += f" --time {self.seconds:g}"
        command = [sys.executable, "-c", START, *shlex.split(words)]
        environment = {**os.environ, "PYTHONPATH": str(HERE)}
        done = subprocess.run(
            command,
            cwd=self.folder,
            env=environment,
            capture_output=True,
            text=True,
            check=False,
            input=(self.folder / answers).read_text(encoding="utf-8") if answers else None,
        )
        if done.returncode != expected:
            raise click.ClickException(
                f"arrange {words}: exit code {done.returncode}, not {expected}\n{done.stderr}"
            )
        piped = f" < {answers}" if answers else ""
        text = f"$ arrange {words}{piped}\n{done.stdout}{done.stderr}"
        return text + (f"$ echo $?\n{expected}\n" if expected else "")

    def keep(self, picture: str, name: str) -> None:
        """Put a picture that was written where the pages find it: smaller, no dot changed."""
        with Image.open(self.folder / picture) as image:
            # Nothing shines through, so the fourth number of each dot is left out.
            image.convert("RGB").save(PICTURES / name, optimize=True)

    def result(self, name: str) -> dict[str, Any]:
        """The result.json of the run on the example ``name``."""
        path = self.folder / f"{name}-plans" / "result.json"
        data: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
        return data


def bedroom(stage: Stage) -> Blocks:
    """The example of the first pages: five arrangements, the sum, the survey."""
    name = "small-double-bedroom"
    printed = stage.run(f"suggest scenarios/{name}.toml")
    stage.keep(f"{name}-plans/plan-1.png", "bedroom-plan.png")
    stage.keep(f"{name}-plans/place-1.png", "bedroom-place.png")
    stage.keep(f"{name}-plans/overview.png", "bedroom-overview.png")
    best = stage.result(name)["arrangements"][0]
    checked = stage.run(f"check scenarios/{name}.toml")
    stage.keep(f"{name}-plans/survey.png", "bedroom-survey.png")
    return {"suggest": _text(printed), "sum": _sum(best), "check": _text(checked)}


def tight(stage: Stage) -> Blocks:
    """What cannot work, and which piece is to blame."""
    name = "too-much"
    printed = stage.run(f"suggest scenarios/{name}.toml", 3)
    checked = stage.run(f"check scenarios/{name}.toml", 3)
    stage.keep(f"{name}-plans/survey.png", "too-much-survey.png")
    return {"impossible": _text(printed), "alone": _text(checked)}


def bigger(stage: Stage) -> Blocks:
    """A bigger bed: does it still work, how big can it be."""
    room, plans = "scenarios/small-double-bedroom.toml", "small-double-bedroom-plans"
    swapped = stage.run(f"swap {room} bed=180x210")
    stage.keep(f"{plans}/before-after.png", "before-after.png")
    sizes = stage.run(f"swap {room} --sizes bed")
    stage.keep(f"{plans}/ladder.png", "ladder.png")
    largest = stage.run(f"swap {room} --largest bed=width")
    return {"swap": _text(swapped), "sizes": _text(sizes), "largest": _text(largest)}


def today(stage: Stage) -> Blocks:
    """The room as it stands now."""
    printed = stage.run("today scenarios/study-bedroom.toml")
    stage.keep("study-bedroom-plans/today.png", "today.png")
    return {"today": _text(printed)}


def options(stage: Stage) -> Blocks:
    """Four options side by side."""
    room = "scenarios/small-double-bedroom.toml"
    stage.run(f"swap {room} bed=180x210 --write big-bed.toml")
    stage.run(f"swap {room} '--kind=wardrobe=sliding wardrobe' --write sliding-doors.toml")
    stage.run(f"swap {room} '--without=chest of drawers' --write no-chest.toml")
    printed = stage.run(f"compare {room} big-bed.toml sliding-doors.toml no-chest.toml")
    stage.keep("compare-plans/compare.png", "compare.png")
    return {"compare": _text(printed)}


def shopping(stage: Stage) -> Blocks:
    """What to get for a room, and what it comes to."""
    printed = stage.run("shop scenarios/reading-room.toml")
    stage.keep("reading-room-plans/shop.png", "shopping-list.png")
    stage.run("suggest scenarios/reading-room.toml --top 1")
    board = stage.run("board reading-room-plans")
    stage.keep("reading-room-plans/board.png", "board.png")
    return {"shop": _text(printed), "board": _text(board)}


def choosing(stage: Stage) -> Blocks:
    """What to have for the money there is, where it goes, and what each further sum buys."""
    printed = stage.run("choose scenarios/choosing/workroom.toml --further 20 --time 240")
    stage.keep("workroom-plans/choice-1.png", "choice-plan.png")
    stage.keep("workroom-plans/sums.png", "what-each-sum-buys.png")
    return {"choose": _text(printed)}


# Where the parts of a conversation begin and end that are shown.
SHOWN = (
    ("How wide is wall A, the one you are facing?", "    +---"),
    ("How long is wall C", "How long is wall D"),
    ("The walls end", "How high is the ceiling"),
    ("How far is its left edge from the left end of wall D", "What else is built in?"),
    ("What goes in the room?", "How would you get it?"),
    ("What do you wish for?", "What else do you wish for?"),
    ("Written: ", "Take care"),
)


def begin(stage: Stage) -> Blocks:
    """A room told in answers, with parts of the conversation."""
    command = "begin attic-study.toml"
    printed = stage.run(command, answers="scenarios/attic-study.txt")
    first, _, rest = printed.partition("\n")
    parts = []
    for start, end in SHOWN:
        begun = rest.index(f"\n{start}") + 1
        parts.append(rest[begun : rest.index(f"\n{end}", begun)].rstrip())
    return {"begin": _text("\n\n...\n\n".join([first, *parts]))}


FELT = ("small-double-bedroom", "bay-room", "study-bedroom")
WORDS = ("cosy", "airy", "formal")


def feel(stage: Stage) -> Blocks:
    """Three rooms, each under three words for how it should feel."""
    for room in FELT:
        text = (EXAMPLES / f"{room}.toml").read_text(encoding="utf-8")
        for word in WORDS:
            felt = re.sub(r"^feel = .*$", f'feel = ["{word}"]', text, flags=re.M)
            felt = re.sub(r'^title = ".*"$', f'title = "{word.capitalize()}"', felt, flags=re.M)
            (stage.folder / f"{word}.toml").write_text(felt, encoding="utf-8")
        stage.run("compare " + " ".join(f"{word}.toml" for word in WORDS))
        stage.keep("compare-plans/compare.png", f"feel-{room}.png")
    return {}


def why(stage: Stage) -> Blocks:
    """What clashes, and what would have to give."""
    printed = stage.run("why scenarios/too-much.toml", 3)
    stage.keep("too-much-plans/clash-1.png", "clash.png")
    stage.keep("too-much-plans/ways-out.png", "ways-out.png")
    return {"why": _text(printed)}


def families(stage: Stage) -> Blocks:
    """Every way the large pieces can stand."""
    name = "study-bedroom"
    printed = stage.run(f"suggest scenarios/{name}.toml --top 1 --families")
    ways = stage.result(name)["families"]["families"]
    rows = ["| points | where the large pieces stand |", "|---|---|"]
    for way in ways[:LISTED]:
        where = "; ".join(_stands(s) for s in way["stands"])
        points = f"{way['score']:.1f}" + ("" if way["proven"] else " or more")
        rows.append(f"| {points} | {where} |")
    return {"families": _text(printed), "ways": "\n".join(rows) + "\n"}


def corner(stage: Stage) -> Blocks:
    """An L-shaped room with two doors."""
    return _one(stage, "living-dining", "l-room")


def flat(stage: Stage) -> Blocks:
    """Sleep, sit, eat and work in one room."""
    return _one(stage, "one-room-flat", "one-room")


def python(_: Stage) -> Blocks:
    """The plan alone, drawn from Python."""
    import arrange  # noqa: PLC0415

    scenario = arrange.read(EXAMPLES / "study-bedroom.toml")
    result = arrange.suggest(scenario, top=1)
    drawn = arrange.plot_plan(scenario, result.suggestions[0].arrangement)
    save(drawn.axes.figure, PICTURES / "python-plan.png")
    return {}


def tables(_: Stage) -> Blocks:
    """The lists beside what they list: modules, rules in order, sources, people, sentences."""
    return {
        "modules": _modules(),
        "rules": _rules(),
        "sources": _sources(),
        "people": _people(),
        "sentences": sentences.page(),
    }


def _modules() -> str:
    """A table a folder, a row a module: the first paragraph of its docstring."""
    folders = sorted({path.parent for path in PACKAGE.rglob("*.py")})
    parts = []
    for folder in folders:
        name = folder.relative_to(HERE).as_posix()
        rows = [f"## `{name}/`", "", "| module | what |", "|---|---|"]
        for path in sorted(folder.glob("*.py")):
            told = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or ""
            words = _first(told).replace("``", "`").replace("|", "\\|")
            rows.append(f"| `{path.relative_to(PACKAGE).as_posix()}` | {words} |")
        parts.append("\n".join(rows) + "\n")
    return "\n".join(parts)


def _rules() -> str:
    heads = ("id", "kind", "part and weight in it", "a file may set", "what", "source", "status")
    rows = [f"| {' | '.join(heads)} |", "|---|---|---|---|---|---|---|"]
    rows += [f"| {' | '.join(_rule(rule))} |" for rule in RULES]
    return "\n".join(rows) + "\n"


def _sources() -> str:
    rows = ["| id | what | value | read in | status |", "|---|---|---|---|---|"]
    for id_, row in sorted(tomllib.loads(TABLE.read_text(encoding="utf-8")).items()):
        cells = (f"`{id_}`", row["what"], row["value"], row["from"], row["status"])
        rows.append(f"| {' | '.join(cells)} |")
    return "\n".join(rows) + "\n"


def _people() -> str:
    """What follows from who lives in a room, a row each, with how sure it is."""
    table = [
        "| who | what it sets | how much | what | source | status |",
        "|---|---|---|---|---|---|",
    ]
    for row in people.rows():
        ids = [id_ for id_ in (row.source, row.comfortable_source) if id_]
        cells = (
            _when(row),
            f"{row.sets}: {row.id}" if row.id else row.sets,
            _how_much(row),
            row.what,
            ", ".join(f"`{id_}`" for id_ in ids) or "common-practice",
            ", ".join(dict.fromkeys(source(id_).status for id_ in ids or [""])),
        )
        table.append(f"| {' | '.join(cells)} |")
    return "\n".join(table) + "\n"


def _when(row: people.Row) -> str:
    return listed(row.when, "or" if row.any else "and")


def _how_much(row: people.Row) -> str:
    if row.share:
        share = "their height" if row.share == 1000 else f"{row.share / 10:g} % of their height"
        return f"{share} + {row.plus} mm" if row.plus else share
    if row.points:
        lost = f"{row.points} points in a choice"
        return f"{row.least} mm; {lost}" if row.least else lost
    comfortable = f"; {row.comfortable} mm earn full points" if row.comfortable else ""
    return f"{row.least} mm{comfortable}" if row.least else ""


def _first(docstring: str) -> str:
    """The first paragraph of a docstring, on one line."""
    return " ".join(docstring.split("\n\n", maxsplit=1)[0].split())


def may_set(rule: Rule) -> list[str]:
    """The keys that ``[[rule]]`` takes for a rule."""
    off = [] if rule.always else ["off"]
    return [*off, *(["weight"] if rule.kind == "wish" else []), *rule.takes]


def weight_words(rule: str) -> str:
    """The part of the score, the weight there, and where the use of a room changes it."""
    if rule not in WEIGHTS:
        return ""
    part, usual, by_use = WEIGHTS[rule]
    others = ", ".join(f"{use} {weight}" for use, weight in by_use.items())
    return f"{part}: {usual}" + (f" ({others})" if others else "")


def _rule(rule: Rule) -> tuple[str, ...]:
    own = isinstance(rule, OwnWish)
    told = source(rule.source)
    no_row = told.id in ("common-practice", "yours")
    return (
        f"`{rule.id}`",
        "must or wish" if own else rule.kind,
        f"asked: {WEIGHT}, or the wish's own" if own else weight_words(rule.id),
        ", ".join(may_set(rule)),
        _first(type(rule).__doc__ or ""),
        told.id if no_row else f"`{told.id}`",
        told.status,
    )


def _one(stage: Stage, name: str, block: str) -> Blocks:
    printed = stage.run(f"suggest scenarios/{name}.toml --top 1")
    stage.keep(f"{name}-plans/plan-1.png", f"{block}-plan.png")
    return {block: _text(printed)}


def _text(printed: str) -> str:
    return f"```text\n{printed.rstrip()}\n```\n"


def _sum(best: dict[str, Any]) -> str:
    """Every reason with its points, and their sum."""
    rows = ["| what was measured | won | possible |", "|---|--:|--:|"]
    rows += [f"| {r['sentence']} | {r['won']:.1f} | {r['possible']:.1f} |" for r in best["reasons"]]
    won = sum(round(10 * r["won"]) for r in best["reasons"]) / 10
    possible = sum(round(10 * r["possible"]) for r in best["reasons"]) / 10
    rows.append(f"| **added up** | **{won:.1f}** | **{possible:.1f}** |")
    return "\n".join(rows) + "\n"


def _stands(spot: dict[str, Any]) -> str:
    if spot["wall"] is None:
        return f"{spot['model']} free, facing {spot['facing']}"
    wall = spot["wall"]
    return f"{spot['model']} on {'wall ' if len(wall) == 1 else ''}{wall}"


PARTS: dict[str, Callable[[Stage], Blocks]] = {
    "bedroom": bedroom,
    "tight": tight,
    "bigger": bigger,
    "today": today,
    "options": options,
    "shopping": shopping,
    "choosing": choosing,
    "begin": begin,
    "feel": feel,
    "why": why,
    "families": families,
    "corner": corner,
    "flat": flat,
    "python": python,
    "tables": tables,
}


def filled(text: str, blocks: Blocks) -> str:
    """The text of a page with these blocks in their places; all others stay as they are."""
    return BLOCK.sub(partial(_fill, blocks), text)


def _fill(blocks: Blocks, found: re.Match[str]) -> str:
    name = found[2]
    return found[1] + blocks[name] + found[3] if name in blocks else found[0]


def put_blocks(blocks: Blocks) -> None:
    """Put these blocks into their places in the pages, each of them at least once."""
    left = set(blocks)
    for page in PAGES:
        text = page.read_text(encoding="utf-8")
        left -= {name for _, name, _ in BLOCK.findall(text)}
        page.write_text(filled(text, blocks), encoding="utf-8")
    if left:
        raise click.ClickException(f"no page has a place for: {', '.join(sorted(left))}")


@click.command()
@click.argument("parts", nargs=-1, type=click.Choice(list(PARTS)))
@click.option(
    "--seconds", type=float, help="Time limit of each search; the program's own if absent."
)
def main(parts: Sequence[str], seconds: float | None) -> None:
    """Make the pictures and output of all PARTS, or of those named."""
    PICTURES.mkdir(exist_ok=True)
    for part in parts or PARTS:
        with tempfile.TemporaryDirectory() as folder:
            blocks = PARTS[part](Stage(Path(folder), seconds))
        put_blocks(blocks)
        click.echo(f"{part}: done")


if __name__ == "__main__":
    main()
