"""Bedside tables on both sides of a bed for two, and alike."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.piece import Piece, Side
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import frame
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule

SIDES: tuple[Side, Side] = ("left", "right")


class BedsidePair(Rule):
    """Of the tables that belong to a bed for two, one stands on each side.

    Level 1: a table beyond the left edge of the bed and one beyond the right.
    Level 2: besides, all of them have the same width, depth and height. Tables
    that do not belong to the bed do not count. Common practice, no source.
    """

    id = "bedside-pair"
    title = "Bedside tables on both sides"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim a bed for two with two or more bedside tables."""
        return [
            Claim(self.id, (bed.name, *[t.name for t in tables]), self.weight, (1, 2))
            for bed in scenario.pieces
            if bed.is_a("for two") and len(tables := _tables(scenario, bed)) >= 2
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Some table is in a place on the left, some table in one on the right."""
        bed, *tables = (model.scenario.piece(n) for n in claim.subjects)
        pair = model.literal(f"{bed.name} has a table on both sides")
        for side in SIDES:
            here = [
                chosen
                for table in tables
                for slot, chosen in zip(table.slots, model.place(table.name).slots, strict=True)
                if slot.side == side and slot.gap >= 0
            ]
            model.one_of(here, when=[pair])
        return [pair, pair if _alike(tables) else model.never()]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """On which sides the tables stand, seen from the bed."""
        bed, *tables = (scene.find(n) for n in claim.subjects)
        own = frame(bed.piece, bed.placement, scene.scenario.room)
        found = set()
        for table in tables:
            reach = [
                (x - own.origin[0]) * own.across[0] + (y - own.origin[1]) * own.across[1]
                for x, y in table.body.exterior.coords
            ]
            if max(reach) < 1e-3:
                found.add("left")
            if min(reach) > bed.piece.width - 1e-3:
                found.add("right")
        level = 0 if len(found) < 2 else 2 if _alike([t.piece for t in tables]) else 1
        text = (
            f"{the(bed.name, first=True)} has no bedside table on one side",
            f"{the(bed.name, first=True)} has bedside tables on both sides, but they do not match",
            f"{the(bed.name, first=True)} has matching bedside tables on both sides",
        )[level]
        return Measure(level, text, f"{len(found)} of 2 sides", "both sides, matching")


def _tables(scenario: Scenario, bed: Piece) -> list[Piece]:
    return [p for p in scenario.pieces if p.is_a("bedside") and p.anchor == bed.name]


def _alike(tables: Sequence[Piece]) -> bool:
    return len({(t.width, t.depth, t.height) for t in tables}) == 1
