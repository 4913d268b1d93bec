"""The tape survey: a room from its walls, turns and check lengths, and what disagrees.

Slips are spread by least squares. Each measurement says what it should be, given the corners,
and how far off it may be. The corners are those with the least sum of (what is left over /
standard deviation) squared. A measurement that the others contradict is found by its
standardised residual (Baarda's data snooping, from memory).

Three readings are tried, the plainest first: corners as written, right angles among them;
corners that are somewhat off what is written, if there are lengths enough to tell; one length
misread. The first reading without a contradiction is taken. Lengths in mm; bearings and turns
in degrees, clockwise; y up.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from arrange.data.lengths import length as in_words
from arrange.data.lengths import listed
from arrange.data.room import Doubt, Point, Survey, Taped
from arrange.data.scenario import Unit
from arrange.scenario.outline import Leg, OutlineError, headings, whole

Floats = NDArray[np.float64]
Kind = Literal["length", "bearing", "turn", "square"]

# Two-sided 0.01 %: of a thousand rooms with ten lengths each, one is doubted without cause.
CRITICAL = 3.89
# A measurement of which the others check less than this share cannot be told to be wrong.
CHECKED = 0.02
STEPS = 20
STILL = 1e-7  # mm
# One standard deviation of a length read by hand: 2 mm for a metre, and with its root.
TAPE = 2.0
LEAST_SD = 1.0
EXACT = 1e-5  # degrees: a corner that stays as it is written
ASKEW = 2.0  # degrees: how far corners of a home are off what they look like, one in three more
SKEW_SEEN = 0.3  # degrees: less is not told
ASKED = 20  # mm: from here on a slip is asked about
LIKELY = 2.58  # standard deviations, one in a hundred: so much, and 2 cm, are worth a question
SPREAD_AT_MOST = 50  # mm: more is no slip that can be spread over walls nobody suspects
APART = 6.0  # squared test values: this much likelier than any other, e ** 3 to 1


@dataclass(frozen=True, slots=True)
class Measurement:
    """One thing measured, with ``sd``, its standard deviation in the unit of ``value``.

    ``at`` are corners by number: from and to for a ``length`` or ``bearing`` (clockwise
    from up the plan); before, at and after the corner for a ``turn``, right positive; for
    ``square`` two corners, whose middle is measured from, and the two ends of the wall
    that is measured to at right angles, inwards positive.
    """

    name: str
    kind: Kind
    at: tuple[int, ...]
    value: float
    sd: float


@dataclass(frozen=True, slots=True)
class Adjustment:
    """Corners that fit best, and how well each measurement agrees with the others.

    ``points`` (n, 2) are in mm. ``off`` is adjusted less measured, ``share`` the part of
    each measurement that the others check, 0 to 1, and ``test`` the standardised residual;
    all (m,). ``spread`` (2n, 2n) is the covariance of the points, in mm squared.
    """

    points: Floats
    off: Floats
    share: Floats
    test: Floats
    spread: Floats

    @property
    def worst(self) -> float:
        """The greatest standardised residual; 0 where nothing is checked."""
        return float(np.abs(self.test).max(initial=0.0))

    @property
    def fits(self) -> bool:
        """Whether no measurement contradicts the others."""
        return self.worst <= CRITICAL

    def slip(self, index: int) -> float:
        """By how much measurement ``index`` is out, if it alone is: measured less true."""
        return float(-self.off[index] / self.share[index])

    def error(self) -> float:
        """In mm: 95 times of 100 every corner is within this of where it is.

        Measured from the first corner, with the first wall running as drawn. It is the 99 %
        radius of the worst corner (chi squared 9.21, from memory), since all must be within.
        """
        corners = range(0, len(self.spread), 2)
        largest = [np.linalg.eigvalsh(self.spread[i : i + 2, i : i + 2])[-1] for i in corners]
        return math.sqrt(9.21 * max(0.0, *map(float, largest)))


def adjust(measurements: Sequence[Measurement], start: Floats, held: Sequence[int]) -> Adjustment:
    """The corners that fit ``measurements`` best, from ``start`` (n, 2) on, in mm.

    ``held`` are coordinates that stay as they are (2i is x of corner i, 2i + 1 its y): as
    many as it takes to hold the room in its place. What no measurement fixes stays near
    ``start``.
    """
    points = np.array(start, dtype=float)
    free = [i for i in range(points.size) if i not in set(held)]
    weight = np.array([1 / m.sd for m in measurements])
    for _ in range(STEPS):
        rows, off = _rows(measurements, points)
        step = np.linalg.lstsq(rows[:, free] * weight[:, None], -off * weight, rcond=1e-13)[0]
        points.reshape(-1)[free] += step
        if np.abs(step).max(initial=0.0) < STILL:
            break
    rows, off = _rows(measurements, points)
    design = rows[:, free] * weight[:, None]
    inverse = np.linalg.pinv(design)
    share = 1 - np.einsum("ij,ji->i", design, inverse)
    checked = share > CHECKED
    test = np.where(checked, off * weight / np.sqrt(np.where(checked, share, 1.0)), 0.0)
    spread = np.zeros((points.size, points.size))
    spread[np.ix_(free, free)] = inverse @ inverse.T
    return Adjustment(points, off, share, test, spread)


def value_on(points: Floats, measurement: Measurement) -> float:
    """What would be measured on the plan with these corners, in the measurement's unit."""
    return _MEASURES[measurement.kind](points, measurement.at)[0]


