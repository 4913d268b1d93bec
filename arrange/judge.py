"""The judge: every must and every point of a finished arrangement, from exact shapes.

Imports no solver. Everything shown to anyone has passed here first.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from arrange.data.arrangement import Arrangement
from arrange.data.result import Breach, Reason, Verdict
from arrange.data.scenario import Scenario
from arrange.data.sources import source
from arrange.geometry.across import ways_across
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


MOST_TRIED = 16  # ways for pieces across corners to count as looking, all together


def at_its_best(scenario: Scenario, arrangement: Arrangement) -> Arrangement:
    """The same places, with what stands across corners counted as looking the better way.

    For what a person says of a room: the solver's arrangements say it themselves. One way a
    corner: what is tied to a piece there goes along. With more than ``MOST_TRIED`` ways all
    stay as they were.
    """
    room, places = scenario.room, arrangement.placements
    open_ = sorted({p.corner for p in places if p.corner is not None and p.looks is None})
    lines = [line for corner in open_ if (line := room.across(corner)) is not None]
    ways = list(product(*map(ways_across, lines))) if 0 < len(lines) <= MOST_TRIED // 4 else []
    if not ways or len(lines) < len(open_):
        return arrangement
    turned = []
    for way in ways:
        looks = dict(zip(open_, way, strict=True))
        found = (
            p if p.looks or p.corner is None else replace(p, looks=looks[p.corner]) for p in places
        )
        turned.append(Arrangement(tuple(found)))

    def worth(one: Arrangement) -> tuple[int, int]:
        verdict = judge(scenario, one, gaps=False)
        return -len(verdict.breaches), verdict.standing

    return max(turned, key=worth)


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
