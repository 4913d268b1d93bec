"""Reads what concerns the whole room: feel, walkway and changed rules. Lengths in mm."""

from __future__ import annotations

import importlib

from arrange.data.scenario import RuleSetting
from arrange.scenario.faults import shown
from arrange.scenario.table import Table
from arrange.words import length, listed

MOST_FEEL = 3
WALKWAY = 600
WALKWAYS = (300, 1500)
ON_THE_PIECE = 'set it on the piece: clearance.front = { least = "70 cm" }'
# Where the value stands that somebody may look for in a [[rule]].
ELSEWHERE = {
    "walkway": 'its width is set at the top of the file: walkway = "70 cm"',
    "least-clearance": ON_THE_PIECE,
    "comfortable-clearance": ON_THE_PIECE,
    "fixtures-free": 'set it on the fixture: keep_free = "20 cm"',
}


def read_feel(top: Table) -> tuple[str, ...]:
    """Up to three words. Words nobody knows are kept: they are reported, not refused."""
    value = top.raw("feel")
    words = [value] if isinstance(value, str) else [] if value is None else value
    if not isinstance(words, list) or not all(isinstance(w, str) and w.strip() for w in words):
        top.fault("feel", f"{shown(value)} given", 'words are needed, such as ["calm", "airy"]')
        return ()
    if len(words) > MOST_FEEL:
        top.fault("feel", f"{len(words)} words given", f"at most {MOST_FEEL} are used")
    return tuple(dict.fromkeys(w.strip().casefold() for w in words))


def known_rules() -> tuple[str, ...]:
    """The ids of all rules; empty where the rules are not there to ask."""
    rules = importlib.import_module("arrange.rules")
    return tuple(getattr(rules, "RULE_IDS", ()))


def read_settings(top: Table, known: tuple[str, ...] | None = None) -> tuple[RuleSetting, ...]:
    """Every ``[[rule]]``; ``known`` are the rule ids allowed, by default all there are."""
    tables = top.tables("rule")
    if tables and known is None:
        known = known_rules()
    found = [s for t in tables if (s := _setting(t, known or ())) is not None]
    names = [s.rule for s in found]
    for name in {n for n in names if names.count(n) > 1}:
        top.fault("rule", f'"{name}" is changed twice', "one [[rule]] a rule")
    return tuple(found)


def _setting(table: Table, known: tuple[str, ...]) -> RuleSetting | None:
    rule = table.text("rule")
    off = table.flag("off")
    weight = table.whole("weight", 0, 0, 20) if table.has("weight") else None
    least = table.mm("least", 0, 0) if table.has("least") else None
    comfortable = table.mm("comfortable", 0, 0) if table.has("comfortable") else None
    table.finish()
    if not rule:
        table.fault("rule", "no rule given", "say which rule is meant")
        return None
    if known and rule not in known:
        table.faults.unknown(table.at("rule"), rule, known, "the rule")
        return None
    if least is not None and comfortable is not None and comfortable < least:
        shown = length(comfortable, table.unit)
        table.fault("comfortable", f"{shown} given", f"at least {length(least, table.unit)}")
    setting = RuleSetting(rule, off, weight, least, comfortable)
    _refuse_what_it_cannot_take(table, setting)
    return setting


def _refuse_what_it_cannot_take(table: Table, setting: RuleSetting) -> None:
    """One fault for each value that would change nothing, or that cannot be changed."""
    rules = importlib.import_module("arrange.rules").RULES
    rule = next((r for r in rules if r.id == setting.rule), None)
    if rule is None:
        return
    if setting.off and rule.always:
        table.fault("off", f'"{rule.id}" cannot be switched off', rule.always)
    takes = [*(["weight"] if rule.kind == "wish" else []), *rule.takes]
    allowed = listed([*([] if rule.always else ["off"]), *takes], "or") or "it stays as it is"
    for key in ("weight", "least", "comfortable"):
        if getattr(setting, key) is not None and key not in takes:
            given = f'"{rule.id}" takes no {key}'
            table.fault(key, given, f"what can be set: {allowed}", ELSEWHERE.get(rule.id, ""))
