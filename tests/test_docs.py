"""The pages say what is there: README, tour, the page for developers, the generated lists.

After a change of modules, rules, sources or sentences, ``python -m benchmarks.tour
tables`` writes their lists anew.
"""

import re
import shlex
from pathlib import Path

import click
import pytest

import arrange
from arrange.cli import main
from arrange.data.sources import TABLE, ids, origin, source, value
from arrange.rules import RULES
from arrange.rules.wished import OwnWish
from arrange.scenario.wishes import WEIGHT
from arrange.scoring import FEEL, WEIGHTS
from benchmarks import sentences, tour
from benchmarks.planted_faults import faults, misplaced

pytestmark = pytest.mark.fast

ANEW = "the lists are written anew by: python -m benchmarks.tour tables"
TOP = Path(__file__).parent.parent
README = (TOP / "README.md").read_text(encoding="utf-8")
TOUR_PAGE = (TOP / "scenarios" / "TOUR.md").read_text(encoding="utf-8")
SHOWN = {TOP: README, TOP / "scenarios": TOUR_PAGE}  # links count from the folder of the page
DEVELOPERS = (TOP / "DEVELOPERS.md").read_text(encoding="utf-8")
BENCHMARKS = (TOP / "benchmarks" / "README.md").read_text(encoding="utf-8")
MODULES = (TOP / "arrange" / "README.md").read_text(encoding="utf-8")
LISTED_RULES = (TOP / "arrange" / "rules" / "README.md").read_text(encoding="utf-8")
LISTED_SOURCES = (TOP / "arrange" / "data" / "SOURCES.md").read_text(encoding="utf-8")
LISTED_PEOPLE = (TOP / "arrange" / "data" / "PEOPLE.md").read_text(encoding="utf-8")
SENTENCES = (TOP / "arrange" / "words" / "SENTENCES.md").read_text(encoding="utf-8")
SH = re.findall(r"^```sh\n(.*?)^```", README, re.DOTALL | re.MULTILINE)
PYTHON = re.findall(r"^```python\n(.*?)^```", README, re.DOTALL | re.MULTILINE)
TOML = re.findall(r"^```toml\n(.*?)^```", README, re.DOTALL | re.MULTILINE)
TOUR = re.findall(r"<!-- tour: ([a-z-]+) -->\n(.*?)<!-- end -->", README + TOUR_PAGE, re.DOTALL)


def section(title):
    """A section of the page for developers."""
    found = re.search(rf"^## {re.escape(title)}\n(.*?)(?=^## |\Z)", DEVELOPERS, re.DOTALL | re.M)
    assert found, title
    return found[1]


def rows(text):
    """The cells of every row of the tables in a text, heads and rules left out."""
    lines = [line for line in text.splitlines() if line.startswith("|")]
    cells = [[c.strip() for c in line.strip("|").split("|")] for line in lines]
    rule = [i for i, row in enumerate(cells) if set("".join(row)) <= set("-: ")]
    return [row for i, row in enumerate(cells) if i not in rule and i + 1 not in rule]


def weight_told(rule):
    """The part, the weight in it, and the uses of a room where it is another: from the table."""
    if rule not in WEIGHTS:
        return ""
    part, usual, by_use = WEIGHTS[rule]
    others = ", ".join(f"{use} {weight}" for use, weight in by_use.items())
    return f"{part}: {usual} ({others})" if others else f"{part}: {usual}"


def expected_rule_row(rule):
    """Kind, weight, source and status as the table has them."""
    own = isinstance(rule, OwnWish)
    kind = "must or wish" if own else rule.kind
    weight = f"asked: {WEIGHT}, or the wish's own" if own else weight_told(rule.id)
    told = source(rule.source)
    cell = told.id if told.id in ("common-practice", "yours") else f"`{told.id}`"
    return kind, weight, cell, told.status


def settable(rule):
    """What the reader of the file does not refuse to set for a rule."""
    text, length = TOML[0].partition("[[wish]]")[0], '"150 cm"'
    found = []
    for key, given in (("off", "true"), ("weight", 3), ("least", length), ("comfortable", length)):
        try:
            arrange.read_text(f'{text}\n[[rule]]\nrule = "{rule.id}"\n{key} = {given}\n')
        except arrange.ScenarioError:
            continue
        found.append(key)
    return found


