"""The whole conversation: which question comes next, going back, and the draft.

The answers in their order are all there is to know. To go back is to give all answers but the
last one again, to go on another day is to give all of them again.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

from arrange.begin import built_in, extras, looks, openings, pieces, undecided, walls, wishes
from arrange.begin.answers import (
    Drawn,
    Question,
    Said,
    Script,
    Step,
    a_choice,
    a_text,
    ask,
    yes_or_no,
)
from arrange.begin.notes import Notes
from arrange.begin.sketch import sketch
from arrange.data.lengths import listed
from arrange.data.scenario import Unit

COMMENT = "#"
TITLE = a_text("What do you call the room?", 'Write a name: "Bedroom", for example.')
UNITS: tuple[tuple[Unit, str], ...] = (
    ("cm", "centimetres"),
    ("m", "metres"),
    ("in", "feet and inches"),
    ("mm", "millimetres"),
)


def script(notes: Notes) -> Script[None]:
    """Every question from the first to the last."""
    notes.tables["title"] = yield from ask(TITLE)
    unit = yield from ask(
        a_choice(
            "What do you measure in?",
            UNITS,
            usual=0,
            also={"cm": 0, "m": 1, "meters": 1, "centimeters": 0, "ft": 2, "in": 2, "feet": 2}
            | {"inches": 2, "inch": 2, "metric": 0, "imperial": 2}
            | {"foot": 2, "mm": 3, "millimeters": 3},
        )
    )
    notes.tables["unit"] = unit
    yield from wishes.purpose(notes)
    yield from walls.room(notes)
    yield from openings.doors(notes)
    yield from openings.windows(notes)
    yield from built_in.fixtures(notes)
    yield from extras.extras(notes)
    yield from pieces.pieces(notes)
    yield from undecided.undecided(notes)
    yield from wishes.wishes(notes)
    yield from looks.swatches(notes)
    yield from wishes.cost(notes)
    while not (yield from ask(_right(notes))):
        yield Said(
            'Say "back" to go back a question, as often as you like, or "show" for everything you '
            "have said so far. You can change the file later as well."
        )


def _right(notes: Notes) -> Question[bool]:
    rows, needs = notes.tables["piece"], notes.tables.get("need", ())
    ways = sum("meets" in row for row in rows)
    sure = sum(row.get("count", 1) for row in rows if not {"meets", "set"} & set(row))
    told = [f"{sure} piece{'s' if sure > 1 else ''}"] if sure else []
    if needs:
        several = len(needs) > 1
        open_ = f"{len(needs)} thing{'s' if several else ''} to choose"
        told.append(f"{open_}, from {ways} way{'s' if ways > 1 else ''}")
    what = listed(told)
    return yes_or_no(
        f'That is all: "{notes.title}", with {what}. Shall we write the file?', usual=True
    )


@dataclass
class Interview:
    """A conversation so far.

    Attributes
    ----------
    question
        What is asked now; None at the end.
    told
        What has been said since the last answer, pictures among it.
    drawn
        Whether the room has changed since the last answer.
    """

    answers: list[str] = field(default_factory=list)
    notes: Notes = field(default_factory=Notes)
    question: Question[Any] | None = None
    told: list[str] = field(default_factory=list)
    drawn: bool = False
    asked: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        given, self.answers = self.answers, []
        self._begin()
        for text in given:
            self.answer(text)

    def _begin(self) -> None:
        self.notes = Notes()
        self.asked = []
        self._script = script(self.notes)
        self._go_on(None)

    def _go_on(self, value: object) -> None:
        """To the next question, with all that is said on the way."""
        self.told, self.drawn, self.question = [], False, None
        try:
            step: Step = self._script.send(value)
            while not isinstance(step, Question):
                self._take(step)
                step = next(self._script)
        except StopIteration:
            return
        self.question = step

    def _take(self, step: Said | Drawn) -> None:
        if isinstance(step, Said):
            self.told.append(step.text)
        else:
            self.drawn = True
            self.told.append(self.picture())

    def picture(self) -> str:
        """The room in characters, as far as it is known."""
        scenario = self.notes.scenario()
        if scenario is None:
            return sketch(self.notes.walked(), self.notes.unit)
        return sketch(scenario.room.walls, scenario.unit, scenario.room)

    @property
    def over(self) -> bool:
        """Whether everything has been asked."""
        return self.question is None

    def answer(self, text: str) -> None:
        """Take the answer to the question; ValueError with one sentence if it is none."""
        if self.question is None:
            raise ValueError("Everything has been asked.")
        words = " ".join(text.split())
        if words.startswith(COMMENT):
            raise ValueError(f"No answer begins with {COMMENT}.")
        value = self.question.answered(words)
        self.asked.append(self.question.text)
        self.answers.append(words)
        self._go_on(value)

    def back(self) -> bool:
        """To the question before; False at the first one."""
        if not self.answers:
            return False
        kept, self.answers = self.answers[:-1], []
        self._begin()
        for text in kept:
            self.answer(text)
        # What was said and drawn on the way is known already.
        self.told = []
        return True

    @property
    def draft(self) -> str:
        """The answers as they can be given again, one a line, each below its question."""
        lines = [
            f"{COMMENT} Answers given to arrange begin, one to a line; the room is not finished."
        ]
        for asked, answer in zip(self.asked, self.answers, strict=True):
            lines += [f"{COMMENT} {line}" for line in asked.split("\n")]
            lines.append(answer)
        return "\n".join(lines) + "\n"


def answers_in(draft: Iterable[str]) -> list[str]:
    """The answers of a draft, or of what is piped in: all lines but the comments."""
    return [line.strip() for line in draft if not line.startswith(COMMENT)]


def resumed(answers: Sequence[str]) -> tuple[Interview, int]:
    """A conversation gone on with, and how many of the answers no longer fit.

    From the first that is no answer to its question on all are left out.
    """
    interview = Interview()
    for done, text in enumerate(answers):
        try:
            interview.answer(text)
        except ValueError:
            return interview, len(answers) - done
    return interview, 0
