"""The group of commands, and what becomes of errors: one message, one exit code."""

from __future__ import annotations

import os
import sys
from typing import Any

import click

from arrange import __version__
from arrange.cli.check import check
from arrange.cli.common import BAD_INPUT, NOTHING_FOUND, OUR_BUG
from arrange.cli.compare import compare
from arrange.cli.suggest import suggest
from arrange.cli.swap import swap
from arrange.cli.today import today
from arrange.cli.why import why
from arrange.errors import ArrangeError, DisagreementError, OutputError, ScenarioError

EPILOG = (
    "Exit codes: 0 found, 1 our bug, 2 bad input, 3 proven impossible, 4 nothing found in time."
)


class Entry(click.Group):
    """A group that turns errors into one message and the fitting exit code."""

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401
        """Run the command; a traceback is only for those who ask for one."""
        try:
            return super().invoke(ctx)
        except (click.ClickException, click.exceptions.Exit, click.Abort, BrokenPipeError):
            raise
        except (ScenarioError, OutputError) as error:
            click.echo(str(error), err=True)
            ctx.exit(BAD_INPUT)
        except KeyboardInterrupt:
            click.echo("Stopped before anything was written.", err=True)
            ctx.exit(NOTHING_FOUND)
        except Exception as error:
            if ctx.params.get("debug") or os.environ.get("ARRANGE_DEBUG"):
                raise
            click.echo(_our_bug(error), err=True)
            ctx.exit(OUR_BUG)


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

    Describe the room and the pieces in a text file (scenarios/README.md says how), check it, then
    ask for suggestions:

    \b
      arrange check bedroom.toml
      arrange suggest bedroom.toml
    """  # noqa: D301  the help text needs the letter that \b stands for
    del debug  # read where errors are handled
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot show a letter gets a question mark, not an error.
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="replace")


main.add_command(suggest)
main.add_command(check)
main.add_command(today)
main.add_command(swap)
main.add_command(compare)
main.add_command(why)
