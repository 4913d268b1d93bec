"""Ladders and largest sizes in plain words."""

from __future__ import annotations

from arrange.data.lengths import length, listed, points
from arrange.data.scenario import Scenario, Unit
from arrange.data.sizes import Ladder, Largest, Rung

ADJECTIVE = {"width": "wide", "depth": "deep", "height": "high"}
WORKS = {"works": "yes", "impossible": "impossible", "not decided": "not decided"}
COMFORTABLE = {"works": "yes", "impossible": "no", "not decided": "not decided"}


def outside(rung: Rung, unit: Unit) -> str:
    """Width and depth of the piece in that size."""
    return f"{length(rung.size.piece.width, unit)} x {length(rung.size.piece.depth, unit)}"


def ladder_words(ladder: Ladder) -> list[str]:
    """The answer in a few sentences: the largest, the largest comfortable, the fall."""
    told = [
        _largest_words(ladder),
        _smaller_words(ladder),
        _comfortable_words(ladder),
        _fall_words(ladder),
    ]
    if ladder.interrupted:
        told.insert(0, "Stopped when you asked.")
    return [text for text in told if text]


def meaning(ladder: Ladder) -> str:
    """What "comfortably" means here."""
    return (
        f"Comfortably: all the floor beside {ladder.piece} is as deep as is comfortable, not only "
        "the least; other pieces may be down to their least"
    )


def scale_words(ladder: Ladder) -> str:
    """Which scores cannot be compared; empty if all can."""
    groups: dict[int, list[str]] = {}
    for rung in ladder.rungs:
        groups.setdefault(rung.scale, []).append(rung.size.label)
    if len(groups) < 2:
        return ""
    told = "; ".join(listed(labels) for labels in groups.values())
    return f"Scores can be compared only among sizes with the same points to earn: {told}"


def _largest_words(ladder: Ladder) -> str:
    best, unit = ladder.largest, ladder.scenario.unit
    if best is None:
        if not ladder.undecided:
            return f"{ladder.piece}: none of these sizes works, each is proven impossible."
        named = listed([r.size.label for r in ladder.undecided])
        return f"{ladder.piece}: none is known to work; not decided in the time: {named}."
    above = ladder.rungs[ladder.rungs.index(best) + 1 :]
    size = outside(best, unit)
    said = best.size.label if best.size.label in size else f"{best.size.label} ({size} outside)"
    undecided = [r.size.label for r in above if r.works == "not decided"]
    if undecided:
        known = f"{ladder.piece}: the largest known to work is {said}"
        return f"{known}; not decided in the time: {listed(undecided)}."
    text = f"{ladder.piece}: the largest that works is {said}"
    if not above:
        return f"{text}, the largest of all."
    return f"{text}; larger ones do not, proven."


def _smaller_words(ladder: Ladder) -> str:
    """Sizes that do not work though a larger one does: nobody expects that."""
    best = ladder.largest
    below = ladder.rungs[: ladder.rungs.index(best)] if best is not None else ()
    named = [r.size.label for r in below if r.works == "impossible"]
    if not named:
        return ""
    does = "does" if len(named) == 1 else "do"
    return (
        f"Though larger ones work, {listed(named)} {does} not, proven: keep such a size with "
        "--write, and arrange why says what clashes."
    )


def _comfortable_words(ladder: Ladder) -> str:
    best = ladder.largest_comfortable
    open_ = [r.size.label for r in ladder.rungs if r.comfortable == "not decided"]
    if best is None:
        if ladder.largest is None:
            return ""
        return "None is known to work comfortably." if open_ else "None works comfortably, proven."
    above = [r.size.label for r in ladder.rungs[ladder.rungs.index(best) + 1 :]]
    unsure = [label for label in open_ if label in above]
    text = f"The largest that works comfortably is {best.size.label}"
    return f"{text} (not decided: {listed(unsure)})." if unsure else f"{text}."


def _fall_words(ladder: Ladder) -> str:
    fall = ladder.fall
    if fall is None:
        return ""
    before, after = fall.before, fall.after
    sizes = f"{before.size.label} to {after.size.label}"
    if not fall.sure:
        return f"The score falls from {sizes} by at least {points(fall.loss)} points."
    scores = f"{points(before.score or 0)} to {points(after.score or 0)}"
    return f"The score falls off most from {sizes}: by {points(fall.loss)} points, {scores}."


def largest_words(found: Largest, scenario: Scenario) -> str:
    """The answer in one sentence, with what is proven and what is not."""
    unit, how = scenario.unit, ADJECTIVE[found.dimension]
    stopped = "Stopped when you asked. " if found.interrupted else ""
    name = found.piece
    if found.answer == "impossible":
        return f"No {found.dimension} of {name} works, proven."
    if found.size is None:
        return (
            f"{stopped}{name}: no {found.dimension} was found that works, in the time. That does "
            "not mean that none does: allow more time with --time."
        )
    size = length(found.size, unit)
    if found.answer == "exact" and found.next is not None:
        return (
            f"{name} can be {size} {how} and no more, proven: with {length(found.next, unit)} "
            "nothing works."
        )
    low, high = (length(mm, unit) for mm in found.undecided or (0, 0))
    span = low if low == high else f"{low} to {high}"
    return (
        f"{stopped}{name} can be {size} {how} at least. Not decided in the time: {span}; more than "
        "that is impossible, proven."
    )
