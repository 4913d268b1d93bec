"""The clock, the judge and the timeline that every alternative is measured with."""

from __future__ import annotations

import time
from collections.abc import Collection

from arrange.data.arrangement import Arrangement
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.judge import judge
from arrange.rules import active_rules
from arrange.rules.rule import Claim, Rule
from arrange.scoring import shares

Timeline = list[tuple[float, int]]


class Recorder:
    """Keeps the best arrangement that the judge passed, and when it came."""

    def __init__(self, scenario: Scenario, seconds: float) -> None:
        self.scenario = scenario
        self.seconds = seconds
        self.start = time.monotonic()
        self.timeline: Timeline = []
        self.judged = 0

    @property
    def elapsed(self) -> float:
        """Seconds since the start."""
        return time.monotonic() - self.start

    @property
    def left(self) -> float:
        """Seconds left."""
        return max(0.0, self.seconds - self.elapsed)

    @property
    def best(self) -> int:
        """The best score so far in tenths of a point; -1 before there is any."""
        return self.timeline[-1][1] if self.timeline else -1

    def offer(self, arrangement: Arrangement) -> bool:
        """Judge an arrangement; record it if it works and is better. Whether it works."""
        self.judged += 1
        verdict = judge(self.scenario, arrangement)
        if verdict.works and verdict.score > self.best:
            self.timeline.append((self.elapsed, verdict.score))
        return verdict.works


class Quick:
    """The judge's own measurements, quickest first, without sentences and gaps.

    Exact: the score is the judge's score, the breaches are the judge's breaches of all
    rules but those ``seen_to`` by the caller.
    """

    def __init__(self, scenario: Scenario, seen_to: Collection[str] = ()) -> None:
        self.scenario = scenario
        self.shares = shares(scenario)
        rules = active_rules(scenario)
        self.rules: dict[str, Rule] = {rule.id: rule for rule in rules}
        self.musts = [r for r in rules if r.id not in {"walkway", *seen_to}]
        self.walkway = self.rules.get("walkway")

    def score(self, scene: Scene) -> int:
        """Points in tenths."""
        total = 0
        for share in self.shares:
            level = self._level(scene, share.claim)
            total += share.points[level - 1] if level else 0
        return total

    def _level(self, scene: Scene, claim: Claim) -> int:
        if claim.rule != "comfortable-clearance":
            return self.rules[claim.rule].measure(scene, claim).level
        placed = scene.find(claim.subjects[0])  # its sentence would measure the depth as well
        clearance = next(c for c in placed.piece.clearances if c.name == claim.about[0])
        level = 0
        while level < len(claim.steps) and scene.free_sides(placed, clearance, claim.steps[level]):
            level += 1
        return level

    def breaches(self, scene: Scene) -> int:
        """How many musts other than the walkway are broken."""
        return sum(1 for rule in self.musts for _ in rule.breaches(scene))

    def blocked(self, scene: Scene) -> int:
        """How many things no walkway reaches."""
        return sum(1 for _ in self.walkway.breaches(scene)) if self.walkway else 0
