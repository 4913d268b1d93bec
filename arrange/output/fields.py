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
import platform
from collections.abc import Callable, Mapping
from dataclasses import MISSING, Field, dataclass, fields, is_dataclass
from decimal import Decimal
from functools import cache, cached_property
from importlib.metadata import version
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
from arrange.data.scenario import Scenario, Unit
from arrange.geometry.scene import Scene

FORMAT = 1
LARGEST = 1e12  # no number in a file is as large
LIBRARIES = ("ortools", "shapely", "numpy", "matplotlib")
Data = dict[str, Any]  # what JSON can say


class Fielded(Protocol):
    """Any dataclass."""

    __dataclass_fields__: ClassVar[dict[str, Field[Any]]]


T = TypeVar("T", bound=Fielded)


@cache
def versions() -> dict[str, str]:
    """The versions that have a say in an answer."""
    found = {name: version(name) for name in ("arrange", *LIBRARIES)}
    return {"arrange": found.pop("arrange"), "python": platform.python_version(), **found}


@dataclass(frozen=True)
class About:
    """What a record speaks of: a scenario, an arrangement of it, the files written beside it.

    Its properties are keys that any record may have.
    """

    scenario: Scenario
    arrangement: Arrangement | None = None
    files: tuple[str, ...] = ()
    format: int = FORMAT

    @property
    def title(self) -> str:
        """The title of the scenario."""
        return self.scenario.title

    @property
    def unit(self) -> Unit:
        """The unit that the person measures in."""
        return self.scenario.unit

    @property
    def room(self) -> Room:
        """The room of the scenario."""
        return self.scenario.room

    @property
    def versions(self) -> dict[str, str]:
        """As ``versions``."""
        return versions()

    @cached_property
    def scene(self) -> Scene:
        """The arrangement, measured. ValueError without one."""
        if self.arrangement is None:
            raise ValueError("a record of an arrangement where there is none")
        return Scene(self.scenario, self.arrangement)


Made = Callable[[T, About], object]  # what is written, of one thing
Reader = Callable[[Mapping[str, Any], About], object]  # a field, of a record


def in_points(tenths: int | None) -> float | None:
    """Tenths of a point as points; None stays None.

    >>> in_points(792)
    79.2
    """
    return None if tenths is None else tenths / 10


def from_points(points: object) -> int:
    """Points as tenths of a point. TypeError if it is no number."""
    return round(_number(points) * 10)


class Record(Generic[T]):
    """How a class stands in a file.

    Parameters
    ----------
    cls
        The dataclass.
    keys
        The keys in the order of the file, spaces between. A key is the field or property
        of that name, else that of ``About``; ``key=name`` is one of another name, and
        ``key=name.name`` lies within it (null where that is None). Fields that are not named
        come after them.
    points, blank
        Keys of tenths that are points in the file, and of texts and numbers that are null
        when empty.
    leave
        Fields that are left out, or that made keys already tell. Reading leaves them at
        their defaults.
    rare
        Fields that are left out where they are at their defaults.
    read
        For fields that are not read as their type says, how they are made of the record.
    only, other
        Whether ``keys`` is all there is; whether this is another record of the class than the
        usual one, written and read by its own name alone.
    alike, made
        For keys that are not written as they stand, what is written: alike in several records,
        and in this one.
    """

    _usual: ClassVar[dict[type, Record[Any]]] = {}  # filled as records are declared

    def __init__(
        self,
        cls: type[T],
        keys: str = "",
        *,
        points: str = "",
        blank: str = "",
        leave: str = "",
        rare: str = "",
        read: Mapping[str, Reader] | None = None,
        only: bool = False,
        other: bool = False,
        alike: Mapping[str, Made[Any]] | None = None,
        **made: Made[T],
    ) -> None:
        self.cls = cls
        self._points, self._blank = points.split(), blank.split()
        self._made, self._read = {**(alike or {}), **made}, dict(read or {})
        own = [f.name for f in fields(cls)]
        pairs = [(key, path or key) for key, _, path in (w.partition("=") for w in keys.split())]
        told = {path.split(".")[0] for _, path in pairs} | set(leave.split()) | set(self._read)
        rest = () if only else ((name, name) for name in own if name not in told)
        self.paths = dict([*pairs, *rest])
        self._rare = {f.name: f.default for f in fields(cls) if f.name in rare.split()}
        self._check(own, leave, rare)
        if not other:
            self._usual[cls] = self

    def _check(self, own: list[str], leave: str, rare: str) -> None:
        """A name that means nothing is a slip of ours, told when the program starts."""
        roots = [path.split(".")[0] for key, path in self.paths.items() if key not in self._made]
        strange = {r for r in roots if r not in own and not hasattr(self.cls, r)}
        strange -= {r for r in strange if hasattr(About, r)}
        strange |= {
            name for name in (*leave.split(), *rare.split(), *self._read) if name not in own
        }
        strange |= {*self._made, *self._points, *self._blank} - set(self.paths)
        if strange:
            raise TypeError(f"{self.cls.__name__} has no {', '.join(sorted(strange))}")

    @classmethod
    def of(cls, kind: type[Fielded]) -> Record[Any]:
        """The usual record of a class, made of its fields alone if none was declared."""
        return cls._usual.get(kind) or Record(kind)

    def write(self, one: T, about: About) -> Data:
        """The record of ``one``."""
        return {
            key: plain(self._value(one, key, path.split("."), about), about)
            for key, path in self.paths.items()
            if key not in self._rare or getattr(one, key) != self._rare[key]
        }

    def _value(self, one: T, key: str, path: list[str], about: About) -> object:
        if key in self._made:
            return self._made[key](one, about)
        value: Any = one if hasattr(one, path[0]) else about
        for name in path:
            value = None if value is None else getattr(value, name)
        if key in self._points:
            return in_points(value)
        return value or None if key in self._blank else value

    def read(self, data: object, about: About) -> T:
        """What a record tells. KeyError, TypeError or ValueError if it does not fit the class."""
        if not isinstance(data, Mapping):
            raise TypeError(f"{data!r} is no record of a {self.cls.__name__}")
        hints = get_type_hints(self.cls)
        keys = {path: key for key, path in self.paths.items()}
        found: dict[str, object] = {}
        for field in fields(self.cls):
            key = keys.get(field.name)
            optional = field.default is not MISSING or field.default_factory is not MISSING
            if field.name in self._read:
                found[field.name] = self._read[field.name](data, about)
            elif key in data or (key is not None and not optional):
                found[field.name] = self._field(key, data[key], hints[field.name], about)
        return self.cls(**found)

    def _field(self, key: str | None, value: object, hint: Any, about: About) -> object:  # noqa: ANN401
        if key in self._points and value is not None:
            return from_points(value)
        return read_as(hint, "" if value is None and key in self._blank else value, about)


