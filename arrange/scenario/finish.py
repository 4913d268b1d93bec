"""Reads ``[finish]``: the paint, the paper and the cloth, as tin, roll and shop say. In mm."""

from __future__ import annotations

from arrange.data.finish import FULLNESS, Finish
from arrange.scenario.table import Table

LONGEST_PATTERN = 3000  # mm


def read_finish(top: Table) -> Finish:
    """What the file says of them, and the usual where it does not."""
    value = top.raw("finish")
    table = None if value is None else top.table(value, top.at("finish"))
    usual = Finish()
    if table is None:
        return usual
    found = Finish(
        coats=table.whole("coats", usual.coats, 1, 6),
        covers=table.whole("paint_covers", usual.covers, 1, 30),
        roll_width=table.mm("roll_width", usual.roll_width, 100, 2000),
        roll_length=table.mm("roll_length", usual.roll_length, 1000, 100_000),
        pattern=table.mm("pattern", usual.pattern, 1, LONGEST_PATTERN),
        half_drop=table.flag("half_drop"),
        heading=table.choice("heading", tuple(FULLNESS), usual.heading),
        cloth_width=table.mm("cloth_width", usual.cloth_width, 500, 4000),
        cloth_pattern=table.mm("cloth_pattern", usual.cloth_pattern, 1, LONGEST_PATTERN),
    )
    if found.half_drop and not found.pattern:
        hint = "say after what length the pattern repeats, such as pattern = 64"
        table.fault("half_drop", "given for paper without a pattern", "it needs one", hint)
    table.finish()
    return found
