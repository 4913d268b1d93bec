"""Files that leave open what to have: what is read, which ways to choose there are, their sums."""

import random
import re
from copy import deepcopy
from dataclasses import replace
from decimal import Decimal
from itertools import combinations, islice
from pathlib import Path

import pytest
from open_rooms import open_data, open_room

from arrange.data.choosing import spendable
from arrange.data.need import Candidate, Need, Needs, Post, TooManyWaysError
from arrange.errors import ScenarioError
from arrange.scenario.counted import COUNTS
from arrange.scenario.needs import OF_NEEDS, read_open, read_open_data, read_open_text
from arrange.scenario.read import read_data, read_text

pytestmark = pytest.mark.fast

EXAMPLE = Path("scenarios/choosing/workroom.toml")

STUDY = {
    "title": "study",
    "room": {"size": [300, 350]},
    "door": [{"wall": "C", "from_left": 20, "width": 80}],
    "money": {"budget": 300, "set_aside": 10, "currency": "EUR", "hour": 8},
    "need": [
        {"name": "a place to write"},
        {"name": "a seat"},
        {"name": "a light", "may_lack": True, "points": 4},
    ],
    "piece": [
        {"kind": "desk", "name": "old desk", "owned": True, "sells_for": 25,
         "meets": "a place to write"},
        {"kind": "desk", "name": "board", "buy": "make over", "price": 12.5, "materials": 9.99,
         "hours": 3, "meets": "A place to write"},
        {"kind": "dining table for four", "name": "table", "set": "table with chairs", "price": 80,
         "delivery": 20, "meets": ["a place to write", "a seat"]},
        {"kind": "dining chair", "name": "chair", "set": "table with chairs", "count": 2,
         "price": 15},
        {"kind": "desk chair", "price": 40, "meets": "a seat"},
        {"kind": "floor lamp", "owned": True, "meets": "a light"},
        {"kind": "bookcase", "price": 30, "delivery": 5.5},
    ],
    "wish": [{"piece": "a place to write", "near": "door", "must": True},
             {"piece": "floor lamp", "near": "a seat"}],
}  # fmt: skip


def study(**changes):
    """The tables of the file with some of them exchanged."""
    return deepcopy(STUDY) | changes


def with_piece(number, **keys):
    """The same with keys of one piece changed; None takes a key away."""
    data = study()
    row = data["piece"][number] | keys
    data["piece"][number] = {key: value for key, value in row.items() if value is not None}
    return data


def test_every_candidate_has_its_needs_its_pieces_and_its_account():
    """Sums by hand: the board 12.50 + 9.99 + 3 x 8 = 46.49; the set 80 + 20 + 2 x 15 = 130."""
    needs = read_open_data(STUDY, "study").needs
    assert [need.name for need in needs.needs] == ["a place to write", "a seat", "a light"]
    assert [need.lack for need in needs.needs] == [None, None, 40]
    cost = {c.name: c.cost for c in needs.candidates}
    assert cost == {
        "old desk": 0,
        "board": Decimal("46.49"),
        "table with chairs": 130,
        "desk chair": 40,
        "floor lamp": 0,
    }
    both = needs.candidate("table with chairs")
    assert both.needs == ("a place to write", "a seat")
    assert both.pieces == ("table", "chair 1", "chair 2")
    assert sum(post.total for post in needs.fixed) == Decimal("35.50")


def test_a_choice_costs_what_it_takes_less_what_the_rest_is_sold_for():
    """The set: 35.50 in any case + 130 - 25 for the desk = 140.50; no light takes off 4 points."""
    needs = read_open_data(STUDY, "study").needs
    choice = needs.choice(["table with chairs"])
    assert choice.cost == Decimal("140.50")
    assert (choice.lacking, choice.lack) == (("a light",), 40)
    assert needs.choice(["old desk", "desk chair", "floor lamp"]).cost == Decimal("75.50")


