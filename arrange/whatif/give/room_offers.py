"""What could give about the room and the person's own musts. Lengths in mm."""

from __future__ import annotations

from collections.abc import Iterator

from arrange.data.change import GiveUpFixture, GiveUpOpening, Loosen, NarrowWalkway, Rehang
from arrange.data.giving import Priced
from arrange.data.scenario import Wish
from arrange.rules.who import the
from arrange.whatif.give import offer_words as words
from arrange.whatif.give.costs import NARROWEST, USUAL_WALKWAY
from arrange.whatif.give.offering import Offering, steps_down
from arrange.words import length

WALKWAY = "walkway"


class RoomOffers(Offering):
    """The walkway, the wishes that must hold, doors, fixtures and windows."""

    def all(self) -> Iterator[Priced]:
        """Everything about the room that is not spared and not about safety."""
        yield from self._walkway()
        yield from self._wishes()
        yield from self._doors()
        yield from self._fixtures()
        yield from self._windows()

    def _walkway(self) -> Iterator[Priced]:
        scenario = self.scenario
        escape = any(w.escape for w in scenario.room.windows)
        if escape or not scenario.walks or WALKWAY in self.spared:
            return
        usual = USUAL_WALKWAY if scenario.walkway > USUAL_WALKWAY else NARROWEST
        widths = steps_down(scenario.walkway, usual, scenario.unit)
        if usual != NARROWEST:
            widths += steps_down(USUAL_WALKWAY, NARROWEST, scenario.unit)
        for degree, to in enumerate(widths, 1):
            below_usual = to < USUAL_WALKWAY
            yield from self.priced(
                "below_walkway" if below_usual else "own_walkway",
                (NarrowWalkway(to),),
                words.narrowed(scenario, to),
                (WALKWAY,),
                None,
                more=self.costs.steps(scenario.walkway - to),
                degree=degree,
                below=below_usual,
                note=words.narrow(scenario, to),
            )

    def _wishes(self) -> Iterator[Priced]:
        for number, wish in enumerate(self.scenario.wishes):
            about = {wish.piece, wish.place}
            if not wish.must or about & self.spared or self._for_safety(wish):
                continue
            touched = frozenset(p.name for p in self.scenario.pieces if {p.name, p.model} & about)
            thing = ("wish", wish.piece, f"{number}")
            text = words.loosened(self.scenario, wish)
            note = "it stays a wish"
            loose = (Loosen(number),)
            yield from self.priced("wish", loose, text, thing, touched, eases=True, note=note)

    def _for_safety(self, wish: Wish) -> bool:
        """What keeps a cot off a window, or anything off what burns."""
        if wish.relation not in ("away from", "not against"):
            return False
        room = self.scenario.room
        burns = any(f.burns and f.name == wish.place for f in room.fixtures)
        cot = any(p.is_a("cot") and wish.piece in (p.name, p.model) for p in self.scenario.pieces)
        return burns or cot

    def _doors(self) -> Iterator[Priced]:
        for door in self.scenario.room.doors:
            if door.opens == "in" and door.name not in self.spared:
                text = f"{the(door.name)} is rehung to open outwards"
                thing, hung = ("door", door.name), (Rehang(door.name),)
                note = "ask first whether it may"
                yield from self.priced("rehang", hung, text, thing, None, note=note)

    def _fixtures(self) -> Iterator[Priced]:
        for fixture in self.scenario.room.fixtures:
            # For what burns the same number is a distance from fire.
            if not fixture.keep or fixture.burns or fixture.name in self.spared:
                continue
            kept = length(fixture.keep, self.scenario.unit)
            text = f"the {kept} before {the(fixture.name)} need not stay free"
            thing, give = ("fixture", fixture.name), (GiveUpFixture(fixture.name),)
            yield from self.priced("fixture", give, text, thing, None, eases=True)

    def _windows(self) -> Iterator[Priced]:
        for window in self.scenario.room.windows:
            if not window.must_open or window.escape or window.name in self.spared:
                continue
            if self.scenario.walks:
                text = f"nobody can walk up to {the(window.name)} to open it"
                thing, up = ("window", window.name), (GiveUpOpening(window.name),)
                yield from self.priced("window", up, text, thing, None, eases=True)
