"""The usual cautions, where they apply. Never an approval. Imports no solver; mm.

Each caution ends with where it comes from and, where a value was recalled or is
a habit of the trade, says so.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import listed, measured, the
from arrange.data.piece import TIPS_FROM, Piece, tips
from arrange.data.room import DUCKED, FAN, Fixture, Window
from arrange.data.scenario import Scenario
from arrange.data.sources import body, origin, source
from arrange.geometry.scene import HEAD, Scene
from arrange.geometry.shapes import fixture_shape, room_shape
from arrange.geometry.spots import gap, opening_spot
from arrange.words.people import about_people

NEAR_WINDOW = 300  # mm; the sources give no number: common practice
LOWEST_SILL_LIMIT = 1100  # mm (`egress-uk-sill`), the lower of the two published limits
HEATER_GAP = 914  # mm (`heater-gap`)
FAN_HIGH, FAN_OFF = 2134, 457  # mm (`fan-floor`, `fan-wall`)

LAST = (
    "These are reminders and not an approval: local building and fire codes and licensed practice "
    "decide. Ask somebody licensed before anything is fixed, wired or altered."
)
RECALLED = " (recalled, not read again: check the document itself)"


@dataclass(frozen=True, slots=True)
class Caution:
    """One caution, and the ids of what it rests on."""

    text: str
    ids: tuple[str, ...] = ()

    @property
    def sentence(self) -> str:
        """What to do, without who says so."""
        return f"{self.text[0].upper()}{self.text[1:]}"

    def told(self, *, full: bool = False) -> str:
        """The sentence with where it comes from, and how sure that is, in one line."""
        froms = dict.fromkeys(_from(id_, full) for id_ in self.ids)
        return f"{self.sentence} [{'; '.join(froms)}]" if froms else self.sentence


LOW_DOWN = Caution("Keep heavy things low in drawers and on shelves.", ("heavy-low",))


def cautions(
    scenario: Scenario, arrangement: Arrangement | None = None, *, full: bool = False
) -> tuple[str, ...]:
    """Every caution that applies, as ``found``, and at the end who decides.

    Sources are told by their standard or body; ``full`` says where each was read, too.
    """
    return (*(caution.told(full=full) for caution in found(scenario, arrangement)), LAST)


def found(scenario: Scenario, arrangement: Arrangement | None = None) -> list[Caution]:
    """Every caution that applies.

    With an arrangement the beds that stand at a window are named as well; it
    must place every piece of the scenario.
    """
    scene = None if arrangement is None else Scene(scenario, arrangement)
    return [
        *(Caution(text, ids) for text, ids in about_people(scenario, scene)),
        *_tipping(scenario),
        *_cots(scenario),
        *_screens(scenario),
        *(text for f in scenario.room.fixtures if f.burns for text in _heat(scenario, f)),
        *_windows(scenario, scene),
        *_escape(scenario),
        *(text for p in scenario.pieces if p.is_a("bunk") for text in _bunk(scenario, p)),
        *_heads(scenario),
        *(text for f in scenario.room.hung if f.kind == FAN for text in _fan(scenario, f)),
    ]


def _fan(scenario: Scenario, fan: Fixture) -> list[Caution]:
    """A fan whose blades are lower, or nearer to a wall, than is published."""
    found, unit = [], scenario.unit
    if fan.bottom < FAN_HIGH:
        high, usual = measured(fan.bottom, unit, "down"), measured(FAN_HIGH, unit, "up")
        text = f"The blades of {the(fan.name)} are {high} above the floor, where {usual} is usual."
        found.append(Caution(text, ("fan-floor",)))
    off = room_shape(scenario.room).exterior.distance(fixture_shape(fan))
    if off < FAN_OFF:
        far, usual = measured(int(off), unit, "down"), measured(FAN_OFF, unit, "up")
        text = f"The blades of {the(fan.name)} are {far} from the wall, where {usual} is usual."
        found.append(Caution(text, ("fan-wall",)))
    return found


def _heads(scenario: Scenario) -> list[Caution]:
    """Beams that tall people knock their heads on, and that people walk under all the same."""
    low = [
        f"{the(beam.name)} is {measured(beam.height, scenario.unit, 'down')} above the floor"
        for beam in scenario.room.beams
        if DUCKED <= beam.height < HEAD
    ]
    if not low:
        return []
    it = "it" if len(low) == 1 else "them"
    text = f"Mind your head: {listed(low)}. Mark {it}, or pad {it}."
    return [Caution(text, ("stair-uk-head",))]


def _from(id_: str, full: bool) -> str:
    status = source(id_).status
    if status == "common practice":
        return "common practice, not a standard" if full else "common practice"
    if not full:
        return body(id_) + (" (recalled)" if status == "memory" else "")
    return origin(id_) + (RECALLED if status == "memory" else "")


def _names(scenario: Scenario, which: Callable[[Piece], bool]) -> list[str]:
    return [p.name for p in scenario.pieces if which(p)]


def _all(names: list[str]) -> str:
    return listed([the(name) for name in names])


def _tipping(scenario: Scenario) -> list[Caution]:
    if any(person.climbs for person in scenario.people):
        # Who climbs is named, and all of it is to be fixed: about_people says so.
        return [LOW_DOWN] if any(tips(p) for p in scenario.pieces) else []
    clothes = _names(scenario, lambda p: tips(p) and p.is_a("clothes"))
    others = _names(scenario, lambda p: tips(p) and not p.is_a("clothes"))
    high = measured(TIPS_FROM, scenario.unit)
    found = []
    if clothes:
        text = (
            f"Fix {_all(clothes)} to the wall: clothes storage {high} high or more can tip "
            "over when drawers are pulled out or climbed on."
        )
        found.append(Caution(text, ("csu-height", "anchor-tall")))
    if others:
        text = f"Fix {_all(others)} to the wall, above all where children live or visit."
        found.append(Caution(text, ("anchor-tall",)))
    if clothes or others:
        found.append(LOW_DOWN)
    return found


SETS = ("tv", "telly", "television")  # a piece called so is the set, not what it stands on


def _screens(scenario: Scenario) -> list[Caution]:
    screens = _names(scenario, lambda p: p.is_a("screen"))
    if not screens:
        return []
    low = (
        "on a low, sturdy base, pushed right back and fixed, with nothing on top that tempts a "
        "child to climb."
    )
    text = f"A television on {_all(screens)} belongs {low}"
    if all(name.casefold().rsplit(maxsplit=1)[-1] in SETS for name in screens):
        text = f"Put {_all(screens)} {low}"
    return [Caution(text, ("tv-low-base", "anchor-tall"))]


def _heat(scenario: Scenario, fixture: Fixture) -> list[Caution]:
    metre = measured(1000, scenario.unit)
    text = (
        f"Keep bedding, curtains, rugs and furniture about {metre} away from {the(fixture.name)} "
        "on all "
        "sides, keep children off it, and never let it stand in a way out."
    )
    found = [Caution(text, ("heater-gap", "heater-path"))]
    setting = scenario.setting("heat")
    own = setting.least if setting.least is not None else fixture.keep
    shortened = own < HEATER_GAP and (setting.least is not None or fixture.source == "yours")
    if setting.off or shortened:
        kept = "no distance" if setting.off else measured(own, scenario.unit, "down")
        usual = measured(HEATER_GAP, scenario.unit, "up")
        text = f"Your file keeps {kept} free at {the(fixture.name)}, where {usual} is usual."
        found.append(Caution(text, ("heater-gap",)))
    return found


def _cots(scenario: Scenario) -> list[Caution]:
    cots = _names(scenario, lambda p: p.is_a("cot"))
    if not cots:
        return []
    hot, foothold = measured(900, scenario.unit), measured(450, scenario.unit)
    text = (
        f"Keep what is hot or plugged in {hot} from {_all(cots)}, what a child could climb on "
        f"{foothold}, and hang nothing over it; leave no gap beside it, or a wide one."
    )
    return [Caution(text, ("cot-monitor", "cot-foothold", "cot-foothold-mm", "cot-wall-gap"))]


def _windows(scenario: Scenario, scene: Scene | None) -> list[Caution]:
    windows = scenario.room.windows
    if not windows:
        return []
    children = _names(scenario, lambda p: p.is_a("sleep") and bool(p.roles & {"cot", "child"}))
    found = []
    if children:
        text = (
            f"Keep {_all(children)} away from every window, blind cord and curtain cord; make "
            "cords short and fix them out of reach."
        )
        found.append(Caution(text, ("cot-window", "us-crib-window")))
    for piece in scenario.pieces if scene is not None else ():
        if scene is None or not piece.is_a("sleep"):
            continue
        at = [w.name for w in windows if _is_near(scene, piece, w)]
        if at:
            where = listed([the(name) for name in at])
            text = f"{the(piece.name)} is by {where}: not a place for a child to sleep."
            found.append(Caution(text, ("us-crib-window",)))
    return found


def _is_near(scene: Scene, piece: Piece, window: Window) -> bool:
    spot = opening_spot(scene.scenario.room, window)
    return gap(scene.find(piece.name), spot) <= NEAR_WINDOW


def _escape(scenario: Scenario) -> list[Caution]:
    room = scenario.room
    found: list[Caution] = []
    for window in room.windows:
        if not window.escape:
            continue
        text = (
            f"Keep {the(window.name)} and the floor in front of it free, and easy to open from "
            "inside."
        )
        found.append(Caution(text, ("escape-clear",)))
        if window.sill > LOWEST_SILL_LIMIT:
            sill = measured(window.sill, scenario.unit)
            text = (
                f"The sill of {the(window.name)} is {sill} high: ask locally if it counts as a "
                "way out."
            )
            found.append(Caution(text, ("egress-uk-sill", "egress-us-sill")))
    if not any(p.is_a("sleep") for p in scenario.pieces):
        return found
    if room.doors:
        text = "Keep the way from every bed to the door free, at night as well."
        found.append(Caution(text, ("escape-clear",)))
    if not any(w.escape for w in room.windows):
        text = (
            "No window here is marked as a way out in an emergency: find out whether somebody "
            "who sleeps here needs one."
        )
        found.append(Caution(text))
    return found


def _bunk(scenario: Scenario, piece: Piece) -> list[Caution]:
    above = measured(scenario.room.ceiling - piece.top, scenario.unit)
    room_above = (
        f"{the(piece.name)} leaves {above} between the upper mattress and the ceiling: enough to "
        "sit up in? Keep it out from under a ceiling fan."
    )
    rails = f"{the(piece.name)} needs guardrails on both sides, even against the wall."
    found = [
        Caution(room_above, ("bunk-ceiling", "fan-bunk")),
        Caution(rails, ("bunk-rails-us",)),
    ]
    if not any({"young", "sleeps here"} <= person.traits for person in scenario.people):
        # Small children who sleep here are named: about_people says so.
        text = f"The upper bunk of {the(piece.name)} is not for children under 6 years."
        found.append(Caution(text, ("bunk-age",)))
    return found
