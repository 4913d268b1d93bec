"""Wishes about groups: lamps, small tables, and what keeps groups together and apart.

Every row is judged from shapes and asked of the model: ``levels`` fails if the
two disagree. The wide room is 8000 across and 6000 up.
"""

from dataclasses import replace

import pytest
from plain_rooms import at, levels, piece, room, says, scenario, sentences

from arrange.data.person import Person
from arrange.data.piece import Slot
from arrange.rules import RULES

CY = Person("Cy", up_at_night=True, sleeps_here=True)
EVA = Person("Eva", sleeps_here=True)
WIDE = room(((0, 0), (0, 6000), (8000, 6000), (8000, 0)))
SOFA = piece("sofa", 2000, 900, 850, stands="free", roles={"seat", "sofa"})
CHAIR = piece("armchair", 800, 800, 850, stands="free", roles={"seat", "lounge"})
READING = piece("reading chair", 800, 800, 850, stands="free", roles={"seat", "lounge", "read"})
BED = piece("bed", 1600, 2000, 500, stands="free", roles={"sleep", "bed", "for two"})
COT = piece("cot", 1200, 700, 950, stands="free", roles={"sleep", "cot"})
DESK = piece("desk", 1400, 700, 740, stands="free", roles={"desk", "table"})
LAMP = piece("lamp", 300, 300, 1600, stands="free", roles={"light"})
LAMP_2, LAMP_3 = replace(LAMP, name="lamp 2"), replace(LAMP, name="lamp 3")
COFFEE = piece("coffee table", 1000, 500, 420, stands="free", roles={"table", "coffee"})
SIDE = piece("side table", 400, 400, 550, stands="free", roles={"table", "side"})
TABLE = piece("table", 1200, 800, 740, stands="free", roles={"dine", "table"})
SLOTS = (Slot("front", gap=20, facing="toward"),)
EATER = piece("eater", 500, 500, anchor="table", slots=SLOTS, roles={"seat", "dining seat"})
BEDSIDE = piece(
    *("bedside", 400, 400, 500),
    anchor="bed",
    slots=(Slot("left", along=0, gap=30),),
    roles={"bedside"},
)


# Sofa facing up at x 1000 to 3000, y 1000 to 1900; the lamp is 300 each way.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(3600, 1000, 1, id="600 to its side"),
        pytest.param(3601, 1000, 0, id="601 to its side"),
        pytest.param(3000, 700, 1, id="touching its corner, behind"),
        pytest.param(1500, 100, 1, id="600 behind: 1000 - 300 - 600"),
        pytest.param(1500, 99, 0, id="601 behind"),
        pytest.param(3100, 1750, 1, id="beside, its middle at the front: 1900 - 150"),
        pytest.param(3100, 1751, 0, id="its middle 1 mm before the front"),
        pytest.param(1500, 2000, 0, id="straight before the sofa"),
    ],
)
def test_a_lamp_stands_beside_or_behind_a_seat(x, y, level):
    """Within 600, and not before."""
    s = scenario(WIDE, SOFA, LAMP, only="lamp-at-seat")
    assert levels(s, "lamp-at-seat", at(SOFA, 1000, 1000, "up"), at(LAMP, x, y)) == [level]


# The desk looks up like the sofa; the bed's pillow is 500 from its back. Bed facing right
# from x 0, y 1000 to 2600: pillow x 0 to 500.
@pytest.mark.parametrize(
    ("host", "place", "lamp", "level"),
    [
        pytest.param(DESK, (1000, 1000, "up"), (2500, 1000), 1, id="beside a desk"),
        pytest.param(DESK, (1000, 1000, "up"), (1500, 1750), 0, id="where one sits at a desk"),
        pytest.param(BED, (0, 1000, "right"), (350, 2600), 1, id="its middle at the pillow's end"),
        pytest.param(BED, (0, 1000, "right"), (351, 2600), 0, id="1 mm farther down the bed"),
        pytest.param(BED, (0, 1000, "right"), (0, 3200), 1, id="600 from the pillow"),
        pytest.param(BED, (0, 1000, "right"), (0, 3201), 0, id="601 from the pillow"),
        # Facing left from x 2000 to 4000: pillow x 3500 to 4000, ahead is to the left.
        pytest.param(BED, (2000, 1000, "left"), (3350, 700), 1, id="the other way round"),
        pytest.param(BED, (2000, 1000, "left"), (3349, 700), 0, id="1 mm too far"),
        pytest.param(BED, (1000, 0, "up"), (2600, 350), 1, id="looking up"),
        pytest.param(BED, (1000, 0, "up"), (2600, 351), 0, id="up, 1 mm too far"),
        pytest.param(BED, (1000, 2000, "down"), (2600, 3350), 1, id="looking down"),
        pytest.param(BED, (1000, 2000, "down"), (2600, 3349), 0, id="down, 1 mm too far"),
    ],
)
def test_a_lamp_stands_at_a_desk_or_a_pillow(host, place, lamp, level):
    """Beside the pillow, not farther down the bed; not in the chair's place."""
    s = scenario(WIDE, host, LAMP, only="lamp-at-seat")
    assert levels(s, "lamp-at-seat", at(host, *place), at(LAMP, *lamp)) == [level]


