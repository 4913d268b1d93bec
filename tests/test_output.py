"""The files of a run are all there or none is, and nobody else's file is touched."""

import json
import os
from pathlib import Path

import pytest

from arrange.errors import OutputError
from arrange.output import moving
from arrange.output.files import RESULT, Folder, settle
from arrange.output.moving import BACK, JOURNAL, NEW, TEMPORARY

pytestmark = pytest.mark.fast


def text(content):
    return lambda path: path.write_text(content)


def record(name=RESULT, **data):
    """What writes a record that lists all names before its own."""
    return [(name, lambda names: {**data, "files": list(names[:-1])})]


def old_run(folder, *files):
    """A folder as an earlier run left it."""
    folder.mkdir()
    for name in files:
        (folder / name).write_text("old")
    (folder / RESULT).write_text(json.dumps({"files": list(files)}))


def contents(folder):
    return {p.name: p.read_text() for p in sorted(folder.iterdir())}


def broken(_):
    raise OSError(28, "No space left on device")


def test_a_new_folder_appears_with_everything_in_it(tmp_path):
    """Folders above it are made as well; no temporary one is left."""
    folder = Folder(tmp_path / "rooms" / "plans")
    assert not (tmp_path / "rooms").exists()  # looking leaves nothing behind
    written = folder.write([("plan-1.png", text("one"))], record())
    assert written.names == ("plan-1.png", RESULT)
    assert (written.removed, written.told) == ((), ())
    assert contents(tmp_path / "rooms" / "plans") == {
        "plan-1.png": "one",
        RESULT: '{\n  "files": [\n    "plan-1.png"\n  ]\n}\n',
    }
    assert [p.name for p in (tmp_path / "rooms").iterdir()] == ["plans"]


def test_files_get_the_rights_that_any_new_file_gets(tmp_path):
    """Not those of a temporary file, which nobody else may read."""
    Folder(tmp_path / "plans").write([("a.txt", text("a"))])
    (tmp_path / "plain").mkdir()
    (tmp_path / "plain" / "a.txt").write_text("a")
    for part in ("", "a.txt"):
        made, usual = tmp_path / "plans" / part, tmp_path / "plain" / part
        assert made.stat().st_mode == usual.stat().st_mode


@pytest.mark.parametrize("path", ["file", "file/plans", "file/deep/plans", "new/../file"])
def test_a_file_in_the_way_is_found_at_once(tmp_path, path):
    """Before any work, with the path in the message."""
    (tmp_path / "file").write_text("mine")
    with pytest.raises(OutputError, match="file is a file, and a folder is needed"):
        Folder(tmp_path / path)
    assert contents(tmp_path) == {"file": "mine"}


def test_a_way_back_out_of_a_folder_that_is_not_there_leaves_none(tmp_path):
    """Only the folder asked for is made."""
    Folder(tmp_path / "new" / ".." / "plans").write([("plan-1.png", text("new"))])
    assert [p.name for p in tmp_path.iterdir()] == ["plans"]


@pytest.mark.skipif(not Path("/proc/self").exists(), reason="needs a place where none may write")
def test_a_place_where_none_may_write_is_found_at_once():
    """Even the administrator makes no folder in /proc."""
    with pytest.raises(OutputError, match="/proc/plans: nothing can be written there"):
        Folder("/proc/plans")


@pytest.mark.skipif(os.geteuid() == 0, reason="the administrator may write anywhere")
def test_a_folder_without_the_right_to_write_is_found_at_once(tmp_path):
    """A folder that may be read only."""
    tmp_path.chmod(0o500)
    with pytest.raises(OutputError, match="nothing can be written there"):
        Folder(tmp_path / "plans")
    tmp_path.chmod(0o700)


def test_a_link_to_nowhere_is_refused(tmp_path):
    """A folder cannot be made in its place."""
    (tmp_path / "plans").symlink_to(tmp_path / "gone")
    with pytest.raises(OutputError, match="plans is a file"):
        Folder(tmp_path / "plans")


