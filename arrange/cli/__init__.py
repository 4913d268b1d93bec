"""The command line: parse, call the library, print. One small file a command.

Results go to stdout. Progress goes to stderr and only where somebody is
watching. Nothing heavy is imported before a command needs it.

Exit codes: 0 found, 1 our bug, 2 bad input or usage, 3 proven impossible,
4 nothing found in the time. 141 is the shell's own for a program whose reader has gone
(``| head -1``); ours says nothing then, and what it wrote stays. Where stdout is closed from
the beginning nothing is printed, and the rest is as ever; where it is full, that is told.
"""

from __future__ import annotations

from arrange.cli.entry import Entry
from arrange.cli.entry import main as main

__all__ = ["Entry", "main"]
