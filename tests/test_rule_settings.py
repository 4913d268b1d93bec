"""What a scenario changes about a rule: honoured by judge and model alike, or refused."""

import pytest
from plain_rooms import BOTTOM, TOP, at, door, levels, on_wall, piece, room, scenario, socket

from arrange.data.arrangement import Arrangement
from arrange.data.kinds import with_own
from arrange.data.piece import Clearance
from arrange.data.scenario import RuleSetting, Wish
from arrange.errors import ScenarioError
from arrange.judge import judge
from arrange.rules import RULES
from arrange.scenario.read import read_text
from arrange.scoring import ORDINARY, shares, weight_of
from arrange.suggesting import suggest

pytestmark = pytest.mark.fast

FILE = """
unit = "mm"
[room]
size = [4000, 3000]
[[door]]
wall = "C"
from_left = 200
width = 800
[[piece]]
kind = "wardrobe"
"""


def fault(rule, *lines):
    """What the reader says of one [[rule]] of the file."""
    with pytest.raises(ScenarioError) as caught:
        read_text("\n".join([FILE, "[[rule]]", f'rule = "{rule}"', *lines]), "room.toml")
    (line,) = str(caught.value).splitlines()
    return line


def reasons(case, *placements):
    """The judge's reasons for an arrangement."""
    return judge(case, Arrangement(tuple(placements))).reasons


# -- weight ---------------------------------------------------------------------


def test_a_weight_of_ones_own_counts_and_shows():
    """Two rules of one part, 8 to 2 of the 1000 tenths; with 8 and 8 each has half."""
    front = (Clearance("front", ("front",), 300, 900, "to use it"),)
    shelf = piece("shelf", clearances=front, roles=("needs socket",))
    off = tuple(
        RuleSetting(r.id, off=True)
        for r in RULES
        if r.kind == "wish" and r.id not in ("comfortable-clearance", "sockets-near")
    )
    place, here = on_wall(room(), shelf, TOP, 0), room(fixtures=(socket(TOP, 500),))
    usual = reasons(scenario(here, shelf, settings=off), place)
    own = (*off, RuleSetting("sockets-near", weight=8))
    changed = reasons(scenario(here, shelf, settings=own), place)
    assert [(r.possible, r.overridden) for r in usual] == [(800, False), (200, False)]
    assert [(r.possible, r.overridden) for r in changed] == [(500, False), (500, True)]


def test_a_weight_is_for_every_claim_of_the_rule():
    """Two desks, two claims for a socket."""
    fixtures = (socket(TOP, 500),)
    desks = [piece(n, roles=("needs socket",)) for n in ("one", "two")]
    case = scenario(
        room(fixtures=fixtures),
        *desks,
        only="sockets-near",
        settings=(RuleSetting("sockets-near", weight=7),),
    )
    assert [(s.possible, s.claim.overridden) for s in shares(case)] == [(500, True), (500, True)]
    assert weight_of(case, "sockets-near") == 7 * ORDINARY


def test_a_wish_in_ones_own_words_weighs_as_much_as_the_main_wishes():
    """Ten, among the wishes; they share what one, two, three or more of them may take."""
    assert Wish("near", "a", "b").weight == 10
    text = FILE + '[[wish]]\npiece = "wardrobe"\nnear = "door"\n'
    assert read_text(text).wishes[0].weight == 10
    assert read_text(text + "weight = 20").wishes[0].weight == 20


# -- least and comfortable ----------------------------------------------------


@pytest.mark.solver
@pytest.mark.parametrize(
    ("setting", "free", "level"),
    [
        # The shelf is 500 deep in a room 4000 deep; a chest stands `free` before it.
        pytest.param(None, 899, 2, id="1 mm short of its own comfortable depth"),
        pytest.param(None, 900, 3, id="its own comfortable depth"),
        pytest.param(600, 600, 3, id="comfortable is 600 for this person"),
        pytest.param(600, 599, 2, id="1 mm short of that"),
        pytest.param(1200, 900, 2, id="300, then 600, 900 and 1200: two steps of three"),
    ],
)
def test_a_comfortable_depth_for_the_whole_room(setting, free, level):
    """The steps end at the person's own value, for judge and model."""
    shelf = piece("shelf", clearances=(Clearance("front", ("front",), 300, 900, "to use it"),))
    chest = piece("chest", stands="free", roles=("store",))
    settings = (RuleSetting("comfortable-clearance", comfortable=setting),)
    case = scenario(room(), shelf, chest, only="comfortable-clearance", settings=settings)
    placements = (on_wall(room(), shelf, TOP, 0), at(chest, 0, 3500 - free - 500))
    assert levels(case, "comfortable-clearance", *placements) == [level]
    (reason,) = reasons(case, *placements)
    assert reason.overridden == (setting is not None)


def test_a_clearance_with_values_of_its_own_keeps_them():
    """What was set on the piece stands; the room's value is for the others."""
    own = with_own(Clearance("front", ("front",), 300, 900, "to use it"), 300, 900)
    settings = (RuleSetting("comfortable-clearance", comfortable=600),)
    case = scenario(room(), piece("shelf", clearances=(own,)), settings=settings)
    found = [s.claim.steps for s in shares(case) if s.claim.rule == "comfortable-clearance"]
    assert found == [(500, 700, 900)]


