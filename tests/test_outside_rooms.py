"""Smallest rooms by published figures, as verdicts: found as published, impossible below.

Each row is a small room whose one tight dimension is the sum of published figures
and of the piece's own size; the sum stands beside it. The room that the figure
asks for must be found; the room one millimetre and one centimetre tighter must be
proven impossible. `source` is the id of the figure in `published`, where it is typed once:
the scenario and the sum are both made from that. Figures that are not a kind's default are
set in the scenario itself.
"""

from dataclasses import dataclass

import pytest
from published import mm

from arrange import read_text, suggest
from arrange.rules import RULES

WISHES = "\n".join(
    f'[[rule]]\nrule = "{r.id}"\noff = true'
    for r in RULES
    if r.kind == "wish" and r.id != "against"
)
DOOR = '[[door]]\nwall = "{0}"\nfrom_left = {1}\nwidth = {2}\nopens = "out"\n'


def room(width, length, door, *, walkway=600):
    """A room in mm; ``door`` is (wall, from_left, width)."""
    top = f'unit = "mm"\nwalkway = {walkway}\n'
    return f"{top}[room]\nsize = [{width}, {length}]\n{DOOR.format(*door)}{WISHES}\n"


def piece(kind, extra="", **keys):
    """One piece; ``extra`` are clearance lines."""
    lines = [f"{key} = {value!r}".replace("'", '"') for key, value in keys.items()]
    return "\n".join(["[[piece]]", f'kind = "{kind}"', *lines, extra, ""])


def held(name, wall):
    """The piece must have its back on that wall."""
    return f'[[wish]]\npiece = "{name}"\nagainst = "{wall}"\nmust = true\n'


def bed(width, depth, *, side, other, foot):
    """A double bed: floor at one side, at the other, at its foot (0: none)."""
    lines = [f'clearance."getting in" = {{ least = {side} }}']
    need = f"{{ least = {other} }}" if other else "false"
    lines += [f"clearance.{name} = {need}" for name in ("left", "right")]
    if foot:
        lines.append(f"clearance.front = {{ least = {foot} }}")
    extra = "\n".join(lines)
    return piece("double bed", extra, name="bed", width=width, depth=depth) + held("bed", "A")


def bedroom_wide(side, other, size, walkway=600):
    """Tight across: the bed's head on wall A, 3300 long, the way in at the foot."""
    return lambda width: (
        room(width, 3300, ("C", 100, 800), walkway=walkway)
        + bed(*size, side=side, other=other, foot=0)
    )


def bedroom_long(side, other, foot, size, walkway=600):
    """Tight along: the bed's head on wall A, its foot toward wall C."""
    return lambda length: (
        room(3600, length, ("B", length - 900, 800), walkway=walkway)
        + bed(*size, side=side, other=other, foot=foot)
    )


def between_tables(gap):
    """A table of 1350 x 800 between two walls, in a room too narrow for it turned.

    Turned it needs ``2 * gap + 800`` the other way, which is more than the width.
    """
    both = f"clearance.front = {{ least = {gap} }}\nclearance.back = {{ least = {gap} }}"
    return lambda length: (
        room(2300, length, ("D", 500, 800)) + piece("dining table for four", both, name="table")
    )


def before_desk(use):
    """A desk 1400 x 700 before a wall, the door at its side."""
    text = piece("desk", f"clearance.front = {{ least = {use} }}")
    return lambda length: room(2300, length, ("D", 200, 800)) + text + held("desk", "A")


def between_sofas(gap):
    """Two sofas of 2100 x 950 in a room 2900 wide cannot stand past each other."""
    legs = f"clearance.front = {{ least = {gap} }}"
    one, two = (piece("sofa", legs, name=f"{n} sofa") for n in ("first", "second"))
    walls = held("first sofa", "A") + held("second sofa", "C")
    return lambda length: room(2900, length, ("B", 900, 800)) + one + two + walls


