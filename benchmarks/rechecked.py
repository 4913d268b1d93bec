"""Rooms of all shapes: what is written of them must hold, by the page alone.

    python -m benchmarks.rechecked --rooms 2000 --seconds 2 --write

Each scenario is read from text and solved, `result.json` is made and read back, and the
checks of `scenarios/RESULT.md` are made from it with shapely (`tests/recheck.py`), which
knows nothing of the program. Two processes by default. Exit code 1 if there is any fault,
any crash, an answer more than a second late, or a process that took more than 1 GiB.
"""

from __future__ import annotations

import json
import statistics
import sys
from collections import Counter
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import click

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from all_shapes import SHAPES, scenario_text
from recheck import faults

from arrange.output.fields import as_text
from arrange.output.records import as_data
from arrange.scenario.read import read_text
from arrange.suggesting import suggest
from benchmarks.report import GIB, answers, circumstances, conclude, most_memory, over_rooms

LATE = 1.0  # s; what `suggest` promises to keep its limit within


@dataclass(frozen=True)
class Rechecked:
    """One room: its shape, what was answered, what does not hold of it, and how long it took.

    ``memory`` is the most that the process had by then, in bytes, ``across`` how many pieces
    stand across a corner.
    """

    seed: int
    shape: str
    outcome: str
    arrangements: int
    faults: tuple[str, ...]
    seconds: float
    memory: int = 0
    across: int = 0


def one(
    seed: int,
    seconds: float,
    keep: Path | None = None,
    *,
    overhead: bool = False,
    across: bool = False,
) -> Rechecked:
    """Solve the room of a seed and check what is written of it; a crash is a fault.

    With ``overhead`` there are slopes, dormers, beams, lamps, fans and stairs in it, with
    ``across`` pieces that may stand across a corner.
    Into the folder ``keep`` goes what was written where it does not hold: how far a search
    came in its time cannot be had again.
    """
    shape = SHAPES[seed % len(SHAPES)].__name__
    try:
        text = scenario_text(seed, high=overhead, across=across)
        result = suggest(read_text(text), top=2, seconds=seconds)
        data = json.loads(as_text(as_data(result)))
    except Exception as error:
        return Rechecked(seed, shape, "crash", 0, (f"{type(error).__name__}: {error}",), 0.0)
    wrong = faults(data)
    if wrong and keep is not None:
        keep.mkdir(parents=True, exist_ok=True)
        (keep / f"{seed}.json").write_text(as_text(data), encoding="utf-8")
    if result.seconds > seconds + LATE:
        wrong.append(f"{result.seconds:.1f} s")
    if (memory := most_memory()) > GIB:
        wrong.append(f"{memory / GIB:.1f} GiB")
    plans = data["arrangements"]
    crossed = sum("corner" in p["placement"] for plan in plans for p in plan["pieces"])
    return Rechecked(
        *(seed, shape, result.outcome, len(plans), tuple(wrong), result.seconds, memory, crossed)
    )


def summary(rooms: list[Rechecked]) -> list[str]:
    """Counts by outcome and shape, times, every fault."""
    faulty = [r for r in rooms if r.faults]
    seconds = [r.seconds for r in rooms]
    lines = [
        f"- rooms: {len(rooms)}; arrangements checked: {sum(r.arrangements for r in rooms)}",
        f"- rooms with a fault: {len(faulty)}",
        f"- a whole answer: median {statistics.median(seconds):.2f} s, most {max(seconds):.1f} s",
        f"- most memory of a process: {max(r.memory for r in rooms) / 2**20:.0f} MiB",
    ]
    lines += [f"- {name}: {n}" for name, n in sorted(Counter(r.outcome for r in rooms).items())]
    if any(r.across for r in rooms):
        lines.append(f"- pieces across a corner: {sum(r.across for r in rooms)}")
    shown = Counter(r.shape for r in rooms if r.arrangements)
    lines.append("- answered, by shape: " + ", ".join(f"{s} {n}" for s, n in sorted(shown.items())))
    return lines + [f"- seed {r.seed}, {r.shape}: {'; '.join(r.faults)}" for r in faulty]


@click.command()
@over_rooms(2000, 2, 2.0)
@click.option("--keep", type=click.Path(path_type=Path), help="Folder for faulty results.")
@click.option("--overhead", is_flag=True, help="Slopes, dormers, beams, lamps, fans, stairs.")
@click.option("--across", is_flag=True, help="Pieces that may stand across a corner.")
def main(
    rooms: int,
    start: int,
    seconds: float,
    processes: int,
    keep: Path | None,
    *,
    overhead: bool,
    across: bool,
    write: bool,
) -> None:
    """Solve rooms of all shapes and check what is written of them."""
    what = ", with all that is overhead" if overhead else ""
    what += ", with pieces that may stand across a corner" if across else ""
    began = circumstances(f"seeds {start} to {start + rooms - 1}, {seconds:g} s each{what}")
    ask = partial(one, seconds=seconds, keep=keep, overhead=overhead, across=across)
    done = answers(ask, range(start, start + rooms), processes)
    lines = [began, "", *summary(done)]
    faulty = any(r.faults for r in done)
    conclude("Rooms of all shapes, checked from the file", lines, write=write, faulty=faulty)


if __name__ == "__main__":
    main()
