"""Random small rooms that leave open what to have: needs, candidates with sizes and prices."""

from __future__ import annotations

import random
from typing import Any

from arrange.scenario.needs import OpenScenario, read_open_data

# need -> kinds that meet it, with usual widths and depths in cm to vary
MEETS: dict[str, tuple[tuple[str, int, int], ...]] = {
    "a desk": (("desk", 120, 60), ("sewing table", 110, 55), ("standing desk", 120, 70)),
    "somewhere to sit": (("armchair", 80, 80), ("reading chair", 75, 75), ("small sofa", 140, 85)),
    "somewhere for books": (
        ("bookcase", 80, 30),
        ("low bookcase", 100, 30),
        ("sideboard", 140, 42),
    ),
    "a light": (("floor lamp", 35, 35), ("side table", 45, 45)),
    "somewhere to sleep": (("single bed", 90, 200), ("daybed", 200, 90)),
    "clothes": (("wardrobe", 90, 60), ("chest of drawers", 80, 45)),
}
TWICE = {"somewhere to sleep": "somewhere to sit", "somewhere for books": "clothes"}


def open_data(seed: int, needs: int = 4, each: int = 5, *, tagged: bool = False) -> dict[str, Any]:
    """The tables of the file of a seed: so many needs, so many candidates for each.

    Some meet a second need, some are owned and could be sold, some needs may go unmet, and the
    budget is somewhere between the cheapest choice and one of the dearer ones. ``tagged``: half of
    the pieces have tags, and words for the feel count.
    """
    rng = random.Random(seed)  # noqa: S311
    own = random.Random(f"tags {seed}")  # noqa: S311
    names = rng.sample(sorted(MEETS), needs)
    pieces: list[dict[str, Any]] = []
    least = 0
    for need in names:
        prices = []
        for i in range(each):
            piece = _piece(rng, need, f"{need} {i + 1}", names)
            prices.append(0 if piece.get("owned") else piece["price"])
            pieces.append(piece)
        least += min(prices)
    lacking = rng.sample(names, rng.choice([0, 1, 1, 2]))
    for piece in pieces:
        if tagged and own.random() < 0.5:
            piece["tags"] = own.sample(["warm", "soft", "wood"], own.choice([1, 2]))
    return {
        "title": f"open {seed}",
        # Words that change no weight.
        **({"feel": ["warm", "soft", "blue"], "feel_points": own.randint(0, 6)} if tagged else {}),
        "use": rng.choice(["living room", "bedroom", "office"]),
        "room": {"size": [rng.randrange(220, 340, 10), rng.randrange(260, 360, 10)]},
        "door": [{"wall": "C", "from_left": rng.randrange(10, 120, 10), "width": 80}],
        "window": [{"wall": "A", "from_left": rng.randrange(20, 100, 10), "width": 100}],
        "money": {"budget": least + rng.randrange(60, 400, 20), "set_aside": rng.choice([0, 10])},
        "need": [
            {"name": n, **({"may_lack": True, "points": rng.randint(1, 8)} if n in lacking else {})}
            for n in names
        ],
        "piece": pieces,
    }


def _piece(rng: random.Random, need: str, name: str, names: list[str]) -> dict[str, Any]:
    kind, width, depth = rng.choice(MEETS[need])
    piece: dict[str, Any] = {
        "kind": kind,
        "name": f"{kind} for {name}",
        "width": width + rng.randrange(-20, 50, 10) * (width > 50),
        "depth": depth + rng.randrange(-5, 15, 5),
        "meets": need,
    }
    also = TWICE.get(need)
    if also in names and rng.random() < 0.3:
        piece["meets"] = [need, also]
    if rng.random() < 0.2:
        piece["owned"] = True
        if rng.random() < 0.5:
            piece["sells_for"] = rng.randrange(10, 60, 10)
    else:
        piece["price"] = rng.randrange(20, 300, 10) + rng.choice([0, 0.5, 0.99])
        if rng.random() < 0.3:
            piece["delivery"] = rng.choice([15, 29.9])
    return piece


def open_room(seed: int, needs: int = 4, each: int = 5, *, tagged: bool = False) -> OpenScenario:
    """The same, read."""
    return read_open_data(open_data(seed, needs, each, tagged=tagged), f"open {seed}")
