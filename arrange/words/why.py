"""What can be taken away, in the scenario's own words and unit.

What would have to give, in plain words for the terminal and result files.

The text that a terminal shows of why nothing works.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from arrange.cli.common import wrapped
from arrange.data.conflict import Clash, Member
from arrange.data.lengths import length, listed
from arrange.data.piece import Piece
from arrange.data.repair import Given, Proposal, Why
from arrange.data.scenario import Scenario
from arrange.rules.headroom import Headroom
from arrange.rules.selectors import the
from arrange.whatif.conflict import clearance_of

STANDS = {"wall": ", with its back to a wall", "corner": ", in a corner", "free": ""}


def told(scenario: Scenario, member: Member, members: Sequence[Member] = ()) -> str:
    """A member in the scenario's own words, in its unit.

    ``members`` is the set it is told in: what a piece is tied to is then said by the
    tie itself.
    """
    if member.kind == "piece":
        return _body(scenario, scenario.piece(member.name), members)
    return _TOLD[member.kind](scenario, member)


def _body(scenario: Scenario, piece: Piece, members: Sequence[Member]) -> str:
    size = f"{length(piece.width, scenario.unit)} x {length(piece.depth, scenario.unit)}"
    tied = piece.anchor is not None and (not members or Member("tie", piece.name) in members)
    return f"{the(piece.name)}, {size}{'' if tied else STANDS[piece.stands]}"


def _clearance(scenario: Scenario, member: Member) -> str:
    c = clearance_of(scenario, member)
    sides = listed(c.sides, "or")
    return f"{length(c.least, scenario.unit)} free at the {sides} of {the(member.name)} {c.purpose}"


def _headroom(scenario: Scenario, member: Member) -> str:
    least = scenario.setting(Headroom.id).least
    need = scenario.piece(member.name).headroom if least is None else least
    return f"{length(need, scenario.unit)} of headroom above {the(member.name)}"


def _tie(scenario: Scenario, member: Member) -> str:
    anchor = scenario.piece(member.name).anchor or ""
    return f"{the(member.name)} stands in its place at {the(anchor)}"


def _held(_: Scenario, member: Member) -> str:
    return f"{the(member.name)} stays where it stands"


def _wish(scenario: Scenario, member: Member) -> str:
    wish = scenario.wishes[int(member.part)]
    reach = "" if wish.distance is None else f" ({length(wish.distance, scenario.unit)})"
    return f"you said: {wish.piece} {wish.relation} {wish.place}{reach}"


def _walkway(scenario: Scenario, _: Member) -> str:
    wide = length(scenario.walkway, scenario.unit)
    return f"a walkway {wide} wide from the door to everything that is used"


def _doors(scenario: Scenario, _: Member) -> str:
    doors = listed([the(d.name) for d in scenario.room.doors])
    return f"{length(scenario.walkway, scenario.unit)} of floor free inside {doors}"


def _swing(scenario: Scenario, member: Member) -> str:
    door = next(d for d in scenario.room.doors if d.name == member.name)
    wide = length(door.width, scenario.unit)
    return f"{the(door.name)} opens into the room: {wide} of floor free to swing"


def _fixture(scenario: Scenario, member: Member) -> str:
    fixture = next(f for f in scenario.room.fixtures if f.name == member.name)
    return f"{length(fixture.keep, scenario.unit)} kept free before {the(fixture.name)}"


def _heat(_: Scenario, member: Member) -> str:
    return f"what can burn keeps its distance from {the(member.name)}"


def _opening(_: Scenario, member: Member) -> str:
    return f"{the(member.name)} can be reached to open it"


def _escape(_: Scenario, member: Member) -> str:
    return f"{the(member.name)} is a way out in an emergency and kept clear"


def _sill(scenario: Scenario, member: Member) -> str:
    window = next(w for w in scenario.room.windows if w.name == member.name)
    sill = length(window.sill, scenario.unit)
    return f"nothing taller than the sill ({sill}) stands across {the(window.name)}"


def _cots(_: Scenario, __: Member) -> str:
    return "cots stand away from the windows"


_TOLD: dict[str, Callable[[Scenario, Member], str]] = {
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


def proof(clash: Clash) -> str:
    """What is proven of a set."""
    if clash.minimal:
        return (
            "Proven: all together are impossible (by two solver configurations), and without any "
            "one of them an arrangement exists."
        )
    if clash.confirmed:
        return (
            "Proven: all together are impossible (by two solver configurations). Not yet proven "
            "minimal: some of these may not be needed for that."
        )
    return "Not yet proven: the time ran out before this set was confirmed."


def giving_words(given: Given) -> str:
    """What was found and how sure that is, in one or two sentences.

    "No such change" is only said where every set was looked at or ruled out by proof.
    """
    count, together = len(given.proposals), f"up to {given.at_once} changes at once"
    if given.works:
        return "It works as it is: nothing has to give."
    if not count:
        if given.closed:
            return f"Proven: none of the changes that may be made helps, nor {together}."
        return (
            "No set of changes that helps was found in the time. That does not mean that there is "
            "none: allow more time with --time."
        )
    if count == 1:
        found = "1 way to make it work"
    else:
        found = f"{count} different ways to make it work, the cheapest first"
    proven = all(p.cheapest for p in given.proposals)
    sure = (
        f"proven: nothing cheaper does, of {given.candidates} changes, {together}"
        if proven
        else "not proven: there may be cheaper ones; --time allows more"
    )
    others = "There is no other different way." if given.closed else ""
    return f"{found} ({sure}). {others}".rstrip()


def proposal_lines(proposal: Proposal, number: int) -> list[str]:
    """A head with cost and score, then each change in one sentence; not wrapped."""
    suggestion = proposal.suggestion
    score = f"{suggestion.verdict.score / 10:.1f}"
    best = "best" if suggestion.proven else "found, not proven best"
    cheap = "" if proposal.cheapest else "; not proven cheapest"
    head = f"{number}. Costs {proposal.cost}{cheap}. {score} of 100 points then ({best})."
    return [head, *(f"{one.sentence} [{one.cost}]" for one in proposal.gives)]


def words(why: Why, folder: Path, files: tuple[str, ...]) -> str:
    """The outcome in a line, each set with its sum, and what would have to give."""
    found = why.clashes
    parts = [found.scenario.title, "", wrapped(outcome(why))]
    parts += [wrapped(f"Even without any piece: {s}.", "- ", "  ") for s in found.room]
    for number, clash in enumerate(found.sets, start=1):
        parts += ["", *clash_lines(found.scenario, clash, number, len(found.sets))]
    if len(found.sets) > 0:
        parts += ["", wrapped(others(why))]
    if why.given is not None:
        parts += ["", *_giving(why.given)]
    pictures = [f for f in files if not f.endswith(".json")]
    if pictures:
        shown = ", ".join(str(folder / f) for f in pictures)
        parts += ["", f"Pictures: {shown}; every number in {files[-1]}"]
    elif files:
        parts += ["", f"Written: {folder / files[-1]}"]
    return "\n".join(parts)


def outcome(why: Why) -> str:
    """Whether it works, and how sure that is."""
    found = why.clashes
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


def clash_lines(scenario: Scenario, clash: Clash, number: int, total: int) -> list[str]:
    """A heading, the members as a numbered list, the sum and what is proven."""
    which = f" ({number} of {total})" if total > 1 else ""
    lines = [f"These cannot all hold{which}:"]
    for i, member in enumerate(clash.members, start=1):
        lines.append(wrapped(told(scenario, member, clash.members), f"{i:4}  ", "      "))
    figures = clash.arithmetic
    if figures is not None:
        drawn = f"As drawn: {figures.sum}" if figures.sum else ""
        lines += [wrapped(t, "   ", "   ") for t in (drawn, figures.sentence) if t]
    return [*lines, wrapped(proof(clash), "   ", "   ")]


def others(why: Why) -> str:
    """Whether there are other sets."""
    found = why.clashes
    these = "this set" if len(found.sets) == 1 else "these sets"
    if found.complete:
        return wrapped(
            f"Without the pieces of {these} the rest works. With other things they may clash as "
            f"well: mending {these} alone may not be enough."
        )
    return f"There may be other clashes beside {these}."


def _giving(given: Given) -> list[str]:
    lines = [wrapped(f"What would have to give: {giving_words(given)}")]
    for number, proposal in enumerate(given.proposals, start=1):
        head, *changes = proposal_lines(proposal, number)
        lines += [wrapped(head, "", "   "), *(wrapped(c, "   - ", "     ") for c in changes)]
    if given.proposals:
        lines.append("Costs are in brackets; scenarios/README.md says how to change them.")
    return lines
