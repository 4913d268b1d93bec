"""The files of one run, written whole or not at all, whoever else writes there.

Everything is made in a temporary folder on the same disk, ``.arrange-`` and eight letters:
``new`` holds the files, ``old`` those they take the place of. Then they are moved:

- Where the folder is not there yet, ``new`` becomes the folder, in one step.
- Into a folder that is there they are moved one by one, the record last. Before the first
  move a journal is written and brought to the disk, with all names that are going to change.
  A run that is killed leaves its journal behind, and the next run into that folder, or
  ``settle``, finishes what it says. So each set is wholly old or wholly new as soon as
  somebody of us has looked; until then the journal is there to say that it is not.
- If one of the files cannot be moved, the journal becomes one of the way back, and all are
  put back.

While a run works it holds its temporary folder locked, and the folder itself while it moves.
Locks end with their process, however it ended: a temporary folder that can be locked is a
leftover and is removed. Two runs into one folder wait for one another for the moment of
moving; the later one finds what the earlier one wrote. Files of other people are left alone.

A run writes some pictures and, last, a record (``result.json``, ``swap.json``, ...) that lists
them. Their names say what they are. They get an ending, the same for all of them, where an
earlier set would be lost otherwise:

``-2``, ``-3``, ...
    The record there answers another question: other pieces swapped, another size asked. The
    same question finds its own names again.
``-none``
    The record there found more: an arrangement where this run found none, or a proof where
    this run ran out of time. The set that found more stays. The next run that finds as much
    takes its place, and the files ending in ``-none`` go.
"""

from __future__ import annotations

import json
import os
import tempfile
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import Future, wait
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from itertools import count
from pathlib import Path, PurePath
from typing import Any

from arrange.data.arrangement import FINDINGS, Finding
from arrange.errors import OutputError, shortened
from arrange.output.fields import as_text
from arrange.output.moving import (
    NEW,
    OURS,
    TEMPORARY,
    Journal,
    finish_others,
    locked,
    move,
    workplace,
)

LONGEST_SHOWN = 400  # letters of a path
Maker = Callable[[Path], object]
Text = str | Mapping[str, Any]
TextMaker = Callable[[tuple[str, ...]], Text]
RESULT, RUN = "result.json", "run.json"
NONE = "-none"
# What a record asks, by the keys that tell it. What is missing from a record is no part of it.
ASKS = (
    *("title", "changes", "kept", "piece", "dimension", "sizes_of", "untouchable"),
    # of a comparison, the options as they were named
    "options",
)


@dataclass(frozen=True, slots=True)
class Names:
    """What the files of a run are called, and what becomes of those before.

    Attributes
    ----------
    ending
        Between the name and the suffix of every file; empty where it is needed for nothing.
    stale
        Names of files of an earlier run that this one takes the place of and does not write.
    instead
        One sentence for the person where a name is not the usual one; else empty.
    """

    ending: str = ""
    stale: tuple[str, ...] = ()
    instead: str = ""

    def of(self, name: str) -> str:
        """The name with the ending.

        >>> Names("-2").of("before-after.png")
        'before-after-2.png'
        """
        return ended(name, self.ending)


def ended(name: str, ending: str) -> str:
    """``name`` with an ending before its suffix."""
    path = PurePath(name)
    return f"{path.stem}{ending}{path.suffix}"


def chosen(folder: Path, names: Sequence[str], record: Mapping[str, Any] | None) -> Names:
    """Names in ``folder`` for a run that writes ``names``, the last one its ``record``.

    Without a record the usual names are taken and nothing is stale. Files that no record
    of ours lists are never stale.
    """
    if record is None:
        return Names()
    last = names[-1]
    own = _own_place(folder, names, record)
    here = folder / ended(last, own)
    ending, instead = own, ""
    if own:
        instead = (
            f"{folder / last} answers another question and stays as it is; "
            f"this answer is in {here.name}."
        )
    if _worth(record) < _worth(_read(here)):
        ending = own + NONE
        instead = (
            f"{here} is from a run that found more, so it stays as it is, with its pictures; "
            f"this answer is in {ended(last, ending)}."
        )
    places = (ending,) if ending.endswith(NONE) else (ending, ending + NONE)
    before = {old for place in places for old in _set(folder, names, place)}
    return Names(ending, tuple(sorted(before - {ended(n, ending) for n in names})), instead)


def _own_place(folder: Path, names: Sequence[str], record: Mapping[str, Any]) -> str:
    """The ending of the first place that is free, or where this question was answered before."""
    for number in count(1):
        ending = f"-{number}" if number > 1 else ""
        place = [ended(name, ending) for name in names]
        there = _read(folder / place[-1]) or _read(folder / ended(place[-1], NONE))
        # The usual names are ours to take; others might be somebody's.
        free = not there and not (ending and any((folder / name).exists() for name in place))
        if free or (there and _same_question(there, record)):
            return ending
    raise AssertionError("numbers do not end")


