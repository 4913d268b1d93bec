"""More room than the least beside each piece, up to what is comfortable."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from arrange.data.lengths import is_nought, the
from arrange.data.piece import ONE_SIDE, Clearance, Piece, comfort_steps
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.geometry.scene import DEEPEST, Placed, Scene
from arrange.geometry.shapes import has_front
from arrange.geometry.spots import Bounded, Coordinate, across, along, looking
from arrange.geometry.strips import Outlook
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import ON_THE_PIECE, Claim, Measure, Rule

PAST = 400  # mm beyond the foot of a bed to come in by; common practice, no source
BESIDE = 800  # mm so deep that people come in from beside; common practice, no source


class ComfortableClearance(Rule):
    """Points rise in up to three steps from the least depth to the comfortable one.

    The side of a bed for two that no walkway has to reach counts only where somebody gets
    into it: as wide as it is, it goes on 400 mm past the foot (by bounding boxes and the
    nearest quarter turn), or it is 800 mm deep.
    The source is that of the comfortable depth: `Clearance.comfortable_source`.
    """

    id = "comfortable-clearance"
    title = "Comfortable room to use each piece"
    elsewhere = ON_THE_PIECE
    takes = ("comfortable",)

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim for each clearance whose comfortable depth exceeds its least."""
        own = scenario.setting(self.id).comfortable
        found = []
        for piece in scenario.pieces:
            for c in piece.clearances:
                steps = self.depths(scenario, piece, c)
                if not steps:
                    continue
                source = "yours" if own is not None else _source(c)
                theirs = source == "yours"
                subjects, about = (piece.name,), (c.name,)
                found.append(
                    Claim(self.id, subjects, importance(piece), steps, about, source, theirs)
                )
        return found

    def depths(self, scenario: Scenario, piece: Piece, clearance: Clearance) -> tuple[int, ...]:
        """The steps from its least depth to the comfortable one."""
        del piece
        return comfort_steps(clearance, scenario.setting(self.id).comfortable)

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """The levels of the clearance's own strip, and a way into it."""
        name, deep = claim.subjects[0], model.depths(claim.subjects[0], claim.about[0])
        piece = model.scenario.piece(name)
        clearance = next(c for c in piece.clearances if c.name == claim.about[0])
        if not _needs_entry(piece, clearance):
            return deep
        levels = [model.literal() for _ in claim.steps]
        ways_in = [
            self._past_foot(model, piece, clearance, list(zip(claim.steps, levels, strict=True))),
            model.strip(name, _from_beside(clearance)),
        ]
        for level, own in zip(levels, deep, strict=True):
            model.implies(level, own)
            model.one_of(ways_in, when=[level])
        return levels

    @staticmethod
    def _past_foot(
        model: Verbs[L], bed: Piece, clearance: Clearance, levels: Sequence[tuple[int, L]]
    ) -> L:
        """A free strip past the foot, as wide as the highest true level asks."""
        past, place = model.literal(f"{bed.name} entered past its foot"), model.place(bed.name)
        strip = model.open_strip(past, (0, clearance.height), _own(model.scenario, bed.name))
        for way in FACINGS:
            looks = [past, model.faces(bed.name, way)]
            front, (low, high) = along(place, way)[1], across(strip, way)
            begin, end = along(strip, way)
            model.when(looks, begin == front, end == front + PAST)
            for step, when in [(1, looks), *((s, [*looks, level]) for s, level in levels)]:
                start, stop = _aside(place, way, clearance, step)
                if _is_low(way, clearance):
                    model.when(when, high == stop, low <= start)
                else:
                    model.when(when, low == start, high >= stop)
        return past

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The deepest step that one side gives, and the depth that is really free."""
        placed = scene.find(claim.subjects[0])
        clearance = next(c for c in placed.piece.clearances if c.name == claim.about[0])
        level = 0
        while level < len(claim.steps) and scene.free_sides(placed, clearance, claim.steps[level]):
            level += 1
        shut = ""
        if _needs_entry(placed.piece, clearance):
            free_steps = claim.steps[:level]
            level = sum(_is_entered(scene, placed, clearance, step) for step in free_steps)
            if level < len(free_steps):
                shut = ", but nobody can get in past its foot"
        depth = scene.free_depth(placed, clearance)
        # Deeper floor is not measured.
        deep = scene.length(depth, "down")
        free = f"{deep} or more" if depth == DEEPEST else deep
        there = "Nothing" if is_nought(deep) else free
        told = ""
        if depth < claim.steps[-1] and scene.ends_under_ceiling(placed, clearance):
            told = f": the ceiling is too low {'there' if is_nought(deep) else 'beyond'}"
        if depth < clearance.usual:
            told += f"; {scene.length(clearance.usual)} is usual"
        elif depth < claim.steps[-1]:
            told += f"; {scene.length(claim.steps[-1])} is comfortable"
        where = f"{clearance.where} {the(placed.name)}{clearance.as_faced}"
        if placed.placement.wall is None and not has_front(placed.piece):
            where = f"{ONE_SIDE} {the(placed.name)}"
        return Measure(
            level,
            f"{there} free {where} {clearance.purpose}{told}{shut}",
            free,
            scene.length(claim.steps[-1]),
        )


def _needs_entry(piece: Piece, clearance: Clearance) -> bool:
    """Whether it is the side of a bed for two that no walkway has to reach."""
    one_side = clearance.sides in (("left",), ("right",))
    return piece.is_a("for two") and one_side and clearance.walk and not clearance.least


def _from_beside(clearance: Clearance) -> Clearance:
    return replace(clearance, name=f"{clearance.name} from beside", comfortable=BESIDE)


def _own(scenario: Scenario, bed: str) -> list[str]:
    """The bed and what is tied to it."""
    return [p.name for p in scenario.pieces if bed in (p.name, p.anchor)]


def _is_low(way: Facing, clearance: Clearance) -> bool:
    """Whether the side is at the lower end across: left is as one faces the piece."""
    return (clearance.sides == ("left",)) == (way in ("down", "right"))


def _aside(
    bed: Bounded, way: Facing, clearance: Clearance, depth: int
) -> tuple[Coordinate, Coordinate]:
    """Where a strip so deep on that side begins and ends across the bed."""
    low, high = across(bed, way)
    return (low - depth, low) if _is_low(way, clearance) else (high, high + depth)


def _is_entered(scene: Scene, bed: Placed, clearance: Clearance, depth: int) -> bool:
    """Whether somebody gets into a strip so deep, past the foot or from beside."""
    if scene.strip_free(bed, _from_beside(clearance)):
        return True
    front = along(bed, bed.facing)[1]
    aside = _aside(bed, bed.facing, clearance, depth)
    strip = looking(bed.facing, (front, front + PAST), aside)
    outlook = Outlook(scene, (0, clearance.height), _own(scene.scenario, bed.name))
    return outlook.blocked_by(strip) is None


def _source(clearance: Clearance) -> str:
    return clearance.comfortable_source or clearance.usual_source or clearance.source


# What one uses all day counts for more than what one reaches into now and then; ours.
DAILY, OFTEN, SELDOM = 8, 3, 1
LIVED_IN = frozenset({"bed", "sleep", "sofa", "dine", "desk"})


def importance(piece: Piece) -> int:
    """How much the ease of using a piece counts beside that of the others."""
    if piece.roles & LIVED_IN:
        return DAILY
    return OFTEN if piece.major or piece.roles & {"store", "seat", "screen"} else SELDOM
