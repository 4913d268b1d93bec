"""Room to spare as data. Lengths in mm."""

from __future__ import annotations

from typing import Any

from arrange.data.scenario import Unit
from arrange.data.spare import Spare


def spare_data(spare: Spare, unit: Unit) -> dict[str, Any]:
    """One line across the room, or the way in, and what there is to spare on it."""
    return {
        "between": list(spare.between),
        "direction": spare.direction,
        "chain": spare.chain,
        "pieces": list(spare.pieces),
        "spare": spare.mm,
        "at_least": not spare.exact,
        "sentence": spare.sentence(unit),
    }
