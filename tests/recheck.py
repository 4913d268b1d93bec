"""The checks of scenarios/RESULT.md, made from the written data alone with shapely."""

from itertools import combinations
from math import hypot, isclose, sqrt

from shapely import union_all
from shapely.geometry import Polygon

ROUNDING = 0.05  # mm forgiven in depth, as the page says
CORNER = 0.21  # widths from where a disc rounds a corner to the corner itself
STANDING, SEATED = 1900, 1400  # mm of headroom to walk, and to go stooping
A_STEP, DUCKED = 600, 1800  # mm; how wide a beam is ducked under, and how high it is at least
IN_THE_WAY = 2000  # mm; what begins above is over people's heads


def shares_floor(one, two):
    return one.buffer(-ROUNDING).intersection(two).area > ROUNDING


def parts(region):
    return [Polygon(p["outline"], p["holes"]) for p in region]


def outside(data, arrangement):
    """Check 1: pieces that leave the room."""
    room = Polygon(data["room"]["outline"]).buffer(ROUNDING)
    return [p["name"] for p in arrangement["pieces"] if not room.covers(Polygon(p["footprint"]))]


def low_floor(data, height, beams_too=True):
    """The floor over which a slope is lower than a height, and under beams that are.

    A half plane but for dormers that are high enough; of a beam along the slope its part of it.
    """
    room, far, found = data["room"], 1e5, []
    walls = {w["name"]: (w["left_end"], w["right_end"]) for w in room["walls"]}
    for slope in room["slopes"]:
        (ax, ay), (bx, by) = walls[slope["wall"]]
        n = hypot(bx - ax, by - ay)
        ux, uy = (bx - ax) / n, (by - ay) / n
        rise = (room["ceiling"] - slope["height"]) / slope["until"]
        deep = (min(height, room["ceiling"]) - slope["height"]) / rise
        if deep > 0:
            ends = [(-far, -far), (far, -far), (far, deep), (-far, deep)]
            strip = Polygon([(ax + ux * a + uy * b, ay + uy * a - ux * b) for a, b in ends])
            found.append(strip.difference(union_all(lifted(room, slope, height))))
    if beams_too:
        found += [part for beam in room["beams"] for part in under_beam(data, beam, height)]
        found += below_stairs(data, height)
    return found


def below_stairs(data, height):
    """The floor below open stairs that are lower than a height there.

    Their underside rises from nothing at the end where their steps begin.
    """
    walls, found = {w["name"]: w for w in data["room"]["walls"]}, []
    for stairs in data["room"]["fixtures"]:
        if not (high := stairs.get("underside", 0)):
            continue
        (ax, ay), (bx, by) = (walls[stairs["wall"]][end] for end in ("left_end", "right_end"))
        n = hypot(bx - ax, by - ay)
        ux, uy = (bx - ax) / n, (by - ay) / n
        # From the end of the steps onwards; on the plan the wall's inner side is (uy, -ux).
        ways = {"left": (ux, uy), "right": (-ux, -uy), "front": (-uy, ux)}
        dx, dy = ways[stairs.get("steps", "front")]
        gone = [x * dx + y * dy for x, y in stairs["polygon"]]
        start, run = min(gone), max(gone) - min(gone)
        end = start + min(run, height * run / high)
        far = 1e5
        ring = [(start, -far), (start, far), (end, far), (end, -far)]
        strip = Polygon([(dx * a - dy * b, dy * a + dx * b) for a, b in ring])
        found.append(strip.intersection(Polygon(stairs["polygon"])))
    return found


def lifted(room, slope, height):
    """The dormers of a slope that are high enough."""
    return [
        Polygon(d["polygon"])
        for d in room["dormers"]
        if d["wall"] == slope["wall"] and d["height"] >= height
    ]


def under_beam(data, beam, height):
    """Where a beam is lower than a height."""
    shape = Polygon(beam["polygon"])
    if beam["height"]:
        return [shape] if beam["height"] < height else []
    if height + beam["drop"] > data["room"]["ceiling"]:
        return [shape]
    slopes = low_floor(data, height + beam["drop"], beams_too=False)
    return [p for s in slopes if (p := s.intersection(shape)).area > 0]


