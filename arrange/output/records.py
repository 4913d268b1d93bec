"""What the file of each answer holds: result, swap, today, why, ladder, largest, compare.

Every length is in mm, points run from 0 to 100. The page ``scenarios/RESULT.md`` describes
all of it. Nothing in here depends on how long a run took or where it ran, so the same
answer gives the same bytes; times stand apart in ``run_data``.

Each answer is a ``Record`` of its class. Where a key holds several fields, or one that only
the scenario knows, it is made for the file; all other fields go by themselves.
"""

from __future__ import annotations

import platform
from collections.abc import Iterable, Mapping
from dataclasses import replace
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any, Protocol, get_args

from arrange.data.arrangement import Arrangement
from arrange.data.change import Change
from arrange.data.comparison import LETTERS, Comparison, Option, Row
from arrange.data.conflict import Arithmetic, Conflict, Crossed, Section
from arrange.data.piece import Piece
from arrange.data.repair import Relaxation, Repair, Repairs, Why
from arrange.data.result import Families, Family, Gap, Reason, Result, Suggestion, Verdict
from arrange.data.scenario import Scenario
from arrange.data.sizes import Fall, Ladder, Largest, Rung
from arrange.data.sources import source
from arrange.data.swap import Answer, Compared, Moved, Plan, Reading, Swap, Today
from arrange.output.fields import (
    About,
    Column,
    Data,
    Record,
    in_points,
    made,
    or_none,
    read_as,
    renamed,
    tenths,
)
from arrange.output.rooms import PLACED, keep_off, read_placement, walkway
from arrange.whatif.slack import spares
from arrange.words.cautions import cautions
from arrange.words.compare import notes_words, remark_words
from arrange.words.sizes import ladder_words, largest_words, meaning
from arrange.words.swap import headline, held_words, note_words, where_it_went
from arrange.words.why import describe, repair_words

SWAP, TODAY, WHY = "swap.json", "today.json", "why.json"
LADDER, LARGEST = "ladder.json", "largest.json"
FORMAT = 1
LIBRARIES = ("ortools", "shapely", "numpy", "matplotlib")


@cache
def versions() -> dict[str, str]:
    """The versions that have a say in an answer."""
    found = {name: version(name) for name in ("arrange", *LIBRARIES)}
    return {"arrange": found.pop("arrange"), "python": platform.python_version(), **found}


# Keys that many answers have.
FORMAT_KEY = Column[object]("format", write=lambda _, __: FORMAT)
TITLE = Column[object]("title", write=lambda _, about: about.scenario.title)
UNIT = Column[object]("unit", write=lambda _, about: about.scenario.unit)
VERSIONS = Column[object]("versions", write=lambda _, __: versions())
FILES = Column[object]("files", write=lambda _, about: about.files)
ROOM_KEY = Column[object]("room", write=lambda _, about: about.room)
KEEP_OFF = Column[object]("keep_off", write=lambda _, about: keep_off(about.scenario))

# One line of the score; its source and all that is added come after.
REASON = Record[Reason](
    Reason,
    *("rule", "subjects", "sentence", "measured", "wanted"),
    tenths("won"),
    tenths("possible"),
)


class _Judged(Protocol):
    @property
    def verdict(self) -> Verdict: ...


def _verdict(data: Mapping[str, Any], about: About) -> Verdict:
    """What the judge said of an arrangement that keeps every must."""
    return Verdict(
        (),
        read_as(tuple[Reason, ...], data["reasons"], about),
        round(read_as(float, data["score"], about) * 10),
        read_as(tuple[Gap, ...], data["tightest_gaps"], about),
    )


