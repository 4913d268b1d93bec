"""Reads a scenario file that leaves open what to have: ``[[need]]``, and pieces with ``meets``.

A way to choose is the same file with the other candidates struck out, and is read as if it had
been written so: what stands beside what, and every check, are those of any other file.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from pathlib import Path
from typing import Any

from arrange.data.need import Candidate, Need, Needs, Post
from arrange.data.people import DRESSED_IN, Sets, in_need, lamp_or_place, sat_on
from arrange.data.piece import Piece
from arrange.data.scenario import Scenario, Unit, Use
from arrange.errors import ArrangeError, ScenarioError
from arrange.rules.selectors import use_of
from arrange.scenario.counted import Where, counted_in, with_ways
from arrange.scenario.editing import Edited, coming_in, group_of, names_of, rewritten, without
from arrange.scenario.faults import Faults, shown
from arrange.scenario.limits import check_counts, text_of
from arrange.scenario.read import UNITS, parsed, read_data
from arrange.scenario.table import Table
from arrange.scenario.wishes import RELATIONS

Row = Mapping[str, Any]
OF_NEEDS = ("meets", "set", "materials", "hours", "sells_for")  # keys of a piece, for this alone
POINTS, MOST_POINTS = 10, 100
FEEL_POINTS, MOST_FEEL_POINTS = 2, 20
FEEL = "feel_points"
MOST_HOURS = 1000
# What is needed for who lives here: in which respect, what meets it, and how it is called.
OF_PEOPLE: tuple[tuple[Sets, Callable[[Piece], bool], str], ...] = (
    ("lamp at the bed", lamp_or_place, "a lamp to switch on from the bed, for {} at night"),
    ("seat for shoes", sat_on, "a seat to put shoes on from, for {}"),
)
EXAMPLE = 'write it like: meets = "a desk"'


@dataclass(frozen=True)
class OpenScenario:
    """A file that leaves open what to have. ``whole`` has every candidate in it at once."""

    needs: Needs
    whole: Scenario
    use: Use
    _data: Row = field(repr=False)
    _owner: tuple[str | None, ...] = field(repr=False)  # the candidate of each piece's table

    @property
    def source_file(self) -> str:
        """Where it was read from."""
        return self.whole.source_file

    def scenario(self, chosen: Sequence[str]) -> Scenario:
        """The scenario with these candidates alone; KeyError for one that is not there.

        What the room is for is the same in all, so that their points are shared out alike.
        """
        for name in chosen:
            self.needs.candidate(name)
        data = self.data(chosen)
        if not data["piece"]:  # all of it can be done without, and nothing else is there
            return replace(self.whole.unfurnished, use=self.use)
        found = read_data(data, self.whole.source_file)
        return replace(found, use=self.use, survey=self.whole.survey)

    def text(self, chosen: Sequence[str], text: str) -> str | None:
        """The file's own ``text`` with these candidates alone, its comments kept, for ``read``.

        None where it is written so that it cannot be changed safely.
        """
        scenario, left = self.scenario(chosen), iter(self.data(chosen)["piece"])
        pieces = tuple((next(left),) if one is None or one in chosen else () for one in self._owner)
        _, meant, gone = _remaining(self._data, self._owner, chosen)
        wishes = [_wish(row, meant, gone) for row in _rows(self._data.get("wish"))]
        tables = Edited(
            self._data, pieces, tuple((row,) if row is not None else () for row in wishes)
        )
        account = self.needs.choice(chosen).account
        sold = -sum((post.total for post in account if post.item == "sale"), Decimal(0))
        try:
            bare = without(text, ("need",), (("", FEEL), ("money", "hour")))
            if sold:  # what is sold is no piece of that file, but may be spent
                purse = scenario.money
                purse = replace(purse, comes_in=purse.comes_in + sold)
                bare, scenario = coming_in(bare, purse.comes_in), replace(scenario, money=purse)
            if "use" not in self._data:  # what it is for is taken from all candidates together
                bare = f'use = "{self.use}"\n{bare}'
            return rewritten(bare, tables, scenario)
        except (ArrangeError, ValueError, LookupError):
            return None

    def data(self, chosen: Sequence[str]) -> dict[str, Any]:
        """The tables of the file with the other candidates struck out."""
        return _struck(self._data, self._owner, chosen)


def read_open(path: str | Path) -> OpenScenario:
    """The open scenario in the file at ``path``.

    Raises
    ------
    ScenarioError
        With every fault found: no need, a need that nothing meets, a piece that meets no need
        of the file, a piece to get that has no price, and all that ``read`` finds.
    """
    return read_open_text(text_of(path), str(path))


def read_open_text(text: str, name: str = "text") -> OpenScenario:
    """The open scenario written in ``text``; ScenarioError as ``read_open``."""
    return read_open_data(parsed(text, name), name)


def read_open_data(data: Row, name: str) -> OpenScenario:
    """The open scenario in the tables of a file; ScenarioError as ``read_open``."""
    faults = Faults(name)
    check_counts(data, faults)
    units: dict[str, Unit] = {unit: unit for unit in UNITS}
    top = Table(data, "", faults, units.get(str(data.get("unit", "cm")), "cm"))
    needs = _needs(top)
    hour = _hour(top)
    feel_lack = 10 * top.whole(FEEL, FEEL_POINTS, 0, MOST_FEEL_POINTS)
    tables = top.tables("piece")
    meets = [_meets(table, [need.name for need in needs]) for table in tables]
    owner = _owners(tables)
    whole = _read_whole(data, tuple(owner), name, faults)
    if whole is None:
        faults.stop()
        raise AssertionError("a file that cannot be read has faults")
    candidates, fixed = _account(tables, meets, owner, whole, hour)
    tags = [_tags(table, whole) for table in tables]
    found = Needs(
        tuple(needs),
        tuple(replace(c, tags=_joined(tags, owner, c.name)) for c in candidates),
        tuple(fixed),
        tuple(word for word in whole.feel if any(word in each for each in tags)),
        feel_lack,
        _joined(tags, owner, None),
    )
    _check_met(found, faults, top)
    faults.stop()
    answer = OpenScenario(found, whole, use_of(whole), data, tuple(owner))
    _read_each(answer, faults)
    faults.stop()
    where = Where([need.name for need in needs], owner)
    found = with_ways(found, answer.scenario, faults, where)
    faults.stop()
    return replace(answer, needs=_with_peoples(found, whole))


def _needs(top: Table) -> list[Need]:
    tables = top.tables("need")
    if top.raw("need") in (None, []):
        hint = "arrange suggest places the pieces of a file that leaves nothing open"
        top.fault("need", "no needs given", "at least one [[need]] is needed to choose", hint)
    pieces = {str(word).casefold() for row in _rows(top.data.get("piece")) for word in _called(row)}
    found: list[Need] = []
    for table in tables:
        name = table.text("name")
        if not name and not table.has("name"):
            table.fault("name", "no name given", 'say what must be possible, such as "a desk"')
        may_lack = table.flag("may_lack")
        points = table.whole("points", POINTS, 1, MOST_POINTS)
        counted = counted_in(table)
        if table.has("points") and not may_lack:
            table.fault("points", "given for a need that must be met", "add may_lack = true")
        table.finish()
        if name.casefold() in pieces:
            given = f'"{name}" is the name of a piece, too'
            table.fault("name", given, "say the need in other words than what meets it")
        if name and name.casefold() in {need.name.casefold() for need in found}:
            table.fault("name", f'"{name}" is there twice', "each name can be used only once")
        elif name:
            found.append(Need(name, 10 * points if may_lack else None, counted))
    return found


def _hour(top: Table) -> Decimal:
    """What an hour of the person's own work counts; 0 if they do not say."""
    value = top.data.get("money")
    if not isinstance(value, Mapping) or "hour" not in value:
        return Decimal(0)
    return Table(value, "money", top.faults, top.unit).money("hour") or Decimal(0)


