"""Plain rooms, plain pieces and both faces of a rule, for the tests of every rule.

Lengths in mm. The plain room is 5 m across and 4 m up the plan, with its lower
left corner at the origin and walls LEFT, TOP, RIGHT and BOTTOM.
"""

import re

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Piece
from arrange.data.room import Door, Fixture, Room, Wall, Window
from arrange.data.scenario import RuleSetting, Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import extent
from arrange.rules import RULES

LEFT, TOP, RIGHT, BOTTOM = range(4)
PLAIN = ((0, 0), (0, 4000), (5000, 4000), (5000, 0))
# The upper right corner of the plain room cut off by a wall of 1414 mm (index 2).
SLANTED = ((0, 0), (0, 4000), (4000, 4000), (5000, 3000), (5000, 0))


def room(corners=PLAIN, *, doors=(), windows=(), fixtures=(), ceiling=2500):
    """A room whose walls are named A, B, C, ... in order."""
    ends = [*corners[1:], corners[0]]
    walls = tuple(
        Wall("ABCDEFGH"[i], *pair) for i, pair in enumerate(zip(corners, ends, strict=True))
    )
    return Room(tuple(corners), walls, ceiling, tuple(doors), tuple(windows), tuple(fixtures))


def door(wall=BOTTOM, offset=200, width=800, **more):
    """A door that opens in."""
    return Door(more.pop("name", "door"), wall, offset, width, **more)


def window(wall=TOP, offset=1500, width=1200, **more):
    """A window with its sill at 900."""
    return Window(more.pop("name", "window"), wall, offset, width, **more)


def socket(wall, offset, name="socket"):
    """A socket: 80 wide, without a body."""
    return Fixture(name, "socket", (), wall, offset, 80, 0, 250, 350, solid=False)


def piece(name="piece", width=1000, depth=500, height=800, **more):
    """A piece without clearances, its kind and model its name unless told."""
    more.setdefault("kind", name)
    more.setdefault("model", more["kind"])
    more["roles"] = frozenset(more.get("roles", ()))
    return Piece(name, width=width, depth=depth, height=height, **more)


def scenario(the_room, *pieces, only=None, **more):
    """A scenario in mm; with ``only`` every wish but that rule is switched off."""
    off = () if only is None else tuple(r.id for r in RULES if r.kind == "wish" and r.id != only)
    settings = (*more.pop("settings", ()), *[RuleSetting(rule, off=True) for rule in off])
    return Scenario("test", the_room, tuple(pieces), settings=settings, unit="mm", **more)


def on_wall(the_room, thing, wall, offset):
    """``thing`` with its back on a wall, its left end ``offset`` along it."""
    side = the_room.walls[wall]
    facing = side.facing
    if facing is None:
        return Placement(thing.name, None, wall=wall, offset=offset)
    sx, sy = extent(thing, facing)
    ends = side.point(offset), side.point(offset + thing.width, thing.depth)
    x, y = (round(min(e[k] for e in ends)) for k in (0, 1))
    assert (x + sx, y + sy) == tuple(round(max(e[k] for e in ends)) for k in (0, 1))
    return Placement(thing.name, facing, x, y, wall=wall)


def at(thing, x, y, facing="down"):
    """``thing`` free on the floor, by the lower left corner of its footprint."""
    return Placement(thing.name, facing, x, y)


def levels(the_scenario, rule_id, *placements):
    """The level of each claim of a rule, judged and by the model: always the same.

    Fails if the model takes the arrangement for impossible or disagrees.
    """
    arrangement = Arrangement(tuple(placements))
    scene = Scene(the_scenario, arrangement)
    rule = next(r for r in RULES if r.id == rule_id)
    measured = [rule.measure(scene, claim) for claim in rule.claims_as_set(the_scenario)]
    judged = [m.level for m in measured]
    assert all(m.sentence and "  " not in m.sentence for m in measured)
    assert model_levels(the_scenario, rule_id, arrangement) == judged
    return judged


def model_levels(the_scenario, rule_id, arrangement):
    """How many levels of each claim of a rule the model can make true."""
    # Fast tests take their rooms from here too, and load no solver.
    from ortools.sat.python import cp_model  # noqa: PLC0415

    from arrange.solver.model import Model  # noqa: PLC0415

    model = Model(the_scenario, canonical=False)
    model.finish()
    model.pin(arrangement)
    claims = [s.claim for s in model.shares if s.claim.rule == rule_id]
    total = [sum(model.levels[c.key]) for c in claims]
    model.cp.maximize(sum(total))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.cp_model_probing_level = 0
    status = solver.solve(model.cp)
    assert status == cp_model.OPTIMAL, solver.status_name(status)
    return [solver.value(t) for t in total]


def sentences(the_scenario, rule_id, *placements):
    """What the judge says of each claim of a rule."""
    scene = Scene(the_scenario, Arrangement(tuple(placements)))
    rule = next(r for r in RULES if r.id == rule_id)
    return [rule.measure(scene, claim).sentence for claim in rule.claims(the_scenario)]


def says(the_scenario, rule_id, places, *values):
    """Whether what the judge says of a rule's one claim has these names and values, in order."""
    (sentence,) = sentences(the_scenario, rule_id, *places)
    return (
        re.search(".*".join(rf"\b{re.escape(value)}\b" for value in values), sentence) is not None
    )
