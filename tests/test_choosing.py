"""Choosing what to have with where it goes, against asking of every choice by itself."""

import csv
import io
from dataclasses import replace
from decimal import Decimal
from functools import cache
from itertools import pairwise
from types import SimpleNamespace

import pytest
from by_itself import value_by_itself
from open_rooms import open_data, open_room
from sampled import sampled

from arrange.budget import Budget
from arrange.data.choosing import spendable
from arrange.data.lengths import money
from arrange.data.result import FAULT, NOTHING, Breach
from arrange.different import differ
from arrange.draw.choosing import sums_sheet
from arrange.judge import judge
from arrange.output.choosing import account_table, choice_data
from arrange.rules import RULES
from arrange.rules.rule import Rule
from arrange.scenario.needs import read_open, read_open_data
from arrange.solver.feasibility import FeasibilityOracle
from arrange.solver.question import Best
from arrange.solver.search import Search
from arrange.solver.session import Session
from arrange.whatif.choosing import Chooser, Nogood, choose
from arrange.words.choosing import answer_words, other_words, sheet_words, words

DAILY = (1, 3, 4, 5, 7)
SEEDS = sampled(range(8), long=(0, 2, 6))  # the three with the most ways to choose
FURTHER = Decimal(60)
LONG = 600.0  # s; enough for every proof on a busy machine


@cache
def opened(seed):
    """The room of a seed with three needs of two candidates each.

    Every other one has tags that count.
    """
    return open_room(seed, 3, 2, tagged=bool(seed % 2))


@cache
def small(seed):
    """The room of a seed and its answer."""
    file = opened(seed)
    return file, choose(file, seconds=LONG, further=FURTHER)


@cache
def by_itself(seed):
    """Every choice that may come into the answer, with its cost and what it is worth."""
    file, _ = small(seed)
    most = spendable(file.whole.money) + FURTHER
    return [(c, value_by_itself(file, c)) for c in file.needs.choices(most)]


@pytest.mark.parametrize("seed", SEEDS)
def test_the_best_choice_is_that_of_trying_all(seed):
    """The same value; of equal ones the cheapest; and it says that it is proven."""
    file, found = small(seed)
    limit = spendable(file.whole.money)
    worth = [(v, -c.cost) for c, v in by_itself(seed) if c.cost <= limit and v > NOTHING]
    if not worth:
        assert found.outcome in ("impossible", "too dear")
        return
    assert found.outcome == "proven"
    assert (found.best.value, -found.best.choice.cost) == max(worth)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_curve_has_every_choice_that_none_beats_on_both_and_no_other(seed):
    """Found out here by comparing all with all."""
    _, found = small(seed)
    assert found.complete or not found.curve
    every = {(c.cost, v) for c, v in by_itself(seed) if v > NOTHING}
    beaten = {
        (cost, value)
        for cost, value in every
        if any(c <= cost and v >= value and (c, v) != (cost, value) for c, v in every)
    }
    assert {(one.choice.cost, one.value) for one in found.curve} == every - beaten


def feel_lack(seed, choice):
    """Tenths for each word of the feel that somebody is tagged with and nothing chosen is."""
    data = open_data(seed, 3, 2, tagged=bool(seed % 2))
    known = {tag for row in data["piece"] for tag in row.get("tags", ())}
    there = {
        tag
        for row in data["piece"]
        if row["name"] in choice.candidates
        for tag in row.get("tags", ())
    }
    return 10 * data.get("feel_points", 0) * len(set(data.get("feel", ())) & known - there)


def test_tags_count_in_some_of_these_rooms():
    """In some choices of them a word goes unanswered, and in some all are answered."""
    tagged = [c for seed in DAILY if seed % 2 for c in opened(seed).needs.choices()]
    assert {bool(choice.unanswered) for choice in tagged} == {True, False}


@pytest.mark.parametrize("seed", range(8))
def test_what_goes_unmet_and_unanswered_takes_off_what_the_file_says(seed):
    """Every choice there is; for this nothing has to be arranged."""
    needs = opened(seed).needs
    lacks = {need.name: need.lack or 0 for need in needs.needs}
    for choice in needs.choices():
        lack = sum(lacks[name] for name in choice.lacking)
        assert choice.lack == lack + feel_lack(seed, choice)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_is_shown_has_passed_the_judge_and_adds_up(seed):
    """No must is broken; the value is points less faults and what goes unmet."""
    _, found = small(seed)
    for pick in (*found.picks, *found.curve):
        verdict = judge(pick.scenario, pick.suggestion.arrangement)
        assert verdict.works
        won = sum(reason.won for reason in verdict.reasons)
        faults = sum(reason.faults for reason in verdict.reasons)
        lacks = {need.name: need.lack for need in found.needs.needs}
        lack = sum(lacks[name] for name in pick.choice.lacking) + feel_lack(seed, pick.choice)
        assert pick.value == won - FAULT * faults - lack
        assert {p.name for p in pick.scenario.pieces} == {
            name for c in pick.choice.candidates for name in found.needs.candidate(c).pieces
        }


