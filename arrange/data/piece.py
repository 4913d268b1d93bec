"""A piece of furniture and the floor it needs. Lengths in mm.

The sides of a piece are named as you face its front, the way a shop card does:
``left`` is on your left hand, ``front`` is toward you, ``back`` is what would
stand against the wall. ``width`` runs left to right, ``depth`` back to front. Between the
least and the comfortable depth of a clearance lie the steps that earn points.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import Literal

Side = Literal["front", "back", "left", "right"]
SIDES: tuple[Side, ...] = ("front", "right", "back", "left")
TIPS_FROM = 686  # mm (`csu-height`); used for other storage too, common practice
REACHED_UP = 1500  # mm; a shelf that hangs higher is in no child's way; common practice
SIZES = (5, 8000)  # mm; the least and the greatest that any side of a piece may be
STRIP_LEFT = 10  # mm of a strip that must be left where a clearance skips a part of its side
# mm of headroom. Who stands is a tall man, 1855 (`hf-stature`), shod. He is 965 high above
# what he sits on (`hf-sitting`), and above the floor from a seat at 435 (`hf-table-seat`).
STANDING, SITTING, SEATED = 1900, 965, 1400
Buy = Literal["new", "second-hand", "make over"]
# With its back on a wall, in a corner of two, away from walls, as suits the room, or across a
# corner at 45 degrees.
Stands = Literal["wall", "corner", "free", "anywhere", "across"]
# Chairs that are pulled out and pushed in, of no use apart from their table or desk.
MOVED_SEATS = frozenset({"work seat", "dining seat"})
# As seen from above: one that is round or oval fills its width and depth.
Shape = Literal["rectangle", "round", "oval", "cut corners", "rounded corners", "L"]
SHAPES: tuple[Shape, ...] = ("rectangle", "round", "oval", "cut corners", "rounded corners", "L")
Hand = Literal["left", "right"]
Status = Literal["verified", "memory", "common practice", "computed", "yours"]


SIDE_WORDS: dict[Side, str] = {
    "front": "in front of",
    "back": "behind",
    "left": "on the left of",
    "right": "on the right of",
}
ONE_SIDE = "on one side of"


@dataclass(frozen=True, slots=True)
class Clearance:
    """Floor beside one side of a piece that must stay free.

    ``sides`` lists the sides that will do: one is enough (a single bed is got
    into from the left *or* the right). The strip runs along the whole side
    unless ``skip_start``/``skip_end`` leave out a part: from the back for the
    left and right sides, from the left for front and back (a bed's side strip
    skips the length beside the pillow, where a bedside table stands).
    ``least`` is the must: below it the piece cannot be used. ``usual`` is what published
    guidance asks as least, ``comfortable`` earns full points. ``walk`` says that
    a walkway must reach it. Under ``height`` it must be free, and the ceiling over it is at
    ``headroom`` at the least. ``source`` is an id of the table of sources for ``least``,
    ``usual_source`` for ``usual``, ``comfortable_source`` for ``comfortable`` where that
    differs from the usual one. ``status`` is the weaker of the latter two. ``whose`` names
    whom the least is for, where it is for somebody: it never comes down.
    """

    name: str
    sides: tuple[Side, ...]
    least: int
    comfortable: int
    purpose: str
    skip_start: int = 0
    skip_end: int = 0
    walk: bool = True
    height: int = 2000
    source: str = ""
    status: Status = "common practice"
    overridden: bool = False
    comfortable_source: str = ""
    usual: int = 0
    usual_source: str = ""
    headroom: int = STANDING
    # Not in how pieces are ordered, nor in marks of files without it: earlier ones last.
    whose: str = field(default="", repr=False, metadata={"later": True})

    @property
    def kept_usual(self) -> Clearance:
        """The same held to the value of published guidance."""
        if self.usual <= self.least:
            return self
        return replace(self, least=self.usual, source=self.usual_source)

    @property
    def where(self) -> str:
        """Which side it is, before the name of the piece; left and right as one faces it.

        >>> Clearance("", ("left", "right"), 0, 0, "").where
        'on one side of'
        >>> Clearance("", ("front", "left"), 0, 0, "").where
        'in front of or on the left of'
        """
        if set(self.sides) == {"left", "right"}:
            return ONE_SIDE
        return " or ".join(SIDE_WORDS[side] for side in self.sides)

    @property
    def as_faced(self) -> str:
        """What to say after the name where left and right could be mistaken."""
        return " (as you face it)" if len({"left", "right"} & set(self.sides)) == 1 else ""

    def minds(self, owner: Piece, other: Piece) -> bool:
        """Whether ``other`` may not stand in this clearance of ``owner``.

        What is tied to the owner may (the chair at its desk), and rugs, and what hangs
        above the clearance.
        """
        own = owner.name in (other.name, other.anchor)
        return not own and not other.flat and other.bottom < self.height


@dataclass(frozen=True, slots=True)
class Slot:
    """A place relative to an anchor piece, in the anchor's own directions.

    ``side`` is the side of the anchor (``under`` for a rug), ``gap`` the space
    between, ``along`` where the middle of this piece comes on that side in
    thousandths (0 = flush with the start, 1000 = flush with the end, 500 =
    centred): from the left for front, back and under, from the back for left
    and right. ``shift`` moves it on from there in mm, the same way. ``facing``
    is relative to the anchor: the same way, toward it, away from it, or opposite.
    ``centred`` says that ``gap`` follows from both depths, so that the middles meet.
    """

    side: Literal["front", "back", "left", "right", "under"]
    along: int = 500
    gap: int = 0
    facing: Literal["same", "opposite", "toward", "away"] = "same"
    shift: int = 0
    centred: bool = False


@dataclass(frozen=True, slots=True)
class Piece:
    """One thing to place. ``name`` is unique; ``model`` is what several can be called by.

    ``bottom`` is the height of its underside above the floor (a wall shelf);
    ``height`` is measured from its underside to its top. ``stands`` says where
    it may stand: with its back on a wall, in a corner of two walls, free of
    walls in quarter turns, either on a wall or free, or across a corner, where the two ends of
    its back touch the two walls. With ``across_corner`` that is one more way. ``anchor`` and
    ``slots`` tie it
    to another piece by a short list of places. ``roles`` are plain words the rules look
    for ("sleep", "seat", "screen", "desk", "store", "dine", "light", "rug", ...).
    ``burns`` says that it can burn, as nearly every piece can. ``major``
    pieces make the difference between two arrangements. ``screen`` is the
    diagonal of the screen that stands on it, 0 if there is none. ``tied_by_kind`` says that
    nobody asked for its tie: its kind is usually tied so. ``assumed`` says that
    its width or depth is not measured but the usual one of its kind. ``price`` and
    ``delivery`` are what it costs, and ``buy`` how it is come by where it is not ``owned``;
    ``paid`` is what was spent on one that is owned by now, out of the same budget.
    ``shape`` is its outline from above, within its width and depth; ``corner`` how far a cut
    or rounded corner reaches along both sides. Every such outline looks the same in a mirror,
    from left to right and from back to front: the model and its cuts rest on that. One that is
    an L has a part along its back, ``back_depth`` deep, and one ``arm_width`` wide that comes
    forward on ``arm_side``; who sits there looks away from that side.
    The mattress of a bed lies ``headboard`` before its back, ``footboard`` behind its front, and
    between the ``rails``, both of them together; all 0 where it is as large as the bed.
    ``whose`` names the persons who use it; empty: everybody.
    """

    name: str
    kind: str
    model: str
    width: int
    depth: int
    height: int
    bottom: int = 0
    stands: Stands = "wall"
    clearances: tuple[Clearance, ...] = ()
    anchor: str | None = None
    slots: tuple[Slot, ...] = ()
    roles: frozenset[str] = frozenset()
    goes_with: tuple[str, ...] = ()
    major: bool = False
    flat: bool = False
    burns: bool = False
    headroom: int = 0
    owned: bool = False
    price: Decimal | None = None
    delivery: Decimal | None = None
    paid: Decimal | None = None
    buy: Buy = "new"
    short: str = ""
    screen: int = 0
    tied_by_kind: bool = False
    shape: Shape = "rectangle"
    corner: int = 0
    arm_side: Hand = "left"
    arm_width: int = 0
    back_depth: int = 0
    assumed: bool = field(default=False, compare=False)
    whose: tuple[str, ...] = field(default=(), metadata={"later": True})
    headboard: int = field(default=0, metadata={"later": True})
    footboard: int = field(default=0, metadata={"later": True})
    rails: int = field(default=0, metadata={"later": True})
    across_corner: bool = field(default=False, metadata={"later": True})

    @property
    def top(self) -> int:
        """Height of its top above the floor."""
        return self.bottom + self.height

    @property
    def in_corners(self) -> tuple[Hand, ...]:
        """The ends of a wall in whose corner it may stand: an L has its arm there."""
        return (self.arm_side,) if self.shape == "L" else ("left", "right")

    @property
    def fills_its_box(self) -> bool:
        """Whether it covers all of its width and depth."""
        return self.shape == "rectangle"

    @property
    def mattress(self) -> tuple[int, int]:
        """How wide and how long the mattress of a bed with its head at its back is."""
        return self.width - self.rails, self.depth - self.headboard - self.footboard

    @property
    def framed(self) -> bool:
        """Whether it is a bed that is known to be larger than its mattress."""
        return bool(self.headboard or self.footboard or self.rails)

    @property
    def alike(self) -> Piece:
        """What it is: equal for two pieces that only their names and ties tell apart."""
        plain = replace(self, name="", model="", short="", anchor=None, slots=())
        return replace(plain, tied_by_kind=False)

    @property
    def unpriced(self) -> Piece:
        """The same without what no arrangement depends on: how it is come by."""
        return replace(self, price=None, delivery=None, paid=None, buy="new", owned=False)

    @property
    def untied(self) -> Piece:
        """The same by itself, standing as its kind does."""
        return replace(self, anchor=None, slots=(), tied_by_kind=False)

    def least_side(self, side: str) -> int:
        """The least ``width`` or ``depth`` that leaves something of every clearance along it.

        0 where no clearance leaves out a part of its side.
        """
        along = {"width": {"front", "back"}, "depth": {"left", "right"}}.get(side, set())
        skips = [c.skip_start + c.skip_end for c in self.clearances if along & set(c.sides)]
        rims = self.rails if side == "width" else self.headboard + self.footboard
        own = rims + 1 if rims and side in ("width", "depth") else 0
        return max([own, *(skip + STRIP_LEFT for skip in skips if skip)])

    def shares_space_with(self, other: Piece) -> bool:
        """Whether the two would share space if their footprints overlapped.

        A rug lies under anything, but a mat to play on stays clear of what stands.
        """
        if self.flat != other.flat:
            flat, standing = (self, other) if self.flat else (other, self)
            return flat.is_a("play") and standing.bottom < REACHED_UP
        return self.bottom < other.top and other.bottom < self.top

    @property
    def backs(self) -> bool:
        """Whether it may have its back on a wall of its own choice."""
        return self.stands not in ("free", "across") and self.anchor is None

    @property
    def needs_wall(self) -> bool:
        """Whether it must, if it does not stand across a corner."""
        return self.stands in ("wall", "corner") and self.anchor is None

    @property
    def crosses(self) -> bool:
        """Whether it may stand across a corner of its own choice."""
        return (self.across_corner or self.stands == "across") and self.anchor is None

    @property
    def into_corner(self) -> int:
        """How far off the corner its back is there, in mm: half its width, rounded up."""
        return -(-self.width // 2)

    def is_a(self, role: str) -> bool:
        """Whether the piece plays ``role``."""
        return role in self.roles

    @property
    def pulled_up(self) -> bool:
        """Whether it is a chair that goes where its table is, and is pushed about all day."""
        return self.anchor is not None and bool(self.roles & MOVED_SEATS)


def tips(piece: Piece) -> bool:
    """Whether it is storage tall enough to be fixed to the wall."""
    stands = not piece.bottom and not piece.is_a("sleep")
    return stands and piece.height >= TIPS_FROM and bool(piece.roles & {"store", "tall", "clothes"})


def canonical(piece: Piece) -> tuple[object, ...]:
    """A key to sort pieces by what they are, the largest first, whatever order they came in.

    Names come last: they decide between alike pieces alone, "chair 2" before "chair 10".
    """
    rest = (
        *(piece.stands, piece.bottom, piece.headroom, piece.screen, piece.major, piece.flat),
        *(
            piece.burns,
            piece.owned,
            piece.price,
            piece.delivery,
            piece.buy,
            sorted(piece.roles),
            piece.goes_with,
        ),
        *(piece.clearances, piece.anchor or "", piece.slots),
        *(() if piece.fills_its_box else (piece.shape, piece.corner)),
        *((piece.arm_side, piece.arm_width, piece.back_depth) if piece.shape == "L" else ()),
        *((piece.headboard, piece.footboard, piece.rails) if piece.framed else ()),
        *((piece.across_corner,) if piece.across_corner else ()),
    )
    name = [(part.isdigit(), part.zfill(9)) for part in re.split(r"(\d+)", piece.name)]
    sizes = (piece.width, piece.depth, piece.height)
    area = piece.width * piece.depth
    return (-area, piece.kind, *(-size for size in sizes), repr(rest), name)


STEP = 40  # mm; smaller steps than this are not felt


def ladder(least: int, comfortable: int, most: int = 3) -> tuple[int, ...]:
    """Up to ``most`` equal steps above ``least``, the last at ``comfortable``.

    Empty if ``comfortable`` is not above ``least``.

    Examples
    --------
    >>> ladder(559, 750)
    (622, 686, 750)
    >>> ladder(600, 650)
    (650,)
    """
    rise = comfortable - least
    if rise <= 0:
        return ()
    n = max(1, min(most, rise // STEP))
    return tuple(least + rise * k // n for k in range(1, n + 1))


def comfort_steps(clearance: Clearance, comfortable: int | None = None) -> tuple[int, ...]:
    """The depths at which a clearance earns points, from above its least.

    Up to the usual depth points are lost fast, from there to the comfortable one slowly.
    ``comfortable`` is the person's depth for the whole room: it stands for that of
    every clearance but those whose comfortable depth is the person's own already.

    >>> comfort_steps(Clearance("doors", ("front",), 500, 914, "", usual=750))
    (625, 750, 914)
    >>> comfort_steps(Clearance("doors", ("front",), 750, 914, "", usual=750))
    (804, 859, 914)
    """
    most = comfort(clearance, comfortable)
    usual = min(clearance.usual, most)
    if usual <= clearance.least:
        return ladder(clearance.least, most)
    halfway = (clearance.least + usual) // 2
    steps = (halfway,) if clearance.least and usual - clearance.least >= 2 * STEP else ()
    return (*steps, usual, *((most,) if most - usual >= STEP else ()))


def comfort(clearance: Clearance, comfortable: int | None) -> int:
    """The depth that earns full points."""
    if comfortable is None or clearance.comfortable_source == "yours":
        return clearance.comfortable
    return comfortable


def nearer(steps: tuple[int, ...], comfortable: int | None) -> tuple[int, ...]:
    """Distances, farthest first, that end with the person's own for full points.

    >>> nearer((2500, 1500, 600), 1000), nearer((2000, 1000), 3000), nearer((5, 3), None)
    ((2500, 1500, 1000), (3000,), (5, 3))
    """
    if comfortable is None:
        return steps
    return (*(s for s in steps if s > comfortable), comfortable)
