"""``arrange begin``: asks for a room in plain words, and ends with its file and the first plan."""

from __future__ import annotations

import os
import re
import sys
from contextlib import suppress
from decimal import Decimal
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from arrange.cli.choose import FURTHER, choose
from arrange.cli.common import (
    BAD_INPUT,
    FOUND,
    Delivery,
    out_option,
    say,
    time_option,
)
from arrange.cli.suggest import suggest
from arrange.errors import OutputError, printable

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from arrange.begin.answers import Question
    from arrange.begin.interview import Interview
    from arrange.begin.notes import Notes
    from arrange.data.scenario import Scenario

GREETING = (
    "A few questions about your room, one at a time. Type the answer and press Enter; Enter alone "
    'takes what is in brackets. "back" goes back a question, "?" explains, "show" shows what you '
    'have said so far, and "stop" keeps your answers for another day.'
)
# No letter alone: walls are called so.
BACK, STOP, SHOW = ("back", "go back"), ("stop", "quit", "exit"), ("show",)
HELP = ("?", "help")
DRAFT = ".draft"
LONGEST_LINE = 1000  # characters; no answer is longer
# Wrong answers to one question after which nobody is there to see what is wrong.
MOST_WRONG = 5
LONGEST_NAME = 40  # letters of a file named after its room


@click.command(epilog="Example: arrange begin bedroom.toml")
@click.argument("file", metavar="[FILE]", required=False)
@out_option()
@time_option(60.0, "How long to search for the first plan at most.")
@click.option("--anew", is_flag=True, help="Start again, without the answers kept in a draft.")
@click.pass_context
def begin(
    ctx: click.Context, file: str | None, out: Path | None, seconds: float, anew: bool
) -> None:
    """Ask for your room in plain words and write FILE.

    One question at a time: the walls, doors and windows, the furniture, what you wish for. The
    answers may also be piped in, one to a line. They are kept in a draft beside FILE after every
    answer, so the same command carries on where you stopped. At the end FILE is written, the room
    is drawn as measured (survey), and the best arrangement is found and drawn (plan-1). What you
    have not decided yet is chosen for you (arrange choose).
    Without FILE it is named after the room.
    """
    talk = Talk(None if file is None else _named(file), out, anew=anew)
    if not talk.all():
        ctx.exit(FOUND if talk.stopped else BAD_INPUT)
    path = talk.written()
    if talk.interview.notes.tables.get("need"):
        say(f"Choosing what to have and where it goes, for {seconds:g} s at most.")
        ctx.invoke(
            choose,
            file=str(path),
            top=3,
            further=Decimal(FURTHER),
            curve=True,
            bought=(),
            new_file=None,
            in_place=False,
            out=out,
            seconds=seconds,
            seed=0,
            suffix="png",
            as_json=False,
        )
    say(f"Looking for the first plan, for {seconds:g} s at most.")
    ctx.invoke(
        suggest,
        file=str(path),
        top=1,
        out=out,
        seconds=seconds,
        seed=0,
        families=False,
        everything=False,
        tape=False,
        suffix="png",
        as_json=False,
    )


def _named(file: str) -> Path:
    """The file to write. Who names a draft goes on with it."""
    if file == "-":
        raise click.UsageError("answers are read from stdin anyway; name the file to write")
    path = Path(file)
    if not path.name.strip(". "):
        raise click.UsageError("name the file to write, such as bedroom.toml")
    return path.with_suffix(".toml") if path.suffix in ("", DRAFT) else path


class EndedError(Exception):
    """There is nothing more to read, or the person has had enough for today."""


