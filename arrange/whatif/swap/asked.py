"""What somebody asks to be swapped, in their own words, as changes to a scenario."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from arrange.changing import changed
from arrange.data.change import Add, Change, Drop, Exchange, Reprice, Resize
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.errors import DisagreementError
from arrange.scenario import kinds
from arrange.scenario.editing import Append, Edit, Edited, Put, Remove, edited
from arrange.scenario.faults import Faults
from arrange.scenario.lengths import parse
from arrange.scenario.pieces import UNUSUAL
from arrange.scenario.read import read_data

TIMES = re.compile(r"\s*[x×*]\s*", re.IGNORECASE)  # noqa: RUF001
NUMBER = re.compile(r"\d+(\.\d+)?")
SIZE = "write WIDTHxDEPTH or WIDTHxDEPTHxHEIGHT, such as 180x210"


@dataclass(frozen=True)
class Request:
    """The words of one question. Each is PIECE=..., PIECE or KIND[=...]."""

    sizes: Sequence[str] = ()
    kinds: Sequence[str] = ()
    prices: Sequence[str] = ()
    without: Sequence[str] = ()
    add: Sequence[str] = ()
    keep: Sequence[str] = ()

    @property
    def empty(self) -> bool:
        """Whether nothing at all is to change."""
        return not (self.sizes or self.kinds or self.prices or self.without or self.add)


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
        gone = [n for word in request.without for n in self.called(word, "--without")]
        for name in gone:
            if name in puts:
                self.faults.add("--without", f"{name} is left out and changed", "one of the two")
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
        """The piece of that name, or all that were given under it; a fault if there is none."""
        wanted = " ".join(word.split()).casefold()
        exact = [n for n in (*self.names, *more) if n.casefold() == wanted]
        alike = [p.name for p in self.scenario.pieces if p.model.casefold() == wanted]
        if not exact and not alike:
            known = [*self.names, *more]
            hint_at = f"{option} {word}" if option else word
            self.faults.unknown(hint_at, word, known, "the piece")
        return exact or alike

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
            return {"kind": kinds.kind(value).name}
        except KeyError:
            known = list(kinds.names())
            self.faults.unknown(word, value, known, "the kind of piece", UNUSUAL)
            return {}

    def _price(self, value: str, word: str) -> dict[str, Any]:
        if not NUMBER.fullmatch(value):
            wanted = "a number from 0 on is needed, no currency sign"
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
        slots=new.slots, anchor=new.anchor, model=new.model,
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
    """The piece whatever its group is called."""
    return replace(piece, model="")


def alike(one: Scenario, two: Scenario) -> bool:
    """Whether two scenarios ask the same, whatever groups are called and what stands today."""
    return _plain(one) == _plain(two)


def _plain(scenario: Scenario) -> Scenario:
    pieces = tuple(_bare(p) for p in scenario.pieces)
    return replace(scenario, pieces=pieces, today=(), held=(), expected=None)
