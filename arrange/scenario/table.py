"""One table of the file, read key by key; every slip becomes a fault, not an exception.

Among the slips are sizes written in another unit than meant: a bed of 2 cm, a desk of
55 mm.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import TypeVar, cast

from arrange.data.kinds import Kind, believable
from arrange.data.lengths import a_or_an, length, parse
from arrange.data.scenario import Unit
from arrange.errors import can_be_seen
from arrange.scenario.faults import Faults, quoted, shown

T = TypeVar("T", bound=str)
CENT = Decimal("0.01")
LONGEST_MM = 30_000  # no wall of a home room is longer
LONGEST_TEXT = 80
HUGE_MM = 10**9
SPACES = str.maketrans(dict.fromkeys("\u00a0\u2007\u2009\u202f\u3000", " "))
# What a text may hold, and what to try where it holds more.
SEEN = (
    "only letters and signs that can be seen are allowed",
    "the part shown with a \\ is invisible; delete it",
)
LIKELY_MM = 1500  # a length that people measure; the likelier unit comes nearer to it


class Table:
    """A table at ``where`` in the file. Reading a key marks it as known."""

    def __init__(self, data: Mapping[str, object], where: str, faults: Faults, unit: Unit) -> None:
        self.data = data
        self.where = where
        self.faults = faults
        self.unit = unit
        self.known: list[str] = []

    def has(self, key: str) -> bool:
        """Whether the person wrote ``key``."""
        self._know(key)
        return key in self.data

    def at(self, key: str) -> str:
        """Where ``key`` stands in the file."""
        return f"{self.where}.{key}" if self.where else key

    def raw(self, key: str) -> object:
        """The value as the file has it; None if absent."""
        self._know(key)
        return self.data.get(key)

    def fault(self, key: str, given: str, allowed: str, hint: str = "") -> None:
        """Note a fault at ``key``."""
        self.faults.add(self.at(key), given, allowed, hint)

    def text(self, key: str, default: str = "") -> str:
        """A line of text; blank lines and line breaks are faults."""
        value = self.raw(key)
        if value is None:
            return default
        if not isinstance(value, str) or not value.strip():
            self.fault(key, f"{shown(value)} given", "a line of text in quotation marks is needed")
            return default
        value = value.translate(SPACES)
        if not can_be_seen(value):
            self.fault(key, f"{shown(value)} given", *SEEN)
            return default
        if len(value) > LONGEST_TEXT:
            self.fault(key, f"{len(value)} characters", f"at most {LONGEST_TEXT} are allowed")
            return default
        return " ".join(value.split())

    def choice(self, key: str, options: Sequence[T], default: T) -> T:
        """One of a few words."""
        value = self.raw(key)
        if value is None:
            return default
        word = " ".join(value.casefold().split()) if isinstance(value, str) else ""
        known = {option.casefold(): option for option in options}
        if word in known:
            return known[word]
        self.fault(key, f"{shown(value)} given", f"{quoted(options)} is needed")
        return default

    def flag(self, key: str) -> bool:
        """True or false; absent is false."""
        value = self.raw(key)
        if value is not None and not isinstance(value, bool):
            wanted = "true or false is needed, without quotation marks"
            self.fault(key, f"{shown(value)} given", wanted)
        return value is True

    def whole(self, key: str, default: int, low: int, high: int) -> int:
        """A whole number from ``low`` to ``high``."""
        value = self.raw(key)
        if value is None:
            return default
        good = isinstance(value, int) and not isinstance(value, bool)
        if good and low <= cast("int", value) <= high:
            return cast("int", value)
        self.fault(key, f"{shown(value)} given", f"a whole number from {low} to {high} is needed")
        return default

    def money(self, key: str) -> Decimal | None:
        """A sum of money as it is written, from 0 on; None, with a fault, if it is none."""
        value = self.raw(key)
        if isinstance(value, int | float) and not isinstance(value, bool) and 0 <= value < 10**7:
            # A number of so few digits is written out as it was read.
            return Decimal(str(value)).quantize(CENT)
        wanted = "a number of 0 or more is needed, with no currency sign"
        self.fault(key, f"{shown(value)} given", wanted)
        return None

    def mm(self, key: str, default: int, low: int = 1, high: int = LONGEST_MM) -> int:
        """A length in mm between ``low`` and ``high``; ``default`` if absent or faulty."""
        value = self.raw(key)
        return default if value is None else self.as_mm(value, key, default, low, high)

    def needed_mm(self, key: str, low: int = 1, high: int = LONGEST_MM) -> int | None:
        """A length that must be there; None if it is absent or faulty."""
        if not self.has(key):
            self.fault(key, "not given", f"a length is needed, such as {length(900, self.unit)}")
            return None
        found = self.as_mm(self.raw(key), key, -1, low, high)
        return None if found == -1 else found

    def as_mm(self, value: object, key: str, default: int, low: int, high: int) -> int:
        """``value`` found at ``key``, as a length."""
        try:
            mm = parse(value, self.unit)
        except (ValueError, OverflowError) as error:
            self.fault(key, f"{shown(value)} given", str(error))
            return default
        if low <= mm <= high:
            return mm
        given = length(mm, self.unit) if abs(mm) < HUGE_MM else "a huge length"
        between = f"{length(low, self.unit)} to {length(high, self.unit)} is allowed"
        self.fault(key, f"{given} given", between, self._unit_hint(value, mm, low, high))
        return default

    def _unit_hint(self, value: object, mm: int, low: int, high: int) -> str:
        if isinstance(value, str) or mm <= 0:
            return ""
        others: tuple[Unit, ...] = ("cm", "mm", "m", "in")
        lengths = {u: parse(value, u) for u in others if u != self.unit}
        fits = {u: mm for u, mm in lengths.items() if max(low, 1) <= mm <= high}
        if not fits:
            return ""
        # Somebody who counts in m means cm or mm; inches only if nothing else fits.
        meant = min(fits, key=lambda u: (u == "in", abs(math.log(fits[u] / LIKELY_MM))))
        return f'numbers count in {self.unit} here; write "{value} {meant}" if that is meant'

    def table(self, value: object, where: str) -> Table | None:
        """``value`` as a table of its own; None, with a fault, if it is none."""
        if isinstance(value, Mapping):
            return Table(value, where, self.faults, self.unit)
        self.faults.add(where, f"{shown(value)} given", "keys with values are needed here")
        return None

    def tables(self, key: str) -> list[Table]:
        """The tables of a list such as ``[[piece]]``, counted from 1."""
        value = self.raw(key)
        if value is None:
            return []
        if isinstance(value, Mapping):
            self.fault(key, "one table given", f"write [[{key}]] with double brackets")
            return []
        if not isinstance(value, list):
            self.fault(key, f"{shown(value)} given", f"tables headed [[{key}]] are needed")
            return []
        found = [self.table(v, f"{self.at(key)}[{i}]") for i, v in enumerate(value, 1)]
        return [t for t in found if t is not None]

    def finish(self) -> None:
        """Refuse every key that nobody asked for."""
        for key in self.data:
            if key not in self.known:
                self.faults.unknown(self.at(key), key, self.known, "the key")

    def _know(self, key: str) -> None:
        if key not in self.known:
            self.known.append(key)


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
        least, most = believable(kind.name, key)
        thin = kind.flat and key == "height"
        if not thin and not least <= mm <= most:
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
    allowed = f"the {key} of {a_or_an(kind.name)} is usually about {length(usual, unit)}"
    table.fault(key, f'a {key} of {length(mm, unit)} for "{name}"', allowed, hint)


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
            table.fault("width", given, "this is not a usual size", f"were they {meant}?")
            return {"width", "depth"}
    return set()
