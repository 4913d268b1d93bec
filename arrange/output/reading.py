"""Reads a ``result.json`` back: an arrangement to draw, and to judge again where that can be done.

A result holds the room and the pieces as records, and names the scenario file it was made
from. The judge needs that file. Nothing in the file is trusted (see ``gate``); then the
records are read as their fields ask (see ``fields``). Lengths in mm.
"""

from __future__ import annotations

import json
import os
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from arrange.data.comparison import Unjudged
from arrange.data.need import Choice
from arrange.data.piece import Piece
from arrange.data.result import Spare, Suggestion
from arrange.data.scenario import Scenario, Unit
from arrange.errors import Fault, ScenarioError
from arrange.output.fields import FORMAT, About, from_points, read_as
from arrange.output.files import RESULT, settle
from arrange.output.gate import MOST_ARRANGEMENTS, MOST_BYTES, check_result
from arrange.output.records import SUGGESTION
from arrange.output.rooms import PLACED, read_room
from arrange.scenario.faults import shown
from arrange.scenario.needs import OpenScenario, read_open
from arrange.scenario.read import read

CHOICE = "choice.json"
MOST_CHOICES = 50
NUMBERED = re.compile(r"(?P<file>.+?)(#(?P<rank>[0-9]{1,9}))?")
WANTED = "a result.json that arrange suggest wrote is needed"


@dataclass(frozen=True)
class ReadArrangement:
    """One arrangement of an earlier result. ``scenario`` is good for drawing, not for judging.

    ``at_most`` is the most, in tenths, that any arrangement of that scenario can score;
    ``moved_from`` names the file that a version was made from, empty for other results;
    ``made_of`` is the mark of the scenario without usual ties and held pieces.
    """

    file: Path
    made_from: str
    scenario: Scenario
    suggestion: Suggestion
    at_most: int
    spare: tuple[Spare, ...]
    moved_from: str
    made_of: str

    def again(self) -> tuple[Scenario | None, Unjudged | None]:
        """The scenario it was made from; or None and why it cannot be had."""
        if not self.made_from:
            return None, Unjudged("unnamed")
        for path in _places(self.file, self.made_from):
            try:
                scenario = read(path)
            except ScenarioError:
                return None, Unjudged("unreadable", str(path))
            if self.fits(scenario):
                return scenario, None
            return None, Unjudged("changed", str(path))
        return None, Unjudged("missing", self.made_from)

    def fits(self, scenario: Scenario) -> bool:
        """Whether the same pieces are asked for, in the same room."""
        then, now = self.scenario, scenario
        bodies = [{p.name: _body(p) for p in each.pieces} for each in (then, now)]
        return bodies[0] == bodies[1] and then.room.corners == now.room.corners


def _places(file: Path, named: str) -> list[Path]:
    """Where the scenario may be that a file names: as it says, or near that file."""
    near, path = file.parent, Path(named)
    places = (path, near / path, near / path.name, near.parent / path.name)
    # That of a path fails where a name is too long.
    return [place for place in places if os.path.isfile(place)]  # noqa: PTH113


@dataclass(frozen=True)
class ReadChoice:
    """One choice of an earlier ``choice.json``, as its scenario file reads now."""

    file: Path
    open: OpenScenario
    choice: Choice
    scenario: Scenario
    earlier: ReadArrangement


def read_choice(path: Path, rank: int) -> ReadChoice:
    """Choice number ``rank`` of the file at ``path``; first a killed run is finished.

    Sums are those of the scenario file as it is now.

    Raises
    ------
    ScenarioError
        If there is no such file or choice, or its scenario is gone or says something else.
    """
    settle(path.parent)
    data = json_in(path)
    listed = data.get("choices")
    if data.get("format") != FORMAT or not isinstance(listed, list) or len(listed) > MOST_CHOICES:
        raise _refused(path, "not what arrange choose writes", "a choice.json is needed")
    if not 1 <= rank <= len(listed):
        raise _refused(path, f"no choice #{shown(rank)}", _numbers(len(listed)))
    one = listed[rank - 1]
    names = one.get("candidates") if isinstance(one, Mapping) else None
    plan = one.get("plan") if isinstance(one, Mapping) else None
    if not isinstance(names, list) or not isinstance(plan, Mapping):
        raise _refused(path, "not what arrange choose writes", "a choice.json is needed")
    earlier = _numbered(path, plan, 1)
    file = str(data.get("scenario_file") or "")
    for place in _places(path, file):
        found = read_open(place)
        try:
            scenario = found.scenario([str(name) for name in names])
        except KeyError:
            break
        if not earlier.fits(scenario):
            break
        return ReadChoice(path, found, found.needs.choice(names), scenario, earlier)
    made = shown(file) if file else "its scenario file"
    raise _refused(path, f"{made} is gone, or has been changed since", "run arrange choose again")


