"""Needs that are counted: to eat for so many, to sleep for so many, hanging space.

The tables, chairs and beds are our own; how many each seats or sleeps is counted here by hand.
That a bench seats one for each 60 cm, and that a sofa bed from 140 cm on sleeps two, is common
practice, no source.
"""

import random
from itertools import combinations

import pytest

from arrange.data.need import Candidate, Need, Needs
from arrange.errors import ScenarioError
from arrange.scenario.counted import hanging, seats, sleepers
from arrange.scenario.needs import read_open_data
from arrange.scenario.read import read_data

pytestmark = pytest.mark.fast

EMPTY = {
    "room": {"size": [500, 500]},
    "door": [{"wall": "C", "from_left": 20, "width": 80}],
}


def pieces(*rows):
    """Tables of pieces from (kind, count, other keys)."""
    return [
        {"kind": kind, "name": f"{kind} {i}", "count": count, **keys}
        for i, (kind, count, keys) in enumerate(rows, 1)
    ]


FOUR, SIX, TWO = (f"dining table for {n}" for n in ("four", "six", "two"))
CHAIR, BENCH = "dining chair", "dining bench"
SEATED = [
    pytest.param([(FOUR, 1, {})], 0, id="a table alone"),
    pytest.param([(CHAIR, 4, {})], 0, id="chairs without a table"),
    pytest.param([(FOUR, 1, {}), (CHAIR, 3, {})], 3, id="one chair short"),
    pytest.param([(FOUR, 1, {}), (CHAIR, 4, {})], 4, id="as many as it takes"),
    pytest.param([(FOUR, 1, {}), (CHAIR, 5, {})], 4, id="one more than it takes"),
    pytest.param([(TWO, 1, {}), (CHAIR, 4, {})], 2, id="a table for two"),
    pytest.param([(TWO, 2, {}), (CHAIR, 4, {})], 4, id="two of them"),
    # The bench takes one long side: 2 on it, 2 chairs at the other; 3 at that of the larger one.
    pytest.param([(FOUR, 1, {}), (CHAIR, 2, {}), (BENCH, 1, {"width": 120})], 4, id="a bench"),
    pytest.param(
        [(SIX, 1, {}), (CHAIR, 4, {}), (BENCH, 1, {"width": 120})], 5, id="bench, 4 chairs"
    ),
    pytest.param([(FOUR, 1, {}), (BENCH, 2, {"width": 119})], 2, id="benches of 119 cm"),
    pytest.param([(FOUR, 1, {}), (BENCH, 2, {"width": 120})], 4, id="benches of 120 cm"),
    pytest.param([(FOUR, 1, {}), (CHAIR, 4, {"free": True})], 0, id="chairs elsewhere"),
    pytest.param([("bar table", 1, {}), ("bar stool", 2, {})], 2, id="bar stools"),
    pytest.param([(FOUR, 1, {}), ("armchair", 2, {}), ("stool", 2, {})], 0, id="other seats"),
]


@pytest.mark.parametrize(("rows", "people"), SEATED)
def test_who_eats_sits_at_a_table(rows, people):
    assert seats(read_data(EMPTY | {"piece": pieces(*rows)}, "eat")) == people


@pytest.mark.parametrize(
    ("kind", "keys", "people"),
    [
        ("single bed", {}, 1),
        ("double bed", {}, 2),
        ("daybed", {}, 1),
        ("bunk bed", {}, 2),
        ("loft bed", {}, 1),
        ("sofa bed", {"width": 139}, 1),
        ("sofa bed", {"width": 140}, 2),
        ("sofa", {}, 0),
    ],
)
def test_who_sleeps_has_a_bed(kind, keys, people):
    case = read_data(EMPTY | {"piece": pieces((kind, 1, keys), ("plant", 1, {}))}, "sleep")
    assert sleepers(case) == people


def test_what_clothes_hang_in_counts_by_its_width():
    """120 + 2 x 45 cm; in a chest nothing hangs."""
    rows = [("wardrobe", 1, {"width": 120}), ("coat rack", 2, {"width": 45})]
    case = read_data(EMPTY | {"piece": pieces(*rows, ("chest of drawers", 1, {}))}, "hang")
    assert hanging(case) == 2100


def eating(number, *rows, key="seats", fixed=()):
    """A file that leaves open how so many eat: each row (name, kind, other keys) a candidate."""
    piece = [
        {"name": name, "kind": kind, "price": 10, "meets": "to eat", **keys}
        for name, kind, keys in rows
    ]
    need = [{"name": "to eat", key: number}]
    return EMPTY | {"need": need, "piece": [*piece, *pieces(*fixed)]}


