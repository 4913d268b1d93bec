"""Rooms, and the same rooms said another way or asking for less: their answers must agree.

    python -m benchmarks.metamorphic --rooms 500 --seconds 5 --write

`tests/metamorphic.py` has the changes and what may not differ. Two processes by default.
Exit code 1 if any two answers contradict each other.
"""

from __future__ import annotations

import sys
from collections import Counter
from functools import partial
from pathlib import Path

import click

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from metamorphic import Pair, compare, compare_written

from benchmarks.report import answers, circumstances, conclude, over_rooms

WRITTEN = 5  # every so many rooms one is a file, said in other words


def one(seed: int, seconds: float) -> Pair:
    """Compare the room of a seed with a changed one."""
    return (compare_written if seed % WRITTEN == 0 else compare)(seed, seconds)


def summary(pairs: list[Pair]) -> list[str]:
    """How many pairs of each change, how many decided in both rooms, and every fault."""
    faulty = [p for p in pairs if p.faults]
    decided = [p for p in pairs if set(p.outcomes) <= {"proven", "impossible"}]
    lines = [
        f"- pairs: {len(pairs)}, decided to the end in both rooms: {len(decided)}",
        f"- pairs that contradict each other: {len(faulty)}",
    ]
    counts = Counter(p.change for p in pairs)
    lines += [f"- {change}: {count}" for change, count in sorted(counts.items())]
    return lines + [f"- seed {p.seed}, {p.change}: {'; '.join(p.faults)}" for p in faulty]


@click.command()
@over_rooms(500, 2, 5.0)
def main(rooms: int, start: int, seconds: float, processes: int, *, write: bool) -> None:
    """Ask about every room twice and report every contradiction."""
    began = circumstances(f"seeds {start} to {start + rooms - 1}, {seconds:g} s each")
    pairs = answers(partial(one, seconds=seconds), range(start, start + rooms), processes)
    lines = [began, "", *summary(pairs)]
    faulty = any(p.faults for p in pairs)
    conclude("The same room said another way", lines, write=write, faulty=faulty)


if __name__ == "__main__":
    main()
