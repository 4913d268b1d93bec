"""The screen or fire seen from the main seat or the bed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from arrange.data.lengths import Rounding, the
from arrange.data.piece import Piece
from arrange.data.room import FACINGS, Facing, Fixture
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.shapes import nearest_facing
from arrange.geometry.spots import (
    Bounded,
    Coordinate,
    fixture_spot,
    pillow,
    seats,
    sight,
)
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import (
    OPPOSITE,
    hearth,
    main_screen,
    main_seats,
    sits_together,
    watching_bed,
)

# `tv-offaxis-rule`: 45 degrees at most, 30 ideal; `tv-offaxis-60`: 60 at the very most.
ANGLES = (45, 30)
SLOPES = (1000, 577)  # tangents in thousandths
WIDE = 1732
Band = tuple[int, int]  # mm from front to front, the least and the most
# Where no size is said: `tv-seat-min` at least, the rest common practice.
UNKNOWN: tuple[Band, Band] = ((1250, 3500), (1524, 3000))
FIRE: tuple[Band, Band] = ((1, 4500), (1, 3000))  # heat keeps its own distance; common practice


class View(Rule):
    """The main seat looks at the screen or the fire; in a bedroom the bed at the screen.

    From the middle of the seat's front to that of the screen at most 30 degrees off the
    axes of both (level 2) or 45 (level 1); front to front 1.2 to 2.2 diagonals of the
    screen, or 1 to 2.6 and up to 3.5 m for level 1: a small screen in a large room is no
    fault of the plan (without a size 1524 mm to 3 m, or 1250 mm to 3.5 m). Turned by
    quarters, the two have to look at each other. A fire is
    seen from within 3 m, or 4.5 m for level 1, and from the side too, up to 60 degrees
    off its axis. With both, one is ahead and the other within 60 degrees; a fire out of
    view leaves level 1, a screen out of view nothing. Of alike seats any will do, and of a
    corner sofa either part. From
    the pillow the screen is within 45 degrees of the bed's axis and 60 of its own.
    A room with neither screen nor fire is for talk or reading: nothing to earn, nor for
    a single easy chair at a fire.
    """

    id = "view"
    title = "The screen or the fire in view"
    source = "tv-offaxis-rule"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim in rooms with a screen or fire and somebody to look at it."""
        screen, fire, seats = main_screen(scenario), hearth(scenario), main_seats(scenario)
        bed = watching_bed(scenario)
        if screen is not None and bed is not None:
            return [self._claim((bed.name, screen.name), (ANGLES[0],), ())]
        fire = fire if sits_together(scenario) else None
        if not seats or (screen is None and fire is None):
            return []
        names = [seat.name for seat in seats]
        names += [screen.name] if screen is not None else []
        return [self._claim(tuple(names), ANGLES, (fire.name,) if fire is not None else ())]

    def _claim(
        self, subjects: tuple[str, ...], steps: tuple[int, ...], about: tuple[str, ...]
    ) -> Claim:
        return Claim(self.id, subjects, self.weight, steps, about, self.source, first_rank=True)

    # -- the model's face ------------------------------------------------
    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """One of the seats has the screen or the fire ahead."""
        levels = [model.literal(f"{claim.subjects[0]} in view {step}") for step in claim.steps]
        if len(claim.steps) == 1:
            bed, screen = claim.subjects
            _wide(model, levels[0], bed, screen, None)
            return levels
        options: list[list[L]] = []
        for seat, part in _looking_out(model.scenario):
            options += self._options(model, claim, seat.name, part)
        for k, level in enumerate(levels):
            model.one_of([option[k] for option in options], when=[level])
        return levels

    def _options(self, model: Verbs[L], claim: Claim, seat: str, part: int) -> list[list[L]]:
        """For each thing it can have ahead, a literal a level."""
        screen, fire, options = main_screen(model.scenario), _fire(model.scenario, claim), []
        if screen is not None:
            ahead = [model.literal() for _ in claim.steps]
            self._ahead_of_screen(model, ahead, seat, part, screen)
            if fire is not None:
                _fire_in_view(model, ahead[1], seat, part, fire)
            options.append(ahead)
        if fire is not None:
            ahead = [model.literal() for _ in claim.steps]
            self._ahead_of_fire(model, ahead, seat, part, fire)
            if screen is not None:
                _wide(model, ahead[0], seat, screen.name, part)
            options.append(ahead)
        for option in options:
            model.implies(option[1], option[0])
        return options

    @staticmethod
    def _ahead_of_screen(
        model: Verbs[L], ahead: Sequence[L], seat: str, part: int, screen: Piece
    ) -> None:
        one, two = model.place(seat), model.place(screen.name)
        for way in FACINGS:
            looks, (eye, there) = model.faces(seat, way), seats(one, one.piece, way)[part]
            model.one_of([model.faces(screen.name, OPPOSITE[there])], when=[ahead[0], looks])
            far, aside = sight(eye, there, two, OPPOSITE[there])
            for level, slope, (least, most) in zip(ahead, SLOPES, _band(screen), strict=True):
                model.when([level, looks], 2 * least <= far, far <= 2 * most)
                _cone(model, [level, looks], far, aside, slope)

    @staticmethod
    def _ahead_of_fire(
        model: Verbs[L], ahead: Sequence[L], seat: str, part: int, fire: Fixture
    ) -> None:
        one, spot = model.place(seat), fixture_spot(model.scenario.room, fire)
        _fire_in_view(model, ahead[0], seat, part, fire)
        for way in FACINGS:
            looks, (eye, there) = model.faces(seat, way), seats(one, one.piece, way)[part]
            far, aside = sight(eye, there, spot, _turned(model.scenario, fire, there))
            for level, slope, (least, most) in zip(ahead, SLOPES, FIRE, strict=True):
                model.when([level, looks], 2 * least <= far, far <= 2 * most)
                _cone(model, [level, looks], far, aside, slope)

    # -- the judge's face ------------------------------------------------
    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """Of the alike seats the one that sees best."""
        if len(claim.steps) == 1:
            return _from_bed(scene, *claim.subjects)
        sitting = [_Eye.of(scene.find(s.name), part) for s, part in _looking_out(scene.scenario)]
        seen = [found for eye in sitting for found in _seen(scene, claim, eye)]
        return max(seen, key=lambda found: found.level)


