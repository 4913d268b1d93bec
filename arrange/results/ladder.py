"""A ladder of sizes, and the exact largest size, as plain data; mm and points from 0 to 100."""

from __future__ import annotations

from typing import Any

from arrange.data.arrangement import Arrangement
from arrange.data.ladder import Ladder, Rung
from arrange.data.largest import Largest
from arrange.data.room import Room
from arrange.data.scenario import Scenario
from arrange.results import FORMAT, points, versions
from arrange.results.pieces import placement_data
from arrange.sources import source
from arrange.whatif.sizes.size_words import ladder_words, largest_words, meaning

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
    told = source(rung.size.source)
    found = rung.verdict is not None
    return {
        "label": rung.size.label,
        "kind": rung.size.piece.kind,
        "width": rung.size.piece.width,
        "depth": rung.size.piece.depth,
        "height": rung.size.piece.height,
        "source": {"id": told.id, "title": told.title, "status": told.status},
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