def _meets(table: Table, needs: Sequence[str]) -> tuple[str, ...]:
    """The needs that a piece says it meets, in the file's order of needs."""
    value = table.raw("meets")
    if value is None:
        return ()
    given = value if isinstance(value, list) else [value]
    words = [" ".join(word.split()) for word in given if isinstance(word, str)]
    if not all(words) or len(words) < max(1, len(given)):
        table.fault("meets", f"{shown(value)} given", "the name of a need, or a list", EXAMPLE)
        return ()
    known = {need.casefold(): need for need in needs}
    for word in words:
        if word.casefold() not in known:
            table.faults.unknown(table.at("meets"), word, list(needs), "the need")
    met = {known.get(word.casefold()) for word in words}
    return tuple(need for need in needs if need in met)


def _owners(tables: Sequence[Table]) -> list[str | None]:
    """The candidate that each table of a piece belongs to; None for what is there in any case."""
    owner: list[str | None] = []
    sets: dict[str, list[int]] = {}
    for i, table in enumerate(tables):
        word = table.text("set")
        owner.append(word or (_name(table) if table.has("meets") else None))
        if word:
            sets.setdefault(word, []).append(i)
    for word, members in sets.items():
        if not any(tables[i].has("meets") for i in members):
            given = f'nothing of the set "{word}" meets a need'
            tables[members[0]].fault(
                "set", given, "at least one of its pieces must meet one", EXAMPLE
            )
    return owner


