"""A swap in words, one piece moved, and the room as it stands today.

For a swap: the answer in a line, what got better and worse, what moved, for the terminal
and, more briefly, for a narrow column of a sheet.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from arrange.data.change import Add, Change, Drop, Exchange, Reprice, Resize
from arrange.data.lengths import a_or_an, listed, measured, money, points, sized, the
from arrange.data.piece import Piece
from arrange.data.result import PARTS
from arrange.data.scenario import Scenario, Unit
from arrange.data.swap import STILL, Answer, Compared, Moved, Note, Reading, Stand, Swap, Today
from arrange.rules.wished import the_wall
from arrange.whatif.move import Move
from arrange.words.places import FREE, TURNED
from arrange.words.reasons import (
    AS_IT_STANDS,
    AVOIDABLE,
    NAMES,
    choose,
    fault_rows,
    faults_head,
    part_rows,
    reason_rows,
    where_words,
    wrapped,
)
from arrange.words.tight import tight_rows, tighter_than_usual

SCALE = (
    "The scores before and after do not compare exactly: other things are asked for, and the "
    "hundred points are shared out among them."
)
MAY_MOVE = "If everything else may move"
WHY = "arrange why tells what is in the way and the smallest changes that help."


def headline(swap: Swap) -> str:
    """The answer in one line.

    With the scores before and after if it works, and how sure it is if it does not.
    """
    what, alone = _subject(swap)
    it = "" if alone else "it "
    before, after = swap.free.before, swap.free.after
    if after.plan is None:
        sure = "(proven)" if after.answer == "impossible" else ""
        if sure:
            return f"{what} {it}does not work{_kept(swap)} {sure}."
        asked = "so far" if swap.interrupted else "in the time"
        return f"{what}: not decided {asked}. It may work or not; --time allows more."
    now = points(after.plan.score)
    if before.plan is None:
        was = "nothing worked before (proven)" if before.answer == "impossible" else (
            "nothing was found before in the time"
        )  # fmt: skip
        return f"{what} {it}works: {now} points; {was}."
    unsure = [w for w, p in (("before", before.plan), ("after", after.plan)) if not p.proven]
    more = f"; there may be a better plan {' and '.join(unsure)}" if unsure else ""
    return f"{what} {it}still works: {points(before.plan.score)} before, {now} after{more}."


def _kept(swap: Swap) -> str:
    """Under what condition, if pieces were to be kept."""
    if not swap.kept:
        return ""
    return f" while {_all(swap.kept)} {'stays' if len(swap.kept) == 1 else 'stay'}"


def _subject(swap: Swap) -> tuple[str, bool]:
    """What is asked about, and whether it is a thing that can itself work."""
    bodies = [c for c in swap.changes if isinstance(c, Resize | Exchange) and not _follows(c, swap)]
    changed = {c.piece for c in bodies}
    shown: list[Change] = [c for c in swap.changes if not isinstance(c, Resize | Exchange)]
    shown = [c for c in shown if not (isinstance(c, Reprice) and c.piece in changed)]
    shown = [*bodies, *shown]
    if len(shown) == len(bodies) == 1:
        text = _thing(swap.after.piece(bodies[0].piece), swap)
        return f"{text[0].upper()}{text[1:]}", True
    text = listed(_clauses(shown, swap)) or "As it is"
    return f"{text[0].upper()}{text[1:]}", False


def _follows(change: Resize | Exchange, swap: Swap) -> bool:
    """An exchange that only ties a piece otherwise is no wish of the person's."""
    if isinstance(change, Resize):
        return False
    old = next((p for p in swap.before.pieces if p.name == change.piece), None)
    return old is not None and (old.kind, old.width, old.depth, old.height) == (
        change.new.kind, change.new.width, change.new.depth, change.new.height
    )  # fmt: skip


