"""An arrangement with one piece larger and the others pushed aside. Lengths in mm; no solver."""

from __future__ import annotations

from dataclasses import replace

from arrange.changing import changed
from arrange.data.arrangement import Arrangement, Placement
from arrange.data.change import Resize
from arrange.data.piece import Piece, Slot
from arrange.data.room import Facing, Room
from arrange.data.scenario import Scenario
from arrange.geometry import frame, slot_place, turn_facing
from arrange.scene import Scene
from arrange.whatif.chains import Chain
from arrange.whatif.links import Web

Stretched = tuple[Scenario, Arrangement]


def stretched(web: Web, chain: Chain, name: str, by: int) -> list[Stretched]:
    """The scenario with piece ``name`` ``by`` mm larger along the chain, all in reach pushed aside.

    Pushed one way first, or the other; and where a tied piece grows, its anchor gives way
    to one side or the other. No more than the chain has to spare; the judge has the last word.
    """
    scene, axis = web.scene, chain.axis
    piece = scene.find(name).piece
    turned = scene.find(name).facing in ("left", "right")
    wide = (axis == 0) != turned
    size = Resize(name, width=piece.width + by) if wide else Resize(name, depth=piece.depth + by)
    after = changed(scene.scenario, [size])
    room_ahead, room_behind = chain.up.get(0, 0), chain.down.get(0, 0)
    tied = web.nodes[chain.node - 1].root.name != name
    pushes: dict[tuple[int, int, int], None] = {}
    for ahead in (min(by, room_ahead), by - min(by, room_behind)):
        pushes[ahead, by - ahead, ahead - by] = None
        if tied:
            pushes[ahead, by - ahead, ahead] = None
    return [(after, _pushed(web, chain, after, push)) for push in pushes]


def _pushed(web: Web, chain: Chain, after: Scenario, push: tuple[int, int, int]) -> Arrangement:
    ahead, behind, shift = push
    places: dict[str, Placement] = {}
    for number, node in enumerate(web.nodes, start=1):
        if number == chain.node:
            move = shift
        else:
            move = max(0, ahead - chain.up.get(number, ahead))
            move -= max(0, behind - chain.down.get(number, behind))
        places[node.root.name] = _slid(node.root.placement, chain.axis, move)
    waiting = [p.piece for p in web.scene.placed if p.name not in places]
    while waiting:
        piece = waiting.pop(0)
        if piece.anchor not in places:
            waiting.append(piece)
            continue
        slot = slot_of(web.scene, piece)
        new, host = after.piece(piece.name), after.piece(piece.anchor)
        follows = new.slots[piece.slots.index(slot)] if slot in piece.slots else None
        old = web.scene.arrangement.of(piece.name)
        if follows is None:
            places[piece.name] = old
        else:
            at = tied_placement(host, places[host.name], new, follows, after.room)
            places[piece.name] = replace(at, wall=old.wall)
    return Arrangement(tuple(places[p.name] for p in after.pieces))


def _slid(placement: Placement, axis: int, by: int) -> Placement:
    if placement.facing is None or not by:
        return placement
    if axis == 0:
        return replace(placement, x=placement.x + by)
    return replace(placement, y=placement.y + by)


def slot_of(scene: Scene, piece: Piece) -> Slot | None:
    """The place at its anchor in which a tied piece stands; None at a slanted wall."""
    here = scene.arrangement.of(piece.name)
    if piece.anchor is None:
        return None
    host = scene.find(piece.anchor)
    for slot in piece.slots:
        there = tied_placement(host.piece, host.placement, piece, slot, scene.scenario.room)
        if (there.facing, there.x, there.y) == (here.facing, here.x, here.y):
            return slot
    return None


def tied_placement(
    host: Piece, placement: Placement, piece: Piece, slot: Slot, room: Room
) -> Placement:
    """Where a slot of an anchor in a quarter turn puts a piece."""
    if placement.facing is None:
        return Placement(piece.name, None, wall=placement.wall)
    a0, b0, a1, b1, quarter = slot_place(host, piece, slot)
    own = frame(host, placement, room)
    ends = [own.at(a0, b0), own.at(a1, b1)]
    facing: Facing = turn_facing(placement.facing, quarter)
    x, y = (round(min(e[i] for e in ends)) for i in (0, 1))
    return Placement(piece.name, facing, x, y)
