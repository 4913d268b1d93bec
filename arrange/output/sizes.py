"""What the files about sizes hold: a ladder, the exact largest size, whether a piece fits.

As all records (``arrange/output/records.py``): lengths in mm, points from 0 to 100.
"""

from __future__ import annotations

from arrange.data.scenario import Scenario
from arrange.data.sizes import Fall, Ladder, Largest, Rung
from arrange.data.sources import source
from arrange.output.fields import About, Data, Record, in_points
from arrange.output.records import asked_of, made_from
from arrange.whatif.fits import Fits, Limit
from arrange.words.fits import fits_words
from arrange.words.sizes import ladder_words, largest_words, meaning

LADDER, LARGEST = "ladder.json", "largest.json"

RUNGS = Record[Ladder](
    Ladder,
    "format title piece sizes_of=table.title sentence comfortably_means notes=table.notes "
    "interrupted unit versions files largest=largest.size.label "
    "largest_comfortable=largest_comfortable.size.label falls_off=fall sizes=rungs",
    leave="scenario",
    sentence=lambda ladder, _: " ".join(ladder_words(ladder)),
    comfortably_means=lambda ladder, _: meaning(ladder),
)
FALL = Record(Fall, "from=before.size.label to=after.size.label loss proven=sure", points="loss")
RUNG = Record[Rung](
    Rung,
    "label=size.label kind=size.piece.kind width=size.piece.width depth=size.piece.depth "
    "height=size.piece.height source works works_comfortably=comfortable scale score "
    "faults=verdict.faults at_most proven_best=proven others_comfortable=others "
    "places=arrangement.placements",
    points="score",
    leave="verdict bound",
    source=lambda rung, _: source(rung.size.source),
    at_most=lambda rung, _: in_points(rung.most) if rung.verdict else None,
    others_comfortable=lambda rung, _: (
        {"full": rung.others[0], "of": rung.others[1]} if rung.verdict else None
    ),
)
GREATEST = Record[Largest](
    Largest,
    "format title piece dimension answer sentence size proven_impossible_from=next "
    "not_decided=undecided interrupted unit versions made_of files places=arrangement.placements",
    leave="scenario asked",
    sentence=lambda found, about: largest_words(found, about.scenario),
    made_of=asked_of,
)


def ladder_data(ladder: Ladder, files: tuple[str, ...] = ()) -> Data:
    """Everything about a ladder; ``files`` are the names written with it."""
    return RUNGS.write(ladder, About(ladder.scenario, files=files))


def largest_data(found: Largest, scenario: Scenario, files: tuple[str, ...] = ()) -> Data:
    """Everything about a largest size; ``scenario`` is the one that was asked about."""
    return GREATEST.write(found, About(scenario, files=files))


FITS = Record[Fits](
    Fits,
    "format title answer how sentence unit versions scenario_file sizes plan also aside "
    "score_before=was.score score=now.score faults=now.verdict.faults would_break=broken limit "
    "apart reasons=reading.reasons moved=reading.moved places=now.arrangement.placements",
    points="score_before score",
    blank="plan",
    leave="names before after reading interrupted",
    sentence=lambda found, _: fits_words(found),
    scenario_file=made_from,
    sizes=lambda found, _: [found.after.piece(name) for name in found.names],
)


LIMIT = Record[Limit](Limit, "piece dimension size proven_impossible_from=next", only=True)


def fits_data(found: Fits, stale: tuple[str, ...] = (), unread: tuple[str, ...] = ()) -> Data:
    """Whether a piece fits; ``stale`` and ``unread`` are kept files that were left aside."""
    return {**FITS.write(found, About(found.before)), "stale": [*stale], "unread": [*unread]}
