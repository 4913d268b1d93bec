"""Does it still work with other pieces? Before and after, read in two ways. Lengths in mm."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace

from arrange.changing import changed
from arrange.data.arrangement import Placement
from arrange.data.change import Change
from arrange.data.scenario import Scenario
from arrange.data.swap import Answer, Reading, Start, Swap
from arrange.errors import Fault, ScenarioError
from arrange.progress import Listener
from arrange.whatif.swap.holding import holding, sliding, touched
from arrange.whatif.swap.prices import price_difference
from arrange.whatif.swap.running import DEFAULT_SECONDS, Run, better
from arrange.whatif.swap.standing import out_of_place, why_not_as_today

# Of the time left at each step, so that the answer comes before its comparison.
BEFORE, AFTER, BACK, NOW = 0.4, 0.65, 0.3, 0.5


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
    if not seconds > 0:
        raise ValueError(f"seconds is {seconds}; allow more than 0")
    asked = tuple(changes)
    after = changed(scenario, asked)
    for name in keep:
        scenario.piece(name)
    if not_kept := sorted(set(keep) & touched(asked)):
        fault = Fault("keep", f"{not_kept[0]} is itself changed", "a piece is changed or kept")
        raise ScenarioError(scenario.source_file, (fault,))
    run = Run(seconds, seed, listener, stop)
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
        self.notes: list[str] = []

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
            seconds=self.run.elapsed,
            interrupted=self.run.stop(),
            notes=tuple(self.notes),
        )

    def _kept_from(self, before: Answer) -> list[Placement]:
        """The places of kept pieces that the file does not know, from the best before."""
        missing = [name for name in self.keep if name not in self.today]
        if missing and before.plan is None:
            none = "no arrangement was found before in the time"
            if before.answer == "impossible":
                none = "nothing works before, proven"
            given = f"nothing says where {missing[0]} stands, and {none}"
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
            on_wall = piece.stands != "free" and place is not None and place.wall is not None
            wall = self.after.room.walls[place.wall or 0].name if on_wall and place else ""
            found.append((piece.name, wall))
        return tuple(found)

    def _same_scale(self) -> bool:
        from arrange.scoring import shares  # noqa: PLC0415

        def worth(scenario: Scenario) -> list[tuple[str, tuple[str, ...], int]]:
            return [(s.claim.rule, s.claim.subjects, s.possible) for s in shares(scenario)]

        return worth(self.before) == worth(self.after)

    def _remark(self, now: Answer) -> None:
        """Why the second reading may have no answer of its own."""
        lost = sorted({p.piece for p in self.before.held} - {p.piece for p in self.after.held})
        for name in lost:
            if name in {p.name for p in self.after.pieces}:
                self.notes.append(f"{name} was to stay; changed, it may move")
        for name in self.apart:
            host = self.before.piece(name).anchor
            self.notes.append(f"{name} does not stand at {host} today; here it goes there")
        if now.answer == "impossible" and self.today:
            self.notes.append(why_not_as_today(self.before))


def _reading(before: Answer, after: Answer) -> Reading:
    from arrange.whatif.swap.differing import compared, moved  # noqa: PLC0415

    if before.plan is None or after.plan is None:
        return Reading(before, after)
    reasons = compared(before.plan.verdict, after.plan.verdict)
    return Reading(before, after, reasons, moved(before.plan, after.plan))
