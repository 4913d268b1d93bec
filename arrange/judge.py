"""The judge: every must and every point of a finished arrangement, from exact shapes.

Imports no solver. Everything shown to anyone has passed here first.
"""

from __future__ import annotations

from arrange.data.arrangement import Arrangement
from arrange.data.result import Breach, Reason, Verdict
from arrange.data.scenario import Scenario
from arrange.data.sources import source
from arrange.geometry.scene import Scene, tightest_gaps
from arrange.rules import active_rules
from arrange.rules.rule import Rule
from arrange.scoring import Share, shares


def judge(scenario: Scenario, arrangement: Arrangement, *, gaps: bool = True) -> Verdict:
    """Re-check every must and recompute every point.

    The gaps can take as long as all the rest; ``gaps`` false leaves them out, for arrangements
    that are not shown.

    Returns
    -------
    Verdict
        All breaches (none means that it works), one reason for each claim with
        points as tenths, their sum as the score, and the tightest gaps. Reasons
        come in the order of the rules.
    """
    scene = Scene(scenario, arrangement)
    rules = {rule.id: rule for rule in active_rules(scenario)}
    breaches = tuple(b for rule in rules.values() for b in rule.breaches(scene))
    reasons = tuple(_reason(scene, rules[s.claim.rule], s) for s in shares(scenario))
    tight = tightest_gaps(scene) if gaps else ()
    return Verdict(breaches, reasons, sum(r.won for r in reasons), tight)


def breaches(scenario: Scenario, arrangement: Arrangement) -> tuple[Breach, ...]:
    """Only the musts: quicker than the whole verdict."""
    scene = Scene(scenario, arrangement)
    return tuple(b for rule in active_rules(scenario) for b in rule.breaches(scene))


def works(scenario: Scenario, arrangement: Arrangement) -> bool:
    """Whether no must is broken: quicker still, what takes longest to judge comes last."""
    scene = Scene(scenario, arrangement)
    rules = sorted(active_rules(scenario), key=lambda rule: rule.costly)
    return not any(True for rule in rules for _ in rule.breaches(scene))


def _reason(scene: Scene, rule: Rule, share: Share) -> Reason:
    claim = share.claim
    measure = rule.measure(scene, claim)
    if not 0 <= measure.level <= len(share.points):
        raise ValueError(f"{claim.key} measured level {measure.level}")
    return Reason(
        claim.rule,
        claim.subjects,
        measure.sentence,
        measure.measured,
        measure.wanted,
        share.points[measure.level - 1] if measure.level else 0,
        share.possible,
        source(claim.source),
        claim.overridden,
        share.part,
        claim.faults(measure.level),
    )
