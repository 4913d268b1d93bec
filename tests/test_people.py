"""Who lives here: what the file says, what follows for pieces and ways, what is told.

Figures of the table are held against what the sources print: "Metric Data 04" for widths of
people with aids, DIN 18040-2 for turning squares, Time-Saver Standards for the elderly.
"""

import itertools
import re
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest
from published import mm
from small_rooms import A, at, clearance, free, piece, room, scenario

import arrange
from arrange.data import people
from arrange.data.arrangement import Arrangement
from arrange.data.kinds import kinds
from arrange.data.people import asked, rows, suited
from arrange.data.person import AIDS, Person
from arrange.data.piece import SITTING
from arrange.data.room import Door, Fixture, Window
from arrange.data.scenario import RuleSetting
from arrange.data.sizes import standard_sizes
from arrange.data.sources import ids, value
from arrange.rules.climbing import Climbing
from arrange.scenario.needs import read_open_data
from arrange.whatif.requirements import declared, describe, relaxations
from arrange.words.cautions import cautions

pytestmark = pytest.mark.fast

ROOM = '[room]\nsize = [420, 420]\n[[door]]\nwall = "C"\nfrom_left = 20\nwidth = 90\n'
BED = '[[piece]]\nkind = "single bed"\n'


def person(name="Ada", **said):
    """A ``[[person]]`` of the file."""
    lines = [
        f"{key} = {str(v).lower() if isinstance(v, bool) else repr(v)}" for key, v in said.items()
    ]
    return "\n".join(["[[person]]", f'name = "{name}"', *lines, ""])


def read(*parts, top=""):
    return arrange.read_text(top + ROOM + "".join(parts))


def faults(*parts):
    with pytest.raises(arrange.ScenarioError) as caught:
        read(*parts)
    return [str(fault) for fault in caught.value.faults]


def depth(case, name, clearance):
    found = next(c for c in case.piece(name).clearances if c.name == clearance)
    return found.least


def told(case, *placements):
    return " ".join(cautions(case, Arrangement(placements) if placements else None))


# -- what the file may say ---------------------------------------------------
@pytest.mark.parametrize(
    ("said", "where", "words"),
    [
        ({"uses": "scooter"}, "person[1].uses", '"stick", "crutches", "walking frame" or "wheel'),
        ({"age": 4.5}, "person[1].age", "a whole number from 0 to 120 is needed"),
        ({"age": 121}, "person[1].age", "a whole number from 0 to 120 is needed"),
        ({"height": 39}, "person[1].height", "40 cm to 230 cm is allowed"),
        ({"height": 231}, "person[1].height", "40 cm to 230 cm is allowed"),
        ({"height": 1.7}, "person[1].height", 'write "1.7 m" if that is meant'),
        ({"climbs": "yes"}, "person[1].climbs", "true or false is needed"),
        ({"wheelchair": True}, "person[1].wheelchair", "the key"),
        ({"up_at_night": True, "sleeps_here": False}, "person[1].up_at_night", "sleeps here"),
    ],
)
def test_a_wrong_value_is_one_message_with_its_place(said, where, words):
    """Where, what was given and what is allowed."""
    (fault,) = faults(person(**said), BED)
    assert where in fault
    assert words in fault


def test_a_person_needs_a_name_of_their_own():
    """One message for a missing name, one for two persons of one name."""
    (missing,) = faults("[[person]]\nage = 4\n", BED)
    assert "no name given" in missing
    (twice,) = faults(person("Ada"), person("ada"), BED)
    assert '"ada" is the name of 2 people' in twice


def test_whose_a_piece_is_must_be_a_person():
    """A slip is told with the name that may be meant; several names are a list."""
    (fault,) = faults(person("Ada"), BED + 'whose = "Adda"\n')
    assert "piece[1].whose" in fault
    assert "did you mean 'Ada'?" in fault
    both = read(person("Ben"), person("Ada"), BED + 'whose = ["ben", "Ada"]\n')
    assert both.pieces[0].whose == ("Ada", "Ben")


def test_twelve_persons_are_read_and_no_more():
    """As the page says."""
    assert len(read(*(person(f"P{i}") for i in range(12)), BED).people) == 12
    assert "at most 12 are read" in faults(*(person(f"P{i}") for i in range(13)), BED)[0]


