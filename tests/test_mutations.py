"""A sample of the campaign of broken files (benchmarks/mutations.py), read in this process."""

import pytest
from mutated import (
    compare_it,
    examine,
    mutated_result,
    mutated_scenario,
    read_scenario,
    standing_result,
)

pytestmark = [pytest.mark.fast, pytest.mark.slow]  # of no solver, and hundreds of files
SEEDS = range(300)


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    """The text of a result that can be read."""
    return standing_result(tmp_path_factory.mktemp("sound"))


def test_a_mutated_scenario_is_read_or_refused_in_plain_words(tmp_path):
    """Three hundred files: no other exception, no endless message, nothing invisible."""
    path = tmp_path / "room.toml"
    found = [examine(seed, mutated_scenario(seed), path, read_scenario) for seed in SEEDS]
    assert [f for f in found if f.fault] == []
    assert 10 < sum(f.outcome == "read" for f in found) < 280


def test_a_mutated_result_is_read_or_refused_in_plain_words(tmp_path, sound):
    """The same for what compare reads; the sound one is read."""
    path = tmp_path / "result.json"
    assert examine(0, sound.encode(), path, compare_it).outcome == "read"
    found = [examine(seed, mutated_result(seed, sound), path, compare_it) for seed in SEEDS]
    assert [f for f in found if f.fault] == []
    assert 10 < sum(f.outcome == "read" for f in found) < 280
