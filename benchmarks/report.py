"""What the benchmarks share: options, and the dated sections of `benchmarks/RESULTS.md`."""

from __future__ import annotations

import os
import platform
import subprocess
from collections.abc import Callable
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path
from typing import Any

import click

RESULTS = Path(__file__).parent / "RESULTS.md"
HEAD = "# Measured\n\nWritten by the benchmarks themselves; each section is replaced when rerun.\n"
LIBRARIES = ("ortools", "shapely", "numpy")


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


def put_section(title: str, lines: list[str]) -> None:
    """Replace the section of that title, or append it."""
    text = RESULTS.read_text(encoding="utf-8") if RESULTS.exists() else HEAD
    before, *sections = text.split("\n## ")
    kept = [s for s in sections if s.split("\n", 1)[0] != title]
    kept.append(title + "\n\n" + "\n".join(lines) + "\n")
    whole = "\n## ".join([before.rstrip("\n") + "\n", *[s.rstrip("\n") + "\n" for s in kept]])
    RESULTS.write_text(whole, encoding="utf-8")
