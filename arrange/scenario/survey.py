"""The tape survey: a room from its walls, turns and check lengths, and what disagrees.

Slips are spread by least squares (``arrange/scenario/adjusting.py``).

Three readings are tried, the plainest first: corners as written, right angles among them;
corners that are somewhat off what is written, if there are check lengths or nothing else will
do; one length misread. The first reading without a contradiction is taken. Where corners are
off in it and one misread length would do as well, nothing measured tells which, and both are
told. Lengths in mm; bearings and turns in degrees, clockwise; y up.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

import numpy as np

from arrange.data.lengths import length as in_words
from arrange.data.lengths import listed
from arrange.data.room import Doubt, Point, Survey, Taped, TwoReadings
from arrange.data.scenario import Unit
from arrange.scenario.adjusting import (
    CHECKED,
    CRITICAL,
    Adjustment,
    Floats,
    Measurement,
    adjust,
    turned,
    value_on,
)
from arrange.scenario.outline import Leg, OutlineError, headings, letter, whole

# One standard deviation of a length read by hand: 2 mm for a metre, and with its root.
TAPE = 2.0
LEAST_SD = 1.0
EXACT = 1e-5  # degrees: a corner that stays as it is written
BENT = 0.01  # degrees: a corner that should have stayed and could not
ASKEW = 2.0  # degrees: how far corners of a home are off what they look like, one in three more
SKEW_SEEN = 0.3  # degrees: less is not told
ASKED = 20  # mm: from here on a slip is asked about
LIKELY = 2.58  # standard deviations, one in a hundred: so much, and 2 cm, are worth a question
SPREAD_AT_MOST = 50  # mm: more is no slip that can be spread over walls nobody suspects
APART = 6.0  # squared test values: this much likelier than any other, e ** 3 to 1


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


LAST = Leg("", 0, 90.0)  # a wall that was not measured, called by its letter


def tape_sd(length: float) -> float:
    """The standard deviation of a length of so many mm, in mm."""
    return max(LEAST_SD, TAPE * math.sqrt(length / 1000))


def survey(
    legs: Sequence[Leg], closing: bool, checks: Sequence[Check], unit: Unit, last: Leg = LAST
) -> tuple[tuple[Point, ...], Survey]:
    """The corners of a room walked round clockwise, and what was made of the tape.

    ``closing`` says that the ``last`` wall was not measured and runs back to the start; of
    its leg only the name, and whether the corner at its end is square, are read.

    Raises
    ------
    OutlineError
        If the lengths contradict one another by more than a tape can slip, and no single
        one of them explains it.
    """
    walked = _Walk(legs, closing, checks, last)
    found = _plainest(walked)
    if found is None:
        raise _contradicted(walked, unit)
    return whole(found.adjusted.points.tolist()), _told(walked, found, unit)


class _Walk:
    """The measurements, with corners numbered from 0 as the walk meets them."""

    def __init__(
        self, legs: Sequence[Leg], closing: bool, checks: Sequence[Check], last: Leg
    ) -> None:
        self.legs, self.checks = legs, checks
        self.count = len(legs) + closing
        walls = [*legs, *([last] if closing else [])]
        self.names = [wall.name or letter(i) for i, wall in enumerate(walls)]
        self.squares = [wall.square for wall in walls]
        self.courses, steps = headings(legs, closing)
        ends = np.cumsum([(0.0, 0.0), *steps], axis=0)
        self.start: Floats = ends[: self.count]
        # Where the last wall may run anywhere, there is nothing to miss.
        closes = len(self.courses) == self.count
        self.gap = _gap(ends[-1], self.courses, closing) if closes else None
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
        """Corners: as they are written, or ``loose`` where nobody measured them square.

        Where all walls have a course, the first corner comes last and turns by what is left
        of a full turn.
        """
        written = [turned(b - a) for a, b in pairwise(self.courses)]
        if len(written) == self.count - 1:
            written.append(turned(360 - sum(written)))
        found = []
        for i, turn in enumerate(written):
            at = (i, (i + 1) % self.count, (i + 2) % self.count)
            sd = ASKEW if loose and not self.squares[i] else EXACT
            found.append(Measurement(f"the end of wall {self.names[i]}", "turn", at, turn, sd))
        return found

    def adjust(self, measurements: Sequence[Measurement]) -> Adjustment:
        return adjust(measurements, self.start, self.held)


def _gap(end: Floats, courses: Sequence[float], closing: bool) -> float:
    """By how much the walk misses its beginning; a wall not measured can miss it sideways."""
    if not closing:
        return float(np.hypot(*end))
    aside = math.radians(courses[-1])
    return abs(float(end[0] * math.sin(aside) + end[1] * math.cos(aside)))


@dataclass(frozen=True, slots=True)
class _Found:
    """The corners, and the lengths in doubt by number; a ``left_out`` one is not in them.

    ``askew`` says that corners are off what is written where right angles would not do.
    """

    adjusted: Adjustment
    doubtful: Sequence[int] = ()
    left_out: bool = False
    askew: bool = False


def _plainest(walked: _Walk) -> _Found | None:
    """The first reading that nothing contradicts; where one length alone does, without it."""
    lengths = walked.lengths()
    count = len(lengths)
    exact, loose = (_read(walked, lengths, askew) for askew in (False, True))
    readings = [exact, *([loose] if walked.checks else [])]
    # Bent too far, corners are no likelier than a misread length.
    fitting = [r for r in readings if not _suspects(r, count) and (r is exact or r.fits)]
    # That corners are a little off is likelier than a length that is worth a question.
    unasked = [one for one in fitting if not _worth_asking(one, count)]
    plainest = next(iter([*unasked, *fitting]), None)
    if plainest is not None:
        return _Found(plainest, _worth_asking(plainest, count), askew=plainest is loose)
    suspects = _suspects(exact, count)
    small = all(round(abs(exact.slip(i))) <= SPREAD_AT_MOST for i in suspects)
    # Without a check length nobody can tell a misread wall from corners that are off.
    if not walked.checks and not small and loose.fits:
        return _Found(loose, askew=True)
    for askew in (False, True) if walked.checks else (False,):
        adjusted = walked.adjust([*lengths, *walked.turns(askew)])
        doubtful = _suspects(adjusted, count)
        if len(doubtful) == 1:
            rest = [m for i, m in enumerate(lengths) if i != doubtful[0]]
            without = _read(walked, rest, askew)
            if not _suspects(without, len(rest)):
                return _Found(without, doubtful, left_out=True)
    if walked.checks and not _suspects(loose, count):
        return _Found(loose, _worth_asking(loose, count), askew=True)
    return _Found(exact, suspects) if small else None


def _other_reading(walked: _Walk, found: _Found, unit: Unit) -> TwoReadings | None:
    """What a room out of square may be instead: one with corners as written and one length wrong.

    None where that is ruled out. Without check lengths nothing rules out that several are wrong.
    """
    if not found.askew:
        return None
    lengths = walked.lengths()
    checked = _read(walked, lengths, askew=False).share > CHECKED
    doubts, rooms = [], []
    for i, one in enumerate(lengths):
        if not checked[i]:
            continue
        rest = [*lengths[:i], *lengths[i + 1 :]]
        without = _read(walked, rest, askew=False)
        as_written = np.abs(without.off[len(rest) :]).max(initial=0.0) < BENT
        if as_written and not _suspects(without, len(rest)):
            doubt = _doubt(one, round(value_on(without.points, one)), unit)
            if abs(doubt.given - doubt.likely) >= ASKED:
                doubts.append(doubt)
                rooms.append(without.points)
    if walked.checks and not doubts:
        return None
    return TwoReadings(tuple(doubts), _telling(walked, found.adjusted.points, rooms))


def _telling(walked: _Walk, askew: Floats, others: Sequence[Floats]) -> tuple[tuple[str, str], ...]:
    """The corners between which one more length, or two, best tells the readings apart.

    Nothing stands between them, and their distance is none of those measured.
    """
    from shapely import LineString, Polygon  # noqa: PLC0415  where there is a question alone

    floor = Polygon(askew).buffer(1)
    taped = {frozenset(m.at) for m in walked.lengths() if m.kind == "length"}
    taped |= {frozenset((i, (i + 1) % walked.count)) for i in range(walked.count)}

    def tells(pair: tuple[int, int]) -> tuple[float, float]:
        at = Measurement("", "length", pair, 0.0, 1.0)
        long = value_on(askew, at)
        apart = [abs(value_on(points, at) - long) for points in others]
        return round(min(apart, default=0.0)), round(long)

    pairs = [
        pair
        for pair in combinations(range(walked.count), 2)
        if frozenset(pair) not in taped and floor.covers(LineString(askew[list(pair)]))
    ]
    best = sorted(pairs, key=tells, reverse=True)[: 1 if walked.checks else 2]
    return tuple((walked.names[i], walked.names[j]) for i, j in sorted(best))


def _read(walked: _Walk, lengths: Sequence[Measurement], askew: bool) -> Adjustment:
    """The corners with the turns as written; where ``askew``, those that come out so stay so.

    Unless the lengths will not have that: several corners can be off by too little to be told.
    Without check lengths nothing shows that a corner is as written.
    """
    exact, count = walked.turns(loose=False), len(lengths)
    if not askew:
        return walked.adjust([*lengths, *exact])
    loose = walked.turns(loose=True)
    freely = walked.adjust([*lengths, *loose])
    if not walked.checks:
        return freely
    points = freely.points
    seen = [abs(turned(value_on(points, t) - t.value)) >= SKEW_SEEN for t in exact]
    turns = [b if bent else a for a, b, bent in zip(exact, loose, seen, strict=True)]
    if len(turns) == walked.count:  # the first corner follows from the others
        turns[-1] = loose[-1]
    adjusted = walked.adjust([*lengths, *turns])
    worse = any(
        found(adjusted, count) and not found(freely, count) for found in (_suspects, _worth_asking)
    )
    return freely if worse else adjusted


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
            doubts.append(_doubt(lengths[i], likely, unit, left_out=found.left_out))
    return Survey(
        perimeter=round(sum(leg.length for leg in walked.legs)),
        short=None if walked.gap is None else round(walked.gap),
        lengths=tuple(
            Taped(m.name, round(m.value), mm) for m, mm in zip(lengths, taken, strict=True)
        ),
        doubts=tuple(doubts),
        askew=_askew(walked, adjusted),
        checks=len(walked.checks),
        error=math.ceil(adjusted.error()),
        readings=_other_reading(walked, found, unit),
    )


def _doubt(one: Measurement, likely: int, unit: Unit, *, left_out: bool = False) -> Doubt:
    given = round(one.value)
    return Doubt(one.name, given, likely, misread_as(given, likely, unit), left_out)


def _askew(walked: _Walk, adjusted: Adjustment) -> tuple[tuple[str, int], ...]:
    """Corners written as square that are not, by the wall that ends there."""
    found = []
    for turn in walked.turns(loose=False):
        now = turned(value_on(adjusted.points, turn))
        if round(abs(turn.value)) == 90 and abs(now - turn.value) >= SKEW_SEEN:
            found.append((turn.name, round(10 * (180 - now))))
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
    more = [] if walked.checks else ["if all are right, measure the diagonals as well"]
    hint = "; ".join([f"measure {names} again", *maybe[:2], *more])
    if walked.gap and walked.gap > SPREAD_AT_MOST:
        return OutlineError(
            f"the walls end {in_words(round(walked.gap), unit)} from where they began",
            "the last wall must end at the first corner",
            hint,
        )
    most = in_words(max(map(abs, slips.values())), unit)
    return OutlineError(f"the lengths disagree by {most}", "all of them must fit one room", hint)
