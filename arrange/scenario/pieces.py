"""Reads ``[[piece]]``: what is to be placed, starting from the table of kinds. Lengths in mm.

A piece's own clearances go over those of its kind: ``clearance.front = { least = 80 }``
changes those on that side, or adds one; the key may also be a clearance's name, and
``clearance.front = false`` drops it. What stands beside what is settled in ``ties``.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

from arrange.data import kinds
from arrange.data.kinds import Kind, with_own
from arrange.data.lengths import length, like
from arrange.data.people import sitting_up, suited
from arrange.data.person import Person
from arrange.data.piece import (
    SEATED,
    SHAPES,
    SIDES,
    SITTING,
    SIZES,
    Buy,
    Clearance,
    Hand,
    Piece,
    Shape,
    Side,
    Stands,
)
from arrange.scenario.colours import OF_PIECES
from arrange.scenario.faults import Faults, shown
from arrange.scenario.people import read_whose
from arrange.scenario.table import Table, unbelievable

KEPT_TO: tuple[KeptTo, ...] = ("bare", "usual")
BUY: tuple[Buy, ...] = ("new", "second-hand", "make over")
HANDS: tuple[Hand, ...] = ("left", "right")
HEADED = ("rectangle", "cut corners", "rounded corners")  # a bed so shaped has a head
STANDS: tuple[Stands, ...] = ("wall", "corner", "free", "anywhere", "across")
MOST_COUNT = 24
SHORT = 12  # characters that a label on the plan has room for
SLIP = 0.85  # so like it that nothing else can be meant
ALIKE = 0.75  # of a slip of the pen: less would take a printer for a recliner
UNUSUAL = 'call anything unusual an "other piece", with all its sizes'
JOINING = ("a", "an", "and", "by", "for", "from", "in", "of", "on", "the", "to", "with")


KeptTo = Literal["bare", "usual"]
People = tuple[Person, ...]


@dataclass(frozen=True, slots=True)
class Entry:
    """One ``[[piece]]`` of the file: its pieces, its kind and what it is to stand beside."""

    table: Table
    kind: Kind
    pieces: tuple[Piece, ...]
    beside: str
    free: bool
    stays: bool = False


def read_pieces(top: Table, kept_to: KeptTo, people: People = ()) -> list[Entry]:
    """Every entry that could be read; the others are faults.

    ``kept_to`` says to which values clearances are held unless a piece says otherwise,
    ``people`` who uses the pieces.
    """
    tables = top.tables("piece")
    if top.raw("piece") in (None, []):
        top.fault("piece", "no pieces given", "at least one [[piece]] is needed")
    return [e for e in (_entry(table, kept_to, people) for table in tables) if e is not None]


def _entry(table: Table, kept_to: KeptTo, people: People) -> Entry | None:
    kind = _kind(table)
    if kind is None:
        _other_slips(table, people)
        return None
    return _of_kind(table, kind, kept_to, people)


def _other_slips(table: Table, people: People) -> None:
    """What else is wrong with an entry of no known kind: all that does not hang on the kind."""
    given = {key: value for key, value in table.data.items() if key != "clearance"}
    sizes = dict.fromkeys(("width", "depth", "height"), "1 m")
    filled = Table({**sizes, **given}, table.where, table.faults, table.unit)
    _of_kind(filled, kinds.kind("other piece"), "bare", people)


def _of_kind(table: Table, kind: Kind, kept_to: KeptTo, people: People) -> Entry:
    name = table.text("name", called(str(table.raw("kind")), kind))
    piece = replace(_piece(table, kind, name, kept_to), whose=read_whose(table, people))
    own = [key for key in ("stands", "headroom") if table.has(key)]
    piece = suited(piece, people, own)
    count = table.whole("count", 1, 1, MOST_COUNT)
    free, beside = table.flag("free"), table.text("with")
    if free and beside:
        table.fault("free", "free and with are both given", "a piece is either tied or free")
    piece = _across(table, kind, piece, beside)
    free = free or table.has("stands") or (piece.across_corner and not beside)
    table.has("stands_now")  # read once every piece and wall is known
    for key in OF_PIECES:  # read once every name is known
        table.has(key)
    stays = table.flag("stays")
    table.finish()
    names = [name] if count == 1 else [f"{name} {i}" for i in range(1, count + 1)]
    return Entry(table, kind, tuple(replace(piece, name=n) for n in names), beside, free, stays)


def _across(table: Table, kind: Kind, piece: Piece, beside: str) -> Piece:
    """The piece with what the file says of standing across a corner, or else its kind."""
    own = table.has("across_corner")
    across = table.flag("across_corner") if own else kind.across_corner
    key = "across_corner" if across and own else "stands"
    if not across and piece.stands != "across":
        return piece
    if beside and table.has(key):
        given = f"{piece.name} is to stand across a corner, and with {beside}"
        table.fault(key, given, "it can be only one of the two", f"leave out {key}, or with")
    if piece.shape == "L":
        given = f"{piece.name} is an L, and cannot stand across a corner"
        table.fault(key, given, 'an L stands in the corner itself: stands = "corner"')
        return piece
    return replace(piece, across_corner=across)


def called(word: str, kind: Kind) -> str:
    """What the person calls the kind: "twin bed", where the table has "single bed"."""
    word = " ".join(word.split())
    return kind.name if word.casefold() == kind.name else word


def _kind(table: Table) -> Kind | None:
    word = table.text("kind")
    if not word:
        if not table.has("kind"):
            table.fault("kind", "no kind given", "say what it is, such as wardrobe", UNUSUAL)
        return None
    try:
        return kinds.kind(word)
    except KeyError:
        unknown_kind(table.faults, table.at("kind"), word)
        return None


def unknown_kind(faults: Faults, where: str, word: str) -> None:
    """Note a kind that there is not: a slip in one there is, or somebody's own words for it."""
    known = kinds.names()
    slip = like(word, list(known), 1, cutoff=SLIP)
    meant = () if slip else kinds.kinds_meant(word)[1]
    faults.unknown(where, word, list(known), "the kind of piece", UNUSUAL, meant, ALIKE, known)


