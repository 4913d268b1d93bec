"""Choosing against asking of every choice by itself: the same best, and how much sooner.

    python -m benchmarks.choosing --rooms 20 --sample 10

A room of each seed leaves open four needs with five candidates each. The best value is held
against what choices are worth by themselves, each searched to the proof: all within the budget,
or so many drawn at random and the one chosen, of which none may be worth more; the time for all
is worked out from them. Times are of the processor, all threads together.
"""

from __future__ import annotations

import random
import sys
import time
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
from arrange.data.choosing import spendable
from arrange.data.result import NOTHING
from arrange.whatif.choosing import Chooser
from benchmarks.report import circumstances, conclude, over_rooms

LIMIT = 3600.0  # s for one answer


@dataclass(frozen=True)
class Tried:
    """One room: its ways to choose, those within the budget, seconds of the processor."""

    seed: int
    ways: int
    within: int
    questions: int
    seconds: float
    each: float  # for one choice by itself
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
    within = list(file.needs.choices(spendable(file.whole.money)))
    if not within:
        return None
    began = time.process_time()
    found = Chooser(file, Budget(LIMIT), seed, lambda _: None, Decimal(0)).answer(1, curve=False)
    seconds = time.process_time() - began
    rng = random.Random(seed)
    some = rng.sample(within, sample) if 0 < sample < len(within) else within
    began = time.process_time()
    values = [value_by_itself(file, choice, LIMIT) for choice in some]
    by_one = (time.process_time() - began) / len(some)
    faults = []
    if found.best is None:
        if found.outcome != "impossible" or max(values) > NOTHING:
            faults.append(f"{found.outcome}, and one has {max(values)}")
    else:
        alone = value_by_itself(file, found.best.choice, LIMIT)
        if found.outcome != "proven" or not max(values) <= found.best.value == alone:
            faults.append(
                f"{found.outcome} {found.best.value}, by itself {alone}, most of all {max(values)}"
            )
    ways = sum(1 for _ in file.needs.choices())
    asked = found.tally.asked
    return Tried(seed, ways, len(within), asked, seconds, by_one, tuple(faults))


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
        f"- faults: {sum(bool(t.faults) for t in found)}",
    ]
    conclude("Choosing", lines, write=write, faulty=any(t.faults for t in found))


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
