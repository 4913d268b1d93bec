"""One thing done to a good room that a decorator never draws.

A pair is one line: the number of the definition, the room, what is moved (as
``good_rooms`` writes it), and words of the sentence that must name it, in their order.
Below them one for every rule that no definition speaks of.
"""

# The number of each definition and the rules that may speak of it. Positions in whole
# 5 cm (14) and how far suggestions differ (15) are no rules: a pair cannot show them.
RULES_OF = {
    1: {"view"},
    2: {"view-line"},
    3: {"behind-door"},
    4: {"gutter"},
    5: {"comfortable-clearance", "in-reach"},
    6: {"on-axis"},
    7: {"table-placed"},
    8: {"rug-placed"},
    9: {"lamp-at-seat"},
    10: {"like-with-like"},
    11: {"seat-outlook"},
    12: {"daylight", "screen-glare"},
    13: {"cot-harm"},
    16: {"past-not-through"},
    17: {"cup-in-reach"},
    18: {"groups-close"},
    19: {"bed-sees-door", "bedhead-wall"},
    20: {"talking-distance", "seats-turned"},
    21: {"first-look"},
    22: {"dressing"},
    23: {"serving"},
    24: {"zones"},
    25: {"arriving", "care", "desk-outlook"},
    26: {"at-the-wall"},
    27: {"tucked"},
}

