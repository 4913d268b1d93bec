"""What a good plan is worth: parts with budgets by what the room is for, and what feel changes.

Points are counted in tenths, so that a hundred points are 1000. Each part has a budget that
comes from the purpose of the room and not from how many pieces stand in it; within a part
the rules share by weight, and a rule's points are shared out among what it speaks of. So
two lists of pieces in one room are measured on one scale. Before any point come the faults
of first rank: an arrangement with fewer of them always ranks higher. All weights stand in
this file; they are our own, common practice.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from arrange.data.result import FULL, PARTS, Part
from arrange.data.scenario import Scenario, Use
from arrange.rules import RULES, active_rules
from arrange.rules.rule import Claim, Rule
from arrange.rules.selectors import use_of
from arrange.rules.wished import OwnWish

# What each part is worth by the use of the room; "asked" takes its share first.
BUDGETS: dict[Use, Mapping[Part, int]] = {
    "living room": {"works": 20, "together": 40, "sits": 25, "opens": 15},
    "living and dining room": {"works": 20, "together": 40, "sits": 25, "opens": 15},
    # Together: how the bed lies to door, window and screen counts before lines and pairs.
    "bedroom": {"works": 35, "together": 25, "sits": 25, "opens": 15},
    "child's room": {"works": 30, "together": 25, "sits": 15, "opens": 30},
    "nursery": {"works": 35, "together": 35, "sits": 15, "opens": 15},
    "dining room": {"works": 30, "together": 25, "sits": 35, "opens": 10},
    "office": {"works": 35, "together": 35, "sits": 20, "opens": 10},
    "hall": {"works": 45, "together": 15, "sits": 15, "opens": 25},
    "one room for all": {"works": 25, "together": 40, "sits": 15, "opens": 20},
}
# Tenths that a rule takes at most, and where the use allows it more: what is free, what is
# balanced and what is merely handy never outweigh what a room is for. What they leave goes
# to the others.
MOST: dict[str, tuple[int, Mapping[Use, int]]] = {
    "clear-floor": (50, {"child's room": 120, "hall": 120}),
    "balance": (30, {}),
    "used-together": (15, {"office": 30}),
    "lamp-at-seat": (40, {}),
    "cup-in-reach": (40, {}),
    "gutter": (120, {}),
}
ASKED = (0, 100, 150, 200, 250)  # tenths for no wish, one, two, three and more

# rule -> the part it is in, its weight there, and its weight where the use is another matter.
_W = tuple[Part, int, Mapping[Use, int]]
_NONE: Mapping[Use, int] = {}
WEIGHTS: dict[str, _W] = {
    "comfortable-clearance": ("works", 8, _NONE),
    "behind-door": ("works", 5, _NONE),
    "in-reach": ("works", 8, _NONE),
    "daylight": ("works", 2, {"office": 4, "bedroom": 3}),
    "screen-glare": ("works", 2, {"office": 4}),
    "sockets-near": ("works", 2, _NONE),
    "cot-harm": ("works", 10, _NONE),
    "serving": ("works", 5, {"dining room": 8}),
    "over-the-pillow": ("works", 5, _NONE),
    "arriving": ("works", 10, _NONE),
    "care": ("works", 5, _NONE),
    "desk-outlook": ("works", 3, {"office": 5}),
    "view": ("together", 10, {"bedroom": 3, "child's room": 3}),
    "view-line": ("together", 8, {"bedroom": 2, "child's room": 2}),
    "lamp-at-seat": ("together", 2, _NONE),
    "seat-outlook": ("together", 3, _NONE),
    "past-not-through": ("together", 8, {"bedroom": 3, "child's room": 3, "office": 3}),
    "cup-in-reach": ("together", 2, _NONE),
    "groups-close": ("together", 4, _NONE),
    "bed-sees-door": ("together", 6, {"bedroom": 12, "child's room": 8}),
    "bedhead-wall": ("together", 4, {"bedroom": 5}),
    "talking-distance": ("together", 4, _NONE),
    "seats-turned": ("together", 4, _NONE),
    "dressing": ("together", 4, _NONE),
    "zones": ("together", 8, {"living and dining room": 4}),
    "used-together": ("together", 3, _NONE),
    "gutter": ("sits", 4, _NONE),
    "on-axis": ("sits", 4, _NONE),
    "table-placed": ("sits", 4, {"dining room": 6}),
    "rug-placed": ("sits", 2, _NONE),
    "like-with-like": ("sits", 3, _NONE),
    "bedside-pair": ("sits", 3, _NONE),
    "tucked": ("sits", 2, _NONE),
    "balance": ("sits", 2, _NONE),
    "first-look": ("opens", 4, _NONE),
    "straight-way": ("opens", 3, _NONE),
    "at-the-wall": ("opens", 4, {"child's room": 6}),
    "clear-floor": ("opens", 5, {"child's room": 12, "hall": 12}),
}


_WISHED = frozenset(rule.id for rule in RULES if isinstance(rule, OwnWish))
_UNKNOWN: _W = ("works", 1, _NONE)  # a rule that the table does not have


def part_of(rule: str) -> Part:
    """The part of the score that a rule's points are in; the person's own wishes are asked."""
    return "asked" if rule in _WISHED else WEIGHTS.get(rule, _UNKNOWN)[0]


def weight_of(scenario: Scenario, rule: str) -> int:
    """The weight of a rule within its part, in quarters: feel words and the person change it."""
    own = scenario.setting(rule).weight
    _, usual, by_use = WEIGHTS.get(rule, _UNKNOWN)
    weight = by_use.get(use_of(scenario), usual) if own is None else own
    return weight * feel_factor(scenario, rule)


@dataclass(frozen=True, slots=True)
class Share:
    """A claim, its part, the most it can earn and what each level earns, in tenths of a point."""

    claim: Claim
    part: Part
    possible: int
    points: tuple[int, ...]


def scale_of(scenario: Scenario) -> tuple[object, ...]:
    """What makes the points of two scenarios comparable: equal scales share them out alike."""
    asked = min(sum(not wish.must for wish in scenario.wishes), len(ASKED) - 1)
    feel = tuple(sorted(w for w in scenario.feel if w in FEEL))
    return use_of(scenario), feel, asked, scenario.settings


def with_use(scenario: Scenario) -> Scenario:
    """The scenario with its use said, so that it stays when the pieces are others."""
    return replace(scenario, use=use_of(scenario))


def shares(scenario: Scenario) -> tuple[Share, ...]:
    """Every claim of the scenario with its points; the possible points sum to 1000.

    Shared in three steps, each time in proportion and by largest remainders: the parts by
    budget, the rules of a part by weight, the claims of a rule by theirs. A part without
    claims leaves its points to the others, a rule without any to its part. Ties go to the
    earlier with the pieces in canonical order, so that the order of the file changes no
    points. Listed as the file lists its pieces. Empty if nothing can earn points.
    """
    return _shares(scenario, active_rules(scenario))


@lru_cache(maxsize=32)  # every judging asks, of the same few scenarios
def _shares(scenario: Scenario, rules: tuple[Rule, ...]) -> tuple[Share, ...]:
    canonical = scenario.in_canonical_order
    claims = _claims(canonical, rules)
    shared: list[Share] = []
    for part, budget in _budgets(scenario, claims).items():
        own = [c for c in claims if part_of(c.rule) == part]
        for group, points in _by_rule(scenario, part, own, budget):
            for claim, possible in zip(group, divided(points, _weights(group)), strict=True):
                worth = earned(possible, len(claim.steps), counted=claim.counted)
                shared.append(Share(claim, part, possible, worth))
    listed = claims if canonical == scenario else _claims(scenario, rules)
    listing = {_about(claim): i for i, claim in enumerate(listed)}
    kept = [s for s in shared if s.possible or s.claim.first_rank]
    return tuple(sorted(kept, key=lambda share: listing[_about(share.claim)]))


def _weights(claims: Sequence[Claim]) -> list[int]:
    return [claim.weight for claim in claims]


def _budgets(scenario: Scenario, claims: Sequence[Claim]) -> dict[Part, int]:
    """Tenths for each part that has claims, in the order of the parts."""
    there = {part_of(claim.rule) for claim in claims}
    wishes = sum(not wish.must for wish in scenario.wishes)
    asked = ASKED[min(wishes, len(ASKED) - 1)] if "asked" in there else 0
    usual = BUDGETS[use_of(scenario)]
    parts: list[Part] = [part for part in PARTS if part in there and part != "asked"]
    weights = [usual[part] * feel_factor(scenario, part) for part in parts]
    most = [
        sum(most_of(scenario, rule) for rule in {c.rule for c in claims if part_of(c.rule) == part})
        for part in parts
    ]
    budgets = dict(zip(parts, divided_within(FULL - asked, weights, most), strict=True))
    if asked:
        budgets["asked"] = asked if parts else FULL
    return budgets


def most_of(scenario: Scenario, rule: str) -> int:
    """The most tenths that a rule takes in this scenario."""
    usual, by_use = MOST.get(rule, (FULL, {}))
    return by_use.get(use_of(scenario), usual)


def _by_rule(
    scenario: Scenario, part: Part, claims: Sequence[Claim], budget: int
) -> list[tuple[list[Claim], int]]:
    """The claims of a part by rule, and each rule's tenths; wishes are one lot."""
    if part == "asked":
        return [(list(claims), budget)]
    rules = list(dict.fromkeys(claim.rule for claim in claims))
    weights = [weight_of(scenario, rule) for rule in rules]
    tenths = divided_within(budget, weights, [most_of(scenario, rule) for rule in rules])
    return [
        ([claim for claim in claims if claim.rule == rule], points)
        for rule, points in zip(rules, tenths, strict=True)
    ]


