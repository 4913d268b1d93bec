"""Shapes as lists of points, in mm: exact ones rounded to 0.001, walkable floor to 0.1.

The empty room as data. Lengths in mm.

Placed pieces as data: where they stand and the floor they need. Lengths in mm.

The walkway of an arrangement as data: its floor and what it reaches. Lengths in mm.

Room to spare as data. Lengths in mm.

A result as plain data, for ``result.json`` and for scripts.

Every length is in mm, every angle a quarter turn, every point ``[x, y]`` on the
plan with x to the right and y up. The page ``scenarios/RESULT.md`` describes all
of it. Nothing in here depends on how long the run took or where it ran, so the
same result gives the same bytes; times stand apart in ``run_data``.

Sets that clash, as plain data; all lengths in mm.

A swap, and the room as it stands today, as plain data; mm and points from 0 to 100.

What would have to give, as plain data; mm and points from 0 to 100.

Why nothing works, as plain data; all lengths in mm.

A ladder of sizes, and the exact largest size, as plain data; mm and points from 0 to 100.

A comparison as data: ``compare.json`` and ``compare.csv``. Lengths in mm, points 0 to 100.
"""

from __future__ import annotations

import csv
import io
import json
import platform
from collections.abc import Iterable
from dataclasses import fields
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.change import Change
from arrange.data.comparison import LETTERS, Comparison, Option, Row
from arrange.data.conflict import Arithmetic, Conflict, Requirement, Section
from arrange.data.piece import Clearance, Piece
from arrange.data.repair import Relaxation, Repair, Repairs, Why
from arrange.data.result import Families, Gap, Reason, Result, Suggestion, Verdict
from arrange.data.room import Door, Fixture, Room, Wall, Window
from arrange.data.scenario import Scenario, Unit
from arrange.data.sizes import Ladder, Largest, Rung
from arrange.data.sources import source
from arrange.data.spare import Spare
from arrange.data.swap import Answer, Compared, Moved, Plan, Reading, Swap, Today
from arrange.geometry.goals import goals, walk_of
from arrange.geometry.scene import DEEPEST, Placed, Scene
from arrange.geometry.shapes import door_floor, facing_of, fixture_keep, fixture_shape, opening_span
from arrange.geometry.walking import polygons
from arrange.rules import all_regions
from arrange.whatif.requirements import describe
from arrange.whatif.slack import spares
from arrange.words.cautions import cautions
from arrange.words.sizes import ladder_words, largest_words, meaning
from arrange.words.swap import headline, held_words
from arrange.words.why import repair_words

# Arcs of the walkable floor are drawn with chords that are good to 0.2 mm.
GRID = 0.1
Number = int | float


def number(mm: float) -> Number:
    """A length without needless decimals: whole where it is whole to 0.001 mm.

    >>> number(12.0), number(12.3456), number(-0.0001)
    (12, 12.346, 0)
    """
    rounded = round(mm, 3)
    return int(rounded) if rounded == int(rounded) else rounded


def ring(points: Iterable[tuple[float, float]]) -> list[list[Number]]:
    """Points in order; a closed ring is given without repeating its first point."""
    found = [[number(x), number(y)] for x, y in points]
    return found[:-1] if len(found) > 1 and found[0] == found[-1] else found


def outline(shape: Polygon) -> list[list[Number]]:
    """The corners of a polygon without holes; an empty one has none."""
    return ring(shape.exterior.coords)


def with_holes(shape: BaseGeometry) -> list[dict[str, Any]]:
    """Every part of a shape with its outline and its holes, in a fixed order."""
    tidy = shapely.set_precision(shape, GRID).normalize()
    parts = [
        {
            "outline": ring(p.exterior.coords),
            "holes": sorted(ring(h.coords) for h in p.interiors),
        }
        for p in polygons(tidy)
    ]
    return sorted(parts, key=lambda part: part["outline"])


def room_data(room: Room) -> dict[str, Any]:
    """Outline, walls, doors, windows and what is built in."""
    return {
        "outline": ring(room.corners),
        "ceiling": room.ceiling,
        "walls": [_wall(w) for w in room.walls],
        "doors": [_door(room, d) for d in room.doors],
        "windows": [_window(room, w) for w in room.windows],
        "fixtures": [_fixture(room, f) for f in room.fixtures],
    }


