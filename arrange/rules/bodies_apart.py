"""No two pieces share space."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations

from arrange.data.result import Breach
from arrange.rules.base import Rule
from arrange.scene import Scene


class BodiesApart(Rule):
    """Footprints may touch but not overlap, unless one piece is above the other.

    A rug lies under anything that stands on it, but not under another rug; a
    shelf hangs over what is lower than its underside. The model keeps bodies
    apart by itself, so there is nothing to build.
    """

    id = "bodies-apart"
    title = "Pieces do not share space"
    kind = "must"
    always = "two pieces cannot be in one place"

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each pair that shares space."""
        for one, two in combinations(scene.placed, 2):
            if one.piece.flat != two.piece.flat:
                continue
            apart = one.piece.bottom >= two.piece.top or two.piece.bottom >= one.piece.top
            if not apart and scene.overlap(one.body, two.body):
                yield Breach(
                    self.id,
                    (one.name, two.name),
                    f"{one.name} and {two.name} stand in the same place",
                )
