"""What a terminal shows of a result: the answer, each plan in short, room to spare."""

from __future__ import annotations

from itertools import groupby
from pathlib import Path

from arrange.data.arrangement import Placement
from arrange.data.lengths import measured, points
from arrange.data.result import FINEST, Families, Result, Spare, Suggestion
from arrange.data.scenario import Scenario, Unit
from arrange.whatif.requirements import describe
from arrange.whatif.slack import spares
from arrange.words.cautions import LAST, cautions
from arrange.words.reasons import choose, reason_rows, wrapped


def spare_words(spare: Spare, unit: Unit) -> str:
    """The line and what there is to spare, for a person."""
    return f"{line_words(spare, unit)}: {amount_words(spare, unit)}"


def line_words(spare: Spare, unit: Unit) -> str:
    """The line in words, without the amount.

    >>> line = Spare(("wall D", "wall B"), ("bed", 600, "desk"), ("bed",), "across", 0, True)
    >>> line_words(line, "cm")
    'Across from wall D to wall B (bed, 60 cm, desk)'
    """
    chain = chain_words(spare, unit)
    if spare.direction == "way":
        return chain
    way = "Across" if spare.direction == "across" else "Up the plan"
    return f"{way} from {spare.between[0]} to {spare.between[1]} ({chain})"


def chain_words(spare: Spare, unit: Unit) -> str:
    """Everything on the line, without the two ends; the way in from its beginning."""
    told = (one if isinstance(one, str) else measured(one, unit) for one in spare.line)
    chain = ", ".join(text for text, _ in groupby(told))
    if spare.direction == "way":
        return f"The way in from {spare.between[0]} to {spare.between[1]}, {chain} asked"
    return chain


def amount_words(spare: Spare, unit: Unit) -> str:
    """What there is to spare.

    >>> amount_words(Spare(("a", "b"), (), (), "up", 30, True), "cm")
    '3 cm to spare'
    >>> amount_words(Spare(("a", "b"), (), (), "up", 4, True), "cm")
    '0.4 cm to spare: 1 cm less and it no longer works like this, measure again'
    """
    least = 7 if unit == "in" else 1  # mm that can be said
    have = f"{_no_more(spare.mm, unit)} to spare" if spare.mm >= least else "nothing to spare"
    if spare.direction == "way":
        if not spare.mm:
            return "no wider as the pieces stand, measure again"
        return f"{_no_more(spare.mm, unit)} wider as the pieces stand"
    if spare.mm >= FINEST:
        return have if spare.exact else f"at least {have}"
    if spare.exact:
        cm = measured(FINEST, "cm" if unit == "m" else unit)
        return f"{have}: {cm} less and it no longer works like this, measure again"
    return f"{have} that is sure: measure again"