@dataclass(frozen=True, slots=True)
class _Eye:
    """Where somebody sits, which way they look there, and what to call it."""

    box: Bounded
    way: Facing
    sitter: str

    @classmethod
    def of(cls, seat: Placed, part: int) -> _Eye:
        """That of a part of a seat, by its number in ``seats``."""
        sitter = f"The arm of {the(seat.name)}" if part else the(seat.name, first=True)
        return cls(*seats(seat, seat.piece, seat.facing)[part], sitter)


def _looking_out(scenario: Scenario) -> list[tuple[Piece, int]]:
    """The main seats, each with the numbers of its parts that people look out of."""
    seats_of = [(seat, 2 if seat.shape == "L" else 1) for seat in main_seats(scenario)]
    return [(seat, part) for seat, parts in seats_of for part in range(parts)]


def _fire(scenario: Scenario, claim: Claim) -> Fixture | None:
    return hearth(scenario) if claim.about else None


def _turned(scenario: Scenario, fire: Fixture, way: Facing) -> Facing:
    """How the fire looks; one that stands free looks at whoever looks at it."""
    if fire.wall is None:
        return OPPOSITE[way]
    return nearest_facing(scenario.room.walls[fire.wall])


def _band(screen: Piece) -> tuple[Band, Band]:
    """The distances of both levels, by the diagonal of the screen."""
    if not screen.screen:
        return UNKNOWN
    tenth = screen.screen / 10
    most = max(UNKNOWN[0][1], round(26 * tenth))
    return (screen.screen, most), (round(12 * tenth), round(22 * tenth))


def _cone(
    model: Verbs[L], when: Sequence[L], far: Coordinate, aside: Coordinate, slope: int
) -> None:
    model.when(when, far >= 1, 1000 * aside <= slope * far, -1000 * aside <= slope * far)


def _wide(model: Verbs[L], literal: L, seat: str, screen: str, part: int | None) -> None:
    """The screen within 60 degrees of the axis of a seat's part, and of its own.

    Without a ``part`` within 45 of the axis of a bed, from the pillow.
    """
    one, two = model.place(seat), model.place(screen)
    for way, turned in product(FACINGS, FACINGS):
        both = [literal, model.faces(seat, way), model.faces(screen, turned)]
        slope = SLOPES[0] if part is None else WIDE
        lying = pillow(one, one.piece, way), way
        eye, there = lying if part is None else seats(one, one.piece, way)[part]
        if turned == there:
            model.forbid(*both)
            continue
        _cone(model, both, *sight(eye, there, two, turned), slope)
        _cone(model, both, *sight(two, turned, eye, there), WIDE)


