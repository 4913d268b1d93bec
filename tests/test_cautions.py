"""The usual cautions: there where they apply, absent where not, never an approval."""

from pathlib import Path

import pytest
from small_rooms import A, at, free, piece, room, scenario

from arrange.data.arrangement import Arrangement
from arrange.data.room import Door, Fixture, Window
from arrange.data.scenario import RuleSetting
from arrange.data.sources import body, origin
from arrange.scenario.read import read
from arrange.words.cautions import LAST, cautions

pytestmark = pytest.mark.fast

SCENARIOS = sorted(Path("scenarios").glob("*.toml"))
CORNERS = ((1500, 2500), (1500, 3000), (2000, 3000), (2000, 2500))


def stove(**more):
    return Fixture("stove", "stove", CORNERS, A, 1500, 500, 500, 0, 1200, 914, burns=True, **more)


def said(case, *placements):
    """All cautions but the last one, which is always there."""
    arrangement = Arrangement(placements) if placements else None
    found = cautions(case, arrangement)
    assert found[-1] == LAST
    return found[:-1]


def test_an_empty_case_says_only_who_decides():
    """A bare chair in a bare room: no caution but the last, which approves nothing."""
    assert said(scenario(room(), free("chair"))) == ()
    assert "not an approval" in LAST
    assert "local building and fire codes and licensed practice decide" in LAST


@pytest.mark.parametrize(("height", "warned"), [(685, False), (686, True), (687, True)])
def test_clothes_storage_is_fixed_from_the_published_height(height, warned):
    """27 in = 685.8 mm, published as 686."""
    chest = piece("chest", height=height, roles=("store", "clothes"))
    text = " ".join(said(scenario(room(), chest)))
    assert ("Fix the chest to the wall" in text) is warned
    assert (body("csu-height") in text) is warned


def test_tall_pieces_are_named_together_in_the_persons_unit():
    """Wardrobe and chest in one sentence, the bookcase in another; no hung shelf, no bunk."""
    pieces = [
        piece("wardrobe", height=2000, roles=("store", "clothes", "tall")),
        piece("chest", height=900, roles=("store", "clothes")),
        piece("bookcase", height=1800, roles=("store", "tall")),
        piece("shelf", height=900, bottom=1200, roles=("store",)),
        piece("bunk", height=1500, roles=("sleep", "bunk", "tall")),
    ]
    found = said(scenario(room(), *pieces, unit="in"))
    assert found[0].startswith(
        "Fix the wardrobe and the chest to the wall: clothes storage 27 in high or more"
    )
    assert found[1].startswith("Fix the bookcase to the wall")
    assert not any("Fix" in text and ("shelf" in text or "bunk" in text) for text in found[:2])


def test_screens_stand_low():
    """A television bench, with the source of it."""
    (text,) = said(scenario(room(), piece("bench", height=500, roles=("screen",))))
    assert text.startswith("A television on the bench belongs on a low, sturdy base")
    assert body("tv-low-base") in text


def test_a_screen_called_a_television_does_not_stand_on_itself():
    """Who says telly means the set."""
    (text,) = said(scenario(room(), piece("old telly", height=500, roles=("screen",))))
    assert text.startswith("Put the old telly on a low, sturdy base, pushed right back")


@pytest.mark.parametrize(
    ("fixture", "settings", "told"),
    [
        pytest.param(stove(), (), None, id="the usual distance"),
        pytest.param(stove(), (RuleSetting("heat", off=True),), "no distance", id="switched off"),
        pytest.param(stove(), (RuleSetting("heat", least=913),), "91 cm", id="shortened"),
        pytest.param(stove(), (RuleSetting("heat", least=914),), None, id="the same"),
    ],
)
def test_heat_is_cautioned_more_where_the_person_shortened_it(fixture, settings, told):
    """About 1 m on all sides; an own shorter value is named beside the usual one.

    914 mm are told rounded up and what is kept down, so that a millimetre less reads as less.
    """
    found = said(scenario(room(fixtures=(fixture,)), free("chair"), settings=settings))
    assert found[0].startswith(
        "Keep bedding, curtains, rugs and furniture about 100 cm away from the stove"
    )
    assert body("heater-gap") in found[0]
    own = [t for t in found if t.startswith("Your file keeps")]
    assert (
        own == []
        if told is None
        else f"keeps {told} free at the stove, where 92 cm is usual" in own[0]
    )