def test_other_files_are_kept_and_stale_pictures_removed(tmp_path):
    """Only what the old result lists, and only names that a run can have written."""
    folder = tmp_path / "plans"
    old_run(folder, "plan-1.png", "plan-2.png", "overview.png")
    (folder / "plan-3.png").write_text("not listed: mine")
    (folder / "notes.txt").write_text("mine")
    written = Folder(folder).write([("plan-1.png", text("new"))], record())
    assert written.removed == ("overview.png", "plan-2.png")
    there = contents(folder)
    assert json.loads(there.pop(RESULT)) == {"files": ["plan-1.png"]}
    assert there == {
        "notes.txt": "mine",
        "plan-1.png": "new",
        "plan-3.png": "not listed: mine",
    }


def test_every_picture_that_a_command_writes_goes_when_it_is_stale(tmp_path):
    """Another format, or fewer clashes than before: each command by its own record."""
    folder = tmp_path / "plans"
    stems = ("today", "before-after", "ladder", "largest", "compare", "clash-2", "ways-out")
    for stem in stems:
        folder.mkdir(exist_ok=True)
        (folder / f"{stem}.png").write_text("old")
        (folder / "why.json").write_text(json.dumps({"files": [f"{stem}.png", "why.json"]}))
        written = Folder(folder).write([(f"{stem}.svg", text("new"))], record("why.json"))
        assert written.removed == (f"{stem}.png",)


def test_a_run_without_a_result_of_its_own_removes_nothing(tmp_path):
    """The survey of a check joins the plans of an earlier run (it once removed them)."""
    folder = tmp_path / "plans"
    old_run(folder, "plan-1.png")
    before = contents(folder)
    assert Folder(folder).write([("survey.png", text("new"))]).removed == ()
    assert contents(folder) == {**before, "survey.png": "new"}


@pytest.mark.parametrize(
    "listed",
    ['{"files": ["notes.txt", "../mine.txt", "plan-1.png/", 3, null]}', "[]", "{", '{"files": 1}'],
)
def test_an_odd_old_result_removes_nothing(tmp_path, listed):
    """Names outside the folder, names that are not ours, and no JSON at all."""
    (tmp_path / "mine.txt").write_text("mine")
    folder = tmp_path / "plans"
    folder.mkdir()
    (folder / "notes.txt").write_text("mine")
    (folder / RESULT).write_text(listed)
    assert Folder(folder).write([], record()).removed == ()
    assert contents(folder) == {"notes.txt": "mine", RESULT: '{\n  "files": []\n}\n'}
    assert (tmp_path / "mine.txt").read_text() == "mine"


@pytest.mark.parametrize("existing", [True, False])
@pytest.mark.parametrize("error", [OSError, KeyboardInterrupt, ValueError])
def test_a_file_that_cannot_be_made_leaves_everything_as_it_was(tmp_path, existing, error):
    """Whatever goes wrong while making files: the old ones stay, or no folder appears."""
    folder = tmp_path / "deep" / "plans"
    if existing:
        folder.parent.mkdir()
        old_run(folder, "plan-1.png")
    before = contents(folder) if existing else None

    def fails(_):
        raise error("stopped")

    expected = OutputError if error is OSError else error
    with pytest.raises(expected, match="stopped"):
        Folder(folder).write([("plan-1.png", text("new")), ("plan-2.png", fails)], record())
    if existing:
        assert contents(folder) == before
    else:
        assert list(tmp_path.iterdir()) == []


def failing(monkeypatch, fails_at, error):
    """Let the move with that number fail: of three new files, then of one to be removed."""
    move, unlink, moves = Path.replace, Path.unlink, []

    def replace(self, target):
        if self.parent.name == NEW:
            moves.append(target)
            if len(moves) == fails_at:
                raise error
        return move(self, target)

    def refuse(self, *args, **more):
        if fails_at == 4 and self.name == "plan-2.png":
            raise error
        unlink(self, *args, **more)

    monkeypatch.setattr(Path, "replace", replace)
    monkeypatch.setattr(Path, "unlink", refuse)


