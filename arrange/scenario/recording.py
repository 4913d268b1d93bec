"""Writes a changed scenario: as a copy with a name of its own, or in the place of the file.

Either is made ready first, read back, and only then written, whole or not at all. A copy never
takes the place of anything. A file is changed in place only as long as it still says what was
read from it, and whoever looks finds the old one or the new one, never a part.
"""

from __future__ import annotations

import codecs
import os
import re
import tempfile
from collections.abc import Callable
from contextlib import suppress
from itertools import count
from pathlib import Path

from arrange.errors import OutputError
from arrange.scenario.editing import Edited, Read, rewritten
from arrange.scenario.read import read_text

COPY = re.compile(r"(?P<stem>.+?)-bought(-\d+)?")


def free_copy(source: Path) -> Path:
    """A name beside ``source`` that is not taken: room-bought.toml, room-bought-2.toml, ..."""
    named = COPY.fullmatch(source.stem)
    stem = f"{named['stem'] if named else source.stem}-bought"
    suffix = source.suffix or ".toml"
    for number in count(1):
        path = source.with_name(f"{stem}{f'-{number}' if number > 1 else ''}{suffix}")
        if not (path.exists() or path.is_symlink()):
            return path
    raise AssertionError("numbers do not end")


class InPlace:
    """The changed scenario in the place of the file it was read from.

    Raises
    ------
    OutputError
        When it is made: the text cannot be changed safely, or it is no plain file.
        When it is written: the file says something else by now, or nothing can be written
        there. It is then as it was.
    """

    def __init__(
        self,
        source: Path,
        text: str,
        tables: Edited,
        after: Read,
        reads: Callable[[str, str], object] = read_text,
    ) -> None:
        self.target = source
        self._place = Path(os.path.realpath(source))  # a link stays a link
        self._before = text
        if not self._place.is_file():
            raise OutputError(f"{source}: is not a plain file; leave --in-place out to get a copy")
        self.text = rewritten(text, tables, after, reads)

    def write(self) -> None:
        """Put the new text in the place of the old one."""
        try:
            self._write()
        except OutputError:
            raise
        except OSError as error:
            why = error.strerror or str(error)
            raise OutputError(
                f"{self.target}: cannot be written ({why}); it is as it was"
            ) from error

    def _write(self) -> None:
        old = self._place.read_bytes()
        marked = old.startswith(codecs.BOM_UTF8)
        if old[len(codecs.BOM_UTF8) * marked :] != self._before.encode():
            raise OutputError(
                f"{self.target}: was changed while we worked on it, and is left alone; ask again"
            )
        handle, name = tempfile.mkstemp(dir=self._place.parent, prefix=f".{self._place.stem}-")
        made = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(codecs.BOM_UTF8 * marked + self.text.encode())
                file.flush()
                os.fsync(file.fileno())
            made.chmod(self._place.stat().st_mode & 0o7777)
            made.replace(self._place)
        except BaseException:
            with suppress(OSError):
                made.unlink()
            raise