PAIRS = [
    # 1. The screen out of view of the main seat.
    (1, "sitting", "tv unit 225 410 down", "sofa", "tv unit"),
    (1, "sitting", "tv unit 100 0 up", "sofa", "tv unit"),
    (1, "sitting", "sofa 50 0 up", "sofa", "tv unit"),
    (1, "sitting", "tv unit 120 0 up", "sofa", "tv unit"),
    (1, "corner", "tv unit 460 100 left", "sofa", "tv unit"),
    # 2. Something high in the line to the screen.
    (2, "salon", "floor lamp 195 205 down", "floor lamp"),
    (2, "salon", "floor lamp 310 210 down", "floor lamp"),
    (2, "salon", "floor lamp 200 220 down", "floor lamp"),
    (2, "salon", "armchair 195 180 up", "armchair"),
    # 3. Behind the open door.
    (3, "wing", "chest of drawers 355 0 left", "door", "chest of drawers"),
    (3, "wing", "chest of drawers 320 0 up", "door", "chest of drawers"),
    (3, "wing", "bookcase 310 0 up", "door", "bookcase"),
    (3, "wing", "low bookcase 300 0 up", "door", "low bookcase"),
    # 4. A gutter that cannot be cleaned.
    (4, "cell", "wardrobe 285 0 up", "wardrobe", "15 cm"),
    (4, "chamber", "wardrobe 285 325 down", "wardrobe", "15 cm"),
    (4, "bedroom", "wardrobe 340 265 left", "wardrobe", "20 cm"),
    (4, "cell", "bed 0 20 right", "bed", "20 cm"),
    (4, "bay", "bookcase 1 15 370 down", "bookcase 1", "15 cm"),
    (4, "children", "bunk bed 280 232 down", "bunk bed", "20 cm"),
    (4, "study", "reading chair 160 110 left", "reading chair", "50 cm", "back", "bookcase"),
    # 5. What cannot be reached, or hardly.
    (5, "lodging", "bedside table 160 360 down", "bedside table", "65 cm", "pillow"),
    (5, "dressing", "laundry basket 0 365 down; bed 0 200 right", "laundry basket", "30 cm"),
    (5, "chamber", "wardrobe 80 0 up; chest of drawers 0 300 right", "60 cm", "wardrobe"),
    (5, "salon", "coffee table 121 175 right", "26 cm", "sofa"),
    (5, "passage", "coffee table 123 195 right", "28 cm", "sofa"),
    (5, "corner", "sideboard 340 355 down; sofa 250 90 left", "55 cm", "sideboard"),
    # 6. Nearly centred.
    (6, "sitting", "sofa 0 110 right", "sofa", "10 cm"),
    (6, "sitting", "tv unit 330 165 left", "tv unit", "10 cm"),
    (6, "bedroom", "bed* 0 8", "bed", "cm"),
    (6, "chamber", "bed 0 130 right", "bed", "cm"),
    (6, "dressing", "bed 0 135 right", "bed", "8 cm", "wall"),
    (6, "bay", "sofa 0 115 right", "sofa", "10 cm"),
    (6, "corner", "tv unit 0 105 right", "tv unit", "10 cm", "sofa"),
    (6, "dining", "sideboard 0 130 right", "sideboard", "10 cm", "table"),
    # 7. A table out of its place.
    (7, "dining", "table* 40 0", "table", "40 cm", "middle"),
    (7, "dining", "table* 100 0", "table", "100 cm", "middle"),
    (7, "corner", "table* 30 0", "table", "30 cm", "middle line"),
    (7, "corner", "table* -60 0", "table", "60 cm", "middle line"),
    # 8. A rug astray.
    (8, "corner", "rug 75 45 left", "rug", "front", "sofa"),
    (8, "corner", "rug 105 75 left", "rug", "not centred", "sofa"),
    (8, "corner", "rug 100 400 left", "rug", "some legs", "table"),
    (8, "corner", "rug 230 45 left", "rug", "lies where", "hall door"),
    # 9. Lamps astray.
    (9, "sitting", "floor lamp 335 415 down", "floor lamp", "120 cm", "armchair"),
    (9, "sitting", "floor lamp 100 80 down", "floor lamp", "in front of", "sofa"),
    (9, "bedroom", "floor lamp 55 300 down", "floor lamp", "pillow"),
    (9, "nursery", "floor lamp 75 270 down", "floor lamp", "24 cm", "cot", "child"),
    (9, "study", "floor lamp 0 5 down", "floor lamp", "cm", "desk"),
    (9, "bay", "floor lamp 300 100 down", "floor lamp", "189 cm", "reading chair"),
    # 10. Two of a kind torn apart.
    (10, "dining", "display cabinet 1 440 100 left", "display cabinet 1", "neither"),
    (10, "passage", "bookcase 2 0 390 right", "bookcase 1", "neither", "bookcase 2"),
    (10, "bay", "bookcase 2 130 0 up", "bookcase 1", "neither", "bookcase 2"),
    (10, "children", "homework desk 2* 0 -60; homework desk 1* 0 -100", "homework desk 1"),
    # 11. A seat that stares at a wall.
    (11, "sitting", "armchair 130 310 up", "armchair", "cm"),
    (11, "parlour", "armchair 250 290 right", "armchair", "cm"),
    (11, "nursery", "rocking chair 150 180 up", "rocking chair", "cm"),
    (11, "study", "reading chair 150 260 up", "reading chair", "cm"),
    (11, "study", "reading chair 130 10 up", "reading chair", "right beside", "door"),
    (11, "sitting", "armchair 180 0 up", "armchair", "right beside", "door"),
    # 12. Work in the dark, or with the window behind the screen.
    (12, "study", "desk* 0 -255", "desk", "325 cm", "window"),
    (12, "study", "desk* 0 -210", "desk", "cm", "window"),
    (12, "study", "desk* 0 -235", "desk", "305 cm", "window"),
    (12, "study", "desk 20 330 down; desk chair 65 275 up", "desk", "window", "behind"),
    (12, "office", "desk 60 310 down; desk chair 105 255 up", "desk", "window", "behind"),
    # 13. A cot in reach of harm.
    (13, "nursery", "floor lamp 75 270 down", "cot", "24 cm", "floor lamp"),
    (13, "nursery", "floor lamp 75 300 down", "cot", "54 cm", "floor lamp"),
    (13, "nursery", "changing table 0 15 right", "cot", "cm", "changing table"),
    (13, "nursery", "cot 0 15 right", "cot", "gap"),
    # 16. A way through those who sit and talk.
    (16, "passage", "armchair 330 220 left", "kitchen door", "sofa", "armchair"),
    (16, "passage", "sofa 385 140 left", "kitchen door", "sofa", "armchair"),
    (16, "passage", "reading chair 300 100 left", "kitchen door", "sofa", "reading chair"),
    (16, "corner", "coffee table 400 200 left", "kitchen door", "sofa", "coffee table"),
    # 17. Nowhere to put a cup.
    (17, "sitting", "coffee table 126 165 right", "coffee table", "31 cm", "sofa"),
    (17, "sitting", "coffee table 150 165 right", "coffee table", "50 cm", "armchair"),
    (17, "sitting", "armchair 130 345 down", "armchair", "no table", "80 cm"),
    (17, "parlour", "coffee table 141 255 right", "coffee table", "does not", "sofa"),
    (17, "parlour", "coffee table 300 400 right", "sofa", "no table", "cm"),
    (17, "bay", "coffee table 150 125 right", "coffee table", "60 cm", "sofa"),
    # 18. Farther inside a group than to the next.
    (18, "parlour", "armchair 236 270 left", "armchair", "55 cm", "33 cm", "table"),
    (18, "parlour", "armchair 310 122.5 left", "armchair", "119 cm", "118 cm", "table"),
    (18, "parlour", "coffee table 141 255 right", "armchair", "48 cm", "33 cm", "table"),
    (18, "parlour", "table* 0 -130", "coffee table", "46 cm", "43 cm", "table"),
    (18, "corner", "table* 0 -40", "armchair", "47 cm", "33 cm", "table"),
    (18, "flat", "armchair 330 110 left", "armchair", "120 cm", "30 cm", "table"),
    # 19. A bed under a window, or that does not see the door, or points at it.
    (19, "chamber", "bed 120 180 down", "bed", "window"),
    (19, "cell", "bed 140 180 down", "bed", "window"),
    (19, "cell", "bed 0 250 right", "bed", "door"),
    (19, "cell", "bed 195 150 left", "bed", "door"),
    (19, "dressing", "bed 120 195 down", "bed", "window"),
    (19, "chamber", "wardrobe 180 0 up", "wardrobe", "hides", "door"),
    # 20. Seats that cannot talk.
    (20, "sitting", "armchair 130 320 up", "armchair", "sofa"),
    (20, "sitting", "armchair 130 320 right", "armchair", "sofa"),
    (20, "parlour", "armchair 236 122.5 right", "armchair", "sofa"),
    (20, "parlour", "armchair 280 525 left", "armchair", "sofa"),
    (20, "passage", "armchair 130 340 up", "armchair", "sofa"),
    (20, "corner", "armchair 118 265 left", "armchair", "sofa"),
    (20, "bay", "reading chair 200 250 right", "reading chair", "sofa"),
    # 21. A side or a back in the face of who comes in.
    (21, "chamber", "wardrobe 340 150 left", "wardrobe", "see first"),
    (21, "dining", "display cabinet 1 440 150 left", "display cabinet 1", "see first"),
    (21, "passage", "armchair 330 150 up", "armchair", "see first", "door 1"),
    (21, "corner", "armchair 390 150 up", "armchair", "see first", "hall door"),
    (
        *(21, "lodging", "bookcase 240 150 left; desk 200 240 left; desk chair 145 285 right"),
        *("bookcase", "see first"),
    ),
    # 22. Dressed in the dark, or far from the clothes.
    (22, "dressing", "mirror 230 0 up", "mirror", "behind"),
    (22, "dressing", "mirror 250 0 up", "mirror", "behind"),
    (22, "dressing", "mirror 0 30 right", "mirror", "365 cm", "chest of drawers"),
    (22, "dressing", "mirror 0 300 right", "mirror", "365 cm", "chest of drawers"),
    # 23. A long way with the dishes, or drawers that do not open.
    (23, "dining", "sideboard 435 150 left", "sideboard", "335 cm", "kitchen door"),
    (23, "dining", "sideboard 160 0 up", "sideboard", "355 cm", "kitchen door"),
    (23, "dining", "table* -40 0", "dining chair", "70 cm", "drawers", "sideboard"),
    (23, "corner", "sideboard 455 130 left", "sideboard", "390 cm", "kitchen door"),
    (23, "corner", "sideboard 0 410 right", "dining chair", "59 cm", "drawers", "sideboard"),
    # 24. Zones in one another.
    (24, "flat", "armchair 540 250 left", "sofa", "table", "overlap"),
    (24, "flat", "armchair 240 300 left", "bed", "sofa", "overlap"),
    (24, "flat", "coffee table 225 330 down", "bed", "sofa", "overlap"),
    (24, "flat", "armchair 380 330 up", "sofa", "overlap"),
    (24, "parlour", "armchair 280 525 left", "sofa", "table", "overlap"),
    # 25. Nowhere to arrive; care at a distance; a door behind who works.
    (25, "hall", "hall bench 130 95 left", "hall bench", "come in"),
    (25, "hall", "hall bench 0 310 right", "shoe cabinet", "105 cm", "hall bench"),
    (25, "nursery", "rocking chair 330 215 down", "cot", "262 cm", "rocking chair"),
    (25, "nursery", "rocking chair 150 210 left", "door", "out of sight"),
    (25, "office", "filing cabinet 340 180 left", "desk", "270 cm", "filing cabinet"),
    (25, "office", "desk 160 310 down; desk chair 205 255 up", "desk", "door", "behind"),
    # 26. A bed for one or a desk out in the room.
    (26, "cell", "bed 0 150 right", "bed", "no long side"),
    (26, "wing", "bed 0 190 right", "bed", "no long side"),
    (26, "children", "bunk bed 250 232 down", "bunk bed", "no long side"),
    (26, "flat", "desk 400 320 down; desk chair 435 265 up", "desk", "middle of the room"),
    (
        *(26, "children", "homework desk 1 100 200 down; child's chair 1 130 155 up"),
        *("homework desk 1", "middle of the room"),
    ),
    (26, "office", "desk 160 160 right; desk chair 235 205 left", "desk", "juts"),
    # 27. A lamp to walk into.
    (27, "sitting", "floor lamp 250 300 down", "floor lamp", "by itself"),
    (27, "bedroom", "floor lamp 55 300 down", "floor lamp", "by itself"),
    (27, "salon", "floor lamp 250 380 down", "floor lamp", "by itself"),
    (27, "bay", "floor lamp 300 100 down", "floor lamp", "by itself"),
    (27, "study", "floor lamp 150 200 down", "floor lamp", "by itself"),
]


