"""The tape survey: published traverses, gross errors found, corners that are not square."""

import math

import numpy as np
import pytest

from arrange.errors import ScenarioError
from arrange.scenario.adjusting import Measurement, adjust, value_on
from arrange.scenario.outline import Leg, OutlineError, add_bay, check, letter, rectangle, walls
from arrange.scenario.read import read_text
from arrange.scenario.survey import Check, misread_as, survey
from arrange.words.check import measure_again, survey_words
from benchmarks.surveyed import surveyed

pytestmark = pytest.mark.fast


def compass(courses, start):
    """A closed traverse whose courses may give alike along and across, by their length.

    Then least squares is the compass rule: corrections of latitudes and departures in
    proportion to the lengths of the courses.
    """
    points, measured = [start], []
    for i, (bearing, length) in enumerate(courses):
        at = (i, (i + 1) % len(courses))
        sd = 0.01 * math.sqrt(length)
        measured.append(Measurement(f"{i}", "length", at, length, sd))
        measured.append(Measurement(f"{i}", "bearing", at, bearing, math.degrees(sd / length)))
        north = length * math.cos(math.radians(bearing))
        east = length * math.sin(math.radians(bearing))
        points.append((points[-1][0] + east, points[-1][1] + north))
    return np.array(points), adjust(measured, np.array(points[:-1]), (0, 1)).points


def test_a_published_traverse_is_adjusted_as_printed():
    """Purdue University, ASM 215, traverse calculations: five courses, compass rule.

    Printed to 0.01; printed sums of latitudes and departures -0.71 and +0.53.
    """
    minutes = 60
    courses = [
        (26 + 10 / minutes, 285.10),
        (104 + 35 / minutes, 610.45),
        (195 + 30 / minutes, 720.48),
        (358 + 18 / minutes, 203.00),
        (306 + 54 / minutes, 647.02),
    ]
    raw, points = compass(courses, (10000.0, 10000.0))
    east, north = raw[-1] - raw[0]
    assert (north, east) == (pytest.approx(-0.71, abs=0.01), pytest.approx(0.53, abs=0.01))
    printed = [
        (10000.00, 10000.00),
        (10255.96, 10125.66),
        (10102.44, 10716.31),
        (9408.37, 10523.62),
        (9611.34, 10517.55),
    ]
    for (north, east), (x, y) in zip(printed, points, strict=True):
        assert (y, x) == (pytest.approx(north, abs=0.011), pytest.approx(east, abs=0.011))


def test_a_second_published_traverse():
    """A worked compass rule example with four courses (scribd.com/document/493615208).

    Printed: misclosure +0.285 and -0.311; adjusted latitudes 19.3653, -37.5063, -35.3716,
    53.5126; adjusted departures of the first three 78.1055, 27.2678, -63.5874.
    """
    courses = [(76.0, 80.40), (180 - 36.0, 46.30), (180 + 61.0, 72.80), (360 - 38.0, 68.00)]
    raw, points = compass(courses, (0.0, 0.0))
    assert raw[-1][1] == pytest.approx(0.285, abs=0.002)
    assert raw[-1][0] == pytest.approx(-0.311, abs=0.002)
    steps = np.diff(np.vstack([points, points[:1]]), axis=0)
    # Least squares in bearings is the rule to first order: 0.3 in 267 leaves a thousandth.
    assert steps[:, 1] == pytest.approx([19.3653, -37.5063, -35.3716, 53.5126], abs=2e-3)
    assert steps[:3, 0] == pytest.approx([78.1055, 27.2678, -63.5874], abs=2e-3)


def test_what_is_measured_changes_as_differences_say():
    """Each kind of measurement: its change with each coordinate, against small steps."""
    points = np.random.default_rng(1).normal(size=(5, 2)) * 1000
    kinds = [
        ("length", (0, 1)),
        ("bearing", (1, 3)),
        ("turn", (0, 1, 2)),
        ("square", (2, 3, 0, 4)),
        ("square", (2, 2, 0, 4)),
    ]
    for kind, at in kinds:
        one = Measurement("", kind, at, 0.0, 1.0)
        for corner in range(5):
            for axis in range(2):
                moved = points.copy()
                moved[corner, axis] += 1e-3
                by_hand = (value_on(moved, one) - value_on(points, one)) / 1e-3
                # One free coordinate, one measurement: the step that adjust makes undoes it.
                if abs(by_hand) > 1e-9:
                    goal = Measurement("", kind, at, value_on(moved, one), 1.0)
                    held = [i for i in range(10) if i != 2 * corner + axis]
                    fitted = adjust([goal], points, held)
                    assert fitted.points == pytest.approx(moved, abs=1e-5)
                    free = 2 * corner + axis
                    change = fitted.spread[free, free] ** -0.5
                    assert change == pytest.approx(abs(by_hand), rel=1e-3)


