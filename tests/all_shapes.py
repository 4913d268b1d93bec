"""Scenario files about random rooms of all shapes, as text. Lengths in cm.

Nothing is known of what can stand in them: what is asked is only whether the answer, as
written, holds.
"""

from __future__ import annotations

import random

from arrange.errors import ScenarioError
from arrange.scenario.read import read_text

Corners = list[tuple[int, int]]
STANDING = (
    "single bed", "double bed", "wardrobe", "chest of drawers", "bookcase", "desk", "sofa",
    "armchair", "tv unit", "sideboard", "dining table for two", "dining table for four",
    "storage trunk", "plant", "floor lamp", "rug", "toy chest", "shoe cabinet", "daybed",
)  # fmt: skip
SHAPED = (
    "round table",
    "oval table",
    "round coffee table",
    "pouf",
    "bean bag",
    "corner sofa",
    "corner desk",
)
GOES_WITH = {
    "desk": ("desk chair", 1),
    "single bed": ("bedside table", 1),
    "double bed": ("bedside table", 2),
    "dining table for two": ("dining chair", 2),
    "dining table for four": ("dining chair", 4),
    "sofa": ("coffee table", 1),
    "round table": ("dining chair", 4),
}


def rectangle(_: random.Random, w: int, h: int) -> Corners:
    """Four walls."""
    return [(0, 0), (0, h), (w, h), (w, 0)]