def _thing(piece: Piece, swap: Swap) -> str:
    unit = swap.before.unit
    old = next((p for p in swap.before.pieces if p.name == piece.name), None)
    size = sized((piece.width, piece.depth), unit)
    if old is not None and old.height != piece.height:
        size += f" and {measured(piece.height, unit)} high"
    name = piece.name if old is None or old.kind == piece.kind else piece.kind
    text = f"{_a(name)} of {size}"
    if old is not None and piece.price is not None and piece.price != old.price:
        text += f" at {money(piece.price)}"
    return text if name == piece.name else f"{text} in place of the {piece.name}"


def _a(name: str) -> str:
    return name if name[-1:].isdigit() else a_or_an(name)


def _clauses(changes: list[Change], swap: Swap) -> list[str]:
    """One clause each; alike pieces that become alike ones share theirs."""
    found: dict[str, list[str]] = {}
    for change in changes:
        clause = _clause(change, swap)
        name = change.new.name if isinstance(change, Add) else getattr(change, "piece", "")
        numbered = name[-1:].isdigit() and name in clause
        found.setdefault(clause.replace(name, "{}", 1) if numbered else clause, []).append(name)
    return [clause.replace("{}", listed(names)) for clause, names in found.items()]


def _clause(change: Change, swap: Swap) -> str:
    if isinstance(change, Drop):
        name = change.piece
        return f"without {name if name[-1:].isdigit() else f'the {name}'}"
    if isinstance(change, Add):
        return f"with one more: {_thing(change.new, swap)}"
    if isinstance(change, Reprice):
        told = "no price" if change.price is None else money(change.price)
        return f"with {the(change.piece)} at {told}"
    if isinstance(change, Resize | Exchange):
        return f"with {_thing(swap.after.piece(change.piece), swap)}"
    return "with what you changed"


def held_words(swap: Swap) -> str:
    """What "nothing else moves" means here, in a sentence without its end."""
    if swap.start == "best before" and swap.held.before.plan is None:
        nothing = swap.free.before.answer == "impossible"
        before = "nothing worked before" if nothing else "no arrangement was found before"
        return f"nothing says where things stand, and {before}"
    one = len(swap.holds) == 1
    there = f"where {'it stands' if one else 'they stand'} today"
    if swap.start != "today":
        there = f"where {'it was' if one else 'they were'}"
    parts = [f"{_all(swap.holds)} {'stays' if one else 'stay'} {there}"] if swap.holds else []
    along = [
        f"{the(piece)} may slide along {the_wall(wall)}" for piece, wall in swap.slides if wall
    ]
    anywhere = [
        f"{the(piece)} may stand wherever there is room" for piece, wall in swap.slides if not wall
    ]
    parts += along + anywhere
    hosts: dict[str, list[str]] = {}
    for name in swap.follows:
        hosts.setdefault(swap.after.piece(name).anchor or "", []).append(name)
    for host, names in hosts.items():
        parts.append(f"{_all(names)} {'goes' if len(names) == 1 else 'go'} with {the(host)}")
    named = {*swap.holds, *swap.follows, *(piece for piece, _ in swap.slides)}
    loose = [p.name for p in swap.after.pieces if p.name not in named and p.anchor is None]
    loose += [p.name for p in swap.after.pieces if p.name not in named and p.anchor is not None]
    if loose:
        verb = "is" if len(loose) == 1 else "are"
        parts.append(f"{_all(loose)}, which {verb} not there yet, may stand wherever there is room")
    return "; ".join(parts)


def _all(names: Sequence[str]) -> str:
    return listed([the(name) for name in names])


def result_words(reading: Reading) -> str:
    """Both scores of a reading and how sure they are; or that there is none."""
    before, after = _score(reading.before), _score(reading.after)
    if reading.after.plan is None:
        told = "impossible, proven" if reading.after.answer == "impossible" else "not decided"
        return f"{told}; before: {before}"
    return f"{before} before, {after} after"


def held_result(swap: Swap) -> str:
    """As ``result_words`` if nothing else moves; why not, where nothing is there to hold."""
    if swap.start == "best before" and swap.held.before.plan is None:
        return f"cannot be told: {held_words(swap)}"
    return result_words(swap.held)


def _score(answer: Answer) -> str:
    if answer.plan is None:
        return "nothing works" if answer.answer == "impossible" else "nothing found"
    score = points(answer.plan.score)
    if answer.plan.proven:
        return f"{score} (proven best)"
    return f"{score} (at most {points(answer.plan.most)})"


