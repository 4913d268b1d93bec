"""Sizes that a piece could be had in: standard ones by family, a range, or the next smaller.

The table is data, in ``sizes.toml``. A bed is its mattress and a frame round it, a dining
table has as many seats along its long sides as there is room for and the rest at its ends.
Lengths in mm.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from arrange.data.change import Change, Exchange, Resize
from arrange.data.kinds import believable, kind
from arrange.data.lengths import length, listed
from arrange.data.piece import Clearance, Piece
from arrange.data.scenario import Unit
from arrange.data.sizes import Size, SizeTable
from arrange.data.sources import source
from arrange.errors import ArrangeError

TABLE = Path(__file__).with_name("sizes.toml")
REGIONS = {"eu": "European", "uk": "British", "us": "American", "au": "Australian"}
SEAT = 600  # mm of table edge for one diner, `dine-place-neufert`
MOST = 40  # sizes in a range: more is a job for the exact largest size
FRAMES = (50, 150)  # mm that a frame adds, `bed-frame-outside`
ENDS = ("left chair", "right chair")  # clearances of the kind that seats people at its ends


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
        raise NoSizesError(f"no region {region}; known are {listed(list(REGIONS))}")
    family = next((f for f in families() if piece.kind in f.kinds), None)
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
    article = "an" if piece.kind[0] in "aeiou" else "a"
    raise NoSizesError(
        f"{asked} is no {side} of {article} {piece.kind}: between {lowest} and {highest} are tried"
    )


def _breadth(size: Size) -> tuple[int, int]:
    """What a list of sizes is ordered by: the shorter side of a bed, the width of all else."""
    new = size.piece
    short, long = sorted((new.width, new.depth))
    return (short, long) if new.is_a("sleep") else (new.width, new.depth)


def _size(piece: Piece, family: Family, row: dict[str, Any]) -> Size:
    width, depth = row["width"] + family.frame[0], row["depth"] + family.frame[1]
    if family.turned:
        width, depth = depth, width
    new = replace(piece, width=width, depth=depth)
    if "sleeps" in row and family.only > 1:
        new = _for_sleepers(new, row["sleeps"])
    if "diners" in row:
        new = replace(new, clearances=_seats(new, row["diners"]))
    return Size(row["label"], new, row.get("source", ""))


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
    """The clearances wanted, with the person's own values where they gave any."""
    own = {c.name: c for c in piece.clearances if c.overridden}
    return tuple(own.get(c.name, c) for c in wanted)


def _notes(piece: Piece, family: Family, sizes: Sequence[Size], unit: Unit) -> list[str]:
    notes = []
    if family.frame != (0, 0):
        wide, long, least, most = (length(mm, unit) for mm in (*family.frame, *FRAMES))
        notes.append(
            f"the bed is its mattress and a frame: {wide} more in width and {long} in length "
            f"({source('bed-frame-outside').status}; frames add {least} to {most}, a headboard "
            "more)"
        )
    if piece.is_a("bed") and family.only > 1:
        notes.append("a mattress for one is taken as a single bed, got into from one side")
    if piece.is_a("dine"):
        notes.append(
            f"{length(SEAT, unit)} of edge for each diner along the long sides, the rest at the "
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
    return bool(piece.roles & ONE_SIZE) or piece.flat or piece.width < NARROWEST


def _narrower(piece: Piece, unit: Unit) -> tuple[Size, ...]:
    found = []
    for k in range(1, SIZES_DOWN + 1):
        inches = round(piece.width / INCH) - k * FOUR
        width = round(inches * INCH) if unit == "in" else piece.width - k * USUAL_STEP
        found.append(Size("", replace(piece, width=width)))
    return tuple(s for s in found if _wide_enough(s.piece, piece))
