"""What all rules together require of a scenario, and scenarios that ask for less.

The rules declare it, each in its own file (``arrange/rules/rule.py`` says what). Here it
is put together: everything that can be taken away, the scenario in which only some of it
holds, everything that could give, and whether a smaller piece works wherever a larger one
does. No rule is known by name. Lengths in mm.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from arrange.data.change import changed
from arrange.data.conflict import Requirement
from arrange.data.piece import Piece
from arrange.data.repair import Relaxation
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension
from arrange.rules import RULES, active_rules
from arrange.rules.requirement import PIECES, WISHES, Quantity, Relaxing, RequirementKind
from arrange.rules.rule import Rule
from arrange.scoring import musts_only


# -- what can be taken away --------------------------------------------------
def declared(scenario: Scenario) -> dict[Requirement, Rule]:
    """Everything that can be taken away, in reading order, with the rule that requires it.

    Piece by piece, then the wishes, then the room's. The room itself stays: its outline,
    ceiling, what is built in, and that bodies do not share space. That a piece stands with
    its back to a wall is part of the piece.
    """
    order = _Order(scenario)
    found = [(r, rule) for rule in RULES for r in rule.requirements(scenario)]
    return dict(sorted(found, key=lambda one: order.of(*one)))


def kind_of(rule: Rule, requirement: Requirement) -> RequirementKind:
    """The sort of requirement, as its rule declares it."""
    return next(kind for kind in rule.kinds if kind.id == requirement.kind)


class _Order:
    """Where a requirement is read."""

    def __init__(self, scenario: Scenario) -> None:
        room = scenario.room
        names = (
            [p.name for p in scenario.pieces],
            [d.name for d in room.doors],
            [w.name for w in room.windows],
            [f.name for f in room.fixtures],
        )
        self._number = {name: i for of_a_sort in names for i, name in enumerate(of_a_sort)}

    def of(self, requirement: Requirement, rule: Rule) -> tuple[int, int, int, int]:
        """Piece by piece, and by reading within; wish by wish; the room's by reading."""
        kind = kind_of(rule, requirement)
        if kind.group == WISHES:
            return kind.group, int(requirement.part), 0, 0
        number = self._number.get(requirement.name, 0)
        if kind.group == PIECES:
            return kind.group, number, kind.reading, 0
        return kind.group, kind.reading, number, kind.within


def describe(
    scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
) -> str:
    """A requirement in the scenario's own words; ``among`` is the set it is told in.

    KeyError if the scenario requires no such thing.
    """
    return declared(scenario)[requirement].requirement_words(scenario, requirement, among)


def non_vacuous(
    scenario: Scenario, requirements: Collection[Requirement]
) -> tuple[Requirement, ...]:
    """Those of the requirements, in reading order, that say something in this company.

    A clearance says nothing without its piece, a tie nothing without both, the walkway
    nothing without the floor inside the doors, where it begins.
    """
    known = declared(scenario)
    given = known.keys() & set(requirements)
    while True:
        rests = {r: known[r].rests_on(scenario, r) & known.keys() for r in given}
        idle = {r for r in given if not rests[r] <= given}
        if not idle:
            return tuple(r for r in known if r in given)
        given -= idle


def keep_only(scenario: Scenario, requirements: Collection[Requirement]) -> Scenario:
    """The scenario in which only these requirements hold, and no wish earns points.

    Pieces not among them are absent. Nobody knows where things stand today.
    """
    kept = frozenset(non_vacuous(scenario, requirements))
    rest = replace(scenario, today=(), expected=None)
    for rule in RULES:
        if rule.requirements(scenario):
            rest = rule.keep(rest, kept, scenario)
    return musts_only(changed(rest, ()))


def quantities(scenario: Scenario, requirements: Iterable[Requirement]) -> list[Quantity]:
    """The lengths that they ask for, in the order in which they are looked at."""
    known = declared(scenario)
    found = [q for r in requirements for q in known[r].quantities(scenario, r)]
    return sorted(found, key=lambda quantity: quantity.order)