def test_the_error_angle_of_two_diagonals():
    """Sin e = (d1² - d2²) / (4ab): 4000 x 3000 with 5010 and 4990 is 0.239° off (geometry)."""
    four = [Leg(letter(i), long, 90) for i, long in enumerate((4000, 3000, 4000, 3000))]
    diagonals = [Check("diagonal A-C", 0, 2, 5030), Check("diagonal B-D", 1, 3, 4970)]
    corners, taped = survey(four, False, diagonals, "mm")
    # Three times the differences of the example: sin e = (5030² - 4970²) / (4 x 12,000,000).
    off = math.degrees(math.asin((5030**2 - 4970**2) / (4 * 4000 * 3000)))
    assert off == pytest.approx(0.716, abs=0.001)
    assert sorted(angle for _, angle in taped.askew) == [893, 893, 907, 907]
    assert not taped.doubts
    (ax, ay), (bx, by), (cx, cy), _ = corners
    legs = (ax - bx, ay - by), (cx - bx, cy - by)
    dot = legs[0][0] * legs[1][0] + legs[0][1] * legs[1][1]
    angle = math.degrees(math.acos(dot / math.hypot(*legs[0]) / math.hypot(*legs[1])))
    assert angle == pytest.approx(90 + off, abs=0.03)


def test_diagonals_that_agree_leave_right_angles_right():
    """Off by what a tape slips: the room stays a rectangle in whole mm."""
    four = [Leg(letter(i), long, 90) for i, long in enumerate((4000, 3004, 4006, 3000))]
    diagonals = [Check("diagonal A-C", 0, 2, 5008), Check("diagonal B-D", 1, 3, 4999)]
    corners, taped = survey(four, False, diagonals, "mm")
    assert [w.facing for w in walls(corners)] == ["down", "left", "up", "right"]
    assert taped.askew == ()
    assert taped.doubts == ()
    assert taped.most <= 6


ROOM = """
unit = "m"
[room]
{walls}
[[door]]
wall = "A"
from_left = 0.2
width = 0.8
[[piece]]
kind = "plant"
"""


def room(*lengths, checks=()):
    rows = [f"[[room.wall]]\nlength = {long}" for long in lengths]
    rows += [f'[[room.check]]\nfrom = "{a}"\nto = "{b}"\nlength = {long}' for a, b, long in checks]
    return ROOM.format(walls="\n".join(rows))


def test_a_misread_wall_is_named_with_the_number_meant():
    """B is 3.24; 3.42 was written. The diagonals of 4.10 x 3.24 are 5.226, all else agrees."""
    checks = [("A", "C", 5.23), ("B", "D", 5.22), ("wall A", "wall C", 3.24)]
    scenario = read_text(room(4.10, 3.42, 4.10, 3.24, checks=checks))
    assert scenario.room.bounds == pytest.approx((0, 0, 4100, 3240), abs=2)
    (question,) = measure_again(scenario)
    assert question == (
        "Measure wall B again: 3.42 m may be 3.24 m, misread on the tape. The plan does without it."
    )


def test_a_misread_diagonal_is_named():
    """5.23 written as 5.32; the walls and the other diagonal agree."""
    checks = [("A", "C", 5.23), ("B", "D", 5.32), ("wall A", "wall C", 3.24)]
    scenario = read_text(room(4.10, 3.24, 4.10, 3.24, checks=checks))
    assert scenario.room.bounds == pytest.approx((0, 0, 4100, 3240), abs=2)
    assert [(d.name, d.misread) for d in scenario.survey.doubts] == [("diagonal B-D", 5230)]


