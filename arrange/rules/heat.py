"""What can burn keeps its distance from what burns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from shapely import box
from shapely.geometry import Polygon

from arrange.data.conflict import Requirement
from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import Fixture, Room
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import fixture_shape, wall_strip
from arrange.rules.requirement import ROOM, RequirementKind
from arrange.rules.rule import KeepsOff, Region

HEATER_GAP = 914  # mm (`heater-gap`), for a heater that names no distance of its own
FRONT = 150  # mm kept free before it by everything else; common practice, no source


class Heat(KeepsOff):
    """Pieces that burn stay a distance off every heater, stove and fireplace.

    The distance (914 mm, `heater-gap`) is kept on all sides: the heater's body
    is grown by it with square corners, along its own sides if it stands aslant.
    Walls do not shorten it, but for a fire set into its wall, without depth: what stands
    behind the line of that wall, as in an alcove beside a chimney breast, cannot be seen from
    it. Rugs burn like all else. Pieces that do not burn leave 150 mm in front free (on all
    sides of a heater that stands free).
    """

    id = "heat"
    title = "Heat kept from what burns"
    kind = "must"
    takes = ("least",)
    source = "heater-gap"
    kinds = (RequirementKind("heat", ROOM, 3),)

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """Two regions for each fixture that burns."""
        found: list[Region] = []
        for fixture in scenario.room.fixtures:
            if not fixture.burns or (fixture.wall is None and not fixture.corners):
                continue
            keep = self._distance(scenario, fixture)
            why = f"stands too near {the(fixture.name)}, which can set it alight"
            if keep:
                shape = _around(scenario.room, fixture, keep)
                found.append(Region(shape, why, fixture.name, keeps_out=_burns, rugs_too=True))
            front = min(FRONT, keep)
            if front:
                shape = _front(scenario.room, fixture, front)
                why = f"boxes in {the(fixture.name)}"
                found.append(Region(shape, why, fixture.name, keeps_out=_not_burns))
        return found

    def _distance(self, scenario: Scenario, fixture: Fixture) -> int:
        """The person's own distance, else the fixture's, else the published one."""
        least = scenario.setting(self.id).least
        if least is not None:
            return least
        if fixture.wall is None and not fixture.keep and fixture.source != "yours":
            return HEATER_GAP
        return fixture.keep

    # -- what can be asked of it: it is about safety, so it never gives ---
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """The distance kept from each fixture that burns."""
        off = scenario.setting(self.id).off
        return [Requirement("heat", f.name) for f in scenario.room.fixtures if f.burns and not off]

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """A fixture that is not kept does not burn."""
        gone = {r.name for r in self.requirements(whole) if r not in kept}
        fixtures = tuple(
            replace(f, burns=False, keep=0) if f.name in gone else f for f in scenario.room.fixtures
        )
        return replace(scenario, room=replace(scenario.room, fixtures=fixtures))

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """From what."""
        del scenario, among
        return f"what can burn keeps its distance from {the(requirement.name)}"


def _burns(piece: Piece) -> bool:
    return piece.burns


def _not_burns(piece: Piece) -> bool:
    return not piece.burns


def _around(room: Room, fixture: Fixture, distance: int) -> Polygon:
    if fixture.wall is not None and not fixture.depth:
        wide = fixture.width + 2 * distance
        return wall_strip(room.walls[fixture.wall], fixture.offset - distance, wide, distance)
    return _grown(fixture_shape(fixture), distance)


def _grown(body: Polygon, distance: int) -> Polygon:
    x0, y0, x1, y1 = body.bounds
    if abs(body.area - (x1 - x0) * (y1 - y0)) < 1e-3:
        return box(x0 - distance, y0 - distance, x1 + distance, y1 + distance)
    return body.buffer(distance, join_style="mitre")


def _front(room: Room, fixture: Fixture, depth: int) -> Polygon:
    if fixture.wall is None:
        return _grown(fixture_shape(fixture), depth)
    start = fixture.depth
    wall = room.walls[fixture.wall]
    return wall_strip(wall, fixture.offset, fixture.width, start + depth, start=start)
