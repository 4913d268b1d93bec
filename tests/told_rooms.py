"""Five rooms told in everyday prose, and what somebody types who reads the questions.

All of our own invention. Every line of ``typed`` is one answer; what stands behind ``##`` is
the question in short, for who reads this, and is taken off.
"""

from dataclasses import dataclass, field


@dataclass(frozen=True)
class Told:
    """A room: the prose, the answers, and what must be in the file, lengths in mm."""

    prose: str
    typed: str
    walls: dict
    openings: dict
    pieces: dict
    slip: int = 0  # mm by which walls may differ, where a slip of the tape is spread
    more: dict = field(default_factory=dict)

    @property
    def answers(self):
        """What is typed, a line each."""
        lines = self.typed.strip().split("\n")
        return [line.partition("##")[0].strip() for line in lines]

    @property
    def piped(self):
        """The same as a text."""
        return "".join(f"{answer}\n" for answer in self.answers)


BEDROOM = Told(
    prose="""
        Our bedroom is 3.42 m by 4.10 m, a plain box. The window is in the short wall and has
        a radiator under it; the door is in the wall across from it. We want a bed 1.60 m wide,
        second-hand, have two nightstands and my old oak wardrobe, and would love a tv in front of
        the bed. It should be calm. Not more than 1500 euros.""",
    typed="""
        Bedroom under the limes   ## name
        cm                        ## unit
        bedroom                   ## use
        calm                      ## feel
        no                        ## somebody special
                                  ## a tight fit
        yes                       ## four walls
        3,42                      ## A
        4 m 10                    ## B
                                  ## C
                                  ## D
                                  ## diagonal
        2,50                      ## ceiling
                                  ## slopes
        no                        ## bay
        no                        ## chimney breast
        1                         ## doors
        C                         ## wall
        80                        ## width
        20                        ## from left
        1                         ## opens
        left                      ## hinge
        1                         ## windows
        A                         ## wall
        140                       ## width
        middle                    ## from left
                                  ## sill
                                  ## head
        yes                       ## must open
                                  ## escape
                                  ## tilts, curtains
        radiator                  ## built in
        A                         ## wall
        1.20                      ## width
                                  ## depth
        1,11                      ## from left
                                  ## height
                                  ## no more
                                  ## more about doors, windows
        bed                       ## what
        double bed                ## which
        1.60 x 2.05 x 0.5         ## size
        no                        ## owned
        second-hand               ## come by it
        400 EUR                   ## price
        50                        ## delivery
                                  ## special
        2 nightstands             ## what
                                  ## size
                                  ## owned
                                  ## stands today
                                  ## special
        old oak wardrobe          ## what
        1.2 x .6 x 2              ## size
        y                         ## owned
        at a wall                 ## stands today
        D                         ## wall
        left                      ## from left
        no                        ## stays
                                  ## special
        tv                        ## what
        1 m x 40 x 50             ## size
        43                        ## screen
        n                         ## owned
                                  ## come by it
        120                       ## price
                                  ## delivery
                                  ## special
        that is all               ## what
                                              ## nothing open
        bed away from the door, at least 1 m  ## wish
        very much                 ## how much
        the wardrobe not against wall C  ## wish
        must                      ## how much
        tv facing the bed         ## wish
                                  ## how much
                                  ## no more wishes
                                  ## colours
        1500 EUR                  ## budget
        10                        ## set aside
        bed                       ## not to be given up
        yes                       ## write
    """,
    walls={"A": 3420, "B": 4100, "C": 3420, "D": 4100},
    openings={"door": (200, 800), "window": (1010, 1400), "radiator": (1110, 1200)},
    pieces={
        "bed": ("double bed", 1600, 2050, 500),
        "nightstand 1": ("bedside table", 400, 400, 500),
        "nightstand 2": ("bedside table", 400, 400, 500),
        "old oak wardrobe": ("wardrobe", 1200, 600, 2000),
        "tv": ("tv unit", 1000, 400, 500),
    },
    more={"budget": 1500, "wishes": 3, "feel": ("calm",), "use": "bedroom"},
)

