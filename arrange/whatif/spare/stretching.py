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
from arrange.whatif.spare.chains import Chain
from arrange.whatif.spare.links import Web

Stretched = tuple[Scenario, Arrangement]


def stretched(web: Web, chain: Chain, name: str, by: int) -> list[Stretched]:
    """The scenario with piece ``name`` ``by`` mm larger along the chain, all in reach pushed aside.

    Pushed rather up the line, or rather down; and where a tied piece grows, its anchor stays or
    gives way. No more than the chain has to spare; the judge has the last word.
    """
    scene, axis = web.scene, chain.axis
    piece = scene.find(name).piece
    turned = scene.find(name).facing in ("left", "right")
    wide = (axis == 0) != turned
    size = Resize(name, width=piece.width + by) if wide else Resize(name, depth=piece.depth + by)
    after = changed(scene.scenario, [size])
    root = web.nodes[chain.node - 1]
    down = by if root.stays[axis] == "high" else 0
    shifts = [-down] if root.root.name == name else [-down, by - down]
    aside = chain.choice.moves(0 if axis else 1)[:1]
    found = []
    for along in chain.choice.moves(axis, chain.node, by):
        for other in aside:
            for shift in shifts:
                own = [m + shift * (i == chain.node) for i, m in enumerate(along)]
                moves = (other, own) if axis else (own, other)
                found.append((after, _pushed(web, after, moves)))
    return found


def _pushed(web: Web, after: Scenario, moves: tuple[list[int], list[int]]) -> Arrangement:
    """The arrangement with every node moved across and up the plan, tied pieces in their places."""
    places: dict[str, Placement] = {}
    for number, node in enumerate(web.nodes, start=1):
        across, up = moves[0][number], moves[1][number]
        here = node.root.placement
        if here.facing is not None:
            here = replace(here, x=here.x + across, y=here.y + up)
        places[node.root.name] = here
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
