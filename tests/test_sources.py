"""The table of published values."""

import re
from pathlib import Path

import pytest

import arrange
from arrange.data.kinds import kinds
from arrange.data.sources import UnknownSourceError, ids, source, value
from arrange.rules import RULES

pytestmark = pytest.mark.fast

STATUSES = {"verified", "memory", "common practice", "computed"}


@pytest.mark.parametrize("id_", sorted(ids()))
def test_every_row_says_what_where_and_how_sure(id_):
    """The title carries the value, and the status is one of the four."""
    found = source(id_)
    assert found.id == id_
    assert found.status in STATUSES
    assert value(id_) in found.title


def test_a_value_is_the_published_one():
    """559 mm are 22 in: 22 * 25.4 = 558.8."""
    assert value("bed-side-access") == "559 mm (22 in)"
    assert source("bed-side-access").status == "verified"
    assert source("bunk-age").status == "memory"


@pytest.mark.parametrize("id_", ["", "common-practice"])
def test_no_id_is_common_practice(id_):
    """What has no source says so."""
    assert source(id_).title == "common practice, no source"
    assert source(id_).status == "common practice"


def test_the_persons_own_value_is_theirs():
    """An override is never shown as published."""
    assert source("yours").status == "yours"


def test_an_unknown_id_is_our_bug_and_named():
    """The message names the id and the table, and it is no bare KeyError."""
    with pytest.raises(
        UnknownSourceError, match=r"'no-such-row' is not in sources\.toml"
    ) as caught:
        source("no-such-row")
    assert not isinstance(caught.value, KeyError)


def test_kinds_name_rows_that_exist():
    """Each clearance of each kind has its two sources in the table."""
    used = {
        id_
        for kind in kinds().values()
        for clearance in kind.clearances
        for id_ in (clearance.source, clearance.comfortable_source)
    }
    assert used - {""} <= ids()
    assert used


HERE = Path(arrange.__file__).parent


def mentioned(id_):
    """Where an id stands as a whole word, outside the table itself."""
    word = re.compile(rf"(?<![\w-]){re.escape(id_)}(?![\w-])")
    files = [p for p in HERE.rglob("*") if p.suffix in (".py", ".toml")]
    return [p for p in files if p.name != "sources.toml" and word.search(p.read_text("utf-8"))]


@pytest.mark.parametrize("id_", sorted(ids()))
def test_every_row_is_used(id_):
    """A value that nothing leans on has no place in the table."""
    assert mentioned(id_)


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_id_that_a_rule_names_exists(rule):
    """Its own source, and every id in its docstring that is like one of the table."""
    source(rule.source)
    named = set(re.findall(r"`([a-z0-9]+(?:-[a-z0-9]+)+)`", type(rule).__doc__ or ""))
    assert named <= ids() | {"common-practice"}


def test_every_id_that_the_cautions_cite_exists():
    """The cautions cite by id: each one must be in the table."""
    text = (HERE / "words" / "cautions.py").read_text("utf-8")
    cited = set(CITED.findall(text))
    assert len(cited) > 5
    assert cited <= ids()


CITED = re.compile(r'"([a-z0-9]+(?:-[a-z0-9]+)+)"')
