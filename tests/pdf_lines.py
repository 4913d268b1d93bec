"""Reads the lines of a PDF back: pages, their sizes, and every path that is painted. For tests.

A content stream is compressed text: numbers, then what to do with them (ISO 32000-1, 8.5).
Lengths are given out in mm of paper from the lower left corner; a point is 1/72 in.
"""

import re
import zlib
from dataclasses import dataclass, field
from pathlib import Path

MM = 25.4 / 72
TOKEN = re.compile(rb"\[[^\]]*\]|\((?:\\.|[^\\)])*\)|<[^>]*>|/[^\s/\[\]()<>]+|[^\s\[\]()<>/]+")
PAINT = {b"S", b"s", b"f", b"f*", b"B", b"B*", b"b", b"b*"}


@dataclass(frozen=True)
class Line:
    """One painted path: its points, its colours (None where not painted), its dashes, its clip."""

    points: tuple
    stroke: str | None
    fill: str | None
    dashed: bool
    clip: tuple | None

    @property
    def bounds(self):
        """Left, low, right, high."""
        xs, ys = zip(*self.points, strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def size(self):
        """Width and height."""
        x0, y0, x1, y1 = self.bounds
        return x1 - x0, y1 - y0


@dataclass
class Sheet:
    """A page: width, height and what is painted on it, in order."""

    width: float
    height: float
    lines: list = field(default_factory=list)

    def filled(self, colour):
        """What is painted in that colour, as #rrggbb."""
        return [line for line in self.lines if line.fill == colour]

    def stroked(self, colour):
        """What is drawn as lines of that colour."""
        return [line for line in self.lines if line.stroke == colour]


class Objects:
    """The numbered objects of a file, found by its table of places."""

    def __init__(self, data):
        self.data = data
        table = data[int(re.findall(rb"startxref\s+(\d+)", data)[-1]) :]
        head = re.match(rb"xref\s+0 (\d+)\s+", table)
        rows = table[head.end() :].splitlines()[: int(head[1])]
        self.places = [int(row.split()[0]) for row in rows]
        self.root = int(re.search(rb"/Root (\d+) 0 R", table)[1])

    def text(self, number):
        """An object's dictionary, or what it is."""
        rest = self.data[self.places[number] :]
        return re.match(rb"\d+ 0 obj\s(.*?)\s(?:stream\r?\n|endobj)", rest, re.DOTALL)[1]

    def refs(self, number, key):
        """The objects that are named under a key: one, or a list."""
        told = re.search(rb"/" + key + rb" (\[.*?\]|\d+ 0 R)", self.text(number), re.DOTALL)[1]
        return [int(n) for n in re.findall(rb"(\d+) 0 R", told)]

    def stream(self, number):
        """What an object holds, unpacked."""
        text = self.text(number)
        start = self.data.index(b"stream", self.places[number]) + len(b"stream")
        start += 2 if self.data[start : start + 2] == b"\r\n" else 1
        (length,) = [int(self.text(n)) for n in self.refs(number, b"Length")]
        packed = self.data[start : start + length]
        return zlib.decompress(packed) if b"FlateDecode" in text else packed


def sheets(path):
    """Every page of the file at ``path``."""
    objects = Objects(Path(path).read_bytes())
    (tree,) = objects.refs(objects.root, b"Pages")
    found = []
    for number in objects.refs(tree, b"Kids"):
        box = re.search(rb"/MediaBox \[\s*(.*?)\s*\]", objects.text(number))[1].split()
        x0, y0, x1, y1 = (float(n) * MM for n in box)
        assert (x0, y0) == (0, 0)
        lines = []
        for content in objects.refs(number, b"Contents"):
            lines += painted(objects.stream(content))
        found.append(Sheet(x1, y1, lines))
    return found


def colour(numbers):
    """Red, green and blue, or grey, as #rrggbb."""
    parts = numbers if len(numbers) == 3 else numbers * 3
    return "#" + "".join(f"{round(255 * part):02x}" for part in parts)


NUMBER = re.compile(rb"[-+]?\d*\.?\d+")
STROKES = {b"S", b"s", b"B", b"B*", b"b", b"b*"}


class Pen:
    """Follows a content stream, and notes what it paints."""

    def __init__(self):
        self.stroke = self.fill = "#000000"
        self.dashed, self.clip, self.at = False, None, (1, 0, 0, 1, 0, 0)
        self.saved, self.points, self.found, self.clipping = [], [], [], False
        self.does = {
            b"q": lambda: self.saved.append(
                (self.stroke, self.fill, self.dashed, self.clip, self.at)
            ),
            b"Q": self.back,
            b"cm": self.move,
            **dict.fromkeys((b"m", b"l", b"c", b"v", b"y"), self.go),
            b"re": self.rectangle,
            **dict.fromkeys((b"RG", b"G"), lambda *to: setattr(self, "stroke", colour(to))),
            **dict.fromkeys((b"rg", b"g"), lambda *to: setattr(self, "fill", colour(to))),
            b"d": lambda dashes, _: setattr(self, "dashed", bool(dashes.strip(b"[] "))),
            **dict.fromkeys((b"W", b"W*"), lambda: setattr(self, "clipping", True)),
        }

    def keep(self):
        """All as it is, to come back to."""
        self.saved.append((self.stroke, self.fill, self.dashed, self.clip, self.at))

    def back(self):
        """All as it was kept."""
        self.stroke, self.fill, self.dashed, self.clip, self.at = self.saved.pop()

    def move(self, a, b, c, d, e, f):
        """Another origin and other axes, told in the ones so far."""
        p, q, r, s, t, u = self.at
        turned = (a * p + b * r, a * q + b * s, c * p + d * r, c * q + d * s)
        self.at = (*turned, e * p + f * r + t, e * q + f * s + u)

    def go(self, *numbers):
        """On to a point; a curve by its points of control."""
        a, b, c, d, e, f = self.at
        for x, y in zip(numbers[::2], numbers[1::2], strict=True):
            self.points.append(((a * x + c * y + e) * MM, (b * x + d * y + f) * MM))

    def rectangle(self, x, y, w, h):
        """Round a rectangle."""
        self.go(x, y, x + w, y, x + w, y + h, x, y + h)

    def end(self, how):
        """The path is painted, or what is painted later is clipped by it."""
        points = tuple(self.points)
        if self.clipping and points:
            xs, ys = zip(*points, strict=True)
            self.clip = (min(xs), min(ys), max(xs), max(ys))
        elif how in PAINT and points:
            stroke = self.stroke if how in STROKES else None
            fill = self.fill if how not in (b"S", b"s") else None
            self.found.append(Line(points, stroke, fill, self.dashed, self.clip))
        self.points, self.clipping = [], False


def painted(stream):
    """The paths that a content stream paints."""
    pen, given = Pen(), []
    for token in TOKEN.findall(stream):
        if NUMBER.fullmatch(token):
            given.append(float(token))
        elif token.startswith((b"[", b"(", b"<", b"/")):
            given.append(token)
        else:
            if token in PAINT or token == b"n":
                pen.end(token)
            elif token in pen.does:
                pen.does[token](*given)
            given = []
    return pen.found
