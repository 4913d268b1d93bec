"""What the person says of the paint, the paper and the cloth that a room is finished with."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Heading = Literal["gathered", "pinch pleat", "pencil pleat"]
# How much wider the cloth is than the pole (curtain-full-tape).
FULLNESS: dict[Heading, float] = {"gathered": 1.5, "pinch pleat": 2.0, "pencil pleat": 2.5}


@dataclass(frozen=True, slots=True)
class Finish:
    """Sizes in mm, what a litre of paint covers once in m2.

    The usual ones: paint at the cautious end (paint-cover-typ), a roll of category 1
    (wallpaper-en233), cloth as wide as it is most often sold (common practice). ``pattern`` and
    ``cloth_pattern`` are the length after which the pattern repeats, 0 without one.
    """

    coats: int = 2
    covers: int = 12
    roll_width: int = 530
    roll_length: int = 10_050
    pattern: int = 0
    half_drop: bool = False
    heading: Heading = "pinch pleat"
    cloth_width: int = 1370
    cloth_pattern: int = 0
