"""Five more rooms in everyday prose, and what was typed by who saw nothing but the questions.

Nobody looked at a manual, and each answer is in words that somebody would use who has a tape and
no training. They are of our own invention. Lines are as in ``told_rooms``.
"""

from told_rooms import Told

BEDROOM = Told(
    prose="""
        Our bedroom is an ordinary box, 3,62 m wide and 4,28 m long, with a ceiling at two metres
        fifty. The window is in the middle of a narrow wall, 1,36 wide; its sill is 86 cm up, over
        the radiator, which is about a metre long and 60 high. I air the room twice a day, so I have
        to get at that window. The door is across from it, in the right-hand corner as you look at
        it, 80 wide; it opens into the room and hangs on the corner's side. There is a socket 30 cm
        left of the door. We keep our oak bed, 1,66 by 2,08, and two little bedside tables, 45
        by 35. We would like a wardrobe with sliding doors, two metres wide, how deep we do not
        know: a used one, 600 euros at most. It must not be next to the window. I want to see the
        door from the bed. Quiet and airy, please.""",
    typed="""
        Our bedroom                      ## name
        cm                               ## unit
        where we sleep                   ## use
        quiet and airy                   ## feel
        nobody                           ## somebody special
        I don't know                     ## a tight fit
        yes                              ## four walls
        3,62 m                           ## A
        4,28                             ## B
        about the same                   ## C
        same                             ## D
        don't know                       ## diagonal
        two metres fifty                 ## ceiling
        no                               ## slopes
        no                               ## bay
        no                               ## chimney breast
        just one                         ## doors
        opposite the window              ## wall
        80 wide                          ## width
        in the right-hand corner         ## from left
        inwards                          ## opens
        on the right                     ## hinge
        one                              ## windows
        opposite the door                ## wall
        1,36                             ## width
        in the middle                    ## from left
        86                               ## sill
        don't know                       ## head
        yes                              ## must open
        no                               ## escape
        no                               ## tilts, curtains
        a radiator under the window      ## built in
        about a metre                    ## width
        don't know                       ## depth
        60                               ## height
        a socket next to the door        ## built in
        30 cm left of the door           ## from left
        no more                          ## built in
        no                               ## more about doors, windows
        our oak bed                      ## what
        double                           ## which
        1,66 by 2,08                     ## size
        yes                              ## owned
        against the wall, I think        ## stands today
        not sure                         ## wall
        nothing special                  ## special
        two little bedside tables        ## what
        45 by 35                         ## size
        yes we have both                 ## owned
        don't know                       ## stands today
        nothing special                  ## special
        a wardrobe with sliding doors    ## what
        2 m wide, depth don't know       ## size
        not yet                          ## owned
        used                             ## come by it
        600 at most                      ## price
        free                             ## delivery
        no                               ## special
        that's all                       ## what
                                                     ## nothing open
        I want to see the door from the bed          ## wish
        very much                        ## how much
        the wardrobe must not be next to the window  ## wish
                                         ## how much
        no                               ## wish
                                         ## colours
        600 euros                        ## budget
        nothing                          ## set aside
        the bed                          ## not to be given up
        yes                              ## write
    """,
    walls={"A": 3620, "B": 4280, "C": 3620, "D": 4280},
    openings={
        # 3620 - 800; (3620 - 1360) / 2; (3620 - 1000) / 2; 2820 - 300 - 80 of the socket
        "door": (2820, 800),
        "window": (1130, 1360),
        "radiator": (1310, 1000),
        "socket": (2440, 80),
    },
    pieces={
        "oak bed": ("double bed", 1660, 2080, 500),
        "little bedside table 1": ("bedside table", 450, 350, 500),
        "little bedside table 2": ("bedside table", 450, 350, 500),
        "wardrobe with sliding doors": ("sliding wardrobe", 2000, 650, 2100),
    },
    more={
        "use": "bedroom",
        "feel": ("quiet", "airy"),
        "ceiling": 2500,
        "doors": [("door", "in", "right", 1)],
        "windows": [("window", 860, 2100, True, 0)],
        "wanted": ["wardrobe with sliding doors"],
        "wishes": [
            ("oak bed", "in view of", "door", None, False, 20),
            ("wardrobe with sliding doors", "away from", "window", None, True, 10),
        ],
        "budget": 600,
        "kept": ("oak bed",),
    },
)

