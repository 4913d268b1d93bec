"""Choosing against asking of every choice by itself: the same best, and how much sooner.

    python -m benchmarks.choosing --seeds 20 --sample 10

A room of each seed leaves open four needs with five candidates each. The answer's best value is
held against what choices are worth by themselves, each searched to the proof: all within the
budget, or so many of them drawn at random, of which none may be worth more, and from which the time
for all is worked out. Times are of the processor, all threads together.
"""

from __future__ import annotations

import random
import sys
import time
from decimal import Decimal
from pathlib import Path
from statistics import median

import click

from arrange.budget import Budget
from arrange.data.choosing import spendable
from arrange.data.need import Choice
from arrange.scenario.needs import OpenScenario
from arrange.whatif.choosing import Chooser

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from by_itself import value_by_itself
from open_rooms import open_room

LIMIT = 3600.0  # s for one answer


def by_themselves(
    file: OpenScenario, choices: list[Choice], sample: int, seed: int
) -> tuple[int, float]:
    """The highest value of the choices (of a sample, if it is above 0), and seconds for one."""
    rng = random.Random(seed)
    if 0 < sample < len(choices):
        choices = rng.sample(choices, sample)
    began = time.process_time()
    values = [value_by_itself(file, choice, LIMIT) for choice in choices]
    return max(values), (time.process_time() - began) / len(choices)


@click.command()
@click.option("--seeds", default=20, show_default=True)
@click.option("--first", default=0, show_default=True, help="The first seed.")
@click.option("--needs", default=4, show_default=True)
@click.option("--each", default=5, show_default=True)
@click.option("--sample", default=0, show_default=True, help="0: every choice by itself.")
def main(seeds: int, first: int, needs: int, each: int, sample: int) -> None:
    """Run the seeds; exit 1 if an answer is not that of trying all."""
    affordable: list[float] = []
    every: list[float] = []
    wrong = 0
    for seed in range(first, first + seeds):
        file = open_room(seed, needs, each)
        limit = spendable(file.whole.money)
        within = list(file.needs.choices(limit))
        count = sum(1 for _ in file.needs.choices())
        began, wall = time.process_time(), time.monotonic()
        chooser = Chooser(file, Budget(LIMIT), seed, lambda _: None, Decimal(0))
        found = chooser.answer(1, curve=False)
        took, wall = time.process_time() - began, time.monotonic() - wall
        if not within:
            continue
        best, one = by_themselves(file, within, sample, seed)
        mine = found.best.value if found.best is not None else best
        good = found.outcome in ("proven", "impossible")
        good = good and (mine == best if not sample or sample >= len(within) else mine >= best)
        wrong += not good
        affordable.append(one * len(within) / took)
        every.append(one * count / took)
        print(
            f"seed {seed}: {found.outcome}, {count} ways, {len(within)} within the budget, "
            f"{found.tally.asked} questions, {took:.1f} s ({wall:.0f} s on the clock); one choice "
            f"by itself {one:.2f} s; times sooner {affordable[-1]:.1f}, of all ways "
            f"{every[-1]:.1f}; {'the same' if good else 'WRONG'}",
            flush=True,
        )
    print(
        f"{len(every)} rooms, {wrong} wrong; times sooner than trying all within the budget: "
        f"median {median(affordable):.1f}; than trying all ways: median {median(every):.1f}, "
        f"least {min(every):.1f}"
    )
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