# The head of the bed is at x 0: its pillow ends at x 500, so the middle of a lamp of 300 may be
# at x 350 + 150 = 500 at most; beside it from y 2600 on, 600 off at y 2600 + 600.
@pytest.mark.parametrize(
    ("lamp", "lit"),
    [
        pytest.param((350, 2600), 1, id="at the pillow"),
        pytest.param((351, 2600), 0, id="1 mm farther down the bed"),
        pytest.param((0, 3200), 1, id="600 from the pillow"),
        pytest.param((0, 3201), 0, id="601 from the pillow"),
        pytest.param((5700, 500), 0, id="at the armchair"),
    ],
)
def test_who_is_up_at_night_has_a_lamp_at_the_bed(lamp, lit):
    """Besides what counts the lamps; a lamp at the armchair earns that one alone."""
    s = scenario(WIDE, BED, CHAIR, LAMP, only="lamp-at-seat", people=(CY,))
    places = at(BED, 0, 1000, "right"), at(CHAIR, 6000, 500, "up"), at(LAMP, *lamp)
    counted, at_night = levels(s, "lamp-at-seat", *places)
    assert at_night == lit
    assert counted == (1 if lit or lamp[0] == 5700 else 0)
    told = sentences(s, "lamp-at-seat", *places)[1]
    assert "the head of the bed, for Cy at night" in told
    assert (":" in told) == (not lit)


@pytest.mark.parametrize(
    ("people", "beside", "whose", "claims"),
    [
        pytest.param((), False, (), 1, id="nobody"),
        pytest.param((CY,), True, (), 1, id="a table beside the bed has room for one"),
        pytest.param((CY, EVA), False, ("Eva",), 1, id="somebody else's bed"),
        pytest.param((CY, EVA), False, ("Cy", "Eva"), 2, id="a bed of both"),
    ],
)
def test_a_lamp_at_the_bed_is_for_who_is_up_at_night(people, beside, whose, claims):
    """Whose bed it is, and what stands beside it."""
    bed = replace(BED, whose=whose)
    more = (BEDSIDE,) if beside else ()
    s = scenario(WIDE, bed, LAMP, *more, only="lamp-at-seat", people=people)
    rule = next(r for r in RULES if r.id == "lamp-at-seat")
    assert len(rule.claims_as_set(s)) == claims


def test_each_has_a_lamp_before_any_has_two():
    """Two lamps at one armchair: one counts while another armchair has none.

    The chairs face up at x 0 and x 3000; lamps at x 800 and 1100 are 0 and 300 from the
    first and 1900 and 1600 from the second. With a lamp at each both count; a sofa takes
    two; three lamps for two chairs are more than there are places.
    """
    other = replace(CHAIR, name="armchair 2")
    s = scenario(WIDE, CHAIR, other, LAMP, LAMP_2, only="lamp-at-seat")
    chairs = at(CHAIR, 0, 0, "up"), at(other, 3000, 0, "up")
    both = (*chairs, at(LAMP, 800, 0), at(LAMP_2, 1100, 0))
    assert levels(s, "lamp-at-seat", *both) == [1]
    assert says(s, "lamp-at-seat", both, "300 mm", "armchair", "already")
    assert levels(s, "lamp-at-seat", *chairs, at(LAMP, 800, 0), at(LAMP_2, 2700, 0)) == [2]
    three = scenario(WIDE, CHAIR, other, LAMP, LAMP_2, LAMP_3, only="lamp-at-seat")
    assert levels(three, "lamp-at-seat", *both, at(LAMP_3, 800, 300)) == [3]
    pair = scenario(WIDE, SOFA, CHAIR, LAMP, LAMP_2, only="lamp-at-seat")
    seats = at(SOFA, 0, 0, "up"), at(CHAIR, 6000, 0, "up")
    assert levels(pair, "lamp-at-seat", *seats, at(LAMP, 2000, 0), at(LAMP_2, 2300, 0)) == [2]