def test_a_choice_is_read_as_a_file_that_has_nothing_else_in_it():
    """Struck out by hand, the file gives the same pieces, ties and wishes."""
    data = study(money={"budget": 300, "set_aside": 10, "currency": "EUR"})
    del data["need"]
    kept = [data["piece"][i] for i in (0, 4, 5, 6)]
    keys = ("meets", "sells_for")
    data["piece"] = [{k: v for k, v in row.items() if k not in keys} for row in kept]
    data["wish"] = [
        {"piece": "old desk", "near": "door", "must": True},
        {"piece": "floor lamp", "near": "desk chair"},
    ]
    by_hand = read_data(data, "study")
    chosen = read_open_data(STUDY, "study").scenario(["old desk", "desk chair", "floor lamp"])
    assert (chosen.pieces, chosen.wishes) == (by_hand.pieces, by_hand.wishes)
    assert chosen.piece("desk chair").anchor == "old desk"


def test_what_speaks_of_something_not_chosen_is_passed_over():
    """Without the lamp there is no wish for it; with another desk the wish is for that one."""
    chosen = read_open_data(STUDY, "study").scenario(["board", "desk chair"])
    assert [(w.piece, w.place) for w in chosen.wishes] == [("board", "door")]


SLIPS = [
    pytest.param(study(need=[]), "need: no needs given", id="no need"),
    pytest.param(
        study(need=[*STUDY["need"], {"name": "a rest"}]), 'nothing meets "a rest"', id="unmet"
    ),
    pytest.param(
        study(need=[*STUDY["need"], {"name": "A Seat"}]), '"A Seat" is there twice', id="twice"
    ),
    pytest.param(study(need=[{"name": "a seat", "points": 3}]), "add may_lack = true", id="points"),
    pytest.param(
        with_piece(4, meets="a seet"), "the need 'a seet' is not known", id="unknown need"
    ),
    pytest.param(with_piece(4, meets=[]), "the name of a need, or a list", id="meets nothing"),
    pytest.param(with_piece(2, meets=None), 'nothing of the set "table with chairs"', id="set"),
    pytest.param(with_piece(4, price=None), '"desk chair" has no price', id="no price"),
    pytest.param(with_piece(6, price=None), '"bookcase" has no price', id="no price of the rest"),
    pytest.param(with_piece(4, materials=5), 'is for buy = "make over"', id="materials"),
    pytest.param(with_piece(4, sells_for=5), "not yours to sell", id="not owned"),
    pytest.param(with_piece(5, meets=None, sells_for=5), "kept in any case", id="kept"),
    pytest.param(with_piece(4, kind="desk chare"), "the kind of piece 'desk chare'", id="kind"),
    pytest.param(with_piece(4, name="a seat"), "is the name of a piece, too", id="named alike"),
]


@pytest.mark.parametrize(("data", "told"), SLIPS)
def test_each_slip_is_told_with_its_place(data, told):
    """One message that says what is wrong, and no other kind of error."""
    with pytest.raises(ScenarioError) as error:
        read_open_data(data, "study.toml")
    assert told in str(error.value)


def test_every_slip_of_a_file_is_told_at_once():
    """Of needs, of money and of the room alike."""
    data = with_piece(4, meets="a seet", width="wide")
    data["door"][0]["wall"] = "Z"
    with pytest.raises(ScenarioError) as error:
        read_open_data(data, "study.toml")
    text = str(error.value)
    assert "piece[5].meets" in text
    assert "piece[5].width" in text
    assert "door[1].wall" in text


def test_other_commands_say_that_the_file_leaves_something_open():
    """Not a list of unknown keys."""
    with pytest.raises(ScenarioError, match="leaves open what to have; arrange choose") as error:
        read_data(STUDY, "study.toml")
    assert len(error.value.faults) == 1


def by_subsets(needs):
    """Every choice with its cost, by going through all sets of candidates: by the definition."""
    found = {}
    for count in range(len(needs.candidates) + 1):
        for chosen in combinations(needs.candidates, count):
            met = [need for c in chosen for need in c.needs]
            musts = {need.name for need in needs.needs if need.lack is None}
            needed = all(c.bought or any(met.count(need) == 1 for need in c.needs) for c in chosen)
            needed = needed and all(c in chosen for c in needs.candidates if c.bought)
            names = tuple(c.name for c in chosen)
            if musts <= set(met) and needed:
                found[names] = needs.choice(names).cost
    return found


@pytest.mark.parametrize("seed", range(12))
def test_the_ways_to_choose_are_those_of_the_definition(seed):
    """None is missing, none comes twice, none costs more than may be spent."""
    needs = open_room(seed, 3, 4).needs
    every = by_subsets(needs)
    for most in (Decimal(150), Decimal(400)):
        ways = [choice.candidates for choice in needs.choices(most)]
        assert len(ways) == len(set(ways))
        assert set(ways) == {names for names, cost in every.items() if cost <= most}


