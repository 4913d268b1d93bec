"""A lamp where somebody sits, sleeps or works."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations

from arrange.data.lengths import the
from arrange.data.people import asked, who_uses
from arrange.data.piece import Piece, canonical
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.geometry.scene import HEAD, Placed, Scene
from arrange.geometry.spots import Bounded, along, gap, pillow
from arrange.rules.groups import easy_seats
from arrange.rules.protocol import Condition, L, PieceVariables, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import beds, has_head

NEAR = 600  # mm; the switch is on the stem, some 16 cm inside: `lamp-switch`, 762 mm at most
NIGHT = "at night"  # what a claim is about that speaks of a bed
FROM_COT = 900  # mm; a cord within a child's reach; common practice, no source


class LampAtSeat(Rule):
    """A lamp is within 60 cm of a sofa, an easy chair, a pillow or a desk, not before it.

    Before it is a lamp whose middle lies farther ahead than the front of the seat or desk,
    or than the pillow (half a metre from the head of the mattress). Each lamp has a place of
    its own: a sofa and a bed for two take a pair, all else one lamp, unless there are
    more lamps than such places. None is within 90 cm of a cot. Lamps that hang above 2 m
    do not count. The bed of somebody up at night has one that is switched on from it, unless
    a table beside it has room for one. The distance is the larger of the gap across and the
    gap up the plan.
    """

    id = "lamp-at-seat"
    title = "A lamp where somebody sits, sleeps or works"
    source = "lamp-switch"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim that counts the lamps, if there is something to light; one a bed at night."""
        lamps = _lamps(scenario)
        if not lamps or not _hosts(scenario):
            return []
        steps = (NEAR,) * len(lamps)
        counting = Claim(self.id, lamps, self.weight, steps, (), self.source, counted=True)
        return [counting, *self._at_night(scenario)]

    def _at_night(self, scenario: Scenario) -> Iterator[Claim]:
        """For each bed of somebody up at night without a table beside it: a lamp within reach."""
        tables = {p.anchor for p in scenario.pieces if p.is_a("bedside")}
        for bed in beds(scenario):
            need = asked(who_uses(bed, scenario.people), "lamp at the bed")
            if need and bed.name not in tables:
                about = (NIGHT, need.whose)
                yield Claim(self.id, (bed.name,), self.weight, (NEAR,), about, self.source)

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Each lamp beside one of them, and no more of them there than it takes."""
        if claim.about:
            (bed,) = (p for p in beds(model.scenario) if p.name in claim.subjects)
            lamps, lit = _lamps(model.scenario), model.literal(f"{bed.name} lit at night")
            model.one_of([_stands_at(model, model.place(one), bed) for one in lamps], when=[lit])
            return [lit]
        hosts = _hosts(model.scenario)
        stands = {
            (lamp, host.name): _stands_at(model, model.place(lamp), host)
            for lamp in claim.subjects
            for host in hosts
        }
        for host, most in _most(model.scenario, len(claim.subjects)).items():
            for too_many in combinations(claim.subjects, most + 1):
                model.forbid(*(stands[lamp, host] for lamp in too_many))
        return model.tally([self._good(model, lamp, stands) for lamp in claim.subjects])

    @staticmethod
    def _good(model: Verbs[L], lamp: str, stands: Mapping[tuple[str, str], L]) -> L:
        good = model.literal(f"{lamp} lights somebody")
        model.one_of([x for (name, _), x in stands.items() if name == lamp], when=[good])
        for cot in _cots(model.scenario):
            model.beyond(good, model.place(lamp), model.place(cot.name), FROM_COT)
        return good

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How many lamps have a place, and what is wrong with the first that has none."""
        if claim.about:
            return _measured_at_night(scene, claim)
        lamps = [scene.find(name) for name in claim.subjects]
        places = _given(scene, lamps)
        astray = [lamp for lamp in lamps if lamp.name not in places]
        level = len(lamps) - len(astray)
        if astray:
            text = _wrong(scene, astray[0], places)
        elif len(lamps) == 1:
            text = _distance(scene, lamps[0], scene.find(places[lamps[0].name]))
        else:
            text = "Each lamp stands where somebody sits, sleeps or works"
        return Measure(level, text, f"{level} of {len(lamps)}", f"within {scene.length(NEAR)}")


def _measured_at_night(scene: Scene, claim: Claim) -> Measure:
    """How far the nearest lamp is that can be switched on from the bed; else the nearest."""
    bed, whose = scene.find(claim.subjects[0]), claim.about[1]
    lamps = [scene.find(name) for name in _lamps(scene.scenario)]
    beside = [lamp for lamp in lamps if _lights(lamp, bed)]
    lamp = min(beside or lamps, key=lambda lamp: (_away(lamp, bed), lamp.name))
    far = "" if beside else ": too far to switch it on from there"
    if not beside and _away(lamp, bed) <= NEAR:
        far = ": farther down than the pillow"
    text = f"{_distance(scene, lamp, bed)}, for {whose}{far}"
    where = scene.length(_away(lamp, bed))
    return Measure(int(bool(beside)), text, where, f"within {scene.length(NEAR)}")