def test_every_rule_is_in_the_table_in_its_order_and_no_other():
    """The table is the registry: ids in reading order."""
    listed = [row[0].strip("`") for row in rows(LISTED_RULES)]
    assert listed == [rule.id for rule in RULES], ANEW


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_in_the_table_is_told_as_it_is(rule):
    """Kind, weight, source and how sure it is; and one line in words."""
    row = next(r for r in rows(LISTED_RULES) if r[0] == f"`{rule.id}`")
    assert (row[1], row[2], row[5], row[6]) == expected_rule_row(rule)
    assert row[3].split(", ") == (settable(rule) or [""])
    assert row[4]


def test_every_source_is_in_the_table_and_no_other():
    """Value, origin and status word for word; so a row from memory is called one."""
    listed = {row[0].strip("`"): row for row in rows(LISTED_SOURCES)}
    assert set(listed) == ids()
    for id_, row in listed.items():
        assert row[2] == value(id_)
        assert row[3] == origin(id_)
        assert row[4] == source(id_).status


def test_every_module_is_in_the_map_and_no_other():
    """One line a module, each with words."""
    listed = {row[0].strip("`"): row[1] for row in rows(MODULES)}
    package = TOP / "arrange"
    modules = {p.relative_to(package).as_posix() for p in package.rglob("*.py")}
    assert set(listed) == modules, ANEW
    assert all(listed.values())


@pytest.mark.slow
def test_the_lists_are_as_they_are_generated():
    """Nobody edits them by hand: writing them anew changes nothing."""
    blocks = tour.PARTS["tables"](None)
    assert set(blocks) == {"modules", "rules", "sources", "people", "sentences"}
    assert all(text.count("\n") > 20 for text in blocks.values())
    for page in (MODULES, LISTED_RULES, LISTED_SOURCES, LISTED_PEOPLE, SENTENCES):
        (name,) = [name for _, name, _ in tour.BLOCK.findall(page)]
        assert tour.filled(page, blocks) == page, name
        del blocks[name]
    assert not blocks


SAMPLE = '''"""What this module is for."""

LISTED = ("sofa bed", "wall")  # single words and names of kinds are no sentences
HEADS = {"some key here": "Room to spare"}


def told(piece, gap, unit, left):
    """Nobody is told this."""
    if piece.use == "living room" or not gap:
        raise ValueError("this is a bug of ours")
    far = f"{measured(gap, unit)} away" if gap else "right beside it"
    told = f"{the(piece.name, first=True)} {'stands' if left else 'hangs'} {far}."
    return told + " Measure " + ", ".join(f"the {x}" for x in left)
'''


def test_the_sentences_of_a_module_are_found_and_nothing_else(tmp_path):
    """By hand: no docstring, key, comparison, name of a kind or message of a bug."""
    path = tmp_path / "sample.py"
    path.write_text(SAMPLE, encoding="utf-8")
    assert sentences.sentences(path) == [
        "Room to spare",
        "{length} away",
        "right beside it",
        "{The piece} {stands|hangs} {far}.",
        "{told} Measure {the x}",
        "the {x}",
    ]


def test_pages_that_a_person_writes_are_soon_read():
    """What is long goes beside what it is about: 15 kB for developers, 260 lines to begin with."""
    assert len(DEVELOPERS.encode("utf-8")) <= 15 * 1024
    assert len(README.splitlines()) <= 260
    assert DEVELOPERS.endswith("\n")
    assert [line for line in DEVELOPERS.splitlines() if len(line) > 120] == []


def test_every_step_of_a_story_begins_its_own_line():
    """Numbered as they are read: a step run into the one before is a wrap gone wrong."""
    for what, steps in (("rule", 7), ("question", 6), ("choice", 4)):
        numbers = re.findall(r"^(\d+)\. \*\*", section(f"The story of one {what}"), re.MULTILINE)
        assert numbers == [str(n) for n in range(1, steps + 1)]


