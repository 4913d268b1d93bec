"""What the words for how a room should feel change. Our own table, common practice."""

from __future__ import annotations

from arrange.data.scenario import Scenario

ORDINARY = 2  # factors are in halves: 2 leaves a rule's weight as it is

# word -> rule id -> factor in halves (4 doubles the weight, 1 halves it)
FEEL: dict[str, dict[str, int]] = {}


def feel_factor(scenario: Scenario, rule: str) -> int:
    """The factor, in halves, that the scenario's feel words put on a rule's weight.

    The strongest change wins when two words speak of one rule: never 0.
    """
    factors = [FEEL[w][rule] for w in scenario.feel if w in FEEL and rule in FEEL[w]]
    return max(factors, key=lambda f: (abs(f - ORDINARY), f)) if factors else ORDINARY


def words_without_effect(scenario: Scenario) -> tuple[str, ...]:
    """The feel words that no floor plan can answer."""
    return tuple(w for w in scenario.feel if w not in FEEL)
