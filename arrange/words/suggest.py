"""What a terminal shows of a result: the answer, a line or two a plan, the folder.

The rest is told on request: parts and reasons of each score, room to spare, every caution; and
where each piece goes, with two lengths of the tape a piece, in the order of carrying.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from itertools import groupby
from pathlib import Path

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import gathered, is_nought, listed, measured, points, the, wider_by
from arrange.data.result import FINEST, Families, Result, Spare, Suggestion
from arrange.data.scenario import Scenario, Unit
from arrange.rules.wished import the_wall
from arrange.whatif.requirements import describe
from arrange.whatif.setting_out import SetDown, Taped, setting_out
from arrange.whatif.slack import spares
from arrange.words.cautions import LAST, found
from arrange.words.check import measure_again
from arrange.words.places import stands_words, whole_wall
from arrange.words.reasons import (
    choose,
    could_be_better,
    fault_rows,
    not_avoided,
    not_avoided_head,
    part_rows,
    reason_rows,
    said_of_all,
    wrapped,
)
from arrange.words.tight import tight_rows, tighter_than_usual


def spare_words(spare: Spare, unit: Unit) -> str:
    """The line and what there is to spare, for a person."""
    return f"{line_words(spare, unit)}: {amount_words(spare, unit)}"


def line_words(spare: Spare, unit: Unit) -> str:
    """The line in words, without the amount.

    >>> line = Spare(("wall D", "wall B"), ("bed", 600, "desk"), ("bed",), "across", 0, True)
    >>> line_words(line, "cm")
    'Between wall D and wall B, past the bed and the desk with 60 cm to use them'
    """
    one, two = map(the_wall, spare.between)
    if spare.direction == "way":
        return f"The way from {one} to {two} ({chain_words(spare, unit)} asked for)"
    told = [one if isinstance(one, str) else measured(one, unit) for one in spare.line]
    names = dict.fromkeys(the(text) for text in told if not LENGTH.fullmatch(text))
    floor = [text for text in told if LENGTH.fullmatch(text)]
    line = f"Along {one.removeprefix('the end of ')}" if one == two else f"Between {one} and {two}"
    past = f", past {listed(list(names))}" if names else ""
    kept = f" with {listed(floor)} to use {'it' if len(names) == 1 else 'them'}" if floor else ""
    return f"{line}{past}{kept}"


def worth_telling(lines: Sequence[Spare]) -> tuple[Spare, ...]:
    """The lines that a tape should be put to: with more to spare nobody need measure again."""
    return tuple(line for line in lines if line.mm <= AMPLE)


def chain_words(spare: Spare, unit: Unit) -> str:
    """Everything on the line, without the two ends; of the way in the width asked for."""
    told = (one if isinstance(one, str) else measured(one, unit) for one in spare.line)
    return ", ".join(text for text, _ in groupby(told))


def chain_items(text: str, names: Iterable[str]) -> tuple[str, ...]:
    """What ``chain_words`` put in a line, one by one; of names with a comma those of ``names``.

    >>> chain_items("bed, 60 cm, desk, old, lamp", ["bed", "desk, old", "lamp"])
    ('bed', '60 cm', 'desk, old', 'lamp')
    """
    items: list[str] = []
    known = sorted(names, key=len, reverse=True)
    for is_length, group in groupby(text.split(", "), lambda part: bool(LENGTH.fullmatch(part))):
        parts = list(group)
        rest = "" if is_length else ", ".join(parts)
        items += parts if is_length else []
        while rest:
            name = next((one for one in known if f"{rest}, ".startswith(f"{one}, ")), rest)
            items.append(name)
            rest = rest[len(name) + 2 :]
    return tuple(items)


def amount_words(spare: Spare, unit: Unit) -> str:
    """What there is to spare.

    >>> amount_words(Spare(("a", "b"), (), (), "up", 30, True), "cm")
    '3 cm to spare'
    >>> amount_words(Spare(("a", "b"), (), (), "up", 4, True), "cm")
    'nothing to spare: with 1 cm less it no longer works, so measure again'
    """
    free = measured(spare.mm, unit, "down")
    nothing = free.startswith("0 ")
    have = "nothing to spare" if nothing else f"{free} to spare"
    if spare.direction == "way":
        asked = next((one for one in spare.line if isinstance(one, int)), 0)
        wider = wider_by(asked, spare.mm, unit)
        if is_nought(wider):
            return "exactly that wide, nothing to spare: measure again"
        return f"{wider} wider than that"
    if spare.mm >= FINEST and not nothing:
        return have if spare.exact else f"at least {have}"
    if spare.exact and spare.mm < FINEST:
        return f"{have}: with {measured(FINEST, unit)} less it no longer works, so measure again"
    return f"{'perhaps' if nothing else 'at least'} {have}: measure again"


def is_urgent(spare: Spare, unit: Unit) -> bool:
    """Whether it is to be measured again before anything is bought.

    >>> is_urgent(Spare(("a", "b"), (), (), "up", 12, False), "in")
    True
    """
    return amount_words(spare, unit).endswith("measure again")


# A length as ``measured`` tells it.
LENGTH = re.compile(r"\d[\d.]*( \d/\d)? (mm|cm|m|in)|\d+ ft( \d+)?( \d/\d)?")
AMPLE = 300  # mm; as much as two measurements and a skirting are never out by
LIFTED = "lift it over what is there: no way past is wide enough"
CHECK = "First check with the tape:"
ORDER = "carry in, in this order:"


def outcome_words(result: Result) -> str:
    """What was found and how sure it is, in one or two sentences."""
    stopped = "Stopped when you asked. " if result.interrupted else ""
    if result.outcome == "impossible":
        wished = any(wish.must for wish in result.scenario.wishes)
        held = ", and with what you said must hold" if wished else ""
        return (
            "It does not fit, and that is proven: these pieces cannot all stand in this room so "
            f"that you can reach and use each of them{held}."
        )
    if result.outcome == "nothing found":
        asked = "so far" if result.interrupted else "in the time allowed"
        return (
            f"{stopped}Nothing was found {asked}. That does not mean that nothing works: allow "
            "more "
            "time with --time."
        )
    if result.outcome == "proven":
        return f"{stopped}This is the best there is; we checked."
    more = could_be_better(result.suggestions[0])
    return f"{stopped}Here is the best found in the time; {more}."


def words(result: Result, folder: Path, files: tuple[str, ...], *, everything: bool = False) -> str:
    """The whole text for the terminal: the first screen, or ``everything``."""
    parts = [result.scenario.title, "", wrapped(outcome_words(result))]
    parts += [wrapped(question) for question in measure_again(result.scenario)]
    if result.scenario.held:
        kept = listed([the(place.piece) for place in result.scenario.held])
        parts.append(wrapped(f"Held in place: {kept}."))
    parts += [wrapped(f"Note: {note}.") for note in result.notes]
    told = suggestion_lines if everything else first_lines
    of_all = said_of_all([one.verdict for one in result.suggestions])
    for number, suggestion in enumerate(result.suggestions):
        parts += [""] * (everything or not number) + told(result.scenario, suggestion, of_all)
    if result.families is not None:
        parts += ["", wrapped(families_words(result.families))]
    if result.suggestions:
        parts += ["", *_caution_lines(result, everything=everything)]
    elif result.outcome == "impossible":
        parts += why_lines(result)
    parts += ["", *_where(folder, files)]
    if result.suggestions and not everything:
        parts.append("For reasons, room to spare and every caution: --all.")
    return "\n".join(parts)


def why_lines(result: Result) -> list[str]:
    """The first conflict in short, and where to read on."""
    more = wrapped(
        "arrange why tells what clashes and the smallest changes that help; arrange check tells "
        "whether a piece fits nowhere even by itself."
    )
    if result.why is None:
        return [more]
    conflict, scenario = result.why, result.scenario
    lines = ["", "You cannot have all of these:"]
    lines += [
        wrapped(describe(scenario, one, conflict.requirements), "- ", "  ")
        for one in conflict.requirements
    ]
    if conflict.arithmetic is not None:
        lines.append(wrapped(conflict.arithmetic.sum or conflict.arithmetic.sentence))
    return [*lines, "", more]


def first_lines(
    scenario: Scenario, suggestion: Suggestion, of_all: frozenset[str] = frozenset()
) -> list[str]:
    """Points and where the large pieces stand; what was not avoided, else the best and worst."""
    score = f"{suggestion.rank}. {points(suggestion.verdict.score)} of 100 points"
    sure = "" if suggestion.proven else " (not proven best)"
    stands = f"{score}{sure}: {_stands(scenario, suggestion)}"
    reasons = suggestion.verdict.reasons
    faults, told = not_avoided(reasons), choose(reasons, 2, of_all)
    lines = [wrapped(stands, "", "   ")]
    if faults:
        more = f" (and {len(faults) - 1} more)" if len(faults) > 1 else ""
        head = not_avoided_head(suggestion)
        lines.append(wrapped(f"{head} {faults[0]}{more}", "   ! ", "     "))
    else:
        lines += [wrapped(reason.sentence, "   + ", "     ") for reason in told.won[:1]]
        lines += [wrapped(reason.sentence, "   - ", "     ") for reason in told.lost[:1]]
    return lines + (_tight_lines(scenario, suggestion) if suggestion.rank == 1 else [])


def suggestion_lines(
    scenario: Scenario, suggestion: Suggestion, of_all: frozenset[str] = frozenset()
) -> list[str]:
    """What was not avoided, parts, best and worst reasons, what is tight, room to spare."""
    more = "" if suggestion.proven else f" (not proven best: {could_be_better(suggestion)})"
    head = f"{suggestion.rank}. {points(suggestion.verdict.score)} of 100 points{more}"
    lines = [head, wrapped(_stands(scenario, suggestion), "   ")]
    reasons = suggestion.verdict.reasons
    lines += fault_rows(not_avoided_head(suggestion), reasons)
    lines += [f"   {row}" for row in part_rows(suggestion.verdict)]
    chosen = choose(reasons, 4, of_all)
    lines += reason_rows(chosen.won[:2], chosen.lost[:2])
    lines += _tight_lines(scenario, suggestion)
    lines_across = worth_telling(spares(scenario, suggestion.arrangement))
    if lines_across:
        lines.append("   Room to spare:")
    unit = scenario.unit
    return lines + [wrapped(spare_words(s, unit), "   . ", "     ") for s in lines_across]


def _stands(scenario: Scenario, suggestion: Suggestion) -> str:
    """Where the large pieces stand."""
    major = [p for p in scenario.pieces if p.major] or list(scenario.pieces)
    return "; ".join(
        f"{the(p.name)} {stands_words(scenario, suggestion.arrangement.of(p.name))}" for p in major
    )


def _tight_lines(scenario: Scenario, suggestion: Suggestion) -> list[str]:
    found = tighter_than_usual(scenario, suggestion.arrangement)
    return tight_rows(found, scenario.unit)


def families_words(families: Families) -> str:
    """How many ways the major pieces can stand."""
    count = len(families.families)
    ways = "one way" if count == 1 else f"{count} ways"
    if families.complete:
        return f"The large pieces can stand in {ways} in all, listed in result.json."
    were = "was" if families.undecided == 1 else "were"
    more = f" ({families.undecided} more {were} not decided)" if families.undecided else ""
    return (
        f"The large pieces can stand in at least {ways}, listed in result.json; the time ran out "
        f"before all were counted{more}."
    )


def _caution_lines(result: Result, *, everything: bool) -> list[str]:
    first = result.suggestions[0]
    every = found(result.scenario, first.arrangement)
    if everything and every:
        return ["Take care:", *(wrapped(c.told(), "- ", "  ") for c in every), wrapped(LAST)]
    if not every:
        return [wrapped(LAST)]
    more = len(every) - 1
    rest = f" There {'is' if more == 1 else 'are'} {more} more on the sheets." if more else ""
    return [wrapped(f"Take care: {every[0].sentence}{rest}")]  # who says so stands on the sheets


def _where(folder: Path, files: tuple[str, ...]) -> list[str]:
    pictures = [f for f in files if not f.endswith(".json")]
    record = next((f for f in reversed(files) if f.endswith(".json")), "result.json")
    if not pictures:
        return [f"Written: {folder / record}"]
    plans = [f for f in pictures if f.startswith("plan-")]
    if not plans:
        return [f"All sheets in one: {folder / pictures[0]}; every number in {record}"]
    joint = "and" if len(plans) == 2 else "to"
    span = plans[0] if len(plans) == 1 else f"{plans[0]} {joint} {plans[-1]}"
    places = [f for f in pictures if f.startswith("place-")]
    more = " and on" if len(places) > 1 else ""
    carry = f"; where each piece goes: {places[0]}{more}" if places else ""
    last = pictures[-1]
    first = (
        f"{folder / last} first, then {span}" if last not in (*plans, *places) else folder / span
    )
    return [f"Pictures: {first}{carry}; every number in {record}"]


def set_down_words(one: SetDown, unit: Unit) -> str:
    """Where one piece goes, without its name. What has no front has no sides, either.

    >>> back, left = Taped("back", "wall D", 0), Taped("left", "A", 850)
    >>> set_down_words(SetDown("bed", back, left, "B"), "cm")
    'back against wall D, left side 85 cm from wall A'
    """
    if one.corner:
        return _corner_words(one, unit)
    one = replace(one, across=_closed(one.across, unit), up=_closed(one.up, unit))
    if one.askew:
        nearest = " and ".join(_place_words(taped, unit) for taped in (one.across, one.up))
        told = f"turned at 45 degrees, nearest corner {nearest}"
        return told if one.carried else f"{told} ({LIFTED})"
    if one.plain:
        beside = {"across": one.up, "up": one.across}.get(one.long)
        long = f", long side along {_beside(beside, whole_wall)}" if beside else ""
        first, then = sorted((one.across, one.up), key=_told_first)
        told = f"{_place_words(first, unit)}, {_place_words(then, unit)}"
        if then.length == 0:
            corner = "" if first.neighbour or then.neighbour else "in the corner, "
            told = f"{corner}against {_beside(first)} and {_beside(then)}"
        return f"{told}{long}{'' if one.carried else f' ({LIFTED})'}"
    against_first = sorted((one.across, one.up), key=_told_first)
    told = ", ".join(_taped_words(taped, unit) for taped in against_first)
    turned = any(t.length == 0 and t.side in ("front", "back") for t in against_first)
    if one.looks_at and not turned:
        told += f", facing {whole_wall(one.looks_at)}"
    return told if one.carried else f"{told} ({LIFTED})"


def set_down_rows(scenario: Scenario, arrangement: Arrangement) -> list[str]:
    """Where each piece goes, in the order of carrying; nobody puts a tape to a chair at a table."""
    rows: list[str] = []
    told = setting_out(scenario, arrangement)
    for table, group in groupby(told, key=lambda one: _pulled_up_to(scenario, one)):
        alike = list(group)
        if table:
            chairs = listed(gathered([one.piece for one in alike], 2))
            rows.append(f"{chairs}: at {the(table)}, as on the plan")
        else:
            rows += [f"{one.piece}: {set_down_words(one, scenario.unit)}" for one in alike]
    return rows


def _pulled_up_to(scenario: Scenario, one: SetDown) -> str:
    piece = scenario.piece(one.piece)
    return (piece.anchor or "") if piece.pulled_up and one.carried else ""


def order_words(checked: bool) -> str:
    """The head of that list; ``checked`` if something is measured first."""
    return f"Then {ORDER}" if checked else f"{ORDER[:1].upper()}{ORDER[1:]}"


def _closed(taped: Taped, unit: Unit) -> Taped:
    """A length that is said to be nought is none: the piece touches there."""
    nought = is_nought(measured(taped.length, unit, "down"))
    return replace(taped, length=0) if nought else taped


def _corner_words(one: SetDown, unit: Unit) -> str:
    """Across a corner: how far from it the back meets the two walls."""
    ends = sorted((one.across, one.up), key=lambda taped: taped.end, reverse=True)
    left, right = (the_wall(taped.wall) for taped in ends)
    far = {measured(taped.length, unit) for taped in ends}
    along = [f"{measured(t.length, unit)} along {the_wall(t.wall)}" for t in ends]
    ways = f"{far.pop()} from it along both walls" if len(far) == 1 else " and ".join(along)
    told = f"across the corner between {left} and {right}, the ends of its back {ways}"
    return told if one.carried else f"{told} ({LIFTED})"


def _told_first(taped: Taped) -> tuple[bool, bool]:
    """What touches before what has a length, back and front before the sides."""
    return taped.length > 0, taped.side in ("left", "right")


def _taped_words(taped: Taped, unit: Unit) -> str:
    side = taped.side if taped.side in ("front", "back") else f"{taped.side} side"
    return f"{side} {_place_words(taped, unit)}"


def _place_words(taped: Taped, unit: Unit) -> str:
    """How far from what, of whichever side is the nearest."""
    place = _beside(taped)
    if taped.end:
        place = f"the {taped.end} end of {place}"
    if taped.length == 0:
        return f"{'at' if taped.end else 'against'} {place}"
    return f"{measured(taped.length, unit)} from {place}"


def _beside(taped: Taped, called: Callable[[str], str] = the_wall) -> str:
    """What a length is taken from; ``called`` names a wall."""
    return the(taped.neighbour) if taped.neighbour else called(taped.wall)


def check_lines(scenario: Scenario, suggestion: Suggestion) -> list[str]:
    """What to measure before anything is moved: the lines with the least to spare."""
    lines = worth_telling(spares(scenario, suggestion.arrangement))
    return [spare_words(s, scenario.unit) for s in lines]


def placing_words(result: Result) -> str:
    """The lists of all arrangements for a terminal."""
    told = (setting_out_lines(result.scenario, one) for one in result.suggestions)
    return "\n\n".join("\n".join(lines) for lines in told)


def setting_out_lines(scenario: Scenario, suggestion: Suggestion) -> list[str]:
    """One arrangement's list for a terminal."""
    lines = [f"Arrangement {suggestion.rank}"]
    checks = check_lines(scenario, suggestion)
    if checks:
        lines += ["", CHECK, *(wrapped(line, "- ", "  ") for line in checks)]
    lines += ["", order_words(bool(checks))]
    for number, told in enumerate(set_down_rows(scenario, suggestion.arrangement), 1):
        lines.append(wrapped(told, f"{number:2}. ", "    "))
    return lines