def divided_within(whole: int, weights: Sequence[int], most: Sequence[int]) -> list[int]:
    """``divided``, but nobody gets more than their most; what is over goes to the others.

    Where all have their most, what is over is shared out beyond it.

    >>> divided_within(1000, [5, 3, 2], [50, 1000, 1000]), divided_within(100, [1], [50])
    ([50, 570, 380], [100])
    """
    full: dict[int, int] = {}
    while True:
        open_ = [i for i in range(len(weights)) if i not in full]
        parts = divided(whole - sum(full.values()), [weights[i] for i in open_])
        over = {i: most[i] for i, part in zip(open_, parts, strict=True) if part > most[i]}
        if not over:
            shared = full | dict(zip(open_, parts, strict=True))
            return [shared[i] for i in range(len(weights))]
        if len(over) == len(open_):
            return divided(whole, weights)
        full |= over


def divided(whole: int, weights: Sequence[int]) -> list[int]:
    """``whole`` shared in proportion to the weights, by largest remainders, ties to the earlier.

    >>> divided(1000, [1, 1, 1]), divided(10, [0, 0])
    ([334, 333, 333], [0, 0])
    """
    total = sum(weights)
    if not total:
        return [0 for _ in weights]
    parts = [whole * w // total for w in weights]
    rest = [whole * w % total for w in weights]
    for i in sorted(range(len(weights)), key=lambda i: (-rest[i], i))[: whole - sum(parts)]:
        parts[i] += 1
    return parts


def earned(possible: int, levels: int, *, counted: bool) -> tuple[int, ...]:
    """What each level earns, in tenths, rounded down; the last all that is possible.

    Levels are even steps. Where they count what is as it should be, each further fault
    costs half of the one before, so that none is free.

    >>> earned(100, 4, counted=False), earned(120, 4, counted=True)
    ((25, 50, 75, 100), (8, 24, 56, 120))
    """
    if not counted:
        return tuple(possible * k // levels for k in range(1, levels + 1))
    whole = 2**levels - 1
    return tuple(possible * (2**k - 1) // whole for k in range(1, levels + 1))


def _claims(scenario: Scenario, rules: Sequence[Rule]) -> list[Claim]:
    claims = [claim for rule in rules for claim in rule.claims_as_set(scenario)]
    held = {placement.piece for placement in scenario.held}
    return [_excused(claim, held) for claim in claims]


def _excused(claim: Claim, held: set[str]) -> Claim:
    """What speaks of a piece that the person holds in its place is no fault of the plan."""
    mine = claim.first_rank and not claim.protects and held.intersection(claim.subjects)
    return replace(claim, first_rank=False) if mine else claim


def _about(claim: Claim) -> tuple[str, frozenset[str], tuple[str, ...]]:
    """What a claim is about, in whatever order its pieces are named."""
    return claim.rule, frozenset(claim.subjects), claim.about


ORDINARY = 4  # factors are in quarters: 4 leaves a weight as it is

# word -> part or rule -> factor in quarters: of a rule 8 doubles the weight, 6 adds half, 2
# halves it; of a part 6 adds half and 3 takes a quarter away, so that a room stays
# what it is for.
# Our own small table; common practice, no source.
_SNUG = {"together": 6, "opens": 3, "used-together": 8, "talking-distance": 8, "clear-floor": 2}
FEEL: dict[str, dict[str, int]] = {
    # Quiet to look at: things in line and in pairs, little in view from the door.
    "calm": {"sits": 6, "on-axis": 6, "like-with-like": 8, "balance": 8, "first-look": 6},
    # To sleep well: a solid wall behind the head, the door in sight but not in line.
    "restful": {"bedhead-wall": 8, "bed-sees-door": 8, "bedside-pair": 6, "view": 2},
    # Undisturbed: away from the way through, nobody coming in behind one's back.
    "quiet": {"bed-sees-door": 6, "past-not-through": 8, "seat-outlook": 8, "view": 2},
    "airy": {"opens": 6, "together": 3, "clear-floor": 8, "daylight": 6},
    "open": {"opens": 6, "first-look": 8, "straight-way": 6, "clear-floor": 6},
    "bright": {"daylight": 8, "screen-glare": 6},
    "snug": _SNUG,
    "cosy": _SNUG,
    "sociable": {"together": 5, "talking-distance": 8, "seats-turned": 8, "view": 2},
    # Room to romp comes before everything else.
    "playful": {"opens": 6, "clear-floor": 8, "straight-way": 6, "balance": 2, "on-axis": 2},
    "focused": {"works": 5, "daylight": 8, "screen-glare": 8, "desk-outlook": 8},
    "orderly": {"sits": 6, "on-axis": 8, "gutter": 8, "like-with-like": 6, "straight-way": 6},
    "formal": {"sits": 6, "balance": 8, "on-axis": 8, "view": 6, "bedside-pair": 6},
    "relaxed": {"works": 5, "comfortable-clearance": 8, "seats-turned": 6, "view": 6},
    # Everything at hand and no detours.
    "practical": {"works": 6, "comfortable-clearance": 6, "straight-way": 8, "sockets-near": 8},
}


def feel_factor(scenario: Scenario, name: str) -> int:
    """The factor, in quarters, that the scenario's feel words put on a part or a rule.

    The strongest change wins when two words speak of one thing: never 0.
    """
    factors = [FEEL[w][name] for w in scenario.feel if w in FEEL and name in FEEL[w]]
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