SCORE = Column[_Judged]("score", "verdict", lambda one, _: in_points(one.verdict.score), _verdict)
# All about an arrangement that was judged, but for its score.
JUDGED: tuple[Column[_Judged], ...] = (
    made("reasons", lambda one, _: one.verdict.reasons),
    made("cautions", lambda _, about: cautions(about.scenario, about.arrangement, full=True)),
    made("pieces", lambda _, about: [PLACED.write(p, about) for p in about.scenario.pieces]),
    made("walkway", lambda _, about: walkway(about.scene)),
    made("tightest_gaps", lambda one, _: one.verdict.gaps),
)


def _arrangement(data: Mapping[str, Any], about: About) -> Arrangement:
    return Arrangement(tuple(read_placement(piece, about) for piece in data["pieces"]))


SUGGESTION = Record[Suggestion](
    Suggestion,
    "rank",
    SCORE,
    "proven",
    tenths("bound", "at_most"),
    *JUDGED,
    made("spare", lambda one, about: spares(about.scenario, one.arrangement)),
    Column("", "arrangement", read=_arrangement),
    without=("seconds",),
)


def _suggested(scenario: Scenario, one: Suggestion) -> Data:
    return SUGGESTION.write(one, About(scenario, one.arrangement))


def _best(result: Result) -> int | None:
    return result.suggestions[0].verdict.score if result.suggestions else None


def _made_from(scenario: Scenario) -> str | None:
    """The scenario file as it was named, a full path cut to its name; None if it was no file."""
    path = Path(scenario.source_file)
    if path.suffix.lower() != ".toml":
        return None
    return path.name if path.is_absolute() else path.as_posix()


RESULT = Record[Result](
    Result,
    FORMAT_KEY,
    TITLE,
    "outcome",
    made("score", lambda result, _: in_points(_best(result))),
    made("at_most", lambda result, _: in_points(result.bound) if result.suggestions else None),
    made(
        "gap",
        lambda result, _: (
            None if (best := _best(result)) is None else in_points(result.bound - best)
        ),
    ),
    "interrupted",
    "seed",
    UNIT,
    made("feel", lambda result, _: result.scenario.feel),
    "notes",
    VERSIONS,
    made("scenario_file", lambda result, _: _made_from(result.scenario)),
    FILES,
    ROOM_KEY,
    KEEP_OFF,
    made(
        "arrangements",
        lambda result, _: [_suggested(result.scenario, s) for s in result.suggestions],
    ),
    "families",
    "why",
    without=("scenario", "suggestions", "bound", "seconds", "first_seconds"),
)
FAMILIES = Record[Families](
    Families, made("count", lambda found, _: len(found.families)), "complete"
)
FAMILY = Record[Family](
    Family,
    tenths("score"),
    "proven",
    Column(
        "stands",
        "key",
        lambda family, _: [
            {"model": model, "wall": None if wall == "free" else wall, "facing": facing}
            for model, wall, facing in family.key
        ],
    ),
    Column("placements", "arrangement", lambda family, _: family.arrangement.placements),
)


def as_data(result: Result, files: tuple[str, ...] = ()) -> Data:
    """Everything about a result but its times; ``files`` are the pictures written with it."""
    return RESULT.write(result, About(result.scenario, files=files))


def run_data(result: Result, limit: float) -> Data:
    """What differs from run to run: seconds taken in all, to the first find and for each."""
    first = result.first_seconds
    return {
        "seconds": round(result.seconds, 3),
        "seconds_to_first": None if first is None else round(first, 3),
        "seconds_allowed": limit,
        "seconds_each": [round(s.seconds, 3) for s in result.suggestions],
    }


# Why nothing works, and what would have to give. Members are numbered within their set, so
# what speaks of them is made by the set.
CONFLICT = Record[Conflict](
    Conflict,
    "confirmed",
    "minimal",
    Column(
        "members",
        "requirements",
        lambda one, about: [
            {
                **Record.of(type(m)).write(m, about),
                "words": describe(about.scenario, m, one.requirements),
            }
            for m in one.requirements
        ],
    ),
    Column(
        "without",
        "without",
        lambda one, _: [
            {"member": i, "placements": w.arrangement.placements}
            for w in one.without
            for i, m in enumerate(one.requirements, start=1)
            if m == w.requirement
        ],
    ),
    Column(
        "arithmetic",
        "arithmetic",
        lambda one, _: one.arithmetic and _arithmetic(one, one.arithmetic),
    ),
)


