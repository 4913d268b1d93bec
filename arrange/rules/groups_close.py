"""Closer inside a group than to the next one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from arrange.data.lengths import the
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import around, gap
from arrange.rules.groups import Group, groups, hubs
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule

FARTHEST = 2500  # mm inside a group; common practice, no source


class GroupsClose(Rule):
    """The largest gap inside a group is at most 2.5 m, and smaller than that to the next.

    Groups are as for ``zones``. Inside, the gap of a piece is that to the main piece
    of its group or to a coffee table, whichever is nearer: an armchair across the coffee
    table from the sofa is near its group, although it is 1.6 m from the sofa. Outside, it is
    the gap between a piece of the one and a piece of the other; a table with its chairs, a desk
    with its own and a bed with its tables are one box. Both are the larger of the gap across
    and the gap up the plan. Groups of one piece have no inside. Those whose
    main pieces are desks, or of one kind and height, are not kept apart: such pieces belong
    side by side.
    """

    id = "groups-close"
    title = "Closer inside a group than to the next"
    source = "group-gaps"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim that counts the groups which have another to keep off."""
        names = tuple(group.main.name for group in _counted(scenario))
        if not names:
            return []
        steps = (FARTHEST,) * len(names)
        return [Claim(self.id, names, self.weight, steps, (), self.source, counted=True)]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """For each group some length that nothing inside passes and all outside do."""
        del claim
        return model.tally([self._close(model, group) for group in _counted(model.scenario)])

    @staticmethod
    def _close(model: Verbs[L], group: Group) -> L:
        close = model.literal(f"{group.main.name} close together")
        inside = model.number(0, FARTHEST)
        for piece in group.others:
            near = [model.place(hub.name) for hub in hubs(group) if hub.name != piece.name]
            model.near_one(close, model.place(piece.name), near, inside)
        for other in _next_to(model.scenario, group):
            for one, two in product(_parts(group), _parts(other)):
                model.beyond(close, model.around(one), model.around(two), inside + 1)
        return close

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How many groups are closer inside, and the one that is least so."""
        spans = [_span(scene, group) for group in _counted(scene.scenario)]
        wrong = [span for span in spans if not _is_close(span)]
        level, things = len(spans) - len(wrong), len(claim.steps)
        text = "What belongs together stands closer than what does not"
        if wrong:
            text = _wrong(scene, max(wrong, key=lambda span: span.inside - span.outside))
        return Measure(level, text, f"{level} of {things}", "closer inside")


@dataclass(frozen=True, slots=True)
class _Span:
    """The largest gap inside a group in mm and of which piece, the gap to which next group."""

    inside: int
    piece: str
    outside: int
    next_to: str


def _is_close(span: _Span) -> bool:
    return span.inside < min(span.outside, FARTHEST + 1)


def _counted(scenario: Scenario) -> list[Group]:
    return [group for group in groups(scenario) if group.others and _next_to(scenario, group)]


def _next_to(scenario: Scenario, group: Group) -> list[Group]:
    """The groups that it should be farther from than its own pieces are."""
    others = [other for other in groups(scenario) if other.main.name != group.main.name]
    return [other for other in others if not _belong_together(group.main, other.main)]


def _belong_together(one: Piece, two: Piece) -> bool:
    alike = one.kind != "" and (one.kind, one.height) == (two.kind, two.height)
    return alike or (one.is_a("desk") and two.is_a("desk"))


def _span(scene: Scene, group: Group) -> _Span:
    inside, piece = max((_inside(scene, group, p.name), p.name) for p in group.others)
    outside, next_to = min(
        (_outside(scene, group, other), other.main.name)
        for other in _next_to(scene.scenario, group)
    )
    return _Span(inside, piece, outside, next_to)


def _wrong(scene: Scene, span: _Span) -> str:
    text = f"{the(span.piece, first=True)} is {scene.how_far(span.inside)} the rest of its group"
    if span.inside > FARTHEST:
        return text
    apart = scene.how_far(span.outside)
    return f"{text}, and that group is {apart} the one around {the(span.next_to)}"


def _inside(scene: Scene, group: Group, name: str) -> int:
    near = [scene.find(hub.name) for hub in hubs(group) if hub.name != name]
    return min(gap(scene.find(name), hub) for hub in near)


def _outside(scene: Scene, group: Group, other: Group) -> int:
    ones, twos = (
        [around([scene.find(name) for name in part]) for part in _parts(g)] for g in (group, other)
    )
    return min(gap(one, two) for one, two in product(ones, twos))


def _parts(group: Group) -> list[tuple[str, ...]]:
    """What its outline is made of: seats stand here and there, all else close together."""
    if group.main.is_a("seat"):
        return [(name,) for name in group.names]
    return [group.names]
