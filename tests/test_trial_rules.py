"""A must of a kind that exists nowhere, and every what-if stays right without being told of it.

Each trial rule is added to the registry for the length of a test. What the answers go by is
what the rule itself declares, so nothing in the what-ifs knows these rules. Figures by hand
in a plain room of 4000 x 3000 without doors, walls A (top) to D.
"""

from dataclasses import replace

import pytest
from small_rooms import A, B, C, D, on_wall, only, piece, room, scenario

import arrange.rules
from arrange.data.arrangement import Arrangement
from arrange.data.conflict import Requirement
from arrange.data.result import Breach
from arrange.judge import judge
from arrange.rules import RULES
from arrange.rules.requirement import PIECES, ROOM, RequirementKind
from arrange.rules.rule import Rule
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.largest import largest
from arrange.whatif.repair import cheapest_repairs
from arrange.whatif.requirements import (
    declared,
    describe,
    keep_only,
    relaxations,
    relaxed,
    shrinks,
)
from arrange.whatif.slack import spares
from arrange.whatif.why import conflicts

LOW, HIGH = 1500, 2700
PLAIN = room()


def in_band(one):
    return LOW <= one.width <= HIGH and not one.is_a("let be")


class WidthBand(Rule):
    """No piece is from 1500 to 2700 mm wide. Declares nothing."""

    id = "trial-width-band"
    title = "No piece of a middling width"
    kind = "must"

    def build(self, model):
        """Nothing works with such a piece."""
        if any(in_band(p) for p in model.scenario.pieces):
            model.must(False)

    def breaches(self, scene):
        """One for each such piece."""
        for placed in scene.placed:
            if in_band(placed.piece):
                yield Breach(self.id, (placed.name,), f"{placed.name} is of a middling width")


class DeclaredWidthBand(WidthBand):
    """The same, one requirement for each piece that it is about."""

    kinds = (RequirementKind("trial-width", PIECES, 9),)

    def requirements(self, scenario):
        """Every piece of such a width."""
        wide = [p.name for p in scenario.pieces if in_band(p)]
        return [Requirement("trial-width", name) for name in wide]

    def keep(self, scenario, kept, whole):
        """A piece that is not kept to it is let be: as wide as it is, it counts as narrow."""
        loose = {r.name for r in self.requirements(whole) if r not in kept}
        pieces = tuple(
            replace(p, roles=p.roles | {"let be"}) if p.name in loose else p
            for p in scenario.pieces
        )
        return replace(scenario, pieces=pieces)

    def rests_on(self, scenario, requirement):
        """Its piece."""
        del scenario
        return frozenset({Requirement("piece", requirement.name)})

    def drops_ease(self, scenario, names):
        """What is not there has no width."""
        del scenario, names
        return True


class NotOnB(Rule):
    """Nothing stands with its back on wall B."""

    id = "trial-not-on-b"
    title = "Wall B stays bare"
    kind = "must"
    kinds = (RequirementKind("trial-bare", ROOM, 9),)

    def build(self, model):
        """Forbid the wall to every piece."""
        for one in model.scenario.pieces:
            literal = model.on_wall(one.name, B)
            if literal is not None:
                model.forbid(literal)

    def breaches(self, scene):
        """One for each piece there."""
        for placed in scene.placed:
            if placed.placement.wall == B:
                yield Breach(self.id, (placed.name,), f"{placed.name} stands on wall B")

    def requirements(self, scenario):
        """The wall as a whole."""
        del scenario
        return [Requirement("trial-bare")]

    def rests_on(self, scenario, requirement):
        """Nothing else."""
        del scenario, requirement
        return frozenset()

    def drops_ease(self, scenario, names):
        """What is not there stands on no wall."""
        del scenario, names
        return True