def _name(table: Table) -> str | None:
    try:
        return group_of(table.data)
    except KeyError:
        return None  # of no known kind: the reader says so


def _read_whole(
    data: Row, owner: tuple[str | None, ...], name: str, faults: Faults
) -> Scenario | None:
    """Everything at once: whatever is wrong with any piece or with the room."""
    everything = [one for one in dict.fromkeys(owner) if one is not None]
    try:
        return read_data(_struck(data, owner, everything), name)
    except ScenarioError as error:
        for fault in error.faults:
            faults.add(fault.where, fault.given, fault.allowed, fault.hint)
    return None


def _read_each(found: OpenScenario, faults: Faults) -> None:
    """Every candidate in its turn: what is wrong only where it is chosen."""
    needs = found.needs
    most = max(len(needs.meeting(need.name)) for need in needs.needs)
    told: set[str] = set()
    for turn in range(most):
        chosen = []
        for need in needs.needs:
            meeting = needs.meeting(need.name)
            chosen.append(meeting[turn % len(meeting)].name)
        try:
            found.scenario(list(dict.fromkeys(chosen)))
        except ScenarioError as error:
            for fault in error.faults:
                if f"{fault.given} {fault.allowed}" not in told:
                    told.add(f"{fault.given} {fault.allowed}")
                    where = f"with {', '.join(dict.fromkeys(chosen))}: {fault.where}"
                    faults.add(where, fault.given, fault.allowed, fault.hint)


def _account(
    tables: Sequence[Table],
    meets: Sequence[tuple[str, ...]],
    owner: Sequence[str | None],
    whole: Scenario,
    hour: Decimal,
) -> tuple[list[Candidate], list[Post]]:
    """Every candidate with what it costs, and what is got in any case."""
    fixed: list[Post] = []
    found: dict[str, Candidate] = {}
    for table, met, name in zip(tables, meets, owner, strict=True):
        names = names_of(table.data)
        costs = _posts(table, whole, hour)
        sale = _sale(table, whole, candidate=name is not None)
        fixed += _paid(whole, names)
        if name is None:
            fixed += costs
            continue
        piece = whole.piece(names[0])
        old = found.get(name, Candidate(name, (), (), owned=True))
        found[name] = replace(
            old,
            needs=(*old.needs, *(need for need in met if need not in old.needs)),
            pieces=(*old.pieces, *names),
            costs=(*old.costs, *costs),
            sale=(*old.sale, *sale),
            owned=old.owned and piece.owned,
            bought=old.bought or piece.paid is not None,
            area=old.area + piece.width * piece.depth * len(names),
        )
    return list(found.values()), fixed