LIVING = Told(
    prose="""
        The front room is 13'6 by 16 feet with 9 foot ceilings. A chimney breast 5 ft wide
        and 14 in deep is in the middle of the right-hand wall, with an open fireplace in it.
        There is a bay in the front wall. A sofa, two armchairs, a round table, and a rug. Cosy.""",
    typed="""
        Front room                ## name
        feet                      ## unit
        1                         ## use
        cosy and sociable         ## feel
                                  ## somebody special
                                  ## a tight fit
                                  ## four walls
        13'6                      ## A
        16 ft                     ## B
        13' 6"                    ## C
        16                        ## D
                                  ## diagonal
        9'                        ## ceiling
                                  ## slopes
        yes                       ## bay
        A                         ## wall
        7 ft                      ## opening
        middle                    ## from left
        2 ft                      ## out
        4'6                       ## front
                                  ## another bay
        yes                       ## chimney breast
        B                         ## wall
        5 ft                      ## width
        middle                    ## from left
        14 in                     ## depth
        no                        ## another
        one                       ## doors
        D                         ## wall
        2'8                       ## width
        1 ft                      ## from left
                                  ## opens
        on the right              ## hinge
        3                         ## windows
        left window               ## name
        bay left                  ## wall
        1'8                       ## width
        middle                    ## from left
        24 in                     ## sill
        8'                        ## head
                                  ## must open
                                  ## escape
                                  ## tilts, curtains
        bay window                ## name
        bay                       ## wall
        4'                        ## width
        middle                    ## from left
        2'                        ## sill
        8'                        ## head
                                  ## must open
                                  ## escape
                                  ## tilts, curtains
                                  ## name, as offered
        bay right                 ## wall
        20 in                     ## width
        middle                    ## from left
        2'                        ## sill
        8'                        ## head
                                  ## must open
                                  ## escape
                                  ## tilts, curtains
        open fire                 ## built in
        chimney breast            ## wall
        3'                        ## width
        1'                        ## depth
        middle                    ## from left
                                  ## height
        done                      ## no more
                                  ## more about doors, windows
        couch                     ## what
        6'11 x 3'1 x 2'9          ## size
        yes                       ## owned
                                  ## stands today
                                  ## special
        two armchairs             ## what
                                  ## size
                                  ## owned
                                  ## stands today
                                  ## special
        round table               ## what
        20 in x 20 in             ## size
        no                        ## owned
                                  ## come by it
        $89.90                    ## price
                                  ## delivery
                                  ## special
        rug                       ## what
        5' by 8'                  ## size
                                  ## owned
                                  ## stands today
                                  ## special
                                  ## no more
                                  ## nothing open
        couch facing fireplace    ## wish
        must                      ## how much
                                  ## no more
                                  ## colours
                                  ## budget
                                  ## not to be given up
                                  ## write
    """,
    walls={
        "A left": 991,
        "B left": 1676,
        "chimney breast": 1524,
        "C": 4115,
        "D": 4877,
        "bay": 1372,
    },
    # The middle, to the inch: of the slant of 719 mm (719 - 508) / 2 = 105, 4 in are 102.
    openings={
        "door": (305, 813),
        "left window": (102, 508),
        "bay window": (76, 1219),
        "fireplace": (305, 914),
    },
    pieces={
        "couch": ("sofa", 2108, 940, 838),
        "armchair 1": ("armchair", 850, 900, 900),
        "round table": ("round table", 508, 508, 740),
        "rug": ("rug", 1524, 2438, 15),
    },
    more={"wishes": 1, "feel": ("cosy", "sociable"), "use": "living room"},
)

