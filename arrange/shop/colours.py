"""What colours there are, and how each sits with the piece that leads.

The main colours of a photo are found by clustering its pixels in Lab, always the same for the
same photo. Every swatch is then ranked by its CIEDE2000 difference from the nearest colour of the
lead: what comes first takes up a colour that is there, what comes last stands out from it. Which
of them is right is for the eye. Paint is ranked last, because it is decided last.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from arrange.data.colour import Lab, difference, from_rgb, to_hex
from arrange.data.scheme import Of, Photo, Scheme, Swatch
from arrange.scenario.photo import pixels

Numbers = npt.NDArray[np.float64]
SAMPLED = 90  # pixels along each side of a photo that are looked at
MOST = 8  # clusters to begin with
STARTS, ROUNDS = 4, 40
ALIKE = 9.0  # clusters that differ less are one colour to the eye; our own judgement
LEAST_SHARE = 0.03  # of the photo, to be one of its main colours
TOLD = 5  # main colours at most
POINT = 0.04  # of the shorter side: half of the square that is looked at where one points
OPAQUE = 128


@dataclass(frozen=True, slots=True)
class MainColour:
    """One of the main colours of a photo, and its share of it, 0 to 1."""

    lab: Lab
    share: float


@dataclass(frozen=True, slots=True)
class Seen:
    """A swatch with its colour. ``chosen``: it is in the plan, or no piece at all.

    ``difference`` is that from the colour ``beside`` of the lead; None of the lead itself, and
    where nothing leads.
    """

    swatch: Swatch
    lab: Lab
    chosen: bool
    difference: float | None = None
    beside: Lab | None = None

    @property
    def hex(self) -> str:
        """As a screen shows it."""
        return to_hex(self.lab)


@dataclass(frozen=True, slots=True)
class Colours:
    """All colours of a file: ``lead`` with its main ones, then the others, ranked.

    ``lead`` is None where no piece leads, or the one that would is not in the plan.
    """

    lead: Seen | None
    main: tuple[Lab, ...]
    ranked: tuple[Seen, ...]

    def of(self, what: Of, *, chosen: bool = True) -> tuple[Seen, ...]:
        """Those of one sort, in the plan or not."""
        return tuple(s for s in self.ranked if s.swatch.of == what and s.chosen == chosen)


def ranked(scheme: Scheme, there: Sequence[str]) -> Colours:
    """Every coloured swatch, by how it sits with the lead.

    ``there`` are the pieces of the plan, by what all alike ones are called by. Without a lead
    the order is that of the file. ScenarioError for a photo that cannot be read.
    """
    named = set(there)
    seen = [
        Seen(swatch, colour_of(swatch), swatch.of != "piece" or swatch.name in named)
        for swatch in scheme.swatches
        if swatch.coloured
    ]
    lead = next((s for s in seen if s.swatch.name == scheme.lead and s.chosen), None)
    if lead is None:
        return Colours(None, (), tuple(seen))
    main = _main_of(lead)
    rest = [_beside(one, main) for one in seen if one is not lead]
    order = ("piece", "textile", "paint")
    rest.sort(key=lambda s: (order.index(s.swatch.of), not s.chosen, s.difference, s.swatch.name))
    return Colours(lead, main, tuple(rest))


def _main_of(lead: Seen) -> tuple[Lab, ...]:
    """The colours that a lead has: all main ones of its photo, where it does not point at one."""
    photo = lead.swatch.photo
    if lead.swatch.lab is not None or photo is None or photo.at is not None:
        return (lead.lab,)
    return tuple(main.lab for main in main_colours(photo))


def _beside(one: Seen, main: Sequence[Lab]) -> Seen:
    nearest = min(main, key=lambda lab: difference(one.lab, lab))
    return Seen(one.swatch, one.lab, one.chosen, difference(one.lab, nearest), nearest)


def colour_of(swatch: Swatch) -> Lab:
    """The colour of a swatch; of a photo what it shows most of, or what is pointed at.

    ValueError if nothing says its colour.
    """
    if swatch.lab is not None:
        return swatch.lab
    if swatch.photo is None:
        raise ValueError(f"{swatch.name} has no colour")
    return main_colours(swatch.photo)[0].lab


def main_colours(photo: Photo) -> tuple[MainColour, ...]:
    """The main colours of a photo, or of the place pointed at, the largest share first.

    ScenarioError if the photo cannot be read; it has at least one colour.
    """
    image = pixels(photo.file)
    if photo.at is not None:
        image = _pointed(image, photo.at)
    rows, columns = (np.unique(np.linspace(0, n - 1, SAMPLED).round().astype(int))
                     for n in image.shape[:2])  # fmt: skip
    sample = image[np.ix_(rows, columns)].reshape(-1, 4)
    if (sample[:, 3] >= OPAQUE).any():
        sample = sample[sample[:, 3] >= OPAQUE]
    rgb, counts = np.unique(sample[:, :3], axis=0, return_counts=True)
    lab = np.array([from_rgb(*(code / 255 for code in map(int, row))) for row in rgb])
    return _told(*_clusters(lab, counts.astype(np.float64)))


def _pointed(image: npt.NDArray[np.uint8], at: tuple[float, float]) -> npt.NDArray[np.uint8]:
    high, wide = image.shape[:2]
    half = max(1, round(POINT * min(high, wide)))
    x, y = round(at[0] * (wide - 1)), round(at[1] * (high - 1))
    return image[max(0, y - half) : y + half + 1, max(0, x - half) : x + half + 1]


def _clusters(lab: Numbers, weight: Numbers) -> tuple[Numbers, Numbers]:
    """Middles and weights of clusters: k-means, the tightest of a few starts from fixed seeds."""
    best: tuple[float, Numbers, Numbers] | None = None
    for seed in range(STARTS):
        middles = _start(lab, weight, np.random.default_rng(seed))
        for _ in range(ROUNDS):
            nearest = _squares(lab, middles).argmin(axis=1)
            moved = np.array(
                [
                    np.average(lab[nearest == i], axis=0, weights=weight[nearest == i])
                    if (nearest == i).any()
                    else middle
                    for i, middle in enumerate(middles)
                ]
            )
            if np.array_equal(moved, middles):
                break
            middles = moved
        squares = _squares(lab, middles)
        nearest = squares.argmin(axis=1)
        spread = float((squares.min(axis=1) * weight).sum())
        weights = np.bincount(nearest, weights=weight, minlength=len(middles)).astype(np.float64)
        if best is None or spread < best[0]:
            best = spread, middles, weights
    if best is None:
        raise AssertionError("there is at least one start")
    return best[1], best[2]


def _start(lab: Numbers, weight: Numbers, random: np.random.Generator) -> Numbers:
    """First middles: each the likelier the farther it is from those before it (k-means++)."""
    middles = [lab[random.choice(len(lab), p=weight / weight.sum())]]
    while len(middles) < min(MOST, len(lab)):
        far = _squares(lab, np.array(middles)).min(axis=1) * weight
        if not far.sum() > 0:
            break
        middles.append(lab[random.choice(len(lab), p=far / far.sum())])
    return np.array(middles)


def _squares(lab: Numbers, middles: Numbers) -> Numbers:
    return np.asarray(((lab[:, None, :] - middles[None, :, :]) ** 2).sum(axis=2))


def _told(middles: Numbers, weights: Numbers) -> tuple[MainColour, ...]:
    """Clusters that look alike as one, the small ones left out, the largest first."""
    groups = [(_lab(m), float(w)) for m, w in zip(middles, weights, strict=True) if w > 0]
    while len(groups) > 1:
        pairs = [(i, j) for j in range(len(groups)) for i in range(j)]
        i, j = min(pairs, key=lambda p: difference(groups[p[0]][0], groups[p[1]][0]))
        (one, a), (two, b) = groups[i], groups[j]
        if difference(one, two) >= ALIKE:
            break
        mean = np.average(np.array((one, two)), axis=0, weights=(a, b))
        groups = [g for k, g in enumerate(groups) if k not in (i, j)] + [(_lab(mean), a + b)]
    whole = sum(weight for _, weight in groups)
    groups.sort(key=lambda group: (-group[1], group[0]))
    found = [MainColour(lab, weight / whole) for lab, weight in groups]
    large = [one for one in found if one.share >= LEAST_SHARE]
    return tuple((large or found)[:TOLD])


def _lab(values: Numbers) -> Lab:
    lightness, a, b = (float(value) for value in values)
    return lightness, a, b