def _posts(table: Table, whole: Scenario, hour: Decimal) -> list[Post]:
    """What it takes to have the pieces of a table."""
    names = names_of(table.data)
    piece, count = whole.piece(names[0]), len(names)
    what = piece.model
    posts: list[Post] = []
    if not piece.owned:
        if piece.price is None:
            hint = "price = 0 if it costs nothing, owned = true if you have it"
            table.fault("price", f'"{what}" has no price', "what you choose by must be known", hint)
        posts.append(Post("price", what, piece.price or Decimal(0), count))
        if piece.delivery:
            posts.append(Post("delivery", what, piece.delivery, count))
    for key in ("materials", "hours"):
        if table.has(key) and piece.buy != "make over":
            given = f'{key} is for buy = "make over", not "{piece.buy}"'
            table.fault(key, given, "leave it out")
    materials = table.money("materials") if table.has("materials") else None
    hours = table.whole("hours", 0, 0, MOST_HOURS)
    if materials:
        posts.append(Post("materials", what, materials, count))
    if hours and hour:
        posts.append(Post("hours", what, hour * hours, count))
    return [post for post in posts if post.each]


def _paid(whole: Scenario, names: Sequence[str]) -> list[Post]:
    """What was spent on the pieces of a table: it is gone, whatever is chosen."""
    piece = whole.piece(names[0])
    return [Post("paid", piece.model, piece.paid, len(names))] if piece.paid else []


def _sale(table: Table, whole: Scenario, *, candidate: bool) -> list[Post]:
    """What selling the pieces of a table brings."""
    names = names_of(table.data)
    piece = whole.piece(names[0])
    if not table.has("sells_for"):
        return []
    if not candidate or not piece.owned:
        given = f'"{piece.model}" is {"not yours to sell" if candidate else "kept in any case"}'
        table.fault("sells_for", given, "it is for what you own and may choose", "leave it out")
    worth = table.money("sells_for")
    return [Post("sale", piece.model, -worth, len(names))] if worth else []


def _tags(table: Table, whole: Scenario) -> frozenset[str]:
    """What the pieces of a table are tagged with."""
    swatch = whole.scheme.named(group_of(table.data))
    return frozenset() if swatch is None else frozenset(swatch.tags)


def _joined(
    tags: Sequence[frozenset[str]], owner: Sequence[str | None], name: str | None
) -> frozenset[str]:
    """All tags of one candidate; of what is there in any case for None."""
    own = (each for each, one in zip(tags, owner, strict=True) if one == name)
    return frozenset().union(*own)


def _with_peoples(needs: Needs, whole: Scenario) -> Needs:
    """With what is needed for who lives here, where candidates meet it and nothing else does.

    Never musts: a choice without loses points.
    """
    sure = {p.name for p in whole.pieces}.difference(*(c.pieces for c in needs.candidates))
    for sets, meets, what in OF_PEOPLE:
        need = in_need(whole.people, sets)
        met = {p.name for p in whole.pieces if meets(p)}
        meeting = {c.name for c in needs.candidates if met.intersection(c.pieces)}
        dressed = sets != "seat for shoes" or use_of(whole) in DRESSED_IN
        if need is None or not meeting or met & sure or not dressed:
            continue
        if any({c.name for c in needs.meeting(one.name)} <= meeting for one in needs.needs):
            continue  # the file says so itself, and how much it counts
        row, whom = need
        name = what.format(whom)
        needs = replace(
            needs,
            needs=(*needs.needs, Need(name, 10 * row.points)),
            candidates=tuple(
                replace(c, needs=(*c.needs, name)) if c.name in meeting else c
                for c in needs.candidates
            ),
        )
    return needs