TABLE = ("table", FOUR, {})
ROUND = ("round one", "round table", {})
CHAIRS = ("chairs", CHAIR, {"count": 2})
OTHERS = ("other chairs", CHAIR, {"count": 2, "width": 42})
SEAT = ("bench", BENCH, {"width": 120})


def test_chairs_a_bench_and_tables_are_put_together():
    """Four seats: of three pairs any two, at the one table or the other.

    No bench goes to a round table (it has no straight side), so with it only the chairs.
    """
    found = read_open_data(eating(4, TABLE, ROUND, CHAIRS, OTHERS, SEAT), "eat").needs
    ways = {c.candidates for c in found.choices()}
    assert ways == {
        ("table", "chairs", "other chairs"),
        ("table", "chairs", "bench"),
        ("table", "other chairs", "bench"),
        ("round one", "chairs", "other chairs"),
    }
    assert all(not c.lacking for c in found.choices())
    assert found.choice(["table", "chairs"]).lacking == ("to eat",)


def test_what_is_there_in_any_case_counts():
    """A table and two chairs are there: two more are enough, and no second table."""
    there = ((FOUR, 1, {"owned": True}), (CHAIR, 2, {"owned": True}))
    found = read_open_data(eating(4, CHAIRS, SEAT, fixed=there), "eat").needs
    assert {c.candidates for c in found.choices()} == {("chairs",), ("bench",)}


NEVER = [
    pytest.param(eating(4, TABLE, CHAIRS), 'need[1].seats: everything that meets "to eat" seats 2',
                 id="too few"),
    pytest.param(eating(4, TABLE), "seats nobody; you ask for 4", id="no chairs"),
    pytest.param(eating(4, TABLE, CHAIRS, OTHERS, ("little one", TWO, {})),
                 'piece[4].meets: "little one" seats nobody by itself; it is never needed to '
                 'get to 4',
                 id="too small a table"),
    pytest.param(eating(4, CHAIRS, fixed=((FOUR, 1, {"owned": True}), (CHAIR, 4, {"owned": True}))),
                 "what you keep in any case seats 4 already", id="there"),
    pytest.param(eating(0, TABLE), "need[1].seats: 0 given", id="none"),
    pytest.param(eating(120, ("chest", "chest of drawers", {}), key="hanging"),
                 'everything that meets "to eat" hangs nothing; you ask for 120 cm', id="hanging"),
    pytest.param(eating(2, *[(f"bed {i}", "single bed", {}) for i in range(11)], key="sleeps"),
                 "11 candidates meet", id="too many"),
]  # fmt: skip


@pytest.mark.parametrize(("data", "told"), NEVER)
def test_what_can_never_be_enough_is_told(data, told):
    with pytest.raises(ScenarioError) as error:
        read_open_data(data, "eat.toml")
    assert told in str(error.value)


def test_one_thing_is_counted_in_a_need():
    data = eating(4, TABLE, CHAIRS, OTHERS)
    data["need"][0]["sleeps"] = 1
    with pytest.raises(ScenarioError, match=r"need\[1\].sleeps: seats is given, too"):
        read_open_data(data, "eat.toml")


@pytest.mark.parametrize("seed", range(20))
def test_the_ways_to_choose_are_those_of_the_definition(seed):
    """By going through all sets, with ways drawn at random: none missing, none twice.

    A choice meets all musts, and without any one of it something goes unmet that it meets.
    """
    rng = random.Random(seed)  # noqa: S311
    names = [f"c{i}" for i in range(7)]
    needs = []
    for n in range(3):
        drawn = {frozenset(rng.sample(names, rng.randint(1, 3))) for _ in range(4)}
        ways = tuple(w for w in drawn if not any(v < w for v in drawn))
        counted = ("seats", 4) if rng.random() < 0.7 else None
        ways = ways if counted else tuple(frozenset((name,)) for name in rng.sample(names, 3))
        needs.append(Need(f"n{n}", rng.choice([None, 10]), counted, ways))
    met_by = {c: tuple(n.name for n in needs if any(c in w for w in n.ways)) for c in names}
    candidates = [Candidate(c, met_by[c], (), bought=rng.random() < 0.1) for c in names]
    found = Needs(tuple(needs), tuple(candidates))

    def met(chosen):
        return {n.name for n in needs if any(way <= set(chosen) for way in n.ways)}

    by_hand = set()
    bought = {c.name for c in candidates if c.bought}
    musts = {n.name for n in needs if n.lack is None}
    for many in range(len(names) + 1):
        for chosen in combinations(names, many):
            own = met(chosen)
            spare = any(met(set(chosen) - {c}) == own for c in set(chosen) - bought)
            if bought <= set(chosen) and musts <= own and not spare:
                by_hand.add(chosen)
    ways = [choice.candidates for choice in found.choices()]
    assert len(ways) == len(set(ways))
    assert set(ways) == by_hand
    assert by_hand
