"""The product against four alternatives, in one run on the same machine.

    python -m benchmarks.versus --seconds 60 --write

Every example of `scenarios/` that is expected to be found is given to all, one
after another, with the same time limit. An alternative's time is when it had its
final score; the product's is when it had at least that score. The ratio says how
many times longer the alternative took.
"""

from __future__ import annotations

import statistics
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

import click

from arrange.data.scenario import Scenario
from arrange.scenario.read import read
from benchmarks.alternatives.annealing import anneal
from benchmarks.alternatives.greedy import greedy
from benchmarks.alternatives.plain import plain, plain_solve_of_ours
from benchmarks.alternatives.recorder import Timeline
from benchmarks.ours import ours
from benchmarks.report import circumstances, put_section

EXAMPLES = Path(__file__).parent.parent / "scenarios"
ALTERNATIVES: dict[str, Callable[[Scenario, float, int], Timeline]] = {
    "plain CP-SAT": plain,
    "plain solve of our model": plain_solve_of_ours,
    "annealing": anneal,
    "greedy": greedy,
}


@dataclass
class Row:
    """One example: the product's timeline and each alternative's."""

    example: str
    outcome: str
    bound: int
    ours: Timeline
    theirs: dict[str, Timeline] = field(default_factory=dict)

    def ratio(self, name: str) -> float | None:
        """How many times longer the alternative took; None if it found nothing.

        0 where the product never reached that score within the limit.
        """
        theirs = self.theirs[name]
        if not theirs:
            return None
        when, score = theirs[-1]
        mine = next((t for t, s in self.ours if s >= score), None)
        return 0.0 if mine is None else when / mine


def measure(path: Path, seconds: float, seed: int) -> Row | None:
    """Everybody on one example; None if it is meant to be impossible."""
    scenario = read(path)
    if scenario.expected == "impossible":
        return None
    timeline, result = ours(scenario, seconds, seed)
    row = Row(path.stem, result.outcome, result.bound, timeline)
    for name, run in ALTERNATIVES.items():
        row.theirs[name] = run(scenario, seconds, seed)
        click.echo(f"{path.stem}: {name} {_last(row.theirs[name])}, ours {_last(timeline)}")
    return row


def table(rows: list[Row]) -> list[str]:
    """A markdown table, scores in points, and the medians below."""
    names = list(ALTERNATIVES)
    head = ["example", "ours", *[f"{n} | ours to match | ratio" for n in names]]
    lines = ["| " + " | ".join(head) + " |", "|---" * (2 + 3 * len(names)) + "|"]
    for row in rows:
        cells = [row.example, f"{_last(row.ours)}, {row.outcome}, bound {row.bound / 10:.1f}"]
        for name in names:
            cells += _cells(row, name)
        lines.append("| " + " | ".join(cells) + " |")
    return [*lines, "", *[_summary(rows, name) for name in names]]


def _cells(row: Row, name: str) -> list[str]:
    theirs, ratio = row.theirs[name], row.ratio(name)
    if not theirs:
        return ["nothing", "", "only ours" if row.ours else "neither"]
    score = theirs[-1][1]
    mine = next((f"{t:.1f} s" for t, s in row.ours if s >= score), "not reached")
    return [_last(theirs), mine, f"{ratio:.1f}" if ratio else "0"]


def _summary(rows: list[Row], name: str) -> str:
    ratios = [r for row in rows if (r := row.ratio(name)) is not None]
    better = sum(_score(row.ours) > _score(row.theirs[name]) for row in rows)
    worse = sum(_score(row.ours) < _score(row.theirs[name]) for row in rows)
    median = f"{statistics.median(ratios):.1f}" if ratios else "none"
    return (
        f"- {name}: median ratio {median} over the {len(ratios)} examples where it found "
        f"something; our score is higher in {better} of {len(rows)}, lower in {worse}."
    )


def _score(timeline: Timeline) -> int:
    return timeline[-1][1] if timeline else -1


def _last(timeline: Timeline) -> str:
    return f"{timeline[-1][1] / 10:.1f} at {timeline[-1][0]:.1f} s" if timeline else "nothing"


@click.command()
@click.option("--seconds", default=60.0, help="Time limit for each.")
@click.option("--seed", default=0)
@click.option("--only", multiple=True, help="Names of examples; all if none is given.")
@click.option("--write", is_flag=True, help="Put the table into benchmarks/RESULTS.md.")
def main(seconds: float, seed: int, only: tuple[str, ...], *, write: bool) -> None:
    """Compare on every example room."""
    paths = [p for p in sorted(EXAMPLES.glob("*.toml")) if not only or p.stem in only]
    missing = set(only) - {p.stem for p in paths}
    if missing:
        raise click.UsageError(f"no such example: {', '.join(sorted(missing))}")
    rows = [row for p in paths if (row := measure(p, seconds, seed)) is not None]
    lines = [circumstances(f"{seconds:.0f} s each, seed {seed}"), "", *table(rows)]
    click.echo("\n".join(lines))
    if write:
        put_section("Against alternatives", lines)


if __name__ == "__main__":
    main()
