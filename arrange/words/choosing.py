"""What a terminal shows of a choice: the answer, what to have and its sum, what money buys."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path

from arrange.data.choosing import Choosing, Pick
from arrange.data.lengths import listed, money, points, the
from arrange.data.need import Candidate, Item, Post
from arrange.different import elsewhere
from arrange.words.places import stands_words
from arrange.words.reasons import could_be_better, wrapped
from arrange.words.suggest import first_lines

NEARLY = 20  # tenths: so much less is nearly as good
ITEMS: dict[Item, str] = {
    "price": "price",
    "delivery": "delivery",
    "materials": "materials",
    "hours": "your own hours",
    "sale": "sold",
    "paid": "paid by now",
}


def words(found: Choosing, folder: Path, files: Sequence[str]) -> str:
    """The whole text for the terminal."""
    lines = [found.whole.title, "", wrapped(answer_words(found))]
    if found.best is not None:
        lines += ["", *pick_lines(found, found.best)]
        for suggestion in found.best.result.suggestions:
            lines += ["", *first_lines(found.best.scenario, suggestion)]
    if len(found.picks) > 1:
        head = "Next best of the others" if found.outcome == "proven" else "Others found"
        only_plans = all(one.elsewhere for one in found.picks[1:])
        lines += ["", f"{head}{'' if only_plans else UNSURE}:"]
        lines += [
            wrapped(other_words(found, one, i), "- ", "  ")
            for i, one in enumerate(found.picks[1:], start=2)
        ]
    if found.curve:
        lines += ["", *curve_lines(found)]
    lines += ["", wrapped(CAUTION)] if found.picks else []
    if files:
        lines += ["", wrapped(f"Written: {', '.join(str(folder / name) for name in files)}")]
    return "\n".join(lines)


CAUTION = (
    "Sums are only as good as the prices in the file: ask again before you buy. A plan is not an "
    "approval; local codes and licensed practice decide."
)


UNSURE = " (not proven: another choice may be better than these)"
CAN_DO_WITHOUT = "add may_lack = true under a need that you could do without"


def answer_words(found: Choosing) -> str:
    """What was found and how sure it is."""
    tally = found.tally
    stopped = "Stopped when you asked. " if found.interrupted else ""
    afford = " that you can pay for" if found.spendable is not None else ""
    if tally.choices == 1 and found.outcome != "too dear":
        return _only_one(found, f"only way to choose{afford}")
    ways = f"{tally.choices:,} ways to choose{afford}"
    match found.outcome:
        case "too dear":
            return _too_dear(found)
        case "impossible":
            return (
                f"Impossible, and that is proven: none of the {ways} fits so that everything can "
                f"be used and reached. To have more to choose from, {CAN_DO_WITHOUT}."
            )
        case "nothing found":
            are = "1 is" if tally.open == 1 else f"{tally.open:,} are"
            return (
                f"{stopped}Nothing found in the time. Of the {ways}, {are} not decided: allow more "
                "time with --time."
            )
        case "proven":
            rest = _closed(found)
            return f"This is the best of the {ways}; we checked{rest}."
    open_ = "1 way to choose is" if tally.open == 1 else f"{tally.open:,} are"
    return (
        f"{stopped}The best so far, of the {ways}; {open_} not decided, or could still get a "
        "better plan. Allow more time with --time."
    )


def _too_dear(found: Choosing) -> str:
    if found.cheapest is None:
        return "No choice is within the budget."
    least, have = found.cheapest, found.spendable or Decimal(0)
    return (
        "No choice is within the budget. The cheapest that meets every need comes to "
        f"{sum_words(found, least)}; you have {sum_words(found, have)} to spend. "
        f"{sum_words(found, least - have)} more would do; or {CAN_DO_WITHOUT}."
    )


def _only_one(found: Choosing, way: str) -> str:
    """The same where there is one ``way`` and no more."""
    stopped = "Stopped when you asked. " if found.interrupted else ""
    match found.outcome:
        case "impossible":
            return (
                f"Impossible, and that is proven: the {way} does not fit so that everything can be "
                f"used and reached. To have more to choose from, {CAN_DO_WITHOUT}."
            )
        case "nothing found":
            return (
                f"{stopped}Nothing found in the time: the {way} is not decided. Allow more time "
                "with --time."
            )
        case "proven":
            return f"This is the {way}, and the best plan for it; we checked."
    return (
        f"{stopped}This is the {way}, and the best plan for it so far; there may be a better one. "
        "Allow more time with --time."
    )


def _closed(found: Choosing) -> str:
    impossible = found.tally.impossible
    if not impossible:
        return ""
    return f" ({impossible:,} of them cannot be placed at all)"


def sum_words(found: Choosing, amount: Decimal | None) -> str:
    """A sum with the currency as the person writes it."""
    return f"{found.money.currency} {money(amount or Decimal(0))}".strip()


def pick_lines(found: Choosing, pick: Pick) -> list[str]:
    """What to have, what for, and what it comes to, line by line."""
    rows = []
    for name in pick.choice.candidates:
        candidate = found.needs.candidate(name)
        meets = "; ".join(candidate.needs)
        rows.append(f"{the(name)} ({meets}): {how_words(found, candidate)}")
    lines = ["What to have:", *(wrapped(row, "- ", "  ") for row in rows)]
    lines += [wrapped(f"without {name} {lack}", "- ", "  ") for name, lack in lacking(found, pick)]
    lines += [wrapped(told, "- ", "  ") for told in unanswered_words(found, pick)]
    sold = [post for post in pick.choice.account if post.item == "sale"]
    if sold:
        names = listed([the(post.piece) for post in sold])
        total = -sum((post.total for post in sold), Decimal(0))
        lines.append(wrapped(f"sell {names}: {sum_words(found, total)}", "- ", "  "))
    fixed = sum((post.total for post in found.needs.fixed), Decimal(0))
    if fixed:
        lines.append(wrapped(f"{_fixed_words(found)}: {sum_words(found, fixed)}", "- ", "  "))
    return [*lines, wrapped(total_words(found, pick)), wrapped(score_words(pick))]


def _fixed_words(found: Choosing) -> str:
    """What is got whatever is chosen, and what is paid for by now."""
    paid = {post.item == "paid" for post in found.needs.fixed}
    if paid == {True}:
        return "what you have paid so far"
    also = ", and what you have paid so far" if True in paid else ""
    return f"what you get in any case{also}"


def how_words(found: Choosing, candidate: Candidate) -> str:
    """How it is come by and what it costs."""
    if not candidate.costs:
        have = "already bought" if candidate.bought else "you have it"
        return have if candidate.owned else "costs nothing"
    several = len({post.piece for post in candidate.costs}) > 1
    parts = [
        f"{f'{post.piece}: ' if several else ''}{ITEMS[post.item]} {sum_words(found, post.total)}"
        for post in candidate.costs
    ]
    if len(candidate.costs) == 1:
        return sum_words(found, candidate.cost)
    return f"{sum_words(found, candidate.cost)} ({', '.join(parts)})"


def sheet_words(found: Choosing, pick: Pick) -> tuple[str, str]:
    """For its sheet: what it comes to, and how sure it is that nothing is better."""
    without = f", without {listed([*pick.choice.lacking])}" if pick.choice.lacking else ""
    if pick.choice.unanswered:
        without += f", and nothing {listed([*pick.choice.unanswered], 'or')}"
    cost = pick.choice.cost
    comes = sum_words(found, cost) if cost >= 0 else f"{sum_words(found, -cost)} left over"
    if pick is found.best and found.outcome == "proven":
        sure = "There is no better choice for the money, and no better plan for it; we checked."
    elif pick.elsewhere:
        next_best = "the best of the other plans for these pieces; we checked."
        sure = f"This is {next_best}" if pick.proven else "Another plan for these pieces."
    elif pick.suggestion.proven:
        sure = "This is the best plan for these pieces; we checked."
    else:
        sure = f"Found, not proven best for these pieces: {could_be_better(pick.suggestion)}."
    return f"In all {comes}{without}", sure


def lacking(found: Choosing, pick: Pick) -> list[tuple[str, str]]:
    """The needs it leaves unmet, and what that takes off."""
    lacks = {need.name: need.lack or 0 for need in found.needs.needs}
    return [(name, f"(takes off {points(lacks[name])} points)") for name in pick.choice.lacking]


def unanswered_words(found: Choosing, pick: Pick) -> list[str]:
    """The words for the feel that nothing chosen answers, and what that takes off."""
    lack = points(found.needs.feel_lack)
    return [
        f'nothing of it is tagged "{word}" (takes off {lack} points)'
        for word in pick.choice.unanswered
    ]


def total_words(found: Choosing, pick: Pick) -> str:
    """The sum, and what is left of the budget."""
    cost = pick.choice.cost
    whole = (
        f"Together {sum_words(found, cost)}."
        if cost >= 0
        else f"Selling brings {sum_words(found, -cost)} more than it all costs."
    )
    purse, spend = found.money, found.spendable
    if purse.budget is None or spend is None:
        return whole
    kept = f" and {sum_words(found, purse.comes_in)} from what is sold" if purse.comes_in else ""
    kept += f", {sum_words(found, purse.kept)} set aside for the unexpected" if purse.kept else ""
    rest = sum_words(found, abs(spend - cost))
    left = f"{rest} is left" if cost <= spend else f"{rest} too much"
    return f"{whole} Of {sum_words(found, purse.budget)}{kept}: {left}."


def score_words(pick: Pick) -> str:
    """The points, added up where something is taken off."""
    plan, lack = pick.verdict.score, pick.choice.lack
    if not lack:
        return f"{points(plan)} of 100 points."
    return f"{points(plan)} points for the plan - {points(lack)} = {points(plan - lack)} points."


def faults_words(pick: Pick) -> str:
    """How many faults its points come with."""
    faults = pick.verdict.faults
    return f" and {faults} fault{'s' if faults > 1 else ''}" if faults else ""


def other_words(found: Choosing, pick: Pick, number: int) -> str:
    """Another choice: its points, its sum, what is otherwise."""
    best = found.best
    change = change_words(best, pick) if best is not None and best is not pick else ""
    if best is not None and pick.elsewhere:
        change = elsewhere_words(best, pick)
    cost = sum_words(found, pick.choice.cost)
    return f"{number}. {points(pick.points)} points{faults_words(pick)} for {cost}: {change}"


def elsewhere_words(best: Pick, pick: Pick) -> str:
    """Which of the main pieces of the same choice stand where else, and how sure it is."""
    scenario, now = pick.scenario, pick.suggestion.arrangement
    moved = elsewhere(scenario, best.suggestion.arrangement, now)
    told = [f"{the(one.model)} {stands_words(scenario, now.of(one.name))}" for one in moved]
    sure = "the best of their other plans; we checked" if pick.proven else "another may be better"
    return f"the same pieces in another plan, {listed(told)} ({sure})"


def change_words(before: Pick, after: Pick) -> str:
    """What one choice has in place of another's, and which needs it meets no more, or does now.

    >>> class P:
    ...     def __init__(self, *c, lacking=()):
    ...         self.choice = type("C", (), {"candidates": c, "lacking": lacking})
    >>> change_words(P("old desk", "lamp"), P("new desk", "lamp"))
    'the new desk instead of the old desk'
    >>> change_words(P("sofa"), P("chair", lacking=("room for a guest",)))
    'the chair instead of the sofa, without "room for a guest"'
    """
    old, new = before.choice, after.choice
    come = [the(name) for name in new.candidates if name not in old.candidates]
    gone = [the(name) for name in old.candidates if name not in new.candidates]
    told = f"without {listed(gone)}" if gone else "the same"
    if come:
        told = f"{listed(come)} instead of {listed(gone)}" if gone else f"{listed(come)} as well"
    missed = [need for need in new.lacking if need not in old.lacking]
    now_met = [need for need in old.lacking if need not in new.lacking]
    told += f", with {quoted(now_met)} as well" if now_met else ""
    return f"{told}, without {quoted(missed)}" if missed else told


def quoted(needs: Sequence[str]) -> str:
    """Needs in the person's own words, which may have commas of their own."""
    return listed([f'"{need}"' for need in needs])


