"""Which of a test's cases are for every day, and which only for long runs."""

from collections.abc import Collection, Iterable

import pytest


def sampled(cases: Iterable[object], long: Collection[object]) -> list[object]:
    """The cases for ``parametrize``; those in ``long`` are marked so."""
    return [pytest.param(c, marks=pytest.mark.long) if c in long else c for c in cases]
