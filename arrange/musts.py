"""A scenario reduced to what must hold: whether anything works does not depend on wishes."""

from __future__ import annotations

from dataclasses import replace

from arrange.data.scenario import Scenario
from arrange.rules import RULES
from arrange.rules.wished import OwnWish


def musts_only(scenario: Scenario) -> Scenario:
    """The same scenario without anything that earns points.

    The person's own wishes stay where they are musts. Whatever works here works
    there, and the other way round.
    """
    off = tuple(
        replace(scenario.setting(rule.id), off=True)
        for rule in RULES
        if rule.kind == "wish" and not isinstance(rule, OwnWish)
    )
    changed = {setting.rule for setting in off}
    kept = tuple(s for s in scenario.settings if s.rule not in changed)
    wishes = tuple(wish for wish in scenario.wishes if wish.must)
    return replace(scenario, wishes=wishes, settings=(*kept, *off), feel=())
