"""Furnished rooms of our own invention, and what a decorator would say of the plans for them.

    python -m benchmarks.furnished --rooms 20 --seconds 5

Two hundred seeded rooms to live, sleep, eat, work and arrive in, for children, and all in one:
8 to 25 pieces that go together, in rooms of believable size. The sizes are those of the kinds;
the proportions follow furnished rooms that were measured (about 22 m2, a quarter to nearly half
of the floor taken). Each is searched for a time, and the faults of its plans are counted by
`benchmarks/taste_counter.py` from what would be written. ``--scenarios`` takes the examples in
`scenarios/` instead. ``--show SEED`` prints a room's file.
"""

from __future__ import annotations

import random
import statistics
import sys
import traceback
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import click

from arrange.data.kinds import kinds
from benchmarks.avoidable import Avoided, avoided
from benchmarks.report import answers, circumstances, conclude, over_rooms
from benchmarks.taste_counter import Fault, count, counted, tally
from benchmarks.taste_counter import lines as told

ROOMS = 200
FILES = sorted((Path(__file__).parent.parent / "scenarios").glob("*.toml"))
PLACES = {  # cm; what stands on the floor and how wide or deep it may be instead of the usual
    "sofa": ("width", (180, 200, 220, 230)),
    "wardrobe": ("width", (100, 120, 150)),
    "sliding wardrobe": ("width", (150, 180, 200)),
    "double bed": ("width", (145, 165)),
    "desk": ("width", (120, 140, 160)),
    "bookcase": ("width", (60, 80, 100)),
    "tv unit": ("width", (120, 140, 180)),
    "sideboard": ("width", (140, 160)),
    "rug": ("width", (200, 240)),
}
MOST_CHAIRS = {"two": 2, "four": 4, "six": 6, "eight": 8}


@dataclass(frozen=True)
class Item:
    """So many pieces of a kind, with a width of its own in cm or the usual one."""

    kind: str
    count: int = 1
    width: int | None = None

    @property
    def floor(self) -> float:
        """The floor they take in m2; none for what lies or hangs."""
        kind = kinds()[self.kind]
        if kind.flat or kind.bottom:
            return 0.0
        return self.count * (10 * self.width if self.width else kind.width) * kind.depth / 1e6


Items = list[Item]


def _item(rng: random.Random, kind: str, number: int = 1) -> Item:
    width = rng.choice(PLACES[kind][1]) if kind in PLACES else None
    return Item(kind, number, width)


def _sitting(rng: random.Random) -> Items:
    """Sofa, table, screen, and chairs."""
    found = [_item(rng, "sofa"), Item("coffee table"), _item(rng, "tv unit"), _item(rng, "rug")]
    found.append(Item(rng.choice(("armchair", "reading chair")), rng.choice((1, 1, 2))))
    found += [Item("floor lamp"), Item("side table", rng.choice((1, 2)))]
    return found


def _eating(rng: random.Random, *sizes: str) -> Items:
    """A table and its chairs."""
    size = rng.choice(sizes)
    return [Item(f"dining table for {size}"), Item("dining chair", MOST_CHAIRS[size])]


def living(rng: random.Random) -> Items:
    """A room to sit in."""
    found = [*_sitting(rng), _item(rng, "bookcase", rng.choice((1, 2))), Item("plant")]
    extra = ("small sofa", "sideboard", "display cabinet", "footstool", "record cabinet", "piano")
    return found + [_item(rng, kind) for kind in rng.sample(extra, rng.choice((0, 1, 2)))]


def living_dining(rng: random.Random) -> Items:
    """A room to sit and eat in."""
    found = _sitting(rng) + _eating(rng, "four", "four", "six", "eight") + [_item(rng, "sideboard")]
    extra = ("bookcase", "plant", "display cabinet", "serving trolley", "footstool", "piano")
    return found + [_item(rng, kind) for kind in rng.sample(extra, rng.choice((0, 1, 2, 4)))]


