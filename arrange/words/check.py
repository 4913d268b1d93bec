"""What was found of each piece alone in the empty room, in words."""

from __future__ import annotations

from arrange.data.checked import Alone, Checked
from arrange.data.lengths import listed, measured
from arrange.data.piece import Clearance, Piece
from arrange.data.scenario import Scenario, Unit
from arrange.words.reasons import wrapped

STANDS = {"wall": "with its back to a wall", "corner": "in a corner", "free": "anywhere"}


def words(checked: Checked) -> str:
    """The text for a terminal."""
    lines = [checked.scenario.title, ""]
    if checked.fine:
        fine = (
            "The file is in order, and each piece by itself fits in the empty room. Whether all of "
            "them fit together, arrange suggest finds out."
        )
        lines.append(wrapped(fine))
    if checked.impossible:
        lines.append("Cannot fit whatever happens, proven:")
        lines += [wrapped(sentence, "- ", "  ") for sentence in impossible_words(checked)]
    rest = [f for f in checked.findings if f.answer not in ("fits", "cannot fit")]
    told = [text for f in rest if (text := finding_words(f, checked.scenario))]
    if told:
        lines += ["", "Not tried, or not decided:"]
        lines += [wrapped(sentence, "- ", "  ") for sentence in told]
    assumed = [p.name for p in checked.scenario.pieces if p.assumed]
    if assumed:
        usual = (
            "Width and depth are not both in the file, so the usual ones of the kind are taken for"
        )
        lines += ["", wrapped(f"{usual}: {listed(assumed)}. Measure them.")]
    return "\n".join(lines)


def impossible_words(checked: Checked) -> tuple[str, ...]:
    """One sentence for each thing that is proven not to fit."""
    return tuple(f"Even without any piece: {sentence}." for sentence in checked.room) + tuple(
        finding_words(f, checked.scenario) for f in checked.findings if f.answer == "cannot fit"
    )


def finding_words(finding: Alone, scenario: Scenario) -> str:
    """What is known of one piece; "" if it fits or if nothing is to be said of it alone."""
    name = finding.piece
    if finding.answer == "cannot fit":
        return _why(finding, scenario)
    if finding.answer == "not decided":
        return f"{name}: not decided in the time, it may fit or not."
    if finding.answer == "not looked at" and finding.others:
        return f"{name} goes with {listed(finding.others)} and was not looked at by itself."
    return ""


def _why(finding: Alone, scenario: Scenario) -> str:
    """What would have to give."""
    unit, piece = scenario.unit, scenario.piece(finding.piece)
    size = " x ".join(measured(v, unit) for v in (piece.width, piece.depth, piece.height))
    others = listed(finding.others)
    room = f"with only {others} in the room" if others else "in the empty room"
    said = f"{piece.name} ({size}) finds no place even {room}"
    if finding.cause == "wishes":
        wished = listed([f"{w.piece} {w.relation} {w.place}" for w in finding.wishes])
        return f"{said} as long as this must hold: {wished}."
    if finding.cause == "body":
        return f"{said}: there is no spot for its body where it may stand ({_stands(piece)})."
    if finding.cause == "floor":
        needs = listed([_need(c, unit) for c in piece.clearances if c.least])
        return f"{said}: there is room for its body, but not with the floor to use it: {needs}."
    if finding.cause == "way":
        wide = measured(scenario.walkway, unit)
        return f"{said}: no way {wide} wide would lead to every side of it that needs one."
    return f"{said}."


def _need(clearance: Clearance, unit: Unit) -> str:
    sides = listed(clearance.sides, "or")
    return f"{measured(clearance.least, unit)} at the {sides} {clearance.purpose}"


def _stands(piece: Piece) -> str:
    return "beside what it goes with" if piece.anchor else STANDS[piece.stands]
