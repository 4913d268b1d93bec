"""A first arrangement comes early, also where walkways leave little choice."""

from pathlib import Path

from arrange import read
from arrange.budget import Budget
from arrange.judge import judge
from arrange.solver.search import Search

FAULTS = Path(__file__).with_name("faults")


def test_a_tight_room_with_a_known_arrangement_has_one_found():
    """Made by placing seven pieces first; was: nothing found in 20 s."""
    case, found = read(FAULTS / "tight-but-possible.toml"), []

    def heard(best):
        if best.arrangement is not None:
            found.append(best.arrangement)

    Search(case, Budget(60, lambda: bool(found)), heard=heard).best()
    assert found
    assert judge(case, found[0]).works