def _check_met(needs: Needs, faults: Faults, top: Table) -> None:
    """Every need has a candidate."""
    rows = _rows(top.data.get("need"))
    for need in needs.needs:
        if not needs.meeting(need.name):
            at = next(i for i, row in enumerate(rows, 1) if _same(row.get("name"), need.name))
            given = f'nothing meets "{need.name}"'
            allowed = "at least one piece must say that it does"
            faults.add(f"need[{at}]", given, allowed, f'write meets = "{need.name}" under it')


def _same(word: object, name: str) -> bool:
    return isinstance(word, str) and " ".join(word.split()) == name


def _struck(data: Row, owner: Sequence[str | None], chosen: Sequence[str]) -> dict[str, Any]:
    """The tables of a file with only these candidates in it, and no word of needs."""
    kept, meant, gone = _remaining(data, owner, chosen)
    after = {key: value for key, value in data.items() if key not in ("need", FEEL)}
    if isinstance(data.get("money"), Mapping):
        after["money"] = {key: value for key, value in data["money"].items() if key != "hour"}
    if "piece" in data:
        after["piece"] = [_piece(row, meant, gone) for row in kept]
    if isinstance(data.get("wish"), list):
        wishes = [_wish(row, meant, gone) for row in data["wish"]]
        after["wish"] = [row for row in wishes if row is not None]
    if isinstance(data.get("costs"), Mapping) and isinstance(
        spared := data["costs"].get("untouchable"), list
    ):
        left = [word for word in spared if _plain(word) not in gone]
        after["costs"] = {**data["costs"], "untouchable": left}
    return after


def _remaining(
    data: Row, owner: Sequence[str | None], chosen: Sequence[str]
) -> tuple[list[Row], dict[str, str | None], set[str]]:
    """The pieces left with these candidates, what each need is called, and words for no piece."""
    rows = _rows(data.get("piece"))
    kept = [row for row, one in zip(rows, owner, strict=True) if one is None or one in chosen]
    left = {word for row in kept for word in _called(row)}
    gone = {word for row in rows for word in _called(row)} - left
    return kept, _meant(data, kept), gone


def _meant(data: Row, kept: Sequence[Row]) -> dict[str, str | None]:
    """What each need is called in the room: the first piece kept that meets it, None without."""
    found: dict[str, str | None] = {
        _plain(row.get("name")): None for row in _rows(data.get("need"))
    }
    for row in kept:
        words = row.get("meets")
        for word in words if isinstance(words, list) else [words]:
            if found.get(_plain(word), "") is None and _called(row):
                found[_plain(word)] = _called(row)[0]
    return found


def _piece(row: Row, meant: Mapping[str, str | None], gone: set[str]) -> dict[str, Any]:
    """A piece without the keys of needs, beside what is there of what it goes with."""
    after = {key: value for key, value in row.items() if key not in OF_NEEDS}
    word = _plain(row.get("with"))
    if word and word in meant and meant[word] is not None:
        after["with"] = meant[word]
    elif word and (word in meant or word in gone):
        del after["with"]
    return after


def _wish(row: Any, meant: Mapping[str, str | None], gone: set[str]) -> Any:  # noqa: ANN401
    """A wish about what is there; None if it speaks of what is not."""
    if not isinstance(row, Mapping):
        return row
    after = dict(row)
    for key in ("piece", *RELATIONS):
        word = _plain(row.get(key))
        if word and (word in gone or (word in meant and meant[word] is None)):
            return None
        if word and word in meant:
            after[key] = meant[word]
    return after


def _called(row: Row) -> list[str]:
    """The words that mean the pieces of a table, as they are compared."""
    try:
        words = [group_of(row), *names_of(row)]
    except (KeyError, TypeError):
        return []
    return [_plain(word) for word in words]


def _plain(word: object) -> str:
    return " ".join(word.split()).casefold() if isinstance(word, str) else ""


def _rows(value: object) -> list[Row]:
    return [row for row in value if isinstance(row, Mapping)] if isinstance(value, list) else []
