"""An arrangement with one piece larger and the others pushed aside. Lengths in mm; no solver.

Room to spare: how far a measurement could be wrong before an arrangement stops working.

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

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.change import Resize, changed
from arrange.data.lengths import measured
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension
from arrange.data.spare import FINEST, Spare
from arrange.geometry.goals import empty_floor, goals, walk_of
from arrange.geometry.scene import Scene
from arrange.geometry.slots import in_slot, slot_number
from arrange.judge import breaches
from arrange.rules.rule import Rule
from arrange.whatif.chains import Chain, Chains, chain_is_proven, slidable
from arrange.whatif.links import Range, Web, ranges
from arrange.whatif.requirements import unsure_musts
from arrange.words.slack import chain_words, ends, on_line

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
    waiting = [p.piece for p in web.scene.placed if p.name not in places]
    while waiting:
        piece = waiting.pop(0)
        if piece.anchor not in places:
            waiting.append(piece)
            continue
        new, old = after.piece(piece.name), web.scene.arrangement.of(piece.name)
        host = web.scene.find(piece.anchor)
        which = slot_number((piece, old), (host.piece, host.placement), after.room)
        if which is None:
            places[piece.name] = old
        else:
            there = after.piece(piece.anchor), places[piece.anchor]
            at = in_slot(new, there, new.slots[which], after.room)
            places[piece.name] = replace(at, wall=old.wall)
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
    found += [_told(finder, limits, chain) for chain in _tightest(finder, web)]
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
        if not any(_same_line(looked, names, c) for c in best):
            best.append(looked)
    best.sort(key=lambda c: c.spare)
    return best[:SHOWN]


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


def _told(finder: Chains, limits: list[tuple[Range, Range]], chain: Chain) -> Spare:
    web = finder.web
    mm = agreed_by_judge(web, chain, finder.quick(chain.node, chain.axis))
    exact = mm == chain.spare and (chain_is_proven(web, limits, chain) or _proven(finder, chain))
    unit = web.scene.scenario.unit
    words, pieces = chain_words(web, chain, unit), tuple(on_line(chain))
    return Spare(ends(web, chain), words, pieces, "up" if chain.axis else "across", mm, exact)


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
    asked = measured(scenario.walkway, scenario.unit)
    words = f"The way in from {door.name} to {narrow}, {asked} asked"
    return Spare((door.name, narrow), words, (), "way", low, exact=False)