def along_passage(way):
    """A cupboard 450 deep along a passage between two doors, the walkway past it."""
    return lambda width: (
        room(4000, width, ("D", 100, 815), walkway=way)
        + DOOR.format("B", width - 915, 815).replace("[[door]]", '[[door]]\nname = "far door"')
        + piece("sideboard", "clearance.front = { least = 600 }", width=1600, depth=450)
        + held("sideboard", "A")
    )


def before_wardrobe(front, way):
    """A wardrobe 1000 x 600 and the floor before it, in a room as deep as that."""
    text = piece("wardrobe", f"clearance.front = {{ least = {front} }}")
    return lambda length: (
        room(3200, length, ("D", 100, 900), walkway=way) + text + held("wardrobe", "A")
    )


@dataclass(frozen=True)
class Row:
    """The tight dimension in mm as its sum, and the room that has it."""

    source: str
    parts: tuple[int, ...]
    text: object


# The rooms, each from its figures: what the sum adds up is what the scenario asks for.
def wide(source, side, other, size, walkway=600):
    """A bed between two walls: side, bed, other side."""
    return Row(source, (side, size[0], other), bedroom_wide(side, other, size, walkway))


def long(source, foot, size, sides, walkway=600):
    """A bed and the floor at its foot."""
    return Row(source, (size[1], foot), bedroom_long(*sides, foot, size, walkway))


def storage():
    """A chest, wider than either gap beside the bed, so that it stands before its foot.

    The room is just as wide as the bed and its two sides.
    """
    front = mm("bedroom-storage-front")
    chest = piece("chest of drawers", f"clearance.front = {{ least = {front} }}", width=1000)
    stands = bed(*DOUBLE, side=HUD_SIDES[0], other=HUD_SIDES[1], foot=0)
    width = HUD_SIDES[0] + DOUBLE[0] + HUD_SIDES[1]
    return Row(
        "bedroom-storage-front",
        (DOUBLE[1], front, 450),
        lambda length: (
            room(width, length, ("C", 50, 800)) + stands + chest + held("chest of drawers", "C")
        ),
    )


def dining(source):
    """Diners on both sides of a table 800 deep."""
    return Row(source, (mm(source), 800, mm(source)), between_tables(mm(source)))


def passage(source):
    """A cupboard 450 deep and the way past it."""
    return Row(source, (450, mm(source)), along_passage(mm(source)))


def wardrobe(source):
    """A wardrobe 600 deep and the floor before it."""
    way = mm("din-furniture-front")
    return Row(source, (600, mm(source)), before_wardrobe(mm(source), way))


# Rooms that say only who lives there: what is asked for comes from the table of people.
ADA = '[[person]]\nname = "Ada"\nuses = "wheelchair"\nsleeps_here = true\n'
NO_TURN = '[[rule]]\nrule = "turning-space"\noff = true\n'


def for_a_wheelchair(text):
    """The room without a walkway of its own, and with somebody in a wheelchair."""
    top, rest = text.split("[room]", 1)
    lines = [line for line in top.splitlines() if not line.startswith("walkway")]
    return "\n".join([*lines, ADA, f"[room]{rest}"])


def turning():
    """Storage 600 deep along the whole wall, and the square to turn in."""
    block = piece("other piece", name="block", width=3200, depth=600, height=2000)

    def text(length):
        bare = room(3200, length, ("D", 100, 900)) + block + held("block", "A")
        return for_a_wheelchair(bare)

    return Row("din-turn-wc of a person", (600, mm("din-turn-wc")), text)


def wheeled_past():
    """The passage of ``along_passage``, as wide as a wheelchair takes."""
    made = along_passage(mm("wc-width"))
    return Row(
        "wc-width of a person",
        (450, mm("wc-width")),
        lambda width: for_a_wheelchair(made(width) + NO_TURN),
    )


