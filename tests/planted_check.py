"""Everything that must be true of the answer for a planted room, in one place."""

from __future__ import annotations

from dataclasses import dataclass

from planted import Planted
from replayed import model_score

from arrange.data.result import Result
from arrange.judge import judge
from arrange.suggesting import suggest


@dataclass(frozen=True)
class Finding:
    """One room: its outcome, what is wrong with the answer (nothing, it is hoped), timings."""

    seed: int
    pieces: int
    outcome: str
    faults: tuple[str, ...]
    score: int
    bound: int
    planted_score: int
    seconds: float
    first_seconds: float | None


def examine(room: Planted, seconds: float) -> Finding:
    """Solve a planted room and hold the answer against judge, model and planted arrangement.

    Nothing found in time is no fault; "impossible" is, and so is a bound below what
    the planted arrangement scores. Scores are standings: a fault of first rank counts
    before any point. An exception counts as a fault too.
    """
    planted_score = judge(room.scenario, room.arrangement).standing
    faults = [] if judge(room.scenario, room.arrangement).works else ["planted: refused"]
    result: Result | None = None
    try:
        modelled = model_score(room.scenario, room.arrangement)
        if modelled != planted_score:
            faults.append(f"planted: model {modelled}, judge {planted_score}")
        result = suggest(room.scenario, top=1, seconds=seconds)
        faults += _faults(room, result, planted_score)
    except Exception as error:  # a crash is a finding too
        faults.append(f"{type(error).__name__}: {error}")
    found = result.suggestions if result else ()
    return Finding(
        room.seed,
        len(room.scenario.pieces),
        result.outcome if result else "crash",
        tuple(faults),
        found[0].verdict.standing if found else -1,
        result.bound if result else -1,
        planted_score,
        result.seconds if result else 0.0,
        result.first_seconds if result else None,
    )


def _faults(room: Planted, result: Result, planted_score: int) -> list[str]:
    if result.outcome == "impossible":
        return ["called impossible"]
    faults: list[str] = []
    if result.bound < planted_score:
        faults.append(f"bound {result.bound}, planted scores {planted_score}")
    for suggestion in result.suggestions:
        verdict = judge(room.scenario, suggestion.arrangement)
        modelled = model_score(room.scenario, suggestion.arrangement)
        faults += [f"answer: {b.sentence}" for b in verdict.breaches]
        standing, said = verdict.standing, suggestion.verdict.standing
        if not standing == said == modelled:
            faults.append(f"answer: judge {standing}, said {said}, model {modelled}")
        if suggestion.proven and standing < planted_score:
            faults.append(f"proven best {standing}, planted scores {planted_score}")
        if standing > result.bound:
            faults.append(f"score {standing} above the bound {result.bound}")
    return faults
