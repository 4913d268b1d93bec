"""Whether a piece fits, in words for the shop: the answer first, then what it pushes aside."""

from __future__ import annotations

from arrange.data.lengths import listed, measured, points, the
from arrange.data.result import Verdict
from arrange.data.scenario import Scenario
from arrange.data.swap import Compared, Moved, Reading
from arrange.whatif.fits import Fits, Limit
from arrange.whatif.swap import same_scale
from arrange.words.reasons import wrapped
from arrange.words.sizes import ADJECTIVE
from arrange.words.swap import better, steps_words, where_it_went, worse

MOST = 2  # sentences of each sort
MOVES = 3  # pieces whose new places are told


def fits_words(found: Fits) -> str:
    """The answer in a few sentences."""
    if found.answer == "works":
        told = [f"Yes{_how(found)}."]
        if found.reading is not None:
            told += _differences(found.reading)
        if found.also:
            stands = "it stands" if len(found.also) == 1 else "they stand"
            told.append(f"It also fits in {_plans(found.also)} as {stands}.")
        return " ".join(told)
    if found.answer == "impossible":
        why = "nothing works with it, whatever else moves; we checked twice"
        return f"No: {_limit(found.limit, found.before) if found.limit else why}."
    stopped = "you asked to stop" if found.interrupted else "no plan was found in the time"
    return f"Not known yet: {stopped}, and nothing is proven{_tied(found)}."


def _tied(found: Fits) -> str:
    """What is proven as long as the usual company stays."""
    if found.limit is None:
        return ""
    company = listed([the(name) for name in found.before.usual_ties])
    return (
        f" but this: with {company} where they usually stand, {_limit(found.limit, found.before)}"
    )


def _how(found: Fits) -> str:
    plan = f"plan {found.plan}"
    if found.how == "found":
        return ": we found a plan with it, but have no earlier plan to compare it with"
    if found.how == "as it stands":
        return f", in {plan} as it stands"
    own = listed([the(name) for name in found.names])
    if found.how == "near by":
        return (
            f", in {plan} with {own} {steps_words(found.aside, found.after.unit)}; all else stays"
        )
    return _if_others_move(found)


def _if_others_move(found: Fits) -> str:
    """What has to go elsewhere, for all that is known."""
    others, themselves = _others(found), _own(found)
    here = _moves(themselves, found)
    aside = f"; {here}" if here else ""
    if found.how == "ties give way":
        free = listed([the(name) for name in found.apart])
        do, its = ("does", "its") if len(found.apart) == 1 else ("do", "their")
        rest = [one for one in others if one.piece not in found.apart]
        also = f"; these move, too: {_moves(rest, found)}" if rest else ""
        return f", but only if {free} {do} not stand in {its} usual place{also}{aside}"
    if len(others) == 1:
        return f", if {the(others[0].piece)} moves: {_where(others[0], found)}{aside}"
    if others:
        return f", if {len(others)} others move: {_moves(others, found)}{aside}"
    place = f"elsewhere: {here}" if here else "a little aside"
    return f", {place}; all else stays as in plan {found.plan}"


def _where(one: Moved, found: Fits) -> str:
    return where_it_went(one, found.after.unit)


def _moves(moves: list[Moved], found: Fits) -> str:
    """The first few pieces that move, each with where to."""
    told = [f"{the(one.piece)} {_where(one, found)}" for one in moves[:MOVES]]
    rest = len(moves) - MOVES
    return "; ".join([*told, *([f"and {rest} more"] if rest > 0 else [])])


def _others(found: Fits) -> list[Moved]:
    """What goes elsewhere beside the pieces asked about, and not along with another one."""
    moved = found.reading.moved if found.reading else ()
    going = {one.piece for one in moved} | set(found.names)

    def along(one: Moved) -> bool:
        host = found.after.piece(one.piece).anchor
        return host is not None and host in going

    return [one for one in moved if one.piece not in found.names and not along(one)]


def _own(found: Fits) -> list[Moved]:
    """The pieces asked about, where they do not stay at their walls."""
    moved = found.reading.moved if found.reading else ()
    return [one for one in moved if one.piece in found.names and one.before != one.after]


def _differences(reading: Reading) -> list[str]:
    """How the score changes, and what is worse and better for it."""
    was, now = reading.before.plan, reading.after.plan
    if was is None or now is None:
        return []
    sides = ("Worse", worse(reading)), ("Better", better(reading))
    return [f"{_score(was.verdict, now.verdict)}.", *(_why(*side) for side in sides if side[1])]


def _score(was: Verdict, now: Verdict) -> str:
    gained, faults = now.score - was.score, now.faults - was.faults
    if not same_scale(was, now):
        return f"It has {points(now.score)} points, on a different scale from before"
    told = f"{points(abs(gained))} points {'more' if gained > 0 else 'less'}"
    if not gained:
        told = f"{points(now.score)} points as before"
    if faults:
        which = f"{'more' if faults > 0 else 'fewer'} fault{'s' if abs(faults) > 1 else ''}"
        return f"{told}, and {abs(faults)} {which}"
    return told


def _why(which: str, reasons: tuple[Compared, ...]) -> str:
    told = [one.after.sentence for one in reasons[:MOST] if one.after]
    return f"{which}: {'; '.join(told)}."


def _limit(limit: Limit, scenario: Scenario) -> str:
    size = measured(limit.size, scenario.unit, "down")
    return f"{the(limit.piece)} can be {size} {ADJECTIVE[limit.dimension]} at most, proven"


def _plans(numbers: tuple[int, ...]) -> str:
    return f"plan{'s' if len(numbers) > 1 else ''} {listed([str(n) for n in numbers])}"


def in_the_way_words(found: Fits) -> str:
    """What breaks where the piece just takes its size in the kept plan; "" if nothing does."""
    if not found.broken:
        return ""
    told = "; ".join(breach.sentence for breach in found.broken[:MOST])
    return f"As plan {found.plan} stands: {told}."


def door_words(scenario: Scenario) -> str:
    """That nobody judged the way in, with the width that is known."""
    door = scenario.room.main_door
    if door is None:
        return ""
    width = measured(door.width, scenario.unit, "down")
    return f"Whether it can be carried in is not judged: {the(door.name)} is {width} wide."


def words(
    found: Fits, decides: str, stale: tuple[str, ...] = (), unread: tuple[str, ...] = ()
) -> str:
    """The text for a terminal.

    ``decides`` is the command that decides what was left open; ``stale`` and ``unread`` are
    files that were left aside.
    """
    parts = [fits_words(found), in_the_way_words(found)]
    if found.answer == "not decided":
        parts.append(f"{decides} decides it, given time.")
    if found.answer == "works":
        parts.append(door_words(found.before))
    if stale:
        was, them = ("are", "them") if len(stale) > 1 else ("is", "it")
        about = f"{listed(stale)} {was} from an earlier version of your file, so we left {them} out"
        parts.append(f"{about}; run what wrote {them} again.")
    if unread:
        them = "them" if len(unread) > 1 else "it"
        parts.append(f"{listed(unread)} cannot be read, so we left {them} out.")
    return "\n".join(wrapped(part) for part in parts if part)
