"""What was made of the tape, and of each piece alone in the empty room, in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from arrange.data.lengths import area, gathered, length, listed, measured, sized, the
from arrange.data.piece import Clearance, Piece
from arrange.data.result import Alone, Checked
from arrange.data.room import Doubt, Survey, TwoReadings
from arrange.data.scenario import Scenario, Unit
from arrange.data.sources import body
from arrange.geometry.ceilings import area_under
from arrange.rules.wished import MUST, place_words
from arrange.words.reasons import wrapped

UNCOUNTED = 1500  # mm (`ndss-headroom`)
LOW_IN_US, FULL_IN_US = 1524, 2134  # mm (`irc-ceiling`)
EVEN = 100  # mm: below it a slip is told to the millimetre

STANDS = {
    "wall": "with its back to a wall",
    "corner": "in a corner",
    "free": "anywhere",
    "anywhere": "anywhere",
    "across": "across a corner",
}


def words(checked: Checked) -> str:
    """The text for a terminal."""
    lines = [checked.scenario.title, ""]
    told = room_words(checked.scenario)
    if told:
        lines += [*(wrapped(sentence) for sentence in told), ""]
    if checked.fine:
        fine = (
            "The file is in order, and each piece by itself fits in the empty room. arrange "
            "suggest "
            "finds out whether all of them fit together."
        )
        lines.append(wrapped(fine))
    if checked.impossible:
        lines.append("Does not fit, whatever you do (proven):")
        lines += [wrapped(sentence, "- ", "  ") for sentence in impossible_words(checked)]
    rest = [f for f in checked.findings if f.answer not in ("fits", "cannot fit")]
    unsure = [text for f in rest if (text := finding_words(f, checked.scenario))]
    unsure += _with_others(f for f in rest if f.answer == "not looked at" and f.others)
    if unsure:
        if lines[-1]:
            lines.append("")
        lines.append("Not tried, or not decided:")
        lines += [wrapped(sentence, "- ", "  ") for sentence in unsure]
    assumed = [p.name for p in checked.scenario.pieces if p.assumed]
    if assumed:
        usual = "Width and depth are not both in the file, so we used typical sizes for"
        measure = f"Measure {'it' if len(assumed) == 1 else 'them'}."
        lines += ["", wrapped(f"{usual} {_all(assumed)}. {measure}")]
    return "\n".join(lines)


def room_words(scenario: Scenario) -> tuple[str, ...]:
    """What is to be said of the empty room: of the tape, and of the floor under slopes."""
    return (*survey_words(scenario), *area_words(scenario))


def survey_words(scenario: Scenario) -> tuple[str, ...]:
    """What was made of the tape, a sentence each; nothing where no length checks another."""
    taped, unit = scenario.survey, scenario.unit
    if taped is None:
        return ()
    # With a length left out, what the walls miss their beginning by is that length's.
    closed = not any(doubt.left_out for doubt in taped.doubts)
    closed = closed and taped.short is not None and not taped.readings
    told = [_round(taped, unit)] if closed and (taped.short or not taped.checks) else []
    if taped.checks:
        corners = "each corner is probably within" if taped.error else "each corner is within"
        told.append(
            f"Checked by {'one' if taped.checks == 1 else taped.checks} more "
            f"length{'s' if taped.checks > 1 else ''}, "
            f"{corners} {_small(max(taped.error, 1), unit)} of where it is drawn."
        )
    if taped.askew:
        corners = listed([f"{angle / 10:.1f} degrees at {where}" for where, angle in taped.askew])
        told.append(f"Not square: {corners}.")
    return (*told, *measure_again(scenario))


def area_words(scenario: Scenario) -> tuple[str, ...]:
    """How much floor counts where a ceiling slopes, by each of two published rules."""
    room, unit = scenario.room, scenario.unit
    if not room.slopes:
        return ()

    def over(height: int) -> str:
        return area(area_under(room, height), unit)

    low, full = (measured(mm, unit) for mm in (LOW_IN_US, FULL_IN_US))
    code = body("irc-ceiling")
    us = min(area_under(room, LOW_IN_US), 2 * area_under(room, FULL_IN_US))
    return (
        f"Of {over(0)} of floor, {body('ndss-headroom')} counts {over(UNCOUNTED)}: what has "
        f"{measured(UNCOUNTED, unit)} or more above it, apart from storage.",
        f"{code[:1].upper()}{code[1:]} counts {area(us, unit)}: what has {low} or more above it, "
        f"if at least half of that has {full}. Here that is {over(LOW_IN_US)} and "
        f"{over(FULL_IN_US)}.",
    )


def measure_again(scenario: Scenario) -> tuple[str, ...]:
    """A question for each length that the others contradict, and where two readings are left."""
    taped, unit = scenario.survey, scenario.unit
    if taped is None:
        return ()
    told = [_doubt(doubt, unit) for doubt in taped.doubts]
    if told and not taped.checks and not taped.doubts[0].left_out:
        told.append(
            "If the tape says the same again, the corners are not square: measure a diagonal and "
            "add it."
        )
    if taped.readings is not None:
        told += [_round(taped, unit)] if taped.short else []
        told.append(_readings(taped, taped.readings, unit))
    return tuple(told)


def _readings(taped: Survey, readings: TwoReadings, unit: Unit) -> str:
    """Both rooms that the lengths may come from, and what tells which it is."""
    # A corner that stands out into the room has 270 degrees.
    most = max((abs(angle % 1800 - 900) for _, angle in taped.askew), default=0)
    told = "Either the room is out of square, as it is drawn"
    told += f", with corners up to {most / 10:.1f} degrees off" if most else ""
    wrong = [_wrong(doubt, unit) for doubt in readings.misread]
    told += (
        f", or one length is wrong: {listed(wrong, 'or')}."
        if wrong
        else (", or several lengths are wrong.")
    )
    if readings.measure:
        ways = listed([f"from corner {a} to corner {b}" for a, b in readings.measure])
        first = readings.measure[0][0]
        one = len(readings.measure) == 1
        told += (
            f" Measure {ways}, and add {'it' if one else 'both'}: "
            f"{'that tells' if one else 'they tell'} which. Corner {first} is the left end of "
            f"wall {first}, as you face it."
        )
    else:
        told += " Measure once more: that tells which."
    if not taped.checks:
        told += (
            f" Until then each corner is probably within {_small(taped.error, unit)} of where it "
            "is drawn."
        )
    return told


def _wrong(doubt: Doubt, unit: Unit) -> str:
    given = length(doubt.given, unit)
    if doubt.misread:
        return f"{_called(doubt)} ({given} may be {length(doubt.misread, unit)})"
    return (
        f"{_called(doubt)} ({given}, but {measured(doubt.likely, unit)} if all corners are square)"
    )


def _called(doubt: Doubt) -> str:
    return the(doubt.name) if doubt.name.startswith("diagonal") else doubt.name


def _round(taped: Survey, unit: Unit) -> str:
    about = f"after {measured(taped.perimeter, 'm' if unit != 'in' else unit)}"
    if not taped.short:
        return f"The walls end exactly where they began, {about}."
    gap = f"The walls end {_small(taped.short, unit)} from where they began, {about}"
    if taped.most and not taped.readings:
        return (
            f"{gap}; that is shared out, and no wall changes by more than "
            f"{_small(taped.most, unit)}."
        )
    return f"{gap}."


def _doubt(doubt: Doubt, unit: Unit) -> str:
    told = f"Measure {_called(doubt)} again"
    given = length(doubt.given, unit)
    if doubt.misread:
        told = f"{told}: {given} may be {length(doubt.misread, unit)}, misread on the tape."
    elif doubt.likely:
        told = f"{told}: you wrote {given}, the other lengths say {measured(doubt.likely, unit)}."
    left = (
        "The plan does without it." if doubt.left_out else "For now the difference is shared out."
    )
    return f"{told} {left}"


def _small(mm: int, unit: Unit) -> str:
    """A slip of the tape: to the millimetre while it is small, or to the next half inch."""
    if unit == "in":
        return measured(mm, unit, "up")
    return f"{mm} mm" if mm < EVEN else measured(mm, unit)


def impossible_words(checked: Checked) -> tuple[str, ...]:
    """One sentence for each thing that is proven not to fit."""
    return tuple(f"Even without any furniture: {sentence}." for sentence in checked.room) + tuple(
        finding_words(f, checked.scenario) for f in checked.findings if f.answer == "cannot fit"
    )


def finding_words(finding: Alone, scenario: Scenario) -> str:
    """What is known of one piece; "" if it fits or if nothing is to be said of it alone."""
    name = finding.piece
    if finding.answer == "cannot fit":
        return _why(finding, scenario)
    if finding.answer == "not decided":
        return f"{the(name, first=True)} may fit or not: the time ran out."
    return ""


def _with_others(findings: Iterable[Alone]) -> list[str]:
    """What was not looked at by itself, with what it goes with: what goes with the same in one."""
    tied: dict[tuple[str, ...], list[str]] = {}
    for one in findings:
        tied.setdefault(tuple(one.others), []).append(one.piece)
    told = []
    for others, names in tied.items():
        who = _all(names)
        goes, was = (("goes", "was"), ("go", "were"))[len(names) > 1]
        itself = "itself" if len(names) == 1 else "themselves"
        told.append(
            f"{who[:1].upper()}{who[1:]} {goes} with {_all(others)} and {was} not looked at by "
            f"{itself}."
        )
    return told


def _why(finding: Alone, scenario: Scenario) -> str:
    """What would have to give."""
    unit, piece = scenario.unit, scenario.piece(finding.piece)
    size = sized((piece.width, piece.depth, piece.height), unit)
    others = _all(finding.others)
    room = f"with only {others} in the room" if others else "in the empty room"
    said = f"{the(piece.name, first=True)} ({size}) has nowhere to stand, even {room}"
    if finding.cause == "wishes":
        wished = listed(
            [
                f"{the(w.piece)} {MUST[w.relation]} {place_words(scenario.room, w.place)}"
                for w in finding.wishes
            ]
        )
        return f"{said} as long as you ask for this: {wished}."
    if finding.cause == "body":
        return f"{said}: it is too large wherever it may stand ({_stands(piece)})."
    if finding.cause == "floor":
        needs = listed([_need(c, unit) for c in piece.clearances if c.least])
        return f"{said}: it would fit, but not with the floor needed to use it: {needs}."
    if finding.cause == "way":
        wide = measured(scenario.walkway, unit)
        return f"{said}: no walkway {wide} wide would lead to every side of it that needs one."
    return f"{said}."


def _need(clearance: Clearance, unit: Unit) -> str:
    return f"{measured(clearance.least, unit)} {clearance.where} it {clearance.purpose}"


def _all(names: Sequence[str]) -> str:
    return listed([the(name) for name in gathered(names)])


def _stands(piece: Piece) -> str:
    return "beside what it goes with" if piece.anchor else STANDS[piece.stands]