def keep_off_data(scenario: Scenario) -> list[dict[str, Any]]:
    """Floor that some pieces must stay off, and which pieces those are."""
    regions = [
        (r, [p.name for p in scenario.pieces if r.holds_off(p)]) for r in all_regions(scenario)
    ]
    return [
        {"why": region.why, "polygon": outline(region.shape), "pieces": names}
        for region, names in regions
        if names and not region.shape.is_empty
    ]


def _wall(wall: Wall) -> dict[str, Any]:
    return {
        "name": wall.name,
        "part_of": wall.part_of or wall.name,
        "left_end": list(wall.start),
        "right_end": list(wall.end),
        "length": number(wall.length),
    }


def _opening(room: Room, opening: Door | Window) -> dict[str, Any]:
    return {
        "name": opening.name,
        "wall": room.walls[opening.wall].name,
        "from_left": opening.offset,
        "width": opening.width,
        "ends": ring(opening_span(room, opening)),
    }


def _door(room: Room, door: Door) -> dict[str, Any]:
    return {
        **_opening(room, door),
        "height": door.height,
        "opens": door.opens,
        "hinge": door.hinge,
        "main": door is room.main_door,
    }


def _window(room: Room, window: Window) -> dict[str, Any]:
    return {
        **_opening(room, window),
        "sill": window.sill,
        "head": window.head,
        "must_open": window.must_open,
        "escape": window.escape,
    }


def _fixture(room: Room, fixture: Fixture) -> dict[str, Any]:
    return {
        "name": fixture.name,
        "kind": fixture.kind,
        "wall": None if fixture.wall is None else room.walls[fixture.wall].name,
        "polygon": outline(fixture_shape(fixture)),
        "bottom": fixture.bottom,
        "top": fixture.top,
        "solid": fixture.solid,
        "keep_free": outline(fixture_keep(room, fixture)),
        "keep_free_below": fixture.keep_below if fixture.keep else 0,
    }


def piece_data(scene: Scene, placed: Placed) -> dict[str, Any]:
    """One piece where it stands, with every clearance and the side that serves it."""
    piece = placed.piece
    return {
        "name": piece.name,
        "kind": piece.kind,
        "width": piece.width,
        "depth": piece.depth,
        "bottom": piece.bottom,
        "top": piece.top,
        "flat": piece.flat,
        "major": piece.major,
        "goes_with": piece.anchor,
        "placement": placement_data(scene.scenario.room, placed.placement),
        "footprint": outline(placed.body),
        "clearances": [_clearance(scene, placed, c) for c in piece.clearances],
    }


def placement_data(room: Room, placement: Placement) -> dict[str, Any]:
    """The wall at its back if any, the way it faces and its place.

    ``x`` and ``y`` are the lower left corner of its footprint on the plan; for a
    piece at a slanted wall ``from_left`` and ``off_wall`` say where it is instead.
    """
    straight = placement.facing is not None
    return {
        "wall": None if placement.wall is None else room.walls[placement.wall].name,
        "facing": facing_of(placement, room),
        "slanted": not straight,
        "x": placement.x if straight else None,
        "y": placement.y if straight else None,
        "from_left": None if straight else placement.offset,
        "off_wall": None if straight else placement.inward,
        "quarter_turns": 0 if straight else placement.quarter,
    }


def _clearance(scene: Scene, placed: Placed, clearance: Clearance) -> dict[str, Any]:
    """The side with the most free floor is the one used; ties go to the first."""
    depths = [scene.side_depth(placed, clearance, side) for side in clearance.sides]
    best = max(range(len(depths)), key=lambda i: depths[i])
    side, depth = clearance.sides[best], depths[best]

    def strip(deep: int) -> list[Any]:
        return outline(scene.zone(placed, clearance, side, deep)) if deep else []

    return {
        "name": clearance.name,
        "purpose": clearance.purpose,
        "sides_allowed": list(clearance.sides),
        "side": side,
        "least": clearance.least,
        "comfortable": clearance.comfortable,
        "free": depth,
        "free_is_capped": depth == DEEPEST,
        "below": clearance.height,
        "walkway": clearance.walk and clearance.least > 0,
        "least_floor": strip(clearance.least),
        "comfortable_floor": strip(clearance.comfortable),
        "source": clearance.source or "common-practice",
        "status": clearance.status,
        "overridden": clearance.overridden,
    }


