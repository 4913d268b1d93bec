"""Good rooms of every sort, each with nothing in it to be ashamed of.

A room is the text of a file and where its pieces stand: name, the lower left corner of
each on the plan in cm, the way it faces. What is moved is written the same way, or as
"name* +20 0": that piece and what is tied to it, so far across and up the plan.
"""

import re
from dataclasses import dataclass, replace

from arrange.data.arrangement import Arrangement, Placement
from arrange.geometry.shapes import extent
from arrange.scenario.read import read_text


@dataclass(frozen=True)
class GoodRoom:
    """A scenario and an arrangement of it with nothing to be ashamed of."""

    scenario: object
    places: tuple[Placement, ...]
    text: str = ""

    def having(self, more):
        """The same arrangement of a room with more in its file."""
        return replace(self, scenario=read_text(self.text + more))

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
        if piece.stands == "anywhere":
            return replace(placement, wall=None)
        raise ValueError(f"{placement.piece} has no wall at its back")


def _parts(text):
    found = re.fullmatch(r"(.+?) ([+-]?[\d.]+) ([+-]?[\d.]+)(?: (up|down|left|right))?", text)
    assert found, text
    name, x, y, facing = found.groups()
    return name, round(float(x) * 10), round(float(y) * 10), facing


def good(text, places):
    """A room from its file and the places of its pieces."""
    scenario = read_text(text)
    bare = GoodRoom(scenario, (), text)
    return replace(bare, places=bare.moved(places.replace("\n", ";")).placements)


def file(room, *pieces, use, more=""):
    """The text of a file: size or corners of the room, pieces as "kind" or "kind, key = value"."""
    shape = "size" if isinstance(room[0], int) else "corners"
    text = f'title = "Good"\nunit = "cm"\nuse = "{use}"\n[room]\n{shape} = {room}\n{more}\n'
    for piece in pieces:
        kind, *keys = piece.split(", ")
        text += "\n".join(["[[piece]]", f'kind = "{kind}"', *keys]) + "\n"
    return text


DOOR = '[[door]]\nwall = "C"\nfrom_left = 20\nwidth = 80\nhinge = "left"\n'  # lower right
RIGHT_DOOR = DOOR.replace("C", "B")  # upper right


def kitchen(wall, start):
    """A door to the kitchen that opens out."""
    place = f'wall = "{wall}"\nfrom_left = {start}\nwidth = 80\n'
    return f'[[door]]\nname = "kitchen door"\nopens = "out"\n{place}'


def window(wall, start, width=120):
    """A window with its sill at 90."""
    return f'[[window]]\nwall = "{wall}"\nfrom_left = {start}\nwidth = {width}\n'