@pytest.mark.parametrize(
    ("said", "climbs"),
    [
        ({"age": 0}, False),
        ({"age": 1}, True),
        ({"age": 5}, True),  # "up to 72 months" (`csu-date`)
        ({"age": 6}, False),
        ({"age": 6, "climbs": True}, True),
        ({"age": 5, "climbs": False}, False),
        ({}, False),
    ],
)
def test_small_children_climb_unless_the_file_says_not(said, climbs):
    """From one to five whole years."""
    (one,) = read(person(**said), BED).people
    assert one.climbs is climbs


# -- ways --------------------------------------------------------------------
# mm as printed by Metric Data 04, and the two paths of HUD and Time-Saver Standards: 24 in is
# 609.6, 30 in is 762.
@pytest.mark.parametrize(
    ("said", "way"),
    [
        ({}, 500),
        ({"uses": "stick"}, 660),
        ({"uses": "walking frame"}, 760),
        ({"uses": "crutches"}, 840),
        ({"uses": "wheelchair"}, mm("wc-width")),
        ({"up_at_night": True}, 610),
        ({"age": 74, "sleeps_here": True}, 500),
        ({"age": 75, "sleeps_here": True}, round(30 * 25.4)),
        ({"age": 75}, 600),  # kept to usual; nobody's bed is here
        ({"age": 4, "climbs": True, "sleeps_here": True}, 500),
    ],
)
def test_ways_are_as_wide_as_somebody_needs(said, way):
    """And no wider: what the file says of the walkway itself stands."""
    assert read(person(**said), BED).walkway == way
    assert read(person(**said), BED, top="walkway = 55\n").walkway == 550


def test_several_persons_get_the_most_that_one_needs_in_any_order():
    """A frame and a wheelchair, and somebody at night: the scenario and all that is told."""
    several = [person("Ben", uses="walking frame", sleeps_here=True)]
    several += [person("Ada", uses="wheelchair", sleeps_here=True), person("Cy", up_at_night=True)]
    cases = [read(*order, BED) for order in itertools.permutations(several)]
    assert cases[0].walkway == 900
    assert depth(cases[0], "single bed", "getting in") == 1000
    assert all(case == cases[0] and case.mark == cases[0].mark for case in cases)
    assert len({told(case) for case in cases}) == 1


def test_those_who_need_as_much_are_both_named():
    """In the order of their names."""
    two = (Person("Cy", uses="stick"), Person("Ada", uses="stick"))
    assert asked(two, "walkway").whose == "Ada's stick and Cy's stick"


def test_a_file_without_persons_asks_nothing_for_anybody():
    """No width, no floor before windows, no square to turn in."""
    case = arrange.read("scenarios/small-double-bedroom.toml")
    assert case.people == ()
    assert asked((), "walkway") is None
    assert Climbing().regions(case) == []


# -- floor beside pieces -----------------------------------------------------
@pytest.mark.parametrize(
    ("said", "least"),
    [
        ({"sleeps_here": True}, 400),
        ({"uses": "stick"}, 559),  # kept to usual (22 in), but they sleep elsewhere
        ({"uses": "stick", "sleeps_here": True}, 660),
        ({"uses": "walking frame", "sleeps_here": True}, 760),
        ({"uses": "crutches", "sleeps_here": True}, 840),
        ({"uses": "wheelchair", "sleeps_here": True}, mm("adm3-bed-zone")),
    ],
)
def test_a_bed_has_the_floor_that_its_sleeper_needs(said, least):
    """And a bed that is somebody else's does not."""
    assert depth(read(person(**said), BED), "single bed", "getting in") == least
    other = read(person(**said), person("Ben"), BED + 'whose = "Ben"\n')
    usual = 559 if said.get("uses") else 400
    assert depth(other, "single bed", "getting in") == usual


