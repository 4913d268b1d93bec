"""Data to records and back, by the fields of its classes; and records as JSON text.

A frozen class stands in a file as a record: a key for each field, in the order of the
fields, tuples as lists and what lies within as records of its own. Where a file has it
otherwise, a ``Record`` says so once, for both directions: the order of the keys, what is
renamed, what is made for the file alone, and what is left out. A field that is added to a
class appears in the file and is read back without a word here.

What is read is checked against the type of its field before anything is made of it, so
that a file nobody can trust makes no half-right data.
"""

from __future__ import annotations

import json
import math
from collections.abc import Callable, Collection, Mapping
from dataclasses import MISSING, Field, dataclass, fields, is_dataclass
from functools import cached_property
from types import NoneType, UnionType
from typing import (
    Any,
    ClassVar,
    Generic,
    Literal,
    Protocol,
    TypeVar,
    Union,
    get_args,
    get_origin,
    get_type_hints,
)

from arrange.data.arrangement import Arrangement
from arrange.data.room import Room
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene


class Fielded(Protocol):
    """Any dataclass."""

    __dataclass_fields__: ClassVar[dict[str, Field[Any]]]


T = TypeVar("T", bound=Fielded)
T_contra = TypeVar("T_contra", contravariant=True)
Data = dict[str, Any]  # what JSON can say


@dataclass(frozen=True)
class About:
    """What a record speaks of: a scenario, an arrangement of it, the files written beside it."""

    scenario: Scenario
    arrangement: Arrangement | None = None
    files: tuple[str, ...] = ()

    @property
    def room(self) -> Room:
        """The room of the scenario."""
        return self.scenario.room

    @cached_property
    def scene(self) -> Scene:
        """The arrangement, measured. ValueError without one."""
        if self.arrangement is None:
            raise ValueError("a record of an arrangement where there is none")
        return Scene(self.scenario, self.arrangement)


@dataclass(frozen=True)
class Column(Generic[T_contra]):
    """One key of a record, the field it holds, and how that is written and read.

    Without ``write`` and ``read`` as the field's type says. ``key`` "" is not written,
    only made when read; ``field`` "" is made for the file alone, and never read.
    """

    key: str
    field: str = ""
    write: Callable[[T_contra, About], object] | None = None
    read: Callable[[Mapping[str, Any], About], object] | None = None


def made(key: str, write: Callable[[T_contra, About], object]) -> Column[T_contra]:
    """A key that is made for the file alone."""
    return Column(key, write=write)


def renamed(field: str, key: str) -> Column[object]:
    """A field under another name."""
    return Column(key, field)


def tenths(field: str, key: str = "") -> Column[object]:
    """Tenths of a point, as points in the file."""
    key = key or field

    def back(data: Mapping[str, Any], _: About) -> int | None:
        return None if data[key] is None else round(_number(data[key]) * 10)

    return Column(key, field, lambda one, _: in_points(getattr(one, field)), back)


def in_points(tenths: int | None) -> float | None:
    """Tenths of a point as points; None stays None.

    >>> in_points(792)
    79.2
    """
    return None if tenths is None else tenths / 10


def or_none(field: str, key: str = "") -> Column[object]:
    """A text of which the empty one is null in the file."""
    key = key or field
    return Column(
        key, field, lambda one, _: getattr(one, field) or None, lambda data, _: data[key] or ""
    )