def turned(degrees: float) -> float:
    """The same turn between -180 and 180 degrees."""
    return (degrees + 180) % 360 - 180


def _rows(measurements: Sequence[Measurement], points: Floats) -> tuple[Floats, Floats]:
    """How each measurement changes with each coordinate, and adjusted less measured."""
    rows = np.zeros((len(measurements), points.size))
    off = np.zeros(len(measurements))
    for i, m in enumerate(measurements):
        value, changes = _MEASURES[m.kind](points, m.at)
        miss = value - m.value
        off[i] = miss if m.kind in ("length", "square") else turned(miss)
        for corner, (x, y) in changes:
            rows[i, 2 * corner] += x
            rows[i, 2 * corner + 1] += y
    return rows, off


Changes = list[tuple[int, tuple[float, float]]]


def _length(points: Floats, at: tuple[int, ...]) -> tuple[float, Changes]:
    a, b = at
    dx, dy = map(float, points[b] - points[a])
    long = math.hypot(dx, dy) or 1.0
    x, y = dx / long, dy / long
    return long, [(a, (-x, -y)), (b, (x, y))]


def _bearing(points: Floats, at: tuple[int, ...]) -> tuple[float, Changes]:
    a, b = at
    dx, dy = map(float, points[b] - points[a])
    square = (dx * dx + dy * dy) or 1.0
    x, y = math.degrees(dy / square), math.degrees(-dx / square)
    return math.degrees(math.atan2(dx, dy)), [(a, (-x, -y)), (b, (x, y))]


def _turn(points: Floats, at: tuple[int, ...]) -> tuple[float, Changes]:
    before, corner, after = at
    came, came_by = _bearing(points, (before, corner))
    goes, goes_by = _bearing(points, (corner, after))
    return goes - came, [*goes_by, *((i, (-x, -y)) for i, (x, y) in came_by)]


def _square(points: Floats, at: tuple[int, ...]) -> tuple[float, Changes]:
    p, q, a, b = at
    (ax, ay), (bx, by) = points[a], points[b]
    mx, my = (points[p] + points[q]) / 2
    ex, ey = float(bx - ax), float(by - ay)
    long = math.hypot(ex, ey) or 1.0
    across = float(ey * (mx - ax) - ex * (my - ay)) / long
    ux, uy = ex / long, ey / long
    half = (uy / 2, -ux / 2)
    # By the wall's own ends: the line turns about the foot of the measured distance.
    at_b = float((mx - ax) * ux + (my - ay) * uy) / long
    far, near = (-uy * at_b, ux * at_b), (-uy * (1 - at_b), ux * (1 - at_b))
    return across, [(p, half), (q, half), (a, near), (b, far)]


