"""Other pieces: does it still work, what changes, in two readings. Lengths in mm.

The plain room is 4000 wide and 3000 up the plan.
"""

from dataclasses import replace
from decimal import Decimal

import pytest
from small_rooms import A, C, at, clearance, free, on_wall, only, piece, room, scenario, tied

import arrange
from arrange.data.change import Add, Drop, Exchange, Reprice, Resize, changed
from arrange.data.scenario import Wish
from arrange.data.swap import Answer, Compared, Plan, Reading
from arrange.judge import judge
from arrange.scoring import with_use
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif import swap
from arrange.whatif.swap import compared, moved, price_difference, same_scale
from arrange.words.swap import better, headline, held_result, held_words, note_words, worse

CHEST = piece("chest", 800, 400)


def points_for(*wishes):
    """Only the person's own wishes earn points: the quickest to prove."""
    case = only(scenario(room(), CHEST, piece("shelf", 1000, 300)))
    kept = tuple(s for s in case.settings if s.rule not in ("against", "near"))
    return replace(case, settings=kept, wishes=wishes)


# ------------------------------------------------------------------------------- works or not


@pytest.mark.parametrize(
    ("width", "answer"), [(3000, "works"), (4000, "works"), (4001, "impossible")]
)
def test_the_longest_wall_decides(width, answer):
    """By hand: the walls are 4000 and 3000 long, the shelf needs one for its back."""
    case = points_for(Wish("against", "chest", "A"))
    found = arrange.swap(case, [Resize("shelf", width)], seconds=20)
    assert found.answer == answer
    assert found.free.before.plan.proven
    if answer == "works":
        plan = found.free.after.plan
        assert plan.scenario == changed(with_use(case), [Resize("shelf", width)])
        assert judge(plan.scenario, plan.arrangement) == plan.verdict
        assert plan.verdict.works
    else:
        assert found.free.after.plan is None
        assert found.held.after.answer == "impossible"
        assert "does not work (proven)" in headline(found)


@pytest.mark.parametrize("width", [1010, 2500])
def test_nothing_moves_that_need_not(width):
    """The chest earns its points where it stood before, too: so there it stays."""
    case = points_for(Wish("against", "chest", "A"))
    found = arrange.swap(case, [Resize("shelf", width)], seconds=20)
    before, free, held = (
        answer.plan for answer in (found.free.before, found.free.after, found.held.after)
    )
    assert free.score == held.score
    assert free.proven
    assert free.arrangement.of("chest") == before.arrangement.of("chest")


def test_without_time_nothing_is_decided():
    """And nothing is called impossible."""
    found = arrange.swap(points_for(), [Resize("shelf", 9000)], seconds=0.01)
    assert found.answer == "not decided"
    assert found.held.after.answer == "not decided"
    assert "not decided" in headline(found)


def test_stopped_before_it_began():
    """As when somebody presses Ctrl-C at once."""
    found = arrange.swap(points_for(), [Resize("shelf", 1100)], seconds=9, stop=lambda: True)
    assert found.answer == "not decided"
    assert found.interrupted


@pytest.mark.parametrize(
    ("changes", "keep"), [([Resize("x", 1)], ()), ([Drop("x")], ()), ([Drop("shelf")], ("x",))]
)
def test_unknown_names_are_refused(changes, keep):
    """In a change, and among what is kept."""
    with pytest.raises(KeyError):
        arrange.swap(points_for(), changes, keep=keep)


def test_changed_and_kept_at_once_is_refused():
    """Either the one or the other."""
    with pytest.raises(arrange.ScenarioError):
        arrange.swap(points_for(), [Resize("shelf", 900)], keep=["shelf"])


def test_the_scenario_is_left_as_it_was():
    """Frozen all through, and what comes out says both; what the room is for stays."""
    case = points_for()
    found = arrange.swap(case, [Drop("shelf")], seconds=10)
    assert found.before == with_use(case)
    assert found.after.use == found.before.use is not None
    assert [p.name for p in found.after.pieces] == ["chest"]


# ------------------------------------------------------------------------------ nothing else moves


def standing(*placements, pieces, wishes=()):
    """A room that stands today as said."""
    case = only(scenario(room(), *pieces))
    return replace(case, today=tuple(placements), wishes=wishes)


