"""Why nothing works, as plain data; all lengths in mm."""

from __future__ import annotations

from typing import Any

from arrange.data.why import Why
from arrange.results import FORMAT, versions
from arrange.results.clash import clash_data
from arrange.results.giving import giving_data
from arrange.results.room import keep_off_data, room_data

WHY = "why.json"


def why_data(why: Why, files: tuple[str, ...] = ()) -> dict[str, Any]:
    """Everything about the answer but its times; ``files`` are the names written with it."""
    found = why.clashes
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
        "clashes": [clash_data(scenario, clash) for clash in found.sets],
        "no_other_clash_beside_these": found.complete,
        "would_have_to_give": None if why.given is None else giving_data(why.given),
    }
