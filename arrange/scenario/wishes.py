"""Reads what the person asks: ``[[wish]]``, feel, walkway, ``[[rule]]`` and ``[costs]``. In mm."""

from __future__ import annotations

from decimal import Decimal
from typing import get_args

from arrange.data.lengths import length, listed
from arrange.data.people import asked, keeps_usual
from arrange.data.person import Person
from arrange.data.piece import Piece
from arrange.data.repair import usual
from arrange.data.room import Room
from arrange.data.scenario import Money, OwnCosts, Relation, RuleSetting, Use, Wish
from arrange.errors import can_be_seen
from arrange.rules import RULE_IDS, RULES
from arrange.scenario.faults import Broken, shown
from arrange.scenario.pieces import KEPT_TO, KeptTo
from arrange.scenario.table import SEEN, Table

RELATIONS: dict[str, Relation] = {
    "near": "near",
    "away_from": "away from",
    "facing": "facing",
    "against": "against",
    "not_against": "not against",
    "in_view_of": "in view of",
    "beside": "beside",
    "aligned_with": "aligned",
}
WITHIN = ("near", "beside")
WALLS_ONLY = ("against", "not_against")
WEIGHT = 10  # as much as the main wishes of the rules: what somebody says themselves counts
WEIGHTS = (1, 20)
EXAMPLE = 'write it like: piece = "desk", near = "window", within = "1 m"'


class Places:
    """Everything a wish can name, by its own name and by what it is."""

    def __init__(self, room: Room, pieces: tuple[Piece, ...], lost: Broken) -> None:
        self.lost = lost
        walls = [w.name for w in room.walls] + [w.part_of for w in room.walls if w.part_of]
        self.walls = list(dict.fromkeys(walls))
        self.pieces = [p.name for p in pieces]
        self.models: dict[str, list[str]] = {}
        for piece in pieces:
            self.models.setdefault(piece.model.casefold(), []).append(piece.name)
        self.sorts = {
            "door": [d.name for d in room.doors],
            "window": [w.name for w in room.windows],
            "radiator": [f.name for f in room.fixtures if f.kind == "radiator"],
            "socket": [f.name for f in room.fixtures if f.kind == "socket"],
        }
        fixed = [*self.sorts["door"], *self.sorts["window"], *(f.name for f in room.fixtures)]
        self.places = [*self.pieces, *fixed, *self.walls]

    def pieces_called(self, word: str) -> list[str]:
        """The piece of that name, or all that were given under it; empty if none."""
        exact = [p for p in self.pieces if p.casefold() == word.casefold()]
        return exact or self.models.get(word.casefold(), [])

    def place(self, word: str, table: Table, key: str) -> str | None:
        """The name of the one place meant; None, with a fault, if that is not clear."""
        known = self.walls if key in WALLS_ONLY else self.places
        exact = [p for p in known if p.casefold() == word.casefold()]
        if exact:
            return exact[0]
        sort = [*self.sorts.get(word.casefold(), []), *self.models.get(word.casefold(), [])]
        sort = [s for s in sort if s in known]
        if len(sort) == 1:
            return sort[0]
        if self.lost.excuses(word):
            return None
        if sort:
            table.fault(key, f"{word!r} could be any of {', '.join(sort)}", "name one of them")
        else:
            written = self.lost.walls if key in WALLS_ONLY else self.lost.names
            table.faults.unknown(table.at(key), word, [*known, *written], "the place")
        return None


def read_wishes(
    top: Table, room: Room, pieces: tuple[Piece, ...], lost: Broken
) -> tuple[Wish, ...]:
    """Every wish that could be read, one for each piece it is about.

    ``lost`` is what could not be read: a wish that names it is not at fault.
    """
    places = Places(room, pieces, lost)
    return tuple(w for table in top.tables("wish") for w in _wish(table, places))


