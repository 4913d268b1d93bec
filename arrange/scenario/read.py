"""Reads a scenario file: a room, its pieces and the wishes, in TOML.

Every fault of a file is found in one go and raised together.
"""

from __future__ import annotations

import re
import tomllib
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from arrange.data.room import Room
from arrange.data.scenario import Outcome, Scenario, Unit
from arrange.errors import Fault, ScenarioError, printable
from arrange.scenario.colours import read_scheme
from arrange.scenario.faults import Faults, broken
from arrange.scenario.finish import read_finish
from arrange.scenario.limits import check_counts, check_paths, text_of
from arrange.scenario.openings import (
    check_overlaps,
    check_under_slopes,
    read_doors,
    read_fixtures,
    read_windows,
)
from arrange.scenario.people import read_people
from arrange.scenario.pieces import check_room_for, read_pieces, sat_on
from arrange.scenario.room import cut_breasts, read_room
from arrange.scenario.table import Table
from arrange.scenario.ties import tie
from arrange.scenario.today import read_today
from arrange.scenario.wishes import (
    WALKWAY,
    read_costs,
    read_feel,
    read_kept_to,
    read_money,
    read_settings,
    read_use,
    read_wishes,
)

OUTCOMES: tuple[Outcome, ...] = ("found", "impossible")
CHOOSE = "arrange choose finds what to have, and where it goes"
NOT_OPEN = "it writes a file of each choice, choice-1.toml, that this command reads"
# How Python's reader begins to say that something is there twice.
TWICE = ("Cannot overwrite", "Cannot declare", "Cannot redefine", "Cannot mutate", "Duplicate")
UNITS: tuple[Unit, ...] = ("mm", "cm", "m", "in")


def read(path: str | Path) -> Scenario:
    """The scenario in the file at ``path``.

    Raises
    ------
    ScenarioError
        With every fault found: no such file, not TOML, an open outline, a bed of
        2 cm, two pieces of one name, ...
    """
    file = str(path)
    return read_text(text_of(path), file)


def read_text(text: str, name: str = "text") -> Scenario:
    """The scenario written in ``text``; ``name`` stands before every fault.

    Raises
    ------
    ScenarioError
        As ``read``.
    """
    return read_data(parsed(text, name), name)


def parsed(text: str, name: str) -> dict[str, Any]:
    """The tables of a file as they are written; ScenarioError if it is not TOML."""
    check_paths(text, name)
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise _refused(name, *_toml_fault(str(error))) from None
    except ValueError:  # more digits than Python reads
        raise _refused(name, "", "a number has far too many digits", "check the numbers") from None
    except RecursionError:
        raise _refused(name, "", "nested too deeply", "a scenario is plain tables") from None


def read_data(data: Mapping[str, Any], name: str) -> Scenario:
    """The scenario in the tables of a file; ScenarioError as ``read``."""
    faults = Faults(name)
    check_counts(data, faults)
    if "need" in data:
        faults.add("need", "this file leaves open what to have", CHOOSE, NOT_OPEN)
        faults.stop()
    top = Table(data, "", faults, "cm")
    top.unit = top.choice("unit", UNITS, "cm")
    if len(faults):
        for fault in _in_any_unit(data, name):
            faults.add(fault.where, fault.given, fault.allowed, fault.hint)
        faults.stop()
    return _scenario(top, name)


def _in_any_unit(data: Mapping[str, Any], name: str) -> list[Fault]:
    """What is wrong with a file whose unit is not known: the faults it has in each unit.

    Whether a length is one that can be is then not told.
    """
    found: list[tuple[Fault, ...]] = []
    for unit in UNITS:
        top = Table(data, "", Faults(name), unit)
        top.has("unit")
        try:
            _scenario(top, name)
        except ScenarioError as error:
            found.append(error.faults)
        else:
            return []
    return [fault for fault in found[0] if all(fault in others for others in found)]


