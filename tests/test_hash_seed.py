"""No answer and no message depends on the order that sets of strings happen to have."""

import os

import pytest
from command_line import ROOM, SLAB, process

STOOLS = "".join(
    f'[[piece]]\nname = "{name}"\nkind = "other piece"\nwidth = {width}\ndepth = 40\nheight = 50\n'
    for name, width in (("stool", 40), ("trunk", 50), ("crate", 60))
)
TWICE = "".join(
    f'[[rule]]\nrule = "{rule}"\nweight = {weight}\n'
    for rule in ("daylight", "gutter", "view", "bedhead-wall")
    for weight in (2, 3)
)


def told(folder, hash_seed, command):
    """The exit code, what is printed, and the bytes written but those of run.json."""
    out = folder / f"out-{hash_seed}"
    environment = {**os.environ, "PYTHONHASHSEED": str(hash_seed)}
    done = process(command, "room.toml", "--out", str(out), cwd=folder, env=environment)
    files = sorted(out.glob("*")) if out.is_dir() else []
    written = {f.name: f.read_bytes() for f in files if f.name != "run.json"}
    said = done.stdout + done.stderr
    return done.returncode, said.replace(out.name, "out"), written


@pytest.mark.parametrize(
    ("text", "command", "code"),
    [
        pytest.param(ROOM + STOOLS, "suggest", 0, id="suggest"),
        pytest.param(ROOM + STOOLS + SLAB, "why", 3, id="why"),
        pytest.param(ROOM + TWICE, "suggest", 2, id="four rules twice"),
    ],
)
def test_hash_seeds_give_the_same_bytes(tmp_path, text, command, code):
    """Everything printed and written, pictures too."""
    (tmp_path / "room.toml").write_text(text)
    one, two = (told(tmp_path, seed, command) for seed in (1, 2))
    assert one[0] == code, one[1]
    assert one == two
    assert bool(one[2]) is (code != 2)