def sleeping(rng: random.Random) -> Items:
    """A room for two to sleep in."""
    robe = rng.choice(("wardrobe", "sliding wardrobe"))
    found = [_item(rng, rng.choice(("double bed", "double bed", "king bed")))]
    found += [Item("bedside table", 2), _item(rng, robe), Item("chest of drawers")]
    found += [Item("hall mirror"), Item("floor lamp"), _item(rng, "rug")]
    extra = ("bed bench", "reading chair", "plant", "tv unit", "laundry basket", "armchair")
    return found + [_item(rng, kind) for kind in rng.sample(extra, rng.choice((1, 2, 3)))]


def eating(rng: random.Random) -> Items:
    """A room to eat in."""
    found = [*_eating(rng, "four", "six", "six"), _item(rng, "sideboard"), _item(rng, "rug")]
    extra = ("display cabinet", "plant", "serving trolley", "armchair", "bookcase")
    return found + [_item(rng, kind) for kind in rng.sample(extra, rng.choice((2, 3)))]


def working(rng: random.Random) -> Items:
    """A room to work in."""
    found = [_item(rng, "desk"), Item("desk chair"), _item(rng, "bookcase", rng.choice((2, 3)))]
    found += [Item("filing cabinet"), Item("reading chair"), Item("floor lamp"), Item("plant")]
    extra = ("side table", "low bookcase", "sideboard", "rug", "wall shelf")
    return found + [_item(rng, kind) for kind in rng.sample(extra, rng.choice((1, 2)))]


def hall(rng: random.Random) -> Items:
    """A room to arrive in."""
    found = [Item("shoe cabinet", 2), Item("coat rack"), Item("hall bench"), Item("hall mirror")]
    found += [Item("console table"), Item("plant")]
    extra = ("wardrobe", "coat rack", "chest of drawers", "storage trunk")
    return [*found, _item(rng, rng.choice(extra))]


def childs(rng: random.Random) -> Items:
    """A room for one child, or two."""
    bed = rng.choice((Item("single bed"), Item("loft bed"), Item("bunk bed")))
    desks = 2 if bed.kind == "bunk bed" else 1
    found = [bed, Item("child's desk", desks), Item("child's chair", desks), Item("wardrobe")]
    found += [Item("toy chest"), Item("low bookcase"), Item("play mat")]
    extra = ("chest of drawers", "bookcase", "plant", "bedside table", "armchair")
    return found + [Item(kind) for kind in rng.sample(extra, rng.choice((1, 2)))]


def nursery(rng: random.Random) -> Items:
    """A room for a small child."""
    found = [Item("cot"), Item("changing table"), Item("wardrobe"), Item("toy chest")]
    found += [Item(rng.choice(("rocking chair", "armchair"))), Item("floor lamp")]
    found += [Item("chest of drawers"), Item("play mat")]
    extra = ("low bookcase", "side table", "laundry basket", "footstool", "single bed")
    return found + [Item(kind) for kind in rng.sample(extra, rng.choice((0, 1, 2)))]


def all_in_one(rng: random.Random) -> Items:
    """A room to sleep, sit, eat and perhaps work in."""
    bed = rng.choice(("single bed", "double bed", "double bed"))
    found = [_item(rng, bed), Item("bedside table"), _item(rng, "wardrobe"), Item("small sofa")]
    found += [Item("coffee table"), _item(rng, "tv unit"), Item("floor lamp")]
    found += [*_eating(rng, "two", "two", "four"), _item(rng, "bookcase")]
    if rng.random() < 0.5:
        found += [_item(rng, "desk"), Item("desk chair")]
    extra = ("plant", "chest of drawers", "rug", "shoe cabinet", "armchair")
    return found + [_item(rng, kind) for kind in rng.sample(extra, rng.choice((0, 1, 2)))]


# How often each comes in a hundred, and the shares of the floor its pieces take.
THEMES: Sequence[tuple[int, Callable[[random.Random], Items], tuple[float, float]]] = (
    (22, living, (0.25, 0.36)),
    (20, living_dining, (0.25, 0.36)),
    (22, sleeping, (0.25, 0.40)),
    (8, eating, (0.25, 0.36)),
    (7, working, (0.25, 0.38)),
    (3, hall, (0.25, 0.34)),
    (8, childs, (0.25, 0.38)),
    (4, nursery, (0.25, 0.36)),
    (6, all_in_one, (0.25, 0.37)),
)
KITCHEN = (living_dining, eating)


