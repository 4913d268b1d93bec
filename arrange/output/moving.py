"""Moving a set of files into a folder so that a kill at any moment loses nothing.

A journal is written and brought to the disk before the first file is moved. A run that is
killed leaves it behind in its temporary folder, and whoever looks next finishes what it says:
all moved, or all put back. Locks end with their process, however it ended; so a temporary
folder that can be locked is one whose run is over.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass, replace
from pathlib import Path

try:
    import fcntl
except ImportError:  # not on every system
    fcntl = None  # type: ignore[assignment]

TEMPORARY = ".arrange-"
LEFTOVER = re.compile(re.escape(TEMPORARY) + r"[a-z0-9_]{8}")
NEW, OLD, JOURNAL, BACK, DRAFT = "new", "old", "journal.json", "journal-back.json", "draft"
# What a run may have written. Nothing else is ever removed, whatever an old record says.
OURS = re.compile(
    r"((plan|place|clash|choice)-[1-9][0-9]{0,3}|overview|survey|today|before-after|ladder"
    r"|largest|ways-out|compare|check|choice|sums|shop|version|print|booklet|result|run|swap|why)"
    r"(-[1-9][0-9]{0,3})?(-none)?\.(png|svg|pdf|json|csv)"
)


@dataclass(frozen=True, slots=True)
class Journal:
    """What is going to change in a folder: names of files to come, to go, and there before."""

    files: tuple[str, ...]
    stale: tuple[str, ...]
    before: tuple[str, ...] = ()

    @staticmethod
    def read(path: Path) -> Journal | None:
        """The journal in a file, None if it is none. Only plain names are taken."""
        if not path.is_file():
            return None
        try:
            data = json.loads(path.read_text(encoding="utf-8"))
            found = Journal(*(tuple(data[key]) for key in ("files", "stale", "before")))
        except (OSError, ValueError, TypeError, KeyError, RecursionError):
            return None
        plain = all(
            isinstance(n, str) and n not in ("", ".", "..") and Path(n).name == n
            for n in (*found.files, *found.stale, *found.before)
        )
        return found if plain and all(OURS.fullmatch(n) for n in found.stale) else None

    def write(self, path: Path) -> None:
        """Bring it to the disk, whole or not at all."""
        draft = path.with_name(DRAFT)
        draft.write_text(json.dumps(asdict(self)), encoding="utf-8")
        _to_disk(draft)
        draft.replace(path)
        _to_disk(path.parent)


def move(work: Path, folder: Path, journal: Journal) -> None:
    """Move the files from ``work`` into the folder; put all back if one cannot be moved.

    The folder is ``locked`` by the caller. OSError or whatever else ended it.
    """
    (work / OLD).mkdir()
    changing = (*journal.files, *journal.stale)
    there = tuple(name for name in changing if os.path.lexists(folder / name))
    for name in there:
        _keep(folder / name, work / OLD / name)
    for name in journal.files:
        _to_disk(work / NEW / name)
    journal = replace(journal, before=there)
    journal.write(work / JOURNAL)
    try:
        _forward(work, folder, journal)
    except BaseException:
        if (work / JOURNAL).exists():
            (work / JOURNAL).replace(work / BACK)
            put_back(work, folder, journal)
        raise


def _forward(work: Path, folder: Path, journal: Journal) -> None:
    """Move what has not been moved yet; may be begun again at any point."""
    for name in journal.files:
        if os.path.lexists(work / NEW / name):
            (work / NEW / name).replace(folder / name)
    for name in journal.stale:
        (folder / name).unlink(missing_ok=True)
    _to_disk(folder)
    (work / JOURNAL).unlink()


def put_back(work: Path, folder: Path, journal: Journal) -> None:
    """Put back what was there before; may be begun again at any point."""
    for name in (*journal.files, *journal.stale):
        if name in journal.before:
            if os.path.lexists(work / OLD / name):
                (work / OLD / name).replace(folder / name)
        elif not os.path.lexists(work / NEW / name):
            (folder / name).unlink(missing_ok=True)
    _to_disk(folder)
    (work / BACK).unlink()


def _keep(file: Path, place: Path) -> None:
    """A second name for a file or, where there is no such thing, a copy."""
    try:
        os.link(file, place, follow_symlinks=False)
    except (OSError, NotImplementedError):
        shutil.copy2(file, place, follow_symlinks=False)


def _to_disk(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError:
        if not path.is_dir():  # not every system can do that for a folder
            raise
    finally:
        os.close(handle)


class Workplace:
    """A temporary folder that is this run's own."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def move_to(self, folder: Path) -> None:
        """Be inside that folder."""
        if self.path.parent != folder:
            self.path = self.path.replace(folder / self.path.name)


@contextmanager
def workplace(base: Path) -> Iterator[Workplace]:
    """A temporary folder in ``base``, locked and, afterwards, removed."""
    with locked(base):
        work = Workplace(Path(tempfile.mkdtemp(dir=base, prefix=TEMPORARY)))
        lock = _lock(work.path, wait_for_it=False)
    try:
        yield work
    finally:
        # Where not even the way back was possible, the next run may do better.
        if not any((work.path / name).exists() for name in (BACK, JOURNAL)):
            shutil.rmtree(work.path, ignore_errors=True)
        _unlock(lock)


def finish_others(folder: Path) -> None:
    """Finish what killed runs began in ``folder``, and remove their temporary folders.

    The folder is ``locked`` by the caller. OSError if a file cannot be moved.
    """
    try:
        with os.scandir(folder) as entries:
            found = [
                Path(e.path)
                for e in entries
                if LEFTOVER.fullmatch(e.name) and e.is_dir(follow_symlinks=False) and _own(e)
            ]
    except PermissionError:
        return  # to write is enough
    for work in sorted(found):
        lock = _lock(work, wait_for_it=False)
        if lock is None:
            continue  # its run is still going
        try:
            if _finished(work, folder):
                shutil.rmtree(work, ignore_errors=True)
        finally:
            _unlock(lock)


def _finished(work: Path, folder: Path) -> bool:
    """Go on where the run was killed; False if the temporary folder is not one of ours."""
    if {p.name for p in work.iterdir()} - {NEW, OLD, JOURNAL, BACK, DRAFT}:
        return False
    for name, go in ((BACK, put_back), (JOURNAL, _forward)):
        if (work / name).exists():
            journal = Journal.read(work / name)
            if journal is None:
                return False
            go(work, folder, journal)
    return True


def _own(entry: os.DirEntry[str]) -> bool:
    """Whether the folder is the same person's: in a place that many share others could lay one."""
    return fcntl is None or entry.stat(follow_symlinks=False).st_uid == os.geteuid()


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """Nobody else of us changes that folder meanwhile."""
    lock = _lock(folder, wait_for_it=True)
    try:
        yield
    finally:
        _unlock(lock)


def _lock(folder: Path, *, wait_for_it: bool) -> int | None:
    """A lock that lasts until ``_unlock`` or the end of the process; None if not to be had.

    Nor is it to be had where the system knows no locks on folders: then leftovers stay.
    """
    if fcntl is None:
        return None
    handle = None
    try:
        handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        fcntl.flock(handle, fcntl.LOCK_EX if wait_for_it else fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        _unlock(handle)
        return None
    return handle


def _unlock(lock: int | None) -> None:
    if lock is not None:
        os.close(lock)
