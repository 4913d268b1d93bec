"""No two pieces share space."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations

from arrange.data.result import Breach
from arrange.geometry.scene import Scene
from arrange.rules.rule import Rule


class BodiesApart(Rule):
    """Footprints may touch but not overlap, unless one piece is above the other.

    A rug lies under anything that stands on it, but not under another rug; nothing
    stands on a mat to play on; a shelf hangs over what is lower than its underside.
    The model keeps bodies apart by itself, so there is nothing to build.
    """

    id = "bodies-apart"
    title = "Pieces do not share space"
    kind = "must"
    always = "two pieces cannot be in one place"

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each pair that shares space."""
        for one, two in combinations(scene.placed, 2):
            if one.piece.shares_space_with(two.piece) and scene.overlap(one.body, two.body):
                yield Breach(
                    self.id,
                    (one.name, two.name),
                    f"{one.name} and {two.name} stand in the same place",
                )