L_ROOM = Told(
    prose="""
        Our living and dining room is an L. The front wall is 14 feet 2, with a bay in its middle:
        seven and a half feet wide, two foot three deep, its middle part 4 ft 2. From the right end
        of the front wall the long wall runs back 21 ft 4. The back wall is nine feet two; then a
        wall comes 8 ft forward and sticks out into the room, from its end it is 5 ft to the left,
        and 13'4 to the front again. The ceiling is 8 1/2 feet high. A window in each part of the
        bay: 3'10 in the middle, 2 ft in the others, sills two feet up, and curtains at the left
        one. We come in by the hall door in the long wall, 2'8 wide, four feet from the back;
        it opens out. In the back wall an open arch leads to the kitchen, 3 ft wide, 2 ft from the
        corner with the long wall. A radiator of 4 ft on the long wall, a yard from the front. We
        have a couch, 7 feet by 3, two tub chairs, a coffee table, the telly on its stand, four feet
        wide, a dining table for six, 6 by 3, and six chairs. We would love a sideboard of four and
        a half feet, 350 dollars at most. The table close to the kitchen; the couch must face the
        telly; the sideboard beside the table; no telly in front of the middle window. Cozy.""",
    typed="""
        Front room                       ## name
        feet and inches                  ## unit
        living/dining room               ## use
        cozy                             ## feel
        no                               ## somebody special
        sure                             ## a tight fit
        no, it's L-shaped                ## four walls
        14 feet 2                        ## A
                                         ## corner
        21 ft 4                          ## B
        right                            ## corner
        nine feet two                    ## C
        right                            ## corner
        8 ft                             ## D
        it sticks out into the room      ## corner
        5 ft                             ## E
        right                            ## corner
        13'4                             ## F
        right                            ## corner
        no                               ## across
        8 1/2 feet                       ## ceiling
        no                               ## slopes
        yes                              ## bay
        A                                ## wall
        seven and a half feet            ## opening
        in the middle                    ## from left
        two foot three                   ## out
        4 ft 2                           ## front
        no                               ## another bay
        no                               ## chimney breast
        two                              ## doors
        hall door                        ## name
        B                                ## wall
        2'8                              ## width
        four feet from the back wall     ## from left
        outwards                         ## opens
        don't know                       ## hinge
        arch to the kitchen              ## name
        C                                ## wall
        3 ft                             ## width
        2 ft from wall B                 ## from left
        it's an open arch                ## opens
        hall door                        ## main
        three                            ## windows
        middle window                    ## name
        bay                              ## wall
        3'10                             ## width
        middle                           ## from left
        two feet                         ## sill
        don't know                       ## head
        no                               ## must open
        no                               ## escape
        no                               ## tilts, curtains
        left window                      ## name
        bay left                         ## wall
        2 ft                             ## width
        middle                           ## from left
        same                             ## sill
        same                             ## head
                                         ## must open
                                         ## escape
        curtains                         ## tilts, curtains
        right window                     ## name
        bay right                        ## wall
        2 ft                             ## width
        middle                           ## from left
                                         ## sill
                                         ## head
                                         ## must open
                                         ## escape
        no                               ## tilts, curtains
        radiator                         ## built in
        B                                ## wall
        4 ft                             ## width
        don't know                       ## depth
        a yard from the left             ## from left
                                         ## height
                                         ## built in
                                         ## more about doors, windows
        couch                            ## what
        7 feet by 3                      ## size
        yes                              ## owned
        no                               ## stands today
                                         ## special
        two tub chairs                   ## what
                                         ## size
        yes                              ## owned
                                         ## stands today
                                         ## special
        coffee table                     ## what
                                         ## size
                                         ## owned
                                         ## stands today
                                         ## special
        telly on its stand               ## what
        four feet wide                   ## size
        50 inch                          ## screen
        yes                              ## owned
                                         ## stands today
                                         ## special
        dining table for six             ## what
        6 by 3                           ## size
                                         ## owned
                                         ## stands today
                                         ## special
        six chairs                       ## what
        dining                           ## which
                                         ## size
                                         ## owned
                                         ## stands today
                                         ## special
        a sideboard                      ## what
        4 1/2 ft                         ## size
        no                               ## owned
                                         ## come by it
        $350 at most                     ## price
                                         ## delivery
                                         ## special
                                         ## what
                                                     ## nothing open
        dining table close to the kitchen            ## wish
        very much                        ## how much
        the couch must face the telly    ## wish
                                         ## how much
        sideboard beside the dining table            ## wish
                                         ## how much
        the tv not in front of the middle window     ## wish
                                         ## how much
        that is it                       ## wish
                                         ## colours
        $350                             ## budget
        0                                ## set aside
        couch and hall door              ## not to be given up
        yes                              ## write
    """,
    # 14 ft 2 in = 170 in = 4318 mm; 256 in; 110 in; 96 in; 60 in; 160 in. The bay takes 90 in
    # from the middle of A, and leaves 40 in beside it; its front is 50 in.
    walls={"A left": 1016, "bay": 1270, "B": 6502, "C": 2794, "D": 2438, "E": 1524, "F": 4064},
    openings={
        # 256 - 48 - 32 = 176 in; 24 in; (50 - 46) / 2 in; 36 in
        "hall door": (4470, 813),
        "arch to the kitchen": (610, 914),
        "middle window": (50, 1168),
        "radiator": (914, 1219),
    },
    pieces={
        "couch": ("sofa", 2134, 914, 850),
        "tub chair 1": ("armchair", 850, 900, 900),
        "tub chair 2": ("armchair", 850, 900, 900),
        "coffee table": ("coffee table", 1000, 500, 420),
        "telly": ("tv unit", 1219, 400, 500),
        "dining table for six": ("dining table for six", 1829, 914, 740),
        "chair 6": ("dining chair", 450, 500, 900),
        "sideboard": ("sideboard", 1372, 450, 800),
    },
    more={
        "use": "living and dining room",
        "feel": ("cosy",),
        "ceiling": 2591,
        "doors": [
            ("hall door", "out", "left", 1),
            ("arch to the kitchen", "passage", "left", 1),
        ],
        "windows": [
            ("middle window", 610, 2108, False, 0),
            ("left window", 610, 2108, False, 203),
            ("right window", 610, 2108, False, 0),
        ],
        "wanted": ["sideboard"],
        "wishes": [
            ("dining table for six", "near", "arch to the kitchen", None, False, 20),
            ("couch", "facing", "telly", None, True, 10),
            ("sideboard", "beside", "dining table for six", None, False, 10),
            ("telly", "away from", "middle window", None, False, 10),
        ],
        "budget": 350,
        "kept": ("couch", "hall door"),
    },
)

