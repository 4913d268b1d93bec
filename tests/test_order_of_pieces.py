"""The order of pieces in a file, and how alike ones are written, change no answer."""

from __future__ import annotations

import random
from dataclasses import replace
from pathlib import Path

import pytest
from file_rooms import room_file
from sampled import sampled

from arrange import Result, read, suggest
from arrange.data.scenario import Scenario, Wish
from arrange.scoring import shares

FAULTS = Path(__file__).with_name("faults")

WINDOW = '[[window]]\nwall = "A"\nfrom_left = 90\nwidth = 120\nsill = 90\n'
HEAD = 'title = "Any order"\n' + room_file(330, 380) + WINDOW
# Each scenario: its pieces, one entry a line, and more lines after them. Sofas keep to the
# walls where every way to stand is listed, else there are too many to list in a minute.
AT_WALL = "stands = 'wall'"
ROOMS = {
    "bedroom": (("single bed", "bedside table", "wardrobe", "chest of drawers"), ""),
    "two sofas": ((f"sofa\n{AT_WALL}", f"small sofa\n{AT_WALL}", "coffee table", "tv unit"), ""),
    "two screens": (
        (f"sofa\n{AT_WALL}", "tv unit\nwidth = 120", "tv unit\nname = 'small tv'", "rug"),
        "",
    ),
    "study": (("desk", "desk chair", "bookcase", "low bookcase", "reading chair"), ""),
    "alike": (("armchair\ncount = 2", "armchair\nname = 'chair'", "side table", "plant"), ""),
    "wished": (
        ("wardrobe\nname = 'his'", "wardrobe\nname = 'hers'", "single bed"),
        "[[wish]]\npiece = 'hers'\nagainst = 'A'\n",
    ),
}


def _read(tmp_path: Path, entries: list[str], rest: str) -> Scenario:
    tables = "".join(f"[[piece]]\nkind = {_quoted(entry)}\n" for entry in entries)
    file = tmp_path / "room.toml"
    file.write_text(HEAD + tables + rest, encoding="utf-8")
    return read(file)


def _quoted(entry: str) -> str:
    kind, *more = entry.split("\n")
    return "\n".join([f'"{kind}"', *more])


def _answer(scenario: Scenario) -> tuple[object, ...]:
    """All that may not change: scores, families, where everything stands, the points."""
    result = suggest(scenario, top=2, seconds=60, families=len(scenario.pieces) < 5)
    assert result.outcome == "proven"
    plans = [
        (s.verdict.score, s.proven, {p.piece: p for p in s.arrangement.placements})
        for s in result.suggestions
    ]
    listed = (
        None if result.families is None else [(f.key, f.score) for f in result.families.families]
    )
    points = {(s.claim.key, s.points) for s in shares(scenario)}
    return plans, listed, points, {p.name: (p.anchor, p.slots) for p in scenario.pieces}


@pytest.mark.parametrize("room", sampled(ROOMS, long=("two sofas", "two screens", "wished")))
def test_shuffled_pieces_have_the_same_answer(room: str, tmp_path: Path) -> None:
    """The same score, families and places, whatever order the entries come in."""
    entries, rest = ROOMS[room]
    first = _read(tmp_path, list(entries), rest)
    mixed = list(entries)
    random.Random(7).shuffle(mixed)  # noqa: S311
    if mixed == list(entries):
        mixed.reverse()
    other = _read(tmp_path, mixed, rest)
    assert [p.name for p in other.pieces] != [p.name for p in first.pieces]
    assert _answer(other) == _answer(first)


def test_the_order_of_the_file_changes_no_score() -> None:
    """Three orders of the same pieces: one of them once scored 100.0, the others 98.5."""
    files = ("pieces-in-one-order", "pieces-in-another-order", "pieces-in-a-third-order")
    results = [suggest(read(FAULTS / f"{file}.toml"), top=1, seconds=60) for file in files]
    assert [r.suggestions[0].verdict.score for r in results] == [1000, 1000, 1000]
    one, *others = [{(s.claim.key, s.points) for s in shares(r.scenario)} for r in results]
    assert all(other == one for other in others)


def test_two_entries_of_the_same_thing_are_alike() -> None:
    """Two wardrobes written as two entries: 10 families like two by count, not 16."""
    count, split = _result("two-alike-by-count"), _result("two-alike-as-two-entries")
    assert [len(_listed(r)) for r in (count, split)] == [10, 10]
    assert [s for _, s in _listed(count)] == [s for _, s in _listed(split)]
    one, two = ([s.arrangement for s in r.suggestions] for r in (count, split))
    assert one == two


def test_what_tells_alike_pieces_apart() -> None:
    """A wish for one, what is tied to one, and another size; not the names."""
    both = read(FAULTS / "two-alike-as-two-entries.toml")
    one, two = both.pieces
    near = replace(both, wishes=(Wish("near", "wardrobe 1", "door"),))
    wider = replace(both, pieces=(one, replace(two, width=two.width + 1)))
    assert [len(g) for g in both.interchangeable()] == [2]
    assert [len(g) for g in near.interchangeable()] == [1, 1]
    assert [len(g) for g in near.alike_groups()] == [2]
    assert [len(g) for g in wider.alike_groups()] == [1, 1]
    named = replace(both, pieces=tuple(replace(p, model="wardrobe") for p in both.pieces))
    for_all = replace(named, wishes=(Wish("near", "wardrobe", "door"),))
    assert [len(g) for g in for_all.interchangeable()] == [2]


def _result(file: str) -> Result:
    return suggest(read(FAULTS / f"{file}.toml"), top=3, seconds=60, families=True)


def _listed(result: Result) -> list[tuple[object, int]]:
    assert result.families is not None
    assert result.families.complete
    return [(f.key, f.score) for f in result.families.families]