def curve_lines(found: Choosing) -> list[str]:
    """What each further sum buys, and what it says of this budget."""
    sure = "the list is complete; we checked" if found.complete else "as far as we looked"
    lines = [wrapped(f"What each further sum buys ({sure}):")]
    sums = [money(one.choice.cost) for one in found.curve]
    wide = max(len(text) for text in sums)
    head = found.money.currency.rjust(wide)
    lines.append(f"  {head}  points")
    before: Pick | None = None
    for text, one in zip(sums, found.curve, strict=True):
        here = found.best is not None and one.choice == found.best.choice
        mark = ">" if here else " "
        change = change_words(before, one) if before is not None else candidates_words(one)
        row = f"{points(one.points)}{faults_words(one)}  {change}"
        indent = f"{mark} {text.rjust(wide)}  "
        lines.append(wrapped(row, indent, " " * len(indent)))
        before = one
    return [*lines, *(wrapped(line) for line in advice(found))]


def candidates_words(one: Pick) -> str:
    """All that is had, and what goes unmet."""
    told = listed([the(name) for name in one.choice.candidates]) or "nothing"
    lacking = one.choice.lacking
    return f"{told}, without {quoted(lacking)}" if lacking else told


def step_words(found: Choosing, before: Pick | None, one: Pick) -> str:
    """The sum of one choice of the curve, its points, what it has in place of the cheaper one."""
    cost = one.choice.cost
    told = sum_words(found, cost) if cost >= 0 else f"{sum_words(found, -cost)} left over"
    change = change_words(before, one) if before is not None else candidates_words(one)
    return f"{told}, {points(one.points)} points{faults_words(one)}: {change}"


