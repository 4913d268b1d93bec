"""What the search finds in the examples, against a layout drawn by hand for each.

    python -m benchmarks.drawn --seconds 60

The layouts stand in `tests/drawn/`: what an experienced decorator would draw, our own. For each,
its standing and what it loses, the best that the search finds within the limit, and every reason
in which the two differ. The run fails where the search finds less than was drawn: either it has
not looked long enough, or it cannot get there. Where the drawn one looks better and scores
less, a measure is missing or weighs wrongly.
"""

from __future__ import annotations

from pathlib import Path

import click

from arrange.data.result import Reason, Verdict, keyed, parted
from arrange.scenario.read import read
from arrange.suggesting import suggest
from arrange.whatif.today import assess_today
from benchmarks.report import circumstances, conclude

DRAWN = Path(__file__).parent.parent / "tests" / "drawn"


def shown(standing: int) -> str:
    """Points, and the faults of first rank before them.

    >>> shown(873), shown(-127)
    ('87.3', '87.3 with 1 fault of first rank')
    """
    faults, points = parted(standing)
    text = f"{points / 10:.1f}"
    return (
        f"{text} with {faults} fault{'s' if faults > 1 else ''} of first rank" if faults else text
    )


def lost(verdict: Verdict) -> list[str]:
    """One line for each reason that loses points, the most first."""
    reasons = sorted(verdict.reasons, key=lambda reason: -reason.lost)
    return [
        f"    {reason.won / 10:.1f} of {reason.possible / 10:.1f}  {reason.rule}: {reason.sentence}"
        for reason in reasons
        if reason.lost or reason.faults
    ]


def differences(drawn: Verdict, found: Verdict) -> list[str]:
    """One line for each reason in which they differ; what the drawn one gains most first."""
    one, two = keyed(drawn.reasons), keyed(found.reasons)
    pairs = [(one[key], two[key]) for key in one if key in two and one[key].won != two[key].won]
    pairs.sort(key=lambda pair: pair[1].won - pair[0].won)
    return [_difference(a, b) for a, b in pairs]


def _difference(drawn: Reason, found: Reason) -> str:
    gained = (found.won - drawn.won) / 10
    return f"    {gained:+.1f}  {found.rule}: {found.sentence} (drawn: {drawn.sentence})"


def compared(path: Path, seconds: float, seed: int) -> tuple[list[str], bool]:
    """What is said of one example, and whether the search found less than was drawn.

    The search is given the example with the layout left out, so that it cannot start there.
    """
    today = assess_today(read(path))
    scenario = read(Path(__file__).parent.parent / "scenarios" / path.name)
    result = suggest(scenario, top=1, seconds=seconds, seed=seed)
    drawn = today.verdict
    lines = ["", f"{path.stem}: drawn {shown(drawn.standing)}, of which is lost", *lost(drawn)]
    if not result.suggestions:
        return [*lines, f"  {result.outcome}: {seconds:g} s"], True
    found = result.suggestions[0].verdict
    less = found.standing < drawn.standing
    lines.append(f"  {result.outcome}: {shown(found.standing)}, {'LESS' if less else 'no less'}")
    return [*lines, *differences(drawn, found)], less


@click.command()
@click.option("--seconds", default=60.0, help="Time limit of each search.")
@click.option("--seed", default=0)
@click.option("--only", default="", help="The examples with this in their name.")
@click.option("--write", is_flag=True, help="Put the lines into benchmarks/RESULTS.md.")
def main(seconds: float, seed: int, only: str, *, write: bool) -> None:
    """Search every example that was drawn by hand, and compare."""
    lines = [circumstances(f"{seconds:g} s each, seed {seed}")]
    found_less = 0
    for path in sorted(DRAWN.glob("*.toml")):
        if only not in path.stem:
            continue
        said, less = compared(path, seconds, seed)
        lines += said
        found_less += less
    conclude("Drawn by hand", lines, write=write, faulty=bool(found_less))


if __name__ == "__main__":
    main()
