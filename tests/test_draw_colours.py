"""Colours that mean something are told apart by everybody, in grey too, and text by all."""

import pytest
from colour import SEEN, ciede2000, contrast, lab, least_difference, linear, ways_to_see

from arrange.draw import STYLE

pytestmark = pytest.mark.fast


# ------------------------------------------------------------------ the measure itself


@pytest.mark.parametrize("way", SEEN)
def test_nobody_sees_a_tint_in_white_or_grey(way):
    """Each row of a matrix adds up to 1: a digit recalled wrongly would show here."""
    assert [sum(row) for row in SEEN[way]] == pytest.approx([1.0] * 3, abs=2e-5)


def test_contrast_and_lightness_of_black_and_white():
    """21 to 1 by definition (WCAG); L* 0 and 100, and the mid grey #777777 at 4.48."""
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)  # from memory
    assert lab(linear("#ffffff")) == pytest.approx((100.0, 0.0, 0.0), abs=0.01)
    assert lab(linear("#000000")) == pytest.approx((0.0, 0.0, 0.0), abs=0.01)


def test_red_and_green_that_only_differ_in_hue_are_found():
    """A red and a green that deuteranopes confuse are far apart for all others."""
    full = ciede2000(lab(linear("#a52019")), lab(linear("#58641d")))
    least, way = least_difference("#b5493b", "#6d7a33")
    assert full > 30
    assert least < 10
    assert way != "full"


# ------------------------------------------------------------------ text on its ground

GROUNDS = {
    "paper": STYLE.paper,
    "floor": STYLE.floor,
    "walkway": STYLE.walkway,
    "low": STYLE.low,
    "given up": STYLE.given,
    **STYLE.tints,
}
INKS = {"text": STYLE.text, "quiet": STYLE.quiet, "accent": STYLE.accent, "loss": STYLE.loss}


@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("ink", INKS)
def test_text_stands_out_from_what_it_is_written_on(ink, ground):
    """4.5 to 1 and more: WCAG 2.2, 1.4.3, level AA."""
    assert contrast(INKS[ink], GROUNDS[ground]) >= 4.5


# ------------------------------------------------------------------ areas and lines

# What meets on a sheet and means something different. A difference of 2 to 3 is just seen in the
# middle of a sheet; we ask for more, by the size of what is to be told apart: our own values.
AREA, LINE = 4.0, 8.0
MEETING = [
    pytest.param(STYLE.walkway, STYLE.floor, AREA, id="the way and the floor"),
    pytest.param(STYLE.walkway, STYLE.tints["rug"], AREA, id="the way over a rug"),
    pytest.param(STYLE.walkway, STYLE.low, AREA, id="the way below a slope"),
    pytest.param(STYLE.low, STYLE.floor, AREA, id="below a slope and the floor"),
    pytest.param(STYLE.given, STYLE.floor, AREA, id="floor that is given up"),
    pytest.param(STYLE.accent, STYLE.paper, LINE, id="a bar and what it lacks"),
    pytest.param(STYLE.cut, STYLE.floor, LINE, id="walls"),
    pytest.param(STYLE.cut, STYLE.paper, LINE, id="walls and windows"),
    *(
        pytest.param(line, ground, LINE, id=f"{name} on {where}")
        for name, line in (
            ("hatch", STYLE.hatch),
            ("outline", STYLE.edge),
            ("symbol", STYLE.line),
            ("gap", STYLE.accent),
            ("what lacks", STYLE.loss),
        )
        for where, ground in (
            ("the floor", STYLE.floor),
            ("a rug", STYLE.tints["rug"]),
            ("the way", STYLE.walkway),
            ("low floor", STYLE.low),
        )
    ),
    *(
        pytest.param(STYLE.edge, tint, LINE, id=f"outline of {name}")
        for name, tint in STYLE.tints.items()
    ),
]


@pytest.mark.parametrize(("one", "two", "least"), MEETING)
def test_what_meets_on_a_sheet_is_told_apart_by_everybody(one, two, least):
    """In colour, in grey and with each of three kinds of colour blindness."""
    difference, way = least_difference(one, two)
    assert difference >= least, way


def test_what_lacks_and_what_is_there_differ_by_more_than_their_lightness():
    """Blue and brown are for all who see colours; in grey what lacks is dashed or hatched."""
    one, two = (ways_to_see(colour) for colour in (STYLE.accent, STYLE.loss))
    seen = {name: ciede2000(one[name], two[name]) for name in one if name != "grey"}
    assert min(seen.values()) >= LINE, seen
