"""A scenario file with pieces changed, left out or added, table by table.

Works on the tables as they are written, before anything is read into lengths:
what comes out is read like any other file.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from arrange.scenario import kinds

Row = Mapping[str, Any]
BODY = ("width", "depth")
# What was said of a piece of another kind and cannot be meant of the new one.
OF_ITS_KIND = (
    *("width", "depth", "height", "bottom", "headroom", "screen", "stands", "clearance"),
    *("used_for", "short", "price", "owned"),
)
STANDING = ("stands_now", "stays")


@dataclass(frozen=True, slots=True)
class Put:
    """Keys of one piece set to new values; None takes a key away."""

    piece: str
    keys: tuple[tuple[str, Any], ...]


@dataclass(frozen=True, slots=True)
class Remove:
    """A piece left out. ``freed`` are the pieces that were tied to it: they stand free."""

    piece: str
    freed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Append:
    """A piece more, with its keys."""

    keys: tuple[tuple[str, Any], ...]


Edit = Put | Remove | Append


@dataclass(frozen=True)
class Edited:
    """For every ``[[piece]]`` and ``[[wish]]`` of the file what became of it.

    A table becomes one table, none, or, where alike pieces are no longer alike,
    one for each of them. ``added`` come after all others.
    """

    source: Row
    pieces: tuple[tuple[Row, ...], ...]
    wishes: tuple[tuple[Row, ...], ...]
    added: tuple[Row, ...] = field(default=())

    def data(self) -> dict[str, Any]:
        """All tables of the changed file."""
        data = dict(self.source)
        data["piece"] = [row for rows in self.pieces for row in rows] + list(self.added)
        if "wish" in data:
            data["wish"] = [row for rows in self.wishes for row in rows]
        return data


def edited(data: Row, edits: Sequence[Edit]) -> Edited:
    """The tables of a sound file after the edits. KeyError for a piece that is not there."""
    puts: dict[str, dict[str, Any]] = {}
    gone: set[str] = set()
    for edit in edits:
        if isinstance(edit, Put):
            puts.setdefault(edit.piece, {}).update(edit.keys)
        elif isinstance(edit, Remove):
            gone.add(edit.piece)
            for name in edit.freed:
                puts.setdefault(name, {}).update({"free": True, "with": None})
    rows: list[Row] = list(data.get("piece", ()))
    known = {name for row in rows for name in names_of(row)}
    for name in (*puts, *gone):
        if name not in known:
            raise KeyError(name)
    split = {group_of(row): _left(row, gone) for row in rows if _is_split(row, puts, gone)}
    return Edited(
        data,
        tuple(tuple(_pieces(row, puts, gone)) for row in rows),
        tuple(tuple(_wishes(row, gone, split, rows)) for row in data.get("wish", ())),
        tuple(dict(e.keys) for e in edits if isinstance(e, Append)),
    )


def group_of(row: Row) -> str:
    """The name given to the piece, or to all of an entry."""
    given = row.get("name")
    text = given if isinstance(given, str) else kinds.kind(str(row["kind"])).name
    return " ".join(text.split())


def names_of(row: Row) -> list[str]:
    """The name of every piece of an entry."""
    count, name = row.get("count", 1), group_of(row)
    return [name] if count == 1 else [f"{name} {i}" for i in range(1, count + 1)]


def _left(row: Row, gone: set[str]) -> list[str]:
    return [name for name in names_of(row) if name not in gone]


def _is_split(row: Row, puts: Mapping[str, Row], gone: set[str]) -> bool:
    """Whether the pieces of an entry are no longer alike, or fewer."""
    names = names_of(row)
    left = _left(row, gone)
    if not left or len(names) == 1:
        return False
    return len(left) < len(names) or any(puts.get(n) != puts.get(names[0]) for n in names)


def _pieces(row: Row, puts: Mapping[str, Row], gone: set[str]) -> list[Row]:
    left = _left(row, gone)
    if not left:
        return []
    if not _is_split(row, puts, gone):
        return [_put(row, puts.get(left[0], {}), group_of(row))]
    names = names_of(row)
    places = row.get("stands_now")
    found = []
    for name in left:
        one = {key: value for key, value in row.items() if key != "count"} | {"name": name}
        index = names.index(name)
        if isinstance(places, list):
            one.pop("stands_now")
            if index < len(places):
                one["stands_now"] = places[index]
        found.append(_put(one, puts.get(name, {}), name))
    return found


def _put(row: Row, keys: Row, name: str) -> Row:
    """One table with its keys set; what no longer holds of the piece is taken away."""
    if not keys:
        return row
    after = dict(row)
    if "kind" in keys:
        for key in OF_ITS_KIND:
            after.pop(key, None)
        after["name"] = name
    after |= keys
    after = {key: value for key, value in after.items() if value is not None}
    if "kind" in keys or any(key in keys for key in BODY):
        for key in STANDING:
            after.pop(key, None)
    if after.get("stays") and "stands_now" not in after:
        after.pop("stays")
    return after


def _wishes(
    row: Row, gone: set[str], split: Mapping[str, list[str]], pieces: Sequence[Row]
) -> list[Row]:
    """The wish without what is gone; one for each piece of a group that was split."""
    lost = {n.casefold() for n in gone}
    lost |= {group_of(r).casefold() for r in pieces if not _left(r, gone)}
    for key, value in row.items():
        named = isinstance(value, str) and " ".join(value.split()).casefold() in lost
        if named and key not in ("within", "at_least"):
            return []
    groups = {group.casefold(): left for group, left in split.items()}
    about = row.get("piece")
    word = " ".join(about.split()).casefold() if isinstance(about, str) else ""
    if word in groups:
        return [dict(row) | {"piece": name} for name in groups[word]]
    return [row]
