"""The layers of a plan in an SVG file: a group with an id each, and in it one for each piece.

SVG 1.1 paints in the order of the file and has no z. So a plan's artists, which are drawn by
their z, are sorted into groups in an order that paints the same. Ids are made of names; the
name itself is the group's title. The file needs no DOCTYPE (SVG 2 has none) and gets none.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from xml.etree import ElementTree as ET

from matplotlib.artist import Artist
from matplotlib.figure import Figure

from arrange.draw.board import PLAN

# From the floor up, in the order in which they are painted.
LAYERS = (
    *("floor", "ways", "pieces-flat", "clearances", "walls", "fixtures", "openings", "pieces"),
    *("fixtures-above", "labels"),
)
# What is drawn up to which z belongs to which layer, unless its own mark says otherwise.
BY_HEIGHT = (
    (1.0, "floor"),
    (2.0, "ways"),
    (3.0, "fixtures"),
    (3.5, "pieces-flat"),
    (4.0, "clearances"),
    (5.0, "openings"),
    (6.0, "fixtures"),
    (6.1, "walls"),
    (8.0, "openings"),
    (10.0, "labels"),
    (15.0, "pieces"),
)
STANDS, HANGS = 10.0, 15.0  # z from which pieces stand up, and from which all hangs above them
# Ids of what else would be called like its layer; the floor's path is the outline of the room.
CALLED = {"floor": "room-outline", "walls": "walls-cut", "clearances": "clearances-hatching"}
OF_A_PIECE = ("piece", "part")
SVG, XLINK = "http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"
PREFIXES = {"": SVG, "xlink": XLINK, "cc": "http://creativecommons.org/ns#"}
GROUP, TITLE = f"{{{SVG}}}g", f"{{{SVG}}}title"
MARK = re.compile(r"layer\|([a-z-]+)\|(.*)", re.DOTALL)
VALID = re.compile(r"[A-Za-z_][\w.-]*", re.ASCII)


def layer_of(artist: Artist) -> str:
    """The layer that something drawn on a plan belongs to."""
    z, sort = artist.get_zorder(), (artist.get_gid() or "").partition(":")[0]
    if sort in OF_A_PIECE and z >= 1:
        return "pieces" if z >= STANDS else "pieces-flat"
    if sort == "fixture":
        return "fixtures-above" if z >= HANGS else "fixtures"
    return next((layer for below, layer in BY_HEIGHT if z < below), "labels")


@contextmanager
def marked(figure: Figure) -> Iterator[None]:
    """While it lasts everything on the plans of a figure says its layer, for ``layered``."""
    plans = [ax for ax in figure.axes if ax.get_gid() == PLAN]
    artists = [one for ax in plans for one in ax.get_children() if one is not ax.patch]
    before = [one.get_gid() for one in artists]
    for one, gid in zip(artists, before, strict=True):
        one.set_gid(f"layer|{layer_of(one)}|{gid or ''}")
    try:
        yield
    finally:
        for one, gid in zip(artists, before, strict=True):
            one.set_gid(gid or "")


def layered(file: Path) -> None:
    """Sort an SVG file that was written while its figure was ``marked``."""
    for prefix, space in PREFIXES.items():
        ET.register_namespace(prefix, space)
    parser = ET.XMLParser(target=ET.TreeBuilder(insert_comments=True))  # noqa: S314  our own
    root = ET.fromstring(file.read_text(encoding="utf-8"), parser)  # noqa: S314
    ids = _Ids(root)
    for plan in [one for one in root.iter(GROUP) if one.get("id") == PLAN]:
        _sort(plan, ids)
    for group in root.iter(GROUP):
        if (name := group.get("id")) is not None and group not in ids.given:
            ids.give(group, name, keep=VALID.fullmatch(name) is not None)
    text = ET.tostring(root, encoding="unicode")
    file.write_text(f'<?xml version="1.0" encoding="utf-8"?>\n{text}\n', encoding="utf-8")


def _sort(plan: ET.Element, ids: _Ids) -> None:
    """Put the drawn parts of one plan into its layers."""
    parts: dict[str, list[tuple[str, ET.Element]]] = {layer: [] for layer in LAYERS}
    for child in list(plan):
        mark = MARK.fullmatch(child.get("id", ""))
        if mark is not None:
            plan.remove(child)
            parts[mark[1]].append((mark[2], child))
    for layer, members in parts.items():
        if not members:
            continue
        group = ids.give(ET.SubElement(plan, GROUP), layer)
        pieces: dict[str, ET.Element] = {}
        for gid, child in members:
            sort, _, name = gid.partition(":")
            if sort not in OF_A_PIECE or not layer.startswith("pieces"):
                ids.give(child, CALLED.get(gid, gid))
                group.append(child)
                continue
            if name not in pieces:
                pieces[name] = ids.give(ET.SubElement(group, GROUP), f"piece-{name}")
                ET.SubElement(pieces[name], TITLE).text = name
            ids.give(child, f"{pieces[name].get('id')}-outline" if sort == "piece" else "")
            pieces[name].append(child)


class _Ids:
    """Ids given so far: each once, of letters, digits and hyphens."""

    def __init__(self, root: ET.Element) -> None:
        # What is referred to keeps its id: clips, letters, markers.
        self._taken = {one.get("id") for one in root.iter() if one.tag != GROUP}
        self.given: set[ET.Element] = set()

    def give(self, element: ET.Element, wanted: str, *, keep: bool = False) -> ET.Element:
        """The element with an id made of ``wanted`` (that itself to ``keep``); none if empty."""
        self.given.add(element)
        if not wanted:
            element.attrib.pop("id", None)
            return element
        name = wanted if keep else _plain(wanted)
        number, found = 1, name
        while found in self._taken:
            number += 1
            found = f"{name}-{number}"
        self._taken.add(found)
        element.set("id", found)
        return element


def _plain(name: str) -> str:
    """A name as an id.

    >>> _plain("piece-Désk (oak)")
    'piece-desk-oak'
    """
    letters = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().casefold()
    plain = re.sub(r"[^a-z0-9]+", "-", letters).strip("-")
    return plain if plain[:1].isalpha() else f"part-{plain}".rstrip("-")
