"""What somebody asks of sizes, in their own words: a piece, a range, a dimension."""

from __future__ import annotations

from fractions import Fraction

from arrange.data.ladder import SizeTable
from arrange.data.largest import DIMENSIONS, Dimension
from arrange.data.scenario import Scenario, Unit
from arrange.scenario.faults import Faults
from arrange.scenario.lengths import parse
from arrange.scenario.sizes import (
    REGIONS,
    NoSizesError,
    range_of_sizes,
    standard_sizes,
    usual_region,
)
from arrange.words import listed

RANGE = "write FROM..TO or FROM..TO/STEP, such as 140..200/10 or 90x190..180x200/10"
STEPS = {"in": "2", "mm": "50", "m": "0.05", "cm": "5"}  # of a range that names none


def sizes_asked(word: str, region: str | None, scenario: Scenario) -> tuple[str, SizeTable]:
    """The piece and the sizes that ``PIECE`` or ``PIECE=FROM..TO/STEP`` asks for.

    Without a range the standard sizes of the piece's kind; mattresses of ``region``, or
    of the one that goes with the file's unit.

    Raises
    ------
    ScenarioError
        If there is no such piece, no such sizes, or the range is not understood.
    """
    faults = Faults(scenario.source_file or "sizes")
    name, sign, value = word.partition("=")
    piece = _piece(name, f"--sizes {word}", scenario, faults)
    try:
        if not sign:
            where = region or usual_region(scenario.unit)
            return piece, standard_sizes(scenario.piece(piece), where, scenario.unit)
        return piece, _range(value, scenario, piece)
    except NoSizesError as error:
        faults.add(f"--sizes {word}", "no such sizes", str(error))
    except ValueError as error:
        faults.add(f"--sizes {word}", f"{value!r} is not understood ({error})", RANGE)
    faults.stop()
    raise AssertionError("a fault was noted")


def region_words(region: str | None, scenario: Scenario) -> str:
    """Which mattresses were taken, and how to ask for others."""
    taken = REGIONS[region or usual_region(scenario.unit)]
    others = listed([r for r in REGIONS if REGIONS[r] != taken], "or")
    why = "as asked" if region else f"because your file is in {scenario.unit}"
    return f"{taken} mattresses, {why}; --region {others} for others"


def dimension_asked(word: str, scenario: Scenario) -> tuple[str, Dimension]:
    """The piece and the dimension that ``PIECE=width|depth|height`` asks for. ScenarioError."""
    faults = Faults(scenario.source_file or "largest")
    name, _, value = word.partition("=")
    piece = _piece(name, f"--largest {word}", scenario, faults)
    for dimension in DIMENSIONS:
        if value.strip().casefold() == dimension:
            return piece, dimension
    known = listed([f"{name}={d}" for d in DIMENSIONS], "or")
    faults.add(f"--largest {word}", f"{value!r} is no dimension", f"write {known}")
    faults.stop()
    raise AssertionError("a fault was noted")


def _piece(word: str, where: str, scenario: Scenario, faults: Faults) -> str:
    wanted = " ".join(word.split()).casefold()
    names = [p.name for p in scenario.pieces]
    exact = [n for n in names if n.casefold() == wanted]
    alike = [p.name for p in scenario.pieces if p.model.casefold() == wanted]
    found = exact or alike
    if len(found) > 1:
        faults.add(where, f"{word} means {len(found)} pieces", f"name one: {listed(found, 'or')}")
    elif not found:
        faults.unknown(where, word, names, "the piece")
    faults.stop()
    return found[0]


def _range(value: str, scenario: Scenario, piece: str) -> SizeTable:
    first, dots, rest = value.partition("..")
    if not dots:
        raise ValueError("no ..")
    unit, own = scenario.unit, scenario.piece(piece)
    last, step = _last_and_step(rest, scenario)
    low, high = _both(first, own.depth, scenario), _both(last, own.depth, scenario)
    return range_of_sizes(own, low, high, _exact(step, unit), unit)


def _last_and_step(text: str, scenario: Scenario) -> tuple[str, str]:
    """Parted at the first / that leaves two lengths; others are fractions of an inch."""
    at = text.find("/")
    while at >= 0:
        last, step = text[:at], text[at + 1 :]
        try:
            _both(last, 1, scenario)
            parse(_bare(step), scenario.unit)
        except ValueError:
            at = text.find("/", at + 1)
        else:
            return last, step
    return text, STEPS[scenario.unit]


def _exact(text: str, unit: Unit) -> Fraction | int:
    """A step in mm; inches to the 16th, so that many steps do not drift."""
    mm = parse(_bare(text), unit)
    bare = not any(letter.isalpha() for letter in text)
    inches = any(mark in text.casefold() for mark in ("in", "ft", '"', "'")) or bare
    if not inches or (bare and unit != "in"):
        return mm
    return Fraction(254, 10) * Fraction(round(mm * 160 / 254), 16)


def _both(text: str, depth: int, scenario: Scenario) -> tuple[int, int]:
    """Width and depth in mm; ``depth`` where only a width is given."""
    width, sign, deep = text.casefold().partition("x")
    mm = parse(_bare(width), scenario.unit)
    return mm, parse(_bare(deep), scenario.unit) if sign else depth


def _bare(text: str) -> str:
    words = text.strip()
    if not words:
        raise ValueError("a length is missing")
    return words
