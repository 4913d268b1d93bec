"""The group of commands, and what becomes of errors: one message, one exit code."""

from __future__ import annotations

import errno
import os
import signal
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from types import FrameType
from typing import Any, NoReturn, TextIO

import click

from arrange import __version__
from arrange.cli.begin import begin
from arrange.cli.board import board
from arrange.cli.check import check
from arrange.cli.choose import choose
from arrange.cli.common import BAD_INPUT, NOTHING_FOUND, OUR_BUG, unprintable
from arrange.cli.compare import compare
from arrange.cli.fits import fits
from arrange.cli.move import move
from arrange.cli.print import print_plan
from arrange.cli.shop import shop
from arrange.cli.suggest import suggest
from arrange.cli.swap import swap
from arrange.cli.today import today
from arrange.cli.why import why
from arrange.errors import (
    ArrangeError,
    DisagreementError,
    OutputError,
    ScenarioError,
    printable,
    shortened,
)

EPILOG = (
    "Exit codes: 0 found, 1 our bug, 2 bad input, 3 proven impossible, 4 nothing found in time."
)


# What the system says of a name that it was given, by which nobody else is at fault.
UNREADABLE = (errno.ENAMETOOLONG, errno.EACCES, errno.EPERM, errno.ELOOP)
LONGEST_SHOWN = 60  # letters of a name
READER_GONE = 128 + 13  # as a shell tells of a program that SIGPIPE ended
IMPORTING = "<frozen importlib._bootstrap>"  # the file of Python's own import
AGAIN = 0.05  # s until it is looked again whether an import is over


class Entry(click.Group):
    """A group that turns errors into one message and the fitting exit code."""

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401
        """Run the command; a traceback is only for those who ask for one."""
        try:
            return super().invoke(ctx)
        except (click.exceptions.Exit, click.Abort):
            raise
        except click.ClickException as error:
            raise _shown_safely(error) from None
        except BrokenPipeError:
            _end_for_the_reader()
        except (ScenarioError, OutputError) as error:
            _tell(str(error))
            ctx.exit(BAD_INPUT)
        except OSError as error:
            if error.errno not in UNREADABLE or not isinstance(error.filename, str):
                return self._bug(ctx, error)
            name = shortened(error.filename, LONGEST_SHOWN)
            _tell(f"{name}: cannot be read ({error.strerror}); check the name")
            ctx.exit(BAD_INPUT)
        except KeyboardInterrupt:
            _tell("Stopped before anything was written.")
            ctx.exit(NOTHING_FOUND)
        except Exception as error:
            return self._bug(ctx, error)

    def _bug(self, ctx: click.Context, error: Exception) -> None:
        if ctx.params.get("debug") or os.environ.get("ARRANGE_DEBUG"):
            raise error
        _tell(_our_bug(error))
        ctx.exit(OUR_BUG)

    def make_context(self, *args: Any, **more: Any) -> click.Context:  # noqa: ANN401
        """As ever; prints the help of the group, which a reader may not want to the end."""
        try:
            return super().make_context(*args, **more)
        except click.ClickException as error:
            raise _shown_safely(error) from None
        except BrokenPipeError:
            _end_for_the_reader()

    def main(self, *args: Any, **more: Any) -> Any:  # noqa: ANN401
        """Run, and end in a known way also where nothing can be printed any more."""
        _open_what_is_closed()
        try:
            with _no_import_cut_short():
                return super().main(*args, **more)
        except OSError as error:
            # Help and messages of bad usage; answers are printed by ``say``.
            _print_no_more(sys.stdout)
            _tell(unprintable(error))
            sys.exit(BAD_INPUT)


@contextmanager
def _no_import_cut_short() -> Iterator[None]:
    """Ctrl-C while a library is loaded is heard right after.

    A library that is cut short takes that for an error of its own.
    """
    own = threading.current_thread() is threading.main_thread()
    if not own or signal.getsignal(signal.SIGINT) is not signal.default_int_handler:
        yield
        return
    signal.signal(signal.SIGINT, _interrupt)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, signal.default_int_handler)


def _interrupt(number: int, frame: FrameType | None) -> None:
    while frame is not None:
        if frame.f_code.co_filename == IMPORTING:
            later = threading.Timer(AGAIN, _raise_in_main, (number,))
            later.daemon = True
            later.start()
            return
        frame = frame.f_back
    raise KeyboardInterrupt


def _raise_in_main(number: int) -> None:
    """Send the signal to the main thread, so that it also ends what that one waits for."""
    main = threading.main_thread().ident
    if main is not None and hasattr(signal, "pthread_kill"):
        signal.pthread_kill(main, number)
    else:
        signal.raise_signal(number)


def _open_what_is_closed() -> None:
    """Give 0, 1 and 2 a place where the caller closed them: what is printed there vanishes.

    Else a file of ours would get their number, and be read or printed into.
    """
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)  # takes the lowest number that is free
    # Python has found them closed already, and has nothing there.
    sys.stdout = sys.stdout or os.fdopen(os.dup(1), "w", encoding="utf-8")
    sys.stderr = sys.stderr or os.fdopen(os.dup(2), "w", encoding="utf-8")


def _end_for_the_reader() -> NoReturn:
    """Whoever reads what we print has seen enough: end without a word."""
    _print_no_more(sys.stdout)
    sys.exit(READER_GONE)


def _print_no_more(stream: TextIO) -> None:
    """Let what is still to be printed vanish, or Python would complain of it at the end."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _shown_safely(error: click.ClickException) -> click.ClickException:
    """The same error; what it says of the names typed holds nothing that a terminal obeys."""
    vars(error)["message"] = printable(error.message)  # click prints it when it ends
    return error


def _tell(text: str) -> None:
    """Say it on stderr, if anything can be said there; nothing in it that a terminal obeys."""
    with suppress(OSError):
        click.echo("\n".join(map(printable, text.split("\n"))), err=True)


def _our_bug(error: Exception) -> str:
    what = "the solver and the judge disagree" if isinstance(error, DisagreementError) else ""
    told = " ".join(str(error).split()) or type(error).__name__
    if not what and not isinstance(error, ArrangeError):
        what = type(error).__name__
    return (
        f"arrange: this is our bug, not yours: {f'{what}: ' if what else ''}{told}. Please report "
        "it with your file; arrange --debug shows where it happened."
    )


@click.group(cls=Entry, epilog=EPILOG)
@click.version_option(__version__, package_name="arrange", message="%(prog)s %(version)s")
@click.option("--debug", is_flag=True, help="Show where an error of ours happened.")
def main(debug: bool) -> None:
    """Suggests where the furniture goes in a room you are making over.

    Let it ask you for the room and the pieces, or describe them in a text file
    (scenarios/README.md says how); check it, then ask for suggestions:

    \b
      arrange begin bedroom.toml
      arrange check bedroom.toml
      arrange suggest bedroom.toml
    """  # noqa: D301  the help text needs the letter that \b stands for
    del debug  # read where errors are handled
    os.environ["MPLBACKEND"] = "agg"  # we open no window, whatever the person uses elsewhere
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot show a letter gets a question mark, not an error.
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")


main.add_command(begin)
main.add_command(suggest)
main.add_command(choose)
main.add_command(check)
main.add_command(today)
main.add_command(swap)
main.add_command(fits)
main.add_command(compare)
main.add_command(why)
main.add_command(move)
main.add_command(print_plan)
main.add_command(shop)
main.add_command(board)
