"""The text that a terminal shows of why nothing works."""

from __future__ import annotations

from pathlib import Path

from arrange.cli.common import wrapped
from arrange.data.clash import Clash
from arrange.data.giving import Given
from arrange.data.scenario import Scenario
from arrange.data.why import Why
from arrange.whatif.give.giving_words import giving_words, proposal_lines
from arrange.whatif.why.wording import proof, told


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
