"""Whether a chain can be got round: the proof behind "no longer works". Lengths in mm.

A chain is certain if none of its links has any other way to be kept apart, however the
pieces slide within the walls, with their walls, turns and places as they are. Then whatever
else moves, what is on it needs the room it needs.
"""

from __future__ import annotations

from itertools import combinations

from arrange.whatif.spare.chains import Chain
from arrange.whatif.spare.links import AXES, Web
from arrange.whatif.spare.patches import Axis, Patch
from arrange.whatif.spare.ranges import Range, several_sides


def certain(web: Web, ranges: list[tuple[Range, Range]], chain: Chain) -> bool:
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