def _arithmetic(conflict: Conflict, figures: Arithmetic) -> Data:
    brought_down = figures.requirement
    number = None if brought_down is None else conflict.requirements.index(brought_down) + 1
    return {
        "words": figures.text,
        "member": number,
        "side": figures.side or None,
        "asked": figures.asked or None,
        "at_most": None if number is None else figures.most,
        "proven": figures.proven,
        "section": figures.section,
        "placements": figures.arrangement and figures.arrangement.placements,
    }


SECTION = Record[Section](
    Section,
    "start",
    "end",
    made("asked", lambda section, _: section.asked),
    made("there", lambda section, _: section.there),
    or_none("beside"),
)
CROSSED = Record[Crossed](
    Crossed,
    "what",
    "body",
    made("there", lambda part, _: part.end - part.start),
    without=("start", "end"),
)
RELAXATION = Record[Relaxation](
    Relaxation,
    made("sort", lambda one, _: one.key[0]),
    made(
        "names",
        lambda one, _: [n for n in one.names if not (one.key[0] == "wish" and n.isdigit())],
    ),
    "words",
    "note",
    "cost",
    renamed("reason", "cost_is_for"),
    renamed("below", "below_least"),
    "changes",
    without=("key", "level", "touches", "monotone", "like"),
)
REPAIR = Record[Repair](
    Repair,
    made("cost", lambda repair, _: repair.cost),
    "cheapest",
    "gives",
    made("walkway", lambda repair, _: repair.scenario.walkway),
    Column("arrangement", "suggestion", lambda one, _: _suggested(one.scenario, one.suggestion)),
    without=("scenario",),
)
REPAIRS = Record[Repairs](
    Repairs,
    made("sentence", lambda found, _: repair_words(found)),
    "candidates",
    "at_once",
    renamed("closed", "complete"),
    "undecided",
    renamed("repairs", "proposals"),
    without=("scenario", "works"),
)
WHY_RECORD = Record[Why](
    Why,
    FORMAT_KEY,
    TITLE,
    made("answer", lambda why, _: why.conflicts.answer),
    "interrupted",
    "seed",
    UNIT,
    VERSIONS,
    FILES,
    "untouchable",
    ROOM_KEY,
    KEEP_OFF,
    made("faults_of_the_room", lambda why, _: why.conflicts.room),
    made("clashes", lambda why, _: why.conflicts.sets),
    made("no_other_clash_beside_these", lambda why, _: why.conflicts.complete),
    renamed("repairs", "would_have_to_give"),
    without=("conflicts",),
)


def why_data(why: Why, files: tuple[str, ...] = ()) -> Data:
    """Everything about the answer but its times; ``files`` are the names written with it."""
    return WHY_RECORD.write(why, About(why.conflicts.scenario, files=files))


def repair_data(found: Repairs) -> Data:
    """Everything about the proposals, cheapest first."""
    return REPAIRS.write(found, About(found.scenario))


# A change by its name and what it sets, a whole piece by its kind and sizes.
for _kind in get_args(Change):
    Record(_kind, made("change", lambda change, _: type(change).__name__))
PIECE = Record[Piece](
    Piece,
    *("name", "kind", "width", "depth", "height", "price"),
    renamed("anchor", "goes_with"),
    only=True,
)