@dataclass
class Room:
    """The outline being furnished, in cm: its corners clockwise, and what is on its walls."""

    corners: list[tuple[int, int]]
    taken: dict[int, list[tuple[int, int]]]

    def length(self, wall: int) -> int:
        """How long a wall is."""
        (x, y), (to_x, to_y) = self.corners[wall], self.corners[(wall + 1) % len(self.corners)]
        return abs(to_x - x) + abs(to_y - y)

    def put(self, rng: random.Random, wall: int, wide: int, *, corner: bool = False) -> int | None:
        """Where something finds room on a wall, from its left end, near a corner if asked."""
        room = self.length(wall) - wide - 20
        if room < 20:
            return None
        for _ in range(20):
            at = rng.choice((20, 30, room, room - 10)) if corner else rng.randrange(20, room + 1, 5)
            span = at, at + wide
            if all(span[1] + 20 <= a or span[0] >= b + 20 for a, b in self.taken.get(wall, [])):
                self.taken.setdefault(wall, []).append(span)
                return at
        return None


def _outline(rng: random.Random, area: float) -> Room:
    """A rectangle, or one in four times an L, of that many m2."""
    ratio = rng.uniform(1.0, 1.55)
    ell = rng.random() < 0.25
    if not ell:
        wide = round((area * ratio) ** 0.5 * 10) * 10
        high = round(area / wide * 1e4 / 5) * 5
        if rng.random() < 0.5:
            wide, high = high, wide
        return Room([(0, high), (wide, high), (wide, 0), (0, 0)], {})
    wide = round((area / 0.83 * ratio) ** 0.5 * 10) * 10
    high = round(area / 0.83 / wide * 1e4 / 5) * 5
    x, y = round(wide * 0.6 / 5) * 5, round(high * 0.575 / 5) * 5
    return Room([(0, 0), (0, high), (x, high), (x, y), (wide, y), (wide, 0)], {})


def _doors(rng: random.Random, room: Room, kitchen: bool) -> list[str]:
    """The door people come in by, and perhaps another one; to the kitchen where somebody eats."""
    last = len(room.corners) - 1
    main = rng.choice((2, 3)) if last == 3 else last
    # In an L the bottom wall, and the short one at its end.
    other = (main + 2) % 4 if last == 3 else 1
    rows = [("door", main, 85, rng.choice(("in", "in", "in", "sliding")))]
    if kitchen or rng.random() < 0.3:
        rows.append(("kitchen door" if kitchen else "second door", other, 80, "out"))
    lines = []
    for name, wall, wide, opens in rows:
        at = room.put(rng, wall, wide, corner=True)
        if at is not None:
            hinge = "left" if at < room.length(wall) / 2 else "right"
            lines += ["[[door]]", f'name = "{name}"', f'wall = "{"ABCDEF"[wall]}"']
            lines += [f"from_left = {at}", f"width = {wide}", f'hinge = "{hinge}"']
            lines += [f'opens = "{opens}"'] + ["main = true"] * (name == "door") + [""]
    return lines


def _windows(rng: random.Random, room: Room, most: int) -> list[str]:
    """One or more windows, the first with a radiator under it."""
    walls = [0, 1] if len(room.corners) == 4 else [0, 4]
    lines: list[str] = []
    for number in range(1, rng.randint(1, most) + 1):
        wall = rng.choice(walls)
        wide = rng.choice((100, 120, 140, 160))
        at = room.put(rng, wall, wide)
        if at is None:
            continue
        sill = rng.choice((80, 85, 90, 95))
        lines += ["[[window]]", f'name = "window {number}"', f'wall = "{"ABCDEF"[wall]}"']
        lines += [f"from_left = {at}", f"width = {wide}", f"sill = {sill}", ""]
        if number == 1:
            lines += ["[[fixture]]", 'kind = "radiator"', f'wall = "{"ABCDEF"[wall]}"']
            lines += [f"from_left = {at + 10}", f"width = {wide - 20}", ""]
    return lines