def test_walls_alone_cannot_tell_a_misread_one_from_a_room_out_of_square():
    """4.10 against 3.98, 3.24 deep: each side leans by 6 cm, which is atan(6 / 324) = 1.06°."""
    scenario = read_text(room(4.10, 3.24, 3.98, 3.24))
    taped = scenario.survey
    assert [angle for _, angle in taped.askew] == [889, 911, 911, 889]
    assert not taped.doubts
    assert [(d.name, d.likely) for d in taped.readings.misread] == [
        ("wall A", 3980),
        ("wall C", 4100),
    ]
    assert measure_again(scenario) == (
        "The walls end 12 cm from where they began, after 14.56 m.",
        "Either the room is out of square, as it is drawn, with corners up to 1.1 degrees off, or "
        "one length is wrong: wall A (4.10 m, but 3.98 m if all corners are square) or wall C "
        "(3.98 m, but 4.10 m if all corners are square). Measure from corner A to corner C and "
        "from corner B to corner D, and add both: they tell which. Corner A is the left end of "
        "wall A, as you face it. Until then each corner is probably within 17 cm of where it is "
        "drawn.",
    )
    assert set(measure_again(scenario)) < set(survey_words(scenario))


# 4.10 x 3.24 has diagonals of 5.226: 4.10² + 3.24² = 27.3076. With 3.98 opposite 4.10 both are
# 5.177: 3.98 x 4.10 + 3.24² = 26.8156, as in every trapezium with sides alike.
SQUARE, TRAPEZIUM = (4.10, 3.24, 4.10, 3.24), (4.10, 3.24, 3.98, 3.24)
LEANT, BROAD = (4.10, 3.42, 4.10, 3.24), (4.60, 3.24, 4.10, 3.24)


@pytest.mark.parametrize(
    ("lengths", "diagonals", "doubts", "misread", "measure"),
    [
        pytest.param(SQUARE, (5.226,), [], None, (), id="nothing is wrong"),
        pytest.param(SQUARE, (5.32,), [], ["diagonal A-C"], ["BD"], id="one diagonal"),
        pytest.param(SQUARE, (5.32, 5.226), ["diagonal A-C"], None, (), id="the other is right"),
        # sin e = (5.32² - 5.13²) / (4 x 4.10 x 3.24) = 0.0374: 2.1° off, and 5.13 as it must be.
        pytest.param(SQUARE, (5.32, 5.13), [], None, (), id="both diagonals say: out of square"),
        pytest.param(LEANT, (5.226,), [], ["wall B"], ["BD"], id="3.42 for 3.24, one diagonal"),
        pytest.param(LEANT, (5.226, 5.226), ["wall B"], None, (), id="3.42 for 3.24, both"),
        pytest.param(TRAPEZIUM, (5.177,), [], None, (), id="no square room has this diagonal"),
        pytest.param(TRAPEZIUM, (5.226,), [], ["wall C"], ["BD"], id="a square room has this one"),
        pytest.param(BROAD, (), [], ["wall A", "wall C"], ["AC", "BD"], id="half a metre lost"),
        # The walls are 12 and 8 cm out: no one length explains both.
        pytest.param((4.10, 3.24, 3.98, 3.16), (), [], [], ["AC", "BD"], id="several"),
    ],
)
def test_what_is_enough_to_tell_is_told_and_else_both_are_said(
    lengths, diagonals, doubts, misread, measure
):
    """The room out of square or one length wrong, and which diagonal tells."""
    pairs = (("A", "C"), ("B", "D"))
    checks = [(a, b, long) for (a, b), long in zip(pairs, diagonals, strict=False)]
    taped = read_text(room(*lengths, checks=checks)).survey
    assert [doubt.name for doubt in taped.doubts] == doubts
    both = taped.readings
    assert (both and [doubt.name for doubt in both.misread]) == misread
    assert [a + b for a, b in (both.measure if both else ())] == list(measure)


def test_what_looks_square_to_nobody_is_refused_until_its_diagonals_are_measured():
    """4.10 opposite 3.18, 3.24 deep: each side leans by 46 cm, atan(46 / 320.7) = 8.2°.

    Diagonals: the root of 4.10 x 3.18 + 3.24², 4.849.
    """
    lengths = (4.10, 3.24, 3.18, 3.24)
    with pytest.raises(ScenarioError) as refused:
        read_text(room(*lengths))
    (fault,) = refused.value.faults
    assert fault.given == "the walls end 0.92 m from where they began"
    assert fault.hint.startswith("measure wall A or wall C again; ")
    assert fault.hint.endswith("; if all are right, measure the diagonals as well")
    both = read_text(room(*lengths, checks=[("A", "C", 4.849), ("B", "D", 4.849)])).survey
    assert [round(angle / 10) for _, angle in both.askew] == [82, 98, 98, 82]
    assert not both.doubts
    assert both.readings is None


