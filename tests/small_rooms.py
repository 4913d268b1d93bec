"""Small rooms, pieces and placements, and both faces of a must. Lengths in mm.

The plain room is 4000 wide (x) and 3000 up the plan (y), seen from above:

    (0,3000) --- A, top, faces down --- (4000,3000)
       |                                    |
    D, left, faces right            B, right, faces left
       |                                    |
     (0,0) ----- C, bottom, faces up ---- (4000,0)

"From left" on a wall is as seen from inside: on A it grows with x, on B it runs
down from the top, on C from the right end to the left, on D up from the bottom.
"""

from dataclasses import replace

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Clearance, Piece, Slot
from arrange.data.room import Room, Wall
from arrange.data.scenario import RuleSetting, Scenario, Wish
from arrange.judge import judge
from arrange.rules import RULES

A, B, C, D = range(4)
PLAIN = ((0, 3000), (4000, 3000), (4000, 0), (0, 0))
# Two corners cut off: wall 1 from (0, 2000) to (1000, 3000) and wall 3 run at 45 degrees.
BAY = ((0, 0), (0, 2000), (1000, 3000), (3000, 3000), (4000, 2000), (4000, 0))
# A breast 1000 wide and 300 deep in the middle of the top wall.
BREAST = (
    (0, 0), (0, 3000),
    (1500, 3000), (1500, 2700), (2500, 2700), (2500, 3000),
    (4000, 3000), (4000, 0),
)  # fmt: skip


def room(corners=PLAIN, ceiling=2500, **more):
    """A room whose walls are called A, B, C ... in order from the first corner."""
    ends = (*corners[1:], corners[0])
    names = [chr(65 + i) for i in range(len(corners))]
    walls = tuple(Wall(n, s, e, n) for n, s, e in zip(names, corners, ends, strict=True))
    return Room(tuple(corners), walls, ceiling, **more)


def piece(name, width=600, depth=400, height=800, **more):
    """A piece for the wall without clearances, unless told otherwise."""
    roles = frozenset(more.pop("roles", ()))
    model = more.pop("model", name)
    kind = more.pop("kind", model)
    return Piece(name, kind, model, width, depth, height, roles=roles, **more)


def free(name, width=600, depth=400, height=800, roles=("seat",), **more):
    """A piece that stands anywhere and has a front (all four turns)."""
    return piece(name, width, depth, height, stands="free", roles=roles, **more)


def clearance(least, comfortable=0, sides=("front",), name="front", **more):
    """Floor of that depth before a piece."""
    return Clearance(name, sides, least, comfortable or least, "to use it", **more)


def tied(name, anchor, *slots, size=400, **more):
    """A square piece tied to ``anchor`` by slots."""
    more = {"stands": "free", "roles": ("seat",), **more}
    slots = slots or (Slot("left", along=0, gap=50),)
    return piece(name, size, size, anchor=anchor, slots=tuple(slots), **more)


def scenario(shape, *pieces, wishes=(), **more):
    """The pieces in the room."""
    return Scenario("test", shape, tuple(pieces), tuple(wishes), **more)


def wish(relation, piece_name, place, distance=None, *, must=False, weight=4):
    """What the person asks of one piece."""
    return Wish(relation, piece_name, place, distance, must, weight)


def at(name, facing, x, y, wall=None):
    """A placement by its lower left corner."""
    return Placement(name, facing, x, y, wall)


def on_wall(one, shape, wall, offset):
    """``one`` with its back on an upright wall, ``offset`` from the wall's left end."""
    line = shape.walls[wall]
    ends = [line.point(offset + a, b) for a in (0, one.width) for b in (0, one.depth)]
    x, y = round(min(e[0] for e in ends)), round(min(e[1] for e in ends))
    return Placement(one.name, line.facing, x, y, wall)


def aslant(name, wall, offset, inward=0, quarter=0):
    """A placement on a slanted wall."""
    return Placement(name, None, wall=wall, offset=offset, inward=inward, quarter=quarter)


def only(case, *rules):
    """The scenario without any other rule that earns points, and without walkways."""
    off = [r.id for r in RULES if r.id not in rules and (r.kind == "wish" or r.id == "walkway")]
    return replace(case, settings=(*case.settings, *(RuleSetting(i, off=True) for i in off)))


def judged(case, *placements):
    """The ids of the rules that the judge finds broken."""
    verdict = judge(case, Arrangement(tuple(placements)))
    return {b.rule for b in verdict.breaches}


def allowed(case, *placements):
    """Whether the model, pinned, takes the arrangement; the walkway aside."""
    from replayed import model_score  # noqa: PLC0415  fast tests load no solver

    return model_score(case, Arrangement(tuple(placements))) is not None


def both_say(case, placements, rule, ok):
    """Model and judge agree, and the only rule broken is the one under test."""
    assert judged(case, *placements) == (set() if ok else {rule})
    assert allowed(case, *placements) is ok
