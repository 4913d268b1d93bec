"""What every rule is made of. Imports no solver.

A rule has two faces in one file: ``build`` and ``reach`` put it into a model through
that model's verbs, ``breaches`` and ``measure`` judge a finished arrangement from exact
shapes. Neither face uses the other. A must also declares what can be asked of it: its
requirements in a scenario, how they could give, and when smaller is sure to do. What it
does not declare is taken at its worst, so that nothing false is ever proven by it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from shapely.geometry import Polygon

from arrange.data.conflict import Requirement
from arrange.data.lengths import the
from arrange.data.piece import Clearance, Piece, nearer
from arrange.data.repair import Relaxation
from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.data.sizes import Dimension
from arrange.geometry.scene import Scene
from arrange.rules.protocol import L, Verbs
from arrange.rules.requirement import ROOM, AskedFloor, Quantity, Relaxing, RequirementKind


@dataclass(frozen=True)
class Region:
    """Floor that some pieces must stay off, between two heights in mm.

    ``why`` goes on after the name of a piece that stands there: "stands in the way of the
    door". ``name`` is what a gap beside it ends at, "" for the title of the rule.
    ``keeps_out`` says which pieces; ``blocks_use`` says that the clearances of pieces may
    not reach into it either (a wall, a column; not a door's floor); ``rugs_too`` that
    rugs must stay off as well, which else lie on any floor.
    """

    shape: Polygon
    why: str
    name: str = ""
    bottom: int = 0
    top: int = 100_000
    keeps_out: Callable[[Piece], bool] = lambda _: True
    blocks_use: bool = False
    rugs_too: bool = False

    def holds_off(self, piece: Piece) -> bool:
        """Whether ``piece`` must stay off this floor, going by its heights and kind."""
        meets = piece.bottom < self.top and piece.top > self.bottom
        return meets and (self.rugs_too or not piece.flat) and self.keeps_out(piece)


@dataclass(frozen=True, slots=True)
class Claim:
    """One thing a wish can earn points for in this scenario.

    ``steps`` are what each level asks for, easiest first (mm, or whatever the
    rule measures); reaching level k of n earns k/n of the points. ``about``
    holds what the rule needs to find the thing again. ``weight`` is among the claims of
    its rule. With ``counted`` the level counts what is as it should be, of as many things
    as there are steps. A claim of ``first_rank`` is about what a good plan never has: a
    miss ranks a plan lower whatever its points; what ``protects`` somebody does so even
    where the person holds the piece in its place.
    """

    rule: str
    subjects: tuple[str, ...]
    weight: int
    steps: tuple[int, ...] = (0,)
    about: tuple[Any, ...] = ()
    source: str = "common-practice"
    overridden: bool = False
    counted: bool = False
    first_rank: bool = False
    protects: bool = False

    def faults(self, level: int) -> int:
        """How many faults of first rank there are at that level."""
        if not self.first_rank:
            return 0
        return len(self.steps) - level if self.counted else int(level == 0)

    @property
    def key(self) -> str:
        """A name for the claim that is unique in its scenario."""
        return "/".join([self.rule, *self.subjects, *map(str, self.about)])


@dataclass(frozen=True, slots=True)
class Measure:
    """What the judge measured for a claim: the level reached and the words."""

    level: int
    sentence: str
    measured: str = ""
    wanted: str = ""


def off_its_wall(name: str, wanted: str) -> Measure:
    """What is measured along a wall, of a piece that should have one at its back and has not."""
    return Measure(0, f"{the(name, first=True)} does not stand against a wall", "no wall", wanted)


# Where a clearance is set, as the rules about it say.
ON_THE_PIECE = 'set it on the piece: clearance.front = { least = "70 cm" }'


class Rule:
    """A rule. Subclasses set the class attributes and override what they need."""

    id: str = ""
    title: str = ""
    kind: Literal["must", "wish"] = "wish"
    source: str = "common-practice"
    weight: int = 1  # of each of its claims, among themselves
    takes: Sequence[Literal["least", "comfortable"]] = ()  # values a scenario may set
    distances: bool = False  # steps are distances in mm, farthest first
    elsewhere: str = ""  # where the file has a value that may be looked for in its [[rule]]
    always: str = ""  # why it cannot be switched off, or what to do instead
    in_model: bool = True  # whether the model keeps the must; else the search sees to it
    costly: bool = False  # whether judging it takes long, so that it is judged last
    # Whether it keeps what is tied together. Today that may be apart: a chair is pulled out.
    keeps_ties: bool = False

    # -- the floor, for both faces ---------------------------------------
    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """Floor that pieces must stay off; used by both faces."""
        del scenario
        return ()

    # -- the model's face ------------------------------------------------
    def build(self, model: Verbs[L]) -> None:
        """Add the must to the model. Nothing to do for ``regions``: the model adds them."""

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """One literal a level; each may be true only if that level is reached."""
        raise NotImplementedError(self.id)

    def depths(self, scenario: Scenario, piece: Piece, clearance: Clearance) -> tuple[int, ...]:
        """Depths in mm, rising, at which a clearance earns points; asked before ``reach``.

        The model lays the floor out for them; no two rules may name any for one clearance.
        """
        del scenario, piece, clearance
        return ()

    # -- the judge's face ------------------------------------------------
    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """Every way a finished arrangement breaks the must."""
        for region in self.regions(scene.scenario):
            for placed in scene.placed:
                if region.holds_off(placed.piece) and scene.overlap(placed.body, region.shape):
                    name = placed.piece.name
                    yield Breach(self.id, (name,), f"{the(name, first=True)} {region.why}")

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The level a finished arrangement reaches, and the sentence that says so."""
        raise NotImplementedError(self.id)

    # -- points ----------------------------------------------------------
    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """What the wish can earn points for in this scenario."""
        del scenario
        return ()

    def claims_as_set(self, scenario: Scenario) -> Sequence[Claim]:
        """The claims with the person's own distance, marked where something is their own."""
        setting = scenario.setting(self.id)
        own: dict[str, Any] = {} if setting.weight is None else {"overridden": True}
        if self.distances and setting.comfortable is not None:
            own["source"] = "yours"
        claims = self.claims(scenario)
        if not own:
            return claims
        far = setting.comfortable if self.distances else None
        return [
            replace(c, steps=nearer(c.steps, far), **{"overridden": True, **own}) for c in claims
        ]

    # -- what can be asked of a must -------------------------------------
    @property
    def binding(self) -> bool:
        """Whether an arrangement can break it."""
        return self.kind == "must"

    @property
    def kinds(self) -> Sequence[RequirementKind]:
        """The sorts of requirement it makes; subclasses set a class attribute.

        Undeclared: one, the rule as a whole.
        """
        return (RequirementKind(self.id, ROOM, 9),)

    def requirements(self, scenario: Scenario) -> Sequence[Requirement]:
        """What it requires here and could be without. Undeclared: the rule as a whole.

        Asked of every rule, so one that can be switched off looks at that itself.
        """
        del scenario
        return (Requirement(self.id),) if self.binding else ()

    def rests_on(self, scenario: Scenario, requirement: Requirement) -> frozenset[Requirement]:
        """Those without which a requirement says nothing. Undeclared: every piece."""
        del requirement
        return frozenset(Requirement("piece", p.name) for p in scenario.pieces)

    def keep(self, scenario: Scenario, kept: frozenset[Requirement], whole: Scenario) -> Scenario:
        """The scenario in which of its requirements only those among ``kept`` hold.

        ``whole`` is the scenario that the requirements are of; ``scenario`` is what other
        rules have left of it: pieces may be gone. Undeclared, the rule is switched off,
        which is right only for a rule that is kept or not as a whole; one that makes
        several requirements says here how only some of them are kept, or makes one.

        Raises
        ------
        NotImplementedError
            If only some of several requirements are kept and the rule does not say how.
        """
        made = self.requirements(whole)
        gone = [r for r in made if r not in kept]
        if gone and len(gone) < len(made):
            raise NotImplementedError(f"{self.id} keeps its requirements all or none: see keep")
        return scenario.switched_off(self.id) if gone else scenario

    def requirement_words(
        self, scenario: Scenario, requirement: Requirement, among: Sequence[Requirement] = ()
    ) -> str:
        """A requirement in the scenario's own words; ``among`` is the set it is told in."""
        del scenario, requirement, among
        return self.title

    def quantities(self, scenario: Scenario, requirement: Requirement) -> Sequence[Quantity]:
        """The lengths that a requirement asks for."""
        del scenario, requirement
        return ()

    def asked_floor(self, scene: Scene) -> Iterable[AskedFloor]:
        """Floor that is surely asked for where it lies in a finished arrangement."""
        del scene
        return ()

    def plain_sum(self, scenario: Scenario) -> str:
        """A sum in words that shows by itself why nothing works; "" if there is none."""
        del scenario
        return ""

    def relaxations(self, ask: Relaxing) -> Iterable[Relaxation]:
        """Every way in which its requirements could give, with the effort of each."""
        del ask
        return ()

    def monotone(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> bool:
        """Whether the must is sure to last when ``piece`` shrinks in its place.

        In ``dimension``, down to what is left of its clearances: a height from the top, a
        width or depth by moving one side, while the other sides and all else stay.
        Undeclared: never.
        """
        del scenario, piece, dimension
        return False

    def eased(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> Scenario | None:
        """A scenario that asks no more, in which the must lasts when ``piece`` shrinks.

        Asked only where it is not ``monotone``. None if there is no such scenario.
        Undeclared: the rule is switched off.
        """
        del piece, dimension
        return scenario.switched_off(self.id)

    def drops_ease(self, scenario: Scenario, names: frozenset[str]) -> bool:
        """Whether leaving out these pieces only takes demands away. Undeclared: no."""
        del scenario, names
        return False


class KeepsOff(Rule):
    """A must that only keeps bodies off something, whoever else is there.

    A smaller body in the place of a larger one is a part of it, and what is not there
    meets nothing: so it lasts when a piece shrinks in any dimension, or goes. Not for a
    must that lets a large piece stand where it holds a small one off.
    """

    def rests_on(self, scenario: Scenario, requirement: Requirement) -> frozenset[Requirement]:
        """Nothing: it says something by itself."""
        del scenario, requirement
        return frozenset()

    def monotone(self, scenario: Scenario, piece: Piece, dimension: Dimension) -> bool:
        """Always."""
        del scenario, piece, dimension
        return True

    def drops_ease(self, scenario: Scenario, names: frozenset[str]) -> bool:
        """Always."""
        del scenario, names
        return True
