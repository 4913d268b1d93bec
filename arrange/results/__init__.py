"""A result as plain data, for ``result.json`` and for scripts.

Every length is in mm, every angle a quarter turn, every point ``[x, y]`` on the
plan with x to the right and y up. The page ``scenarios/RESULT.md`` describes all
of it. Nothing in here depends on how long the run took or where it ran, so the
same result gives the same bytes; times stand apart in ``run_data``.
"""

from __future__ import annotations

import json
import platform
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any

from arrange.cautions import cautions
from arrange.data.result import Families, Reason, Result, Suggestion
from arrange.data.scenario import Scenario
from arrange.results.clash import clash_data
from arrange.results.pieces import gap_data, piece_data, placement_data
from arrange.results.room import keep_off_data, room_data
from arrange.results.spare import spare_data
from arrange.results.walkway import walkway_data
from arrange.scene import Scene
from arrange.whatif.spare.sparing import spares

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
        "why": None if result.why is None else clash_data(scenario, result.why),
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