def fixture(kind, wall, start, width, more=""):
    """What is built in at a wall, so far from its left end."""
    where = f'wall = "{wall}"\nfrom_left = {start}\nwidth = {width}'
    return f'[[fixture]]\nkind = "{kind}"\n{where}\n{more}\n'


def hung(kind, x, y, more=""):
    """What hangs from a hook."""
    return f'[[fixture]]\nkind = "{kind}"\nat = [{x}, {y}]\n{more}\n'


def asks(piece, wish):
    """A wish of the person's own."""
    return f'[[wish]]\npiece = "{piece}"\n{wish}\n'


def tables(second):
    """Two bedside tables, each an entry of its own, the second so deep."""
    one, two = (
        f'[[piece]]\nkind = "bedside table"\nname = "{n} table"\n' for n in ("one", "other")
    )
    return f"{one}{two}depth = {second}\n"


FRAME = '[[person]]\nname = "Ada"\nuses = "walking frame"\n'
SQUARE = '[[rule]]\nrule = "turning-space"\nleast = 250\n'
CHILD = '[[person]]\nname = "Mo"\nclimbs = true\n'
WAY_OUT = (
    '[[window]]\nname = "far window"\nwall = "D"\nfrom_left = 280\nwidth = 80\nescape = true\n'
)
STAYS = 'stands_now = { wall = "C", from_left = 0 }\nstays = true\n'
AT_BED = "one table 0 265 right; other table 0 80 right"
SHUT_IN = "bed 65 115 left; desk 0 215 right; desk chair 75 260 left"

