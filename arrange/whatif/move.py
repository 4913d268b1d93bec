"""One piece put elsewhere in a finished arrangement, and judged at once.

What goes with the piece goes with it, each in its place beside it. Where the new place does
not work, the nearest one that does is looked for round it, in whole 5 cm. Nothing is
searched for: all else stays where it stands. Lengths in mm; no solver.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from arrange.budget import Budget
from arrange.data.arrangement import Arrangement, Placement
from arrange.data.lengths import listed, parse
from arrange.data.piece import Piece
from arrange.data.result import Verdict
from arrange.data.room import FACINGS, Facing
from arrange.data.scenario import Scenario
from arrange.errors import ArrangeError
from arrange.geometry.across import across_corner, can_cross, corner_between
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import against_wall, extent, in_same_slot
from arrange.judge import at_its_best, judge
from arrange.judge import works as keeps_musts
from arrange.scenario.today import at_its_wall, nothing_leans

ACROSS = "name two straight walls that meet at a right angle, both as long as it needs"
STEPS = {"left": (-1, 0), "right": (1, 0), "up": (0, 1), "down": (0, -1)}
TURNS = {"left": -1, "right": 1, "round": 2}
WAYS = (
    'write "20 cm left" (right, up or down on the plan), "onto wall B", "across the corner of A '
    'and B", "turned left" (right or round), or "swapped with" another piece'
)
GRID = 50  # mm between places that are tried near by
FAR = 1500  # mm: farther away nobody would call it near by
NEAR_SECONDS = 2.0

# By where the front looks: the back is on the other side, and stays.
AT_ITS_BACK: dict[Facing, Callable[[int, int], tuple[int, int]]] = {
    "up": lambda across, _: (across, 0),
    "down": lambda across, _: (across, 2),
    "right": lambda _, up: (0, up),
    "left": lambda _, up: (2, up),
}
SLIDE = re.compile(r"(?:(?P<one>.+?)\s+)?(?:to the )?(?P<toward>left|right|up|down)(?P<two>.*)")
ONTO = re.compile(
    r"(?:on|onto|against|at|to(?= wall))\s+(?P<wall>.+?)(?:,?\s+(?P<left>\d.*) from left)?"
)
CORNER = re.compile(
    r"(?:in|into|onto )?\s*across (?:the |a )?corner (?:of |between )?(?P<one>.+?) and (?P<two>.+)"
)
TURN = re.compile(r"turn(?:ed)?\s+(?:to the )?(?P<way>left|right|round)")
TRADE = re.compile(r"(?:swap|swapped|swaps)\s+with\s+(?:the\s+)?(?P<other>.+)")


class MoveError(ArrangeError, ValueError):
    """A move that is not understood, or that this piece cannot make; ``hint`` says what can be."""

    def __init__(self, given: str, hint: str = WAYS) -> None:
        self.given, self.hint = given, hint
        super().__init__(given)


@dataclass(frozen=True, slots=True)
class Move:
    """A piece in another place: the arrangement, and what the judge says of it.

    ``near`` is the nearest arrangement that works, where this one does not: with the piece
    moved by ``near_by`` more, in mm across and up the plan.
    """

    piece: str
    how: str
    before: Verdict
    arrangement: Arrangement
    verdict: Verdict
    near: Arrangement | None = None
    near_by: tuple[int, int] = (0, 0)

    @property
    def works(self) -> bool:
        """Whether everything that must hold does hold."""
        return self.verdict.works


def move(
    scenario: Scenario,
    arrangement: Arrangement,
    piece: str,
    how: str,
    *,
    seconds: float = NEAR_SECONDS,
) -> Move:
    """Put ``piece`` elsewhere as ``how`` says ("20 cm left", "onto wall B", ...).

    ``seconds`` limit the search for the nearest place that works, if this one does not.

    Raises
    ------
    KeyError
        If there is no such piece.
    MoveError
        If ``how`` is not understood, names no wall or piece of the room, or asks a piece at
        a slanted wall or across a corner to slide over the plan.
    """
    before = judge(scenario, arrangement)
    after = _moved(scenario, arrangement, scenario.piece(piece), how)
    verdict = judge(scenario, after)
    found = Move(piece, how, before, after, verdict)
    if verdict.works:
        return found
    near = _nearest(scenario, after, arrangement.of(piece), Budget(seconds))
    return found if near is None else replace(found, near=near[0], near_by=near[1])


def _moved(scenario: Scenario, arrangement: Arrangement, piece: Piece, how: str) -> Arrangement:
    """The arrangement as asked, whatever the judge may say of it."""
    words = " ".join(how.casefold().split())
    if found := TURN.fullmatch(words):
        return _turned(scenario, arrangement, piece, TURNS[found["way"]])
    if found := TRADE.fullmatch(words):
        return _traded(scenario, arrangement, piece, found["other"])
    if found := CORNER.fullmatch(words):
        return _across(scenario, arrangement, piece, (found["one"], found["two"]))
    if found := ONTO.fullmatch(words):
        return _onto(scenario, arrangement, piece, found["wall"], found["left"])
    if (found := SLIDE.fullmatch(words)) and (found["one"] or found["two"].strip()):
        try:
            far = parse(found["one"] or found["two"].strip(), scenario.unit)
        except ValueError as error:
            raise MoveError(f"{how!r}: {error}") from None
        dx, dy = STEPS[found["toward"]]
        return slid(scenario, arrangement, piece.name, dx * far, dy * far)
    raise MoveError(f"{how!r} is not understood")


def slid(scenario: Scenario, arrangement: Arrangement, name: str, dx: int, dy: int) -> Arrangement:
    """A piece and all that goes with it moved over the plan. MoveError at a slanted wall."""
    group = {name, *scenario.in_tow(name)}
    places = []
    for placement in arrangement.placements:
        if placement.piece not in group:
            places.append(placement)
            continue
        if placement.facing is None:
            given = f"{_aslant(placement)}, where up, down, left and right mean nothing"
            raise MoveError(given, 'move it "onto" another wall')
        there = replace(placement, x=placement.x + dx, y=placement.y + dy, wall=None)
        places.append(at_its_wall(there, scenario.piece(placement.piece), scenario.room))
    return Arrangement(tuple(places))


def _turned(
    scenario: Scenario, arrangement: Arrangement, piece: Piece, quarters: int
) -> Arrangement:
    """About its middle; left and right as somebody does who stands in its place."""
    here = arrangement.of(piece.name)
    if here.facing is None:
        raise MoveError(_aslant(here), 'move it "onto" another wall')
    facing = FACINGS[(FACINGS.index(here.facing) + quarters) % 4]
    (old_x, old_y), (new_x, new_y) = extent(piece, here.facing), extent(piece, facing)
    x, y = here.x + (old_x - new_x) // 2, here.y + (old_y - new_y) // 2
    there = replace(here, facing=facing, x=x, y=y, wall=None)
    return _placed(scenario, arrangement, at_its_wall(there, piece, scenario.room))


def _traded(scenario: Scenario, arrangement: Arrangement, piece: Piece, word: str) -> Arrangement:
    """Two pieces in each other's places, middle on middle, each facing as the other did."""
    other = next((p for p in scenario.pieces if p.name.casefold() == word), None)
    if other is None or other.name == piece.name:
        names = listed([p.name for p in scenario.pieces if p.name != piece.name], "or")
        raise MoveError(f"there is no other piece called {word!r}", f"name one of {names}")
    here, there = arrangement.of(piece.name), arrangement.of(other.name)
    aslant = next((one for one in (here, there) if one.facing is None), None)
    if aslant is not None:
        raise MoveError(_aslant(aslant), 'move it "onto" another wall')
    one = _in_place_of(scenario, piece, other, there)
    two = _in_place_of(scenario, other, piece, here)
    return _placed(scenario, _placed(scenario, arrangement, one), two)