@pytest.mark.parametrize("square", [True, False])
def test_corners_measured_square_stay_so(square):
    """With all four square a gap of 12 cm is a wrong length; with two the other two lean.

    A and B square: wall C runs level, and 12 cm over 3.24 are atan(12 / 324) = 2.12°.
    """
    four = [Leg(letter(i), 1000 * long, 90, 0.0, i < 2) for i, long in enumerate(TRAPEZIUM)]
    if square:
        four = [Leg(leg.name, leg.length, 90, 0.0, True) for leg in four]
        with pytest.raises(OutlineError, match="the walls end 12 cm from where they began"):
            survey(four, False, (), "cm")
    else:
        taped = survey(four, False, (), "cm")[1]
        assert taped.askew == (("the end of wall C", 921), ("the end of wall D", 879))


def test_a_last_wall_left_out_can_say_that_its_corner_is_square():
    """Then wall B alone leans, 15 cm over 3.24 m, which is atan(15 / 324) = 2.65 degrees.

    Wall C may be turned, as D was not measured: the other two corners have half of it each.
    """
    last = "[[room.wall]]\nsquare = true\n[[door]]"
    taped = read_text(room(4.10, 3.24, 3.95).replace("[[door]]", last)).survey
    assert [where for where, _ in taped.askew] == [f"the end of wall {name}" for name in "ABC"]
    off = [angle - 900 for _, angle in taped.askew]
    assert off == pytest.approx([-26.5, 13.25, 13.25], abs=1)


@pytest.mark.parametrize(
    ("third", "short", "misread"),
    [
        (4.10, 0, None),
        (3.95, 150, ["wall A", "wall C"]),
        # 60 cm over 3.24 m are 10.5°: a wall at a slant, which nothing contradicts.
        (3.50, None, None),
    ],
)
def test_a_last_wall_left_out_that_runs_nearly_square_is_asked_about(third, short, misread):
    """The last wall is not measured: what it misses its course by may be a slip elsewhere."""
    text = room(4.10, 3.24, third).replace("[[door]]", "[[room.wall]]\n[[door]]")
    scenario = read_text(text)
    taped = scenario.survey
    assert taped.short == short
    assert (taped.readings and [doubt.name for doubt in taped.readings.misread]) == misread
    assert bool(survey_words(scenario)) == (short is not None)


@pytest.mark.parametrize(
    ("back", "told"),
    [
        (4.10, "The walls end exactly where they began, after 14.68 m."),
        # 4 mm spread over 4.10 out and back: 2 mm each.
        (
            4.104,
            "The walls end 4 mm from where they began, after 14.68 m; that is shared out, and no "
            "wall changes by more than 2 mm.",
        ),
    ],
)
def test_the_misclosure_is_told_as_a_surveyor_would(back, told):
    assert survey_words(read_text(room(4.10, 3.24, back, 3.24)))[0] == told


def test_a_slip_from_two_centimetres_on_is_asked_about():
    """21 mm between A and C: spread, and both are to be measured again; 15 mm are not."""
    asked = measure_again(read_text(room(4.10, 3.24, 4.121, 3.24)))
    *asked, otherwise = asked
    assert [q.split(":")[0] for q in asked] == ["Measure wall A again", "Measure wall C again"]
    assert otherwise.startswith("If the tape says the same again, the corners are not square")
    assert measure_again(read_text(room(4.10, 3.24, 4.115, 3.24))) == ()


def test_a_size_can_have_its_diagonals():
    """3 x 4 is square with 5 (the 3-4-5 rule); with 5.10 and 4.90 it is not."""
    text = ROOM.format(walls="size = [3, 4]\n{}")
    row = '[[room.check]]\nfrom = "{}"\nto = "{}"\nlength = {}\n'
    square = read_text(text.format(row.format("A", "C", 5) + row.format("B", "D", 5)))
    assert square.room.bounds == (0, 0, 3000, 4000)
    bent = read_text(text.format(row.format("A", "C", 5.1) + row.format("B", "D", 4.9)))
    assert {where for where, _ in bent.survey.askew} >= {"the end of wall A"}


