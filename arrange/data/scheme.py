"""What the person says of colours: of pieces, textiles and paint, and the piece that leads."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from arrange.data.colour import Lab

Of = Literal["piece", "textile", "paint"]  # in this order they are decided


@dataclass(frozen=True, slots=True)
class Photo:
    """A photo beside the scenario. ``at`` is the place pointed at: parts of its width, height.

    From the upper left corner, 0 to 1; None: what it shows most of.
    """

    file: str
    at: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Swatch:
    """The colour of something, as it was given: as Lab, or in a photo; perhaps neither is known.

    ``name`` is what all alike pieces are called by. ``picture`` is a photo to show it by,
    ``tags`` are what is said of how it feels.
    """

    name: str
    of: Of
    lab: Lab | None = None
    photo: Photo | None = None
    picture: str = ""
    tags: tuple[str, ...] = ()

    @property
    def coloured(self) -> bool:
        """Whether anything says its colour."""
        return self.lab is not None or self.photo is not None


@dataclass(frozen=True, slots=True)
class Scheme:
    """All swatches in the order of the file; ``lead`` names the piece that sets the others."""

    swatches: tuple[Swatch, ...] = ()
    lead: str = ""

    def of(self, what: Of) -> tuple[Swatch, ...]:
        """The swatches of one sort."""
        return tuple(s for s in self.swatches if s.of == what)

    def named(self, name: str) -> Swatch | None:
        """The swatch of that name, if there is one."""
        return next((s for s in self.swatches if s.name == name), None)
