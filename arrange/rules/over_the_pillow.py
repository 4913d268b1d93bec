"""Nothing stored over a sleeper's head."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import listed, the
from arrange.data.piece import Piece, canonical
from arrange.data.room import FACINGS
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.spots import Bounded, pillow
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule
from arrange.rules.selectors import beds


class OverThePillow(Rule):
    """No shelf or cupboard hangs over the pillow end of a bed.

    What lies on it falls, and who sits up knocks against it. Counted are beds: each has its
    pillow, the first 500 mm of the mattress from the head, clear of all storage that hangs;
    touching is allowed. Pictures and mirrors are not storage. Cots have a rule of their own.
    Common practice, no source.
    """

    id = "over-the-pillow"
    title = "Nothing stored over a head"

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim that counts the beds, where storage hangs."""
        sleepers = sorted(beds(scenario), key=canonical)
        hung = _hung(scenario)
        if not sleepers or not hung:
            return []
        names = tuple(piece.name for piece in (*sleepers, *hung))
        return [Claim(self.id, names, self.weight, (0,) * len(sleepers), counted=True)]

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """For each bed, every piece that hangs is off its pillow, whichever way it looks."""
        found, (sleepers, hung) = [], _told_apart(claim)
        for name in sleepers:
            clear = model.literal(f"nothing over the pillow of {name}")
            for facing in FACINGS:
                head = pillow(model.place(name), model.scenario.piece(name), facing)
                for shelf in hung:
                    off = model.literal()
                    model.beyond(off, model.place(shelf), head, 0)
                    model.one_of([off], when=[clear, model.faces(name, facing)])
            found.append(clear)
        return model.tally(found)

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """How many pillows have nothing over them, and what hangs over the first other one."""
        sleepers, hung = _told_apart(claim)
        over = {name: _over(scene, name, hung) for name in sleepers}
        wrong = [(name, found) for name, found in over.items() if found]
        text = "No shelf or cupboard hangs over a pillow"
        if wrong:
            name, found = wrong[0]
            verb = "hangs" if len(found) == 1 else "hang"
            above = listed([the(found[0], first=True), *map(the, found[1:])])
            text = f"{above} {verb} over the pillow of {the(name)}"
        return Measure(len(sleepers) - len(wrong), text, str(len(wrong)), "none")


def _hung(scenario: Scenario) -> list[Piece]:
    """The storage that hangs."""
    return sorted((p for p in scenario.pieces if p.is_a("store") and p.bottom), key=canonical)


def _told_apart(claim: Claim) -> tuple[Sequence[str], Sequence[str]]:
    """The beds, and what hangs."""
    count = len(claim.steps)
    return claim.subjects[:count], claim.subjects[count:]


def _over(scene: Scene, bed: str, hung: Sequence[str]) -> list[str]:
    """What hangs over the pillow of a bed."""
    placed = scene.find(bed)
    head = pillow(placed, placed.piece, placed.facing)
    return [name for name in hung if _meet(scene.find(name), head)]


def _meet(one: Bounded, two: Bounded) -> bool:
    """Whether they share floor; touching is none."""
    across = one.x0 < two.x1 and two.x0 < one.x1
    return bool(across and one.y0 < two.y1 and two.y0 < one.y1)
