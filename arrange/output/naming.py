"""The names that the files of a run get, beside what earlier runs left in the folder.

A run writes some pictures and, last, a record (``result.json``, ``swap.json``, ...) that lists
them. Their names say what they are. They get an ending, the same for all of them, where an
earlier set would be lost otherwise:

``-2``, ``-3``, ...
    The record there answers another question: other pieces swapped, another size asked. The
    same question finds its own names again.
``-none``
    The record there found more: an arrangement where this run found none, or a proof where
    this run ran out of time. The set that found more stays. The next run that finds as much
    takes its place, and the files ending in ``-none`` go.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import count
from pathlib import Path, PurePath
from typing import Any

RESULT, RUN = "result.json", "run.json"
NONE = "-none"
# What a run may have written. Nothing else is ever removed, whatever an old record says.
OURS = re.compile(
    r"((plan|clash)-[1-9][0-9]{0,3}|overview|survey|today|before-after|ladder|largest|ways-out|compare"
    r"|check|result|run|swap|why)"
    r"(-[1-9][0-9]{0,3})?(-none)?\.(png|svg|pdf|json|csv)"
)
# What a record asks, by the keys that tell it. What is missing from a record is no part of it.
ASKS = (
    *("title", "changes", "kept", "piece", "dimension", "sizes_of", "untouchable"),
    # of a comparison, the options as they were named
    "options",
)
FOUND, PROVEN_NOT, OPEN = 2, 1, 0
WORTH = dict.fromkeys(("impossible",), PROVEN_NOT)
WORTH |= dict.fromkeys(("nothing found", "not decided"), OPEN)
WORTH |= dict.fromkeys(("works", "broken", "proven", "found", "exact", "at least"), FOUND)


@dataclass(frozen=True, slots=True)
class Names:
    """What the files of a run are called, and what becomes of those before.

    Attributes
    ----------
    ending
        Between the name and the suffix of every file; empty where it is needed for nothing.
    stale
        Names of files of an earlier run that this one takes the place of and does not write.
    instead
        One sentence for the person where a name is not the usual one; else empty.
    """

    ending: str = ""
    stale: tuple[str, ...] = ()
    instead: str = ""

    def of(self, name: str) -> str:
        """The name with the ending.

        >>> Names("-2").of("before-after.png")
        'before-after-2.png'
        """
        return ended(name, self.ending)


def ended(name: str, ending: str) -> str:
    """``name`` with an ending before its suffix."""
    path = PurePath(name)
    return f"{path.stem}{ending}{path.suffix}"


def chosen(folder: Path, names: Sequence[str], record: Mapping[str, Any] | None) -> Names:
    """Names in ``folder`` for a run that writes ``names``, the last one its ``record``.

    Without a record the usual names are taken and nothing is stale. Files that no record
    of ours lists are never stale.
    """
    if record is None:
        return Names()
    last = names[-1]
    own = _own_place(folder, names, record)
    here = folder / ended(last, own)
    ending, instead = own, ""
    if own:
        instead = (
            f"{folder / last} answers another question and stays as it is; "
            f"this answer is in {here.name}."
        )
    if _worth(record) < _worth(_read(here)):
        ending = own + NONE
        instead = (
            f"{here} is from a run that found more, so it stays as it is, with its pictures; "
            f"this answer is in {ended(last, ending)}."
        )
    places = (ending,) if ending.endswith(NONE) else (ending, ending + NONE)
    before = {old for place in places for old in _set(folder, names, place)}
    return Names(ending, tuple(sorted(before - {ended(n, ending) for n in names})), instead)


def _own_place(folder: Path, names: Sequence[str], record: Mapping[str, Any]) -> str:
    """The ending of the first place that is free, or where this question was answered before."""
    for number in count(1):
        ending = f"-{number}" if number > 1 else ""
        place = [ended(name, ending) for name in names]
        there = _read(folder / place[-1]) or _read(folder / ended(place[-1], NONE))
        # The usual names are ours to take; others might be somebody's.
        free = not there and not (ending and any((folder / name).exists() for name in place))
        if free or (there and _question(there) == _question(record)):
            return ending
    raise AssertionError("numbers do not end")


def _set(folder: Path, names: Sequence[str], ending: str) -> set[str]:
    """Files there that belong to the record with that ending, or would have its ending."""
    record = folder / ended(names[-1], ending)
    if not record.is_file():
        return set()
    files = _read(record).get("files")
    listed = {f for f in files if isinstance(f, str)} if isinstance(files, list) else set()
    if ending.endswith(NONE):
        listed |= {ended(name, ending) for name in names}
    return {f for f in listed if OURS.fullmatch(f) and (folder / f).is_file()}


def _question(record: Mapping[str, Any]) -> dict[str, Any]:
    """What the record answers, as far as the record tells it.

    Suggestions and checks are of a scenario, whatever is changed in it: by the name of its
    file, if any.
    """
    if "outcome" in record or "scenario_file" in record:
        file = record.get("scenario_file")
        if isinstance(file, str):
            return {"file": PurePath(file).name}
        return {"title": record.get("title")}
    asked = {key: record[key] for key in ASKS if key in record}
    if "options" in asked:
        asked["options"] = [_get(option, "asked") for option in _list(asked["options"])]
    return asked


def _worth(record: Mapping[str, Any]) -> int:
    """How much was found: an arrangement, the proof that there is none, nothing at all."""
    told = [record.get("outcome"), record.get("answer")]
    told += [_get(size, "works") for size in _list(record.get("sizes"))]
    told += [_get(option, "state") for option in _list(record.get("options"))]
    return max((WORTH.get(word, OPEN) for word in told if isinstance(word, str)), default=OPEN)


def _list(value: object) -> list[object]:
    return value if isinstance(value, list) else []


def _get(one: object, key: str) -> object:
    return one.get(key) if isinstance(one, Mapping) else None


def _read(path: Path) -> Mapping[str, Any]:
    """The record in a file; empty if there is none, or nothing that we wrote."""
    if not path.is_file():  # a named pipe would wait for its writer
        return {}
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return {}
    return data if isinstance(data, dict) else {}
