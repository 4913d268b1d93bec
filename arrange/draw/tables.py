"""The written column of the survey sheet: messages, facts of the room, list of pieces."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.piece import Piece
from arrange.data.scenario import Scenario, Unit
from arrange.draw.page import Box, Page, ascent, line_height, text_height, text_width
from arrange.geometry import room_shape
from arrange.words import length

COLUMN = 92.0
SIZE = 7.0
SQUARE_FOOT = 304.8**2  # mm2
USUAL = "* usual for its kind, not in the file: measure it"


def draw_messages(page: Page, messages: Sequence[str], left: float, top: float) -> float:
    """What cannot fit whatever happens, beside a bold stroke; returns the top of what follows."""
    if not messages:
        return top
    style, start, inner = page.style, top, COLUMN - 5
    top = page.paragraph(
        left + 5, top, inner, "Cannot fit whatever happens", 9.0, colour=style.loss, bold=True
    )
    for message in messages:
        top = page.paragraph(left + 5, top + 0.8, inner, message, SIZE, gid="message")
    page.bar(Box(left, start + 0.5, 1.4, top - start), style.loss)
    return top + 5


def area_words(square_mm: float, unit: Unit) -> str:
    """A floor area in m2, or square feet where the person measures in inches.

    >>> area_words(13_940_000, "cm"), area_words(9_290_304, "in")
    ('13.94 m²', '100.0 sq ft')
    """
    if unit == "in":
        return f"{square_mm / SQUARE_FOOT:.1f} sq ft"
    return f"{square_mm / 1e6:.2f} m²"


def draw_room_facts(
    page: Page,
    scenario: Scenario,
    diagonals: Sequence[tuple[int, int, float]],
    left: float,
    top: float,
) -> float:
    """Floor, ceiling, and the lines between corners to check with the tape."""
    unit = scenario.unit
    top = page.paragraph(left, top, COLUMN, "Check with the tape", 9.0, bold=True) + 0.8
    rows = [
        ("Floor", area_words(room_shape(scenario.room).area, unit)),
        ("Ceiling above the floor", length(scenario.room.ceiling, unit)),
        *((f"Corner {a} to corner {b}", length(round(mm), unit)) for a, b, mm in diagonals),
    ]
    for label, value in rows:
        top = _row(page, left, top, label, value, SIZE)
    return top + 4


def _row(page: Page, left: float, top: float, label: str, value: str, size: float) -> float:
    style = page.style
    room = COLUMN - text_width(value, size) - 4
    after = page.paragraph(left, top, room, label, size)
    page.write(left + COLUMN, top + ascent(size), value, size, colour=style.quiet, align="right")
    return after + 0.9


def size_words(piece: Piece, unit: Unit) -> str:
    """Width, depth and height, how high it hangs, and a star where that is not measured."""
    text = " x ".join(length(v, unit) for v in (piece.width, piece.depth, piece.height))
    text = f"{text}, {length(piece.bottom, unit)} up" if piece.bottom else text
    return f"{text} *" if piece.assumed else text


def draw_pieces_list(
    page: Page, scenario: Scenario, left: float, top: float, bottom: float
) -> None:
    """Every piece with its size; smaller text where there are many, the rest counted."""
    unit, pieces = scenario.unit, scenario.pieces
    if not pieces:
        return
    top = page.paragraph(left, top, COLUMN, "Pieces", 9.0, bold=True)
    told = "width x depth x height" + (f"; {USUAL}" if any(p.assumed for p in pieces) else "")
    top = page.paragraph(left, top, COLUMN, told, 6.0, colour=page.style.quiet)
    top += 0.8
    size = next((s for s in (7.0, 6.5, 6.0, 5.5) if _height(pieces, unit, s) <= bottom - top), 5.5)
    for i, piece in enumerate(pieces):
        if top + 2 * line_height(size) > bottom and i < len(pieces) - 1:
            page.paragraph(left, top, COLUMN, f"and {len(pieces) - i} more", size)
            return
        top = _row(page, left, top, piece.name, size_words(piece, unit), size)


def _height(pieces: Sequence[Piece], unit: Unit, size: float) -> float:
    return sum(
        text_height(p.name, size, COLUMN - text_width(size_words(p, unit), size) - 4) + 0.9
        for p in pieces
    )