class Record(Generic[T]):
    """How a class stands in a file.

    Parameters
    ----------
    cls
        The dataclass.
    columns
        The keys in the order of the file; a name alone is that field as it is. Fields that
        are not named come after them.
    without
        Fields that are left out, or that other columns already tell. Reading leaves them at
        their defaults.
    only
        Whether the columns are all there is.
    other
        Whether it is another record than the usual one, written and read by name alone.
    """

    _usual: ClassVar[dict[type, Record[Any]]] = {}  # filled as records are declared

    def __init__(
        self,
        cls: type[T],
        *columns: str | Column[T],
        without: Collection[str] = (),
        only: bool = False,
        other: bool = False,
    ) -> None:
        self.cls = cls
        known = [Column[T](c, c) if isinstance(c, str) else c for c in columns]
        own = [f.name for f in fields(cls)]
        named = {*without, *(c.field for c in known if c.field)}
        if strange := named - set(own):
            raise TypeError(f"{cls.__name__} has no {', '.join(sorted(strange))}")
        rest = () if only else (Column[T](name, name) for name in own if name not in named)
        self.columns: tuple[Column[T], ...] = (*known, *rest)
        if not other:
            self._usual[cls] = self

    @classmethod
    def of(cls, kind: type[Fielded]) -> Record[Any]:
        """The usual record of a class, made of its fields alone if none was declared."""
        return cls._usual.get(kind) or Record(kind)

    def write(self, one: T, about: About) -> Data:
        """The record of ``one``."""
        return {
            c.key: plain(getattr(one, c.field) if c.write is None else c.write(one, about), about)
            for c in self.columns
            if c.key
        }

    def read(self, data: object, about: About) -> T:
        """What a record tells. KeyError, TypeError or ValueError if it does not fit the class."""
        if not isinstance(data, Mapping):
            raise TypeError(f"{data!r} is no record of a {self.cls.__name__}")
        hints = get_type_hints(self.cls)
        optional = {
            f.name
            for f in fields(self.cls)
            if f.default is not MISSING or f.default_factory is not MISSING
        }
        found: dict[str, object] = {}
        for column in self.columns:
            if column.read is not None:
                found[column.field] = column.read(data, about)
            elif column.field and (column.key in data or column.field not in optional):
                found[column.field] = read_as(hints[column.field], data[column.key], about)
        return self.cls(**found)


def plain(value: object, about: About) -> object:
    """A value as JSON can say it: records, lists, numbers and texts."""
    if value is None or isinstance(value, str | int | float):
        return value
    if is_dataclass(value) and not isinstance(value, type):
        return Record.of(type(value)).write(value, about)
    if isinstance(value, Mapping):
        return {key: plain(one, about) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [plain(one, about) for one in value]
    raise TypeError(f"{value!r} is nothing that a file can hold")


def read_as(hint: Any, value: object, about: About) -> Any:  # noqa: ANN401  as the annotation says
    """``value`` as the annotation of a field wants it. TypeError or ValueError if it is not.

    Whole numbers may be written with a decimal point; no number may be infinite or none.
    """
    kind, inner = get_origin(hint), get_args(hint)
    if kind in (Union, UnionType):
        if value is None and NoneType in inner:
            return None
        (one,) = (each for each in inner if each is not NoneType)
        return read_as(one, value, about)
    if kind is tuple:
        if not isinstance(value, list):
            raise TypeError(f"{value!r} is no list")
        hints = [inner[0]] * len(value) if inner[-1] is Ellipsis else inner
        return tuple(read_as(one, v, about) for one, v in zip(hints, value, strict=True))
    if isinstance(hint, type) and is_dataclass(hint):
        return Record.of(hint).read(value, about)
    return _single(hint, value)


def _single(hint: Any, value: object) -> object:  # noqa: ANN401  as the annotation says
    """A number, a text, yes or no, or one of a few words."""
    if get_origin(hint) is Literal:
        if value not in get_args(hint):
            raise ValueError(f"{value!r} is none of {', '.join(map(str, get_args(hint)))}")
        return value
    if hint is float:
        return _number(value)
    if hint is int:
        found = _number(value)
        if found != int(found):
            raise ValueError(f"{value!r} is no whole number")
        return int(found)
    if not isinstance(value, hint):
        raise TypeError(f"{value!r} is no {hint.__name__}")
    return value


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        raise TypeError(f"{value!r} is no number")
    return value


def as_text(data: Mapping[str, object]) -> str:
    """Data as JSON text: two spaces a level, lists of numbers on one line, a newline at the end.

    >>> print(as_text({"a": [[1, 2], [3, 4.5]], "b": []}), end="")
    {
      "a": [[1, 2], [3, 4.5]],
      "b": []
    }
    """
    return _written(data, "\n") + "\n"


def _written(value: object, newline: str) -> str:
    deeper = newline + "  "
    if isinstance(value, dict) and value:
        rows = [
            f"{json.dumps(k, ensure_ascii=False)}: {_written(v, deeper)}" for k, v in value.items()
        ]
        return "{" + ",".join(deeper + row for row in rows) + newline + "}"
    if isinstance(value, list) and not _all_numbers(value):
        return "[" + ",".join(deeper + _written(v, deeper) for v in value) + newline + "]"
    return json.dumps(value, ensure_ascii=False, allow_nan=False)


def _all_numbers(values: list[object]) -> bool:
    """Whether a list holds numbers only, or lists of them."""
    return all(
        _all_numbers(v) if isinstance(v, list) else isinstance(v, int | float) for v in values
    )