def _aslant(placement: Placement) -> str:
    """Why a piece in no quarter turn cannot make a move over the plan."""
    where = "at a slanted wall" if placement.corner is None else "across a corner"
    return f"{placement.piece} stands {where}"


def _across(
    scenario: Scenario, arrangement: Arrangement, piece: Piece, words: tuple[str, str]
) -> Arrangement:
    """Across the corner of two walls, in whichever order they are named."""
    one, two = (word.removeprefix("wall ") for word in words)
    corner = corner_between(scenario.room, (one, two))
    if corner is None:
        raise MoveError(f"{words[0]!r} and {words[1]!r} do not meet in a corner", ACROSS)
    if not piece.crosses:
        hint = f"write across_corner = true at {piece.name} in the scenario"
        raise MoveError(f"{piece.name} is not said to stand across a corner", hint)
    if not can_cross(scenario.room, piece, corner):
        raise MoveError(f"{piece.name} cannot stand across that corner", ACROSS)
    return at_its_best(scenario, _placed(scenario, arrangement, across_corner(piece, corner)))


def _in_place_of(scenario: Scenario, piece: Piece, old: Piece, at: Placement) -> Placement:
    """``piece`` where ``old`` stands: its back where the other's is, or middle on middle."""
    facing = at.facing or "down"
    (old_x, old_y), (new_x, new_y) = extent(old, facing), extent(piece, facing)
    x, y = at.x + (old_x - new_x) // 2, at.y + (old_y - new_y) // 2
    if at.wall is not None:
        x = {"right": at.x, "left": at.x + old_x - new_x}.get(facing, x)
        y = {"up": at.y, "down": at.y + old_y - new_y}.get(facing, y)
    there = Placement(piece.name, facing, x, y)
    return at_its_wall(there, piece, scenario.room)


