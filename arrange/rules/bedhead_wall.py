"""The bedhead on solid wall, not under a window."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.room import Window
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule, off_its_wall
from arrange.rules.selectors import beds


class BedheadWall(Rule):
    """No part of the bed's width is under a window of the wall at its head.

    Half the points where the middle half of its width is on solid wall. Beds may touch
    the edge of the window. Daybeds have no head; a bed tied to another piece or standing
    free has no wall. Source `hf-bed-window`.
    """

    id = "bedhead-wall"
    title = "Bedhead against a solid wall"
    source = "hf-bed-window"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim a bed, in rooms with a window."""
        if not scenario.room.windows:
            return []
        return [
            Claim(self.id, (bed.name,), self.weight, (1, 2), (), self.source)
            for bed in beds(scenario)
            if bed.backs
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """On each wall, what counts of the bed begins and ends between two windows."""
        name = claim.subjects[0]
        width = model.scenario.piece(name).width
        half = model.literal(f"{name} with the middle of its head on solid wall")
        whole = model.literal(f"{name} with its head on solid wall")
        for level, edge in ((half, width // 4), (whole, 0)):
            model.backed(level, name)
            for wall in model.wall_choices(name):
                free, start = [], 0
                for window in sorted(_windows(model.scenario, wall), key=lambda w: w.offset):
                    free.append((start - edge, window.offset - width + edge))
                    start = window.offset + window.width
                model.starts_in(level, name, wall, [*free, (start - edge, 100_000)])
        return [half, whole]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The windows over the bed's stretch of wall."""
        bed = scene.find(claim.subjects[0])
        stretch = scene.wall_stretch(bed)
        if stretch is None:
            return off_its_wall(bed.name, "solid wall")
        wall, left, right = stretch
        over = _over(scene.scenario, wall, left, right)
        edge = bed.piece.width // 4
        middle = _over(scene.scenario, wall, left + edge, right - edge)
        level, where = 2, "is against a solid wall, not under a window"
        if middle:
            level, where = 0, f"is under {the(middle[0])}"
        elif over:
            level = 1
            where = f"is partly under {the(over[0])}, with its middle against a solid wall"
        return Measure(
            level,
            f"The head of {the(bed.name)} {where}",
            "under a window" if over else "solid wall",
            "solid wall",
        )


def _over(scenario: Scenario, wall: int, left: int, right: int) -> list[str]:
    """The windows over a stretch of wall, from left to right in mm along it."""
    return [
        w.name for w in _windows(scenario, wall) if left < w.offset + w.width and w.offset < right
    ]


def _windows(scenario: Scenario, wall: int) -> list[Window]:
    return [w for w in scenario.room.windows if w.wall == wall]
