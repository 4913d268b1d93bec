"""The published values that kinds and rules lean on, by id.

The table itself is ``sources.toml``: for each id what the value is about, the
value as published, where it was read and how sure it is.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal

from arrange.data.piece import Status
from arrange.errors import ArrangeError

TABLE = Path(__file__).with_name("sources.toml")


@dataclass(frozen=True, slots=True)
class Source:
    """Where a value comes from: an id of the reference table, its title, its status."""

    id: str
    title: str
    status: Status


COMMON_PRACTICE = Source("common-practice", "common practice, no source", "common practice")
YOURS = Source("yours", "your own value", "yours")

Column = Literal["what", "value", "from", "short", "status"]


class UnknownSourceError(ArrangeError, LookupError):
    """An id that is not in the table of sources: our bug, never the user's."""


@cache
def _table() -> dict[str, dict[Column, str]]:
    return tomllib.loads(TABLE.read_text(encoding="utf-8"))


@cache
def ids() -> frozenset[str]:
    """Every id in the table."""
    return frozenset(_table())


def _row(id_: str) -> dict[Column, str]:
    try:
        return _table()[id_]
    except KeyError:
        raise UnknownSourceError(
            f"internal: source id {id_!r} is not in {TABLE.name}; add the row or correct the id"
        ) from None


@cache
def source(id_: str) -> Source:
    """The source called ``id_``.

    An empty id or ``common-practice`` is the trade's habit without a published
    source; ``yours`` is the person's own value.

    Raises
    ------
    UnknownSourceError
        If the id is not in the table.

    >>> source("bed-side-access").status
    'verified'
    >>> source("").title
    'common practice, no source'
    """
    if id_ in ("", COMMON_PRACTICE.id):
        return COMMON_PRACTICE
    if id_ == YOURS.id:
        return YOURS
    row = _row(id_)
    return Source(id_, f"{row['what']}: {row['value']} ({row['from']})", _status(row["status"]))


def value(id_: str) -> str:
    """The value of ``id_`` as published, with its unit. UnknownSourceError if unknown."""
    return _row(id_)["value"]


def origin(id_: str) -> str:
    """Where the value of ``id_`` was read. UnknownSourceError if unknown."""
    return _row(id_)["from"]


def body(id_: str) -> str:
    """The standard or body behind ``id_`` alone. UnknownSourceError if unknown.

    >>> body("heater-gap"), body("csu-height")
    ('NFPA', '16 CFR 1261')
    """
    return _row(id_)["short"]


def _status(text: str) -> Status:
    statuses: tuple[Status, ...] = ("verified", "memory", "common practice", "computed", "yours")
    for status in statuses:
        if status == text:
            return status
    raise UnknownSourceError(f"internal: {text!r} is not a status known to {TABLE.name}")
