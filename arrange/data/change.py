"""Changes to a scenario: what a person could do or buy instead, and the scenario after.

A changed scenario is a new one; nothing of the file itself is touched. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import singledispatch

from arrange.data.kinds import with_own
from arrange.data.piece import Piece, Slot
from arrange.data.room import Door
from arrange.data.scenario import Scenario


@dataclass(frozen=True, slots=True)
class Resize:
    """A piece in another size; what is None stays as it is, but what is round stays round."""

    piece: str
    width: int | None = None
    depth: int | None = None
    height: int | None = None


@dataclass(frozen=True, slots=True)
class Reprice:
    """A piece at another price."""

    piece: str
    price: Decimal | None


@dataclass(frozen=True, slots=True)
class Exchange:
    """Another piece in the place of ``piece``, under the same name."""

    piece: str
    new: Piece


@dataclass(frozen=True, slots=True)
class Drop:
    """A piece left out."""

    piece: str


@dataclass(frozen=True, slots=True)
class Add:
    """A piece more; ``new`` is complete, with its tie if it has one."""

    new: Piece


@dataclass(frozen=True, slots=True)
class Untie:
    """A piece that no longer has to stand beside what it goes with."""

    piece: str


@dataclass(frozen=True, slots=True)
class Turn:
    """A piece that may be turned: its back need not be against a wall, nor across a corner."""

    piece: str


@dataclass(frozen=True, slots=True)
class LowerClearance:
    """A clearance whose least is brought down to ``to``."""

    piece: str
    clearance: str
    to: int


@dataclass(frozen=True, slots=True)
class NarrowWalkway:
    """A walkway of another width."""

    to: int


@dataclass(frozen=True, slots=True)
class Rehang:
    """A door hung so that its leaves stay out of the room, or one that slides."""

    door: str
    opens: str = "out"


@dataclass(frozen=True, slots=True)
class GiveUpFixture:
    """The floor before a fixture no longer kept free."""

    fixture: str


@dataclass(frozen=True, slots=True)
class GiveUpOpening:
    """A window that need not be opened; its floor is no longer to be reached."""

    window: str


@dataclass(frozen=True, slots=True)
class Loosen:
    """A must of the person's own that becomes a mere wish. Counted from 0."""

    wish: int


@dataclass(frozen=True, slots=True)
class LetMove:
    """A piece that no longer has to stay where it stands."""

    piece: str


Change = (
    Resize
    | Reprice
    | Exchange
    | Drop
    | Add
    | Untie
    | Turn
    | LowerClearance
    | NarrowWalkway
    | Rehang
    | GiveUpFixture
    | GiveUpOpening
    | Loosen
    | LetMove
)


def changed(scenario: Scenario, changes: Iterable[Change]) -> Scenario:
    """The scenario after the changes, one after another.

    A piece whose body changes no longer stands where it stood (``today``, ``held``);
    what is tied to a piece left out stands free. KeyError if a change names what is
    not there, ValueError if a new size is not above 0.
    """
    for change in changes:
        scenario = _after(change, scenario)
    return _told_apart(scenario)


@singledispatch
def _after(change: object, scenario: Scenario) -> Scenario:
    raise TypeError(f"{type(change).__name__} is no change of {scenario.title}")


@_after.register
def _(change: Resize, scenario: Scenario) -> Scenario:
    old = scenario.piece(change.piece)
    for side in ("width", "depth", "height"):
        value = getattr(change, side)
        if value is not None and value <= 0:
            raise ValueError(f"{side} of {change.piece} is {value} mm; more than 0 is needed")
    width, depth = change.width or old.width, change.depth or old.depth
    if old.shape == "round" and width != depth:
        width = depth = change.width or depth
    new = replace(old, width=width, depth=depth, height=change.height or old.height)
    return _with_piece(scenario, new)


@_after.register
def _(change: Reprice, scenario: Scenario) -> Scenario:
    return _with_piece(scenario, replace(scenario.piece(change.piece), price=change.price))


@_after.register
def _(change: Exchange, scenario: Scenario) -> Scenario:
    scenario.piece(change.piece)
    return _with_piece(scenario, replace(change.new, name=change.piece))


@_after.register
def _(change: Drop, scenario: Scenario) -> Scenario:
    name = scenario.piece(change.piece).name
    left = replace(
        scenario,
        pieces=tuple(
            p.untied if p.anchor == name else p for p in scenario.pieces if p.name != name
        ),
        wishes=tuple(w for w in scenario.wishes if name not in (w.piece, w.place)),
    )
    return _unplaced(left, {name})


