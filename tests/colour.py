"""Colours as people see them: contrast, grey, three kinds of colour blindness, and differences.

Written for the tests alone; nothing of the program is used. Colours are #rrggbb.
"""

import numpy as np

# Linear RGB to what somebody sees who lacks one kind of cone. From memory: G. Machado, M. Oliveira,
# L. Fernandes, "A physiologically-based model for simulation of color vision deficiency", 2009,
# severity 1.0; and F. Viénot, H. Brettel, J. Mollon, "Digital video colourmaps for checking the
# legibility of displays by dichromats", 1999, as worked out for the primaries of sRGB.
SEEN = {
    "protan, Machado": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deutan, Machado": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritan, Machado": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
    "protan, Viénot": (
        (0.11238, 0.88762, 0.0),
        (0.11238, 0.88762, 0.0),
        (0.00401, -0.00401, 1.0),
    ),
    "deutan, Viénot": (
        (0.29275, 0.70725, 0.0),
        (0.29275, 0.70725, 0.0),
        (-0.02234, 0.02234, 1.0),
    ),
}
# IEC 61966-2-1 (sRGB): linear RGB to XYZ under D65; from memory.
TO_XYZ = np.array(
    (
        (0.4124, 0.3576, 0.1805),
        (0.2126, 0.7152, 0.0722),
        (0.0193, 0.1192, 0.9505),
    )
)


def linear(colour):
    """Linear RGB, 0 to 1 (IEC 61966-2-1, from memory)."""
    code = np.array([int(colour[i : i + 2], 16) for i in (1, 3, 5)]) / 255
    return np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4)


def luminance(rgb):
    """Relative luminance of linear RGB (WCAG 2.2, from memory)."""
    return float(TO_XYZ[1] @ rgb)


def contrast(one, two):
    """The contrast ratio of two colours, 1 to 21 (WCAG 2.2, from memory)."""
    low, high = sorted(luminance(linear(colour)) for colour in (one, two))
    return (high + 0.05) / (low + 0.05)


def lab(rgb):
    """CIE L*, a*, b* of linear RGB, the white of the paper as the reference."""
    ratio = (TO_XYZ @ rgb) / TO_XYZ.sum(axis=1)
    x, y, z = np.where(ratio > (6 / 29) ** 3, np.cbrt(ratio), ratio / (3 * (6 / 29) ** 2) + 4 / 29)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def ways_to_see(colour):
    """L*, a*, b* of a colour for everybody: as it is, printed grey, and with each blindness."""
    rgb = linear(colour)
    seen = {"full": rgb, "grey": np.full(3, luminance(rgb))}
    seen |= {name: np.clip(np.array(rows) @ rgb, 0, 1) for name, rows in SEEN.items()}
    return {name: lab(value) for name, value in seen.items()}


def least_difference(one, two):
    """The least difference of two colours over all ways to see them, and which way that is."""
    first, second = ways_to_see(one), ways_to_see(two)
    return min((ciede2000(first[name], second[name]), name) for name in first)


def ciede2000(one, two):
    """The difference of two Lab colours: G. Sharma, W. Wu, E. Dalal, 2005, equations 2 to 22."""
    (l1, a1, b1), (l2, a2, b2) = one, two
    mean = (np.hypot(a1, b1) + np.hypot(a2, b2)) / 2
    more = 1.5 - np.sqrt(mean**7 / (mean**7 + 25.0**7)) / 2
    c1, c2 = np.hypot(a1 * more, b1), np.hypot(a2 * more, b2)
    h1, h2 = (
        np.degrees(np.arctan2(b, a * more)) % 360 if a or b else 0.0
        for a, b in ((a1, b1), (a2, b2))
    )
    turn = (h2 - h1 + 180) % 360 - 180 if c1 * c2 else 0.0
    if c1 * c2 and h2 - h1 == 180:
        turn = 180.0
    lightness, chroma = l2 - l1, c2 - c1
    hue = 2 * np.sqrt(c1 * c2) * np.sin(np.radians(turn / 2))
    l_mean, c_mean = (l1 + l2) / 2, (c1 + c2) / 2
    h_mean = h1 + h2 if not c1 * c2 else (h1 + h2) / 2
    if c1 * c2 and abs(h1 - h2) > 180:
        h_mean += 180 if h1 + h2 < 360 else -180
    t = (
        1
        - 0.17 * np.cos(np.radians(h_mean - 30))
        + 0.24 * np.cos(np.radians(2 * h_mean))
        + 0.32 * np.cos(np.radians(3 * h_mean + 6))
        - 0.20 * np.cos(np.radians(4 * h_mean - 63))
    )
    s_l = 1 + 0.015 * (l_mean - 50) ** 2 / np.sqrt(20 + (l_mean - 50) ** 2)
    s_c, s_h = 1 + 0.045 * c_mean, 1 + 0.015 * c_mean * t
    swing = 30 * np.exp(-(((h_mean - 275) / 25) ** 2))
    turned = -2 * np.sqrt(c_mean**7 / (c_mean**7 + 25.0**7)) * np.sin(np.radians(2 * swing))
    a, b, c = lightness / s_l, chroma / s_c, hue / s_h
    return float(np.sqrt(a**2 + b**2 + c**2 + turned * b * c))
