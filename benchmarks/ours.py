"""The product's own timeline, from what its listener is told."""

from __future__ import annotations

import time

from arrange.data.result import Progress, Result
from arrange.data.scenario import Scenario
from arrange.suggesting import suggest
from benchmarks.alternatives.recorder import Timeline


def ours(scenario: Scenario, seconds: float, seed: int) -> tuple[Timeline, Result]:
    """The best arrangement alone, as ``suggest(top=1)`` finds it, with when each came."""
    start = time.monotonic()
    timeline: Timeline = []

    def heard(progress: Progress) -> None:
        if progress.rank == 1 and progress.score > (timeline[-1][1] if timeline else -1):
            timeline.append((time.monotonic() - start, progress.score))

    result = suggest(scenario, top=1, seconds=seconds, seed=seed, listener=heard)
    last = result.suggestions[0].verdict.score if result.suggestions else -1
    if last > (timeline[-1][1] if timeline else -1):
        timeline.append((time.monotonic() - start, last))
    return timeline, result
