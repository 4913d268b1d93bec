"""One piece in many sizes: which there are, and the answers on a ladder of them or the largest.

A piece could be had in the standard sizes of its family, in a range of sizes, or one or two
sizes smaller. The table is data, in ``sizes.toml``. A bed is its mattress and a frame round it,
a dining table has as many seats along its long sides as there is room for and the rest at its
ends. Of each size the answer says whether it works, whether it works comfortably, and what it
scores in tenths of a point. Lengths in mm.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any, Literal

from arrange.data.arrangement import Arrangement, Decision
from arrange.data.change import Change, Exchange, Resize
from arrange.data.kinds import believable, kind
from arrange.data.lengths import length, listed, measured, parse
from arrange.data.piece import Clearance, Piece
from arrange.data.result import FULL, Verdict, at_most
from arrange.data.scenario import Scenario, Unit
from arrange.data.sources import source
from arrange.errors import ArrangeError

Dimension = Literal["width", "depth", "height"]
DIMENSIONS: tuple[Dimension, ...] = ("width", "depth", "height")
Sureness = Literal["exact", "at least", "impossible", "not decided"]

TABLE = Path(__file__).with_name("sizes.toml")
REGIONS = {"eu": "European", "uk": "British", "us": "American", "au": "Australian"}
SEAT = 600  # mm of table edge for one diner, `dine-place-neufert`
MOST = 40  # sizes in a range: more is a job for the exact largest size
FRAMES = (50, 150)  # mm that a frame adds, `bed-frame-outside`
ENDS = ("left chair", "right chair")  # clearances of the kind that seats people at its ends

INCH, FOUR = 25.4, 4
USUAL_STEP = 100
LEAST_LESS = 50
NARROWEST = 600  # pieces narrower than this come in one size
SIZES_DOWN = 2
# Nobody gains by a smaller one of these.
ONE_SIZE = {
    "bedside",
    "light",
    "plant",
    "work seat",
    "dining seat",
    "seat",
    "pet",
    "hangs",
    "sleep",
}


@dataclass(frozen=True, slots=True)
class Size:
    """A size a piece could be had in. ``piece`` is the piece in that size, in mm outside.

    ``source`` is an id of the table of sources, empty for a size of the person's own.
    """

    label: str
    piece: Piece
    source: str = ""


@dataclass(frozen=True, slots=True)
class SizeTable:
    """Sizes in rising order, what they are, and in plain words what was assumed."""

    title: str
    sizes: tuple[Size, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Rung:
    """One size of a ladder.

    ``works`` and ``comfortable`` are answers on their own, each "impossible" only where
    proven. ``verdict`` is the judge's on the best ``arrangement`` found, its score
    proven best if ``bound`` (a standing) is no higher. ``others`` counts, in that arrangement,
    the comfortable clearances of all other pieces that have their full points, of how many.
    Scores of rungs with the same ``scale`` can be compared: they share out the hundred
    points alike. A bed for one and a bed for two do not.
    """

    size: Size
    works: Decision
    comfortable: Decision
    arrangement: Arrangement | None = None
    verdict: Verdict | None = None
    bound: int = FULL
    others: tuple[int, int] = (0, 0)
    scale: int = 0

    @property
    def score(self) -> int | None:
        """The best score found, in tenths; None where nothing was found."""
        return None if self.verdict is None else self.verdict.score

    @property
    def most(self) -> int:
        """Tenths that no arrangement of this size with as few faults surpasses."""
        return FULL if self.verdict is None else at_most(self.bound, self.verdict)

    @property
    def proven(self) -> bool:
        """Whether no arrangement of this size scores more."""
        return self.verdict is not None and self.bound <= self.verdict.standing


@dataclass(frozen=True, slots=True)
class Fall:
    """Where the score falls off most from one size to the next that works, in tenths.

    ``loss`` is what is proven: it may be more unless both scores are proven best (``sure``).
    """

    before: Rung
    after: Rung
    loss: int
    sure: bool


@dataclass(frozen=True, slots=True)
class Ladder:
    """The answer on every size of one piece. ``interrupted``: somebody stopped it."""

    scenario: Scenario
    piece: str
    table: SizeTable
    rungs: tuple[Rung, ...]
    interrupted: bool = False

    @property
    def largest(self) -> Rung | None:
        """The last size that works; None if none is known to."""
        return _last(self.rungs, [r.works == "works" for r in self.rungs])

    @property
    def largest_comfortable(self) -> Rung | None:
        """The last size that works comfortably; None if none is known to."""
        return _last(self.rungs, [r.comfortable == "works" for r in self.rungs])

    @property
    def undecided(self) -> tuple[Rung, ...]:
        """Sizes of which it is not known whether they work."""
        return tuple(r for r in self.rungs if r.works == "not decided")

    @property
    def fall(self) -> Fall | None:
        """The step that surely loses most, from one size to the next of its scale.

        None if no step surely loses any: a score that is not proven best may rise to its bound.
        """
        last: dict[int, Rung] = {}
        falls = []
        for rung in (r for r in self.rungs if r.score is not None):
            if (one := last.get(rung.scale)) is not None:
                loss = (one.score or 0) - (rung.most)
                falls.append(Fall(one, rung, loss, one.proven and rung.proven))
            last[rung.scale] = rung
        worst = max(falls, key=lambda f: f.loss, default=None)
        return worst if worst is not None and worst.loss > 0 else None


def _last(rungs: Sequence[Rung], wanted: Sequence[bool]) -> Rung | None:
    found = [rung for rung, is_wanted in zip(rungs, wanted, strict=True) if is_wanted]
    return found[-1] if found else None


def in_steps(mm: int, unit: Unit) -> int:
    """The greatest number of whole centimetres (inches) that is not more than ``mm``."""
    steps = mm * 10 // 254 + 1 if unit == "in" else mm // 10
    while in_mm(steps, unit) > mm:
        steps -= 1
    return steps


def in_mm(steps: int, unit: Unit) -> int:
    """So many centimetres (inches) in whole mm."""
    return parse(steps, "in" if unit == "in" else "cm")


@dataclass(frozen=True, slots=True)
class Largest:
    """The largest ``dimension`` of ``piece`` that works, in whole centimetres or inches.

    "exact": ``size`` works, as ``arrangement`` shows in ``scenario``, and every larger one
    is proven impossible, ``next`` by two solver configurations. "at least": ``size`` works,
    and larger ones in ``undecided`` were not decided in the time (their least and greatest);
    without ``undecided`` it is the largest that was tried, as no larger piece is usual.
    "impossible": no size works, proven. "not decided": nothing found, nothing proven.
    ``asked`` counts the questions put to the solver.
    """

    piece: str
    dimension: Dimension
    answer: Sureness
    size: int | None = None
    next: int | None = None
    undecided: tuple[int, int] | None = None
    scenario: Scenario | None = None
    arrangement: Arrangement | None = None
    asked: int = 0
    interrupted: bool = False


class NoSizesError(ArrangeError, ValueError):
    """There are no such sizes for this piece; the message says what can be asked."""


@dataclass(frozen=True, slots=True)
class Family:
    """Kinds that share standard sizes; ``frame`` is what a bed adds to its mattress.

    ``turned``: the mattress lies across. ``only``: at most that many sleepers.
    """

    name: str
    kinds: tuple[str, ...]
    frame: tuple[int, int] = (0, 0)
    turned: bool = False
    only: int = 9


@cache
def families() -> tuple[Family, ...]:
    """Every family, in the order of the table."""
    rows: list[dict[str, Any]] = tomllib.loads(TABLE.read_text(encoding="utf-8"))["family"]
    return tuple(Family(**row) for row in map(_frozen, rows))


def _frozen(row: dict[str, Any]) -> dict[str, Any]:
    return {key: tuple(v) if isinstance(v, list) else v for key, v in row.items()}


@cache
def _rows(family: str) -> tuple[dict[str, Any], ...]:
    return tuple(tomllib.loads(TABLE.read_text(encoding="utf-8"))["size"][family]["rows"])


def usual_region(unit: Unit) -> str:
    """The region whose mattresses are meant where nothing is said: American for inches."""
    return "us" if unit == "in" else "eu"


def standard_sizes(piece: Piece, region: str, unit: Unit = "cm") -> SizeTable:
    """The standard sizes of a piece's family, the narrowest first.

    ``region`` is one of ``REGIONS`` and matters for mattresses alone; the notes give
    lengths in ``unit``.

    Raises
    ------
    NoSizesError
        If the piece's kind has no standard sizes, or the region is not known.
    """
    if region not in REGIONS:
        raise NoSizesError(f"there is no region {region}; write {listed(list(REGIONS), 'or')}")
    family = next((f for f in families() if piece.kind in f.kinds and piece.fills_its_box), None)
    if family is None:
        known = listed([k for f in families() for k in f.kinds])
        raise NoSizesError(
            f"no standard sizes are known for {piece.name} ({piece.kind}); give a range of widths, "
            f'such as --sizes "{piece.name}=60..120/10". Standard sizes are known for: {known}'
        )
    rows = [r for r in _rows(family.name) if r.get("region", region) == region]
    rows = [r for r in rows if r.get("sleeps", 1) <= family.only]
    sizes = sorted((_size(piece, family, r) for r in rows), key=_breadth)
    regional = any("region" in r for r in rows)
    title = f"{REGIONS[region]} mattress sizes" if regional else f"{family.name} sizes"
    return SizeTable(title, tuple(sizes), tuple(_notes(piece, family, sizes, unit)))


def range_of_sizes(
    piece: Piece, first: tuple[int, int], last: tuple[int, int], step: Fraction | int, unit: Unit
) -> SizeTable:
    """Sizes from ``first`` to ``last`` (width, depth), ``step`` wider each; depths in proportion.

    ``step`` may be a fraction of a mm, as half an inch is; each width is then rounded.
    The last is left out where no whole number of steps leads to it. NoSizesError
    if it runs backward, has more than ``MOST`` sizes, or a size that no piece has.
    """
    span = last[0] - first[0]
    if step <= 0 or span < 0:
        raise NoSizesError("a range runs from the narrowest to the widest in steps above 0")
    # Half a mm over: the ends were rounded.
    count = int((span + Fraction(1, 2)) // step) + 1
    if count > MOST:
        raise NoSizesError(
            f"{count} sizes in the range, at most {MOST} are tried; take a longer step, or ask for "
            f'the exact largest: --largest "{piece.name}=width"'
        )
    for side, ends in zip(("width", "depth"), zip(first, last, strict=True), strict=True):
        _check_ends(piece, side, ends, unit)
    sizes = []
    for i in range(count):
        wider = round(i * step)
        width = first[0] + wider
        depth = first[1] + round((last[1] - first[1]) * wider / span) if span else first[1]
        new = replace(piece, width=width, depth=depth)
        both = first[1] != last[1]
        sizes.append(Size(length(width, unit) + (f" x {length(depth, unit)}" if both else ""), new))
    return SizeTable(f"widths in steps of {length(round(step), unit)}", tuple(sizes))


def _check_ends(piece: Piece, side: str, ends: tuple[int, int], unit: Unit) -> None:
    """NoSizesError if no such piece is so small or large; the size it has already is one."""
    own: int = getattr(piece, side)
    least, most = believable(piece.kind, side)
    if all(mm == own or least <= mm <= most for mm in ends):
        return
    asked = listed([length(mm, unit) for mm in dict.fromkeys(ends)], "to")
    lowest, highest = (length(mm, unit) for mm in (least, most))
    how = "wide" if side == "width" else "deep"
    raise NoSizesError(f"no {piece.kind} is {asked} {how}: give sizes from {lowest} to {highest}")


def _breadth(size: Size) -> tuple[int, int]:
    """What a list of sizes is ordered by: the shorter side of a bed, the width of all else."""
    new = size.piece
    short, long = sorted((new.width, new.depth))
    return (short, long) if new.is_a("sleep") else (new.width, new.depth)


def _size(piece: Piece, family: Family, row: dict[str, Any]) -> Size:
    across, beyond = _frame(piece, family)
    width, depth = row["width"] + across, row["depth"] + beyond
    if family.turned:
        width, depth = depth, width
    new = replace(piece, width=width, depth=depth)
    if "sleeps" in row and family.only > 1:
        new = _for_sleepers(new, row["sleeps"])
    if "diners" in row:
        new = replace(new, clearances=_seats(new, row["diners"]))
    return Size(row["label"], new, row.get("source", ""))


def _frame(piece: Piece, family: Family) -> tuple[int, int]:
    """What the bed adds to the width and the length of its mattress: its own frame if known."""
    own = piece.rails, piece.headboard + piece.footboard
    return own if piece.framed and family.frame != (0, 0) else family.frame


def _for_sleepers(piece: Piece, count: int) -> Piece:
    """The bed as a bed for that many: its kind and the floor that asks for.

    What the person said of a clearance stays as they said it.
    """
    for_two = piece.is_a("for two")
    if for_two == (count == 2):
        return piece
    new, old = kind("double bed" if count == 2 else "single bed"), kind(piece.kind)
    return replace(
        piece,
        kind=new.name,
        roles=(piece.roles - old.roles) | new.roles,
        goes_with=new.goes_with,
        clearances=_kept(piece, new.clearances),
    )


def _seats(table: Piece, diners: int) -> tuple[Clearance, ...]:
    """Floor for the diners: along both long sides, and at one or both ends for the rest."""
    rest = diners - 2 * (table.width // SEAT)
    left, right = (c for c in kind("dining table for eight").clearances if c.name in ENDS)
    sides = tuple(c for c in table.clearances if c.name not in ENDS)
    if rest <= 0:
        return sides
    if rest == 1:
        return (*sides, replace(left, name="end chair", sides=("left", "right")))
    return (*sides, *_kept(table, (left, right)))


def _kept(piece: Piece, wanted: Iterable[Clearance]) -> tuple[Clearance, ...]:
    """The clearances wanted, with values of the person's own, or for somebody, where there are."""
    own = {c.name: c for c in piece.clearances if c.overridden or c.whose}
    return tuple(own.get(c.name, c) for c in wanted)


