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
            return (
                f"Proven: none of the changes that may be made helps, nor {together}, short of "
                "leaving every piece out."
            )
        return (
            "No set of changes that helps was found in the time. That does not mean that there is "
            "none: allow more time with --time."
        )
    if count == 1:
        found = "1 way to make it work"
    else:
        found = f"{count} different ways to make it work, the least effort first"
    proven = all(p.cheapest for p in repairs.repairs)
    sure = (
        f"proven: nothing with less effort works, of the {repairs.candidates} changes tried, "
        f"{together}"
        if proven
        else f"of {repairs.candidates} changes tried; not proven: an easier way may exist; --time "
        "allows more"
    )
    others = "There is no other different way." if repairs.closed else ""
    return f"{found} ({sure}). {others}".rstrip()


def repair_lines(repair: Repair, number: int) -> list[str]:
    """A head with cost and score, then each change in one sentence; not wrapped."""
    suggestion = repair.suggestion
    score = f"{suggestion.verdict.score / 10:.1f}"
    best = "best" if suggestion.proven else "found, not proven best"
    cheap = "" if repair.cheapest else "; not proven to be the least"
    head = f"{number}. Effort {repair.cost}{cheap}. {score} of 100 points then ({best})."
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
    """A heading, the requirements as a numbered list, the sum and what is proven."""
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
        lines.append("Effort is in brackets; scenarios/README.md says how to change it.")
    return lines