# A swap, and the room as it stands today.
PLAN = Record[Plan](
    Plan,
    made("proven", lambda plan, _: plan.proven),
    tenths("bound", "at_most"),
    SCORE,
    *JUDGED,
    without=("scenario", "arrangement"),
)
ANSWER = Record[Answer](
    Answer,
    "answer",
    Column(
        "plan",
        "plan",
        lambda one, _: (
            one.plan and PLAN.write(one.plan, About(one.plan.scenario, one.plan.arrangement))
        ),
    ),
)
COMPARED = Record[Compared](
    Compared, "rule", "subjects", made("gained", lambda one, _: in_points(one.gained))
)
MOVED = Record[Moved](
    Moved,
    "piece",
    or_none("was"),
    "move",
    "far",
    made("words", lambda one, about: where_it_went(one, about.scenario.unit)),
    without=("before", "after"),
)
READING = Record[Reading](Reading, "before", "after", "reasons", "moved")
SWAP_RECORD = Record[Swap](
    Swap,
    FORMAT_KEY,
    TITLE,
    made("answer", lambda swap, _: swap.answer),
    made("sentence", lambda swap, _: headline(swap)),
    "interrupted",
    "seed",
    UNIT,
    Column("notes", "notes", lambda swap, _: [note_words(note) for note in swap.notes]),
    VERSIONS,
    FILES,
    "changes",
    "kept",
    "same_scale",
    renamed("price", "price_difference"),
    ROOM_KEY,
    renamed("free", "everything_else_may_move"),
    Column(
        "nothing_else_moves",
        "held",
        lambda swap, about: {
            "means": held_words(swap),
            "held_where": swap.start,
            "held": swap.holds,
            "follow": swap.follows,
            "slide": [{"piece": piece, "along": wall or None} for piece, wall in swap.slides],
            **READING.write(swap.held, about),
        },
    ),
    without=("before", "after", "start", "holds", "follows", "slides", "seconds"),
)
TODAY_RECORD = Record[Today](
    Today,
    FORMAT_KEY,
    TITLE,
    made("works", lambda today, _: today.verdict.works),
    UNIT,
    "left_out",
    "apart",
    VERSIONS,
    FILES,
    ROOM_KEY,
    KEEP_OFF,
    made("broken", lambda today, _: today.verdict.breaches),
    SCORE,
    *JUDGED,
    without=("scenario", "arrangement"),
)


def swap_data(swap: Swap, files: tuple[str, ...] = ()) -> Data:
    """Everything about a swap but its times; ``files`` are the names written with it."""
    return SWAP_RECORD.write(swap, About(swap.before, files=files))


def today_data(today: Today, files: tuple[str, ...] = ()) -> Data:
    """The room as it stands, judged."""
    return TODAY_RECORD.write(today, About(today.scenario, today.arrangement, files))


