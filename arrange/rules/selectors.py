"""Which pieces and openings a wish speaks of. Depends on the scenario alone."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.piece import Clearance, Piece, canonical
from arrange.data.room import Door, Facing, Fixture, Room, Window
from arrange.data.scenario import Scenario, Use
from arrange.geometry.shapes import nearest_facing

OPPOSITE: dict[Facing, Facing] = {"up": "down", "down": "up", "left": "right", "right": "left"}
TALL = (1100, 600)  # mm high and wide; common practice, no source
HEARTHS = ("fireplace", "stove")
SQUARE = 0.2  # of the sine by which a corner may be off square and still be one to stand in
NOT_FOR_TALK = {"work seat", "dining seat", "bench", "entrance"}


def has_head(piece: Piece) -> bool:
    """Whether it is a bed with a head: not a daybed, whose back is a long side."""
    return piece.is_a("bed") and not piece.is_a("seat")


def beds(scenario: Scenario) -> Sequence[Piece]:
    """Beds with a head."""
    return list(filter(has_head, scenario.pieces))


def main_seat(scenario: Scenario) -> Piece | None:
    """The largest sofa; without one the largest easy chair; None if there is neither."""
    return largest_of(scenario, "sofa") or largest_of(scenario, "lounge")


def largest(pieces: Sequence[Piece]) -> Piece | None:
    """The first in canonical order, so that the order of the file decides nothing."""
    return min(pieces, key=canonical, default=None)


def largest_of(scenario: Scenario, role: str) -> Piece | None:
    """The largest piece of a role; None if there is none."""
    return largest([piece for piece in scenario.pieces if piece.is_a(role)])


def main_seats(scenario: Scenario) -> Sequence[Piece]:
    """The main seat and those alike: of two sofas in a pair either will do."""
    main = main_seat(scenario)
    pieces = sorted(scenario.pieces, key=canonical)
    return [p for p in pieces if main is not None and p.alike == main.alike]


def other_seats(scenario: Scenario) -> Sequence[Piece]:
    """Seats to talk from besides the main one: none at a desk or a table, no benches."""
    main = main_seat(scenario)
    if main is None:
        return []
    return [
        p
        for p in scenario.pieces
        if p.is_a("seat")
        and not p.roles & NOT_FOR_TALK
        and p.name != main.name
        and (p.anchor is None or scenario.piece(p.anchor).is_a("seat"))
    ]


def sits_together(scenario: Scenario) -> bool:
    """Whether people gather here: on a sofa, or on two or more easy seats."""
    main = main_seat(scenario)
    return main is not None and (main.is_a("sofa") or bool(other_seats(scenario)))


# What a room is for, the plainest purpose first.
PURPOSES = ("bed", "sleep", "sofa", "dine", "desk")


def purpose(scenario: Scenario) -> Piece | None:
    """The piece the room is for: the largest bed, else sofa, dining table or desk."""
    found = (largest_of(scenario, role) for role in PURPOSES)
    return next((piece for piece in found if piece is not None), None)


# The roles that pieces of a room have among them, the plainest sign first; common practice.
_SIGNS: tuple[tuple[Use, frozenset[str]], ...] = (
    ("nursery", frozenset({"cot"})),
    ("one room for all", frozenset({"bed", "sofa", "dine"})),
    ("one room for all", frozenset({"bed", "sofa", "screen"})),
    ("child's room", frozenset({"bed", "child"})),
    ("bedroom", frozenset({"bed"})),
    ("living and dining room", frozenset({"sofa", "dine"})),
    ("living and dining room", frozenset({"lounge", "dine"})),
    ("living room", frozenset({"sofa"})),
    ("living room", frozenset({"lounge"})),
    ("dining room", frozenset({"dine"})),
    ("office", frozenset({"desk"})),
    ("hall", frozenset({"entrance"})),
)


def use_of(scenario: Scenario) -> Use:
    """What the room is for: as the person says, else as its pieces say."""
    if scenario.use is not None:
        return scenario.use
    roles = {role for piece in scenario.pieces for role in piece.roles}
    return next((use for use, signs in _SIGNS if signs <= roles), "living room")


def main_screen(scenario: Scenario) -> Piece | None:
    """The largest screen; None if there is none."""
    return largest_of(scenario, "screen")


def hearth(scenario: Scenario) -> Fixture | None:
    """The fireplace or stove, the first of several; None if there is none."""
    fixtures = scenario.room.fixtures
    placed = (f for f in fixtures if f.corners or f.wall is not None)
    return next((f for f in placed if f.kind in HEARTHS), None)


def watching_bed(scenario: Scenario) -> Piece | None:
    """The bed that a screen is for: in a room for sleeping, or where nobody sits."""
    for_sleep = use_of(scenario) in ("bedroom", "child's room", "nursery")
    return largest(beds(scenario)) if for_sleep or main_seat(scenario) is None else None


def is_tall(piece: Piece) -> bool:
    """Whether it stands up like a part of the wall: 1100 high and 600 wide, on the floor."""
    sized = piece.height >= TALL[0] and piece.width >= TALL[1]
    return (piece.backs or piece.crosses) and piece.bottom == 0 and sized


def square_ends(room: Room, wall: int) -> tuple[bool, bool]:
    """Whether another wall stands square to this one, inwards, at its left and right end."""
    here = room.walls[wall]
    (ax, ay), (nx, ny) = here.along, here.inward
    before, after = room.walls[wall - 1], room.walls[(wall + 1) % len(room.walls)]
    square = []
    for (x, y), sign in ((before.along, -1), (after.along, 1)):
        inwards = sign * (x * nx + y * ny) > 0
        square.append(inwards and abs(x * ax + y * ay) <= SQUARE)
    return square[0], square[1]


def corner_at(room: Room, index: int) -> bool:
    """Whether the walls that meet where wall ``index`` starts form a corner to stand in."""
    before, after = room.walls[index - 1].along, room.walls[index].along
    # Outlines run clockwise: an inner corner turns right.
    return before[0] * after[1] - before[1] * after[0] < -1e-9


def strip_before(depth: int) -> Clearance:
    """Floor before a piece that a wish asks for, so many mm deep."""
    return Clearance(f"{depth} before it", ("front",), 0, depth, "", walk=False)


def looks_out(scenario: Scenario, window: Window) -> Facing:
    """The quarter turn of someone with the window at the back (the nearest if aslant)."""
    return nearest_facing(scenario.room.walls[window.wall])


def largest_window(scenario: Scenario) -> Window | None:
    """The widest window, the first of equals; None if there is none."""
    return max(scenario.room.windows, key=lambda w: w.width, default=None)


def is_breast(room: Room, wall: int) -> bool:
    """Whether a wall is the face of something that juts out, as a chimney breast does."""
    turns = [room.walls[wall - 1], room.walls[wall], room.walls[(wall + 1) % len(room.walls)]]
    (ax, ay), (bx, by), (cx, cy) = (w.along for w in turns)
    return ax * by - ay * bx > 0 and bx * cy - by * cx > 0


def entrance(room: Room) -> Door:
    """The main door; ValueError in a room without doors, where no claim may speak of it."""
    if room.main_door is None:
        raise ValueError("a claim on the door of a room without one")
    return room.main_door