def write_three(ready):
    """A file that was not there, one that was, and a result that makes plan-2.png stale."""
    return ready.write([("new.txt", text("new")), ("plan-1.png", text("new"))], record())


@pytest.mark.parametrize("fails_at", [1, 2, 3, 4])
def test_a_move_that_fails_puts_the_old_files_back(tmp_path, monkeypatch, fails_at):
    """Moves 1 to 3 put new files in place; whichever fails, the folder is as before."""
    folder = tmp_path / "plans"
    old_run(folder, "plan-1.png", "plan-2.png")
    before = contents(folder)
    ready = Folder(folder)
    failing(monkeypatch, fails_at, OSError(5, "Input/output error"))
    with pytest.raises(OutputError, match="Input/output error"):
        write_three(ready)
    monkeypatch.undo()
    assert contents(folder) == before


class DiedError(BaseException):
    """The process ends here: nothing more is done, not even tidying up."""


def died_while_moving(folder, monkeypatch, fails_at):
    """A run that ended at the move with that number, its temporary folder left behind."""
    ready = Folder(folder)
    failing(monkeypatch, fails_at, DiedError())
    monkeypatch.setattr(moving, "put_back", lambda *_: None)
    monkeypatch.setattr(moving.shutil, "rmtree", lambda *_, **__: None)
    with pytest.raises(DiedError):
        write_three(ready)
    monkeypatch.undo()
    (left,) = folder.glob(f"{TEMPORARY}*")
    return left


@pytest.mark.parametrize("way", [JOURNAL, BACK])
@pytest.mark.parametrize("fails_at", [1, 2, 3, 4])
def test_the_next_run_finishes_what_the_journal_says(tmp_path, monkeypatch, fails_at, way):
    """All new where moving went on, all old where it was going back; nothing is left over."""
    folder = tmp_path / "plans"
    old_run(folder, "plan-1.png", "plan-2.png")
    before = contents(folder)
    left = died_while_moving(folder, monkeypatch, fails_at)
    (left / BACK).rename(left / way)
    Folder(folder)
    there = contents(folder)
    if way == BACK:
        assert there == before
    else:
        assert json.loads(there.pop(RESULT)) == {"files": ["new.txt", "plan-1.png"]}
        assert there == {"new.txt": "new", "plan-1.png": "new"}


def test_where_not_even_the_way_back_is_possible_the_next_run_goes_on(tmp_path, monkeypatch):
    """Nothing can be moved after the first file: what is needed to finish is not removed."""
    folder = tmp_path / "plans"
    old_run(folder, "plan-1.png", "plan-2.png")
    ready, really = Folder(folder), Path.replace
    moves = []

    def replace(self, target):
        if self.parent.name == NEW or self.name == JOURNAL:
            moves.append(self.name)
            if len(moves) > 1:
                raise OSError(30, "Read-only file system")
        return really(self, target)

    monkeypatch.setattr(Path, "replace", replace)
    with pytest.raises(OutputError, match="Read-only file system"):
        write_three(ready)
    assert JOURNAL in moves
    monkeypatch.undo()
    settle(folder)
    assert sorted(contents(folder)) == ["new.txt", "plan-1.png", RESULT]
    assert {contents(folder)[name] for name in ("new.txt", "plan-1.png")} == {"new"}


def test_settle_does_the_same_for_readers(tmp_path, monkeypatch):
    """And says nothing where there is no folder, or no folder but a file."""
    folder = tmp_path / "plans"
    old_run(folder, "plan-1.png", "plan-2.png")
    left = died_while_moving(folder, monkeypatch, 2)
    (left / BACK).rename(left / JOURNAL)
    settle(folder)
    assert sorted(contents(folder)) == ["new.txt", "plan-1.png", RESULT]
    assert contents(folder)["plan-1.png"] == "new"
    settle(tmp_path / "missing")
    settle(folder / RESULT)


