"""What can be taken away, in the scenario's own words and unit.

What would have to give, in plain words for the terminal and result files.

The text that a terminal shows of why nothing works.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from arrange.data.conflict import Conflict, Requirement
from arrange.data.lengths import length, listed, the
from arrange.data.piece import Piece
from arrange.data.repair import Repair, Repairs, Why
from arrange.data.scenario import Scenario
from arrange.rules.headroom import Headroom
from arrange.whatif.conflict import clearance_of
from arrange.words.terminal import wrapped

STANDS = {"wall": ", with its back to a wall", "corner": ", in a corner", "free": ""}


def describe(
    scenario: Scenario, requirement: Requirement, requirements: Sequence[Requirement] = ()
) -> str:
    """A member in the scenario's own words, in its unit.

    ``requirements`` is the set it is told in: what a piece is tied to is then said by the
    tie itself.
    """
    if requirement.kind == "piece":
        return _body(scenario, scenario.piece(requirement.name), requirements)
    return _TOLD[requirement.kind](scenario, requirement)


def _body(scenario: Scenario, piece: Piece, requirements: Sequence[Requirement]) -> str:
    size = f"{length(piece.width, scenario.unit)} x {length(piece.depth, scenario.unit)}"
    tied = piece.anchor is not None and (
        not requirements or Requirement("tie", piece.name) in requirements
    )
    return f"{the(piece.name)}, {size}{'' if tied else STANDS[piece.stands]}"


def _clearance(scenario: Scenario, requirement: Requirement) -> str:
    c = clearance_of(scenario, requirement)
    sides = listed(c.sides, "or")
    wide, whose = length(c.least, scenario.unit), the(requirement.name)
    return f"{wide} free at the {sides} of {whose} {c.purpose}"


def _headroom(scenario: Scenario, requirement: Requirement) -> str:
    least = scenario.setting(Headroom.id).least
    need = scenario.piece(requirement.name).headroom if least is None else least
    return f"{length(need, scenario.unit)} of headroom above {the(requirement.name)}"


def _tie(scenario: Scenario, requirement: Requirement) -> str:
    anchor = scenario.piece(requirement.name).anchor or ""
    return f"{the(requirement.name)} stands in its place at {the(anchor)}"


def _held(_: Scenario, requirement: Requirement) -> str:
    return f"{the(requirement.name)} stays where it stands"


def _wish(scenario: Scenario, requirement: Requirement) -> str:
    wish = scenario.wishes[int(requirement.part)]
    reach = "" if wish.distance is None else f" ({length(wish.distance, scenario.unit)})"
    return f"you said: {wish.piece} {wish.relation} {wish.place}{reach}"


def _walkway(scenario: Scenario, _: Requirement) -> str:
    wide = length(scenario.walkway, scenario.unit)
    return f"a walkway {wide} wide from the door to everything that is used"


def _doors(scenario: Scenario, _: Requirement) -> str:
    doors = listed([the(d.name) for d in scenario.room.doors])
    return f"{length(scenario.walkway, scenario.unit)} of floor free inside {doors}"


def _swing(scenario: Scenario, requirement: Requirement) -> str:
    door = next(d for d in scenario.room.doors if d.name == requirement.name)
    wide = length(door.width, scenario.unit)
    return f"{the(door.name)} opens into the room: {wide} of floor free to swing"


def _fixture(scenario: Scenario, requirement: Requirement) -> str:
    fixture = next(f for f in scenario.room.fixtures if f.name == requirement.name)
    return f"{length(fixture.keep, scenario.unit)} kept free before {the(fixture.name)}"


def _heat(_: Scenario, requirement: Requirement) -> str:
    return f"what can burn keeps its distance from {the(requirement.name)}"


def _opening(_: Scenario, requirement: Requirement) -> str:
    return f"{the(requirement.name)} can be reached to open it"


def _escape(_: Scenario, requirement: Requirement) -> str:
    return f"{the(requirement.name)} is a way out in an emergency and kept clear"


def _sill(scenario: Scenario, requirement: Requirement) -> str:
    window = next(w for w in scenario.room.windows if w.name == requirement.name)
    sill = length(window.sill, scenario.unit)
    return f"nothing taller than the sill ({sill}) stands across {the(window.name)}"


def _cots(_: Scenario, __: Requirement) -> str:
    return "cots stand away from the windows"


_TOLD: dict[str, Callable[[Scenario, Requirement], str]] = {
    "clearance": _clearance,
    "headroom": _headroom,
    "tie": _tie,
    "held": _held,
    "wish": _wish,
    "walkway": _walkway,
    "doors": _doors,
    "swing": _swing,
    "fixture": _fixture,
    "heat": _heat,
    "opening": _opening,
    "escape": _escape,
    "sill": _sill,
    "cots": _cots,
}


def proof(conflict: Conflict) -> str:
    """What is proven of a set."""
    if conflict.minimal:
        return (
            "Proven: all together are impossible (by two solver configurations), and without any "
            "one of them an arrangement exists."
        )
    if conflict.confirmed:
        return (
            "Proven: all together are impossible (by two solver configurations). Not yet proven "
            "minimal: some of these may not be needed for that."
        )
    return "Not yet proven: the time ran out before this set was confirmed."


def repair_words(repairs: Repairs) -> str:
    """What was found and how sure that is, in one or two sentences.

    "No such change" is only said where every set was looked at or ruled out by proof.
    """
    count, together = len(repairs.repairs), f"up to {repairs.at_once} changes at once"
    if repairs.works:
        return "It works as it is: nothing has to give."
    if not count:
        if repairs.closed:
            return f"Proven: none of the changes that may be made helps, nor {together}."
        return (
            "No set of changes that helps was found in the time. That does not mean that there is "
            "none: allow more time with --time."
        )
    if count == 1:
        found = "1 way to make it work"
    else:
        found = f"{count} different ways to make it work, the cheapest first"
    proven = all(p.cheapest for p in repairs.repairs)
    sure = (
        f"proven: nothing cheaper does, of {repairs.candidates} changes, {together}"
        if proven
        else "not proven: there may be cheaper ones; --time allows more"
    )
    others = "There is no other different way." if repairs.closed else ""
    return f"{found} ({sure}). {others}".rstrip()


def repair_lines(repair: Repair, number: int) -> list[str]:
    """A head with cost and score, then each change in one sentence; not wrapped."""
    suggestion = repair.suggestion
    score = f"{suggestion.verdict.score / 10:.1f}"
    best = "best" if suggestion.proven else "found, not proven best"
    cheap = "" if repair.cheapest else "; not proven cheapest"
    head = f"{number}. Costs {repair.cost}{cheap}. {score} of 100 points then ({best})."
    return [head, *(f"{one.sentence} [{one.cost}]" for one in repair.gives)]


def words(why: Why, folder: Path, files: tuple[str, ...]) -> str:
    """The outcome in a line, each set with its sum, and what would have to give."""
    found = why.conflicts
    parts = [found.scenario.title, "", wrapped(outcome(why))]
    parts += [wrapped(f"Even without any piece: {s}.", "- ", "  ") for s in found.room]
    for number, conflict in enumerate(found.sets, start=1):
        parts += ["", *conflict_lines(found.scenario, conflict, number, len(found.sets))]
    if len(found.sets) > 0:
        parts += ["", wrapped(others(why))]
    if why.repairs is not None:
        parts += ["", *_repair(why.repairs)]
    pictures = [f for f in files if not f.endswith(".json")]
    if pictures:
        shown = ", ".join(str(folder / f) for f in pictures)
        parts += ["", f"Pictures: {shown}; every number in {files[-1]}"]
    elif files:
        parts += ["", f"Written: {folder / files[-1]}"]
    return "\n".join(parts)


def outcome(why: Why) -> str:
    """Whether it works, and how sure that is."""
    found = why.conflicts
    stopped = "Stopped when you asked. " if why.interrupted else ""
    if found.answer == "works":
        return (
            "It works: there is an arrangement that keeps everything you ask for. See arrange "
            "suggest for the best ones."
        )
    if found.answer == "impossible":
        return f"{stopped}Impossible, proven: not everything that is asked for can hold."
    return (
        f"{stopped}Not decided in the time: neither an arrangement was found nor the proof that "
        "there is none. Allow more time with --time."
    )


def conflict_lines(scenario: Scenario, conflict: Conflict, number: int, total: int) -> list[str]:
    """A heading, the members as a numbered list, the sum and what is proven."""
    which = f" ({number} of {total})" if total > 1 else ""
    lines = [f"These cannot all hold{which}:"]
    for i, requirement in enumerate(conflict.requirements, start=1):
        lines.append(
            wrapped(describe(scenario, requirement, conflict.requirements), f"{i:4}  ", "      ")
        )
    figures = conflict.arithmetic
    if figures is not None:
        drawn = f"As drawn: {figures.sum}" if figures.sum else ""
        lines += [wrapped(t, "   ", "   ") for t in (drawn, figures.sentence) if t]
    return [*lines, wrapped(proof(conflict), "   ", "   ")]


def others(why: Why) -> str:
    """Whether there are other sets."""
    found = why.conflicts
    these = "this set" if len(found.sets) == 1 else "these sets"
    if found.complete:
        return wrapped(
            f"Without the pieces of {these} the rest works. With other things they may clash as "
            f"well: mending {these} alone may not be enough."
        )
    return f"There may be other clashes beside {these}."


def _repair(repairs: Repairs) -> list[str]:
    lines = [wrapped(f"What would have to give: {repair_words(repairs)}")]
    for number, repair in enumerate(repairs.repairs, start=1):
        head, *changes = repair_lines(repair, number)
        lines += [wrapped(head, "", "   "), *(wrapped(c, "   - ", "     ") for c in changes)]
    if repairs.repairs:
        lines.append("Costs are in brackets; scenarios/README.md says how to change them.")
    return lines
