"""When two arrangements count as different: a major piece on another wall or turned."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import permutations, product

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Piece
from arrange.data.room import Facing
from arrange.data.scenario import Scenario
from arrange.geometry import facing_of
from arrange.solver.boxes import Literal
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
        spots.setdefault(piece.model, []).append((wall, facing))
    return tuple((model, tuple(sorted(s, key=_order))) for model, s in sorted(spots.items()))


def _order(spot: Spot) -> tuple[int, str]:
    return (-1 if spot[0] is None else spot[0], spot[1])


def exclude(model: Model, keys: Iterable[Key]) -> None:
    """No arrangement of these families any more."""
    for key in keys:
        for literals in _sayings(model, key):
            model.forbid(*literals)


def hold_to(model: Model, key: Key) -> None:
    """Only arrangements of this family."""
    sayings = _sayings(model, key)
    if len(sayings) == 1:
        for literal in sayings[0]:
            model.one_of([literal])
    else:
        model.one_of([model.both(*literals) for literals in sayings])


def _sayings(model: Model, key: Key) -> list[list[Literal]]:
    """The key as literals, once for each way to hand its spots to alike pieces."""
    groups: list[list[list[Literal]]] = []
    for name, spots in key:
        pieces = [p for p in majors(model.scenario) if p.model == name]
        ways = [
            [_literal(model, piece, spot) for piece, spot in zip(pieces, order, strict=True)]
            for order in sorted(set(permutations(spots)), key=str)
        ]
        groups.append(ways)
    return [[literal for group in choice for literal in group] for choice in product(*groups)]


def _literal(model: Model, piece: Piece, spot: Spot) -> Literal:
    wall, facing = spot
    if wall is not None:
        literal = model.on_wall(piece.name, wall)
        if literal is None:
            raise KeyError(f"{piece.name} cannot stand on wall {wall}")
        return literal
    return model.faces(piece.name, facing)


def named(scenario: Scenario, key: Key) -> tuple[tuple[str, str, str], ...]:
    """The key in words: model, wall name or "free", facing; one entry a piece."""
    walls = scenario.room.walls
    return tuple(
        (model, "free" if wall is None else walls[wall].name, facing)
        for model, spots in key
        for wall, facing in spots
    )
