"""Somebody who lives or stays in a room, and the traits that say what follows for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Aid = Literal["stick", "crutches", "walking frame", "wheelchair"]
AIDS: tuple[Aid, ...] = get_args(Aid)
OLDER = 75  # years; our own figure, common practice: the sources say "elderly"
YOUNG = 6  # years, as in `bunk-age` and `csu-date` (72 months)
TALL = 1855  # mm (`hf-stature`): the man whom the usual headroom is for


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who lives or stays here. ``height`` in mm; None where it was not said."""

    name: str
    age: int | None = None
    height: int | None = None
    uses: Aid | None = None
    climbs: bool = False
    up_at_night: bool = False
    sleeps_here: bool = False

    @property
    def traits(self) -> frozenset[str]:
        """What is true of them, in the words of the table.

        >>> sorted(Person("Mo", age=5, climbs=True).traits)
        ['climbs', 'young']
        >>> sorted(Person("Al", age=75, height=1856, uses="stick", sleeps_here=True).traits)
        ['older', 'sleeps here', 'stick', 'tall']
        """
        true = {
            "older": self.age is not None and self.age >= OLDER,
            "young": self.age is not None and self.age < YOUNG,
            "tall": self.height is not None and self.height > TALL,
            "climbs": self.climbs,
            "up at night": self.up_at_night,
            "sleeps here": self.sleeps_here,
        }
        aid = {self.uses} if self.uses else set[str]()
        return frozenset({word for word, is_so in true.items() if is_so} | aid)

    @property
    def with_aid(self) -> str:
        """Whom a length is for: "Ada's wheelchair", or the name.

        >>> Person("Ada", uses="wheelchair").with_aid, Person("Ben").with_aid
        ("Ada's wheelchair", 'Ben')
        """
        return f"{self.name}'s {self.uses}" if self.uses else self.name