def _notes(piece: Piece, family: Family, sizes: Sequence[Size], unit: Unit) -> list[str]:
    notes = []
    if family.frame != (0, 0):
        frame = _frame(piece, family)
        wide, long, least, most = (measured(mm, unit) for mm in (*frame, *FRAMES))
        says = (
            f"{source('bed-frame-outside').status}; frames add {least} to {most}, a headboard more"
        )
        notes.append(
            f"the bed is its mattress and a frame: {wide} more in width and {long} in length "
            f"({'as your file has it' if piece.framed else says})"
        )
    if piece.is_a("bed") and family.only > 1:
        notes.append("a mattress for one counts as a single bed that you get into from one side")
    if piece.is_a("dine"):
        notes.append(
            f"{measured(SEAT, unit)} of edge for each diner along the long sides, the rest at the "
            "ends, which then need floor, too; as many chairs as your file has"
        )
    unsure = [s for s in sizes if not s.source or source(s.source).status != "verified"]
    for status, words in (
        ("memory", "from memory, not read again"),
        ("common practice", "common practice, no source"),
    ):
        labels = [s.label for s in unsure if source(s.source).status == status]
        if labels:
            notes.append(f"{words}: {listed(labels)}")
    return notes


def smaller_sizes(piece: Piece, unit: Unit) -> tuple[Size, ...]:
    """At most two sizes down, the next one first; none for what comes in one size.

    Standard sizes where there are some; a bed for two stays one. Else 10 cm (4 in) less
    of the width at a time, with an empty label. None is less than two thirds as wide,
    and each fits where the one before it fits.
    """
    try:
        sizes = standard_sizes(piece, usual_region(unit), unit).sizes
    except NoSizesError:
        sizes = ()
    found: list[Size] = []
    for size in reversed(sizes):
        if _less(size.piece, found[-1].piece if found else piece):
            found.append(size)
    found = [s for s in found if _wide_enough(s.piece, piece)]
    return tuple(found[:SIZES_DOWN]) or (() if _one_size(piece) else _narrower(piece, unit))


