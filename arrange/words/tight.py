"""Where a plan is tighter than usual: which free floor, by how much, at which piece.

Between what a piece cannot be used without and what published guidance asks there is room
to live, which a plan may use and then says so. Measured as the judge measures; lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from shapely.geometry import LineString

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import is_nought, listed, measured, the
from arrange.data.piece import ONE_SIDE, Clearance, Side
from arrange.data.result import FINEST
from arrange.data.scenario import Scenario, Unit
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import has_front
from arrange.geometry.walking import Floor, Goal, Walk, empty_floor, goals, walk_of
from arrange.rules.comfortable_clearance import importance
from arrange.rules.walkway import USUAL
from arrange.words.reasons import wrapped

TITLE = "Tighter than usual"
FACED = ("on the left of", "on the right of")
SHOWN = 3  # lines; the rest is counted
STEP = 10  # mm in which a way is measured


@dataclass(frozen=True, slots=True)
class Tight:
    """Floor that is narrower than usual by a centimetre or more.

    ``clearance`` names that of ``piece`` and ``where`` tells its side; both are empty for a
    way, and ``piece`` may then be a door or a window. ``free`` and ``usual`` are mm.
    """

    piece: str
    clearance: str
    where: str
    free: int
    usual: int


@lru_cache(maxsize=64)
def tighter_than_usual(scenario: Scenario, arrangement: Arrangement) -> tuple[Tight, ...]:
    """All such floor: of what is used most first, what lacks the largest share first.

    What lacks even the least is not among it: that is a must, and said as one.
    """
    scene = Scene(scenario, arrangement)
    return (*_clearances(scene), *_ways(scene))


def _clearances(scene: Scene) -> list[Tight]:
    found = [
        (importance(placed.piece), tight)
        for placed in scene.placed
        for tight in _seen(placed, _one_a_side(_of_piece(scene, placed)))
    ]
    found.sort(key=lambda pair: (-pair[0], pair[1].free / pair[1].usual))
    return [tight for _, tight in found]


def _of_piece(scene: Scene, placed: Placed) -> Iterator[Tight]:
    for clearance in placed.piece.clearances:
        if clearance.usual <= clearance.least:
            continue
        free, side = scene.best_side(placed, clearance)
        if clearance.least <= free <= clearance.usual - FINEST:
            where = _where(scene, placed, side)
            yield Tight(placed.name, clearance.name, where, free, clearance.usual)


def _one_a_side(found: Iterable[Tight]) -> list[Tight]:
    """Of two that ask for the same floor, the one that asks for more."""
    most: dict[str, Tight] = {}
    for tight in found:
        if tight.where not in most or tight.usual > most[tight.where].usual:
            most[tight.where] = tight
    return list(most.values())


def _seen(placed: Placed, found: Iterable[Tight]) -> Iterator[Tight]:
    """What stands free and has no front has no sides to tell apart: the plan shows which one."""
    sided = placed.placement.wall is not None or has_front(placed.piece)
    for one in found:
        yield one if sided else replace(one, where=ONE_SIDE)


def _where(scene: Scene, placed: Placed, side: Side) -> str:
    """The side as a person standing in the room says it.

    A bed's left and right are told by a window or door across from one of them alone.
    """
    if side in ("front", "back"):
        return "in front of" if side == "front" else "behind"
    other: Side = "right" if side == "left" else "left"
    here, there = (_across(scene, placed, s) for s in (side, other))
    for what in ("window", "door"):
        if what in here and what not in there:
            return f"at the {what} side of"
    return f"on the {side} of"


def _across(scene: Scene, placed: Placed, side: Side) -> set[str]:
    """What is in the wall that a side looks at: a window, a door."""
    room = scene.scenario.room
    probe = Clearance("", (side,), 1, 1, "")
    start = placed.body.centroid
    end = scene.zone(placed, probe, side, 1).centroid
    far = max(room.bounds[2] - room.bounds[0], room.bounds[3] - room.bounds[1])
    reach = 2 * far / max(1.0, start.distance(end))
    aim = start.x + (end.x - start.x) * reach, start.y + (end.y - start.y) * reach
    ray = LineString([start, aim])
    met = [
        (start.distance(ray.intersection(LineString([wall.start, wall.end]))), i)
        for i, wall in enumerate(room.walls)
        if ray.intersects(LineString([wall.start, wall.end]))
    ]
    if not met:
        return set()
    wall = min(met)[1]
    windows = any(window.wall == wall for window in room.windows)
    doors = any(door.wall == wall for door in room.doors)
    return {what for what, there in (("window", windows), ("door", doors)) if there}


def _ways(scene: Scene) -> list[Tight]:
    """The ways that a usual path does not pass, each as wide as it is at its narrowest.

    Nothing is measured where the walkway asked for is the usual one or wider.
    """
    scenario = scene.scenario
    if scenario.walkway > USUAL - FINEST:
        return []
    every = goals(scene)
    walks = _Walks(scene)
    here = [goal for goal in every if walks.reaches(goal, scenario.walkway)]
    widths = {goal.name: USUAL for goal in here}
    for goal in here:
        widths[goal.name] = min(widths[goal.name], walks.widest(goal))
    narrow = [(wide, name) for name, wide in widths.items() if wide <= USUAL - FINEST]
    return [Tight(name, "", "", wide, USUAL) for wide, name in sorted(narrow, key=lambda n: n[0])]


class _Walks:
    """Walks of one arrangement at several widths, each worked out once."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self._known: dict[int, Walk] = {}

    def reaches(self, goal: Goal, width: int) -> bool:
        if width not in self._known:
            floor: Floor = empty_floor(self.scene.scenario, width)
            self._known[width] = walk_of(self.scene, floor)
        return self._known[width].reaches(goal)

    def widest(self, goal: Goal) -> int:
        """The widest path in steps of a centimetre that reaches a goal, at most the usual."""
        low, high = 0, (USUAL - self.scene.scenario.walkway) // STEP
        while low < high:
            middle = (low + high + 1) // 2
            if self.reaches(goal, self.scene.scenario.walkway + middle * STEP):
                low = middle
            else:
                high = middle - 1
        return self.scene.scenario.walkway + low * STEP