def _piece(table: Table, kind: Kind, name: str, kept_to: KeptTo) -> Piece:
    sizes: dict[str, int] = {}
    slips = unbelievable(table, kind, name)
    for key, usual in (("width", kind.width), ("depth", kind.depth), ("height", kind.height)):
        if kind.own_size and not table.has(key):
            table.needed_mm(key)
        sizes[key] = usual if key in slips else table.mm(key, usual, *SIZES)
    shape = table.choice("shape", SHAPES, kind.shape)
    if shape == "round":
        _check_round(table, name, sizes)
    arm = _arm(table, kind, shape, sizes)
    clearances = read_clearances(table, kind)
    if shape == "L" and arm[0] == "right":
        clearances = tuple(_mirrored(c) for c in clearances)
    if table.choice("keep_to", KEPT_TO, kept_to) == "usual":
        clearances = tuple(c.kept_usual for c in clearances)
    _check_skips(table, clearances, sizes["depth"])
    roles = _roles(table, kind)
    headed = "bed" in roles and "seat" not in roles and shape in HEADED
    rims = _rims(table, sizes, headed=headed, known=not slips)
    return Piece(
        name=name,
        kind=kind.name,
        model=name,
        width=sizes["width"],
        depth=sizes["depth"],
        height=sizes["height"],
        bottom=table.mm("bottom", kind.bottom, 0, 5000),
        stands=table.choice("stands", STANDS, kind.stands),
        clearances=clearances,
        roles=roles,
        goes_with=kind.goes_with,
        major=table.flag("major") if table.has("major") else kind.major,
        flat=kind.flat,
        burns=kind.burns,
        headroom=table.mm("headroom", kind.headroom, 0, 3000),
        owned=table.flag("owned"),
        price=_money(table, "price"),
        delivery=_money(table, "delivery"),
        paid=_paid(table),
        buy=table.choice("buy", BUY, "new"),
        short=_short(table, kind, name),
        screen=table.mm("screen", kind.screen, 0, 3000),
        shape=shape,
        corner=_corner(table, kind, shape, sizes),
        arm_side=arm[0],
        arm_width=arm[1],
        back_depth=arm[2],
        assumed=not (table.has("width") and table.has("depth")),
        headboard=rims[0],
        footboard=rims[1],
        rails=rims[2],
    )


