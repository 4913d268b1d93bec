"""What a board says: the words of the room, its colours by how they sit with the lead, paint last.

A *board* is one page for a plan: the plan, the swatches, the pieces with their pictures, and the
words for how the room should feel.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from arrange.data.arrangement import Arrangement
from arrange.data.lengths import listed, the
from arrange.data.scenario import Scenario
from arrange.data.scheme import Scheme, Swatch
from arrange.shop.colours import Colours, Seen, ranked
from arrange.shop.listing import NOT_YET
from arrange.words.reasons import wrapped

# What a difference means to the eye, up to each value. About 1 is just seen; the rest is our
# own judgement.
STEPS = (
    (2.0, "the same as"),
    (6.0, "nearly the same as"),
    (12.0, "close to"),
    (25.0, "not far from"),
)
FAR = "stands out from"
LEADS = "the others follow it"
PIECES, OTHERS = "Pieces", "Could be had, not in this plan"
TEXTILES, PAINT = "Textiles", "Paint, decided last"
NO_LEAD = "No piece leads, so nothing is ranked: write lead = true under one that has a colour."
LEAD_NOT_HERE = "The piece that leads is not in this plan, so nothing is ranked."
NO_WORDS = (
    'No words for how it should feel yet: write feel = ["calm", "snug"] at the top of the file.'
)
NOTHING_TAGGED = "nothing is tagged with it"
NO_COLOURS = "No colours yet: scenarios/README.md says how to give them."
EYE = (
    "The number is how different a colour looks from the one that the others follow (CIEDE2000): "
    "1 can just be seen. The nearest comes first. Let your eye decide which is right: look at a "
    "sample in the room, by day and by lamplight. Screens and print show colours only roughly."
)


@dataclass(frozen=True, slots=True)
class Board:
    """One plan with its colours. ``pictures`` are photos of its pieces, by name.

    ``tagged`` are its pieces, the textiles and the paints, with what is said of how they feel.
    """

    scenario: Scenario
    arrangement: Arrangement
    colours: Colours
    plan: str
    lead: str = ""
    pictures: tuple[tuple[str, str], ...] = ()
    tagged: tuple[Swatch, ...] = ()

    @property
    def feel(self) -> tuple[str, ...]:
        """The words for how the room should feel, none if none were given."""
        return self.scenario.feel


def board(scenario: Scenario, arrangement: Arrangement, scheme: Scheme, plan: str) -> Board:
    """The board of an arrangement. ScenarioError for a photo that cannot be read.

    ``scheme`` may have more pieces than the plan: those that could be had in place of others.
    ``plan`` says which plan it is.
    """
    there = list(dict.fromkeys(piece.model for piece in scenario.pieces))
    pictures = tuple(
        (swatch.name, swatch.picture)
        for swatch in scheme.of("piece")
        if swatch.picture and swatch.name in there
    )
    tagged = tuple(s for s in scheme.swatches if s.of != "piece" or s.name in there)
    return Board(scenario, arrangement, ranked(scheme, there), plan, scheme.lead, pictures, tagged)


def answers(found: Board) -> list[str]:
    """For each word for the feel what answers it by its tags; none where nothing has a tag."""
    tagged = [swatch for swatch in found.tagged if swatch.tags]
    if not tagged:
        return []
    told = []
    for word in found.feel:
        names = [swatch.name for swatch in tagged if word in swatch.tags]
        told.append(f"{word}: {listed(names) if names else NOTHING_TAGGED}")
    return told


def groups(found: Board) -> list[tuple[str, Sequence[Seen]]]:
    """Every swatch under its head, paint last of all; heads with nothing under them are left out.

    The lead comes first of the pieces.
    """
    colours = found.colours
    lead = [colours.lead] if colours.lead is not None else []
    every: list[tuple[str, Sequence[Seen]]] = [
        (PIECES, [*lead, *colours.of("piece")]),
        (OTHERS, colours.of("piece", chosen=False)),
        (TEXTILES, colours.of("textile")),
        (PAINT, colours.of("paint")),
    ]
    return [(head, seen) for head, seen in every if seen]


def seen_words(found: Board, seen: Seen) -> str:
    """How one swatch sits with the lead; "" where nothing leads."""
    lead = found.colours.lead
    if lead is None or seen.difference is None:
        return LEADS if seen is lead else ""
    return f"{_sits(seen.difference)} {the(lead.swatch.name)} (difference {seen.difference:.1f})"


def short_words(found: Board, seen: Seen) -> str:
    """The same where there is little room: the colour, then how it sits with the lead."""
    lead = found.colours.lead
    if lead is None or seen.difference is None:
        return f"{seen.hex}, {LEADS}" if seen is lead else seen.hex
    return f"{seen.hex}, {_sits(seen.difference).rpartition(' ')[0]}: {seen.difference:.1f}"


def _sits(difference: float) -> str:
    return next((word for most, word in STEPS if difference <= most), FAR)


def remarks(found: Board) -> list[str]:
    """What is to be said of the colours as a whole; that paint comes last, always."""
    colours = found.colours
    told = []
    if not colours.ranked and colours.lead is None:
        told.append(NO_COLOURS)
    elif colours.lead is None:
        told.append(LEAD_NOT_HERE if found.lead else NO_LEAD)
    else:
        told.append(EYE)
    return [*told, NOT_YET]


def words(found: Board, folder: Path, files: Sequence[str]) -> str:
    """The board for the terminal: the words, then every swatch under its head."""
    lines = [found.scenario.title, "", wrapped(f"For {found.plan}."), ""]
    lines.append(wrapped(f"It should feel {listed(found.feel)}." if found.feel else NO_WORDS))
    lines += [wrapped(told, "- ", "  ") for told in answers(found)]
    for head, seen in groups(found):
        lines += ["", head]
        for one in seen:
            sits = seen_words(found, one)
            lines.append(wrapped(f"{one.hex}  {one.swatch.name}{sits and f': {sits}'}", "- ", "  "))
    lines += ["", *(wrapped(remark) for remark in remarks(found))]
    if files:
        lines += ["", f"Written: {', '.join(str(folder / name) for name in files)}"]
    return "\n".join(lines)