_MEASURES = {"length": _length, "bearing": _bearing, "turn": _turn, "square": _square}


@dataclass(frozen=True, slots=True)
class Check:
    """A length from corner to corner, or square from a corner or wall to a wall.

    ``start`` and ``end`` are numbers of corners (a wall begins at the corner of its
    number); with ``to_wall`` the end is that wall, with ``from_wall`` the start is the
    middle of that wall.
    """

    name: str
    start: int
    end: int
    length: int
    sd: float = 0.0
    from_wall: bool = False
    to_wall: bool = False


def tape_sd(length: float) -> float:
    """The standard deviation of a length of so many mm, in mm."""
    return max(LEAST_SD, TAPE * math.sqrt(length / 1000))


def survey(
    legs: Sequence[Leg], closing: bool, checks: Sequence[Check], unit: Unit
) -> tuple[tuple[Point, ...], Survey]:
    """The corners of a room walked round clockwise, and what was made of the tape.

    ``closing`` says that the last wall was not measured and runs back to the start.

    Raises
    ------
    OutlineError
        If the lengths contradict one another by more than a tape can slip, and no single
        one of them explains it.
    """
    walked = _Walk(legs, closing, checks)
    found = _plainest(walked)
    if found is None:
        raise _contradicted(walked, unit)
    return whole(found.adjusted.points.tolist()), _told(walked, found, unit)


class _Walk:
    """The measurements, with corners numbered from 0 as the walk meets them."""

    def __init__(self, legs: Sequence[Leg], closing: bool, checks: Sequence[Check]) -> None:
        self.legs, self.checks = legs, checks
        self.count = len(legs) + closing
        self.courses, steps = headings(legs, closing)
        ends = np.cumsum([(0.0, 0.0), *steps], axis=0)
        self.start: Floats = ends[: self.count]
        self.gap = _gap(ends[-1], self.courses, closing)
        # Corner 0 stands, and the first wall runs as drawn.
        self.held = (0, 1, 3)

    def lengths(self) -> list[Measurement]:
        """Walls and checks."""
        found = [
            Measurement(
                f"wall {leg.name}",
                "length",
                (i, (i + 1) % self.count),
                leg.length,
                leg.sd or tape_sd(leg.length),
            )
            for i, leg in enumerate(self.legs)
        ]
        for check in self.checks:
            after = [(i, (i + 1) % self.count) for i in (check.start, check.end)]
            sd = check.sd or tape_sd(check.length)
            if check.to_wall:
                first = after[0] if check.from_wall else (check.start, check.start)
                at: tuple[int, ...] = (*first, *after[1])
                found.append(Measurement(check.name, "square", at, check.length, sd))
            else:
                ends = (check.start, check.end)
                found.append(Measurement(check.name, "length", ends, check.length, sd))
        return found

    def turns(self, loose: bool) -> list[Measurement]:
        """Corners: as they are written, or ``loose`` where nobody measured them square."""
        found = []
        for i, course in enumerate(self.courses[1:], 1):
            turn = turned(course - self.courses[i - 1])
            sd = ASKEW if loose and not self.legs[i - 1].square else EXACT
            at = (i - 1, i, (i + 1) % self.count)
            found.append(Measurement(f"corner {i}", "turn", at, turn, sd))
        return found

    def adjust(self, measurements: Sequence[Measurement]) -> Adjustment:
        return adjust(measurements, self.start, self.held)


