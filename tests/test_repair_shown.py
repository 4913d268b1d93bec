"""What would have to give as it is shown: the sheet, the words, the data."""

import json
import re
from functools import cache
from pathlib import Path

import pytest
from small_rooms import at, only, piece, room, scenario

from arrange.data.change import LetMove, LowerClearance, Rehang
from arrange.data.kinds import kind
from arrange.data.repair import Repairs
from arrange.data.room import Door, Fixture
from arrange.data.scenario import OwnCosts
from arrange.draw import save
from arrange.draw.why import repair_sheet
from arrange.output.fields import About, as_text
from arrange.output.records import REPAIRS
from arrange.solver.feasibility import FeasibilityOracle
from arrange.whatif.repair import cheapest_repairs, irreducible
from arrange.whatif.requirements import relaxations
from arrange.words.why import repair_lines, repair_words

PAGE = (Path(__file__).parent.parent / "scenarios" / "RESULT.md").read_text(encoding="utf-8")


def wardrobe(width=1000):
    """As the table of kinds has it: 600 deep; held to the usual 750 before its doors."""
    known = kind("wardrobe")
    kept = tuple(c.kept_usual for c in known.clearances)
    return piece("wardrobe", width, 600, 2000, clearances=kept, roles=known.roles)


def tight():
    """60 + 75 = 135 needed, 130 there, 134 the other way; beside it 34 for the chest."""
    shape = room(((0, 0), (0, 1300), (1340, 1300), (1340, 0)))
    return only(scenario(shape, wardrobe(), piece("chest", 300, 300)))


@cache
def found(most=2):
    """The ways out of the tight room."""
    return cheapest_repairs(tight(), FeasibilityOracle(60), (), most=most)


def with_door():
    """A door of 80 cm that opens in, in a room where nothing else may give."""
    shape = room(
        ((0, 0), (0, 1500), (1200, 1500), (1200, 0)),
        doors=(Door("door", 3, 200, 800),),
        fixtures=(Fixture("socket", "socket", (), wall=1, offset=100, width=80),),
    )
    case = only(scenario(shape, piece("chest", 1000, 800), piece("stool", 200, 200)))
    return cheapest_repairs(case, FeasibilityOracle(60), (), untouchable=["chest", "stool"], most=1)


def texts(figure):
    """Everything written on a sheet."""
    return " ".join(t.get_text() for axes in figure.axes for t in axes.texts)


def gids(figure):
    """The marks of everything drawn."""
    return {a.get_gid() for axes in figure.axes for a in axes.get_children() if a.get_gid()}


def test_the_sheet_says_every_change_and_marks_it(tmp_path):
    """Words above the plan, and the strip that came down tinted with a dashed edge."""
    repairs = found()
    first = repairs.repairs[0]
    assert first.changes == (LowerClearance("wardrobe", "doors", 600),)
    figure = repair_sheet(repairs)
    written = texts(figure)
    assert "60 cm is kept free in front of the wardrobe, instead of 75 cm" in written
    assert "Below 75 cm, which is usual for its kind" in written
    assert "[common practice, no source]" in written  # never on the first screen
    assert not any("common practice" in line for line in repair_lines(first, 1))
    assert f"effort {first.cost}" in written
    assert {"strip:wardrobe", "gives:wardrobe"} <= gids(figure)
    scales = {round(axes.transData.get_matrix()[0, 0], 6) for axes in figure.axes[1:]}
    assert len(scales) == 1  # one scale for all plans
    save(figure, tmp_path / "a.png")
    save(repair_sheet(found()), tmp_path / "b.png")
    assert (tmp_path / "a.png").read_bytes() == (tmp_path / "b.png").read_bytes()


def test_a_rehung_door_is_marked():
    """80 + 80 of chest and leaf do not go into 150 cm; 60 of walkway and 80 do."""
    repairs = with_door()
    assert repairs.repairs[0].changes == (Rehang("door"),)
    assert "gives:door" in gids(repair_sheet(repairs))


def test_without_a_proposal_there_is_no_sheet():
    """And the message says so."""
    with pytest.raises(ValueError, match="no proposal"):
        repair_sheet(Repairs(tight(), (), 5, 4, True))


def test_the_words_say_how_sure_it_is():
    """Proven, not proven, nothing, nothing in the time: never blurred."""
    assert "no smaller change of the" in repair_words(found(1))
    nothing = Repairs(tight(), (), 5, 4, True)
    assert repair_words(nothing).startswith("None of the changes")
    unsure = Repairs(tight(), (), 5, 4, False, 2)
    assert "does not mean that there are none" in repair_words(unsure)
    head, line = repair_lines(found(1).repairs[0], 1)
    assert re.match(r"1\. Effort 15\. Then \d+\.\d of 100 points \(the best there is\)\.", head)
    assert line.endswith("[15]")  # 12 below its least, 3 steps of 5 cm


def test_the_data_is_that_of_the_page():
    """Every key written stands in RESULT.md, and the text is JSON."""
    proposed = found()
    data = json.loads(as_text(REPAIRS.write(proposed, About(proposed.scenario))))
    part = PAGE.split("### would_have_to_give", 1)[1].split("\n## ", 1)[0]
    described = set(re.findall(r"`(\w+)`", part))
    repair = data["proposals"][0]
    assert set(data) | set(repair) | set(repair["gives"][0]) <= described
    assert repair["gives"][0]["below_least"] is True
    assert repair["gives"][0]["changes"] == [
        {"change": "LowerClearance", "piece": "wardrobe", "clearance": "doors", "to": 600}
    ]
    assert repair["arrangement"]["pieces"]


def test_from_above_all_that_is_left_is_needed():
    """The quick way out: everything gives, then the dearest is taken back first."""
    case = tight()
    offers = relaxations(case)
    chosen, _ = irreducible(case, FeasibilityOracle(60), offers)
    assert [one.changes for one in chosen] == [(LowerClearance("wardrobe", "doors", 600),)]


def test_from_above_pieces_go_only_if_they_must():
    """60 and the bare 50 are 110, and 109 are there, either way: the wardrobe goes."""
    case = only(
        scenario(
            room(((0, 0), (0, 1090), (1090, 1090), (1090, 0))),
            wardrobe(),
            piece("chest", 300, 300),
            costs=OwnCosts((("leave_out", 1),)),
        )
    )
    chosen, _ = irreducible(case, FeasibilityOracle(60), relaxations(case))
    assert [one.key for one in chosen] == [("leave out", "wardrobe")]


def test_a_kept_piece_let_move_is_marked():
    """The chest stands in front of the wardrobe's doors; 34 cm beside it would do."""
    shape = room(((0, 0), (0, 1350), (1340, 1350), (1340, 0)))
    held = (at("chest", "up", 500, 0, wall=3),)
    case = only(scenario(shape, wardrobe(), piece("chest", 300, 300), held=held))
    repairs = cheapest_repairs(case, FeasibilityOracle(60), (), untouchable=["wardrobe"], most=1)
    assert repairs.repairs[0].changes == (LetMove("chest"),)
    assert "gives:chest" in gids(repair_sheet(repairs))