def _lamps(scenario: Scenario) -> tuple[str, ...]:
    found = [p for p in scenario.pieces if p.is_a("light") and p.bottom < HEAD]
    return tuple(p.name for p in sorted(found, key=canonical))


def _hosts(scenario: Scenario) -> list[Piece]:
    desks = [p for p in scenario.pieces if p.is_a("desk")]
    return [*easy_seats(scenario), *beds(scenario), *desks]


def _cots(scenario: Scenario) -> list[Piece]:
    return [p for p in scenario.pieces if p.is_a("cot")]


def _most(scenario: Scenario, lamps: int) -> dict[str, int]:
    """How many lamps each takes; none is counted where there are more lamps than places."""
    most = {p.name: 2 if p.roles & {"sofa", "for two"} else 1 for p in _hosts(scenario)}
    return most if lamps <= sum(most.values()) else {}


def _lit(piece: Piece, bounds: Bounded, facing: Facing) -> Bounded:
    """What wants the light: the piece, of a bed the pillow."""
    return pillow(bounds, piece, facing) if has_head(piece) else bounds


def _behind_front(lamp: Bounded, lit: Bounded, facing: Facing) -> Condition:
    return sum(along(lamp, facing)) <= 2 * along(lit, facing)[1]


def _stands_at(model: Verbs[L], lamp: PieceVariables[L], host: Piece) -> L:
    stands, bounds = model.literal(f"{lamp.name} at {host.name}"), model.place(host.name)
    for facing in FACINGS:
        when = [stands, model.faces(host.name, facing)]
        lit = _lit(host, bounds, facing)
        model.when(when, _behind_front(lamp, lit, facing))
        model.when(when, lit.x0 - lamp.x1 <= NEAR, lamp.x0 - lit.x1 <= NEAR)
        model.when(when, lit.y0 - lamp.y1 <= NEAR, lamp.y0 - lit.y1 <= NEAR)
    return stands


def _away(lamp: Placed, host: Placed) -> int:
    return gap(lamp, _lit(host.piece, host, host.facing))


def _lights(lamp: Placed, host: Placed) -> bool:
    """Whether it is near enough, and not in front."""
    lit = _lit(host.piece, host, host.facing)
    return _away(lamp, host) <= NEAR and _behind_front(lamp, lit, host.facing)


def _near_cot(scene: Scene, lamp: Placed) -> Placed | None:
    cots = [scene.find(cot.name) for cot in _cots(scene.scenario)]
    return next((cot for cot in cots if gap(lamp, cot) < FROM_COT), None)


def _given(scene: Scene, lamps: Sequence[Placed]) -> dict[str, str]:
    """A place for as many lamps as can have one: the lamp's name to that of its host."""
    hosts = [scene.find(p.name) for p in _hosts(scene.scenario)]
    most = _most(scene.scenario, len(lamps))
    fits = {
        lamp.name: [h.name for h in hosts if _lights(lamp, h) and not _near_cot(scene, lamp)]
        for lamp in lamps
    }
    places: dict[str, str] = {}

    def finds(lamp: str, tried: set[str]) -> bool:
        """Whether it gets a place, others moving on to another of theirs if need be."""
        for host in fits[lamp]:
            if host in tried:
                continue
            tried.add(host)
            there = [name for name, place in places.items() if place == host]
            if len(there) < most.get(host, len(lamps)) or any(finds(x, tried) for x in there):
                places[lamp] = host
                return True
        return False

    for lamp in lamps:
        finds(lamp.name, set())
    return places


def _name(host: Placed) -> str:
    return f"the head of {the(host.name)}" if has_head(host.piece) else the(host.name)


def _distance(scene: Scene, lamp: Placed, host: Placed) -> str:
    where = scene.how_far(_away(lamp, host))
    return f"{the(lamp.name, first=True)} stands {where} {_name(host)}"


def _wrong(scene: Scene, lamp: Placed, places: Mapping[str, str]) -> str:
    cot = _near_cot(scene, lamp)
    if cot is not None:
        return f"{_distance(scene, lamp, cot)}, in reach of the child"
    host = min((scene.find(p.name) for p in _hosts(scene.scenario)), key=lambda h: _away(lamp, h))
    text = _distance(scene, lamp, host)
    if _away(lamp, host) > NEAR:
        return f"{text}, the nearest to need it"
    if host.name in places.values():
        return f"{text}, which has a lamp already"
    what, where = the(lamp.name, first=True), the(host.name)
    if _name(host) != where:
        return f"{what} stands farther down {where} than the pillow"
    return f"{what} stands in front of {where}, not beside or behind it"
