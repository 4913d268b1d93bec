"""Published packings through the floor of the product's own model.

A square of side k is a free-standing piece of k x k mm, the rectangle a room. No
clearances, no wishes, no doors: what is left is what keeps bodies apart and inside
(`arrange.solver.floor`), the search, and the judge. Sources in each test are ids of
the reference table:

* `korf-N`: smallest-area rectangle that holds squares 1..N (Korf 2003; Simonis and
  O'Sullivan 2008; Huang and Korf 2013; sizes from OEIS A081287, areas from A038666);
* `sq-112`: lowest-order simple perfect squared square (Duijvestijn 1978; OEIS A014530);
* `rect-33x32`, `rect-65x47`: squared rectangles of order 9 and 10 ("Simple Perfect
  Squared Rectangles").
"""

import pytest
from ortools.sat.python import cp_model

from arrange import suggest
from arrange.data.arrangement import Arrangement, Placement
from arrange.data.piece import Piece
from arrange.data.room import Room, Wall
from arrange.data.scenario import RuleSetting, Scenario
from arrange.judge import judge
from arrange.rules import RULES
from arrange.solver.model import Model

WISHES = tuple(RuleSetting(rule.id, off=True) for rule in RULES if rule.kind == "wish")
# `korf-N`: N, width, height of the published optimum.
KORF = {
    4: (5, 7), 5: (5, 12), 6: (9, 11), 7: (11, 14), 8: (14, 15), 9: (15, 20),
    10: (15, 27), 11: (19, 27), 12: (23, 29), 13: (22, 38), 14: (23, 45), 15: (23, 55),
}  # fmt: skip
# Areas as A038666 prints them: a second source for the sizes above.
AREAS = {
    4: 35, 5: 60, 6: 99, 7: 154, 8: 210, 9: 300,
    10: 405, 11: 513, 12: 667, 13: 836, 14: 1035, 15: 1265,
}  # fmt: skip
SQ_112 = (2, 4, 6, 7, 8, 9, 11, 15, 16, 17, 18, 19, 24, 25, 27, 29, 33, 35, 37, 42, 50)
RECT_33 = (1, 4, 7, 8, 9, 10, 14, 15, 18)
RECT_65 = (3, 5, 6, 11, 17, 19, 22, 23, 24, 25)
# `rect-33x32-xy`: x, y from the top left, side.
RECT_33_XY = (
    (0, 0, 18), (18, 0, 15), (18, 15, 7), (25, 15, 8), (0, 18, 14),
    (14, 18, 4), (14, 22, 10), (24, 22, 1), (24, 23, 9),
)  # fmt: skip


def packing(sides, width, height):
    """Squares of these sides in a rectangular room."""
    corners = ((0, 0), (0, height), (width, height), (width, 0))
    walls = tuple(Wall("ABCD"[i], corners[i], corners[(i + 1) % 4]) for i in range(4))
    pieces = tuple(
        Piece(f"square {k}", "square", f"square {k}", k, k, 100, stands="free") for k in sides
    )
    return Scenario(
        "packing", Room(corners, walls, 2400), pieces, unit="mm", settings=WISHES, walkway=1
    )


def outcome(sides, width, height, seconds=60):
    """Whether the squares fit, and the judge's word for it if they do."""
    result = suggest(packing(sides, width, height), top=1, seconds=seconds)
    if result.suggestions:
        assert judge(result.scenario, result.suggestions[0].arrangement).works
        return "fits"
    return result.outcome


def smaller(n):
    """Every rectangle of less area than the optimum that no simple count rules out."""
    width, height = KORF[n]
    least = sum(k * k for k in range(1, n + 1))
    return [
        (w, h)
        for w in range(n, height * width)
        for h in range(w, width * height)
        if least <= w * h < width * height
    ]


@pytest.mark.parametrize("n", sorted(KORF))
def test_the_sizes_and_the_areas_of_the_optimum_agree(n):
    """`korf-N`: width times height is the published area, and the squares go into it."""
    width, height = KORF[n]
    assert width * height == AREAS[n] >= sum(k * k for k in range(1, n + 1))