@pytest.mark.parametrize(("width", "answer"), [(2200, "works"), (2201, "impossible")])
def test_a_piece_slides_along_its_wall_between_its_neighbours(width, answer):
    """By hand: wall A is 4000 long, chests of 900 stand at both its ends: 2200 are left."""
    shelf, left, right = (
        piece("shelf", 1000, 300),
        piece("left", 900, 400),
        piece("right", 900, 400),
    )
    case = standing(
        on_wall(left, room(), A, 0),
        on_wall(right, room(), A, 3100),
        on_wall(shelf, room(), A, 1000),
        pieces=(left, right, shelf),
    )
    found = arrange.swap(case, [Resize("shelf", width)], seconds=20)
    assert found.answer == "works"  # elsewhere there is room for it
    assert found.held.after.answer == answer
    assert found.start == "today"
    assert set(found.holds) == {"left", "right"}
    assert found.slides == (("shelf", "A"),)
    if answer == "works":
        there = found.held.after.plan.arrangement
        assert there.of("left") == case.today[0]
        assert there.of("right") == case.today[1]
        assert (there.of("shelf").wall, there.of("shelf").x) == (A, 900)
        assert [(m.piece, m.move) for m in found.held.moved] == [("shelf", "changed")]


def test_what_is_tied_to_a_changed_piece_follows_it():
    """The table stands 50 right of the bed: the bed grows, the table moves."""
    bed, table, chest = piece("bed", 1000, 2000), tied("table", "bed"), CHEST
    case = standing(pieces=(bed, table, chest))
    before = arrange.suggest(case, top=1, seconds=10).suggestions[0].arrangement
    case = replace(case, today=before.placements)
    found = arrange.swap(case, [Resize("bed", 1200)], seconds=20)
    assert found.follows == ("table",)
    assert found.holds == ("chest",)
    assert "the table goes with the bed" in held_words(found)
    if found.held.after.works:
        assert found.held.after.plan.arrangement.of("chest") == before.of("chest")


def test_only_what_stands_today_is_held():
    """The stool is yet to be bought: it may stand anywhere, and did not move."""
    stool = free("stool", 400, 400)
    case = standing(on_wall(CHEST, room(), A, 100), pieces=(CHEST, stool))
    found = arrange.swap(case, [Add(piece("shelf", 3000, 300))], seconds=20)
    assert found.holds == ("chest",)
    assert "the stool, which is not there yet" in held_words(found)
    assert [m.piece for m in found.held.moved] == ["shelf"]


def test_without_a_word_about_today_the_best_before_is_held():
    """And the words say so."""
    found = arrange.swap(points_for(), [Reprice("shelf", 30.0)], seconds=10)
    assert found.start == "best before"
    assert "where they were" in held_words(found)
    assert found.held.after.plan.arrangement == found.free.before.plan.arrangement
    assert found.held.moved == ()


def test_today_that_does_not_work_is_said():
    """Two bodies share floor today, whatever the change."""
    other = piece("other", 800, 400)
    case = standing(
        on_wall(CHEST, room(), A, 100), on_wall(other, room(), A, 500), pieces=(CHEST, other)
    )
    found = arrange.swap(case, [Add(free("stool", 400, 400))], seconds=10)
    assert found.answer == "works"
    assert found.held.before.answer == "impossible"
    assert any("something essential does not work" in note_words(note) for note in found.notes)


def test_today_that_leaves_no_place_is_said():
    """What stands is in order, but the long shelf is not there yet and finds no wall."""
    places = [on_wall(CHEST, room(), wall, 1000) for wall in range(4)]
    chests = [replace(CHEST, name=f"chest {i}") for i in range(4)]
    today = [replace(p, piece=c.name) for p, c in zip(places, chests, strict=True)]
    case = standing(*today, pieces=(*chests, piece("shelf", 2600, 300)))
    found = arrange.swap(case, [Add(free("stool", 400, 400))], seconds=10)
    assert found.held.before.answer == "impossible"
    assert [note_words(n) for n in found.notes] == [
        "what stands today leaves no place for the shelf"
    ]


# ------------------------------------------------------------------------------------ what is kept


def test_a_kept_piece_stays_where_it_stands_today():
    """In the first reading, too; the wish would have it elsewhere."""
    case = points_for(Wish("against", "chest", "A"))
    today = on_wall(CHEST, room(), C, 700)
    case = replace(case, today=(today,))
    loose = arrange.swap(case, [Resize("shelf", 900)], seconds=10)
    kept = arrange.swap(case, [Resize("shelf", 900)], keep=["chest"], seconds=10)
    assert loose.free.after.plan.arrangement.of("chest").wall == A
    for answer in (kept.free.before, kept.free.after, kept.held.after):
        assert answer.plan.arrangement.of("chest") == today


def test_a_kept_piece_without_a_place_stays_where_the_best_before_has_it():
    """Not at some other place as good."""
    found = arrange.swap(points_for(), [Resize("shelf", 900)], keep=["chest"], seconds=10)
    before, after = found.free.before.plan.arrangement, found.free.after.plan.arrangement
    assert after.of("chest") == before.of("chest")


