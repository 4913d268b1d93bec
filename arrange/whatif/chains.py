"""The tightest chain of links through one node: how far all that is on it can slide. No solver.

The gaps along a chain from something fixed to something fixed are all that its pieces can
give way. The least sum over all chains through a node is its spare. A ``Choice`` takes one
option for every need; where a link on the tightest chain has another, doing without it is
tried: what stands beside may come to stand before, as far as all else can slide to make
room. When every choice has been tried, the best of them is proven.

A chain is proven by itself (``chain_is_proven``) if none of its links has any other way to be
kept apart, however the pieces slide within the walls, with their walls, turns and places as
they are. Then whatever else moves, what is on it needs the room it needs. Lengths in mm.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from arrange.whatif.links import AXES, Axis, Link, Need, Node, Patch, Range, Web, several_sides

FAR = 1e9  # mm; no link
MOST = 20  # choices of options that are tried for one chain
Grid = NDArray[np.float64]
Named = dict[tuple[int, int], tuple[Link, int]]
Bar = tuple[object, ...]
Barred = frozenset[Bar]


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


@dataclass(frozen=True)
class Chain:
    """The links from end to end and their gaps added up. ``sure``: no other choice has more."""

    axis: Axis
    node: int
    links: tuple[Link, ...]
    spare: int
    choice: Choice
    sure: bool = False


class Chains:
    """Finds the tightest chains of one web; ``ranges`` are those of its nodes."""

    def __init__(self, web: Web, ranges: Sequence[tuple[Range, Range]]) -> None:
        self.web = web
        self._ranges = ranges
        self._known: dict[tuple[int, Axis], Chain] = {}
        self._sides: dict[tuple[str, str], dict[object, int]] = {}
        self.needs = [Need(tuple(filter(self._open, n.options)), n.use) for n in web.needs]
        for need in self.needs:
            if need.use is not None:
                sides = self._sides.setdefault(need.use[:2], {})
                best = need.options[0].gap if need.options else -int(FAR)
                sides[need.use[2]] = min(best, sides.get(need.use[2], best))
        single = [len(n.options) == 1 and not self._several(n) for n in self.needs]
        only = [(n.options[0], i) for i, n in enumerate(self.needs) if single[i]]
        self._unavoidable = choice(web.nodes, only)
        self._open_needs = [(i, n) for i, n in enumerate(self.needs) if not single[i]]
        first = self._choose(frozenset())
        if first is None:
            raise ValueError("the arrangement does not work")
        self._first = first

    def _open(self, link: Link) -> bool:
        """Whether a link is open to pieces that slide with nothing else in the room."""
        high, low = self._ranges[link.high.node], self._ranges[link.low.node]
        return link.gap >= 0 or link.gap + high[link.axis][1] - low[link.axis][0] >= 0

    def _several(self, need: Need) -> bool:
        return need.use is not None and len(self._sides[need.use[:2]]) > 1

    def quick(self, node: int, axis: Axis) -> Chain:
        """The tightest chain as things lie to one another now."""
        return _chain(self._first, node, axis)

    def best(self, node: int, axis: Axis) -> Chain:
        """The tightest chain with the options that leave most to spare; remembered."""
        if (node, axis) not in self._known:
            self._known[node, axis] = self._search(node, axis)
        return self._known[node, axis]

    def _search(self, node: int, axis: Axis) -> Chain:
        most = self._unavoidable.spare(node, axis)
        best = self.quick(node, axis)
        waiting: deque[Barred] = deque([frozenset()])
        seen = {frozenset[Bar]()}
        for _ in range(MOST):
            if not waiting or best.spare >= most:
                break
            barred = waiting.popleft()
            chosen = self._choose(barred)
            if chosen is None:
                continue
            if chosen.possible:
                chain = _chain(chosen, node, axis)
                best = max(best, chain, key=lambda c: c.spare)
                blame = chosen.path(node, axis)
            else:
                blame = chosen.loop()
            for link, number in blame:
                for bar in self._bars(link, number):
                    state = barred | {bar}
                    if state not in seen:
                        seen.add(state)
                        waiting.append(state)
        return replace(best, sure=not waiting or best.spare >= most)

    def _choose(self, barred: Barred) -> Choice | None:
        """The first option of every need that is not barred; None if one has none left."""
        sides: dict[tuple[str, str], object] = {}
        for key, gaps in self._sides.items():
            left = [s for s in gaps if ("side", key, s) not in barred]
            if not left:
                return None
            sides[key] = min(left, key=lambda s, g=gaps: (-g[s], str(s)))  # type: ignore[misc]
        out = {bar[1] for bar in barred if bar[0] == "need"}
        links: list[tuple[Link, int]] = []
        for number, need in self._open_needs:
            if need.use is not None and sides[need.use[:2]] != need.use[2]:
                continue
            options = need.options
            if number in out:
                options = tuple(o for o in options if ("need", number, _way(o)) not in barred)
            if not options:
                return None
            links.append((options[0], number))
        return choice(self.web.nodes, links, self._unavoidable)

    def _bars(self, link: Link, number: int) -> list[Bar]:
        """What may be barred to do without a link: its option, and its side of the piece."""
        need = self.needs[number]
        bars: list[Bar] = [("need", number, _way(link))] if len(need.options) > 1 else []
        if need.use is not None and self._several(need):
            bars.append(("side", need.use[:2], need.use[2]))
        return bars


def _way(link: Link) -> tuple[int, int, int]:
    return link.axis, link.low.node, link.high.node


def _chain(chosen: Choice, node: int, axis: Axis) -> Chain:
    links = tuple(link for link, _ in chosen.path(node, axis))
    return Chain(axis, node, links, chosen.spare(node, axis), chosen)


def slidable(web: Web) -> Sequence[tuple[int, Axis]]:
    """The nodes and directions that have a chain: not those that may not move at all."""
    return [
        (number, axis)
        for number, node in enumerate(web.nodes, start=1)
        for axis in AXES
        if node.stays[axis] != "both" and not node.root.piece.flat
    ]


def chain_is_proven(web: Web, ranges: list[tuple[Range, Range]], chain: Chain) -> bool:
    """Whether no arrangement with the same walls, turns and places gets round the chain.

    ``ranges`` say how far each node could slide with nothing else in the room. Pieces
    in one row may change places within it, which alters nothing.
    """
    if web.roomy or not chain.links:
        return False
    row = _one_row(web, ranges, chain)
    for link in chain.links:
        if any(several_sides(web, patch) for patch in (link.low, link.high)):
            return False
        for axis in AXES:
            for low, high in ((link.low, link.high), (link.high, link.low)):
                if axis == chain.axis and low is link.low:
                    continue
                in_row = row and axis == chain.axis and low.node and high.node
                if not in_row and _could_be(ranges, axis, low, high):
                    return False
    return True


def _could_be(ranges: list[tuple[Range, Range]], axis: Axis, low: Patch, high: Patch) -> bool:
    """Whether ``low`` could come to lie before ``high`` if nothing else were in the room."""
    gap = high.bounds[axis] - low.bounds[axis + 2]
    return gap + ranges[high.node][axis][1] - ranges[low.node][axis][0] >= 0


def _one_row(web: Web, ranges: list[tuple[Range, Range]], chain: Chain) -> bool:
    """Whether the chain is a row of single bodies, any two of them level wherever they slide."""
    patches = {p.node: p for link in chain.links for p in (link.low, link.high) if p.node}
    seen = {p for link in chain.links for p in (link.low, link.high) if p.node}
    if len(seen) > len(patches) or any(p.use is not None for p in seen):
        return False
    if any(web.nodes[p.node - 1].stays[chain.axis] for p in seen):
        return False
    other: Axis = 1 if chain.axis == 0 else 0
    return not any(
        _could_be(ranges, other, one, two) or _could_be(ranges, other, two, one)
        for one, two in combinations(seen, 2)
    )
