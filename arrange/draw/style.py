"""How our drawings look: one frozen dataclass, every artist reads it."""

from __future__ import annotations

from dataclasses import dataclass, field

FONT = "DejaVu Sans"
MM_PER_POINT = 25.4 / 72
LEAST = 7.0  # points on paper: nothing is written smaller; what has no room is told otherwise


def _tints() -> dict[str, str]:
    return {
        "rest": "#d3e0ea",
        "sit": "#e2ebf0",
        "store": "#eadfcc",
        "table": "#f6f1e7",
        "green": "#dde7d8",
        "other": "#f1efeb",
        "rug": "#f4f0f3",
    }


@dataclass(frozen=True, slots=True)
class Style:
    """Colours, line widths and text sizes of a drawing.

    Line widths and text sizes are in points on paper, ``wall`` is in mm of the
    room. The tints differ in lightness by less than the dark lines and text on
    them, so a greyscale print loses nothing; meaning never hangs on hue alone.
    """

    paper: str = "#ffffff"
    floor: str = "#fdfcfa"
    cut: str = "#444b57"
    edge: str = "#20242b"
    line: str = "#3d434c"
    fine: str = "#868d97"
    text: str = "#181b21"
    quiet: str = "#3f454e"
    accent: str = "#0d5c75"
    loss: str = "#91431d"
    hatch: str = "#a8aeb7"
    walkway: str = "#cad9c1"
    low: str = "#ece6db"
    given: str = "#cfe3ea"
    tints: dict[str, str] = field(default_factory=_tints)

    wall: int = 120

    cut_width: float = 1.1
    outline_width: float = 0.95
    symbol_width: float = 0.5
    hatch_width: float = 0.4
    hatch_step: float = 4.2
    dimension_width: float = 0.55

    name_size: float = 8.0
    least_name_size: float = LEAST
    dimension_size: float = LEAST
    note_size: float = LEAST


STYLE = Style()
