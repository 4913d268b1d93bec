"""Catches sizes written in another unit than meant: a bed of 2 cm, a desk of 55 mm."""

from __future__ import annotations

from arrange.data.scenario import Unit
from arrange.scenario.kinds import Kind
from arrange.scenario.lengths import parse
from arrange.scenario.table import Table
from arrange.words import length

# A size this many times off the usual one is a slip; rugs and shelves really vary.
ABSURD = 5.0
ABSURD_VARIES = 25.0
# A slip of the decimal point; mixed-up units are tried as such.
TENS = (10, 0.1, 100, 0.01)
UNITS: tuple[Unit, ...] = ("cm", "mm", "m", "in")
CLOSE = 1.8  # a corrected size is believed if it is within this of the usual one
INCH = 2.54
INCH_CLOSE = 1.25


def unbelievable(table: Table, kind: Kind, name: str) -> set[str]:
    """The keys whose sizes cannot be meant; each becomes a fault that says what may be."""
    if kind.own_size:
        return set()
    usual = {"width": kind.width, "depth": kind.depth, "height": kind.height}
    given = {key: _given(table, key) for key in usual if table.has(key)}
    sizes = {key: mm for key, mm in given.items() if mm > 0}
    bad = set()
    for key, mm in sizes.items():
        limit = ABSURD_VARIES if kind.varies else ABSURD
        thin = kind.flat and key == "height"
        if not thin and not usual[key] / limit <= mm <= usual[key] * limit:
            bad.add(key)
            _note(table, kind, name, key, mm, usual[key])
    plan = [sizes[key] / usual[key] for key in ("width", "depth") if key in sizes]
    if len(plan) == 2 and not kind.varies:
        bad |= _check_inches(table, plan)
    return bad


def _given(table: Table, key: str) -> int:
    try:
        return parse(table.raw(key), table.unit)
    except (ValueError, OverflowError):
        return 0


def _note(table: Table, kind: Kind, name: str, key: str, mm: int, usual: int) -> None:
    unit = table.unit
    meant = _meant(table.raw(key), mm, usual)
    hint = f"did you mean {length(meant, unit)}?" if meant else "check the measurement"
    article = "an" if kind.name[0] in "aeiou" else "a"
    allowed = f"the {key} of {article} {kind.name} is usually about {length(usual, unit)}"
    table.fault(key, f'"{name}" is given {length(mm, unit)}', allowed, hint)


def _meant(value: object, mm: int, usual: int) -> int | None:
    """The believable size nearest the usual one: the number in another unit, or a ten off."""
    units = [] if isinstance(value, str) else [parse(value, unit) for unit in UNITS]
    tries = [*units, *(round(mm * ten) for ten in TENS)]
    good = [mm for mm in tries if usual / CLOSE <= mm <= usual * CLOSE]
    return min(good, key=lambda mm: abs(mm - usual), default=None)


def _check_inches(table: Table, ratios: list[float]) -> set[str]:
    """Inches given as cm, or cm as inches: both sizes are off by the same 2.54."""
    for factor, meant in ((INCH, "inches"), (1 / INCH, "centimetres")):
        if all(1 / INCH_CLOSE <= r * factor <= INCH_CLOSE for r in ratios):
            word = "small" if factor > 1 else "big"
            given = f"both sizes are {factor if factor > 1 else 1 / factor:.2f} times too {word}"
            table.fault("width", given, "this is no usual size", f"were they {meant}?")
            return {"width", "depth"}
    return set()
