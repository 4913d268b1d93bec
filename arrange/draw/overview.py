"""The overview: all suggestions on one sheet, each with what sets it apart from the first.

A grid of plans at one scale; the words take the room that they leave. Lengths in mm of paper
unless said otherwise.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from matplotlib.figure import Figure

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.lengths import listed, points, the
from arrange.data.piece import Piece
from arrange.data.result import Suggestion
from arrange.data.room import Facing, Room
from arrange.data.scenario import Scenario
from arrange.different import is_far, leading
from arrange.draw.grid import (
    SIZE,
    Cell,
    Paragraph,
    Setting,
    draw_grid,
    draw_numbers,
    largest_ratio,
    score_paragraphs,
)
from arrange.draw.page import MARGIN, Bit, Box, Page, line_height
from arrange.draw.plan import PlanOptions, on_paper
from arrange.draw.style import LEAST, STYLE, Style
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import has_front, turn_facing, turns
from arrange.geometry.spots import middle2
from arrange.words.places import FREE, TURNED, stands_words, wall_called
from arrange.words.reasons import choose, not_avoided, not_avoided_head, said_of_all

OVERVIEW = Setting((10.5, 9.0, 8.0, LEAST), (36.0, 42.0, 50.0, 60.0, 80.0))
REASONS = (3, 2, 1)  # best and worst of each, where there is room
SEVERAL = {"is": "are", "stands": "stand", "faces": "face"}
MOST = 12  # suggestions; more would be too small to compare


def place_words(scenario: Scenario, placement: Placement) -> tuple[str, str]:
    """Where a piece stands and which way it faces, for the reader of the plan.

    The second word is empty across a corner, and where no quarter turn can be seen; of a piece
    alike from front and back it is "down" or "left".
    """
    seen = turns(scenario.piece(placement.piece))
    if placement.corner is not None:
        return stands_words(scenario, placement), ""
    if placement.wall is not None:
        wall = scenario.room.walls[placement.wall]
        return wall.part_of or wall.name, _seen(placement.facing, seen)
    return "", _seen(placement.facing, seen)


def _seen(facing: Facing | None, seen: Sequence[Facing]) -> str:
    """A quarter turn, or the one of those that can be ``seen`` that looks like it."""
    if facing is None or len(seen) == 1:
        return ""
    return facing if facing in seen else turn_facing(facing, 2)


def differences(scenario: Scenario, first: Arrangement, other: Arrangement) -> tuple[str, ...]:
    """A few words for each major piece that stands on another wall or faces another way.

    Two alike pieces that changed places are no difference. Of moves along a wall or over the
    floor only those count that make it another plan.
    """
    phrases: list[tuple[str, str]] = []
    majors = [p for p in scenario.pieces if p.major]
    for alike in dict.fromkeys(p.alike for p in majors):
        names = [p.name for p in majors if p.alike == alike]
        before = [place_words(scenario, first.of(n)) for n in names]
        left_over = list(before)
        moved: list[tuple[str, tuple[str, str]]] = []
        for name in names:
            now = place_words(scenario, other.of(name))
            if now in left_over:
                left_over.remove(now)
            else:
                moved.append((name, now))
        phrases += [
            (name, _told(scenario.room, scenario.piece(name), now, was[0]))
            for (name, now), was in zip(moved, left_over, strict=True)
        ]
    return _together(phrases) or _moved(scenario, first, other)


def _moved(scenario: Scenario, first: Arrangement, other: Arrangement) -> tuple[str, ...]:
    """A few words for all large pieces that stand as before, but equally far from there."""
    was, now = Scene(scenario, first), Scene(scenario, other)
    gone: list[tuple[str, str]] = []
    for piece in (piece for alike in leading(scenario) for piece in alike):
        was2, now2 = (middle2(one.find(piece.name)) for one in (was, now))
        if is_far(scenario, piece, was2, now2):
            across2, up2 = (there - here for here, there in zip(was2, now2, strict=True))
            far = max(abs(across2), abs(up2))
            told = f"stands {now.length(round(far / 20) * 10)} further {_way(across2, up2)}"
            gone.append((piece.name, told))
    return _together(gone)


def _way(across: int, up: int) -> str:
    """Where on the plan it has gone."""
    if abs(across) >= abs(up):
        return "to the right" if across > 0 else "to the left"
    return "up the plan" if up > 0 else "down the plan"


def _together(told: Sequence[tuple[str, str]]) -> tuple[str, ...]:
    """A phrase for each thing that is told, of all that it is told of."""
    who: dict[str, list[str]] = {}
    for name, what in told:
        who.setdefault(what, []).append(the(name))
    return tuple(
        f"{listed(names)} {what if len(names) == 1 else _of_several(what)}"
        for what, names in who.items()
    )


def _of_several(what: str) -> str:
    verb, rest = what.split(" ", 1)
    return f"{SEVERAL[verb]} {rest}"


def _told(room: Room, piece: Piece, now: tuple[str, str], was: str) -> str:
    """What is said of a piece that stands elsewhere, or is turned another way."""
    if now[0] != was:
        return f"is {_wall(room, now[0])}"
    if not has_front(piece):
        return "is turned by a quarter"
    return f"faces {TURNED.get(now[1], 'a corner')}"


def _wall(room: Room, name: str) -> str:
    if name.startswith("across "):
        return name
    return f"against {wall_called(room, name)}" if name else FREE


def overview_sheet(
    scenario: Scenario, suggestions: Sequence[Suggestion], *, style: Style = STYLE
) -> Figure:
    """The suggestions on one landscape sheet, all plans at the same scale.

    Each has its score, its best and its worst reason and what sets it apart from the
    first; the plans are what is to be seen. Only the first twelve are drawn; the rest are counted.
    """
    shown = suggestions[:MOST]

    page = Page(style)
    if not shown:
        page.head(scenario.title)
        page.write(MARGIN, MARGIN + 14, "There is no plan to show.", 9.0, colour=style.quiet)
        return page.figure
    place = page.below(MARGIN + 11, line_height(SIZE) + 2)
    cells = _fullest(scenario, shown, place, style)
    more = f"; the first {MOST} are shown" if len(suggestions) > MOST else ""
    key = draw_grid(
        page,
        scenario.title,
        cells,
        place,
        setting=OVERVIEW,
        note=lambda ratio: f"{_count(len(suggestions))} at {on_paper(ratio)}{more}",
    )
    draw_numbers(page, key)
    return page.figure


def _fullest(
    scenario: Scenario, shown: Sequence[Suggestion], place: Box, style: Style
) -> Sequence[Cell]:
    """The cells with as many reasons as leave the plans as large as they are with one."""
    of_all = said_of_all([one.verdict for one in shown])
    levels = [[_cell(scenario, shown[0], one, style, n, of_all) for one in shown] for n in REASONS]

    return min(levels, key=lambda cells: largest_ratio(cells, place, OVERVIEW, style) or math.inf)


def _count(n: int) -> str:
    return "1 plan, drawn" if n == 1 else f"{n} plans, {'both' if n == 2 else 'all'} drawn"


def _cell(
    scenario: Scenario,
    first: Suggestion,
    one: Suggestion,
    style: Style,
    reasons: int,
    of_all: frozenset[str],
) -> Cell:
    """One suggestion: what sets it apart, then what it won and lost most with, so many of each."""
    apart = "" if one is first else "The large pieces stand as in plan 1."
    if found := differences(scenario, first.arrangement, one.arrangement):
        apart = f"Unlike in plan 1, {listed(found)}."
    # A fault stands above them already.
    said = set(not_avoided(one.verdict.reasons))
    others = [r for r in one.verdict.reasons if r.sentence not in said]
    chosen = choose(others, 2 * reasons, of_all)
    brief = reasons < REASONS[0]
    return Cell(
        Bit(f"{one.rank}", 12.0, bold=True),
        Bit(points(one.verdict.score), 12.0, style.accent, bold=True, gap=1.5),
        Bit(f"of 100, {'proven' if one.proven else 'not proven'}", 7.0, style.quiet),
        scenario,
        one.arrangement,
        PlanOptions(clearances=False, small=True),
        [
            *([Paragraph(apart, colour=style.accent)] if apart else []),
            *score_paragraphs(one.verdict, not_avoided_head(one), style, brief=brief),
            *(Paragraph(r.sentence, "+") for r in chosen.won[:reasons]),
            # A plain hyphen would be read as a dash before the sentence.
            *(Paragraph(r.sentence, "\N{MINUS SIGN}") for r in chosen.lost[:reasons]),
        ],
    )
