"""One large clear floor."""

from __future__ import annotations

from collections.abc import Sequence

from arrange.data.lengths import sized
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.geometry.shapes import leaf_floors
from arrange.rules.protocol import L, Verbs
from arrange.rules.rule import Claim, Measure, Rule

# Sides of the clear square in mm. 1200 and 1500 are the manoeuvring squares of
# accessible housing (`din-turn`); above that it is common practice, no source.
SQUARES = (1200, 1500, 1800, 2100, 2400)


class ClearFloor(Rule):
    """The largest upright square of floor that no standing piece touches.

    Rugs and pieces hung above 2 m do not count. No door opens into it: the square before
    each door that opens in, as deep as its leaf is wide, is not clear floor. Where no leaf
    swings people step in as anywhere else.
    """

    id = "clear-floor"
    title = "One large clear floor"
    source = "din-turn"
    takes = ("least", "comfortable")

    def claims(self, scenario: Scenario) -> Sequence[Claim]:
        """One claim, with the squares that the room itself can hold."""
        x0, y0, x1, y1 = scenario.room.bounds
        setting = scenario.setting(self.id)
        own = setting.least is not None or setting.comfortable is not None
        squares = _squares(setting.least, setting.comfortable)
        steps = tuple(s for s in squares if s <= min(x1 - x0, y1 - y0))
        source = "yours" if own else self.source
        return [Claim(self.id, (), self.weight, steps, (), source, own)] if steps else []

    def reach(self, model: Verbs[L], claim: Claim) -> Sequence[L]:
        """A square whose side follows the levels and that keeps off bodies and leaves."""
        levels = [model.literal(f"clear square {s}") for s in claim.steps]
        model.clear_square(levels, claim.steps, leaf_floors(model.scenario.room))
        return levels

    def measure(self, scene: Scene, claim: Claim) -> Measure:
        """The largest step whose square fits between the bodies."""
        level, off = 0, leaf_floors(scene.scenario.room)
        while level < len(claim.steps) and scene.square_fits(claim.steps[level], off):
            level += 1
        # As sizes are said: 47 in would not be read beside 7 ft 10 1/2.
        unit = scene.scenario.unit
        side = sized((claim.steps[level - 1],), unit, "down") if level else "less"
        least, most = (sized((claim.steps[i],), unit) for i in (0, -1))
        if not level:
            sentence = f"There is no clear floor of {least} by {least} anywhere"
        elif level < len(claim.steps):
            sentence = f"The largest clear floor is {side} by {side}, not {most} by {most}"
        else:
            sentence = f"There is a clear floor of {side} by {side}"
        return Measure(level, sentence, side, most)


def _squares(least: int | None, comfortable: int | None) -> tuple[int, ...]:
    """Sides in mm, smallest first: from the person's own least to their own comfortable."""
    low = min(SQUARES[0], comfortable or SQUARES[0]) if least is None else least
    high = max(SQUARES[-1], low) if comfortable is None else comfortable
    return tuple(sorted({low, high, *(s for s in SQUARES if low < s < high)}))
