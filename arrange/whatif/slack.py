"""Room to spare: how far a measurement could be wrong before an arrangement stops working.

Pieces may slide along their walls or over the floor, but keep their wall, their turn and
their place beside what they go with. Then the gaps along each line across the room are all
that can give way (`chains`). The tightest lines are put to the judge: with one piece larger
by all there is to spare and the others pushed aside, does it still work? Where the judge
says no (a walkway, a wish), less is promised, as "at least". The way in has a line of its
own: how much wider than asked it is, as the pieces stand. Lengths in mm; no solver.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Literal

from shapely import LineString

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.change import Resize, changed
from arrange.data.result import FINEST, Spare
from arrange.data.room import Room, Wall
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import in_same_slot
from arrange.geometry.walking import empty_floor, goals, walk_of
from arrange.judge import breaches
from arrange.rules.rule import Rule
from arrange.rules.wished import the_wall
from arrange.whatif.chains import Chain, Chains, chain_is_proven, slidable
from arrange.whatif.links import END, OUTSIDE, Axis, Link, Patch, Range, Web, ranges
from arrange.whatif.requirements import unsure_musts

Grown = tuple[Scenario, Arrangement]


def grow_piece(web: Web, chain: Chain, name: str, by: int) -> list[Grown]:
    """The scenario with piece ``name`` ``by`` mm larger along the chain, all in reach pushed aside.

    Pushed rather up the line, or rather down; and where a tied piece grows, its anchor stays or
    gives way. No more than the chain has to spare; the judge has the last word.
    """
    scene, axis = web.scene, chain.axis
    piece = scene.find(name).piece
    turned = scene.find(name).facing in ("left", "right")
    wide = (axis == 0) != turned
    size = Resize(name, width=piece.width + by) if wide else Resize(name, depth=piece.depth + by)
    after = changed(scene.scenario, [size])
    root = web.nodes[chain.node - 1]
    down = by if root.stays[axis] == "high" else 0
    shifts = [-down] if root.root.name == name else [-down, by - down]
    aside = chain.choice.moves(0 if axis else 1)[:1]
    found = []
    for along in chain.choice.moves(axis, chain.node, by):
        for other in aside:
            for shift in shifts:
                own = [m + shift * (i == chain.node) for i, m in enumerate(along)]
                moves = (other, own) if axis else (own, other)
                found.append((after, _pushed(web, after, moves)))
    return found


def _pushed(web: Web, after: Scenario, moves: tuple[list[int], list[int]]) -> Arrangement:
    """The arrangement with every node moved across and up the plan, tied pieces in their places."""
    places: dict[str, Placement] = {}
    for number, node in enumerate(web.nodes, start=1):
        across, up = moves[0][number], moves[1][number]
        here = node.root.placement
        if here.facing is not None:
            here = replace(here, x=here.x + across, y=here.y + up)
        places[node.root.name] = here
    for name in [follower for root in tuple(places) for follower in after.in_tow(root)]:
        one = web.scene.find(name)
        host = web.scene.find(str(one.piece.anchor))
        was, now = (host.piece, host.placement), (after.piece(host.name), places[host.name])
        old = one.placement
        at = in_same_slot((one.piece, old), was, after.piece(name), now, after.room)
        places[name] = old if at is None else replace(at, wall=old.wall)
    return Arrangement(tuple(places[p.name] for p in after.pieces))


SHOWN = 3
WIDER = 80  # mm; a way in that is wider by more is not tight


@lru_cache(maxsize=64)
def spares(scenario: Scenario, arrangement: Arrangement) -> tuple[Spare, ...]:
    """Up to three lines with the least to spare, the tightest first.

    ``arrangement`` must work. Nothing for a room without pieces.
    """
    scene = Scene(scenario, arrangement)
    web = Web(scene)
    limits = ranges(web)
    finder = Chains(web, limits)
    found: list[Spare] = []
    way = _way(scene)
    if way is not None:
        found.append(way)
    found += [_spare_of(finder, limits, chain) for chain in _tightest(finder, web)]
    found.sort(key=lambda s: (s.mm, not s.exact))
    return tuple(found[:SHOWN])


def _tightest(finder: Chains, web: Web) -> list[Chain]:
    """The chains with the least to spare; of those with the same pieces on them, one."""
    waiting = sorted(
        (finder.quick(node, axis) for node, axis in slidable(web)), key=lambda c: c.spare
    )
    best: list[Chain] = []
    for chain in waiting:
        best.sort(key=lambda c: c.spare)
        if len(best) >= SHOWN and best[SHOWN - 1].spare <= chain.spare:
            break
        looked = finder.best(chain.node, chain.axis)
        names = set(on_line(looked))
        if not _below_a_lamp(web, looked) and not any(_same_line(looked, names, c) for c in best):
            best.append(looked)
    best.sort(key=lambda c: c.spare)
    return best[:SHOWN]


def _below_a_lamp(web: Web, chain: Chain) -> bool:
    """Whether a line leads from a lamp round to the same lamp: across the table under it."""
    start, end = ends(web, chain)
    return start == end and any(f.name == start for f in web.scene.scenario.room.hung)


def _same_line(one: Chain, names: set[str], other: Chain) -> bool:
    """Whether a line tells nothing that the other does not tell as well."""
    there = set(on_line(other))
    if one.axis != other.axis:
        return False
    within = names <= there and other.spare <= one.spare
    return within or (there <= names and other.spare == one.spare)


def _proven(finder: Chains, chain: Chain) -> bool:
    """Whether nothing on the line could be any larger, whatever choice is made."""
    nodes = {p.node for link in chain.links for p in (link.low, link.high)} - {0}
    if finder.web.roomy or any((n, chain.axis) not in slidable(finder.web) for n in nodes):
        return False
    found = [finder.best(node, chain.axis) for node in nodes]
    return all(c.sure and c.spare <= chain.spare for c in found)


def _spare_of(finder: Chains, limits: list[tuple[Range, Range]], chain: Chain) -> Spare:
    web = finder.web
    mm = agreed_by_judge(web, chain, finder.quick(chain.node, chain.axis))
    exact = mm == chain.spare and (chain_is_proven(web, limits, chain) or _proven(finder, chain))
    direction: Literal["up", "across"] = "up" if chain.axis else "across"
    pieces = tuple(on_line(chain))
    return Spare(ends(web, chain), passed(web, chain), pieces, direction, mm, exact)


def agreed_by_judge(web: Web, best: Chain, now: Chain) -> int:
    """The most that the judge agrees to: all that the chain has, or less.

    ``now`` is the tightest chain as things lie, which asks less sliding of them.
    """
    amounts = {(c.spare, i) for i, c in enumerate((now, best))}
    amounts |= {(amount // 2 // FINEST * FINEST, i) for amount, i in amounts}
    amounts |= {(min(FINEST, c.spare), i) for i, c in enumerate((now, best))}
    for amount, which in sorted(amounts, reverse=True):
        if not amount or _works(web, (now, best)[which], amount):
            return amount
    return 0


def _works(web: Web, chain: Chain, by: int) -> bool:
    """Whether the judge passes it with the piece in the middle of the chain larger."""
    root = web.nodes[chain.node - 1].root.name
    own = [n for n in on_line(chain) if web.scene.scenario.root(n) == root]
    name = root if root in own or not own else own[0]
    larger = grow_piece(web, chain, name, by)
    if all(breaches(*after) for after in larger):
        return False
    # Rules that do not vouch for the sizes between say of each whether it works.
    sideways = web.scene.find(name).facing in ("left", "right")
    dimension: Dimension = "width" if (chain.axis == 0) != sideways else "depth"
    unsure = [r for r in unsure_musts(larger[0][0], name, dimension) if not r.costly]
    return not unsure or all(
        any(_keeps(unsure, Scene(*after)) for after in grow_piece(web, chain, name, mm))
        for mm in range(FINEST, by, FINEST)
    )


def _keeps(rules: Sequence[Rule], scene: Scene) -> bool:
    return not any(True for rule in rules for _ in rule.breaches(scene))


def _way(scene: Scene) -> Spare | None:
    """How much wider than asked the narrowest stretch of the way in is."""
    scenario = scene.scenario
    reached = goals(scene)
    door = scenario.room.main_door
    if not reached or door is None:
        return None
    low, high, narrow = 0, WIDER + FINEST, ""
    while high - low > FINEST:
        middle = (low + high) // 2 // FINEST * FINEST
        walk = walk_of(scene, empty_floor(scenario, scenario.walkway + middle))
        missed = next((g.name for g in reached if not walk.reaches(g)), None)
        if missed is None:
            low = middle
        else:
            high, narrow = middle, missed
    if not narrow:
        return None
    return Spare((door.name, narrow), (scenario.walkway,), (), "way", low, exact=False)


def on_line(chain: Chain) -> list[str]:
    """The pieces on the chain, in order, each once."""
    names: list[str] = []
    for link in chain.links:
        for patch in (link.low, link.high):
            if patch.node and patch.name not in names:
                names.append(patch.name)
    return names


def passed(web: Web, chain: Chain) -> tuple[str | int, ...]:
    """The pieces with the mm of floor they need between them, without the two ends.

    A strip counts with its least depth; what stays in the middle of the line is named.
    """
    found: list[str | int] = []
    first, last = chain.links[0], chain.links[-1]
    for link in chain.links:
        if link is not first or _inside(web, chain, link.low, high=False):
            found.append(link.low.name)
        behind = link.low.beyond(chain.axis, high=True)
        before = link.high.beyond(chain.axis, high=False)
        found += [deep for deep in (behind, before) if deep]
        if link is not last or _inside(web, chain, link.high, high=True):
            found.append(link.high.name)
    return tuple(found)


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
    return _called(web.scene.scenario.room.walls[wall])


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
            return _called(wall)
    if patch.name != OUTSIDE:
        return patch.name
    # A slanted wall: the one that is met first.
    return _called(min(room.walls, key=lambda w: _off(w, side)))


def _off(wall: Wall, side: LineString) -> float:
    line = LineString([wall.start, wall.end])
    return float(line.distance(side) + line.hausdorff_distance(side) / 1e6)


def _called(wall: Wall) -> str:
    """The wall's name as a person says it."""
    name = wall.part_of or wall.name
    return name if len(name) > 2 else the_wall(name)