def not_walked(data, height):
    """The floor where nobody walks: under beams of a step that are high enough people duck."""
    found = low_floor(data, height, beams_too=False)
    for beam in data["room"]["beams"]:
        x0, y0, x1, y1 = Polygon(beam["polygon"]).bounds
        narrow = min(x1 - x0, y1 - y0) <= A_STEP
        found += under_beam(data, beam, min(height, DUCKED) if narrow else height)
    return found + below_stairs(data, height)


def under_slopes(data, arrangement):
    """Check 2, without the program's own polygons: pieces higher than the ceiling over them."""
    return [
        p["name"]
        for p in arrangement["pieces"]
        for low in low_floor(data, p["top"])
        if shares_floor(Polygon(p["footprint"]), low)
    ]


def on_kept_floor(data, arrangement):
    """Check 2: pieces on floor that they must stay off."""
    return [
        p["name"]
        for p in arrangement["pieces"]
        for k in data["keep_off"]
        if p["name"] in k["pieces"] and shares_floor(Polygon(p["footprint"]), Polygon(k["polygon"]))
    ]


def astray_across(data, arrangement):
    """Across a corner: turned by 45 degrees, the ends of the back at both walls, as deep."""
    walls = {w["name"]: w for w in data["room"]["walls"]}
    found = []
    for p in arrangement["pieces"]:
        pair = p["placement"].get("corner")
        if pair is None or p["goes_with"] is not None:
            continue
        (x, y), (a, b) = walls[pair[1]]["left_end"], walls[pair[0]]["left_end"]
        c, d = walls[pair[1]]["right_end"]
        one, two = hypot(a - x, b - y), hypot(c - x, d - y)
        reach = (p["width"] + p["width"] % 2) / sqrt(2)
        left = x + (a - x) / one * reach, y + (b - y) / one * reach
        right = x + (c - x) / two * reach, y + (d - y) / two * reach
        ahead = [
            ((a - x) / one + (c - x) / two) / sqrt(2),
            ((b - y) / one + (d - y) / two) / sqrt(2),
        ]
        deep = [p["depth"] * v for v in ahead]
        whole = Polygon(
            [left, right, *[(u + deep[0], v + deep[1]) for u, v in (right, left)]]
        ).buffer(1)
        square = abs((a - x) * (c - x) + (b - y) * (d - y)) < 1
        if min(one, two) < reach - 1 or not square or not whole.covers(Polygon(p["footprint"])):
            found.append(p["name"])
    return found


def in_one_place(arrangement):
    """Check 3: pairs that share space."""
    return [
        (a["name"], b["name"])
        for a, b in combinations(arrangement["pieces"], 2)
        if a["flat"] == b["flat"]
        and a["bottom"] < b["top"]
        and b["bottom"] < a["top"]
        and shares_floor(Polygon(a["footprint"]), Polygon(b["footprint"]))
    ]


def blocked(data, arrangement):
    """Check 4: clearances that are not free to their least depth."""
    room = Polygon(data["room"]["outline"]).buffer(ROUNDING)
    found = []
    for piece in arrangement["pieces"]:
        for c in piece["clearances"]:
            zone = Polygon(c["least_floor"])
            bodies = [
                Polygon(o["footprint"])
                for o in arrangement["pieces"]
                if o is not piece
                and not o["flat"]
                and o["goes_with"] != piece["name"]
                and o["bottom"] < c["below"]
            ]
            bodies += [
                Polygon(f["polygon"])
                for f in data["room"]["fixtures"]
                if f["solid"] and f["bottom"] < c["below"]
            ]
            bodies += low_floor(data, c["headroom"])
            if zone.is_empty:  # nothing is asked there at the least
                continue
            if not room.covers(zone) or any(shares_floor(zone, b) for b in bodies):
                found.append((piece["name"], c["name"]))
    return found