def plain(value: object, about: About) -> object:
    """A value as JSON can say it: records, lists, numbers and texts."""
    if value is None or isinstance(value, str | int | float):
        return value
    if isinstance(value, Decimal):  # money, by its digits: a float of so few writes the same
        return int(value) if value == int(value) else float(value)
    if is_dataclass(value) and not isinstance(value, type):
        return Record.of(type(value)).write(value, about)
    if isinstance(value, Mapping):
        return {key: plain(one, about) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [plain(one, about) for one in value]
    raise TypeError(f"{value!r} is nothing that a file can hold")


def read_as(hint: Any, value: object, about: About) -> Any:  # noqa: ANN401  as the annotation says
    """``value`` as the annotation of a field wants it. TypeError or ValueError if it is not.

    Whole numbers may be written with a decimal point; no number may be infinite, or none at all.
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
    if hint is Decimal:
        return Decimal(str(_number(value))).quantize(Decimal("0.01"))
    if hint is int:
        found = _number(value)
        if found != int(found):
            raise ValueError(f"{value!r} is no whole number")
        return int(found)
    if not isinstance(value, hint):
        raise TypeError(f"{value!r} is no {hint.__name__}")
    return value


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise TypeError(f"{value!r} is no number")
    if not -LARGEST < value < LARGEST:  # what is no number at all is not between them either
        raise ValueError("a number far too large")
    return value


def as_text(data: Mapping[str, object]) -> str:
    r"""Data as JSON text: two spaces a level, lists of numbers on one line, a newline at the end.

    What cannot be seen in a text (control characters, marks that turn the direction of
    writing) is written as its escape, because JSON is also printed to terminals.

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
            f"{_seen(json.dumps(k, ensure_ascii=False))}: {_written(v, deeper)}"
            for k, v in value.items()
        ]
        return "{" + ",".join(deeper + row for row in rows) + newline + "}"
    if isinstance(value, list) and not _all_numbers(value):
        return "[" + ",".join(deeper + _written(v, deeper) for v in value) + newline + "]"
    return _seen(json.dumps(value, ensure_ascii=False, allow_nan=False))


def _seen(written: str) -> str:
    if written.isprintable():
        return written
    return "".join(c if c.isprintable() else json.dumps(c)[1:-1] for c in written)


def _all_numbers(values: list[object]) -> bool:
    """Whether a list holds numbers only, or lists of them."""
    return all(
        _all_numbers(v) if isinstance(v, list) else isinstance(v, int | float) for v in values
    )