def test_a_lamp_moves_on_for_another():
    """Lamp 1 between two chairs serves either, lamp 2 the first alone: both count.

    Chairs at x 0 and 1300 (500 between), lamp 1 at x 900 to 1200 is 100 from each; lamp 2
    at y 800 + ... behind the first: chairs face down from y 1000, lamp 2 at y 1800.
    """
    other = replace(CHAIR, name="armchair 2")
    s = scenario(WIDE, CHAIR, other, LAMP, LAMP_2, only="lamp-at-seat")
    chairs = at(CHAIR, 0, 1000, "down"), at(other, 1300, 1000, "down")
    # Lamp 2 at x 0 is 1000 from the second chair: 1300 - 300.
    assert levels(s, "lamp-at-seat", *chairs, at(LAMP, 900, 1500), at(LAMP_2, 0, 1800)) == [2]


@pytest.mark.parametrize(("gap", "level"), [(0, 0), (899, 0), (900, 1)])
def test_no_lamp_in_reach_of_a_cot(gap, level):
    """The lamp beside the sofa ends at x 3300."""
    s = scenario(WIDE, SOFA, COT, LAMP, only="lamp-at-seat")
    places = at(SOFA, 1000, 1000, "up"), at(LAMP, 3000, 1000), at(COT, 3300 + gap, 1000)
    assert levels(s, "lamp-at-seat", *places) == [level]


def test_lamps_that_hang_high_or_have_nobody_to_light_say_nothing():
    """No claim for a lamp at the ceiling, nor in a room without seat, bed or desk."""
    high = replace(LAMP, name="pendant", bottom=2000, height=300)
    s = scenario(WIDE, SOFA, high, only="lamp-at-seat")
    assert levels(s, "lamp-at-seat", at(SOFA, 0, 0, "up"), at(high, 3000, 3000)) == []
    alone = scenario(WIDE, TABLE, LAMP, only="lamp-at-seat")
    assert levels(alone, "lamp-at-seat", at(TABLE, 0, 0), at(LAMP, 3000, 3000)) == []


def test_what_is_said_of_lamps():
    """The distance, where it stands, the child's reach."""
    s = scenario(WIDE, SOFA, LAMP)
    sofa = at(SOFA, 0, 0, "up")
    assert says(s, "lamp-at-seat", (sofa, at(LAMP, 3400, 0)), "lamp", "1400 mm", "sofa")
    assert says(s, "lamp-at-seat", (sofa, at(LAMP, 500, 1000)), "lamp", "in front of", "sofa")
    cot = scenario(WIDE, SOFA, LAMP, COT)
    places = sofa, at(LAMP, 2000, 0), at(COT, 2500, 0)
    assert says(cot, "lamp-at-seat", places, "lamp", "200 mm", "cot", "child")
    in_bed = scenario(WIDE, BED, LAMP)
    places = at(BED, 0, 0, "up"), at(LAMP, 2600, 0)
    assert says(in_bed, "lamp-at-seat", places, "1000 mm", "head", "bed")


# Sofa facing up at x 1000 to 3000, front at y 900; coffee table 1000 by 500, middle x + 500.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(1500, 900 + 349, 1, id="349 before it: the cup is in reach"),
        pytest.param(1500, 900 + 350, 2, id="350"),
        pytest.param(1500, 900 + 460, 2, id="460"),
        pytest.param(1500, 900 + 461, 1, id="461"),
        pytest.param(1500, 900 + 600, 1, id="600"),
        pytest.param(1500, 900 + 601, 0, id="601: no cup, no coffee table"),
        pytest.param(2500, 900 + 400, 2, id="its middle at the sofa's end: 2500 + 500"),
        pytest.param(2501, 900 + 400, 1, id="1 mm past the end"),
        pytest.param(500, 900 + 400, 2, id="at the other end: 500 + 500"),
        pytest.param(499, 900 + 400, 1, id="1 mm past that end"),
    ],
)
def test_a_coffee_table_and_its_sofa(x, y, level):
    """One for the cup in reach, one for the table where it belongs."""
    s = scenario(WIDE, SOFA, COFFEE, only="cup-in-reach")
    places = at(SOFA, 1000, 0, "up"), at(COFFEE, x, y)
    assert levels(s, "cup-in-reach", *places) == [level]