def _wish(table: Table, places: Places) -> list[Wish]:
    word = table.text("piece")
    names = places.pieces_called(word) if word else []
    if not word and not table.has("piece"):
        table.fault("piece", "no piece given", "say which piece is meant", EXAMPLE)
    elif word and not names and not places.lost.excuses(word):
        table.faults.unknown(table.at("piece"), word, places.pieces, "the piece")
    given = [key for key in RELATIONS if table.has(key)]
    must, weight = table.flag("must"), table.whole("weight", WEIGHT, *WEIGHTS)
    key = given[0] if len(given) == 1 else ""
    distance = _distance(table, key)
    place = places.place(table.text(key), table, key) if key and table.text(key) else None
    table.finish()
    if not key:
        what = f"{' and '.join(given)} given" if given else "it does not say what you wish for"
        table.faults.add(table.where, what, f"one of {', '.join(RELATIONS)} is needed", EXAMPLE)
    if place in names:
        table.fault(key, f'"{place}" is the piece itself', "name another piece or place")
    if place is None or not key:
        return []
    return [
        Wish(RELATIONS[key], name, place, distance, must, weight) for name in names if name != place
    ]


def _distance(table: Table, key: str) -> int | None:
    within = table.mm("within", -1, 0) if table.has("within") else None
    apart = table.mm("at_least", -1, 0) if table.has("at_least") else None
    if within is not None and key and key not in WITHIN:
        table.fault("within", "given without near or beside", "it belongs to those two")
    if apart is not None and key and key != "away_from":
        table.fault("at_least", "given without away_from", "it belongs to that one")
    return within if within is not None else apart


USES: tuple[Use, ...] = get_args(Use)
MOST_FEEL = 3
LONGEST_FEEL = 40  # characters of one word
WALKWAY = 600  # mm, the usual width of a way; people pass, with a shoulder turned, on BARE_WAY
BARE_WAY = 500  # mm; common practice, no source
WIDE_WAY = 900  # mm; somebody who asks for as much needs the published values everywhere
WALKWAYS = (300, 1500)


def read_kept_to(top: Table, people: tuple[Person, ...] = ()) -> tuple[KeptTo, int]:
    """Whether what is needed is held to its usual values, and how wide ways are at least.

    What the file says of either stands; else it is as ``people`` ask.
    """
    own = top.mm("walkway", WALKWAY, *WALKWAYS) if top.has("walkway") else None
    wide = own is not None and own >= WIDE_WAY
    usual: KeptTo = "usual" if wide or keeps_usual(people) else "bare"
    kept_to = top.choice("keep_to", KEPT_TO, usual)
    if own is not None:
        return kept_to, own
    need = asked(people, "walkway")
    width = WALKWAY if kept_to == "usual" else BARE_WAY
    return kept_to, max(width, need.least) if need else width


def read_feel(top: Table) -> tuple[str, ...]:
    """Up to three words. Words nobody knows are kept: they are reported, not refused."""
    value = top.raw("feel")
    words = [value] if isinstance(value, str) else [] if value is None else value
    if not isinstance(words, list) or not all(isinstance(w, str) and w.strip() for w in words):
        top.fault("feel", f"{shown(value)} given", 'words are needed, such as ["calm", "airy"]')
        return ()
    for i, word in enumerate(words, 1):
        if not can_be_seen(word):
            top.fault(f"feel[{i}]", f"{shown(word)} given", *SEEN)
        elif len(word) > LONGEST_FEEL:
            given = f"{len(word)} characters"
            top.fault(f"feel[{i}]", given, f"at most {LONGEST_FEEL} are allowed")
    if len(words) > MOST_FEEL:
        top.fault("feel", f"{len(words)} words given", f"at most {MOST_FEEL} are used")
    return tuple(dict.fromkeys(w.strip().casefold() for w in words))


def read_use(top: Table) -> Use | None:
    """What the room is for, if the person says."""
    use = top.choice("use", USES, USES[0])
    return use if top.has("use") else None


def read_settings(top: Table) -> tuple[RuleSetting, ...]:
    """Every ``[[rule]]``."""
    found = [s for t in top.tables("rule") if (s := _setting(t)) is not None]
    names = [s.rule for s in found]
    for name in sorted({n for n in names if names.count(n) > 1}):
        top.fault("rule", f'"{name}" is changed twice', "one [[rule]] for each rule")
    return tuple(found)


