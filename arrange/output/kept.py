"""What earlier runs left in a folder of plans, for an answer that is to come at once.

The plans of ``result.json`` and the sizes proven the largest in ``largest.json`` (and its like
with a number) and ``shop.json``. Only what was made of the very scenario as it is now is
taken: a record says so by the scenario's mark. Nothing in the files is trusted. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from arrange.data.arrangement import Arrangement
from arrange.data.piece import SIZES
from arrange.data.scenario import Scenario
from arrange.data.sizes import DIMENSIONS, Dimension, in_mm, in_steps
from arrange.errors import ScenarioError
from arrange.output.fields import About, versions
from arrange.output.files import RESULT, settle
from arrange.output.gate import (
    LONGEST_SIDE,
    MOST_ROWS,
    NAME,
    PLACE_KEYS,
    check_place,
    flag,
    maybe,
    one_of,
    rows,
    text,
)
from arrange.output.gate import table as keys
from arrange.output.gate import whole as number
from arrange.output.reading import json_in, read_plans
from arrange.output.rooms import read_placement
from arrange.scenario.faults import Faults
from arrange.scenario.limits import MOST_PIECES
from arrange.whatif.fits import Kept, Limit

MOST_PLANS = 6
MOST_FILES = 20  # answers on largest sizes
SHOP = "shop.json"
SIZE = maybe(number(1, LONGEST_SIDE))
MADE = {"made_of": text(NAME), "versions": keys(arrange=text(NAME))}
LARGEST = keys(
    **MADE,
    piece=text(NAME),
    dimension=one_of(*DIMENSIONS),
    answer=text(NAME),
    size=SIZE,
    proven_impossible_from=SIZE,
    places=maybe(rows(keys(piece=text(NAME), **PLACE_KEYS), MOST_PIECES)),
)
ENTRY = keys(piece=text(NAME), widest=SIZE, widest_proven=flag, deepest=SIZE, deepest_proven=flag)
SHOPPING = keys(**MADE, pieces=rows(ENTRY, MOST_ROWS))
Found = tuple[Limit, ...]


@dataclass(frozen=True, slots=True)
class KeptFiles:
    """What can be used, and the names of files that are of another state of the scenario.

    ``unread`` are files that are there and tell nothing: cut off, or by somebody else.
    """

    kept: Kept
    stale: tuple[str, ...] = ()
    unread: tuple[str, ...] = ()


def read_kept(folder: Path, scenario: Scenario, names: Sequence[str]) -> KeptFiles:
    """What is kept in ``folder`` about ``scenario`` and the sizes of ``names``."""
    settle(folder)
    reader = _Reader(scenario, names)
    plans = reader.read(folder / RESULT, reader.plans) or ()
    files = [folder / "largest.json"]
    files += [folder / f"largest-{number}.json" for number in range(2, MOST_FILES)]
    limits = [limit for file in files for limit in reader.read(file, reader.largest) or ()]
    limits += reader.read(folder / SHOP, reader.shopping) or ()
    return KeptFiles(Kept(tuple(plans), tuple(limits)), tuple(reader.stale), tuple(reader.unread))


class _StaleError(Exception):
    """A record of another state of the scenario."""


class _Reader:
    """Reads one file after another and notes what is of no use."""

    def __init__(self, scenario: Scenario, names: Sequence[str]) -> None:
        self.scenario, self.names = scenario, names
        self.stale: list[str] = []
        self.unread: list[str] = []

    def read(self, file: Path, made: Callable[[Path], Any]) -> Any:  # noqa: ANN401  as ``made``
        """What ``made`` makes of a file; None where it is not there or of no use."""
        if not file.is_file():
            return None
        try:
            return made(file)
        except _StaleError:
            self.stale.append(file.name)
        except ScenarioError:
            self.unread.append(file.name)
        return None

    def plans(self, file: Path) -> list[tuple[int, Any]]:
        """The arrangements by their numbers."""
        found = read_plans(file, MOST_PLANS)
        loose = self.scenario.loose.mark
        # A mark can be copied: walls and pieces are compared as well.
        if any(one.made_of != loose or not one.fits(self.scenario) for one in found):
            raise _StaleError
        listed = self.scenario.listed
        return [(i, listed(one.suggestion.arrangement)) for i, one in enumerate(found, 1)]

    def largest(self, file: Path) -> Found:
        """The size proven the largest, if it is about one of the pieces as they are."""
        data = self._checked(file, LARGEST)
        size, more = data["size"], data["proven_impossible_from"]
        if data["piece"] not in self.names or data.get("changes"):
            return ()  # another question
        self._check_mark(data)
        if size is None or (more is not None and size >= more):
            return ()
        proven = int(more) if data["answer"] == "exact" and more is not None else None
        there = self._arrangement(file, data["places"])
        return (Limit(data["piece"], data["dimension"], int(size), proven, there),)

    def _arrangement(self, file: Path, places: list[Mapping[str, Any]] | None) -> Arrangement:
        """The places as an arrangement of the scenario; ScenarioError if they make none."""
        faults, room = Faults(str(file)), self.scenario.room
        walls = {wall.name: wall.length for wall in room.walls}
        names = [place["piece"] for place in places or ()]
        if sorted(names) != sorted(piece.name for piece in self.scenario.pieces):
            faults.add("places", "not one for each piece", "each piece has one place")
        for i, place in enumerate(places or (), 1):
            check_place(f"places[{i}]", place, {"outline": room.corners}, walls, faults)
        faults.stop()
        about = About(self.scenario)
        found = [read_placement({"name": p["piece"], "placement": p}, about) for p in places or ()]
        return self.scenario.listed(Arrangement(tuple(found)))

    def shopping(self, file: Path) -> Found:
        """The widest and the deepest of each piece that no other is like."""
        data = self._checked(file, SHOPPING)
        listed = [entry for entry in data["pieces"] if entry["piece"] in self.names]
        if not listed:
            return ()
        self._check_mark(data)
        alike = [piece.alike for piece in self.scenario.pieces]
        found = []
        for entry in listed:
            # Of alike ones one was asked about, perhaps with other wishes.
            alone = alike.count(self.scenario.piece(entry["piece"]).alike) == 1
            sides: tuple[tuple[Dimension, str], ...] = (("width", "widest"), ("depth", "deepest"))
            for dimension, key in sides:
                if alone and entry[key] and entry[f"{key}_proven"]:
                    found.append(self._limit(entry["piece"], dimension, int(entry[key])))
        return tuple(found)

    def _limit(self, piece: str, dimension: Dimension, size: int) -> Limit:
        unit = self.scenario.unit
        return Limit(piece, dimension, size, in_mm(in_steps(max(size, SIZES[0]), unit) + 1, unit))

    def _checked(self, file: Path, check: Callable[..., None]) -> Mapping[str, Any]:
        data = json_in(file)
        faults = Faults(str(file))
        check(data, "", faults)
        faults.stop()
        return data

    def _check_mark(self, data: Mapping[str, Any]) -> None:
        """A proof is one of this scenario by these rules."""
        same = data["versions"]["arrange"] == versions()["arrange"]
        if not same or data["made_of"] != self.scenario.mark:
            raise _StaleError
