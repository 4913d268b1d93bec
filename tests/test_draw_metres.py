"""Metres on one sheet have two decimals, or three where one of them needs a third."""

import re
from dataclasses import replace

import draw_rooms as rooms
import pytest
from matplotlib.text import Text

from arrange.data.lengths import length, metres_to_the_millimetre, retold
from arrange.data.swap import Today
from arrange.draw import overview_sheet, plan_sheet, survey_sheet
from arrange.draw.sheet import today_sheet

pytestmark = pytest.mark.fast


def decimals(figure):
    """How many decimals the metres on a sheet have."""
    told = [" ".join(t.get_text().split()) for t in figure.findobj(Text)]
    return {len(found) for t in told for found in re.findall(r"\d\.(\d+) m\b", t)}


def in_metres(*said):
    """A room in metres, all its lengths whole centimetres, and a suggestion that says so much."""
    scenario, arrangement, _ = rooms.bedroom()
    one = rooms.suggestion(arrangement)
    reasons = tuple(replace(r, sentence=s) for r, s in zip(one.verdict.reasons, said, strict=False))
    return replace(scenario, unit="m"), replace(one, verdict=replace(one.verdict, reasons=reasons))


@pytest.mark.parametrize(
    ("said", "places"),
    [
        (("Bed: 0.80 m to get in", "Clear floor of 2.10 m x 2.10 m"), {2}),
        (("Bed: 0.801 m to get in", "Clear floor of 2.10 m x 2.10 m"), {3}),
    ],
)
def test_plan_and_overview_do_not_mix(said, places):
    scenario, one = in_metres(*said)
    assert decimals(plan_sheet(scenario, one, 1)) == places
    assert decimals(overview_sheet(scenario, [one])) == places


def test_one_exact_caution_is_enough():
    scenario, one = in_metres("Bed: 0.80 m to get in")
    assert decimals(plan_sheet(scenario, one, 1, ("Units from 0.686 m can tip",))) == {3}


def test_the_survey_does_not_mix():
    """A diagonal is 5.326 m; in a room of 3 m by 4 m it is 5.00 m."""
    scenario, _ = in_metres()
    assert decimals(survey_sheet(scenario)) == {3}
    shape = rooms.room([(0, 0), (0, 3000), (4000, 3000), (4000, 0)])
    plain, _, _ = rooms.made("Plain", shape, [], unit="m")
    assert decimals(survey_sheet(plain)) == {2}
    assert decimals(survey_sheet(plain, ("0.655 m is too little",))) == {3}


def test_no_millimetre_is_lost_and_nothing_else_changes():
    assert length(805, "m") == "0.805 m"
    told = "0.60 m, 0.805 m, 12.00 m, 3.25 m², 6.50 min, 1.2 m, 60 cm"
    assert retold(told) == told
    with metres_to_the_millimetre():
        assert retold(told) == "0.600 m, 0.805 m, 12.000 m, 3.25 m², 6.50 min, 1.2 m, 60 cm"
        assert length(600, "m") == "0.600 m"
        assert length(600, "cm") == "60 cm"
    assert length(600, "m") == "0.60 m"


def test_a_sheet_of_today_does_not_mix():
    """Its sentences were made before it is drawn; one of them needs the millimetre."""
    scenario, one = in_metres("Bed: 0.801 m to get in", "Clear floor of 2.10 m x 2.10 m")
    today = Today(scenario, one.arrangement, one.verdict, (), ())
    assert decimals(today_sheet(today)) == {3}
    plain = replace(one.verdict, reasons=one.verdict.reasons[1:2])
    assert decimals(today_sheet(replace(today, verdict=plain))) == {2}
