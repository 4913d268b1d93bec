"""What the file of each answer holds: result, swap, today, why, check, compare, shop.

Every length is in mm, points run from 0 to 100. The page ``scenarios/RESULT.md`` describes
all of it. Nothing in here depends on how long a run took or where it ran, so the same
answer gives the same bytes; times stand apart in ``run_data``.

Each answer is a ``Record`` of its class: where a key holds what several fields tell, or
words, it is made for the file; all other fields go by themselves. Answers about sizes are in
``arrange/output/sizes.py``.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any, get_args

from arrange.data.arrangement import Arrangement
from arrange.data.change import Change
from arrange.data.comparison import LETTERS, Comparison, Option, Row
from arrange.data.conflict import Arithmetic, Conflict, Crossed, Section
from arrange.data.need import Post
from arrange.data.piece import Piece
from arrange.data.repair import Relaxation, Repair, Repairs, Why
from arrange.data.result import (
    FAULT,
    PARTS,
    Alone,
    Checked,
    Families,
    Family,
    Gap,
    Reason,
    Result,
    Suggestion,
    Verdict,
    parted,
)
from arrange.data.scenario import Scenario
from arrange.data.swap import Answer, Compared, Moved, Plan, Reading, Swap, Today
from arrange.output.fields import About, Data, Made, Record, from_points, in_points, read_as
from arrange.output.rooms import PLACED, keep_off, read_placement, walkway
from arrange.shop.listing import NOT_YET, Entry, ShoppingList
from arrange.whatif.requirements import describe
from arrange.whatif.setting_out import SetDown, Taped, setting_out
from arrange.whatif.slack import spares
from arrange.words.cautions import cautions
from arrange.words.compare import notes_words, remark_words
from arrange.words.swap import headline, held_words, note_words, where_it_went
from arrange.words.tight import Tight, tight_words, tighter_than_usual
from arrange.words.why import repair_words

if TYPE_CHECKING:
    from arrange.whatif.move import Move

CHECK, SWAP, TODAY, WHY = "check.json", "swap.json", "today.json", "why.json"

REASON = Record[Reason](
    Reason, "rule part subjects sentence measured wanted won possible faults", points="won possible"
)

# An arrangement that was judged: Suggestion, Plan and Today have these keys.
JUDGED = (
    "faults=verdict.faults parts reasons=verdict.reasons cautions pieces walkway "
    "tightest_gaps=verdict.gaps tighter_than_usual"
)


def _parts(judged: Suggestion | Plan | Today, _: About) -> list[Data]:
    """The parts of a score in their order, before the reasons."""
    return [
        {
            "part": part,
            "called": PARTS[part],
            "won": in_points(won),
            "possible": in_points(possible),
        }
        for part, (won, possible) in judged.verdict.parts.items()
    ]


def _fewest(judged: Suggestion | Plan, _: About) -> int:
    """How many faults of first rank every arrangement has, as far as is proven."""
    return parted(judged.bound)[0]


def _keep_off(_: object, about: About) -> list[Data]:
    return keep_off(about.scenario)


def _verdict(data: Mapping[str, Any], about: About) -> Verdict:
    """What the judge said of an arrangement that keeps every must."""
    reasons = read_as(tuple[Reason, ...], data["reasons"], about)
    gaps = read_as(tuple[Gap, ...], data["tightest_gaps"], about)
    return Verdict((), reasons, from_points(data["score"]), gaps)


def _bound(data: Mapping[str, Any], about: About) -> int:
    """The standing that nothing surpasses."""
    fewest: int = read_as(int, data["fewest_faults"], about)
    most: int = from_points(data["at_most"])
    return most - FAULT * fewest


def _arrangement(data: Mapping[str, Any], about: About) -> Arrangement:
    return Arrangement(tuple(read_placement(piece, about) for piece in data["pieces"]))


Record[Taped](Taped, rare="neighbour")
Record[SetDown](SetDown, rare="corner askew")
MADE_ALIKE: Mapping[str, Made[Any]] = {
    "parts": _parts,
    "cautions": lambda _, about: cautions(about.scenario, about.arrangement, full=True),
    "pieces": lambda _, about: [PLACED.write(one, about) for one in about.scenario.pieces],
    "walkway": lambda _, about: walkway(about.scene),
    "tighter_than_usual": lambda _, about: tighter_than_usual(about.scenario, about.arrangement),
}


TIGHT = Record[Tight](
    Tight,
    "piece clearance free usual sentence",
    blank="clearance",
    leave="where",
    sentence=lambda one, about: tight_words(one, about.unit),
)
SUGGESTION = Record[Suggestion](
    Suggestion,
    f"rank score=verdict.score proven at_most=most fewest_faults {JUDGED} spare set_down",
    points="score at_most",
    leave="seconds bound",
    alike=MADE_ALIKE,
    fewest_faults=_fewest,
    spare=lambda one, about: spares(about.scenario, one.arrangement),
    set_down=lambda one, about: setting_out(about.scenario, one.arrangement),
    read={"verdict": _verdict, "arrangement": _arrangement, "bound": _bound},
)


def _suggested(scenario: Scenario, one: Suggestion) -> Data:
    return SUGGESTION.write(one, About(scenario, one.arrangement))


def _best(result: Result) -> int | None:
    return result.suggestions[0].verdict.score if result.suggestions else None


def _gap(result: Result, _: About) -> float | None:
    best = _best(result)
    return None if best is None else in_points(result.suggestions[0].most - best)


def made_from(_: object, about: About) -> str | None:
    """The scenario file as it was named, a full path cut to its name; None if it was no file."""
    path = Path(about.scenario.source_file)
    if path.suffix.lower() != ".toml":
        return None
    return path.name if path.is_absolute() else path.as_posix()


def asked_of(_: object, about: About) -> str:
    """By which a proof is known as one of the same scenario."""
    return about.scenario.mark


RESULT = Record[Result](
    Result,
    "format title outcome score at_most gap interrupted seed unit feel=scenario.feel notes "
    "wishes=scenario.wishes versions scenario_file made_of files room keep_off "
    "arrangements=suggestions "
    "families why",
    leave="seconds first_seconds bound",
    score=lambda result, _: in_points(_best(result)),
    at_most=lambda result, _: in_points(result.suggestions[0].most) if result.suggestions else None,
    gap=_gap,
    scenario_file=made_from,
    made_of=lambda result, _: result.scenario.loose.mark,
    keep_off=_keep_off,
    arrangements=lambda result, _: [_suggested(result.scenario, s) for s in result.suggestions],
)


def version_data(result: Result, moved: Move, origin: str, files: tuple[str, ...] = ()) -> Data:
    """An arrangement with one piece moved, as ``as_data``; and what was moved, from which plan."""
    told = {"piece": moved.piece, "how": moved.how, "from": origin}
    return {**as_data(result, files), "moved": told}


FAMILIES = Record[Families](
    Families, "count complete undecided", count=lambda found, _: len(found.families)
)
FAMILY = Record[Family](
    Family,
    "score faults proven stands=key placements=arrangement.placements",
    points="score",
    stands=lambda family, _: [
        {"model": model, "wall": None if wall == "free" else wall, "facing": facing}
        for model, wall, facing in family.key
    ],
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


# Why nothing works, and what would have to give. Requirements are numbered within their set, so
# what speaks of them is made by the set.
def _members(conflict: Conflict, about: About) -> list[Data]:
    return [
        {
            **Record.of(type(one)).write(one, about),
            "words": describe(about.scenario, one, conflict.requirements),
        }
        for one in conflict.requirements
    ]


def _arithmetic(conflict: Conflict, _: About) -> Data | None:
    figures: Arithmetic | None = conflict.arithmetic
    if figures is None:
        return None
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


CONFLICT = Record[Conflict](
    Conflict,
    "confirmed minimal members=requirements without arithmetic",
    members=_members,
    without=lambda conflict, _: [
        {"member": i, "placements": w.arrangement.placements}
        for w in conflict.without
        for i, m in enumerate(conflict.requirements, start=1)
        if m == w.requirement
    ],
    arithmetic=_arithmetic,
)
SECTION = Record(Section, "start end asked there beside", blank="beside")
CROSSED = Record[Crossed](
    Crossed, "what body there asked", leave="start end", there=lambda part, _: part.end - part.start
)
RELAXATION = Record[Relaxation](
    Relaxation,
    "sort=key names words note source effort=cost effort_is_for=reason below_least=below changes",
    leave="level touches monotone monotone_unwalked drops like",
    sort=lambda one, _: one.kind,
    names=lambda one, _: [n for n in one.names if not (one.kind == "wish" and n.isdigit())],
)
REPAIR = Record[Repair](
    Repair,
    "effort=cost least_effort=cheapest gives walkway=scenario.walkway arrangement=suggestion",
    arrangement=lambda repair, _: _suggested(repair.scenario, repair.suggestion),
)
REPAIRS = Record[Repairs](
    Repairs,
    "sentence candidates at_once complete=closed undecided proposals=repairs",
    leave="scenario works",
    sentence=lambda found, _: repair_words(found),
)
WHY_NOT = Record[Why](
    Why,
    "format title answer=conflicts.answer interrupted seed unit versions files untouchable room "
    "keep_off faults_of_the_room=conflicts.room clashes=conflicts.sets "
    "no_other_clash_beside_these=conflicts.complete would_have_to_give=repairs",
    keep_off=_keep_off,
)


def why_data(why: Why, files: tuple[str, ...] = ()) -> Data:
    """Everything about the answer but its times; ``files`` are the names written with it."""
    return WHY_NOT.write(why, About(why.conflicts.scenario, files=files))


# A change by its name and what it sets, a whole piece by its kind and sizes.
for _kind in get_args(Change):
    Record(_kind, "change", change=lambda change, _: type(change).__name__)
PIECE = Record(Piece, "name kind width depth height price goes_with=anchor", only=True)

# A swap, and the room as it stands today.
PLAN = Record[Plan](
    Plan,
    f"proven at_most=most fewest_faults score {JUDGED}",
    points="at_most score",
    leave="scenario arrangement bound",
    alike=MADE_ALIKE,
    fewest_faults=_fewest,
)
ANSWER = Record[Answer](
    Answer,
    "answer plan",
    plan=lambda answer, _: (
        (plan := answer.plan) and PLAN.write(plan, About(plan.scenario, plan.arrangement))
    ),
)
COMPARED = Record(Compared, "rule subjects gained before after", points="gained")
MOVED = Record[Moved](
    Moved,
    "piece was move far words",
    blank="was",
    leave="before after",
    words=lambda one, about: where_it_went(one, about.unit),
)
READING = Record(Reading, "before after reasons moved")
EXCHANGED = Record[Swap](
    Swap,
    "format title answer sentence interrupted seed unit notes versions files changes kept "
    "same_scale price_difference=price room everything_else_may_move=free nothing_else_moves=held",
    leave="before after start holds follows slides seconds",
    sentence=lambda swap, _: headline(swap),
    notes=lambda swap, _: [note_words(note) for note in swap.notes],
    nothing_else_moves=lambda swap, about: {
        "means": held_words(swap),
        "held_where": swap.start,
        "held": swap.holds,
        "follow": swap.follows,
        "slide": [{"piece": piece, "along": wall or None} for piece, wall in swap.slides],
        **READING.write(swap.held, about),
    },
)
AS_IT_STANDS = Record[Today](
    Today,
    "format title works=verdict.works unit left_out apart wishes=scenario.wishes versions files "
    "room keep_off "
    f"broken=verdict.breaches score=verdict.score {JUDGED}",
    points="score",
    leave="scenario arrangement",
    alike=MADE_ALIKE,
    keep_off=_keep_off,
)


def swap_data(swap: Swap, files: tuple[str, ...] = ()) -> Data:
    """Everything about a swap but its times; ``files`` are the names written with it."""
    return EXCHANGED.write(swap, About(swap.before, files=files))


def today_data(today: Today, files: tuple[str, ...] = ()) -> Data:
    """The room as it stands, judged."""
    return AS_IT_STANDS.write(today, About(today.scenario, today.arrangement, files))


# Whether each piece fits alone in the empty room.
LOOKED_OVER = Record[Checked](
    Checked,
    "format title fine unit versions scenario_file files broken=room pieces=findings "
    "survey=scenario.survey",
    scenario_file=made_from,
)
ALONE = Record[Alone](
    Alone,
    "piece answer cause together_with=others",
    leave="wishes",
    cause=lambda found, _: found.cause or None,
)


def check_data(checked: Checked, files: tuple[str, ...] = ()) -> Data:
    """What was looked at, and what was found of each piece."""
    return LOOKED_OVER.write(checked, About(checked.scenario, files=files))


# Options side by side, each by its letter.
def _letters(numbers: Iterable[int]) -> list[str]:
    return [LETTERS[i] for i in numbers]


def _options(comparison: Comparison, about: About) -> list[Data]:
    return [
        {
            "option": letter,
            **OPTION.write(one, replace(about, scenario=one.scenario, arrangement=one.arrangement)),
        }
        for letter, one in zip(LETTERS, comparison.options, strict=False)
    ]


OPTION = Record[Option](
    Option,
    "asked title unit origin state works score faults at_most broken notes to_buy=cost.total "
    "without_price=cost.unpriced tightest_gaps=gaps spare placements=arrangement",
    points="score at_most",
    leave="scenario reasons left_out unjudged scale",
    notes=lambda option, _: notes_words(option),
    placements=lambda option, _: option.arrangement.placements if option.arrangement else (),
)
ROW = Record[Row](Row, "rule title subjects part best", best=lambda row, _: _letters(row.best))
SIDE_BY_SIDE = Record[Comparison](
    Comparison,
    "format works one_scale remark best interrupted versions files options",
    remark=lambda comparison, _: remark_words(comparison),
    best=lambda comparison, _: _letters(comparison.best),
    options=_options,
)


def compare_data(comparison: Comparison, files: tuple[str, ...] = ()) -> Data:
    """Everything about a comparison; ``files`` are the names of what was written beside it."""
    return SIDE_BY_SIDE.write(comparison, About(comparison.options[0].scenario, files=files))


# The list to shop with. Sums are written by their digits.
SHOPPING = Record[ShoppingList](
    ShoppingList,
    "format title outcome=result.outcome score plan bought recorded "
    "currency=scenario.money.currency "
    "budget=scenario.money.budget comes_in=scenario.money.comes_in "
    "set_aside=scenario.money.kept total left without_price=unpriced "
    "unit versions scenario_file made_of files pieces=entries apart rest=items paint_last why",
    leave="result",
    plan=lambda found, _: found.plan or None,
    recorded=lambda found, _: found.recorded or None,
    paint_last=lambda *_: NOT_YET,
    why=lambda found, _: None if found.why is None else why_data(found.why),
    score=lambda found, _: in_points(_best(found.result)),
    scenario_file=made_from,
    made_of=asked_of,
)
POST = Record[Post](Post, "what=item piece each count sum=total")
ENTRY = Record[Entry](
    Entry,
    "list=group piece=piece.name kind=piece.kind width=piece.width depth=piece.depth "
    "height=piece.height widest=width.mm widest_proven=width.sure widest_looks=width.looks "
    "deepest=depth.mm deepest_proven=depth.sure deepest_looks=depth.looks price=piece.price "
    "delivery=piece.delivery paid=piece.paid cost total account=posts where why",
)


def shop_data(found: ShoppingList, files: tuple[str, ...] = ()) -> Data:
    """Everything about a shopping list; ``files`` are the names written with it."""
    return SHOPPING.write(found, About(found.scenario, files=files))
