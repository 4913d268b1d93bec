"""Why nothing works: seeded over-full rooms of ten pieces, every explanation verified.

    python -m benchmarks.conflicts --rooms 300 --write

See `tests/overfull.py` for the rooms and `tests/conflict_check.py` for what is held against
each set: without any member the arrangement kept with it passes the judge, and all
together are impossible under two CP-SAT configurations written out there. One process
by default, so that a time is that of one room with the machine to itself. Exit code 1 on
any fault.
"""

from __future__ import annotations

import statistics
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import click

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from conflict_check import faults, sum_faults
from overfull import PIECES, overfull

from arrange.scenario.read import read
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.lacking import arithmetic
from arrange.whatif.why import conflicts
from benchmarks.report import circumstances, conclude, over_rooms

SCENARIOS = Path(__file__).parent.parent / "scenarios"


@dataclass(frozen=True)
class Explained:
    """What came out for one room. Times in seconds; ``work`` is the processor's."""

    room: str
    first: float
    work: float
    counted: float
    sets: int
    pieces: int
    requirements: int
    section: bool
    faults: tuple[str, ...]


def one(room: int | str, seconds: float, most: int = 3) -> Explained:
    """Explain a room, by its seed or the name of an example, and verify all of it."""
    scenario = overfull(room) if isinstance(room, int) else read(SCENARIOS / room)
    start, busy = time.monotonic(), time.process_time()
    first = conflicts(scenario, FeasibilityOracle(seconds), 1)
    took, work = time.monotonic() - start, time.process_time() - busy
    wrong, section = faults(first), False
    if not first.sets:
        return Explained(str(room), took, work, took, 0, 0, 0, section, tuple(wrong))
    start = time.monotonic()
    figures = arithmetic(scenario, first.sets[0], FeasibilityOracle(seconds), quick=True)
    counted = took + time.monotonic() - start
    wrong += sum_faults(scenario, first.sets[0], figures)
    section = figures.section is not None
    every = conflicts(scenario, FeasibilityOracle(seconds), most) if most > 1 else first
    if len(every.sets) > 1:
        wrong += faults(every)
    conflict = first.sets[0]
    return Explained(
        str(room),
        took,
        work,
        counted,
        len(every.sets),
        len(conflict.pieces),
        len(conflict.requirements),
        section,
        tuple(wrong),
    )


def summary(found: list[Explained]) -> list[str]:
    """What came out, in numbers."""
    verified = sum(not e.faults for e in found)
    sets = sum(e.sets for e in found)
    pieces = {n: sum(e.pieces == n for e in found) for n in sorted({e.pieces for e in found})}
    of = ", ".join(f"{count} of {n}" for n, count in pieces.items())
    lines = [
        f"- rooms: {len(found)}, {PIECES} pieces each; verified: {verified} "
        f"({100 * verified / len(found):.1f} %), {sets} sets in all",
        f"- pieces in the first set: {of}; requirements: median "
        f"{statistics.median(e.requirements for e in found):g}, "
        f"most {max(e.requirements for e in found)}",
        f"- first set with its proof: {_times([e.first for e in found])}",
        f"- processor time of that: {_times([e.work for e in found])}",
        f"- with its arithmetic: {_times([e.counted for e in found])}",
        f"- a sum along a line: {sum(e.section for e in found)} of {len(found)}",
    ]
    return lines + [f"- {e.room}: {'; '.join(e.faults)}" for e in found if e.faults]


def _times(seconds: list[float]) -> str:
    late = sum(s >= 3 for s in seconds)
    return f"median {statistics.median(seconds):.2f} s, most {max(seconds):.1f} s, {late} over 3 s"


@click.command()
@over_rooms(300, 1, 120.0)
@click.option("--most", default=3, help="Sets to look for in each room.")
def main(rooms: int, start: int, seconds: float, most: int, processes: int, *, write: bool) -> None:
    """Explain over-full rooms and report every fault."""
    found: list[Explained] = []
    with ProcessPoolExecutor(processes) as pool:
        seeds = range(start, start + rooms)
        for explained in pool.map(partial(one, seconds=seconds, most=most), seeds):
            found.append(explained)
            if explained.faults:
                click.echo(f"seed {explained.room}: {'; '.join(explained.faults)}")
            if len(found) % 20 == 0:
                click.echo("\n".join([f"{len(found)} rooms", *summary(found)]))
    example = one("too-much.toml", seconds)
    told = "verified" if not example.faults else "; ".join(example.faults)
    lines = [
        circumstances(f"seeds {start} to {start + rooms - 1}, {seconds:g} s allowed"),
        "",
        *summary(found),
        f"- scenarios/{example.room}: {told}; {example.first:.2f} s",
    ]
    faulty = any(e.faults for e in (example, *found))
    conclude("Why nothing works", lines, write=write, faulty=faulty)


if __name__ == "__main__":
    main()