def gap_data(gap: Gap) -> dict[str, Any]:
    """A measured gap: its ends, its length and the two things it lies between."""
    return {
        "between": list(gap.between),
        "length": gap.length,
        "ends": ring((gap.start, gap.end)),
    }


def walkway_data(scene: Scene) -> dict[str, Any]:
    """Its width, all floor it can sweep over from the main door, and what it reaches."""
    scenario = scene.scenario
    door = scenario.room.main_door
    walk = walk_of(scene)
    return {
        "width": scenario.walkway,
        "overridden": scenario.walkway_overridden,
        "from": None if door is None else door.name,
        "door_floor": []
        if door is None
        else outline(door_floor(scenario.room, door, scenario.walkway)),
        "region": with_holes(walk.region()),
        "reaches": [
            {
                "name": goal.name,
                "clearance": goal.clearance or None,
                "purpose": goal.purpose,
                "reached": walk.reaches(goal),
                "zones": [outline(zone) for zone in goal.zones],
            }
            for goal in goals(scene)
        ],
    }


def spare_data(spare: Spare, unit: Unit) -> dict[str, Any]:
    """One line across the room, or the way in, and what there is to spare on it."""
    return {
        "between": list(spare.between),
        "direction": spare.direction,
        "chain": spare.chain,
        "pieces": list(spare.pieces),
        "spare": spare.mm,
        "at_least": not spare.exact,
        "sentence": spare.sentence(unit),
    }


FORMAT = 1
LIBRARIES = ("ortools", "shapely", "numpy", "matplotlib")


def as_data(result: Result, files: tuple[str, ...] = ()) -> dict[str, Any]:
    """Everything about a result but its times, as plain data; points are 0 to 100.

    ``files`` are the names of the pictures written beside it.
    """
    scenario = result.scenario
    best = result.suggestions[0].verdict.score if result.suggestions else None
    return {
        "format": FORMAT,
        "title": scenario.title,
        "outcome": result.outcome,
        "score": None if best is None else points(best),
        "at_most": None if best is None else points(result.bound),
        "gap": None if best is None else points(result.bound - best),
        "interrupted": result.interrupted,
        "seed": result.seed,
        "unit": scenario.unit,
        "feel": list(scenario.feel),
        "notes": list(result.notes),
        "versions": versions(),
        "scenario_file": _made_from(scenario),
        "files": list(files),
        "room": room_data(scenario.room),
        "keep_off": keep_off_data(scenario),
        "arrangements": [suggestion_data(scenario, s) for s in result.suggestions],
        "families": None if result.families is None else _families(scenario, result.families),
        "why": None if result.why is None else conflict_data(scenario, result.why),
    }


def run_data(result: Result, limit: float) -> dict[str, Any]:
    """What differs from run to run: seconds taken in all, to the first find and for each."""
    return {
        "seconds": round(result.seconds, 3),
        "seconds_to_first": _rounded(result.first_seconds),
        "seconds_allowed": limit,
        "seconds_each": [round(s.seconds, 3) for s in result.suggestions],
    }


def suggestion_data(scenario: Scenario, suggestion: Suggestion) -> dict[str, Any]:
    """One suggestion: its score, reasons, cautions, pieces, walkway and gaps."""
    scene = Scene(scenario, suggestion.arrangement)
    verdict = suggestion.verdict
    return {
        "rank": suggestion.rank,
        "score": points(verdict.score),
        "proven": suggestion.proven,
        "at_most": points(suggestion.bound),
        "reasons": [reason_data(r) for r in verdict.reasons],
        "cautions": list(cautions(scenario, suggestion.arrangement, full=True)),
        "pieces": [piece_data(scene, placed) for placed in scene.placed],
        "walkway": walkway_data(scene),
        "tightest_gaps": [gap_data(g) for g in verdict.gaps],
        "spare": [spare_data(s, scenario.unit) for s in spares(scenario, suggestion.arrangement)],
    }


def as_text(data: dict[str, Any]) -> str:
    """Data as JSON text: two spaces a level, lists of numbers on one line, a newline at the end.

    >>> print(as_text({"a": [[1, 2], [3, 4.5]], "b": []}), end="")
    {
      "a": [[1, 2], [3, 4.5]],
      "b": []
    }
    """
    return _written(data, "\n") + "\n"