def test_every_easy_seat_has_a_table_in_reach():
    """Sofa and armchair with one side table between them: 600 to each will do.

    Sofa to x 2000, table x 2600 to 3000, armchair from 3600; from 3601 it is out of reach.
    """
    s = scenario(WIDE, SOFA, CHAIR, SIDE, only="cup-in-reach")
    places = at(SOFA, 0, 0, "up"), at(SIDE, 2600, 0)
    assert levels(s, "cup-in-reach", *places, at(CHAIR, 3600, 0, "up")) == [2]
    far = (*places, at(CHAIR, 3601, 0, "up"))
    assert levels(s, "cup-in-reach", *far) == [1]
    assert says(s, "cup-in-reach", far, "armchair", "side table", "601 mm")


def test_a_reading_chair_asks_for_no_coffee_table():
    """With a coffee table alone it does not count; with a side table it does."""
    places = at(SOFA, 0, 0, "up"), at(COFFEE, 500, 1300), at(READING, 5000, 4000)
    s = scenario(WIDE, SOFA, COFFEE, READING, only="cup-in-reach")
    assert levels(s, "cup-in-reach", *places) == [2]  # of two
    more = scenario(WIDE, SOFA, COFFEE, READING, SIDE, only="cup-in-reach")
    # Two seats and a coffee table: the side table stands 200 from the chair, then 700.
    assert levels(more, "cup-in-reach", *places, at(SIDE, 4400, 4000)) == [3]
    assert levels(more, "cup-in-reach", *places, at(SIDE, 3900, 4000)) == [2]


def test_large_tables_and_bedside_tables_are_for_other_things():
    """No claim where there is only a desk, a dining table or a table tied to a bed."""
    s = scenario(WIDE, CHAIR, DESK, TABLE, BED, BEDSIDE, only="cup-in-reach")
    # The bed faces up at x 4000 to 5600; seen from its foot, its left is at the smaller x
    # turned round: beside 5600 + 30.
    places = at(CHAIR, 0, 0, "up"), at(DESK, 0, 3000), at(TABLE, 2000, 3000)
    assert (
        levels(s, "cup-in-reach", *places, at(BED, 4000, 0, "up"), at(BEDSIDE, 5630, 0, "up")) == []
    )


def test_what_is_said_of_coffee_tables():
    """How far before the seat; or that it is not."""
    s = scenario(WIDE, SOFA, COFFEE)
    sofa = at(SOFA, 1000, 0, "up")
    near = sofa, at(COFFEE, 1500, 1100)
    assert says(s, "cup-in-reach", near, "coffee table", "200 mm", "sofa")
    beside = sofa, at(COFFEE, 3100, 100)
    assert says(s, "cup-in-reach", beside, "coffee table", "does not", "sofa")


# The chair of the table (1200 by 800 facing up at x, y) stands above it: its box is 1200
# across and 800 + 20 + 500 = 1320 up.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(2000, 0, 1, id="touching the sofa's end"),
        pytest.param(1999, 900, 1, id="above the sofa"),
        pytest.param(1999, 900 + 299, 1, id="299 above it"),
        pytest.param(1999, 900 + 300, 2, id="300 above it"),
        pytest.param(2300, 0, 2, id="300 beside it"),
    ],
)
def test_zones_of_single_pieces_never_meet(x, y, level):
    """A sofa alone and a table: bodies are apart, so their boxes are."""
    s = scenario(WIDE, SOFA, TABLE, only="zones", use="one room for all")
    assert levels(s, "zones", at(SOFA, 0, 0, "up"), at(TABLE, x, y)) == [level]


