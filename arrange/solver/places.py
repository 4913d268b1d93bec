"""One piece in the model: where it may stand, and its coordinates.

``Place`` owns the variables of a piece; rules and the search use its verbs and
expressions, never the constraints behind them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from ortools.sat.python import cp_model

from arrange.data.arrangement import Placement
from arrange.data.piece import Clearance, Piece, Side
from arrange.data.room import FACINGS, Facing
from arrange.geometry.shapes import turn_facing
from arrange.solver.boxes import PLAN, Box, Expr, Hull, Literal


@dataclass(frozen=True)
class Stance:
    """One way a piece can stand: its wall (None: free), its facing, the literal.

    ``slanted`` stances live in the frame of their wall, or of the line across their
    ``corner``; ``quarter`` counts clockwise turns from facing straight into the room there.
    ``looks`` is what facing straight counts as across a corner, where it could be either: two
    stances share one box there, and ``there`` says that it stands in either of them.
    """

    literal: Literal
    facing: Facing
    wall: int | None = None
    slanted: bool = False
    quarter: int = 0
    slot: int | None = None
    host: Stance | None = None
    corner: int | None = None
    looks: Facing | None = None
    there: Literal | None = None

    @property
    def boxed(self) -> Literal:
        """Whether its box is there."""
        return self.literal if self.there is None else self.there


@dataclass
class Place:
    """The variables of one piece. All coordinates are whole mm on the plan."""

    piece: Piece
    x0: Expr
    y0: Expr
    x1: Expr
    y1: Expr
    lies: cp_model.IntVar
    bounds: tuple[int, int, int, int]
    slanted: bool = False
    stances: list[Stance] = field(default_factory=list)
    offsets: dict[int, cp_model.IntVar] = field(default_factory=dict)
    boxes: list[Box] = field(default_factory=list)
    parts: list[Box | Hull] = field(default_factory=list)
    facings: dict[Facing, Literal] = field(default_factory=dict)
    upright_facings: dict[Facing, Literal] = field(default_factory=dict)
    walls: dict[int, Literal] = field(default_factory=dict)
    slots: list[Literal] = field(default_factory=list)
    fixed_done: bool = False
    boxed: bool = False  # whether what is round counts as its box

    @property
    def is_round(self) -> bool:
        """Whether it fills its box in part, and not in rectangles."""
        return any(isinstance(part, Hull) for part in self.parts)

    @property
    def bodies(self) -> Sequence[Box | Hull]:
        """What others may not meet: its boxes, or what it fills of them."""
        return self.boxes if self.boxed and self.is_round else self.parts or self.boxes

    def box_of(self, stance: Stance) -> Box:
        """The box of a slanted stance."""
        return next(b for b in self.boxes if b.axes is not PLAN and b.when[0] is stance.boxed)

    @property
    def corners(self) -> dict[int, Literal]:
        """Whether it stands across each corner; none for what is tied to a piece there."""
        across = [s for s in self.stances if s.corner is not None and s.host is None]
        return {s.corner: s.boxed for s in across if s.corner is not None}

    @property
    def name(self) -> str:
        """The piece's name."""
        return self.piece.name

    def turned_otherwise(self, placement: Placement, *, any_way_round: bool) -> list[Literal]:
        """Literals one of which is true if the piece is not turned as in ``placement``.

        ``any_way_round`` takes front and back for the same, and all four turns
        for a square footprint. Empty if it cannot be turned otherwise.
        """
        if placement.facing is None:
            return [s.literal for s in self.stances if not _stands_so(s, placement)]
        alike = {placement.facing}
        if any_way_round and self.piece.shape != "L":  # which is the same no other way round
            square = self.piece.width == self.piece.depth
            alike |= set(FACINGS) if square else {turn_facing(placement.facing, 2)}
        return [s.literal for s in self.stances if s.slanted or s.facing not in alike]

    def stances_as(self, placement: Placement) -> list[Literal]:
        """The stances that stand on the same wall and face the same way."""
        return [s.literal for s in self.stances if _stands_so(s, placement)]

    def pin(self, cp: cp_model.CpModel, placement: Placement) -> None:
        """Hold the piece exactly where ``placement`` puts it."""
        looks = placement.looks
        fitting = [s for s in self.stances if _stands_so(s, placement) and looks in (None, s.looks)]
        cp.add_bool_or([s.literal for s in fitting])
        if placement.facing is not None:
            cp.add(self.x0 == placement.x)
            cp.add(self.y0 == placement.y)
            return
        for stance in fitting:
            box = self.box_of(stance)
            for here, there in ((box.a0, placement.offset), (box.b0, placement.inward)):
                if not isinstance(here, int) or here != there:
                    cp.add(here == there).only_enforce_if(stance.literal)

    def placement(self, value: cp_model.CpSolver) -> Placement:
        """Read the placement from a solver that has a solution."""
        stance = next(s for s in self.stances if value.boolean_value(s.literal))
        if not stance.slanted:
            return Placement(
                self.name,
                stance.facing,
                value.value(self.x0),
                value.value(self.y0),
                wall=stance.wall,
            )
        box = next(b for b in self.boxes if b.axes is not PLAN and value.boolean_value(b.when[0]))
        return Placement(
            self.name,
            None,
            wall=stance.wall if stance.wall is not None else _host_wall(stance),
            offset=value.value(box.a0),
            inward=value.value(box.b0),
            quarter=stance.quarter,
            corner=stance.corner,
            looks=stance.looks,
        )


def _stands_so(stance: Stance, placement: Placement) -> bool:
    if placement.facing is None:
        return (
            stance.slanted
            and stance.quarter == placement.quarter
            and placement.wall in (stance.wall, _host_wall(stance))
            and placement.corner == stance.corner
        )
    tied = stance.host is not None
    return (
        not stance.slanted
        and stance.facing == placement.facing
        and (tied or stance.wall == placement.wall)
    )


def _host_wall(stance: Stance) -> int | None:
    while stance.wall is None and stance.host is not None:
        stance = stance.host
    return stance.wall


@dataclass
class Zone:
    """A clearance of a placed piece: movable boxes, a depth, a literal a level.

    ``levels[k]`` is true only if the strip is ``steps[k]`` mm deep and free.
    ``choices`` has a literal for each side that would do, if there are several.
    """

    place: Place
    clearance: Clearance
    steps: tuple[int, ...]
    levels: list[cp_model.IntVar]
    depth: Expr
    boxes: list[Box] = field(default_factory=list)
    choices: dict[Side, Literal] = field(default_factory=dict)
    static_done: bool = False

    @property
    def piece(self) -> Piece:
        """The piece the clearance belongs to."""
        return self.place.piece
