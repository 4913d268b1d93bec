"""What rules say to a model: a small protocol of verbs. Imports no solver.

A rule builds itself through these verbs alone, so it knows neither the solver nor the
class behind them; ``solver.model.Model`` is one such class, a test's recorder can be
another. ``L`` stands for the model's literals: yes-or-no variables that a rule only
hands back. Coordinates are whole mm on the plan, added, subtracted and compared like
numbers; a comparison is a *condition*, which is handed to a verb too.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Protocol, TypeVar

from shapely.geometry import Polygon

from arrange.data.arrangement import Placement
from arrange.data.piece import Clearance, Piece
from arrange.data.room import Facing
from arrange.data.scenario import Scenario
from arrange.geometry.spots import Bounded, Coordinate

L = TypeVar("L")
L_co = TypeVar("L_co", covariant=True)
# Made by comparing coordinates, or a plain bool: each model has a class of its own for it.
Condition = Any


class PieceVariables(Bounded, Protocol[L_co]):
    """One piece in the model: its bounds, its turns, its walls, its places beside another."""

    @property
    def name(self) -> str:
        """The piece's name."""

    @property
    def piece(self) -> Piece:
        """The piece itself."""

    @property
    def facings(self) -> Mapping[Facing, L_co]:
        """For each quarter turn, whether it looks that way (the nearest if aslant)."""

    @property
    def offsets(self) -> Mapping[int, Coordinate]:
        """For each wall it can have its back on, how far along its left end is."""

    @property
    def slots(self) -> Sequence[L_co]:
        """For each place beside what it is tied to, whether it stands there."""


class Verbs(Protocol[L]):
    """The verbs. Each is one way: whenever the literal is true, what it stands for holds."""

    @property
    def scenario(self) -> Scenario:
        """The scenario that the model is of."""

    def place(self, name: str) -> PieceVariables[L]:
        """The variables of the piece called ``name``."""

    def depths(self, piece: str, clearance: str) -> Sequence[L]:
        """For each depth at which a clearance earns points, whether its strip is so deep."""

    def literal(self, name: str = "") -> L:
        """A fresh yes-or-no variable."""

    def always(self) -> L:
        """A literal that is true."""

    def never(self) -> L:
        """A literal that is false."""

    def must(self, *conditions: Condition) -> None:
        """Each condition always holds."""

    def when(self, literal: L | Sequence[L], *conditions: Condition) -> None:
        """Each condition holds whenever the literal (or all of them) is true."""

    def one_of(self, literals: Sequence[L], when: Sequence[L] = ()) -> None:
        """At least one literal is true whenever all of ``when`` are."""

    def implies(self, literal: L, *others: L) -> None:
        """The others are true whenever the literal is."""

    def forbid(self, *literals: L) -> None:
        """The literals are never true all at once."""

    def faces(self, name: str, facing: Facing) -> L:
        """Whether a piece looks that way (the nearest quarter turn if aslant)."""

    def on_wall(self, name: str, wall: int) -> L | None:
        """Whether a piece has its back on a wall; None if it never can."""

    def wall_choices(self, name: str) -> Sequence[int]:
        """The walls a piece can have its back on."""

    def corner_choices(self, name: str) -> Mapping[int, L]:
        """The corners across which a piece can stand, and whether it does."""

    def backed(self, literal: L, name: str) -> None:
        """Its back is on some wall."""

    def starts_in(
        self, literal: L, name: str, wall: int, ranges: Sequence[tuple[int, int]]
    ) -> None:
        """If its back is on that wall, its left end comes in one of the ranges (mm along)."""

    def near(self, literal: L, one: Bounded, two: Bounded, distance: Coordinate) -> None:
        """The gap across and the gap up the plan are at most ``distance`` mm."""

    def near_one(
        self, literal: L, one: Bounded, others: Sequence[Bounded], distance: Coordinate
    ) -> None:
        """``near`` to one of the others at least."""

    def levels_near(
        self, one: Bounded, others: Sequence[Bounded], steps: Sequence[int]
    ) -> Sequence[L]:
        """A literal a step: ``near_one`` within that many mm."""

    def beyond(self, literal: L, one: Bounded, two: Bounded, distance: Coordinate) -> None:
        """The gap across or the gap up the plan is at least ``distance`` mm."""

    def number(self, low: int, high: int, name: str = "") -> Coordinate:
        """A fresh whole number between two bounds, both included."""

    def around(self, names: Sequence[str]) -> Bounded:
        """A box that covers these pieces: the smallest one, or a larger."""

    def tally(self, literals: Sequence[L]) -> Sequence[L]:
        """A literal a count: the first k of them are true only if k of ``literals`` are."""

    def among(self, literal: L, coordinate: Coordinate, ranges: Sequence[tuple[int, int]]) -> None:
        """A coordinate, or a sum of some, comes in one of the ranges (mm)."""

    def starts_from(
        self, literal: L, name: str, other: str, wall: int, ranges: Sequence[tuple[int, int]]
    ) -> None:
        """If both have their back on that wall, how far the one starts from the other (mm)."""

    def strip(self, name: str, clearance: Clearance) -> L:
        """Whether the strip of a wished clearance is free to its comfortable depth."""

    def off_floor(self, literal: L, name: str, convex: Polygon) -> None:
        """The body of a piece shares no floor with a convex shape; touching is allowed."""

    def clear_square(
        self, levels: Sequence[L], sides: Sequence[int], off: Sequence[Polygon] = ()
    ) -> None:
        """Some upright square of floor is free, its side going by the highest true level.

        It shares no floor with the shapes ``off`` which it is.
        """

    def open_strip(self, literal: L, heights: tuple[int, int], without: Sequence[str]) -> Bounded:
        """A fresh upright box; when true it lies in the room, and nothing stands in it.

        Nothing but the pieces ``without`` that reaches between two heights in mm, pieces and
        fixtures alike. The rule says where its edges are, at least 1 mm apart.
        """

    def stay(self, placement: Placement) -> None:
        """Hold one piece where it stands."""
