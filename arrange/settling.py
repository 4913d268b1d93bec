"""The quickest question: does it work at all? Answers are remembered within one run."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import TYPE_CHECKING

from arrange.data.scenario import Scenario
from arrange.data.settled import Settled
from arrange.musts import musts_only

if TYPE_CHECKING:
    from arrange.solver.learnt import Memory


@dataclass
class Settler:
    """Settles one scenario after another within one time limit.

    Wishes, prices, titles and the like make no difference, so that scenarios that
    differ in these alone are settled once. What was learnt about paths is used again
    in other scenarios of the same room. ``sure`` as in ``settle``.
    """

    seconds: float
    seed: int = 0
    stop: Callable[[], bool] = lambda: False
    asked: int = 0
    _end: float = field(init=False)
    _known: dict[tuple[Scenario, bool], Settled] = field(init=False, default_factory=dict)

    def __post_init__(self) -> None:
        self._end = time.monotonic() + self.seconds

    @cached_property
    def _memory(self) -> Memory:
        from arrange.solver.learnt import Memory  # noqa: PLC0415

        return Memory()

    @property
    def left(self) -> float:
        """Seconds left; 0 once someone asked to stop."""
        return 0.0 if self.stop() else max(0.0, self._end - time.monotonic())

    def settle(
        self, scenario: Scenario, *, seconds: float | None = None, sure: bool = False
    ) -> Settled:
        """Whether any arrangement keeps every must; "not decided" if time runs out.

        ``seconds`` limits this one question. ``sure`` has "impossible" confirmed by a
        second solver configuration.
        """
        from arrange.solver.engine import Clock  # noqa: PLC0415
        from arrange.solver.settling import settle  # noqa: PLC0415

        plain = _plain(scenario)
        known = self._known.get((plain, True)) or self._known.get((plain, sure))
        if known is None and not sure:
            known = self._known.get((plain, False))
        if known is not None:
            return known
        limit = self.left if seconds is None else min(seconds, self.left)
        if limit <= 0:
            return Settled("not decided")
        self.asked += 1
        clock = Clock(limit, self.stop)
        answer = settle(scenario, clock, seed=self.seed, sure=sure, memory=self._memory)
        if answer.answer != "not decided":
            self._known[plain, sure or answer.works] = answer
        return answer


def _plain(scenario: Scenario) -> Scenario:
    """What the answer depends on."""
    pieces = tuple(replace(p, price=None, owned=False) for p in scenario.pieces)
    return replace(musts_only(scenario), pieces=pieces, title="", today=(), expected=None)
