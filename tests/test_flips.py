"""Where a verdict flips, by published arithmetic: at this centimetre it works, at the next not.

Each row is a room of a fixed size; what is left of it once the published figures are
taken off is the largest size of the piece, worked out by hand beside the row. The oracle
must agree at that centimetre and the next, ``largest`` must name them both.
`source` is the id in the reference table, with its title. Rows marked "memory" were not
read again. Figures that are not a kind's default are set in the scenario itself.
"""

from dataclasses import dataclass

import pytest
from test_outside_rooms import ADM, HUD, NKBA, bedroom_long, bedroom_wide, held, piece, room

from arrange import read_text
from arrange.data.change import Resize, changed
from arrange.judge import judge
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.largest import largest

OFF = '[[rule]]\nrule = "away-from"\noff = true\n'


def one_side(gap):
    """A table with its back against wall A and diners along the other side."""
    clear = f"clearance.front = {{ least = {gap} }}\nclearance.back = false"
    table = piece(
        "dining table for four", clear, name="table", width=1350, depth=700, stands="wall"
    )
    return room(2200, 2000, ("D", 500, 800)) + table + held("table", "A")


def both_sides(gap):
    """A table for four between two walls, in a room too narrow for it turned."""
    both = f"clearance.front = {{ least = {gap} }}\nclearance.back = {{ least = {gap} }}"
    return room(2200, 2900, ("D", 500, 800)) + piece("dining table for four", both, name="table")


def screen(legs="", wish=""):
    """A sofa on wall A, a screen on wall C, 3000 between the walls; too narrow to pass."""
    sofa = piece("sofa", legs, width=2100, depth=800)
    unit = piece("tv unit", "clearance.front = { least = 450 }", name="screen", depth=400)
    walls = held("sofa", "A") + held("screen", "C")
    # The rooms of that file have every wish off; a must of one's own needs its rule.
    bare = room(2800, 3000, ("B", 1100, 800)).replace(OFF, "")
    return bare + sofa + unit + walls + wish


def apart(distance):
    """The person's own must: the sofa so far away from the screen."""
    return f'[[wish]]\npiece = "sofa"\naway_from = "screen"\nat_least = {distance}\nmust = true\n'


@dataclass(frozen=True)
class Flip:
    """What of the room is left for the piece, in mm: a whole centimetre, the next does not fit."""

    source: str
    title: str
    left: int
    text: str
    piece: str = "bed"
    dimension: str = "width"

    @property
    def last(self):
        """The last whole centimetre."""
        return self.left // 10 * 10


ANY = (1450, 2050)
SMALL = (1200, 2000)
ROWS = [
    # A bed between two walls: the room less the floor at both sides.
    Flip("bed-side-access", HUD, 2500 - 559 - 305, bedroom_wide(559, 305, ANY)(2500)),
    Flip("bed-single-wall", HUD, 1700 - 559, bedroom_wide(559, 0, (950, 2050))(1700)),
    Flip("bed-around-min", "Neufert", 2650 - 600 - 600, bedroom_wide(600, 600, SMALL)(2650)),
    Flip("bed-around-pref", "Neufert", 2950 - 750 - 750, bedroom_wide(750, 750, SMALL)(2950)),
    Flip("din-double-room-width", "DIN 18040-2", 4100 - 1200 - 900,
         bedroom_wide(1200, 900, ANY, walkway=900)(4100)),
    Flip("adm2-bed-principal", f"{ADM}, memory", 3000 - 750 - 750,
         bedroom_wide(750, 750, SMALL, 750)(3000)),
    # Its foot toward the wall: the length of the room less the floor before it.
    Flip("bed-dressing-zone", HUD, 3100 - 1067,
         bedroom_long(559, 305, 1067, (1450, 1900))(3100), dimension="depth"),
    # Diners at a table against a wall, and between two.
    Flip("dine-access", HUD, 2000 - 813, one_side(813), "table", "depth"),
    Flip("dine-nkba-edge", NKBA, 2000 - 914, one_side(914), "table", "depth"),
    Flip("dine-nkba-walk", NKBA, 2000 - 1118, one_side(1118), "table", "depth"),
    Flip("dine-access both", HUD, 2900 - 813 - 813, both_sides(813), "table", "depth"),
    Flip("dine-nkba-edge both", NKBA, 2900 - 914 - 914, both_sides(914), "table", "depth"),
    # A sofa facing a screen 400 deep: by the floor before the sofa, and by an own must.
    Flip("tv-seat-min", HUD, 3000 - 400 - 1524,
         screen("clearance.front = { least = 1524 }"), "sofa", "depth"),
    Flip("tv-seat-min away", HUD, 3000 - 400 - 1524, screen(wish=apart(1524)), "sofa", "depth"),
    # 50 in, 1.63 times the diagonal: 81.5 in, and 81.5 * 25.4 = 2070.1 mm.
    Flip("tv-smpte-mult", "screen distance by angle", 3200 - 400 - 2070,
         screen(wish=apart(2070)).replace("2800, 3000", "2800, 3200"), "sofa", "depth"),
]  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=lambda r: r.source)
def test_the_oracle_flips_at_the_published_centimetre(row):
    """Works at the last whole centimetre, impossible at the next, by two configurations."""
    scenario, oracle = read_text(row.text), FeasibilityOracle(60)

    def at(mm):
        sizes = {"width": None, "depth": None, row.dimension: mm}
        case = changed(scenario, [Resize(row.piece, **sizes)])
        return oracle.decide(case, sure=True).answer

    assert at(row.last) == "works"
    assert at(row.last + 10) == "impossible"
    # And to the millimetre.
    assert at(row.left) == "works"
    assert at(row.left + 1) == "impossible"


@pytest.mark.parametrize("row", ROWS, ids=lambda r: r.source)
def test_the_largest_is_the_published_centimetre(row):
    """The exact largest, with the arrangement that shows it and the next one impossible."""
    found = largest(read_text(row.text), row.piece, row.dimension, seconds=60)
    assert (found.answer, found.size, found.next) == ("exact", row.last, row.last + 10)
    assert judge(found.scenario, found.arrangement).works
