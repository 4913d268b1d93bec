"""Greedy placement with restarts: big pieces first, each where it scores best.

Places are tried along the walls, on a grid for what stands free, and in all slots.
Shared floor is ruled out in whole numbers; a draw of what is left is scored with the
judge's own rules on the pieces placed so far. Ties, and nearly ties, are broken at
random, and the order of pieces is shaken a little at each restart.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace

from arrange.data.arrangement import Arrangement
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import extent, turns
from benchmarks.alternatives.layout import SEEN_TO, Layout, Pose, Poses
from benchmarks.alternatives.recorder import Quick, Recorder, Timeline

ALONG = 100  # mm between places along a wall
GRID = 200  # mm between places on the floor
DRAWN = 12  # places scored for each piece
NEARLY = 15  # tenths of a point that count as a tie


def greedy(scenario: Scenario, seconds: float, seed: int) -> Timeline:
    """The timeline of one run: as many restarts as the time allows."""
    run = Run(scenario, seconds, seed)
    while run.recorder.left > 0:
        run.once()
    return run.recorder.timeline


class Run:
    """One scenario, one generator, many restarts."""

    def __init__(self, scenario: Scenario, seconds: float, seed: int) -> None:
        self.scenario = scenario
        self.rng = random.Random(seed)
        self.layout = Layout(scenario)
        self.recorder = Recorder(scenario, seconds)
        self._parts: dict[frozenset[str], tuple[Scenario, Quick]] = {}

    def once(self) -> None:
        """One arrangement, piece by piece; given up where a piece finds no place."""
        poses: Poses = {}
        for piece in self._order():
            best = self._best_place(piece, poses)
            if best is None or self.recorder.left <= 0:
                return
            poses[piece.name] = best
        self.recorder.offer(self.layout.arrangement(self.layout.placements(poses)))

    def _order(self) -> list[Piece]:
        """Big and major first, satellites straight after what they go with."""
        size = {
            p.name: p.width * p.depth * (2 if p.major else 1) * self.rng.uniform(0.7, 1.3)
            for p in self.scenario.pieces
        }
        leaders = sorted(
            (p for p in self.scenario.pieces if p.anchor is None), key=lambda p: -size[p.name]
        )
        order: list[Piece] = []
        for leader in leaders:
            group = [leader]
            for piece in self.layout.order:
                if piece.anchor in {g.name for g in group}:
                    group.append(piece)
            order += group
        return order

    def _best_place(self, piece: Piece, poses: Poses) -> Pose | None:
        free = [
            pose
            for pose in self._places(piece)
            if not self.layout.overlap(self.layout.placements({**poses, piece.name: pose}))
        ]
        drawn = self.rng.sample(free, min(DRAWN, len(free)))
        scored = [(self._score({**poses, piece.name: pose}), pose) for pose in drawn]
        working = [(s, pose) for s, pose in scored if s is not None]
        if not working:
            return None
        top = max(s for s, _ in working)
        return self.rng.choice([pose for s, pose in working if s >= top - NEARLY])

    def _places(self, piece: Piece) -> Iterator[Pose]:
        if piece.anchor is not None:
            yield from (Pose(slot=i) for i in range(len(piece.slots)))
        elif piece.stands == "free":
            x0, y0, x1, y1 = self.layout.bounds
            for facing in turns(piece):
                sx, sy = extent(piece, facing)
                for x in range(x0, x1 - sx + 1, GRID):
                    for y in range(y0, y1 - sy + 1, GRID):
                        yield Pose(None, facing, x, y)
        else:
            for wall in self.layout.walls[piece.name]:
                span = self.layout.span(piece, wall)
                stops = {0, span} if piece.stands == "corner" else {*range(0, span, ALONG), span}
                yield from (Pose(wall, a=a) for a in sorted(stops))

    def _score(self, poses: Poses) -> int | None:
        """Points of the pieces placed so far; None if a must is broken."""
        part, quick = self._part(frozenset(poses))
        placed = self.layout.placements(poses)
        scene = Scene(part, Arrangement(tuple(placed[p.name] for p in part.pieces)))
        if quick.breaches(scene) or quick.blocked(scene):
            return None
        return quick.score(scene)

    def _part(self, names: frozenset[str]) -> tuple[Scenario, Quick]:
        if names not in self._parts:
            pieces = tuple(p for p in self.scenario.pieces if p.name in names)
            waiting = {p.name for p in self.scenario.pieces} | {
                p.model for p in self.scenario.pieces
            }
            here = {p.name for p in pieces} | {p.model for p in pieces}
            wishes = tuple(
                w
                for w in self.scenario.wishes
                if w.piece in here and (w.place in here or w.place not in waiting)
            )
            part = replace(self.scenario, pieces=pieces, wishes=wishes)
            self._parts[names] = (part, Quick(part, SEEN_TO if self.layout.exact else ()))
        return self._parts[names]