def change_to(size: Size, piece: Piece) -> Change:
    """The change that puts that size in the place of the piece."""
    new = size.piece
    if replace(piece, width=new.width, depth=new.depth) == new:
        return Resize(piece.name, width=new.width, depth=new.depth)
    return Exchange(piece.name, new)


def _less(new: Piece, old: Piece) -> bool:
    """Whether it is smaller by more than the makers differ, and nowhere larger."""
    less = old.width - new.width, old.depth - new.depth
    real = less[0] >= LEAST_LESS or less[1] >= USUAL_STEP
    return real and min(less) >= 0 and new.is_a("for two") == old.is_a("for two")


def _wide_enough(new: Piece, old: Piece) -> bool:
    return 3 * new.width >= 2 * old.width


def _one_size(piece: Piece) -> bool:
    own = bool(piece.roles & ONE_SIZE) or not piece.fills_its_box
    return own or piece.flat or piece.width < NARROWEST


def _narrower(piece: Piece, unit: Unit) -> tuple[Size, ...]:
    found = []
    for k in range(1, SIZES_DOWN + 1):
        inches = round(piece.width / INCH) - k * FOUR
        width = round(inches * INCH) if unit == "in" else piece.width - k * USUAL_STEP
        found.append(Size("", replace(piece, width=width)))
    return tuple(s for s in found if _wide_enough(s.piece, piece))
