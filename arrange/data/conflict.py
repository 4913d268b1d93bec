"""Why nothing works: what can be taken away, and the conflicts of it."""

from __future__ import annotations

from dataclasses import dataclass

from arrange.data.arrangement import Arrangement, Decision
from arrange.data.room import Vector
from arrange.data.scenario import Scenario


@dataclass(frozen=True, slots=True)
class Requirement:
    """One thing that a rule requires, and that can be taken away from a scenario.

    ``kind`` is one of those that the rule declares (``arrange.rules``). ``name`` is the
    piece, door, fixture or window it belongs to, "" for what the room has once. ``part``
    is the name of a clearance, or the number of a wish counted from 0.
    """

    kind: str
    name: str = ""
    part: str = ""


@dataclass(frozen=True, slots=True)
class Without:
    """An arrangement of the others of a set once ``requirement`` is taken away; judged."""

    requirement: Requirement
    arrangement: Arrangement


@dataclass(frozen=True, slots=True)
class Crossed:
    """What a section line meets from ``start`` to ``end`` (mm along it).

    ``what`` says it in words: the name of a ``body``, or where the floor lies.
    ``asked`` is the length asked for there in mm: more than is there for what lacks.
    """

    what: str
    start: int
    end: int
    asked: int
    body: bool = False


@dataclass(frozen=True, slots=True)
class Section:
    """A straight line from wall to wall, its ends in mm on the plan, and what it meets.

    ``beside`` names the floor at which it ends instead of a wall, such as that inside
    a door, "" if it runs from wall to wall.
    """

    start: Vector
    end: Vector
    crossed: tuple[Crossed, ...]
    beside: str = ""

    @property
    def there(self) -> int:
        """The length of the line in mm."""
        return self.crossed[-1].end - self.crossed[0].start

    @property
    def asked(self) -> int:
        """The sum of what is asked for along it, in mm."""
        return sum(part.asked for part in self.crossed)


@dataclass(frozen=True, slots=True)
class Arithmetic:
    """How much is lacking, in figures that a tape can check.

    ``sum`` is the sum in words, "" where there is no simple one; ``sentence`` what is
    proven of it. ``requirement`` is what was brought down: of the ``asked``
    mm at most ``most`` can be had when the others hold; 1 mm more is proven
    impossible if ``proven``. ``side`` says which measurement of a piece it was
    ("width", "depth"), "" for others. ``arrangement`` has ``most``, and ``section``
    shows there how the sum comes about; None where there is no simple sum.
    """

    sentence: str
    requirement: Requirement | None = None
    asked: int = 0
    most: int = 0
    proven: bool = False
    side: str = ""
    arrangement: Arrangement | None = None
    section: Section | None = None
    sum: str = ""

    @property
    def text(self) -> str:
        """The sum and what is proven, as one text."""
        return f"{self.sum} {self.sentence}".strip()


@dataclass(frozen=True, slots=True)
class Conflict:
    """A set of requirements that cannot all hold.

    ``confirmed``: impossible by two solver configurations. ``minimal``: without any
    one of them an arrangement exists, kept in ``without`` in the order of the
    requirements; else the set is not yet proven minimal.
    """

    requirements: tuple[Requirement, ...]
    confirmed: bool
    minimal: bool
    without: tuple[Without, ...] = ()
    arithmetic: Arithmetic | None = None

    @property
    def pieces(self) -> tuple[str, ...]:
        """The names of its pieces."""
        return tuple(r.name for r in self.requirements if r.kind == "piece")


@dataclass(frozen=True, slots=True)
class Conflicts:
    """Why a scenario does not work.

    ``answer`` is on the whole scenario. ``room`` has one sentence for each fault of
    the empty room; then nothing else was looked at. ``sets`` have no piece in
    common. ``complete``: what is left without the pieces of all sets works, so that
    there is no further set apart from these. ``arrangement`` shows that it works.
    """

    scenario: Scenario
    answer: Decision
    room: tuple[str, ...] = ()
    sets: tuple[Conflict, ...] = ()
    complete: bool = False
    arrangement: Arrangement | None = None
