"""The pictures of a result, each as one call that a process of its own can make.

Nothing heavy is loaded before a picture is drawn.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from arrange.data.result import Result, Suggestion
    from arrange.data.scenario import Scenario

Job = Callable[[Path], object]


def pictures(result: Result, suffix: str) -> list[tuple[str, Job]]:
    """A name and a job for every picture: the sheets in order, the overview last.

    A job writes its picture to the path it is given. It can be pickled.
    """
    if not result.suggestions:
        return []
    scenario, total = result.scenario, len(result.suggestions)
    plans: list[tuple[str, Job]] = [
        (f"plan-{i}.{suffix}", partial(draw_plan, scenario, suggestion, total))
        for i, suggestion in enumerate(result.suggestions, start=1)
    ]
    return [*plans, (f"overview.{suffix}", partial(draw_overview, scenario, result.suggestions))]


def draw_plan(scenario: Scenario, suggestion: Suggestion, total: int, path: Path) -> None:
    """One suggestion's sheet, with its cautions, to ``path``."""
    from arrange.cautions import LAST, cautions  # noqa: PLC0415
    from arrange.draw import plan_sheet, save  # noqa: PLC0415

    told = tuple(c for c in cautions(scenario, suggestion.arrangement) if c != LAST)
    save(plan_sheet(scenario, suggestion, total, told), path)


def draw_overview(scenario: Scenario, suggestions: tuple[Suggestion, ...], path: Path) -> None:
    """All suggestions side by side, to ``path``."""
    from arrange.draw import overview_sheet, save  # noqa: PLC0415

    save(overview_sheet(scenario, suggestions), path)
