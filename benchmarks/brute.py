"""Brute force on tiny rooms: every place on a grid that loses nothing, against the solver.

    python -m benchmarks.brute --rooms 250 --write

See `tests/tiny_rooms.py` for why the grid loses nothing. With ``--walk`` the walkway
is on and the comparison is one-sided. Exit code 1 if there is any fault.
"""

from __future__ import annotations

import sys
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from pathlib import Path

import click

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from brute_check import Compared, compare
from tiny_rooms import tiny

from benchmarks.report import circumstances, put_section


def one(seed: int, walk: bool) -> Compared | None:
    """One room, both ways."""
    return compare(seed, tiny(seed, walk=walk), walk=walk)


@click.command()
@click.option("--rooms", default=250, help="Rooms compared; those too big to try are not counted.")
@click.option("--start", default=0, help="The first seed.")
@click.option("--walk", is_flag=True, help="With walkways.")
@click.option("--processes", default=2)
@click.option("--write", is_flag=True, help="Put the numbers into benchmarks/RESULTS.md.")
def main(rooms: int, start: int, processes: int, *, walk: bool, write: bool) -> None:
    """Compare verdicts and best scores."""
    done: list[Compared] = []
    seed = start
    with ProcessPoolExecutor(processes) as pool:
        while len(done) < rooms:
            batch = range(seed, seed + 2 * processes * 4)
            seed = batch.stop
            for found in pool.map(partial(one, walk=walk), batch):
                if found is not None and len(done) < rooms:
                    done.append(found)
                    if found.faults:
                        click.echo(f"seed {found.seed}: {'; '.join(found.faults)}")
    lines = [circumstances(f"seeds from {start}"), "", *_summary(done)]
    click.echo("\n".join(lines))
    if write:
        put_section("Brute force with walkways" if walk else "Brute force", lines)
    sys.exit(1 if any(c.faults for c in done) else 0)


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
