"""What somebody asks of ``swap`` in their own words, understood as changes and sizes.

``understood`` reads words such as bed=180x210 as changes to the file, ``sizes_asked`` a piece
with a range of sizes, ``dimension_asked`` a piece and the dimension that is to grow. What is
not understood is told where it is found, in the words it was given in.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Any

from arrange.data import kinds
from arrange.data.change import Add, Change, Drop, Exchange, Reprice, Resize, changed
from arrange.data.lengths import listed, parse
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario, Unit
from arrange.data.sizes import (
    DIMENSIONS,
    Dimension,
    NoSizesError,
    SizeTable,
    range_of_sizes,
    standard_sizes,
    usual_region,
)
from arrange.errors import DisagreementError
from arrange.scenario.editing import Append, Edit, Edited, Put, Remove, edited
from arrange.scenario.faults import Faults, shown
from arrange.scenario.pieces import unknown_kind
from arrange.scenario.read import read_data

TIMES = re.compile(r"\s*[x×*]\s*", re.IGNORECASE)  # noqa: RUF001
NUMBER = re.compile(r"\d+(\.\d+)?")
SUM = re.compile(r"\d{1,7}(\.\d{1,2})?")
BOUGHT = (
    'write PIECE=WIDTHxDEPTH, SUM, such as "desk=120x60, 79.90"; 0 for a gift, and no currency sign'
)
MENDED = "to mend what was recorded, change its width, depth and paid in the file"
SIZE = "write WIDTHxDEPTH or WIDTHxDEPTHxHEIGHT, such as 180x210"


@dataclass(frozen=True)
class Request:
    """The words of one question. Each is PIECE=..., PIECE or KIND[=...].

    Of what was ``bought`` it is PIECE[=WIDTHxDEPTH[xHEIGHT]], SUM: the piece is there by now.
    """

    sizes: Sequence[str] = ()
    kinds: Sequence[str] = ()
    prices: Sequence[str] = ()
    without: Sequence[str] = ()
    add: Sequence[str] = ()
    keep: Sequence[str] = ()
    bought: Sequence[str] = ()

    @property
    def empty(self) -> bool:
        """Whether nothing at all is to change."""
        changes = (self.sizes, self.kinds, self.prices, self.without, self.add, self.bought)
        return not any(changes)


@dataclass(frozen=True)
class Asked:
    """The question understood: changes, names to keep, and the file as it would be."""

    changes: tuple[Change, ...]
    keep: tuple[str, ...]
    tables: Edited
    after: Scenario = field(repr=False)


def understood(request: Request, scenario: Scenario, data: Mapping[str, Any]) -> Asked:
    """The changes that ``request`` asks of ``scenario``, which was read from ``data``.

    Raises
    ------
    ScenarioError
        With every word that was not understood, or every fault that the changed
        file would have: a bed of 18 cm, a piece wider than the room.
    DisagreementError
        If changes and file do not agree: our bug.
    """
    reader = _Reader(scenario)
    edits = reader.edits(request)
    keep = tuple(dict.fromkeys(n for word in request.keep for n in reader.called(word, "--keep")))
    reader.faults.stop()
    tables = edited(data, edits)
    after = read_data(tables.data(), scenario.source_file)
    changes = changes_between(scenario, after)
    if not alike(changed(scenario, changes), after):
        raise DisagreementError("the changed file is not what the changes make of the scenario")
    return Asked(changes, keep, tables, after)


def bought_in(words: Sequence[str], whole: Scenario, data: Mapping[str, Any]) -> Edited:
    """The tables of a file with what was bought, of all the pieces in ``whole``.

    For a file that leaves open what to have: nobody can say what became of its one arrangement.
    ScenarioError as ``understood``; what the changed tables say is still to be read.
    """
    reader = _Reader(whole)
    edits = reader.edits(Request(bought=words))
    reader.faults.stop()
    return edited(data, edits)


def pieces_called(
    word: str, where: str, scenario: Scenario, faults: Faults, more: Sequence[str] = ()
) -> list[str]:
    """The piece of that name, or all that were given under it; a fault if there is none."""
    wanted = " ".join(word.split()).casefold()
    names = [*(p.name for p in scenario.pieces), *more]
    exact = [n for n in names if n.casefold() == wanted]
    alike = [p.name for p in scenario.pieces if p.model.casefold() == wanted]
    if not exact and not alike:
        faults.unknown(where, word, names, "the piece")
    return exact or alike


def pieces_asked(word: str, scenario: Scenario) -> list[str]:
    """The pieces that ``PIECE=...`` is about; ScenarioError if there is none."""
    faults = Faults(scenario.source_file or "fits")
    found = pieces_called(word.rpartition("=")[0], word, scenario, faults)
    faults.stop()
    return found


class _Reader:
    """Reads the words one after another and collects every fault."""

    def __init__(self, scenario: Scenario) -> None:
        self.scenario = scenario
        self.faults = Faults(scenario.source_file or "swap")
        self.names = [p.name for p in scenario.pieces]
        self.new: list[str] = []

    def edits(self, request: Request) -> list[Edit]:
        added = [edit for word in request.add if (edit := self._added(word)) is not None]
        puts: dict[str, dict[str, Any]] = {}
        for words, option, read in (
            (request.kinds, "--kind", self._kind),
            (request.sizes, "", self._size),
            (request.prices, "--price", self._price),
        ):
            for word in words:
                name, value = self._halves(word, option)
                keys = read(value, f"{option} {word}".strip()) if name else {}
                for one in self.called(name, option, self.new) if name else ():
                    puts.setdefault(one, {}).update(keys)
        for word in request.bought:
            self._bought(word, puts)
        gone = [n for word in request.without for n in self.called(word, "--without")]
        for name in gone:
            if name in puts:
                self.faults.add(
                    "--without", f"{name} is left out and changed", "give only one of the two"
                )
        found: list[Edit] = [
            Put(name, tuple(keys.items())) for name, keys in puts.items() if name not in self.new
        ]
        freed = {p.name: p.anchor for p in self.scenario.pieces if p.name not in gone}
        found += [
            Remove(name, tuple(n for n, host in freed.items() if host == name))
            for name in dict.fromkeys(gone)
        ]
        for more in added:
            own = dict(more.keys)
            found.append(Append(tuple({**own, **puts.get(own["name"], {})}.items())))
        return found

    def called(self, word: str, option: str, more: Sequence[str] = ()) -> list[str]:
        """As ``pieces_called``, with pieces that are new."""
        return pieces_called(word, f"{option} {word}".strip(), self.scenario, self.faults, more)

    def _halves(self, word: str, option: str) -> tuple[str, str]:
        name, sign, value = word.rpartition("=")
        if not sign or not name.strip() or not value.strip():
            wanted = {"--kind": "PIECE=KIND", "--price": "PIECE=PRICE"}.get(
                option, "PIECE=WIDTHxDEPTH, such as bed=180x210"
            )
            self.faults.add(f"{option} {word}".strip(), "not understood", f"write {wanted}")
            return "", ""
        return name.strip(), value.strip()

    def _size(self, value: str, word: str) -> dict[str, Any]:
        parts = TIMES.split(value)
        if len(parts) not in (2, 3):
            given = "one length" if len(parts) == 1 else f"{len(parts)} lengths"
            if len(parts) == 1 and not any(c.isdigit() for c in value):
                given = shown(value)
            self.faults.add(word, f"{given} given", SIZE)
            return {}
        for part in parts:
            if not part:
                self.faults.add(word, "a length is missing", SIZE)
                return {}
            try:
                parse(_number(part), self.scenario.unit)
            except ValueError as error:
                self.faults.add(word, f"{part!r} given", str(error))
                return {}
        return dict(zip(("width", "depth", "height"), map(_number, parts), strict=False))

    def _kind(self, value: str, word: str) -> dict[str, Any]:
        try:
            kinds.kind(value)
        except KeyError:
            unknown_kind(self.faults, word, value)
            return {}
        return {"kind": " ".join(value.split())}

    def _bought(self, word: str, puts: dict[str, dict[str, Any]]) -> None:
        """What was bought is the person's, in the size it has, for what was paid."""
        where, (what, comma, paid) = f"--bought {word}", word.rpartition(",")
        if not comma or not SUM.fullmatch(paid.strip()):
            self.faults.add(where, "no sum after the last comma", BOUGHT)
            return
        sum_ = float(paid)
        name, sign, size = what.rpartition("=")
        keys = self._size(size.strip(), where) if sign else {}
        for one in self.called(name if sign else what, "--bought"):
            if self.scenario.piece(one).owned:
                given = f"{one} is yours already"
                self.faults.add(where, given, "only what was still to get can be bought", MENDED)
            elif one in puts:
                self.faults.add(where, f"{one} is bought twice", "once is enough")
            puts[one] = {**keys, "owned": True, "paid": int(sum_) if sum_.is_integer() else sum_}

    def _price(self, value: str, word: str) -> dict[str, Any]:
        if not NUMBER.fullmatch(value):
            wanted = "a number of 0 or more is needed, with no currency sign"
            self.faults.add(word, f"{value!r} given", wanted)
            return {}
        return {"price": _number(value)}

    def _added(self, word: str) -> Append | None:
        kind, sign, value = word.partition("=")
        size = self._size(value, f"--add {word}") if sign else {}
        keys = self._kind(kind, f"--add {word}")
        if not keys or (sign and not size):
            return None
        taken = {n.casefold() for n in (*self.names, *self.new)}
        taken |= {p.model.casefold() for p in self.scenario.pieces}
        name, number = str(keys["kind"]), 2
        while name.casefold() in taken:
            name, number = f"{keys['kind']} {number}", number + 1
        self.new.append(name)
        return Append(tuple({**keys, "name": name, **size}.items()))


