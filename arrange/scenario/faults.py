"""Collects every fault of a file, so that the person hears of all of them at once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import cast

from arrange.data.lengths import like, listed, nearest
from arrange.errors import MOST_TOLD, Fault, ScenarioError

ENTRY = re.compile(r"(piece|door|window|fixture)\[(\d+)\]")
WHOLE = ("piece", "door", "window", "fixture")
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
            allowed = f"the nearest of {count} known: {', '.join([*near.values()][:MOST_HINTS])}"
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
    what is on them, where the walls make no room yet (``no_walls``): as good as known.
    """

    words: tuple[str, ...] = ()
    unsure: bool = False
    names: tuple[str, ...] = ()
    no_walls: bool = False

    def excuses(self, word: str) -> bool:
        """Whether ``word`` may be unknown only because of a fault already noted."""
        part = SIDES.sub("", word.casefold())  # a chimney breast has sides, and parts a wall
        named = {word.casefold(), part} & {name.casefold() for name in self.names}
        wall = self.no_walls and LETTER.fullmatch(part)
        return bool(self.unsure or named or wall) or nearest(word, self.words) is not None


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
        unsure |= not all(isinstance(g, str) and g.isprintable() for g in given)
        unsure |= fault.where.endswith(".count")
        words += [found[1], *(str(g) for g in given)]
    no_walls = any(fault.where.startswith("room") for fault in faults.found)
    return Broken(tuple(words), unsure, _written(data) if no_walls else (), no_walls)


def _written(data: Mapping[str, object]) -> tuple[str, ...]:
    """Every name in the file of a wall, or of what stands or opens on one."""
    room = data.get("room")
    given = room.get("wall") if isinstance(room, Mapping) else None
    names = [str(row["name"]) for row in _rows(given) if "name" in row]
    for sort in ("door", "window", "fixture"):
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
