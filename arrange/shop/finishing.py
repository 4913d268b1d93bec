"""The rest of the list: what a furnished room needs beside its pieces, and how much.

Each item says how its amount comes about, with the figures of this room, and the source of
its formula by its id in ``arrange/data/sources.toml``. Lengths in mm; areas in square metres,
so that they read as the formulas are published.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from shapely.geometry import LineString

from arrange.data.arrangement import Arrangement
from arrange.data.finish import FULLNESS, Finish
from arrange.data.lengths import listed, measured, sized, the
from arrange.data.people import cautioned
from arrange.data.piece import Piece, tips
from arrange.data.room import PENDANT as LAMP
from arrange.data.room import Window
from arrange.data.scenario import Scenario, Unit
from arrange.geometry.ceilings import ceiling_area, dormer_walls, wall_face
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import fixture_shape, opening_span, shares_floor

USUAL = Finish()
TRIM = 100  # mm a strip (wallpaper-drops)
HEM = {"floor": 200, "sill": 160}  # mm: a double hem takes it twice (curtain-hem)
HEADING = 100  # mm of cloth turned over at the top; common practice
LEAST_EASE = 100  # mm (curtain-ease)
SINGLE_ROLL, OPENINGS = 30, 50  # ft2 that a US single roll covers, that save one (wallpaper-us)
FOOT2 = 0.3048**2  # m2
POLE_SIDE = 200  # mm beyond the window (curtain-pole-side)
POLE_ABOVE = 120  # mm (curtain-pole-above)
OFF_FLOOR, BELOW_SILL = 20, 150  # mm; common practice
GENERAL = 54  # lx, halls and living rooms to bedrooms (lx-ies-general)
TASK = 431  # lx on a desk or a page (lx-ies-new-desk, lx-ies-reading)
TABLE = 215  # lx on a dining table (lx-ies-new-dining)
PAGE = 0.5  # m2 that a reading lamp lights; common practice
USE, CARE = 0.5, 0.8  # direct light (lumen-uf); lamps and shades not dusted daily: from memory
RUG_BESIDE = {True: 457, False: 305}  # mm beyond a bed for two, for one (rug-bed)
RUG_TABLE = 610  # mm beyond a dining table (rug-dining)
PENDANT = (762, 914)  # mm above the table under a ceiling of 2440 (pendant-table)
CEILING, FOOT, RAISED = 2440, 305, 76  # mm: raised by so much a foot of more ceiling
PICTURE_CENTRE = (1448, 1524)  # mm above the floor (art-centre)
PICTURE_ABOVE = (152, 203)  # mm above a sofa's back (art-above)
FIXINGS = 2  # a piece; common practice
BRIGHT, MIDDLE = 1000, 2500  # mm from a window, for plants; common practice


def paint_litres(area: float, spreading: float, coats: int = 1) -> float:
    """Litres of paint for ``area`` m2: area / spreading rate x coats (paint-formula).

    ``spreading`` is m2 that a litre covers once.

    >>> round(paint_litres(73.8, 24.15), 2)
    3.06
    """
    return area / spreading * coats


def wallpaper_strips(perimeter: int, width: int = USUAL.roll_width) -> int:
    """Strips that go round a room: every started one counts (wallpaper-drops).

    >>> wallpaper_strips(14_000)
    27
    """
    return math.ceil(perimeter / width)


def wallpaper_rolls(
    perimeter: int,
    height: int,
    *,
    width: int = USUAL.roll_width,
    long: int = USUAL.roll_length,
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


def wallpaper_by_area(area: float, roll: float, saved: int = 0) -> int:
    """Rolls by the area of the walls, ``roll`` of which one covers, less what openings save.

    A rougher way than by strips: every started roll counts.

    >>> wallpaper_by_area(70 * 9 - 3 * 20 - 21, 45)
    13
    """
    return max(0, math.ceil(area / roll) - saved)


def curtain_width(pole: int) -> int:
    """Finished width of each of a pair: half the pole and a tenth, at least 10 cm (curtain-ease).

    >>> curtain_width(2000), curtain_width(1400)
    (1100, 800)
    """
    return pole // 2 + max(LEAST_EASE, pole // 20)


def curtain_cloth(
    pole: int,
    drop: int,
    fullness: float,
    to: str,
    repeat: int = 0,
    width: int = USUAL.cloth_width,
) -> int:
    """Millimetres of cloth off the roll for a window (curtain-full-tape, curtain-hem).

    So many widths of cloth as the pole times ``fullness`` takes, each the ``drop``, its hem
    and heading long, raised to whole pattern repeats. ``to`` is "floor" or "sill".

    >>> curtain_cloth(2000, 2300, 2.0, "floor")
    7800
    """
    widths = math.ceil(pole * fullness / width)
    cut = drop + HEM[to] + HEADING
    return widths * (math.ceil(cut / repeat) * repeat if repeat else cut)


def lamps(lux: float, area: float, lumens: float, use: float, care: float) -> float:
    """How many lamps of ``lumens`` light ``area`` m2 with ``lux``: E A / (F UF MF) (lumen-formula).

    ``use`` is the utilisation factor, ``care`` the maintenance factor.

    >>> round(lamps(200, 60 * 24, 18_000, 0.4, 0.75), 2)
    53.33
    """
    return lux * area / (lumens * use * care)


@dataclass(frozen=True, slots=True)
class Item:
    """Something to get: what, how much of it, how that comes about, and the source's id."""

    thing: str
    amount: str
    how: str
    source: str


