"""The next smaller sizes of a piece. Lengths in mm."""

from __future__ import annotations

from dataclasses import replace

from arrange.data.change import Change, Exchange, Resize
from arrange.data.ladder import Size
from arrange.data.piece import Piece
from arrange.data.scenario import Unit
from arrange.scenario.sizes import NoSizesError, standard_sizes, usual_region

INCH, FOUR = 25.4, 4
USUAL_STEP = 100
LEAST_LESS = 50
NARROWEST = 600  # pieces narrower than this come in one size
MOST = 2
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
    return tuple(found[:MOST]) or (() if _one_size(piece) else _narrower(piece, unit))


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
    for k in range(1, MOST + 1):
        inches = round(piece.width / INCH) - k * FOUR
        width = round(inches * INCH) if unit == "in" else piece.width - k * USUAL_STEP
        found.append(Size("", replace(piece, width=width)))
    return tuple(s for s in found if _wide_enough(s.piece, piece))
