"""Why nothing works and what would have to give, in plain words and for the terminal."""

from __future__ import annotations

from pathlib import Path

from arrange.data.conflict import Conflict
from arrange.data.repair import Repair, Repairs, Why
from arrange.data.scenario import Scenario
from arrange.whatif.requirements import describe
from arrange.words.reasons import wrapped


def proof(conflict: Conflict) -> str:
    """What is proven of a set."""
    if conflict.minimal:
        return (
            "This is proven, and checked in two ways: all of them together are impossible, and "
            "without any one of them the rest works."
        )
    if conflict.confirmed:
        return (
            "This is proven, and checked in two ways: all of them together are impossible. Some of "
            "them may have no part in it; the time ran out before that was known."
        )
    return "Not proven yet: the time ran out before this could be checked."


def repair_words(repairs: Repairs) -> str:
    """What was found and how sure that is, in one or two sentences.

    "No such change" is only said where every set was looked at or ruled out by proof.
    """
    count, together = len(repairs.repairs), f"up to {repairs.at_once} changes at once"
    if repairs.works:
        return "It works as it is: nothing has to give."
    if not count:
        if repairs.closed:
            return (
                f"None of the changes we may make helps, nor do {together}, short of leaving "
                "every piece out (proven)."
            )
        return (
            "We found no changes that help in the time. That does not mean that there are none: "
            "allow more time with --time."
        )
    if count == 1:
        found = "1 way to make it work"
    else:
        found = f"{count} different ways to make it work, the smallest change first"
    proven = all(p.cheapest for p in repairs.repairs)
    sure = (
        f"no smaller change of the {repairs.candidates} we tried works, {together}"
        if proven
        else f"of {repairs.candidates} changes tried; there may be an easier way, and --time allows"
        " more time to look"
    )
    others = "There is no other way." if repairs.closed else ""
    return f"{found} ({sure}). {others}".rstrip()


def repair_lines(repair: Repair, number: int) -> list[str]:
    """A head with cost and score, then each change in one sentence; not wrapped."""
    suggestion = repair.suggestion
    score = f"{suggestion.verdict.score / 10:.1f}"
    best = "the best there is" if suggestion.proven else "the best found in the time"
    cheap = "" if repair.cheapest else "; a smaller change may do"
    head = f"{number}. Effort {repair.cost}{cheap}. Then {score} of 100 points ({best})."
    return [head, *(f"{one.sentence} [{one.cost}]" for one in repair.gives)]


def words(why: Why, folder: Path, files: tuple[str, ...]) -> str:
    """The outcome in a line, each set with its sum, and what would have to give."""
    found = why.conflicts
    parts = [found.scenario.title, "", wrapped(outcome(why))]
    parts += [wrapped(f"Even without any furniture: {s}.", "- ", "  ") for s in found.room]
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
            "It works: everything you ask for can be had together. arrange suggest finds the best "
            "plans."
        )
    if found.answer == "impossible":
        return (
            f"{stopped}It does not fit, and that is proven: you cannot have everything you ask for."
        )
    return (
        f"{stopped}Not decided in the time: we found neither a plan that works nor the proof that "
        "there is none. Allow more time with --time."
    )


def conflict_lines(scenario: Scenario, conflict: Conflict, number: int, total: int) -> list[str]:
    """A heading, the requirements as a numbered list, the sum and what is proven."""
    which = f" ({number} of {total})" if total > 1 else ""
    lines = [f"You cannot have all of these{which}:"]
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
    these = "this list" if len(found.sets) == 1 else "these lists"
    if found.complete:
        return wrapped(
            f"Without the pieces in {these} the rest works. They may clash with other things as "
            f"well: fixing only what is in {these} may not be enough."
        )
    return f"There may be other clashes besides {these}."


def _repair(repairs: Repairs) -> list[str]:
    lines = [wrapped(f"What would help: {repair_words(repairs)}")]
    for number, repair in enumerate(repairs.repairs, start=1):
        head, *changes = repair_lines(repair, number)
        lines += [wrapped(head, "", "   "), *(wrapped(c, "   - ", "     ") for c in changes)]
    if repairs.repairs:
        lines.append(
            wrapped(
                "The effort of each change is in brackets: the more it takes, the higher it is. "
                "scenarios/README.md says how to set it."
            )
        )
    return lines
