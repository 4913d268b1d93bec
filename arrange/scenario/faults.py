"""Collects every fault of a file, so that the person hears of all of them at once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import cast

from arrange.data.lengths import like, listed, nearest
from arrange.errors import MOST_TOLD, Fault, ScenarioError, can_be_seen
from arrange.scenario.outline import letter

ENTRY = re.compile(r"(piece|door|window|fixture)\[(\d+)\]")
WHOLE = ("piece", "door", "window", "fixture")
ON_WALLS = ("door", "window", "fixture")
BREAST = "chimney breast"
LEAST_WALLS = 3
LETTER = re.compile(r"[a-z]\d?")  # of a wall without a name
SIDES = re.compile(r" (left|right)( side)?$")
LONGEST_SHOWN = 60  # letters of what was given; the rest helps nobody
MOST_HINTS = 3
MANY = 12  # longer lists of allowed words are cut to keep the message readable


class Faults:
    """The faults found so far in ``file``."""

    def __init__(self, file: str) -> None:
        self.file = file
        self._found: dict[Fault, None] = {}  # in the order of finding

    @property
    def found(self) -> list[Fault]:
        """Every fault so far."""
        return list(self._found)

    def __len__(self) -> int:
        return len(self._found)

    def add(self, where: str, given: str, allowed: str, hint: str = "") -> None:
        """Note one fault; the same one twice counts once."""
        self._found[Fault(where, given, allowed, hint)] = None

    def unknown(
        self,
        where: str,
        word: str,
        known: Sequence[str],
        what: str,
        otherwise: str = "",
        meant: Sequence[str] = (),
        cutoff: float = 0.6,
        same: Mapping[str, str] | None = None,
    ) -> None:
        """Note a word that is not among ``known``, with the nearest one that is.

        ``otherwise`` is what to try where none of them is like it. Where it is known what the
        word may mean, ``meant`` is asked instead. Faults that will only be counted are spared
        the search for words like it. ``cutoff`` says how like it they must be, 1 being the same.
        ``same`` says what each known word stands for, so that nothing is told twice.
        """
        if len(self) >= MOST_TOLD:
            self.add(where, f"{what} {shown(word)} is not known", "", otherwise)
            return
        hinted = (meant or like(word, known, 1, cutoff=cutoff))[:MOST_HINTS]
        words = list(dict.fromkeys(known))
        many = len(words) > MANY
        ask = listed([repr(one) for one in hinted], "or")
        hint = f"did you mean {ask}?" if ask else otherwise
        allowed = f"known: {', '.join(words[:MANY])}{', ...' if many else ''}"
        if not known:
            allowed = "there is none in this file"
        elif hinted and many:
            stands = same or {}
            near: dict[str, str] = {}
            for one in like(word, known, MANY, cutoff=0.35):
                near.setdefault(stands.get(one, one), one)
            count = len({stands.get(one, one) for one in words})
            allowed = f"the nearest of {count}: {', '.join([*near.values()][:MOST_HINTS])}"
        self.add(where, f"{what} {shown(word)} is not known", allowed, hint)

    def stop(self) -> None:
        """Raise ScenarioError if anything was found."""
        if self._found:
            raise ScenarioError(self.file, tuple(self._found))


@dataclass(frozen=True, slots=True)
class Broken:
    """What could not be read: a word that may mean it is not at fault.

    ``words`` are the names and kinds of the entries with faults; ``unsure`` says
    that some of those names are themselves unreadable. ``names`` are those of walls and
    what is on them, where the walls make no room yet (``no_walls``): as good as known. Of
    these ``walls`` are the walls, none where the file does not say how many there are.
    """

    words: tuple[str, ...] = ()
    unsure: bool = False
    names: tuple[str, ...] = ()
    no_walls: bool = False
    walls: tuple[str, ...] = ()

    def excuses(self, word: str) -> bool:
        """Whether ``word`` may be unknown only because of a fault already noted."""
        part = SIDES.sub("", word.casefold())  # a chimney breast has sides, and parts a wall
        named = {word.casefold(), part} & {name.casefold() for name in self.names}
        wall = self.no_walls and not self.walls and LETTER.fullmatch(part)
        return bool(self.unsure or named or wall) or nearest(word, self.words) is not None

    def check_walls(self, faults: Faults, data: Mapping[str, object]) -> None:
        """Note what is on a wall that is not written, where the walls make no room yet."""
        known = {name.casefold() for name in self.walls}
        rows = [(s, i, row) for s in ON_WALLS for i, row in enumerate(_rows(data.get(s)), 1)]
        for sort, number, row in rows if known else ():
            word = row.get("wall")
            plain = " ".join(word.split()).casefold() if isinstance(word, str) else ""
            if plain and known.isdisjoint({plain, SIDES.sub("", plain)}):
                faults.unknown(f"{sort}[{number}].wall", str(word), self.walls, "the wall")


def broken(faults: Faults, data: Mapping[str, object]) -> Broken:
    """The entries of ``data`` that the faults so far are about."""
    words: list[str] = []
    unsure = False
    for fault in faults.found:
        unsure |= fault.where in WHOLE
        found = ENTRY.match(fault.where)
        if found is None:
            continue
        row = cast("list[object]", data[found[1]])[int(found[2]) - 1]
        known = row if isinstance(row, Mapping) else {}
        given = [known[key] for key in ("name", "kind") if key in known]
        # A door without a name is called a door; a piece is called what it is.
        unsure |= found[1] in ("piece", "fixture") and not given
        unsure |= not all(isinstance(g, str) and can_be_seen(g) for g in given)
        unsure |= fault.where.endswith(".count")
        words += [found[1], *(str(g) for g in given)]
    no_walls = any(fault.where.startswith("room") for fault in faults.found)
    if not no_walls:
        return Broken(tuple(words), unsure)
    walls = _walls_written(data)
    names = tuple(dict.fromkeys([*walls, *_written(data)]))
    return Broken(tuple(words), unsure, names, no_walls, walls)


def _walls_written(data: Mapping[str, object]) -> tuple[str, ...]:
    """What the walls of a file are called; none where it does not say how many there are."""
    room = data.get("room")
    if not isinstance(room, Mapping):
        return ()
    rows, corners = _rows(room.get("wall")), room.get("corners")
    counts = [4] if "size" in room else []
    counts += [len(rows) + 1] if rows else []  # the last one may be left out
    counts += [len(corners)] if isinstance(corners, list) else []
    if len(counts) != 1 or counts[0] < LEAST_WALLS:
        return ()
    given = [str(row.get("name", letter(i))) for i, row in enumerate(rows)]
    given += [letter(i) for i in range(len(given), counts[0])]
    given += [str(row.get("name", "bay")) for row in _rows(room.get("bay"))]
    kinds = [(row, str(row.get("kind")).strip().casefold()) for row in _rows(data.get("fixture"))]
    given += [str(row.get("name", BREAST)) for row, kind in kinds if kind == BREAST]
    return tuple(given)


def _written(data: Mapping[str, object]) -> tuple[str, ...]:
    """Every name in the file of what stands or opens on a wall."""
    names: list[str] = []
    for sort in ON_WALLS:
        rows = _rows(data.get(sort))
        names += [str(row.get("name", row.get("kind", sort))) for row in rows]
        if len(rows) > 1:
            called = {str(row.get("kind", sort)) for row in rows if "name" not in row}
            names += [f"{word} {i}" for word in sorted(called) for i in range(1, len(rows) + 1)]
    return tuple(dict.fromkeys(names))


def _rows(value: object) -> list[Mapping[str, object]]:
    """The tables of an array of tables; what is none is left out."""
    return [row for row in value if isinstance(row, Mapping)] if isinstance(value, list) else []


def shown(value: object) -> str:
    """What the person gave, shortened where it would fill the screen."""
    try:
        text = repr(value)
    except ValueError:  # too many digits for Python to write out
        return "a huge number"
    return text if len(text) <= LONGEST_SHOWN else f"{text[: LONGEST_SHOWN - 3]}..."


def quoted(words: Iterable[str], last: str = "or") -> str:
    """Words in quotation marks, as a sentence lists them."""
    return listed([f'"{w}"' for w in words], last)