def test_a_wheelchair_earns_full_points_by_what_its_dwellings_have():
    """DIN 18040-2 (R): 150 cm beside the bed and before furniture, and says so."""
    ada = Person("Ada", uses="wheelchair", sleeps_here=True)
    case = read(person(uses="wheelchair", sleeps_here=True), BED, '[[piece]]\nkind = "wardrobe"\n')
    for name, part, id_ in (
        ("single bed", "getting in", "din-bed-side-1-wc"),
        ("wardrobe", "doors", "din-furniture-front-wc"),
    ):
        found = next(c for c in case.piece(name).clearances if c.name == part)
        assert (found.least, found.comfortable) == (mm("adm3-bed-zone"), mm(id_))
        assert (found.comfortable_source, found.status) == (id_, "memory")
        assert found.purpose.endswith(f", for {ada.with_aid}")


def test_both_sides_of_a_bed_for_two_are_free_for_the_old():
    """24 in, 610 mm, also on the side used least; a bed for one keeps one side."""
    old = person(age=80, sleeps_here=True)
    case = read(old, '[[piece]]\nkind = "double bed"\n')
    assert depth(case, "double bed", "left side") == depth(case, "double bed", "right side") == 610
    assert depth(read(old, BED), "single bed", "getting in") == 559


@pytest.mark.solver
def test_a_bed_tried_in_the_size_for_two_is_as_one_written_so():
    """The ladder of sizes: 610 mm at both sides for somebody old, as in a file with such a bed."""
    from arrange.whatif.ladder import in_size  # noqa: PLC0415  fast tests load no solver

    who = person(age=80, uses="stick", sleeps_here=True)
    case = read(who, BED)
    sizes = standard_sizes(case.piece("single bed"), "eu", "cm").sizes
    double = next(size for size in sizes if size.piece.is_a("for two"))
    tried = in_size(case, "single bed", double).piece("single bed")
    written = read(who, '[[piece]]\nkind = "double bed"\n').piece("double bed")
    assert tried.clearances == written.clearances
    assert depth(read(who, BED), "single bed", "getting in") == 660


def test_what_the_file_says_of_a_piece_stands_and_is_told():
    """50 cm beside the bed, where a wheelchair needs 100."""
    own = BED + 'clearance."getting in" = { least = 50, comfortable = 60 }\n'
    case = read(person(uses="wheelchair", sleeps_here=True), own)
    assert depth(case, "single bed", "getting in") == 500
    text = told(case)
    assert "keeps 50 cm free on one side of the single bed; 100 cm is advised for Ada's" in text
    given_up = read(
        person(uses="wheelchair"), '[[piece]]\nkind = "wardrobe"\nclearance.front = false\n'
    )
    assert "keeps nothing free in front of the wardrobe; 100 cm is advised for" in told(given_up)


def test_a_value_says_who_asks_for_it_only_where_it_is_theirs():
    """A usual depth that is more than they ask keeps its own source: 1200 against 1000."""
    wide = clearance(
        700, 1300, usual=1200, usual_source="din-turn", comfortable_source="din-turn-wc"
    )
    shelf = piece("shelf", roles=("store",), clearances=(wide,))
    (raised,) = suited(shelf, (Person("Ada", uses="wheelchair"),)).clearances
    assert (raised.least, raised.source) == (1000, "adm3-bed-zone")
    assert (raised.usual, raised.usual_source) == (1200, "din-turn")
    assert raised.comfortable == 1500


@pytest.mark.parametrize(
    ("stands", "climbs", "after"),
    [("anywhere", True, "wall"), ("anywhere", False, "anywhere"), ("free", True, "free")],
)
def test_tall_storage_stands_at_a_wall_where_a_child_climbs(stands, climbs, after):
    """So that it can be fixed; what stands free by itself is told."""
    shelf = piece("shelf", height=1800, roles=("store", "tall"), stands=stands)
    assert suited(shelf, (Person("Mo", climbs=climbs),)).stands == after
    assert suited(shelf, (Person("Mo", climbs=climbs),), ["stands"]).stands == stands


@pytest.mark.parametrize(("height", "after"), [(685, "anywhere"), (686, "wall")])
def test_low_storage_may_stand_anywhere(height, after):
    """27 in = 685.8 mm (`csu-height`)."""
    chest = piece("chest", height=height, roles=("store",), stands="anywhere")
    assert suited(chest, (Person("Mo", climbs=True),)).stands == after