ATTIC = Told(
    prose="""
        My study is under the roof: 4.10 m by 3.05. One long side is only 1.10 m high; from there
        the ceiling climbs for two metres and is level then, 2.35 at the highest. In the slope, in
        the middle of that side, there is a roof window, 78 cm wide, from 1.30 to 1.95 above the
        floor. The door is in the short wall on the left as you face the low side, 30 cm from the
        back wall, 76 cm wide and 1.95 high; it opens out to the landing. In the corner beside the
        door is a boxed-in pipe on the back wall, 25 cm by 20. On the wall across from the door are
        a socket in the middle and an electric heater, 60 cm wide and 40 high, 60 cm from the left.
        It stands 5 cm off the wall, for the pipes. I have a sit-stand desk, 1.40 x 70,
        my office chair, a low shelf of 120 x 30 x 75 and two filing cabinets, and I would like an
        armchair to read in; a reading lamp I have. The desk by the window, the lamp next to the
        armchair. I want nothing squeezed in. Bright and focused.""",
    typed="""
        My study                         ## name
        metres                           ## unit
        for working                      ## use
        bright and focused               ## feel
        no                               ## somebody special
        not really                       ## a tight fit
        yes                              ## four walls
        4.10                             ## A
        3.05                             ## B
                                         ## C
                                         ## D
        I can't                          ## diagonal
        2,35 at the highest              ## ceiling
        yes                              ## slopes
        the window wall                  ## wall
        1.10                             ## height there
        2 m                              ## until
        no                               ## another slope
        no                               ## dormer
        no                               ## bay
        no                               ## chimney breast
        one                              ## doors
        the left wall                    ## wall
        76 cm                            ## width
        30 cm from the back wall         ## from left
        out to the landing               ## opens
        1.95                             ## height
        left                             ## hinge
        a roof window                    ## windows
        A                                ## wall
        0.78                             ## width
        middle                           ## from left
        1.30                             ## sill
        1.95                             ## head
        a pipe in the corner             ## built in
        yes                              ## at a wall
        the back wall                    ## wall
        25 cm                            ## width
        20                               ## depth
        in the right-hand corner         ## from left
        a socket                         ## built in
        opposite the door                ## wall
        middle                           ## from left
        an electric heater               ## built in
        opposite the door                ## wall
        60 cm                            ## width
                                         ## depth
        60 cm from the left              ## from left
        40                               ## height
        no more                          ## built in
        the heater is 5 cm off the wall  ## more about doors, windows
        no                               ## more about doors, windows
        sit-stand desk                   ## what
        1.40 x 70                        ## size
        yes                              ## owned
        not sure                         ## stands today
                                         ## special
        office chair                     ## what
                                         ## size
                                         ## owned
                                         ## stands today
                                         ## special
        low shelf                        ## what
        120 x 30 x 75                    ## size
                                         ## owned
                                         ## stands today
                                         ## special
        two filing cabinets              ## what
                                         ## size
                                         ## owned
                                         ## stands today
                                         ## special
        an armchair to read in           ## what
                                         ## size
        no                               ## owned
                                         ## come by it
        no idea                          ## price
                                         ## special
        a reading lamp                   ## what
                                         ## size
                                         ## owned
                                         ## stands today
                                         ## special
        that's it                        ## what
                                         ## nothing open
        the desk by the window           ## wish
        very much                        ## how much
        lamp next to the armchair        ## wish
                                         ## how much
                                         ## wish
                                         ## colours
        rather not                       ## budget
        nothing                          ## not to be given up
        yes                              ## write
    """,
    walls={"A": 4100, "B": 3050, "C": 4100, "D": 3050},
    openings={
        # (4100 - 780) / 2; 4100 - 250; (3050 - 80) / 2, to the cm
        "door": (300, 760),
        "window": (1660, 780),
        "boxed pipe": (3850, 250),
        "socket": (1480, 80),
    },
    pieces={
        "sit-stand desk": ("standing desk", 1400, 700, 1150),
        "office chair": ("desk chair", 500, 500, 900),
        "low shelf": ("low bookcase", 1200, 300, 750),
        "filing cabinet 2": ("filing cabinet", 450, 600, 720),
        "armchair": ("armchair", 850, 900, 900),
        "reading lamp": ("floor lamp", 350, 350, 1600),
    },
    more={
        "use": "office",
        "feel": ("bright", "focused"),
        "ceiling": 2350,
        "slopes": [("A", 1100, 2000)],
        "doors": [("door", "out", "left", 1)],
        "windows": [("window", 1300, 1950, False, 0)],
        "wanted": ["armchair"],
        "wishes": [
            ("sit-stand desk", "near", "window", None, False, 20),
            ("reading lamp", "beside", "armchair", None, False, 10),
        ],
        "budget": None,
        "kept": (),
    },
)

