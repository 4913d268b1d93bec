"""How the hundred points of a scenario are shared out among its claims, and what feel changes.

Points are counted in tenths, so that a hundred points are 1000. The shares depend on the
scenario alone: every arrangement is measured on the same scale. What the words for how a
room should feel change is a table of our own, common practice.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from arrange.data.scenario import Scenario
from arrange.rules import RULES, active_rules
from arrange.rules.rule import Claim

FULL = 1000


@dataclass(frozen=True, slots=True)
class Share:
    """A claim, the most it can earn and what each level earns, in tenths of a point."""

    claim: Claim
    possible: int
    points: tuple[int, ...]


def shares(scenario: Scenario) -> tuple[Share, ...]:
    """Every claim of the scenario with its points; the possible points sum to 1000.

    Shared in proportion to weight by largest remainders; ties go to the earlier claim with
    the pieces in canonical order, so that the order of the file changes no points. Level k
    of n earns k/n of the points, rounded down to whole tenths. Listed as the file lists its
    pieces. Empty if nothing can earn points.
    """
    claims = _claims(scenario.in_canonical_order)
    weights = [claim.weight * feel_factor(scenario, claim.rule) for claim in claims]
    total = sum(weights)
    if not total:
        return ()
    whole = [FULL * w // total for w in weights]
    rest = [FULL * w % total for w in weights]
    for i in sorted(range(len(claims)), key=lambda i: (-rest[i], i))[: FULL - sum(whole)]:
        whole[i] += 1
    shared = [
        Share(claim, possible, _points(possible, len(claim.steps)))
        for claim, possible in zip(claims, whole, strict=True)
        if possible
    ]
    listing = {_about(claim): i for i, claim in enumerate(_claims(scenario))}
    return tuple(sorted(shared, key=lambda share: listing[_about(share.claim)]))


def _claims(scenario: Scenario) -> list[Claim]:
    return [claim for rule in active_rules(scenario) for claim in rule.claims_as_set(scenario)]


def _about(claim: Claim) -> tuple[str, frozenset[str], tuple[str, ...]]:
    """What a claim is about, in whatever order its pieces are named."""
    return claim.rule, frozenset(claim.subjects), claim.about


def _points(possible: int, levels: int) -> tuple[int, ...]:
    return tuple(possible * k // levels for k in range(1, levels + 1))


ORDINARY = 2  # factors are in halves: 2 leaves a rule's weight as it is

# word -> rule id -> factor in halves (4 doubles the weight, 3 adds half, 1 halves it).
# Our own small table; common practice, no source.
_SNUG = {"used-together": 4, "talking-distance": 4, "focal-point": 3, "clear-floor": 1}
FEEL: dict[str, dict[str, int]] = {
    # Quiet to look at: things in line and in pairs, little in view from the door.
    "calm": {"balance": 4, "centred-on-wall": 3, "bedside-pair": 3, "entering-view": 3},
    # To sleep well: a solid wall behind the head, the door in sight but not in line.
    "restful": {"bedhead-wall": 4, "bed-sees-door": 4, "bedside-pair": 3, "screen-view": 1},
    # Undisturbed: away from the way through, nobody coming in behind one's back.
    "quiet": {"bed-sees-door": 3, "straight-way": 3, "screen-view": 1, "talking-distance": 1},
    "airy": {"clear-floor": 4, "daylight": 3, "comfortable-clearance": 3},
    "open": {"clear-floor": 4, "entering-view": 4, "straight-way": 3},
    "bright": {"daylight": 4, "screen-glare": 3},
    "snug": _SNUG,
    "cosy": _SNUG,
    "sociable": {"talking-distance": 4, "seats-turned": 4, "used-together": 3, "screen-view": 1},
    # Room to romp comes before everything else.
    "playful": {"clear-floor": 4, "straight-way": 3, "balance": 1, "centred-on-wall": 1},
    "focused": {"daylight": 4, "screen-glare": 4, "sockets-near": 3, "used-together": 3},
    "orderly": {
        "centred-on-wall": 4,
        "narrow-gaps": 4,
        "balance": 3,
        "bedside-pair": 3,
        "straight-way": 3,
    },
    "formal": {"balance": 4, "centred-on-wall": 4, "focal-point": 3, "bedside-pair": 3},
    "relaxed": {"comfortable-clearance": 4, "seats-turned": 3, "screen-view": 3},
    # Everything at hand and no detours.
    "practical": {"comfortable-clearance": 4, "straight-way": 4, "sockets-near": 4},
}


def feel_factor(scenario: Scenario, rule: str) -> int:
    """The factor, in halves, that the scenario's feel words put on a rule's weight.

    The strongest change wins when two words speak of one rule: never 0.
    """
    factors = [FEEL[w][rule] for w in scenario.feel if w in FEEL and rule in FEEL[w]]
    return max(factors, key=lambda f: (abs(f - ORDINARY), f)) if factors else ORDINARY


def words_without_effect(scenario: Scenario) -> tuple[str, ...]:
    """The feel words that no floor plan can answer."""
    return tuple(w for w in scenario.feel if w not in FEEL)


def musts_only(scenario: Scenario) -> Scenario:
    """The same scenario without anything that earns points.

    The person's own wishes stay where they are musts. Whatever works here works
    there, and the other way round.
    """
    off = [rule.id for rule in RULES if not rule.binding]
    wishes = tuple(wish for wish in scenario.wishes if wish.must)
    return replace(scenario.switched_off(*off), wishes=wishes, feel=())
