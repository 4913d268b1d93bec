"""Good small rooms, and one thing done to each that a decorator never draws.

A room is the text of a file and where its pieces stand: name, the lower left corner of
each on the plan in cm, the way it faces. A pair is one line: the number of the definition,
the room, what is moved, and words of the sentence that must name it, in their order.
What is moved is written the same way, or as "name* +20 0": that piece and what is tied to
it, so far across and up the plan.
"""

import re
from dataclasses import dataclass, replace

from arrange.data.arrangement import Arrangement, Placement
from arrange.geometry.shapes import extent
from arrange.scenario.read import read_text

# The number of each definition and the rules that may speak of it, by any name they bear.
RULES_OF = {
    1: {"view", "screen-view"},
    2: {"view-line"},
    3: {"behind-door"},
    4: {"gutter", "narrow-gaps"},
    6: {"on-axis", "centred-on-wall"},
    9: {"lamp-at-seat"},
    11: {"seat-outlook"},
    12: {"daylight", "screen-glare"},
    13: {"cot-harm"},
    17: {"cup-in-reach"},
    18: {"groups-close"},
    19: {"bed-sees-door", "bedhead-wall"},
    20: {"talking-distance", "seats-turned"},
    24: {"zones"},
}


@dataclass(frozen=True)
class GoodRoom:
    """A scenario and an arrangement of it with nothing to be ashamed of."""

    scenario: object
    places: tuple[Placement, ...]

    def moved(self, moves):
        """The arrangement after some moves."""
        places = {p.piece: p for p in self.places}
        for move in filter(None, map(str.strip, moves.split(";"))):
            for placement in self._moved(places, move):
                places[placement.piece] = placement
        return Arrangement(tuple(places.values()))

    def _moved(self, places, move):
        name, x, y, facing = _parts(move)
        if not name.endswith("*"):
            return [self._on_its_wall(Placement(name, facing, x, y))]
        host = name.removesuffix("*")
        group = {p.name for p in self.scenario.pieces if host in (p.name, p.anchor)}
        there = [p for p in places.values() if p.piece in group]
        return [self._on_its_wall(replace(p, x=p.x + x, y=p.y + y)) for p in there]

    def _on_its_wall(self, placement):
        """With the wall that its back touches, for what stands on walls."""
        piece = self.scenario.piece(placement.piece)
        if piece.stands == "free" or piece.anchor is not None:
            return replace(placement, wall=None)
        facing, (across, up) = placement.facing, extent(piece, placement.facing)
        back = {"right": placement.x, "left": placement.x + across}
        back |= {"up": placement.y, "down": placement.y + up}
        axis = 1 if facing in ("up", "down") else 0
        for i, wall in enumerate(self.scenario.room.walls):
            if (wall.facing, wall.start[axis]) == (facing, back[facing]):
                return replace(placement, wall=i)
        raise ValueError(f"{placement.piece} has no wall at its back")


def _parts(text):
    found = re.fullmatch(r"(.+?) ([+-]?[\d.]+) ([+-]?[\d.]+)(?: (up|down|left|right))?", text)
    assert found, text
    name, x, y, facing = found.groups()
    return name, round(float(x) * 10), round(float(y) * 10), facing


def good(text, places):
    """A room from its file and the places of its pieces."""
    scenario = read_text(text)
    bare = GoodRoom(scenario, ())
    return GoodRoom(scenario, bare.moved(places.replace("\n", ";")).placements)


def file(size, *pieces, use, more=""):
    """The text of a file: the size of the room, and pieces as "kind" or "kind, key = value"."""
    text = f'title = "Good"\nunit = "cm"\nuse = "{use}"\n[room]\nsize = {size}\n{more}\n'
    for piece in pieces:
        kind, *keys = piece.split(", ")
        text += "\n".join(["[[piece]]", f'kind = "{kind}"', *keys]) + "\n"
    return text


DOOR = '[[door]]\nwall = "C"\nfrom_left = 20\nwidth = 80\nhinge = "left"\n'  # lower right
RIGHT_DOOR = DOOR.replace("C", "B")  # upper right


def window(wall, start, width=120):
    """A window with its sill at 90."""
    return f'[[window]]\nwall = "{wall}"\nfrom_left = {start}\nwidth = {width}\n'


