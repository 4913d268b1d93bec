"""Reads where pieces stand today: ``stands_now`` and ``stays`` of a ``[[piece]]``. Lengths in mm.

People measure to the centimetre: what ends a little beyond a wall is pushed up to it, what
stands a little off its wall or beside its place at another piece is put exactly there.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from arrange.data.arrangement import Placement
from arrange.data.lengths import length
from arrange.data.piece import Piece
from arrange.data.room import FACING_VECTOR, FACINGS, Facing, Room, Wall
from arrange.geometry.across import across_corner, can_cross, corner_between
from arrange.geometry.shapes import Stood, against_wall, facing_of, footprint, frame, in_slot
from arrange.scenario.faults import shown
from arrange.scenario.pieces import Entry
from arrange.scenario.table import Table
from arrange.scenario.walls import Walls

OVER = 20  # mm beyond a wall's end that count as a slip of the tape
OFF_WALL = 30  # mm off the wall, a skirting board or a slip, that still count as at the wall
NEAR_PLACE = 100  # mm from a place beside its companion that count as that place
CORNER_EXAMPLE = '{ across_corner = ["A", "B"] }'
EXAMPLE = (
    'write { wall = "A", from_left = 40 } or { across = 120, up = 80, facing = "down" }, '
    "measured to its lower left corner on the plan"
)


def read_today(
    entries: Sequence[Entry], pieces: Sequence[Piece], walls: Walls | None, room: Room
) -> tuple[tuple[Placement, ...], tuple[Placement, ...]]:
    """Where pieces stand today, and which of these places they keep; faults are noted.

    ``pieces`` are those of the entries, tied. Both answers are in their order.
    """
    tied = {p.name: p for p in pieces}
    given: dict[str, tuple[Table, Placement]] = {}
    for entry in entries:
        for piece, table in zip(entry.pieces, _tables(entry), strict=False):
            placement = _placement(table, tied[piece.name], walls, room)
            table.finish()
            if placement is not None:
                given[piece.name] = table, placement
    today = _in_their_places(given, tied, room)
    staying = {p.name for e in entries if e.stays for p in e.pieces}
    held = [today[name] for name in tied if name in staying and name in today]
    for placement in held:
        _check_can_stay(given[placement.piece][0], placement, tied, today, room)
    return tuple(today[name] for name in tied if name in today), tuple(held)


def _tables(entry: Entry) -> list[Table]:
    """The places given for an entry's pieces, in their order."""
    table, count = entry.table, len(entry.pieces)
    value = table.raw("stands_now")
    if value is None:
        if entry.stays:
            wanted = f"stands_now says where it stays: {EXAMPLE}"
            table.fault("stays", "given without stands_now", wanted)
        return []
    rows = value if isinstance(value, list) else [value]
    if count > 1 and not isinstance(value, list):
        table.fault("stands_now", f"one place for {count} pieces", "a list of places in [ ]")
    elif len(rows) > count or not rows:
        given = f"{len(rows)} places for {count if count > 1 else 'one'} piece"
        table.fault("stands_now", f"{given}{'s' if count > 1 else ''}", "one for each piece")
    elif entry.stays and len(rows) < count:
        given = f"{len(rows)} of {count} places known"
        table.fault("stays", given, "each piece that stays needs its place")
    numbered = isinstance(value, list)
    places = [f"stands_now[{i}]" if numbered else "stands_now" for i in range(1, len(rows) + 1)]
    found = [table.table(row, table.at(at)) for row, at in zip(rows, places, strict=True)]
    return [t for t in found if t is not None]


def _placement(table: Table, piece: Piece, walls: Walls | None, room: Room) -> Placement | None:
    at_wall, on_plan = table.has("wall"), table.has("across") or table.has("up")
    along = table.needed_mm("from_left", 0) if at_wall else None
    ways = {"a wall": at_wall, "a place on the plan": on_plan}
    ways["a corner"] = table.has("across_corner")
    given = [what for what, so in ways.items() if so]
    if len(given) > 1:
        table.faults.add(
            table.where,
            f"{' and '.join(given)} given",
            "give only one of the two" if len(given) == 2 else "give only one of them",
        )
        return None
    if not given:
        table.faults.add(table.where, f"{shown(dict(table.data))} given", "say where", EXAMPLE)
        return None
    if at_wall:
        return None if walls is None else _at_wall(table, piece, walls, along)
    if on_plan:
        return _measured_on_plan(table, piece, room)
    return None if walls is None else _across(table, piece, room)


