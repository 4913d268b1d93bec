"""Does it still work with other pieces? Before and after, read in two ways. Lengths in mm.

In the first reading everything may move; in the second nothing else does: what stands today
is held, or else what the best arrangement before has, and a changed piece may slide along
its wall. Best arrangements are asked for one after another within one time limit. What then
differs is told reason by reason and move by move, and what it costs as far as prices are
given.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from arrange.budget import AFTER, BACK, BEFORE, LEAST_SWAP, NOW, Budget, refuse_no_time
from arrange.data.arrangement import Decision, Placement
from arrange.data.change import Add, Change, Drop, Exchange, Reprice, Resize, changed
from arrange.data.lengths import the
from arrange.data.result import FULL, Listener, Verdict, keyed
from arrange.data.scenario import Scenario, Wish
from arrange.data.swap import (
    STILL,
    Answer,
    Compared,
    Move,
    Moved,
    Note,
    Plan,
    Reading,
    Stand,
    Start,
    Swap,
)
from arrange.errors import Fault, ScenarioError
from arrange.geometry.shapes import facing_of, footprint
from arrange.scoring import scale_of, with_use
from arrange.suggesting import suggest
from arrange.whatif.today import out_of_place, why_not_as_today


def holding(scenario: Scenario, places: Iterable[Placement]) -> Scenario:
    """The scenario with these places kept as well; a piece is held once."""
    held = {p.piece: p for p in (*places, *scenario.held)}
    names = [p.name for p in scenario.pieces if p.name in held]
    return replace(scenario, held=tuple(held[name] for name in names))


def sliding(scenario: Scenario, slides: Sequence[tuple[str, str]]) -> Scenario:
    """The scenario with pieces bound to a wall; what the person wished of walls stays as it is."""
    wishes = tuple(Wish("against", piece, wall, must=True) for piece, wall in slides if wall)
    if not wishes:
        return scenario
    own, settings = scenario.wishes, scenario.settings
    if scenario.setting("against").off:
        # The rule is needed now, but not for what the person switched off.
        own = tuple(w for w in own if w.relation != "against")
        settings = tuple(s for s in settings if s.rule != "against")
    return replace(scenario, wishes=(*own, *wishes), settings=settings)


def touched(changes: Iterable[Change]) -> set[str]:
    """The names of the pieces whose body changes, that go or that come."""
    names = set()
    for change in changes:
        if isinstance(change, Add):
            names.add(change.new.name)
        elif isinstance(change, Resize | Exchange | Drop):
            names.add(change.piece)
    return names


DEFAULT_SECONDS = 60.0
ANSWERS: dict[str, Decision] = {"impossible": "impossible", "nothing found": "not decided"}


@dataclass
class Run:
    """Asks for best arrangements within one budget."""

    budget: Budget
    seed: int
    listener: Listener | None

    def best(self, scenario: Scenario, share: float = 1.0) -> Answer:
        """The best arrangement in a share of the time left."""
        budget = self.budget.share(share)
        if budget.left < LEAST_SWAP:
            return Answer("not decided")
        found = suggest(
            scenario,
            top=1,
            seconds=budget.seconds,
            seed=self.seed,
            listener=self.listener,
            stop=lambda: budget.stopped,
        )
        if not found.suggestions:
            return Answer(ANSWERS[found.outcome])
        one = found.suggestions[0]
        return Answer("works", Plan(found.scenario, one.arrangement, one.verdict, found.bound))


def better(one: Answer, other: Answer, scenario: Scenario) -> Answer:
    """Of two answers the better; the first knows the bound, as it holds less.

    Of two as good the other, in which less moves.
    """
    if other.plan is None or (one.plan is not None and one.plan.standing > other.plan.standing):
        return one
    bound = one.plan.bound if one.plan is not None else FULL
    return Answer("works", replace(other.plan, scenario=scenario, bound=bound))


def compared(before: Verdict, after: Verdict) -> tuple[Compared, ...]:
    """Every reason of both, side by side, in the order of the rules; new ones last."""
    old, new = keyed(before.reasons), keyed(after.reasons)
    keys = [*old, *(key for key in new if key not in old)]
    return tuple(Compared(key[0], key[1], old.get(key), new.get(key)) for key in keys)


def same_scale(before: Verdict, after: Verdict) -> bool:
    """Whether the same things can earn the same points in both."""
    old = {key: r.possible for key, r in keyed(before.reasons).items()}
    return old == {key: r.possible for key, r in keyed(after.reasons).items()}


def moved(before: Plan, after: Plan) -> tuple[Moved, ...]:
    """Every piece that is new, gone, changed, or stands elsewhere than before.

    Alike pieces that changed places did not move. Less than 3 cm does not count
    unless the piece itself changed.
    """
    old = {p.name: p for p in before.scenario.pieces}
    new = {p.name: p for p in after.scenario.pieces}
    paired = _pairs(before, after)
    found = []
    for name, piece in new.items():
        was = paired.get(name)
        if was is None:
            found.append(Moved(name, "new", "", after=_stand(after, name)))
            continue
        body = (old[was].kind, old[was].width, old[was].depth, old[was].height)
        other = body != (piece.kind, piece.width, piece.depth, piece.height)
        one = _moved(before, after, was, name, other=other)
        found += [one] if one is not None else []
    gone = [name for name in old if name not in set(paired.values())]
    return (*found, *(Moved(name, "gone", name, before=_stand(before, name)) for name in gone))


def _moved(before: Plan, after: Plan, was: str, name: str, *, other: bool) -> Moved | None:
    start, end = before.arrangement.of(was), after.arrangement.of(name)
    far = round(math.dist(_middle(before, was), _middle(after, name)))
    room = before.scenario.room
    turned = facing_of(start, room) != facing_of(end, room)
    if not (other or turned or far >= STILL):
        return None
    move: Move = "changed" if other else "turned" if turned else "moved"
    return Moved(name, move, was, far, _stand(before, was), _stand(after, name))


def _pairs(before: Plan, after: Plan) -> dict[str, str]:
    """For each piece after, the one before that it is: the nearest of those alike."""
    old = {p.name: p for p in before.scenario.pieces}
    new = {p.name: p for p in after.scenario.pieces}
    pairs: dict[str, str] = {}
    for what in dict.fromkeys(p.alike for p in after.scenario.pieces):
        names = [n for n, p in new.items() if p.alike == what and n in old]
        alike = len({old[n].alike for n in names}) == 1
        if not alike:
            pairs |= {n: n for n in names}
            continue
        spots = {n: (_middle(before, n), _middle(after, n)) for n in names}
        near = sorted(
            (round(math.dist(spots[a][0], spots[b][1])), a != b, i, a, b)
            for i, a in enumerate(names)
            for b in names
        )
        for _, _, _, was, now in near:
            if now not in pairs and was not in pairs.values():
                pairs[now] = was
    return pairs


def _middle(plan: Plan, name: str) -> tuple[float, float]:
    piece = plan.scenario.piece(name)
    middle = footprint(piece, plan.arrangement.of(name), plan.scenario.room).centroid
    return float(middle.x), float(middle.y)


def _stand(plan: Plan, name: str) -> Stand:
    placement, room = plan.arrangement.of(name), plan.scenario.room
    wall = "" if placement.wall is None else room.walls[placement.wall].name
    anchor = plan.scenario.piece(name).anchor or ""
    corner = None
    if placement.corner is not None:
        left, right = room.meeting(placement.corner)
        corner = left.name, right.name
    return Stand(facing_of(placement, room), wall, anchor, corner)


def price_difference(
    before: Scenario, after: Scenario, changes: Iterable[Change]
) -> Decimal | None:
    """The prices after less those before, over the pieces that a price was given for.

    A piece that was left out counts with what it would have cost; one that is
    owned already costs nothing. None if no price is known of anything changed,
    and for a piece whose price before or after is missing: it is not guessed.
    """
    names: list[str] = []
    for change in changes:
        if isinstance(change, Reprice | Drop | Exchange):
            names.append(change.piece)
        elif isinstance(change, Add):
            names.append(change.new.name)
    found: list[Decimal] = []
    for name in dict.fromkeys(names):
        old, new = _cost(before, name), _cost(after, name)
        if old is None or new is None:
            continue
        found.append(new - old)
    return sum(found, Decimal(0)) if any(found) else None


def _cost(scenario: Scenario, name: str) -> Decimal | None:
    """0 for what is not there or owned; None if nobody said."""
    piece = next((p for p in scenario.pieces if p.name == name), None)
    if piece is None:
        return Decimal(0)
    if piece.price is None:
        return Decimal(0) if piece.owned else None
    return piece.price


def swap(
    scenario: Scenario,
    changes: Iterable[Change],
    *,
    keep: Sequence[str] = (),
    seconds: float = DEFAULT_SECONDS,
    seed: int = 0,
    listener: Listener | None = None,
    stop: Callable[[], bool] = lambda: False,
) -> Swap:
    """Whether the room still works after the changes, and what gets better and worse.

    Parameters
    ----------
    scenario
        As ``read`` returns it; it is not changed.
    changes
        What is exchanged, left out or added, one after another.
    keep
        Names of pieces that stay where they stand today, or else where the best
        arrangement before has them.
    seconds
        For everything together: before, after if everything else may move, and
        after if nothing else moves. Kept within a second.
    seed, listener, stop
        As for ``suggest``.

    Raises
    ------
    KeyError
        If a change or ``keep`` names what is not there.
    ScenarioError
        If a kept piece is itself changed, or nothing says where it stands.
    ValueError
        If ``seconds`` is not above 0.
    DisagreementError
        If the solver and the judge do not agree: our bug.
    """
    refuse_no_time(seconds)
    asked = tuple(changes)
    scenario = with_use(scenario)
    after = changed(scenario, asked)
    for name in keep:
        scenario.piece(name)
    if not_kept := sorted(set(keep) & touched(asked)):
        fault = Fault("keep", f"{the(not_kept[0])} is to change", "what changes cannot be kept")
        raise ScenarioError(scenario.source_file, (fault,))
    run = Run(Budget(seconds, stop), seed, listener)
    return _Swapping(scenario, after, asked, tuple(keep), run).answer()


class _Swapping:
    """One question: the scenario before and after, and what is held where."""

    def __init__(
        self,
        before: Scenario,
        after: Scenario,
        changes: tuple[Change, ...],
        keep: tuple[str, ...],
        run: Run,
    ) -> None:
        self.before, self.after, self.changes, self.keep = before, after, changes, keep
        self.run = run
        self.today = {p.piece: p for p in before.today}
        self.apart = out_of_place(before, before.today)
        self.apart += tuple(
            p.name
            for p in before.pieces
            if p.name in self.today and p.anchor is not None and p.anchor not in self.today
        )
        for name in self.apart:  # no arrangement has it there: it goes with its companion
            del self.today[name]
        self.start: Start = "today" if self.today else "best before"
        self.notes: list[Note] = []

    def answer(self) -> Swap:
        """Both readings; the first is helped by what the second found."""
        kept = [self.today[name] for name in self.keep if name in self.today]
        before = self.run.best(holding(self.before, kept), BEFORE)
        kept += self._kept_from(before)
        free = self.run.best(holding(self.after, kept), AFTER)
        before = self._back(before, free, kept)
        now = self._now(before, kept)
        held, holds, slides = self._held(now, free, kept)
        free, before = better(free, held, self.after), better(before, now, self.before)
        self._remark(now)
        first, second = _reading(before, free), self._there(_reading(now, held))
        return Swap(
            before=self.before,
            after=self.after,
            changes=self.changes,
            kept=self.keep,
            free=first,
            held=second,
            start=self.start,
            holds=holds,
            follows=self._tied(),
            slides=slides,
            same_scale=self._same_scale(),
            price=price_difference(self.before, self.after, self.changes),
            seed=self.run.seed,
            seconds=self.run.budget.elapsed,
            interrupted=self.run.budget.stopped,
            notes=tuple(self.notes),
        )

    def _kept_from(self, before: Answer) -> list[Placement]:
        """The places of kept pieces that the file does not know, from the best before."""
        missing = [name for name in self.keep if name not in self.today]
        if missing and before.plan is None:
            none = "no arrangement was found before in the time"
            if before.answer == "impossible":
                none = "nothing worked before, and that is proven"
            given = f"nothing says where {the(missing[0])} stands, and {none}"
            fault = Fault("keep", given, "say it with stands_now in its [[piece]]")
            raise ScenarioError(self.before.source_file, (fault,))
        return [before.plan.arrangement.of(name) for name in missing if before.plan]

    def _now(self, before: Answer, kept: Sequence[Placement]) -> Answer:
        """The room now: what stands today held, the rest at its best; else the best before."""
        if not self.today:
            return before
        return self.run.best(holding(self.before, [*kept, *self.today.values()]), NOW)

    def _back(self, before: Answer, free: Answer, kept: Sequence[Placement]) -> Answer:
        """A better arrangement before, if the one after shows the way to it.

        Else a search that ran out of time before would make the change look good.
        """
        if free.plan is None or (before.plan is not None and before.plan.proven):
            return before
        loose = touched(self.changes) | set(self._followers())
        there = {p.piece: p for p in free.plan.arrangement.placements if p.piece not in loose}
        places = [there[p.name] for p in self.before.pieces if p.name in there]
        return better(
            before, self.run.best(holding(self.before, [*kept, *places]), BACK), self.before
        )

    def _there(self, reading: Reading) -> Reading:
        """Without what only seems to move: pieces that are not there today."""
        if not self.today:
            return reading
        there = {*self.today, *self.keep}
        seen = tuple(
            m for m in reading.moved if m.move not in ("moved", "turned") or m.was in there
        )
        return replace(reading, moved=seen)

    def _held(
        self, now: Answer, free: Answer, kept: Sequence[Placement]
    ) -> tuple[Answer, tuple[str, ...], tuple[tuple[str, str], ...]]:
        """The second reading: the answer, what is held, and what may slide along which wall."""
        places = {p.piece: p for p in kept} | self.today
        if not self.today and now.plan is not None:
            places = {p.piece: p for p in now.plan.arrangement.placements}
        loose = touched(self.changes) | set(self._followers())
        held = [places[p.name] for p in self.after.pieces if p.name in places.keys() - loose]
        slides = self._slides(places)
        holds = tuple(p.piece for p in held)
        if not places:
            return Answer("not decided"), (), slides
        if free.answer == "impossible":  # with less freedom there is no more
            return free, holds, slides
        asked = sliding(holding(self.after, held), slides)
        found = self.run.best(asked)
        if found.plan is None:
            return found, holds, slides
        return Answer("works", replace(found.plan, scenario=self.after)), holds, slides

    def _followers(self) -> tuple[str, ...]:
        return self.after.followers(touched(self.changes))

    def _tied(self) -> tuple[str, ...]:
        """Changed pieces and followers that have their place at another piece."""
        loose = touched(self.changes) | set(self._followers())
        return tuple(p.name for p in self.after.pieces if p.name in loose and p.anchor is not None)

    def _slides(self, places: dict[str, Placement]) -> tuple[tuple[str, str], ...]:
        """Each changed piece with the wall it stands on; "" if it may stand anywhere."""
        own = touched(self.changes)
        found = []
        for piece in self.after.pieces:
            if piece.name not in own or piece.anchor is not None:
                continue
            place = places.get(piece.name)
            on_wall = piece.backs and place is not None and place.wall is not None
            wall = self.after.room.walls[place.wall or 0].name if on_wall and place else ""
            found.append((piece.name, wall))
        return tuple(found)

    def _same_scale(self) -> bool:
        return scale_of(self.before) == scale_of(self.after)

    def _remark(self, now: Answer) -> None:
        """Why the second reading may have no answer of its own."""
        lost = sorted({p.piece for p in self.before.held} - {p.piece for p in self.after.held})
        for name in lost:
            if name in {p.name for p in self.after.pieces}:
                self.notes.append(Note("let go", (name,)))
        for name in self.apart:
            host = self.before.piece(name).anchor or ""
            self.notes.append(Note("apart", (name,), host))
        if now.answer == "impossible" and self.today:
            self.notes.append(why_not_as_today(self.before))


def _reading(before: Answer, after: Answer) -> Reading:

    if before.plan is None or after.plan is None:
        return Reading(before, after)
    reasons = compared(before.plan.verdict, after.plan.verdict)
    return Reading(before, after, reasons, moved(before.plan, after.plan))