class NeedsItsLamp(Rule):
    """A desk is allowed only where there is a lamp, to the left of it on the plan."""

    id = "trial-lamp"
    title = "No desk without a lamp to its left"
    kind = "must"
    kinds = (RequirementKind("trial-lamp", ROOM, 9),)

    def build(self, model):
        """The lamp ends before the desk begins; without a lamp nothing works."""
        names = {p.name for p in model.scenario.pieces}
        if "desk" in names and "lamp" not in names:
            model.must(False)
        if {"desk", "lamp"} <= names:
            model.must(model.place("lamp").x1 <= model.place("desk").x0)

    def breaches(self, scene):
        """One, if the lamp is not there or not to the left."""
        placed = {p.name: p for p in scene.placed}
        if "desk" not in placed:
            return
        lamp = placed.get("lamp")
        if lamp is None or lamp.x1 > placed["desk"].x0:
            yield Breach(self.id, ("desk",), "the desk has no lamp to its left")

    def requirements(self, scenario):
        """The pair, where there is one."""
        there = {p.name for p in scenario.pieces} >= {"desk", "lamp"}
        return [Requirement("trial-lamp")] if there else []

    def rests_on(self, scenario, requirement):
        """Both pieces."""
        del scenario, requirement
        return frozenset({Requirement("piece", "desk"), Requirement("piece", "lamp")})


@pytest.fixture
def with_rule(monkeypatch):
    """Puts trial rules into the registry."""

    def add(*rules):
        monkeypatch.setattr(arrange.rules, "RULES", (*RULES, *rules))
        monkeypatch.setattr("arrange.whatif.requirements.RULES", (*RULES, *rules))

    return add


def sofa(width):
    return piece("sofa", width, 800)


# ------------------------------------------------------------------ largest


@pytest.mark.parametrize("rule", [WidthBand(), DeclaredWidthBand()], ids=["undeclared", "declared"])
def test_the_largest_size_lies_beyond_a_band_of_forbidden_ones(with_rule, rule):
    """Wall A is 4000 long: 4000 works, though 1500 to 2700 do not. Halving alone says 1490."""
    with_rule(rule)
    case = only(scenario(PLAIN, sofa(1000)), rule.id)
    found = largest(case, "sofa", "width", seconds=60)
    assert (found.answer, found.size, found.next) == ("exact", 4000, 4010)
    assert not shrinks(case, "sofa", "width")


def test_the_largest_size_goes_by_a_wall_that_is_forbidden(with_rule):
    """Shelf, bench and chest leave 900 on C and less on D; B alone would take 2400. As the scan."""
    with_rule(NotOnB())
    walls = [piece("shelf", 4000, 300), piece("bench", 3100, 300), piece("chest", 2000, 300)]
    held = (on_wall(walls[0], PLAIN, A, 0), on_wall(walls[1], PLAIN, C, 0))
    held += (on_wall(walls[2], PLAIN, D, 300),)
    case = only(scenario(PLAIN, *walls, sofa(500), held=held), "trial-not-on-b")
    scanned = max(
        size
        for size in range(450, 3000, 10)
        if FeasibilityOracle(20).decide(_sized(case, size)).works
    )
    found = largest(case, "sofa", "width", seconds=60)
    assert (found.answer, found.size) == ("exact", scanned)
    assert scanned < 2000


def _sized(case, width):
    pieces = tuple(replace(p, width=width) if p.name == "sofa" else p for p in case.pieces)
    return replace(case, pieces=pieces)


def test_the_largest_size_of_one_goes_by_where_the_other_must_be(with_rule):
    """The lamp, 600 wide, is left of the desk: on A the desk is at most 4000 - 600 long."""
    with_rule(NeedsItsLamp())
    # No desk that is sold is as long as the answer: of a board no size is unheard of.
    lamp, desk = piece("lamp", 600, 600), piece("desk", 1000, 2700, kind="board")
    case = only(scenario(PLAIN, lamp, desk), "trial-lamp")
    found = largest(case, "desk", "width", seconds=60)
    # Deep as it is, the desk stands on A or C, and the lamp beside it; on B it is 2700 wide
    # across and 3000 long at most.
    assert (found.answer, found.size) == ("exact", 3400)


