"""What is told of who lives here: what the plan keeps for them, and what no plan can judge.

Each sentence goes with the ids of what it rests on. Imports no solver; mm.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from shapely import union_all
from shapely.affinity import translate

from arrange.data.kinds import kinds
from arrange.data.lengths import listed, measured, the
from arrange.data.people import (
    DRESSED_IN,
    Row,
    asked,
    rows,
    sat_on,
    side_of,
    sitting_up,
    sleeping,
    who_uses,
)
from arrange.data.person import Person
from arrange.data.piece import Clearance, Piece, tips
from arrange.data.room import Door
from arrange.data.scenario import Scenario
from arrange.data.sources import YOURS
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import leaf_floors
from arrange.geometry.walking import walk_of
from arrange.rules.climbing import off_windows
from arrange.rules.selectors import use_of
from arrange.rules.turning_space import turning_square

Told = tuple[str, tuple[str, ...]]
# mm: the turning circles of `wc-turn-range`, `bed-height` and `hf-seat-rec`.
CIRCLES, BEDS, SEATS = (1245, 1700), (400, 600), (400, 460)


def about_people(scenario: Scenario, scene: Scene | None) -> list[Told]:
    """Everything there is to tell; nothing where nobody is named."""
    if not scenario.people:
        return []
    return [
        *_short_of(scenario),
        *_doors(scenario),
        *_way_out(scenario),
        *_cut_off(scenario, scene),
        *_beds(scenario),
        *_climbers(scenario, scene),
        *_kept(scenario),
        *_own_chair(scenario),
        *_nights(scenario),
        *_aids(scenario),
    ]


def _row(id_: str) -> Row:
    """The caution of that id in the table."""
    return next(row for row in rows() if row.sets == "caution" and row.id == id_)


def _concerned(scenario: Scenario, id_: str) -> list[Person]:
    return [person for person in scenario.people if _row(id_).concerns(person)]


def _names(people: Sequence[Person]) -> str:
    return listed([person.name for person in people])


def _all(pieces: Sequence[Piece], last: str = "and") -> str:
    return listed([the(model) for model in dict.fromkeys(p.model for p in pieces)], last)


def _ids(*ids: str) -> tuple[str, ...]:
    return tuple(id_ or "common-practice" for id_ in ids)


# -- what the plan keeps, and where the file asks for less -------------------
def _kept(scenario: Scenario) -> Iterator[Told]:
    """For each who asks for something, all that is kept for them."""
    kept: dict[str, list[tuple[str, str]]] = {}
    unit = scenario.unit
    way = asked(scenario.people, "walkway")
    if way and scenario.walks and scenario.walkway >= way.least:
        wide = measured(scenario.walkway, unit)
        kept.setdefault(way.whose, []).append((f"walkways {wide} wide", way.row.source))
    for piece in scenario.pieces:
        for c in piece.clearances:
            if c.whose:
                text = f"{measured(c.least, unit)} {c.where} {the(piece.model)}"
                kept.setdefault(c.whose, []).append((text, c.source))
        sitting = sitting_up(piece, scenario.people)
        if sitting and piece.headroom == sitting.least:
            text = f"{measured(piece.headroom, unit)} above {the(piece.model)} to sit up"
            kept.setdefault(sitting.whose, []).append((text, sitting.row.source))
    turn, side = asked(scenario.people, "turn"), turning_square(scenario)
    if turn and side >= turn.least:
        across = measured(side, unit)
        text = f"a clear square of {across} by {across} to turn in"
        kept.setdefault(turn.whose, []).append((text, turn.row.source))
    climb = asked(scenario.people, "window")
    if climb and off_windows(scenario) >= climb.least and scenario.room.windows:
        text = f"nothing to climb on in front of the {_window_word(scenario)}"
        kept.setdefault(climb.whose, []).append((text, climb.row.source))
    for whose, parts in kept.items():
        texts = list(dict.fromkeys(text for text, _ in parts))
        yield f"Kept for {whose}: {listed(texts)}.", _ids(*(id_ for _, id_ in parts))


def _short_of(scenario: Scenario) -> Iterator[Told]:
    """Where what the file says itself is less than somebody needs."""
    unit = scenario.unit

    def short(has: int, what: str, needs: int, whose: str, source: str) -> Told:
        own = measured(has, unit, "down") if has else "nothing"
        needed = measured(needs, unit, "up")
        return f"Your file keeps {own} {what}; {needed} is advised for {whose}.", _ids(source)

    way = asked(scenario.people, "walkway")
    has = scenario.walkway if scenario.walks else 0
    if way and has < way.least:
        yield short(has, "free to walk", way.least, way.whose, way.row.source)
    for piece in scenario.pieces:
        for c in (*piece.clearances, *_given_up(piece)):
            sets = side_of(piece, c)
            need = asked(who_uses(piece, scenario.people), sets) if sets else None
            if need and c.source == YOURS.id and c.least < need.least:
                where = f"free {c.where} {the(piece.name)}"
                yield short(c.least, where, need.least, need.whose, need.row.source)
    turn = asked(scenario.people, "turn")
    if turn and turning_square(scenario) < turn.least:
        what = "clear across to turn in"
        yield short(turning_square(scenario), what, turn.least, turn.whose, turn.row.source)
    climb = asked(scenario.people, "window")
    if climb and scenario.room.windows and off_windows(scenario) < climb.least:
        what = f"between the {_window_word(scenario)} and what can be climbed on"
        yield short(off_windows(scenario), what, climb.least, climb.whose, climb.row.source)


def _given_up(piece: Piece) -> list[Clearance]:
    """The clearances of its kind that the file gives up: nothing of them is kept."""
    kind = kinds().get(piece.kind)
    kept = {c.name for c in piece.clearances}
    gone = [c for c in kind.clearances if c.name not in kept] if kind else []
    return [replace(c, least=0, source=YOURS.id) for c in gone]


# -- room to turn, doors -----------------------------------------------------
def _cut_off(scenario: Scenario, scene: Scene | None) -> Iterator[Told]:
    """That no way leads to the square, where none does."""
    need, side = asked(scenario.people, "turn"), turning_square(scenario)
    if need and side and scene is not None and scenario.walks:
        corners = scene.square_corners(side, leaf_floors(scenario.room))
        middles = translate(corners, side / 2, side / 2)
        if not middles.is_empty and not union_all(walk_of(scene).from_door).intersects(middles):
            yield (
                "The clear square to turn in is cut off: no way that is wide enough leads there.",
                _ids(need.row.source),
            )


def _own_chair(scenario: Scenario) -> Iterator[Told]:
    """That wheelchairs differ."""
    if users := _concerned(scenario, "own chair"):
        whose = listed([person.with_aid for person in users])
        low, high = (measured(mm, scenario.unit) for mm in CIRCLES)
        yield (
            f"Measure {whose}: to turn, wheelchairs take {low} to {high}. Before you build or "
            "buy, ask an occupational therapist, or whoever advises on homes where you live.",
            _ids(_row("own chair").source),
        )


def _doors(scenario: Scenario) -> Iterator[Told]:
    """Doors too narrow for what somebody uses, or too low for how tall they are."""
    unit = scenario.unit
    for person in (p for p in scenario.people if p.uses):
        least, source = _door_for(person)
        narrow = [d for d in scenario.room.all_doors if d.width < least]
        if narrow:
            needs = measured(least, unit, "up")
            yield (
                f"{_each(narrow, 'is', 'are')} {_widths(narrow, scenario)} wide; "
                f"{person.with_aid} needs {needs} of clear opening.",
                _ids(source),
            )
    row = _row("door height")
    for person in _concerned(scenario, "door height"):
        low = [d for d in scenario.room.all_doors if d.height < row.asks(person)]
        if low:
            yield (
                f"{_each(low, 'is', 'are')} low for {person.name}: mind your head.",
                _ids(row.source),
            )


def _way_out(scenario: Scenario) -> Iterator[Told]:
    """A window that the file calls a way out is none for everybody."""
    windows = [w for w in scenario.room.windows if w.escape]
    users = _concerned(scenario, "way out")
    if windows and users:
        out = listed([the(window.name) for window in windows], "or")
        yield (
            f"{_names(users)} may be unable to get out by {out}: plan another way out in a "
            "fire, and ask the fire service where you live.",
            _ids(""),
        )


def _door_for(person: Person) -> tuple[int, str]:
    """The clear opening that somebody needs with what they use, in mm, and its source."""
    door = _row("door")
    if door.concerns(person):
        return door.least, door.source
    way = next(row for row in rows() if row.sets == "walkway" and row.when == (person.uses,))
    return way.least, way.source


def _each(doors: Sequence[Door], one: str, many: str) -> str:
    names = [the(door.name) for door in doors]
    names[0] = the(doors[0].name, first=True)
    return f"{listed(names)} {one if len(doors) == 1 else many}"


def _widths(doors: Sequence[Door], scenario: Scenario) -> str:
    widths = sorted({door.width for door in doors})
    return listed([measured(width, scenario.unit, "down") for width in widths])


# -- beds, seats, nights -----------------------------------------------------
def _beds(scenario: Scenario) -> Iterator[Told]:
    """Beds too short, and upper bunks for small children."""
    row, unit = _row("bed length"), scenario.unit
    beds = [piece for piece in scenario.pieces if sleeping(piece) and not piece.is_a("seat")]
    for person in _concerned(scenario, "bed length"):
        own = [bed for bed in beds if person in who_uses(bed, scenario.people)]
        short = [bed for bed in own if max(bed.mattress) < row.asks(person)]
        if short and (len(short) == len(own) or any(bed.whose for bed in short)):
            wanted = measured(row.asks(person), unit, "up")
            that, is_ = ("that", "is") if len(short) == 1 else ("those", "are")
            said = f"{_all(short)} {is_} shorter than that"
            if all(bed.framed for bed in short):
                said = f"{that} of {_all(short)} {is_} shorter"
            yield f"{person.name} needs a mattress {wanted} long: {said}.", _ids(row.source)
    bunks = [bed for bed in beds if bed.is_a("bunk")]
    for person in _concerned(scenario, "upper bunk") if bunks else ():
        yield (
            f"The upper bunk of {_all(bunks, 'or')} is not for {person.name}, who is "
            f"{person.age}: it is for children of 6 years and over.",
            _ids(_row("upper bunk").source),
        )


def _aids(scenario: Scenario) -> Iterator[Told]:
    """What to try before buying, what to sit on, what to trip over, where to sit without chair."""
    unit, pieces = scenario.unit, scenario.pieces
    if users := _concerned(scenario, "heights"):
        row = _row("heights")
        bed, seat = (
            f"{measured(low, unit)} to {measured(high, unit)}" for low, high in (BEDS, SEATS)
        )
        yield (
            f"Let {_names(users)} try beds and seats before you buy: a plan does not show how high "
            f"they are. Beds are {bed} to the top of the mattress, chairs {seat}; arms help to "
            "get up.",
            _ids(row.source, row.comfortable_source),
        )
    seated = any(map(sat_on, pieces))
    if (users := _concerned(scenario, "shoes")) and not seated and use_of(scenario) in DRESSED_IN:
        sit = f"There is no seat here where {_names(users)} can put shoes on"
        text = f"{sit}: a firm one helps."
        yield text, _ids("")
    rugs = [p for p in pieces if p.flat and not p.is_a("play")]
    if (users := _concerned(scenario, "rugs")) and rugs:
        yield (
            f"Fix {_all(rugs)} so that {'it' if len(rugs) == 1 else 'they'} cannot slip or curl, "
            f"or leave {'it' if len(rugs) == 1 else 'them'} out: {_names(users)} could trip or get "
            "caught.",
            _ids(""),
        )
    tables = [p for p in pieces if p.roles & {"desk", "dine"} and not p.is_a("seat")]
    if (users := _concerned(scenario, "table")) and tables:
        whose = listed([person.with_aid for person in users])
        yield (
            f"Leave a place without a chair at {_all(tables, 'or')} for {whose}, and check that "
            "knees fit under it.",
            _ids(""),
        )


def _nights(scenario: Scenario) -> Iterator[Told]:
    """A light from the bed."""
    users = _concerned(scenario, "night light")
    if not users:
        return
    gets = "gets" if len(users) == 1 else "get"
    lamps = any(p.is_a("light") for p in scenario.pieces)
    missing = "" if lamps else " (there is none on your list)"
    yield (
        f"{_names(users)} {gets} up at night: have a lamp{missing} that is switched on from the "
        "bed, and a faint light on the way to the door.",
        _ids(""),
    )


# -- children who climb ------------------------------------------------------
def _climbers(scenario: Scenario, scene: Scene | None) -> Iterator[Told]:
    """What comes down, what they fall out of, what they fall down."""
    users = _concerned(scenario, "fix")
    if not users:
        return
    who = f"{_names(users)} {'climbs' if len(users) == 1 else 'climb'}"
    tall = [p for p in scenario.pieces if tips(p)]
    if tall:
        loose = [p for p in tall if _off_walls(p, scene)]
        at_a_wall = f" Put {_all(loose)} against a wall for that." if loose else ""
        yield (
            f"{who}: fix {_all(tall)} to the wall, empty or full.{at_a_wall}",
            _ids(_row("fix").source),
        )
    windows = scenario.room.windows
    if windows:
        out = " A way out must still open from inside." if any(w.escape for w in windows) else ""
        yield (
            f"{who}: fit catches to the {_window_word(scenario)} that a child cannot undo; keep "
            f"blind and curtain cords short and out of reach.{out}",
            _ids(_row("windows").source, "cot-window"),
        )
    if any(f.kind in ("stairs", "hatch") for f in scenario.room.fixtures):
        yield f"{who}: put a gate at the stairs.", _ids(_row("stairs").source)


def _off_walls(piece: Piece, scene: Scene | None) -> bool:
    """Whether a piece stands off all walls, or may where it is not known how it stands."""
    if scene is None:
        return piece.stands in ("free", "anywhere") and piece.anchor is None
    return scene.find(piece.name).placement.wall is None and piece.anchor is None


def _window_word(scenario: Scenario) -> str:
    return "window" if len(scenario.room.windows) == 1 else "windows"