FREE = 'stands = "free"'
ROOMS = {
    # Sofa and screen face each other across 235; the armchair at the coffee table's end.
    "sitting": good(
        file(
            *([370, 450], "sofa", "tv unit", f"coffee table, {FREE}", f"armchair, {FREE}"),
            *(f"side table, {FREE}", f"floor lamp, {FREE}"),
            use="living room",
            more=DOOR + window("A", 160),
        ),
        """sofa 0 120 right
        tv unit 330 155 left
        coffee table 141 175 right
        armchair 130 330 down
        side table 0 345 right
        floor lamp 0 70 down""",
    ),
    # The same with more floor before the screen, which is larger.
    "salon": good(
        file(
            *([430, 450], "sofa", "tv unit, screen = '55 in'", f"coffee table, {FREE}"),
            *(f"armchair, {FREE}", f"floor lamp, {FREE}"),
            use="living room",
            more=DOOR + window("A", 160),
        ),
        """sofa 0 120 right
        tv unit 390 155 left
        coffee table 141 175 right
        armchair 130 330 down
        floor lamp 0 70 down""",
    ),
    "bedroom": good(
        file(
            *([400, 385], "double bed, name = 'bed'", "bedside table, count = 2"),
            *("wardrobe", f"floor lamp, {FREE}"),
            use="bedroom",
            more=DOOR + window("A", 120),
        ),
        """bed 0 120 right
        bedside table 1 0 268 right
        bedside table 2 0 77 right
        wardrobe 340 285 left
        floor lamp 0 322 down""",
    ),
    # No tables at the bed, so that it is moved by itself.
    "chamber": good(
        file(
            *([400, 385], "double bed, name = 'bed'", "wardrobe", "chest of drawers"),
            use="bedroom",
            more=DOOR + window("A", 130, 140),
        ),
        """bed 0 120 right
        wardrobe 340 285 left
        chest of drawers 0 0 right""",
    ),
    "nursery": good(
        file(
            *([400, 340], "cot", "changing table", f"rocking chair, {FREE}"),
            f"floor lamp, {FREE}",
            use="nursery",
            more=DOOR + window("A", 200, 100),
        ),
        """cot 0 120 right
        changing table 345 150 left
        rocking chair 150 240 left
        floor lamp 250 260 down""",
    ),
    "cell": good(
        file(
            *([400, 385], "single bed, name = 'bed'", "wardrobe"),
            use="bedroom",
            more=RIGHT_DOOR + window("A", 130),
        ),
        """bed 0 0 right
        wardrobe 300 0 up""",
    ),
    # The door in the middle of its wall: its leaf opens against the lower right corner.
    "wing": good(
        file(
            *([400, 385], "single bed, name = 'bed'", "wardrobe", "chest of drawers"),
            *("bookcase", "low bookcase"),
            use="bedroom",
            more=DOOR.replace("20", "120") + window("A", 130),
        ),
        """bed 0 290 right
        wardrobe 340 285 left
        chest of drawers 355 205 left
        bookcase 0 100 right
        low bookcase 0 0 right""",
    ),
    "study": good(
        file(
            *([320, 400], "desk", "desk chair", "bookcase", f"reading chair, {FREE}"),
            *(f"floor lamp, {FREE}",),
            use="office",
            more=DOOR + window("A", 100),
        ),
        """desk 0 240 right
        desk chair 75 285 left
        bookcase 290 100 left
        reading chair 240 315 left
        floor lamp 285 275 down""",
    ),
    # Sit in the lower half, eat in the upper one.
    "parlour": good(
        file(
            *([400, 620], "sofa", f"coffee table, {FREE}", f"armchair, {FREE}"),
            *("dining table for two, name = 'table'", "dining chair, count = 2"),
            use="living and dining room",
            more=DOOR + window("A", 140),
        ),
        """sofa 0 60 right
        coffee table 141 115 right
        armchair 236 122.5 left
        table 160 440 down
        dining chair 1 175 388 up
        dining chair 2 175 517 down""",
    ),
    # Sleep in the upper left corner, sit in the lower left, eat in the middle, work at the window.
    "flat": good(
        file(
            *([640, 480], "double bed, name = 'bed'", "bedside table", "small sofa, name = 'sofa'"),
            *(f"coffee table, {FREE}", f"armchair, {FREE}", "dining table for two, name = 'table'"),
            *("dining chair, count = 2", "desk, width = 120\ndepth = 60", "desk chair"),
            use="one room for all",
            more=DOOR + window("A", 480),
        ),
        """bed 0 285 right
        bedside table 0 433 right
        sofa 60 0 up
        coffee table 85 130 up
        armchair 230 110 left
        table 450 120 down
        dining chair 1 465 68 up
        dining chair 2 465 197 down
        desk 480 420 down
        desk chair 515 365 up""",
    ),
}

