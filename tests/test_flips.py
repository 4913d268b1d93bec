"""Where a verdict flips, by published arithmetic: at this centimetre it works, at the next not.

Each row is a room of a fixed size; what is left of it once the published figures are
taken off is the largest size of the piece. The oracle must agree at that centimetre and the
next, ``largest`` must name them both. `source` is the id of the figure in `published`, where
it is typed once: the scenario and what is left are both made from that. Figures that are not
a kind's default are set in the scenario itself.
"""

from dataclasses import dataclass

import pytest
from published import mm
from test_outside_rooms import bedroom_long, bedroom_wide, held, piece, room

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
DEEP = 3000  # the room of the screen


def across(source, width, side, other, size, walkway=600):
    """A bed between two walls: the room less the floor at both sides."""
    text = bedroom_wide(side, other, size, walkway)(width)
    return Flip(source, width - side - other, text)


def at_wall(source, depth=2000):
    """Diners along the one free side of a table against a wall."""
    return Flip(source, depth - mm(source), one_side(mm(source)), "table", "depth")


def between(source, depth=2900):
    """Diners on both sides."""
    gap = mm(source)
    return Flip(f"{source} both", depth - 2 * gap, both_sides(gap), "table", "depth")


def watched(name, source, text, depth=DEEP):
    """A sofa facing a screen 400 deep."""
    return Flip(name, depth - 400 - mm(source), text, "sofa", "depth")


SEAT, FAR = mm("tv-seat-min"), mm("tv-smpte-mult")
SIDE, OTHER = mm("bed-side-access"), mm("bed-least-used-side")
FOOT = mm("bed-dressing-zone")
LEAST, PREFERRED, ADM2 = mm("bed-around-min"), mm("bed-around-pref"), mm("adm2-bed-principal")
ROWS = [
    across("bed-side-access", 2500, SIDE, OTHER, ANY),
    across("bed-single-wall", 1700, SIDE, 0, (950, 2050)),
    across("bed-around-min", 2650, LEAST, LEAST, SMALL),
    across("bed-around-pref", 2950, PREFERRED, PREFERRED, SMALL),
    across("din-bed-side-1", 4100, mm("din-bed-side-1"), mm("din-bed-side-2"), ANY, 900),
    across("adm2-bed-principal", 3000, ADM2, ADM2, SMALL, ADM2),
    # Its foot toward the wall: the length of the room less the floor before it.
    Flip("bed-dressing-zone", 3100 - FOOT, bedroom_long(SIDE, OTHER, FOOT, (1450, 1900))(3100),
         dimension="depth"),
    at_wall("dine-access"), at_wall("dine-nkba-edge"), at_wall("dine-nkba-walk"),
    between("dine-access"), between("dine-nkba-edge"),
    # By the floor before the sofa, and by an own must.
    watched("tv-seat-min", "tv-seat-min", screen(f"clearance.front = {{ least = {SEAT} }}")),
    watched("tv-seat-min away", "tv-seat-min", screen(wish=apart(SEAT))),
    watched("tv-smpte-mult", "tv-smpte-mult",
            screen(wish=apart(FAR)).replace(f"2800, {DEEP}", "2800, 3200"), 3200),
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
