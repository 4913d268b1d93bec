"""Planted faults: one small change of the code at a time, to see whether the tests notice.

    python -m benchmarks.planted_faults --from 1 --to 40

The changes stand in ``planted_faults.toml``: a file, a text in it that occurs once, what is
put in its place, what a person would see go wrong, and the tests that should notice first.
Each is made in a copy of the project that is thrown away. The named tests run first; if they
notice nothing, all fast tests do. Every one that nothing notices is printed with its words,
and every one whose text the code no longer has. It can be stopped at any time and taken up
again with ``--from``. Exit code 1 on either. ``--check`` tells
the latter alone, in a moment.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import click

TOP = Path(__file__).parent.parent
TABLE = Path(__file__).with_name("planted_faults.toml")
COPIED = ("arrange", "tests", "benchmarks", "scenarios", "README.md", "DEVELOPERS.md",
          "pyproject.toml")  # fmt: skip
SECONDS = 300.0  # for one run of tests; one that takes longer is counted apart


@dataclass(frozen=True)
class Fault:
    """One change: ``find`` occurs once in ``file``; ``tests`` are tried before all others."""

    file: str
    find: str
    put: str
    breaks: str
    tests: tuple[str, ...] = ()


def faults() -> list[Fault]:
    """The table, in its order."""
    rows = tomllib.loads(TABLE.read_text(encoding="utf-8"))["fault"]
    return [Fault(**{**row, "tests": tuple(row.get("tests", ()))}) for row in rows]


def misplaced(fault: Fault) -> str:
    """Why a fault cannot be planted as the code is now; "" if it can."""
    path = TOP / fault.file
    count = path.read_text(encoding="utf-8").count(fault.find) if path.is_file() else 0
    if count != 1 or fault.find == fault.put:
        return f"{fault.find!r} occurs {count} times in {fault.file}"
    return ""


def noticed(copy: Path, fault: Fault, seconds: float, *, named: bool = False) -> str:
    """By which tests the fault is noticed: "named", "fast", "no" where time ran out, or "".

    With ``named`` the named tests alone are tried.
    """
    path = copy / fault.file
    whole = path.read_text(encoding="utf-8")
    path.write_text(whole.replace(fault.find, fault.put), encoding="utf-8")
    try:
        if fault.tests and not _passes(copy, [f"tests/{t}" for t in fault.tests], seconds):
            return "named"
        if named and fault.tests:
            return ""
        return "" if _passes(copy, ["-m", "fast"], seconds) else "fast"
    except subprocess.TimeoutExpired:
        return "no"
    finally:
        path.write_text(whole, encoding="utf-8")


def _passes(copy: Path, what: Sequence[str], seconds: float) -> bool:
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:xdist", *what]
    place = {**os.environ, "PYTHONPATH": str(copy), "PYTHONDONTWRITEBYTECODE": "1"}
    run = subprocess.run(
        command, cwd=copy, env=place, capture_output=True, timeout=seconds, check=False
    )
    if run.returncode not in (0, 1, 2):
        raise click.ClickException(f"the tests did not run: {run.stdout.decode()[-500:]}")
    return run.returncode == 0


def _check(every: Sequence[Fault]) -> int:
    """Tell which faults do not fit the code or name tests that are not there; 1 if any."""
    lines = []
    for number, fault in enumerate(every, start=1):
        gone = [test for test in fault.tests if not (TOP / "tests" / test).is_file()]
        wrong = [misplaced(fault)] if misplaced(fault) else []
        wrong += [f"tests/{test} is not there" for test in gone]
        lines += [f"{number:4}  DOES NOT FIT the code any more: {one}" for one in wrong]
    click.echo("\n".join([*lines, f"{len(every)} looked at, {len(lines)} do not fit"]))
    return 1 if lines else 0


@click.command()
@click.option("--from", "first", default=1, help="The first fault, counted from 1.")
@click.option("--to", "last", default=0, help="The last; 0 for all.")
@click.option("--seconds", default=SECONDS, help="For one run of tests.")
@click.option("--named", is_flag=True, help="Only the tests named with each: quicker.")
@click.option("--check", is_flag=True, help="Only whether each fits the code; no test is run.")
def main(first: int, last: int, seconds: float, named: bool, check: bool) -> None:
    """Plant each fault, run the tests, count those that nothing notices."""
    every = faults()
    last = last or len(every)
    if check:
        sys.exit(_check(every))
    misfits = 0
    counts = {"named": 0, "fast": 0, "no": 0, "": 0}
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder)
        for name in COPIED:
            source = TOP / name
            if source.is_dir():
                shutil.copytree(source, copy / name, ignore=shutil.ignore_patterns("__pycache__"))
            else:
                shutil.copy(source, copy / name)
        for number, fault in enumerate(every, start=1):
            if not first <= number <= last:
                continue
            if wrong := misplaced(fault):
                misfits += 1
                click.echo(f"{number:4}  DOES NOT FIT the code any more: {wrong}")
                continue
            by = noticed(copy, fault, seconds, named=named)
            counts[by] += 1
            told = f"by {by} tests" if by else f"SURVIVES in {fault.file}"
            click.echo(f"{number:4}  {told}: {fault.breaks}")
    tried = sum(counts.values())
    click.echo(
        f"{tried} planted, {counts['named']} noticed by the tests named, {counts['fast']} by "
        f"other fast ones, {counts['no']} ran out of time, {counts['']} survive; "
        f"{misfits} do not fit the code"
    )
    sys.exit(1 if counts[""] or counts["no"] or misfits else 0)


if __name__ == "__main__":
    main()
