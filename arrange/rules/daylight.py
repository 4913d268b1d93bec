"""Daylight where people work and read."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import is_nought, the
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import (
    Bounded,
    Bounds,
    Coordinate,
    Spot,
    across,
    along,
    gap,
    middle2,
    opening_spot,
)
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure
from arrange.rules.spots_near import SpotsNear, what_is_better

STEPS = (2000, 1000)  # mm to the nearest window; common practice, no source
ROLES = frozenset({"desk", "read"})


class Daylight(SpotsNear):
    """Desks and reading chairs stand within 2 m, better 1 m, of a window.

    The distance is the larger of the gap across and the gap up the plan between the
    bounds of the piece and of the window's opening; the nearest window counts. It is that of
    the middle of a desk, where the work lies: the far end of a long one is dark. A desk has
    a second claim: within 2 m, too, a window lights it from the side, 45 to 135 degrees
    off the way one looks, from the middle of the desk to the middle of a window before or
    behind it, and to some part of one along its side. Common practice, no source.
    """

    id = "daylight"
    title = "Daylight on desk and reading chair"
    roles = ROLES
    steps = STEPS

    def spots(self, scenario: Scenario) -> list[Spot]:
        """Every window."""
        return [opening_spot(scenario.room, w) for w in scenario.room.windows]

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each desk and reading chair, one more for each desk."""
        near = super().claims(scenario)
        sides = [
            Claim(self.id, claim.subjects, self.weight, STEPS[:1], ("side",))
            for claim in near
            if scenario.piece(claim.subjects[0]).is_a("desk")
        ]
        return [*near, *sides]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Near a window; for the second claim, near one that is at a side."""
        name = claim.subjects[0]
        if not claim.about:
            if not model.scenario.piece(name).is_a("desk"):
                return super().reach(model, claim)
            spots2 = [_twice(spot) for spot in self.spots(model.scenario)]
            steps2 = [2 * step for step in claim.steps]
            return model.levels_near(_middle(model.place(name)), spots2, steps2)
        desk, levels = model.place(name), [model.literal() for _ in claim.steps]
        chosen: list[list[L]] = [[] for _ in levels]
        for spot in self.spots(model.scenario):
            for hand in (1, -1):
                lit = model.literal(f"{name} lit by {spot.name}")
                for facing in FACINGS:
                    looks = [lit, model.faces(name, facing)]
                    model.when(looks, *(s >= 0 for s in _spare(desk, facing, spot, hand)))
                for choices, step in zip(chosen, claim.steps, strict=True):
                    choice = model.literal()
                    model.implies(choice, lit)
                    model.near(choice, desk, spot, step)
                    choices.append(choice)
        for level, choices in zip(levels, chosen, strict=True):
            model.one_of(choices, when=[level])
        return levels

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The nearest window; for the second claim, the nearest at a side."""
        desk = scene.find(claim.subjects[0])
        if not claim.about and not desk.piece.is_a("desk"):
            return super().measure(scene, claim)
        if not claim.about:
            spots = self.spots(scene.scenario)
            away2, name = min((gap(_middle(desk), _twice(s)), s.name) for s in spots)
            away, best = -(-away2 // 2), claim.steps[-1]
            rounded, better = what_is_better(scene, away, best)
            far = scene.length(away, rounded)
            where = "right at" if is_nought(far) else f"{far} from"
            text = f"The middle of {the(desk.name)} is {where} {the(name)}{better}"
            level = sum(away2 <= 2 * step for step in claim.steps)
            return Measure(level, text, far, scene.length(best))
        beside = [
            (gap(desk, spot), spot.name)
            for spot in self.spots(scene.scenario)
            if any(min(_spare(desk, desk.facing, spot, hand)) >= 0 for hand in (1, -1))
        ]
        wanted, said = scene.length(claim.steps[-1]), the(desk.name, first=True)
        if not beside:
            return Measure(0, f"{said} has no window to one side of it", "none", wanted)
        away, name = min(beside)
        rounded, better = what_is_better(scene, away, claim.steps[-1])
        far = scene.length(away, rounded)
        level = sum(away <= step for step in claim.steps)
        off = "right" if is_nought(far) else far
        text = f"{said} has {the(name)} {off} to one side of it{better}"
        return Measure(level, text, far, wanted)


def _middle(desk: Bounded) -> Bounds:
    """The middle, on a plan of twice the size, so that it stays whole."""
    return Bounds(*middle2(desk), *middle2(desk))


def _twice(spot: Spot) -> Spot:
    return Spot(spot.name, 2 * spot.x0, 2 * spot.y0, 2 * spot.x1, 2 * spot.y1)


def _spare(desk: Bounded, facing: Facing, spot: Spot, hand: int) -> list[Coordinate]:
    """By how much a window is aside, on that hand, rather than ahead or behind; twice."""
    aside = hand * (sum(across(spot, facing)) - sum(across(desk, facing)))
    (start, end), middle = along(spot, facing), sum(along(desk, facing))
    return [aside - (2 * start - middle), aside - (middle - 2 * end)]
