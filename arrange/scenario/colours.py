"""Reads colours and tags: of pieces, ``[[textile]]`` and ``[[paint]]``; and which piece leads.

A colour is "#8a5a33", { lab = [45, 20, 30] } or pointed at in a photo beside the scenario. Photos
are not opened here (see ``photo``): what has no use for colours need not wait for them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from arrange.data.colour import LIGHTEST, WIDEST, Lab, from_hex
from arrange.data.scheme import Of, Photo, Scheme, Swatch
from arrange.errors import can_be_seen
from arrange.scenario.faults import shown
from arrange.scenario.photo import ENDINGS, LARGEST, beside
from arrange.scenario.table import Table

OF_PIECES = ("colour", "picture", "lead", "tags")
MOST_TAGS, LONGEST_TAG = 6, 40
TABLES: tuple[Of, ...] = ("textile", "paint")
WAYS = (
    'write "#8a5a33", { lab = [45, 20, 30] }, { photo = "rug.jpg" }, or '
    '{ photo = "rug.jpg", at = [0.4, 0.6] } to point at a place'
)
AT = "two numbers from 0 to 1: how far from the left, and how far from the top"


def read_scheme(top: Table, pieces: Sequence[tuple[Table, str]]) -> Scheme:
    """All colours of the file; what cannot be read is a fault.

    ``pieces`` are the tables of its pieces, each with what all of one are called by.
    """
    found = [_swatch(table, name, "piece") for table, name in pieces]
    found = [swatch for swatch in found if swatch.coloured or swatch.picture or swatch.tags]
    for of in TABLES:
        for table in top.tables(of):
            found += _of_no_piece(table, of)
    _check_names(top, found)
    return Scheme(tuple(found), _lead(pieces))


def _of_no_piece(table: Table, of: Of) -> list[Swatch]:
    """A textile or a paint: it has a name and a colour."""
    name = table.text("name")
    if not table.has("name"):
        table.fault("name", "no name given", "say what it is, such as curtains")
    if not table.has("colour"):
        table.fault("colour", "no colour given", "it is here for its colour", WAYS)
    swatch = _swatch(table, name, of)
    table.finish()
    return [swatch] if name else []


def _lead(pieces: Sequence[tuple[Table, str]]) -> str:
    """The piece that leads; "" where none does."""
    leads = [(table, name) for table, name in pieces if table.flag("lead")]
    for table, name in leads:
        if not table.has("colour"):
            hint = "give it a colour, as hex, Lab, or in a photo"
            table.fault("lead", f'"{name}" has no colour', "the piece that leads needs one", hint)
    for table, name in leads[1:]:
        table.fault("lead", f'"{leads[0][1]}" and "{name}" both lead', "one piece may lead")
    return leads[0][1] if leads else ""


def _check_names(top: Table, found: Sequence[Swatch]) -> None:
    names = Counter(swatch.name.casefold() for swatch in found)
    for name in (name for name, times in names.items() if times > 1):
        given = f'"{name}" is the name of {names[name]} colours'
        top.faults.add("name", given, "each name can be used only once", "give each one of its own")


def _swatch(table: Table, name: str, of: Of) -> Swatch:
    lab, photo = _colour(table)
    picture = _file(table, "picture") if table.has("picture") else ""
    return Swatch(name, of, lab, photo, picture, _tags(table))


def _tags(table: Table) -> tuple[str, ...]:
    """What is said of how something feels, as words are compared."""
    value = table.raw("tags")
    words = [] if value is None else value if isinstance(value, list) else [value]
    for word in words:
        if not _is_tag(word):
            allowed = f"words are needed, of up to {LONGEST_TAG} letters"
            table.fault("tags", f"{shown(word)} given", allowed, 'such as ["calm", "wood"]')
            return ()
    if len(words) > MOST_TAGS:
        table.fault("tags", f"{len(words)} words given", f"at most {MOST_TAGS} are used")
    return tuple(dict.fromkeys(" ".join(str(word).split()).casefold() for word in words))


def _is_tag(word: object) -> bool:
    seen = isinstance(word, str) and word.strip() and can_be_seen(word)
    return bool(seen) and len(str(word)) <= LONGEST_TAG


def _colour(table: Table) -> tuple[Lab | None, Photo | None]:
    """What a colour is given as: Lab, or a photo; neither, with a fault, if it is none."""
    value = table.raw("colour")
    if isinstance(value, str):
        try:
            return from_hex(value), None
        except ValueError:
            table.fault("colour", f"{shown(value)} given", WAYS)
        return None, None
    if value is None:
        return None, None
    inner = table.table(value, table.at("colour"))
    if inner is None:
        return None, None
    if inner.has("lab") == inner.has("photo"):
        table.fault("colour", f"{shown(value)} given", WAYS)
        return None, None
    photo = None
    lab = _lab(inner) if inner.has("lab") else None
    if inner.has("photo"):
        photo = Photo(_file(inner, "photo"), _at(inner) if inner.has("at") else None)
    inner.finish()
    return lab, photo


def _lab(table: Table) -> Lab | None:
    limits = ((0.0, LIGHTEST), (-WIDEST, WIDEST), (-WIDEST, WIDEST))
    found = _numbers(table.raw("lab"), limits)
    if found is None:
        allowed = f"L from 0 to {LIGHTEST:g}, a and b from -{WIDEST:g} to {WIDEST:g} are needed"
        table.fault("lab", f"{shown(table.raw('lab'))} given", allowed, "such as [45, 20, 30]")
        return None
    return found[0], found[1], found[2]


def _at(table: Table) -> tuple[float, float] | None:
    found = _numbers(table.raw("at"), ((0.0, 1.0), (0.0, 1.0)))
    if found is None:
        table.fault("at", f"{shown(table.raw('at'))} given", AT, "such as [0.5, 0.5], the middle")
        return None
    return found[0], found[1]


def _numbers(value: object, limits: Sequence[tuple[float, float]]) -> list[float] | None:
    """As many numbers as there are limits, each within its own; None if it is anything else."""
    if not isinstance(value, list) or len(value) != len(limits):
        return None
    found = []
    for one, (low, high) in zip(value, limits, strict=True):
        real = isinstance(one, int | float) and not isinstance(one, bool)
        if not real or not low <= one <= high:
            return None
        found.append(float(one))
    return found


def _file(table: Table, key: str) -> str:
    """The photo named, which lies beside the scenario; "", with a fault, if there is none."""
    name = table.text(key)
    path = beside(table.faults.file, name)
    if path is None:
        allowed = f"the name of a photo ({', '.join(ENDINGS)}) beside the scenario is needed"
        table.fault(key, f"{shown(table.raw(key))} given", allowed)
        return ""
    try:
        size = path.stat().st_size if path.is_file() else None
    except (OSError, ValueError):
        size = None
    if size is None:
        allowed = "a photo beside the scenario is needed"
        table.fault(key, f"{name}: not found", allowed, "check its name")
    elif size > LARGEST:
        given = f"{name}: {size // 10**6} MB"
        table.fault(key, given, f"at most {LARGEST // 10**6} MB are read", "save it smaller")
    return str(path)