class Talk:
    """The conversation at a terminal, or with what is piped in."""

    def __init__(self, path: Path | None, out: Path | None, *, anew: bool = False) -> None:
        from arrange.begin.interview import Interview  # noqa: PLC0415

        self.path, self.out, self.anew = path, out, anew
        self.interview: Interview = Interview()
        self.watched = sys.stdin is not None and sys.stdin.isatty()
        self.stopped = self.watched  # piped answers may also end without a word
        self.shown = False  # whether it was said where the picture is
        self.undrawn = False  # whether the room has changed since its last picture
        if self.watched:
            with suppress(ImportError):
                import readline  # noqa: F401, PLC0415  arrow keys work where it is there
        reconfigure = getattr(sys.stdin, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")

    @property
    def draft(self) -> Path | None:
        """Where the answers are kept; None while the room has no name."""
        return None if self.path is None else self.path.with_suffix(DRAFT)

    def all(self) -> bool:
        """Ask everything; whether that came to its end."""
        _told(GREETING)
        self._resume()
        wrong = 0
        with suppress(EndedError, KeyboardInterrupt):
            while self.watched or wrong < MOST_WRONG:
                if self.interview.question is None:
                    return True
                wrong = 0 if self._one(self.interview.question) else wrong + 1
            _told("No answer to this question was understood, so we stop here.")
        self._told_how_to_go_on()
        return False

    def _told_how_to_go_on(self) -> None:
        if not self.interview.answers or self.draft is None:
            _told("\nNothing was answered yet, so nothing is kept.")
            return
        if self.undrawn:
            self._draw()
        say("")
        _told(f"Your answers so far are kept in {self.draft}. To go on where you stopped:")
        say(f"  arrange begin {self.path}")

    def _resume(self) -> None:
        """Take the answers of a draft, if there is one."""
        from arrange.begin.interview import answers_in, resumed  # noqa: PLC0415
        from arrange.scenario.limits import text_of  # noqa: PLC0415

        if self.draft is None or self.anew or not self.draft.is_file():
            return
        answers = answers_in(text_of(self.draft).splitlines())
        self.interview, lost = resumed(answers)
        kept = len(self.interview.answers)
        _told(f"Going on with {self.draft}, which has {kept} answer{_s(kept)} so far.")
        if lost:
            last = f"last {lost} answers do" if lost > 1 else "last answer does"
            _told(f"The {last} not fit any more, so we ask again from there.")
        if picture := self.interview.picture():
            say(picture)
        self.interview.told = []

    def _one(self, question: Question[Any]) -> bool:
        """Ask a question once; whether what was typed was of use."""
        words = self.line(question)
        if words.casefold() in STOP:
            self.stopped = True
            raise EndedError
        if words.casefold() in HELP:
            _told(question.example)
            return True
        if words.casefold() in SHOW:
            say(self.interview.notes.text)
            if picture := self.interview.picture():
                say(picture)
            return True
        if words.casefold() in BACK:
            if not self.interview.back():
                _told("This is the first question.")
            self._save()
            return True
        try:
            self.interview.answer(words)
        except ValueError as error:
            _told(str(error))
            return False
        self._answered()
        return True

    def _answered(self) -> None:
        if self.path is None:
            self._name_after_the_room()
        self._save()
        for told in self.interview.told:
            if "\n" in told:
                say(told)
            else:
                _told(told)
        self.undrawn |= self.interview.drawn
        # Between answers that are piped in nobody looks: one picture at their end will do.
        if self.undrawn and self.watched:
            self._draw()

    def _name_after_the_room(self) -> None:
        """A file named after the room; a draft of that name is gone on with."""
        title = re.sub(r"['\u2019]", "", self.interview.notes.title.casefold())
        stem = re.sub(r"[\W_]+", "-", title).strip("-")
        self.path = Path(f"{stem[:LONGEST_NAME].strip('-') or 'room'}.toml")
        self._resume()

    def _draw(self) -> None:
        """The empty room as a picture, as far as it is known."""
        notes = self.interview.notes
        scenario = notes.scenario()
        if self.path is None or (scenario is None and not notes.walked()):
            return
        picture, self.undrawn = _survey(scenario, notes, self.path, self.out), False
        if not self.shown:
            again = ", and is drawn anew each time" if self.watched else ""
            say(f"{picture} shows the same as a picture{again}.")
        self.shown = True

    def line(self, question: Question[Any]) -> str:
        """What is typed or piped in. EndedError where there is no more."""
        first, *rest = question.text.split("\n")
        say("")
        _told(first)
        for option in rest:
            say(option)
        prompt = "> " if question.usual is None else f"[{question.usual}] > "
        return self._typed(prompt) if self.watched else self._piped(prompt)

    def _typed(self, prompt: str) -> str:
        try:
            return " ".join(input(printable(prompt)).split())
        except EOFError:
            raise EndedError from None

    def _piped(self, prompt: str) -> str:
        from arrange.begin.interview import COMMENT  # noqa: PLC0415

        while True:
            line = "" if sys.stdin is None else sys.stdin.readline(LONGEST_LINE)
            if not line:
                say(prompt.rstrip())
                raise EndedError
            if not line.startswith(COMMENT):  # a draft can be piped in as it is
                break
        words = " ".join(line.split())
        say(f"{prompt}{words}".rstrip())  # so that what is printed can be read
        return words

    def _save(self) -> None:
        if self.draft is not None:
            _put(self.draft, self.interview.draft)

    def written(self) -> Path:
        """Write the file and the picture of the empty room; the draft has done its work."""
        from arrange.begin.notes import read_told  # noqa: PLC0415

        text, draft = self.interview.notes.text, self.draft
        assert self.path is not None  # noqa: S101  the first answer names it
        scenario = read_told(text, str(self.path))
        path = self._free_path(self.path)
        _put(path, text)
        if draft is not None:
            draft.unlink(missing_ok=True)
        say("")
        _told(f"Written: {path}, a text file that you can change.")
        picture = _survey(scenario, self.interview.notes, path, self.out)
        say(f"The room as measured: {picture}")
        return path

    def _free_path(self, path: Path) -> Path:
        """The file to write: never over one that is there without asking."""
        from arrange.begin.answers import yes_or_no  # noqa: PLC0415

        if not path.exists():
            return path
        numbered = (path.with_stem(f"{path.stem}-{i}") for i in count(2))
        free = next(other for other in numbered if not other.exists())
        text = f"{path} is there already. Write over it? If not, the new one is called {free}."
        return path if self._asked(yes_or_no(text, usual=False)) else free

    def _asked(self, question: Question[bool]) -> bool:
        """The answer to a question that is no part of the conversation; no if there is none."""
        while True:
            try:
                return question.answered(self.line(question))
            except ValueError as error:
                _told(str(error))
            except (EndedError, KeyboardInterrupt):
                return False


def _survey(scenario: Scenario | None, notes: Notes, path: Path, out: Path | None) -> Path:
    """Draw the empty room, or the walls while they do not make one; where the picture is."""
    from arrange.draw import survey_sheet  # noqa: PLC0415
    from arrange.draw.walked import walked_sheet  # noqa: PLC0415
    from arrange.words.check import room_words  # noqa: PLC0415

    def sheet() -> Figure:
        if scenario is None:
            return walked_sheet(notes.title, notes.walked(), notes.unit)
        return survey_sheet(scenario, (), room_words(scenario))

    to = Delivery(str(path), out, "png")
    to.look()
    (name,) = to.write({"survey": sheet})
    return to.path / name


def _put(path: Path, text: str) -> None:
    """Write a file whole or not at all. OutputError where that cannot be done."""
    beside = path.with_name(f"{path.name}.new")
    try:
        beside.write_text(text, encoding="utf-8")
        os.replace(beside, path)  # noqa: PTH105  in one step, whatever happens
    except OSError as error:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
        reason = error.strerror or str(error)
        raise OutputError(f"{path}: cannot be written ({reason}); name another file") from error


def _told(text: str) -> None:
    from arrange.words.reasons import wrapped  # noqa: PLC0415

    say(wrapped(text))


def _s(many: int) -> str:
    return "" if many == 1 else "s"
