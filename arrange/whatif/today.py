"""The room as it stands today, judged as it is."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.change import Drop, changed
from arrange.data.scenario import Scenario
from arrange.data.swap import Note, Today
from arrange.errors import Fault, ScenarioError
from arrange.judge import at_its_best, judge
from arrange.rules import RULES
from arrange.scenario.today import at_its_wall, snapped

WRITE = (
    'add to a piece stands_now = { wall = "A", from_left = 40 } or '
    'stands_now = { across = 120, up = 80, facing = "down" }; across a corner '
    'stands_now = { across_corner = ["A", "B"] }'
)


def assess_today(scenario: Scenario) -> Today:
    """Judge what the file says stands in the room now.

    Pieces without a place are left out, with the wishes about them and the ties
    to them: points are shared out among what is there, so that the score is not
    on the scale of the whole scenario unless every piece stands. A piece that goes
    with another but stands in none of its places there (a chair pulled out) breaks
    nothing by that; it is named in ``apart``.

    Raises
    ------
    ScenarioError
        If no piece has a place today; the message says what to write.
    """
    if not scenario.today:
        nothing = "no piece says where it stands today"
        raise ScenarioError(scenario.source_file, (Fault("piece", nothing, WRITE),))
    known = {p.piece: p for p in scenario.today}
    missing = tuple(p.name for p in scenario.pieces if p.name not in known)
    standing = changed(scenario, [Drop(name) for name in missing])
    apart = out_of_place(standing, known.values())
    loose = [p.name for p in scenario.pieces if p.anchor in missing and p.name in known]
    standing = replace(standing, held=())
    for name in loose:
        known[name] = at_its_wall(known[name], standing.piece(name), standing.room)
    there = at_its_best(standing, Arrangement(tuple(known[p.name] for p in standing.pieces)))
    verdict = judge(standing, there)
    excused = {(rule.id, name) for rule in RULES if rule.keeps_ties for name in apart}
    broken = tuple(b for b in verdict.breaches if (b.rule, *b.subjects[:1]) not in excused)
    return Today(standing, there, replace(verdict, breaches=broken), missing, apart)


def out_of_place(scenario: Scenario, placements: Iterable[Placement]) -> tuple[str, ...]:
    """Pieces that stand in none of their places at what they go with, where that stands."""
    known = {p.piece: p for p in placements}
    found = []
    for piece in scenario.pieces:
        if piece.name not in known or piece.anchor not in known:
            continue
        host = scenario.piece(piece.anchor), known[piece.anchor]
        every = range(len(piece.slots))
        one = piece, known[piece.name]
        if snapped(one, host, scenario.room, every, 0, turned=True) is None:
            found.append(piece.name)
    return tuple(found)


def why_not_as_today(scenario: Scenario) -> Note:
    """What is at fault where nothing works with all that stands today held."""
    today = assess_today(scenario)
    if not today.verdict.works:
        return Note("broken")
    if today.left_out:
        return Note("no place", today.left_out)
    return Note("no place there", today.apart)
