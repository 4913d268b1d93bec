"""Catches sizes written in another unit than meant: a bed of 2 cm, a desk of 55 mm."""

from __future__ import annotations

from arrange.scenario.kinds import Kind
from arrange.scenario.lengths import parse
from arrange.scenario.table import Table
from arrange.words import length

# A size this many times off the usual one is a slip; rugs and shelves really vary.
ABSURD = 5.0
ABSURD_VARIES = 25.0
# Slips of unit, as the factor that sets them right: mm, cm, m and inches mixed up.
FACTORS = (10.0, 0.1, 100.0, 0.01, 1000.0, 0.001, 25.4, 1 / 25.4)
CLOSE = 1.8  # a corrected size is believed if it is within this of the usual one
INCH = 2.54
INCH_CLOSE = 1.25


def check_sizes(table: Table, kind: Kind, name: str) -> None:
    """Note every size that a mix-up of units explains, with the size meant."""
    if kind.own_size:
        return
    usual = {"width": kind.width, "depth": kind.depth, "height": kind.height}
    given = {key: _given(table, key) for key in usual if table.has(key)}
    sizes = {key: mm for key, mm in given.items() if mm}
    for key, mm in sizes.items():
        if kind.flat and key == "height":
            continue
        _check_one(table, kind, name, key, mm, usual[key])
    plan = [sizes[key] / usual[key] for key in ("width", "depth") if key in sizes]
    if len(plan) == 2 and not kind.varies:
        _check_inches(table, plan)


def _given(table: Table, key: str) -> int:
    try:
        return parse(table.raw(key), table.unit)
    except (ValueError, OverflowError):
        return 0


def _check_one(table: Table, kind: Kind, name: str, key: str, mm: int, usual: int) -> None:
    limit = ABSURD_VARIES if kind.varies else ABSURD
    if usual / limit <= mm <= usual * limit or mm <= 0:
        return
    unit = table.unit
    meant = [f for f in FACTORS if usual / CLOSE <= mm * f <= usual * CLOSE]
    best = min(meant, key=lambda f: abs(mm * f - usual), default=None)
    hint = f"did you mean {length(round(mm * best), unit)}?" if best else "check the measurement"
    article = "an" if kind.name[0] in "aeiou" else "a"
    allowed = f"the {key} of {article} {kind.name} is usually about {length(usual, unit)}"
    table.fault(key, f'"{name}" is given {length(mm, unit)}', allowed, hint)


def _check_inches(table: Table, ratios: list[float]) -> None:
    """Inches given as cm, or cm as inches: both sizes are off by the same 2.54."""
    for factor, meant in ((INCH, "inches"), (1 / INCH, "centimetres")):
        if all(1 / INCH_CLOSE <= r * factor <= INCH_CLOSE for r in ratios):
            word = "small" if factor > 1 else "big"
            given = f"both sizes are {factor if factor > 1 else 1 / factor:.2f} times too {word}"
            table.fault("width", given, "this is no usual size", f"were they {meant}?")
