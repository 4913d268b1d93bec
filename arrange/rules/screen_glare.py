"""Screens at right angles to the windows."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.room import FACINGS, Facing, Window
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import Bounded, Coordinate, Spot, across, along, opening_spot
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import OPPOSITE, looks_out, use_of

NEAR = 3000  # mm; a window farther off than this does not glare; common practice, no source
SLOPE = 577  # tangent of 30 degrees in thousandths; common practice, no source


class ScreenGlare(Rule):
    """A television or desk has no window near by straight in front of it or behind it.

    Level 1: every window on a wall in front of it or behind it is 3 m or more from its
    middle, or wholly more than 30 degrees aside. Level 2, where all windows look the same
    way or the opposite one: it stands at right angles to every window. Directions go by
    the nearest quarter turn. No window is known to be shaded or to look north. Not for a
    child's desk, where people draw and read. Source `screen-window`; the figures are common
    practice.
    """

    id = "screen-glare"
    title = "Screens at right angles to windows"
    source = "screen-window"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each screen and desk, in rooms with a window; none for a child's desk."""
        axes = {min(out, OPPOSITE[out]) for out in _ways(scenario)}
        if not axes:
            return []
        steps = (1, 2) if len(axes) == 1 else (1,)
        return [
            Claim(self.id, (piece.name,), self.weight, steps, (), self.source)
            for piece in scenario.pieces
            if piece.is_a("screen") or (piece.is_a("work") and not _is_childs(scenario, piece))
        ]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """Turned to a side, or to the left or right of each window in line."""
        place = model.place(claim.subjects[0])
        clear = model.literal(f"{place.name} without glare")
        for window in model.scenario.room.windows:
            out = looks_out(model.scenario, window)
            ways = [model.literal() for _ in range(3)]
            spare = _spare(place, opening_spot(model.scenario.room, window), out)
            for way, room_left in zip(ways, spare, strict=True):
                model.when(way, room_left >= 0)
            for facing in (out, OPPOSITE[out]):
                looks = model.faces(place.name, facing)
                model.one_of(ways, when=[clear, looks])
        if len(claim.steps) == 1:
            return [clear]
        square = model.literal(f"{place.name} at right angles to the windows")
        for facing in FACINGS:
            if facing in _against(model.scenario):
                model.forbid(square, model.faces(place.name, facing))
        return [clear, square]

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The first window in line with the piece, and how it is turned."""
        piece = scene.find(claim.subjects[0])
        scenario = scene.scenario
        in_line: list[Window] = []
        for window in scenario.room.windows:
            out = looks_out(scenario, window)
            if piece.facing in (out, OPPOSITE[out]):
                spare = _spare(piece, opening_spot(scenario.room, window), out)
                in_line += [window] if max(spare) < 0 else []
        square = piece.facing not in _against(scenario)
        if in_line:
            towards = looks_out(scenario, in_line[0]) != piece.facing
            side = "in front of" if towards else "behind"
            level, text = 0, f"has {the(in_line[0].name)} straight {side} it"
        elif square:
            level, text = len(claim.steps), "stands at right angles to the windows"
        else:
            level, text = 1, "has no window close by straight in front of it or behind it"
            if level < len(claim.steps):
                # It is said why points are lost, and what would earn them.
                towards = OPPOSITE[piece.facing] in _ways(scenario)
                faces = "faces" if towards else "has its back to"
                text = f"{faces} a wall with a window; at right angles to it is better"
        return Measure(
            level, f"{the(piece.name, first=True)} {text}", "", "at right angles to windows"
        )


def _is_childs(scenario: Scenario, desk: Piece) -> bool:
    return desk.is_a("child") or use_of(scenario) == "child's room"


def _spare(piece: Bounded, window: Spot, out: Facing) -> list[Coordinate]:
    """What is to spare each way in which a window does not glare; one way is enough."""
    away = sum(along(piece, out)) - sum(along(window, out))
    (start, end), middle = across(window, out), sum(across(piece, out))
    cone = SLOPE * away
    return [away - 2 * NEAR, 1000 * (2 * start - middle) - cone, 1000 * (middle - 2 * end) - cone]


def _ways(scenario: Scenario) -> set[Facing]:
    return {looks_out(scenario, w) for w in scenario.room.windows}


def _against(scenario: Scenario) -> set[Facing]:
    """The ways to look with a window in front or at the back."""
    ways = _ways(scenario)
    return ways | {OPPOSITE[w] for w in ways}