def _fire_in_view(model: Verbs[L], literal: L, seat: str, part: int, fire: Fixture) -> None:
    """The fire within 60 degrees of the axis of that part of the seat and of its own."""
    one, spot = model.place(seat), fixture_spot(model.scenario.room, fire)
    for way in FACINGS:
        looks, (eye, there) = model.faces(seat, way), seats(one, one.piece, way)[part]
        turned = _turned(model.scenario, fire, there)
        if turned == there:
            model.forbid(literal, looks)
            continue
        _cone(model, [literal, looks], *sight(eye, there, spot, turned), WIDE)
        _cone(model, [literal, looks], *sight(spot, turned, eye, there), WIDE)


def _in_cone(far: int, aside: int, slope: int) -> bool:
    return far > 0 and 1000 * abs(aside) <= slope * far


def _sees(one: Bounded, way: Facing, two: Bounded, turned: Facing, slope: int = WIDE) -> bool:
    """Whether each is in front of the other, off its axis by no more than that."""
    there, back = sight(one, way, two, turned), sight(two, turned, one, way)
    return turned != way and _in_cone(*there, slope) and _in_cone(*back, WIDE)


def _from_bed(scene: Scene, name: str, watched: str) -> Measure:
    bed, screen = scene.find(name), scene.find(watched)
    eye = pillow(bed, bed.piece, bed.facing)
    seen = _sees(eye, bed.facing, screen, screen.facing, SLOPES[0])
    text = "is in good view from" if seen else "is not in good view from"
    sentence = f"{the(screen.name, first=True)} {text} {the(bed.name)}"
    wanted = f"within {ANGLES[0]} degrees"
    return Measure(int(seen), sentence, "in view" if seen else "aside", wanted)


def _seen(scene: Scene, claim: Claim, eye: _Eye) -> list[Measure]:
    """What is seen from there with the screen ahead, and with the fire."""
    screen, fire = main_screen(scene.scenario), _fire(scene.scenario, claim)
    found: list[Measure] = []
    if screen is None and fire is not None:
        return [_ahead(scene, eye, fire)]
    if screen is None:
        return found
    found.append(_ahead(scene, eye, screen))
    if fire is None:
        return found
    spot, placed = fixture_spot(scene.scenario.room, fire), scene.find(screen.name)
    if not _sees(eye.box, eye.way, spot, _turned(scene.scenario, fire, eye.way)):
        found[0] = _without(found[0], 1, fire.name)
    at_fire = _ahead(scene, eye, fire)
    in_view = _sees(eye.box, eye.way, placed, placed.facing)
    return [*found, at_fire if in_view else _without(at_fire, 0, screen.name)]


def _without(seen: Measure, most: int, other: str) -> Measure:
    """Something else is out of view: worth no more than that."""
    text = f"{seen.sentence}; {the(other)} is out of view"
    return Measure(min(seen.level, most), text, seen.measured, seen.wanted)


def _ahead(scene: Scene, eye: _Eye, thing: Piece | Fixture) -> Measure:
    """How well one thing ahead is seen from there."""
    box, way, name = eye.box, eye.way, the(thing.name)
    if isinstance(thing, Fixture):
        turned = _turned(scene.scenario, thing, way)
        spot, bands = fixture_spot(scene.scenario.room, thing), FIRE
        looks = _sees(box, way, spot, turned)
        far, aside = sight(box, way, spot, turned)
    else:
        placed, bands = scene.find(thing.name), _band(thing)
        looks = placed.facing == OPPOSITE[way]
        far, aside = sight(box, way, placed, OPPOSITE[way])
    least, most = (scene.length(mm) for mm in bands[-1])
    wanted = f"{least} to {most}" if bands[-1][0] > 1 else f"up to {most}"
    if not looks or far <= 0:
        return Measure(0, f"{eye.sitter} does not face {name}", "", wanted)
    level = 0
    for slope, (near, end) in zip(SLOPES, bands, strict=True):
        if not (2 * near <= far <= 2 * end and _in_cone(far, aside, slope)):
            break
        level += 1
    # As the floor in front of it is told; what is too far is not told as just far enough.
    rounded: Rounding = "up" if far > 2 * bands[-1][1] else "down"
    text = f"{eye.sitter} is {scene.how_far(far // 2, rounded=rounded)} {name}"
    if level == len(SLOPES):
        text += " and faces it"
    elif not _in_cone(far, aside, SLOPES[level]):
        text += f", which is more than {ANGLES[level]} degrees off to the side"
    else:
        close = far < 2 * bands[level][0]
        text += ", which is too close" if close else ", which is too far"
    return Measure(level, text, scene.length(far // 2, rounded), wanted)
