"""`arrange begin` from the command line: piped, stopped, gone on with, and never over a file."""

import os
import subprocess
import sys
from functools import cache

import click
import pytest
from command_line import names, process, run
from sampled import sampled
from told_rooms import ROOMS

import arrange
from arrange.begin.interview import Interview

pytestmark = pytest.mark.fast

ROOM = ROOMS["bedroom"]
LINES = ROOM.piped.splitlines(keepends=True)


@pytest.fixture
def asked(monkeypatch, tmp_path):
    """Runs in a folder of its own; the search is only noted, with what it was asked."""
    monkeypatch.chdir(tmp_path)
    searches = []

    @click.command()
    @click.argument("file")
    def noted(file, **more):
        searches.append((file, more))

    monkeypatch.setattr("arrange.cli.begin.suggest", noted)
    return searches


@cache
def whole():
    """The file that the answers make."""
    return Interview(answers=ROOM.answers).notes.text


@pytest.mark.slow
def test_answers_piped_in_end_in_the_file_the_survey_and_a_search(asked, tmp_path):
    """The draft has done its work; what is printed shows each answer beside its question."""
    done = run("begin", "bedroom.toml", input=ROOM.piped)
    assert done.exit_code == 0, done.output
    assert names(tmp_path) == ["bedroom-plans", "bedroom.toml"]
    assert names(tmp_path / "bedroom-plans") == ["survey.png"]
    assert (tmp_path / "bedroom.toml").read_text(encoding="utf-8") == whole()
    ((file, more),) = asked
    assert (file, more["top"], more["as_json"]) == ("bedroom.toml", 1, False)
    assert "How wide is wall A, the one you are facing?\n> 3,42\n342 cm.\n" in done.output
    assert "Written: bedroom.toml" in done.output


@pytest.mark.slow
@pytest.mark.parametrize("stop", [1, 9, 30, len(LINES) - 1])
def test_the_end_of_the_input_in_the_middle_keeps_the_draft(asked, tmp_path, stop):
    """It says how to go on; the rest then ends in the same file."""
    cut = run("begin", "bedroom.toml", input="".join(LINES[:stop]))
    assert cut.exit_code == 2
    # Nobody looks while answers are piped in: the room so far is drawn once, at their end.
    drawn = ["bedroom-plans"] if "A 342 cm" in cut.output else []
    assert names(tmp_path) == [*drawn, "bedroom.draft"]
    assert not drawn or names(tmp_path / "bedroom-plans") == ["survey.png"]
    assert "kept in bedroom.draft" in cut.output
    assert "\n  arrange begin bedroom.toml\n" in cut.output
    rest = run("begin", "bedroom.toml", input="".join(LINES[stop:]))
    assert rest.exit_code == 0, rest.output
    assert f"which has {stop} answer{'s' if stop > 1 else ''} so far" in rest.output
    assert (tmp_path / "bedroom.toml").read_text(encoding="utf-8") == whole()
    assert len(asked) == 1


def test_stop_is_no_failure(asked, tmp_path):
    """Who says stop has had enough for today."""
    done = run("begin", "bedroom.toml", input="Bedroom\nstop\n")
    assert done.exit_code == 0
    assert names(tmp_path) == ["bedroom.draft"]
    assert not asked


def test_without_an_answer_nothing_is_kept(asked, tmp_path):
    """Not even an empty draft."""
    done = run("begin", input="")
    assert done.exit_code == 2
    assert "nothing is kept" in done.output
    assert names(tmp_path) == []
    assert not asked


@pytest.mark.slow
@pytest.mark.usefixtures("asked")
def test_the_file_is_named_after_the_room_and_a_draft_of_it_gone_on_with(tmp_path):
    """Who forgets the name of the file types that of the room."""
    run("begin", input="".join(LINES[:9]))
    assert "bedroom-under-the-limes.draft" in names(tmp_path)
    again = run("begin", input=LINES[0] + "".join(LINES[9:]))
    assert again.exit_code == 0, again.output
    assert (tmp_path / "bedroom-under-the-limes.toml").read_text(encoding="utf-8") == whole()


@pytest.mark.slow
@pytest.mark.usefixtures("asked")
def test_anew_takes_no_notice_of_a_draft(tmp_path):
    """All answers again, from the first."""
    run("begin", "bedroom.toml", input="Another\ncm\n")
    again = run("begin", "bedroom.toml", "--anew", input=ROOM.piped)
    assert again.exit_code == 0
    assert (tmp_path / "bedroom.toml").read_text(encoding="utf-8") == whole()


@pytest.mark.slow
@pytest.mark.usefixtures("asked")
def test_a_draft_can_be_piped_in(tmp_path):
    """Its comments are no answers."""
    draft = Interview(answers=ROOM.answers).draft
    assert draft.count("#") > 40
    assert run("begin", "bedroom.toml", input=draft).exit_code == 0
    assert (tmp_path / "bedroom.toml").read_text(encoding="utf-8") == whole()


