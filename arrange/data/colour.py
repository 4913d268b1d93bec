"""Colours: hex and CIE Lab, and how different two of them look (CIEDE2000).

L* runs from 0 (black) to 100, a* from green to red, b* from blue to yellow, under daylight D65.
Light through sRGB: IEC 61966-2-1; Lab: ISO/CIE 11664-4; both from memory. The difference:
G. Sharma, W. Wu, E. Dalal, "The CIEDE2000 color-difference formula", Color Research &
Application 30(1), 2005, equations 2 to 22, with all three weights 1.
"""

from __future__ import annotations

import math
import re

Lab = tuple[float, float, float]
HEX = re.compile(r"#([0-9a-f]{3}|[0-9a-f]{6})", re.IGNORECASE)
# Linear red, green and blue to X, Y and Z. The rows add up to the white of D65.
TO_XYZ = (
    (0.4124, 0.3576, 0.1805),
    (0.2126, 0.7152, 0.0722),
    (0.0193, 0.1192, 0.9505),
)
WHITE = tuple(sum(row) for row in TO_XYZ)
KNEE = 6 / 29  # below it the cube root goes over into a straight line
FAR = 25.0**7
LIGHTEST, WIDEST = 100.0, 128.0  # of L*; of a* and b* either way


def from_rgb(red: float, green: float, blue: float) -> Lab:
    """Lab of an sRGB colour, each part from 0 to 1.

    >>> [round(part, 2) for part in from_rgb(1, 1, 1)]
    [100.0, 0.0, 0.0]
    """
    light = [_linear(part) for part in (red, green, blue)]
    x, y, z = (
        _root(sum(k * part for k, part in zip(row, light, strict=True)) / white)
        for row, white in zip(TO_XYZ, WHITE, strict=True)
    )
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def from_hex(text: str) -> Lab:
    """Lab of "#8a5a33" or "#fa3". ValueError if it is neither.

    >>> from_hex("#fff") == from_rgb(1, 1, 1)
    True
    """
    found = HEX.fullmatch(text.strip())
    if found is None:
        raise ValueError(
            f"{text!r} is not a colour; write # and six characters from 0 to 9 and a to f"
        )
    digits = found[1] if len(found[1]) == 6 else "".join(2 * digit for digit in found[1])
    red, green, blue = (int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4))
    return from_rgb(red, green, blue)


def to_hex(lab: Lab) -> str:
    """The nearest that a screen can show, part by part.

    >>> to_hex(from_hex("#8a5a33"))
    '#8a5a33'
    """
    lightness, a, b = lab
    y = (lightness + 16) / 116
    roots = (y + a / 500, y, y - b / 200)
    xyz = [white * _cube(root) for white, root in zip(WHITE, roots, strict=True)]
    parts = (_coded(part) for part in _solved(xyz))
    return "#" + "".join(f"{round(255 * part):02x}" for part in parts)


def _linear(code: float) -> float:
    return code / 12.92 if code <= 0.04045 else float(((code + 0.055) / 1.055) ** 2.4)


def _coded(light: float) -> float:
    light = min(1.0, max(0.0, light))
    return 12.92 * light if light <= 0.0031308 else float(1.055 * light ** (1 / 2.4) - 0.055)


def _root(ratio: float) -> float:
    return math.cbrt(ratio) if ratio > KNEE**3 else ratio / (3 * KNEE**2) + 4 / 29


def _cube(root: float) -> float:
    return root**3 if root > KNEE else 3 * KNEE**2 * (root - 4 / 29)


def _solved(xyz: list[float]) -> list[float]:
    """Linear red, green and blue of X, Y and Z, by Cramer's rule."""
    whole = _determinant([list(row) for row in TO_XYZ])
    found = []
    for column in range(3):
        rows = [list(row) for row in TO_XYZ]
        for row, value in zip(rows, xyz, strict=True):
            row[column] = value
        found.append(_determinant(rows) / whole)
    return found


def _determinant(rows: list[list[float]]) -> float:
    (a, b, c), (d, e, f), (g, h, i) = rows
    return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g)


def difference(one: Lab, two: Lab) -> float:
    """How different two colours look: 0 for the same, about 1 for what is just seen to differ.

    >>> round(difference((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485)), 4)
    2.0425
    """
    (l1, a1, b1), (l2, a2, b2) = one, two
    # Greys are drawn apart along a*, so that their hues count for less (equations 2 to 7).
    stretch = 1.5 - 0.5 * _high((math.hypot(a1, b1) + math.hypot(a2, b2)) / 2)
    c1, h1 = _polar(a1 * stretch, b1)
    c2, h2 = _polar(a2 * stretch, b2)
    turn, middle = _turn(c1, h1, c2, h2)
    lighter, purer = l2 - l1, c2 - c1
    hue = 2 * math.sqrt(c1 * c2) * math.sin(math.radians(turn) / 2)
    l_mean, c_mean = (l1 + l2) / 2 - 50, (c1 + c2) / 2
    weight_l = 1 + 0.015 * l_mean**2 / math.sqrt(20 + l_mean**2)
    weight_c = 1 + 0.045 * c_mean
    weight_h = 1 + 0.015 * c_mean * _hue_weight(middle)
    swing = 30 * math.exp(-(((middle - 275) / 25) ** 2))
    rotated = -math.sin(math.radians(2 * swing)) * 2 * _high(c_mean)
    terms = lighter / weight_l, purer / weight_c, hue / weight_h
    squares = sum(term**2 for term in terms) + rotated * terms[1] * terms[2]
    return math.sqrt(max(0.0, squares))


def _high(chroma: float) -> float:
    return math.sqrt(chroma**7 / (chroma**7 + FAR))


def _polar(a: float, b: float) -> tuple[float, float]:
    """Chroma, and hue in degrees; the hue of a grey is 0."""
    return math.hypot(a, b), math.degrees(math.atan2(b, a)) % 360 if a or b else 0.0


def _turn(c1: float, h1: float, c2: float, h2: float) -> tuple[float, float]:
    """From one hue to the other the shorter way round, and the hue midway (equations 10, 14)."""
    if not c1 * c2:
        return 0.0, h1 + h2
    turn, total = h2 - h1, h1 + h2
    if abs(turn) <= 180:
        return turn, total / 2
    turn += 360 if turn < 0 else -360
    return turn, (total + 360 if total < 360 else total - 360) / 2


def _hue_weight(hue: float) -> float:
    return (
        1
        - 0.17 * math.cos(math.radians(hue - 30))
        + 0.24 * math.cos(math.radians(2 * hue))
        + 0.32 * math.cos(math.radians(3 * hue + 6))
        - 0.20 * math.cos(math.radians(4 * hue - 63))
    )
