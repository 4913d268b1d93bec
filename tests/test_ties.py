"""Usual ties never make a room impossible: who finds no place at a host stands elsewhere."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest
from file_rooms import room_file

from arrange import read, suggest
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario
from arrange.scenario.ties import stand_together

FAULTS = Path(__file__).with_name("faults")

ROOM = 'title = "Ties"\n' + room_file(400, 450, width=85)


def _room(tmp_path: Path, *pieces: str) -> Scenario:
    file = tmp_path / "ties.toml"
    text = ROOM + "".join(f"[[piece]]\nkind = {piece}\n" for piece in pieces)
    file.write_text(text, encoding="utf-8")
    return read(file)


def test_a_footstool_leaves_the_coffee_table_its_place() -> None:
    """It goes to an armchair; was: "impossible, proven" in a room of 9 by 9 metres."""
    scenario = read(FAULTS / "footstool-and-coffee-table.toml")
    assert scenario.piece("coffee table").anchor == "sofa"
    assert scenario.piece("footstool").anchor == "armchair 1"
    assert suggest(scenario, top=1, seconds=30).suggestions


@pytest.mark.parametrize("order", [1, -1])
def test_without_another_host_it_stands_free(order: int, tmp_path: Path) -> None:
    """Sofa, coffee table and footstool alone, in either order of the file."""
    scenario = _room(tmp_path, *('"sofa"', '"coffee table"', '"footstool"')[::order])
    assert scenario.piece("coffee table").anchor == "sofa"
    assert scenario.piece("footstool").anchor is None
    assert suggest(scenario, top=1, seconds=30).suggestions


def test_one_chair_sits_at_a_desk(tmp_path: Path) -> None:
    """The desk chair, which is the larger; the child's chair stands free."""
    scenario = _room(tmp_path, '"child\'s chair"', '"desk chair"', '"desk"')
    assert scenario.piece("desk chair").anchor == "desk"
    assert scenario.piece("child's chair").anchor is None
    assert suggest(scenario, top=1, seconds=30).suggestions


def test_what_the_person_ties_stays(tmp_path: Path) -> None:
    """The footstool with the sofa, as asked; then the coffee table gives way."""
    scenario = _room(tmp_path, '"sofa"', '"coffee table"', '"footstool"\nwith = "sofa"')
    assert scenario.piece("footstool").anchor == "sofa"
    assert scenario.piece("coffee table").anchor is None
    assert suggest(scenario, top=1, seconds=30).suggestions


def test_eight_chairs_at_one_table(tmp_path: Path) -> None:
    """All have a place, and a rug lies under the table besides."""
    scenario = _room(
        tmp_path, '"dining table for eight"', '"dining chair"\ncount = 8', '"rug"\nwidth = 200'
    )
    tied: list[Piece] = [p for p in scenario.pieces if p.anchor == "dining table for eight"]
    assert len(tied) == 9
    host = scenario.piece("dining table for eight")
    assert stand_together(host, tied)
    one_more = replace(tied[0], name="ninth chair")
    assert not stand_together(host, [*tied, one_more])


@pytest.mark.fast
@pytest.mark.parametrize(
    ("host", "rug", "place"),
    [
        pytest.param("corner sofa", "", ("under", 700), id="a corner sofa, unasked"),
        pytest.param("daybed", "", ("under", 700), id="a daybed, unasked"),
        pytest.param("armchair", 'with = "armchair"', ("under", 700), id="any seat, asked"),
        pytest.param("coffee table", 'with = "coffee table"', ("under", 130), id="any table"),
        pytest.param("double bed", "", ("under", 1100), id="a bed"),
        pytest.param("bunk bed", 'with = "bunk bed"', ("left", 50), id="beside a bunk bed"),
    ],
)
def test_a_rug_lies_under_what_it_goes_with(host, rug, place, tmp_path: Path) -> None:
    """Was: beside a corner sofa. In the middle under a table: (240 - 500) / 2 below its back."""
    size = "width = 100\ndepth = 50\n" if host == "coffee table" else ""
    texts = f'"{host}"\n{size}', f'"rug"\nwidth = 200\ndepth = 76\n{rug}\n'
    scenario = _room(tmp_path, *texts)
    lies = scenario.piece("rug")
    assert lies.anchor == host
    assert (lies.slots[0].side, abs(lies.slots[0].gap)) == place


ENDS = {"left": 1, "right": 1}


@pytest.mark.fast
@pytest.mark.parametrize(
    ("table", "chairs", "sides"),
    [
        ('"dining table for four"', 4, {"front": 2, "back": 2}),
        ('"dining table for four"\nclearance.back = false', 4, {"front": 2, None: 2}),
        ('"dining table for four"\nclearance."front chairs" = false', 2, {"back": 2}),
        ('"dining table for four"\nclearance.back.least = 70', 4, {"front": 2, "back": 2}),
        ('"round table"\nclearance.left = false', 4, {"front": 1, "back": 1, "right": 1, None: 1}),
        ('"dining table for eight"\nclearance.back = false', 5, {"front": 3} | ENDS),
    ],
)
def test_chairs_stand_at_the_sides_that_are_wanted(
    table: str, chairs: int, sides: dict[str | None, int], tmp_path: Path
) -> None:
    """None where its floor was given up; those for whom no place is left stand at no table."""
    scenario = _room(tmp_path, table, f'"dining chair"\ncount = {chairs}')
    seats = [p for p in scenario.pieces if p.kind == "dining chair"]
    places = [slot.side for slot in max((p.slots for p in seats), key=len)]
    found = Counter[str | None](places)
    left = sum(p.anchor is None for p in seats)
    assert dict(found) | ({None: left} if left else {}) == sides


@pytest.mark.fast
def test_a_bench_stands_where_no_chair_is_wanted(tmp_path: Path) -> None:
    """At the wall: who sits there slides along it. Chairs keep the other side."""
    table = '"dining table for four"\nclearance.back = false'
    scenario = _room(tmp_path, table, '"dining bench"', '"dining chair"\ncount = 2')
    assert {slot.side for slot in scenario.piece("dining bench").slots} == {"front", "back"}
    assert {slot.side for slot in scenario.piece("dining chair 1").slots} == {"front"}


def test_chairs_without_a_place_are_told(tmp_path: Path) -> None:
    """Two of four."""
    table = '"dining table for four"\nclearance.back = false'
    told = suggest(_room(tmp_path, table, '"dining chair"\ncount = 4'), top=1, seconds=30).notes
    assert told[0] == "dining chair 3 and dining chair 4 do not stand at a table"