def test_what_is_kept_is_named_where_it_does_not_work():
    """By hand: the chest stays on wall A, 1500 and 1700 of 4000 are left beside it."""
    shelf = piece("shelf", 1000, 300)
    case = only(scenario(room(), CHEST, shelf), "against")
    case = replace(case, today=(on_wall(CHEST, room(), A, 1500),))
    case = replace(case, wishes=(Wish("against", "shelf", "A", must=True),))
    found = arrange.swap(case, [Resize("shelf", 2000)], keep=["chest"], seconds=10)
    assert headline(found).endswith("does not work while the chest stays (proven).")
    assert arrange.swap(case, [Resize("shelf", 2000)], seconds=10).answer == "works"


def test_nothing_can_be_kept_where_nothing_stands():
    """No place today, and no arrangement before to go by."""
    case = only(scenario(room(), piece("slab", 4000, 2900), CHEST))
    with pytest.raises(arrange.ScenarioError, match="nothing says where the chest stands"):
        arrange.swap(case, [Resize("slab", 1000, 500)], keep=["chest"], seconds=10)


def test_smaller_makes_it_work():
    """Nothing worked before, proven."""
    case = only(scenario(room(), piece("slab", 4000, 2900), CHEST))
    found = arrange.swap(case, [Resize("slab", 1000, 500)], seconds=10)
    assert found.answer == "works"
    assert found.free.before.answer == "impossible"
    assert "nothing worked before (proven)" in headline(found)


def test_another_kind_is_named_with_what_it_takes_the_place_of():
    """Both its sizes are told where the height changes, too."""
    case = only(scenario(room(), CHEST))
    other = piece("chest", 1000, 600, kind="wardrobe", height=2000)
    told = headline(arrange.swap(case, [Exchange("chest", other)], seconds=10))
    assert told.startswith("A wardrobe of 100 x 60 cm and 200 cm high in place of the chest ")


def test_where_nothing_stands_that_nothing_moves_cannot_be_told():
    """Neither impossible nor undecided: there is nothing to hold, and that is proven here."""
    case = only(scenario(room(), piece("slab", 4000, 2900), CHEST))
    found = arrange.swap(case, [Resize("slab", 4000, 2800)], seconds=10)
    assert found.answer == found.free.before.answer == "impossible"
    wanted = "cannot be told: nothing says where things stand, and nothing worked before"
    assert held_result(found) == wanted


# ------------------------------------------------------------------------------- what is different


def test_a_search_cut_short_before_does_not_make_the_change_look_good(monkeypatch):
    """Only a poor arrangement is found before: the one after shows the better one."""
    case = points_for(Wish("against", "chest", "A"))
    poor = plan(case, on_wall(CHEST, room(), C, 700), on_wall(case.pieces[1], room(), A, 0))
    best, calls = swap.Run.best, []

    def cut_short(run, asked, share=1.0):
        calls.append(asked)
        return Answer("works", poor) if len(calls) == 1 else best(run, asked, share)

    monkeypatch.setattr(swap.Run, "best", cut_short)
    found = arrange.swap(case, [Resize("shelf", 900)], seconds=20)
    assert poor.score == 0
    assert found.free.after.plan.score == 1000
    assert found.free.before.plan.score == 1000
    assert judge(case, found.free.before.plan.arrangement).works


def test_reasons_are_compared_one_by_one():
    """The depth before the shelf shrinks by as much as it grows deeper."""
    shelf = piece("shelf", 1000, 300, clearances=(clearance(600, 2500),))
    case = replace(scenario(room(), shelf), unit="mm")
    first, other = (
        judge(changed(case, [Resize("shelf", depth=depth)]), arrangement_of(shelf, depth))
        for depth in (300, 900)
    )
    lines = compared(first, other)
    assert [c.rule for c in lines] == [r.rule for r in first.reasons]
    depth = next(c for c in lines if c.rule == "comfortable-clearance")
    assert (depth.before.measured, depth.after.measured) == ("2700 mm", "2100 mm")
    assert depth.gained == depth.after.won - depth.before.won < 0
    assert same_scale(first, other)


def arrangement_of(shelf, depth):
    deep = replace(shelf, depth=depth)
    return arrange.Arrangement((on_wall(deep, room(), A, 100),))


def test_a_reason_earned_in_full_on_another_scale_is_neither_better_nor_worse():
    """5 of 5 before, 4 of 4 after."""
    case = points_for(Wish("against", "chest", "A"))
    reason = arrange.suggest(case, top=1, seconds=10).suggestions[0].verdict.reasons[0]
    five = replace(reason, won=50, possible=50)
    four = replace(reason, won=40, possible=40)
    half = replace(reason, won=20, possible=40)
    assert Compared("against", ("chest",), five, four).improved == 0
    assert Compared("against", ("chest",), five, half).improved == -20
    assert Compared("against", ("chest",), None, half).improved == 20