def _number(text: str) -> int | float | str:
    """A bare number as a number, so that it counts in the file's unit; else the text."""
    if not NUMBER.fullmatch(text):
        return text
    return float(text) if "." in text else int(text)


def changes_between(before: Scenario, after: Scenario) -> tuple[Change, ...]:
    """Changes that lead from one scenario to the other, as far as pieces go."""
    new = {p.name: p for p in after.pieces}
    old = {p.name: p for p in before.pieces}
    found: list[Change] = [Drop(name) for name in old if name not in new]
    for name, piece in old.items():
        found += _to(piece, new[name]) if name in new else []
    found += [Add(p) for p in after.pieces if p.name not in old]
    # Companions can find themselves tied otherwise.
    so_far = changed(before, found)
    found += [Exchange(p.name, p) for p in so_far.pieces if _bare(p) != _bare(new[p.name])]
    return tuple(Exchange(c.piece, new[c.piece]) if isinstance(c, Exchange) else c for c in found)


def _to(old: Piece, new: Piece) -> list[Change]:
    if _bare(old) == _bare(new):
        return []
    same = replace(
        old, width=new.width, depth=new.depth, height=new.height, price=new.price,
        slots=new.slots, anchor=new.anchor, model=new.model, tied_by_kind=new.tied_by_kind,
    )  # fmt: skip
    if same != new:
        return [Exchange(new.name, new)]
    found: list[Change] = []
    sizes = {
        key: getattr(new, key)
        for key in ("width", "depth", "height")
        if getattr(new, key) != getattr(old, key)
    }
    if sizes:
        found.append(Resize(old.name, **sizes))
    if old.price != new.price:
        found.append(Reprice(old.name, new.price))
    return found


