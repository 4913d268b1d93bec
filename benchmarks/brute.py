"""Brute force on tiny rooms: every place on a grid that loses nothing, against the solver.

    python -m benchmarks.brute --rooms 250 --write

See `tests/tiny_rooms.py` for why the grid loses nothing. With ``--walk`` the walkway
is on and the comparison is one-sided; with ``--company`` the rooms have tied, alike and
plain free pieces (`tests/tiny_company.py`); with ``--families`` the three best different
ones and all families are compared. Exit code 1 if there is any fault.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path
from typing import Any

import click

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from brute_check import Compared, compare
from brute_families import Listed, listed
from tiny_company import tiny_company
from tiny_rooms import tiny

from benchmarks.report import circumstances, conclude, over_rooms


def one(seed: int, walk: bool, company: bool) -> Compared | None:
    """One room, both ways."""
    make = tiny_company if company else tiny
    return compare(seed, make(seed, walk=walk), walk=walk)


def all_ways(seed: int, company: bool) -> Listed | None:
    """One room, its three best different arrangements and all its families, both ways."""
    return listed(seed, (tiny_company if company else tiny)(seed))


@click.command()
@over_rooms(250, 2)  # those too big to try are not counted
@click.option("--walk", is_flag=True, help="With walkways.")
@click.option("--company", is_flag=True, help="With tied, alike and plain free pieces.")
@click.option("--families", is_flag=True, help="The three best and all families; no walkways.")
def main(
    rooms: int,
    start: int,
    processes: int,
    *,
    walk: bool,
    company: bool,
    families: bool,
    write: bool,
) -> None:
    """Compare verdicts and best scores, or families."""
    if walk and families:
        raise click.UsageError("families are compared without walkways")
    began = circumstances(f"seeds from {start}")
    if families:
        found = _gather(partial(all_ways, company=company), rooms, start, processes)
        lines = [began, "", *_summary_of_ways(found)]
    else:
        found = _gather(partial(one, walk=walk, company=company), rooms, start, processes)
        lines = [began, "", *_summary(found)]
    title = "Brute force, families" if families else "Brute force"
    more = [name for name, on in (("walkways", walk), ("company", company)) if on]
    title = " with ".join([title, *([" and ".join(more)] if more else [])])
    conclude(title, lines, write=write, faulty=any(c.faults for c in found))


def _gather(ask: Callable[[int], Any], rooms: int, start: int, processes: int) -> list[Any]:
    """What is found in so many rooms; every fault is said at once."""
    done: list[Any] = []
    seed = start
    with ProcessPoolExecutor(processes) as pool:
        while len(done) < rooms:
            batch = range(seed, seed + 2 * processes * 4)
            seed = batch.stop
            for found in pool.map(ask, batch):
                if found is not None and len(done) < rooms:
                    done.append(found)
                    if found.faults:
                        click.echo(f"seed {found.seed}: {'; '.join(found.faults)}")
    return done


def _summary_of_ways(done: list[Listed]) -> list[str]:
    return [
        f"- rooms: {len(done)}, arrangements tried: {sum(c.tried for c in done)}",
        f"- without any that works: {sum(not c.families for c in done)}",
        f"- families: {sum(c.families for c in done)}, most in a room "
        f"{max(c.families for c in done)}",
        f"- faults of any kind: {sum(bool(c.faults) for c in done)}",
    ]


def _summary(done: list[Compared]) -> list[str]:
    return [
        f"- rooms: {len(done)}, arrangements tried: {sum(c.tried for c in done)}",
        f"- impossible by both: {sum(c.grid < 0 and c.solver < 0 for c in done)}",
        f"- best score equal: {sum(c.grid == c.solver >= 0 for c in done)}",
        f"- solver better than the grid: {sum(c.solver > c.grid for c in done)}",
        f"- solver worse than the grid: {sum(c.solver < c.grid for c in done)}",
        f"- faults of any kind: {sum(bool(c.faults) for c in done)}",
    ]


if __name__ == "__main__":
    main()
