"""Looks whether a run left everything it promises: ``promised.py result.json ...``."""

from __future__ import annotations

import json
import sys
from pathlib import Path

BEGINS = {".png": b"\x89PNG", ".pdf": b"%PDF", ".svg": b"<?xml"}


def faults(result: Path) -> list[str]:
    """What is missing or is not what its name says, beside one ``result.json``."""
    data = json.loads(result.read_text(encoding="utf-8"))
    found = [] if data["arrangements"] else [f"{result}: no arrangement in it"]
    plans = [name for name in data["files"] if name.startswith("plan-")]
    places = [name for name in data["files"] if name.startswith("place-")]
    if not len(plans) == len(places) == len(data["arrangements"]):
        found.append(f"{result}: names {data['files']}; two sheets of each plan are promised")
    if len(plans) > 1 and not any(name.startswith("overview") for name in data["files"]):
        found.append(f"{result}: no overview of several plans")
    for name in [*data["files"], "run.json"]:
        path = result.with_name(name)
        if not path.is_file() or not path.stat().st_size:
            found.append(f"{path}: is not there, or empty")
        elif not path.read_bytes().startswith(BEGINS.get(path.suffix, b"{")):
            found.append(f"{path}: is no {path.suffix} file")
    return found


def main(names: list[str]) -> int:
    """0 if all is there; what is not goes to stderr."""
    found = [fault for name in names for fault in faults(Path(name))]
    if not names:
        found = ["no result.json was written"]
    sys.stderr.write("".join(f"{fault}\n" for fault in found))
    sys.stdout.write("" if found else f"{len(names)} result.json with all its files\n")
    return bool(found)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
