"""Changes a scenario file: pieces changed, left out or added; comments and all else stay.

Twice over: in the tables as they are written, before anything is read into lengths, and
in the text, where lines are changed as little as possible. Either result is read like any
other file and must be what was meant; a file written in an unusual way is refused rather
than guessed at.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field
from decimal import Decimal
from pathlib import Path
from typing import Any, Protocol

from arrange.data import kinds
from arrange.errors import ArrangeError, OutputError
from arrange.scenario.pieces import called
from arrange.scenario.read import read_text

Row = Mapping[str, Any]


class Read(Protocol):
    """A scenario, or one that leaves open what to have: what a file says."""

    @property
    def source_file(self) -> str:
        """Where it was read from."""


BODY = ("width", "depth")
# What was said of a piece of another kind and cannot be meant of the new one.
OF_ITS_KIND = (
    *("width", "depth", "height", "bottom", "headroom", "screen", "stands", "clearance"),
    *("shape", "corner", "arm_side", "arm_width", "back_depth", "used_for"),
    *("mattress", "headboard"),
    *("short", "price", "delivery", "paid", "buy", "owned", "colour", "picture", "lead", "tags"),
)
STANDING = ("stands_now", "stays")
OF_ITS_BODY = ("mattress",)  # a bed of another size has another one


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
    for name in (*puts, *sorted(gone)):
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
    given, word = row.get("name"), str(row["kind"])
    return " ".join(given.split()) if isinstance(given, str) else called(word, kinds.kind(word))


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
        for key in (*STANDING, *(key for key in OF_ITS_BODY if key not in keys)):
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


HEADER = re.compile(r"\s*\[{1,2}\s*([\w\"'.\s-]+?)\s*\]{1,2}\s*(#.*)?$")
PLAIN_KEY = re.compile(r"[A-Za-z0-9_-]+")


@dataclass(frozen=True)
class _Block:
    """The lines of one table: its head, its own keys, then headings below it and remarks."""

    head: str
    keys: tuple[tuple[str, tuple[str, ...]], ...]
    rest: tuple[str, ...]


def rewritten(
    text: str,
    tables: Edited,
    after: Read,
    reads: Callable[[str, str], object] = read_text,
) -> str:
    """The text of the file that ``tables`` was made from, changed.

    ``reads`` makes of a text and its name what ``after`` is.

    Raises
    ------
    OutputError
        If the text cannot be changed so that it reads as ``after``.
    """
    try:
        new = _rewritten(text, tables)
        again = reads(new, after.source_file)
    except (ArrangeError, ValueError, LookupError) as error:
        raise _refused(str(error)) from error
    if again != after:
        raise _refused("it does not read as what was asked")
    return new


def coming_in(text: str, amount: Decimal) -> str:
    """The text with that sum as ``comes_in`` under ``[money]``, in the place of one there."""
    ending = "\r\n" if "\r\n" in text else "\n"
    lines = without(text, (), (("money", "comes_in"),)).split(ending)
    at = next((i for i, line in enumerate(lines) if _heading(line) == "money"), None)
    if at is None:
        at = len(lines) + 1
        lines += ["", "[money]"]
    lines.insert(at + 1, f"comes_in = {amount} # what other pieces are sold for")
    return ending.join(lines)


def without(text: str, tables: Sequence[str], keys: Sequence[tuple[str, str]]) -> str:
    """The text without these tables and keys; a key is named with its heading, "" at the top.

    ValueError or LookupError if it is written in an unusual way.
    """
    ending = "\r\n" if "\r\n" in text else "\n"
    lines, out, at, under = text.split(ending), list[str](), 0, ""
    while at < len(lines):
        heading = _heading(lines[at])
        under = heading or under
        if heading in tables:
            end = _end(lines, at, heading)
            at = 1 + max(i for i in range(at, end) if _says(lines[i]))
            while out and out[-1].startswith("#"):  # what is said of it right above it
                out.pop()
            while at < len(lines) and not lines[at].strip() and not (out and out[-1].strip()):
                at += 1
            continue
        value = _value(lines, at) if _key(lines[at]) else [lines[at]]
        out += [] if (under, _key(lines[at])) in keys else value
        at += len(value)
    return ending.join(out)


class NewFile:
    """The changed scenario as a file of its own, made ready first and written last.

    Raises
    ------
    OutputError
        When it is made: ``target`` exists, or the text cannot be changed safely.
        When it is written: nothing can be written there, or something is there by
        now. Nothing is ever written over.
    """

    def __init__(
        self,
        target: Path,
        text: str,
        tables: Edited,
        after: Read,
        reads: Callable[[str, str], object] = read_text,
    ) -> None:
        self.target = target
        if target.exists() or target.is_symlink():
            raise OutputError(
                f"{target}: is there already and will not be overwritten; use a new name"
            )
        if not target.parent.is_dir():
            raise OutputError(f"{target}: there is no folder {target.parent}")
        self.text = rewritten(text, tables, after, reads)

    def write(self) -> None:
        """Write the file, whole or not at all."""
        ours = False
        try:
            with self.target.open("x", encoding="utf-8", newline="") as file:
                ours = True
                file.write(self.text)
        except OSError as error:
            if ours:  # a part of it: the disk is full
                with suppress(OSError):
                    self.target.unlink()
            why = error.strerror or str(error)
            raise OutputError(f"{self.target}: cannot be written ({why})") from error


def _refused(why: str) -> OutputError:
    return OutputError(f"the changed scenario cannot be written: {why}; change the file by hand")


def _rewritten(text: str, tables: Edited) -> str:
    ending = "\r\n" if "\r\n" in text else "\n"
    lines = text.split(ending)
    olds = {
        "piece": list(zip(tables.source.get("piece", ()), tables.pieces, strict=True)),
        "wish": list(zip(tables.source.get("wish", ()), tables.wishes, strict=True)),
    }
    out: list[str] = []
    last_piece = None
    at = 0
    while at < len(lines):
        name = _heading(lines[at])
        if name not in olds:
            out.append(lines[at])
            at += 1
            continue
        end = _end(lines, at, name)
        row, rows = olds[name].pop(0)
        out += _table(lines[at:end], row, rows)
        at = end
        if name == "piece":
            last_piece = len(out)
    if any(olds.values()) or last_piece is None:
        raise ValueError("its pieces are not written under headings of their own")
    while last_piece and not _says(out[last_piece - 1]):
        last_piece -= 1
    added = [line for row in tables.added for line in ("", "[[piece]]", *_written(row))]
    return ending.join([*out[:last_piece], *added, *out[last_piece:]])


def _says(line: str) -> bool:
    return bool(line.strip()) and not line.lstrip().startswith("#")


def _heading(line: str) -> str:
    """What a table is called whose heading stands on the line; empty if none does."""
    found = HEADER.fullmatch(line)
    return found[1].replace(" ", "") if found and "[" in line.split("#", maxsplit=1)[0] else ""


def _end(lines: list[str], start: int, name: str) -> int:
    """Where the table ends: at the next heading that does not belong below it."""
    at = start + 1
    while at < len(lines):
        # A value over several lines can look like headings: it is passed over whole.
        if _key(lines[at]):
            at += len(_value(lines, at))
            continue
        heading = _heading(lines[at])
        if heading and not heading.startswith(f"{name}."):
            return at
        at += 1
    return at


def _key(line: str) -> str:
    found = re.match(r"\s*([A-Za-z0-9_-]+|\"[^\"]+\"|'[^']+')\s*(?=[=.])", line)
    return found[1].strip("\"'") if found else ""


def _value(lines: list[str], at: int) -> list[str]:
    """The lines from a key to the end of its value."""
    for end in range(at + 1, len(lines) + 1):
        try:
            tomllib.loads("\n".join(lines[at:end]))
        except tomllib.TOMLDecodeError:
            continue
        return lines[at:end]
    raise ValueError(f"line {at + 1} is not understood")


def _table(lines: list[str], row: Row, rows: tuple[Row, ...]) -> list[str]:
    """The lines of one table as those of what became of it."""
    if len(rows) == 1 and rows[0] == row:
        return lines
    block = _block(lines)
    if not rows:
        # Remarks at the end may belong to what follows; nothing else is left of the table.
        tail = list(lines)
        last = max(i for i, line in enumerate(lines) if _says(line))
        return _without_double_gap(tail[last + 1 :])
    out: list[str] = []
    for index, new in enumerate(rows):
        final = index == len(rows) - 1
        out += _changed(block, row, new, final=final)
        out += [] if final else [""]
    return out


def _without_double_gap(lines: list[str]) -> list[str]:
    return lines[1:] if lines and not lines[0].strip() else lines


def _block(lines: list[str]) -> _Block:
    keys: list[tuple[str, tuple[str, ...]]] = []
    at = 1
    remarks: list[str] = []
    while at < len(lines) and not _heading(lines[at]):
        key = _key(lines[at])
        value = _value(lines, at) if key else [lines[at]]
        if key:
            keys += [("", (line,)) for line in remarks]
            keys.append((key, tuple(value)))
            remarks = []
        else:
            remarks += value
        at += len(value)
    return _Block(lines[0], tuple(keys), (*remarks, *lines[at:]))


def _changed(block: _Block, row: Row, new: Row, *, final: bool) -> list[str]:
    out = [block.head]
    own = {key for key, _ in block.keys}
    for key, lines in block.keys:
        if key and key not in new:
            continue
        if key and new[key] != row[key]:
            out.append(f"{_written({key: new[key]})[0]}{_remark(lines)}")
        else:
            out += lines
    out += _written({key: value for key, value in new.items() if key not in row})
    below = {key: value for key, value in new.items() if key in row and key not in own}
    if final:
        return out + (list(block.rest) if below else _unheaded(block.rest))
    return out + _written(below)


def _unheaded(lines: tuple[str, ...]) -> list[str]:
    """Without the tables below this one: remarks alone."""
    first = next((i for i, line in enumerate(lines) if _heading(line)), len(lines))
    last = max((i for i, line in enumerate(lines) if _says(line)), default=-1)
    return [*lines[:first], *lines[max(first, last + 1) :]]


def _remark(lines: tuple[str, ...]) -> str:
    """The comment behind a value on one line, with the gap before it."""
    line = lines[-1]
    for at, letter in enumerate(line):
        if letter != "#":
            continue
        try:
            tomllib.loads("\n".join([*lines[:-1], line[:at]]))
        except tomllib.TOMLDecodeError:
            continue
        return f" {line[at:]}"
    return ""


def _written(row: Row) -> list[str]:
    """Keys and values as lines."""
    return [f"{_key_text(key)} = {_value_text(value)}" for key, value in row.items()]


def _key_text(key: str) -> str:
    return key if PLAIN_KEY.fullmatch(key) else json.dumps(key, ensure_ascii=False)


def _value_text(value: Any) -> str:  # noqa: ANN401
    if isinstance(value, Mapping):
        return f"{{ {', '.join(_written(value))} }}" if value else "{}"
    if isinstance(value, list):
        return f"[{', '.join(map(_value_text, value))}]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False)
    return repr(value)
