"""A small room and ways to run the command line on it, for its tests."""

import subprocess
import sys

from click.testing import CliRunner

from arrange.cli import main

ROOM = """
title = "Box room"
[room]
size = [300, 260]
[[door]]
wall = "C"
from_left = 20
width = 75
[[piece]]
kind = "bookcase"
[[piece]]
kind = "desk"
width = 110
""" + "".join(
    # What takes longest to prove; it is not what is tested here.
    f'[[rule]]\nrule = "{rule}"\noff = true\n'
    for rule in ("balance", "clear-floor", "on-axis", "first-look", "used-together")
)
SLAB = '[[piece]]\nname = "slab"\nkind = "other piece"\nwidth = 300\ndepth = 255\nheight = 50\n'
# Enough alike and unlike pieces to keep the search busy for minutes.
BUSY = ROOM.replace("300, 260", "700, 600") + "".join(
    f'[[piece]]\nkind = "{kind}"\ncount = 3\n' for kind in ("armchair", "wardrobe", "side table")
)


def run(*args, **more):
    return CliRunner().invoke(main, list(args), **more)


def process(*args, cwd, **more):
    """The command as a process of its own."""
    command = [sys.executable, "-W", "error", "-c", "from arrange.cli import main; main()", *args]
    return subprocess.run(
        command, cwd=cwd, capture_output=True, text=True, check=False, timeout=120, **more
    )


def names(path):
    return sorted(p.name for p in path.iterdir())