def finishing(scenario: Scenario, arrangement: Arrangement) -> tuple[Item, ...]:
    """Everything the room takes beside its pieces, in the order it is usually done."""
    scene = Scene(scenario, arrangement)
    return (
        *_walls(scenario),
        *(item for window in scenario.room.windows for item in _curtain(scenario, window)),
        *_light(scene),
        *_rugs(scenario),
        *_pictures(scenario),
        *_fixings(scenario),
        *_plants(scene),
    )


def wall_area(scenario: Scenario) -> tuple[float, float]:
    """The walls of the room, up to where the ceiling slopes, and their openings, in m2."""
    room = scenario.room
    walls = (sum(wall_face(room, wall) for wall in room.walls) + dormer_walls(room)) / 1e6
    doors = sum(door.width * door.height for door in room.doors)
    windows = sum(window.width * (window.head - window.sill) for window in room.windows)
    return walls, (doors + windows) / 1e6


def _walls(scenario: Scenario) -> Iterator[Item]:
    room, finish = scenario.room, scenario.finish
    whole, openings = wall_area(scenario)
    area = whole - openings
    coats = f"{finish.coats} coat{'s' if finish.coats > 1 else ''}, {finish.covers} m² a litre"
    litres = paint_litres(area, finish.covers, finish.coats)
    how = (
        f"{area:.1f} m² (walls {whole:.1f} m² less openings {openings:.1f} m²), "
        f"{coats}; go by the tin"
    )
    yield Item("paint for the walls", _litres(litres), how, "paint-formula")
    overhead = ceiling_area(room) / 1e6
    litres = paint_litres(overhead, finish.covers, finish.coats)
    yield Item(
        "paint for the ceiling", _litres(litres), f"{overhead:.1f} m², {coats}", "paint-formula"
    )
    unit: Unit = "in" if scenario.unit == "in" else "m"
    around = round(sum(wall.length for wall in room.walls))
    yield _paper(scenario, around, measured(around, unit), whole, openings)
    skirting = around - sum(door.width for door in room.all_doors)
    how = "round the room less its doors"
    yield Item("skirting", measured(skirting, unit, "up"), how, "common-practice")


