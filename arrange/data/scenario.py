"""One scenario: the room, the pieces, the wishes and the settings. Lengths in mm."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, fields, is_dataclass, replace
from decimal import ROUND_DOWN, Decimal
from hashlib import sha256
from typing import Literal

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.finish import Finish
from arrange.data.person import Person
from arrange.data.piece import Piece, canonical
from arrange.data.room import Room, Survey
from arrange.data.scheme import Scheme


@dataclass(frozen=True, slots=True)
class OwnCosts:
    """The person's own costs by key, as the table of costs has them.

    None says that a change of this sort is never to be proposed. ``untouchable``
    names pieces, doors, windows, fixtures or the walkway that stay as they are.
    """

    values: tuple[tuple[str, int | None], ...] = ()
    untouchable: tuple[str, ...] = ()


Relation = Literal[
    "near",
    "away from",
    "facing",
    "against",
    "not against",
    "in view of",
    "beside",
    "aligned",
]
Unit = Literal["mm", "cm", "m", "in"]
Outcome = Literal["found", "impossible"]
# What a room is for: it sets what counts most in it.
Use = Literal[
    "living room",
    "living and dining room",
    "bedroom",
    "child's room",
    "nursery",
    "dining room",
    "office",
    "hall",
    "one room for all",
]


@dataclass(frozen=True, slots=True)
class Money:
    """What may be spent: ``set_aside`` is the part of the budget, in per cent, for surprises.

    ``currency`` stands before a sum as it is written; None without a budget. ``comes_in`` is what
    is to be spent besides, such as what the sale of other pieces brings.
    """

    budget: Decimal | None = None
    set_aside: int = 10
    currency: str = ""
    comes_in: Decimal = Decimal(0)

    @property
    def kept(self) -> Decimal:
        """What is set aside, to the hundredth, rounded down; 0 without a budget."""
        part = (self.budget or Decimal(0)) * self.set_aside / 100
        return part.quantize(Decimal("0.01"), ROUND_DOWN)


@dataclass(frozen=True, slots=True)
class Wish:
    """What the person asks of one piece: ``piece`` ``relation`` ``place``.

    ``place`` names a piece, door, window, fixture or wall. ``distance`` in mm is
    for near, away from and beside. With ``must`` it may never be broken; else it
    earns points by ``weight``.
    """

    relation: Relation
    piece: str
    place: str
    distance: int | None = None
    must: bool = False
    weight: int = 10


@dataclass(frozen=True, slots=True)
class RuleSetting:
    """A change to one rule: switched off, another weight, other values."""

    rule: str
    off: bool = False
    weight: int | None = None
    least: int | None = None
    comfortable: int | None = None


def _spelled(value: object) -> object:
    """What makes a value equal to another one, in an order that is always the same."""
    if is_dataclass(value):
        kept = [f for f in fields(value) if f.compare]
        # What came later and says nothing is not spelled, so that marks of earlier files last.
        told = (f for f in kept if getattr(value, f.name) or not f.metadata.get("later"))
        return type(value).__name__, [(f.name, _spelled(getattr(value, f.name))) for f in told]
    if isinstance(value, tuple):
        return [_spelled(one) for one in value]
    return sorted(value) if isinstance(value, frozenset) else value


@dataclass(frozen=True, slots=True)
class Scenario:
    """Everything the person said. ``walkway`` is its width in mm.

    ``today`` says where pieces stand now, for as many as the person measured;
    ``held`` are places that pieces must keep in every arrangement. ``costs`` is what the
    person says about changes to this scenario. ``use`` is what the room is for; None: what
    its pieces say. ``people`` live or stay here, by name: the pieces and the walkway have what
    they ask of them already. ``scheme`` are the colours, ``finish`` is what
    walls and windows are finished with; no arrangement depends on them.
    """

    title: str
    room: Room
    pieces: tuple[Piece, ...]
    wishes: tuple[Wish, ...] = ()
    unit: Unit = "cm"
    walkway: int = 600
    walkway_overridden: bool = False
    feel: tuple[str, ...] = ()
    use: Use | None = None
    settings: tuple[RuleSetting, ...] = ()
    today: tuple[Placement, ...] = ()
    held: tuple[Placement, ...] = ()
    costs: OwnCosts = field(default_factory=OwnCosts)
    money: Money = field(default_factory=Money)
    people: tuple[Person, ...] = field(default=(), metadata={"later": True})
    scheme: Scheme = field(default_factory=Scheme, compare=False)
    finish: Finish = field(default_factory=Finish, compare=False)
    expected: Outcome | None = None
    survey: Survey | None = field(default=None, compare=False)
    source_file: str = field(default="", compare=False)

    def piece(self, name: str) -> Piece:
        """The piece called ``name``; KeyError if there is none."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise KeyError(name)

    def apart(self, names: Iterable[str]) -> Scenario:
        """The same with these pieces tied to nothing."""
        gone = frozenset(names)
        pieces = tuple(p.untied if p.name in gone else p for p in self.pieces)
        return replace(self, pieces=pieces)

    @property
    def usual_ties(self) -> tuple[str, ...]:
        """The pieces that stand beside another because their kind usually does."""
        return tuple(p.name for p in self.pieces if p.tied_by_kind)

    def root(self, name: str) -> str:
        """The piece that ``name`` is tied to in the end; itself if it is tied to nothing.

        KeyError if there is no such piece.
        """
        piece = self.piece(name)
        while piece.anchor is not None:
            piece = self.piece(piece.anchor)
        return piece.name

    def followers(self, names: Iterable[str]) -> tuple[str, ...]:
        """The pieces tied to one of these, or to one that follows them, in the file's order."""
        known = set(names)
        going = {follower for name in known for follower in self.in_tow(name)}
        return tuple(p.name for p in self.pieces if p.name in going - known)

    def in_tow(self, name: str) -> tuple[str, ...]:
        """What is tied to a piece, and to that, ...: each after what it is tied to."""
        found = [name]
        for one in found:
            found += [p.name for p in self.pieces if p.anchor == one and p.name not in found]
        return tuple(found[1:])

    @property
    def in_canonical_order(self) -> Scenario:
        """The same with its pieces in the order of what they are, however the file lists them."""
        pieces = tuple(sorted(self.pieces, key=canonical))
        order = {piece.name: i for i, piece in enumerate(pieces)}
        held = tuple(sorted(self.held, key=lambda placement: order[placement.piece]))
        return replace(self, pieces=pieces, held=held)

    def listed(self, arrangement: Arrangement) -> Arrangement:
        """The arrangement with its placements in the order of this scenario's pieces."""
        return Arrangement(tuple(arrangement.of(piece.name) for piece in self.pieces))

    def alike_groups(self) -> Sequence[tuple[Piece, ...]]:
        """Pieces that are the same thing beside the same host, one tuple for each such thing.

        In the order of the pieces. Exchanging two of a group leaves the room as it is.
        """
        groups: dict[tuple[object, ...], list[Piece]] = {}
        for piece in self.pieces:
            groups.setdefault((piece.alike, piece.anchor, piece.slots), []).append(piece)
        return [tuple(group) for group in groups.values()]

    def interchangeable(self) -> Sequence[tuple[Piece, ...]]:
        """``alike_groups`` parted further: nothing that is said singles one of them out.

        A wish does, and being held in place, and what is tied to one of them. A wish that
        means all of a group by the name they share does not.
        """
        alone = {p.anchor for p in self.pieces} | {p.piece for p in self.held}
        parted: dict[tuple[object, ...], list[Piece]] = {}
        for i, group in enumerate(self.alike_groups()):
            for piece in group:
                own = piece.name if piece.name in alone else ""
                parted.setdefault((i, own, self.asked_of(piece)), []).append(piece)
        return [tuple(group) for group in parted.values()]

    def asked_of(self, piece: Piece) -> frozenset[tuple[str, bool]]:
        """The words of wishes that mean the piece, and whether each is its own name."""
        words = {word for wish in self.wishes for word in (wish.piece, wish.place)}
        return frozenset((word, word == piece.name) for word in words & {piece.name, piece.model})

    @property
    def mark(self) -> str:
        """Sixteen letters, the same for two scenarios whose arrangements and scores are alike.

        Titles, prices and where things stand today make no difference, and neither does
        where the scenario was read from.
        """
        asked = replace(
            self,
            title="",
            pieces=tuple(p.unpriced for p in self.pieces),
            today=(),
            costs=OwnCosts(),
            money=Money(),
            expected=None,
        )
        return sha256(repr(_spelled(asked)).encode()).hexdigest()[:16]

    @property
    def loose(self) -> Scenario:
        """The same with nothing held in its place, and without the usual ties."""
        return replace(self.apart(self.usual_ties), held=())

    @property
    def unfurnished(self) -> Scenario:
        """The same room and rules without pieces, and without what speaks of them."""
        return replace(self, pieces=(), wishes=(), held=(), today=())

    @property
    def walks(self) -> bool:
        """Whether a walkway must lead to everything: the rule is not switched off."""
        return not self.setting("walkway").off

    def switched_off(self, *rules: str) -> Scenario:
        """The same with these rules, by their ids, switched off."""
        kept = tuple(s for s in self.settings if s.rule not in rules)
        off = tuple(replace(self.setting(rule), off=True) for rule in rules)
        return replace(self, settings=(*kept, *off))

    def setting(self, rule: str) -> RuleSetting:
        """The person's setting for ``rule``, or the default one."""
        return next((s for s in self.settings if s.rule == rule), RuleSetting(rule))