@pytest.mark.parametrize("seed", range(12))
def test_what_was_bought_is_in_every_choice(seed):
    """One or two of each file: the ways to choose are those of the definition, and sums, too."""
    data = open_data(seed, 3, 4)
    rows = [row for row in data["piece"] if not row.get("owned")][:: 3 + seed % 2][:2]
    for row in rows:
        row |= {"owned": True, "paid": 12.5}
    needs = read_open_data(data, "open").needs
    assert [c.name for c in needs.candidates if c.bought] == [row["name"] for row in rows]
    every = by_subsets(needs)
    for most in (Decimal(150), Decimal(400)):
        ways = [choice.candidates for choice in needs.choices(most)]
        assert len(ways) == len(set(ways))
        assert set(ways) == {names for names, cost in every.items() if cost <= most}
    for choice in needs.choices():
        assert {row["name"] for row in rows} <= set(choice.candidates)
        paid = [post.total for post in choice.account if post.item == "paid"]
        assert sum(paid) == Decimal("12.5") * len(rows)


def test_what_is_not_needed_is_not_chosen():
    """A sofa bed meets both; beside it neither a bed nor a sofa is there for anything."""
    bed, sofa = Candidate("bed", ("sleep",), ("bed",)), Candidate("sofa", ("sit",), ("sofa",))
    both = Candidate(
        "sofa bed", ("sleep", "sit"), ("sofa bed",), (Post("price", "it", Decimal(9)),)
    )
    needs = Needs((Need("sleep"), Need("sit")), (bed, sofa, both))
    assert {choice.candidates for choice in needs.choices()} == {("bed", "sofa"), ("sofa bed",)}


def test_every_key_of_needs_is_described():
    """Those that a file without needs has not stand in the page, and no other."""
    page = Path("scenarios/README.md").read_text(encoding="utf-8")
    part = page.split("## [[need]]\n", 1)[1].split("\n## ", 1)[0]
    cells = [line.split("|")[1] for line in part.splitlines() if line.startswith("|")]
    told = {key for cell in cells for key in re.findall(r"`(\w+)`", cell)}
    assert told == {
        "name",
        "may_lack",
        "points",
        *OF_NEEDS,
        *COUNTS,
        "price",
        "delivery",
        "hour",
        "feel_points",
    }


@pytest.mark.slow
def test_a_choice_is_written_as_a_file_that_all_other_commands_read():
    """With the comments of the file, and nothing of what was not chosen; it reads as the choice."""
    text = EXAMPLE.read_text("utf-8")
    file = read_open(EXAMPLE)
    for choice in islice(file.needs.choices(), 0, 4000, 400):
        written = file.text(choice.candidates, text)
        again = read_text(written, str(EXAMPLE))
        case = file.scenario(choice.candidates)
        assert replace(again, money=case.money) == case
        # What is sold stands there no more, and may be spent as before.
        sold = sum(post.total for post in choice.account if post.item == "sale")
        assert spendable(again.money) == spendable(case.money) - sold
        assert ("comes_in = " in written) == (sold != 0)
        assert not re.search(r"^(\[\[need|meets|materials|hour|sells_for)", written, re.MULTILINE)
        assert "# A workroom in a small flat" in written
        assert "\n\n\n" not in written
    poor = re.sub(r"(?m)^\[money\]\n(\w.*\n)*", "", text)
    assert "comes_in = " in read_open_text(poor, "poor").text(choice.candidates, poor)
    bare = text.replace('use = "office"\n', "")
    given = read_open_text(bare, "bare").text(choice.candidates, bare)
    assert given.startswith(f'use = "{read_open_text(bare, "bare").use}"')
    inline = bare.replace('[[need]]\nname = "a desk to work at"\n', "", 1)
    inline = re.sub(r"(?ms)^\[\[need\]\].*?(?=^#|^\[\[piece)", "", inline)
    names = [need.name for need in file.needs.needs]
    inline = f"need = [{', '.join(f'{{ name = {name!r} }}' for name in names)}]\n{inline}"
    assert read_open_text(inline, "inline").text(choice.candidates, inline) is None


