"""Simulated annealing over poses, with restarts.

Moves: shift, slide to an end of the wall, another wall or place, another turn, swap
of two pieces, another slot. Broken musts cost; shared floor is added up in whole
numbers first, and only what is free of it is measured with the judge's own rules:
points first, walkways only if the move would be taken.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace

from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import turns
from benchmarks.alternatives.layout import SEEN_TO, Layout, Pose, Poses
from benchmarks.alternatives.recorder import Quick, Recorder, Timeline

RESTARTS = 3
HOT, COLD = 120.0, 4.0  # tenths of a point
BROKEN = 200.0  # tenths of a point for each broken must, and for shared floor at all
SHARED = 100.0  # for each tenth of a square metre
FAR, NEAR = 1000.0, 30.0  # mm, how far a shift goes when hot and when cold


def anneal(scenario: Scenario, seconds: float, seed: int) -> Timeline:
    """The timeline of one run."""
    run = Run(scenario, seconds, seed)
    for k in range(RESTARTS):
        run.once(seconds * (k + 1) / RESTARTS)
    return run.recorder.timeline


class Run:
    """One scenario, one generator, several restarts."""

    def __init__(self, scenario: Scenario, seconds: float, seed: int) -> None:
        self.scenario = scenario
        self.rng = random.Random(seed)
        self.layout = Layout(scenario)
        self.quick = Quick(scenario, SEEN_TO if self.layout.exact else ())
        self.recorder = Recorder(scenario, seconds)

    def once(self, until: float) -> None:
        """Cool down from a random start until that many seconds have passed."""
        poses = {p.name: self.layout.random_pose(self.rng, p) for p in self.scenario.pieces}
        energy = self._energy(poses, math.inf)
        began = self.recorder.elapsed
        while (now := self.recorder.elapsed) < until:
            cooled = (now - began) / (until - began)
            heat = HOT * (COLD / HOT) ** cooled
            tried = self._moved(poses, FAR * (NEAR / FAR) ** cooled)
            most = energy - heat * math.log(1 - self.rng.random())
            worth = self._energy(tried, most)
            if worth <= most:
                poses, energy = tried, worth

    def _energy(self, poses: Poses, most: float) -> float:
        """Cost of a state, exact if it is at most ``most``; lower is better."""
        placed = self.layout.placements(poses)
        shared = self.layout.overlap(placed, (most - 1000 - BROKEN) / SHARED)
        if shared:
            return 1000 + BROKEN + SHARED * shared
        arrangement = self.layout.arrangement(placed)
        scene = Scene(self.scenario, arrangement)
        cost = BROKEN * self.quick.breaches(scene)
        if cost > most:
            return cost + 1000
        score = self.quick.score(scene)
        if cost - score > most:
            return cost - score
        blocked = self.quick.blocked(scene)
        if not cost and not blocked and score > self.recorder.best:
            self.recorder.offer(arrangement)
        return cost - score + BROKEN * blocked

    def _moved(self, poses: Poses, far: float) -> Poses:
        tried = dict(poses)
        piece = self.rng.choice(self.scenario.pieces)
        pose = poses[piece.name]
        kind = self.rng.random()
        if piece.anchor is not None or kind < 0.2:
            tried[piece.name] = self.layout.random_pose(self.rng, piece)
        elif kind < 0.35:
            self._swap(tried, piece)
        elif pose.wall is not None:
            tried[piece.name] = self._slid(piece, pose, far)
        elif kind < 0.5:
            tried[piece.name] = replace(pose, facing=self.rng.choice(turns(piece)))
        else:
            dx, dy = (round(self.rng.gauss(0, far)) for _ in range(2))
            tried[piece.name] = replace(pose, a=pose.a + dx, b=pose.b + dy)
        return tried

    def _slid(self, piece: Piece, pose: Pose, far: float) -> Pose:
        span = self.layout.span(piece, pose.wall or 0)
        if piece.stands == "corner" or self.rng.random() < 0.1:
            return replace(pose, a=self.rng.choice([0, span]))
        return replace(pose, a=min(max(0, pose.a + round(self.rng.gauss(0, far))), span))

    def _swap(self, tried: Poses, piece: Piece) -> None:
        others = [
            p
            for p in self.scenario.pieces
            if p.anchor is None and p.stands == piece.stands and p.name != piece.name
        ]
        if not others:
            return
        other = self.rng.choice(others)
        one, two = tried[piece.name], tried[other.name]
        tried[piece.name], tried[other.name] = self._fit(piece, two), self._fit(other, one)

    def _fit(self, piece: Piece, pose: Pose) -> Pose:
        if pose.wall is None:
            facing = pose.facing if pose.facing in turns(piece) else turns(piece)[0]
            return replace(pose, facing=facing)
        return replace(pose, a=min(pose.a, max(0, self.layout.span(piece, pose.wall))))