def _written(value: Any, newline: str) -> str:  # noqa: ANN401
    deeper = newline + "  "
    if isinstance(value, dict) and value:
        rows = [
            f"{json.dumps(k, ensure_ascii=False)}: {_written(v, deeper)}" for k, v in value.items()
        ]
        return "{" + ",".join(deeper + row for row in rows) + newline + "}"
    if isinstance(value, list) and not _numbers(value):
        return "[" + ",".join(deeper + _written(v, deeper) for v in value) + newline + "]"
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _numbers(values: list[Any]) -> bool:
    """Whether a list holds numbers only, or lists of them."""
    return all(_numbers(v) if isinstance(v, list) else isinstance(v, int | float) for v in values)


@cache
def versions() -> dict[str, str]:
    """The versions that have a say in the result."""
    found = {name: version(name) for name in ("arrange", *LIBRARIES)}
    return {"arrange": found.pop("arrange"), "python": platform.python_version(), **found}


def points(tenths: int) -> float:
    """Tenths of a point as points.

    >>> points(792)
    79.2
    """
    return tenths / 10


def _made_from(scenario: Scenario) -> str | None:
    """The scenario file as it was named, a full path cut to its name; None if it was no file."""
    path = Path(scenario.source_file)
    if path.suffix.lower() != ".toml":
        return None
    return path.name if path.is_absolute() else path.as_posix()


def _rounded(seconds: float | None) -> float | None:
    return None if seconds is None else round(seconds, 3)


def reason_data(reason: Reason) -> dict[str, Any]:
    """One line of the score."""
    return {
        "rule": reason.rule,
        "subjects": list(reason.subjects),
        "sentence": reason.sentence,
        "measured": reason.measured,
        "wanted": reason.wanted,
        "won": points(reason.won),
        "possible": points(reason.possible),
        "source": {
            "id": reason.source.id,
            "title": reason.source.title,
            "status": reason.source.status,
        },
        "overridden": reason.overridden,
    }


def _families(scenario: Scenario, families: Families) -> dict[str, Any]:
    return {
        "count": len(families.families),
        "complete": families.complete,
        "undecided": families.undecided,
        "families": [
            {
                "score": points(family.score),
                "proven": family.proven,
                "stands": [
                    {"model": model, "wall": None if wall == "free" else wall, "facing": facing}
                    for model, wall, facing in family.key
                ],
                "placements": [
                    {"piece": p.piece, **placement_data(scenario.room, p)}
                    for p in family.arrangement.placements
                ],
            }
            for family in families.families
        ],
    }


def conflict_data(scenario: Scenario, conflict: Conflict) -> dict[str, Any]:
    """One set, what shows that each member is needed, and the arithmetic."""
    return {
        "confirmed": conflict.confirmed,
        "minimal": conflict.minimal,
        "members": [_requirement(scenario, m, conflict) for m in conflict.requirements],
        "without": [
            {"member": i, "placements": _placements(scenario, w.arrangement)}
            for w in conflict.without
            for i, m in enumerate(conflict.requirements, start=1)
            if m == w.requirement
        ],
        "arithmetic": None
        if conflict.arithmetic is None
        else _arithmetic(scenario, conflict, conflict.arithmetic),
    }


def _requirement(
    scenario: Scenario, requirement: Requirement, conflict: Conflict
) -> dict[str, Any]:
    return {
        "kind": requirement.kind,
        "name": requirement.name,
        "part": requirement.part,
        "words": describe(scenario, requirement, conflict.requirements),
    }


def _arithmetic(scenario: Scenario, conflict: Conflict, figures: Arithmetic) -> dict[str, Any]:
    number = (
        conflict.requirements.index(figures.requirement) + 1
        if figures.requirement is not None
        else None
    )
    return {
        "words": figures.text,
        "member": number,
        "side": figures.side or None,
        "asked": figures.asked or None,
        "at_most": figures.most if number is not None else None,
        "proven": figures.proven,
        "section": None if figures.section is None else _section(figures.section),
        "placements": None
        if figures.arrangement is None
        else _placements(scenario, figures.arrangement),
    }


def _section(section: Section) -> dict[str, Any]:
    return {
        "start": list(section.start),
        "end": list(section.end),
        "asked": section.asked,
        "there": section.there,
        "beside": section.beside or None,
        "crossed": [
            {"what": c.what, "body": c.body, "there": c.end - c.start, "asked": c.asked}
            for c in section.crossed
        ],
    }


