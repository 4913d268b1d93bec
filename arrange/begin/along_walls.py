"""Asks where along the walls something is: which wall, how far from its left end, its name."""

from __future__ import annotations

from collections.abc import Iterator

from arrange.begin.answers import Question, a_length, a_text, handy, length_of, one_of, spoken
from arrange.begin.notes import Notes
from arrange.data.lengths import listed, measured, the
from arrange.data.room import FACINGS
from arrange.data.scenario import Unit

SHORT = 2  # letters of a wall that nobody has named
# Where the walls of a plan are, by which way they look.
SIDES = dict(zip(FACINGS, ("top", "right", "bottom", "left"), strict=True))


def sided(notes: Notes) -> dict[str, str]:
    """Other words for walls: "top" in a plain room, "window wall" where one has all windows."""
    room = notes.look().room
    if room is None:
        return {}
    words: dict[str, str] = {}
    if len(room.walls) == 4:
        words |= {SIDES[wall.facing]: wall.name for wall in room.walls if wall.facing}
    for sort, openings in (("window", room.windows), ("door", room.doors)):
        there = {opening.wall for opening in openings}
        if len(there) == 1:
            words[f"wall with the {sort}"] = words[sort] = room.walls[there.pop()].name
    said = {f"{word} wall": wall for word, wall in words.items()} | words
    return said | {f"the {word}": wall for word, wall in said.items()}


def which_wall(notes: Notes, text: str) -> Question[str]:
    """One of the walls, by its letter or name."""
    names = list(notes.look().wall_names)
    return one_of(text, names, also=sided(notes), what="a wall of this room")


def long_of(notes: Notes, wall: str) -> int:
    """The length of a wall in mm; 0 for one that is not there."""
    walls = notes.look().walls
    found = walls.find(wall) if walls else None
    return round(found.length) if found else 0


LEFT = ("left", "left end", "at the left end", "far left", "corner", "in the corner")
RIGHT = ("right", "right end", "at the right end", "far right")
MIDDLE = ("middle", "in the middle", "centre", "center", "centred", "centered")


def from_left(notes: Notes, wall: str, width: int, what: str) -> Question[int]:
    """How far from the left end of a wall something of this width begins."""
    unit, flat = notes.unit, _flat(notes, wall)
    ends = [(start, end - width) for start, end in flat if end - start >= width]
    long = long_of(notes, wall)
    if not ends:
        ends = [(0, max(0, long - width))]

    def read(words: str) -> int:
        word = words.casefold()
        if word in (*LEFT, *RIGHT, *MIDDLE):
            found = ends[0][0] if word in LEFT else ends[-1][1]
            found = handy((long - width) // 20 * 10, unit) if word in MIDDLE else found
        else:
            found = length_of(words, unit, 0, long)
        if any(start <= found <= end for start, end in ends):
            return found
        where = listed([_between(start, end, unit) for start, end in ends], "or")
        raise ValueError(
            f"{what.capitalize()} {spoken(width, unit)} wide and {called(wall)} "
            f"{measured(long, unit)} long, so its left edge can be {where}."
        )

    return Question(
        f"How far is its left edge from the left end of {called(wall)}, as you face that wall?",
        read,
        f'{a_length("", unit).example} "middle", "left" and "right" will do as well.',
        said=lambda found: f"{spoken(found, unit)}.",
    )


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
