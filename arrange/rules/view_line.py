"""Nothing high in the line from the main seat to what it looks at."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import FACINGS, Fixture
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Placed, Scene
from arrange.geometry.spots import Bounded, Spot, across, along, fixture_spot, looking
from arrange.geometry.strips import Outlook, reaches
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

HEIGHTS = (600, 1200)  # mm; over a coffee table, up to the eye (`tv-eyeline`)
WIDTH = 600  # mm; common practice, no source
SEAT, TARGET = 60, 80  # hundredths of the fronts, about their middles; common practice, no source


class ViewLine(Rule):
    """From the main seat to the screen or fire ahead, a straight strip 60 cm wide is free.

    From front to front, within the middle 60 % of the seat's and 80 % of the other's; or
    the box from the middle of the one to the middle of the other, 30 cm to each side of
    both, for seats that look a little aside. Nothing higher than 60 cm stands there,
    unless it hangs above 1.2 m. The two look at each other; of alike seats, and of screen
    and fire, any pair will do. Beds do not count: little stands between their foot and a
    screen, and they see over it. A strip along the room, and not the slanted shape
    between both fronts: it is as good a test, and the search can ask it too. Common practice,
    no source.
    """

    id = "view-line"
    title = "Nothing high between the seat and the screen"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim where there is something to look at, and something that could hide it."""
        seats, targets = main_seats(scenario), _targets(scenario)
        if not seats or not targets or watching_bed(scenario) or not _hidden(scenario):
            return []
        screens = [t.name for t in targets if isinstance(t, Piece)]
        fires = tuple(t.name for t in targets if isinstance(t, Fixture))
        subjects = (*[seat.name for seat in seats], *screens)
        return [Claim(self.id, subjects, self.weight, (WIDTH,), fires, first_rank=True)]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """One of the seats has a free strip to what it looks at."""
        level = model.literal(f"{claim.subjects[0]} has a free line of view")
        pairs = [
            self._is_free(model, seat, target)
            for seat in main_seats(model.scenario)
            for target in _targets(model.scenario)
        ]
        model.one_of(pairs, when=[level])
        return [level]

    @staticmethod
    def _is_free(model: Verbs[L], seat: Piece, target: Piece | Fixture) -> L:
        free, within, round_both = (model.literal() for _ in range(3))
        model.one_of([within, round_both], when=[free])
        one = model.place(seat.name)
        two: Bounded = (
            fixture_spot(model.scenario.room, target)
            if isinstance(target, Fixture)
            else model.place(target.name)
        )
        halves = _halves(seat, target)
        strip = model.open_strip(free, HEIGHTS, [seat.name, target.name])
        for way in FACINGS:
            looks = [free, model.faces(seat.name, way)]
            if isinstance(target, Piece):
                model.one_of([model.faces(target.name, OPPOSITE[way])], when=looks)
            (begin, end), (low, high) = along(strip, way), across(strip, way)
            start, stop = along(one, way)[1], along(two, way)[0]
            model.when(looks, begin == start, end == stop, start + 1 <= stop)
            inside, outside = [within, *looks[1:]], [round_both, *looks[1:]]
            model.when(inside, high - low == halves.width)
            model.when(outside, high - low >= 1)
            for thing, half in ((one, halves.seat), (two, halves.target)):
                middle2 = sum(across(thing, way))
                model.when(inside, 2 * low >= middle2 - 2 * half, 2 * high <= middle2 + 2 * half)
                model.when(outside, 2 * low <= middle2 - WIDTH, 2 * high >= middle2 + WIDTH)
        return free

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """A pair with a free line, else what stands in that of the first pair that has one."""
        del claim
        found = [
            _line(scene, scene.find(seat.name), target)
            for seat in main_seats(scene.scenario)
            for target in _targets(scene.scenario)
        ]
        best = max(found, key=lambda line: (line.free, line.blocked != ""))
        sitter, seen = the(best.seat, first=True), the(best.target)
        if best.free:
            text = f"{sitter} has a clear view of {seen}"
        elif best.blocked:
            text = f"{the(best.blocked, first=True)} stands between {the(best.seat)} and {seen}"
        else:
            text = f"{sitter} cannot look straight at {seen}"
        width = scene.length(WIDTH)
        return Measure(int(best.free), text, width if best.free else best.blocked, width)


@dataclass(frozen=True, slots=True)
class _Line:
    seat: str
    target: str
    free: bool
    blocked: str = ""


@dataclass(frozen=True, slots=True)
class _Halves:
    """Half of the fronts that the strip may lie before, and its width, in mm."""

    seat: int
    target: int
    width: int


def _targets(scenario: Scenario) -> list[Piece | Fixture]:
    screen, fire = main_screen(scenario), hearth(scenario)
    targets: list[Piece | Fixture] = [] if screen is None else [screen]
    return [*targets, fire] if fire is not None and sits_together(scenario) else targets


def _hidden(scenario: Scenario) -> bool:
    """Whether anything here could come between: a high piece, a fixture, a corner."""
    named = {t.name for t in (*main_seats(scenario), *_targets(scenario))}
    things: list[Piece | Fixture] = [*scenario.pieces, *scenario.room.obstructions]
    high = [t for t in things if reaches(t, HEIGHTS) and t.name not in named]
    return bool(high) or len(scenario.room.corners) > 4


def _halves(seat: Piece, target: Piece | Fixture) -> _Halves:
    one, two = seat.width * SEAT // 200, target.width * TARGET // 200
    return _Halves(one, two, min(WIDTH, 2 * one, 2 * two))


def _line(scene: Scene, seat: Placed, target: Piece | Fixture) -> _Line:
    """Whether a seat has a free strip to one thing, and what is in the way."""
    way, room = seat.facing, scene.scenario.room
    placed: Placed | Spot = (
        fixture_spot(room, target) if isinstance(target, Fixture) else scene.find(target.name)
    )
    ahead = along(seat, way)[1], along(placed, way)[0]
    facing = not isinstance(placed, Placed) or placed.facing == OPPOSITE[way]
    if not facing or ahead[0] >= ahead[1]:
        return _Line(seat.name, target.name, free=False)
    outlook = Outlook(scene, HEIGHTS, [seat.name, target.name])
    halves = _halves(seat.piece, target)
    sums = sum(across(seat, way)), sum(across(placed, way))
    low = max(-((2 * half - both) // 2) for both, half in zip(sums, _pair(halves), strict=True))
    high = min((both + 2 * half) // 2 for both, half in zip(sums, _pair(halves), strict=True))
    if outlook.slides_free(way, ahead, (low, high), halves.width):
        return _Line(seat.name, target.name, free=True)
    box = looking(way, ahead, (_half(min(sums) - WIDTH), -_half(-max(sums) - WIDTH)))
    blocked = outlook.blocked_by(box)
    return _Line(seat.name, target.name, blocked is None, blocked or "")


def _pair(halves: _Halves) -> tuple[int, int]:
    return halves.seat, halves.target


def _half(twice: int) -> int:
    """Half of it, rounded down."""
    return twice // 2
