"""Marks for what is no longer as it was: thick outlines, dashed ghosts, arrows. Lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.artist import Artist
from matplotlib.patches import FancyArrowPatch
from shapely import union_all
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import linemerge

from arrange.data.swap import Moved, Plan
from arrange.draw.board import Board, polygons
from arrange.draw.pieces import Drawn
from arrange.draw.plan import Marks
from arrange.geometry import footprint

THICK, INSET = 2.0, 3.0  # points: the outline, and the second line inside it
DASH = (3.2, 2.2)
FAR = 350  # mm; a shorter way needs no arrow
CROWD = 4  # more moved pieces than these: old places of the large ones alone
ABOVE = 15.0  # over all pieces, under all text


def marks_after(before: Plan, moved: Sequence[Moved]) -> Marks:
    """Marks for the plan after: moved pieces thick, changed ones double, old places dashed.

    Where many moved, only the large ones show where they were: ``traced`` says which.
    """
    shown = traced(before, moved)

    def draw(board: Board, placed: list[Drawn]) -> list[Artist]:
        shapes = {d.piece.name: d.shape for d in placed}
        over = {d.piece.name: _on_top(d, placed) for d in placed}
        drawn: list[Artist] = []
        for one in moved:
            old = _old(before, one.was) if one in shown else None
            if old is not None:
                drawn += _ghost(board, old, one.was)
            new = shapes.get(one.piece) if one.move != "gone" else None
            if new is not None:
                double = one.move in ("changed", "new")
                drawn += outlined(board, new, one.piece, double=double, under=over[one.piece])
            if old is not None and new is not None and one.far >= FAR:
                drawn.append(_arrow(board, old, new, one.piece))
        return drawn

    return draw


def traced(before: Plan, moved: Sequence[Moved]) -> tuple[Moved, ...]:
    """The moves whose old places are drawn."""
    there = tuple(m for m in moved if m.was and m.move not in ("new", "gone"))
    if len(there) <= CROWD:
        return there
    return tuple(m for m in there if before.scenario.piece(m.was).major)


def marks_before(moved: Sequence[Moved]) -> Marks:
    """Marks for the plan before: a cross through what is left out."""
    gone = {one.piece for one in moved if one.move == "gone"}

    def draw(board: Board, placed: list[Drawn]) -> list[Artist]:
        crosses = [_cross(d.shape) for d in placed if d.piece.name in gone]
        runs = [run for cross in crosses for run in cross]
        style = board.style
        if not runs:
            return []
        return [board.lines(runs, style.outline_width, style.edge, ABOVE, gid="gone")]

    return draw


def outlined(
    board: Board,
    shape: Polygon,
    name: str,
    *,
    double: bool = False,
    under: BaseGeometry | None = None,
) -> list[Artist]:
    """A thick outline, with a second line inside it for what is not the same piece.

    ``under`` is what lies on it and hides it there.
    """
    style = board.style
    hidden = Polygon() if under is None else under
    rings = [(shape, THICK, f"moved:{name}")]
    if double:
        inner = shape.buffer(-board.mm(INSET), join_style="mitre")
        rings += [(p, style.outline_width, f"changed:{name}") for p in polygons(inner)]
    return [
        board.lines(_runs(ring.exterior.difference(hidden)), width, style.edge, ABOVE, gid=gid)
        for ring, width, gid in rings
    ]


def _on_top(drawn: Drawn, placed: Sequence[Drawn]) -> BaseGeometry:
    """What lies on a rug or mat; nothing for other pieces."""
    if not drawn.piece.flat:
        return Polygon()
    return union_all([d.shape for d in placed if not d.piece.flat])


def _runs(lines: BaseGeometry) -> list[list[tuple[float, float]]]:
    """The lines of a shape as runs of points, joined where they meet."""
    if lines.is_empty:
        return []
    whole = linemerge(lines) if lines.geom_type.startswith("Multi") else lines
    return [list(part.coords) for part in getattr(whole, "geoms", [whole])]


def _old(before: Plan, name: str) -> Polygon | None:
    if not name:
        return None
    piece = before.scenario.piece(name)
    return footprint(piece, before.arrangement.of(name), before.scenario.room)


def _ghost(board: Board, shape: Polygon, name: str) -> list[Artist]:
    ring = list(shape.exterior.coords)
    style = board.style
    return [
        board.lines([ring], 2.2, style.paper, ABOVE - 0.4, ink=False),
        board.lines([ring], 1.0, style.loss, ABOVE - 0.3, dash=DASH, gid=f"was:{name}"),
    ]


def _arrow(board: Board, old: Polygon, new: Polygon, name: str) -> Artist:
    start, end = old.centroid, new.centroid
    style = board.style
    board.ink.add_line([(start.x, start.y), (end.x, end.y)])
    arrow = FancyArrowPatch(
        (start.x, start.y),
        (end.x, end.y),
        arrowstyle="-|>",
        mutation_scale=7.0,
        linewidth=1.0,
        color=style.loss,
        shrinkA=0.0,
        shrinkB=0.0,
        zorder=ABOVE - 0.2,
    )
    arrow.set_gid(f"way:{name}")
    board.ax.add_artist(arrow)
    return arrow


def _cross(shape: Polygon) -> list[list[tuple[float, float]]]:
    a, b, c, d = list(shape.exterior.coords)[:4]
    return [[a, c], [b, d]]