def wheeled_to_bed():
    """A bed for one between two walls, and the clear zone beside it."""
    bare = piece("single bed", name="bed", width=950, depth=2050) + held("bed", "A") + NO_TURN
    return Row(
        "adm3-bed-zone of a person",
        (950, mm("adm3-bed-zone")),
        lambda width: for_a_wheelchair(room(width, 3300, ("C", 100, 815)) + bare),
    )


DOUBLE, SINGLE = (1450, 2050), (950, 2050)
LARGE = (2000, 2050)  # two mattresses of 1.00 m, as `din-double-room-width` has it
ADM_DOUBLE, ADM_SINGLE = (1500, 2000), (900, 2000)  # `adm-d-double`, `adm-d-single`
HUD_SIDES = (mm("bed-side-access"), mm("bed-least-used-side"))
NEUFERT, PREFERRED = mm("bed-around-min"), mm("bed-around-pref")
ADM2, ADM3 = mm("adm2-bed-principal"), mm("adm3-bed-zone")
DIN, DIN_R = "din-bed-side-1", "din-bed-side-1-wc"
ROWS = [
    wide(DIN, mm(DIN), mm("din-bed-side-2"), LARGE, 900),
    wide(DIN_R, mm(DIN_R), mm("din-bed-side-2-wc"), LARGE, 900),
    wide("bed-side-access", *HUD_SIDES, DOUBLE),
    wide("bed-single-wall", HUD_SIDES[0], 0, SINGLE),
    long("bed-dressing-zone", mm("bed-dressing-zone"), DOUBLE, HUD_SIDES),
    storage(),
    wide("bed-around-min", NEUFERT, NEUFERT, DOUBLE),
    long("bed-around-min foot", NEUFERT, DOUBLE, (NEUFERT, NEUFERT)),
    wide("bed-around-pref", PREFERRED, PREFERRED, DOUBLE),
    long("bed-around-pref foot", PREFERRED, DOUBLE, (PREFERRED, PREFERRED)),
    wide("adm2-bed-principal", ADM2, ADM2, ADM_DOUBLE, ADM2),
    long("adm2-bed-principal foot", ADM2, ADM_DOUBLE, (ADM2, ADM2), ADM2),
    wide("adm2-bed-double", mm("adm2-bed-double"), 0, ADM_DOUBLE, ADM2),
    wide("adm2-bed-single", mm("adm2-bed-single"), 0, ADM_SINGLE, ADM2),
    wide("adm3-bed-zone", ADM3, ADM3, ADM_DOUBLE, 900),
    dining("dine-access"),
    dining("dine-nkba-edge"),
    dining("dine-nkba-walk"),
    Row("desk-use", (700, mm("desk-use")), before_desk(mm("desk-use"))),
    Row("sit-facing", (950, mm("sit-facing"), 950), between_sofas(mm("sit-facing"))),
    passage("walk-main"),
    passage("ada-route"),
    passage("wc-width"),
    wardrobe("din-furniture-front"),
    wardrobe("din-furniture-front-wc"),
    turning(),
    wheeled_past(),
    wheeled_to_bed(),
]


def test_the_published_sum_is_the_sum_of_the_published_parts():
    """`din-double-room-width`: 1.20 + 2.00 + 0.90 m, as the source adds them up itself."""
    assert sum(ROWS[0].parts) == mm("din-double-room-width")


def outcome(text):
    result = suggest(read_text(text), top=1, seconds=30)
    return "found" if result.suggestions else result.outcome


@pytest.mark.parametrize("row", ROWS, ids=lambda r: r.source)
def test_the_room_the_figure_asks_for_works(row):
    """As big as the published figures add up to: an arrangement is found."""
    assert outcome(row.text(sum(row.parts))) == "found"


@pytest.mark.parametrize("short", [1, 10])
@pytest.mark.parametrize("row", ROWS, ids=lambda r: r.source)
def test_a_tighter_room_is_proven_impossible(row, short):
    """One millimetre, or one centimetre, less than the published figures add up to."""
    assert outcome(row.text(sum(row.parts) - short)) == "impossible"