# Sofa facing up at x 0 to 2000, y 0 to 900; armchair at x 3000 to 3800, y 2000 to 2800:
# their box is 3800 by 2800. The eater makes the table's box 1200 by 1320.
@pytest.mark.parametrize(
    ("x", "y", "level"),
    [
        pytest.param(3800, 0, 1, id="touching, to the right"),
        pytest.param(3799, 0, 0, id="1 mm in"),
        pytest.param(0, 2800, 1, id="touching, above"),
        pytest.param(0, 3100, 2, id="300 above"),
        pytest.param(0, 2799, 0, id="1 mm in from above"),
        pytest.param(0, 1200, 0, id="between sofa and armchair"),
    ],
)
def test_zones(x, y, level):
    """The table with its chair keeps out of the box round sofa and armchair."""
    s = scenario(WIDE, SOFA, CHAIR, TABLE, EATER, only="zones", use="one room for all")
    seats = at(SOFA, 0, 0, "up"), at(CHAIR, 3000, 2000, "left")
    eating = at(TABLE, x, y, "up"), at(EATER, x + 350, y + 820, "down")
    assert levels(s, "zones", *seats, *eating) == [level]


def test_zones_count_as_a_fault_in_one_room_for_all_alone():
    """Of first rank there, points in a living and dining room, nothing elsewhere."""
    from arrange.rules.zones import Zones  # noqa: PLC0415  beside what it is about

    def claims(use):
        return Zones().claims(scenario(WIDE, SOFA, TABLE, DESK, use=use))

    assert [claim.first_rank for claim in claims("one room for all")] == [True] * 3
    assert [claim.first_rank for claim in claims("living and dining room")] == [False] * 3
    assert claims("bedroom") == []
    s = scenario(WIDE, SOFA, CHAIR, TABLE, use="one room for all")
    places = at(SOFA, 0, 0, "up"), at(CHAIR, 3000, 2000, "left"), at(TABLE, 0, 1200)
    # The box of the seats is 3800 by 2800; the table lies in it from y 1200 to 2000.
    assert says(s, "zones", places, "sofa", "table", "overlap", "800 mm")
    apart = (*places[:2], at(TABLE, 0, 3000))
    assert says(s, "zones", apart, "sofa", "table", "200 mm apart")


# Sofa at x 0 to 2000, armchair from x 2000 + inside, table from there + 800 + outside.
@pytest.mark.parametrize(
    ("inside", "outside", "level"),
    [
        pytest.param(500, 501, 1, id="1 mm closer inside"),
        pytest.param(500, 500, 0, id="as far inside as outside"),
        pytest.param(0, 1, 1, id="touching inside"),
        pytest.param(350, 10, 0, id="as far inside as a coffee table stands: counted too"),
        pytest.param(2500, 2501, 1, id="2500 inside"),
        pytest.param(2501, 2502, 0, id="2501 inside"),
    ],
)
def test_groups_are_closer_inside(inside, outside, level):
    """The armchair nearer to the sofa than the table to either, and within 2.5 m."""
    hall = room(((0, 0), (0, 3000), (10_000, 3000), (10_000, 0)))
    s = scenario(hall, SOFA, CHAIR, TABLE, only="groups-close")
    places = (
        at(SOFA, 0, 0, "up"),
        at(CHAIR, 2000 + inside, 0, "up"),
        at(TABLE, 2800 + inside + outside, 0),
    )
    assert levels(s, "groups-close", *places) == [level]


def test_a_coffee_table_draws_a_group_together():
    """Sofa, coffee table 400 on, armchair 600 beyond that: 600 inside, not 1500.

    The sofa's front is at y 900, the coffee table from 1300 to 1800, the armchair from
    2400 to 3200. The table stands 700 to the right of the box, which ends at x 2000.
    """
    s = scenario(WIDE, SOFA, CHAIR, COFFEE, TABLE, only="groups-close")
    places = at(SOFA, 0, 0, "up"), at(COFFEE, 500, 1300), at(CHAIR, 600, 2400)
    assert levels(s, "groups-close", *places, at(TABLE, 2700, 0)) == [1]
    assert levels(s, "groups-close", *places, at(TABLE, 2600, 0)) == [0]
    assert says(s, "groups-close", (*places, at(TABLE, 2300, 0)), "armchair", "600 mm", "300 mm")


def test_what_stands_in_the_corner_of_a_group_is_measured_to_its_pieces():
    """Sofa and armchair at right angles, 500 apart: the table is 600 from both, inside their box.

    The sofa is at x 0 to 2000, y 0 to 900; the armchair at x 2500 to 3300, y 1000 to 1800. The
    table is at x 700 to 1900, y 1500 on: 600 up from the sofa and 600 across to the armchair.
    """
    s = scenario(WIDE, SOFA, CHAIR, TABLE, only="groups-close")
    places = at(SOFA, 0, 0, "up"), at(CHAIR, 2500, 1000, "left")
    assert levels(s, "groups-close", *places, at(TABLE, 1900 - TABLE.width, 1500)) == [1]
    assert levels(s, "groups-close", *places, at(TABLE, 1900 - TABLE.width, 1400)) == [0]