def test_files_named_by_the_developers_page_exist():
    """Paths in backquotes, from the top of the project or from the package."""
    pages = DEVELOPERS + MODULES + LISTED_RULES + LISTED_SOURCES
    named = set(re.findall(r"`([a-z_./]+/[a-z_]+\.(?:py|toml|md|json))`", pages))
    named -= {"benchmarks/RESULTS.md"}  # written by the benchmarks
    assert len(named) > 20
    for name in named:
        assert (TOP / name).is_file() or (TOP / "arrange" / name).is_file(), name


def test_every_planted_fault_fits_the_code_as_it_is():
    """Where code is moved its faults move along, or nobody would plant them any more."""
    found = faults()
    assert len(found) > 100
    assert [misplaced(fault) for fault in found if misplaced(fault)] == []
    assert {t for fault in found for t in fault.tests} <= {
        p.name for p in Path(__file__).parent.glob("test_*.py")
    }


def test_benchmarks_named_are_those_that_are_there():
    """Each has a row that says what it shows."""
    named = set(re.findall(r"python -m benchmarks\.([a-z_]+)`", BENCHMARKS))
    runnable = {
        p.stem
        for p in (TOP / "benchmarks").glob("*.py")
        if '__name__ == "__main__"' in p.read_text(encoding="utf-8")
    }
    assert named == runnable