def _measured_on_plan(table: Table, piece: Piece, room: Room) -> Placement | None:
    across, up = table.needed_mm("across", 0), table.needed_mm("up", 0)
    if not table.has("facing"):
        words = "up, down, left or right on the plan: where its front looks"
        table.fault("facing", "not given", words)
        return None
    facing = table.choice("facing", FACINGS, "down")
    if across is None or up is None or not room.walls:
        return None
    return _on_plan(table, piece, room, (across, up), facing)


def _at_wall(table: Table, piece: Piece, walls: Walls, along: int | None) -> Placement | None:
    wall = walls.find(table.text("wall"))
    if along is None:
        if wall is None:
            walls.unknown(table, table.text("wall"))
        return None
    if wall is not None:
        over = along + piece.width - round(wall.length)
        along -= over if 0 < over <= min(OVER, along) else 0
    place = walls.place(table, along, piece.width)
    if place is None:
        return None
    index, offset = place
    if nothing_leans(piece, walls.walls[index]):
        given = f"wall {walls.walls[index].name} is slanted, and {piece.name} stands free"
        table.fault("wall", given, 'stands = "wall" has its back follow the slant')
        return None
    return against_wall(piece, walls.walls, index, offset)


def _across(table: Table, piece: Piece, room: Room) -> Placement | None:
    """Across the corner of the two walls that the table names, in either order."""
    value = table.raw("across_corner")
    names = [str(name).casefold() for name in value] if isinstance(value, list) else []
    wanted = f"the two walls of a corner: {CORNER_EXAMPLE}"
    if len(set(names)) != 2:
        table.fault("across_corner", f"{shown(value)} given", wanted)
        return None
    corner = corner_between(room, (names[0], names[-1]))
    if corner is None:
        table.fault("across_corner", f"{shown(value)} do not meet in a corner", wanted)
        return None
    return _at_corner(table, piece, room, corner)


def _at_corner(table: Table, piece: Piece, room: Room, corner: int) -> Placement | None:
    key = "across_corner"
    if room.across(corner) is None:
        given = "that corner is not square, or stands out into the room"
        table.fault(key, given, "two straight walls that meet at a right angle")
    elif not can_cross(room, piece, corner):
        far = length(math.ceil(math.sqrt(0.5) * piece.width), table.unit)
        table.fault(key, f"one of these walls is shorter than {far}", f"{piece.name} needs as much")
    elif piece.anchor is None and not piece.crosses:
        hint = 'stands = "across" keeps it across a corner'
        given = f"{piece.name} is not said to stand across a corner"
        table.fault(key, given, "add across_corner = true to the piece", hint)
    else:
        return across_corner(piece, corner)
    return None


def nothing_leans(piece: Piece, wall: Wall) -> bool:
    """Whether the wall is slanted and the piece has neither a back nor another to follow it."""
    return wall.facing is None and not piece.backs and piece.anchor is None


def _on_plan(
    table: Table, piece: Piece, room: Room, corner: tuple[int, int], facing: Facing
) -> Placement | None:
    lying = facing in ("up", "down")
    size = (piece.width, piece.depth) if lying else (piece.depth, piece.width)
    low_x, low_y, high_x, high_y = room.bounds
    placed = []
    for key, at, long, low, high in (
        ("across", corner[0], size[0], low_x, high_x),
        ("up", corner[1], size[1], low_y, high_y),
    ):
        start, over = low + at, low + at + long - high
        if over > OVER:
            ends, there = length(at + long, table.unit), length(high - low, table.unit)
            table.fault(key, f"{piece.name} ends at {ends}", f"the room ends at {there}")
            return None
        placed.append(max(low, start - max(0, over)))
    placement = Placement(piece.name, facing, placed[0], placed[1])
    return at_its_wall(placement, piece, room) if piece.anchor is None else placement


