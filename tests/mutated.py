"""Files as a stranger could have made them: examples with a few things wrong, by a seed.

What is wrong: a value or line left out, doubled, moved, of another type, negative, huge, no
number, very long, very deep, invisible; or bytes cut off and flipped. ``examine`` reads one
and says what is a fault of ours: anything but an answer or a ScenarioError, within the time.
"""

import json
import random
import signal
import time
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

from arrange.comparing import gathered, side_by_side
from arrange.data.arrangement import Arrangement
from arrange.data.result import Result, Suggestion
from arrange.draw.comparison import comparison_sheet
from arrange.errors import MOST_TOLD, ScenarioError
from arrange.judge import judge
from arrange.output.fields import as_text
from arrange.output.records import as_data, compare_data
from arrange.output.spreadsheets import compare_csv
from arrange.scenario.read import parsed, read
from arrange.words.compare import words

SCENARIOS = sorted((Path(__file__).parent.parent / "scenarios").glob("*.toml"))
SECONDS = 3.0  # a file is read within
INVISIBLE = ("\u202e", "\u001b[2J", "\u0000", "\u200f", "\u2028", "\u0085", "\ufeff")
JUNK = [0, -1, 1, True, False, "", "x", "A", [], {}, [1, 2], {"a": 1}, 1e300, 10**15, 10**19]
JUNK += [float("inf"), float("-inf"), float("nan"), 0.5, "12 ft", "9" * 300, 16**5000, [[]], [{}]]
LONG, DEEP, MANY = (200, 2000, 100_000), (3, 20, 2000), (2, 50, 3000)

# A room with everything in its place today, so that a result can be made without a search.
STANDING = """
title = "Standing"
[room]
size = [400, 300]
[[door]]
wall = "C"
from_left = 20
width = 80
[[window]]
wall = "A"
from_left = 250
width = 100
[[fixture]]
kind = "column"
at = [10, 10]
[[fixture]]
kind = "socket"
wall = "B"
from_left = 50
[[piece]]
kind = "desk"
stands_now = { wall = "A", from_left = 30 }
[[piece]]
kind = "desk chair"
stands_now = { across = 75, up = 170, facing = "up" }
[[piece]]
kind = "bookcase"
stands_now = { wall = "B", from_left = 20 }
"""


def standing_result(folder):
    """The text of a result for the standing room, whose scenario file lies in ``folder``."""
    file = folder / "standing.toml"
    file.write_text(STANDING, encoding="utf-8")
    case = read(file)
    arrangement = Arrangement(case.today)
    verdict = judge(case, arrangement)
    one = Suggestion(1, arrangement, verdict, False, verdict.score)
    case = replace(case, today=(), held=())
    return as_text(as_data(Result(case, "found", (one,), verdict.score, 1.0, 1.0, 0)))


