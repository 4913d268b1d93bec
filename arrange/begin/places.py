"""Which wall something is on, and where on it: as people say it, to a name and whole mm."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from arrange.begin.answers import Question, a_length, a_text, handy, length_of, one_of, spoken
from arrange.begin.notes import Notes
from arrange.begin.spelt import in_digits
from arrange.data.lengths import listed, measured, the
from arrange.data.room import FACINGS, Door, Fixture, Window
from arrange.data.scenario import Unit

SHORT = 2  # letters of a wall that nobody has named
FOUR = 4
FIRST = "A"  # the wall with the main window, before windows are asked for
# Where the walls of a plan are, by which way they look.
SIDES = dict(zip(FACINGS, ("top", "right", "bottom", "left"), strict=True))
BEHIND = {"back": "bottom", "behind me": "bottom", "in front of me": "top"}

OPPOSITE = re.compile(r"(?:the (?:one|wall) )?(?:opposite|across from|facing)(?: from| to)? (.+)")
AT_IT = re.compile(
    r"(?:the )?(?:same(?: wall)?(?: as)?|one with|wall with|under|underneath|below|above|over"
    r"|beside|next to|by|with)(?: the)? (.+)"
)


def sided(notes: Notes) -> dict[str, str]:
    """Other words for walls: "top" in a plain room, "window wall" where one has all windows.

    Before the windows are asked for, the window wall is the first: so the walls were begun.
    """
    room = notes.look().room
    if room is None:
        return {}
    words: dict[str, str] = {}
    walls = notes.look().walls
    taped = list(walls.measured.values()) if walls else []
    if len(taped) == FOUR:
        words |= {SIDES[wall.facing]: wall.name for wall in taped if wall.facing}
        words |= {said: words[side] for said, side in BEHIND.items() if side in words}
    for sort, openings in (("window", room.windows), ("door", room.doors)):
        there = {opening.wall for opening in openings}
        if len(there) == 1:
            wall = room.walls[there.pop()]
            words[f"wall with the {sort}"] = words[sort] = wall.part_of or wall.name
    if not room.windows and FIRST in notes.look().wall_names:
        words["wall with the window"] = words["window"] = FIRST
    said = {f"{word} wall": wall for word, wall in words.items()} | words
    return said | {f"the {word}": wall for word, wall in said.items()}


def which_wall(notes: Notes, text: str) -> Question[str]:
    """One of the walls: by its letter or name, or by what is on it or opposite it."""
    names = list(notes.look().wall_names)
    also = sided(notes)
    plain = one_of(text, names, also=also, what="a wall of this room")

    def read(words: str) -> str:
        word = words.casefold().strip(". ")
        if (found := OPPOSITE.fullmatch(word)) and (other := wall_opposite(notes, found[1])):
            return other
        if (found := AT_IT.fullmatch(word)) and (wall := _wall_of(notes, found[1])):
            return wall
        return plain.read(re.sub(r"^(?:(?:it|that) is |it's )?(?:(?:in|on|at|to) )", "", words))

    return Question(text, read, plain.example)


Fixed = Door | Window | Fixture


def fixed(notes: Notes) -> dict[str, Fixed]:
    """What the room holds so far, by what people call it.

    That is its name, and its sort and the last word of both where only it has them.
    """
    room = notes.look().room
    if room is None:
        return {}
    sorts: list[tuple[Fixed, str]] = [(door, "door") for door in room.doors]
    sorts += [(window, "window") for window in room.windows]
    sorts += [(one, one.kind) for one in room.fixtures]
    known = {one.name.casefold(): one for one, _ in sorts}
    for ending in (str, _last):
        words = [(ending(word), one) for one, sort in sorts for word in (sort, one.name.casefold())]
        for word, one in words:
            if {id(other) for said, other in words if said == word} == {id(one)}:
                known.setdefault(word, one)
    return known


def _last(name: str) -> str:
    """The last word of a name: people say "cupboard" for the built-in cupboard."""
    return name.rsplit(maxsplit=1)[-1]


def _called(words: str, known: Mapping[str, Fixed]) -> Fixed | None:
    for said in (words, words.removeprefix("the "), words.removeprefix("my ")):
        if said in known:
            return known[said]
    return None


def _wall_of(notes: Notes, words: str) -> str:
    """The wall, as it was measured, that something is on; "" if that is not known."""
    one, room = _called(words, fixed(notes)), notes.look().room
    if one is None or room is None or one.wall is None:
        return ""
    wall = room.walls[one.wall]
    return wall.part_of or wall.name


def wall_opposite(notes: Notes, words: str) -> str:
    """The wall opposite what is named, in a room of four; "" if that cannot be said."""
    names, bare = _measured(notes), words.removeprefix("the ").removeprefix("wall ")
    bays = {row.get("name", "bay"): row["wall"] for row in notes.tables["room"].get("bay", ())}
    walls = {name.casefold(): name for name in names}
    wall = sided(notes).get(words) or bays.get(bare) or walls.get(bare) or _wall_of(notes, words)
    if len(names) != FOUR or wall not in names:
        return ""
    return names[(names.index(wall) + 2) % FOUR]


def _measured(notes: Notes) -> list[str]:
    """The walls as the tape went along them, clockwise."""
    walls = notes.look().walls
    return list(walls.measured) if walls else []


def long_of(notes: Notes, wall: str) -> int:
    """The length of a wall in mm; 0 for one that is not there."""
    walls = notes.look().walls
    found = walls.find(wall) if walls else None
    return round(found.length) if found else 0


SIDE = r"(?P<side>left|right)(?:[- ]?hand)?"
END = r"(?: end| corner| side| edge)?(?: of (?:it|the wall|that wall|wall \w+))?"
AT_END = re.compile(
    rf"(?:(?:right|hard|all the way|far|directly) )?(?:(?:in|at|on|to|into|by|against) )?(?:the )?"
    rf"(?:(?:very|far|top|bottom) )?{SIDE}{END}"
)
FROM_END = re.compile(rf"(?P<far>.+?)(?: away)?,? (?:from|off|to) (?:the )?(?:far )?{SIDE}{END}")
CENTRE = r"(?:middle|cent(?:er|re)|(?:half ?way)(?: along)?)"
MIDDLE = re.compile(
    rf"(?:(?:right|just|exactly|about|in|at|dead) )*(?:the )?(?:{CENTRE}|cent(?:ered|red))"
    r"(?: of (?:it|the wall|that wall|wall \w+))?"
)
WHOLE = re.compile(r"(?:all along|wall to wall|the whole (?:wall|width|length))(?: it| of it)?")
UNDER = re.compile(
    r"(?:(?:right|just|directly|centred|centered|straight|in the middle) )*"
    r"(?:under(?:neath)?|below|beneath|above|over|on|in front of) (?:the )?(?P<what>.+)"
)
ASIDE = re.compile(
    r"(?:(?P<far>.*\d.*?) )?(?:just )?(?:to the |on the )?(?P<side>left|right) of (?:the )?"
    r"(?P<what>.+)"
)
FROM_WALL = re.compile(
    r"(?:(?P<far>.*\d.*?)(?: away)? from|(?:right )?(?:against|next to|beside"
    r"|in the corner (?:with|at|of|to|by))) (?:the corner (?:with|at|of|to) )?(?P<what>.+)"
)


def from_left(notes: Notes, wall: str, width: int, what: str) -> Question[int]:
    """How far from the left end of a wall something of this width begins."""
    unit, flat = notes.unit, _flat(notes, wall)
    ends = [(start, end - width) for start, end in flat if end - start >= width]
    long = long_of(notes, wall)
    if not ends:
        ends = [(0, max(0, long - width))]

    def read(words: str) -> int:
        word = in_digits(words.casefold().strip(". "))
        word = re.sub(r"^(?:it is|it's|they are) ", "", word)
        found = _said_edge(notes, wall, word, width, (ends[0][0], ends[-1][1]))
        if found is None:
            found = length_of(words, unit, 0, long)
        if any(start <= found <= end for start, end in ends):
            return found
        where = listed([_between(start, end, unit) for start, end in ends], "or")
        raise ValueError(
            f"{what.capitalize()} {spoken(width, unit)} wide and {called(wall)} "
            f"{measured(long, unit)} long, so its left edge can be {where}."
        )

    far, only = spoken(handy(300, unit), unit), ends[0][0] if ends == [ends[0][:1] * 2] else None
    return Question(
        f"How far is its left edge from the left end of {called(wall)}, as you face that wall?",
        read,
        f'{a_length("", unit).example} "middle", "left", "right", "{far} from the right" and '
        '"under the window" will do as well.',
        usual=None if only is None else spoken(only, unit),
        otherwise=only,
        said=lambda found: f"{spoken(found, unit)}.",
    )


def _said_edge(notes: Notes, wall: str, word: str, width: int, ends: tuple[int, int]) -> int | None:
    """The left edge where it is said by an end, the middle or a neighbour; None if it is not."""
    unit, long = notes.unit, long_of(notes, wall)
    if word in ("corner", "in the corner", "in a corner"):
        raise ValueError('In which corner? Write "left" or "right", as you face that wall.')
    if found := AT_END.fullmatch(word):
        return ends[0] if found["side"] == "left" else ends[1]
    if MIDDLE.fullmatch(word):
        return handy((long - width) // 20 * 10, unit)
    if WHOLE.fullmatch(word):
        return ends[0]
    if found := FROM_END.fullmatch(word):
        far = length_of(found["far"], unit, 0, long)
        return far if found["side"] == "left" else long - far - width
    return _beside(notes, wall, word, width)


def _beside(notes: Notes, wall: str, word: str, width: int) -> int | None:
    """The left edge where it is said by something else on that wall, or by the next wall."""
    unit, long, known = notes.unit, long_of(notes, wall), fixed(notes)
    if found := ASIDE.fullmatch(word):
        there = _span(notes, wall, _called(found["what"], known))
        far = length_of(found["far"], unit, 0, long) if found["far"] else 0
        if there is None:
            return None
        return there[0] - far - width if found["side"] == "left" else there[1] + far
    if found := UNDER.fullmatch(word):
        there = _span(notes, wall, _called(found["what"], known))
        return None if there is None else (sum(there) - width) // 2
    if found := FROM_WALL.fullmatch(word):
        one = _called(found["what"], known)
        if _span(notes, wall, one) is not None and one is not None:
            name, shown = the(one.name), spoken(handy(300, unit), unit)
            raise ValueError(f'On which side of it? Write "{shown} left of {name}", for example.')
        far = length_of(found["far"], unit, 0, long) if found["far"] else 0
        return _from_next(notes, wall, found["what"], far, long - far - width)
    return None


def _span(notes: Notes, wall: str, one: Fixed | None) -> tuple[int, int] | None:
    """From where to where something is on a wall, from its left end; None if it is elsewhere."""
    walls, room = notes.look().walls, notes.look().room
    whole = walls.find(wall) if walls else None
    if one is None or room is None or whole is None or one.wall is None:
        return None
    part = room.walls[one.wall]
    if wall not in (part.name, part.part_of):
        return None
    start = round(whole.coordinate(*part.point(one.offset)))
    return start, start + one.width


def _from_next(notes: Notes, wall: str, words: str, left: int, right: int) -> int | None:
    """``left`` where the wall named is the one at its left end, ``right`` where at its right."""
    names, walls = _measured(notes), notes.look().walls
    if walls is None or wall not in names:
        return None
    said = words.removeprefix("the ").removeprefix("wall ").removesuffix(" wall")
    side, at = BEHIND.get(said, said), names.index(wall)
    known = sided(notes).get(words)
    for name, edge in ((names[at - 1], left), (names[(at + 1) % len(names)], right)):
        facing = walls.measured[name].facing
        if name == known or said == name.casefold() or (facing and SIDES[facing] == side):
            return edge
    return None


def called(wall: str) -> str:
    """How a sentence calls a wall.

    >>> called("A"), called("A left"), called("chimney breast"), called("bay left")
    ('wall A', 'wall A left', 'the chimney breast', 'the wall "bay left"')
    """
    if len(wall.split(maxsplit=1)[0]) <= SHORT:
        return f"wall {wall}"
    return f'the wall "{wall}"' if wall.endswith((" left", " right", " side")) else the(wall)


def _between(start: int, end: int, unit: Unit) -> str:
    if start == end:
        return spoken(start, unit)
    return f"from {measured(start, unit, 'up')} to {measured(end, unit, 'down')} along it"


def _flat(notes: Notes, wall: str) -> list[tuple[int, int]]:
    """The stretches of a wall, from its left end in mm, that no bay or breast breaks."""
    walls = notes.look().walls
    whole = walls.find(wall) if walls else None
    if walls is None or whole is None:
        return []
    found = []
    for part in walls.walls:
        if part.part_of == whole.part_of and part.facing == whole.facing:
            start = round(whole.coordinate(*part.start))
            found.append((max(0, start), min(start + round(part.length), round(whole.length))))
    return sorted(found)


def taken_names(notes: Notes) -> Iterator[str]:
    """Every name given so far, of walls and of what is in them."""
    yield from notes.look().wall_names
    for key in ("door", "window", "fixture"):
        for row in notes.tables.get(key, ()):
            yield str(row.get("name", row.get("kind", key)))


def a_name(notes: Notes, text: str, example: str, usual: str | None = None) -> Question[str]:
    """A name that nothing else has."""
    return a_text(text, example, usual=usual, taken=list(taken_names(notes)))
