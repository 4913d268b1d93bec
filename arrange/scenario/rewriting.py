"""The text of a scenario file with pieces changed; comments and everything else stay.

Lines are changed as little as possible. What comes out is read again and must be what
was meant; a file written in an unusual way is refused rather than guessed at.
"""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from arrange.data.scenario import Scenario
from arrange.errors import ArrangeError, OutputError
from arrange.scenario.editing import Edited, Row
from arrange.scenario.read import read_text

HEADER = re.compile(r"\s*\[{1,2}\s*([\w\"'.\s-]+?)\s*\]{1,2}\s*(#.*)?$")
PLAIN_KEY = re.compile(r"[A-Za-z0-9_-]+")


@dataclass(frozen=True)
class _Block:
    """The lines of one table: its head, its own keys, then headings below it and remarks."""

    head: str
    keys: tuple[tuple[str, tuple[str, ...]], ...]
    rest: tuple[str, ...]


def rewritten(text: str, tables: Edited, after: Scenario) -> str:
    """The text of the file that ``tables`` was made from, changed.

    Raises
    ------
    OutputError
        If the text cannot be changed so that it reads as ``after``.
    """
    try:
        new = _rewritten(text, tables)
        again = read_text(new, after.source_file)
    except (ArrangeError, ValueError, LookupError) as error:
        raise _refused(str(error)) from error
    if again != after:
        raise _refused("it does not read as what was asked")
    return new


class NewFile:
    """The changed scenario as a file of its own, made ready first and written last.

    Raises
    ------
    OutputError
        When it is made: ``target`` exists, or the text cannot be changed safely.
        When it is written: nothing can be written there, or something is there by
        now. Nothing is ever written over.
    """

    def __init__(self, target: Path, text: str, tables: Edited, after: Scenario) -> None:
        self.target = target
        if target.exists() or target.is_symlink():
            raise OutputError(f"{target}: is there already and not written over; take a new name")
        if not target.parent.is_dir():
            raise OutputError(f"{target}: there is no folder {target.parent}")
        self.text = rewritten(text, tables, after)

    def write(self) -> None:
        """Write the file."""
        try:
            with self.target.open("x", encoding="utf-8", newline="") as file:
                file.write(self.text)
        except OSError as error:
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
