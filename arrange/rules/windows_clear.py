"""Tall pieces do not stand across windows, the backs of seats may."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from arrange.data.conflict import Requirement
from arrange.data.lengths import measured, the
from arrange.data.people import climber
from arrange.data.piece import Piece
from arrange.data.room import Window
from arrange.data.scenario import Scenario
from arrange.geometry.shapes import curtain_floors, wall_strip
from arrange.rules.requirement import ROOM, RequirementKind
from arrange.rules.rule import KeepsOff, Region
from arrange.rules.selectors import TALL

UNSEEN = 10**6  # mm; a sill so high that nothing stands across its window
DEPTH = 300  # mm of floor before the window; common practice, no source
OVER = 100  # mm over the sill that still leaves the light in; common practice, no source


class WindowsClear(KeepsOff):
    """Nothing more than 10 cm higher than the sill stands within 30 cm of a window.

    The back of a seat up to 110 cm high may stand there too: light comes in over it. Not
    before a way of escape, nor where a child sleeps, plays or climbs: there
    nothing is higher than the sill, and none before a window that tilts into the room. The
    floor before a French window is that of a door. Curtains drawn back hang beside the
    window: nothing higher than the sill stands there within 15 cm of the wall, for the
    width that the person says (150 to 300 mm, `curtain-pole-side`). Common practice, no
    source.
    """

    id = "windows-clear"
    title = "Tall pieces not across windows"
    kind = "must"
    kinds = (RequirementKind("sill", ROOM, 4, 2),)

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """One region a window, from its sill to its head, and one for each of its curtains."""
        room = scenario.room
        before = [
            Region(
                wall_strip(room.walls[w.wall], w.offset, w.width, DEPTH),
                f"stands across {the(w.name)}",
                w.name,
                bottom=_highest(scenario, w),
                top=w.head,
                keeps_out=partial(_takes_light, strictly=_is_strict(scenario, w)),
            )
            for w in room.windows
            if w.french is None
        ]
        beside = [
            Region(
                strip, f"stands where the curtains of {the(w.name)} hang", w.name, w.sill, w.head
            )
            for w in room.windows
            for strip in curtain_floors(room, w)
        ]
        return [*before, *beside]

    # -- what can be asked of it -----------------------------------------
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """That nothing tall stands across each window."""
        windows = () if scenario.setting(self.id).off else scenario.room.windows
        asking = [w for w in windows if w.french is None or w.curtains]
        return [Requirement("sill", w.name) for w in asking if w.sill < UNSEEN]

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """A window that is not kept clear has its sill out of everybody's way."""
        del whole
        windows = tuple(
            w if Requirement("sill", w.name) in kept else replace(w, sill=UNSEEN, head=UNSEEN)
            for w in scenario.room.windows
        )
        return replace(scenario, room=replace(scenario.room, windows=windows))

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """How high things may be."""
        del among
        window = next(w for w in scenario.room.windows if w.name == requirement.name)
        sill, where = measured(window.sill, scenario.unit), f"across {the(window.name)}"
        hang = f"where the curtains of {the(window.name)} hang"
        if window.french is not None:
            return f"nothing stands {hang}"
        also = f", nor taller than the sill {hang}" if window.curtains else ""
        if _is_strict(scenario, window):
            return f"nothing taller than the sill ({sill}) stands {where}{also}"
        above = measured(OVER, scenario.unit)
        what = f"nothing taller than {above} above the sill ({sill})"
        return f"{what}, except a seat, stands {where}{also}"


def _is_strict(scenario: Scenario, window: Window) -> bool:
    """Whether nothing may be higher than the sill: people get out, it tilts, or children climb.

    It asks for roles and not for the use of the room, which may turn into a child's room
    when a piece goes: without a piece it never asks for more.
    """
    room_of_child = scenario.use in ("child's room", "nursery")
    return (
        window.escape
        or window.tilts
        or room_of_child
        or any(p.is_a("child") for p in scenario.pieces)
        or bool(climber(scenario.people))
    )


def _highest(scenario: Scenario, window: Window) -> int:
    return window.sill + (0 if _is_strict(scenario, window) else OVER)


def _takes_light(piece: Piece, *, strictly: bool) -> bool:
    """Whether a piece that is higher may not stand there."""
    return strictly or not (piece.is_a("seat") and piece.top <= TALL[0])
