"""Verifies an explanation of why nothing works, without the code that found it.

Nothing of `arrange.settling`, `arrange.solver.settling` or `arrange.whatif.why.clash` is
used. That a set is impossible is asked of CP-SAT under two configurations written out
here; walkways come in by cuts, made anew for each configuration. That a set is
irreducible is seen from the arrangements kept with it, by the judge.
"""

from __future__ import annotations

from ortools.sat.python import cp_model
from shapely.geometry import LineString, Point

from arrange.budget import Budget
from arrange.data.conflict import Arithmetic, Conflict, Conflicts
from arrange.data.scenario import Scenario
from arrange.geometry.scene import Scene
from arrange.judge import breaches, judge
from arrange.solver.model import Model
from arrange.solver.search import Search
from arrange.whatif.lacking import with_length
from arrange.whatif.requirements import declared, keep_only, quantities

# One as CP-SAT comes, but for one worker; one with all of that switched off.
CONFIGURATIONS = (
    {"num_workers": 1, "random_seed": 3},
    {
        "num_workers": 1,
        "random_seed": 91,
        "cp_model_presolve": False,
        "cp_model_probing_level": 0,
        "linearization_level": 0,
        "symmetry_level": 0,
    },
)
SECONDS = 120.0
ROUNDS = 400


def faults(found: Conflicts) -> list[str]:
    """Everything wrong with an explanation; none means that it is verified."""
    said = []
    if found.answer != "impossible":
        said.append(f"answer is {found.answer}")
    if not found.sets and not found.room:
        said.append("no set")
    pieces: set[str] = set()
    for number, conflict in enumerate(found.sets, start=1):
        said += [f"set {number}: {text}" for text in faults_of(found.scenario, conflict)]
        if pieces & set(conflict.pieces):
            said.append(f"set {number} shares a piece with one before it")
        pieces |= set(conflict.pieces)
    return said


def faults_of(scenario: Scenario, conflict: Conflict) -> list[str]:
    """Everything wrong with one set."""
    said = []
    if not (conflict.confirmed and conflict.minimal):
        return ["not proven minimal"]
    if not set(conflict.requirements) <= set(declared(scenario)):
        said.append("has a member that the scenario has not")
    if [w.requirement for w in conflict.without] != list(conflict.requirements):
        said.append("does not show what becomes of it without each member")
    for shown in conflict.without:
        rest = keep_only(scenario, [m for m in conflict.requirements if m != shown.requirement])
        placed = sorted(p.piece for p in shown.arrangement.placements)
        if placed != sorted(p.name for p in rest.pieces):
            said.append(f"other pieces stand there without {shown.requirement}")
        elif not judge(rest, shown.arrangement).works:
            said.append(f"the judge refuses what is shown without {shown.requirement}")
    together = keep_only(scenario, conflict.requirements)
    said += [
        f"configuration {number} says {answer} of all together"
        for number, answer in enumerate((asked(together, c) for c in CONFIGURATIONS), start=1)
        if answer != "impossible"
    ]
    return said


def asked(scenario: Scenario, configuration: dict[str, object]) -> str:
    """What CP-SAT says under one configuration: impossible, works or not decided."""
    search = Search(scenario, Budget(SECONDS))
    model = Model(scenario, canonical=False)
    model.finish()
    for _ in range(ROUNDS):
        solver = cp_model.CpSolver()
        for name, value in configuration.items():
            setattr(solver.parameters, name, value)
        solver.parameters.max_time_in_seconds = max(search.budget.left, 0.01)
        status = solver.solve(model.cp)
        if status == cp_model.INFEASIBLE:
            return "impossible"
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            break
        arrangement = model.arrangement(solver)
        if not breaches(scenario, arrangement):
            return "works"
        scene = Scene(scenario, arrangement)
        for cut in search.blocked(scene):
            cut.add_to(model)
    return "not decided"


def sum_faults(scenario: Scenario, conflict: Conflict, figures: Arithmetic) -> list[str]:
    """Everything wrong with the arithmetic of a set; sums are taken from its shapes anew."""
    said = []
    if figures.arrangement is not None and figures.requirement is not None:
        (quantity,) = (
            q for q in quantities(scenario, [figures.requirement]) if q.side == figures.side
        )
        if quantity.asked != figures.asked:
            said.append("the figures are of another length than is asked for")
        near = with_length(keep_only(scenario, conflict.requirements), quantity, figures.most)
        if not judge(near, figures.arrangement).works:
            said.append("the judge refuses the closest arrangement")
        said += _along(near, figures)
    return said


def _along(near: Scenario, figures: Arithmetic) -> list[str]:
    """The bodies along the section, measured again, and the sum."""
    section = figures.section
    if section is None or figures.arrangement is None:
        return []
    said = []
    if section.asked - section.there != figures.asked - figures.most or not figures.proven:
        said.append("the sum is not what is there and what lacks")
    scene = Scene(near, figures.arrangement)
    (x0, y0), (_, y1) = section.start, section.end
    line = LineString([section.start, section.end])
    if abs(line.length - section.there) > 1e-6 or not scene.room.buffer(1e-6).covers(line):
        said.append("the section does not lie in the room")
    for part in section.crossed:
        low, high = (
            ((part.start, y0), (part.end, y0)) if y0 == y1 else ((x0, part.start), (x0, part.end))
        )
        middle = Point((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
        inside = [p.name for p in scene.placed if not p.piece.flat and p.body.contains(middle)]
        if part.body and part.what in {p.name for p in scene.placed}:
            cut = scene.find(part.what).body.intersection(line).length
            if abs(cut - (part.end - part.start)) > 1e-6:
                said.append(f"{part.what} is {cut} along the section")
        elif inside:
            said.append(f"{inside} stands where {part.what} is said to be")
    return said
