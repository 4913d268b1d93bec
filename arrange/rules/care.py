"""Cot, changing table and chair of a nursery close together."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from arrange.data.lengths import is_nought, listed, the
from arrange.data.piece import Piece
from arrange.data.room import FACINGS
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import along, gap, opening_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import entrance, largest, largest_of, use_of

NEAR = 2500  # mm, `cot-triangle-mm`
CHANGING = "changing table"


class Care(Rule):
    """Cot, changing table and chair are within 2.5 m; from the chair cot and door are seen.

    In nurseries. Level 1: each of the three that are there is within 2.5 m of each other,
    by the larger of the gaps across and up the plan. Level 2, with an easy chair and a
    door: besides, the middles of the cot and of the main doorway are not behind the middle
    of the chair, going by its nearest quarter turn. Source `cot-triangle-mm`.
    """

    id = "care"
    title = "Cot, changing table and chair together"
    source = "cot-triangle-mm"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim, in nurseries with a cot and one of the others."""
        names = tuple(p.name for p in _group(scenario))
        if use_of(scenario) != "nursery" or not _cot(scenario) or len(names) < 2:
            return []
        watched = _chair(scenario) and scenario.room.main_door
        steps = (1, 2) if watched else (1,)
        return [Claim(self.id, names, self.weight, steps, (), self.source)]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Near each other in pairs; for each turn of the chair the two are ahead."""
        scenario, near = model.scenario, model.literal("close to care")
        for one, two in combinations(claim.subjects, 2):
            model.near(near, model.place(one), model.place(two), NEAR)
        chair, cot = _chair(scenario), _cot(scenario)
        if len(claim.steps) == 1 or chair is None or cot is None:
            return [near]
        sees, door = model.literal(), opening_spot(scenario.room, entrance(scenario.room))
        seat, bed = model.place(chair.name), model.place(cot.name)
        for facing in FACINGS:
            middle = sum(along(seat, facing))
            looks = [sees, model.faces(chair.name, facing)]
            model.when(looks, sum(along(bed, facing)) >= middle)
            model.when(looks, sum(along(door, facing)) >= middle)
        return [near, sees]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The two that are farthest apart, and what is behind the chair."""
        pairs = combinations(claim.subjects, 2)
        away, one, two = max((gap(scene.find(a), scene.find(b)), a, b) for a, b in pairs)
        far, wanted = scene.length(away), scene.length(NEAR)
        if away > NEAR:
            return Measure(0, f"{the(one, first=True)} is {far} from {the(two)}", far, wanted)
        names = [the(name, first=not i) for i, name in enumerate(claim.subjects)]
        apart = "right beside one another" if is_nought(far) else f"within {far} of one another"
        close = f"{listed(names)} are {apart}"
        behind = _behind(scene) if len(claim.steps) == 2 else []
        if behind:
            verb = "is" if len(behind) == 1 else "are"
            text = f"{close}, but {listed(behind)} {verb} out of sight of the chair"
            return Measure(1, text, far, wanted)
        return Measure(len(claim.steps), close, far, wanted)


def _behind(scene: Scene) -> list[str]:
    """What the chair has at its back, of cot and door."""
    scenario = scene.scenario
    chair, cot = _chair(scenario), _cot(scenario)
    if chair is None or cot is None:
        return []
    seat, door = scene.find(chair.name), opening_spot(scenario.room, entrance(scenario.room))
    middle = sum(along(seat, seat.facing))
    return [
        the(name)
        for name, thing in ((cot.name, scene.find(cot.name)), (door.name, door))
        if sum(along(thing, seat.facing)) < middle
    ]


def _cot(scenario: Scenario) -> Piece | None:
    return largest_of(scenario, "cot")


def _chair(scenario: Scenario) -> Piece | None:
    return largest_of(scenario, "lounge")


def _group(scenario: Scenario) -> list[Piece]:
    table = largest([p for p in scenario.pieces if p.kind == CHANGING])
    return [p for p in (_cot(scenario), table, _chair(scenario)) if p is not None]
