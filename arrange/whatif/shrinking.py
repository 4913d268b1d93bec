"""When a smaller piece works wherever a bigger one does, and what is sure where it may not.

Take an arrangement that works and make the piece smaller in its place. A height may
simply shrink: nothing asks a piece to be tall, and what hangs above or stands below
still does. A width or depth shrinks by moving one side; the other sides stay, so that
a wall piece keeps its back on the wall and a corner piece its corner. Then:

*Body.* The new body is a part of the old one. Whatever only keeps bodies off something
(room, pieces, doors, windows, fixtures, heat, ceiling) holds as before. So does ``away from``,
and for a piece with its back to a wall ``against`` and ``not against``.

*Clearances of others, walkway of others.* There is more free floor, never less, and a
path on less floor is a path on more. So all that others need is there as before.

*Its own clearances.* The strip beside the moved side lies on the old strip and on floor
that the old body had. That is free, unless something may share the body's floor and yet
not the strip's: what hangs over the piece, or what the piece hangs over. Strips beside
the other sides get shorter, a part of what they were.

*Its own walkways.* The path came to the old strip, not to the new one. Where the strip is
at least as deep and as long as the walkway is wide, the whole strip was part of the
walkway's floor, and old strip, freed floor and new strip make one rectangle: the path
goes on to the new one. Where it is narrower, a path steps into it from nearby, and
"nearby" may have been the part that is gone. There it may not hold.

*It also may not hold* with pieces tied to this one (their places move), a piece that is
tied to another itself, and musts such as ``near``, ``beside``, ``facing``, ``in view of``
and ``aligned`` that name it.

``shrinks`` says whether all of this holds. Where it does not, ``relaxed`` leaves out
exactly what may not hold. It allows more than the scenario, and in it smaller always
works. So where it has no arrangement at one size, the scenario has none at any larger.
"""

from __future__ import annotations

from dataclasses import replace

from arrange.data.piece import Clearance, Piece, Side
from arrange.data.scenario import RuleSetting, Scenario, Wish
from arrange.data.sizes import Dimension
from arrange.geometry.goals import must_reach
from arrange.geometry.scene import HEAD

MOVED: dict[Dimension, tuple[Side, ...]] = {
    "width": ("left", "right"),
    "depth": ("front", "back"),
    "height": (),
}
ACROSS: dict[Dimension, tuple[Side, ...]] = {
    "width": ("front", "back"),
    "depth": ("left", "right"),
    "height": (),
}


def shrinks(scenario: Scenario, name: str, dimension: Dimension) -> bool:
    """Whether every size below one that works is sure to work, down to the piece's own."""
    if dimension == "height":
        return True
    piece = scenario.piece(name)
    return (
        piece.anchor is None
        and not dependants(scenario, name)
        and all(_lasts(w, piece) for w in scenario.wishes if w.must)
        and not _moving_under(scenario, piece, dimension)
        and (not scenario.walks or all(_wide(c, piece, scenario) for c in piece.clearances))
    )


def relaxed(
    scenario: Scenario, name: str, dimension: Dimension, *, walkway: bool
) -> Scenario | None:
    """A scenario that allows more, in which smaller is sure to work.

    Without ``walkway`` nothing has to be reached at all, which is quicker to settle.
    None if there is no such scenario: a tied piece where walls are slanted.
    """
    piece = scenario.piece(name)
    if piece.anchor is not None and any(w.facing is None for w in scenario.room.walls):
        return None
    gone = dependants(scenario, name)
    kept = tuple(p for p in scenario.pieces if p.name not in gone)
    absent = gone | {p.model for p in scenario.pieces if p.name in gone}
    wishes = tuple(
        w
        for w in scenario.wishes
        if w.must and _lasts(w, piece) and not {w.piece, w.place} & absent
    )
    alone = _alone(scenario, piece, dimension)
    case = replace(
        scenario,
        pieces=tuple(alone if p.name == name else p for p in kept),
        wishes=wishes,
        held=tuple(p for p in scenario.held if p.piece not in gone),
        today=(),
    )
    if walkway:
        return case
    others = tuple(s for s in case.settings if s.rule != "walkway")
    return replace(case, settings=(*others, RuleSetting("walkway", off=True)))


def dependants(scenario: Scenario, name: str) -> set[str]:
    """Everything tied to the piece, or to what is tied to it."""
    found: set[str] = set()
    more = {name}
    while more:
        more = {p.name for p in scenario.pieces if p.anchor in more} - found
        found |= more
    return found


def _alone(scenario: Scenario, piece: Piece, dimension: Dimension) -> Piece:
    """The piece free of its tie, walked to by nobody, without strips that may not last."""
    unsure = _moving_under(scenario, piece, dimension)
    clearances = tuple(replace(c, walk=False) for c in piece.clearances if c not in unsure)
    if piece.anchor is None:
        return replace(piece, clearances=clearances)
    return replace(piece, clearances=clearances, anchor=None, slots=(), stands="free")


def _lasts(wish: Wish, piece: Piece) -> bool:
    """Whether a must holds for a smaller piece in the place of a bigger one."""
    named = {wish.piece, wish.place} & {piece.name, piece.model}
    if not named:
        return True
    if wish.relation == "away from":
        return named == {piece.name}
    on_wall = piece.stands != "free" and piece.anchor is None
    return on_wall and wish.piece == piece.name and wish.relation in ("against", "not against")


def _moving_under(scenario: Scenario, piece: Piece, dimension: Dimension) -> set[Clearance]:
    """Clearances on a moving side, if something may share floor with the body alone."""
    moving = {c for c in piece.clearances if set(c.sides) & set(MOVED[dimension]) and c.least}
    deep = max([HEAD, *(c.height for c in moving)])
    shared = [
        p
        for p in scenario.pieces
        if p.name != piece.name
        and not p.flat
        and p.bottom < deep
        and not piece.shares_space_with(p)
    ]
    fixed = [
        f
        for f in scenario.room.fixtures
        if f.solid and f.bottom < deep and (f.bottom >= piece.top or f.top <= piece.bottom)
    ]
    return moving if shared or fixed else set()


def _wide(clearance: Clearance, piece: Piece, scenario: Scenario) -> bool:
    """Whether a clearance, if it must be reached, is no narrower than the walkway."""
    if not must_reach(clearance):
        return True
    least = scenario.walkway + 1
    sides = [piece.width if s in ("front", "back") else piece.depth for s in clearance.sides]
    return all(
        mm >= least
        for mm in (clearance.least, *(s - clearance.skip_start - clearance.skip_end for s in sides))
    )
