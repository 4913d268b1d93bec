"""Random furnished rooms in which model and judge must agree on every claim. Lengths in mm.

Each room is large for its few pieces, so that it can always be furnished; the
pieces are thrown about at random rather than put where points are.
"""

import random
from dataclasses import replace

from ortools.sat.python import cp_model
from plain_rooms import door, piece, room, socket, window
from replayed import model_score

from arrange.data.arrangement import Arrangement
from arrange.data.person import Person
from arrange.data.piece import Clearance, Slot
from arrange.data.room import Fixture
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.judge import judge
from arrange.rules import RULES
from arrange.scoring import shares
from arrange.solver.model import Model

# Each 7 m across and 6 m up: plain, an L, one and two corners cut off, a chimney breast.
OUTLINES = (
    ((0, 0), (0, 6000), (7000, 6000), (7000, 0)),
    ((0, 0), (0, 6000), (4500, 6000), (4500, 3500), (7000, 3500), (7000, 0)),
    ((0, 0), (0, 6000), (5100, 6000), (7000, 4300), (7000, 0)),
    ((0, 1200), (0, 6000), (5300, 6000), (7000, 3900), (7000, 0), (1900, 0)),
    (
        *((0, 0), (0, 6000), (3000, 6000), (3000, 5600), (4300, 5600), (4300, 6000)),
        *((7000, 6000), (7000, 0)),
    ),
)

USES = (None, None, None, "one room for all", "living and dining room", "nursery", "hall")
USES += ("office", "dining room", "bedroom")


def random_scenario(seed):
    """A room with two doors, windows, sockets, perhaps a hearth, and five to eight pieces."""
    rng = random.Random(seed)  # noqa: S311  repeatable, no secret
    corners = rng.choice(OUTLINES)
    bare = room(corners)
    lengths = [int(w.length) for w in bare.walls]
    long_ones = [i for i, n in enumerate(lengths) if n > 2400]
    first, second, third, fourth = (rng.choice(long_ones) for _ in range(4))
    openings = {
        "doors": [door(first, 150, 800, opens=rng.choice(["in", "out"]))],
        "windows": [window(second, 1100, rng.randrange(600, 1250))],
        "fixtures": [socket(third, 1000), socket(fourth, 100, name="second socket")],
    }
    if third not in (first, second):
        openings["doors"].append(door(third, 300, 750, name="kitchen door"))
    if fourth not in (first, second, third):
        openings["windows"].append(window(fourth, 950, 900, name="second window"))
    if rng.random() < 0.5:
        box = ((2900, 2300), (2900, 2800), (3400, 2800), (3400, 2300))
        openings["fixtures"].append(Fixture("stove", "stove", box, top=1200))
    pieces = _pieces(rng)
    use = rng.choice(USES)
    return Scenario("random", room(corners, **openings), tuple(pieces), unit="mm", use=use)


LEAVES = (("in", 2), ("folding in", 1), ("folding in", 2), ("folding out", 1), ("sliding", 2))
LEAVES += (("passage", 1), ("sliding on the wall", 1))


def with_openings_as_built(scenario, seed):
    """The same room, its first door hung in another way, its windows perhaps French."""
    rng = random.Random(f"as built {seed}")  # noqa: S311  repeatable, no secret
    first, *others = scenario.room.doors
    opens, leaves = rng.choice(LEAVES)
    width = rng.choice([900, 1300]) if opens == "passage" else 900
    first = replace(first, opens=opens, leaves=leaves, width=width, hinge="right")
    windows = [_as_built(rng, w) for w in scenario.room.windows]
    made = replace(scenario.room, doors=(first, *others), windows=tuple(windows))
    return replace(scenario, room=made)


def with_people(scenario, seed):
    """The same room with somebody in a wheelchair or with a frame, and a child who climbs."""
    aid = random.Random(f"people {seed}").choice(["wheelchair", "walking frame"])  # noqa: S311
    return replace(scenario, people=(Person("Ada", uses=aid), Person("Mo", climbs=True)))


def _as_built(rng, one):
    french = door(one.wall, one.offset, one.width, name=one.name, leaves=2)
    french = replace(french, opens=rng.choice(["in", "folding in", "out"]))
    ways = ({}, {"tilts": True}, {"curtains": rng.choice([150, 300])}, {"french": french})
    more = rng.choice(ways)
    return replace(one, **more, sill=0 if "french" in more else one.sill)


def _pieces(rng):
    pool = [_bed, _sofa, _armchairs, _screen, _desk, _shelves, _wardrobe, _reading]
    pool += [_small_tables, _lamps, _dining, _nursery, _hall, _dining_room]
    return [p for make in rng.sample(pool, rng.randrange(4, 6)) for p in make(rng)]


def _wall_or_free(rng):
    return rng.choice(["wall", "free", "anywhere"])


def _use(least):
    return (Clearance("use", ("front",), least, least + 200, "to use it"),)


