"""Groups that keep clear of one another."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations

from arrange.data.lengths import is_nought, the
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import around, gap
from arrange.rules.groups import Group, groups
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import use_of

FIRST = "one room for all"
USES = {FIRST, "living and dining room"}
STEPS = (0, 300)  # mm between two; what is narrower is of no use. Common practice, no source


class Zones(Rule):
    """The upright box round a group shares no floor with the box round another one: level 1.

    Level 2: besides, 30 cm lie between the two, across or up the plan; a table right at the
    foot of a bed is out of its group, and looks as if it had no place. Groups are beds with
    the bedside tables tied to them, the easy seats (those to read in apart) with their
    coffee and side tables, dining tables and desks with the seats tied to them. It is asked
    where one room has several purposes: in one room for all an overlap ranks a plan below
    all without it, in a living and dining room it costs points. Common practice, no source.
    """

    id = "zones"
    title = "Groups that keep clear of one another"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each two groups, named by their main pieces."""
        use = use_of(scenario)
        if use not in USES:
            return []
        return [
            Claim(self.id, (a.main.name, b.main.name), self.weight, STEPS, first_rank=use == FIRST)
            for a, b in combinations(groups(scenario), 2)
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Some line across or up the plan lies between the two boxes."""
        one, two = (model.around(group.names) for group in _two(model.scenario, claim))
        levels = [model.literal(f"{claim.key} by {step}") for step in claim.steps]
        for level, step in zip(levels, claim.steps, strict=True):
            model.beyond(level, one, two, step)
        return levels

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How far the two boxes reach into one another, or how far apart they are."""
        one, two = (
            around([scene.find(n) for n in group.names]) for group in _two(scene.scenario, claim)
        )
        across = min(one.x1, two.x1) - max(one.x0, two.x0)
        up = min(one.y1, two.y1) - max(one.y0, two.y0)
        shared = min(across, up)
        a, b = claim.subjects
        both = f"The groups around {the(a)} and {the(b)}"
        if shared > 0:
            return Measure(0, f"{both} overlap by {scene.length(shared)}", "overlap", "apart")
        away = gap(one, two)
        level, far = sum(away >= step for step in claim.steps), scene.length(away)
        apart = "right beside each other" if is_nought(far) else f"{far} apart"
        return Measure(level, f"{both} are {apart}", far, scene.length(claim.steps[-1]))


def _two(scenario: Scenario, claim: Claim) -> list[Group]:
    """The groups of the claim's main pieces."""
    by_name = {group.main.name: group for group in groups(scenario)}
    return [by_name[name] for name in claim.subjects]