def _body(piece: Piece) -> tuple[object, ...]:
    """What of the file its place depends on."""
    size = piece.width, piece.depth, piece.bottom, piece.top
    rims = piece.headboard, piece.footboard, piece.rails
    arm = piece.arm_side, piece.arm_width, piece.back_depth
    return *size, piece.shape, piece.corner, *arm, *rims


def result_named(word: str) -> tuple[Path, int]:
    """The file and the number of an arrangement that is called FILE#2, or by its folder.

    In a folder it is that of a suggestion, or of a choice if there is none.
    """
    parts = NUMBERED.fullmatch(word)
    file, rank = (parts["file"], int(parts["rank"] or 1)) if parts else (word, 1)
    folder = os.path.isdir(file)  # noqa: PTH112  that of a path fails where a name is too long
    if not folder:
        return Path(file), rank
    only_choice = not (Path(file) / RESULT).exists() and (Path(file) / CHOICE).is_file()
    return Path(file) / (CHOICE if only_choice else RESULT), rank


def read_result(path: Path, rank: int) -> ReadArrangement:
    """Arrangement number ``rank`` of the result at ``path``; first a killed run is finished.

    Raises
    ------
    ScenarioError
        If there is no such file, it is no result, or it has no such arrangement.
    """
    settle(path.parent)
    return _numbered(path, _data(path), rank)


def read_plans(path: Path, most: int) -> list[ReadArrangement]:
    """The first ``most`` arrangements of the result at ``path``; ScenarioError as above."""
    settle(path.parent)
    data = _data(path)
    count = len(data["arrangements"]) if isinstance(data["arrangements"], list) else 1
    return [_numbered(path, data, rank) for rank in range(1, min(count, most) + 1)]


def _numbered(path: Path, data: Mapping[str, Any], rank: int) -> ReadArrangement:
    try:
        listed = data["arrangements"]
        if data["format"] != FORMAT or not isinstance(listed, list):
            raise _no_result(path, f"format {shown(data['format'])}")
        if len(listed) > MOST_ARRANGEMENTS:
            raise _no_result(path, f"{len(listed)} arrangements")
        if not 1 <= rank <= len(listed):
            raise _refused(path, f"no arrangement #{shown(rank)}", _numbers(len(listed)))
        check_result(data, rank, str(path))
        return _read(path, data, listed[rank - 1])
    except (KeyError, TypeError, ValueError, AttributeError, IndexError) as error:
        if isinstance(error, ScenarioError):
            raise
        raise _no_result(path, "not what arrange suggest writes") from None


def _data(path: Path) -> Mapping[str, Any]:
    data = json_in(path)
    if "arrangements" not in data or "format" not in data:
        raise _no_result(path, "not what arrange suggest writes")
    return data


def json_in(path: Path) -> Mapping[str, Any]:
    """The record that a file holds, of which no more than the limit is read. ScenarioError."""
    try:
        if path.exists() and not path.is_file():  # a named pipe waits for its writer
            raise _no_result(path, "this is not a file but a folder, a device or a pipe")
        with path.open("rb") as opened:
            found = opened.read(MOST_BYTES + 1)
        if len(found) > MOST_BYTES:
            raise _no_result(path, f"over {MOST_BYTES // 10**6} MB")
        data = json.loads(found.decode("utf-8"))
    except FileNotFoundError:
        raise _refused(path, "not found", "check the name and the folder") from None
    except OSError as error:
        raise _refused(path, "cannot be read", error.strerror or str(error)) from None
    except (ValueError, RecursionError) as error:
        if isinstance(error, ScenarioError):
            raise
        raise _no_result(path, "not JSON") from None
    if not isinstance(data, dict):
        raise _no_result(path, "not what arrange suggest writes")
    return data


def _numbers(count: int) -> str:
    if not count:
        return "it has none"
    return "it has one, #1" if count == 1 else f"it has #1 to #{count}"


def _no_result(path: Path, given: str) -> ScenarioError:
    return _refused(path, given, WANTED)


def _refused(path: Path, given: str, allowed: str) -> ScenarioError:
    return ScenarioError(str(path), (Fault("", given, allowed),))


def _read(path: Path, data: Mapping[str, Any], one: Mapping[str, Any]) -> ReadArrangement:
    nowhere = About(Scenario("", read_room(data["room"]), ()))
    unit = read_as(Unit, data["unit"], nowhere)
    width = read_as(int, one["walkway"]["width"], nowhere)
    empty = replace(nowhere.scenario, title=str(data["title"]), unit=unit, walkway=width)
    about = About(empty)
    return ReadArrangement(
        path,
        str(data.get("scenario_file") or ""),
        replace(empty, pieces=tuple(PLACED.read(piece, about) for piece in one["pieces"])),
        SUGGESTION.read(one, about),
        from_points(data["at_most"]),
        read_as(tuple[Spare, ...], one.get("spare", []), about),
        str(data.get("moved", {}).get("from") or ""),
        str(data.get("made_of") or ""),
    )