@pytest.mark.slow
@pytest.mark.usefixtures("asked")
@pytest.mark.parametrize(
    ("answer", "written"),
    [
        ("yes", "bedroom.toml"),
        ("no", "bedroom-2.toml"),
        ("", "bedroom-2.toml"),
        (None, "bedroom-2.toml"),
    ],
)
def test_a_file_that_is_there_is_not_written_over_without_asking(tmp_path, answer, written):
    """Nor where the input ends before the answer."""
    before = tmp_path / "bedroom.toml"
    before.write_text("mine", encoding="utf-8")
    more = "" if answer is None else f"perhaps\n{answer}\n"
    done = run("begin", "bedroom.toml", input=ROOM.piped + more)
    assert done.exit_code == 0
    there = tmp_path / written
    assert there.read_text(encoding="utf-8") == whole()
    assert (before.read_text(encoding="utf-8") == "mine") == (answer != "yes")


@pytest.mark.slow
@pytest.mark.usefixtures("asked")
def test_back_help_and_show(tmp_path):
    """The question before comes again; help has an example; show prints the file so far."""
    typed = [*LINES[:8], "back\n", "?\n", "show\n", LINES[7], *LINES[8:]]
    done = run("begin", "bedroom.toml", input="".join(typed))
    assert done.exit_code == 0
    assert done.output.count("How wide is wall A, the one you are facing?") == 4
    assert "Write it like 342, 3.42 m or 3 m 42." in done.output
    assert 'feel = ["calm"]' in done.output
    assert (tmp_path / "bedroom.toml").read_text(encoding="utf-8") == whole()
    assert "This is the first question." in run("begin", "x.toml", input="back\n").output


def test_answers_that_do_not_fit_stop_what_is_piped(asked, tmp_path):
    """Nobody is there to see: all the rest would go to one question. The draft is kept."""
    done = run("begin", "bedroom.toml", input="".join(LINES[:7]) + "word\n" * 9)
    assert done.exit_code == 2
    assert done.output.count('"word" is not a length.') + done.output.count("yes or no") == 5
    assert names(tmp_path) == ["bedroom.draft"]
    assert not asked


@pytest.mark.slow
@pytest.mark.usefixtures("asked")
def test_a_wall_called_b_is_no_command():
    """Answers of one letter are walls."""
    done = run("begin", "front.toml", input=ROOMS["front room"].piped)
    assert done.exit_code == 0, done.output
    assert "Which wall does it stand out from?\n> B\n\nHow wide is it?" in done.output


@pytest.mark.usefixtures("asked")
def test_what_a_terminal_obeys_is_not_kept(tmp_path):
    """A name with an escape is refused in one sentence, and shown harmless."""
    done = run("begin", "bedroom.toml", input="Bed\x1b[2Jroom\nBedroom\nstop\n")
    assert "\x1b" not in done.output
    assert "only letters and signs that can be seen" in done.output
    assert "\x1b" not in (tmp_path / "bedroom.draft").read_text(encoding="utf-8")


@pytest.mark.usefixtures("asked")
def test_a_place_that_cannot_be_written_is_told():
    """At the first answer, before an hour of measuring."""
    done = run("begin", "no-folder/bedroom.toml", input=ROOM.piped)
    assert done.exit_code == 2
    assert "cannot be written" in done.output
    for name in ("-", "", "."):
        refused = run("begin", name, input="")
        assert refused.exit_code == 2
        assert "name the file to write" in refused.output


@pytest.mark.slow
@pytest.mark.usefixtures("asked")
def test_who_names_the_draft_goes_on_with_it(tmp_path):
    """It is not taken for the file to write."""
    run("begin", "bedroom.toml", input="".join(LINES[:9]))
    rest = run("begin", "bedroom.draft", input="".join(LINES[9:]))
    assert rest.exit_code == 0, rest.output
    assert (tmp_path / "bedroom.toml").read_text(encoding="utf-8") == whole()
    assert names(tmp_path) == ["bedroom-plans", "bedroom.toml"]


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "openpty"), reason="a terminal of this kind is needed")
def test_at_a_terminal_it_asks_draws_and_stops(tmp_path):
    """With a keyboard: no answer is echoed twice, and the room is drawn as a picture, too."""
    ours, theirs = os.openpty()
    code = "from arrange.cli import main; main(['begin', 'bedroom.toml'])"
    with subprocess.Popen(
        [sys.executable, "-W", "error", "-c", code],
        cwd=tmp_path,
        stdin=theirs,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    ) as talk:
        os.write(ours, "".join([*LINES[:9], "stop\n"]).encode())
        out, err = talk.communicate(timeout=120)
    os.close(ours)
    os.close(theirs)
    assert (talk.returncode, err) == (0, "")
    assert "B 410 cm" in out
    assert names(tmp_path) == ["bedroom-plans", "bedroom.draft"]
    assert names(tmp_path / "bedroom-plans") == ["survey.png"]


@pytest.mark.solver
@pytest.mark.parametrize("room", sampled(ROOMS, long=("front room", "flat", "nursery")))
def test_each_room_told_ends_in_a_plan(room, tmp_path):
    """As a program of its own, from the first question to the first plan."""
    done = process("begin", "room.toml", "--time", "60", cwd=tmp_path, input=ROOMS[room].piped)
    assert (done.returncode, done.stderr) == (0, "")
    assert {"plan-1.png", "survey.png", "result.json"} <= set(names(tmp_path / "room-plans"))
    assert arrange.read(tmp_path / "room.toml").pieces