def walkway_faults(data, arrangement):
    """Checks 5 and 6: the way is floor, free, wide enough, and leads to everything."""
    way = arrangement["walkway"]
    bodies = [
        Polygon(p["footprint"])
        for p in arrangement["pieces"]
        if not p["flat"] and p["bottom"] < IN_THE_WAY
    ]
    bodies += [
        Polygon(f["polygon"])
        for f in data["room"]["fixtures"]
        if f["solid"] and f["bottom"] < IN_THE_WAY
    ]
    bent = [*bodies, *not_walked(data, SEATED)]
    bodies += not_walked(data, STANDING)
    region = parts(way["region"])
    whole = union_all(region)
    found = []
    if not Polygon(data["room"]["outline"]).buffer(1).covers(whole):
        found.append("outside")
    if whole.buffer(-1).intersects(union_all(bodies)):
        found.append("on a piece")
    for part in region:
        found += narrowness(part, way["width"])
        if part.distance(Polygon(way["door_floor"])) > CORNER * way["width"] + 1:
            found.append("not at the door")
    return found + [
        goal["name"]
        for goal in way["reaches"]
        if not goal["reached"] or not _is_reached(data, way, region, goal, bodies, bent)
    ]


def narrowness(part, width):
    """What of check 5 a part of the region fails: a disc goes everywhere in it in one sweep.

    Where the middles of the disc are torn apart by less than the rounding of the corners,
    they are in one piece: a neck only 0.1 mm too narrow tears them apart by 10 mm.
    """
    radius = width / 2 - 1
    middles = part.buffer(-radius, quad_segs=64)
    if middles.is_empty or middles.buffer(ROUNDING).geom_type != "Polygon":
        return ["too narrow"]
    swept = middles.buffer(radius + 1, quad_segs=64)
    return [] if swept.covers(part) else ["no disc gets everywhere"]


def _is_reached(data, way, region, goal, bodies, bent):
    """Whether one of its zones is, the last step stooping if it may be."""
    stoop = goal["stooping"]
    bare = Polygon(data["room"]["outline"]).difference(union_all(bent)) if stoop else Polygon()
    return any(_goes_on(way, region, z, bodies, stoop, bare) for z in goal["zones"])


def _goes_on(way, region, zone, bodies, stoop, bare):
    """Whether a path as wide as a zone goes on into it, over the region, its corners, the zone.

    And over ``bare`` floor that is gone stooping, if any is.
    """
    zone = Polygon(zone)
    (ax, ay), (bx, by), (cx, cy) = list(zone.exterior.coords)[:3]
    narrow = min(way["width"], hypot(bx - ax, by - ay), hypot(cx - bx, cy - by))
    middles = union_all([part.buffer(-(way["width"] / 2 - 1)) for part in region])
    region = union_all(region)
    corners = middles.buffer(way["width"] * sqrt(0.5)).difference(union_all(bodies))
    step = bare.intersection(middles.buffer(way["width"] * sqrt(0.5) + stoop))
    floor = union_all([region.buffer(1), corners, zone, step]).buffer(-(narrow / 2 - 1))
    parts_in = [p for p in getattr(floor, "geoms", [floor]) if p.intersects(middles)]
    inner = zone.buffer(-(narrow / 2 - 1))
    near = region.distance(zone) <= CORNER * way["width"] + 1 + stoop * sqrt(2)
    return near and any(p.intersects(inner) for p in parts_in)


def scored(arrangement):
    """Whether the reasons add up to the score, and to 100 points in all where any count."""
    won = sum(r["won"] for r in arrangement["reasons"])
    possible = sum(r["possible"] for r in arrangement["reasons"])
    over = [r for r in arrangement["reasons"] if not 0 <= r["won"] <= r["possible"]]
    return not over and isclose(won, arrangement["score"]) and round(possible, 6) in {0, 100}


def faults(data):
    """Everything on the page that does not hold, in words; empty if all does."""
    found = []
    for one in data["arrangements"]:
        found += [f"{name} leaves the room" for name in outside(data, one)]
        found += [f"{name} stands on kept floor" for name in on_kept_floor(data, one)]
        found += [f"{name} is too high for the ceiling" for name in under_slopes(data, one)]
        found += [f"{name} is not across its corner" for name in astray_across(data, one)]
        found += [f"{a} and {b} share space" for a, b in in_one_place(one)]
        found += [f"{name}: no room for {floor}" for name, floor in blocked(data, one)]
        if one["walkway"] is not None:
            found += [f"the way: {fault}" for fault in walkway_faults(data, one)]
        if not scored(one):
            found.append(f"the score {one['score']} does not add up")
    scores = [one["score"] for one in data["arrangements"]]
    if scores != sorted(scores, reverse=True):
        found.append("not best first")
    return found
