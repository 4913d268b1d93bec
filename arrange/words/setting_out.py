"""Where each piece goes, in words: two lengths of the tape a piece, in the order of carrying."""

from __future__ import annotations

from arrange.data.lengths import measured
from arrange.data.result import Result, Suggestion
from arrange.data.scenario import Scenario, Unit
from arrange.whatif.setting_out import SetDown, Taped, setting_out
from arrange.whatif.slack import spares
from arrange.words.places import the_wall
from arrange.words.reasons import wrapped
from arrange.words.suggest import spare_words

LIFTED = "lift it over what is there: no way past is wide enough"
CHECK = "First check with the tape:"
ORDER = "Then carry in, in this order:"


def set_down_words(one: SetDown, unit: Unit) -> str:
    """Where one piece goes, without its name. A rug has no front: only its edges are told.

    >>> back, left = Taped("back", "wall D", 0), Taped("left", "A", 850)
    >>> set_down_words(SetDown("bed", back, left, "B"), "cm")
    'back against wall D, left side 85 cm from wall A'
    """
    if one.flat:
        across, up = (_taped_words(t, unit, "edge") for t in (one.across, one.up))
        long = one.up if one.long == "across" else one.across
        return f"{across}, {up}, long side along {the_wall(long.wall)}"
    against_first = sorted((one.across, one.up), key=_told_first)
    told = ", ".join(_taped_words(taped, unit) for taped in against_first)
    turned = any(t.length == 0 and t.side in ("front", "back") for t in (one.across, one.up))
    if one.looks_at and not turned:
        told += f", facing {the_wall(one.looks_at)}"
    return told if one.carried else f"{told} ({LIFTED})"


def _told_first(taped: Taped) -> tuple[bool, bool]:
    """What touches before what has a length, back and front before the sides."""
    return taped.length > 0, taped.side in ("left", "right")


def _taped_words(taped: Taped, unit: Unit, side: str = "") -> str:
    side = side or (taped.side if taped.side in ("front", "back") else f"{taped.side} side")
    place = the_wall(taped.wall)
    if taped.end:
        place = f"the {taped.end} end of {place}"
    if taped.length == 0:
        return f"{side} {'at' if taped.end else 'against'} {place}"
    return f"{side} {measured(taped.length, unit, 'down')} from {place}"


def check_lines(scenario: Scenario, suggestion: Suggestion) -> list[str]:
    """What to measure before anything is moved: the lines with the least to spare."""
    return [spare_words(s, scenario.unit) for s in spares(scenario, suggestion.arrangement)]


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
    lines += ["", ORDER]
    for number, one in enumerate(setting_out(scenario, suggestion.arrangement), 1):
        told = f"{one.piece}: {set_down_words(one, scenario.unit)}"
        lines.append(wrapped(told, f"{number:2}. ", "    "))
    return lines