FLAT = Told(
    prose="""
        One room for everything, L-shaped: the bathroom cuts a corner out of it. I measure in
        metres. Window wall 6.20, then 4.20, then 4.70 back along the entrance, in 1.20 along the
        bathroom, 1.50 along its front, and home. I sleep on a sofa bed, work at a desk and own a
        bookcase that stays where it is.""",
    typed="""
        Attic flat                ## name
        metres                    ## unit
        one room                  ## use
        airy                      ## feel
        no                        ## somebody special
                                  ## a tight fit
        no                        ## four walls
        6,2                       ## A
                                  ## corner
        4.20                      ## B
        right                     ## corner
        4 m 70                    ## C
        1                         ## corner
        1.2                       ## D
        2                         ## corner
        150 cm                    ## E
                                  ## corner
                                  ## F is the last
        A to C 7.49               ## across
                                  ## no more
        2.55                      ## ceiling
                                  ## slopes
                                  ## bay
                                  ## chimney
                                  ## doors
        wall c                    ## wall
        0.9                       ## width
        right                     ## from left
        1                         ## opens
        2                         ## hinge
        2                         ## windows
        west window               ## name
        A                         ## wall
        1.4                       ## width
        1                         ## from left
        0.85                      ## sill
        2.2                       ## head
        yes                       ## must open
        yes                       ## escape
                                  ## tilts, curtains
        east window               ## name
        A                         ## wall
        1.4                       ## width
        3.8                       ## from left
        0.85                      ## sill
        2.2                       ## head
                                  ## must open
                                  ## escape
                                  ## tilts, curtains
        2 pipes                   ## not understood
        pipes                     ## built in
        yes                       ## at a wall
        B                         ## wall
        .25                       ## width
        .25                       ## depth
        0                         ## from left
        light                     ## built in
        ceiling                   ## on the ceiling
                                  ## in the middle
        nothing                   ## no more
                                  ## more about doors, windows
        sofa bed                  ## what
                                  ## size
                                  ## owned
        2                         ## stands today: free
        2.5                       ## from the left
        2,0                       ## from the bottom
        up                        ## front looks
                                  ## stays
                                  ## special
        desk                      ## what
        1.2 x 0.6 x 0.74          ## size
                                  ## owned
                                  ## stands today
        1 m free in front         ## special
                                  ## nothing else
        desk chair                ## what
                                  ## size
                                  ## owned
                                  ## stands today
                                  ## special
        bookcase                  ## what
        0.8 x 0.3 x 2             ## size
                                  ## owned
        1                         ## stands today
        F                         ## wall
        1                         ## from left
        yes                       ## stays
                                  ## special
                                  ## no more
                                               ## nothing open
        desk within 1.5 m of the east window   ## wish
        3                         ## how much
                                  ## no more
                                  ## colours
        bookcase, way             ## not to be given up
                                  ## write
    """,
    walls={"A": 6200, "B": 4200, "C": 4700, "D": 1200, "E": 1500, "F": 3000},
    openings={"door": (3800, 900), "west window": (1000, 1400), "east window": (3800, 1400)},
    pieces={
        "sofa bed": ("sofa bed", 1900, 950, 850),
        "desk": ("desk", 1200, 600, 740),
        "desk chair": ("desk chair", 500, 500, 900),
        "bookcase": ("bookcase", 800, 300, 2000),
    },
    more={"wishes": 1, "held": {"bookcase"}, "use": "one room for all"},
)

NURSERY = Told(
    prose="""
        The baby's room: about 9 foot 4 by 11 foot 2, measured all round because the house is
        old (the back wall came out 9 foot 5). A crib, a changing table, a rocking chair,
        a dresser. Sliding door. Granny uses a walking frame.""",
    typed="""
        Nursery                   ## name
        3                         ## unit
        nursery                   ## use
        restful, pink             ## feel: one word without effect
        yes                       ## somebody special
        Granny                    ## name
                                  ## age
                                  ## tall
        walking frame             ## uses
                                  ## sleeps here
        no                        ## somebody else
        yes                       ## four walls
        9 foot 4                  ## A
        11 ft 2                   ## B
        9'5                       ## C
        134 in                    ## D
                                  ## diagonal
                                  ## A again
                                  ## C again
                                  ## ceiling
                                  ## slopes
        no                        ## bay
        no                        ## chimney
        1                         ## doors
        bottom                    ## wall
        36"                       ## width
        6 in                      ## from left
        it slides                 ## opens
        1                         ## windows
        top                       ## wall
        4'                        ## width
        2 ft 8                    ## from left
        32 in                     ## sill
        6'8                       ## head
                                  ## must open
                                  ## escape
                                  ## tilts, curtains
        outlet                    ## built in
        B                         ## wall
        5 ft                      ## from left
                                  ## no more
                                  ## more about doors, windows
        crib                      ## what
                                  ## size
                                  ## owned
                                  ## stands today
                                  ## special
        changing table            ## what
                                  ## size
        no                        ## owned
        make over                 ## come by it
                                  ## price
                                  ## special
        rocker                    ## what
                                  ## size
                                  ## owned
                                  ## stands today
                                  ## special
        dresser                   ## what
        31 x 18 x 36              ## size
                                  ## owned
                                  ## stands today
        in a corner               ## special
                                  ## nothing else
                                  ## no more
                                  ## nothing open
        crib far from the window  ## wish
        2                         ## how much
                                  ## no more
                                  ## colours
        600                       ## budget
        20                        ## set aside
                                  ## not to be given up
        yes                       ## write
    """,
    walls={"A": 2857, "B": 3404, "C": 2857, "D": 3404},
    openings={"door": (152, 914), "window": (813, 1219), "socket": (1524, 76)},
    pieces={
        "crib": ("cot", 1260, 680, 950),
        "changing table": ("changing table", 850, 550, 950),
        "rocker": ("rocking chair", 700, 950, 1050),
        "dresser": ("chest of drawers", 787, 457, 914),
    },
    slip=13,  # C is an inch, 25 mm, longer than A
    more={"walkway": 760, "wishes": 1, "budget": 600, "use": "nursery"},
)

