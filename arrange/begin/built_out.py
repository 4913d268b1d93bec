"""Asks for what changes a plain room: bays, chimney breasts, slopes and dormers."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from arrange.begin.answers import Drawn, Said, Script, a_length, ask, one_of, yes_or_no
from arrange.begin.notes import Notes, mm, plain
from arrange.begin.places import called, from_left, long_of, which_wall
from arrange.data.lengths import measured
from arrange.scenario.faults import BREAST
from arrange.scenario.limits import MOST
from arrange.scenario.overhead import DORMER_WIDTHS
from arrange.scenario.room import (
    BAY_DEPTHS,
    BAY_WIDTHS,
    BREAST_DEPTHS,
    BREAST_WIDTHS,
    LEAST_FRONT,
    WALL_LENGTHS,
)

MOST_BREASTS = 4
Row = dict[str, Any]


def bays(notes: Notes) -> Script[None]:
    """Every bay."""

    def told(row: Row) -> str:
        middle = row.get("name", "bay")
        return f'Its walls are called "{middle} left", "{middle}" and "{middle} right".'

    text = "Is there a bay, a part that is built out with a window in it?"
    texts = text, "Is there another bay?"
    yield from _every(notes, "bay", texts, _bay, "That bay cannot be right.", told)


def _every(
    notes: Notes,
    key: str,
    texts: tuple[str, str],
    one: Callable[[Notes], Script[Row]],
    refused: str,
    told: Callable[[Row], str] = lambda _: "",
    *,
    hinted: bool = False,
) -> Script[None]:
    """As many parts of the room of one sort as there are: is there one, is there another.

    What the room does not take is not kept: ``refused`` and why, with what to try if ``hinted``.
    ``told`` says what follows from one that it takes.
    """
    text, another = texts
    rows = notes.rows(f"room.{key}")
    while len(rows) < MOST[f"room.{key}"] and (yield from ask(yes_or_no(text, usual=False))):
        row = yield from one(notes)
        rows.append(row)
        if faults := notes.look().faults:
            rows.pop()
            yield Said(f"{refused} {plain(faults[0])}")
            if hinted and (hint := faults[0].hint):
                yield Said(f"{hint[:1].upper()}{hint[1:]}.")
            continue
        if said := told(row):
            yield Said(said)
        yield Drawn()
        text = another


def _bay(notes: Notes) -> Script[Row]:
    unit = notes.unit
    wall = yield from ask(which_wall(notes, "Which wall is it built out from?"))
    most = long_of(notes, wall)
    width = yield from ask(
        a_length("How wide is its opening in that wall?", unit, BAY_WIDTHS[0], most)
    )
    left = yield from ask(from_left(notes, wall, width, "the bay is"))
    depth = yield from ask(a_length("How far does it reach out?", unit, *BAY_DEPTHS))
    front = yield from ask(
        a_length(
            "How wide is its middle part, the one that faces the room? Press Enter if it is as "
            "wide as the opening.",
            unit,
            LEAST_FRONT,
            width,
            usual=width,
        )
    )
    row = {"wall": wall, "from_left": mm(left), "width": mm(width)}
    row |= {"depth": mm(depth)}
    if front != width:
        row["front"] = mm(front)
    number = len(notes.rows("room.bay")) + 1
    return row if number == 1 else {"name": f"bay {number}", **row}


def breasts(notes: Notes) -> Script[None]:
    """Every chimney breast, and what else stands out of a wall up to the ceiling."""
    text = "Does a chimney breast, or a pillar in a wall, stand out into the room?"
    for number in range(1, MOST_BREASTS + 1):
        if not (yield from ask(yes_or_no(text, usual=False))):
            return
        while True:
            row = yield from _breast(notes, number)
            rows = notes.rows("fixture")
            rows.append(row)
            faults = notes.look().faults
            if not faults:
                break
            rows.pop()
            yield Said(f"It cannot be there. {plain(faults[0])}")
        yield Said(f'Its face is a wall of its own, called "{row.get("name", BREAST)}".')
        yield Drawn()
        text = "Is there another one?"


def _breast(notes: Notes, number: int) -> Script[Row]:
    unit = notes.unit
    wall = yield from ask(which_wall(notes, "Which wall does it stand out from?"))
    most = long_of(notes, wall)
    width = yield from ask(a_length("How wide is it?", unit, BREAST_WIDTHS[0], most))
    left = yield from ask(from_left(notes, wall, width, "it is"))
    depth = yield from ask(a_length("How far does it stand out?", unit, *BREAST_DEPTHS))
    row: Row = {"kind": BREAST}
    if number > 1:
        row["name"] = f"{BREAST} {number}"
    return row | {
        "wall": wall,
        "from_left": mm(left),
        "width": mm(width),
        "depth": mm(depth),
    }


def slopes(notes: Notes) -> Script[None]:
    """Where the ceiling comes down, as under a roof; then the dormers in it."""

    def told(row: Row) -> str:
        low, until = measured(row["height"], notes.unit), measured(row["until"], notes.unit)
        return (
            f"So the ceiling is {low} high at {called(row['wall'])} and reaches its full height "
            f"{until} away from it."
        )

    text = "Does the ceiling slope, as under a roof?"
    texts = text, "Does it slope down to another wall as well?"
    refused = "The ceiling cannot slope like that."
    yield from _every(notes, "slope", texts, _slope, refused, told, hinted=True)
    if notes.rows("room.slope"):
        texts = "Is there a dormer in the slope?", "Is there another dormer?"
        yield from _every(notes, "dormer", texts, _dormer, "That dormer cannot be right.")


def _dormer(notes: Notes) -> Script[Row]:
    unit, ceiling = notes.unit, int(notes.tables["room"]["ceiling"])
    sloped = list(dict.fromkeys(str(row["wall"]) for row in notes.rows("room.slope")))
    wall = sloped[0]
    if len(sloped) > 1:
        text = "Which wall does its slope come down to?"
        wall = yield from ask(one_of(text, sloped, what="a wall with a slope"))
    most = long_of(notes, wall)
    low = min(DORMER_WIDTHS[0], most)
    width = yield from ask(a_length("How wide is the dormer inside?", unit, low, most))
    left = yield from ask(from_left(notes, wall, width, "the dormer is"))
    text = (
        "How high is its ceiling, where that is lowest? Press Enter if it is as high as the room."
    )
    high = yield from ask(a_length(text, unit, 1, ceiling, usual=ceiling))
    row = {"wall": wall, "from_left": mm(left), "width": mm(width), "height": mm(high)}
    text = (
        "How far from that wall is its front, with the window? Press Enter if it is above the wall."
    )
    off = yield from ask(a_length(text, unit, 0, WALL_LENGTHS[1], usual=0))
    if off:
        row["off_wall"] = mm(off)
    number = len(notes.rows("room.dormer")) + 1
    return row if number == 1 else {"name": f"dormer {number}", **row}


def _slope(notes: Notes) -> Script[Row]:
    unit, ceiling = notes.unit, int(notes.tables["room"]["ceiling"])
    wall = yield from ask(which_wall(notes, "Which wall does it come down to?"))
    text = "How high is the ceiling at that wall? Write 0 if it comes down to the floor."
    low = yield from ask(a_length(text, unit, 0, ceiling))
    text = (
        "How far from that wall does it stop rising, measured along the floor? Stand where it is "
        "highest and measure to the wall."
    )
    until = yield from ask(a_length(text, unit, 100, WALL_LENGTHS[1]))
    return {"wall": wall, "height": mm(low), "until": mm(until)}
