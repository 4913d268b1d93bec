"""Nothing that harms is within reach of a cot."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Literal

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import Room
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import Bounded, Spot, fixture_spot, gap, opening_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule, off_its_wall
from arrange.rules.selectors import square_ends

Sort = Literal["window", "heat", "cord", "above", "foothold"]
# mm from the cot: `cot-window-gap`, `cot-monitor`, `cot-foothold-mm`; what hangs is ours.
REACH: dict[Sort, int] = {"window": 900, "heat": 900, "cord": 900, "above": 300, "foothold": 450}
SOURCES: dict[Sort, str] = {
    "window": "cot-window-gap",
    "heat": "cot-foothold",
    "cord": "cot-monitor",
    "above": "cot-foothold",
    "foothold": "cot-foothold-mm",
}
FOOTHOLD = (150, 1000)  # mm; how high a top is that a child climbs out on
WALL_GAP = 300  # mm; a child caught in less, `cot-wall-gap`
TIGHT = 20  # mm; no more than the skirting board takes; common practice, no source
HEATERS = {"radiator", "heater", "convector"}


class CotHarm(Rule):
    """A cot is out of reach of windows, heat, cords, shelves above and footholds.

    900 mm from windows, from heaters and fires, and from lamps and screens for their
    cords; 300 mm from what hangs; 450 mm from a top 150 to 1000 mm high, that of the
    changing table too. Distances are the larger of the gaps across and up the plan. Its
    ends are within 20 mm of the wall beside them, or 300 mm off. Which sockets are in use
    nobody knows beforehand: what is plugged in counts instead. Sources `cot-window-gap`,
    `cot-monitor`, `cot-foothold`, `cot-foothold-mm`, `cot-wall-gap`.
    """

    id = "cot-harm"
    title = "A cot out of reach of harm"
    source = "cot-foothold"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """For each cot, one claim for each sort of harm there is, and one for its walls."""
        found: list[Claim] = []
        for cot in (p for p in scenario.pieces if p.is_a("cot")):
            sorts = [sort for sort in REACH if _names(scenario, cot, sort)]
            found += [self._claim(cot, REACH[sort], sort, SOURCES[sort]) for sort in sorts]
            if cot.backs:
                found.append(self._claim(cot, WALL_GAP, "wall", "cot-wall-gap"))
        return found

    def _claim(self, cot: Piece, step: int, about: str, source: str) -> Claim:
        return Claim(
            self.id,
            (cot.name,),
            self.weight,
            (step,),
            (about,),
            source,
            first_rank=True,
            protects=True,
        )

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """So far from everything of that sort, or from the walls beside it."""
        name, sort = claim.subjects[0], claim.about[0]
        level = model.literal(f"{name} safe from {sort}")
        scenario = model.scenario
        if sort == "wall":
            model.backed(level, name)
            for wall in model.wall_choices(name):
                starts = _starts(scenario.room, wall, scenario.piece(name).width)
                model.starts_in(level, name, wall, starts)
            return [level]
        cot = model.place(name)
        for spot in _spots(scenario, sort):
            model.beyond(level, cot, spot, claim.steps[0])
        for other in _pieces(scenario, cot.piece, sort):
            model.beyond(level, cot, model.place(other.name), claim.steps[0])
        return [level]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The nearest thing of that sort."""
        cot, sort = scene.find(claim.subjects[0]), claim.about[0]
        wanted = scene.length(claim.steps[0])
        if sort == "wall":
            return _wall_gap(scene, claim)
        things: list[Bounded] = list(_spots(scene.scenario, sort))
        things += [scene.find(p.name) for p in _pieces(scene.scenario, cot.piece, sort)]
        names = _names(scene.scenario, cot.piece, sort)
        away, name = min(zip((gap(cot, t) for t in things), names, strict=True))
        far = scene.length(away)
        level = int(away >= claim.steps[0])
        end = "" if level else f"; it should be {wanted} or more"
        said = f"{the(cot.name, first=True)} is {scene.how_far(away)} {the(name)}{end}"
        return Measure(level, said, far, wanted)


def _wall_gap(scene: Scene, claim: Claim) -> Measure:
    cot, wanted = scene.find(claim.subjects[0]), f"none, or {scene.length(WALL_GAP)}"
    stretch = scene.wall_stretch(cot)
    if stretch is None:
        return off_its_wall(cot.name, wanted)
    wall, start, _ = stretch
    room, width = scene.scenario.room, cot.piece.width
    good = any(low <= start <= high for low, high in _starts(room, wall, width))
    gap_words = "no gap" if good else "a gap"
    who = the(cot.name, first=True)
    said = f"{who} leaves {gap_words} to the wall beside it that a child could get caught in"
    return Measure(int(good), said, "none" if good else "a gap", wanted)


def _starts(room: Room, wall: int, width: int) -> list[tuple[int, int]]:
    """Where the left end of a cot can be along a wall without a gap to be caught in."""
    last = room.walls[wall].length - width
    left, right = square_ends(room, wall)
    anywhere = (0, math.ceil(room.walls[wall].length))
    starts = [(0, TIGHT), (WALL_GAP, anywhere[1])] if left else [anywhere]
    tight = (math.ceil(last - TIGHT), anywhere[1])
    ends = [(0, math.floor(last - WALL_GAP)), tight] if right else [anywhere]
    return [(max(a, c), min(b, d)) for a, b in starts for c, d in ends]


def _names(scenario: Scenario, cot: Piece, sort: Sort) -> list[str]:
    """What there is of that sort: what is built in, then pieces."""
    built = [spot.name for spot in _spots(scenario, sort)]
    return built + [piece.name for piece in _pieces(scenario, cot, sort)]


def _spots(scenario: Scenario, sort: Sort) -> list[Spot]:
    room = scenario.room
    if sort == "window":
        return [opening_spot(room, w) for w in room.windows]
    if sort == "heat":
        return [fixture_spot(room, f) for f in room.fixtures if f.burns or f.kind in HEATERS]
    return []


def _pieces(scenario: Scenario, cot: Piece, sort: Sort) -> list[Piece]:
    low, high = FOOTHOLD
    others = [p for p in scenario.pieces if p.name != cot.name and not p.flat]
    if sort == "cord":
        return [p for p in others if p.roles & {"light", "screen"}]
    if sort == "above":
        return [p for p in others if p.bottom]
    if sort == "foothold":
        return [p for p in others if not p.bottom and low <= p.top <= high and not p.is_a("cot")]
    return []
