"""How far a piece can grow in an arrangement that is already there. Lengths in mm.

Asks the judge, not the solver: whatever passes here is an arrangement that works.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Slot
from arrange.data.scenario import Scenario
from arrange.geometry import extent, frame, slot_place, turn_facing
from arrange.rules import active_rules
from arrange.scene import Scene
from arrange.whatif.sizes.shrinking import dependants


def grown(
    at: Callable[[int], Scenario], name: str, size: int, most: int, arrangement: Arrangement
) -> tuple[int, Arrangement]:
    """The greatest size found, from ``size`` up to ``most``, that the piece can take in its place.

    ``at`` gives the scenario of each size; sizes are counted in steps. All else stays,
    but for pieces tied to this one, which go along. One or the other side stays, or
    the middle. Not every size is tried, so the answer is a size that works, not the
    greatest there is.
    """
    best = (size, arrangement)
    for way in range(3):
        low, high = best[0], most
        while low < high:
            middle = (low + high + 1) // 2
            found = _moved(at(size), at(middle), name, arrangement, way)
            if found is not None and _passes(at(middle), found):
                low, best = middle, (middle, found)
            else:
                high = middle - 1
    return best


def _passes(scenario: Scenario, arrangement: Arrangement) -> bool:
    """Whether the judge finds no breach; the walkway, which takes longest, comes last."""
    scene = Scene(scenario, arrangement)
    rules = sorted(active_rules(scenario), key=lambda rule: rule.id == "walkway")
    return not any(True for rule in rules for _ in rule.breaches(scene))


def _moved(
    before: Scenario, after: Scenario, name: str, arrangement: Arrangement, way: int
) -> Arrangement | None:
    """The arrangement with the piece in its new size; ``way`` says which side stays."""
    old = arrangement.of(name)
    if old.facing is None:
        return None
    was, now = (extent(s.piece(name), old.facing) for s in (before, after))
    dx, dy = (a - b for a, b in zip(now, was, strict=True))
    # 0: the lower end stays; 1: half of it on either side; 2: the upper end stays.
    new = Placement(name, old.facing, old.x - dx * way // 2, old.y - dy * way // 2, old.wall)
    placed = {p.piece: p for p in arrangement.placements} | {name: new}
    for other in _in_order(before, name):
        found = _again(before, after, other, arrangement, placed)
        if found is None:
            return None
        placed[other] = found
    return Arrangement(tuple(placed[p.piece] for p in arrangement.placements))


def _in_order(scenario: Scenario, name: str) -> Iterator[str]:
    """What is tied to the piece, each after what it is tied to."""
    waiting, done = dependants(scenario, name), {name}
    while waiting:
        ready = {n for n in waiting if scenario.piece(n).anchor in done}
        yield from sorted(ready)
        waiting, done = waiting - ready, done | ready


def _again(
    before: Scenario,
    after: Scenario,
    name: str,
    arrangement: Arrangement,
    placed: dict[str, Placement],
) -> Placement | None:
    """A tied piece in the same one of its places beside its anchor in the new size."""
    here = arrangement.of(name)
    hosts = before.piece(name).anchor or ""
    slots = zip(before.piece(name).slots, after.piece(name).slots, strict=True)
    for old, new in slots:
        if _in_slot(before, name, hosts, arrangement.of(hosts), old) == here:
            return _in_slot(after, name, hosts, placed[hosts], new)
    return None


def _in_slot(
    scenario: Scenario, name: str, host: str, there: Placement, slot: Slot
) -> Placement | None:
    """Where a slot beside a host puts a piece; None beside a host aslant."""
    if there.facing is None:
        return None
    anchor, piece = scenario.piece(host), scenario.piece(name)
    a0, b0, a1, b1, quarter = slot_place(anchor, piece, slot)
    body = frame(anchor, there, scenario.room).rectangle(a0, b0, a1, b1)
    x0, y0 = (round(mm) for mm in body.bounds[:2])
    return Placement(name, turn_facing(there.facing, quarter), x0, y0)
