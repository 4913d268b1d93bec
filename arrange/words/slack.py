"""A chain of links in words: from which wall, past what, to which wall. Lengths in mm."""

from __future__ import annotations

from shapely import LineString

from arrange.data.lengths import measured
from arrange.data.room import Room, Wall
from arrange.data.scenario import Unit
from arrange.rules.wished import wall_words
from arrange.whatif.chains import Chain
from arrange.whatif.links import END, OUTSIDE, Axis, Link, Patch, Web


def on_line(chain: Chain) -> list[str]:
    """The pieces on the chain, in order, each once."""
    names: list[str] = []
    for link in chain.links:
        for patch in (link.low, link.high):
            if patch.node and patch.name not in names:
                names.append(patch.name)
    return names


def chain_words(web: Web, chain: Chain, unit: Unit) -> str:
    """The pieces with the floor they need between them, without the two ends.

    A strip is said with its least depth; what stays in the middle of the line is named.
    """
    words: list[str] = []

    def say(word: str) -> None:
        if word and (not words or words[-1] != word):
            words.append(word)

    first, last = chain.links[0], chain.links[-1]
    for link in chain.links:
        if link is not first or _inside(web, chain, link.low, high=False):
            say(link.low.name)
        behind = link.low.beyond(chain.axis, high=True)
        before = link.high.beyond(chain.axis, high=False)
        for deep in (behind, before):
            say(measured(deep, unit) if deep else "")
        if link is not last or _inside(web, chain, link.high, high=True):
            say(link.high.name)
    return ", ".join(words)


def _inside(web: Web, chain: Chain, patch: Patch, *, high: bool) -> bool:
    """Whether the patch is on the line, and not what the line ends at."""
    if not patch.node:
        return False
    stays = web.nodes[patch.node - 1].stays[chain.axis]
    return patch.node == chain.node or stays == ("high" if high else "low")


def ends(web: Web, chain: Chain) -> tuple[str, str]:
    """What the line begins and ends at: a wall, the floor of a door, a fixture.

    Or a piece that its own wall holds on the far side.
    """
    first, last = chain.links[0], chain.links[-1]
    return (
        _end(web, chain, first, first.low, high=False),
        _end(web, chain, last, last.high, high=True),
    )


def _end(web: Web, chain: Chain, link: Link, patch: Patch, *, high: bool) -> str:
    if not patch.node:
        return _fixed(web.scene.scenario.room, chain.axis, link, patch)
    wall = web.nodes[patch.node - 1].root.placement.wall
    if wall is None or not _inside(web, chain, patch, high=high):
        return patch.name
    return called(web.scene.scenario.room.walls[wall])


def _fixed(room: Room, axis: Axis, link: Link, patch: Patch) -> str:
    """The name of what does not move; for a wall the one that is met there."""
    own = patch.name != OUTSIDE and not patch.name.startswith(END)
    if own:
        return patch.name
    other = link.high if patch is link.low else link.low
    x0, y0, x1, y1 = other.bounds
    at = patch.bounds[axis + 2] if patch is link.low else patch.bounds[axis]
    side = LineString([(at, y0), (at, y1)] if axis == 0 else [(x0, at), (x1, at)])
    for wall in room.walls:
        line = LineString([wall.start, wall.end])
        if line.intersection(side).length > 0:
            return called(wall)
    if patch.name != OUTSIDE:
        return patch.name
    # A slanted wall: the one that is met first.
    return called(min(room.walls, key=lambda w: _off(w, side)))


def _off(wall: Wall, side: LineString) -> float:
    line = LineString([wall.start, wall.end])
    return float(line.distance(side) + line.hausdorff_distance(side) / 1e6)


def called(wall: Wall) -> str:
    """The wall's name as a person says it."""
    return wall_words(wall.part_of or wall.name)