DINING = Told(
    prose="""
        We eat in a room with a slanted wall. 4 m along the windows, then down 2.5 m, then the
        slant cuts the corner off at 45 degrees, 1.40 m long. Two doors: the kitchen door and the
        one from the hall. A table for six with six chairs and grandmother's sideboard.""",
    typed="""
        Dining room               ## name
                                  ## unit
        dining room               ## use
                                  ## feel
                                  ## somebody special
                                  ## a tight fit
        no                        ## four walls
        400                       ## A
        right                     ## corner
        250                       ## B
        3                         ## corner: a slant
        right 45                  ## degrees
        1.41                      ## C
        slant                     ## corner
        r 45                      ## degrees
        300                       ## D
        1                         ## corner
        3.5                       ## E, back to the beginning
        1                         ## corner
                                  ## across
        2 m 60                    ## ceiling
                                  ## slopes
        no                        ## bay
        no                        ## chimney
        2                         ## doors
        kitchen door              ## name
        E                         ## wall
        80                        ## width
        1                         ## from left: 1 cm
        2                         ## opens out
        right                     ## hinge
        hall door                 ## name
        D                         ## wall
        90                        ## width
        1.1 m                     ## from left
        in                        ## opens
                                  ## hinge
        hall                      ## main
        two                       ## windows
                                  ## name
        A                         ## wall
        120                       ## width
        50                        ## from left
        80                        ## sill
        220                       ## head
                                  ## must open
                                  ## escape
                                  ## tilts, curtains
                                  ## name
        A                         ## wall
        120                       ## width
        230                       ## from left
        80                        ## sill
        220                       ## head
                                  ## must open
                                  ## escape
                                  ## tilts, curtains
        none                      ## built in
                                  ## more about doors, windows
        dining table              ## what
        dining table for six      ## which
                                  ## size
                                  ## owned
                                  ## stands today
                                  ## special
        six chairs                ## what
        1                         ## which
                                  ## size
        no                        ## owned
        new                       ## come by it
        45                        ## price each
        30                        ## delivery
                                  ## special
        sideboard called grandmother's sideboard   ## what
        160 x 45 x 80             ## size
        yes                       ## owned
                                  ## stands today
                                  ## special
                                  ## no more
                                                      ## nothing open
        sideboard near the kitchen door, within 2 m   ## wish
                                  ## how much
                                  ## no more
                                  ## colours
        € 1.200                   ## budget
                                  ## set aside
                                  ## not to be given up
                                  ## write
    """,
    walls={"A": 4000, "B": 2500, "C": 1410, "D": 3000, "E": 3500},
    openings={"kitchen door": (10, 800), "hall door": (1100, 900), "window 2": (2300, 1200)},
    pieces={
        "dining table": ("dining table for six", 1800, 900, 740),
        "chair 6": ("dining chair", 450, 500, 900),
        "grandmother's sideboard": ("sideboard", 1600, 450, 800),
    },
    slip=4,  # the slant takes 1410 / root of 2 = 997 off B and D; 3 mm are missing both ways
    more={"wishes": 1, "budget": 1200, "main": "hall door", "use": "dining room"},
)

ROOMS = {
    "bedroom": BEDROOM,
    "front room": LIVING,
    "flat": FLAT,
    "nursery": NURSERY,
    "dining room": DINING,
}
