"""When two arrangements count as different: a major piece on another wall or turned."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Piece
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import facing_of, turns
from arrange.solver.boxes import Expr, Literal
from arrange.solver.model import Model

Spot = tuple[int | None, Facing]
Key = tuple[tuple[str, tuple[Spot, ...]], ...]


def majors(scenario: Scenario) -> list[Piece]:
    """The pieces that tell families apart; all pieces if none is major."""
    return [p for p in scenario.pieces if p.major] or list(scenario.pieces)


def key_of(scenario: Scenario, arrangement: Arrangement) -> Key:
    """Where the major pieces stand: for each model its spots, alike pieces in no order."""
    spots: dict[str, list[Spot]] = {}
    for piece in majors(scenario):
        placement = arrangement.of(piece.name)
        wall = placement.wall if piece.anchor is None else None
        facing = facing_of(placement, scenario.room)
        spot = (wall, facing if wall is not None else _looks(piece, facing))
        spots.setdefault(_group(piece), []).append(spot)
    return tuple((model, tuple(sorted(s, key=_order))) for model, s in sorted(spots.items()))


def _group(piece: Piece) -> str:
    """Alike pieces that go with the same thing can be swapped."""
    return piece.model if piece.anchor is None else f"{piece.model} with {piece.anchor}"


def _looks(piece: Piece, facing: Facing) -> Facing:
    """The facing, or the one that stands for it if the piece looks the same turned round."""
    different = turns(piece)
    return facing if facing in different else different[FACINGS.index(facing) % len(different)]


def _order(spot: Spot) -> tuple[int, str]:
    return (-1 if spot[0] is None else spot[0], spot[1])


def exclude(model: Model, keys: Iterable[Key]) -> None:
    """No arrangement of these families any more: some spot has fewer of its pieces."""
    for key in keys:
        fewer: list[Literal] = []
        for count, times in _counts(model, key):
            fewer.append(model.literal())
            model.when(fewer[-1], count <= times - 1)
        model.one_of(fewer)


def hold_to(model: Model, key: Key) -> None:
    """Only arrangements of this family."""
    for count, times in _counts(model, key):
        model.must(count == times)


def _counts(model: Model, key: Key) -> list[tuple[Expr, int]]:
    """For each spot of the key: how many of its pieces stand so, and how many should."""
    counts: list[tuple[Expr, int]] = []
    for name, spots in key:
        pieces = [p for p in majors(model.scenario) if _group(p) == name]
        for spot, times in sorted(Counter(spots).items(), key=lambda item: _order(item[0])):
            literals = [x for piece in pieces for x in _literals(model, piece, spot)]
            counts.append((sum(literals) if literals else model.number(0, 0), times))
    return counts


def _literals(model: Model, piece: Piece, spot: Spot) -> list[Literal]:
    """The literals one of which is true if the piece stands in the spot."""
    wall, facing = spot
    if wall is not None:
        literal = model.on_wall(piece.name, wall)
        return [] if literal is None else [literal]
    return [model.faces(piece.name, f) for f in FACINGS if _looks(piece, f) == facing]


def named(scenario: Scenario, key: Key) -> tuple[tuple[str, str, str], ...]:
    """The key in words: model, wall name or "free", facing; one entry a piece."""
    walls = scenario.room.walls
    return tuple(
        (model, "free" if wall is None else walls[wall].name, facing)
        for model, spots in key
        for wall, facing in spots
    )
