"""All suggestions side by side at one scale, and what sets each apart from the first."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.figure import Figure

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.lengths import points
from arrange.data.result import Suggestion
from arrange.data.scenario import Scenario
from arrange.draw.grid import Cell, Paragraph, draw_grid
from arrange.draw.page import MARGIN, Bit, Page, evenly, sentences
from arrange.draw.plan import PlanOptions, on_paper
from arrange.draw.style import STYLE, Style
from arrange.words.reasons import choose, reason_words

_TOWARD = {"up": "up the plan", "down": "down the plan", "left": "left", "right": "right"}


def place_words(scenario: Scenario, placement: Placement) -> tuple[str, str]:
    """Where a piece stands and which way it faces, for the reader of the plan.

    A piece on a wall faces away from it, so that its second word is empty.
    """
    if placement.wall is not None:
        wall = scenario.room.walls[placement.wall]
        return wall.part_of or wall.name, "" if placement.facing is None else placement.facing
    return "", placement.facing or ""


def differences(scenario: Scenario, first: Arrangement, other: Arrangement) -> tuple[str, ...]:
    """One phrase for each major piece that stands on another wall or faces another way.

    Two alike pieces that changed places are no difference. Moves of a few
    centimetres do not count.
    """
    phrases: list[str] = []
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
            _phrase(name, now, was) for (name, now), was in zip(moved, left_over, strict=True)
        ]
    return tuple(phrases)


def _phrase(name: str, now: tuple[str, str], was: tuple[str, str]) -> str:
    if now[0] != was[0]:
        return f"{name}: {_wall(now[0])}, in the first {_wall(was[0])}"
    turned = f"{name}: faces {_TOWARD.get(now[1], 'across')}"
    return f"{turned}, in the first {_TOWARD.get(was[1], 'across')}"


def _wall(name: str) -> str:
    return f"at {name}" if name else "free in the room"


MOST = 12  # more would be too small to compare


def overview_sheet(
    scenario: Scenario, suggestions: Sequence[Suggestion], *, style: Style = STYLE
) -> Figure:
    """The suggestions on one landscape sheet, all plans at the same scale.

    Each has its score, its two best and two worst reasons and what sets it
    apart from the first. Only the first twelve are drawn; the rest are counted.
    """
    shown = suggestions[:MOST]

    def draw() -> Figure:
        page = Page(style)
        if not shown:
            page.head(scenario.title)
            page.write(MARGIN, MARGIN + 14, "No arrangement to show.", 9.0, colour=style.quiet)
            return page.figure
        cells = [_cell(scenario, shown[0], one, style) for one in shown]
        more = f"; the first {MOST} are shown" if len(suggestions) > MOST else ""
        draw_grid(
            page,
            scenario.title,
            cells,
            page.below(MARGIN + 11),
            note=lambda ratio: f"{_count(len(suggestions))} at {on_paper(ratio)}{more}",
        )
        return page.figure

    return evenly(scenario.unit, sentences(shown), draw)


def _count(n: int) -> str:
    return "1 arrangement, drawn" if n == 1 else f"{n} arrangements, all drawn"


def _cell(scenario: Scenario, first: Suggestion, one: Suggestion, style: Style) -> Cell:
    """One suggestion: what sets it apart, then what it won and lost most with."""
    apart: tuple[str, ...] = ()
    if one is not first:
        apart = differences(scenario, first.arrangement, one.arrangement)
        apart = apart or ("The large pieces stand as in the first.",)
    chosen = choose(one.verdict.reasons, 4)
    return Cell(
        Bit(f"{one.rank}", 12.0, bold=True),
        Bit(points(one.verdict.score), 12.0, style.accent, bold=True, gap=1.5),
        Bit(f"of 100, {'proven' if one.proven else 'not proven'}", 7.0, style.quiet),
        scenario,
        one.arrangement,
        PlanOptions(clearances=False, small=True),
        [
            *(Paragraph(phrase, colour=style.accent) for phrase in apart),
            *(Paragraph(reason_words(r), "+") for r in chosen.won[:2]),
            # A plain hyphen would be read as a dash before the sentence.
            *(Paragraph(reason_words(r), "\N{MINUS SIGN}") for r in chosen.lost[:2]),
        ],
    )