def _scenario(top: Table, name: str) -> Scenario:
    title = top.text("title", printable(Path(name).stem.replace("-", " ")))
    expected = top.choice("expected", OUTCOMES, "found")
    people = read_people(top)
    kept_to, walkway = read_kept_to(top, people)
    feel, use, settings = read_feel(top), read_use(top), read_settings(top)
    walls, ceiling = read_room(top)
    fixture_tables = top.tables("fixture")
    if walls is not None:
        fixture_tables = cut_breasts(walls, fixture_tables)
    doors = read_doors(top, walls, ceiling)
    windows = read_windows(top, walls, ceiling)
    fixtures = read_fixtures(top, fixture_tables, walls, ceiling)
    if any(window.escape for window in windows) and not top.has("walkway"):
        # Who must get out by a window gets there on a way of the usual width.
        walkway = max(walkway, WALKWAY)
    entries = read_pieces(top, kept_to, people)
    check_overlaps(top, doors, windows)
    plan = walls.walls if walls else ()
    over = (walls.slopes, walls.beams, walls.dormers) if walls else ()
    room = Room(tuple(w.start for w in plan), plan, ceiling, doors, windows, fixtures, *over)
    check_under_slopes(top, room)
    if plan:
        check_room_for(entries, room.bounds, ceiling)
    lost = broken(top.faults, top.data)
    lost.check_walls(top.faults, top.data)
    pieces = tie(entries, lost)
    if room.hung or not room.is_level:
        pieces = tuple(sat_on(piece, people) for piece in pieces)
    today, held = read_today(entries, pieces, walls, room)
    _check_names(top, room, [p.name for p in pieces])
    wishes = read_wishes(top, room, pieces, lost)
    costs = read_costs(top, room, pieces, lost)
    money = read_money(top)
    scheme = read_scheme(top, [(entry.table, entry.pieces[0].model) for entry in entries])
    finish = read_finish(top)
    top.finish()
    top.faults.stop()
    return Scenario(
        title=title,
        room=room,
        pieces=pieces,
        wishes=wishes,
        unit=top.unit,
        walkway=walkway,
        walkway_overridden=top.has("walkway"),
        feel=feel,
        use=use,
        settings=settings,
        costs=costs,
        money=money,
        people=people,
        scheme=scheme,
        finish=finish,
        today=today,
        held=held,
        expected=expected if top.has("expected") else None,
        survey=walls.survey if walls else None,
        source_file=name,
    )


def _check_names(top: Table, room: Room, pieces: list[str]) -> None:
    """Names must tell things apart; a wish could not say which one it means."""
    fixed = [d.name for d in room.doors] + [w.name for w in room.windows]
    fixed += [f.name for f in room.fixtures]
    walls = {w.name for w in room.walls} | {w.part_of for w in room.walls if w.part_of}
    names = Counter(n.casefold() for n in [*pieces, *fixed, *walls])
    for name in (n for n, times in names.items() if times > 1):
        hint = "give each a name of its own, or use count = 2 for two of the same"
        given = f'"{name}" is the name of {names[name]} things'
        top.faults.add("name", given, "each name can be used only once", hint)


def _refused(file: str, where: str, given: str, allowed: str, hint: str = "") -> ScenarioError:
    return ScenarioError(file, (Fault(where, given, allowed, hint),))


def _toml_fault(message: str) -> tuple[str, str, str, str]:
    found = re.search(r"\(at (line \d+), column (\d+)\)", message)
    where = found[1] if found else "end of the file"
    what = message.split(" (at ", maxsplit=1)[0]
    if what == r"Illegal character '\n'":
        what = "some text has no closing quotation mark on its line"
    if what.startswith(TWICE):
        what = "the same key or heading once more"
    if "escape" in what:
        hint = "inside quotation marks write inches as in or ft, or use single quotation marks"
    elif what.startswith("the same"):
        hint = "write each once; several pieces, doors or wishes have [[two]] brackets each"
    else:
        hint = "text needs quotation marks, headings need square brackets"
    return where, what, "the file must be TOML: key = value, one a line", hint