def _sockets(rng: random.Random, room: Room, light: bool) -> list[str]:
    """Two to four sockets, and a light point in the middle of the outline's larger part."""
    lines: list[str] = []
    for number in range(1, rng.randint(2, 4) + 1):
        wall = rng.randrange(len(room.corners))
        at = room.put(rng, wall, 10)
        if at is not None:
            lines += ["[[fixture]]", 'kind = "socket"', f'name = "socket {number}"']
            lines += [f'wall = "{"ABCDEF"[wall]}"', f"from_left = {at}", ""]
    if light:
        xs, ys = zip(*room.corners, strict=True)
        x, y = max(xs) // 2, (max(ys) if len(xs) == 4 else room.corners[3][1]) // 2
        lines += ["[[fixture]]", 'kind = "light point"', f"at = [{x}, {y}]"]
        lines += ["width = 1", "depth = 0", ""]
    return lines


def _merged(items: Items) -> Items:
    """The same kind once, so that no two pieces have one name."""
    numbers: Counter[str] = Counter()
    widths: dict[str, int | None] = {}
    for item in items:
        numbers[item.kind] += item.count
        widths.setdefault(item.kind, item.width)
    return [Item(kind, number, widths[kind]) for kind, number in numbers.items()]


def furnished(seed: int) -> tuple[str, str, Items]:
    """The scenario file of a seed, the theme of the room, and what is in it."""
    rng = random.Random(seed)
    weights = [weight for weight, *_ in THEMES]
    ((_, theme, (least, most)),) = rng.choices(THEMES, weights)
    items = _merged(theme(rng))
    area = sum(item.floor for item in items) / rng.uniform(least, most)
    room = _outline(rng, area)
    title = theme.__name__.replace("_", " ")
    corners = ", ".join(f"[{x}, {y}]" for x, y in room.corners)
    lines = [f'title = "Furnished {seed}: {title}"', 'unit = "cm"', ""]
    lines += ["[room]", f"corners = [{corners}]", "ceiling = 255", ""]
    lines += _doors(rng, room, theme in KITCHEN or (theme is all_in_one and rng.random() < 0.5))
    lines += _windows(rng, room, 1 if theme is hall else 2 if area < 22 else 3)
    lines += _sockets(rng, room, rng.random() < (0.6 if theme is eating else 0.25))
    for item in items:
        lines += ["[[piece]]", f'kind = "{item.kind}"']
        lines += [f"count = {item.count}"] * (item.count > 1)
        lines += [f"width = {item.width}"] * (item.width is not None)
        lines += ["owned = true"] * (rng.random() < 0.5) + [""]
    if any(item.kind == "desk" for item in items) and rng.random() < 0.4:
        lines += ["[[wish]]", 'piece = "desk"', 'near = "window 1"', "within = 150", ""]
    return "\n".join(lines), title, items


# ---------------------------------------------------------------- the run


@dataclass(frozen=True)
class Searched:
    """What came of one room; ``faults`` are crashes, ``astray`` what a decorator never draws."""

    seed: int
    title: str
    pieces: int
    outcome: str
    first_seconds: float | None
    score: int | None
    astray: tuple[Fault, ...]
    faults: tuple[str, ...] = ()
    avoided: tuple[Avoided, ...] = ()


def search(
    seed: int, seconds: float, files: Sequence[Path] = (), *, again: bool = False
) -> Searched:
    """Search a room, or an example file by its number, and count in what would be written.

    Once more for each fault of the best plan if ``again``: for a plan without it.
    """
    from arrange.output.records import as_data  # noqa: PLC0415
    from arrange.scenario.read import read, read_text  # noqa: PLC0415
    from arrange.suggesting import suggest  # noqa: PLC0415

    scenario = read(files[seed]) if files else read_text(furnished(seed)[0], f"furnished {seed}")
    title, pieces = scenario.title, len(scenario.pieces)
    try:
        result = suggest(scenario, top=3, seconds=seconds)
        found = count(as_data(result))
        mine = [f for f in counted(found) if f.plan == 1] if again else []
        others = tuple(avoided(result, f, seconds) for f in mine)
    except Exception:
        last = traceback.format_exc().splitlines()[-1]
        return Searched(seed, title, pieces, "crash", None, None, (), (last,))
    astray = tuple(f for f in found if f.plan == 1 or f.number == 15)
    best = result.suggestions[0].verdict.score if result.suggestions else None
    return Searched(
        seed, title, pieces, result.outcome, result.first_seconds, best, astray, (), others
    )


