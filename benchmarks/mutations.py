"""The campaign of broken files: scenarios and results with a few things wrong, read and refused.

    python -m benchmarks.mutations --files 10000 --processes 2 --whole 100 --write

See `tests/mutated.py` for what is wrong in them. Most are read in processes with a limit on
memory; some are given to `arrange check` and `arrange compare` as whole processes. A fault is
any exception but the one with a message, exit code 1, a traceback, something invisible or
endless in what is said, more than a second over the time limit, or more than 1 GiB.
Exit code 1 if there is any.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from functools import partial
from pathlib import Path

import click

sys.path.insert(0, str(Path(__file__).parent.parent / "tests"))

from mutated import (
    SECONDS,
    Finding,
    compare_it,
    draw_it,
    examine,
    mutated_result,
    mutated_scenario,
    read_scenario,
    standing_result,
    unclear,
)

from benchmarks.report import GIB, circumstances, conclude, most_memory

DRAWN = 50  # of so many files the comparison is drawn as well
LIMIT = 10  # s, given to each whole process
STOPPED = 60  # s, after which one is ended
COMMAND = [sys.executable, "-c", "from arrange.cli import main; main()"]


def one(seed: int, folder: Path, sound: str) -> Finding:
    """Read a broken file in this process; even seeds are scenarios, odd ones results."""
    resource.setrlimit(resource.RLIMIT_AS, (2 * GIB, 2 * GIB))
    path = folder / f"{os.getpid()}.{'json' if seed % 2 else 'toml'}"
    if seed % 2:
        drawn = seed % DRAWN == 1
        reader, seconds = (draw_it, LIMIT) if drawn else (compare_it, SECONDS)
        found = examine(seed, mutated_result(seed, sound), path, reader, seconds)
    else:
        found = examine(seed, mutated_scenario(seed), path, read_scenario)
    most = most_memory()
    fault = found.fault or (f"{most / GIB:.1f} GiB" if most > GIB else "")
    return replace(found, fault=fault, memory=most)


def whole(seed: int, folder: Path, sound: str) -> Finding:
    """Give a broken file to the command."""
    sound_file = folder / "result.json"
    broken = folder / f"whole-{seed}.{'json' if seed % 2 else 'toml'}"
    if seed % 2:
        broken.write_bytes(mutated_result(seed, sound))
        asked = ["compare", str(sound_file), str(broken)]
    else:
        broken.write_bytes(mutated_scenario(seed))
        asked = ["check", str(broken)]
    out = folder / f"out-{seed}"
    told = folder / f"told-{seed}"
    began = time.monotonic()
    with told.open("wb") as file:
        process = subprocess.Popen(
            [*COMMAND, *asked, "--time", str(LIMIT), "--out", str(out)], stdout=file, stderr=file
        )
        code, memory = _ended(process, began)
    seconds = time.monotonic() - began
    return Finding(seed, f"exit {code}", seconds, _fault(told, code, memory, seconds), memory)


def _ended(process: subprocess.Popen[bytes], began: float) -> tuple[int, int]:
    """Exit code, and the most memory it had, in bytes."""
    while True:
        pid, status, usage = os.wait4(process.pid, os.WNOHANG)
        if pid:
            process.returncode = os.waitstatus_to_exitcode(status)
            return process.returncode, usage.ru_maxrss * 1024
        if time.monotonic() - began > STOPPED:
            process.kill()
        time.sleep(0.05)


def _fault(told: Path, code: int, memory: int, seconds: float) -> str:
    text = told.read_text(encoding="utf-8", errors="replace")
    if code not in (0, 2, 3, 4) or "Traceback" in text:
        return f"exit {code}: {text[-300:]}"
    if memory > GIB:
        return f"{memory / GIB:.1f} GiB"
    if seconds > LIMIT + 1:
        return f"{seconds:.1f} s"
    return unclear(text.strip()) if code == 2 else ""


def summary(findings: list[Finding], name: str) -> list[str]:
    """What became of the files, in numbers."""
    if not findings:
        return []
    counted = Counter(f.outcome for f in findings)
    seconds = sorted(f.seconds for f in findings)
    faults = [f for f in findings if f.fault]
    outcomes = ", ".join(f"{n} {outcome}" for outcome, n in sorted(counted.items()))
    return [
        f"- {name}: {len(findings)} files: {outcomes}; longest {seconds[-1]:.1f} s, "
        f"most memory {max(f.memory for f in findings) / 2**20:.0f} MiB",
        f"- {name}, faults: {len(faults)}",
        *(f"- seed {f.seed}: {f.fault}" for f in faults),
    ]


@click.command()
@click.option("--files", default=10_000, help="How many are read in process.")
@click.option("--whole", "wholes", default=100, help="How many are given to the command.")
@click.option("--start", default=0, help="The first seed.")
@click.option("--processes", default=2)
@click.option("--write", is_flag=True, help="Put the figures into the table of results.")
def main(files: int, wholes: int, start: int, processes: int, *, write: bool) -> None:
    """Read broken files and report every fault."""
    began = circumstances(f"seeds {start} to {start + files - 1}, {wholes} as whole processes")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        sound = standing_result(folder)
        (folder / "result.json").write_text(sound, encoding="utf-8")
        with ProcessPoolExecutor(processes) as pool:
            seeds = range(start, start + files)
            inside = list(pool.map(partial(one, folder=folder, sound=sound), seeds, chunksize=50))
        with ProcessPoolExecutor(processes) as pool:
            seeds = range(start, start + wholes)
            outside = list(pool.map(partial(whole, folder=folder, sound=sound), seeds))
    lines = [began, "", *summary(inside, "in process"), *summary(outside, "whole process")]
    faulty = any(f.fault for f in (*inside, *outside))
    conclude("Broken files", lines, write=write, faulty=faulty)


if __name__ == "__main__":
    main()