def _bed(rng):
    width = rng.randrange(1400, 1800)
    frame = random.Random(f"frame {width}")  # noqa: S311  repeatable, no secret
    rims = {"headboard": frame.randrange(150), "rails": frame.randrange(150)} if width % 2 else {}
    roles = {"sleep", "bed", "for two"}
    bed = piece("bed", width, 2050, 500, roles=roles, stands="wall", **rims)
    more = {"anchor": "bed", "roles": {"bedside"}, "kind": "bedside table"}
    more["slots"] = tuple(Slot(side, along=0, gap=30) for side in ("left", "right"))
    size = rng.randrange(350, 450)
    if rng.random() < 0.3:  # loose ones
        more["anchor"], more["slots"] = None, ()
    return [bed, *[piece(f"bedside {i}", size, 400, 500, **more) for i in (1, 2)]]


def _sofa(rng):
    return [
        piece(
            "sofa",
            rng.randrange(1500, 2100),
            900,
            850,
            roles={"seat", "sofa"},
            stands=_wall_or_free(rng),
            clearances=_use(300),
            goes_with=("shelf", "screen"),
        )
    ]


def _armchairs(rng):
    more = {"roles": {"seat", "lounge"}, "kind": "armchair", "stands": _wall_or_free(rng)}
    return [piece(f"armchair {i}", 800, 850, 900, goes_with=("sofa",), **more) for i in (1, 2)]


def _screen(rng):
    return [piece("screen", rng.randrange(900, 1500), 400, 500, roles={"screen"})]


def _desk(rng):
    desk = piece(
        "desk",
        rng.randrange(1000, 1500),
        700,
        740,
        roles={"desk", "work", "needs socket"},
        stands=_wall_or_free(rng),
        goes_with=("shelf",),
    )
    slots = (Slot("front", gap=50, facing="opposite"),)
    chair = piece("desk chair", 500, 500, 900, anchor="desk", slots=slots, roles={"seat"})
    return [desk, chair]


def _shelves(rng):
    more = {"kind": "shelf", "goes_with": ("desk", "armchair"), "clearances": _use(450)}
    height = rng.choice([800, 2000])
    return [piece(f"shelf {i}", 800, 300, height, **more) for i in (1, 2)]


def _wardrobe(rng):
    width = rng.randrange(900, 1500)
    return [piece("wardrobe", width, 600, 2000, clearances=_use(600), roles={"store", "tall"})]


def _hall(rng):
    shoes = piece("shoe cabinet", 800, 300, 1000, roles={"store", "entrance"})
    bench = {"roles": {"seat", "bench", "entrance"}, "stands": _wall_or_free(rng)}
    glass = piece("mirror", 500, 100, 1700, roles={"mirror", "dress"})
    chest = piece("chest of drawers", 900, 500, 900, roles={"store", "clothes"})
    return [shoes, piece("hall bench", 1000, 400, 450, **bench), glass, chest]


def _dining_room(rng):
    table = piece("big table", 1400, 900, 740, stands="free", roles={"dine", "table"})
    more = {"roles": {"store"}, "goes_with": ("big table",)}
    chair = piece("spare chair", 450, 450, 900, stands="free", roles={"seat", "dining seat"})
    return [table, chair, piece("sideboard", rng.randrange(1000, 1600), 450, 850, **more)]


def _nursery(rng):
    cot = piece("cot", 1260, 680, 950, roles={"sleep", "cot", "child"}, clearances=_use(550))
    table = {"roles": {"store", "child", "clothes"}, "kind": "changing table"}
    shelf = {"bottom": 1400, "roles": {"store", "hangs"}, "stands": "wall"}
    changing = piece("changing table", 900, 600, 900, clearances=_use(600), **table)
    basket = piece("basket", 400, 400, 600, roles={"store"}, stands="free")
    return [cot, changing, basket, piece("high shelf", rng.randrange(500, 900), 250, 300, **shelf)]


def _reading(rng):
    slots = tuple(Slot(side, along=0, gap=50) for side in ("left", "right"))
    chair = piece("reading chair", 750, 800, 880, roles={"seat", "lounge", "read"})
    lamp = {"anchor": "reading chair", "slots": slots, "roles": {"light"}}
    lies = {"flat": True, "stands": "free", "roles": {"rug"}}
    rug = piece("rug", rng.randrange(1200, 2000), 1400, 15, **lies)
    return [chair, piece("lamp", 350, 350, 1600, **lamp), rug]


def _small_tables(rng):
    width = rng.randrange(700, 1100)
    tables = [piece("coffee table", width, 500, 420, stands="free", roles={"table", "coffee"})]
    return [*tables, piece("side table", 400, 400, 550, stands="free", roles={"table", "side"})]


def _lamps(rng):
    more = {"roles": {"light"}, "kind": "floor lamp", "stands": "free"}
    return [piece(f"floor lamp {i}", 300, 300, 1600, **more) for i in range(rng.randrange(1, 4))]