def summary(rooms: Sequence[Searched]) -> list[str]:
    """Each room on a row, and the faults by number over those that have a plan."""
    lines = ["| room | pieces | outcome | first plan | score | faults | rank A |"]
    lines += ["|---|---|---|---|---|---|---|"]
    for room in rooms:
        first = "" if room.first_seconds is None else f"{room.first_seconds:.1f} s"
        score = "" if room.score is None else f"{room.score / 10:.1f}"
        mine = counted(room.astray)
        worst = sum(f.rank == "A" for f in mine)
        numbers = f"{len(mine)} | {worst}" if room.score is not None else " | "
        lines.append(
            f"| {room.title} | {room.pieces} | {room.outcome} | {first} | {score} | {numbers} |"
        )
    planned = [room for room in rooms if room.score is not None]
    firsts = [room.first_seconds for room in planned if room.first_seconds is not None]
    if firsts:
        scores = statistics.median([room.score for room in planned if room.score is not None])
        lines += ["", f"{len(planned)} of {len(rooms)} rooms with a plan; first plan after"]
        lines[-1] += f" {statistics.median(firsts):.1f} s, best score {scores / 10:.1f} (medians)"
    return [*lines, "", "Of the best plan of each:", "", *tally([r.astray for r in planned])]


def of_avoiding(rooms: Sequence[Searched]) -> list[str]:
    """How many of the faults could be avoided, and what became of each."""
    every = [one for room in rooms for one in room.avoided]
    planned = max(sum(room.score is not None for room in rooms), 1)
    ways = Counter(one.how for one in every)
    told = ", ".join(f"{ways[how]} {how}" for how in sorted(ways))
    lines = [f"A plan without the fault: {told or 'nothing to ask for'}."]
    lines += [f"{ways['found'] / planned:.2f} a room could be avoided."]
    each = [f"{room.title}: {one.line}" for room in rooms for one in room.avoided]
    return [*lines, "", *each]


@click.command()
@over_rooms(20, 1, 5.0)
@click.option("--scenarios", is_flag=True, help="The examples in scenarios/ instead.")
@click.option("--each", is_flag=True, help="Every fault on a line of its own, too.")
@click.option("--again", is_flag=True, help="Search for a plan without each fault, too.")
@click.option("--show", type=int, help="Print the file of this seed, and search nothing.")
def main(
    rooms: int,
    start: int,
    seconds: float,
    processes: int,
    *,
    write: bool,
    scenarios: bool,
    each: bool,
    again: bool,
    show: int | None,
) -> None:
    """Search furnished rooms and count what a decorator never draws."""
    if show is not None:
        click.echo(furnished(show)[0])
        sys.exit(0)
    files = tuple(FILES) if scenarios else ()
    seeds = range(len(files)) if files else range(start, min(start + rooms, ROOMS))
    what = "the examples" if files else f"seeds {seeds.start} to {seeds.stop - 1}"
    began = circumstances(f"{what}, {seconds:g} s each")
    found = answers(partial(search, seconds=seconds, files=files, again=again), seeds, processes)
    title = "A decorator's nevers in the examples" if files else "A decorator's nevers"
    lines = [began, "", *summary(found)]
    for room in found if each else ():
        lines += ["", f"{room.title}:", *told(room.astray)]
    if again:
        lines += ["", *of_avoiding(found)]
    conclude(title, lines, write=write, faulty=any(room.faults for room in found))


if __name__ == "__main__":
    main()
