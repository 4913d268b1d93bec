"""Ways from door to door and the seats beside them.

Every row is judged from shapes and asked of the model: ``levels`` fails if the two
disagree. WIDE is 8000 across and 6000 up.
"""

from dataclasses import replace

import pytest
from plain_rooms import (
    BOTTOM,
    LEFT,
    RIGHT,
    at,
    door,
    levels,
    piece,
    room,
    scenario,
    sentences,
    window,
)

from arrange.scoring import shares

SOFA = piece("sofa", 2000, 900, 850, stands="free", roles={"seat", "sofa"})
CHAIR = piece("chair", 800, 800, 850, stands="free", roles={"seat", "lounge"})
TABLE = piece("table", 1000, 500, 450, stands="free", roles={"table", "coffee"})
SCREEN = piece("screen", 1400, 400, 500, stands="free", roles={"screen"})
OUTLINE = ((0, 0), (0, 6000), (8000, 6000), (8000, 0))
# Both in the middle of their walls: the way is y 3000 from x 600 to x 7400.
ACROSS = room(
    OUTLINE,
    doors=[door(LEFT, 2600, 800, opens="out"), door(RIGHT, 2600, 800, opens="out", name="exit")],
)


def test_a_french_window_is_a_door_to_walk_to():
    """In the place of the exit it makes the same way."""
    french = door(RIGHT, 2600, 800, opens="out", name="balcony")
    balcony = window(RIGHT, 2600, 800, name="balcony", sill=0, french=french)
    plan = room(OUTLINE, doors=ACROSS.doors[:1], windows=[balcony])
    s = scenario(plan, SOFA, TABLE, only="past-not-through")
    places = at(SOFA, 1000, 1000, "up"), at(TABLE, 1000, 2751)
    assert levels(s, "past-not-through", *places) == [0]
    assert "balcony" in sentences(s, "past-not-through", *places)[0]
    without = replace(s, room=replace(plan, windows=()))
    assert levels(without, "past-not-through", *places) == []


# The sofa's middle lies 450 above its y, the table's 250.
@pytest.mark.parametrize(
    ("sofa", "table", "level"),
    [
        pytest.param(1000, 2200, 2, id="both below the way, which is free from y 2700 on"),
        pytest.param(1000, 2201, 1, id="the table 1 mm in it"),
        pytest.param(1000, 2750, 1, id="the table's middle on it"),
        pytest.param(1000, 2751, 0, id="1 mm across it"),
        pytest.param(2550, 3850, 1, id="the sofa's middle on it, the table above"),
        pytest.param(2549, 3850, 0, id="1 mm below it"),
        pytest.param(4000, 5300, 2, id="both above it"),
    ],
)
def test_table_before_the_seat(sofa, table, level):
    """Both on one side of the way, by their middles."""
    s = scenario(ACROSS, SOFA, TABLE, only="past-not-through")
    places = at(SOFA, 3000, sofa, "up"), at(TABLE, 3500, table)
    assert levels(s, "past-not-through", *places) == [level]


# The chair is 800 wide, its middle 400 right of x; the stool table's 200.
@pytest.mark.parametrize(
    ("x", "level"),
    [
        pytest.param(400, 2, id="its middle 600 from the wall: not beside the way yet"),
        pytest.param(401, 0, id="1 mm beside the way"),
        pytest.param(7200, 0, id="at the other end"),
    ],
)
def test_beside_the_end_of_the_way(x, level):
    """One below and one above, but both behind its beginning."""
    small = replace(TABLE, width=400, depth=400)
    s = scenario(ACROSS, CHAIR, small, only="past-not-through")
    places = at(CHAIR, 200, 1000, "up"), at(small, x, 4000)
    assert levels(s, "past-not-through", *places) == [level]


# The sofa's front is at y 1900, so the gap to the chair above it is y - 1900.
@pytest.mark.parametrize(("y", "level"), [(4338, 0), (4339, 2)])
def test_seats_far_off_are_not_of_the_group(y, level):
    """Up to 2438 mm they are."""
    s = scenario(ACROSS, SOFA, CHAIR, only="past-not-through")
    places = at(SOFA, 3000, 1000, "up"), at(CHAIR, 3600, y)
    assert levels(s, "past-not-through", *places) == [level]


