"""What is told of a score, and how: what could not be avoided, its parts, its reasons.

Of the reasons those that earned most and those that lost most, the rest added up.
"""

from __future__ import annotations

import shutil
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import click

from arrange.data.lengths import points
from arrange.data.result import PARTS, Reason, Suggestion, Verdict, parted

WIDEST = 100


def wrapped(text: str, first: str = "", rest: str | None = None) -> str:
    """Text wrapped to the terminal, 100 letters at most."""
    columns = shutil.get_terminal_size((WIDEST, 24)).columns if sys.stdout.isatty() else WIDEST
    indent = first if rest is None else rest
    return click.wrap_text(text, max(40, min(columns, WIDEST)), first, indent)


def reason_rows(won: Sequence[Reason], lost: Sequence[Reason]) -> list[str]:
    """A row for each reason, marked with + or -."""
    marked = [("+", one) for one in won] + [("-", one) for one in lost]
    return [wrapped(reason_words(one), f"   {mark} ", "     ") for mark, one in marked]


def where_words(folder: Path, files: Sequence[str]) -> list[str]:
    """The first picture and, last of the files, the one with every number; none without files."""
    if not files:
        return []
    *pictures, record = files
    if not pictures:
        return ["", f"Written: {folder / record}"]
    return ["", f"Picture: {folder / pictures[0]}; every number in {record}"]


@dataclass(frozen=True, slots=True)
class Chosen:
    """Reasons to show and the rest of them."""

    won: tuple[Reason, ...]
    lost: tuple[Reason, ...]
    rest: tuple[Reason, ...]


def said_of_all(verdicts: Sequence[Verdict]) -> frozenset[str]:
    """The sentences that each of several plans earns: they do not tell one from another."""
    told = [frozenset(reason.sentence for reason in verdict.reasons) for verdict in verdicts]
    return frozenset.intersection(*told) if len(told) > 1 else frozenset()


def choose(reasons: Sequence[Reason], most: int, of_all: frozenset[str] = frozenset()) -> Chosen:
    """At most ``most`` reasons: those that earned most and those that lost most.

    No reason comes twice, nor one that a wish says, too. One that lost at least as much as it
    won is a loss, and so is what lost more than the least of those that are told. A side with
    fewer than its half leaves its places to the other. What is said ``of_all`` plans beside
    this one is the last of what it earned.
    """
    counted = [r for r in reasons if r.possible or r.won]
    asked = {_measured(r) for r in counted if r.part == "asked"}
    told = [r for r in counted if r.part == "asked" or _measured(r) not in asked]
    losing = sorted((r for r in told if r.lost), key=lambda r: (-r.lost, r.won, r.rule))
    losses = [r for i, r in enumerate(losing) if i < most // 2 or r.lost >= r.won]
    gains = sorted(
        (r for r in told if not any(r is loss for loss in losses)),
        key=lambda r: (r.sentence in of_all, -r.won, r.lost, r.rule),
    )
    half = max(most - most // 2, most - len(losses))
    won = tuple(gains[: min(half, most)])
    lost = tuple(losses[: most - len(won)])
    shown = [*won, *lost]
    rest = tuple(r for r in counted if not any(r is s for s in shown))
    return Chosen(won, lost, rest)


def _measured(reason: Reason) -> str:
    """What a sentence says before it comes to what is wanted."""
    return reason.sentence.partition(";")[0]


def reason_words(reason: Reason) -> str:
    """The sentence of a reason with its points."""
    return f"{reason.sentence} ({points(reason.won)} of {points(reason.possible)})"


def rest_line(rest: Sequence[Reason], file: str = "result.json") -> str:
    """The reasons not shown, added up in one line that says where they are."""
    won, possible = sum(r.won for r in rest), sum(r.possible for r in rest)
    return f"and {len(rest)} more with {points(won)} of {points(possible)} points, in {file}"


HELPLESS = "It cannot be helped in this room; no plan has fewer faults:"
AVOIDABLE = "Not so good here:"
AS_IT_STANDS = "A good plan would not have this:"


def not_avoided(reasons: Sequence[Reason]) -> list[str]:
    """What a good plan never has and this one does, a sentence each."""
    return list(dict.fromkeys(reason.sentence for reason in reasons if reason.faults))


def not_avoided_head(suggestion: Suggestion) -> str:
    """What to say before that of a suggestion; a further one is best of the others only."""
    if suggestion.rank > 1:
        return AVOIDABLE
    return faults_head(suggestion.bound, suggestion.verdict)


def faults_head(bound: int, verdict: Verdict) -> str:
    """What to say before that: it is the room only where no arrangement has fewer faults.

    ``bound`` is a standing that none surpasses.
    """
    return HELPLESS if parted(bound)[0] >= verdict.faults else AVOIDABLE


def fault_rows(head: str, reasons: Sequence[Reason]) -> list[str]:
    """A row for each of them under ``head``; nothing without any."""
    faults = not_avoided(reasons)
    rows = [wrapped(sentence, "   ! ", "     ") for sentence in faults]
    return [wrapped(head, "   "), *rows] if faults else []


def part_rows(verdict: Verdict) -> list[str]:
    """The parts of a score, a bar and the points each, in even columns.

    >>> told = Reason("view", (), "", "", "", 150, 200, None, part="together")
    >>> part_rows(Verdict((), (told,), 150))
    ['What belongs together    ########..  15.0 of 20.0']
    """
    rows = []
    for part, (won, possible) in verdict.parts.items():
        full = won * BAR // possible
        bar = f"{'#' * full:.<{BAR}}"
        rows.append(f"{PARTS[part]:<{NAMES}} {bar} {points(won):>5} of {points(possible)}")
    return rows


BAR = 10  # letters of the bar of a part
NAMES = max(len(name) for name in PARTS.values()) + 1


def standing(suggestion: Suggestion) -> str:
    """How far the arrangement is proven, in one plain line."""
    if suggestion.proven:
        if suggestion.rank == 1:
            return "This is the best there is; we checked."
        return "The best that differs from the plans before it; we checked."
    return f"The best found in the time; {could_be_better(suggestion)}."


def could_be_better(suggestion: Suggestion) -> str:
    """By how much another could be better, where nothing is proven."""
    if parted(suggestion.bound)[0] < suggestion.verdict.faults:
        return "there may be one with fewer faults"
    more = max(0, suggestion.most - suggestion.verdict.score)
    return f"another could score up to {points(more)} points more"