def _bare(piece: Piece) -> Piece:
    """The piece whatever its group is called, and whoever tied it."""
    return replace(piece, model="", tied_by_kind=False)


def alike(one: Scenario, two: Scenario) -> bool:
    """Whether two scenarios ask the same, whatever groups are called and what stands today."""
    return _plain(one) == _plain(two)


def _plain(scenario: Scenario) -> Scenario:
    pieces = tuple(_bare(p) for p in scenario.pieces)
    return replace(scenario, pieces=pieces, today=(), held=(), expected=None)


RANGE = "write FROM..TO or FROM..TO/STEP, such as 140..200/10 or 90x190..180x200/10"
STEPS = {"in": "2", "mm": "50", "m": "0.05", "cm": "5"}  # of a range that names none


def sizes_asked(word: str, region: str | None, scenario: Scenario) -> tuple[str, SizeTable]:
    """The piece and the sizes that ``PIECE`` or ``PIECE=FROM..TO/STEP`` asks for.

    Without a range the standard sizes of the piece's kind; mattresses of ``region``, or
    of the one that goes with the file's unit.

    Raises
    ------
    ScenarioError
        If there is no such piece, no such sizes, or the range is not understood.
    """
    faults = Faults(scenario.source_file or "sizes")
    name, sign, value = word.partition("=")
    piece = _piece(name, f"--sizes {word}", scenario, faults)
    try:
        if not sign:
            where = region or usual_region(scenario.unit)
            return piece, standard_sizes(scenario.piece(piece), where, scenario.unit)
        return piece, _range(value, scenario, piece)
    except NoSizesError as error:
        faults.add(f"--sizes {word}", "no such sizes", str(error))
    except ValueError as error:
        faults.add(f"--sizes {word}", f"{value!r} is not understood ({error})", RANGE)
    faults.stop()
    raise AssertionError("a fault was noted")