@pytest.mark.parametrize("n", range(4, 10))
@pytest.mark.parametrize("cut", [(1, 0), (0, 1)])
def test_squares_1_to_n_do_not_fit_one_less(n, cut):
    """`korf-N`: the published rectangle with one taken off either side is proven too small."""
    width, height = (side - less for side, less in zip(KORF[n], cut, strict=True))
    assert outcome(range(1, n + 1), width, height) == "impossible"


@pytest.mark.parametrize("n", range(4, 10))
def test_squares_1_to_n_fit_the_published_rectangle(n):
    """`korf-N` (Korf; OEIS A081287): the optimum is big enough."""
    assert outcome(range(1, n + 1), *KORF[n]) == "fits"


@pytest.mark.parametrize("n", [4, 5, 6, 7, 8])
def test_squares_1_to_n_fit_no_smaller_rectangle(n):
    """`korf-N` (areas: OEIS A038666): every rectangle of less area is proven too small."""
    assert smaller(n)
    assert {outcome(range(1, n + 1), w, h) for w, h in smaller(n)} == {"impossible"}


@pytest.mark.long
@pytest.mark.parametrize("n", range(10, 16))
def test_more_squares_fit_the_published_rectangle(n):
    """`korf-N`, bigger."""
    assert outcome(range(1, n + 1), *KORF[n], seconds=600) == "fits"


@pytest.mark.long
@pytest.mark.parametrize("n", [9, 10, 11])
def test_more_squares_fit_no_smaller_rectangle(n):
    """`korf-N`, bigger."""
    assert {outcome(range(1, n + 1), w, h, 600) for w, h in smaller(n)} == {"impossible"}


def test_the_judge_passes_the_published_positions():
    """`rect-33x32-xy`: the published drawing touches everywhere and overlaps nowhere."""
    case = packing(RECT_33, 33, 32)
    places = {k: (x, 32 - y - k) for x, y, k in RECT_33_XY}
    placements = [Placement(f"square {k}", "down", *places[k]) for k in RECT_33]
    assert judge(case, Arrangement(tuple(placements))).works
    x, y = places[1]
    moved = [*placements]
    moved[0] = Placement("square 1", "down", x + 1, y)
    assert not judge(case, Arrangement(tuple(moved))).works


@pytest.mark.parametrize(
    ("sides", "width", "height"),
    [
        pytest.param(RECT_33, 33, 32, id="rect-33x32"),
        pytest.param(RECT_65, 65, 47, id="rect-65x47"),
    ],
)
def test_a_squared_rectangle_is_found(sides, width, height):
    """`rect-33x32`, `rect-65x47`: no floor is left over, so there is no slack at all."""
    assert sum(k * k for k in sides) == width * height
    assert outcome(sides, width, height) == "fits"


@pytest.mark.parametrize(
    ("sides", "width", "height"),
    [
        pytest.param(RECT_33, 33, 31, id="rect-33x31"),
        pytest.param(RECT_65, 65, 46, id="rect-65x46"),
    ],
)
def test_a_squared_rectangle_cut_by_one_is_impossible(sides, width, height):
    """Less floor than squares: by area alone it cannot be, and it is proven."""
    assert outcome(sides, width, height) == "impossible"


@pytest.mark.long
def test_the_squared_square_of_order_21_is_found():
    """`sq-112` (Duijvestijn 1978): 21 squares fill 112 x 112.

    The product's model, solved with CP-SAT's defaults and 8 workers: the settings made
    for rooms, which have slack, do not find this one in ten minutes.
    """
    assert sum(k * k for k in SQ_112) == 112 * 112
    case = packing(SQ_112, 112, 112)
    model = Model(case)
    model.finish()
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 8
    solver.parameters.max_time_in_seconds = 600
    assert solver.solve(model.cp) == cp_model.OPTIMAL
    assert judge(case, model.arrangement(solver)).works
