"""Counts in a ``result.json`` what a decorator never draws, and nothing of the program with it.

    python -m benchmarks.taste_counter bedroom-plans/result.json ...

An independent count of the twenty-five (`benchmarks/taste_measures.py`): it reads the file
alone, by its documentation `scenarios/RESULT.md`, and imports nothing of the program, so that a
rule that measures wrongly does not hide its own fault. What the person asked for or holds in
its place is told but not counted, except where it protects somebody.
"""

from __future__ import annotations

import json
import sys
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from benchmarks.taste_measures import MEASURES, TITLES, Found, different
from benchmarks.taste_plan import Plan, plans

PROTECTS = (5, 13)  # numbers that count whatever was asked
# What a wish of a piece can bring about, so that its fault is the person's own choice.
BROUGHT_ABOUT = {
    "against": (1, 3, 4, 6, 7, 10, 11, 12, 19, 20, 21),
    "facing": (1, 11, 12, 20),
    "near": (1, 6, 7, 10, 11, 12, 17, 20),
    "beside": (3, 4, 6, 10, 11, 17, 20),
    "in view of": (11, 12, 20),
    "aligned": (6,),
    "away from": (23, 25),
    "not against": (),
}


@dataclass(frozen=True)
class Fault:
    """One fault. ``excused`` says why it is not counted, "" where it is."""

    number: int
    rank: str
    plan: int
    pieces: tuple[str, ...]
    text: str
    excused: str = ""


def _meant(wish: Mapping[str, Any], name: str) -> bool:
    """Whether a wish is of this piece: by its name, or the name given to several."""
    head, _, last = name.rpartition(" ")
    return wish["piece"] == name or (last.isdigit() and wish["piece"] == head)


def _excuse(plan: Plan, number: int, found: Found) -> str:
    if number in PROTECTS or not found.pieces:
        return ""
    first = plan.named(found.pieces[0])
    if first is not None and first.stays:
        return "held in its place"
    for wish in plan.wishes:
        asked = number in BROUGHT_ABOUT.get(wish["relation"], ()) and _meant(wish, found.pieces[0])
        if asked:
            return f"asked for: {wish['relation']} {wish['place']}"
    return ""


def count(record: Mapping[str, Any]) -> list[Fault]:
    """Every fault of every plan of a ``result.json`` or ``today.json``, by plan and number."""
    every = plans(record)
    faults = [
        Fault(
            number, found.rank, plan.number, found.pieces, found.text, _excuse(plan, number, found)
        )
        for plan in every
        for number, measure in MEASURES.items()
        for found in measure(plan)
    ]
    faults += [Fault(15, f.rank, number, f.pieces, f.text) for number, f in different(every)]
    return sorted(faults, key=lambda f: (f.plan, f.number))


def counted(faults: Iterable[Fault]) -> list[Fault]:
    """Those that were not the person's own choice."""
    return [f for f in faults if not f.excused]


def lines(faults: Sequence[Fault]) -> list[str]:
    """Each fault on a line."""
    return [
        f"plan {f.plan}  {f.number:2} {f.rank}  {TITLES[f.number]}: {', '.join(f.pieces)}: {f.text}"
        + (f" ({f.excused}; not counted)" if f.excused else "")
        for f in faults
    ]


def tally(rooms: Sequence[Sequence[Fault]]) -> list[str]:
    """A table of faults by number over rooms: rank, how many, in how many rooms, a room."""
    every = [f for room in rooms for f in counted(room)]
    numbers = Counter(f.number for f in every)
    of = max(len(rooms), 1)
    rows = ["| number | fault | rank | faults | rooms | a room |", "|---|---|---|---|---|---|"]
    for number, title in TITLES.items():
        inside = sum(any(f.number == number for f in counted(room)) for room in rooms)
        ranks = "".join(sorted({f.rank for f in every if f.number == number}))
        total = numbers[number]
        rows.append(f"| {number} | {title} | {ranks} | {total} | {inside} | {total / of:.2f} |")
    worst = sum(any(f.rank == "A" for f in counted(room)) for room in rooms)
    faulty = sum(bool(counted(room)) for room in rooms)
    rows.append(f"| all | | | {len(every)} | {faulty} | {len(every) / of:.2f} |")
    return [*rows, "", f"{len(rooms)} rooms, {worst} with a fault of rank A"]


def main(files: Sequence[str]) -> None:
    """Print every fault of each file, and the table over their best plans."""
    best = []
    for file in files:
        faults = count(json.loads(Path(file).read_text(encoding="utf-8")))
        print(f"{file}: {len(counted(faults))} faults in all plans")
        print(*(f"  {row}" for row in lines(faults)), sep="\n")
        best.append([f for f in faults if f.plan == 1])
    print("", "Of the best plan of each file:", "", *tally(best), sep="\n")


if __name__ == "__main__":
    main(sys.argv[1:])