def _check_round(table: Table, name: str, sizes: dict[str, int]) -> None:
    """What is round is as wide as it is deep: one of the two is enough."""
    across = [key for key in ("width", "depth") if table.has(key)]
    if len(across) == 1:
        sizes["width"] = sizes["depth"] = sizes[across[0]]
    elif sizes["width"] != sizes["depth"]:
        size = f"{length(sizes['width'], table.unit)} by {length(sizes['depth'], table.unit)}"
        given = f'"{name}" is round and {size}'
        table.fault("shape", given, "what is round is as wide as it is deep", 'shape = "oval"')


def _corner(table: Table, kind: Kind, shape: Shape, sizes: dict[str, int]) -> int:
    """How far its corners are cut or rounded; 0 where they are not."""
    if shape not in ("cut corners", "rounded corners"):
        if table.has("corner"):
            given = f'corner is for shape = "cut corners" or "rounded corners", not "{shape}"'
            table.fault("corner", given, "leave it out")
        return 0
    most = min(sizes["width"], sizes["depth"]) // 2
    if not kind.corner and not table.has("corner"):
        table.needed_mm("corner")
        return most
    corner = table.mm("corner", min(kind.corner, most), 1, SIZES[1])
    if corner > most:
        given = f"{length(corner, table.unit)} of each corner"
        table.fault("corner", given, f"at most half a side, {length(most, table.unit)}")
    return min(corner, most)