def _placements(scenario: Scenario, arrangement: Arrangement) -> list[dict[str, Any]]:
    return [{"piece": p.piece, **placement_data(scenario.room, p)} for p in arrangement.placements]


SWAP, TODAY = "swap.json", "today.json"


def swap_data(swap: Swap, files: tuple[str, ...] = ()) -> dict[str, Any]:
    """Everything about a swap but its times; ``files`` are the names written with it."""
    return {
        "format": FORMAT,
        "title": swap.before.title,
        "answer": swap.answer,
        "sentence": headline(swap),
        "interrupted": swap.interrupted,
        "seed": swap.seed,
        "unit": swap.before.unit,
        "notes": list(swap.notes),
        "versions": versions(),
        "files": list(files),
        "changes": [change_data(c) for c in swap.changes],
        "kept": list(swap.kept),
        "same_scale": swap.same_scale,
        "price_difference": swap.price,
        "room": room_data(swap.before.room),
        "everything_else_may_move": _reading(swap.free),
        "nothing_else_moves": {
            "means": held_words(swap),
            "held_where": swap.start,
            "held": list(swap.holds),
            "follow": list(swap.follows),
            "slide": [{"piece": p, "along": wall or None} for p, wall in swap.slides],
            **_reading(swap.held),
        },
    }


def today_data(today: Today, files: tuple[str, ...] = ()) -> dict[str, Any]:
    """The room as it stands, judged."""
    return {
        "format": FORMAT,
        "title": today.scenario.title,
        "works": today.verdict.works,
        "unit": today.scenario.unit,
        "left_out": list(today.left_out),
        "apart": list(today.apart),
        "versions": versions(),
        "files": list(files),
        "room": room_data(today.scenario.room),
        "keep_off": keep_off_data(today.scenario),
        "broken": [
            {"rule": b.rule, "subjects": list(b.subjects), "sentence": b.sentence}
            for b in today.verdict.breaches
        ],
        **_arrangement(Scene(today.scenario, today.arrangement), today.verdict),
    }


def _arrangement(scene: Scene, verdict: Verdict) -> dict[str, Any]:
    return {
        "score": points(verdict.score),
        "reasons": [reason_data(r) for r in verdict.reasons],
        "cautions": list(cautions(scene.scenario, scene.arrangement, full=True)),
        "pieces": [piece_data(scene, placed) for placed in scene.placed],
        "walkway": walkway_data(scene),
        "tightest_gaps": [gap_data(g) for g in verdict.gaps],
    }


def change_data(change: Change) -> dict[str, Any]:
    """One change by its name and what it sets; a whole piece by its kind and sizes."""
    found: dict[str, Any] = {"change": type(change).__name__}
    for each in fields(change):
        value = getattr(change, each.name)
        found[each.name] = _piece(value) if isinstance(value, Piece) else value
    return found


def _piece(piece: Piece) -> dict[str, Any]:
    return {
        "name": piece.name,
        "kind": piece.kind,
        "width": piece.width,
        "depth": piece.depth,
        "height": piece.height,
        "price": piece.price,
        "goes_with": piece.anchor,
    }


def _reading(reading: Reading) -> dict[str, Any]:
    return {
        "before": _answer(reading.before),
        "after": _answer(reading.after),
        "reasons": [_compared(c) for c in reading.reasons],
        "moved": [_moved(m) for m in reading.moved],
    }


def _answer(answer: Answer) -> dict[str, Any]:
    return {"answer": answer.answer, "plan": None if answer.plan is None else _plan(answer.plan)}


def _plan(plan: Plan) -> dict[str, Any]:
    own: Scenario = plan.scenario
    return {
        "proven": plan.proven,
        "at_most": points(plan.bound),
        **_arrangement(Scene(own, plan.arrangement), plan.verdict),
    }


def _compared(one: Compared) -> dict[str, Any]:
    def describe(reason: Reason | None) -> dict[str, Any] | None:
        return None if reason is None else reason_data(reason)

    return {
        "rule": one.rule,
        "subjects": list(one.subjects),
        "gained": points(one.gained),
        "before": describe(one.before),
        "after": describe(one.after),
    }


def _moved(one: Moved) -> dict[str, Any]:
    return {
        "piece": one.piece,
        "was": one.was or None,
        "move": one.move,
        "far": one.far,
        "words": one.words,
    }