def test_what_no_room_can_check_is_refused():
    """Each slip of a check at its place."""
    text = room(4, 3, 4, 3, checks=[("A", "Q", 5), ("A", "A", 5), ("wall B", "", 3)])
    with pytest.raises(ScenarioError) as refused:
        read_text(text)
    where = [fault.where for fault in refused.value.faults]
    assert where[:2] == ["room.check[1].to", "room.check[2].to"]
    corners = ROOM.format(walls="corners = [[0,0],[0,3],[4,3],[4,0]]\n[[room.check]]\nfrom = 'A'")
    with pytest.raises(ScenarioError, match="corners leave nothing to check"):
        read_text(corners)


def test_misread_numbers():
    """Two digits changed places, or one misread; the nearest in that order."""
    assert misread_as(3420, 3243, "cm") == 3240
    assert misread_as(3420, 3120, "cm") == 3120
    assert misread_as(3420, 2900, "cm") == 0
    assert misread_as(3170, 3771, "cm") == 3770


def test_lengths_too_far_apart_to_leave_anything_are_refused():
    """Diagonals of 350 and 400 in a room of 44 by 120: the others leave the last one nothing."""
    assert misread_as(4000, -527, "cm") == 0
    text = room(0.43, 1.2, 0.45, 1.2, checks=[("A", "C", 3.5), ("B", "D", 4)])
    with pytest.raises(ScenarioError, match="the lengths disagree"):
        read_text(text)


def test_a_bay_of_three_parts_is_built_out_of_its_wall():
    """2400 wide in a wall of 4000, front 1200, 600 deep: sides run 600 across and 600 out."""
    grown = add_bay(walls(rectangle(4000, 3000)), 0, "bay", 800, 2400, 600, 1200)
    assert [w.name for w in grown] == [
        "A left",
        "bay left",
        "bay",
        "bay right",
        "A right",
        "B",
        "C",
        "D",
    ]
    assert [w.start for w in grown[:5]] == [
        (0, 3000),
        (800, 3000),
        (1400, 3600),
        (2600, 3600),
        (3200, 3000),
    ]
    assert [w.facing for w in grown[:5]] == ["down", None, "down", None, "down"]
    assert all(a.end == b.start for a, b in zip(grown, [*grown[1:], grown[0]], strict=True))
    check([w.start for w in grown])


def test_a_bay_is_read_and_takes_windows():
    """On its three walls by name; what is on the wall beside it is measured along it whole."""
    bay = '[[room.bay]]\nwall = "A"\nfrom_left = 1\nwidth = 2.4\ndepth = 0.6\nfront = 1.2\n'
    text = ROOM.format(walls=f"size = [4, 3]\n{bay}").replace("from_left = 0.2\nwidth = 0.8", "{}")
    scenario = read_text(
        text.format(
            "from_left = 0.1\nwidth = 0.8\n[[window]]\nwall = 'bay'\nfrom_left = 0.1\nwidth = 1"
        )
    )
    assert scenario.room.walls[scenario.room.windows[0].wall].name == "bay"
    with pytest.raises(ScenarioError, match="stands forward or back"):
        read_text(text.format("from_left = 0.8\nwidth = 0.8"))


@pytest.mark.slow
@pytest.mark.parametrize("wrong", [False, True])
def test_most_seeded_rooms_come_out_right(wrong):
    """Corners within the stated error, or the one planted mistake named: in 95 of 100.

    Every wall and up to twice as many other lengths: enough to tell. 1,000 rooms each:
    ``benchmarks.surveyed``.
    """
    right = [surveyed(seed, wrong) for seed in range(100)]
    assert sum(right) >= 95


def test_corners_a_little_off_are_no_reason_to_measure_again():
    """Four walls and both diagonals of one skew room, to the mm: the lengths are not to blame.

    Its corners, by the angles of the walls: 90.1, 89.8, 89.7 and 90.4 degrees, so that three are
    off by too little to be told.
    """
    room = [(0, 0), (20, 3500), (4100, 3460), (4050, -30)]
    pairs = [(0, 1), (1, 2), (2, 3), (3, 0), (0, 2), (1, 3)]
    *sides, first, second = (round(math.dist(room[i], room[j])) for i, j in pairs)
    legs = [Leg(letter(i), side, 90) for i, side in enumerate(sides)]
    both = [Check("diagonal A-C", 0, 2, first), Check("diagonal B-D", 1, 3, second)]
    for checks in (both, both[:1]):
        corners, taped = survey(legs, False, checks, "mm")
        assert not taped.doubts
        assert taped.askew == (("the end of wall C", 904),)
        found = [math.dist(corners[i], corners[j]) for i, j in pairs]
        assert found == pytest.approx([*sides, first, second], abs=2)