@pytest.mark.slow
def test_too_many_ways_are_refused_and_not_waited_for():
    """Thirty needs that may go unmet, and one at the end that nothing affordable meets."""
    needs = [Need(f"need {i}", 10) for i in range(30)] + [Need("dear")]
    pieces = [Candidate(f"{n.name} {k}", (n.name,), ()) for n in needs[:-1] for k in "ab"]
    pieces.append(Candidate("dear", ("dear",), (), (Post("price", "dear", Decimal(9)),)))
    with pytest.raises(TooManyWaysError, match="50,000"):
        list(Needs(tuple(needs), tuple(pieces)).choices(Decimal(5)))


def test_the_example_leaves_much_open():
    """Eight needs, thirty candidates, and every way to choose is one that can be read."""
    found = read_open(EXAMPLE)
    assert (len(found.needs.needs), len(found.needs.candidates)) == (8, 30)
    for choice in list(found.needs.choices(Decimal(120))):
        assert found.scenario(choice.candidates).use == "office"


@pytest.mark.slow
def test_random_files_are_read():
    """Those that the other tests go on with."""
    for seed in range(30):
        assert read_open_data(open_data(seed), "open").needs.candidates


JUNK = [0, -1, 1e9, True, "", [], {}, "x", "a seat", ["a light", 3], [[]], {"a": 1}, "\x1b[2J"]
KEYS = ("meets", "set", "sells_for", "materials", "hours", "may_lack", "points", "with", "count")


@pytest.mark.parametrize("seed", range(150))
def test_a_broken_file_is_refused_in_words(seed):
    """A key gone, or nonsense in its place, or where it has no business: a message or an answer."""
    rng = random.Random(seed)  # noqa: S311
    data = study()
    table = rng.choice([*data["need"], *data["piece"], data["money"]])
    for _ in range(rng.choice([1, 2])):
        key = rng.choice([*table, *KEYS])
        table[key] = deepcopy(rng.choice(JUNK))
        if rng.random() < 0.3:
            del table[key]
    told = ""
    try:
        assert read_open_data(data, "study.toml").needs.needs
    except ScenarioError as error:
        told = str(error)
    assert not told or told.startswith("study.toml: ")
    assert "\x1b" not in told


TAGGED = {
    "feel": ["Calm", "warm", "airy"],
    "room": {"size": [300, 300]},
    "door": [{"wall": "C", "from_left": 20, "width": 80}],
    "need": [{"name": "to sit"}],
    "piece": [
        {"kind": "armchair", "owned": True, "meets": "to sit", "tags": ["wood", "Calm "]},
        {"kind": "stool", "price": 5, "meets": "to sit", "tags": "warm"},
        {"kind": "plant", "owned": True, "tags": ["green"]},
    ],
}


@pytest.mark.parametrize(("points", "tenths"), [(None, 20), (0, 0), (5, 50)])
def test_a_word_that_nothing_chosen_answers_takes_points_off(points, tenths):
    """However it is written; what nothing at all is tagged with is no fault of a choice."""
    data = TAGGED if points is None else {**TAGGED, "feel_points": points}
    needs = read_open_data(data, "open").needs
    assert needs.feel == ("calm", "warm")
    assert {(c.candidates, c.unanswered, c.lack) for c in needs.choices()} == {
        (("armchair",), ("warm",), tenths),
        (("stool",), ("calm",), tenths),
    }


def test_what_is_there_in_any_case_answers_for_all():
    """A plant that is calm: whoever sits where."""
    pieces = [*TAGGED["piece"][:2], {**TAGGED["piece"][2], "tags": ["calm"]}]
    needs = read_open_data({**TAGGED, "piece": pieces}, "open").needs
    assert {(c.candidates, c.unanswered) for c in needs.choices()} == {
        (("armchair",), ("warm",)),
        (("stool",), ()),
    }


@pytest.mark.parametrize("tags", [7, [""], ["x" * 41], ["a", 3], ["\x1b[2J"], list("abcdefg"), {}])
def test_tags_that_are_none_are_told(tags):
    pieces = [{**TAGGED["piece"][0], "tags": tags}, *TAGGED["piece"][1:]]
    with pytest.raises(ScenarioError, match=r"piece\[1\].tags"):
        read_open_data({**TAGGED, "piece": pieces}, "open")
