"""The largest size of one piece that works, in whole centimetres or inches, and the proof.

Whole centimetres, or whole inches where the file is in inches: what a shop and a tape
say; up to the size that is sensible for the kind (``kinds.sensible``). The rules say when
smaller is sure to work (``requirements.shrinks``), which makes halving allowed:

1. *From above.* The scenario with all left out that may not last when the piece shrinks
   (``requirements.relaxed``) allows more and is quick to decide. By halving, the largest
   size in it: a limit.
2. *Between.* The limit itself is tried, then halves. In each arrangement found the piece
   grows as far as the judge lets it before the solver is asked again.
3. *What is left above.* Between the first size that fails and the limit nothing can work
   where smaller is sure to work. Elsewhere the limit is brought down with walkways taken in,
   and the sizes left are asked one by one, the largest first.

So the answer is that of asking every size by itself, whatever the scenario and the rules.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace

from arrange.budget import SIZE_QUESTION, refuse_no_time
from arrange.data.arrangement import Arrangement, Feasibility
from arrange.data.change import Resize, changed
from arrange.data.kinds import sensible
from arrange.data.lengths import length
from arrange.data.piece import SIZES
from arrange.data.scenario import Scenario
from arrange.data.sizes import DIMENSIONS, Dimension, Largest, in_mm, in_steps
from arrange.judge import works
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.move import resized_in_place
from arrange.whatif.requirements import relaxed, shrinks, without_search


@dataclass
class Sizes:
    """The scenario with the piece in every size, counted in whole steps."""

    scenario: Scenario
    piece: str
    dimension: Dimension
    _made: dict[int, Scenario] = field(default_factory=dict)

    def __post_init__(self) -> None:
        held = tuple(p for p in self.scenario.held if p.piece != self.piece)
        self.scenario = replace(self.scenario, today=(), held=held)

    def mm(self, steps: int) -> int:
        """A number of steps in mm."""
        return in_mm(steps, self.scenario.unit)

    def at(self, steps: int) -> Scenario:
        """The scenario with the piece in that size."""
        if steps not in self._made:
            resize = Resize(self.piece, **{self.dimension: self.mm(steps)})
            self._made[steps] = changed(self.scenario, [resize])
        return self._made[steps]

    def eased(self, steps: int, *, walkway: bool) -> Scenario | None:
        """As ``relaxed``, in that size; without ``walkway`` nothing has to be reached."""
        case = relaxed(self.at(steps), self.piece, self.dimension)
        return case if walkway or case is None else without_search(case)

    @property
    def now(self) -> int:
        """The size the piece has, rounded down."""
        own: int = getattr(self.scenario.piece(self.piece), self.dimension)
        return in_steps(own, self.scenario.unit)

    @property
    def span(self) -> tuple[int, int]:
        """The least and the greatest size that is tried."""
        unit, most = self.scenario.unit, self._room
        piece = self.scenario.piece(self.piece)
        least = max(SIZES[0], piece.least_side(self.dimension))
        low = in_steps(least - 1, unit) + 1
        return low, max(low, in_steps(min(most, self._cap), unit))

    @property
    def _room(self) -> int:
        """The greatest size that can be thought of in this room, in mm."""
        room = self.scenario.room
        if self.dimension == "height":
            return room.ceiling - self.scenario.piece(self.piece).bottom
        x0, y0, x1, y1 = room.bounds
        aslant = any(wall.facing is None for wall in room.walls)
        if aslant or self.scenario.piece(self.piece).crosses:
            return math.ceil(math.hypot(x1 - x0, y1 - y0))
        return max(x1 - x0, y1 - y0)

    @property
    def _cap(self) -> int:
        """The greatest size worth trying, in mm: the sensible one, or what the piece has."""
        piece = self.scenario.piece(self.piece)
        own: int = getattr(piece, self.dimension)
        return max(own, sensible(piece.kind, self.dimension))

    @property
    def capped(self) -> bool:
        """Whether larger ones might have room, but are not tried: no such piece is sold."""
        unit = self.scenario.unit
        return in_steps(self._cap, unit) < in_steps(self._room, unit)


def grown(
    at: Callable[[int], Scenario], name: str, size: int, most: int, arrangement: Arrangement
) -> tuple[int, Arrangement]:
    """The greatest size found, from ``size`` up to ``most``, that the piece can take in its place.

    ``at`` gives the scenario of each size; sizes are counted in steps. All else stays,
    but for pieces tied to this one, which go along. One or the other side stays, or
    the middle. Not every size is tried, so the answer is a size that works, not the
    greatest there is.
    """
    best = (size, arrangement)
    for way in range(3):
        low, high = best[0], most
        while low < high:
            middle = (low + high + 1) // 2
            found = resized_in_place(at(size), at(middle), [name], arrangement, (way, way))
            if found is not None and works(at(middle), found):
                low, best = middle, (middle, found)
            else:
                high = middle - 1
    return best


DEFAULT_SECONDS = 60.0


def largest(
    scenario: Scenario,
    piece: str,
    dimension: Dimension,
    *,
    seconds: float = DEFAULT_SECONDS,
    seed: int = 0,
    say: Callable[[str], None] = lambda _: None,
    stop: Callable[[], bool] = lambda: False,
) -> Largest:
    """The largest ``dimension`` with which ``piece`` still works, all else as it is.

    Everything may move; where the piece itself stands today, or was held, is forgotten.

    Parameters
    ----------
    scenario, piece, dimension
        The scenario as ``read`` returns it, and what of which piece is to grow.
    seconds
        Limit for the whole answer. What it leaves open is said, never guessed.
    seed
        As for ``suggest``.
    say
        Told now and then what is being looked at.
    stop
        Asked often; once it says yes the answer is what is known by then.

    Raises
    ------
    KeyError
        If there is no such piece.
    ValueError
        If ``dimension`` is not width, depth or height, or ``seconds`` is not above 0.
    """
    if dimension not in DIMENSIONS:
        raise ValueError(f"{dimension} is no dimension; width, depth or height")
    refuse_no_time(seconds)
    scenario.piece(piece)
    sizes = Sizes(scenario, piece, dimension)
    return _Search(sizes, FeasibilityOracle(seconds, seed, stop), say).answer()


class _Search:
    """One answer being looked for.

    Nothing above ``limit`` works, because ``barring`` has no arrangement; it is None as
    long as that is because the room is no longer. ``best`` is the largest that works so far.
    """

    def __init__(self, sizes: Sizes, oracle: FeasibilityOracle, say: Callable[[str], None]) -> None:
        self.sizes, self.oracle, self.say = sizes, oracle, say
        self.low, self.high = sizes.span
        self.limit = self.high
        self.barring: Scenario | None = None
        self.best: tuple[int, Arrangement] | None = None
        self.open: list[int] = []

    def answer(self) -> Largest:
        """The whole search."""
        self._come_down(walkway=False)
        if self.barring is not None:
            self._surely_not(self.barring)  # quick, and all the time may go into what follows
        self._halve()
        while self._works < self.limit and not self.open:
            # One size more, for as long as it takes: it decides.
            answer = self._asked(self._works + 1)
            if answer.works:
                self._halve()
            elif answer.answer == "impossible":
                self._rule_out_above(self._works + 1)
            else:
                self.open = [self._works + 1, self.limit]
        self._confirm()
        return self._said()

    @property
    def _works(self) -> int:
        return self.low - 1 if self.best is None else self.best[0]

    def _come_down(self, *, walkway: bool, above: int = 0) -> None:
        """Bring the limit down by halving in a scenario that allows more."""
        low, high = max(self.low, self._works + 1, above), self.limit + 1
        while low < high:
            middle = (low + high) // 2
            case = self.sizes.eased(middle, walkway=walkway)
            if case is None:
                return
            self._tell(middle, "no larger than")
            answer = self._decided(case, self._share)
            if answer.answer == "impossible":
                high = middle
                self.limit, self.barring = middle - 1, case
            else:
                low = middle + 1

    def _halve(self) -> None:
        """The largest size that works below one that is not known to, by halving."""
        fails = self.limit + 1
        tried = [self.limit, self.sizes.now]
        while fails - self._works > 1:
            middle = next((t for t in tried if self._works < t < fails), None)
            if middle is None:
                middle = (self._works + fails) // 2
            else:
                tried.remove(middle)
            if not self._asked(middle, self._share, fails - 1).works:
                fails = middle

    def _asked(self, steps: int, seconds: float = math.inf, most: int = 0) -> Feasibility:
        """Whether that size works; if it does the best grows as far as ``most`` in its place."""
        self._tell(steps, "does it work at")
        case = self.sizes.at(steps)
        answer = self._decided(case, seconds)
        if answer.arrangement is not None:
            at, name = self.sizes.at, self.sizes.piece
            self.best = grown(at, name, steps, max(steps, most), answer.arrangement)
        elif answer.answer == "impossible" and self._shrinks(steps):
            self.limit, self.barring = steps - 1, case
        return answer

    def _shrinks(self, steps: int) -> bool:
        return shrinks(self.sizes.at(steps), self.sizes.piece, self.sizes.dimension)

    def _rule_out_above(self, fails: int) -> None:
        """All sizes above one that fails, where smaller is not sure to work."""
        if self.limit < fails:
            return
        case = self.sizes.eased(fails, walkway=True)
        if case is not None and self._decided(case).answer == "impossible":
            self.limit, self.barring = fails - 1, case
            return
        self._come_down(walkway=True, above=fails + 1)
        for steps in range(self.limit, fails, -1):
            self._tell(steps, "does it work at")
            answer = self._decided(self.sizes.at(steps), sure=True)
            if answer.arrangement is not None:
                self.best = (steps, answer.arrangement)
                break
            if answer.answer == "not decided":
                self.open.append(steps)
        if not self.open:
            self.limit = max(self._works, fails - 1)

    def _confirm(self) -> None:
        """What was proven is proven again by a second solver configuration."""
        if self._ended:
            return
        self._tell(self._works + 1, "making sure of")
        after = self.sizes.at(self._works + 1)
        if self._works + 1 not in self.open and not self._surely_not(after):
            self.open.append(self._works + 1)
        if self.barring is not None and not self._surely_not(self.barring):
            self.open += [self.limit + 1, self.high]

    @property
    def _ended(self) -> bool:
        """Whether it is the largest size tried that works: nothing is said of larger ones."""
        return self._works == self.high and self.sizes.capped

    def _surely_not(self, case: Scenario) -> bool:
        return self._decided(case, sure=True).answer == "impossible"

    def _decided(
        self, case: Scenario, seconds: float = math.inf, *, sure: bool = False
    ) -> Feasibility:
        if case.piece(self.sizes.piece).top > case.room.ceiling:
            return Feasibility(
                "impossible"
            )  # no question for the solver: files like that are refused
        return self.oracle.decide(case, seconds=seconds, sure=sure)

    @property
    def _share(self) -> float:
        """Seconds for a question that others can do without."""
        return self.oracle.budget.allow(SIZE_QUESTION)

    def _said(self) -> Largest:
        sizes = self.sizes
        undecided = (sizes.mm(min(self.open)), sizes.mm(max(self.open))) if self.open else None
        said = Largest(
            sizes.piece,
            sizes.dimension,
            "not decided" if undecided else "impossible",
            undecided=undecided,
            asked=self.oracle.asked,
            interrupted=self.oracle.budget.stopped,
        )
        if self.best is None:
            return said
        steps, arrangement = self.best
        return replace(
            said,
            answer="at least" if undecided or self._ended else "exact",
            size=sizes.mm(steps),
            next=None if undecided or self._ended else sizes.mm(steps + 1),
            scenario=sizes.at(steps),
            arrangement=arrangement,
        )

    def _tell(self, steps: int, what: str) -> None:
        size = length(self.sizes.mm(steps), self.sizes.scenario.unit)
        self.say(f"{self.sizes.dimension} of {self.sizes.piece}: {what} {size}")