LIVING = Told(
    prose="""
        The living room of an old house; we measured every wall. The one with the window is 4.71,
        then to the right 5.53, the one behind 4.69 and the last 5.56: the tape must have slipped.
        The ceiling is 2.80. On the right wall stands the chimney breast, 1.38 m wide, 38 cm deep,
        1.80 from the window wall, with a wood stove in front of it, 50 wide, 40 deep. In the
        alcove left of it is a built-in cupboard, as wide as the alcove, 35 deep and 90 cm high. The
        window is in the middle, 1.80 wide, sill at 70, with long curtains that take 25 cm each
        side. The hall door is in the left wall, 20 cm from the back wall, 85 wide, and opens in;
        a double door goes out to the terrace in the middle of the back wall, 1.60 wide. We have a
        corner sofa, 2.60 by 1.90, its long end on the right, seats 90 deep; a round table, 1.10
        across, with three chairs; the telly, 50 inch, on a low cabinet; a narrow bookcase, 40 x 30
        x 2.2 m, on the right wall 1 m from the back wall; and a footstool. The sofa opposite the
        stove, but at least 1.5 m from it; the telly where we can see it from the sofa. Warm and
        sociable. Not the sofa nor the table may go.""",
    typed="""
        Living room                      ## name
        centimetres                      ## unit
        living room                      ## use
        warm and sociable                ## feel
        no, nobody                       ## somebody special
        yes                              ## a tight fit
        yes apart from the chimney       ## four walls
        4.71                             ## A
        5.53                             ## B
        4.69                             ## C
        5.56                             ## D
        no                               ## diagonal
        not sure                         ## B again
        I can't                          ## D again
        2.80                             ## ceiling
        no                               ## slopes
        no                               ## bay
        yes, a chimney breast            ## chimney breast
        the right wall                   ## wall
        1.38 m                           ## width
        1.80 from the window wall        ## from left
        38                               ## depth
        no                               ## another
        2                                ## doors
        hall door                        ## name
        left wall                        ## wall
        85                               ## width
        20 from the back wall            ## from left
        in                               ## opens
        left                             ## hinge
        terrace door                     ## name
        the back wall                    ## wall
        1.60                             ## width
        middle                           ## from left
        out                              ## opens
        it is                            ## two leaves
        hall door                        ## main
        1                                ## windows
        A                                ## wall
        1.80                             ## width
        middle                           ## from left
        70                               ## sill
                                         ## head
                                         ## must open
                                         ## escape
        curtains 25                      ## tilts, curtains
        a wood stove                     ## built in
        yes                              ## at a wall
        on the chimney breast            ## wall
        50                               ## width
        40                               ## depth
        middle                           ## from left
                                         ## height
        a cupboard in the alcove         ## built in
        B left                           ## wall
        1.80                             ## width
        35                               ## depth
                                         ## from left, where only one is possible
                                         ## built in
        the cupboard is 90 cm high       ## more about doors, windows
                                         ## more about doors, windows
        a corner sofa with the long end on the right ## what
        2.60 by 1.90                     ## size
        right                            ## where it comes forward
        90                               ## how wide there
        90                               ## how deep along its back
        yes                              ## owned
                                         ## stands today
                                         ## special
        round table 1.10 across          ## what
        1.10                             ## size
                                         ## owned
                                         ## stands today
                                         ## special
        three chairs                     ## what
        1                                ## which
                                         ## size
                                         ## owned
                                         ## stands today
                                         ## special
        telly on a low cabinet           ## what
                                         ## size
        50                               ## screen
        yes                              ## owned
                                         ## stands today
                                         ## special
        narrow bookcase                  ## what
        40 x 30 x 2.2 m                  ## size
                                         ## owned
        against the wall                 ## stands today
        right wall                       ## wall
        1 m from the back wall           ## from left
        no                               ## stays
                                         ## special
        a footstool                      ## what
                                         ## size
                                         ## owned
                                         ## stands today
                                         ## special
                                         ## what
                                         ## nothing open
        sofa opposite the stove          ## wish
                                         ## how much
        the sofa at least 1.5 m from the stove       ## wish
                                         ## how much
        telly where we can see it from the sofa      ## wish
                                         ## how much
        no                               ## wish
                                         ## colours
        the sofa and the table           ## not to be given up
        yes                              ## write
    """,
    # The slips, 2 and 3 cm, are shared between opposite walls: 4.70 and 5.545.
    walls={"A": 4700, "C": 4700, "D": 5545, "B left": 1800, "chimney breast": 1380},
    openings={
        # (4700 - 1800) / 2; 200; (4700 - 1600) / 2; (1380 - 500) / 2; 0
        "window": (1450, 1800),
        "hall door": (200, 850),
        "terrace door": (1550, 1600),
        "stove": (440, 500),
        "built-in cupboard": (0, 1800),
    },
    pieces={
        "corner sofa": ("corner sofa", 2600, 1900, 850),
        "round table": ("round table", 1100, 1100, 740),
        "chair 3": ("dining chair", 450, 500, 900),
        "telly": ("tv unit", 1400, 400, 500),
        "narrow bookcase": ("bookcase", 400, 300, 2200),
        "footstool": ("footstool", 500, 400, 400),
    },
    slip=10,
    more={
        "use": "living room",
        "feel": ("cosy", "sociable"),
        "ceiling": 2800,
        "doors": [("hall door", "in", "left", 1), ("terrace door", "out", "left", 2)],
        "windows": [("window", 700, 2100, False, 250)],
        "wanted": [],
        "wishes": [
            ("corner sofa", "facing", "stove", None, False, 10),
            ("corner sofa", "away from", "stove", 1500, False, 10),
            ("corner sofa", "in view of", "telly", None, False, 10),
        ],
        "budget": None,
        "kept": ("corner sofa", "round table"),
    },
)