def _no_more(mm: int, unit: Unit) -> str:
    """A length that promises no more than there is: quarters of an inch are rounded down.

    >>> _no_more(10, "in"), _no_more(10, "cm")
    ('1/4 in', '1 cm')
    """
    quarters = mm * 40 // 254
    return measured((quarters * 254 + 20) // 40 if unit == "in" else mm, unit)


TURNED = {"up": "up the plan", "down": "down the plan", "left": "left", "right": "right"}


def outcome_words(result: Result) -> str:
    """What was found and how sure it is, in one or two sentences."""
    stopped = "Stopped when you asked. " if result.interrupted else ""
    if result.outcome == "impossible":
        wished = any(wish.must for wish in result.scenario.wishes)
        held = ", with what you said must hold" if wished else ""
        return (
            "Impossible, proven: these pieces cannot all stand in this room so that each can be "
            f"used and reached{held}."
        )
    if result.outcome == "nothing found":
        asked = "so far" if result.interrupted else "in the time allowed"
        return (
            f"{stopped}Nothing found {asked}. That does not mean that nothing works: allow more "
            "time with --time."
        )
    best = result.suggestions[0].verdict.score
    if result.outcome == "proven":
        return f"{stopped}Best arrangement found and proven: none scores more than {points(best)}."
    more = points(max(0, result.suggestions[0].most - best))
    return f"{stopped}Found, not proven best: at most {more} more points are possible."


def words(result: Result, folder: Path, files: tuple[str, ...]) -> str:
    """The whole text for the terminal."""
    parts = [result.scenario.title, "", wrapped(outcome_words(result))]
    parts += [wrapped(f"Note: {note}.") for note in result.notes]
    for suggestion in result.suggestions:
        parts += ["", *suggestion_lines(result.scenario, suggestion)]
    if result.families is not None:
        parts += ["", wrapped(families_words(result.families))]
    if result.suggestions:
        parts += ["", *_caution_lines(result)]
    elif result.outcome == "impossible":
        parts += why_lines(result)
    parts += ["", *_where(folder, files)]
    return "\n".join(parts)


def why_lines(result: Result) -> list[str]:
    """The first conflict in short, and where to read on."""
    more = wrapped(
        "arrange why says what clashes and what would have to give; arrange check tells which "
        "piece, if any, fits nowhere even alone."
    )
    if result.why is None:
        return [more]
    conflict, scenario = result.why, result.scenario
    lines = ["", "These cannot all hold:"]
    lines += [
        wrapped(describe(scenario, one, conflict.requirements), "- ", "  ")
        for one in conflict.requirements
    ]
    if conflict.arithmetic is not None:
        lines.append(wrapped(conflict.arithmetic.sum or conflict.arithmetic.sentence))
    return [*lines, "", more]


def suggestion_lines(scenario: Scenario, suggestion: Suggestion) -> list[str]:
    """Score, where the major pieces stand, the best and worst reasons, room to spare."""
    head = f"{suggestion.rank}. {points(suggestion.verdict.score)} of 100 points"
    if not suggestion.proven:
        more = max(0, suggestion.most - suggestion.verdict.score)
        head += f" (not proven best: at most {points(more)} more)"
    major = [p for p in scenario.pieces if p.major] or list(scenario.pieces)
    stands = "; ".join(
        f"{p.name} {stands_words(scenario, suggestion.arrangement.of(p.name))}" for p in major
    )
    chosen = choose(suggestion.verdict.reasons, 4)
    lines = [head, wrapped(stands, "   "), *reason_rows(chosen.won[:2], chosen.lost[:2])]
    lines_across = spares(scenario, suggestion.arrangement)
    if lines_across:
        lines.append("   Room to spare:")
    unit = scenario.unit
    return lines + [wrapped(spare_words(s, unit), "   . ", "     ") for s in lines_across]


def stands_words(scenario: Scenario, placement: Placement) -> str:
    """Where a piece stands: its wall, or the way it faces if it stands free."""
    if placement.wall is None:
        facing = TURNED.get(placement.facing or "", "across")
        return f"free, facing {facing}"
    wall = scenario.room.walls[placement.wall]
    return f"on wall {wall.name}" if len(wall.name) == 1 else f"on {wall.name}"


def families_words(families: Families) -> str:
    """How many ways the major pieces can stand."""
    count = len(families.families)
    ways = "one way" if count == 1 else f"{count} ways"
    if families.complete:
        return f"The large pieces can stand in {ways} in all, listed in result.json."
    more = f" ({families.undecided} more were not decided)" if families.undecided else ""
    return (
        f"The large pieces can stand in at least {ways}, listed in result.json; the time ran out "
        f"before all were counted{more}."
    )


def _caution_lines(result: Result) -> list[str]:
    first = result.suggestions[0]
    describe = [c for c in cautions(result.scenario, first.arrangement) if c != LAST]
    if not describe:
        return [wrapped(LAST)]
    rest = f" {len(describe) - 1} more on the sheets." if len(describe) > 1 else ""
    return [wrapped(f"Take care: {describe[0]}{rest}"), wrapped(LAST)]


def _where(folder: Path, files: tuple[str, ...]) -> list[str]:
    pictures = [f for f in files if not f.endswith(".json")]
    record = next((f for f in reversed(files) if f.endswith(".json")), "result.json")
    if not pictures:
        return [f"Written: {folder / record}"]
    plans = [f for f in pictures if f.startswith("plan-")]
    span = plans[0] if len(plans) == 1 else f"{plans[0]} to {plans[-1]}"
    return [f"Pictures: {folder / pictures[-1]} first, then {span}; every number in {record}"]
