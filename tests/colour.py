"""Colours as people see them: contrast, grey, three kinds of colour blindness, and differences.

Written for the tests alone, but for the difference of two Lab colours, which is checked on all 34
published pairs (test_colours). Colours are #rrggbb.
"""

import numpy as np

from arrange.data.colour import difference as ciede2000

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