def price_words(swap: Swap) -> str:
    """What the changes cost more or less; empty if no prices are known."""
    if swap.price is None:
        return ""
    word = "more" if swap.price > 0 else "less"
    return f"Costs {money(abs(swap.price))} {word} than before, as far as prices are given."


def today_words(today: Today) -> str:
    """Whether the room works as it stands, its score, and what was left out."""
    score = points(today.verdict.score)
    count = len(today.verdict.breaches)
    if count:
        what = "one thing does not work" if count == 1 else f"{count} things do not work"
        text = f"As it stands, {what}. Otherwise it has {score} of 100 points."
    else:
        text = f"Everything essential works. {score} of 100 points."
    return " ".join([text, *today_remarks(today)])


def today_remarks(today: Today) -> list[str]:
    """What did not count, and what was judged otherwise than usual."""
    told = []
    if today.left_out:
        verb = "has" if len(today.left_out) == 1 else "have"
        told.append(f"{_first(_all(today.left_out))} {verb} no place today and did not count.")
    for name in today.apart:
        host = the(today.scenario.piece(name).anchor or "")
        told.append(f"{the(name, first=True)} does not stand in its usual place at {host}.")
    return told


def words_of_today(today: Today, folder: Path, files: tuple[str, ...]) -> str:
    """For a terminal: what is broken, the score, the best and worst reasons, what was left out."""
    lines = [f"{today.scenario.title}, as it stands today", "", wrapped(today_words(today))]
    lines += [wrapped(b.sentence, "   ! ", "     ") for b in today.verdict.breaches]
    lines += fault_rows(AS_IT_STANDS, today.verdict.reasons)
    lines += [f"   {row}" for row in part_rows(today.verdict)]
    found = tighter_than_usual(today.scenario, today.arrangement)
    lines += tight_rows(found, today.scenario.unit)
    chosen = choose(today.verdict.reasons, 6)
    lines += reason_rows(chosen.won[:3], chosen.lost[:3])
    return "\n".join([*lines, *where_words(folder, files)])