def _gap(end: Floats, courses: Sequence[float], closing: bool) -> float:
    """By how much the walk misses its beginning; a wall not measured can miss it sideways."""
    if not closing:
        return float(np.hypot(*end))
    aside = math.radians(courses[-1])
    straight = len(courses) > 1 and courses[-1] % 90 == 0
    return abs(float(end[0] * math.sin(aside) + end[1] * math.cos(aside))) if straight else 0.0


@dataclass(frozen=True, slots=True)
class _Found:
    """The corners, and the lengths in doubt by number; a ``left_out`` one is not in them."""

    adjusted: Adjustment
    doubtful: Sequence[int] = ()
    left_out: bool = False


def _plainest(walked: _Walk) -> _Found | None:
    """The first reading that nothing contradicts; where one length alone does, without it."""
    lengths = walked.lengths()
    readings = (False, True) if walked.checks else (False,)
    plain = [_read(walked, lengths, askew) for askew in readings]
    fitting = [one for one in plain if not _suspects(one, len(lengths))]
    # That corners are a little off is likelier than a length that is worth a question.
    unasked = [one for one in fitting if not _worth_asking(one, len(lengths))]
    plainest = next(iter([*unasked, *fitting]), None)
    if plainest is not None:
        return _Found(plainest, _worth_asking(plainest, len(lengths)))
    for askew in readings:
        adjusted = walked.adjust([*lengths, *walked.turns(askew)])
        suspects = _suspects(adjusted, len(lengths))
        if len(suspects) == 1:
            rest = [m for i, m in enumerate(lengths) if i != suspects[0]]
            without = _read(walked, rest, askew)
            if not _suspects(without, len(rest)):
                return _Found(without, suspects, left_out=True)
    adjusted = _read(walked, lengths, askew=False)
    suspects = _suspects(adjusted, len(lengths))
    if all(round(abs(adjusted.slip(i))) <= SPREAD_AT_MOST for i in suspects):
        return _Found(adjusted, suspects)
    return None


def _read(walked: _Walk, lengths: Sequence[Measurement], askew: bool) -> Adjustment:
    """The corners with the turns as written; where ``askew``, those that come out so stay so.

    Unless the lengths will not have that: several corners can be off by too little to be told.
    """
    exact = walked.turns(loose=False)
    if not askew:
        return walked.adjust([*lengths, *exact])
    loose = walked.turns(loose=True)
    freely = walked.adjust([*lengths, *loose])
    points = freely.points
    seen = [abs(turned(value_on(points, t) - t.value)) >= SKEW_SEEN for t in exact]
    turns = [b if bent else a for a, b, bent in zip(exact, loose, seen, strict=True)]
    adjusted = walked.adjust([*lengths, *turns])
    asks = _worth_asking(adjusted, len(lengths)) and not _worth_asking(freely, len(lengths))
    return freely if asks else adjusted


def _suspects(adjusted: Adjustment, lengths: int, critical: float = CRITICAL) -> list[int]:
    """Lengths that the others contradict, the likeliest first; alike ones as they are walked."""
    tests = [round(abs(float(t)), 6) for t in adjusted.test[:lengths]]
    found = [i for i, test in enumerate(tests) if test > critical]
    likeliest = sorted(found, key=lambda i: -tests[i])
    # Where one is out, others are drawn along; only what explains it as well is suspect.
    return [i for i in likeliest if tests[likeliest[0]] ** 2 - tests[i] ** 2 < APART]


def _worth_asking(adjusted: Adjustment, lengths: int) -> list[int]:
    """Lengths that may well be wrong, and by so much that they are asked about."""
    likely = _suspects(adjusted, lengths, LIKELY)
    return [i for i in likely if round(abs(adjusted.slip(i))) >= ASKED]


