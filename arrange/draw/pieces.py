"""Pieces in their places: outline, tint and symbol. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass

from matplotlib.artist import Artist
from shapely.geometry import Polygon

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Piece
from arrange.data.room import Vector
from arrange.data.scenario import Scenario
from arrange.draw.board import Board, Polyline
from arrange.draw.symbols import Symbol, symbol
from arrange.geometry import Frame, footprint, frame


@dataclass(frozen=True, slots=True)
class Drawn:
    """One piece on the board: its shape, its frame and its number in the owner raster."""

    piece: Piece
    shape: Polygon
    frame: Frame
    symbol: Symbol
    number: int

    @property
    def spot(self) -> Vector:
        """Where its name reads best."""
        a, b = self.symbol.spot or (self.piece.width / 2, self.piece.depth / 2)
        return self.frame.at(a, b)


def drawing_order(scenario: Scenario, arrangement: Arrangement) -> list[tuple[Piece, Placement]]:
    """From the floor up: rugs, what stands, what hangs; alike heights in file order."""
    pairs = [(scenario.piece(p.piece), p) for p in arrangement.placements]
    return sorted(pairs, key=lambda pair: (not pair[0].flat, pair[0].bottom, pair[0].top))


def draw_pieces(
    board: Board, scenario: Scenario, arrangement: Arrangement
) -> tuple[list[Drawn], list[Artist]]:
    """Every piece of the arrangement; returns them in drawing order."""
    placed: list[Drawn] = []
    artists: list[Artist] = []
    for number, (piece, placement) in enumerate(drawing_order(scenario, arrangement), start=1):
        drawn = Drawn(
            piece,
            footprint(piece, placement, scenario.room),
            frame(piece, placement, scenario.room),
            symbol(piece),
            number,
        )
        artists += draw_piece(board, drawn)
        placed.append(drawn)
    return placed, artists


def draw_piece(board: Board, drawn: Drawn) -> list[Artist]:
    """Tint, outline and strokes of one piece; what it hides counts no longer as ink."""
    style, mark = board.style, drawn.symbol
    flat, overhead = drawn.piece.flat, mark.outline_dashed
    z = 3.0 if flat else 10.0 + drawn.number * 0.02
    gid = f"piece:{drawn.piece.name}"
    board.owner.add_shape(drawn.shape, drawn.number)
    artists: list[Artist] = []
    if not overhead:
        tint = style.tints.get(mark.tint, style.tints["other"])
        artists.append(board.fill(drawn.shape, tint, 0.5 if flat else z))
        board.ink.add_shape(drawn.shape, 0.0)
    if not flat:
        board.solid.add_shape(drawn.shape)
    ring = list(drawn.shape.exterior.coords)
    dash = (5.0, 2.5) if overhead else (2.0, 1.6) if flat else ()
    width = style.outline_width * (0.75 if dash else 1.0)
    artists.append(board.lines([ring], width, style.line, z + 0.01, dash=dash, gid=gid))
    inner = style.symbol_width
    if mark.strokes:
        runs = [_on_plan(drawn.frame, s) for s in mark.strokes]
        artists.append(board.lines(runs, inner, style.line, z + 0.005))
    if mark.dashed:
        runs = [_on_plan(drawn.frame, s) for s in mark.dashed]
        artists.append(board.lines(runs, inner, style.fine, z + 0.005, dash=(0.6, 1.6)))
    return artists


def _on_plan(placed: Frame, stroke: Polyline) -> Polyline:
    return [placed.at(a, b) for a, b in stroke]
