"""The table of published values."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from published import ROWS as PUBLISHED
from published import mm, printed_mm
from small_rooms import piece, room, scenario

import arrange
from arrange.data.kinds import kinds
from arrange.data.scenario import RuleSetting
from arrange.data.sources import UnknownSourceError, ids, source, value
from arrange.rules import RULES
from arrange.rules.comfortable_clearance import ComfortableClearance
from arrange.rules.cot_window import CotWindow
from arrange.rules.door_floor import DoorFloor
from arrange.rules.talking_distance import STEPS, TalkingDistance
from arrange.rules.walkway import USUAL, Walkway

pytestmark = pytest.mark.fast

STATUSES = {"verified", "memory", "common practice", "computed"}


@pytest.mark.parametrize("id_", sorted(ids()))
def test_every_row_says_what_where_and_how_sure(id_):
    """The title carries the value, and the status is one of the four."""
    found = source(id_)
    assert found.id == id_
    assert found.status in STATUSES
    assert value(id_) in found.title


def test_a_value_is_the_published_one():
    """559 mm are 22 in: 22 * 25.4 = 558.8."""
    assert value("bed-side-access") == "559 mm (22 in)"
    assert source("bed-side-access").status == "verified"
    assert source("bunk-age").status == "memory"


@pytest.mark.parametrize("id_", ["", "common-practice"])
def test_no_id_is_common_practice(id_):
    """What has no source says so."""
    assert source(id_).title == "common practice, no source"
    assert source(id_).status == "common practice"


def test_the_persons_own_value_is_theirs():
    """An override is never shown as published."""
    assert source("yours").status == "yours"


def test_an_unknown_id_is_our_bug_and_named():
    """The message names the id and the table, and it is no bare KeyError."""
    with pytest.raises(
        UnknownSourceError, match=r"'no-such-row' is not in sources\.toml"
    ) as caught:
        source("no-such-row")
    assert not isinstance(caught.value, KeyError)


def test_kinds_name_rows_that_exist():
    """Each clearance of each kind has its two sources in the table."""
    used = {
        id_
        for kind in kinds().values()
        for clearance in kind.clearances
        for id_ in (clearance.source, clearance.comfortable_source)
    }
    assert used - {""} <= ids()
    assert used


HERE = Path(arrange.__file__).parent


@pytest.fixture(scope="module")
def mentioned():
    """Every whole word, hyphens in it, of code and tables but the table of sources itself."""
    files = [p for p in HERE.rglob("*") if p.suffix in (".py", ".toml")]
    texts = [p.read_text("utf-8") for p in files if p.name != "sources.toml"]
    return {word for text in texts for word in re.findall(r"[\w-]+", text)}


@pytest.mark.parametrize("id_", sorted(ids()))
def test_every_row_is_used(id_, mentioned):
    """A value that nothing leans on has no place in the table."""
    assert id_ in mentioned


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_id_that_a_rule_names_exists(rule):
    """Its own source, and every id in its docstring that is like one of the table."""
    source(rule.source)
    named = set(re.findall(r"`([a-z0-9]+(?:-[a-z0-9]+)+)`", type(rule).__doc__ or ""))
    assert named <= ids() | {"common-practice"}


def test_every_id_that_the_cautions_cite_exists():
    """The cautions cite by id: each one must be in the table."""
    text = (HERE / "words" / "cautions.py").read_text("utf-8")
    cited = set(CITED.findall(text))
    assert len(cited) > 5
    assert cited <= ids()


def test_a_comfortable_value_is_shown_with_its_own_source():
    """A wardrobe: 750 mm are common practice, the 914 mm that earn points were read."""
    wardrobe = kinds()["wardrobe"].clearances
    case = scenario(room(), piece("wardrobe", 1000, 600, clearances=wardrobe))
    (claim,) = ComfortableClearance().claims(case)
    assert claim.steps[-1] == 914
    assert source(wardrobe[0].usual_source).status == "common practice"
    assert (claim.source, source(claim.source).status) == ("bedroom-storage-front", "verified")
    own = replace(case, settings=(RuleSetting("comfortable-clearance", comfortable=1000),))
    assert [c.source for c in ComfortableClearance().claims(own)] == ["yours"]


@pytest.mark.parametrize("name", sorted(kinds()))
def test_every_comfortable_value_is_in_the_source_shown_with_it(name):
    """What the reason cites prints the number that earns full points."""
    one = piece(name, 4000, 4000, clearances=kinds()[name].clearances)
    for claim in ComfortableClearance().claims(scenario(room(), one)):
        if claim.source:
            assert says(claim.source, claim.steps[-1]), claim


def test_what_a_rule_shows_is_in_the_source_it_cites():
    """600 mm of walkway, 1829 mm to talk, 2438 mm at most; 300 mm before a cot cite nothing."""
    assert says(Walkway.source, USUAL)
    assert source(Walkway.source).status == "common practice"
    assert says(TalkingDistance.source, STEPS[-1])
    assert says("talk-seats-max", STEPS[0])
    assert "diameter" not in source("talk-seats-max").title
    assert CotWindow.source == DoorFloor.source == "common-practice"
    assert not re.search(r"\d", value("cot-window"))


@pytest.mark.parametrize("name", ["wardrobe", "filing cabinet", "sideboard", "display cabinet"])
def test_doors_that_open_within_their_floor_cite_no_standing_depth(name):
    """`door-swing-keep` is floor beyond the arc; in front of a dresser is not of a wardrobe."""
    (clearance,) = kinds()[name].clearances
    assert clearance.usual_source in ("wardrobe-front", "cupboard-front")
    assert clearance.status == "common practice"
    assert "in total" in source(clearance.usual_source).title
    assert says(clearance.usual_source, clearance.usual)


@pytest.mark.parametrize("id_", sorted(PUBLISHED))
def test_a_figure_that_tests_build_rooms_from_is_what_its_source_prints(id_):
    """To the mm from the inches or centimetres, and as the product's own table has it."""
    assert mm(id_) == printed_mm(id_)
    if id_ in ids():
        assert value(id_).startswith(f"{mm(id_)} mm")


def says(id_, wanted):
    """Whether the source prints that length, or a range around it."""
    ranges = [(int(a), int(b or a)) for a, b in PRINTED.findall(value(id_))]
    return any(low <= wanted <= high for low, high in ranges)


PRINTED = re.compile(r"(?<![\d.])(\d{3,4})(?:-(\d{3,4}))?(?!\d)")
CITED = re.compile(r'"([a-z0-9]+(?:-[a-z0-9]+)+)"')
