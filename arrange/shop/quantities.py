"""How much of something a room takes: paint, wallpaper, curtains, light. Lengths in mm.

Each formula names its source by its id in ``arrange/data/sources.toml``. Areas are in
square metres, so that they read as the formulas are published.
"""

from __future__ import annotations

import math

# A wallpaper roll of category 1 (wallpaper-en233).
ROLL_WIDTH, ROLL_LENGTH = 530, 10_050
TRIM = 100  # mm a strip (wallpaper-drops)
CLOTH = 1370  # mm: the width curtain fabric is most often sold in; common practice
HEM = {"floor": 200, "sill": 160}  # mm: a double hem takes it twice (curtain-hem)
HEADING = 100  # mm of cloth turned over at the top; common practice
LEAST_EASE = 100  # mm (curtain-ease)


def paint_litres(area: float, spreading: float, coats: int = 1) -> float:
    """Litres of paint for ``area`` m2: area / spreading rate x coats (paint-formula).

    ``spreading`` is m2 that a litre covers once.

    >>> round(paint_litres(73.8, 24.15), 2)
    3.06
    """
    return area / spreading * coats


def wallpaper_strips(perimeter: int, width: int = ROLL_WIDTH) -> int:
    """Strips that go round a room: every started one counts (wallpaper-drops).

    >>> wallpaper_strips(14_000)
    27
    """
    return math.ceil(perimeter / width)


def wallpaper_rolls(
    perimeter: int,
    height: int,
    *,
    width: int = ROLL_WIDTH,
    long: int = ROLL_LENGTH,
    trim: int = TRIM,
    repeat: int = 0,
    half_drop: bool = False,
) -> int:
    """Rolls for walls ``height`` mm high (wallpaper-drops, wallpaper-offset).

    A cut is the height and ``trim``, raised to whole pattern repeats; with a ``half_drop``
    match one repeat more. Raises ValueError if a roll is shorter than one cut.

    >>> wallpaper_rolls(18_900, 2760, width=535, long=10_000, trim=150)
    12
    """
    cut = height + trim
    if repeat:
        cut = math.ceil(cut / repeat) * repeat + (repeat if half_drop else 0)
    drops = long // cut
    if not drops:
        raise ValueError(f"a roll of {long} mm gives no strip of {cut} mm")
    return math.ceil(wallpaper_strips(perimeter, width) / drops)


def curtain_width(pole: int) -> int:
    """Finished width of each of a pair: half the pole and a tenth, at least 10 cm (curtain-ease).

    >>> curtain_width(2000), curtain_width(1400)
    (1100, 800)
    """
    return pole // 2 + max(LEAST_EASE, pole // 20)


def curtain_cloth(pole: int, drop: int, fullness: float, to: str, repeat: int = 0) -> int:
    """Millimetres of cloth off the roll for a window (curtain-full-tape, curtain-hem).

    So many widths of cloth as the pole times ``fullness`` takes, each the ``drop``, its hem
    and heading long, raised to whole pattern repeats. ``to`` is "floor" or "sill".

    >>> curtain_cloth(2000, 2300, 2.0, "floor")
    7800
    """
    widths = math.ceil(pole * fullness / CLOTH)
    cut = drop + HEM[to] + HEADING
    return widths * (math.ceil(cut / repeat) * repeat if repeat else cut)


def lamps(lux: float, area: float, lumens: float, use: float, care: float) -> float:
    """How many lamps of ``lumens`` light ``area`` m2 with ``lux``: E A / (F UF MF) (lumen-formula).

    ``use`` is the utilisation factor, ``care`` the maintenance factor.

    >>> round(lamps(200, 60 * 24, 18_000, 0.4, 0.75), 2)
    53.33
    """
    return lux * area / (lumens * use * care)