def repair_data(given: Repairs) -> dict[str, Any]:
    """Everything about the proposals, cheapest first."""
    return {
        "sentence": repair_words(given),
        "candidates": given.candidates,
        "at_once": given.at_once,
        "complete": given.closed,
        "undecided": given.undecided,
        "proposals": [_repair_data(p) for p in given.repairs],
    }


def _repair_data(repair: Repair) -> dict[str, Any]:
    return {
        "cost": repair.cost,
        "cheapest": repair.cheapest,
        "gives": [_gives(one) for one in repair.gives],
        "walkway": repair.scenario.walkway,
        "arrangement": suggestion_data(repair.scenario, repair.suggestion),
    }


def _gives(one: Relaxation) -> dict[str, Any]:
    return {
        "sort": one.key[0],
        "names": [n for n in one.names if not (one.key[0] == "wish" and n.isdigit())],
        "words": one.words,
        "note": one.note,
        "cost": one.cost,
        "cost_is_for": one.reason,
        "below_least": one.below,
        "changes": [change_data(c) for c in one.changes],
    }


WHY = "why.json"


def why_data(why: Why, files: tuple[str, ...] = ()) -> dict[str, Any]:
    """Everything about the answer but its times; ``files`` are the names written with it."""
    found = why.conflicts
    scenario = found.scenario
    return {
        "format": FORMAT,
        "title": scenario.title,
        "answer": found.answer,
        "interrupted": why.interrupted,
        "seed": why.seed,
        "unit": scenario.unit,
        "versions": versions(),
        "files": list(files),
        "untouchable": list(why.untouchable),
        "room": room_data(scenario.room),
        "keep_off": keep_off_data(scenario),
        "faults_of_the_room": list(found.room),
        "clashes": [conflict_data(scenario, conflict) for conflict in found.sets],
        "no_other_clash_beside_these": found.complete,
        "would_have_to_give": None if why.repairs is None else repair_data(why.repairs),
    }


LADDER, LARGEST = "ladder.json", "largest.json"


def ladder_data(ladder: Ladder, files: tuple[str, ...] = ()) -> dict[str, Any]:
    """Everything about a ladder; ``files`` are the names written with it."""
    best, comfortable, fall = ladder.largest, ladder.largest_comfortable, ladder.fall
    return {
        "format": FORMAT,
        "title": ladder.scenario.title,
        "piece": ladder.piece,
        "sizes_of": ladder.table.title,
        "sentence": " ".join(ladder_words(ladder)),
        "comfortably_means": meaning(ladder),
        "notes": list(ladder.table.notes),
        "interrupted": ladder.interrupted,
        "unit": ladder.scenario.unit,
        "versions": versions(),
        "files": list(files),
        "largest": None if best is None else best.size.label,
        "largest_comfortable": None if comfortable is None else comfortable.size.label,
        "falls_off": None
        if fall is None
        else {
            "from": fall.before.size.label,
            "to": fall.after.size.label,
            "loss": points(fall.loss),
            "proven": fall.sure,
        },
        "sizes": [_rung(ladder.scenario.room, rung) for rung in ladder.rungs],
    }


def _rung(room: Room, rung: Rung) -> dict[str, Any]:
    full, of = rung.others
    describe = source(rung.size.source)
    found = rung.verdict is not None
    return {
        "label": rung.size.label,
        "kind": rung.size.piece.kind,
        "width": rung.size.piece.width,
        "depth": rung.size.piece.depth,
        "height": rung.size.piece.height,
        "source": {"id": describe.id, "title": describe.title, "status": describe.status},
        "works": rung.works,
        "works_comfortably": rung.comfortable,
        "scale": rung.scale,
        "score": None if rung.score is None else points(rung.score),
        "at_most": points(rung.bound) if found else None,
        "proven_best": rung.proven,
        "others_comfortable": {"full": full, "of": of} if found else None,
        "places": _places(room, rung.arrangement),
    }


def largest_data(found: Largest, scenario: Scenario, files: tuple[str, ...] = ()) -> dict[str, Any]:
    """Everything about a largest size; ``scenario`` is the one that was asked about."""
    return {
        "format": FORMAT,
        "title": scenario.title,
        "piece": found.piece,
        "dimension": found.dimension,
        "answer": found.answer,
        "sentence": largest_words(found, scenario),
        "size": found.size,
        "proven_impossible_from": found.next,
        "not_decided": None if found.undecided is None else list(found.undecided),
        "interrupted": found.interrupted,
        "unit": scenario.unit,
        "versions": versions(),
        "files": list(files),
        "places": _places(scenario.room, found.arrangement),
    }


