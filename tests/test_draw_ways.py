"""The way through the room, as drawn."""

import draw_rooms as rooms
import pytest
from shapely.geometry import LineString

from arrange.data.room import Door
from arrange.draw.floor import one_tree, ways
from arrange.geometry.shapes import clearance_zone, footprint

pytestmark = pytest.mark.fast

HALL = rooms.room(
    [(0, 0), (0, 4000), (3000, 4000), (3000, 0)], doors=(Door("door", 3, 1000, 800, "out"),)
)


def with_bar(width):
    """A chest at the far wall behind a bar of ``width`` mm from the left wall."""
    chest = rooms.piece("chest", "cabinet", 900, 400, clearances=(rooms.clear(("front",), 600),))
    bar = rooms.piece("bar", "cabinet", width, 300)
    return rooms.made(
        "T",
        HALL,
        [
            (chest, {"facing": "down", "x": 1000, "y": 3600, "wall": 1}),
            (bar, {"facing": "down", "x": 0, "y": 1800}),
        ],
    )


def zone_of(scenario, arrangement):
    chest = scenario.pieces[0]
    where = arrangement.placements[0]
    return clearance_zone(chest, where, scenario.room, chest.clearances[0], "front", 600)


def test_a_ribbon_leads_from_the_door_round_the_bar_to_the_chest():
    """The bar leaves 3000 - 2300 = 700 mm, enough for a walkway of 600 mm."""
    scenario, arrangement, _ = with_bar(2300)
    band = ways(scenario, arrangement)
    assert band.geom_type == "Polygon"
    assert band.bounds[1] < 50
    assert band.intersects(zone_of(scenario, arrangement))
    # Half a mm is forgiven where the band is rounded at a piece's corner.
    bar = footprint(scenario.pieces[1], arrangement.placements[1], scenario.room)
    assert band.intersection(bar.buffer(-0.5)).is_empty


def test_what_cannot_be_reached_has_no_ribbon():
    """The bar leaves 3000 - 2500 = 500 mm, less than the walkway, and the chest is far behind."""
    scenario, arrangement, _ = with_bar(2500)
    assert not ways(scenario, arrangement).intersects(zone_of(scenario, arrangement))


def test_a_room_without_a_door_has_no_way():
    """Nobody comes in, so nothing is drawn."""
    scenario, arrangement, _ = rooms.made("T", rooms.room([(0, 0), (0, 9), (9, 9), (9, 0)]), [])
    assert ways(scenario, arrangement).is_empty


def test_ways_side_by_side_are_drawn_as_one():
    """A way 100 mm beside a longer one leaves it only where it turns off, 1500 mm to its goal.

    It turns off from 200 mm before that, so the branch is at most 1500 + 200 + 100 long.
    """
    long = LineString([(0, y) for y in range(0, 4001, 50)])
    beside = [(100, y) for y in range(0, 2001, 50)]
    turning = LineString([*beside, *((x, 2000) for x in range(150, 1601, 50))])
    along = LineString([(100, y) for y in range(0, 3001, 50)])
    trunk, branch = one_tree([turning, along, long])
    assert trunk.length == pytest.approx(4000)
    assert 1300 < branch.length < 1800
    assert branch.distance(trunk) < 1