def _set(folder: Path, names: Sequence[str], ending: str) -> set[str]:
    """Files there that belong to the record with that ending, or would have its ending."""
    record = folder / ended(names[-1], ending)
    if not record.is_file():
        return set()
    files = _read(record).get("files")
    listed = {f for f in files if isinstance(f, str)} if isinstance(files, list) else set()
    if ending.endswith(NONE):
        listed |= {ended(name, ending) for name in names}
    return {f for f in listed if OURS.fullmatch(f) and (folder / f).is_file()}


def _same_question(one: Mapping[str, Any], two: Mapping[str, Any]) -> bool:
    """Whether two records answer the same; not of two files of one name that are both there."""
    if _question(one) != _question(two):
        return False
    was, now = (str(record.get("scenario_file")) for record in (one, two))
    try:
        return was == now or Path(was).samefile(now)
    except (OSError, ValueError):
        return True


def _question(record: Mapping[str, Any]) -> dict[str, Any]:
    """What the record answers, as far as the record tells it.

    Suggestions and checks are of a scenario, whatever is changed in it: by the name of its
    file, if any.
    """
    if "moved" in record:
        return {key: record.get(key) for key in ("title", "moved")}
    if "outcome" in record or "scenario_file" in record:
        file = record.get("scenario_file")
        if isinstance(file, str):
            return {"file": PurePath(file).name}
        return {"title": record.get("title")}
    asked = {key: record[key] for key in ASKS if key in record}
    if "options" in asked:
        asked["options"] = [_get(option, "asked") for option in _list(asked["options"])]
    return asked


def _worth(record: Mapping[str, Any]) -> Finding:
    """How much was found; nothing where the record does not tell."""
    told = [record.get("outcome"), record.get("answer")]
    told += [_get(size, "works") for size in _list(record.get("sizes"))]
    told += [_get(option, "state") for option in _list(record.get("options"))]
    return max(
        (FINDINGS[word] for word in told if isinstance(word, str) and word in FINDINGS),
        default=Finding.NOTHING,
    )


def _list(value: object) -> list[object]:
    return value if isinstance(value, list) else []


def _get(one: object, key: str) -> object:
    return one.get(key) if isinstance(one, Mapping) else None


def _read(path: Path) -> Mapping[str, Any]:
    """The record in a file; empty if there is none, or nothing that we wrote."""
    if not path.is_file():  # a named pipe would wait for its writer
        return {}
    try:
        data = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return {}
    return data if isinstance(data, dict) else {}


@dataclass(frozen=True, slots=True)
class Written:
    """What was written.

    Attributes
    ----------
    names
        Of all files, in the order in which they were asked for.
    removed
        Of files of an earlier run that were removed, because that run wrote them and this
        one, in its place, did not.
    told
        Sentences for the person: a name is not the usual one, or another run came between.
    """

    names: tuple[str, ...]
    removed: tuple[str, ...] = ()
    told: tuple[str, ...] = ()


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
        if "\0" in str(path):
            raise _refused(self.path, "its name has a character that no file name can have")
        with _refusing(self.path):
            if ".." in self.path.parts and not self.path.parent.exists():
                # What is not there yet has nothing above it.
                self.path = Path(os.path.realpath(path))
            base = self._base()
            with locked(base):
                Path(tempfile.mkdtemp(dir=base, prefix=TEMPORARY)).rmdir()
                finish_others(base)
        settle(self.path.parent)
        self._seen = _stamps(self.path)

    def _base(self) -> Path:
        """The folder itself, or the nearest one above it that is there."""
        base = self.path
        while not base.is_dir():
            if base.exists() or base.is_symlink():
                raise _refused(self.path, f"{base} is a file, and a folder is needed")
            base = base.parent
        return base

    def write(
        self, makers: Sequence[tuple[str, Maker]], texts: Sequence[tuple[str, TextMaker]] = ()
    ) -> Written:
        """Make every file and put them all in place, the last one last.

        Parameters
        ----------
        makers
            Usual names of files, and for each a function that writes it to the path
            it is given, or that begins to and returns a future.
        texts
            Usual names, and for each a function that makes its text, or data to be
            written as JSON, from the names that all files up to its own have got. If
            the last one is data, it is the record of the run: see ``chosen``.

        Raises
        ------
        OutputError
            If anything could not be written: the folder is as it was before.
            Other errors of a maker leave it so, too, and are passed on.
        """
        with _refusing(self.path), workplace(self._base()) as work:
            new = work.path / NEW
            new.mkdir()
            usual = (*(name for name, _ in makers), *(name for name, _ in texts))
            told = _make(makers, new, lambda: _texts(texts, usual))
            if not self.path.is_dir():
                _put(told, usual, new)
                if self._appears(new):
                    self._seen = _stamps(self.path)
                    return Written(usual)
            work.move_to(self.path)
            with locked(self.path):
                finish_others(self.path)
                return self._into_existing(work.path, usual, texts, told)

    def _appears(self, new: Path) -> bool:
        """Let ``new`` be the folder; False if another run was quicker."""
        parents = [p for p in self.path.parents if not p.exists()]
        try:
            self.path.parent.mkdir(parents=True, exist_ok=True)
            new.replace(self.path)
        except BaseException as error:
            if isinstance(error, OSError) and self.path.is_dir():
                return False
            with suppress(OSError):
                for parent in parents:
                    parent.rmdir()
            raise
        return True

    def _into_existing(
        self,
        work: Path,
        usual: tuple[str, ...],
        texts: Sequence[tuple[str, TextMaker]],
        told: Sequence[Text],
    ) -> Written:
        record = told[-1] if told and not isinstance(told[-1], str) else None
        names = chosen(self.path, usual, record)
        files = tuple(names.of(name) for name in usual)
        if names.ending:
            for name in usual[: len(usual) - len(texts)]:
                (work / NEW / name).replace(work / NEW / names.of(name))
            told = _texts(texts, files)
        _put(told, files, work / NEW)
        sentences = [names.instead] if names.instead else []
        now = _stamps(self.path).get(files[-1])
        if now and now != self._seen.get(files[-1]):
            sentences.append(
                f"Another run wrote {self.path / files[-1]} while this one was at work; this run "
                "ended later, so its files have taken the place of that one's."
            )
        move(work, self.path, Journal(files, names.stale))
        self._seen = _stamps(self.path)
        return Written(files, names.stale, tuple(sentences))


