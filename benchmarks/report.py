"""What the benchmarks share: options, and the dated sections of `benchmarks/RESULTS.md`."""

from __future__ import annotations

import os
import platform
import resource
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path
from typing import Any, NoReturn, Protocol, TypeVar

import click

RESULTS = Path(__file__).parent / "RESULTS.md"
HEAD = "# Measured\n\nWritten by the benchmarks themselves; each section is replaced when rerun.\n"
LIBRARIES = ("ortools", "shapely", "numpy")
GIB = 2**30  # bytes: what no process may take


class Finding(Protocol):
    """What a campaign finds out about one seed."""

    @property
    def seed(self) -> int:
        """The seed."""

    @property
    def faults(self) -> tuple[str, ...]:
        """What is wrong; empty if nothing is."""


Faulty = TypeVar("Faulty", bound=Finding)


def over_rooms(
    rooms: int, processes: int, seconds: float | None = None, *, each: str = "each search"
) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """The options of a command that goes through seeded rooms, with these defaults.

    ``--seconds`` limits ``each`` and is left out with None.
    """
    options = [
        click.option("--rooms", default=rooms, help="How many rooms."),
        click.option("--start", default=0, help="The first seed."),
        click.option("--processes", default=processes),
        click.option("--write", is_flag=True, help="Put the numbers into benchmarks/RESULTS.md."),
    ]
    if seconds is not None:
        limit = click.option("--seconds", default=seconds, help=f"Time limit of {each}.")
        options.insert(2, limit)

    def with_options(command: Callable[..., Any]) -> Callable[..., Any]:
        for option in reversed(options):
            command = option(command)
        return command

    return with_options


def most_memory() -> int:
    """The most that this process ever had, in bytes."""
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most if sys.platform == "darwin" else most * 1024  # there it is told in bytes


def circumstances(what: str) -> str:
    """Date, commit, libraries, machine and settings, in one line.

    To be asked for when a run begins: it says which code was measured, and the files may
    be another commit's by the time the run is over.
    """
    libraries = ", ".join(f"{name} {version(name)}" for name in LIBRARIES)
    began = datetime.now(UTC).date().isoformat()
    return (
        f"Begun {began}, commit {commit()}, {libraries}, Python {platform.python_version()}, "
        f"{os.cpu_count()} cores; {what}."
    )


def commit() -> str:
    """The short commit, marked if any file differs but the one that results go to."""
    here = Path(__file__).parent.parent

    def git(*words: str) -> str:
        done = subprocess.run(
            ["git", *words], cwd=here, capture_output=True, text=True, check=False
        )
        return done.stdout.strip()

    changed = git("status", "--porcelain", "--", ":/", ":(exclude,top)benchmarks/RESULTS.md")
    return (git("rev-parse", "--short", "HEAD") or "unknown") + (" with changes" if changed else "")


def conclude(title: str, lines: list[str], *, write: bool, faulty: bool) -> NoReturn:
    """Print what came out, put it into the results if asked to, and end: with 1 at any fault."""
    click.echo("\n".join(lines))
    if write:
        put_section(title, lines)
    sys.exit(1 if faulty else 0)


def answers(ask: Callable[[int], Faulty], seeds: range, processes: int) -> list[Faulty]:
    """What ``ask`` finds out about each seed; faults are told at once, and every 100 rooms."""
    found: list[Faulty] = []
    with ProcessPoolExecutor(processes) as pool:
        for one in pool.map(ask, seeds, chunksize=4):
            found.append(one)
            if one.faults:
                click.echo(f"seed {one.seed}: {'; '.join(one.faults)}")
            if len(found) % 100 == 0:
                click.echo(f"{len(found)} rooms")
    return found


def put_section(title: str, lines: list[str]) -> None:
    """Replace the section of that title, or append it."""
    text = RESULTS.read_text(encoding="utf-8") if RESULTS.exists() else HEAD
    before, *sections = text.split("\n## ")
    kept = [s for s in sections if s.split("\n", 1)[0] != title]
    kept.append(title + "\n\n" + "\n".join(lines) + "\n")
    whole = "\n## ".join([before.rstrip("\n") + "\n", *[s.rstrip("\n") + "\n" for s in kept]])
    RESULTS.write_text(whole, encoding="utf-8")
