"""The judge's campaign: random rooms that are known to work, solved and judged again.

    python -m benchmarks.campaign --rooms 2000 --seconds 10 --write

See `tests/planted.py` for the rooms and `tests/planted_check.py` for all that is held
against the answer. With ``--company`` the rooms have tied, alike and plain free pieces
(`tests/planted_company.py`). Two processes by default. Exit code 1 if there is any fault.
"""

from __future__ import annotations

import statistics
import sys
from functools import partial
from pathlib import Path

import click

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from planted import planted
from planted_check import Finding, examine
from planted_company import planted_company

from benchmarks.report import answers, circumstances, conclude, over_rooms

OVER = 1.0  # s; what `suggest` promises to keep its limit within


def one(seed: int, seconds: float, company: bool) -> Finding:
    """Plant a room and examine the answer."""
    return examine(planted_company(seed) if company else planted(seed), seconds)


def summary(findings: list[Finding], limit: float) -> list[str]:
    """What came out, in numbers; ``limit`` is the time each search was given."""
    outcomes = {name: sum(f.outcome == name for f in findings) for name in _outcomes(findings)}
    firsts = [f.first_seconds for f in findings if f.first_seconds is not None]
    pieces = [f.pieces for f in findings]
    lines = [f"- rooms: {len(findings)}, with {min(pieces)} to {max(pieces)} pieces"]
    lines += [f"- {name}: {count}" for name, count in outcomes.items()]
    lines.append(
        f"- faults (see `tests/planted_check.py`): {sum(bool(f.faults) for f in findings)}"
    )
    if firsts:
        lines.append(f"- first arrangement: median {statistics.median(firsts):.2f} s")
    seconds = [f.seconds for f in findings]
    lines.append(
        f"- a whole answer: median {statistics.median(seconds):.2f} s, most {max(seconds):.1f} s"
    )
    late = [f.seed for f in findings if f.seconds > limit + OVER]
    lines.append(f"- more than {OVER:g} s over the limit: {len(late)} {late[:10] or ''}".rstrip())
    lines += [f"- seed {f.seed}: {'; '.join(f.faults)}" for f in findings if f.faults]
    return lines


def _outcomes(findings: list[Finding]) -> list[str]:
    return sorted({f.outcome for f in findings})


@click.command()
@over_rooms(2000, 2, 10.0)
@click.option("--company", is_flag=True, help="With tied, alike and plain free pieces.")
def main(
    rooms: int, start: int, seconds: float, processes: int, *, company: bool, write: bool
) -> None:
    """Solve planted rooms and report every fault."""
    began = circumstances(f"seeds {start} to {start + rooms - 1}, {seconds:g} s each")
    plant = partial(one, seconds=seconds, company=company)
    findings = answers(plant, range(start, start + rooms), processes)
    title = "Judge campaign with company" if company else "Judge campaign"
    lines = [began, "", *summary(findings, seconds)]
    conclude(title, lines, write=write, faulty=any(f.faults for f in findings))


if __name__ == "__main__":
    main()