# -- what could give ---------------------------------------------------------
def relaxations(scenario: Scenario, untouchable: Collection[str] = ()) -> list[Relaxation]:
    """Everything that could give, least effort first.

    ``untouchable`` names pieces (also by the name given to several), doors, windows,
    fixtures or "walkway"; what the scenario itself says must not be touched is added.
    What would give less of a thing and cost more than another is left out. What is about
    safety is not among it: the rules about that declare nothing that could give.
    """
    ask = Relaxing(scenario, frozenset(untouchable) | set(scenario.costs.untouchable))
    found = [_sure(scenario, one) for rule in RULES for one in rule.relaxations(ask)]
    found = [
        one
        for one in found
        if not any(o.key == one.key and o.level > one.level and o.cost < one.cost for o in found)
    ]
    return sorted(found, key=lambda one: (one.cost, one.key, one.level))


def _sure(scenario: Scenario, one: Relaxation) -> Relaxation:
    """What leaves pieces out touches them alone if every rule says that this only eases."""
    if not one.drops or not dropping_eases(scenario, one.drops):
        return one
    return replace(one, touches=one.drops, monotone=True, monotone_unwalked=True)


def dropping_eases(scenario: Scenario, names: frozenset[str]) -> bool:
    """Whether leaving out these pieces only takes demands away."""
    return all(rule.drops_ease(scenario, names) for rule in _musts(scenario))


# -- smaller pieces ----------------------------------------------------------
def shrinks(scenario: Scenario, name: str, dimension: Dimension) -> bool:
    """Whether every size below one that works is sure to work, down to the piece's own.

    Take an arrangement that works and make the piece smaller in its place: a height may
    simply shrink, a width or depth shrinks by moving one side, so that a wall piece keeps
    its back on the wall and a corner piece its corner. Each rule says whether it lasts.
    """
    return not unsure_musts(scenario, name, dimension)


def unsure_musts(scenario: Scenario, name: str, dimension: Dimension) -> list[Rule]:
    """The musts that may not last when the piece shrinks in its place."""
    piece = scenario.piece(name)
    musts = _musts(scenario)
    if _leaves_its_corners(piece, dimension):
        return musts
    return [r for r in musts if not r.monotone(scenario, piece, dimension)]


def _leaves_its_corners(piece: Piece, dimension: Dimension) -> bool:
    """Whether a smaller one in its place need not be a part of it.

    A smaller circle is not, and a narrower piece across a corner stands deeper in it.
    """
    deeper = piece.crosses and dimension == "width"
    return deeper or (dimension != "height" and not piece.fills_its_box)


def relaxed(scenario: Scenario, name: str, dimension: Dimension) -> Scenario | None:
    """A scenario that asks no more, in which smaller is sure to work.

    What a rule cannot vouch for is left out of it, and a rule that minds pieces being
    left out goes with them. So where it has no arrangement at one size, ``scenario`` has
    none at any larger. None if there is no such scenario.
    """
    if _leaves_its_corners(scenario.piece(name), dimension):
        return None
    rest: Scenario | None = scenario
    for rule in _musts(scenario):
        if rest is not None and not rule.monotone(rest, rest.piece(name), dimension):
            rest = rule.eased(rest, rest.piece(name), dimension)
    if rest is None:
        return None
    gone = frozenset(p.name for p in scenario.pieces) - {p.name for p in rest.pieces}
    mind = [rule.id for rule in _musts(rest) if gone and not rule.drops_ease(scenario, gone)]
    return replace(rest.switched_off(*mind), today=())


def without_search(scenario: Scenario) -> Scenario:
    """The same without the musts that no model keeps: whatever works with them works here."""
    return scenario.switched_off(*(rule.id for rule in _musts(scenario) if not rule.in_model))


def _musts(scenario: Scenario) -> list[Rule]:
    """The active rules that an arrangement can break."""
    return [rule for rule in active_rules(scenario) if rule.binding]