def written(value):
    """A value as TOML has it, on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{json.dumps(k)} = {written(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(written, value)) + "]"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return json.dumps(value).replace("\x7f", "\\u007f")
    return hex(value) if isinstance(value, int) and value > 10**18 else repr(value)


def spots(value):
    """Every place in nested tables and lists: what holds it, and its key there."""
    found, waiting = [], [value]
    while waiting:
        one = waiting.pop()
        keys = list(one) if isinstance(one, dict) else range(len(one))
        for key in keys:
            found.append((one, key))
            if isinstance(one[key], dict | list):
                waiting.append(one[key])
    return found


def change(data, chance):
    """One thing wrong somewhere in nested tables and lists."""
    places = spots(data)
    if not places:
        return
    holder, key = chance.choice(places)
    what = chance.choice(("drop", "rename", "double", "move", *["spoil"] * 7))
    if what == "drop":
        del holder[key]
    elif what == "rename" and isinstance(holder, dict):
        holder[f"k{chance.choice([*INVISIBLE, 'x' * 5000, ' ', '.'])}"] = holder.pop(key)
    elif what == "double" and isinstance(holder, list):
        holder.insert(key, holder[key])
    elif what == "move":
        other, at = chance.choice(places)
        holder[key] = json.loads(json.dumps(other[at]))
    else:
        holder[key] = spoilt(holder[key], chance)


def _times(old, factor):
    """The product; no float is as large as a number of 20,000 digits."""
    try:
        return old * factor
    except OverflowError:
        return -old


def spoilt(old, chance):
    """Another value for one: many, long, deep, of another sign or size, invisible, or junk."""
    what = chance.choice(("many", "size", "long", "deep", "invisible", "junk", "junk"))
    if what == "many":
        times = chance.choice(MANY)
        return (old or [0]) * times if isinstance(old, list) else [old] * times
    if what == "size" and isinstance(old, int | float) and not isinstance(old, bool):
        return _times(old, chance.choice([-1, 10, 1000, 10**6, 10**12, 0.37]))
    if what == "long":
        return "y" * chance.choice(LONG)
    if what == "deep":
        for _ in range(chance.choice(DEEP)):
            old = [old] if chance.random() < 0.5 else {"a": old}
        return old
    if what == "invisible":
        return f"{old if isinstance(old, str) else 'x'}{chance.choice(INVISIBLE)}y"
    return chance.choice(JUNK)


def garbled(content, chance):
    """Bytes cut off, flipped, doubled or put in; or a key of many dots."""
    at = chance.randrange(len(content))
    what = chance.randrange(6)
    if what == 0:
        return content[:at]
    if what == 1:
        return content[:at] + bytes([chance.randrange(256)]) + content[at + 1 :]
    if what == 2:
        return content[:at] + chance.choice(INVISIBLE).encode() + content[at:]
    if what == 3:
        return b"a" + b".a" * chance.choice((5, 30, 90_000)) + b" = 1\n" + content
    lines = content.split(b"\n")
    at = chance.randrange(len(lines))
    if what == 4:
        return b"\n".join(lines[:at] + lines[at : at + 3] * chance.choice(MANY) + lines[at + 3 :])
    return b"\n".join(lines[:at] + lines[at + 1 :])


def mutated_scenario(seed):
    """The bytes of a scenario file with one to three things wrong."""
    chance = random.Random(seed)  # noqa: S311
    content = chance.choice(SCENARIOS).read_bytes()
    if chance.random() < 0.25:
        return garbled(content, chance)
    data = parsed(content.decode(), "example")
    return changed(
        data, chance, lambda: "\n".join(f"{json.dumps(k)} = {written(v)}" for k, v in data.items())
    )


def mutated_result(seed, text):
    """The bytes of a result file with one to three things wrong, made from a sound ``text``."""
    chance = random.Random(seed)  # noqa: S311
    if chance.random() < 0.15:
        return garbled(text.encode(), chance)
    data = json.loads(text)
    return changed(data, chance, lambda: json.dumps(data))


def changed(data, chance, text):
    """Changes ``data`` up to three times; its text, or what there is if it cannot be said."""
    try:
        for _ in range(chance.choice((1, 1, 2, 3))):
            change(data, chance)
        return text().encode("utf-8", "surrogatepass")
    except (RecursionError, ValueError):
        return b"[" * 5000


@dataclass(frozen=True)
class Finding:
    """What became of one file: read, refused or a fault in words.

    ``memory`` is the most that the process had by then, in bytes, where it was measured.
    """

    seed: int
    outcome: str
    seconds: float
    fault: str = ""
    memory: int = 0


@contextmanager
def limited(seconds):
    """TimeoutError in the block after so long."""

    def late(*_):
        raise TimeoutError(f"not read within {seconds} s")

    before = signal.signal(signal.SIGALRM, late)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def examine(seed, content, path, reader, seconds=SECONDS):
    """Write the file, read it with ``reader``, and find what should not be."""
    path.write_bytes(content)
    began = time.monotonic()
    outcome, fault = "read", ""
    try:
        with limited(seconds):
            reader(path)
    except ScenarioError as error:
        outcome, fault = "refused", unclear(str(error))
    except Exception as error:  # whatever it is, it is a fault
        outcome, fault = "fault", f"{type(error).__name__}: {str(error)[:200]}"
    return Finding(seed, outcome, time.monotonic() - began, fault)


def unclear(message):
    """What is wrong with a message: empty, endless, or with something a terminal obeys."""
    lines = message.split("\n")
    if len(lines) > MOST_TOLD + 2:
        return f"a message of {len(lines)} lines"
    if not all(line.strip() and line.isprintable() for line in lines):
        return f"a message with an empty line or an invisible character: {message[:200]!r}"
    longest = max(map(len, lines))
    return f"a line of {longest} characters" if longest > 1500 else ""


def read_scenario(path):
    """Read it; what was accepted must be fit to be shown."""
    case = read(path)
    names = [case.title, *case.feel, *(w.name for w in case.room.walls)]
    names += [n for p in case.pieces for n in (p.name, p.short)]
    names += [o.name for o in (*case.room.doors, *case.room.windows, *case.room.fixtures)]
    if not all(name.isprintable() for name in names):
        raise ValueError(f"an invisible character was accepted: {names!r}")


def compare_it(path):
    """All that ``compare`` does with a result but the drawing; gives the comparison."""
    asked = gathered([path, path])
    found = side_by_side([one.option for one in asked])
    told = compare_csv(found) + as_text(compare_data(found)) + words(found, path.parent, ())
    if not all(line.isprintable() for line in told.replace("\r", "").split("\n")):
        raise ValueError("an invisible character was accepted")
    return found


def draw_it(path):
    """As ``compare_it``, and its sheet."""
    figure = comparison_sheet(compare_it(path))
    figure.savefig(path.with_suffix(".svg"))