def settle(folder: str | Path) -> None:
    """Finish what a killed run began to move into ``folder``, and remove what it left.

    Nothing is done, and nothing said, where that is not possible: for readers.
    """
    with suppress(OSError, ValueError), locked(Path(folder)):
        finish_others(Path(folder))


def take_away(record: Path) -> None:
    """Remove a record with the files of ours that it lists, when nobody else moves there.

    Raises
    ------
    OutputError
        If one of them cannot be removed.
    """
    folder = record.parent
    with _refusing(folder), locked(folder):
        finish_others(folder)
        for name in _set(folder, [record.name], ""):
            (folder / name).unlink()
        record.unlink(missing_ok=True)


def _make(
    makers: Sequence[tuple[str, Maker]], folder: Path, meanwhile: Callable[[], list[Text]]
) -> list[Text]:
    """Every file; where a maker only begins, all begin before one is waited for.

    Returns what ``meanwhile`` does, which is called when all have begun.
    """
    begun: list[Future[object]] = []
    try:
        for name, maker in reversed(makers):  # an overview comes last and takes longest
            made = maker(folder / name)
            if isinstance(made, Future):
                begun.append(made)
        told = meanwhile()
        for future in begun:
            future.result()
    except BaseException:
        for future in begun:
            future.cancel()
        wait(begun)  # or something might still be written into a folder that is removed
        raise
    for name, _ in makers:
        (folder / name).chmod(_rights(0o666))
    return told


def _texts(texts: Sequence[tuple[str, TextMaker]], names: tuple[str, ...]) -> list[Text]:
    """Every text, each made from the names up to its own."""
    first = len(names) - len(texts) + 1
    return [make(names[: first + i]) for i, (_, make) in enumerate(texts)]


def _put(texts: Sequence[Text], names: tuple[str, ...], folder: Path) -> None:
    for name, text in zip(names[len(names) - len(texts) :], texts, strict=True):
        content = text if isinstance(text, str) else as_text(text)
        (folder / name).write_bytes(content.encode())


def _rights(wanted: int) -> int:
    """The rights that any new file or folder would get here."""
    mask = os.umask(0)
    os.umask(mask)
    return wanted & ~mask


def _stamps(folder: Path) -> dict[str, tuple[int, ...]]:
    """By which to see whether a record was written anew."""
    found: dict[str, tuple[int, ...]] = {}
    with suppress(OSError):
        for path in folder.glob("*.json"):
            is_now = path.stat()
            found[path.name] = (is_now.st_ino, is_now.st_mtime_ns, is_now.st_size)
    return found


@contextmanager
def _refusing(path: Path) -> Iterator[None]:
    """What the system refuses is told as an OutputError with ``path``."""
    try:
        yield
    except OutputError:
        raise
    except OSError as error:
        raise _refused(path, error.strerror or str(error)) from error


def _refused(path: Path, why: str) -> OutputError:
    name = shortened(str(path), LONGEST_SHOWN)
    return OutputError(f"{name}: nothing can be written there ({why}); name another folder")
