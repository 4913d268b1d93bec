"""Choosing against asking of every choice by itself: the same best, and how much sooner.

    python -m benchmarks.choosing --rooms 20 --sample 10
    python -m benchmarks.choosing --needs 3 --each 2

A room of each seed leaves open four needs with five candidates each. The best value is held
against what choices are worth by themselves, each searched to the proof: all within the budget,
or so many drawn at random and the one chosen, of which none may be worth more; the time for all
is worked out from them. Where all are asked for, so are those that cost up to a little more than
there is, and the curve must be the choices that none of them beats on cost and value: none
missing, none too many. Times are of the processor, all threads together.
"""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Mapping
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from decimal import Decimal
from functools import partial
from pathlib import Path
from statistics import median

import click

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from by_itself import value_by_itself
from open_rooms import open_room

from arrange.budget import Budget
from arrange.data.choosing import Choosing, spendable
from arrange.data.need import Choice
from arrange.data.result import NOTHING
from arrange.scenario.needs import OpenScenario
from arrange.whatif.choosing import Chooser
from benchmarks.report import circumstances, conclude, over_rooms

LIMIT = 3600.0  # s for one answer
FURTHER = Decimal(60)  # the curve goes so far beyond what may be spent


@dataclass(frozen=True)
class Tried:
    """One room: its ways to choose, those within the budget, seconds of the processor."""

    seed: int
    ways: int
    within: int
    questions: int
    seconds: float
    each: float  # for one choice by itself
    curve: int  # choices on the curve; 0 where it was not held against all
    faults: tuple[str, ...]

    @property
    def times(self) -> float:
        """How much longer all within the budget take one by one."""
        return self.each * self.within / self.seconds

    @property
    def times_all(self) -> float:
        """How much longer all ways to choose take one by one."""
        return self.each * self.ways / self.seconds


def one(seed: int, needs: int, each: int, sample: int) -> Tried | None:
    """One room, both ways; None where nothing is within the budget."""
    file = open_room(seed, needs, each)
    limit = spendable(file.whole.money)
    within = list(file.needs.choices(limit))
    if not within:
        return None
    began = time.process_time()
    found = Chooser(file, Budget(LIMIT), seed, lambda _: None, Decimal(0)).answer(1, curve=False)
    seconds = time.process_time() - began
    rng = random.Random(seed)
    some = rng.sample(within, sample) if 0 < sample < len(within) else within
    began = time.process_time()
    values = {choice: value_by_itself(file, choice, LIMIT) for choice in some}
    by_one = (time.process_time() - began) / len(some)
    faults = _best_faults(file, found, values)
    points = 0
    if len(some) == len(within):
        points, more = _curve_faults(file, seed, values)
        faults += more
    ways = sum(1 for _ in file.needs.choices())
    asked = found.tally.asked
    return Tried(seed, ways, len(within), asked, seconds, by_one, points, tuple(faults))


def _best_faults(file: OpenScenario, found: Choosing, values: Mapping[Choice, int]) -> list[str]:
    """Where the best choice is not that of trying them."""
    most = max(values.values())
    if found.best is None:
        sure = found.outcome == "impossible" and most == NOTHING
        return [] if sure else [f"{found.outcome}, and one has {most}"]
    alone = value_by_itself(file, found.best.choice, LIMIT)
    if found.outcome == "proven" and most <= found.best.value == alone:
        return []
    return [f"{found.outcome} {found.best.value}, by itself {alone}, most of all {most}"]


def _curve_faults(
    file: OpenScenario, seed: int, values: Mapping[Choice, int]
) -> tuple[int, list[str]]:
    """How many choices are on the curve, and where it is not that of comparing all with all."""
    every = dict(values)
    for choice in file.needs.choices((spendable(file.whole.money) or Decimal(0)) + FURTHER):
        if choice not in every:
            every[choice] = value_by_itself(file, choice, LIMIT)
    worth = {(choice.cost, value) for choice, value in every.items() if value > NOTHING}
    unbeaten = {
        (cost, value)
        for cost, value in worth
        if not any(c <= cost and v >= value and (c, v) != (cost, value) for c, v in worth)
    }
    found = Chooser(file, Budget(LIMIT), seed, lambda _: None, FURTHER).answer(1, curve=True)
    curve = {(one.choice.cost, one.value) for one in found.curve}
    faults = [] if found.complete or not unbeaten else ["the curve is not complete"]
    faults += [f"missing of the curve: {point}" for point in sorted(unbeaten - curve)]
    faults += [f"wrongly on the curve: {point}" for point in sorted(curve - unbeaten)]
    return len(unbeaten), faults


@click.command()
@over_rooms(100, 1)
@click.option("--needs", default=4, show_default=True)
@click.option("--each", default=5, show_default=True, help="Candidates for each need.")
@click.option("--sample", default=0, show_default=True, help="0: every choice by itself.")
def main(
    rooms: int, start: int, processes: int, *, write: bool, needs: int, each: int, sample: int
) -> None:
    """Compare best values and times."""
    some = f"{sample} choices a room" if sample else "every choice"
    lines = [circumstances(f"{needs} needs, {each} candidates each; {some} by itself"), ""]
    ask = partial(one, needs=needs, each=each, sample=sample)
    with ProcessPoolExecutor(processes) as pool:
        found: list[Tried] = []
        for tried in pool.map(ask, range(start, start + rooms)):
            if tried is not None:
                found.append(tried)
                click.echo(_told(tried))
    lines += [
        f"- rooms: {len(found)}, ways to choose: {sum(t.ways for t in found)}, within the budget: "
        f"{sum(t.within for t in found)}, questions: {sum(t.questions for t in found)}",
        f"- times sooner than each of these by itself: {_spread([t.times for t in found])}",
        f"- than every way by itself: {_spread([t.times_all for t in found])}",
        f"- curves held against all: {sum(t.curve > 0 for t in found)}, with "
        f"{sum(t.curve for t in found)} choices on them",
        f"- rooms with faults: {sum(bool(t.faults) for t in found)}",
    ]
    title = "Choosing" if sample else "Choosing, every choice by itself"
    conclude(title, lines, write=write, faulty=any(t.faults for t in found))


def _told(tried: Tried) -> str:
    faults = f"; FAULT: {'; '.join(tried.faults)}" if tried.faults else ""
    return (
        f"seed {tried.seed}: {tried.ways} ways, {tried.within} within the budget, "
        f"{tried.questions} questions, {tried.seconds:.1f} s; {tried.times:.1f} times sooner, "
        f"than all ways {tried.times_all:.1f}{faults}"
    )


def _spread(times: list[float]) -> str:
    return f"median {median(times):.1f}, {min(times):.1f} to {max(times):.1f}"


if __name__ == "__main__":
    main()
