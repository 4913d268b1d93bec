"""Reads ``[[person]]``: who lives or stays in the room, as far as a plan depends on it."""

from __future__ import annotations

from collections import Counter

from arrange.data.person import AIDS, YOUNG, Person
from arrange.scenario.table import Table

OLDEST = 120  # years
HEIGHTS = (400, 2300)  # mm
EXAMPLE = 'write it like: name = "Grandma", uses = "stick", sleeps_here = true'


def read_people(top: Table) -> tuple[Person, ...]:
    """Every person of the file, sorted: their order in the file says nothing.

    Who is up at night sleeps here; a child of one to five years climbs unless it is said.
    """
    found = [_person(table) for table in top.tables("person")]
    people = [person for person in found if person is not None]
    names = Counter(person.name.casefold() for person in people)
    for name in (n for n, times in names.items() if times > 1):
        given = f'"{name}" is the name of {names[name]} people'
        top.fault("person", given, "each name can be used only once", "such as Ada and little Ada")
    return tuple(sorted(people, key=lambda person: (person.name.casefold(), person.name)))


def _person(table: Table) -> Person | None:
    name = table.text("name")
    if not name and not table.has("name"):
        table.fault("name", "no name given", "say who it is, by any name", EXAMPLE)
    age = table.whole("age", 0, 0, OLDEST) if table.has("age") else None
    height = table.mm("height", 0, *HEIGHTS) if table.has("height") else None
    uses = table.choice("uses", AIDS, AIDS[0])
    climbs, at_night = table.flag("climbs"), table.flag("up_at_night")
    if not table.has("climbs"):
        climbs = age is not None and 0 < age < YOUNG
    sleeps = table.flag("sleeps_here")
    if at_night and table.has("sleeps_here") and not sleeps:
        given = "up_at_night = true, sleeps_here = false"
        table.fault("up_at_night", given, "who is up at night in this room sleeps here")
    table.finish()
    if not name:
        return None
    return Person(
        name=name,
        age=age,
        height=height or None,
        uses=uses if table.raw("uses") is not None else None,
        climbs=climbs,
        up_at_night=at_night,
        sleeps_here=sleeps or at_night,
    )


def read_whose(table: Table, people: tuple[Person, ...]) -> tuple[str, ...]:
    """The persons whose a piece is; empty where the file does not say."""
    value = table.raw("whose")
    if value is None:
        return ()
    words = value if isinstance(value, list) else [value]
    known = {person.name.casefold(): person.name for person in people}
    found = []
    for word in words:
        plain = " ".join(word.split()).casefold() if isinstance(word, str) else ""
        if plain in known:
            found.append(known[plain])
        else:
            names = list(known.values())
            hint = "each needs a [[person]] of that name"
            table.faults.unknown(table.at("whose"), str(word), names, "the person", hint)
    return tuple(sorted(set(found)))
