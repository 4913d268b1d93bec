"""How far a measurement could be wrong before an arrangement stops working. Lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

FINEST = 10  # mm that a tape across a room is trusted to


@dataclass(frozen=True, slots=True)
class Spare:
    """Room to spare along one line across the room, or on the way in.

    ``between`` names the two ends, ``line`` what is met between them, in order: names of
    pieces, and mm of floor that they need. Of a line that was read from a file there is one
    text instead; for the way in it is the width asked. ``pieces`` are those on the line.
    ``direction`` is across the plan, up the plan, or the way in.
    ``mm`` is how much longer what is on the line could be in truth (or the span shorter)
    with all pieces still on their walls, turned the same way, as the judge confirms. With
    ``exact`` one cm more works no longer, however the pieces slide; without, ``mm`` is what
    is sure and there may be more. For the way in, ``mm`` is as the pieces stand.
    """

    between: tuple[str, str]
    line: tuple[str | int, ...]
    pieces: tuple[str, ...]
    direction: Literal["across", "up", "way"]
    mm: int
    exact: bool
