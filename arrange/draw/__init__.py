"""Pictures: plans, sheets and saving them.

matplotlib is heavy, so nothing here is loaded before a picture is asked for.
``plan`` draws one arrangement on axes, out of ``symbols``, ``floor`` and ``labels``, all on
the ``board``. ``page`` is the paper that sheets are written on: those
with one plan and a column are composed by ``sheet``, those with several plans by ``grid``.
``printing`` puts a plan on paper to scale, over as many sheets as ``tiles`` lays out.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from arrange.draw.overview import overview_sheet
    from arrange.draw.page import save
    from arrange.draw.plan import plot_plan
    from arrange.draw.setting_out import placing_sheet
    from arrange.draw.sheet import plan_sheet
    from arrange.draw.style import STYLE, Style
    from arrange.draw.survey import survey_sheet

__all__ = [
    "STYLE",
    "Style",
    "overview_sheet",
    "placing_sheet",
    "plan_sheet",
    "plot_plan",
    "save",
    "survey_sheet",
]

_HOME = {
    "STYLE": "style",
    "Style": "style",
    "overview_sheet": "overview",
    "placing_sheet": "setting_out",
    "plan_sheet": "sheet",
    "plot_plan": "plan",
    "save": "page",
    "survey_sheet": "survey",
}


def __getattr__(name: str) -> object:
    if name not in _HOME:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_HOME[name]}"), name)
