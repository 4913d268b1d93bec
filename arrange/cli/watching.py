"""One line on stderr that tells how far a search is, where somebody is watching."""

from __future__ import annotations

import os
import sys
import threading
import time
from types import TracebackType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from arrange.progress import Progress

EVERY = 0.25  # s
BACK = "\r\x1b[K"  # to the start of the line, and clear it


class Watch:
    """A line that is rewritten while the ``with`` block runs; silent without a terminal."""

    def __init__(self, stage: str) -> None:
        self._text = stage
        self._start = time.monotonic()
        self._over = threading.Event()
        self._thread: threading.Thread | None = None

    def __call__(self, progress: Progress) -> None:
        """Take in the latest; called from the searching threads."""
        self._text = line(progress)

    def say(self, text: str) -> None:
        """Another stage, in words."""
        self._text = text

    def __enter__(self) -> Watch:
        if sys.stderr.isatty():
            self._thread = threading.Thread(target=self._show, daemon=True)
            self._thread.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._over.set()
        if self._thread is not None:
            self._thread.join()
            sys.stderr.write(BACK)
            sys.stderr.flush()

    def _show(self) -> None:
        while not self._over.wait(EVERY):
            seconds = time.monotonic() - self._start
            # A line that wraps could not be rewritten.
            told = f"{self._text}, {seconds:.0f} s"[: _columns() - 1]
            sys.stderr.write(BACK + told)
            sys.stderr.flush()


def _columns() -> int:
    try:
        return os.get_terminal_size(sys.stderr.fileno()).columns or 80
    except (OSError, ValueError):
        return 80


def line(progress: Progress) -> str:
    """The stage, the score so far and the bound, in words.

    >>> from arrange.progress import Progress
    >>> line(Progress("looking for the best", 1, 700, 815, 2.0))
    'looking for the best: 70.0 points so far, 81.5 at most'
    """
    stage = progress.stage
    if progress.families:
        stage = f"{stage}, {progress.families} so far"
    elif progress.rank > 1:
        stage = f"{stage} (number {progress.rank})"
    if progress.score < 0:
        return f"{stage}: nothing so far"
    return f"{stage}: {progress.score / 10:.1f} points so far, {progress.bound / 10:.1f} at most"
