"""The files of one run, written whole or not at all.

``Folder`` looks before the work begins whether it can be written to. Afterwards
everything is made in a temporary folder on the same disk and moved into place:
a new folder in one step, an existing one file by file, and back again if one of
the files cannot be moved. Files of other people in the folder are left alone.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import tempfile
from collections.abc import Callable, Sequence
from concurrent.futures import Future, wait
from contextlib import suppress
from pathlib import Path

from arrange.errors import OutputError

RESULT, RUN = "result.json", "run.json"
# What a run may have written. Nothing else is ever removed, whatever an old result says.
OURS = re.compile(
    r"((plan|clash)-[1-9][0-9]{0,3}|overview|today|before-after|ladder|largest|ways-out|compare)"
    r"\.(png|svg|pdf)"
)
TEMPORARY = ".arrange-"

Maker = Callable[[Path], object]


class Folder:
    """A folder to write into, made when first written to.

    Raises
    ------
    OutputError
        When it is made: the path is a file, lies inside a file, or nothing can
        be written there. Nothing is left behind.
    """

    def __init__(self, path: str | Path) -> None:
        self.path = Path(path)
        self._look()

    def _look(self) -> None:
        """Find out whether a folder can be made in the place where it will be needed."""
        try:
            base = self.path
            while not base.is_dir():
                if base.exists() or base.is_symlink():
                    raise _refused(self.path, f"{base} is a file, and a folder is needed")
                base = base.parent
            Path(tempfile.mkdtemp(dir=base, prefix=TEMPORARY)).rmdir()
        except OutputError:
            raise
        except (OSError, ValueError) as error:
            raise _refused(self.path, _why(error)) from None

    def write(self, makers: Sequence[tuple[str, Maker]]) -> tuple[str, ...]:
        """Make every file and put them all in place, the last one last.

        Parameters
        ----------
        makers
            Names of files, and for each a function that writes it to the path
            it is given, or that begins to and returns a future.

        Returns
        -------
        tuple of str
            Names of the files of an earlier run that were removed, because that
            run wrote them and this one, with a result of its own, did not.

        Raises
        ------
        OutputError
            If anything could not be written: the folder is as it was before.
            Other errors of a maker leave it so, too, and are passed on.
        """
        try:
            if self.path.is_dir():
                return self._into_existing(makers)
            self._as_new(makers)
        except OutputError:
            raise
        except OSError as error:
            raise _refused(self.path, _why(error)) from error
        return ()

    def _as_new(self, makers: Sequence[tuple[str, Maker]]) -> None:
        parent = self.path.parent
        new = [p for p in (parent, *parent.parents) if not p.exists()]
        temporary = None
        try:
            parent.mkdir(parents=True, exist_ok=True)
            temporary = Path(tempfile.mkdtemp(dir=parent, prefix=TEMPORARY))
            _make(makers, temporary)
            temporary.chmod(_rights(0o777))
            temporary.replace(self.path)
        except BaseException:
            if temporary is not None:
                shutil.rmtree(temporary, ignore_errors=True)
            with suppress(OSError):
                for made in new:
                    made.rmdir()
            raise

    def _into_existing(self, makers: Sequence[tuple[str, Maker]]) -> tuple[str, ...]:
        names = [name for name, _ in makers]
        # Only a new result takes the place of an old one with its pictures.
        records = [name for name in names if name.endswith(".json") and name != RUN]
        before = {old for name in records for old in _written_before(self.path / name)}
        stale = tuple(sorted(before - set(names)))
        temporary = Path(tempfile.mkdtemp(dir=self.path, prefix=TEMPORARY))
        try:
            fresh, kept = temporary / "new", temporary / "old"
            fresh.mkdir()
            kept.mkdir()
            _make(makers, fresh)
            for name in (*names, *stale):
                if (self.path / name).is_file():
                    shutil.copy2(self.path / name, kept / name)
            try:
                for name in names:
                    (fresh / name).replace(self.path / name)
                for name in stale:
                    (self.path / name).unlink()
            except BaseException:
                self._put_back(names, stale, fresh, kept)
                raise
        finally:
            shutil.rmtree(temporary, ignore_errors=True)
        return stale

    def _put_back(
        self, names: Sequence[str], stale: Sequence[str], fresh: Path, kept: Path
    ) -> None:
        for name in (*names, *stale):
            moved = name in stale or not (fresh / name).exists()
            if (kept / name).exists():
                (kept / name).replace(self.path / name)
            elif moved:
                (self.path / name).unlink(missing_ok=True)


def _make(makers: Sequence[tuple[str, Maker]], folder: Path) -> None:
    """Every file; where a maker only begins, all begin before one is waited for."""
    begun: list[Future[object]] = []
    try:
        for name, maker in makers:
            made = maker(folder / name)
            if isinstance(made, Future):
                begun.append(made)
        for future in begun:
            future.result()
    except BaseException:
        for future in begun:
            future.cancel()
        wait(begun)  # or something might still be written into a folder that is removed
        raise
    for name, _ in makers:
        (folder / name).chmod(_rights(0o666))


def _rights(wanted: int) -> int:
    """The rights that any new file or folder would get here."""
    mask = os.umask(0)
    os.umask(mask)
    return wanted & ~mask


def _written_before(record: Path) -> set[str]:
    """Pictures there that the result beside them says it wrote."""
    try:
        data = json.loads(record.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return set()
    files = data.get("files") if isinstance(data, dict) else None
    named = {f for f in files if isinstance(f, str)} if isinstance(files, list) else set()
    return {f for f in named if OURS.fullmatch(f) and (record.parent / f).is_file()}


def _why(error: Exception) -> str:
    return getattr(error, "strerror", None) or str(error)


def _refused(path: Path, why: str) -> OutputError:
    return OutputError(f"{path}: nothing can be written there ({why}); name another folder")