def _setting(table: Table) -> RuleSetting | None:
    rule = table.text("rule")
    off = table.flag("off")
    weight = table.whole("weight", 0, 0, 20) if table.has("weight") else None
    least = table.mm("least", 0, 0) if table.has("least") else None
    comfortable = table.mm("comfortable", 0, 0) if table.has("comfortable") else None
    table.finish()
    if not rule:
        table.fault("rule", "no rule given", "say which rule is meant")
        return None
    if rule not in RULE_IDS:
        table.faults.unknown(table.at("rule"), rule, RULE_IDS, "the rule")
        return None
    if least is not None and comfortable is not None and comfortable < least:
        shown = length(comfortable, table.unit)
        table.fault("comfortable", f"{shown} given", f"at least {length(least, table.unit)}")
    setting = RuleSetting(rule, off, weight, least, comfortable)
    _refuse_what_it_cannot_take(table, setting)
    return setting


def _refuse_what_it_cannot_take(table: Table, setting: RuleSetting) -> None:
    """One fault for each value that would change nothing, or that cannot be changed."""
    rule = next(r for r in RULES if r.id == setting.rule)
    if setting.off and rule.always:
        table.fault("off", f'"{rule.id}" cannot be switched off', rule.always)
    takes = [*(["weight"] if rule.kind == "wish" else []), *rule.takes]
    allowed = listed([*([] if rule.always else ["off"]), *takes], "or") or "it stays as it is"
    for key in ("weight", "least", "comfortable"):
        if getattr(setting, key) is not None and key not in takes:
            given = f'"{rule.id}" takes no {key}'
            table.fault(key, given, f"what can be set: {allowed}", rule.elsewhere)


HIGHEST = 1000
ITS_WALKWAY = "walkway"
NEVER = "a whole number from 0 to 1000 is needed, or false for never"


def read_costs(top: Table, room: Room, pieces: tuple[Piece, ...], lost: Broken) -> OwnCosts:
    """The person's costs; none where the table is not there or cannot be read."""
    value = top.raw("costs")
    if value is None:
        return OwnCosts()
    table = top.table(value, top.at("costs"))
    if table is None:
        return OwnCosts()
    values = tuple((key, _cost(table, key)) for key in usual() if table.has(key))
    untouchable = _untouchable(table, room, pieces, lost)
    table.finish()
    return OwnCosts(values, untouchable)


def _cost(table: Table, key: str) -> int | None:
    value = table.raw(key)
    if value is False:
        return None
    if isinstance(value, int) and not isinstance(value, bool) and 0 <= value <= HIGHEST:
        return value
    table.fault(key, f"{shown(value)} given", NEVER)
    return None


def _untouchable(
    table: Table, room: Room, pieces: tuple[Piece, ...], lost: Broken
) -> tuple[str, ...]:
    value = table.raw("untouchable")
    if value is None:
        return ()
    names = [value] if isinstance(value, str) else value
    if not isinstance(names, list) or not all(isinstance(n, str) for n in names):
        table.fault("untouchable", f"{shown(value)} given", 'names are needed, such as ["bed"]')
        return ()
    known = touchable(room, pieces)
    folded = {name.casefold(): name for name in known}
    found = []
    for name in names:
        if name.strip().casefold() in folded:
            found.append(folded[name.strip().casefold()])
        elif not lost.excuses(name):
            table.faults.unknown(table.at("untouchable"), name, known, "the name")
    return tuple(dict.fromkeys(found))


def touchable(room: Room, pieces: tuple[Piece, ...]) -> tuple[str, ...]:
    """Everything that can be named as not to be touched, pieces first."""
    names = [name for piece in pieces for name in (piece.name, piece.model)]
    names += [d.name for d in room.doors] + [w.name for w in room.windows]
    names += [f.name for f in room.fixtures]
    return tuple(dict.fromkeys([*names, ITS_WALKWAY]))


def read_money(top: Table) -> Money:
    """``[money]``: the budget, what of it is set aside for surprises, the currency."""
    value = top.raw("money")
    table = None if value is None else top.table(value, top.at("money"))
    if table is None:
        return Money()
    budget = table.money("budget") if table.has("budget") else None
    comes_in = table.money("comes_in") if table.has("comes_in") else None
    set_aside = table.whole("set_aside", 10, 0, 90)
    found = Money(budget, set_aside, table.text("currency"), comes_in or Decimal(0))
    table.finish()
    return found
