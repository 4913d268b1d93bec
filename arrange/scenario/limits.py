"""How much a scenario file may hold: bytes, depth, tables, keys, characters.

A file can come from anybody. So everything is counted before anything is made of it, and
the time that reading takes is bounded by these numbers. They are far beyond what a room at
home has, and stand in scenarios/README.md for those who write the files.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, BinaryIO

from arrange.errors import Fault, ScenarioError
from arrange.scenario.faults import Faults, shown
from arrange.scenario.outline import MOST_CORNERS

MOST_BYTES = 200_000  # the longest example has 2000
DEEPEST = 8  # tables in tables; a clearance is five down
MOST_KEYS = 60  # of one table
LONGEST_KEY = 60  # characters
LONGEST_VALUE = 1000  # characters of any text; names are shorter yet
WIDEST_NUMBER = 64  # bits, as TOML has it
MOST_PIECES = 60
MOST_ROWS = 100  # of any list that is not named here
MOST = {
    "room.corners": MOST_CORNERS,
    "room.wall": MOST_CORNERS,
    "room.check": 40,
    "room.bay": 6,
    "room.slope": 4,
    "room.beam": 12,
    "room.dormer": 6,
    "door": 12,
    "window": 24,
    "fixture": 40,
    "piece": MOST_PIECES,
    "wish": 120,
    "textile": 24,
    "paint": 60,
    "rule": 60,
    "person": 12,
    "costs.untouchable": 120,
}
PIPED = "name a scenario file (.toml), or - to read what is piped in"
FEWER = "a file describes one room; leave out what the arrangement does not depend on"
PART = r"""(?:(?<![\w-])[\w-]++|"[^"\n]*+"|'[^'\n]*+')"""
# Reading a key takes the square of its parts, so keys of many parts are refused unread.
LONG_PATH = re.compile(rf"{PART}(?:[ \t]*+\.[ \t]*+{PART}){{{2 * DEEPEST}}}")


def text_in(file: BinaryIO, name: str, most: int = MOST_BYTES) -> str:
    """The text of an open file or stream, of which no more than ``most`` bytes are ever read.

    Raises
    ------
    ScenarioError
        If it is longer, or not UTF-8; ``name`` stands before the message.
    """
    found = bytearray()
    while len(found) <= most and (more := file.read(most + 1 - len(found))):
        found += more
    if len(found) > most:
        wanted = "a scenario is a short text file" if most == MOST_BYTES else "no more is read"
        raise _refused(name, f"over {most // 1000} kB", wanted, "is it one?")
    try:
        return found.decode("utf-8-sig")
    except UnicodeDecodeError:
        wanted = "save it as plain text in UTF-8"
        raise _refused(name, "not UTF-8 text", wanted, "is it a picture?") from None


def text_of(where: str | Path, most: int = MOST_BYTES) -> str:
    """The text of a file; ScenarioError in plain words where it cannot be read."""
    path, file = Path(where), str(where)
    try:
        if path.is_dir():
            raise _refused(file, "this is a folder", "name a scenario file (.toml) in it")
        if path.exists() and not path.is_file():  # a named pipe waits for its writer
            raise _refused(file, "this is not a file but a device or a pipe", PIPED)
        with path.open("rb") as opened:
            return text_in(opened, file, most)
    except ScenarioError:
        raise
    except FileNotFoundError:
        raise _refused(file, "not found", "check the name and the folder") from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise _refused(file, f"cannot be read ({reason})", "try another file") from None


def check_paths(text: str, name: str) -> None:
    """Refuse a key of very many parts, such as ``a.a.a.a``; ScenarioError."""
    if (found := LONG_PATH.search(text)) is not None:
        line = text.count("\n", 0, found.start()) + 1
        given = f"a key with more than {2 * DEEPEST} dots"
        raise ScenarioError(name, (Fault(f"line {line}", given, "a key is one or two words"),))


def check_counts(data: Mapping[str, Any], faults: Faults) -> None:
    """Note every table that is too deep, too long or too wide, and stop if there is one."""
    for where, value, depth in _walk(data):
        if depth > DEEPEST:
            given = f"tables in tables, more than {DEEPEST} deep"
            faults.add(where, given, "a scenario has no more than five", "check the dots in keys")
        elif isinstance(value, Mapping):
            _check_keys(where, value, faults)
        elif isinstance(value, list) and len(value) > (most := _most(where)):
            faults.add(where, f"{len(value)} given", f"at most {most} are read", FEWER)
        elif isinstance(value, str) and len(value) > LONGEST_VALUE:
            faults.add(where, f"{len(value)} characters", f"at most {LONGEST_VALUE} are read")
        elif isinstance(value, int) and value.bit_length() > WIDEST_NUMBER:
            faults.add(where, "a huge number", "no number in a room is that large", "check it")
    _check_pieces(data, faults)
    faults.stop()


def _walk(data: Mapping[str, Any]) -> Iterator[tuple[str, object, int]]:
    """Every value with its place and depth; nothing inside what is too deep or too long."""
    waiting: list[tuple[str, object, int]] = [("", data, 0)]
    while waiting:
        where, value, depth = waiting.pop()
        yield where, value, depth
        inner: list[tuple[str, object]] = []
        if depth > DEEPEST:
            continue
        if isinstance(value, Mapping) and len(value) <= MOST_KEYS:
            inner = [(_at(where, key), one) for key, one in value.items() if _short(key)]
        elif isinstance(value, list) and len(value) <= _most(where):
            inner = [(f"{where}[{i}]", one) for i, one in enumerate(value, 1)]
        waiting += [(at, one, depth + 1) for at, one in reversed(inner)]


def _at(where: str, key: str) -> str:
    return f"{where}.{key}" if where else key


def _short(key: str) -> bool:
    return len(key) <= LONGEST_KEY


def _most(where: str) -> int:
    return MOST.get(where, MOST_ROWS)


def _check_keys(where: str, table: Mapping[str, object], faults: Faults) -> None:
    if len(table) > MOST_KEYS:
        faults.add(where, f"{len(table)} keys given", f"no table has more than {MOST_KEYS}")
        return
    for key in table:
        if not _short(key):
            given = f"the key {shown(key)} has {len(key)} characters"
            faults.add(where, given, f"no key has more than {LONGEST_KEY}", "check its spelling")


def _check_pieces(data: Mapping[str, Any], faults: Faults) -> None:
    """Pieces are made for every ``count``; they are added up before."""
    rows = data.get("piece")
    if not isinstance(rows, list) or len(rows) > MOST_PIECES:
        return
    counts = [row.get("count", 1) for row in rows if isinstance(row, Mapping)]
    total = sum(c for c in counts if isinstance(c, int) and 0 < c < 2**WIDEST_NUMBER)
    if total > MOST_PIECES:
        faults.add("piece", f"{_told(total)} pieces in all", f"at most {MOST_PIECES} can be placed")


def _told(total: int) -> str:
    return str(total) if total < 10**6 else "over a million"


def _refused(name: str, given: str, allowed: str, hint: str = "") -> ScenarioError:
    return ScenarioError(name, (Fault("", given, allowed, hint),))
