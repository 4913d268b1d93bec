"""Everything can be reached on a path of the set width."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from arrange.data.change import GiveUpOpening, NarrowWalkway
from arrange.data.conflict import Requirement
from arrange.data.lengths import measured, the
from arrange.data.people import asked
from arrange.data.piece import Clearance, Piece
from arrange.data.repair import Relaxation
from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension
from arrange.geometry.scene import Scene
from arrange.geometry.walking import clearance_width, goals, must_reach, walk_of
from arrange.rules.requirement import (
    ROOM,
    Quantity,
    Relaxing,
    RequirementKind,
    steps_down,
    who_says,
)
from arrange.rules.rule import Rule

USUAL = 600  # mm; below it a walkway is narrower than usual
NARROWEST = 450  # mm (`walk-sideways`): a squeeze past sideways
ITSELF = "walkway"  # as a person names what must not be touched


class Walkway(Rule):
    """From the room's door a path of the set width leads to all that must be reached.

    That is one clearance side of every piece, every other door, and every window
    that must open or is the way out (`arrange.geometry.walking`). A disc as wide as the path
    is moved over the free floor. A window that must open is reached from 45 cm before its
    wall and up to 45 cm beside it too, over what is no higher than 90 cm: common practice,
    no source. The way out is reached straight.

    Nothing is built: as constraints this would cost the proof. The search
    guarantees it instead: it seeds the model with walkway rectangles or cuts,
    and passes on only what this judge has passed. The usual 600 mm are the least of
    `walk-main-range`; what was published, `bedroom-main-path` and `walk-between`, is
    10 mm more.
    """

    id = "walkway"
    title = "A way to everything"
    kind = "must"
    source = "walk-main-range"
    elsewhere = 'its width is set at the top of the file: walkway = "70 cm"'
    in_model = False
    costly = True
    kinds = (
        RequirementKind("walkway", ROOM, 0, dispensable=2),
        RequirementKind("opening", ROOM, 4, 1),
    )

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """One breach for each goal that the path does not reach."""
        walk = walk_of(scene)
        width = scene.length(scene.scenario.walkway)
        main = scene.scenario.room.main_door
        for goal in goals(scene):
            if not walk.reaches(goal):
                said = the(goal.name, first=True)
                sentence = f"{said} cannot be reached by a walkway {width} wide {goal.purpose}"
                if main is not None and goal.name == main.name and not goal.clearance:
                    door = the(main.name)
                    sentence = f"Nobody can come in by {door}: no walkway {width} wide begins there"
                yield Breach(self.id, (goal.name,), sentence)

    # -- what can be asked of it -----------------------------------------
    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """The way to everything; and that each window to be opened can be reached."""
        if not scenario.walks:
            return ()
        openings = [Requirement("opening", w.name) for w in scenario.room.windows if w.must_open]
        return (Requirement("walkway"), *openings)

    def rests_on(self, scenario: Scenario, requirement: Requirement) -> frozenset[Requirement]:
        """A path begins on the floor inside a door; a window is reached by a path."""
        del scenario
        needs = "walkway" if requirement.kind == "opening" else "doors"
        return frozenset({Requirement(needs)})

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """A window that is not kept need not be reached."""
        del whole
        windows = tuple(
            replace(w, must_open=Requirement("opening", w.name) in kept)
            for w in scenario.room.windows
        )
        scenario = replace(scenario, room=replace(scenario.room, windows=windows))
        return scenario if Requirement("walkway") in kept else scenario.switched_off(self.id)

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """How wide, or to which window."""
        del among
        if requirement.kind == "opening":
            return f"{the(requirement.name)} can be reached to open it"
        wide = measured(scenario.walkway, scenario.unit)
        need = asked(scenario.people, "walkway")
        whose = f", for {need.whose}" if need and need.least == scenario.walkway else ""
        return f"a walkway {wide} wide from the door to everything that is used{whose}"

    def quantities(self, scenario: Scenario, requirement: Requirement) -> Sequence[Quantity]:
        """Its width."""
        if requirement.kind == "opening":
            return ()
        wide = measured(scenario.walkway, scenario.unit)
        return [
            Quantity(
                requirement,
                scenario.walkway,
                1,
                f"{wide} for the walkway",
                NarrowWalkway,
                order=(1,),
                gap="to walk through",
            )
        ]

    def relaxations(self, ask: Relaxing) -> Iterator[Relaxation]:
        """A narrower way, unless people must get out by a window; windows not walked up to."""
        scenario = ask.scenario
        if not scenario.walks:
            return
        if ITSELF not in ask.spared and not any(w.escape for w in scenario.room.windows):
            yield from _narrower(ask)
        for window in scenario.room.windows:
            if window.must_open and not window.escape and ask.touchable(window.name):
                yield from ask.relaxation(
                    "window",
                    (GiveUpOpening(window.name),),
                    f"nobody can walk up to {the(window.name)} to open it",
                    ("window", window.name),
                    None,
                    monotone=True,
                )

    def monotone(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> bool:
        """Where every strip of the piece that must be reached is as wide as the walkway.

        A path on less floor is a path on more, so all others are reached as before. Its own
        strip moves: where it is at least as deep and as long as the walkway is wide, the
        whole strip was part of the walkway's floor, and old strip, freed floor and new
        strip make one rectangle, so the path goes on. Where it is narrower, a path steps
        into it from nearby, and "nearby" may have been the part that is gone. Nor is it sure
        that anybody can stand up on freed floor where the ceiling is not level.
        """
        if dimension != "height" and not scenario.room.is_level:
            return not any(must_reach(c) for c in piece.clearances)
        return dimension == "height" or all(_wide(c, piece, scenario) for c in piece.clearances)

    def eased(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> Scenario:
        """Nobody has to walk to the piece."""
        del dimension
        pieces = tuple(_unreached(p) if p.name == piece.name else p for p in scenario.pieces)
        return replace(scenario, pieces=pieces)

    def drops_ease(self, scenario: Scenario, names: frozenset[str]) -> bool:
        """Always: more floor is free, and less must be reached."""
        del scenario, names
        return True


def _wide(clearance: Clearance, piece: Piece, scenario: Scenario) -> bool:
    """Whether a clearance, if it must be reached, is wider than the walkway."""
    return not must_reach(clearance) or clearance_width(piece, clearance) > scenario.walkway


def _unreached(piece: Piece) -> Piece:
    return replace(piece, clearances=tuple(replace(c, walk=False) for c in piece.clearances))


def _narrower(ask: Relaxing) -> Iterator[Relaxation]:
    """To the usual width of 60 cm in steps, then on to a squeeze."""
    now, unit = ask.scenario.walkway, ask.scenario.unit
    widths = steps_down(now, USUAL if now > USUAL else NARROWEST, unit)
    if now > USUAL:
        widths += steps_down(USUAL, NARROWEST, unit)
    usual = measured(USUAL, unit)
    squeeze = f"at {measured(NARROWEST, unit)} people go through sideways"
    need = asked(ask.scenario.people, "walkway")
    for level, to in enumerate(widths, 1):
        below = to < USUAL
        if need and to < need.least:
            break  # somebody cannot pass
        note = f"your own value; {usual} is usual"
        if below:
            note = f"below the usual {usual}; {squeeze}"
        yield from ask.relaxation(
            "below_walkway" if below else "own_walkway",
            (NarrowWalkway(to),),
            f"the walkway is {measured(to, unit)} wide instead of {measured(now, unit)}",
            (ITSELF,),
            None,
            more=ask.efforts.of_lowering(now - to),
            level=level,
            monotone_unwalked=True,
            below=below,
            note=note,
            source=who_says("walk-sideways") if below else "",
        )