def tight_words(one: Tight, unit: Unit, others: Sequence[str] = ()) -> str:
    """One of them in a sentence without its end; ``others`` are pieces as tight as it.

    >>> tight_words(Tight("bed", "left side", "at the window side of", 389, 559), "cm")
    '38 cm free at the window side of the bed; 56 cm is usual'
    >>> tight_words(Tight("desk", "", "", 520, 600), "cm", ["bed"])
    'The way to the desk and the bed is 52 cm at its narrowest; 60 cm is usual'
    """
    names = [the(name) for name in (one.piece, *others)]
    if len(names) > SHOWN:
        names[SHOWN - 1 :] = [f"{len(names) - SHOWN + 1} more"]
    whose = listed(names)
    free, usual = measured(one.free, unit, "down"), f"{measured(one.usual, unit)} is usual"
    if not one.clearance:
        return f"The way to {whose} is {free} at its narrowest; {usual}"
    seen = " (as you face it)" if one.where in FACED else ""
    return f"{'Nothing' if is_nought(free) else free} free {one.where} {whose}{seen}; {usual}"


def tight_lines(found: Sequence[Tight], unit: Unit) -> list[str]:
    """At most three of them, and how many more there are; what is as tight on one line."""
    alike: dict[tuple[object, ...], list[Tight]] = {}
    for one in found:
        alike.setdefault((not one.clearance, one.where, one.free, one.usual), []).append(one)
    lines = [
        tight_words(first, unit, list(dict.fromkeys(o.piece for o in others)))
        for first, *others in list(alike.values())[:SHOWN]
    ]
    more = len(alike) - SHOWN
    return [*lines, f"and {more} more"] if more > 0 else lines


def tight_rows(found: Sequence[Tight], unit: Unit) -> list[str]:
    """The same for a terminal, under a heading; nothing where nothing is tight."""
    lines = tight_lines(found, unit)
    rows = [wrapped(one, "   . ", "     ") for one in lines]
    return [f"   {TITLE}:", *rows] if lines else []