@pytest.mark.parametrize("seed", [3, 4, 7])
def test_further_ones_differ_by_choice_and_by_place(seed):
    """The other plan of the best choice is that of ``suggest`` for these pieces alone."""
    _, found = small(seed)
    (plan,) = [one for one in found.picks if one.elsewhere]
    (other,) = [one for one in found.picks[1:] if not one.elsewhere]
    best = found.best
    assert other.choice.candidates != best.choice.candidates == plan.choice.candidates
    assert [one.value for one in found.picks] == sorted(one.value for one in found.picks)[::-1]
    first, then = best.suggestion.arrangement, plan.suggestion.arrangement
    assert differ(best.scenario, first, then)
    assert differ(best.scenario, then, first)
    alone, second = Session(best.scenario, LONG, 0, None).different(2)
    assert alone.arrangement == first  # of these seeds: so both are asked to differ from the same
    assert plan.proven == second.proven is True
    assert plan.value == second.verdict.standing - plan.choice.lack


def sums_of(data, chosen):
    """What a choice costs, from the tables of the file alone, to the hundredth."""
    total = Decimal(0)
    for row in data["piece"]:
        name = row["name"]
        if name in chosen and not row.get("owned"):
            total += Decimal(str(row["price"])) + Decimal(str(row.get("delivery", 0)))
        if name not in chosen and row.get("owned"):
            total -= Decimal(str(row.get("sells_for", 0)))
    return total


@pytest.mark.parametrize("seed", SEEDS)
def test_the_money_of_table_and_record_is_that_of_the_file(seed):
    """Added up again from what is written, line by line and from the file."""
    data = open_data(seed, 3, 2, tagged=bool(seed % 2))
    _, found = small(seed)
    record = choice_data(found)
    for one in (*record["choices"], *record["curve"]):
        lines = sum(Decimal(str(p["each"])) * p["count"] for p in one["account"])
        assert lines == Decimal(str(one["cost"])) == sums_of(data, one["candidates"])
        value = Decimal(str(one["plan_points"])) - Decimal(str(one["takes_off"]))
        value -= Decimal(str(record["points_of_a_fault"])) * one["faults"]
        assert value == Decimal(str(one["value"]))
    for one in record["choices"]:
        assert Decimal(str(one["cost"])) <= Decimal(str(record["to_spend"]))
    rows = list(csv.DictReader(io.StringIO(account_table(found))))
    for name in {row["choice"] for row in rows}:
        own = [row for row in rows if row["choice"] == name]
        *lines, together = own
        assert together["what"] == "together"
        added = sum((Decimal(r["each"]) * int(r["count"]) for r in lines), Decimal(0))
        assert added == sum((Decimal(r["sum"]) for r in lines), Decimal(0))
        assert added == Decimal(together["sum"])


def desk_room(**changes):
    """A small room, a desk to choose and a seat that may go unmet."""
    return {
        "title": "box",
        "use": "office",
        "room": {"size": [200, 240]},
        "door": [{"wall": "C", "from_left": 20, "width": 80}],
        "money": {"budget": 100, "set_aside": 0},
        "need": [{"name": "a place to write"}, {"name": "a seat", "may_lack": True}],
        "piece": [
            {"kind": "desk", "name": "small", "width": 90, "depth": 50, "price": 60,
             "meets": "a place to write"},
            {"kind": "desk", "name": "long", "width": 195, "depth": 90, "price": 20,
             "meets": "a place to write"},
            {"kind": "armchair", "price": 30, "meets": "a seat"},
        ],
    } | changes  # fmt: skip


def asked(data, **more):
    """The answer for the tables of a file."""
    return choose(read_open_data(data, "box"), seconds=LONG, **more)


def test_too_dear_is_told_by_the_sums_alone():
    """The cheapest comes to 20, of 15 to spend."""
    found = asked(desk_room(money={"budget": 15, "set_aside": 0}), further=Decimal(0))
    assert (found.outcome, found.cheapest, found.picks) == ("too dear", 20, ())
    assert "5 more would do" in answer_words(found)


