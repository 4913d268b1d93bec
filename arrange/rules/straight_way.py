"""A straight way through the room."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.geometry import LineString, Polygon

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import Door, Window
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Scene
from arrange.geometry.shapes import fixture_shape, opening_span
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import entrance, largest_window

LONGEST = 5000  # mm to a door that is not straight across; common practice, no source
ACROSS = -0.99  # the cosine from which two walls are opposite each other


class StraightWay(Rule):
    """The straight strip from the main door to another door or French window is free of pieces.

    From the middle of one opening to the middle of the other, as wide as the
    walkway. In a room with one door it leads to the largest window: there nobody walks,
    people look, and over what is no higher than the sill. Rugs and what hangs above 2 m
    do not count. There is nothing to earn where the line leaves the room, meets a fixture,
    or both ends are in one wall; nor to a door more than 5 m off in a wall that is not
    opposite: slantwise through a large room people walk round things. Common practice, no
    source.
    """

    id = "straight-way"
    title = "A straight way through the room"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each other door, else one for the largest window."""
        return [
            Claim(self.id, (), self.weight, (scenario.walkway,), (end.name,))
            for end in _ends(scenario)
            if _is_short(scenario, end) and _is_open(scenario, end)
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Every standing piece is off the strip."""
        level = model.literal(f"straight way to {claim.about[0]}")
        end = _end(model.scenario, claim)
        strip = _strip(model.scenario, end)
        for piece in model.scenario.pieces:
            if not piece.flat and piece.bottom < HEAD and _is_in_the_way(piece, end):
                model.off_floor(level, piece.name, strip)
        return [level]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The standing pieces on the strip."""
        end = _end(scene.scenario, claim)
        strip = _strip(scene.scenario, end)
        high = [p for p in scene.standing if _is_in_the_way(p.piece, end)]
        on = [p.name for p in high if scene.stands_on(p, strip)]
        start = the(entrance(scene.scenario.room).name)
        way = f"direct route from {start} to {the(claim.about[0])}"
        text = f"{the(on[0], first=True)} blocks the {way}" if on else f"The {way} is free"
        width = scene.length(claim.steps[0])
        return Measure(0 if on else 1, text, "blocked" if on else width, width)


def _ends(scenario: Scenario) -> list[Door | Window]:
    main, window = scenario.room.main_door, largest_window(scenario)
    if main is None:
        return []
    others: list[Door | Window] = [d for d in scenario.room.all_doors if d is not main]
    return others or ([] if window is None else [window])


def _end(scenario: Scenario, claim: Claim) -> Door | Window:
    return next(e for e in _ends(scenario) if e.name == claim.about[0])


def _is_in_the_way(piece: Piece, end: Door | Window) -> bool:
    """Whether it would stop somebody on the way to a door, or the look to a window."""
    return isinstance(end, Door) or piece.top > end.sill


def _line(scenario: Scenario, end: Door | Window) -> LineString:
    spans = [opening_span(scenario.room, o) for o in (entrance(scenario.room), end)]
    return LineString([((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in spans])


def _strip(scenario: Scenario, end: Door | Window) -> Polygon:
    return _line(scenario, end).buffer(scenario.walkway / 2, cap_style="flat")


def _is_short(scenario: Scenario, end: Door | Window) -> bool:
    """Whether people would walk to a door in one line; they look to a window from afar."""
    walls = scenario.room.walls
    (ax, ay), (bx, by) = (walls[o.wall].inward for o in (entrance(scenario.room), end))
    opposite = ax * bx + ay * by <= ACROSS
    return isinstance(end, Window) or opposite or _line(scenario, end).length <= LONGEST


def _is_open(scenario: Scenario, end: Door | Window) -> bool:
    """Whether people could walk straight there in the empty room."""
    line, room = _line(scenario, end), scenario.room
    bodies = [fixture_shape(f) for f in room.obstructions if f.bottom < HEAD and f.wall != end.wall]
    inside = Polygon(room.corners).buffer(1).covers(line)
    one_wall = end.wall == entrance(room).wall
    return inside and not one_wall and not any(line.intersects(b) for b in bodies)