@pytest.mark.solver
@pytest.mark.parametrize(
    ("comfortable", "offset", "level"),
    [
        # The socket is at 0 to 80 on the top wall; the lamp's left edge is the gap's end.
        pytest.param(None, 1580, 2, id="within the usual 1500"),
        pytest.param(500, 1580, 2, id="500 is asked for: the two farther steps"),
        pytest.param(500, 580, 3, id="at 500"),
        pytest.param(500, 581, 2, id="1 mm more"),
        pytest.param(3500, 3580, 1, id="3500 will do: one step"),
    ],
)
def test_a_distance_for_full_points(comfortable, offset, level):
    """Steps of 3000 and 1500 mm, then the person's own."""
    lamp = piece("lamp", 400, 400, roles=("light",))
    the_room = room(fixtures=(socket(TOP, 0),))
    settings = (RuleSetting("sockets-near", comfortable=comfortable),)
    case = scenario(the_room, lamp, only="sockets-near", settings=settings)
    assert levels(case, "sockets-near", on_wall(the_room, lamp, TOP, offset)) == [level]


@pytest.mark.parametrize(
    ("setting", "steps"),
    [
        pytest.param({}, (1200, 1500, 1800, 2100, 2400), id="the rule's own"),
        pytest.param({"least": 1500}, (1500, 1800, 2100, 2400), id="from 1500 on"),
        pytest.param({"comfortable": 1600}, (1200, 1500, 1600), id="1600 is enough"),
        pytest.param({"least": 1000, "comfortable": 1000}, (1000,), id="that or nothing"),
        pytest.param({"comfortable": 900}, (900,), id="less than the rule's first"),
        pytest.param({"least": 3000}, (3000,), id="more than the rule's last"),
    ],
)
def test_squares_of_ones_own(setting, steps):
    """The smallest square that earns points, and the one that earns all of them."""
    case = scenario(room(), settings=(RuleSetting("clear-floor", **setting),))
    (claim,) = [s.claim for s in shares(case) if s.claim.rule == "clear-floor"]
    assert (claim.steps, claim.overridden) == (steps, bool(setting))


# -- what is refused ----------------------------------------------------------


@pytest.mark.parametrize(
    ("rule", "line", "message"),
    [
        ("inside-room", "off = true", '"inside-room" cannot be switched off; a piece belongs'),
        ("fixtures-free", "off = true", "give the fixture keep_free = 0 instead"),
        ("heat", "weight = 3", '"heat" takes no weight; what can be set: off or least'),
        ("balance", "least = 30", '"balance" takes no least; what can be set: off or weight'),
        ("daylight", "least = 30", "what can be set: off, weight or comfortable"),
        ("walkway", "least = 700", 'its width is set at the top of the file: walkway = "70 cm"'),
        ("least-clearance", "least = 700", "set it on the piece: clearance.front"),
    ],
)
def test_what_a_rule_cannot_take_is_refused(rule, line, message):
    """With what can be set instead."""
    assert message in fault(rule, line)
    assert fault(rule, line).startswith("room.toml: rule[1].")


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_rule_can_be_changed_as_it_says(rule):
    """Each value it takes is read; what cannot be off says why."""
    values = {"least": "least = 300", "comfortable": "comfortable = 800"}
    lines = [values[key] for key in rule.takes] + ["weight = 3"] * (rule.kind == "wish")
    text = "\n".join([FILE, "[[rule]]", f'rule = "{rule.id}"', *lines])
    setting = read_text(text).setting(rule.id)
    assert (setting.least is not None, setting.comfortable is not None) == (
        "least" in rule.takes,
        "comfortable" in rule.takes,
    )
    assert not rule.always or rule.kind == "must"


# -- walkway off --------------------------------------------------------------


@pytest.mark.solver
@pytest.mark.parametrize("off", [False, True])
def test_walkways_switched_off_are_not_asked_for(off):
    """A passage 1500 wide and 3000 deep with a bench right across it.

    The wardrobe is on the far wall, 600 deep with 600 of floor before it, so the
    bench, 500 deep, lies between y = 700 (the door's floor) and y = 1800: nobody
    gets past. Without the rule that is fine, for the search as for the judge.
    """
    corners = ((0, 0), (0, 3000), (1500, 3000), (1500, 0))
    the_room = room(corners, doors=[door(BOTTOM, 200, 700)])
    front = (Clearance("front", ("front",), 600, 600, "to open it"),)
    wardrobe = piece("wardrobe", 1500, 600, clearances=front)
    bench = piece("bench", 1500, 500, stands="free", roles=("store",))
    off_rules = [r.id for r in RULES if r.kind == "wish" and r.id not in ("against", "away-from")]
    settings = [RuleSetting(r, off=True) for r in [*off_rules, *(["walkway"] if off else [])]]
    wishes = (
        Wish("against", "wardrobe", "B", must=True),
        Wish("against", "bench", "A", must=True),
        Wish("against", "bench", "C", must=True),
    )
    case = scenario(the_room, wardrobe, bench, settings=tuple(settings), wishes=wishes)
    across = Arrangement((on_wall(the_room, wardrobe, TOP, 0), at(bench, 0, 1000)))
    assert judge(case, across).works is off
    assert suggest(case, top=1, seconds=20).outcome == ("proven" if off else "impossible")