def ell(rng: random.Random, w: int, h: int) -> Corners:
    """A corner taken out."""
    x, y = rng.randint(w // 3, 2 * w // 3), rng.randint(h // 3, 2 * h // 3)
    return [(0, 0), (0, h), (x, h), (x, y), (w, y), (w, 0)]


def breast(rng: random.Random, w: int, h: int) -> Corners:
    """A chimney breast on the top wall."""
    x, deep = rng.randint(60, w - 160), rng.randint(20, 50)
    return [
        (0, 0),
        (0, h),
        (x, h),
        (x, h - deep),
        (x + 100, h - deep),
        (x + 100, h),
        (w, h),
        (w, 0),
    ]


def cut_corner(rng: random.Random, w: int, h: int) -> Corners:
    """One corner cut off aslant, at any angle."""
    return [(0, 0), (0, h), (w - rng.randint(40, 120), h), (w, h - rng.randint(40, 120)), (w, 0)]


def bay(rng: random.Random, w: int, h: int) -> Corners:
    """Two corners cut off alike."""
    a, b = rng.randint(40, w // 3), rng.randint(40, 100)
    return [(0, 0), (0, h - b), (a, h), (w - a, h), (w, h - b), (w, 0)]


def not_square(rng: random.Random, w: int, h: int) -> Corners:
    """One wall runs aslant from end to end."""
    return [(0, 0), (0, h), (w, h), (w - rng.randint(5, 60), 0)]


def tee(rng: random.Random, w: int, h: int) -> Corners:
    """Two corners taken out: a wide part and a narrow one."""
    a, b, y = rng.randint(40, w // 4), rng.randint(40, w // 4), rng.randint(h // 3, 2 * h // 3)
    return [(0, 0), (0, y), (a, y), (a, h), (w - b, h), (w - b, y), (w, y), (w, 0)]


SHAPES = (rectangle, ell, breast, cut_corner, bay, not_square, tee)


DOORS = (
    ("double door", 130, "leaves = 2\n"),
    ("folding door", 90, 'opens = "folding in"\n'),
    ("wide passage", 160, 'opens = "passage"\n'),
    ("passage", 90, 'opens = "passage"\n'),
    ("stable door", 80, "stable = true\n"),
    ("two that fold", 140, 'opens = "folding out"\nleaves = 2\n'),
)
BUILT_IN = (
    ("window", "balcony", 120, "french = true\ncurtains = 20\n"),
    ("window", "tilting window", 90, "tilts = true\ncurtains = 15\n"),
    ("fixture", "closet", 120, 'kind = "closet"\n'),
    ("fixture", "stairs", 80, 'kind = "stairs"\ndepth = 100\nguarded = false\n'),
    ("fixture", "radiator", 80, 'kind = "radiator"\nseat_before = true\n'),
)


def as_built(seed: int, free: dict[str, int]) -> list[str]:
    """Openings and fixtures of one sort or another on the walls that have nothing yet."""
    rng = random.Random(f"as built {seed}")  # noqa: S311
    name, width, more = rng.choice(DOORS)
    chosen = [("door", name, width, f"{more}main = true\n"), *rng.sample(BUILT_IN, 2)]
    return [_on_wall(rng, what, free, w, f'name = "{n}"\n{more}') for what, n, w, more in chosen]


def overhead(seed: int, corners: Corners) -> list[str]:
    """A slope with a dormer in it, beams, a lamp, a fan, stairs: what may not be in every room."""
    rng = random.Random(f"overhead {seed}")  # noqa: S311
    names = "ABCDEFGH"[: len(corners)]
    (w, h), wall = (max(axis) for axis in zip(*corners, strict=True)), rng.choice(names)
    low, until = rng.randint(90, 160), rng.randint(80, 180)
    x, y = rng.randint(60, w - 60), rng.randint(60, h - 60)
    start, wide = rng.randint(20, 100), rng.randint(90, 160)
    dormer = f"from_left = {start}\nwidth = {wide}\nheight = {rng.randint(190, 230)}\n"
    drop = rng.random() < 0.5
    beam = f"off_wall = {rng.randint(0, 200)}\nwidth = {rng.randint(10, 40)}\n"
    beam += f"drop = {rng.randint(10, 60)}\n" if drop else f"height = {rng.randint(150, 215)}\n"
    stairs = f'kind = "stairs"\nfrom_left = 0\nwidth = {rng.randint(120, 220)}\ndepth = 80\n'
    box = f'kind = "boxed stairs"\nfrom_left = {start}\nwidth = 120\ndepth = 70\nlow_height = 40\n'
    walls = [f'wall = "{rng.choice(names)}"\n' for _ in range(3)]
    slope = f'[[room.slope]]\nwall = "{wall}"\nheight = {low}\nuntil = {until}\n'
    return [
        slope,
        f'[[room.dormer]]\nwall = "{wall}"\n{dormer}off_wall = {rng.choice([0, 0, 30])}\n',
        f"[[room.beam]]\n{walls[0]}{beam}",
        f'[[fixture]]\nkind = "pendant light"\nat = [{x}, {y}]\nbottom = {rng.randint(130, 210)}\n',
        f'[[fixture]]\nkind = "ceiling fan"\nat = [{w - x}, {y}]\nwidth = 110\nbottom = 205\n',
        f'[[fixture]]\n{walls[1]}{stairs}steps = "left"\nunderside = {rng.randint(150, 235)}\n',
        f"[[fixture]]\n{walls[2]}{box}",
    ]


def with_overhead(seed: int, text: str, corners: Corners) -> str:
    """The file with what of ``overhead`` can be in its room: half of it, one after another.

    A slope is always tried, and its dormer with it.
    """
    rng = random.Random(f"which overhead {seed}")  # noqa: S311
    for number, entry in enumerate(overhead(seed, corners)):
        if number > 1 and rng.random() < 0.5:
            continue
        try:
            read_text(text + entry)
        except ScenarioError:  # a door is under it, or it is behind another wall
            continue
        text += entry
    return text


def scenario_text(
    seed: int,
    *,
    built: bool = False,
    shaped: bool = False,
    high: bool = False,
    across: bool = False,
) -> str:
    """The file of a seed: a shape, a door or two, windows, a fixture, two to seven pieces.

    ``built`` puts a main door, a window and a fixture as built in, before all others.
    ``shaped`` adds one or two that are round or an L, and takes the corners off others.
    ``high`` adds what is overhead: a slope and a dormer, beams, what hangs, stairs. ``across``
    lets half of what stands by itself stand across a corner, too, and one piece only so.
    """
    rng = random.Random(seed)  # noqa: S311
    w, h = rng.randint(260, 520), rng.randint(260, 520)
    corners = SHAPES[seed % len(SHAPES)](rng, w, h)
    entries = [f"walkway = {rng.choice([50, 60, 60, 75])}\n[room]\ncorners = {_toml(corners)}\n"]
    ends = [*corners[1:], corners[0]]
    free = {
        "ABCDEFGH"[i]: int(((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2) ** 0.5)
        for i, (a, b) in enumerate(zip(corners, ends, strict=True))
    }
    entries += as_built(seed, free) if built else []
    opens = f'opens = "{rng.choice(["in", "in", "out", "sliding"])}"\n'
    entries.append(_on_wall(rng, "door", free, 80, opens))
    if rng.random() < 0.25:
        entries.append(_on_wall(rng, "door", free, 75, 'name = "other door"\nopens = "out"\n'))
    for number in range(rng.randint(1, 2)):
        more = f'name = "window {number + 1}"\nmust_open = {str(rng.random() < 0.3).lower()}\n'
        entries.append(_on_wall(rng, "window", free, rng.randint(60, 120), more))
    if rng.random() < 0.4:
        entries.append(_on_wall(rng, "fixture", free, 80, 'kind = "radiator"\n'))
    kinds = rng.sample(STANDING, rng.randint(2, 5))
    kinds += rng.sample(SHAPED, rng.randint(1, 2)) if shaped else []
    entries += [_piece(rng, kind) + (_corners(rng, kind) if shaped else "") for kind in kinds]
    for kind in kinds:
        if kind in GOES_WITH and rng.random() < 0.6:
            follower, count = GOES_WITH[kind]
            name = f'name = "{follower} for {kind}"\n'  # two tables have two sets of chairs
            entries.append(f'[[piece]]\nkind = "{follower}"\n{name}count = {count}\n')
    if across:
        entries = [_crossing(random.Random(f"across {seed} {e}"), e) for e in entries]  # noqa: S311
    text = "".join(entries)
    return with_overhead(seed, text, corners) if high else text


def _toml(corners: Corners) -> str:
    return "[" + ", ".join(f"[{x}, {y}]" for x, y in corners) + "]"


def _on_wall(rng: random.Random, what: str, free: dict[str, int], width: int, more: str) -> str:
    """An entry on a wall that is long enough and has nothing yet; no entry if none is left."""
    walls = [name for name, length in free.items() if length >= width + 20]
    if not walls:
        return ""
    wall = rng.choice(walls)
    at = rng.randint(10, free.pop(wall) - width - 10)
    return f'[[{what}]]\nwall = "{wall}"\nfrom_left = {at}\nwidth = {width}\n{more}'


def _piece(rng: random.Random, kind: str) -> str:
    owned = "owned = true\n" if rng.random() < 0.5 else ""
    return f'[[piece]]\nkind = "{kind}"\n{owned}'


def _crossing(rng: random.Random, entry: str) -> str:
    """The entry of a piece that may, or must, stand across a corner; or as it was."""
    kind = entry.partition('kind = "')[2].partition('"')[0]
    if not entry.startswith("[[piece]]") or kind not in STANDING or kind == "rug":
        return entry
    chance = rng.random()
    if chance < 0.1 or (kind == "armchair" and chance < 0.5):
        return f'{entry}stands = "across"\n'
    return f"{entry}across_corner = true\n" if chance < 0.6 else entry


def _corners(rng: random.Random, kind: str) -> str:
    """Nothing, or cut or rounded corners."""
    if kind in SHAPED or rng.random() < 0.6:
        return ""
    how = rng.choice(["cut", "rounded"])
    return f'shape = "{how} corners"\ncorner = {rng.randint(3, 15)}\n'
