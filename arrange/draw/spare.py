"""The short block on a sheet that says how much room there is to spare."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.scenario import Unit
from arrange.data.spare import FINEST, Spare
from arrange.draw.page import Box, Page, ascent, line_height, text_height

SIZE = 6.5
MARK = 3.5  # mm for the sign before a line with less than a centimetre
TITLE = "Room to spare"


def spare_height(spares: Sequence[Spare], unit: Unit, width: float) -> float:
    """Height in mm of the block; 0 if there is nothing to tell."""
    if not spares:
        return 0.0
    rows = (text_height(s.sentence(unit), SIZE, width - MARK) + 0.6 for s in spares)
    return line_height(SIZE + 1) + 1.0 + sum(rows) + 2.0


def draw_spares(page: Page, spares: Sequence[Spare], unit: Unit, box: Box) -> None:
    """One line each, the tightest first; an exclamation mark where a centimetre matters."""
    if not spares:
        return
    top = page.paragraph(box.left, box.top, box.width, TITLE, SIZE + 1, bold=True) + 1.0
    for spare in spares:
        if spare.mm < FINEST:
            page.write(box.left + 0.8, top + ascent(SIZE), "!", SIZE, bold=True)
        else:
            page.write(box.left, top + ascent(SIZE), "\N{EN DASH}", SIZE, colour=page.style.quiet)
        text = spare.sentence(unit)
        top = page.paragraph(box.left + MARK, top, box.width - MARK, text, SIZE, gid="spare") + 0.6