PAIRS = [
    # 1. The screen out of view of the main seat.
    (1, "sitting", "tv unit 225 410 down", "sofa", "tv unit"),
    (1, "sitting", "tv unit 100 0 up", "sofa", "tv unit"),
    (1, "sitting", "sofa 50 0 up", "sofa", "tv unit"),
    (1, "sitting", "tv unit 120 0 up", "sofa", "tv unit"),
    # 2. Something high in the line to the screen.
    (2, "salon", "floor lamp 195 205 down", "floor lamp"),
    (2, "salon", "floor lamp 310 210 down", "floor lamp"),
    (2, "salon", "floor lamp 200 220 down", "floor lamp"),
    (2, "salon", "armchair 195 180 up", "armchair"),
    # 3. Behind the open door.
    (3, "wing", "chest of drawers 355 0 left", "chest of drawers", "door"),
    (3, "wing", "chest of drawers 320 0 up", "chest of drawers", "door"),
    (3, "wing", "bookcase 310 0 up", "bookcase", "door"),
    (3, "wing", "low bookcase 300 0 up", "low bookcase", "door"),
    # 4. A gutter that cannot be cleaned.
    (4, "cell", "wardrobe 285 0 up", "wardrobe", "15 cm"),
    (4, "chamber", "wardrobe 285 325 down", "wardrobe", "15 cm"),
    (4, "bedroom", "wardrobe 340 265 left", "wardrobe", "20 cm"),
    (4, "cell", "bed 0 20 right", "bed", "20 cm"),
    # 6. Nearly centred.
    (6, "sitting", "sofa 0 110 right", "sofa", "10 cm"),
    (6, "sitting", "tv unit 330 165 left", "tv unit", "10 cm"),
    (6, "bedroom", "bed* 0 8", "bed", "cm"),
    (6, "chamber", "bed 0 130 right", "bed", "cm"),
    # 9. Lamps astray.
    (9, "sitting", "floor lamp 335 415 down", "floor lamp", "120 cm", "armchair"),
    (9, "sitting", "floor lamp 100 80 down", "floor lamp", "before", "sofa"),
    (9, "bedroom", "floor lamp 55 300 down", "floor lamp", "pillow"),
    (9, "nursery", "floor lamp 130 200 down", "floor lamp", "62 cm", "cot", "child"),
    (9, "study", "floor lamp 0 5 down", "floor lamp", "cm", "desk"),
    # 11. A seat that stares at a wall.
    (11, "sitting", "armchair 130 310 up", "armchair", "cm"),
    (11, "parlour", "armchair 250 290 right", "armchair", "cm"),
    (11, "nursery", "rocking chair 150 180 up", "rocking chair", "cm"),
    (11, "study", "reading chair 150 260 up", "reading chair", "cm"),
    # 12. Work in the dark, or with the window behind the screen.
    (12, "study", "desk* 0 -235", "desk", "255 cm", "window"),
    (12, "study", "desk* 0 -190", "desk", "cm", "window"),
    (12, "study", "desk* 0 -215", "desk", "235 cm", "window"),
    (12, "study", "desk 20 330 down; desk chair 65 275 up", "desk", "window", "behind"),
    # 13. A cot in reach of harm.
    (13, "nursery", "floor lamp 130 200 down", "cot", "62 cm", "floor lamp"),
    (13, "nursery", "floor lamp 100 60 down", "cot", "cm", "floor lamp"),
    (13, "nursery", "changing table 0 15 right", "cot", "cm", "changing table"),
    (13, "nursery", "cot 0 15 right", "cot", "gap"),
    # 17. Nowhere to put a cup.
    (17, "sitting", "coffee table 126 175 right", "coffee table", "31 cm", "sofa"),
    (17, "sitting", "coffee table 150 175 right", "coffee table", "55 cm", "sofa"),
    (17, "sitting", "armchair 130 345 down", "armchair", "no table", "70 cm"),
    (17, "parlour", "coffee table 141 255 right", "coffee table", "does not", "sofa"),
    (17, "parlour", "coffee table 300 400 right", "sofa", "no table", "cm"),
    # 18. Farther inside a group than to the next.
    (18, "parlour", "armchair 236 270 left", "armchair", "55 cm", "table", "33 cm"),
    (18, "parlour", "armchair 310 122.5 left", "armchair", "119 cm", "table", "118 cm"),
    (18, "parlour", "coffee table 141 255 right", "armchair", "47.5 cm", "table", "33 cm"),
    (18, "parlour", "table* 0 -85", "coffee table", "46 cm", "table", "33 cm"),
    # 19. A bed under a window, or that does not see the door, or points at it.
    (19, "chamber", "bed 120 180 down", "bed", "window"),
    (19, "cell", "bed 140 180 down", "bed", "window"),
    (19, "cell", "bed 0 250 right", "bed", "door"),
    (19, "cell", "bed 195 150 left", "bed", "door"),
    # 20. Seats that cannot talk.
    (20, "sitting", "armchair 130 320 up", "armchair", "sofa"),
    (20, "sitting", "armchair 130 320 right", "armchair", "sofa"),
    (20, "parlour", "armchair 236 122.5 right", "armchair", "sofa"),
    (20, "parlour", "armchair 280 525 left", "armchair", "sofa"),
    # 24. Zones in one another.
    (24, "flat", "armchair 540 250 left", "sofa", "table", "overlap"),
    (24, "flat", "armchair 240 300 left", "bed", "sofa", "overlap"),
    (24, "flat", "coffee table 225 330 down", "bed", "sofa", "overlap"),
    (24, "flat", "armchair 380 330 up", "sofa", "overlap"),
    (24, "parlour", "armchair 280 525 left", "sofa", "table", "overlap"),
]
