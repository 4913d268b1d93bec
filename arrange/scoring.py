"""How the hundred points of a scenario are shared out among its claims.

Points are counted in tenths, so that a hundred points are 1000. The shares
depend on the scenario alone: every arrangement is measured on the same scale.
"""

from __future__ import annotations

from dataclasses import dataclass

from arrange.data.scenario import Scenario
from arrange.feel import feel_factor
from arrange.rules import active_rules
from arrange.rules.base import Claim

FULL = 1000


@dataclass(frozen=True, slots=True)
class Share:
    """A claim, the most it can earn and what each level earns, in tenths of a point."""

    claim: Claim
    possible: int
    points: tuple[int, ...]


def shares(scenario: Scenario) -> tuple[Share, ...]:
    """Every claim of the scenario with its points; the possible points sum to 1000.

    Shared in proportion to weight by largest remainders; ties go to the earlier
    claim. Level k of n earns k/n of the points, rounded down to whole tenths.
    Empty if nothing can earn points.
    """
    claims = [claim for rule in active_rules(scenario) for claim in rule.claims_as_set(scenario)]
    weights = [claim.weight * feel_factor(scenario, claim.rule) for claim in claims]
    total = sum(weights)
    if not total:
        return ()
    whole = [FULL * w // total for w in weights]
    rest = [FULL * w % total for w in weights]
    for i in sorted(range(len(claims)), key=lambda i: (-rest[i], i))[: FULL - sum(whole)]:
        whole[i] += 1
    return tuple(
        Share(claim, possible, _points(possible, len(claim.steps)))
        for claim, possible in zip(claims, whole, strict=True)
        if possible
    )


def _points(possible: int, levels: int) -> tuple[int, ...]:
    return tuple(possible * k // levels for k in range(1, levels + 1))
