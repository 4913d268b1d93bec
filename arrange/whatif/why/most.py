"""The most that can be had of one length of a clashing set while the others hold.

Lengths in mm; found by halving, so that 1 mm more is proven impossible.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from arrange.changing import changed
from arrange.data.arrangement import Arrangement
from arrange.data.change import Change, LowerClearance, NarrowWalkway, Resize
from arrange.data.clash import Clash, Member
from arrange.data.scenario import Scenario
from arrange.scene import Scene
from arrange.settling import Settler
from arrange.whatif.why.members import clearance_of, restricted

SLENDER = 50  # mm; a body thinner than this is no piece
PATIENCE = 2.0  # s for one question


@dataclass(frozen=True, slots=True)
class Quantity:
    """A length that a set asks for; ``side`` is which one of a piece's body, else ""."""

    member: Member
    asked: int
    least: int
    side: str = ""


@dataclass(frozen=True, slots=True)
class Most:
    """At most ``most`` mm of a quantity, shown by an arrangement of ``scenario``.

    ``scenario`` has only the set's members, and the quantity brought down. ``proven``:
    1 mm more is impossible.
    """

    quantity: Quantity
    most: int
    scenario: Scenario
    arrangement: Arrangement
    proven: bool


def quantities(scenario: Scenario, members: Sequence[Member]) -> list[Quantity]:
    """What has a length: clearances, deepest first; the walkway; bodies, largest first."""
    depths = [
        Quantity(m, clearance_of(scenario, m).least, 0) for m in members if m.kind == "clearance"
    ]
    depths.sort(key=lambda q: (-q.asked, q.member.name, q.member.part))
    walkways = [Quantity(m, scenario.walkway, 1) for m in members if m.kind == "walkway"]
    pieces = [scenario.piece(m.name) for m in members if m.kind == "piece"]
    pieces.sort(key=lambda p: (-p.width * p.depth, p.name))
    bodies = [
        Quantity(Member("piece", p.name), size, max(SLENDER, p.least_side(side)), side)
        for p in pieces
        for side, size in (("width", p.width), ("depth", p.depth))
    ]
    return [*depths, *walkways, *bodies]


def with_length(scenario: Scenario, quantity: Quantity, length: int) -> Scenario:
    """The scenario with the quantity at another length; what is held stays so."""
    member = quantity.member
    change: Change
    if member.kind == "clearance":
        change = LowerClearance(member.name, member.part, length)
    elif member.kind == "walkway":
        change = NarrowWalkway(length)
    elif quantity.side == "width":
        change = Resize(member.name, width=length)
    else:
        change = Resize(member.name, depth=length)
    return changed(scenario, [change])


def most_of(
    scenario: Scenario, clash: Clash, quantity: Quantity, settler: Settler, least: int = 0
) -> Most | None:
    """The most of one quantity that can be had; None if there is none at all, or no time.

    With ``least`` only that much or more is looked for, None if it cannot be had. A body that
    is held where it stands has no other size: None.
    """
    member = quantity.member
    if Member("held", member.name) in clash.members and member.kind == "piece":
        return None
    alone = restricted(scenario, clash.members)
    low = max(quantity.least, least)
    if low >= quantity.asked:
        return None
    first = settler.settle(with_length(alone, quantity, low), seconds=PATIENCE)
    if first.arrangement is None:
        return None
    high, shown, proven = quantity.asked, first.arrangement, True
    while high - low > 1:
        low = max(low, min(_had(alone, quantity, low, shown), high - 1))
        if high - low <= 1:
            break
        middle = (low + high) // 2
        answer = settler.settle(with_length(alone, quantity, middle), seconds=PATIENCE)
        if answer.arrangement is not None:
            low, shown = middle, answer.arrangement
        elif answer.answer == "impossible":
            high = middle
        else:
            proven = False
            break
    return Most(quantity, low, with_length(alone, quantity, low), shown, proven)


def _had(alone: Scenario, quantity: Quantity, low: int, shown: Arrangement) -> int:
    """How much of a clearance an arrangement has, if walkways do not mind; else ``low``."""
    if quantity.member.kind != "clearance" or alone.walks:
        return low
    scene = Scene(with_length(alone, quantity, low), shown)
    placed = scene.find(quantity.member.name)
    return max(low, scene.free_depth(placed, clearance_of(alone, quantity.member)))
