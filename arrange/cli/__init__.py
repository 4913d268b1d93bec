"""The command line: parse, call the library, print. One small file a command.

Results go to stdout. Progress goes to stderr and only where somebody is
watching. Nothing heavy is imported before a command needs it.

Exit codes: 0 found, 1 our bug, 2 bad input or usage, 3 proven impossible,
4 nothing found in the time.
"""

from __future__ import annotations

from arrange.cli.entry import Entry
from arrange.cli.entry import main as main

__all__ = ["Entry", "main"]