def _told(walked: _Walk, found: _Found, unit: Unit) -> Survey:
    lengths, adjusted = walked.lengths(), found.adjusted
    taken = [round(value_on(adjusted.points, m)) for m in lengths]
    doubts = []
    for i in found.doubtful:
        given = round(lengths[i].value)
        likely = taken[i] if found.left_out else round(given - adjusted.slip(i))
        if abs(given - likely) >= ASKED:
            misread = misread_as(given, likely, unit)
            doubts.append(Doubt(lengths[i].name, given, likely, misread, found.left_out))
    return Survey(
        perimeter=round(sum(leg.length for leg in walked.legs)),
        short=round(walked.gap),
        lengths=tuple(
            Taped(m.name, round(m.value), mm) for m, mm in zip(lengths, taken, strict=True)
        ),
        doubts=tuple(doubts),
        askew=_askew(walked, adjusted),
        checks=len(walked.checks),
        error=math.ceil(adjusted.error()),
    )


def _askew(walked: _Walk, adjusted: Adjustment) -> tuple[tuple[str, int], ...]:
    """Corners written as square that are not, by the wall that ends there."""
    found = []
    turns = walked.turns(loose=False)
    if len(turns) == walked.count - 1:  # the first corner turns by what is left of a full turn
        last = 360 - sum(turn.value for turn in turns)
        turns.append(Measurement("", "turn", (walked.count - 1, 0, 1), last, EXACT))
    names = [leg.name for leg in walked.legs]
    for turn in turns:
        now = turned(value_on(adjusted.points, turn))
        if round(abs(turn.value)) == 90 and abs(now - turn.value) >= SKEW_SEEN:
            before = turn.at[0]
            where = f"the end of wall {names[before]}" if before < len(names) else "the last corner"
            found.append((where, round(10 * (180 - now))))
    return tuple(found)


def misread_as(given: int, likely: int, unit: Unit) -> int:
    """The number that a reader of tapes may have meant, in mm; 0 if none is near ``likely``.

    Two digits changed places, one digit misread, or a whole foot, 10 cm or metre lost.

    >>> misread_as(3420, 3243, "m"), misread_as(3420, 3310, "m")
    (3240, 3320)
    """
    if likely <= 0:  # lengths so far apart that the others leave this one nothing
        return 0
    step = 1 if unit == "mm" else 254 if unit == "in" else 10
    scale = 10 if unit == "in" else 1
    digits = list(str(round(given * scale / step)))
    places = range(len(digits))
    tries = [[*digits[:i], *digits[i : i + 2][::-1], *digits[i + 2 :]] for i in places]
    tries += [[*digits[:i], d, *digits[i + 1 :]] for i in places for d in "0123456789"]
    near = max(10, round(2 * tape_sd(likely)))
    meant = [round(int("".join(t)) * step / scale) for t in tries if t != digits]
    meant = [mm for mm in meant if abs(mm - likely) <= near]
    return meant[0] if meant else 0


def _contradicted(walked: _Walk, unit: Unit) -> OutlineError:
    """The message about lengths that cannot all be right."""
    lengths = walked.lengths()
    adjusted = walked.adjust([*lengths, *walked.turns(loose=bool(walked.checks))])
    suspects = _suspects(adjusted, len(lengths)) or list(range(len(walked.legs)))
    slips = {i: round(adjusted.slip(i)) if adjusted.test[i] else 0 for i in suspects}
    maybe = []
    for i, slip in slips.items():
        mm = round(lengths[i].value)
        meant = misread_as(mm, mm - slip, unit) if slip else 0
        if meant:
            maybe.append(f"{in_words(mm, unit)} may be {in_words(meant, unit)}")
    names = listed([lengths[i].name for i in suspects[:4]], "or")
    hint = "; ".join([f"measure {names} again", *maybe[:2]])
    if walked.gap > SPREAD_AT_MOST:
        return OutlineError(
            f"the walls end {in_words(round(walked.gap), unit)} from where they began",
            "the last wall must end at the first corner",
            hint,
        )
    most = in_words(max(map(abs, slips.values())), unit)
    return OutlineError(f"the lengths disagree by {most}", "all of them must fit one room", hint)