@_after.register
def _(change: Add, scenario: Scenario) -> Scenario:
    if any(p.name == change.new.name for p in scenario.pieces):
        raise KeyError(change.new.name)
    return replace(scenario, pieces=(*scenario.pieces, change.new))


@_after.register
def _(change: Untie, scenario: Scenario) -> Scenario:
    return _with_piece(scenario, scenario.piece(change.piece).untied)


@_after.register
def _(change: Turn, scenario: Scenario) -> Scenario:
    piece = scenario.piece(change.piece)
    return _with_piece(scenario, replace(piece, stands="free", across_corner=piece.crosses))


@_after.register
def _(change: LowerClearance, scenario: Scenario) -> Scenario:
    old = scenario.piece(change.piece)
    if all(c.name != change.clearance for c in old.clearances):
        raise KeyError(change.clearance)
    clearances = tuple(
        with_own(c, least=change.to) if c.name == change.clearance else c for c in old.clearances
    )
    return _with_piece(scenario, replace(old, clearances=clearances))


@_after.register
def _(change: NarrowWalkway, scenario: Scenario) -> Scenario:
    return replace(scenario, walkway=change.to, walkway_overridden=True)


@_after.register
def _(change: Rehang, scenario: Scenario) -> Scenario:
    room = scenario.room
    if all(d.name != change.door for d in room.all_doors):
        raise KeyError(change.door)
    made = room.with_doors(lambda d: _rehung(d, change) if d.name == change.door else d)
    return replace(scenario, room=made)


def _rehung(door: Door, change: Rehang) -> Door:
    if change.opens == "sliding":
        return replace(door, opens="sliding", stable=False)
    return door.outwards()


@_after.register
def _(change: GiveUpFixture, scenario: Scenario) -> Scenario:
    room = scenario.room
    if all(f.name != change.fixture for f in room.fixtures):
        raise KeyError(change.fixture)
    fixtures = tuple(replace(f, keep=0) if f.name == change.fixture else f for f in room.fixtures)
    return replace(scenario, room=replace(room, fixtures=fixtures))


@_after.register
def _(change: GiveUpOpening, scenario: Scenario) -> Scenario:
    room = scenario.room
    if all(w.name != change.window for w in room.windows):
        raise KeyError(change.window)
    windows = tuple(
        replace(w, must_open=False) if w.name == change.window else w for w in room.windows
    )
    return replace(scenario, room=replace(room, windows=windows))


@_after.register
def _(change: Loosen, scenario: Scenario) -> Scenario:
    if not 0 <= change.wish < len(scenario.wishes):
        raise KeyError(change.wish)
    wishes = tuple(
        replace(w, must=False) if i == change.wish else w for i, w in enumerate(scenario.wishes)
    )
    return replace(scenario, wishes=wishes)


@_after.register
def _(change: LetMove, scenario: Scenario) -> Scenario:
    return replace(scenario, held=tuple(p for p in scenario.held if p.piece != change.piece))


def _with_piece(scenario: Scenario, new: Piece) -> Scenario:
    """The piece of the same name replaced; places that go by its size follow."""
    old = scenario.piece(new.name)
    pieces = tuple(new if p.name == new.name else p for p in scenario.pieces)
    after = replace(scenario, pieces=pieces)
    pieces = tuple(_recentred(p, after) for p in after.pieces)
    after = replace(after, pieces=pieces)
    same_body = (old.width, old.depth) == (new.width, new.depth) and old.anchor == new.anchor
    return after if same_body else _unplaced(after, {new.name})


def _recentred(piece: Piece, scenario: Scenario) -> Piece:
    """The piece with the gaps that follow from its own and its anchor's depth."""
    if piece.anchor is None or not any(slot.centred for slot in piece.slots):
        return piece
    anchor = scenario.piece(piece.anchor)

    def follows(slot: Slot) -> Slot:
        return replace(slot, gap=(anchor.depth - piece.depth) // 2) if slot.centred else slot

    return replace(piece, slots=tuple(follows(slot) for slot in piece.slots))


def _told_apart(scenario: Scenario) -> Scenario:
    """Pieces that were alike and are no longer get a model of their own."""
    first: dict[str, Piece] = {}
    pieces: list[Piece] = []
    for piece in scenario.pieces:
        bare = replace(piece.untied, name="")
        alike = first.setdefault(piece.model, bare) == bare
        pieces.append(piece if alike else replace(piece, model=piece.name))
    return replace(scenario, pieces=tuple(pieces))


def _unplaced(scenario: Scenario, names: set[str]) -> Scenario:
    """Nothing is known any more of where these pieces stand."""
    return replace(
        scenario,
        today=tuple(p for p in scenario.today if p.piece not in names),
        held=tuple(p for p in scenario.held if p.piece not in names),
    )