# ------------------------------------------------------------------ why


def test_the_rule_is_named_and_no_innocent_piece(with_rule):
    """A chest that fits anywhere is no part of it; the sofa's width and the rule are."""
    with_rule(DeclaredWidthBand())
    case = only(scenario(PLAIN, piece("chest"), sofa(2000)), "trial-width-band")
    found = conflicts(case, FeasibilityOracle(30))
    (one,) = found.sets
    assert one.minimal
    assert set(one.requirements) == {
        Requirement("piece", "sofa"),
        Requirement("trial-width", "sofa"),
    }
    assert describe(case, Requirement("trial-width", "sofa")) == "No piece of a middling width"


def test_an_undeclared_rule_is_named_as_a_whole(with_rule):
    """What it does not declare is taken at its worst: it rests on every piece that is there."""
    with_rule(WidthBand())
    case = only(scenario(PLAIN, sofa(2000)), "trial-width-band")
    (one,) = conflicts(case, FeasibilityOracle(30)).sets
    assert one.minimal
    assert set(one.requirements) == {
        Requirement("piece", "sofa"),
        Requirement("trial-width-band"),
    }


def test_a_forbidden_wall_is_among_what_clashes(with_rule):
    """Two slabs take A and C, a block takes D: a third slab, 2200 long, has only B left."""
    with_rule(NotOnB())
    slabs = [piece("one", 4000, 400), piece("two", 4000, 400), piece("three", 2200, 400)]
    block = piece("block", 2200, 400)
    held = (on_wall(slabs[0], PLAIN, A, 0), on_wall(slabs[1], PLAIN, C, 0))
    held += (on_wall(block, PLAIN, D, 400),)
    case = only(scenario(PLAIN, *slabs, block, held=held), "trial-not-on-b")
    found = conflicts(case, FeasibilityOracle(60))
    assert found.answer == "impossible"
    assert found.sets
    for one in found.sets:
        assert one.minimal
        assert Requirement("trial-bare") in one.requirements


def test_what_needs_two_pieces_does_not_accuse_one(with_rule):
    """With the lamp there the desk works: without it, it is not told as a clash of the desk."""
    with_rule(NeedsItsLamp())
    lamp, desk = piece("lamp", 600, 600), piece("desk", 1200, 600)
    bar = piece("bar", 4200, 300)  # fits nowhere
    case = only(scenario(PLAIN, lamp, desk, bar), "trial-lamp")
    found = conflicts(case, FeasibilityOracle(30))
    assert [one.pieces for one in found.sets] == [("bar",)]


def test_of_two_that_break_it_each_is_a_conflict_of_its_own(with_rule):
    """Two sofas of a forbidden width: neither needs the other to be impossible."""
    with_rule(DeclaredWidthBand())
    two = [replace(sofa(2000), name=f"sofa {i}", model=f"sofa {i}") for i in (1, 2)]
    found = conflicts(only(scenario(PLAIN, *two), "trial-width-band"), FeasibilityOracle(30))
    assert sorted(one.pieces for one in found.sets) == [("sofa 1",), ("sofa 2",)]
    assert all(one.minimal and len(one.requirements) == 2 for one in found.sets)


class AllOrNone(DeclaredWidthBand):
    """The same, but it does not say how only some are kept."""

    keep = Rule.keep


def test_a_rule_that_keeps_all_or_none_says_so_rather_than_prove_what_is_false(with_rule):
    """Switched off as a whole for one of two requirements, it would accuse the innocent."""
    with_rule(AllOrNone())
    two = [replace(sofa(2000), name=f"sofa {i}", model=f"sofa {i}") for i in (1, 2)]
    case = only(scenario(PLAIN, *two), "trial-width-band")
    one = [r for r in declared(case) if r != Requirement("trial-width", "sofa 2")]
    with pytest.raises(NotImplementedError, match="all or none"):
        keep_only(case, one)