CHILD = Told(
    prose="""
        Robin's room is 3,15 m wide at the window and 4,10 long, but the corner at the right of the
        back wall is boxed in over the stairs, 70 cm wide and 90 deep. The window is in the middle,
        1,10 wide, its sill 60 cm up. The door is in the back wall, 75 wide, 20 cm from the box; it
        slides along the wall in the room, to the right as you look at it. At the window end of the
        left wall is a closet with folding doors, 1,20 wide, 60 deep. Robin has a loft bed called
        the lighthouse, a desk of 90 by 55, a child's chair, a bean bag of 80 cm that we call Hippo,
        and a toy chest that stands under the window today. A wall shelf of 80 x 20 x 25 hangs at
        1,20, and there is a round rug of 1,20. We want a low chest of drawers, 80 by 40 and 70
        high, to do up ourselves, about 60 euros. The lighthouse must never be by the window, Hippo
        near the lighthouse, the desk by the window. Cheerful and playful.""",
    typed="""
        Robin's room                     ## name
        1                                ## unit
        kids' room                       ## use
        cheerful and playful             ## feel
                                         ## somebody special
                                         ## a tight fit
        no                               ## four walls
        3,15                             ## A
        right                            ## corner
        3,20                             ## B
        an ordinary one                  ## corner
        70                               ## C
        it sticks out                    ## corner
        90                               ## D
        right                            ## corner
        two metres forty-five            ## E
        right                            ## corner
        4,10                             ## F
                                         ## corner
        none                             ## across
        2.5                              ## ceiling
        no                               ## slopes
        no                               ## bay
        no                               ## chimney breast
        1                                ## doors
        E                                ## wall
        75                               ## width
        20 from the left corner          ## from left
        it slides along the wall         ## opens
        right                            ## side
        1                                ## windows
        A                                ## wall
        1.10                             ## width
        centred                          ## from left
        60                               ## sill
                                         ## head
                                         ## must open
                                         ## escape
                                         ## tilts, curtains
        closet with folding doors        ## built in
        F                                ## wall
        1.20                             ## width
        60                               ## depth
        right                            ## from left
        folding                          ## doors
                                         ## built in
        no                               ## more about doors, windows
        a loft bed called the lighthouse ## what
                                         ## size
                                         ## owned
                                         ## stands today
                                         ## special
        desk, 90 by 55                   ## what
        90 x 55                          ## size
                                         ## owned
                                         ## stands today
                                         ## special
        child's chair                    ## what
                                         ## size
                                         ## owned
                                         ## stands today
                                         ## special
        bean bag, we call it Hippo       ## what
        80                               ## size
                                         ## owned
                                         ## stands today
                                         ## special
        toy chest                        ## what
                                         ## size
                                         ## owned
        against the wall                 ## stands today
        the window wall                  ## wall
        under the window                 ## from left
        no                               ## stays
                                         ## special
        wall shelf                       ## what
        80 x 20 x 25                     ## size
                                         ## owned
                                         ## stands today
        it hangs at 1.20                 ## special
                                         ## special
        a round rug                      ## what
        1.20 across                      ## size
                                         ## owned
                                         ## stands today
                                         ## special
        low chest of drawers             ## what
        80 wide, 40 deep, 70 high        ## size
        no                               ## owned
        do up                            ## come by it
        about 60 euros                   ## price
                                         ## delivery
                                         ## special
                                         ## what
                                                     ## nothing open
        the lighthouse must never be by the window   ## wish
                                         ## how much
        hippo near the lighthouse        ## wish
                                         ## how much
        desk by the window               ## wish
                                         ## how much
        nothing more                     ## wish
                                         ## colours
        no                               ## budget
        nothing                          ## not to be given up
        yes                              ## write
    """,
    walls={"A": 3150, "B": 3200, "C": 700, "D": 900, "E": 2450, "F": 4100},
    openings={
        # (3150 - 1100) / 2, to the cm; 4100 - 1200
        "door": (200, 750),
        "window": (1020, 1100),
        "closet": (2900, 1200),
    },
    pieces={
        "the lighthouse": ("loft bed", 1000, 2080, 1450),
        "desk": ("desk", 900, 550, 740),
        "child's chair": ("child's chair", 400, 400, 700),
        "Hippo": ("bean bag", 800, 800, 750),
        "toy chest": ("toy chest", 800, 400, 450),
        "wall shelf": ("wall shelf", 800, 200, 250),
        "round rug": ("rug", 1200, 1200, 15),
        "low chest of drawers": ("chest of drawers", 800, 400, 700),
    },
    more={
        "use": "child's room",
        "feel": ("cheerful", "playful"),
        "ceiling": 2500,
        "doors": [("door", "sliding on the wall", "right", 1)],
        "windows": [("window", 600, 2100, False, 0)],
        "wanted": ["low chest of drawers"],
        "wishes": [
            ("the lighthouse", "away from", "window", None, True, 10),
            ("Hippo", "near", "the lighthouse", None, False, 10),
            ("desk", "near", "window", None, False, 10),
        ],
        "budget": None,
        "kept": (),
    },
)

TRIALS = {
    "our bedroom": BEDROOM,
    "l room": L_ROOM,
    "attic": ATTIC,
    "old living room": LIVING,
    "robin's room": CHILD,
}
