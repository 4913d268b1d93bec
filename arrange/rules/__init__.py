"""The rules, in the order in which they are read. One rule, one file."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.scenario import Scenario
from arrange.rules.against import Against
from arrange.rules.aligned import Aligned
from arrange.rules.away_from import AwayFrom
from arrange.rules.backs_on_walls import BacksOnWalls
from arrange.rules.balance import Balance
from arrange.rules.bed_sees_door import BedSeesDoor
from arrange.rules.bedhead_wall import BedheadWall
from arrange.rules.bedside_pair import BedsidePair
from arrange.rules.beside import Beside
from arrange.rules.bodies_apart import BodiesApart
from arrange.rules.centred_on_wall import CentredOnWall
from arrange.rules.clear_floor import ClearFloor
from arrange.rules.comfortable_clearance import ComfortableClearance
from arrange.rules.cot_window import CotWindow
from arrange.rules.daylight import Daylight
from arrange.rules.door_floor import DoorFloor
from arrange.rules.entering_view import EnteringView
from arrange.rules.escape_window import EscapeWindow
from arrange.rules.facing import FacingPlace
from arrange.rules.fixtures_free import FixturesFree
from arrange.rules.headroom import Headroom
from arrange.rules.heat import Heat
from arrange.rules.in_their_place import InTheirPlace
from arrange.rules.in_view_of import InViewOf
from arrange.rules.inside_room import InsideRoom
from arrange.rules.least_clearance import LeastClearance
from arrange.rules.narrow_gaps import NarrowGaps
from arrange.rules.near import Near
from arrange.rules.not_against import NotAgainst
from arrange.rules.past_not_through import PastNotThrough
from arrange.rules.rule import Claim, Measure, Region, Rule
from arrange.rules.screen_glare import ScreenGlare
from arrange.rules.seat_outlook import SeatOutlook
from arrange.rules.seats_turned import SeatsTurned
from arrange.rules.sockets_near import SocketsNear
from arrange.rules.stays_put import StaysPut
from arrange.rules.straight_way import StraightWay
from arrange.rules.talking_distance import TalkingDistance
from arrange.rules.used_together import UsedTogether
from arrange.rules.view import View
from arrange.rules.view_line import ViewLine
from arrange.rules.walkway import Walkway
from arrange.rules.windows_clear import WindowsClear

RULES: tuple[Rule, ...] = (
    InsideRoom(),
    BodiesApart(),
    DoorFloor(),
    WindowsClear(),
    FixturesFree(),
    LeastClearance(),
    BacksOnWalls(),
    InTheirPlace(),
    StaysPut(),
    Headroom(),
    Heat(),
    CotWindow(),
    EscapeWindow(),
    Walkway(),
    Near(),
    AwayFrom(),
    Beside(),
    FacingPlace(),
    InViewOf(),
    Against(),
    NotAgainst(),
    Aligned(),
    ComfortableClearance(),
    ClearFloor(),
    BedheadWall(),
    BedSeesDoor(),
    BedsidePair(),
    Daylight(),
    ScreenGlare(),
    View(),
    ViewLine(),
    TalkingDistance(),
    SeatsTurned(),
    SeatOutlook(),
    PastNotThrough(),
    UsedTogether(),
    CentredOnWall(),
    NarrowGaps(),
    SocketsNear(),
    StraightWay(),
    EnteringView(),
    Balance(),
)
RULE_IDS: tuple[str, ...] = tuple(rule.id for rule in RULES)


def active_rules(scenario: Scenario) -> tuple[Rule, ...]:
    """The rules that the scenario has not switched off."""
    return tuple(rule for rule in RULES if not scenario.setting(rule.id).off)


def all_regions(scenario: Scenario) -> Sequence[Region]:
    """All floor that pieces must stay off, from every active rule."""
    return tuple(r for rule in active_rules(scenario) for r in rule.regions(scenario))


__all__ = ["RULES", "RULE_IDS", "Claim", "Measure", "Region", "Rule", "active_rules", "all_regions"]