def _first(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


NOTICED = 0.9  # tenths of a point: what rounding to whole tenths can do is no change


def better(reading: Reading) -> tuple[Compared, ...]:
    """The reasons that earn a larger share after, the largest gain first.

    New ones come last, if they earn most of their points; what is asked no more is
    neither better nor worse.
    """
    found = [c for c in reading.reasons if c.before and c.after and c.improved >= NOTICED]
    new = [
        c for c in reading.reasons if c.before is None and c.after and c.after.won > c.after.lost
    ]
    return _sorted(found + new)


def worse(reading: Reading) -> tuple[Compared, ...]:
    """The reasons that earn a smaller share after, the largest loss first; then new ones."""
    found = [c for c in reading.reasons if c.before and c.after and c.improved <= -NOTICED]
    new = [
        c for c in reading.reasons if c.before is None and c.after and c.after.lost >= c.after.won
    ]
    return _sorted(found + new)


def _sorted(found: list[Compared]) -> tuple[Compared, ...]:
    def key(one: Compared) -> tuple[bool, float]:
        return one.before is None or one.after is None, -abs(one.improved)

    return tuple(sorted(found, key=key))


def compared_words(one: Compared) -> str:
    """One reason before and after: the sentence now, what was measured, the points."""
    old, new = one.before, one.after
    if new is None:
        worth = points(old.won) if old else ""
        return f"{old.sentence if old else ''} (asked before and no longer; {worth} points before)"
    if old is None:
        return f"{new.sentence} (not asked before; {points(new.won)} of {points(new.possible)})"
    measured = ""
    if old.measured and new.measured and old.measured != new.measured:
        measured = f"{old.measured} before, {new.measured} after; "
    possible = points(new.possible)
    was, now = points(old.won), points(new.won)
    return f"{new.sentence} ({measured}{was} points before, {now} after, of {possible})"


def compared_briefly(one: Compared) -> str:
    """The same for a narrow column: arrows between before and after."""
    old, new = one.before, one.after
    if old is None or new is None:
        return compared_words(one)
    changed = old.measured and new.measured and old.measured != new.measured
    measured = f"{old.measured} \N{RIGHTWARDS ARROW} {new.measured}; " if changed else ""
    won = f"{points(old.won)} \N{RIGHTWARDS ARROW} {points(new.won)} of {points(new.possible)}"
    return f"{new.sentence} ({measured}{won})"


def moves_briefly(moved: tuple[Moved, ...]) -> list[str]:
    """What is new, changed and moved, by name alone: the plan shows the rest."""
    sorts = {"New": ("new",), "Changed": ("changed",), "Moved": ("moved", "turned")}
    found = []
    for word, moves in sorts.items():
        names = [m.piece for m in moved if m.move in moves]
        found += [f"{word}: {listed(names)}."] if names else []
    return found


def moved_words(one: Moved, unit: Unit) -> str:
    """One piece and what became of it.

    >>> here = Stand("down", "A")
    >>> moved_words(Moved("desk", "moved", "desk", 420, here, here), "cm")
    'desk: 42 cm further along wall A'
    """
    if one.move == "gone":
        return f"{one.piece}: left out"
    sort = f"{one.move}, " if one.move in ("new", "changed") else ""
    return f"{one.piece}: {sort}{where_it_went(one, unit)}"


def where_it_went(one: Moved, unit: Unit) -> str:
    """From where to where; for a new piece or one that is gone, where it stands or stood."""
    here, there = (stand_words(stand) for stand in (one.before, one.after))
    if not (here and there):
        return here or there
    if one.move == "changed":
        return f"still {there}" if here == there else f"now {there}, before {here}"
    if one.far < STILL:
        return f"turned on the spot, {there}"
    if here != there:
        return f"now {there}, before {here}"
    by = measured(round(one.far / 10) * 10, unit)
    if one.before is not None and one.before.wall and not one.before.anchor:
        return f"{by} further along {the_wall(one.before.wall)}"
    return f"{there}, {by} from where it was"


def stand_words(stand: Stand | None) -> str:
    """Beside what a piece stands, on which wall, or how it faces; "" where it does not stand."""
    if stand is None:
        return ""
    if stand.anchor:
        return f"at {the(stand.anchor)}"
    if stand.corner is not None:
        left, right = map(the_wall, stand.corner)
        return f"across the corner between {left} and {right}"
    if stand.wall:
        return f"on {the_wall(stand.wall)}"
    return f"{FREE}, facing {TURNED.get(stand.facing, 'a corner')}"


def note_words(note: Note) -> str:
    """What else to know, in a sentence without its end."""
    who, one = _all(note.pieces), len(note.pieces) == 1
    was, it, does, goes = (
        ("was", "it", "does", "it goes") if one else ("were", "they", "do", "they go")
    )
    return {
        "let go": f"{who} {was} meant to stay, but with the change {it} may move",
        "apart": f"{who} {does} not stand at {the(note.host)} today; here {goes} there",
        "broken": "as it stands today, something essential does not work even before the change "
        "(see arrange today)",
        "no place": f"what stands today leaves no place for {who}",
        "no place there": f"what stands today leaves no place for {who} at what it goes with",
    }[note.about]


MOST = 6  # reasons of each sort; the rest is in swap.json


def words(swap: Swap, folder: Path, files: tuple[str, ...]) -> str:
    """Everything, the answer in a line first."""
    stopped = "Stopped when you asked. " if swap.interrupted else ""
    parts = [swap.before.title, "", wrapped(f"{stopped}{headline(swap)}")]
    if cost := price_words(swap):
        parts.append(wrapped(cost))
    parts += [wrapped(f"Note: {note_words(note)}.") for note in swap.notes]
    parts += ["", wrapped(f"{MAY_MOVE}: {result_words(swap.free)}.")]
    if swap.kept:
        parts.append(wrapped(f"Kept where they stand: {_all(swap.kept)}.", "   "))
    parts += _differences(swap.free, swap.before.unit, free=True)
    told = held_result(swap)
    parts += ["", wrapped(f"If nothing else moves: {told}.")]
    if (held := held_words(swap)) and held not in told:
        parts.append(wrapped(f"That is: {held}.", "   "))
    parts += _differences(swap.held, swap.before.unit, free=False)
    if not swap.same_scale and (swap.free.after.works or swap.held.after.works):
        parts += ["", wrapped(SCALE)]
    if swap.answer == "impossible":
        parts += ["", wrapped(WHY)]
    return "\n".join([*parts, *where_words(folder, files)])


def _parts(reading: Reading) -> list[str]:
    """The parts of the score before and after, where both have them on one scale."""
    before, after = reading.before.plan, reading.after.plan
    if before is None or after is None:
        return []
    was, now = before.verdict.parts, after.verdict.parts
    return [
        f"   {PARTS[part]:<{NAMES}} {points(was[part][0])} before, {points(won)} after, of "
        f"{points(possible)}"
        for part, (won, possible) in now.items()
        if part in was and was[part][1] == possible
    ]


def _differences(reading: Reading, unit: Unit, *, free: bool) -> list[str]:
    lines, plan = [], reading.after.plan
    if plan is not None:
        head = faults_head(plan.bound, plan.verdict) if free else AVOIDABLE
        lines += fault_rows(head, plan.verdict.reasons)
    lines += _parts(reading)
    for mark, chosen in (("+", better(reading)), ("-", worse(reading))):
        lines += [wrapped(compared_words(c), f"   {mark} ", "     ") for c in chosen[:MOST]]
        if len(chosen) > MOST:
            lines.append(f"   {mark} and {len(chosen) - MOST} more in swap.json")
    if reading.moved:
        told = "; ".join(moved_words(m, unit) for m in reading.moved)
        lines.append(wrapped(f"Moved: {told}.", "   ", "   "))
    elif reading.after.works and reading.before.works:
        lines.append("   Nothing moved.")
    return lines


FEW = 2  # sentences of each sort


def move_words(scenario: Scenario, moved: Move, reading: Reading) -> str:
    """The answer in a line; where it is no, the nearest place that works."""
    if not moved.works:
        told = [breach.sentence for breach in moved.verdict.breaches[:FEW]]
        return f"No. {'. '.join(told)}. {near_words(scenario, moved)}"
    return f"Fine, {score_words(moved)}{_why(reading)}."


def score_words(moved: Move) -> str:
    """How the score changes."""
    faults = moved.verdict.faults - moved.before.faults
    gained = moved.verdict.score - moved.before.score
    if faults:
        return (
            f"but with {faults} more fault{'s' if faults > 1 else ''}"
            if faults > 0
            else f"with {-faults} fewer fault{'s' if faults < -1 else ''}"
        )
    if not gained:
        return f"{points(moved.verdict.score)} points as before"
    return f"{points(abs(gained))} points {'more' if gained > 0 else 'less'}"


def _why(reading: Reading) -> str:
    lost = [c.after.sentence for c in worse(reading)[:FEW] if c.after]
    won = [c.after.sentence for c in better(reading)[:FEW] if c.after]
    told = (("Worse", lost), ("Better", won))
    return "".join(f". {which}: {'; '.join(each)}" for which, each in told if each)


def near_words(scenario: Scenario, moved: Move) -> str:
    """Where near by it would work."""
    if moved.near is None:
        return "No other place close by works while all else stays where it is."
    return f"It would work {steps_words(moved.near_by, scenario.unit)} from there."


def steps_words(by: tuple[int, int], unit: Unit) -> str:
    """How far something goes across and up the plan, in mm; at least one of them not 0.

    >>> steps_words((-200, 50), "cm")
    '20 cm to the left and 5 cm up'
    """
    steps = (_step(by[0], "to the right", "to the left", unit), _step(by[1], "up", "down", unit))
    return listed([way for way in steps if way])


def _step(mm: int, ahead: str, back: str, unit: Unit) -> str:
    return f"{measured(abs(mm), unit)} {ahead if mm > 0 else back}" if mm else ""
