"""What would have to give, in plain words for the terminal and result files."""

from __future__ import annotations

from arrange.data.giving import Given, Proposal


def giving_words(given: Given) -> str:
    """What was found and how sure that is, in one or two sentences.

    "No such change" is only said where every set was looked at or ruled out by proof.
    """
    count, together = len(given.proposals), f"up to {given.at_once} changes at once"
    if given.works:
        return "It works as it is: nothing has to give."
    if not count:
        if given.closed:
            return f"Proven: none of the changes that may be made helps, nor {together}."
        return (
            "No set of changes that helps was found in the time. That does not mean that there is "
            "none: allow more time with --time."
        )
    if count == 1:
        found = "1 way to make it work"
    else:
        found = f"{count} different ways to make it work, the cheapest first"
    proven = all(p.cheapest for p in given.proposals)
    sure = (
        f"proven: nothing cheaper does, of {given.candidates} changes, {together}"
        if proven
        else "not proven: there may be cheaper ones; --time allows more"
    )
    others = "There is no other different way." if given.closed else ""
    return f"{found} ({sure}). {others}".rstrip()


def proposal_lines(proposal: Proposal, number: int) -> list[str]:
    """A head with cost and score, then each change in one sentence; not wrapped."""
    suggestion = proposal.suggestion
    score = f"{suggestion.verdict.score / 10:.1f}"
    best = "best" if suggestion.proven else "found, not proven best"
    cheap = "" if proposal.cheapest else "; not proven cheapest"
    head = f"{number}. Costs {proposal.cost}{cheap}. {score} of 100 points then ({best})."
    return [head, *(f"{one.sentence} [{one.cost}]" for one in proposal.gives)]
