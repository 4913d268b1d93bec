"""Many walkable arrangements of one scenario, and what a cut says of each of them.

The arrangements come from a random walk: one piece is moved, far or by a little,
and the move is kept if the judge passes it. The walk stays near what is tight,
since cuts are wrong, if at all, by a few mm at the edge of what can be walked.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace

from planted import somewhere

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Piece
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import RuleSetting, Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import extent, turn_facing
from arrange.judge import breaches
from arrange.solver.cuts import Cut, Hold
from arrange.solver.search import Search

NUDGE = 60  # mm


class Recording(Search):
    """A search that remembers every cut it makes, kept or not."""

    made: list[Cut]

    def cuts_for(self, scene, missed):
        """As the search does, and remembered."""
        cuts = super().cuts_for(scene, missed)
        self.made = [*getattr(self, "made", []), *cuts]
        return cuts


def searched(scenario: Scenario, seconds: float) -> Recording:
    """A search that has looked for the best; its ``made`` are all its cuts."""
    search = Recording(scenario, Budget(seconds))
    search.made = []
    search.best()
    return search


def cuts_on_the_way(scenario: Scenario, start: Arrangement, steps: int, seed: int) -> list[Cut]:
    """The cuts for what cannot be walked, among arrangements that are fine otherwise."""
    without = (*scenario.settings, RuleSetting("walkway", off=True))
    anywhere = replace(scenario, settings=without)
    search = Search(scenario, Budget(60))
    cuts: dict[Cut, None] = {}
    for arrangement in walked(anywhere, start, steps, seed):
        scene = Scene(scenario, arrangement)
        cuts |= dict.fromkeys(search.cuts_for(scene, search.unreached(scene)))
    return list(cuts)


def walked(scenario: Scenario, start: Arrangement, steps: int, seed: int) -> Iterator[Arrangement]:
    """Arrangements that the judge passes, from ``start`` on; each differs from the last."""
    rng = random.Random(seed)  # noqa: S311
    now = start
    for _ in range(steps):
        tried = _moved(rng, scenario, now)
        if tried is not None and tried != now and not breaches(scenario, tried):
            now = tried
            yield now


def _moved(rng: random.Random, scenario: Scenario, now: Arrangement) -> Arrangement | None:
    piece = rng.choice(scenario.pieces)
    old = now.of(piece.name)
    far = rng.random() < 0.3
    new = _elsewhere(rng, scenario, piece) if far else _nudged(rng, scenario, old)
    if new is None:
        return None
    return Arrangement(tuple(new if p.piece == piece.name else p for p in now.placements))


def _elsewhere(rng: random.Random, scenario: Scenario, piece: Piece) -> Placement | None:
    """Anywhere, often on a slanted wall if there are any."""
    walls = scenario.room.walls
    slanted = [i for i, w in enumerate(walls) if w.facing is None and w.length >= piece.width]
    if slanted and piece.stands == "wall" and rng.random() < 0.6:
        index = rng.choice(slanted)
        offset = rng.randint(0, int(walls[index].length) - piece.width)
        return Placement(piece.name, None, wall=index, offset=offset)
    return somewhere(rng, scenario.room, piece)


def _nudged(rng: random.Random, scenario: Scenario, old: Placement) -> Placement:
    """A little along its wall; any way if it stands free."""
    along, up = rng.randint(-NUDGE, NUDGE), rng.randint(-NUDGE, NUDGE)
    if old.facing is None:
        return replace(old, offset=old.offset + along)
    if old.wall is None:
        return replace(old, x=old.x + along, y=old.y + up)
    upright = scenario.room.walls[old.wall].facing in ("left", "right")
    return replace(old, y=old.y + along) if upright else replace(old, x=old.x + along)


def ruled_out(cut: Cut, scenario: Scenario, arrangement: Arrangement) -> bool:
    """Whether every piece of a cut stands within its hold. Said here in plain numbers."""
    return rules_out(cut, Scene(scenario, arrangement))


def rules_out(cut: Cut, scene: Scene) -> bool:
    """``ruled_out`` of a scene that is there already."""
    return all(_keeps(hold, scene) for hold in cut.holds)


def _keeps(hold: Hold, scene: Scene) -> bool:
    placed, old = scene.find(hold.placement.piece), hold.placement
    new = placed.placement
    if old.facing is None:
        turned = new.facing is None and (new.wall, new.quarter) == (old.wall, old.quarter)
    else:
        turned = new.facing in alike(hold, scene)
    here = (placed.x0, placed.y0)
    lows = all(low is None or low <= v for low, v in zip(hold.low, here, strict=True))
    highs = all(high is None or v <= high for high, v in zip(hold.high, here, strict=True))
    return turned and lows and highs


def alike(hold: Hold, scene: Scene) -> set[Facing]:
    """The ways a piece may face and still be held."""
    facing = hold.placement.facing
    if facing is None:
        raise ValueError("a piece aslant keeps its wall")
    if not hold.any_way_round:
        return {facing}
    piece = scene.find(hold.placement.piece).piece
    return set(FACINGS) if piece.width == piece.depth else {facing, turn_facing(facing, 2)}


def inside(rng: random.Random, cut: Cut, scenario: Scenario, base: Arrangement) -> Arrangement:
    """``base`` with the pieces of a cut put within their holds, often at their ends."""
    scene = Scene(scenario, base)
    new = {hold.placement.piece: _within(rng, hold, scene) for hold in cut.holds}
    return Arrangement(tuple(new.get(p.piece, p) for p in base.placements))


def _within(rng: random.Random, hold: Hold, scene: Scene) -> Placement:
    old = hold.placement
    if old.facing is None:
        return old
    piece = scene.find(old.piece).piece
    x0, y0, x1, y1 = scene.scenario.room.bounds
    size = extent(piece, old.facing)
    ends = []
    for axis, (first, last) in enumerate(((x0, x1), (y0, y1))):
        low, high = hold.low[axis], hold.high[axis]
        low = first if low is None else low
        high = last - size[axis] if high is None else high
        ends.append(rng.choice([low, high, rng.randint(low, max(low, high))]))
    return replace(old, x=ends[0], y=ends[1])
