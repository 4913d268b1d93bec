"""The exact largest size against asking every centimetre by itself, on seeded rooms.

    python -m benchmarks.largest --rooms 50 --write

Rooms as in `tests/planted.py`, without those longer than `--longest` in mm, where the scan alone
takes minutes; of each one piece and its width or its depth, by the seed.
The plain scan asks every whole centimetre from the size the piece has up to the first that
cannot be longer than the room (`span`), each by itself and with nothing remembered, and
takes the last that works. It makes nothing of smaller sizes, and has no answer confirmed.
The second time is that of a scan that stops at the first size that fails, which proves less.
All are measured in the same run, one after the other. A difference in size is a bug: exit code 1.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from itertools import count, islice
from pathlib import Path

import click

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from planted import new_room, planted

from arrange.data.room import Room
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension, Largest
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.largest import Sizes, largest
from benchmarks.report import circumstances, conclude, over_rooms


@dataclass(frozen=True)
class Row:
    """One room: what both found and how long they took. Sizes in mm, times in s.

    ``plain`` is None where the scan left a size undecided.
    """

    seed: int
    pieces: int
    kind: str
    dimension: str
    found: Largest
    plain: int | None
    seconds: float
    scan: float
    first: float

    @property
    def compared(self) -> bool:
        """Whether both were decided."""
        return self.found.answer == "exact" and self.plain is not None


def question(seed: int) -> tuple[Scenario, str, Dimension]:
    """A planted room, one of its pieces, and the dimension that is to grow."""
    rng = random.Random(seed)
    scenario = planted(seed).scenario
    name = rng.choice(scenario.pieces).name
    dimension: Dimension = "width" if rng.random() < 0.5 else "depth"
    return scenario, name, dimension


def scan(sizes: Sizes, seconds: float) -> tuple[int | None, float, float]:
    """The last size that works in mm, the time for all sizes, the time to the first that fails.

    None if one of the sizes is not decided within ``seconds``.
    """
    start = time.perf_counter()
    best: int | None = None
    first, decided = 0.0, True
    for steps in range(sizes.now, sizes.span[1] + 1):
        answer = FeasibilityOracle(seconds).decide(sizes.at(steps))
        if answer.works:
            best = sizes.mm(steps)
        elif not first:
            first = time.perf_counter() - start
        if answer.answer == "not decided":
            decided = False
            break
    whole = time.perf_counter() - start
    return best if decided else None, whole, first or whole


def one(seed: int, seconds: float) -> Row:
    """Both answers on the room of a seed, one after the other."""
    scenario, name, dimension = question(seed)
    start = time.perf_counter()
    found = largest(scenario, name, dimension, seconds=seconds)
    took = time.perf_counter() - start
    plain, whole, first = scan(Sizes(scenario, name, dimension), seconds)
    kind = scenario.piece(name).kind
    return Row(seed, len(scenario.pieces), kind, dimension, found, plain, took, whole, first)


def summary(rows: list[Row]) -> list[str]:
    """What came out, in numbers."""
    same = [r for r in rows if r.compared]
    lines = [
        f"- rooms: {len(rows)}, with {min(r.pieces for r in rows)} to "
        f"{max(r.pieces for r in rows)} pieces",
        f"- decided by both: {len(same)}, equal: {sum(r.found.size == r.plain for r in same)}",
        f"- not decided by the exact answer: {_seeds([r for r in rows if not _exact(r)])}",
        f"- not decided by the scan: {_seeds([r for r in rows if r.plain is None])}",
    ]
    if not same:
        return lines
    took, whole, first = (sum(getattr(r, c) for r in same) for c in ("seconds", "scan", "first"))
    ratios = [r.scan / r.seconds for r in same]
    short = [r.first / r.seconds for r in same]
    return [
        *lines,
        f"- the exact answer: {took:.0f} s in all, median "
        f"{statistics.median(r.seconds for r in same):.2f} s",
        f"- the plain scan: {whole:.0f} s in all, median "
        f"{statistics.median(r.scan for r in same):.1f} s",
        f"- times as fast as the scan: {whole / took:.1f} in all, median "
        f"{statistics.median(ratios):.1f}, least {min(ratios):.1f}",
        f"- times as fast as a scan that stops at the first that fails: {first / took:.1f} in all, "
        f"median {statistics.median(short):.1f}, least {min(short):.2f}",
        *[
            f"- seed {r.seed}: {r.found.size} by the exact answer, {r.plain} by the scan"
            for r in same
            if r.found.size != r.plain
        ],
    ]


def _fits(seed: int, longest: int) -> bool:
    """Whether the room of a seed is no longer; most are told by the first room tried alone."""

    def short(room: Room) -> bool:
        x0, y0, x1, y1 = room.bounds
        return max(x1 - x0, y1 - y0) <= longest

    return short(new_room(random.Random(seed))) and short(planted(seed).scenario.room)


def _exact(row: Row) -> bool:
    return row.found.answer == "exact"


def _seeds(rows: list[Row]) -> str:
    named = ", ".join(str(r.seed) for r in rows)
    return f"{len(rows)} (seeds {named})" if rows else "0"


@click.command()
@over_rooms(50, 1, 60.0, each="an exact answer, and of each size")
@click.option("--longest", default=2900, help="Longer rooms are left out, mm.")
def main(
    rooms: int, start: int, longest: int, seconds: float, processes: int, *, write: bool
) -> None:
    """Ask both for the largest size in seeded rooms, and compare."""
    FeasibilityOracle(5).decide(planted(start).scenario)  # what is loaded once is loaded before
    seeds = list(islice((s for s in count(start) if _fits(s, longest)), rooms))
    found: list[Row] = []
    with ProcessPoolExecutor(processes) as pool:
        for row in pool.map(partial(one, seconds=seconds), seeds):
            found.append(row)
            click.echo(
                f"seed {row.seed}: {row.kind}, {row.dimension}: {row.found.answer} "
                f"{row.found.size} in {row.seconds:.1f} s; scan {row.plain} in {row.scan:.1f} s "
                f"({row.first:.1f} s to the first that fails)"
            )
    title = (
        f"{rooms} seeds from {start} to {seeds[-1]} with rooms up to {longest} mm long, "
        f"{seconds:g} s, {processes} at a time"
    )
    lines = [circumstances(title), "", *summary(found)]
    faulty = any(r.compared and r.found.size != r.plain for r in found)
    conclude("The exact largest size", lines, write=write, faulty=faulty)


if __name__ == "__main__":
    main()