NEED = '[[need]]\nname = "a place to sleep"\n'
CANDIDATE = 'meets = "a place to sleep"\nprice = {}\nwhose = "Ada"\n'


def test_every_way_to_choose_is_for_the_same_people():
    """A bed or a daybed to choose from: either has the floor of a wheelchair."""
    parts = [BED + CANDIDATE.format(80), '[[piece]]\nkind = "daybed"\n' + CANDIDATE.format(90)]
    data = tomllib.loads(ROOM + person(uses="wheelchair", sleeps_here=True) + NEED + "".join(parts))
    found = read_open_data(data, "beds")
    for name in ("single bed", "daybed"):
        case = found.scenario([name])
        assert [p.name for p in case.pieces] == [name]
        assert depth(case, name, "getting in") == 1000
        assert case.walkway == 900


# -- how tall they are -------------------------------------------------------
# Stature and sitting height of the same percentiles, British men and women (`hf-stature`,
# `hf-sitting` and the women of the same tables), mm.
PAIRS = [(1625, 850), (1740, 910), (1855, 965), (1505, 795), (1610, 850), (1710, 910)]


@pytest.mark.parametrize(("stature", "sitting"), PAIRS)
def test_who_sits_up_has_room_for_all_published_people(stature, sitting):
    """53.3 % of the stature is never less than the sitting height, nor 3 cm more."""
    need = asked((Person("Al", height=stature, sleeps_here=True),), "sitting")
    assert sitting <= need.least <= sitting + 30


def test_over_a_loft_bed_there_is_room_for_its_sleeper_to_sit_up():
    """1800 mm tall: 0.533 * 1800 = 959.4, 960 mm. Who said no height: 711 mm (`bunk-ceiling`)."""
    loft = '[[piece]]\nkind = "loft bed"\nheight = 120\n'
    tall = read(person(height=180, sleeps_here=True), loft)
    assert tall.piece("loft bed").headroom == 960
    assert read(person(sleeps_here=True), loft).piece("loft bed").headroom == 711
    assert read(person(height=180), loft).piece("loft bed").headroom == 711
    own = read(person(height=180, sleeps_here=True), loft + "headroom = 75\n")
    assert own.piece("loft bed").headroom == 750
    words = [describe(tall, r) for r in declared(tall) if r.kind == "headroom"]
    assert words == ["96 cm of headroom above the loft bed, for Ada"]


SLOPE = '[[room.slope]]\nwall = "A"\nheight = 100\nuntil = 200\n'


@pytest.mark.parametrize(("height", "above"), [(181, SITTING), (182, 971), (None, SITTING)])
def test_under_a_slope_tall_people_sit_up_in_bed(height, above):
    """965 mm do up to 1810 mm (964.7); 0.533 * 1820 = 970.06."""
    said = {} if height is None else {"height": height}
    text = ROOM.replace("[[door]]", SLOPE + "[[door]]")
    case = arrange.read_text(text + person(sleeps_here=True, **said) + BED)
    assert case.pieces[0].headroom == above


@pytest.mark.parametrize(("height", "headroom"), [(185.5, 1900), (185.6, 1901), (200, 2045)])
def test_who_is_very_tall_stands_under_more_headroom(height, headroom):
    """The usual 190 cm are for 185.5 cm and shoes: 45 mm more than their height."""
    case = read(person(height=height), '[[piece]]\nkind = "wardrobe"\n')
    assert {c.headroom for c in case.piece("wardrobe").clearances} == {headroom}


# -- what could give ---------------------------------------------------------
def test_what_somebody_needs_is_never_proposed_to_give():
    """Walkway, bed and wardrobe with a wheelchair stay; without one all three could give."""
    pieces = (BED, '[[piece]]\nkind = "wardrobe"\nclearance.doors = { least = 130 }\n')

    def lowered(case):
        return {(one.key, getattr(c, "to", 0)) for one in relaxations(case) for c in one.changes}

    def giving(case, kind):
        return sorted(to for key, to in lowered(case) if key[0] == kind and to)

    nobody = read(*pieces, top='keep_to = "usual"\nwalkway = 90\n')
    ada = read(person(uses="wheelchair", sleeps_here=True), *pieces)
    assert giving(nobody, "walkway")
    assert not giving(ada, "walkway")
    assert min(giving(nobody, "clearance")) < 1000
    # The person's own 130 cm may come down, but not under the 100 that the chair takes.
    assert giving(ada, "clearance")[0] == 1000
    wide = read(person(uses="wheelchair"), *pieces, top="walkway = 110\n")
    assert min(giving(wide, "walkway")) >= 900


