"""What would have to give, on random over-full rooms: every proposal taken apart and checked.

    python -m benchmarks.repairs [--rooms 20] [--pieces 6] [--seconds 60] [--write]

For each room the three cheapest different ways are looked for. Each is checked apart from
the program that found it: the changes are made to the room anew, the judge passes the
arrangement, no proposal touches all that an earlier one touches, costs rise, and with any
one of its changes taken back the room is impossible again, for two solver configurations
(else that change was idle, or its undoing was not decided in the time).
"""

from __future__ import annotations

import argparse
import statistics
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from overfull import overfull

from arrange.data.change import Drop, Loosen, changed
from arrange.data.repair import Relaxation, Repairs
from arrange.data.scenario import Scenario
from arrange.judge import judge
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.repair import cheapest_repairs
from benchmarks.report import circumstances, put_section

UNDOING = 20.0  # s to settle a room with one change taken back


@dataclass
class Tally:
    """What was seen on all rooms."""

    rooms: int = 0
    helped: int = 0
    repairs: int = 0
    cheapest: int = 0
    closed: int = 0
    needed: int = 0
    open: int = 0
    seconds: list[float] = field(default_factory=list)
    faults: list[str] = field(default_factory=list)


def after(scenario: Scenario, gives: list[Relaxation]) -> Scenario:
    """The room with these changes made, wishes first and what is left out last."""
    changes = [c for one in gives for c in one.changes]
    changes.sort(key=lambda c: 2 * isinstance(c, Drop) - isinstance(c, Loosen))
    return changed(scenario, changes)


def check(scenario: Scenario, repairs: Repairs, tally: Tally, name: str) -> None:
    """Everything that can be said against the proposals of one room."""
    costs = [p.cost for p in repairs.repairs]
    if costs != sorted(costs):
        tally.faults.append(f"{name}: costs {costs} do not rise")
    touched: list[set[tuple[str, ...]]] = []
    for number, repair in enumerate(repairs.repairs, 1):
        tally.repairs += 1
        tally.cheapest += repair.cheapest
        gives = list(repair.gives)
        room = after(scenario, gives)
        verdict = judge(room, repair.suggestion.arrangement)
        if not verdict.works or verdict.score != repair.suggestion.verdict.score:
            tally.faults.append(f"{name}, proposal {number}: the judge does not agree")
        things = {one.like for one in gives}
        if any(earlier <= things for earlier in touched):
            tally.faults.append(f"{name}, proposal {number}: nothing different")
        touched.append(things)
        for one in gives:
            _take_back(scenario, [g for g in gives if g is not one], repair.cheapest, tally, name)


def _take_back(
    scenario: Scenario, rest: list[Relaxation], cheapest: bool, tally: Tally, name: str
) -> None:
    """Without one of its changes a cheapest set must be impossible, or it was no cheapest."""
    answer = FeasibilityOracle(UNDOING).decide(after(scenario, rest), sure=True).answer
    tally.needed += answer == "impossible"
    tally.open += answer == "not decided"
    if answer == "works" and cheapest:
        tally.faults.append(f"{name}: one change of a proven cheapest set is idle")


def run(rooms: int, pieces: int, seconds: float) -> Tally:
    """Over-full rooms one after another; printed as they come."""
    tally = Tally()
    for seed in range(rooms):
        scenario = overfull(seed, pieces)
        began = time.perf_counter()
        repairs = cheapest_repairs(scenario, FeasibilityOracle(seconds), ())
        took = time.perf_counter() - began
        if repairs.works:
            print(f"room {seed}: works as it is", flush=True)
            continue
        tally.rooms += 1
        tally.helped += bool(repairs.repairs)
        tally.closed += repairs.closed
        tally.seconds.append(took)
        check(scenario, repairs, tally, f"room {seed}")
        costs = ", ".join(f"{p.cost}{'' if p.cheapest else '?'}" for p in repairs.repairs) or "none"
        print(f"room {seed}: costs {costs}; {repairs.undecided} open; {took:.1f} s", flush=True)
    return tally


def lines(tally: Tally) -> list[str]:
    """The table for the results."""
    spread = statistics.quantiles(tally.seconds, n=10) if len(tally.seconds) > 1 else tally.seconds
    rows = {
        "rooms": tally.rooms,
        "rooms with a proposal": tally.helped,
        "proposals, each passed by the judge": tally.repairs,
        "of these proven cheapest": tally.cheapest,
        "changes proven needed (without them impossible, two configurations)": tally.needed,
        "changes whose undoing was not decided": tally.open,
        "seconds a room, median": f"{statistics.median(tally.seconds):.1f}",
        "seconds a room, nine of ten under": f"{spread[-1]:.1f}",
        "faults": len(tally.faults),
    }
    return ["| what | number |", "|---|---|", *(f"| {k} | {v} |" for k, v in rows.items())]


def main() -> None:
    """The command line."""
    parser = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    parser.add_argument("--rooms", type=int, default=20)
    parser.add_argument("--pieces", type=int, default=6)
    parser.add_argument("--seconds", type=float, default=60.0)
    parser.add_argument("--write", action="store_true")
    asked = parser.parse_args()
    settings = f"{asked.rooms} rooms of {asked.pieces} pieces, {asked.seconds:g} s each"
    began = circumstances(settings)
    tally = run(asked.rooms, asked.pieces, asked.seconds)
    table = lines(tally)
    print("\n".join([*table, *tally.faults]))
    if asked.write:
        put_section("What would have to give", [began, "", *table])
    sys.exit(1 if tally.faults else 0)


if __name__ == "__main__":
    main()