ELL = [[0, 0], [0, 680], [320, 680], [320, 400], [500, 400], [500, 0]]
BAY = [[0, 0], [0, 400], [110, 400], [170, 470], [310, 470], [370, 400], [480, 400], [480, 0]]
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
        coffee table 141 165 right
        armchair 130 315 down
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
        armchair 130 315 down
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
        bedside table 1 0 265 right
        bedside table 2 0 80 right
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
        changing table 130 0 up
        rocking chair 150 190 down
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
    "berth": good(
        file(
            *([400, 385], "single bed, name = 'bed'", "wardrobe", "wall shelf"),
            use="bedroom",
            more=RIGHT_DOOR + window("A", 130),
        ),
        """bed 0 0 right
        wardrobe 300 0 up
        wall shelf 210 0 up""",
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
        """desk 0 260 right
        desk chair 75 305 left
        bookcase 290 100 left
        reading chair 240 325 left
        floor lamp 285 285 down""",
    ),
    # To work in: what is needed stands beside the desk.
    "office": good(
        file(
            *([400, 380], "desk", "desk chair", "filing cabinet"),
            use="office",
            more=DOOR + window("A", 100),
        ),
        """desk 0 240 right
        desk chair 75 285 left
        filing cabinet 0 195 right""",
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
        bedside table 0 430 right
        sofa 60 0 up
        coffee table 85 130 up
        armchair 230 110 left
        table 450 120 down
        dining chair 1 465 68 up
        dining chair 2 465 197 down
        desk 480 420 down
        desk chair 515 365 up""",
    ),
    # For eating alone: the table in the middle, the sideboard in line with it.
    "dining": good(
        file(
            *([480, 400], "dining table for six, name = 'table'", "dining chair, count = 6"),
            *("sideboard", "display cabinet, count = 2"),
            use="dining room",
            more=DOOR + kitchen("A", 20) + window("A", 180),
        ),
        """table 150 155 down
        dining chair 1 155.4 103 up
        dining chair 2 217.5 103 up
        dining chair 3 279.6 103 up
        dining chair 4 155.4 247 down
        dining chair 5 217.5 247 down
        dining chair 6 279.6 247 down
        sideboard 0 120 right
        display cabinet 1 300 360 down
        display cabinet 2 390 360 down""",
    ),
    # In by the lower wall, out by the upper one.
    "hall": good(
        file(
            *([170, 420], "shoe cabinet", "hall bench", "coat rack", "hall mirror"),
            use="hall",
            more=DOOR.replace("20", "35").replace("80", "90") + kitchen("A", 45),
        ),
        """shoe cabinet 0 125 right
        hall bench 0 210 right
        coat rack 135 250 left
        hall mirror 160 345 left""",
    ),
    # A mirror beside the window, clothes in reach of it.
    "dressing": good(
        file(
            *([420, 400], "double bed, name = 'bed'", "wardrobe", "chest of drawers"),
            *("hall mirror, name = 'mirror'", "laundry basket"),
            use="bedroom",
            more=DOOR + window("A", 130),
        ),
        """bed 0 127.5 right
        wardrobe 360 250 left
        chest of drawers 375 170 left
        mirror 290 390 down
        laundry basket 385 125 left""",
    ),
    # Two doors on the right: who comes and goes passes the seats.
    "passage": good(
        file(
            *([480, 490], "sofa", f"coffee table, {FREE}", f"armchair, {FREE}"),
            *(f"reading chair, {FREE}", "bookcase, count = 2"),
            use="living room",
            more=DOOR.replace("20", "120") + kitchen("A", 280),
        ),
        """sofa 0 140 right
        coffee table 141 195 right
        armchair 130 340 down
        reading chair 130 70 up
        bookcase 1 0 0 right
        bookcase 2 0 410 right""",
    ),
    "children": good(
        file(
            *([400, 440], "bunk bed", "child's desk, name = 'homework desk', count = 2"),
            *("child's chair, count = 2", "wardrobe", "chest of drawers", "low bookcase"),
            "toy chest",
            use="child's room",
            more=DOOR + window("A", 60),
        ),
        """bunk bed 300 232 down
        homework desk 1 0 240 right
        homework desk 2 0 340 right
        child's chair 1 60 270 left
        child's chair 2 60 370 left
        wardrobe 0 0 up
        chest of drawers 100 0 up
        low bookcase 370 110 left
        toy chest 180 0 up""",
    ),
    # Sit in the wide part, eat in the narrow one.
    "corner": good(
        file(
            *(
                ELL,
                "sofa",
                f"coffee table, {FREE}",
                f"armchair, {FREE}",
                "tv unit, screen = '50 in'",
            ),
            *("rug, free = true\nwidth = 240\ndepth = 170", "sideboard"),
            *("dining table for four, name = 'table'", "dining chair, count = 4"),
            use="living and dining room",
            more=DOOR.replace('"C"', '"F"').replace("width = 80", "width = 85")
            + 'name = "hall door"\nmain = true\n'
            + kitchen("B", 30)
            + window("F", 200, 160),
        ),
        """sofa 250 60 left
        coffee table 158 115 left
        armchair 118 265 down
        tv unit 0 95 right
        rug 105 45 left
        sideboard 330 355 down
        table 92.5 480 down
        dining chair 1 104.2 428 up
        dining chair 2 170.8 428 up
        dining chair 3 104.2 562 down
        dining chair 4 170.8 562 down""",
    ),
    # A bay between two slanted walls.
    "bay": good(
        file(
            *(BAY, "piano", "stool, name = 'piano stool'", "small sofa, name = 'sofa'"),
            *(f"coffee table, {FREE}", f"reading chair, {FREE}", f"floor lamp, {FREE}"),
            *("bookcase, count = 2",),
            use="living room",
            more=DOOR.replace("C", "H") + window("D", 15, 110),
        ),
        """piano 418 250 left
        piano stool 368 305 right
        sofa 0 125 right
        coffee table 136 125 left
        reading chair 130 324 down
        floor lamp 144 404 down
        bookcase 1 30 370 down
        bookcase 2 30 0 up""",
    ),
    # One bed, one desk, the bedside table loose.
    "lodging": good(
        file(
            *([270, 400], "single bed, name = 'bed'", "bedside table, stands = 'wall'"),
            *("desk", "desk chair", "wardrobe", "bookcase", "laundry basket"),
            use="bedroom",
            more=DOOR + window("A", 100),
        ),
        """bed 0 195 down
        bedside table 100 360 down
        desk 200 93 left
        desk chair 145 138 right
        wardrobe 35 0 up
        bookcase 240 290 left
        laundry basket 0 90 right""",
    ),
}