@pytest.mark.parametrize(
    ("screen", "level", "said"),
    [
        (2300, 2, "passes the seats"),
        (2301, 1, "passes the seats, but the screen is in the way"),
        (2800, 1, "passes the seats, but the screen is in the way"),
        (2801, 1, "passes the seats, but runs between them and the screen"),
    ],
)
def test_screen_on_the_same_side(screen, level, said):
    """For the whole of the points; its middle lies 200 above its y."""
    s = scenario(ACROSS, SOFA, TABLE, SCREEN, only="past-not-through")
    places = at(SOFA, 3000, 0, "up"), at(TABLE, 3500, 1300), at(SCREEN, 3300, screen)
    assert levels(s, "past-not-through", *places) == [level]
    told = sentences(s, "past-not-through", *places)
    assert told == [f"The way from the door to the exit {said}"]


def test_through_the_seats_is_said_and_a_fault_in_a_living_room():
    """In a bedroom it only costs points."""
    s = scenario(ACROSS, SOFA, TABLE, only="past-not-through")
    places = at(SOFA, 3000, 1800, "up"), at(TABLE, 3500, 3100)
    told = sentences(s, "past-not-through", *places)
    assert told == ["The way from the door to the exit runs between the sofa and the table"]
    assert [share.claim.faults(0) for share in shares(s)] == [1]
    assert [share.claim.faults(0) for share in shares(replace(s, use="bedroom"))] == [0]


# Doors in one wall: the way is y 600 from x 1600 to x 6400.
ONE_WALL = room(
    OUTLINE,
    doors=[door(BOTTOM, 1200, 800, opens="out"), door(BOTTOM, 6000, 800, name="exit")],
)


@pytest.mark.parametrize(("y", "level"), [(149, 0), (150, 1), (899, 1), (900, 2)])
def test_doors_in_one_wall(y, level):
    """A sofa at the wall between them makes people pass before it; its middle is y + 450.

    The way is free of it from y 900 on.
    """
    s = scenario(ONE_WALL, SOFA, TABLE, only="past-not-through")
    places = at(SOFA, 3000, y, "up"), at(TABLE, 3500, 2300)
    assert levels(s, "past-not-through", *places) == [level]


# An L whose corner (4000, 3000) stands out. From the door in its top wall the way begins at
# (3400, 5400), goes round the corner and ends at (7400, 2500).
BEND = room(
    ((0, 0), (0, 6000), (4000, 6000), (4000, 3000), (8000, 3000), (8000, 0)),
    doors=[door(1, 3000, 800, opens="out"), door(4, 100, 800, opens="out", name="exit")],
)


# The small chair is 400 by 400. At y 4200 the way is at x 3400 + 600 * 1200 / 2400 = 3700.
@pytest.mark.parametrize(
    ("x", "y", "table", "level"),
    [
        pytest.param(1000, 3000, (1000, 4500), 2, id="both left of the first leg"),
        pytest.param(1000, 4000, (5500, 500), 2, id="one beside each leg, inside the bend"),
        pytest.param(3500, 4000, (1000, 4000), 1, id="the chair's middle on the way"),
        pytest.param(3501, 4000, (1000, 4000), 0, id="the chair in the pocket by the corner"),
    ],
)
def test_way_round_a_corner(x, y, table, level):
    """What lies away from the corner is beside one of the legs at least."""
    small = replace(CHAIR, width=400, depth=400)
    s = scenario(BEND, small, TABLE, only="past-not-through")
    assert levels(s, "past-not-through", at(small, x, y), at(TABLE, *table)) == [level]


def test_nothing_where_the_way_winds_or_there_is_one_door_or_one_seat():
    """Left round one corner and right round the next: no sides to speak of."""
    corners = ((0, 0), (0, 2000), (3000, 2000), (3000, 6000))
    corners += ((8000, 6000), (8000, 4000), (5000, 4000), (5000, 0))
    doors = [door(0, 600, 800, opens="out"), door(4, 600, 800, opens="out", name="exit")]
    s = scenario(room(corners, doors=doors), CHAIR, TABLE)
    places = at(CHAIR, 3200, 0, "up"), at(TABLE, 3200, 3000)
    assert levels(s, "past-not-through", *places) == []
    one = scenario(room(OUTLINE, doors=doors[:1]), CHAIR, TABLE)
    assert levels(one, "past-not-through", *places) == []
    alone = scenario(ACROSS, CHAIR)
    assert levels(alone, "past-not-through", places[0]) == []
