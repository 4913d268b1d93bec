"""The largest clear floor that the score counts, outlined where it lies. Lengths in mm."""

from __future__ import annotations

from collections.abc import Iterator

from matplotlib.artist import Artist
from shapely import constrained_delaunay_triangles, union_all
from shapely.geometry import Polygon, box

from arrange.data.arrangement import Arrangement
from arrange.data.room import Vector
from arrange.data.scenario import Scenario, Unit
from arrange.draw.board import Board, polygons
from arrange.rules.clear_floor import ClearFloor
from arrange.scene import HEAD, Scene, grow_down_left
from arrange.words import length

LEGEND = "Dashed square: clear floor."
ALONG = (0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75)


def clear_square(scenario: Scenario, arrangement: Arrangement) -> Polygon | None:
    """The largest square that the rule counts, in the middle of where it can lie.

    None if the rule is off, or if not even its least square fits.
    """
    scene = Scene(scenario, arrangement)
    steps = [side for claim in ClearFloor().claims(scenario) for side in claim.steps]
    fitting = [side for side in steps if scene.square_fits(side)]
    if not fitting:
        return None
    side = max(fitting)
    x, y = _corner(scene, side)
    return box(x, y, x + side, y + side)


def _corner(scene: Scene, side: int) -> tuple[float, float]:
    """A lower left corner at which the square fits: well within the largest choice of them."""
    x0, y0, x1, y1 = scene.scenario.room.bounds
    outside = box(x0 - 10, y0 - 10, x1 + 10, y1 + 10).difference(scene.room)
    shapes = [outside, *(shape for shape, low in scene.solid_fixtures if low < HEAD)]
    parts = [p for s in shapes for p in constrained_delaunay_triangles(s).geoms]
    parts += [placed.body for placed in scene.standing]
    # As the rule has it: to touch is not to be in the way.
    blocked = union_all([grow_down_left(part, side - 0.02) for part in parts])
    left = box(x0, y0, x1 - side, y1 - side).buffer(0.01).difference(blocked)
    largest = max(polygons(left), key=lambda p: (round(p.area), -p.bounds[0], -p.bounds[1]))
    middle = largest.centroid
    point = middle if largest.contains(middle) else largest.representative_point()
    return point.x, point.y


def draw_clear_square(board: Board, square: Polygon) -> list[Artist]:
    """A soft dashed outline that names keep clear of."""
    ring = list(square.exterior.coords)
    style = board.style
    return [board.lines([ring], 0.7, style.quiet, 3.8, dash=(6.0, 4.0), gid="clear floor")]


def name_clear_square(board: Board, square: Polygon, unit: Unit) -> list[Artist]:
    """What it is and how large, just inside an edge of it; nothing where there is no room."""
    x0, _, x1, _ = square.bounds
    side = length(round(x1 - x0), unit)
    colour, gid = board.style.quiet, "clear floor:text"
    for text in (f"clear floor {side} x {side}", "clear floor"):
        for size in (board.style.note_size, board.style.least_name_size):
            extent = board.size(text, size)
            for at, angle in _edges(square, extent[1] / 2 + board.mm(1.0)):
                if extent[0] < x1 - x0 and board.free(at, extent, angle):
                    return [board.text(at, text, size, colour=colour, angle=angle, gid=gid)]
    return []


def _edges(square: Polygon, off: float) -> Iterator[tuple[Vector, float]]:
    """Middles of texts along the edges, ``off`` mm inside, and their angles; level ones first."""
    x0, y0, x1, y1 = square.bounds
    for share in ALONG:
        x = x0 + (x1 - x0) * share
        yield (x, y1 - off), 0.0
        yield (x, y0 + off), 0.0
    for share in ALONG:
        y = y0 + (y1 - y0) * share
        yield (x0 + off, y), 90.0
        yield (x1 - off, y), 90.0
