"""What would have to give, as plain data; mm and points from 0 to 100."""

from __future__ import annotations

from typing import Any

from arrange.data.giving import Given, Priced, Proposal
from arrange.results import suggestion_data
from arrange.results.swap import change_data
from arrange.whatif.give.giving_words import giving_words


def giving_data(given: Given) -> dict[str, Any]:
    """Everything about the proposals, cheapest first."""
    return {
        "sentence": giving_words(given),
        "candidates": given.candidates,
        "at_once": given.at_once,
        "complete": given.closed,
        "undecided": given.undecided,
        "proposals": [_proposal(p) for p in given.proposals],
    }


def _proposal(proposal: Proposal) -> dict[str, Any]:
    return {
        "cost": proposal.cost,
        "cheapest": proposal.cheapest,
        "gives": [_gives(one) for one in proposal.gives],
        "walkway": proposal.scenario.walkway,
        "arrangement": suggestion_data(proposal.scenario, proposal.suggestion),
    }


def _gives(one: Priced) -> dict[str, Any]:
    return {
        "sort": one.thing[0],
        "names": [n for n in one.names if not (one.thing[0] == "wish" and n.isdigit())],
        "words": one.words,
        "note": one.note,
        "cost": one.cost,
        "cost_is_for": one.reason,
        "below_least": one.below,
        "changes": [change_data(c) for c in one.changes],
    }