def test_the_sum_in_the_scoring_section_is_right():
    """Of 1000 tenths shared as 20, 40 and 25 one is left for the largest rest."""
    from arrange.scoring import BUDGETS, divided  # noqa: PLC0415

    budgets = BUDGETS["living room"]
    weights = [budgets[part] for part in ("works", "together", "sits")]
    assert weights == [20, 40, 25]
    assert [1000 * w // 85 for w in weights] == [235, 470, 294]
    assert [1000 * w % 85 for w in weights] == [25, 50, 10]
    assert "235, 471, 294" in section("The scoring scale")
    assert divided(1000, weights) == [235, 471, 294]


def test_the_first_block_is_the_main_command_and_the_second_the_tests():
    """`.ci/run` runs both word for word."""
    assert "arrange suggest scenarios/small-double-bedroom.toml" in SH[0]
    assert "pytest" in SH[1]
    for part in ("ruff check .", "ruff format --check .", "mypy", "'.[test]'"):
        assert part in SH[1]


@pytest.mark.parametrize("block", range(2))
def test_each_block_sets_itself_up(block):
    """On a fresh machine: an environment of its own, the program in it, then the work."""
    commands = [shlex.split(line) for line in SH[block].splitlines()]
    assert commands[0] == ["python3", "-m", "venv", ".venv"]
    assert commands[1][:2] == [".venv/bin/pip", "install"]
    assert all(words[0].startswith(".venv/bin/") for words in commands[1:])


@pytest.mark.parametrize("folder", SHOWN, ids=["readme", "tour"])
def test_files_linked_exist(folder):
    """Pages, pictures and examples; each path counts from the folder of its page."""
    linked = re.findall(r"\]\(([^)#]+)(?:#[a-z-]+)?\)", SHOWN[folder])
    assert len(linked) > 10
    for name in linked:
        assert (folder / name).is_file(), name
    examples = re.findall(r"scenarios/[a-z-]+\.toml", SHOWN[folder])
    assert examples
    for name in examples:
        assert (TOP / name).is_file(), name


def headings(text):
    """The anchors of the headings of a page, code blocks left out."""
    prose = re.sub(r"^```.*?^```", "", text, flags=re.DOTALL | re.MULTILINE)
    titles = re.findall(r"^#+ (.*)$", prose, re.MULTILINE)
    return {re.sub(r"[^a-z0-9 -]", "", title.lower()).replace(" ", "-") for title in titles}


@pytest.mark.parametrize("folder", SHOWN, ids=["readme", "tour"])
def test_headings_linked_exist(folder):
    """A link into a page names one of its headings."""
    linked = re.findall(r"\]\(([^)#]*)#([a-z-]+)\)", SHOWN[folder])
    assert linked
    for name, heading in linked:
        text = (folder / name).read_text(encoding="utf-8") if name else SHOWN[folder]
        assert heading in headings(text), f"{name}#{heading}"


def test_every_picture_kept_is_shown_and_described():
    """Nothing is left behind by an earlier tour; each says what is to be seen."""
    shown = {
        (folder / path).resolve(): told
        for folder, text in SHOWN.items()
        for told, path in re.findall(r"!\[(.*?)\]\((.*?)\)", text)
    }
    kept = {path.resolve() for path in (TOP / "scenarios" / "pictures").iterdir()}
    assert set(shown) == kept
    assert all(len(told) > 20 for told in shown.values())
    assert all(path.stat().st_size < 600_000 for path in kept)  # the largest is of A3


def test_options_named_in_the_pages_exist():
    """All options of the commands, and none that is not."""
    there = {"--help"}
    for command in (main, *main.commands.values()):
        for param in command.params:
            if isinstance(param, click.Option):
                there.update(param.opts)
    prose = re.sub(r"^```sh\n.*?^```", "", README + TOUR_PAGE, flags=re.DOTALL | re.MULTILINE)
    named = set(re.findall(r"(?<![\w-])--[a-z]+(?:-[a-z]+)*", prose))
    assert named <= there
    told = {row for row in there if row in named}
    assert there - told <= {"--debug", "--version"}


def test_the_room_of_the_readme_can_be_read():
    """It is a whole file."""
    for text in TOML:
        assert arrange.read_text(text).pieces


@pytest.mark.solver
def test_the_python_of_the_readme_runs(tmp_path, monkeypatch, capsys):
    """As it stands, on a room small enough to be quick."""
    tiny = TOML[0].partition("[[wish]]")[0]
    (tmp_path / "scenarios").mkdir()
    (code,) = PYTHON
    path = re.search(r'read\("(.*?)"\)', code)[1]
    assert (TOP / path).is_file()
    (tmp_path / path).write_text(tiny, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    exec(compile(code, "README.md", "exec"), {})  # noqa: S102
    assert capsys.readouterr().out.startswith("proven ")
    assert (tmp_path / "plan.png").read_bytes().startswith(b"\x89PNG")


def test_every_block_of_the_tour_is_filled():
    """A block is what the program printed, or a table made of its result."""
    assert len(TOUR) >= 8
    for name, text in TOUR:
        assert text.startswith(("```text\n$ arrange ", "| ")), name
        assert text == dict(TOUR)[name], f"{name} is in two pages and differs"


def test_the_printed_sum_adds_up():
    """The person can redo it: won is the score of the best, possible is a hundred."""
    (text,) = [text for name, text in TOUR if name == "sum"]
    *parts, total = rows(text)
    for column in (1, 2):
        tenths = sum(round(10 * float(row[column])) for row in parts)
        assert tenths == round(10 * float(total[column].strip("*")))
    (printed,) = [text for name, text in TOUR if name == "suggest"]
    assert f"\n1. {total[1].strip('*')} of 100 points" in printed
    assert total[2] == "**100.0**"


def test_exit_codes_are_told():
    """All five, as the command line has them."""
    table = TOUR_PAGE.partition("exit code |")[2].partition("\n\n")[0]
    codes = [int(line.strip("| ").rpartition("|")[2]) for line in table.splitlines()[2:]]
    assert codes == [0, 0, 3, 4, 2]
    assert "Exit code 1 is a bug of ours" in TOUR_PAGE


def test_the_words_for_the_feel_are_listed():
    """All of them and no other, in the order of the alphabet."""
    listed = README.partition("up to three of")[2].partition(".")[0]
    assert [word.strip() for word in listed.split(",")] == sorted(FEEL)


def test_the_word_for_feeling_factors_is_true():
    """In quarters: half, three quarters, one and a quarter, one and a half, double; no other."""
    assert {factor for word in FEEL.values() for factor in word.values()} == {2, 3, 5, 6, 8}
    assert TABLE.is_file()
