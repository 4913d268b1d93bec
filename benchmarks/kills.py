"""Kills runs with -9 while they write into a folder, and looks at what is left.

Each trial has a folder with the whole set of an older run, or none at all. A process of its own
writes another set into it, slowly, and is killed at a moment drawn at random from the time that
this takes. Then the next run looks, as every run does first. What must be there is a whole old
or a whole new set, each file of it, and nothing else: no mix, no leftovers.
"""

from __future__ import annotations

import argparse
import os
import random
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from arrange.output.files import RESULT, RUN, Folder
from arrange.output.moving import LEFTOVER

TOP = Path(__file__).parent.parent
PAUSE = 0.004  # s, before each thing that is done to the disk
PLANS = {"old": 4, "new": 2}
FILES = {
    mark: (*(f"plan-{i}.png" for i in range(1, count + 1)), "overview.png", RUN, RESULT)
    for mark, count in PLANS.items()
}


def write(folder: Path, mark: str) -> None:
    """Write the set of that mark: every file holds it."""
    pictures = FILES[mark][:-2]
    Folder(folder).write(
        [(name, lambda path: path.write_text(mark)) for name in pictures],
        [
            (RUN, lambda _: mark),
            (RESULT, lambda names: {"outcome": "found", "mark": mark, "files": list(names[:-2])}),
        ],
    )


def set_in(folder: Path) -> str:
    """The mark of the whole set in a folder, "none" without a folder, else what is wrong."""
    if not folder.exists():
        return "none"
    names = {p.name for p in folder.iterdir()}
    there = {name for name in names if not LEFTOVER.fullmatch(name)}
    more = " and leftovers" if names - there else ""
    for mark, files in FILES.items():
        if there == set(files) and all(mark in (folder / f).read_text() for f in files):
            return f"{mark}{more}"
    return f"a mix{more}"


def slowly(folder: Path, pause: float) -> None:
    """Write the new set with a pause before each thing that is done to the disk."""

    def slowed(real: Callable[..., Any], *args: Any, **more: Any) -> Any:  # noqa: ANN401
        time.sleep(pause)
        return real(*args, **more)

    for owner, name in (
        (os, "link"),
        (os, "fsync"),
        (os, "rename"),
        (os, "replace"),
        (os, "unlink"),
        (os, "rmdir"),
        (os, "mkdir"),
    ):
        setattr(owner, name, partial(slowed, getattr(owner, name)))
    print("begun", flush=True)
    write(folder, "new")
    print("done", flush=True)


def killed(folder: Path, seconds: float | None, pause: float) -> float:
    """Start the slow writer and kill it after so long, or not at all; returns how long it ran."""
    child = subprocess.Popen(
        [sys.executable, "-m", "benchmarks.kills", "--write-into", folder, "--pause", str(pause)],
        cwd=TOP,
        stdout=subprocess.PIPE,
    )
    with child:
        assert child.stdout is not None  # noqa: S101  as asked for
        child.stdout.readline()
        begun = time.perf_counter()
        if seconds is None:
            child.stdout.readline()
        else:
            time.sleep(seconds)
        taken = time.perf_counter() - begun
        child.kill()
    return taken


def campaign(trials: int, seed: int, pause: float = PAUSE) -> Counter[tuple[str, str, str]]:
    """What was there before, right after the kill, and once the next run had looked; counted."""
    drawn = random.Random(seed)
    found: Counter[tuple[str, str, str]] = Counter()
    with tempfile.TemporaryDirectory() as place:
        whole = Path(place) / "whole"
        longest = {before: killed(whole, None, pause) for before in ("none", "old")}
        for trial in range(trials):
            folder = Path(place) / f"trial-{trial}" / "plans"
            folder.parent.mkdir()
            before = "old" if trial % 4 else "none"
            if before == "old":
                write(folder, "old")
            killed(folder, drawn.uniform(0, longest[before]), pause)
            after = set_in(folder)
            Folder(folder)
            left = {p.name for p in folder.parent.iterdir()} - {"plans"}
            found[before, after, "leftovers" if left else set_in(folder)] += 1
    return found


def sound(found: Counter[tuple[str, str, str]]) -> bool:
    """Whether every trial ended with a whole set, the old or the new one."""
    return all(then in (before, "new") for before, _, then in found)


def main() -> None:
    """Run as many kills as asked for, and tell what was left."""
    asked = argparse.ArgumentParser(description=__doc__.partition("\n")[0] if __doc__ else "")
    asked.add_argument("--trials", type=int, default=50)
    asked.add_argument("--seed", type=int, default=0)
    asked.add_argument("--pause", type=float, default=PAUSE)
    asked.add_argument("--write-into", type=Path, help=argparse.SUPPRESS)
    given = asked.parse_args()
    if given.write_into is not None:
        slowly(given.write_into, given.pause)
        return
    found = campaign(given.trials, given.seed, given.pause)
    print("before | after the kill | once the next run has looked | trials")
    for (before, after, then), count in sorted(found.items()):
        print(f"{before} | {after} | {then} | {count}")
    print("all whole" if sound(found) else "NOT ALL WHOLE")
    sys.exit(not sound(found))


if __name__ == "__main__":
    main()
