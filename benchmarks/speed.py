"""How long the product takes: first arrangement, proofs, five different ones, families.

    python -m benchmarks.speed --seconds 60 --write

Every example of `scenarios/` is run; the run fails if one cannot be read. Times are
wall-clock, one run after another, on a machine that should have nothing else to do.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

import click

from arrange.data.result import Result
from arrange.data.scenario import Scenario
from arrange.scenario.read import read
from arrange.solver.model import Model
from arrange.suggesting import suggest
from benchmarks.report import circumstances, put_section

EXAMPLES = Path(__file__).parent.parent / "scenarios"
BEDROOM = "small-double-bedroom"
DIFFERENT = 5


@dataclass
class Row:
    """One example: seconds, None where it was not reached in time."""

    example: str
    pieces: int
    outcome: str
    build: float
    first: float | None
    best: float
    score: int
    bound: int
    five: float
    proven: int
    found: int

    @property
    def gap(self) -> float | None:
        """Points between the best found and the proven bound."""
        return (self.bound - self.score) / 10 if self.score >= 0 else None

    def cells(self) -> list[str]:
        """As shown; a time in brackets ended without a proof."""
        closed = self.outcome in ("proven", "impossible")
        enough = self.proven == self.found
        return [
            self.example,
            str(self.pieces),
            self.outcome,
            f"{self.build:.2f}",
            "" if self.first is None else f"{self.first:.1f}",
            f"{self.best:.1f}" if closed else f"({self.best:.1f})",
            "" if self.score < 0 else f"{self.score / 10:.1f}",
            "" if self.gap is None else f"{self.gap:.1f}",
            "" if not self.found else f"{self.five:.1f}" if enough else f"({self.five:.1f})",
            f"{self.proven} of {self.found}",
        ]


HEAD = [
    "example", "pieces", "outcome", "build s", "first s", "best proven s",
    "score", "gap", "five different s", "proven",
]  # fmt: skip


def measure(path: Path, seconds: float, seed: int) -> Row:
    """One example: the best alone, then five different ones, each within the limit."""
    scenario = read(path)
    began = time.monotonic()
    Model(scenario).finish()
    build = time.monotonic() - began
    best = suggest(scenario, top=1, seconds=seconds, seed=seed)
    five = suggest(scenario, top=DIFFERENT, seconds=seconds, seed=seed)
    _never_contradict(scenario, best, five)
    score = best.suggestions[0].verdict.score if best.suggestions else -1
    return Row(
        path.stem,
        len(scenario.pieces),
        best.outcome,
        build,
        best.first_seconds,
        best.seconds,
        score,
        best.bound,
        five.seconds,
        sum(s.proven for s in five.suggestions),
        len(five.suggestions),
    )


def _never_contradict(scenario: Scenario, one: Result, two: Result) -> None:
    """No score of one run may beat the bound of the other."""
    for first, second in ((one, two), (two, one)):
        if first.suggestions and first.suggestions[0].verdict.standing > second.bound:
            raise click.ClickException(f"{scenario.title}: a score above a proven bound")


def families(seconds: float, seed: int) -> str:
    """Every way the major pieces of the bedroom can stand."""
    result = suggest(
        read(EXAMPLES / f"{BEDROOM}.toml"), top=1, seconds=seconds, seed=seed, families=True
    )
    found = result.families
    if found is None:
        return f"- {BEDROOM}, families: none found in {result.seconds:.1f} s"
    state = "complete" if found.complete else "not complete"
    return f"- {BEDROOM}, families: {len(found.families)}, {state}, {result.seconds:.1f} s"


def whole_process(words: list[str], seconds: float) -> str:
    """A command from start to end, as someone at a terminal would wait for it."""
    began = time.monotonic()
    done = subprocess.run(
        [sys.executable, "-c", "from arrange.cli import main; main()", *words],
        capture_output=True,
        text=True,
        timeout=seconds + 60,
        check=False,
    )
    took = time.monotonic() - began
    shown = " ".join(["arrange", *[Path(w).name if "/" in w else w for w in words]])
    note = "" if done.returncode == 0 else f", exit code {done.returncode}"
    return f"- `{shown}`: {took:.2f} s{note}"


@click.command()
@click.option("--seconds", default=60.0, help="Time limit of each search.")
@click.option("--families-seconds", default=300.0, help="Time limit for counting the families.")
@click.option("--seed", default=0)
@click.option("--only", multiple=True, help="Names of examples; all if none is given.")
@click.option("--write", is_flag=True, help="Put the table into benchmarks/RESULTS.md.")
def main(
    seconds: float, families_seconds: float, seed: int, only: tuple[str, ...], *, write: bool
) -> None:
    """Time every example room, the bedroom's families and the whole command."""
    paths = [p for p in sorted(EXAMPLES.glob("*.toml")) if not only or p.stem in only]
    missing = set(only) - {p.stem for p in paths}
    if missing:
        raise click.UsageError(f"no such example: {', '.join(sorted(missing))}")
    began = circumstances(f"{seconds:.0f} s limit, seed {seed}")
    rows: list[Row] = []
    for path in paths:
        rows.append(measure(path, seconds, seed))
        click.echo("  ".join(rows[-1].cells()))
    lines = [began, ""]
    lines += ["| " + " | ".join(HEAD) + " |", "|---" * len(HEAD) + "|"]
    lines += ["| " + " | ".join(row.cells()) + " |" for row in rows]
    lines += ["", "Times in brackets ended without a proof.", "", families(families_seconds, seed)]
    with tempfile.TemporaryDirectory() as folder:
        room = str(EXAMPLES / f"{BEDROOM}.toml")
        lines.append(whole_process(["suggest", room, "--out", f"{folder}/plans"], seconds))
    lines.append(whole_process(["--help"], seconds))
    click.echo("\n".join(lines))
    if write:
        put_section("Speed", lines)


if __name__ == "__main__":
    main()