def _arm(table: Table, kind: Kind, shape: Shape, sizes: dict[str, int]) -> tuple[Hand, int, int]:
    """On which side the arm of an L is, how wide it is, and how deep the part along the back."""
    side = table.choice("arm_side", HANDS, "left")
    if shape != "L":
        for key in ("arm_side", "arm_width", "back_depth"):
            if table.has(key):
                table.fault(key, f'{key} is for shape = "L", not "{shape}"', "leave it out")
        return "left", 0, 0
    found = []
    for key, usual, whole in (
        ("arm_width", kind.arm_width, "width"),
        ("back_depth", kind.back_depth, "depth"),
    ):
        if not usual and not table.has(key):
            table.needed_mm(key)
        part = table.mm(key, usual or sizes[whole] // 2, 1, SIZES[1])
        if part >= sizes[whole]:
            given = f"{length(part, table.unit)} of {length(sizes[whole], table.unit)} {whole}"
            table.fault(key, given, f"less than the whole {whole} is needed")
        found.append(min(part, sizes[whole] - 1))
    return side, found[0], found[1]


def _rims(
    table: Table, sizes: dict[str, int], *, headed: bool, known: bool
) -> tuple[int, int, int]:
    """How thick the frame of a bed is behind its mattress, before it, and at both sides together.

    Where no headboard is given, the foot is as thick as a side, and the rest is at the head.
    """
    given = [key for key in ("mattress", "headboard") if table.has(key)]
    if not headed:
        for key in given:
            what = "a bed with straight sides and its head at its back"
            table.fault(key, f"{key} is for {what}", "leave it out")
    if not given or not headed or not known:
        return 0, 0, 0
    unit, wide, long = table.unit, sizes["width"], sizes["depth"]
    head = table.mm("headboard", 0, 0, SIZES[1])
    if 2 * head >= long:
        thick = f"a headboard {length(head, unit)} thick on a bed {length(long, unit)} long"
        table.fault("headboard", thick, f"less than {length(long // 2, unit)} is allowed")
        return 0, 0, 0
    if "mattress" not in given:
        return head, 0, 0
    inside = _mattress(table, (wide, long - head), head)
    if inside is None:
        return 0, 0, 0
    rails, rest = wide - inside[0], long - head - inside[1]
    foot = rest if "headboard" in given else min(rails // 2, rest)
    return head + rest - foot, foot, rails


def _mattress(table: Table, room: tuple[int, int], head: int) -> tuple[int, int] | None:
    """Its width and length, in mm, of a bed with ``room`` for it; None if it is none of that."""
    unit, value = table.unit, table.raw("mattress")
    if not isinstance(value, list) or len(value) != 2:
        example = "[width, length], such as [140, 200]" if unit == "cm" else "[width, length]"
        table.fault("mattress", f"{shown(value)} given", f"two lengths are needed: {example}")
        return None
    wide, long = (table.as_mm(v, "mattress", 0, *SIZES) for v in value)
    if not (wide and long):
        return None
    if wide <= room[0] <= 2 * wide and long <= room[1] <= 2 * long:
        return wide, long
    given = f"a mattress of {length(wide, unit)} by {length(long, unit)}"
    behind = f", {length(head, unit)} of headboard left out," if head else ""
    allowed = f"the bed{behind} is {length(room[0], unit)} by {length(room[1], unit)}"
    larger = wide > room[0] or long > room[1]
    turned = long <= room[0] <= 2 * long and wide <= room[1] <= 2 * wide
    hint = "width and depth are those of the whole bed" if larger else "check both measurements"
    table.fault("mattress", given, allowed, "its width comes first" if turned else hint)
    return None


def _mirrored(clearance: Clearance) -> Clearance:
    """The same with left and right exchanged: the table has the arm on the left."""
    other: dict[Side, Side] = {"left": "right", "right": "left"}
    return replace(clearance, sides=tuple(other.get(side, side) for side in clearance.sides))


def _check_skips(table: Table, clearances: tuple[Clearance, ...], depth: int) -> None:
    """A strip that leaves out the head of a bed must leave something of it."""
    beside = [c for c in clearances if not {"left", "right"}.isdisjoint(c.sides)]
    if any(c.skip_start + c.skip_end >= depth for c in beside):
        given = f"only {length(depth, table.unit)} deep"
        table.fault("depth", given, "too short to be reached from the side", "check the length")


def _roles(table: Table, kind: Kind) -> frozenset[str]:
    value = table.raw("used_for")
    if value is None:
        return kind.roles
    known = sorted({role for k in kinds.kinds().values() for role in k.roles})
    words = value if isinstance(value, list) else [value]
    for word in words:
        if word not in known:
            table.faults.unknown(table.at("used_for"), str(word), known, "the use")
    return kind.roles | {w for w in words if w in known}


def _money(table: Table, key: str) -> Decimal | None:
    return table.money(key) if table.has(key) else None


def _paid(table: Table) -> Decimal | None:
    paid = _money(table, "paid")
    if paid is not None and not table.flag("owned"):
        given = "given for a piece that you do not have yet"
        table.fault("paid", given, "what is paid for is yours", "add owned = true, or write price")
    return paid


def _short(table: Table, kind: Kind, name: str) -> str:
    # A label says the person's own word where that is another one than the table's.
    own = name.casefold() in kind.also
    usual = _first_words(name) if own else kind.short or _first_words(name)
    short = table.text("short", usual or kind.short or kind.name)
    if len(short) > SHORT:
        given = f"{short!r} has {len(short)} letters"
        table.fault("short", given, f"at most {SHORT} fit on the plan")
    return short


def _first_words(name: str) -> str:
    """The first whole words of a name that a label has room for, none if even one is too long.

    >>> _first_words("drinks cabinet"), _first_words("chest of drawers"), _first_words("x" * 13)
    ('drinks', 'chest', '')
    """
    if len(name) <= SHORT:
        return name
    words = name[: SHORT + 1].split(" ")[:-1]
    while words and (not words[-1] or words[-1] in JOINING):
        words.pop()
    return " ".join(words)


def sat_on(piece: Piece, people: People = ()) -> Piece:
    """The same with the headroom that who sits on it, or up in it, needs under a slope."""
    if piece.headroom or not piece.roles & {"seat", "bed"}:
        return piece
    need = sitting_up(piece, people)
    in_bed = max(SITTING, need.least) if need else SITTING
    above = SEATED - piece.top if piece.is_a("seat") else in_bed
    return replace(piece, headroom=max(0, above))


def _fits_across(piece: Piece, room: int) -> bool:
    """Whether it could stand at 45 degrees in a square room: its box is square then, too."""
    return piece.crosses and piece.width + piece.depth <= room * math.sqrt(2)


def check_room_for(entries: list[Entry], bounds: tuple[int, int, int, int], ceiling: int) -> None:
    """Note every piece that is bigger than the whole room, in each turn, or taller."""
    room = sorted((bounds[2] - bounds[0], bounds[3] - bounds[1]))
    for entry in entries:
        piece, table = entry.pieces[0], entry.table
        low, high = sorted((piece.width, piece.depth))
        unit = table.unit
        if (low > room[0] or high > room[1]) and not _fits_across(piece, room[0]):
            size = f"{length(piece.width, unit)} by {length(piece.depth, unit)}"
            across = f"{length(room[0], unit)} by {length(room[1], unit)}"
            given = f'"{piece.name}" is {size}'
            table.fault("width", given, f"the whole room is {across}", "check both measurements")
        if piece.top > ceiling:
            given = f'the top of "{piece.name}" is {length(piece.top, unit)} above the floor'
            table.fault("height", given, f"the ceiling is at {length(ceiling, unit)}")


DEEPEST = 5000
DEFAULT_LEAST = 600


def read_clearances(piece: Table, kind: Kind) -> tuple[Clearance, ...]:
    """The kind's clearances with the person's changes, each marked as overridden."""
    value = piece.raw("clearance")
    if value is None:
        return kind.clearances
    table = piece.table(value, piece.at("clearance"))
    if table is None:
        return kind.clearances
    found = list(kind.clearances)
    for key in table.data:
        _change(table, key, found)
    return tuple(found)


def _change(table: Table, key: str, found: list[Clearance]) -> None:
    meant = _meant(key, found)
    value = table.raw(key)
    if not meant and key not in SIDES:
        known = [*SIDES, *(c.name for c in found)]
        table.faults.unknown(table.at(key), key, known, "the clearance")
    elif value is False:
        for clearance in meant:
            found.remove(clearance)
    else:
        inner = table.table(value, table.at(key))
        if inner is None:
            return
        for clearance in meant or [_new(key)]:
            changed = _changed(inner, clearance)
            if clearance in found:
                found[found.index(clearance)] = changed
            else:
                found.append(changed)
        inner.finish()


def _meant(key: str, found: list[Clearance]) -> list[Clearance]:
    """By name, else of that side alone, else of that side among others."""
    return (
        [c for c in found if c.name == key]
        or [c for c in found if c.sides == (key,)]
        or [c for c in found if key in c.sides]
    )


def _new(side: str) -> Clearance:
    sides = tuple(s for s in SIDES if s == side)
    # Nobody but the person asks for it: its depths are theirs, said or not.
    return with_own(
        Clearance(side, sides, DEFAULT_LEAST, DEFAULT_LEAST, "as you asked"),
        DEFAULT_LEAST,
        DEFAULT_LEAST,
    )


def _changed(table: Table, old: Clearance) -> Clearance:
    least = table.mm("least", old.least, 0, DEEPEST)
    comfortable = table.mm("comfortable", max(least, old.comfortable), 0, DEEPEST)
    if comfortable < least:
        given = f"{length(comfortable, table.unit)} is below the least"
        allowed = f"at least {length(least, table.unit)} is needed"
        table.fault("comfortable", given, allowed)
    walk = table.flag("walkway") if table.has("walkway") else old.walk
    # A comfortable depth that rises with the least one is theirs, too.
    own = with_own(
        old,
        least if table.has("least") else None,
        comfortable if table.has("comfortable") or comfortable != old.comfortable else None,
    )
    return replace(own, walk=walk, purpose=table.text("purpose", old.purpose))
