"""One sheet, one way to write metres: with three decimals if any of them needs it."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import wraps
from typing import ParamSpec

from matplotlib.figure import Figure
from matplotlib.text import Text

from arrange.data.result import Suggestion
from arrange.data.scenario import Unit
from arrange.words import metres_to_the_millimetre

P = ParamSpec("P")
TO_THE_MILLIMETRE = re.compile(r"\d\.\d{3} m\b")


def evenly(unit: Unit, known: Iterable[str], draw: Callable[[], Figure]) -> Figure:
    """The sheet that ``draw`` makes, its metres all with two or all with three decimals.

    ``known`` are sentences that may stand on it: one with three decimals decides.
    Otherwise the sheet itself does, and is drawn again if it must be.
    """
    if unit != "m":
        return draw()
    if not _exact(known):
        figure = draw()
        texts = (artist.get_text() for artist in figure.findobj(Text) if isinstance(artist, Text))
        if not _exact(texts):
            return figure
    with metres_to_the_millimetre():
        return draw()


def even_metres(sheet: Callable[P, Figure]) -> Callable[P, Figure]:
    """A sheet drawn as ``evenly`` does, where nothing is known before it is drawn."""

    @wraps(sheet)
    def drawn(*args: P.args, **kwargs: P.kwargs) -> Figure:
        return evenly("m", (), lambda: sheet(*args, **kwargs))

    return drawn


def _exact(texts: Iterable[str]) -> bool:
    return any(TO_THE_MILLIMETRE.search(" ".join(text.split())) for text in texts)


def sentences(suggestions: Iterable[Suggestion]) -> list[str]:
    """The sentences of all reasons."""
    return [reason.sentence for one in suggestions for reason in one.verdict.reasons]