# ------------------------------------------------------------------ repairs


def test_a_repair_is_found_beyond_the_band_and_none_that_does_not_help(with_rule):
    """Of 2000, one size down is 1900, two are 1800: both forbidden. It has to be left out."""
    with_rule(DeclaredWidthBand())
    case = only(scenario(PLAIN, sofa(2000), piece("chest")), "trial-width-band")
    found = cheapest_repairs(case, FeasibilityOracle(60), (), most=3)
    assert found.closed
    assert [[one.key for one in r.gives] for r in found.repairs] == [[("leave out", "sofa")]]
    assert all(judge(r.scenario, r.suggestion.arrangement).works for r in found.repairs)


def test_a_smaller_size_that_helps_is_not_ruled_out_by_one_that_does_not(with_rule):
    """Of 1600 the next size down, 1500, is still forbidden, and 1400 is not."""
    with_rule(DeclaredWidthBand())
    case = only(scenario(PLAIN, sofa(1600), piece("chest")), "trial-width-band")
    found = cheapest_repairs(case, FeasibilityOracle(60), (), most=1)
    (one,) = found.repairs
    assert one.cheapest
    assert [(r.key, r.level) for r in one.gives] == [(("smaller", "sofa"), 2)]


def test_leaving_out_what_another_needs_is_no_way_out(with_rule):
    """Too long a bar: without the lamp the desk would not work, so the lamp is not touched."""
    with_rule(NeedsItsLamp())
    lamp, desk = piece("lamp", 600, 600), piece("desk", 1200, 600)
    bar = piece("bar", 4200, 300)
    case = only(scenario(PLAIN, lamp, desk, bar), "trial-lamp")
    lamps = [r for r in relaxations(case) if r.drops == {"lamp"}]
    assert lamps
    assert not any(r.monotone for r in lamps)
    found = cheapest_repairs(case, FeasibilityOracle(60), (), most=3)
    assert found.repairs
    for repair in found.repairs:
        assert judge(repair.scenario, repair.suggestion.arrangement).works
        assert not any("lamp" in r.drops and "desk" not in r.drops for r in repair.gives)


# ------------------------------------------------------------------ room to spare


def test_no_more_is_promised_to_spare_than_every_size_allows(with_rule):
    """1480 wide on a wall of 4000: 2520 are free, but from 1500 on nothing works: under 20."""
    with_rule(WidthBand())
    one = piece("sofa", 1480, 800)
    case = only(scenario(PLAIN, one), "trial-width-band")
    there = Arrangement((on_wall(one, PLAIN, A, 0),))
    across = [s for s in spares(case, there) if s.direction == "across"]
    assert across
    assert all(s.mm < LOW - 1480 for s in across)


# ------------------------------------------------------------------ what is declared


@pytest.mark.parametrize("rule", [r for r in RULES if r.binding], ids=lambda r: r.id)
def test_every_must_declares_what_can_be_asked_of_it(rule):
    """Requirements with their kinds, what each rests on, and when smaller is sure to do."""
    for face in ("requirements", "rests_on", "monotone", "drops_ease"):
        own = getattr(type(rule), face)
        assert own is not getattr(Rule, face), f"{rule.id} does not declare {face}"
    assert type(rule).kinds is not Rule.kinds, f"{rule.id} does not declare kinds"


def test_the_trial_without_declarations_would_be_found():
    """The check above is one that can fail."""
    assert type(WidthBand()).requirements is Rule.requirements


def test_an_undeclared_rule_is_left_out_where_smaller_must_be_sure(with_rule):
    """And named among what can be taken away."""
    with_rule(WidthBand())
    case = only(scenario(PLAIN, sofa(3000)), "trial-width-band")
    assert Requirement("trial-width-band") in declared(case)
    eased = relaxed(case, "sofa", "width")
    assert eased is not None
    assert eased.setting("trial-width-band").off
