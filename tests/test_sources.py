"""The table of published values."""

import pytest

from arrange.scenario.kinds import kinds
from arrange.sources import UnknownSourceError, ids, source, value

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
