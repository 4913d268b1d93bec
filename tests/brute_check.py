"""Compares the solver with brute force on one tiny room."""

from __future__ import annotations

import random
from dataclasses import dataclass

from brute_force import Grid, Spot

from arrange.data.scenario import Scenario
from arrange.judge import judge
from arrange.suggesting import suggest

MOST = 60_000  # arrangements without shared space; bigger rooms are left out
SAMPLE = 4


@dataclass(frozen=True)
class Compared:
    """Tenths of a point, -1 where nothing works; what is wrong (nothing, it is hoped)."""

    seed: int
    tried: int
    grid: int
    solver: int
    faults: tuple[str, ...]


def compare(seed: int, scenario: Scenario, *, walk: bool) -> Compared | None:
    """None if the room has more arrangements than are tried."""
    grid = Grid(scenario)
    working: list[tuple[int, int, tuple[Spot, ...]]] = []
    failing: list[tuple[Spot, ...]] = []
    tried = 0
    for spots in grid.arrangements():
        tried += 1
        if tried > MOST:
            return None
        if grid.works(spots):
            working.append((grid.score(spots), -tried, spots))
        elif tried % 97 == 0:
            failing.append(spots)
    working.sort(reverse=True)
    faults = _judge_agrees(seed, grid, working, failing, walk=walk)
    best = _best(grid, working)
    try:
        result = suggest(scenario, top=1, seconds=60)
    except Exception as error:  # a crash is a finding too
        return Compared(seed, tried, best, -1, (*faults, f"{type(error).__name__}: {error}"))
    score = result.suggestions[0].verdict.score if result.suggestions else -1
    if result.outcome not in ("proven", "impossible"):
        faults.append(f"not decided: {result.outcome}")
    if result.suggestions and not judge(scenario, result.suggestions[0].arrangement).works:
        faults.append("the answer does not work")
    if (score < best) if walk else (score != best):
        faults.append(f"solver {score}, grid {best}")
    return Compared(seed, tried, best, score, tuple(faults))


def _best(grid: Grid, working: list[tuple[int, int, tuple[Spot, ...]]]) -> int:
    """The score of the best that the judge passes; only the walkway can be in its way."""
    for score, _, spots in working:
        if judge(grid.scenario, grid.arrangement(spots)).works:
            return score
    return -1


def _judge_agrees(
    seed: int,
    grid: Grid,
    working: list[tuple[int, int, tuple[Spot, ...]]],
    failing: list[tuple[Spot, ...]],
    *,
    walk: bool,
) -> list[str]:
    """The judge's word on the best, the worst and a sample; on what does not work, too."""
    rng = random.Random(seed)  # noqa: S311
    faults: list[str] = []
    for score, _, spots in [*working[:1], *_sample(rng, working), *working[-1:]]:
        verdict = judge(grid.scenario, grid.arrangement(spots))
        others = [b.sentence for b in verdict.breaches if not (walk and b.rule == "walkway")]
        if others or verdict.score != score:
            faults.append(f"judge {verdict.score} {others}, grid {score}: {spots}")
    faults += [
        f"judge passes what the grid refuses: {spots}"
        for spots in _sample(rng, failing)
        if judge(grid.scenario, grid.arrangement(spots)).works
    ]
    return faults


def _sample(rng: random.Random, things: list) -> list:
    return rng.sample(things, min(SAMPLE, len(things)))
