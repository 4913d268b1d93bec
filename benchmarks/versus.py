"""The product against five alternatives, in one run on the same machine.

    python -m benchmarks.versus --seconds 60 --write

Every example of `scenarios/` that is expected to be found is given to all, one
after another, with the same time limit. An alternative's time is when it had its
final score; the product's is when it had at least that score. The ratio says how
many times longer the alternative took. Where the alternative found nothing, it would
have needed more than the limit: the limit by our time to a first arrangement is then a
lower bound of the ratio, shown with ">" and counted as that in the median.

Two of the five are given our own model and judge, in a plain loop: they show what our
search is worth, not what somebody makes who starts from nothing.
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
from benchmarks.alternatives.lattice import plain_with_walkways
from benchmarks.alternatives.plain import our_model, our_model_made_plainer
from benchmarks.alternatives.recorder import Timeline
from benchmarks.ours import ours
from benchmarks.report import circumstances, put_section

EXAMPLES = Path(__file__).parent.parent / "scenarios"
ALTERNATIVES: dict[str, Callable[[Scenario, float, int], Timeline]] = {
    "plain CP-SAT, walkways in the model": plain_with_walkways,
    "our model made plainer and our judge, in a plain loop": our_model_made_plainer,
    "our model and judge, in a plain loop": our_model,
    "annealing": anneal,
    "greedy": greedy,
}

LEGEND = [
    "*ours to match*: our time to at least the alternative's final score. *ratio*: its time to",
    "that score by ours; 0 where we did not reach it. It found nothing: the limit by our time to",
    "a first arrangement, a lower bound (>), which counts as it stands in the median.",
    "The plain CP-SAT model has the walkway in it, as someone would write it first; its bodies,",
    "clearances and points are said through our model, so that the score is the same. The two",
    "in a plain loop are given our whole formulation and our judge; only the search is theirs.",
]


@dataclass
class Row:
    """One example: the product's timeline and each alternative's."""

    example: str
    outcome: str
    bound: int
    ours: Timeline
    limit: float
    theirs: dict[str, Timeline] = field(default_factory=dict)

    def ratio(self, name: str) -> float | None:
        """How many times longer the alternative took; None if neither found anything.

        At least that many times where the alternative found nothing. 0 where the
        product never reached that score within the limit.
        """
        theirs = self.theirs[name]
        if not theirs:
            return self.limit / self.ours[0][0] if self.ours else None
        when, score = theirs[-1]
        mine = next((t for t, s in self.ours if s >= score), None)
        return 0.0 if mine is None else when / mine


def measure(path: Path, seconds: float, seed: int) -> Row | None:
    """Everybody on one example; None if it is meant to be impossible."""
    scenario = read(path)
    if scenario.expected == "impossible":
        return None
    timeline, result = ours(scenario, seconds, seed)
    row = Row(path.stem, result.outcome, result.bound, timeline, seconds)
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
    return [*lines, "", *LEGEND, "", *[_summary(rows, name) for name in names]]


def _cells(row: Row, name: str) -> list[str]:
    theirs, ratio = row.theirs[name], row.ratio(name)
    if not theirs:
        if ratio is None:
            return ["nothing", "nothing", "neither"]
        return ["nothing", f"{row.ours[0][0]:.1f} s (first)", f"> {ratio:.1f}"]
    score = theirs[-1][1]
    mine = next((f"{t:.1f} s" for t, s in row.ours if s >= score), "not reached")
    return [_last(theirs), mine, f"{ratio:.1f}" if ratio else "0"]


def _summary(rows: list[Row], name: str) -> str:
    ratios = [r for row in rows if (r := row.ratio(name)) is not None]
    nothing = sum(row.ratio(name) is not None and not row.theirs[name] for row in rows)
    better = sum(_score(row.ours) > _score(row.theirs[name]) for row in rows)
    worse = sum(_score(row.ours) < _score(row.theirs[name]) for row in rows)
    median = f"{statistics.median(ratios):.1f}" if ratios else "none"
    median = f"at least {median}" if nothing else median
    return (
        f"- {name}: median ratio {median} over {len(ratios)} examples, {nothing} of them with "
        f"the lower bound, as it found nothing there; our score is higher in {better} of "
        f"{len(rows)}, lower in {worse}."
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
    began = circumstances(f"{seconds:.0f} s each, seed {seed}")
    rows = [row for p in paths if (row := measure(p, seconds, seed)) is not None]
    lines = [began, "", *table(rows)]
    click.echo("\n".join(lines))
    if write:
        put_section("Against alternatives", lines)


if __name__ == "__main__":
    main()
