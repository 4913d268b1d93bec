"""Where nothing can be written: one message, exit code 2, and all that was there is still there.

The disk is full, or only to be read, from the first, second, third ... change on: Python tells
of every file that it opens, moves or removes before it does so (audit events, PEP 578), and
there the test says what the system would.
"""

from __future__ import annotations

import errno
import os
import resource
import sys
from pathlib import Path

import pytest
from command_line import ROOM, process, run

from arrange.cli.common import tables_from
from arrange.draw import painters
from arrange.errors import OutputError
from arrange.output.files import settle
from arrange.scenario.editing import NewFile, edited

pytestmark = [pytest.mark.fast, pytest.mark.slow]

PLACED = 'kind = "bookcase"\nowned = true\nstands_now = { wall = "A", from_left = 0 }\n'
PLAIN = ROOM.replace('kind = "bookcase"\n', PLACED)
NEW = os.O_CREAT | os.O_TRUNC | os.O_APPEND
MAKES = {"os.mkdir", "os.link", "os.symlink"}  # needs room on the disk
CHANGES = {"os.rename", "os.remove", "os.rmdir", "os.chmod"}  # not where one may only read


class Disk:
    """A folder that takes so many changes and then refuses."""

    def __init__(self) -> None:
        self.folder = ""
        self.left = -1  # changes until it refuses; below 0: it does not
        self.error = errno.ENOSPC

    def hear(self, event: str, args: tuple[object, ...]) -> None:
        """What Python is about to do; OSError if the disk refuses."""
        if not self.folder or not self._counts(event, args):
            return
        if self.left == 0:
            raise OSError(self.error, os.strerror(self.error))
        self.left -= 1

    def _counts(self, event: str, args: tuple[object, ...]) -> bool:
        makes = event in MAKES or (
            event == "open" and isinstance(args[2], int) and bool(args[2] & NEW)
        )
        full = self.error == errno.ENOSPC
        if not (makes or (event in CHANGES and not full)):
            return False
        paths = args[:2] if event in {"os.rename", "os.link"} else args[:1]
        return any(_within(self.folder, p) for p in paths if isinstance(p, (str, Path)))


def _within(folder: str, path: str | Path) -> bool:
    return os.path.abspath(path).startswith(folder)  # noqa: PTH100  not a link followed


DISK = Disk()
sys.addaudithook(DISK.hear)  # there for good; silent without a folder


@pytest.fixture
def folder(tmp_path, monkeypatch):
    """A working folder with a room and what every command has written about it before."""
    monkeypatch.setattr(painters, "cores", lambda: 1)  # what others draw is not heard here
    monkeypatch.chdir(tmp_path)
    (tmp_path / "room.toml").write_text(PLAIN)
    (tmp_path / "mine.txt").write_text("not theirs")
    yield tmp_path
    DISK.folder, DISK.left = "", -1


def contents(folder):
    """Every file and folder below, with its bytes."""
    return {
        str(path.relative_to(folder)): path.read_bytes() if path.is_file() else None
        for path in sorted(folder.rglob("*"))
    }


def refusals(folder, args, error):
    """Run with a disk that refuses from each change on; how many changes there are.

    After each run all is as it was before. Where nothing can be moved or removed any more,
    all is old or all is new when somebody of us has looked who can.
    """
    before = contents(folder)
    left = []
    while True:
        DISK.folder, DISK.left, DISK.error = str(folder), len(left), error
        done = run(*args)
        DISK.folder = ""
        if error == errno.EROFS:
            settle(folder / "room-plans")
        if done.exit_code == 0:
            break
        assert done.exit_code == 2, done.output
        (line,) = done.output.strip().splitlines()
        assert os.strerror(error) in line
        assert "room-plans" in line
        left.append(contents(folder))
    after = contents(folder)
    assert after.keys() == before.keys()
    assert after != before
    assert left[0] == before
    assert all(one == before or (one == after and error == errno.EROFS) for one in left)
    return len(left)


@pytest.mark.parametrize("error", [errno.ENOSPC, errno.EROFS])
def test_a_full_or_read_only_disk_changes_nothing_at_any_moment(folder, error):
    """From the first change on, from the second, and so on until nothing is refused.

    What was written about the room before, when the bookcase was in the corner, stays till then.
    """
    assert run("today", "room.toml").exit_code == 0
    (folder / "room.toml").write_text(PLAIN.replace("from_left = 0 }", "from_left = 50 }"))
    assert refusals(folder, ["today", "room.toml"], error) >= 8


def test_the_same_where_the_folder_is_not_there_yet(folder):
    """Neither it nor a temporary one is left."""
    before = contents(folder)
    for left in range(3):
        DISK.folder, DISK.left, DISK.error = str(folder), left, errno.ENOSPC
        done = run("today", "room.toml")
        DISK.folder = ""
        assert done.exit_code == 2
        assert "No space left on device" in done.output
        assert contents(folder) == before


def test_the_sample_would_hear_a_change(folder):
    """A disk that refuses at once lets nobody write there, but elsewhere."""
    DISK.folder, DISK.left = str(folder), 0
    with pytest.raises(OSError, match="No space left"):
        (folder / "a.txt").write_text("a")
    with pytest.raises(OSError, match="No space left"):
        (folder / "a").mkdir()
    assert (folder / "mine.txt").read_text() == "not theirs"
    Path(os.devnull).write_text("a")


def test_a_changed_scenario_is_written_whole_or_not_at_all(folder, monkeypatch):
    """The disk is full when the file is there and nothing is in it yet."""
    text, tables, scenario = tables_from("room.toml")
    made = NewFile(folder / "new.toml", text, edited(tables, ()), scenario)
    really = Path.open

    def full(self, *args, **more):
        file = really(self, *args, **more)
        file.write = refuse
        return file

    def refuse(_):
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(Path, "open", full)
    with pytest.raises(OutputError, match=r"new.toml: cannot be written \(No space left"):
        made.write()
    assert not made.target.exists()


@pytest.mark.parametrize("command", ["today", "suggest"])
def test_the_system_itself_refuses(folder, command):
    """Files of 2000 bytes at most, by the system's own limit: a picture is larger.

    In processes of their own, so the painters have the same limit.
    """
    assert process(command, "room.toml", "--out", "room-plans", cwd=folder).returncode == 0
    before = contents(folder)
    done = process(
        *(command, "room.toml", "--out", "room-plans"),
        cwd=folder,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000)),
    )
    assert done.returncode == 2
    assert done.stderr.splitlines() == [
        "room-plans: nothing can be written there (File too large); name another folder"
    ]
    assert contents(folder) == before


@pytest.mark.parametrize("out", ["mine.txt", "mine.txt/plans"])
def test_a_file_where_a_folder_is_expected(folder, out):
    """Told with its name, and the file is as it was."""
    done = run("today", "room.toml", "--out", out)
    assert done.exit_code == 2
    assert done.output.strip() == (
        f"{out}: nothing can be written there (mine.txt is a file, and a folder is needed); "
        "name another folder"
    )
    assert (folder / "mine.txt").read_text() == "not theirs"
