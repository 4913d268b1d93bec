"""The table of household pieces: usual sizes, clearances and what stands beside what.

The table is data, in ``kinds.toml``; this module gives it types. Lengths in mm.
"""

from __future__ import annotations

import math
import tomllib
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from arrange.data.piece import (
    SEATED,
    SIZES,
    STANDING,
    Clearance,
    Piece,
    Shape,
    Slot,
    Stands,
    Status,
)
from arrange.data.sources import COMMON_PRACTICE, YOURS, source

TABLE = Path(__file__).with_name("kinds.toml")
# Nobody has to stand up straight beside these, nor before what is so low, in mm: common practice.
SAT_AT = {"seat", "desk", "dine", "bed"}
LOW = 1000
SURE: tuple[Status, ...] = ("yours", "verified", "computed", "memory", "common practice")

OTHER = "other piece"
# Words that could mean several kinds, the likeliest first.
SEVERAL: dict[str, tuple[str, ...]] = {
    "bed": ("single bed", "double bed", "queen bed", "king bed", "bunk bed", "loft bed", "daybed"),
    "chair": ("dining chair", "armchair", "desk chair", "reading chair", "rocking chair", "stool"),
    "table": ("dining table for four", "coffee table", "side table", "desk", "console table"),
    "cupboard": ("wardrobe", "display cabinet", "sideboard", "shoe cabinet"),
    "cabinet": ("display cabinet", "filing cabinet", "sideboard", "shoe cabinet"),
    "shelf": ("bookcase", "low bookcase", "wall shelf"),
    "shelving": ("bookcase", "low bookcase", "wall shelf"),
    "storage": ("chest of drawers", "sideboard", "wardrobe", "storage trunk"),
    "chest": ("chest of drawers", "storage trunk", "toy chest"),
    "dining table": (
        "dining table for four",
        "dining table for two",
        "dining table for six",
        "dining table for eight",
    ),
    "mat": ("rug", "play mat", "exercise mat"),
    "seat": ("armchair", "stool", "hall bench"),
    "bench": ("hall bench", "dining bench", "bed bench"),
    "bureau": ("chest of drawers", "desk"),
    "chaise longue": ("daybed", "reading chair"),
    "chaise": ("daybed", "reading chair"),
    "clothes rail": ("coat rack", "wardrobe"),
    "clothes rack": ("coat rack", "wardrobe"),
    "stand": ("side table", "coat rack", "tv unit"),
    "basket": ("laundry basket", "toy chest"),
}


@dataclass(frozen=True, slots=True)
class Place:
    """A slot as the table has it; ``centred`` says that the gap follows from both depths."""

    slot: Slot
    centred: bool = False

    def beside(self, anchor: Piece, piece: Piece) -> Slot:
        """The slot for two pieces of known size."""
        if not self.centred:
            return self.slot
        gap = (anchor.depth - piece.depth) // 2
        return replace(self.slot, gap=gap, centred=True)


@dataclass(frozen=True, slots=True)
class Tie:
    """Kinds that a piece stands beside, at most ``most`` of its kind each, and the places."""

    to: tuple[str, ...]
    most: int
    places: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class Kind:
    """A household piece as usually sold. Lengths in mm.

    ``also`` are other names for it. ``varies`` says that any size is usual (a
    rug), ``own_size`` that there is no usual size and the person gives it,
    ``burns`` that it can burn: wood, paper, textile and plants do.
    """

    name: str
    width: int
    depth: int
    height: int
    short: str
    also: tuple[str, ...] = ()
    bottom: int = 0
    stands: Stands = "wall"
    clearances: tuple[Clearance, ...] = ()
    ties: tuple[Tie, ...] = ()
    roles: frozenset[str] = frozenset()
    goes_with: tuple[str, ...] = ()
    major: bool = False
    flat: bool = False
    burns: bool = True
    headroom: int = 0
    screen: int = 0
    varies: bool = False
    own_size: bool = False
    shape: Shape = "rectangle"
    corner: int = 0
    arm_width: int = 0
    back_depth: int = 0
    across_corner: bool = False


# A size this many times off the usual one is a slip; rugs and shelves really vary.
ABSURD = 5.0
ABSURD_VARIES = 25.0
# As large as any of a kind is sensibly asked for, in times its usual size: nobody looks for
# a desk of 4 m. Cupboards and shelves come in long runs. Our own figures, common practice.
LARGEST = 2.0
LARGEST_STORE = 3.0


def believable(name: str, side: str) -> tuple[int, int]:
    """The least and the greatest ``width``, ``depth`` or ``height`` a file may give, in mm.

    ``SIZES`` where the kind called ``name`` has no usual size, or there is no such kind.
    """
    known = kinds().get(name)
    if known is None or known.own_size or (known.flat and side == "height"):
        return SIZES
    usual: int = getattr(known, side)
    limit = ABSURD_VARIES if known.varies else ABSURD
    return max(SIZES[0], math.ceil(usual / limit)), min(SIZES[1], int(usual * limit))