# One for every other rule, a must or a wish: its name, the room, what is added to its file so
# that the rule has something to speak of there, what is moved, words of what it says.
OTHERS = [
    ("inside-room", "cell", "", "wardrobe 320 0 up", "wardrobe"),
    ("bodies-apart", "cell", "", "wardrobe 150 0 up", "bed", "wardrobe"),
    ("door-floor", "cell", "", "wardrobe 340 285 left", "wardrobe", "door"),
    ("windows-clear", "cell", "", "wardrobe 130 325 down", "wardrobe", "window"),
    (
        *("fixtures-free", "cell", fixture("radiator", "D", 200, 80)),
        *("wardrobe 0 200 right", "wardrobe", "radiator"),
    ),
    ("least-clearance", "cell", "", "wardrobe 0 130 right", "bed", "40 cm"),
    ("backs-on-walls", "corner", "", "sideboard 260 355 down", "sideboard", "wall"),
    ("in-their-place", "bedroom", "", "bedside table 2 0 40 right", "bedside table 2", "bed"),
    ("stays-put", "cell", STAYS, "wardrobe 290 0 up", "wardrobe"),
    # 50 cm of bed and 96.5 of who sits up in it; 90 are left.
    (
        *("headroom", "cell", hung("pendant light", 30, 240, "bottom = 140")),
        *("bed 0 193 right", "bed", "90 cm", "97 cm"),
    ),
    ("heat", "cell", fixture("heater", "D", 280, 60), "wardrobe 0 150 right", "wardrobe", "heater"),
    ("cot-window", "nursery", "", "floor lamp 0 0 down; cot 274 272 down", "cot", "window"),
    (
        "fan-clear",
        "children",
        hung("ceiling fan", 150, 300),
        "bunk bed 250 232 down",
        "bunk bed",
        "fan",
    ),
    ("climbing", "chamber", CHILD, "chest of drawers 150 340 down", "chest of drawers", "Mo"),
    (
        "escape-window",
        "chamber",
        WAY_OUT,
        "chest of drawers 0 280 right",
        "chest of drawers",
        "far window",
        "way out",
    ),
    ("turning-space", "cell", FRAME + SQUARE, "bed 0 150 right", "250 cm", "Ada"),
    ("walkway", "lodging", "", SHUT_IN, "desk", "walkway"),
    (
        *("near", "chamber", asks("chest of drawers", 'near = "bed"\nwithin = 60')),
        *("chest of drawers 355 180 left", "chest of drawers", "150 cm", "bed"),
    ),
    (
        *(
            "away-from",
            "chamber",
            asks("chest of drawers", 'away_from = "wardrobe"\nat_least = 200'),
        ),
        *("chest of drawers 355 180 left", "chest of drawers", "25 cm", "wardrobe"),
    ),
    (
        *("beside", "chamber", asks("chest of drawers", 'beside = "bed"\nwithin = 60')),
        *("chest of drawers 355 180 left", "chest of drawers", "bed"),
    ),
    (
        "facing",
        "sitting",
        asks("sofa", 'facing = "tv unit"'),
        "tv unit 100 0 up",
        "does not face",
        "tv unit",
    ),
    (
        "in-view-of",
        "sitting",
        asks("armchair", 'in_view_of = "door"'),
        "armchair 130 320 up",
        "armchair",
        "door",
        "behind",
    ),
    (
        "against",
        "cell",
        asks("wardrobe", 'against = "C"'),
        "wardrobe 340 100 left",
        "not against",
        "C",
    ),
    (
        "not-against",
        "cell",
        asks("wardrobe", 'not_against = "B"'),
        "wardrobe 340 100 left",
        "is against",
        "B",
    ),
    (
        "aligned",
        "sitting",
        asks("sofa", 'aligned_with = "tv unit"'),
        "sofa 0 110 right",
        "not in line",
    ),
    ("clear-floor", "cell", "", "bed 0 150 right", "clear floor"),
    ("over-the-pillow", "berth", "", "wall shelf 0 0 up", "shelf", "hangs over the pillow", "bed"),
    (
        "used-together",
        "office",
        "",
        "filing cabinet 340 100 left",
        "desk",
        "270 cm",
        "filing cabinet",
    ),
    (
        "sockets-near",
        "sitting",
        fixture("socket", "B", 150, 8),
        "tv unit 100 0 up",
        "tv unit",
        "socket",
    ),
    ("straight-way", "passage", "", "armchair 330 220 left", "armchair", "kitchen door"),
    ("balance", "chamber", "", "chest of drawers 355 180 left", "off the middle"),
]
# And what no move makes worse: the tables of a bed for two have their places, but are not alike.
UNLIKE = ("bedside-pair", "chamber", tables(40), tables(30), AT_BED, "bed", "tables")