def test_what_is_kept_for_somebody_says_so_among_the_requirements():
    """Ways, beds and the square to turn, in the words of ``why``."""
    case = read(person(uses="wheelchair", sleeps_here=True), BED)
    words = [describe(case, r) for r in declared(case)]
    assert (
        "a walkway 90 cm wide from the door to everything that is used, for Ada's wheelchair"
        in words
    )
    assert "a clear floor of 150 cm by 150 cm to turn, for Ada's wheelchair" in words
    assert any(w.startswith("100 cm free") and w.endswith("for Ada's wheelchair") for w in words)


# -- what is told ------------------------------------------------------------
ADA = Person("Ada", uses="wheelchair")
MO = Person("Mo", age=4, climbs=True)


def with_people(*who, pieces=(), settings=(), **openings):
    return scenario(room(**openings), *pieces, people=who, settings=settings)


@pytest.mark.parametrize(
    ("aid", "width", "narrow"),
    [
        ("wheelchair", 815, False),  # 32 in, 2010 ADA Standards 404.2.3
        ("wheelchair", 814, True),
        ("crutches", 840, False),
        ("crutches", 839, True),
        ("stick", 660, False),
        ("stick", 659, True),
        (None, 500, False),
    ],
)
def test_a_door_too_narrow_for_what_somebody_uses_is_told(aid, width, narrow):
    """Its width is the clear opening."""
    case = with_people(Person("Ada", uses=aid), doors=(Door("door", 2, 500, width, "out"),))
    assert ("The door is" in told(case)) is narrow


@pytest.mark.parametrize(
    ("aid", "escape", "warned"),
    [("stick", True, True), (None, True, False), ("stick", False, False)],
)
def test_a_window_is_no_way_out_for_who_needs_a_stick(aid, escape, warned):
    """Only where the file calls one a way out."""
    window = Window("window", A, 1000, 900, sill=900, escape=escape)
    text = told(with_people(Person("Ada", uses=aid), windows=(window,)))
    assert ("Ada may be unable to get out by the window" in text) is warned


@pytest.mark.parametrize(("height", "low"), [(1955, False), (1956, True)])
def test_a_door_too_low_is_told(height, low):
    """2000 mm of door are 1955 and shoes."""
    case = with_people(Person("Al", height=height), doors=(Door("door", 2, 500, 900, "out"),))
    assert ("low for Al" in told(case)) is low


@pytest.mark.parametrize(("height", "short"), [(1850, False), (1851, True)])
def test_a_bed_too_short_is_told(height, short):
    """2050 mm of bed are 1850 and the 20 cm of EN 1334; where one bed is long enough, none is."""
    al = Person("Al", height=height, sleeps_here=True)
    bed = piece("bed", 950, 2050, 500, roles=("sleep", "bed"))
    long = piece("long bed", 950, 2300, 500, roles=("sleep", "bed"))
    assert ("Al needs a mattress" in told(with_people(al, pieces=(bed,)))) is short
    assert "mattress" not in told(with_people(al, pieces=(bed, long)))
    assert (
        "the bed is shorter" in told(with_people(al, pieces=(replace(bed, whose=("Al",)), long)))
    ) is short


@pytest.mark.parametrize(("age", "refused"), [(5, True), (6, False)])
def test_the_upper_bunk_is_not_for_small_children(age, refused):
    """From 6 years on (`bunk-age`, from memory): a child who sleeps here is named."""
    bunk = piece("bunk", 1000, 2080, 1500, roles=("sleep", "bed", "bunk"))
    mo = Person("Mo", age=age, sleeps_here=True)
    text = told(with_people(mo, pieces=(bunk,)))
    assert ("is not for Mo, who is 5" in text) is refused
    assert text.count("years") == 1


