"""What sets one arrangement apart from another, in plain words."""

from __future__ import annotations

from arrange.data.arrangement import Arrangement, Placement
from arrange.data.scenario import Scenario

_TOWARD = {"up": "up the plan", "down": "down the plan", "left": "left", "right": "right"}


def place_words(scenario: Scenario, placement: Placement) -> tuple[str, str]:
    """Where a piece stands and which way it faces, for the reader of the plan.

    A piece on a wall faces away from it, so that its second word is empty.
    """
    if placement.wall is not None:
        wall = scenario.room.walls[placement.wall]
        return wall.part_of or wall.name, "" if placement.facing is None else placement.facing
    return "", placement.facing or ""


def differences(scenario: Scenario, first: Arrangement, other: Arrangement) -> tuple[str, ...]:
    """One phrase for each major piece that stands on another wall or faces another way.

    Two alike pieces that changed places are no difference. Moves of a few
    centimetres do not count.
    """
    phrases: list[str] = []
    majors = [p for p in scenario.pieces if p.major]
    for model in dict.fromkeys(p.model for p in majors):
        names = [p.name for p in majors if p.model == model]
        before = [place_words(scenario, first.of(n)) for n in names]
        left_over = list(before)
        moved: list[tuple[str, tuple[str, str]]] = []
        for name in names:
            now = place_words(scenario, other.of(name))
            if now in left_over:
                left_over.remove(now)
            else:
                moved.append((name, now))
        phrases += [
            _phrase(name, now, was) for (name, now), was in zip(moved, left_over, strict=True)
        ]
    return tuple(phrases)


def _phrase(name: str, now: tuple[str, str], was: tuple[str, str]) -> str:
    if now[0] != was[0]:
        return f"{name}: {_wall(now[0])}, in the first {_wall(was[0])}"
    turned = f"{name}: faces {_TOWARD.get(now[1], 'across')}"
    return f"{turned}, in the first {_TOWARD.get(was[1], 'across')}"


def _wall(name: str) -> str:
    return f"at {name}" if name else "free in the room"