def test_two_alike_pieces_that_changed_places_did_not_move():
    """Their names are not written on them."""
    one, two = (piece(f"chest {i}", 800, 400, kind="chest", model="chest") for i in (1, 2))
    case = only(scenario(room(), one, two))
    here, there = on_wall(one, room(), A, 0), on_wall(two, room(), A, 2000)
    swapped = replace(here, piece="chest 2"), replace(there, piece="chest 1")
    assert moved(plan(case, here, there), plan(case, swapped[1], swapped[0])) == ()
    aside = plan(case, here, on_wall(two, room(), A, 2100))
    assert [(m.piece, m.far) for m in moved(plan(case, here, there), aside)] == [("chest 2", 100)]
    near = plan(case, here, on_wall(two, room(), A, 2029))
    assert moved(plan(case, here, there), near) == ()


def plan(case, *placements):
    arrangement = arrange.Arrangement(tuple(placements))
    verdict = judge(case, arrangement)
    return Plan(case, arrangement, verdict, 1000)


def test_turned_on_the_spot():
    """A square stool."""
    case = only(scenario(room(), free("stool", 400, 400)))
    found = moved(
        plan(case, at("stool", "down", 1000, 1000)), plan(case, at("stool", "up", 1000, 1000))
    )
    assert [(m.move, m.far) for m in found] == [("turned", 0)]


PRICED = replace(CHEST, price=Decimal("100.0"))
SHELF = replace(PRICED, name="shelf", price=Decimal("70.0"))
OWNED = replace(CHEST, owned=True)


@pytest.mark.parametrize(
    ("chest", "changes", "expected"),
    [
        (PRICED, [Reprice("chest", Decimal("130.0"))], Decimal("30.0")),
        (PRICED, [Drop("chest")], Decimal("-100.0")),
        (
            PRICED,
            [Drop("chest"), Add(SHELF)],
            Decimal("-30.0"),
        ),
        (OWNED, [Reprice("chest", Decimal("130.0"))], Decimal("130.0")),
        (CHEST, [Reprice("chest", Decimal("130.0"))], None),
        (PRICED, [Resize("chest", 900)], None),
        (PRICED, [Exchange("chest", replace(CHEST, width=900))], None),
    ],
)
def test_prices_are_compared_where_both_are_known(chest, changes, expected):
    """By hand; nothing is guessed."""
    case = scenario(room(), chest)
    assert price_difference(case, changed(case, changes), changes) == expected


def reading(*pairs):
    """Reasons by their points won and possible, before and after."""
    case = points_for(Wish("against", "chest", "A"))
    one = arrange.suggest(case, top=1, seconds=10).suggestions[0].verdict.reasons[0]

    def told(pair):
        return None if pair is None else replace(one, won=pair[0], possible=pair[1])

    lines = tuple(Compared(str(i), (), told(a), told(b)) for i, (a, b) in enumerate(pairs))
    return Reading(Answer("works"), Answer("works"), lines)


def test_what_got_better_and_what_worse():
    """By shares of what can be earned; largest first, new reasons last, those gone not at all."""
    found = reading(
        ((50, 50), (40, 40)),  # all of it, on another scale
        ((10, 50), (20, 50)),
        ((0, 50), (50, 50)),
        ((30, 50), (10, 50)),
        ((50, 50), (0, 50)),
        (None, (30, 40)),
        (None, (10, 40)),
        ((40, 40), None),
        ((33, 100), (32, 98)),  # rounded to tenths
    )
    assert [c.rule for c in better(found)] == ["2", "1", "5"]
    assert [c.rule for c in worse(found)] == ["4", "3", "6"]


@pytest.mark.parametrize("width", [3150, 3200, 3250, 3300])
def test_the_second_reading_agrees_with_trying_every_place(width):
    """Brute force: the shelf at each mm along wall A while the chests stay, by the judge alone."""
    shelf = piece("shelf", 1000, 300)
    left = piece("left", 750, 400)
    case = standing(
        on_wall(left, room(), A, 0), on_wall(shelf, room(), A, 800), pieces=(left, shelf)
    )
    found = arrange.swap(case, [Resize("shelf", width)], seconds=20)
    after = changed(case, [Resize("shelf", width)])
    wide = after.piece("shelf")
    works = any(
        judge(after, arrange.Arrangement((case.today[0], on_wall(wide, room(), A, offset)))).works
        for offset in range(0, 4000 - width + 1)
    )
    assert (found.held.after.answer == "works") == works == (width <= 3250)
    assert FeasibilityOracle(10).decide(after).works
