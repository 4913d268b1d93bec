"""The rules, in the order in which they are read. One rule, one file."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.scenario import Scenario
from arrange.rules.against import Against
from arrange.rules.aligned import Aligned
from arrange.rules.arriving import Arriving
from arrange.rules.at_the_wall import AtTheWall
from arrange.rules.away_from import AwayFrom
from arrange.rules.backs_on_walls import BacksOnWalls
from arrange.rules.balance import Balance
from arrange.rules.bed_sees_door import BedSeesDoor
from arrange.rules.bedhead_wall import BedheadWall
from arrange.rules.bedside_pair import BedsidePair
from arrange.rules.behind_door import BehindDoor
from arrange.rules.beside import Beside
from arrange.rules.bodies_apart import BodiesApart
from arrange.rules.care import Care
from arrange.rules.clear_floor import ClearFloor
from arrange.rules.climbing import Climbing
from arrange.rules.comfortable_clearance import ComfortableClearance
from arrange.rules.cot_harm import CotHarm
from arrange.rules.cot_window import CotWindow
from arrange.rules.cup_in_reach import CupInReach
from arrange.rules.daylight import Daylight
from arrange.rules.desk_outlook import DeskOutlook
from arrange.rules.door_floor import DoorFloor
from arrange.rules.dressing import Dressing
from arrange.rules.escape_window import EscapeWindow
from arrange.rules.facing import FacingPlace
from arrange.rules.fan_clear import FanClear
from arrange.rules.first_look import FirstLook
from arrange.rules.fixtures_free import FixturesFree
from arrange.rules.groups_close import GroupsClose
from arrange.rules.gutter import Gutter
from arrange.rules.headroom import Headroom
from arrange.rules.heat import Heat
from arrange.rules.in_reach import InReach
from arrange.rules.in_their_place import InTheirPlace
from arrange.rules.in_view_of import InViewOf
from arrange.rules.inside_room import InsideRoom
from arrange.rules.lamp_at_seat import LampAtSeat
from arrange.rules.least_clearance import LeastClearance
from arrange.rules.like_with_like import LikeWithLike
from arrange.rules.near import Near
from arrange.rules.not_against import NotAgainst
from arrange.rules.on_axis import OnAxis
from arrange.rules.over_the_pillow import OverThePillow
from arrange.rules.past_not_through import PastNotThrough
from arrange.rules.rug_placed import RugPlaced
from arrange.rules.rule import Claim, Measure, Region, Rule
from arrange.rules.screen_glare import ScreenGlare
from arrange.rules.seat_outlook import SeatOutlook
from arrange.rules.seats_turned import SeatsTurned
from arrange.rules.serving import Serving
from arrange.rules.sockets_near import SocketsNear
from arrange.rules.stays_put import StaysPut
from arrange.rules.straight_way import StraightWay
from arrange.rules.table_placed import TablePlaced
from arrange.rules.talking_distance import TalkingDistance
from arrange.rules.tucked import Tucked
from arrange.rules.turning_space import TurningSpace
from arrange.rules.used_together import UsedTogether
from arrange.rules.view import View
from arrange.rules.view_line import ViewLine
from arrange.rules.walkway import Walkway
from arrange.rules.windows_clear import WindowsClear
from arrange.rules.zones import Zones

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
    FanClear(),
    Climbing(),
    EscapeWindow(),
    TurningSpace(),
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
    CotHarm(),
    BehindDoor(),
    InReach(),
    Arriving(),
    Care(),
    Serving(),
    ClearFloor(),
    BedheadWall(),
    OverThePillow(),
    BedSeesDoor(),
    BedsidePair(),
    Dressing(),
    Daylight(),
    ScreenGlare(),
    DeskOutlook(),
    View(),
    ViewLine(),
    TalkingDistance(),
    SeatsTurned(),
    LampAtSeat(),
    CupInReach(),
    Zones(),
    GroupsClose(),
    SeatOutlook(),
    PastNotThrough(),
    UsedTogether(),
    OnAxis(),
    AtTheWall(),
    Tucked(),
    Gutter(),
    LikeWithLike(),
    TablePlaced(),
    RugPlaced(),
    SocketsNear(),
    StraightWay(),
    FirstLook(),
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