def dimension_asked(word: str, scenario: Scenario) -> tuple[str, Dimension]:
    """The piece and the dimension that ``PIECE=width|depth|height`` asks for. ScenarioError."""
    faults = Faults(scenario.source_file or "largest")
    name, _, value = word.partition("=")
    piece = _piece(name, f"--largest {word}", scenario, faults)
    for dimension in DIMENSIONS:
        if value.strip().casefold() == dimension:
            return piece, dimension
    known = listed([f"{name}={d}" for d in DIMENSIONS], "or")
    faults.add(f"--largest {word}", f"{value!r} is not a dimension", f"write {known}")
    faults.stop()
    raise AssertionError("a fault was noted")


def _piece(word: str, where: str, scenario: Scenario, faults: Faults) -> str:
    """The one piece that is meant. ScenarioError if there is none or more."""
    found = pieces_called(word, where, scenario, faults)
    if len(found) > 1:
        faults.add(where, f"{word} means {len(found)} pieces", f"name one: {listed(found, 'or')}")
    faults.stop()
    return found[0]


def _range(value: str, scenario: Scenario, piece: str) -> SizeTable:
    first, dots, rest = value.partition("..")
    if not dots:
        raise ValueError("no ..")
    unit, own = scenario.unit, scenario.piece(piece)
    last, step = _last_and_step(rest, scenario)
    low, high = _both(first, own.depth, scenario), _both(last, own.depth, scenario)
    return range_of_sizes(own, low, high, _exact(step, unit), unit)


def _last_and_step(text: str, scenario: Scenario) -> tuple[str, str]:
    """Parted at the first / that leaves two lengths; others are fractions of an inch."""
    at = text.find("/")
    while at >= 0:
        last, step = text[:at], text[at + 1 :]
        try:
            _both(last, 1, scenario)
            parse(_not_empty(step), scenario.unit)
        except ValueError:
            at = text.find("/", at + 1)
        else:
            return last, step
    return text, STEPS[scenario.unit]


def _exact(text: str, unit: Unit) -> Fraction | int:
    """A step in mm; inches to the 16th, so that many steps do not drift."""
    mm = parse(_not_empty(text), unit)
    bare = not any(letter.isalpha() for letter in text)
    inches = any(mark in text.casefold() for mark in ("in", "ft", '"', "'")) or bare
    if not inches or (bare and unit != "in"):
        return mm
    return Fraction(254, 10) * Fraction(round(mm * 160 / 254), 16)


def _both(text: str, depth: int, scenario: Scenario) -> tuple[int, int]:
    """Width and depth in mm; ``depth`` where only a width is given."""
    width, sign, deep = text.casefold().partition("x")
    mm = parse(_not_empty(width), scenario.unit)
    return mm, parse(_not_empty(deep), scenario.unit) if sign else depth


def _not_empty(text: str) -> str:
    words = text.strip()
    if not words:
        raise ValueError("a length is missing")
    return words
