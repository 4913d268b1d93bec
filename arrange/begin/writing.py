"""The file made of what was answered: TOML with a comment wherever a reader would ask.

Lengths are held as ``Mm`` and written in the person's own unit, so that what is read back is
what was said, to the millimetre.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from typing import Any

from arrange.data.lengths import length
from arrange.data.scenario import Unit

Tables = dict[str, Any]
NOTE = "#"  # the key of a comment that goes above a table


class Mm(int):
    """A length in whole mm, to be written in the unit of the file."""


UNITS = {
    "cm": "centimetres",
    "m": "metres",
    "mm": "millimetres",
    "in": "inches",
}
HEADINGS = {
    "door": "Doors and open passages. from_left is measured as you face the wall from inside.",
    "window": "Windows. sill and head are heights above the floor.",
    "fixture": "What is built in.",
    "piece": "The furniture. Sizes that are left out are the usual ones of the kind.",
    "wish": "What you wish for. A wish with must = true may never be broken.",
}
MONEY = "What it may cost; arrange shop adds up against it."
COSTS = "What stays as it is, whatever does not fit."
GENERAL = ("title", "unit", "use", "feel", "keep_to", "walkway")


def written(tables: Mapping[str, Any]) -> str:
    """The text of a scenario file."""
    unit: Unit = tables.get("unit", "cm")
    return "\n".join(_lines(tables, unit)) + "\n"


def _lines(tables: Mapping[str, Any], unit: Unit) -> Iterator[str]:
    yield f"# {_one_line(tables.get('title', 'A room'))}, as told to arrange begin."
    yield f"# Numbers are {UNITS[unit]}; a length in quotation marks carries its own unit."
    yield "# Change what you like. Every key is explained in scenarios/README.md."
    yield ""
    for key in GENERAL:
        if key in tables:
            yield _pair(key, tables[key], unit)
    if "room" in tables:
        yield from _room(tables["room"], unit)
    for key, heading in HEADINGS.items():
        if tables.get(key):
            yield from ("", f"# {heading}")
            for i, row in enumerate(tables[key]):
                yield from _table(f"[[{key}]]", row, unit, gap=i > 0)
    for key, heading in (("money", MONEY), ("costs", COSTS)):
        if tables.get(key):
            yield from ("", f"# {heading}")
            yield from _table(f"[{key}]", tables[key], unit, gap=False)


def _room(room: Mapping[str, Any], unit: Unit) -> Iterator[str]:
    yield ""
    if "size" in room:
        yield "# Wall A is at the top of the plan, B at the right, C at the bottom, D at the left."
    else:
        yield "# The walls in their order, clockwise from A, which is at the top of the plan."
    yield from _table("[room]", room, unit, gap=False)
    for key in ("wall", "check", "bay"):
        for row in room.get(key, ()):
            yield from _table(f"[[room.{key}]]", row, unit, gap=True)


def _table(head: str, row: Mapping[str, Any], unit: Unit, *, gap: bool) -> Iterator[str]:
    if gap:
        yield ""
    if row.get(NOTE):
        yield f"# {_one_line(row[NOTE])}"
    yield head
    for key, value in row.items():
        if (key != NOTE and not _are_tables(value)) or key == "stands_now":
            yield _pair(key, value, unit)


def _are_tables(value: object) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], Mapping)


def _pair(key: str, value: object, unit: Unit) -> str:
    return f"{key} = {_value(value, unit)}"


def _value(value: object, unit: Unit) -> str:
    if isinstance(value, Mm):
        return _length(value, unit)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | Decimal):
        return str(value)
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, Mapping):
        inside = ", ".join(_pair(key, one, unit) for key, one in value.items())
        return f"{{ {inside} }}"
    if isinstance(value, Sequence):
        return f"[{', '.join(_value(one, unit) for one in value)}]"
    raise TypeError(f"{value!r} has no place in a scenario file")


def _length(mm: int, unit: Unit) -> str:
    """A bare number where that is exact and short; feet and inches as a text."""
    if unit == "in":
        return _text(length(mm, "in"))
    return length(mm, unit).removesuffix(f" {unit}")


def _text(text: str) -> str:
    # JSON escapes what TOML escapes, and in the same way, for all that can be seen.
    return json.dumps(text, ensure_ascii=False)


def _one_line(text: str) -> str:
    return " ".join(text.split())
