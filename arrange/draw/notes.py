"""Notes on the survey: what was measured of each opening and fixture. Lengths in mm."""

from __future__ import annotations

from copy import copy

from shapely import box
from shapely.geometry import LineString, Point
from shapely.geometry.base import BaseGeometry

from arrange.data.room import Door, Fixture, Room, Window
from arrange.data.scenario import Unit
from arrange.draw.board import Board
from arrange.draw.finding import Wanted, write_nearby
from arrange.draw.fixtures import anchor_point, has_body
from arrange.geometry import fixture_shape, opening_span, room_shape
from arrange.words import length


def draw_notes(board: Board, room: Room, unit: Unit) -> None:
    """One note for each opening and fixture.

    A radiator under a window shares the window's note: two leaders to the same
    stretch of wall would cross.
    """
    style = board.style
    shared: list[Fixture] = []
    for window in room.windows:
        under = [f for f in room.fixtures if has_body(f) and f not in shared and _meets(f, window)]
        shared += under
        lines = [window.name, *_window_lines(window, unit)]
        lines += [f"{f.name} below: {_fixture_words(f, unit)}" for f in under]
        target = LineString(opening_span(room, window))
        _write_inside(board, room, target, lines, style.accent, f"note:{window.name}")
    for door in room.doors:
        lines = [door.name, f"{length(door.height, unit)} high, {_swing_words(door)}"]
        target = LineString(opening_span(room, door))
        _write_inside(board, room, target, lines, style.accent, f"note:{door.name}")
    for fixture in room.fixtures:
        target_shape = _target(room, fixture)
        if fixture in shared or target_shape is None:
            continue
        lines = [line for line in (fixture.name, _fixture_words(fixture, unit)) if line]
        _write_inside(board, room, target_shape, lines, style.quiet, f"note:{fixture.name}")


def _write_inside(
    board: Board, room: Room, target: BaseGeometry, lines: list[str], colour: str, gid: str
) -> None:
    """Write in the room, folded at the commas if need be, so that dimensions have the outside.

    Only where the room itself has no place does the note go out.
    """
    text = "\n".join(lines)
    wanted = Wanted((text, text.replace(", ", ",\n")), (board.style.note_size, 5.5), colour)
    everywhere = board.solid
    board.solid = copy(everywhere)
    board.solid.marks = everywhere.marks.copy()
    board.solid.add_shape(box(*board.view).difference(room_shape(room)))
    written = write_nearby(board, target, wanted, gid)
    board.solid = everywhere
    if not written:
        write_nearby(board, target, wanted, gid)


def _meets(fixture: Fixture, window: Window) -> bool:
    return (
        fixture.wall == window.wall
        and fixture.offset < window.offset + window.width
        and window.offset < fixture.offset + fixture.width
    )


def _target(room: Room, fixture: Fixture) -> BaseGeometry | None:
    if has_body(fixture):
        return fixture_shape(fixture)
    point = anchor_point(room, fixture)
    return Point(point) if point else None


def _window_lines(window: Window, unit: Unit) -> list[str]:
    lines = [f"sill {length(window.sill, unit)}, head {length(window.head, unit)}"]
    words = [
        w for w, on in (("must open", window.must_open), ("way of escape", window.escape)) if on
    ]
    return [*lines, ", ".join(words)] if words else lines


def _swing_words(door: Door) -> str:
    if door.opens == "sliding":
        return f"slides to the {door.hinge}"
    return f"opens {door.opens}, hinged {door.hinge}"


def _fixture_words(fixture: Fixture, unit: Unit) -> str:
    words = []
    if has_body(fixture):
        bounds = fixture_shape(fixture).bounds
        across = fixture.width or round(bounds[2] - bounds[0])
        deep = fixture.depth or round(bounds[3] - bounds[1])
        words.append(f"{length(across, unit)} x {length(deep, unit)}")
    if fixture.wall is not None:
        words.append(f"{length(fixture.offset, unit)} from the left")
    if not has_body(fixture) and fixture.bottom:
        words.append(f"{length(fixture.bottom, unit)} up")
    return ", ".join(words)
