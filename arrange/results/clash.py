"""Sets that clash, as plain data; all lengths in mm."""

from __future__ import annotations

from typing import Any

from arrange.data.arrangement import Arrangement
from arrange.data.clash import Arithmetic, Clash, Member, Section
from arrange.data.scenario import Scenario
from arrange.results.pieces import placement_data
from arrange.whatif.why.wording import told


def clash_data(scenario: Scenario, clash: Clash) -> dict[str, Any]:
    """One set, what shows that each member is needed, and the arithmetic."""
    return {
        "confirmed": clash.confirmed,
        "minimal": clash.minimal,
        "members": [_member(scenario, m, clash) for m in clash.members],
        "without": [
            {"member": i, "placements": _placements(scenario, w.arrangement)}
            for w in clash.without
            for i, m in enumerate(clash.members, start=1)
            if m == w.member
        ],
        "arithmetic": None
        if clash.arithmetic is None
        else _arithmetic(scenario, clash, clash.arithmetic),
    }


def _member(scenario: Scenario, member: Member, clash: Clash) -> dict[str, Any]:
    return {
        "kind": member.kind,
        "name": member.name,
        "part": member.part,
        "words": told(scenario, member, clash.members),
    }


def _arithmetic(scenario: Scenario, clash: Clash, figures: Arithmetic) -> dict[str, Any]:
    number = clash.members.index(figures.member) + 1 if figures.member is not None else None
    return {
        "words": figures.text,
        "member": number,
        "side": figures.side or None,
        "asked": figures.asked or None,
        "at_most": figures.most if number is not None else None,
        "proven": figures.proven,
        "section": None if figures.section is None else _section(figures.section),
        "placements": None
        if figures.arrangement is None
        else _placements(scenario, figures.arrangement),
    }


def _section(section: Section) -> dict[str, Any]:
    return {
        "start": list(section.start),
        "end": list(section.end),
        "asked": section.asked,
        "there": section.there,
        "beside": section.beside or None,
        "crossed": [
            {"what": c.what, "body": c.body, "there": c.end - c.start, "asked": c.asked}
            for c in section.crossed
        ],
    }


def _placements(scenario: Scenario, arrangement: Arrangement) -> list[dict[str, Any]]:
    return [{"piece": p.piece, **placement_data(scenario.room, p)} for p in arrangement.placements]