def test_where_a_child_climbs_what_tips_and_what_opens_is_told_once():
    """Storage of 69 cm or more by name, windows, stairs; heavy things low as ever."""
    shelf = piece("shelf", height=686, roles=("store",))
    low = piece("low shelf", height=685, roles=("store",))
    stairs = Fixture("stairs", "stairs", ((0, 0), (0, 900), (900, 900), (900, 0)))
    case = with_people(
        MO,
        pieces=(shelf, low),
        fixtures=(stairs,),
        windows=(Window("window", A, 1000, 900, sill=900),),
    )
    text = told(case)
    assert "Mo climbs: fix the shelf to the wall, empty or full." in text
    assert "Mo climbs: fit catches to the window that" in text
    assert "Mo climbs: put a gate at the stairs." in text
    assert "Keep heavy things low" in text
    assert text.count("Fix ") == 0
    assert "way out" not in text.split("fit catches")[1].split("[")[0]


def test_nights_and_rugs_and_shoes():
    """A lamp that is not there is named as missing; rugs and a seat only where it applies."""
    bed = piece("bed", 950, 2050, 500, roles=("sleep", "bed"))
    rug = piece("rug", 1400, 2000, 10, roles=("rug",), flat=True)
    lamp, seat = piece("lamp", roles=("light",)), free("chair")
    nan = Person("Nan", age=80, up_at_night=True, sleeps_here=True)
    bare = told(with_people(nan, pieces=(bed, rug)))
    assert "a lamp (there is none on your list) that is switched on from the bed" in bare
    assert "Fix the rug so that it cannot slip" in bare
    assert "no seat here where Nan can put shoes on" in bare
    assert "Beds are 40 cm to 60 cm to the top of the mattress, chairs 40 cm to 46 cm" in bare
    full = told(with_people(nan, pieces=(bed, lamp, seat)))
    assert "have a lamp that is" in full
    assert "rug" not in full
    assert "shoes" not in full
    assert "at night:" not in told(with_people(Person("Nan"), pieces=(bed, rug)))


NIGHT = "a lamp to switch on from the bed, for Ada at night"
SHOES = "a seat to put shoes on from, for Ada"


@pytest.mark.parametrize(
    ("who", "use", "sure", "open_", "needed"),
    [
        ({}, "bedroom", (), ("floor lamp", "armchair"), {}),
        ({"up_at_night": True}, "bedroom", (), ("floor lamp", "armchair"), {NIGHT: ["floor lamp"]}),
        ({"up_at_night": True}, "bedroom", (), ("bedside table",), {NIGHT: ["bedside table"]}),
        ({"up_at_night": True}, "bedroom", ("floor lamp",), ("bedside table",), {}),
        ({"up_at_night": True}, "bedroom", (), ("armchair",), {}),
        ({"uses": "stick"}, "bedroom", (), ("floor lamp", "armchair"), {SHOES: ["armchair"]}),
        ({"uses": "walking frame"}, "hall", (), ("hall bench",), {SHOES: ["hall bench"]}),
        ({"uses": "wheelchair"}, "bedroom", (), ("armchair",), {}),
        ({"age": 74}, "bedroom", (), ("armchair",), {}),
        ({"age": 75}, "bedroom", (), ("armchair",), {SHOES: ["armchair"]}),
        ({"age": 75}, "living room", (), ("armchair",), {}),
        ({"age": 75}, "bedroom", ("hall bench",), ("armchair",), {}),
        (
            {"age": 75, "up_at_night": True},
            *("bedroom", (), ("armchair", "floor lamp")),
            {NIGHT: ["floor lamp"], SHOES: ["armchair"]},
        ),
    ],
)
def test_what_people_need_is_a_need_where_something_would_meet_it(who, use, sure, open_, needed):
    """With candidates and nothing there in any case; a choice can do without, for points."""
    bed = {"kind": "single bed", "owned": True}
    data = {
        "use": use,
        "room": {"size": [420, 420]},
        "door": [{"wall": "C", "from_left": 20, "width": 90}],
        "person": [{"name": "Ada", **who}],
        "need": [{"name": "something"}],
        "piece": [
            bed,
            *({"kind": kind, "owned": True} for kind in sure),
            *({"kind": kind, "price": 50, "meets": "something"} for kind in (*open_, "plant")),
        ],
    }
    needs = read_open_data(data, "room").needs
    more = [need for need in needs.needs if need.name != "something"]
    assert {n.name: [c.name for c in needs.meeting(n.name)] for n in more} == needed
    # Where the file's own need is met by nothing else it says the same, and how much it counts.
    data["piece"].pop()
    alone = [need.name for need in read_open_data(data, "room").needs.needs]
    assert alone == ["something", *(needed if len(open_) > 1 else ())]
    lacks = {NIGHT: 60, SHOES: 40}  # tenths: 6 points a lamp, 4 a seat
    assert {n.name: n.lack for n in more} == {name: lacks[name] for name in needed}