def at_its_wall(placement: Placement, piece: Piece, room: Room) -> Placement:
    """A wall piece given by its place on the plan, on the wall close behind its back."""
    if not piece.backs or placement.facing is None:
        return placement
    back = frame(piece, placement, room)
    dx, dy = FACING_VECTOR[placement.facing]
    for index, wall in enumerate(room.walls):
        if wall.facing != placement.facing:
            continue
        off, along = wall.off(*back.origin), wall.coordinate(*back.origin)
        within = along >= -OVER and along + piece.width <= wall.length + OVER
        if abs(off) <= OFF_WALL and within:
            x, y = placement.x - round(off) * dx, placement.y - round(off) * dy
            return replace(placement, x=x, y=y, wall=index)
    return placement


def _in_their_places(
    given: dict[str, tuple[Table, Placement]], pieces: dict[str, Piece], room: Room
) -> dict[str, Placement]:
    """Tied pieces in the nearest place beside their companion, where that stands today."""
    today: dict[str, Placement] = {}
    taken: set[tuple[str, str, int]] = set()

    def settle(name: str) -> None:
        piece, (table, placement) = pieces[name], given[name]
        if piece.anchor is None or piece.anchor not in given:
            today[name] = placement
            return
        if piece.anchor not in today:
            settle(piece.anchor)
        host = pieces[piece.anchor]
        free = [i for i in range(len(piece.slots)) if (host.name, piece.model, i) not in taken]
        turned = table.has("facing")
        found = snapped(
            (piece, placement), (host, today[host.name]), room, free, NEAR_PLACE, turned=turned
        )
        today[name] = placement if found is None else found[1]
        if found is not None:
            taken.add((host.name, piece.model, found[0]))

    for name in given:
        if name not in today:
            settle(name)
    return today


def _check_can_stay(
    table: Table,
    placement: Placement,
    pieces: dict[str, Piece],
    today: dict[str, Placement],
    room: Room,
) -> None:
    """What stays must stand as its kind can; else no arrangement could ever hold it."""
    piece = pieces[placement.piece]
    if piece.anchor is None:
        if piece.stands == "across" and placement.corner is None:
            wanted = f"it needs one to stay there: stands_now = {CORNER_EXAMPLE}"
            table.faults.add(table.where, f"{piece.name} is not across a corner there", wanted)
        elif piece.needs_wall and placement.wall is None and placement.corner is None:
            hint = 'stands = "free" lets it stand away from walls'
            given = f"{piece.name} has no wall at its back there"
            table.faults.add(table.where, given, "it needs one to stay there", hint)
        return
    if piece.anchor not in today:
        return
    host = pieces[piece.anchor]
    every = list(range(len(piece.slots)))
    if snapped((piece, placement), (host, today[host.name]), room, every, 0, turned=True) is None:
        given = f"{piece.name} is not in any of its places beside {host.name} there"
        near = f"within {length(NEAR_PLACE, table.unit)} of one it can stay"
        table.faults.add(table.where, given, near, "free = true unties it")


def snapped(
    one: Stood, host: Stood, room: Room, slots: Sequence[int], near: int, *, turned: bool
) -> tuple[int, Placement] | None:
    """The nearest of these slots and the place there; None if none is within ``near`` mm.

    With ``turned`` only slots in which the piece faces as it was said count. How
    near: the farthest that any corner of its footprint has to move.
    """
    piece, placement = one
    body = footprint(piece, placement, room)
    best: tuple[float, int, Placement] | None = None
    for index in slots:
        there = in_slot(piece, host, piece.slots[index], room)
        if turned and facing_of(there, room) != facing_of(placement, room):
            continue
        far = float(body.hausdorff_distance(footprint(piece, there, room)))
        if far < near + 0.5 and (best is None or far < best[0]):
            best = far, index, there
    return None if best is None else best[1:]