def test_cots_keep_from_heat_and_footholds():
    """The distances that `cot-harm` asks for, in the scenario's unit; nothing without a cot."""
    cot = piece("cot", roles=("sleep", "cot", "child"))
    (text,) = (t for t in said(scenario(room(), cot)) if "climb on" in t)
    assert "90 cm from the cot" in text
    assert "climb on 45 cm" in text
    assert not any("climb on" in t for t in said(scenario(room(), piece("bed", roles=("sleep",)))))


def test_cots_keep_from_windows_and_cords():
    """Only where there is a window at all."""
    cot = piece("cot", roles=("sleep", "cot", "child"))
    windowed = room(windows=(Window("window", A, 1000, 1200, escape=True),))
    found = said(scenario(windowed, cot))
    assert any(t.startswith("Keep the cot away from every window, blind cord") for t in found)
    assert not any("cord" in text for text in said(scenario(room(), cot)))


@pytest.mark.parametrize(("y", "named"), [(1999, False), (2000, True), (2001, True)])
def test_a_bed_that_stands_at_a_window_is_named(y, named):
    """The window lies at y = 3000: a bed 700 deep from y = 2000 on is within 300 of it."""
    bed = free("bed", 1000, 700, 500, roles=("sleep", "bed"))
    case = scenario(room(windows=(Window("window", A, 1000, 1200),)), bed)
    found = said(case, at("bed", "down", 1000, y))
    assert any("The bed is by the window" in text for text in found) is named
    assert not any("The bed is by" in text for text in said(case))


@pytest.mark.parametrize(("sill", "asked"), [(1100, False), (1101, True)])
def test_the_escape_window_is_kept_free_and_its_sill_questioned(sill, asked):
    """England's guidance says at most 1100; above it we say so and decide nothing."""
    window = Window("window", A, 1000, 1200, sill=sill, escape=True)
    found = said(scenario(room(windows=(window,)), free("chair")))
    assert found[0].startswith("Keep the window and the floor in front of it free")
    assert any("ask locally if it counts as a way out" in text for text in found) is asked


def test_who_sleeps_needs_a_way_out():
    """Door route, and a word where no window is marked; nothing of it in a study."""
    shape = room(doors=(Door("door", 2, 200, 800),))
    bed = piece("bed", roles=("sleep",))
    found = said(scenario(shape, bed))
    assert found[0].startswith("Keep the way from every bed to the door free")
    assert found[1].startswith("No window here is marked as a way out")
    assert said(scenario(shape, free("chair"))) == ()


def test_a_bunk_has_headroom_rails_and_an_age():
    """2500 - 1500 leaves 1000; the age is from memory and says so."""
    bunk = piece("bunk", height=1500, headroom=711, roles=("sleep", "bunk", "tall"))
    text = " ".join(said(scenario(room(), bunk)))
    assert "The bunk leaves 100 cm between the upper mattress and the ceiling" in text
    assert body("bunk-rails-us") in text
    assert f"not for children under 6 years. [{body('bunk-age')} (recalled)]" in text
    assert "ceiling fan. [common practice]" in text


@pytest.mark.parametrize("file", SCENARIOS, ids=lambda f: f.stem)
def test_no_caution_of_any_example_reads_like_approval(file):
    """No word of permission, in any of the example rooms."""
    found = cautions(read(file))
    assert len(found) > 1
    for text in found[:-1]:
        lowered = text.casefold()
        assert not any(w in lowered for w in ("is approved", "is safe", "complies", "compliant"))


def test_sheets_name_the_body_and_the_data_where_it_was_read():
    """The same reminders; short where there is little room, in full where there is enough."""
    bunk = piece("bunk", height=1500, headroom=711, roles=("sleep", "bunk", "tall"))
    case = scenario(room(fixtures=(stove(),)), bunk)
    short, full = cautions(case), cautions(case, full=True)
    assert [t.split(" [")[0] for t in short] == [t.split(" [")[0] for t in full]
    assert short[0].endswith(" [NFPA]")
    assert full[0].endswith(f" [{origin('heater-gap')}; {origin('heater-path')}]")
    assert not any(".com" in text or ".gov" in text or ".org" in text for text in short)
    assert any("(recalled, not read again: check the document itself)" in text for text in full)
    assert any("[common practice, not a standard]" in text for text in full)
