"""A board as a record for ``board.json``: every swatch with its colour and how it sits."""

from __future__ import annotations

from arrange.output.fields import FORMAT, About, Data, versions
from arrange.output.records import made_from
from arrange.shop.board import Board, groups, remarks, seen_words
from arrange.shop.colours import Seen

PLACES = 2  # decimals: finer than any eye


def board_data(found: Board, files: tuple[str, ...] = ()) -> Data:
    """Everything about a board; ``files`` are the names written with it."""
    lead = found.colours.lead
    return {
        "format": FORMAT,
        "title": found.scenario.title,
        "plan": found.plan,
        "feel": list(found.feel),
        "answers": {
            word: [one.name for one in found.tagged if word in one.tags] for word in found.feel
        },
        "lead": None if lead is None else lead.swatch.name,
        "lead_colours": [_lab(lab) for lab in found.colours.main],
        "swatches": [_seen(found, one) for _, seen in groups(found) for one in seen],
        "pictures": [{"piece": name} for name, _ in found.pictures],
        "remarks": remarks(found),
        "versions": versions(),
        "scenario_file": made_from(None, About(found.scenario)),
        "files": list(files),
    }


def _seen(found: Board, one: Seen) -> Data:
    return {
        "name": one.swatch.name,
        "of": one.swatch.of,
        "in_the_plan": one.chosen,
        "hex": one.hex,
        "lab": _lab(one.lab),
        "difference": None if one.difference is None else round(one.difference, PLACES),
        "from": None if one.beside is None else _lab(one.beside),
        "sentence": seen_words(found, one) or None,
    }


def _lab(lab: tuple[float, float, float]) -> list[float]:
    return [round(part, PLACES) + 0.0 for part in lab]