def _paper(scenario: Scenario, around: int, said: str, whole: float, openings: float) -> Item:
    """Wallpaper, by strips; in inches what is sold in single rolls by the area, too.

    ``around`` is how far it is round the room, as it is ``said``.
    """
    room, finish = scenario.room, scenario.finish
    thing = "or wallpaper for the walls"
    roll = f"{finish.roll_width / 1000:.2f} x {finish.roll_length / 1000:.2f} m"
    try:
        rolls = wallpaper_rolls(
            around,
            room.ceiling,
            width=finish.roll_width,
            long=finish.roll_length,
            repeat=finish.pattern,
            half_drop=finish.half_drop,
        )
    except ValueError:
        how = f"no roll of {roll} is as long as one strip with its pattern"
        return Item(thing, "not this paper", how, "wallpaper-drops")
    pattern = "without a pattern"
    if finish.pattern:
        drop = ", half a repeat lower every second strip" if finish.half_drop else ""
        pattern = f"with a pattern every {measured(finish.pattern, scenario.unit)}{drop}"
    how = f"rolls of {roll} {pattern}, {said} round the room; "
    how += "one roll more for repairs"
    if scenario.unit == "in":
        saved = int(openings / FOOT2 // OPENINGS)
        singles = wallpaper_by_area(whole / FOOT2, SINGLE_ROLL, saved)
        how += f"; or {singles} single rolls of 36 ft², of which 30 count"
    return Item(thing, f"{rolls} rolls", how, "wallpaper-drops")


def _litres(litres: float) -> str:
    return f"{math.ceil(litres * 2) / 2:g} litres"


def _curtain(scenario: Scenario, window: Window) -> Iterator[Item]:
    unit = scenario.unit
    pole, top = window.width + 2 * (window.curtains or POLE_SIDE), window.head + POLE_ABOVE
    to = "sill" if _something_below(scenario, window) else "floor"
    drop = top - OFF_FLOOR if to == "floor" else top - window.sill + BELOW_SILL
    finish, full = scenario.finish, FULLNESS[scenario.finish.heading]
    cloth = curtain_cloth(pole, drop, full, to, finish.cloth_pattern, finish.cloth_width)
    how = (
        f"a pole {measured(pole, unit)} long, {measured(top, unit)} above the floor; two curtains "
        f"{measured(curtain_width(pole), unit)} wide and {measured(drop, unit)} long, "
        f"{'to the floor' if to == 'floor' else 'to below the sill'}, {finish.heading}: "
        f"{'twice' if full == 2 else f'{full:g} times'} as much cloth as width"
    )
    if finish.cloth_pattern:
        how += f", cut by its pattern of {measured(finish.cloth_pattern, unit)}"
    amount = f"{math.ceil(cloth / 100) / 10:g} m of cloth {finish.cloth_width / 1000:.2f} m wide"
    yield Item(f"curtains for {the(window.name)}", amount, how, "curtain-full-tape")


def _something_below(scenario: Scenario, window: Window) -> bool:
    """Whether a radiator stands under a window: long curtains would hang over it."""
    return any(
        fixture.kind == "radiator"
        and fixture.wall == window.wall
        and fixture.offset < window.offset + window.width
        and window.offset < fixture.offset + fixture.width
        for fixture in scenario.room.fixtures
    )


def _light(scene: Scene) -> Iterator[Item]:
    scenario = scene.scenario
    area = scene.room.area / 1e6
    general = lamps(GENERAL, area, 1, USE, CARE)
    how = (
        f"{GENERAL} lux on {area:.1f} m², half of the light reaching the room, shared among the "
        "lamps"
    )
    yield Item("light for the whole room", _lumens(general), how, "lx-ies-general")
    for piece in scenario.pieces:
        top = piece.width * piece.depth / 1e6
        if piece.is_a("desk"):
            how = f"{TASK} lux on its top of {top:.1f} m², from the side you do not write with"
            yield Item(
                f"a lamp at {the(piece.name)}",
                _lumens(lamps(TASK, top, 1, USE, CARE)),
                how,
                "lx-ies-new-desk",
            )
        elif piece.is_a("light"):
            how = f"{TASK} lux to read by, on {PAGE:g} m²"
            yield Item(
                f"a bulb for {the(piece.name)}",
                _lumens(lamps(TASK, PAGE, 1, USE, CARE)),
                how,
                "lx-ies-reading",
            )
        elif piece.is_a("dine") and not piece.is_a("seat"):
            amount = _lumens(lamps(TABLE, top, 1, USE, CARE))
            yield Item(*_over_table(scene, piece, amount), "pendant-table")


def _over_table(scene: Scene, table: Piece, amount: str) -> tuple[str, str, str]:
    """What to get for the light over a table: a lamp, or a bulb where one hangs there already."""
    unit, body = scene.scenario.unit, scene.find(table.name).body
    low, high = (measured(mm + _raised(scene.scenario.room.ceiling), unit) for mm in PENDANT)
    for lamp in scene.scenario.room.hung:
        if lamp.kind == LAMP and shares_floor(body, fixture_shape(lamp)):
            hangs = measured(lamp.bottom - table.top, unit)
            how = f"{TABLE} lux on the table; it hangs {hangs} above that, {low} to {high} is usual"
            return f"a bulb for {the(lamp.name)}", amount, how
    how = f"{TABLE} lux on its top; hung {low} to {high} above the table"
    return f"a lamp over {the(table.name)}", amount, how


def _raised(ceiling: int) -> int:
    return max(0, ceiling - CEILING) * RAISED // FOOT


def _lumens(amount: float) -> str:
    return f"{math.ceil(amount / 50) * 50:,} lumens"


def _rugs(scenario: Scenario) -> Iterator[Item]:
    """Sizes for a rug where the room has none of its sort."""
    if any(piece.is_a("rug") for piece in scenario.pieces):
        return
    unit = scenario.unit
    whom = cautioned(scenario.people, "rugs")
    flat = f"; only one that cannot slip or curl: {whom} could trip" if whom else ""
    for piece in scenario.pieces:
        if piece.is_a("bed") and not piece.is_a("bunk"):
            side = RUG_BESIDE[piece.is_a("for two")]
            wide = piece.width + 2 * side
            how = f"{measured(side, unit)} beyond each side of {the(piece.name)}{flat}"
            yield Item("a rug under the bed", f"{measured(wide, unit)} wide", how, "rug-bed")
            return
        if piece.is_a("dine") and not piece.is_a("seat"):
            wide, deep = piece.width + 2 * RUG_TABLE, piece.depth + 2 * RUG_TABLE
            all_round = f"beyond {the(piece.name)} all round, for the chairs"
            how = f"{measured(RUG_TABLE, unit)} {all_round}{flat}"
            size = sized((wide, deep), unit)
            yield Item("a rug under the table", size, how, "rug-dining")
            return


def _pictures(scenario: Scenario) -> Iterator[Item]:
    unit = scenario.unit
    sofas = [p for p in scenario.pieces if p.is_a("sofa") and p.backs]
    for sofa in sofas[:1]:
        low, high = sofa.width * 2 // 3, sofa.width * 3 // 4
        amount = f"{measured(low, unit)} to {measured(high, unit)} wide"
        above = " to ".join(measured(mm, unit) for mm in PICTURE_ABOVE)
        how = f"two thirds to three quarters of {the(sofa.name)}, its frame {above} above the back"
        yield Item(f"a picture over {the(sofa.name)}", amount, how, "art-width")
    centre = " to ".join(measured(mm, unit) for mm in PICTURE_CENTRE)
    how = "from the floor to the middle of the picture, where nothing stands below"
    yield Item("how high to hang pictures", centre, how, "art-centre")


def _fixings(scenario: Scenario) -> Iterator[Item]:
    tall = [p for p in scenario.pieces if tips(p)]
    if tall:
        each = listed([the(p.name) for p in tall])
        how = (
            f"{FIXINGS} for {'each of ' if len(tall) > 1 else ''}{each}, of the right sort for "
            "your walls"
        )
        yield Item("fixings to the wall", f"{FIXINGS * len(tall)}", how, "anchor-tall")


def _plants(scene: Scene) -> Iterator[Item]:
    room = scene.scenario.room
    windows = [LineString(opening_span(room, window)) for window in room.windows]
    for placed in scene.placed:
        if not placed.piece.is_a("plant") or not windows:
            continue
        far = round(min(window.distance(placed.body) for window in windows))
        light = "bright" if far <= BRIGHT else "medium" if far <= MIDDLE else "low"
        where = scene.how_far(far, "right at")
        how = f"it stands {where} the nearest window; ask for one that likes that"
        yield Item(the(placed.name), f"one for {light} light", how, "common-practice")
