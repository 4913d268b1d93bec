"""Usual ties never make a room impossible: who finds no place at a host stands elsewhere."""

from __future__ import annotations

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
