"""The tightest chain of links through one node: how far all that is on it can slide. No solver.

The gaps along a chain from something fixed to something fixed are all that its pieces can
give way. The least sum over all chains through a node is its spare. Where a link on that
chain has another option, doing without it is tried: what stands beside may come to stand
before, as far as all else can slide to make room. When every choice has been tried, the
best of them is proven. Lengths in mm.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass, replace

from arrange.whatif.spare.choices import FAR, Choice, choice
from arrange.whatif.spare.links import AXES, Link, Need, Web
from arrange.whatif.spare.patches import Axis
from arrange.whatif.spare.ranges import Range

MOST = 20  # choices of options that are tried for one chain
Bar = tuple[object, ...]
Barred = frozenset[Bar]


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