def test_impossible_is_said_only_if_every_choice_is_proven_so():
    """Neither desk goes into a room of 1.2 m with a door that needs most of it."""
    desk = desk_room()["piece"][0]
    pieces = [desk | {"name": f"desk {width}", "width": width} for width in (120, 118)]
    needs = [{"name": "a place to write"}]
    found = asked(desk_room(room={"size": [125, 125]}, need=needs, piece=pieces))
    assert found.outcome == "impossible"
    assert found.tally.impossible == found.tally.choices == 2
    assert "Impossible, and that is proven" in words(found, None, ())


def test_the_only_way_to_choose_is_not_told_as_one_of_many():
    """With one desk to choose there is nothing that it is the best of."""
    one = {"need": [{"name": "a place to write"}]}
    fits = asked(desk_room(piece=desk_room()["piece"][:1], **one))
    assert answer_words(fits).startswith("This is the only way to choose that you can pay for, and")
    wide = desk_room()["piece"][0] | {"width": 120}
    clash = asked(desk_room(room={"size": [125, 125]}, piece=[wide], **one))
    assert "the only way to choose that you can pay for does not fit" in answer_words(clash)


@pytest.mark.parametrize(("faults", "told"), [(0, "50.0 points for 60:"),
                                              (1, "50.0 points and 1 fault for 60:"),
                                              (2, "50.0 points and 2 faults for 60:")])  # fmt: skip
def test_faults_are_told_beside_the_points(faults, told):
    """Another choice has its points, its faults and its sum."""
    one = SimpleNamespace(
        verdict=SimpleNamespace(faults=faults),
        points=500,
        elsewhere=False,
        choice=SimpleNamespace(cost=Decimal(60)),
    )
    found = SimpleNamespace(best=None, money=SimpleNamespace(currency=""))
    assert other_words(found, one, 2).startswith(f"2. {told}")


def test_what_is_to_blame_rules_out_all_that_have_it():
    """A bench as long as the room: few candidates are to blame, and with fewer it works."""
    data = desk_room(money={"budget": 500, "set_aside": 0})
    data["need"].append({"name": "a bench", "may_lack": True, "points": 1})
    data["piece"].append({"kind": "hall bench", "width": 199, "depth": 130, "price": 1,
                          "meets": "a bench"})  # fmt: skip
    file = read_open_data(data, "box")
    chooser = Chooser(file, Budget(LONG), 0, lambda _: None, Decimal(0))
    found = chooser.answer(1, curve=False)
    oracle = FeasibilityOracle(LONG)
    assert chooser.nogoods
    for nogood in chooser.nogoods:
        assert "hall bench" in nogood.names
        assert oracle.decide(file.scenario(sorted(nogood.names))).answer == "impossible"
        for name in nogood.names:
            assert oracle.decide(file.scenario(sorted(nogood.names - {name}))).works
    assert found.outcome == "proven"
    assert "a bench" in found.best.choice.lacking
    out = [case.choice for case in chooser.choices.every if case.works is False]
    assert 1 < len(out) == found.tally.impossible
    assert {value_by_itself(file, choice) for choice in out} == {NOTHING}


def test_a_room_may_be_left_empty():
    """Where every need may go unmet and nothing is there in any case, that is one of the ways."""
    need = {"name": "a place to write", "may_lack": True, "points": 1}
    found = asked(desk_room(need=[need], piece=desk_room()["piece"][:2]))
    assert {one.choice.candidates for one in found.curve} <= {(), ("small",), ("long",)}
    assert found.outcome == "proven"
    assert found.curve[0].choice.lacking == ("a place to write",)


def test_out_of_time_is_not_called_impossible():
    """A thousandth of a second proves nothing."""
    found = choose(read_open_data(desk_room(), "box"), seconds=1e-3)
    assert found.outcome == "nothing found"
    assert found.tally.open == found.tally.choices > 0
    assert "Nothing found in the time" in answer_words(found)


def test_stopped_it_gives_the_best_so_far():
    """As after Ctrl-C: once something is found it is shown, and not called proven."""
    file = open_room(2, 4, 5)
    heard = []

    def say(text):
        heard.append(text)

    found = choose(file, seconds=LONG, say=say, stop=lambda: "best so far" in "".join(heard))
    assert found.interrupted
    assert found.outcome == "found"
    assert found.tally.open > 0
    assert judge(found.best.scenario, found.best.suggestion.arrangement).works


