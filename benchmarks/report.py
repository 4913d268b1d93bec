"""The dated table in `benchmarks/RESULTS.md`: one section for each benchmark."""

from __future__ import annotations

import os
import platform
import subprocess
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path

RESULTS = Path(__file__).parent / "RESULTS.md"
HEAD = "# Measured\n\nWritten by the benchmarks themselves; each section is replaced when rerun.\n"
LIBRARIES = ("ortools", "shapely", "numpy")


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
