"""Layouts drawn by hand for the examples: they work, the model admits them, none is called bad.

Each is as an experienced decorator would draw it: our own drawing, common practice, no source.
`python -m benchmarks.drawn` holds what the search finds against them.
"""

from dataclasses import replace
from pathlib import Path

import pytest

from arrange.scenario.read import read
from arrange.whatif.today import assess_today

pytestmark = pytest.mark.fast

HERE = Path(__file__).parent
DRAWN = sorted((HERE / "drawn").glob("*.toml"))
EXAMPLES = HERE.parent / "scenarios"
LEAST = 600  # tenths of a point; below, the score would call bad what a decorator draws

each = pytest.mark.parametrize("path", DRAWN, ids=lambda path: path.stem)


def test_every_example_that_works_is_drawn():
    """The one whose point is that it is impossible has no layout."""
    works = {p.stem for p in EXAMPLES.glob("*.toml") if read(p).expected == "found"}
    assert {path.stem for path in DRAWN} == works


@each
def test_only_where_things_stand_is_added(path):
    """So that both are measured on one scale."""
    drawn, example = read(path), read(EXAMPLES / path.name)
    named = {"today": example.today, "source_file": example.source_file}
    assert replace(drawn, **named) == example


@each
def test_a_drawn_layout_works_and_is_not_called_bad(path):
    """No must is broken, every piece stands, and nothing a good plan never has is found."""
    today = assess_today(read(path))
    assert not today.verdict.breaches
    assert not today.left_out
    assert not today.apart
    assert not [reason.sentence for reason in today.verdict.reasons if reason.faults]
    assert today.verdict.standing >= LEAST


@each
@pytest.mark.solver
def test_the_model_admits_what_is_drawn_and_gives_the_same_score(path):
    """Put back into the model with every piece held; another score raises an error."""
    from replayed import confirm  # noqa: PLC0415  loads the solver

    today = assess_today(read(path))
    assert confirm(today.scenario, today.arrangement).standing == today.verdict.standing
