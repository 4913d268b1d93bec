"""One option for every need of an arrangement, and how far everything can slide then. In mm."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from arrange.whatif.spare.links import AXES, Link, Node
from arrange.whatif.spare.patches import Axis

FAR = 1e9  # mm; no link
Grid = NDArray[np.float64]
Named = dict[tuple[int, int], tuple[Link, int]]


@dataclass(frozen=True)
class Choice:
    """The least gaps from node to node in both directions, and whose they are.

    ``gaps[axis][i, j]`` is the least gap from node i to node j that lies above it,
    ``far[axis]`` the least sum of gaps along any links, those of ``nodes`` that a wall
    holds included. ``named`` gives the link of each gap, and the number of its need.
    """

    nodes: Sequence[Node]
    gaps: tuple[Grid, ...]
    named: tuple[Named, ...]
    far: tuple[Grid, ...]

    @property
    def possible(self) -> bool:
        """Whether all can slide to where the choice wants it."""
        return all(float(far.diagonal().min()) > -0.5 for far in self.far)

    def spare(self, node: int, axis: Axis) -> int:
        """The gaps along the tightest chain through a node, added up."""
        return self._up(node, axis)[0] + self._down(node, axis)[0]

    def _up(self, node: int, axis: Axis) -> tuple[int, int]:
        if self.nodes[node - 1].stays[axis] == "high":
            return 0, 0
        sums = self.gaps[axis][node] + self.far[axis][:, 0]
        return int(sums.min()), int(sums.argmin())

    def _down(self, node: int, axis: Axis) -> tuple[int, int]:
        if self.nodes[node - 1].stays[axis] == "low":
            return 0, 0
        sums = self.far[axis][0] + self.gaps[axis][:, node]
        return int(sums.min()), int(sums.argmin())

    def path(self, node: int, axis: Axis) -> list[tuple[Link, int]]:
        """The links of that chain from its low end to its high end, with their needs."""
        stays = self.nodes[node - 1].stays[axis]
        named, way = self.named[axis], list[tuple[int, int]]()
        if stays != "low":
            first = self._down(node, axis)[1]
            way += [*self._walk(axis, 0, first), (first, node)]
        if stays != "high":
            second = self._up(node, axis)[1]
            way += [(node, second), *self._walk(axis, second, 0)]
        return [named[step] for step in way if step in named]

    def _walk(self, axis: Axis, start: int, end: int) -> list[tuple[int, int]]:
        """The steps of the shortest way between two nodes; none where a wall holds both."""
        if start == end:
            return []
        steps, far = held_too(self.gaps[axis], self.nodes, axis), self.far[axis]
        trail: list[tuple[int, list[tuple[int, int]]]] = [(start, [])]
        seen = {start}
        while trail:
            at, way = trail.pop()
            # What no link leads to leads nowhere.
            for other in np.flatnonzero(np.abs(steps[at] + far[:, end] - far[at, end]) < 0.5):
                step = (at, int(other))
                if other == end:
                    held = self.gaps[axis][step] > steps[step] + 0.5
                    return way if held else [*way, step]
                if int(other) not in seen:
                    seen.add(int(other))
                    held = self.gaps[axis][step] > steps[step] + 0.5
                    trail.append((int(other), way if held else [*way, step]))
        return []

    def loop(self) -> list[tuple[Link, int]]:
        """Links that ask for more room than there is, if the choice is not possible."""
        for axis in AXES:
            steps = held_too(self.gaps[axis], self.nodes, axis)
            size = len(steps)
            known, came = np.zeros(size), np.zeros(size, dtype=int)
            last = -1
            for _ in range(size + 1):
                sums = known[:, None] + steps
                best = sums.min(axis=0)
                shorter = np.flatnonzero(best < known - 0.5)
                last = int(shorter[0]) if len(shorter) else -1
                if last < 0:
                    break
                came[shorter] = sums.argmin(axis=0)[shorter]
                known = np.minimum(known, best)
            if last >= 0:
                return self._round(axis, last, came)
        return []

    def _round(self, axis: Axis, last: int, came: NDArray[np.int_]) -> list[tuple[Link, int]]:
        for _ in came:
            last = int(came[last])
        found, at = [], last
        while True:
            step = (int(came[at]), at)
            if step in self.named[axis]:
                found.append(self.named[axis][step])
            at = step[0]
            if at == last:
                return found

    def moves(self, axis: Axis, node: int = 0, by: int = 0) -> list[list[int]]:
        """How far each node slides when ``node`` grows, in two ways: rather up, or rather down.

        As little as can be. Nothing if there is no room for it.
        """
        gaps = self.gaps[axis].copy()
        if node:
            if self.nodes[node - 1].stays[axis] == "high":
                gaps[:, node] -= by
            else:
                gaps[node] -= by
        far = closed(gaps, self.nodes, axis)
        if float(far.diagonal().min()) < -0.5:
            return []
        up = (np.minimum(0, far[:, 0])[:, None] - far).max(axis=0)
        down = (np.maximum(0, -far[0])[None, :] + far).min(axis=1)
        ways = [[round(v) for v in way] for way in (up, down)]
        return ways if ways[0] != ways[1] else ways[:1]


def choice(
    nodes: Sequence[Node], links: Iterable[tuple[Link, int]], base: Choice | None = None
) -> Choice:
    """The choice of these links, each with the number of its need, on top of ``base``."""
    size = len(nodes) + 1
    if base is None:
        rows = [[[FAR] * size for _ in range(size)] for _ in AXES]
        named: tuple[Named, ...] = ({}, {})
    else:
        rows = [grid.tolist() for grid in base.gaps]
        named = tuple(dict(known) for known in base.named)
    for link, number in links:
        low, high = link.low.node, link.high.node
        if link.gap < rows[link.axis][low][high]:
            rows[link.axis][low][high] = link.gap
            named[link.axis][low, high] = link, number
    gaps = tuple(np.array(row, dtype=np.float64) for row in rows)
    far = tuple(closed(grid, nodes, axis) for grid, axis in zip(gaps, AXES, strict=True))
    return Choice(nodes, gaps, named, far)


def held_too(gaps: Grid, nodes: Sequence[Node], axis: Axis) -> Grid:
    """The gaps, and no way to move for the nodes that a wall holds."""
    steps = gaps.copy()
    for number, node in enumerate(nodes, start=1):
        if node.stays[axis]:
            steps[number, 0] = min(steps[number, 0], 0)
            steps[0, number] = min(steps[0, number], 0)
    return steps


def closed(gaps: Grid, nodes: Sequence[Node], axis: Axis) -> Grid:
    """The least sum of gaps between any two nodes; below 0 on the diagonal if there is no room."""
    far = held_too(gaps, nodes, axis)
    np.fill_diagonal(far, np.minimum(far.diagonal(), 0))
    for middle in range(len(far)):
        np.minimum(far, far[:, middle : middle + 1] + far[middle : middle + 1], out=far)
    return far