def _places(room: Room, arrangement: Arrangement | None) -> list[dict[str, Any]] | None:
    if arrangement is None:
        return None
    return [{"piece": p.piece, **placement_data(room, p)} for p in arrangement.placements]


def compare_data(comparison: Comparison, files: tuple[str, ...] = ()) -> dict[str, Any]:
    """Everything about a comparison; ``files`` are the names of what was written beside it."""
    return {
        "format": FORMAT,
        "works": comparison.works,
        "one_scale": comparison.one_scale,
        "remark": comparison.remark,
        "best": [LETTERS[i] for i in comparison.best],
        "interrupted": comparison.interrupted,
        "versions": versions(),
        "files": list(files),
        "options": [_option(LETTERS[i], o) for i, o in enumerate(comparison.options)],
        "rows": [_row(row) for row in comparison.rows],
    }


def _option(letter: str, option: Option) -> dict[str, Any]:
    scenario = option.scenario
    placed = option.arrangement.placements if option.arrangement else ()
    return {
        "option": letter,
        "asked": option.asked,
        "title": scenario.title,
        "unit": scenario.unit,
        "origin": option.origin,
        "state": option.state,
        "works": option.works,
        "score": None if option.score is None else points(option.score),
        "at_most": None if option.at_most is None else points(option.at_most),
        "broken": list(option.broken),
        "notes": list(option.notes),
        "to_buy": option.cost.total,
        "without_price": list(option.cost.unpriced),
        "tightest_gaps": [gap_data(g) for g in option.gaps],
        "spare": [spare_data(s, scenario.unit) for s in option.spare],
        "placements": [{"piece": p.piece, **placement_data(scenario.room, p)} for p in placed],
    }


def _row(row: Row) -> dict[str, Any]:
    return {
        "rule": row.rule,
        "title": row.title,
        "subjects": list(row.subjects),
        "part": row.part,
        "best": [LETTERS[i] for i in row.best],
        "reasons": [None if r is None else reason_data(r) for r in row.reasons],
    }


def compare_csv(comparison: Comparison) -> str:
    """The comparison for a spreadsheet: one row a reason, one column an option.

    Commas between, points as decimals, lines ended by CR LF as spreadsheets expect.
    What an option is not asked is left empty. Texts that a spreadsheet would take for
    a formula get an apostrophe before them.
    """
    out = io.StringIO()
    table = csv.writer(out)
    options = comparison.options

    def write(*cells: object) -> None:
        table.writerow([_safe(c) for c in cells])

    write("what", "about", "of points", *LETTERS[: len(options)])
    write("option", "", "", *(o.asked for o in options))
    write("title", "", "", *(o.scenario.title for o in options))
    write("state", "", "", *(o.state for o in options))
    write("from", "", "", *(o.origin for o in options))
    write("score", "", 100, *(_points(o.score) for o in options))
    write("at most", "", 100, *(_points(o.at_most) for o in options))
    write("to buy", "", "", *("" if o.cost.total is None else o.cost.total for o in options))
    write("pieces to buy without a price", "", "", *(len(o.cost.unpriced) for o in options))
    for number in range(max((len(o.spare) for o in options), default=0)):
        describe = [o.spare[number] if number < len(o.spare) else None for o in options]
        write("room to spare, mm", f"line {number + 1}", "", *(s.mm if s else "" for s in describe))
        write("", "where", "", *(s.line if s else "" for s in describe))
    for row in comparison.rows:
        possible = {r.possible for r in row.reasons if r is not None}
        same = points(possible.pop()) if len(possible) == 1 else "differs"
        won = ("" if r is None else points(r.won) for r in row.reasons)
        about = ", ".join(filter(None, (*row.subjects, row.part)))
        write(row.title, about, same, *won)
    return out.getvalue()


def _points(tenths: int | None) -> float | str:
    return "" if tenths is None else points(tenths)


def _safe(cell: object) -> object:
    return f"'{cell}" if isinstance(cell, str) and cell[:1] in ("=", "+", "-", "@") else cell
