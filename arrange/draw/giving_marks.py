"""Marks on a plan for what gives: pieces, strips, doors, fixtures. Lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from matplotlib.artist import Artist
from shapely.geometry import LineString, Polygon

from arrange.data.change import GiveUpFixture, GiveUpOpening, LowerClearance, Rehang
from arrange.data.giving import Proposal
from arrange.data.room import Vector
from arrange.data.scenario import Scenario
from arrange.draw.board import Board
from arrange.draw.pieces import Drawn
from arrange.draw.plan import Marks
from arrange.draw.shell import leaf_and_arc
from arrange.draw.style import Style
from arrange.geometry import fixture_shape, wall_strip
from arrange.scene import Scene

THICK = 2.2  # points
OUTLINED = ("smaller", "move", "untie", "turn", "wish")  # what gives is the piece itself
DASH = (4.0, 2.4)
UNDER, ABOVE = 2.0, 15.0  # below all pieces; over all pieces, under all text
TINT = "#cfe3ea"
DEEP = 150  # mm of floor marked before an opening that is given up


def marks_of(proposal: Proposal) -> Marks:
    """Draws a thick line round each piece that gives, and along what else does.

    A strip that came down is tinted with a dashed edge; one given up altogether is a
    dashed line along its side. What is left out is not there to be marked.
    """

    def draw(board: Board, placed: list[Drawn]) -> list[Artist]:
        shapes = {d.piece.name: d.shape for d in placed}
        scene = Scene(proposal.scenario, proposal.suggestion.arrangement)
        drawn: list[Artist] = []
        for one in proposal.gives:
            for change in one.changes:
                if isinstance(change, LowerClearance):
                    drawn += _strip(board, scene, change)
                elif isinstance(change, Rehang):
                    drawn += _door(board, proposal.scenario, change.door)
                elif isinstance(change, GiveUpFixture):
                    drawn += _fixture(board, proposal.scenario, change.fixture)
                elif isinstance(change, GiveUpOpening):
                    drawn += _window(board, proposal.scenario, change.window)
            if (
                one.thing[0] in ("smaller", "move", "untie", "turn", "wish")
                and one.names[0] in shapes
            ):
                drawn.append(_round(board, shapes[one.names[0]], one.names[0]))
        return drawn

    return draw


def _round(board: Board, shape: Polygon, name: str, dash: Sequence[float] = ()) -> Artist:
    style: Style = board.style
    ring: list[Vector] = list(shape.exterior.coords)
    gid = f"gives:{name}"
    return board.lines([ring], THICK, style.accent, ABOVE, dash=tuple(dash), gid=gid)


def _strip(board: Board, scene: Scene, change: LowerClearance) -> list[Artist]:
    placed = scene.find(change.piece)
    own = next(c for c in placed.piece.clearances if c.name == change.clearance)
    gid = f"gives:{change.piece}"
    if change.to == 0:
        # A strip of no depth is the side itself, less what it leaves out.
        side = scene.zone(placed, own, own.sides[0], 1).intersection(placed.body.buffer(0.5))
        ends = side.minimum_rotated_rectangle.exterior.coords
        edges = [LineString(pair) for pair in pairwise(ends)]
        line = list(max(edges, key=lambda e: e.length).coords)
        return [board.lines([line], 2 * THICK, board.style.accent, ABOVE, dash=DASH, gid=gid)]
    sides = scene.free_sides(placed, own, change.to) or own.sides
    zone = scene.zone(placed, own, sides[0], change.to)
    edge = _round(board, zone, change.piece, DASH)
    return [board.fill(zone, TINT, UNDER, gid=f"strip:{change.piece}"), edge]


def _door(board: Board, scenario: Scenario, name: str) -> list[Artist]:
    room = scenario.room
    door = next(d for d in room.doors if d.name == name)
    leaf, arc = leaf_and_arc(room.walls[door.wall], door, board.style.wall)
    swing = board.lines([arc], THICK, board.style.accent, ABOVE, dash=DASH, gid=f"gives:{name}")
    return [_round(board, leaf, name), swing]


def _fixture(board: Board, scenario: Scenario, name: str) -> list[Artist]:
    fixture = next(f for f in scenario.room.fixtures if f.name == name)
    shape = fixture_shape(fixture)
    if shape.is_empty and fixture.wall is not None:
        wall = scenario.room.walls[fixture.wall]
        shape = wall_strip(wall, fixture.offset, max(fixture.width, DEEP), DEEP)
    return [] if shape.is_empty else [_round(board, shape, name)]


def _window(board: Board, scenario: Scenario, name: str) -> list[Artist]:
    room = scenario.room
    window = next(w for w in room.windows if w.name == name)
    strip = wall_strip(room.walls[window.wall], window.offset, window.width, DEEP)
    return [_round(board, strip, name, DASH)]