def test_the_same_file_gives_the_same_answer():
    """Word for word, whatever the machine is busy with."""
    first, again = (choice_data(choose(open_room(3, 3, 2), seconds=LONG)) for _ in range(2))
    assert first == again


def test_a_score_to_surpass_ends_the_question_without_an_arrangement():
    """Of a proven best nothing surpasses its own score; something surpasses one less."""
    _, found = small(0)
    scenario, best = found.best.scenario, found.best.verdict.standing
    over = Search(scenario, Budget(LONG)).best(known=Best(score=best))
    assert over.closed
    assert over.arrangement is None
    under = Search(scenario, Budget(LONG)).best(known=Best(score=best - 1))
    assert under.score == best


class Company(Rule):
    """A trial must that no piece stands alone. It declares nothing: one more piece can help."""

    id = "trial-company"
    title = "No piece stands alone"
    kind = "must"

    def build(self, model):
        """One piece is too few."""
        if len(model.scenario.pieces) == 1:
            model.must(False)

    def breaches(self, scene):
        """One, for a piece alone."""
        if len(scene.placed) == 1:
            yield Breach(self.id, (scene.placed[0].name,), "it stands alone")


def test_what_is_impossible_by_itself_rules_nothing_out_where_more_could_help(monkeypatch):
    """A desk alone is ruled out by the trial must; with a seat it works, and so no nogood holds."""
    file = read_open_data(desk_room(), "box")
    alone, both = file.scenario(["small"]), file.scenario(["small", "armchair"])
    desk = frozenset(piece.unpriced for piece in alone.pieces)
    nogood = Nogood(frozenset({"small"}), desk, frozenset())
    assert nogood.holds_in(both)
    monkeypatch.setattr("arrange.whatif.requirements.RULES", (*RULES, Company()))
    monkeypatch.setattr("arrange.rules.RULES", (*RULES, Company()))
    assert not nogood.holds_in(both)
    assert nogood.holds_in(alone)
    found = choose(file, seconds=LONG)
    assert found.outcome == "proven"
    assert found.best.choice.candidates == ("small", "armchair")


@pytest.mark.long
def test_the_example_is_proven_and_its_budget_binds():
    """Eight needs, thirty candidates: the best for the money, and more money buys a better one."""
    file = read_open("scenarios/choosing/workroom.toml")
    found = choose(file, seconds=3 * LONG, further=Decimal(20))
    assert file.whole.expected == "found"
    assert found.outcome == "proven"
    assert found.complete
    assert found.best.choice.cost <= found.spendable < found.curve[-1].choice.cost
    assert found.best.value < found.curve[-1].value


def test_the_sheet_of_sums_has_a_dot_for_each_choice_and_says_what_it_is():
    """Read back: dearer to the right, better higher up, the numbers those of the list."""
    _, found = next(small(s) for s in DAILY if len(small(s)[1].curve) > 1)
    assert "no better choice" in sheet_words(found, found.best)[1]
    assert not any("no better choice" in sheet_words(found, one)[1] for one in found.picks[1:])
    axes = sums_sheet(found).axes[0]
    dots = [line.get_xydata()[0] for line in axes.lines if line.get_gid() == "choice"]
    assert len(dots) == len(found.curve)
    for (x, y), (right, above) in pairwise(dots):
        assert x < right
        assert (above < y) == (axes.yaxis_inverted() or axes.get_ylim()[0] > axes.get_ylim()[1])
    numbers = [t.get_text() for t in axes.texts if t.get_gid() == "number"]
    assert numbers == [str(i) for i in range(1, len(dots) + 1)]
    listed = " ".join(t.get_text() for t in axes.texts if t.get_gid() == "step")
    for one in found.curve:
        assert money(one.choice.cost).lstrip("-") in listed
    # As dear as the budget allows, as good as can be: its number keeps off what is written there.
    last = found.curve[-1]
    (plan,) = last.result.suggestions
    verdict = replace(plan.verdict, score=1000 + last.choice.lack)
    result = replace(last.result, suggestions=(replace(plan, verdict=verdict),))
    curve = (*found.curve[:-1], replace(last, result=result))
    purse = replace(found.money, budget=last.choice.cost, set_aside=0)
    whole = replace(found.whole, money=purse)
    figure = sums_sheet(replace(found, whole=whole, curve=curve))
    texts = figure.axes[0].texts
    words = next(t for t in texts if t.get_text().startswith("you have"))
    for number in (t for t in texts if t.get_gid() == "number"):
        assert not number.get_window_extent().overlaps(words.get_window_extent())