def _onto(
    scenario: Scenario, arrangement: Arrangement, piece: Piece, word: str, left: str | None
) -> Arrangement:
    """With its back to a wall: as far along it as asked, else opposite where it stands."""
    walls = scenario.room.walls
    called = {word, word.removeprefix("wall ")}
    index = next((i for i, w in enumerate(walls) if w.name.casefold() in called), None)
    if index is None:
        names = listed([wall.name for wall in walls], "or")
        raise MoveError(f"there is no {word!r}", f"name one of {names}")
    wall = walls[index]
    if nothing_leans(piece, wall):
        given = f"wall {wall.name} is slanted, and {piece.name} stands free"
        raise MoveError(given, "name a wall that is not slanted")
    if left is not None:
        try:
            offset = parse(left, scenario.unit)
        except ValueError as error:
            raise MoveError(f"{left!r}: {error}") from None
    else:
        middle = Scene(scenario, arrangement).find(piece.name).body.centroid
        offset = round(wall.coordinate(middle.x, middle.y)) - piece.width // 2
    offset = max(0, min(offset, wall.room_for(piece.width)))
    return _placed(scenario, arrangement, against_wall(piece, walls, index, offset))


def _placed(scenario: Scenario, arrangement: Arrangement, there: Placement) -> Arrangement:
    """The arrangement with one piece there, and what goes with it in the same places beside it."""
    places = {p.piece: p for p in arrangement.placements}
    moved = {there.piece: there}
    for name in scenario.in_tow(there.piece):
        piece = scenario.piece(name)
        host = scenario.piece(str(piece.anchor))
        if host.name not in moved:
            continue
        was, now = (host, places[host.name]), (host, moved[host.name])
        follows = in_same_slot((piece, places[name]), was, piece, now, scenario.room)
        if follows is not None:
            moved[name] = follows
    return Arrangement(tuple(moved.get(p.piece, p) for p in arrangement.placements))


def resized_in_place(
    before: Scenario,
    after: Scenario,
    names: Sequence[str],
    arrangement: Arrangement,
    ways: tuple[int, int],
) -> Arrangement | None:
    """The arrangement with pieces in their new sizes; ``ways`` says which of their sides stay.

    Across and up the plan, 0: the side at the lower end; 1: the middle; 2: the side at the
    upper end. A back at a wall stays there. What is tied keeps its place beside its anchor.
    None for a piece aslant, and where something tied finds no place. Nothing is judged.
    """
    placed = {p.piece: p for p in arrangement.placements}
    if any(placed[name].facing is None for name in names):
        return None
    roots = [n for n in names if not any(n in before.in_tow(other) for other in names)]
    for name in (each for root in roots for each in (root, *before.in_tow(root))):
        found = _again(before, after, name, arrangement, placed)
        if found is None and name in names:
            found = _resized(before, after, placed[name], ways)
        if found is None:
            return None
        placed[name] = found
    return Arrangement(tuple(placed[p.piece] for p in arrangement.placements))


def _resized(
    before: Scenario, after: Scenario, old: Placement, ways: tuple[int, int]
) -> Placement | None:
    """One piece in its new size, where it stands; None for a piece aslant."""
    if old.facing is None:
        return None
    was, now = (extent(s.piece(old.piece), old.facing) for s in (before, after))
    dx, dy = (a - b for a, b in zip(now, was, strict=True))
    across, up = ways if old.wall is None else AT_ITS_BACK[old.facing](*ways)
    # 0: the lower end stays; 1: half of it on either side; 2: the upper end stays.
    return replace(old, x=old.x - dx * across // 2, y=old.y - dy * up // 2)


def _again(
    before: Scenario,
    after: Scenario,
    name: str,
    arrangement: Arrangement,
    placed: dict[str, Placement],
) -> Placement | None:
    """A tied piece in the same one of its places beside its anchor; None for another one."""
    piece, new = before.piece(name), after.piece(name)
    if piece.anchor is None or new.anchor != piece.anchor:
        return None
    host, moved = before.piece(piece.anchor), after.piece(piece.anchor)
    was, now = (host, arrangement.of(host.name)), (moved, placed[host.name])
    return in_same_slot((piece, arrangement.of(name)), was, new, now, after.room)


def _nearest(
    scenario: Scenario, arrangement: Arrangement, was: Placement, budget: Budget
) -> tuple[Arrangement, tuple[int, int]] | None:
    """The nearest place to where a piece was put that works, and how far it is.

    Where it ``was`` before is no offer.
    """
    name = was.piece
    if any(arrangement.of(n).facing is None for n in (name, *scenario.in_tow(name))):
        return None
    for dx, dy in _round_about():
        if budget.left <= 0:
            return None
        there = slid(scenario, arrangement, name, dx, dy)
        now = there.of(name)
        if (now.x, now.y, now.facing) == (was.x, was.y, was.facing):
            continue
        if keeps_musts(scenario, there):
            return there, (dx, dy)
    return None


def _round_about() -> Iterator[tuple[int, int]]:
    """Places on a grid, from near to far."""
    steps = range(-FAR, FAR + 1, GRID)
    spots: Sequence[tuple[int, int]] = [(x, y) for x in steps for y in steps if x or y]
    return iter(sorted(spots, key=lambda s: (s[0] ** 2 + s[1] ** 2, s)))