@pytest.mark.parametrize(
    ("role", "kind", "height", "wanted"),
    [
        pytest.param("desk", "a", 740, [2], id="two desks: only the sofa is to be kept off"),
        pytest.param("desk", "a", 741, [2], id="two desks, one higher"),
        pytest.param("desk", "b", 740, [2], id="two desks, one of another kind"),
        pytest.param("dine", "a", 740, [2], id="two tables alike"),
        pytest.param("dine", "a", 741, [0], id="one table is higher"),
        pytest.param("dine", "b", 740, [0], id="one table is of another kind"),
    ],
)
def test_alike_groups_may_stand_side_by_side(role, kind, height, wanted):
    """Two desks or tables side by side, a chair 480 before each, and a sofa 1 m away."""
    desks = [
        piece("desk 1", 1200, 600, 740, kind="a", stands="free", roles={role}),
        piece("desk 2", 1200, 600, height, kind=kind, stands="free", roles={role}),
    ]
    more = {"slots": (Slot("front", gap=480, facing="toward"),), "roles": {"seat"}}
    chairs = [piece(f"chair {i}", 500, 500, 900, anchor=f"desk {i}", **more) for i in (1, 2)]
    s = scenario(WIDE, *desks, *chairs, SOFA, only="groups-close")
    places = [at(desk, 1200 * i, 0, "up") for i, desk in enumerate(desks)]
    places += [at(chair, 350 + 1200 * i, 1080, "down") for i, chair in enumerate(chairs)]
    assert levels(s, "groups-close", *places, at(SOFA, 3400, 0, "up")) == wanted
    alone = scenario(WIDE, *desks, *chairs, only="groups-close")
    told = sentences(alone, "groups-close", *places)
    assert bool(told) == (wanted == [0])


def test_each_group_with_an_inside_counts():
    """The table with its chair, 20 inside, and the seats: the desk alone has no inside."""
    s = scenario(WIDE, SOFA, CHAIR, TABLE, EATER, DESK, only="groups-close")
    seats = at(SOFA, 0, 0, "up"), at(CHAIR, 2500, 0, "up")
    eating = at(TABLE, 0, 2000, "up"), at(EATER, 350, 2820, "down")
    # Seats 500 inside, 1100 to the table; the desk 100 beside the table.
    assert levels(s, "groups-close", *seats, *eating, at(DESK, 1300, 2000, "up")) == [2]
    # The desk 300 from the seats' box, which ends at x 3300 and y 900.
    assert levels(s, "groups-close", *seats, *eating, at(DESK, 3600, 0, "up")) == [1]
    # 10 from the table's box, whose chair is 20 from the table.
    assert levels(s, "groups-close", *seats, *eating, at(DESK, 1210, 2000, "up")) == [1]
    alone = scenario(WIDE, SOFA, CHAIR, only="groups-close")
    assert sentences(alone, "groups-close", *seats) == []


def test_two_desks_are_no_strangers_to_each_other():
    """Side by side as like with like asks, they have nothing to keep off; a table has.

    Desks at x 0 and 1400 look up from y 0, chairs 480 before them at y 1180. The table begins
    at y 1680 + 480 or 481, as far from the chairs' group as they from their desks, or farther.
    """
    slots = (Slot("front", gap=480, facing="toward"),)
    sitter = piece("sitter", 500, 500, anchor="desk", slots=slots, roles={"seat", "work seat"})
    other, next_sitter = (
        replace(DESK, name="desk 2"),
        replace(sitter, name="sitter 2", anchor="desk 2"),
    )
    desks = at(DESK, 0, 0, "up"), at(other, 1400, 0, "up")
    sitting = at(sitter, 450, 1180, "down"), at(next_sitter, 1850, 1180, "down")
    four = DESK, other, sitter, next_sitter
    assert (
        levels(scenario(WIDE, *four, only="groups-close"), "groups-close", *desks, *sitting) == []
    )
    s = scenario(WIDE, *four, TABLE, only="groups-close")
    assert levels(s, "groups-close", *desks, *sitting, at(TABLE, 800, 2161)) == [2]
    assert levels(s, "groups-close", *desks, *sitting, at(TABLE, 800, 2160)) == [0]
