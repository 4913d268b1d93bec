"""Compares the best, the different ones and the families of one tiny room with brute force.

What the suggestions differ by is finer than families, and has its own brute force in
``test_different``. What counts as a family is said here again, in plain words: a major
piece (any piece if none is major) on another wall or turned another way. Alike pieces
that go with the same thing have no order. A plain free piece looks the same turned round,
and a square one however it is turned.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations

from brute_force import Grid

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Piece
from arrange.data.result import Result
from arrange.data.scenario import Scenario
from arrange.different import differ
from arrange.judge import judge
from arrange.suggesting import suggest

MOST = 60_000  # arrangements without shared space; bigger rooms are left out
TOP = 3
ROUND = {"up": "down", "right": "left"}
Ways = dict[object, int]


@dataclass(frozen=True)
class Listed:
    """How many families there are and work, and what is wrong with the answer."""

    seed: int
    tried: int
    families: int
    faults: tuple[str, ...]


def way(scenario: Scenario, arrangement: Arrangement) -> object:
    """What tells an arrangement apart from others, for upright walls."""
    majors = [p for p in scenario.pieces if p.major] or list(scenario.pieces)
    spots = []
    for piece in majors:
        placement = arrangement.of(piece.name)
        wall = placement.wall if piece.anchor is None else None
        facing = str(placement.facing)
        if wall is None and _plain(piece):
            facing = "any" if piece.width == piece.depth else ROUND.get(facing, facing)
        spots.append((piece.model, piece.anchor or "", -1 if wall is None else wall, facing))
    return tuple(sorted(spots))


def _plain(piece: Piece) -> bool:
    return not piece.roles and not piece.clearances


def ways(scenario: Scenario) -> tuple[Ways, int] | None:
    """Each way in which something works with its best score, and how many were tried.

    None if there are too many to try.
    """
    grid, found, tried = Grid(scenario), {}, 0
    for spots in grid.arrangements():
        tried += 1
        if tried > MOST:
            return None
        if grid.works(spots):
            key = way(scenario, grid.arrangement(spots))
            found[key] = max(found.get(key, -1), grid.score(spots))
    return found, tried


def listed(seed: int, scenario: Scenario) -> Listed | None:
    """``suggest`` with families against brute force; None if there is too much to try."""
    tried = ways(scenario)
    if tried is None:
        return None
    expected, count = tried
    try:
        result = suggest(scenario, top=TOP, seconds=60, families=True)
        faults = _faults(scenario, result, expected)
    except Exception as error:  # a crash is a finding too
        faults = [f"{type(error).__name__}: {error}"]
    return Listed(seed, count, len(expected), tuple(faults))


def _faults(scenario: Scenario, result: Result, expected: Ways) -> list[str]:
    if not expected:
        return [] if result.outcome == "impossible" else [f"outcome {result.outcome}, none works"]
    best = max(expected.values())
    scores = [s.verdict.score for s in result.suggestions]
    faults = [] if scores[:1] == [best] else [f"best {scores}, grid {best}"]
    if scores != sorted(scores, reverse=True):
        faults.append(f"not in order: {scores}")
    if not all(s.proven for s in result.suggestions):
        faults.append("not all proven")
    shown = [s.arrangement for s in result.suggestions]
    if not all(differ(scenario, one, two) for one, two in combinations(shown, 2)):
        faults.append("shown twice")
    for suggestion in result.suggestions:
        most = expected.get(way(scenario, suggestion.arrangement), -1)
        if suggestion.verdict.score > most:
            faults.append(f"shown {suggestion.verdict.score}, its way has {most}")
    return faults + _family_faults(scenario, result, expected)


def _family_faults(scenario: Scenario, result: Result, expected: Ways) -> list[str]:
    if result.families is None:
        return ["no families"]
    faults = [] if result.families.complete else ["families not complete"]
    found: Ways = {}
    for family in result.families.families:
        key = way(scenario, family.arrangement)
        if key in found:
            faults.append(f"family twice: {key}")
        found[key] = family.score
        if judge(scenario, family.arrangement).score != family.score:
            faults.append(f"judge gives another score: {key}")
    if found != expected:
        missing, more = expected.items() - found.items(), found.items() - expected.items()
        faults.append(f"families: missing {sorted(missing, key=str)}, more {sorted(more, key=str)}")
    return faults
