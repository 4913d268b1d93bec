"""Ladders and largest sizes in words: the answers in sentences, and the texts for a terminal."""

from __future__ import annotations

from pathlib import Path

from arrange.data.lengths import length, listed, points, sized, the
from arrange.data.scenario import Scenario, Unit
from arrange.data.sizes import REGIONS, Ladder, Largest, Rung, usual_region
from arrange.words.reasons import where_words, wrapped

ADJECTIVE = {"width": "wide", "depth": "deep", "height": "high"}
WORKS = {"works": "yes", "impossible": "impossible", "not decided": "not decided"}
COMFORTABLE = {"works": "yes", "impossible": "no", "not decided": "not decided"}


def outside(rung: Rung, unit: Unit) -> str:
    """Width and depth of the piece in that size."""
    return sized((rung.size.piece.width, rung.size.piece.depth), unit)


def ladder_words(ladder: Ladder) -> list[str]:
    """The answer in a few sentences: the largest, the largest comfortable, the fall."""
    told = [
        _with_ties(_largest_words(ladder), ladder.scenario),
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
        f"Comfortably: all the floor you need beside {the(ladder.piece)} is comfortable space, not "
        "just the minimum; other pieces may be down to their minimum"
    )


def scale_words(ladder: Ladder) -> str:
    """Which scores cannot be compared; empty if all can."""
    groups: dict[int, list[str]] = {}
    for rung in ladder.rungs:
        groups.setdefault(rung.scale, []).append(rung.size.label)
    if len(groups) < 2:
        return ""
    told = "; ".join(listed(labels) for labels in groups.values())
    return f"Compare scores only among sizes that can earn the same points: {told}"


def _largest_words(ladder: Ladder) -> str:
    best, unit = ladder.largest, ladder.scenario.unit
    if best is None:
        if not ladder.undecided:
            return f"None of these sizes works for {the(ladder.piece)}; each is proven impossible."
        named = listed([r.size.label for r in ladder.undecided])
        return (
            f"No size is known to work for {the(ladder.piece)}; not decided in the time: {named}."
        )
    above = ladder.rungs[ladder.rungs.index(best) + 1 :]
    size = outside(best, unit)
    said = best.size.label if best.size.label in size else f"{best.size.label} ({size} in all)"
    undecided = [r.size.label for r in above if r.works == "not decided"]
    if undecided:
        known = f"The largest size known to work for {the(ladder.piece)} is {said}"
        return f"{known}; not decided in the time: {listed(undecided)}."
    text = f"The largest size that works for {the(ladder.piece)} is {said}"
    if not above:
        return f"{text}, the largest we tried."
    return f"{text}; larger ones do not (proven)."


def _smaller_words(ladder: Ladder) -> str:
    """Sizes that do not work though a larger one does: nobody expects that."""
    best = ladder.largest
    below = ladder.rungs[: ladder.rungs.index(best)] if best is not None else ()
    named = [r.size.label for r in below if r.works == "impossible"]
    if not named:
        return ""
    does = "does" if len(named) == 1 else "do"
    return (
        f"Though larger ones work, {listed(named)} {does} not (proven): write such a size to a "
        "file with --write, and arrange why tells what clashes."
    )


def _comfortable_words(ladder: Ladder) -> str:
    best = ladder.largest_comfortable
    open_ = [r.size.label for r in ladder.rungs if r.comfortable == "not decided"]
    if best is None:
        if ladder.largest is None:
            return ""
        return "None is known to work comfortably." if open_ else "None works comfortably (proven)."
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
        return f"The score falls by at least {points(fall.loss)} points from {sizes}."
    scores = f"{points(before.score or 0)} to {points(after.score or 0)}"
    return f"The score falls most from {sizes}: by {points(fall.loss)} points, from {scores}."


def largest_words(found: Largest, scenario: Scenario) -> str:
    """The answer, with what is proven and what is not, and the usual ties that it keeps."""
    return _with_ties(_answer_words(found, scenario), scenario)


