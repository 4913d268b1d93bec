"""A run that is killed while it writes loses nothing: a sample of the benchmark."""

from collections import Counter

from benchmarks.kills import campaign, set_in, sound, write


def test_after_a_kill_there_is_a_whole_old_or_a_whole_new_set():
    """At moments drawn at random, once the next run has looked."""
    found = campaign(8, seed=1)
    assert found.total() == 8
    assert sound(found), found


def test_the_sample_would_see_a_mix_a_loss_and_leftovers(tmp_path):
    """What is counted as whole is really looked at."""
    folder = tmp_path / "plans"
    assert set_in(folder) == "none"
    write(folder, "old")
    assert set_in(folder) == "old"
    (folder / ".arrange-abcd1234").mkdir()
    assert set_in(folder) == "old and leftovers"
    (folder / ".arrange-abcd1234").rmdir()
    (folder / "plan-2.png").write_text("new")
    assert set_in(folder) == "a mix"
    write(folder, "new")
    assert set_in(folder) == "new"
    (folder / "plan-1.png").unlink()
    assert set_in(folder) == "a mix"
    for then in ("a mix", "none", "leftovers", "old and leftovers"):
        assert not sound(Counter([("old", "a mix", then)]))
    assert not sound(Counter([("none", "none", "old")]))
