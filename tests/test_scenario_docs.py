"""The description of the file format says what the reader does."""

import re
from pathlib import Path

import pytest

from arrange.data.kinds import kinds
from arrange.rules import RULES
from arrange.scenario.read import read_text
from arrange.scenario.table import Table

pytestmark = pytest.mark.fast

DOCS = Path(__file__).parent.parent / "scenarios" / "README.md"
TEXT = DOCS.read_text(encoding="utf-8")

# One file with every sort of table, so that every key is asked for.
FULL = """
[room]
ceiling = 250
[[room.wall]]
length = 400
[[room.wall]]
length = 300
[[room.wall]]
length = 400
[[room.wall]]
[[room.check]]
from = "A"
to = "C"
length = 500
[[room.bay]]
wall = "A"
from_left = 200
width = 150
depth = 50
[[room.slope]]
wall = "C"
height = 240
until = 100
[[door]]
wall = "C"
from_left = 20
width = 80
[[window]]
wall = "A"
from_left = 20
width = 80
[[fixture]]
kind = "column"
at = [100, 100]
[[fixture]]
kind = "radiator"
wall = "B"
from_left = 20
[[piece]]
kind = "desk"
clearance.front = { least = 80 }
stands_now = { wall = "D", from_left = 20 }
[[piece]]
kind = "armchair"
stands_now = { across = 200, up = 100, facing = "up" }
[[person]]
name = "Ada"
[[wish]]
piece = "desk"
near = "window"
[[rule]]
rule = "walkway"
[costs]
rehang = false
[money]
budget = 500
[finish]
coats = 1
[[textile]]
name = "curtains"
colour = "#ffffff"
[[paint]]
name = "chip"
colour = { lab = [50, 0, 0] }
"""
SECTION = {
    "": "The whole file",
    "room": "[room]",
    "room.wall": "[[room.wall]]",
    "room.check": "[[room.check]]",
    "room.bay": "[[room.bay]]",
    "room.slope": "[[room.slope]]",
    "door": "[[door]]",
    "window": "[[window]]",
    "fixture": "[[fixture]]",
    "piece": "[[piece]]",
    "piece.stands_now": "stands_now",
    "person": "[[person]]",
    "wish": "[[wish]]",
    "rule": "[[rule]]",
    "costs": "[costs]",
    "money": "[money]",
    "finish": "[finish]",
    "textile": "[[textile]]",
    "paint": "[[paint]]",
}
TABLES = {"room", "door", "window", "fixture", "piece", "person", "wish", "rule", "costs", "money"}
TABLES |= {"textile", "paint", "finish"}


def documented(heading):
    """Keys in the first columns of the tables under ``heading``."""
    part = re.split(r"^#+ ", TEXT.split(f"# {heading}\n", 1)[1], maxsplit=1, flags=re.M)[0]
    cells = [line.split("|")[1] for line in part.splitlines() if line.startswith("|")]
    return {key for cell in cells for key in re.findall(r"`(\w+)`", cell)}


def test_every_key_that_is_read_is_described(monkeypatch):
    """What the reader asks for in each table, and nothing else, stands in the page."""
    asked = {}
    finish = Table.finish

    def record(table):
        where = re.sub(r"\[\d+\]", "", table.where)
        where = "piece" if where.startswith("piece.clearance") else where
        if not where.endswith(".colour"):  # that is told with all ways to write a colour
            asked.setdefault(where, set()).update(table.known)
        finish(table)

    monkeypatch.setattr(Table, "finish", record)
    read_text(FULL)
    asked[""] -= TABLES
    assert {where: documented(SECTION[where]) for where in asked} == asked
    assert asked.keys() == SECTION.keys()


def test_every_rule_is_listed_with_what_it_takes():
    """In the order of the rules, each with words of its own; what is always on takes no off."""
    part = TEXT.split("### Names of the rules\n", 1)[1].split("\n## ", 1)[0]
    rows = re.findall(r"^\| `([\w-]+)` \| (.+) \| ([\w, ]+) \|$", part, re.M)
    takes = {
        rule.id: [
            *([] if rule.always else ["off"]),
            *(["weight"] if rule.kind == "wish" else []),
            *rule.takes,
        ]
        for rule in RULES
    }
    assert [(id_, given) for id_, _, given in rows] == [
        (id_, ", ".join(values) or "nothing") for id_, values in takes.items()
    ]
    assert len({words for _, words, _ in rows}) == len(RULES)


@pytest.mark.parametrize("name", sorted(kinds()))
def test_every_kind_is_listed_with_its_size(name):
    """The list at the end of the page is the table of kinds."""
    kind = kinds()[name]
    sizes = " x ".join(f"{mm / 10:g}" for mm in (kind.width, kind.depth, kind.height))
    size = "yours" if kind.own_size else sizes
    assert f"| {name} | {', '.join(kind.also)} | {size} |" in TEXT


def test_the_example_in_the_page_reads():
    """A chair goes with its desk without being told."""
    example = re.search(r"```toml\n(.*?)```", TEXT, re.S)[1]
    assert [p.anchor for p in read_text(example).pieces] == [None, "desk"]
