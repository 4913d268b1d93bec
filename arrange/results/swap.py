"""A swap, and the room as it stands today, as plain data; mm and points from 0 to 100."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from arrange.cautions import cautions
from arrange.data.change import Change
from arrange.data.piece import Piece
from arrange.data.result import Reason, Verdict
from arrange.data.scenario import Scenario
from arrange.data.swap import Answer, Compared, Moved, Plan, Reading, Swap, Today
from arrange.results import FORMAT, points, reason_data, versions
from arrange.results.pieces import gap_data, piece_data
from arrange.results.room import keep_off_data, room_data
from arrange.results.walkway import walkway_data
from arrange.scene import Scene
from arrange.whatif.swap.swap_words import headline, held_words

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
    def told(reason: Reason | None) -> dict[str, Any] | None:
        return None if reason is None else reason_data(reason)

    return {
        "rule": one.rule,
        "subjects": list(one.subjects),
        "gained": points(one.gained),
        "before": told(one.before),
        "after": told(one.after),
    }


def _moved(one: Moved) -> dict[str, Any]:
    return {
        "piece": one.piece,
        "was": one.was or None,
        "move": one.move,
        "far": one.far,
        "words": one.words,
    }
