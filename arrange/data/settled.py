"""The answer to whether a scenario works at all."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from arrange.data.arrangement import Arrangement

Settling = Literal["works", "impossible", "not decided"]


@dataclass(frozen=True, slots=True)
class Settled:
    """Works, with an arrangement that shows it; impossible, proven; or not decided."""

    answer: Settling
    arrangement: Arrangement | None = None

    @property
    def works(self) -> bool:
        """Whether an arrangement is there."""
        return self.arrangement is not None
