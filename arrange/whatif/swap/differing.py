"""What differs between two arrangements: reasons one by one, and what moved. Lengths in mm."""

from __future__ import annotations

import math

from arrange.data.result import Verdict, keyed
from arrange.data.swap import Compared, Move, Moved, Plan
from arrange.geometry import facing_of, footprint
from arrange.words import measured

STILL = 30  # mm; less is tidying, not moving


def compared(before: Verdict, after: Verdict) -> tuple[Compared, ...]:
    """Every reason of both, side by side, in the order of the rules; new ones last."""
    old, new = keyed(before.reasons), keyed(after.reasons)
    keys = [*old, *(key for key in new if key not in old)]
    return tuple(Compared(key[0], key[1], old.get(key), new.get(key)) for key in keys)


def same_scale(before: Verdict, after: Verdict) -> bool:
    """Whether the same things can earn the same points in both."""
    old = {key: r.possible for key, r in keyed(before.reasons).items()}
    return old == {key: r.possible for key, r in keyed(after.reasons).items()}


def moved(before: Plan, after: Plan) -> tuple[Moved, ...]:
    """Every piece that is new, gone, changed, or stands elsewhere than before.

    Alike pieces that changed places did not move. Less than 3 cm does not count
    unless the piece itself changed.
    """
    old = {p.name: p for p in before.scenario.pieces}
    new = {p.name: p for p in after.scenario.pieces}
    paired = _pairs(before, after)
    found = []
    for name, piece in new.items():
        was = paired.get(name)
        if was is None:
            found.append(Moved(name, "new", "", words=_place(after, name)))
            continue
        body = (old[was].kind, old[was].width, old[was].depth, old[was].height)
        other = body != (piece.kind, piece.width, piece.depth, piece.height)
        one = _moved(before, after, was, name, other=other)
        found += [one] if one is not None else []
    gone = [name for name in old if name not in set(paired.values())]
    return (*found, *(Moved(name, "gone", name, words=_place(before, name)) for name in gone))


def _moved(before: Plan, after: Plan, was: str, name: str, *, other: bool) -> Moved | None:
    start, end = before.arrangement.of(was), after.arrangement.of(name)
    far = round(math.dist(_middle(before, was), _middle(after, name)))
    room = before.scenario.room
    turned = facing_of(start, room) != facing_of(end, room)
    if not (other or turned or far >= STILL):
        return None
    move: Move = "changed" if other else "turned" if turned else "moved"
    here, there = _place(before, was), _place(after, name)
    by = measured(round(far / 10) * 10, before.scenario.unit)
    if other:
        words = f"still {there}" if here == there else f"now {there}, before {here}"
    elif far < STILL:
        words = there if not turned else f"turned on the spot, {there}"
    elif here == there:
        words = f"{there}, {by} further" if start.wall is not None else f"{there}, {by} aside"
    else:
        words = f"now {there}, before {here}"
    return Moved(name, move, was, far, words)


def _pairs(before: Plan, after: Plan) -> dict[str, str]:
    """For each piece after, the one before that it is: the nearest of those alike."""
    old = {p.name: p for p in before.scenario.pieces}
    new = {p.name: p for p in after.scenario.pieces}
    pairs: dict[str, str] = {}
    for model in dict.fromkeys(p.model for p in after.scenario.pieces):
        names = [n for n, p in new.items() if p.model == model and n in old]
        alike = len({old[n].model for n in names}) == 1
        if not alike:
            pairs |= {n: n for n in names}
            continue
        spots = {n: (_middle(before, n), _middle(after, n)) for n in names}
        near = sorted(
            (round(math.dist(spots[a][0], spots[b][1])), a != b, i, a, b)
            for i, a in enumerate(names)
            for b in names
        )
        for _, _, _, was, now in near:
            if now not in pairs and was not in pairs.values():
                pairs[now] = was
    return pairs


def _middle(plan: Plan, name: str) -> tuple[float, float]:
    piece = plan.scenario.piece(name)
    middle = footprint(piece, plan.arrangement.of(name), plan.scenario.room).centroid
    return float(middle.x), float(middle.y)


def _place(plan: Plan, name: str) -> str:
    """Where a piece stands, in words: its wall, beside what, or how it faces."""
    placement, piece = plan.arrangement.of(name), plan.scenario.piece(name)
    room = plan.scenario.room
    if piece.anchor is not None:
        return f"at {piece.anchor}"
    if placement.wall is not None:
        wall = room.walls[placement.wall].name
        return f"on wall {wall}" if len(wall) <= 2 else f"on {wall}"
    toward = {"up": "up the plan", "down": "down the plan"}
    facing = facing_of(placement, room)
    return f"free, facing {toward.get(facing, facing)}"