def _with_ties(told: str, scenario: Scenario) -> str:
    """What is told; if it is proven, also the usual ties on which that rests."""
    kept = [scenario.piece(name) for name in scenario.usual_ties]
    if not kept or "proven" not in told:
        return told
    beside = [
        f"{listed([the(p.name) for p in kept if p.anchor == host])} beside {the(host)}"
        for host in dict.fromkeys(p.anchor for p in kept)
        if host is not None
    ]
    they = "it" if len(kept) == 1 else "they"
    usual = f"That is with {listed(beside)}, as is usual: if {they} may stand apart, more may work."
    return f"{told} {usual}"


def _answer_words(found: Largest, scenario: Scenario) -> str:
    unit, how = scenario.unit, ADJECTIVE[found.dimension]
    stopped = "Stopped when you asked. " if found.interrupted else ""
    name = found.piece
    if found.answer == "impossible":
        return f"No {found.dimension} of {the(name)} works (proven)."
    if found.size is None:
        return (
            f"{stopped}We found no {found.dimension} of {the(name)} that works in the time. That "
            "does not mean that none does: allow more time with --time."
        )
    size = length(found.size, unit)
    if found.answer == "exact" and found.next is not None:
        return (
            f"{the(name, first=True)} can be {size} {how} and no more: with "
            f"{length(found.next, unit)} nothing works (proven)."
        )
    if found.undecided is None:
        return f"{stopped}{the(name, first=True)} can be {size} {how}, the largest size we tried."
    low, high = (length(mm, unit) for mm in found.undecided)
    span = low if low == high else f"{low} to {high}"
    return (
        f"{stopped}{the(name, first=True)} can be {size} {how} at least. Not decided in the time: "
        f"{span}; more than that is impossible (proven)."
    )


def region_words(region: str | None, scenario: Scenario) -> str:
    """Which mattresses were taken, and how to ask for others."""
    taken = REGIONS[region or usual_region(scenario.unit)]
    others = listed([r for r in REGIONS if REGIONS[r] != taken], "or")
    why = "as asked" if region else f"because your file is in {scenario.unit}"
    return f"{taken} mattress sizes, {why}; --region {others} takes others"


def words_of_ladder(
    ladder: Ladder, region: str | None, folder: Path, files: tuple[str, ...]
) -> str:
    """The text for a terminal: the answer, a row a size, what the words mean, the notes."""
    parts = [ladder.scenario.title, "", *map(wrapped, ladder_words(ladder)), ""]
    parts += [*_table(ladder), "", wrapped(f"{meaning(ladder)}.")]
    notes = [scales] if (scales := scale_words(ladder)) else []
    if "mattress sizes" in ladder.table.title:
        notes.append(region_words(region, ladder.scenario))
    parts += [wrapped(f"Note: {note}.") for note in (*notes, *ladder.table.notes)]
    return "\n".join([*parts, *where_words(folder, files)])


def _table(ladder: Ladder) -> list[str]:
    """One line a size: what it is outside, whether it works, comfortably, its best score."""
    head = ("size", "in all", "works", "comfortably", "best score", "others comfortable")
    rows = [head]
    for rung in ladder.rungs:
        scored = rung.verdict is not None
        others = f"{rung.others[0]} of {rung.others[1]}" if scored else "-"
        rows.append(
            (
                rung.size.label,
                outside(rung, ladder.scenario.unit),
                WORKS[rung.works],
                "-" if rung.works == "impossible" else COMFORTABLE[rung.comfortable],
                _score(rung),
                others,
            )
        )
    widths = [max(len(row[i]) for row in rows) for i in range(len(head))]
    return [
        "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    ]


def _score(rung: Rung) -> str:
    if rung.score is None:
        return "-"
    return points(rung.score) if rung.proven else f"{points(rung.score)} or more"


def words_of_largest(
    found: Largest, scenario: Scenario, folder: Path, files: tuple[str, ...]
) -> str:
    """The text for a terminal: the answer, and the size it has in the file."""
    own: int = getattr(scenario.piece(found.piece), found.dimension)
    now = f"In your file it is {length(own, scenario.unit)}; everything else may move."
    parts = [scenario.title, "", wrapped(largest_words(found, scenario)), wrapped(now)]
    return "\n".join([*parts, *where_words(folder, files)])
