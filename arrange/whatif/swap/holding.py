"""What is held, what may slide and what a change is about: scenarios for the readings of a swap."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from arrange.data.arrangement import Placement
from arrange.data.change import Add, Change, Drop, Exchange, Resize
from arrange.data.scenario import Scenario, Wish


def holding(scenario: Scenario, places: Iterable[Placement]) -> Scenario:
    """The scenario with these places kept as well; a piece is held once."""
    held = {p.piece: p for p in (*places, *scenario.held)}
    names = [p.name for p in scenario.pieces if p.name in held]
    return replace(scenario, held=tuple(held[name] for name in names))


def sliding(scenario: Scenario, slides: Sequence[tuple[str, str]]) -> Scenario:
    """The scenario with pieces bound to a wall; what the person wished of walls stays as it is."""
    wishes = tuple(Wish("against", piece, wall, must=True) for piece, wall in slides if wall)
    if not wishes:
        return scenario
    own, settings = scenario.wishes, scenario.settings
    if scenario.setting("against").off:
        # The rule is needed now, but not for what the person switched off.
        own = tuple(w for w in own if w.relation != "against")
        settings = tuple(s for s in settings if s.rule != "against")
    return replace(scenario, wishes=(*own, *wishes), settings=settings)


def touched(changes: Iterable[Change]) -> set[str]:
    """The names of the pieces whose body changes, that go or that come."""
    names = set()
    for change in changes:
        if isinstance(change, Add):
            names.add(change.new.name)
        elif isinstance(change, Resize | Exchange | Drop):
            names.add(change.piece)
    return names