@pytest.mark.parametrize(("y", "cut_off"), [(1300, True), (2000, False)])
def test_a_square_to_turn_in_that_no_way_leads_to_is_told(y, cut_off):
    """A block across the room: the square fits above it (3000 - 1400) or on the door's side."""
    block = free("block", 4000, 100)
    door = Door("door", 2, 500, 900, "out")
    case = with_people(ADA, pieces=(block,), doors=(door,))
    text = told(case, at("block", "down", 0, y))
    assert ("The clear square to turn in is cut off" in text) is cut_off


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ((), "Kept for Ada's wheelchair: a clear square of 150 cm by 150 cm to turn in"),
        (
            (RuleSetting("turning-space", off=True),),
            "keeps nothing clear across to turn in; 150 cm",
        ),
        ((RuleSetting("turning-space", least=1400),), "keeps 140 cm clear across to turn in; 150"),
        (
            (RuleSetting("walkway", off=True),),
            "keeps nothing free to walk; 90 cm is advised for Ada",
        ),
    ],
)
def test_what_is_kept_is_told_and_what_the_file_takes_back(settings, said):
    """The scenario's walkway is 600 here: it is said that a wheelchair needs more."""
    text = told(with_people(ADA, settings=settings))
    assert said in text
    if not any(s.rule == "walkway" for s in settings):
        assert "Your file keeps 60 cm free to walk; 90 cm is advised for Ada's wheelchair." in text


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ((), "Kept for Mo: nothing to climb on in front of the window"),
        ((RuleSetting("climbing", off=True),), "keeps nothing between the window and what can be"),
        ((RuleSetting("climbing", least=299),), "keeps 29 cm between the window and what can be"),
    ],
)
def test_so_with_what_stands_off_windows(settings, said):
    """300 mm, as before cots."""
    case = with_people(MO, settings=settings, windows=(Window("window", A, 1000, 900, sill=900),))
    assert said in told(case)


# -- the table ---------------------------------------------------------------
@pytest.mark.parametrize(
    "row", rows(), ids=lambda row: f"{' '.join(row.when)}: {row.sets} {row.id}"
)
def test_every_row_stands_on_a_source_or_says_that_it_has_none(row):
    """Its source is known, and a length that is not of somebody's height is printed there."""
    known = {*AIDS, "older", "young", "climbs", "up at night", "sleeps here", "tall"}
    assert set(row.when) <= known
    assert row.what
    for id_, length in ((row.source, row.least), (row.comfortable_source, row.comfortable)):
        assert not id_ or id_ in ids()
        if id_ and length:
            assert str(length) in re.findall(r"\d+", value(id_))
    if row.sets != "caution":
        assert not row.id


def test_every_caution_of_the_table_is_told():
    """By its id; and none is told that the table does not have."""
    words = (Path(arrange.__file__).parent / "words" / "people.py").read_text("utf-8")
    told_of = set(re.findall(r'(?:_row|_concerned)\((?:scenario, )?"([a-z ]+)"\)', words))
    assert told_of == {row.id for row in rows() if row.sets == "caution"}


def test_the_names_of_clearances_are_those_of_the_kinds():
    """Each bed but a cot has a side to get in by that the table means."""
    for kind in kinds().values():
        one = piece("bed", roles=kind.roles, clearances=kind.clearances)
        if people.sleeping(one):
            sides = [people.side_of(one, c) for c in kind.clearances]
            assert sides.count("bed side") == 1, kind.name