# A ladder of sizes, and the exact largest size.
LADDER_RECORD = Record[Ladder](
    Ladder,
    FORMAT_KEY,
    TITLE,
    "piece",
    made("sizes_of", lambda ladder, _: ladder.table.title),
    made("sentence", lambda ladder, _: " ".join(ladder_words(ladder))),
    made("comfortably_means", lambda ladder, _: meaning(ladder)),
    made("notes", lambda ladder, _: ladder.table.notes),
    "interrupted",
    UNIT,
    VERSIONS,
    FILES,
    made("largest", lambda ladder, _: ladder.largest and ladder.largest.size.label),
    made(
        "largest_comfortable",
        lambda ladder, _: ladder.largest_comfortable and ladder.largest_comfortable.size.label,
    ),
    made("falls_off", lambda ladder, _: ladder.fall),
    renamed("rungs", "sizes"),
    without=("scenario", "table"),
)
FALL = Record[Fall](
    Fall,
    Column("from", "before", lambda fall, _: fall.before.size.label),
    Column("to", "after", lambda fall, _: fall.after.size.label),
    tenths("loss"),
    renamed("sure", "proven"),
)
RUNG = Record[Rung](
    Rung,
    made("label", lambda rung, _: rung.size.label),
    made("kind", lambda rung, _: rung.size.piece.kind),
    made("width", lambda rung, _: rung.size.piece.width),
    made("depth", lambda rung, _: rung.size.piece.depth),
    made("height", lambda rung, _: rung.size.piece.height),
    made("source", lambda rung, _: source(rung.size.source)),
    "works",
    renamed("comfortable", "works_comfortably"),
    "scale",
    made("score", lambda rung, _: in_points(rung.score)),
    Column("at_most", "bound", lambda rung, _: in_points(rung.bound) if rung.verdict else None),
    made("proven_best", lambda rung, _: rung.proven),
    Column(
        "others_comfortable",
        "others",
        lambda rung, _: (
            dict(zip(("full", "of"), rung.others, strict=True)) if rung.verdict else None
        ),
    ),
    Column(
        "places", "arrangement", lambda rung, _: rung.arrangement and rung.arrangement.placements
    ),
    without=("size", "verdict"),
)
LARGEST_RECORD = Record[Largest](
    Largest,
    FORMAT_KEY,
    TITLE,
    "piece",
    "dimension",
    "answer",
    made("sentence", lambda found, about: largest_words(found, about.scenario)),
    "size",
    renamed("next", "proven_impossible_from"),
    renamed("undecided", "not_decided"),
    "interrupted",
    UNIT,
    VERSIONS,
    FILES,
    Column("places", "arrangement", lambda one, _: one.arrangement and one.arrangement.placements),
    without=("scenario", "asked"),
)


def ladder_data(ladder: Ladder, files: tuple[str, ...] = ()) -> Data:
    """Everything about a ladder; ``files`` are the names written with it."""
    return LADDER_RECORD.write(ladder, About(ladder.scenario, files=files))


def largest_data(found: Largest, scenario: Scenario, files: tuple[str, ...] = ()) -> Data:
    """Everything about a largest size; ``scenario`` is the one that was asked about."""
    return LARGEST_RECORD.write(found, About(scenario, files=files))


# Options side by side, each by its letter.
def _letters(numbers: Iterable[int]) -> list[str]:
    return [LETTERS[i] for i in numbers]


def _option(letter: str, option: Option, about: About) -> Data:
    own = replace(about, scenario=option.scenario, arrangement=option.arrangement)
    return {"option": letter, **OPTION.write(option, own)}


COMPARISON = Record[Comparison](
    Comparison,
    FORMAT_KEY,
    made("works", lambda comparison, _: comparison.works),
    "one_scale",
    made("remark", lambda comparison, _: remark_words(comparison)),
    Column("best", "best", lambda comparison, _: _letters(comparison.best)),
    "interrupted",
    VERSIONS,
    FILES,
    Column(
        "options",
        "options",
        lambda comparison, about: [
            _option(letter, option, about)
            for letter, option in zip(LETTERS, comparison.options, strict=False)
        ],
    ),
)
OPTION = Record[Option](
    Option,
    "asked",
    TITLE,
    UNIT,
    "origin",
    "state",
    made("works", lambda option, _: option.works),
    tenths("score"),
    tenths("at_most"),
    "broken",
    made("notes", lambda option, _: notes_words(option)),
    made("to_buy", lambda option, _: option.cost.total),
    made("without_price", lambda option, _: option.cost.unpriced),
    renamed("gaps", "tightest_gaps"),
    "spare",
    Column(
        "placements",
        "arrangement",
        lambda option, _: option.arrangement.placements if option.arrangement else (),
    ),
    without=("scenario", "reasons", "cost", "left_out", "unjudged"),
)
ROW = Record[Row](
    Row,
    *("rule", "title", "subjects", "part"),
    Column("best", "best", lambda row, _: _letters(row.best)),
)


def compare_data(comparison: Comparison, files: tuple[str, ...] = ()) -> Data:
    """Everything about a comparison; ``files`` are the names of what was written beside it."""
    return COMPARISON.write(comparison, About(comparison.options[0].scenario, files=files))