def rest_words(count: int) -> str:
    """That a sheet has no room for more."""
    return f"and {count} more: see choice.json"


def advice(found: Choosing) -> list[str]:
    """Nearly the same for less, and what the next sum would buy."""
    best = found.best
    if best is None or not found.curve:
        return []
    told: list[str] = []
    less = [
        one
        for one in found.curve
        if one.choice.cost < best.choice.cost and one.value >= best.value - NEARLY
    ]
    if less:
        saved = sum_words(found, best.choice.cost - less[0].choice.cost)
        lost = points(best.value - less[0].value)
        told.append(
            f"Nearly the same for less: {change_words(best, less[0])}. That saves {saved} and "
            f"loses {lost} points."
        )
    if found.spendable is not None and found.further:
        next_sum = sum_words(found, found.further)
        more = [one for one in found.curve if one.value > best.value]
        if more:
            extra = sum_words(found, more[-1].choice.cost - found.spendable)
            told.append(
                f"With {next_sum} more to spend: {change_words(best, more[-1])}, for "
                f"{points(more[-1].value - best.value)} points more ({extra} over the budget)."
            )
        elif found.complete:
            told.append(f"With {next_sum} more to spend nothing gets better; keep it.")
        else:
            told.append(
                f"With {next_sum} more to spend we found nothing better, but not all was tried."
            )
    return told


def account_rows(found: Choosing) -> list[tuple[str, Pick]]:
    """Every choice shown once, with what it is called in the tables."""
    rows: list[tuple[str, Pick]] = [(str(i), one) for i, one in enumerate(found.picks, start=1)]
    known = {one.choice for one in found.picks}
    letters = (one for one in found.curve if one.choice not in known)
    rows += [(f"sum {i}", one) for i, one in enumerate(letters, start=1)]
    return rows


def post_words(post: Post) -> str:
    """What a line of the account is for."""
    return ITEMS[post.item]