def test_leftovers_without_a_journal_are_removed_and_nothing_else_is(tmp_path):
    """From before the first move. What only looks like a leftover is somebody's."""
    folder = tmp_path / "plans"
    for place in (folder, tmp_path):
        (place / f"{TEMPORARY}abcd1234" / NEW).mkdir(parents=True)
        (place / f"{TEMPORARY}abcd1234" / NEW / "plan-1.png").write_text("half")
    for name in (".arrange-notes", f"{TEMPORARY}abcd5678"):
        (folder / name).mkdir()
        (folder / name / "mine.txt").write_text("mine")
    Folder(folder)
    assert sorted(p.name for p in folder.iterdir()) == [f"{TEMPORARY}abcd5678", ".arrange-notes"]
    assert [p.name for p in tmp_path.iterdir()] == ["plans"]


def test_a_leftover_of_another_person_is_left_alone(tmp_path, monkeypatch):
    """Or whoever may write there could have our files replaced."""
    left = tmp_path / f"{TEMPORARY}abcd1234"
    (left / NEW).mkdir(parents=True)
    (tmp_path / "notes.txt").write_text("mine")
    (left / NEW / "notes.txt").write_text("theirs")
    journal = {"files": ["notes.txt"], "stale": [], "before": []}
    (left / JOURNAL).write_text(json.dumps(journal))
    monkeypatch.setattr(os, "geteuid", lambda: 12345)
    Folder(tmp_path)
    assert (tmp_path / "notes.txt").read_text() == "mine"
    assert left.exists()


@pytest.mark.parametrize("name", ["../mine.txt", "/etc/hostname", "", "notes.txt"])
def test_a_journal_that_is_not_ours_moves_and_removes_nothing(tmp_path, name):
    """Names outside the folder, or of a file that no run writes."""
    folder = tmp_path / "plans"
    left = folder / f"{TEMPORARY}abcd1234"
    (left / NEW).mkdir(parents=True)
    (folder / "notes.txt").write_text("mine")
    (tmp_path / "mine.txt").write_text("mine")
    (left / JOURNAL).write_text(json.dumps({"files": [], "stale": [name], "before": []}))
    Folder(folder)
    assert (folder / "notes.txt").read_text() == "mine"
    assert (tmp_path / "mine.txt").read_text() == "mine"


def test_what_belongs_to_a_run_that_is_still_going_is_left_alone(tmp_path):
    """Another run looks, and writes, while this one makes its pictures."""
    folder = tmp_path / "plans"
    old_run(folder)

    def meanwhile(path):
        Folder(folder).write([("survey.png", text("other"))])
        path.write_text("new")

    Folder(folder).write([("plan-1.png", meanwhile)], record())
    assert sorted(contents(folder)) == ["plan-1.png", RESULT, "survey.png"]


@pytest.mark.parametrize("existing", [True, False])
def test_two_runs_into_one_folder_both_end_well_and_the_later_one_says_so(tmp_path, existing):
    """The one that ends later wins whole: no picture of the other is left."""
    folder = tmp_path / "plans"
    if existing:
        old_run(folder, "plan-1.png")

    def meanwhile(path):
        other = [("plan-1.png", text("other")), ("plan-2.png", text("other"))]
        assert Folder(folder).write(other, record()).told == ()
        path.write_text("new")

    written = Folder(folder).write([("plan-1.png", meanwhile)], record())
    assert written.told == (
        f"Another run wrote {folder / RESULT} while this one was at work; this run ended later, "
        "so its files have taken the place of that one's.",
    )
    assert sorted(contents(folder)) == ["plan-1.png", RESULT]
    assert contents(folder)["plan-1.png"] == "new"
    assert [p.name for p in tmp_path.iterdir()] == ["plans"]


def test_a_full_disk_is_told_in_plain_words(tmp_path):
    """The system's reason, the folder, and no temporary folder left."""
    with pytest.raises(OutputError, match=r"plans: nothing .* \(No space left on device\)"):
        Folder(tmp_path / "plans").write([("a", broken)])
    assert not [p for p in tmp_path.iterdir() if p.name.startswith(TEMPORARY)]