def _dining(rng):
    width = rng.randrange(800, 1400)
    slots = tuple(Slot(side, gap=20, facing="toward") for side in ("front", "back"))
    more = {"anchor": "dining table", "slots": slots, "roles": {"seat", "dining seat"}}
    chairs = [piece(f"dining chair {i}", 450, 450, 900, kind="chair", **more) for i in (1, 2)]
    return [piece("dining table", width, 800, 740, stands="free", roles={"dine", "table"}), *chairs]


def shaped(scenario, seed):
    """The same room with about half of its pieces oval, an L or without their corners."""
    rng = random.Random(f"shapes {seed}")  # noqa: S311  repeatable, no secret
    pieces = []
    for one in scenario.pieces:
        shape = rng.choice(["rectangle"] * 4 + ["oval", "cut corners", "rounded corners", "L"])
        corner = rng.randrange(20, min(one.width, one.depth) // 2 + 1)
        new = replace(one, shape=shape, corner=corner if "corners" in shape else 0)
        if shape == "L":
            wide = rng.randrange(one.width // 4, one.width // 2)
            deep = rng.randrange(one.depth // 4, one.depth // 2)
            side = rng.choice(["left", "right"])
            new = replace(new, arm_side=side, arm_width=wide, back_depth=deep)
        pieces.append(new)
    return replace(scenario, pieces=tuple(pieces))


def crossing(scenario, seed):
    """The same room with most untied pieces across a corner, if they find one."""
    rng = random.Random(f"corners {seed}")  # noqa: S311  repeatable, no secret
    pieces = [
        replace(p, across_corner=rng.random() < 0.8) if p.anchor is None and p.width <= 2500 else p
        for p in scenario.pieces
    ]
    hosts = {p.anchor for p in pieces}
    only = sorted(
        (i for i, p in enumerate(pieces) if p.across_corner),
        key=lambda i: (pieces[i].name not in hosts, i),
    )
    for i in only[:1]:
        pieces[i] = replace(pieces[i], stands="across")
    return replace(scenario, pieces=tuple(pieces))


def thrown(scenario, seed):
    """An arrangement that breaks no must the model knows: any one, thrown about by the seed."""
    rng = random.Random(seed)  # noqa: S311  repeatable, no secret
    model = Model(scenario, canonical=False)
    model.finish()
    for place in (model.place(p.name) for p in scenario.pieces if p.anchor is None):
        model.cp.add_hint(place.x0, rng.randrange(7000))
        model.cp.add_hint(place.y0, rng.randrange(6000))
        chosen = rng.choice(place.stances)
        for stance in place.stances:
            model.cp.add_hint(stance.literal, stance is chosen)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = seed
    solver.parameters.randomize_search = True
    solver.parameters.linearization_level = 0
    solver.parameters.cp_model_probing_level = 0
    solver.parameters.max_deterministic_time = 20
    status = solver.solve(model.cp)
    assert status == cp_model.OPTIMAL, (seed, solver.status_name(status))
    return model.arrangement(solver)


def judged_levels(scenario, arrangement):
    """The level of every claim, from shapes."""
    scene = Scene(scenario, arrangement)
    rules = [r for r in RULES if not scenario.setting(r.id).off]
    return {c.key: r.measure(scene, c).level for r in rules for c in r.claims(scenario)}


def modelled_levels(scenario, arrangement: Arrangement):
    """The most levels of every claim that the model allows with each piece held in place."""
    model = Model(scenario, canonical=False)
    model.finish()
    model.pin(arrangement)
    model.cp.maximize(sum(sum(levels) for levels in model.levels.values()))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.linearization_level = 0
    solver.parameters.cp_model_probing_level = 0
    status = solver.solve(model.cp)
    assert status == cp_model.OPTIMAL, solver.status_name(status)
    return {key: sum(solver.value(x) for x in levels) for key, levels in model.levels.items()}


def agree(scenario, arrangement):
    """Both faces claim by claim, then the score, nothing broken but walkways; levels by key."""
    judged = judged_levels(scenario, arrangement)
    asked = {share.claim.key for share in shares(scenario)}  # the others are in no model
    assert modelled_levels(scenario, arrangement) == {k: judged[k] for k in judged if k in asked}
    verdict = judge(scenario, arrangement)
    assert model_score(scenario, arrangement) == verdict.standing
    assert {b.rule for b in verdict.breaches} <= {"walkway"}
    return judged


def room_with_alike_pieces(seed):
    """A random room with two shelves or two armchairs that nothing should tell apart."""
    rng = random.Random(seed)  # noqa: S311  repeatable, no secret
    makes = [rng.choice([_armchairs, _shelves]), *rng.sample([_sofa, _desk, _screen], 2)]
    return replace(random_scenario(seed), pieces=tuple(p for make in makes for p in make(rng)))


def best_score(scenario, *, canonical):
    """The proven best score, walkways left out."""
    model = Model(scenario, canonical=canonical)
    model.finish()
    model.cp.maximize(model.points)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.linearization_level = 0
    solver.parameters.cp_model_probing_level = 0
    assert solver.solve(model.cp) == cp_model.OPTIMAL
    return solver.value(model.points)
