"""Reads one outline out of an SVG file: straight path data (SVG 1.1 and 2), at its scale.

The file may come from anybody. A DOCTYPE, and with it every entity, is refused before
anything is parsed; what is not the path asked for, or where it stands, is passed over.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from xml.etree import ElementTree as ET

from arrange.scenario.outline import OutlineError

DEEPEST = 60  # groups in groups
LONGEST_PATH = 10_000  # characters; forty corners take a tenth
NAMESPACE = "{http://www.w3.org/2000/svg}"
# mm of a unit of CSS, in which the size of a drawing is given; 96 px are an inch.
PAPER = {"mm": 1.0, "cm": 10.0, "q": 0.25, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6}
PAPER |= {"px": 25.4 / 96, "": 25.4 / 96}
NUMBER = r"[-+]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d{1,3})?"
SIZE = re.compile(rf"\s*({NUMBER})\s*(mm|cm|q|in|pt|pc|px|)\s*", re.IGNORECASE)
BOX = re.compile(rf"\s*({NUMBER})(?:\s+|\s*,\s*)" * 3 + rf"({NUMBER})\s*")
COMMAND = re.compile(r"\s*+([A-Za-z])")
FIRST, NEXT = re.compile(rf"\s*+({NUMBER})"), re.compile(rf"\s*+,?\s*+({NUMBER})")
TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "Z": 0}
STRAIGHT = "only straight lines are read: M, L, H, V and Z, in capital or small letters"
CURVED = "draw what is round as a few straight lines"
Points = list[tuple[float, float]]


# -- path data ---------------------------------------------------------------
def corners_in(data: str) -> Points:
    """The corners of a closed line of straight pieces, in the units of the drawing, y down.

    Raises
    ------
    OutlineError
        If it is no path data, has curves, does not close, or has more than one line.

    >>> corners_in("m 1 1 h 2 v 3 H 1 Z")
    [(1.0, 1.0), (3.0, 1.0), (3.0, 4.0), (1.0, 4.0)]
    """
    if len(data) > LONGEST_PATH:
        raise OutlineError(
            f"path data of {len(data)} characters", f"at most {LONGEST_PATH} are read"
        )
    points: Points = []
    closed = False
    for command, numbers in _steps(data):
        if closed or (command in "Mm" and points):
            hint = "a column is a [[fixture]]; a hole in the floor cannot be given"
            raise OutlineError("more than one line in the path", "a room has one outline", hint)
        closed = command in "Zz"
        if not closed:
            points.append(_moved(command, numbers, points[-1] if points else (0.0, 0.0)))
    if len(points) > 1 and points[0] == points[-1]:
        points.pop()
        closed = True
    if not closed:
        raise OutlineError("the path does not close", "it ends with Z, where it began")
    return points


def _moved(command: str, numbers: list[float], at: tuple[float, float]) -> tuple[float, float]:
    """Where a step leads; small letters count from where it begins."""
    x, y = at if command.islower() else (0.0, 0.0)
    if command in "Hh":
        return x + numbers[0], at[1]
    if command in "Vv":
        return at[0], y + numbers[0]
    return x + numbers[0], y + numbers[1]


def _steps(data: str) -> Iterator[tuple[str, list[float]]]:
    """Each step with its numbers; a command that is left out is that before, after M an L."""
    at, command, begins = 0, "", True
    end = len(data.rstrip())
    while at < end:
        found = COMMAND.match(data, at)
        if found is not None:
            command, at = found[1], found.end()
        elif command in ("M", "m"):
            command = "L" if command == "M" else "l"
        wrong = command not in "Mm" if begins else found is None and command in "Zz"
        begins = False
        if wrong or not command:
            raise OutlineError("path data that is not understood", STRAIGHT)
        if command.upper() not in TAKES:
            raise OutlineError(f"{command!r} in the path", STRAIGHT, CURVED)
        numbers: list[float] = []
        for i in range(TAKES[command.upper()]):
            number = (FIRST if found is not None and not i else NEXT).match(data, at)
            if number is None:
                raise OutlineError(f"a number is missing after {command}", STRAIGHT)
            numbers.append(float(number[1]))
            at = number.end()
        yield command, numbers


# -- the file ----------------------------------------------------------------
def outline_in(text: str, name: str, scale: float | None) -> Points:
    """The corners of the path with the id ``name``, y up.

    In mm of the room where the drawing is one to ``scale``; in units of the drawing without.

    Raises
    ------
    OutlineError
        If the text is no SVG, has a DOCTYPE, has no such path or several, the path is moved
        or turned by a transform, or (with a scale) the drawing does not say how large it is.
    """
    if "<!doctype" in text.casefold() or "<!entity" in text.casefold():
        hint = "save it as plain SVG, or delete the line that begins with <!DOCTYPE"
        raise OutlineError("a DOCTYPE or ENTITY in the file", "a drawing is read without", hint)
    finder = _Finder(name)
    try:
        parser = ET.XMLParser(target=finder)  # noqa: S314  no DOCTYPE, so no entities
        parser.feed(text)
        parser.close()
    except OutlineError:
        raise
    except (ET.ParseError, ValueError):
        raise OutlineError("not SVG", "an SVG file is needed", "is it whole?") from None
    if finder.root is None:
        raise OutlineError("not SVG", "a file whose first element is svg is needed")
    if len(finder.paths) != 1:
        what = f"{len(finder.paths) or 'no'} path{'s' * (len(finder.paths) > 1)} there"
        hint = "give one path, or a group of one path, this id"
        raise OutlineError(what, "the id of one path is needed", hint)
    unit = 1.0 if scale is None else scale * _paper(finder.root)
    return [(x * unit, -y * unit) for x, y in corners_in(finder.paths[0])]


class _Finder:
    """Sees the elements of a file go by, and keeps the paths in the element with the id."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.root: Mapping[str, str] | None = None
        self.paths: list[str] = []
        self._open: list[tuple[str, Mapping[str, str]]] = []

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        """An element begins."""
        tag = tag.removeprefix(NAMESPACE)
        if not self._open:
            if tag != "svg":
                raise ValueError(tag)
            self.root = attributes
        self._open.append((tag, attributes))
        if len(self._open) > DEEPEST:
            raise OutlineError(f"groups more than {DEEPEST} deep", "no drawing needs that many")
        if tag == "path" and any(one.get("id") == self.name for _, one in self._open):
            self._check_place()
            self.paths.append(attributes.get("d", ""))

    def end(self, _: str) -> None:
        """An element ends."""
        self._open.pop()

    def close(self) -> None:
        """The file ends."""

    def _check_place(self) -> None:
        """Whether the path lies on the drawing as it is written."""
        moved = any(
            "transform" in one or "transform" in one.get("style", "") for _, one in self._open
        )
        if moved or any(tag in ("svg", "symbol") for tag, _ in self._open[1:]):
            given = "the path, or a group round it, is moved by a transform"
            raise OutlineError(
                given, "a path is read as it is written", "flatten it and save again"
            )


def _paper(root: Mapping[str, str]) -> float:
    """Millimetres of paper for a unit of the drawing."""
    if "viewBox" not in root:
        return PAPER["px"]
    box = BOX.fullmatch(root["viewBox"])
    sizes = [SIZE.fullmatch(root.get(key, "")) for key in ("width", "height")]
    if box is None or None in sizes:
        hint = 'or give unit = "cm" if a unit of the drawing is a centimetre of the room'
        raise OutlineError("a drawing without a size", "its width and height say the scale", hint)
    found = [
        float(size[1]) * PAPER[size[2].casefold()] / float(box[i])
        for i, size in zip((3, 4), sizes, strict=True)
        if size is not None and float(box[i]) > 0
    ]
    if len(found) != 2 or not math.isclose(*found, rel_tol=1e-3) or found[0] <= 0:
        raise OutlineError("a drawing that is stretched", "one scale across and up is needed")
    return found[0]