def sensible(name: str, side: str) -> int:
    """The greatest that is worth trying, in mm; as ``believable`` where any size is usual."""
    most = believable(name, side)[1]
    known = kinds().get(name)
    if known is None or known.own_size or known.varies or known.flat:
        return most
    usual: int = getattr(known, side)
    times = LARGEST_STORE if "store" in known.roles and side == "width" else LARGEST
    return min(most, int(usual * times))


@cache
def kinds() -> dict[str, Kind]:
    """Every kind by name, in the order of the table."""
    rows = tomllib.loads(TABLE.read_text(encoding="utf-8"))["kind"]
    return {row["name"]: _kind(row) for row in rows}


@cache
def names() -> dict[str, str]:
    """Every name a kind goes by to its own; first the own names, then the others."""
    own = {kind.name: kind.name for kind in kinds().values()}
    others = {other: kind.name for kind in kinds().values() for other in kind.also}
    return own | others | own


def kinds_meant(words: str) -> tuple[str, tuple[str, ...]]:
    """What somebody's own words mean: the words in the singular, and the kinds they may be.

    The longest end of the words that is known decides; no kinds where none is.

    >>> kinds_meant("old computer desks"), kinds_meant("mat")[1]
    (('old computer desk', ('desk',)), ('rug', 'play mat', 'exercise mat'))
    """
    spaced = words.replace("-", " ")
    for one in dict.fromkeys((words, *_singulars(words), spaced, *_singulars(spaced))):
        if found := _at_the_end(one):
            return one, found
    return words, ()


def _at_the_end(words: str) -> tuple[str, ...]:
    """The kinds of the longest end of the words that is known: "old oak desk", "desk"."""
    parts = words.casefold().split()
    for start in range(len(parts)):
        end = " ".join(parts[start:])
        if end in SEVERAL and (start or end not in kinds()):
            return SEVERAL[end]
        if end in names() and end != OTHER:
            return (names()[end],)
    return ()


def _singulars(words: str) -> list[str]:
    """What the words may be of one: "shelves" is in the table, "boxes" is not."""
    found = []
    for many, one in (("ves", "f"), ("ies", "y"), ("es", ""), ("s", "")):
        if words.casefold().endswith(many):
            found.append(words[: -len(many)] + one)
    first, _, rest = words.partition(" ")  # "chests of drawers"
    if first.casefold().endswith("s") and rest.casefold().startswith(("of ", "for ")):
        found.append(f"{first[:-1]} {rest}")
    return found[::-1]


def kind(name: str) -> Kind:
    """The kind called ``name``, also by one of its other names; KeyError if there is none."""
    return kinds()[names()[name.strip().casefold()]]


def _kind(row: dict[str, Any]) -> Kind:
    roles = frozenset(row.pop("roles"))
    low = row["height"] + row.get("bottom", 0) <= LOW or roles & SAT_AT
    used = SEATED if low and "bunk" not in roles else STANDING
    clearances = tuple(_clearance({"headroom": used, **c}) for c in row.pop("clearances", ()))
    ties = tuple(_tie(t) for t in row.pop("ties", ()))
    also, goes_with = tuple(row.pop("also", ())), tuple(row.pop("goes_with", ()))
    return Kind(
        clearances=clearances, ties=ties, roles=roles, also=also, goes_with=goes_with, **row
    )


def _clearance(row: dict[str, Any]) -> Clearance:
    sides = tuple(row.pop("sides"))
    usual_source = row.pop("source", "")
    status = weaker(usual_source, row.get("comfortable_source") or usual_source)
    return Clearance(
        sides=sides, least=row.pop("bare"), usual_source=usual_source, status=status, **row
    )


def weaker(*ids: str) -> Status:
    """The status of the source that says least."""
    return max((source(i).status for i in ids), key=SURE.index)


def with_own(
    clearance: Clearance, least: int | None = None, comfortable: int | None = None
) -> Clearance:
    """The clearance with the person's own depths in mm; None leaves one with its source.

    What the person takes as the least is what is usual to them.

    >>> desk = with_own(kind("desk").clearances[0], least=600)
    >>> desk.source, desk.comfortable_source == kind("desk").clearances[0].comfortable_source
    ('yours', True)
    """
    first = clearance.usual_source if least is None else YOURS.id
    named = clearance.comfortable_source or clearance.usual_source or COMMON_PRACTICE.id
    second = named if comfortable is None else YOURS.id
    return replace(
        clearance,
        least=clearance.least if least is None else least,
        usual=clearance.usual if least is None else least,
        comfortable=clearance.comfortable if comfortable is None else comfortable,
        source=clearance.source if least is None else YOURS.id,
        usual_source=first,
        comfortable_source=second,
        status=weaker(first, second),
        overridden=True,
    )


def _tie(row: dict[str, Any]) -> Tie:
    places = tuple(
        Place(Slot(**(slot | {"gap": 0})), centred=True)
        if slot.get("gap") == "centred"
        else Place(Slot(**slot))
        for slot in row["slots"]
    )
    return Tie(tuple(row["to"]), row["most"], places)
