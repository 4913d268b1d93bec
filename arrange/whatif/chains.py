"""The tightest chain of links through one node: how far all that is on it can slide. No solver.

The gaps along a chain from something fixed to something fixed are all that its pieces can
give way. The least sum over all chains through a node is its spare; where an option can be
exchanged for another one, the exchange is tried, until no chain gets longer by it.
"""

from __future__ import annotations

import heapq
import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from arrange.whatif.links import AXES, Link, Need, Web
from arrange.whatif.patches import Axis

MOST = 60  # choices of options that are tried for one chain
Barred = frozenset[tuple[object, ...]]
Ways = dict[int, dict[int, Link]]


@dataclass(frozen=True)
class Chain:
    """The links from end to end, their gaps added up, and how far each node may be pushed.

    ``up`` and ``down`` hold, for each node that can be reached, the gaps between it and the
    chain's own node.
    """

    axis: Axis
    node: int
    links: tuple[Link, ...]
    spare: int
    up: dict[int, int]
    down: dict[int, int]


class Chains:
    """Finds the tightest chains of one web."""

    def __init__(self, web: Web) -> None:
        self.web = web
        self.base: list[Ways] = [{}, {}]
        self.needs: list[Need] = []
        self._sides: dict[tuple[object, ...], dict[object, int]] = {}
        for need in web.needs:
            if need.use is not None:
                sides = self._sides.setdefault(need.use[:2], {})
                best = need.options[0].gap
                sides[need.use[2]] = min(best, sides.get(need.use[2], best))
        for need in web.needs:
            if len(need.options) > 1 or self._choice(need):
                self.needs.append(need)
            else:
                _add(self.base, need.options[0])

    def _choice(self, need: Need) -> bool:
        return need.use is not None and len(self._sides[need.use[:2]]) > 1

    def quick(self, node: int, axis: Axis) -> Chain:
        """The tightest chain with the options as they offer themselves."""
        chain, _ = self._look(node, axis, frozenset())
        return chain

    def best(self, node: int, axis: Axis) -> Chain:
        """The tightest chain with the options that leave most to spare."""
        most = self._through(node, axis, self.base[axis])[0]
        waiting: list[Barred] = [frozenset()]
        seen = set(waiting)
        best: Chain | None = None
        tried = 0
        while waiting and tried < MOST:
            barred = waiting.pop(0)
            tried += 1
            chain, others = self._look(node, axis, barred)
            if best is None or chain.spare > best.spare:
                best = chain
            if best.spare >= most:
                break
            for bar in others:
                state = barred | {bar}
                if state not in seen:
                    seen.add(state)
                    waiting.append(state)
        assert best is not None  # noqa: S101  the first is always looked at
        return best

    def _look(
        self, node: int, axis: Axis, barred: Barred
    ) -> tuple[Chain, list[tuple[object, ...]]]:
        """The chain without the barred options, and what may be barred next."""
        ways: Ways = {i: dict(row) for i, row in self.base[axis].items()}
        sides = {key: self._side(key, barred) for key in self._sides}
        chosen: dict[int, tuple[int, Need]] = {}
        for number, need in enumerate(self.needs):
            if need.use is not None and sides[need.use[:2]] != need.use[2]:
                continue
            link = next(o for o in need.options if ("need", number, o.axis) not in barred)
            if link.axis == axis:
                _put(ways, link)
                chosen[id(link)] = number, need
        spare, links, up, down = self._through(node, axis, ways)
        bars = [
            bar
            for k in links
            if id(k) in chosen
            for bar in self._bars(*chosen[id(k)], axis, barred)
        ]
        return Chain(axis, node, tuple(links), spare, up, down), bars

    def _side(self, key: tuple[object, ...], barred: Barred) -> object:
        """The side of a clearance with most to spare that is not barred."""
        gaps = self._sides[key]
        left = [s for s in gaps if ("side", key, s) not in barred]
        return min(left, key=lambda s: (-gaps[s], str(s)))

    def _bars(
        self, number: int, need: Need, axis: Axis, barred: Barred
    ) -> list[tuple[object, ...]]:
        """What may be barred to do without a link: its option, or its side of the piece."""
        found: list[tuple[object, ...]] = []
        if sum(("need", number, o.axis) not in barred for o in need.options) > 1:
            found.append(("need", number, axis))
        if need.use is not None:
            key = need.use[:2]
            if sum(("side", key, s) not in barred for s in self._sides[key]) > 1:
                found.append(("side", key, need.use[2]))
        return found

    def _through(
        self, node: int, axis: Axis, ways: Ways
    ) -> tuple[int, list[Link], dict[int, int], dict[int, int]]:
        back: Ways = {}
        for row in ways.values():
            for link in row.values():
                back.setdefault(link.high.node, {})[link.low.node] = link
        stays = self.web.nodes[node - 1].stays[axis]
        up, above = ({}, []) if stays == "high" else self._reach(node, axis, ways)
        down, below = ({}, []) if stays == "low" else self._reach(node, axis, back)
        spare = up.get(0, 0) + down.get(0, 0)
        return spare, [*reversed(below), *above], up, down

    def _reach(self, node: int, axis: Axis, ways: Ways) -> tuple[dict[int, int], list[Link]]:
        """The least gaps from the node to every other, and the links to what is fixed."""
        known: dict[int, int] = {}
        came: dict[int, tuple[int, Link | None]] = {}
        count = itertools.count(1)
        # Counted, so that equal gaps are taken in the order in which they were met.
        queue: list[tuple[int, int, int, int, Link | None]] = [(0, 0, node, node, None)]
        while queue:
            far, _, at, before, link = heapq.heappop(queue)
            if at in known:
                continue
            known[at], came[at] = far, (before, link)
            if at == 0:
                break
            if at != node and self.web.nodes[at - 1].stays[axis]:
                heapq.heappush(queue, (far, next(count), 0, at, None))
            for other, step in ways.get(at, {}).items():
                if other not in known:
                    heapq.heappush(queue, (far + step.gap, next(count), other, at, step))
        links: list[Link] = []
        at = 0
        while at != node and at in came:
            at, step_in = came[at]
            if step_in is not None:
                links.append(step_in)
        return known, links[::-1]


def slidable(web: Web) -> Sequence[tuple[int, Axis]]:
    """The nodes and directions that have a chain: not those that may not move at all."""
    return [
        (number, axis)
        for number, node in enumerate(web.nodes, start=1)
        for axis in AXES
        if node.stays[axis] != "both" and not node.root.piece.flat
    ]


def _add(base: list[Ways], link: Link) -> None:
    _put(base[link.axis], link)


def _put(ways: Ways, link: Link) -> None:
    row = ways.setdefault(link.low.node, {})
    known = row.get(link.high.node)
    if known is None or link.gap < known.gap:
        row[link.high.node] = link
