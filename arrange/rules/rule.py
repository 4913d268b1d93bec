"""What every rule is made of. Imports no solver.

A rule has two faces in one file: ``build`` and ``reach`` put it into the
solver's model through that model's verbs, ``breaches`` and ``measure`` judge a
finished arrangement from exact shapes. Neither face uses the other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

from shapely.geometry import Polygon

from arrange.data.piece import Piece
from arrange.data.result import Breach
from arrange.data.scenario import Scenario
from arrange.rules.steps import nearer

if TYPE_CHECKING:
    from arrange.geometry.scene import Scene
    from arrange.solver.model import Model


@dataclass(frozen=True)
class Region:
    """Floor that some pieces must stay off, between two heights in mm.

    ``keeps_out`` says which pieces; ``blocks_use`` says that the clearances of
    pieces may not reach into it either (a wall, a column; not a door's floor);
    ``rugs_too`` that rugs must stay off as well, which else lie on any floor.
    """

    shape: Polygon
    why: str
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
    holds what the rule needs to find the thing again.
    """

    rule: str
    subjects: tuple[str, ...]
    weight: int
    steps: tuple[int, ...] = (0,)
    about: tuple[Any, ...] = ()
    source: str = "common-practice"
    overridden: bool = False

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


class Rule:
    """A rule. Subclasses set the class attributes and override what they need."""

    id: str = ""
    title: str = ""
    kind: Literal["must", "wish"] = "wish"
    source: str = "common-practice"
    weight: int = 0
    takes: Sequence[Literal["least", "comfortable"]] = ()  # values a scenario may set
    distances: bool = False  # steps are distances in mm, farthest first
    always: str = ""  # why it cannot be switched off, or what to do instead

    def regions(self, scenario: Scenario) -> Sequence[Region]:
        """Floor that pieces must stay off; used by both faces."""
        del scenario
        return ()

    def build(self, model: Model) -> None:
        """Add the must to the model (regions are added by the model itself)."""

    def breaches(self, scene: Scene) -> Iterable[Breach]:
        """Every way a finished arrangement breaks the must."""
        for region in self.regions(scene.scenario):
            for placed in scene.placed:
                if region.holds_off(placed.piece) and scene.overlap(placed.body, region.shape):
                    yield Breach(self.id, (placed.piece.name,), f"{placed.piece.name} {region.why}")

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """What the wish can earn points for in this scenario."""
        del scenario
        return ()

    def claims_as_set(self, scenario: Scenario) -> Sequence[Claim]:
        """The claims with the person's own weight and distance, marked as overridden."""
        setting = scenario.setting(self.id)
        own: dict[str, Any] = {}
        if setting.weight is not None:
            own["weight"] = setting.weight
        if self.distances and setting.comfortable is not None:
            own["source"] = "yours"
        claims = self.claims(scenario)
        if not own:
            return claims
        far = setting.comfortable if self.distances else None
        return [replace(c, steps=nearer(c.steps, far), overridden=True, **own) for c in claims]

    def reach(self, model: Model, claim: Claim) -> Sequence[Any]:
        """One literal a level; each may be true only if that level is reached."""
        raise NotImplementedError(self.id)

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The level a finished arrangement reaches, and the sentence that says so."""
        raise NotImplementedError(self.id)
