"""What is built in keeps its place and the floor it needs."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.scenario import Scenario
from arrange.geometry.shapes import fixture_keep, fixture_shape
from arrange.rules.rule import Region, Rule


class FixturesFree(Rule):
    """Nothing stands in a fixture, or on the floor kept free in front of it.

    Radiators are not boxed in (`radiator-gap`), built-in cupboards open. A
    clearance may not reach into the body of a fixture either.
    """

    id = "fixtures-free"
    title = "Fixtures reachable, radiators not boxed in"
    kind = "must"
    always = "give the fixture keep_free = 0 instead"
    source = "radiator-gap"

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """A region for each body and one for each strip kept free."""
        regions: list[Region] = []
        for fixture in scenario.room.fixtures:
            body, keep = fixture_shape(fixture), fixture_keep(scenario.room, fixture)
            if fixture.solid and not body.is_empty:
                regions.append(
                    Region(
                        body,
                        f"stands in {fixture.name}",
                        bottom=fixture.bottom,
                        top=fixture.top,
                        blocks_use=True,
                    )
                )
            if not keep.is_empty and not fixture.burns:
                regions.append(Region(keep, f"boxes in {fixture.name}", top=fixture.keep_below))
        return regions
