"""Writing a figure as PNG, SVG or PDF: the same figure gives the same bytes."""

from __future__ import annotations

import os
import tempfile
import warnings
from pathlib import Path
from typing import Any

import matplotlib as mpl
from matplotlib.figure import Figure

from arrange.draw.style import FONT

DPI = 150
# Everything that would make two files of the same picture differ is left out.
METADATA: dict[str, dict[str, Any]] = {
    ".png": {"Software": None},
    ".svg": {"Date": None, "Creator": None},
    ".pdf": {"CreationDate": None, "Creator": None, "Producer": None},
}
SETTINGS: Any = {
    "font.family": [FONT],
    "svg.hashsalt": "arrange",
    "svg.fonttype": "path",
    "pdf.fonttype": 3,
    "pdf.compression": 6,
    "savefig.bbox": None,
    "path.simplify": False,
    "text.usetex": False,
    # Letters keep the widths they were measured with, at every resolution.
    "text.hinting": "none",
}


def save(figure: Figure, path: str | Path) -> Path:
    """Write ``figure`` to ``path``; its suffix says whether PNG, SVG or PDF.

    The file appears whole or not at all: it is written beside its place under
    another name first. Raises ValueError for any other suffix.
    """
    target = Path(path)
    suffix = target.suffix.lower()
    if suffix not in METADATA:
        known = ", ".join(METADATA)
        raise ValueError(
            f"{target.name}: pictures are written as {known}, not {suffix or 'nothing'}"
        )
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=f".{target.stem}-", suffix=suffix)
    os.close(handle)
    try:
        with mpl.rc_context(SETTINGS), warnings.catch_warnings():
            # A letter our font lacks is drawn as a box; the person cannot mend that.
            warnings.filterwarnings("ignore", message=".*[Gg]lyph")
            figure.savefig(
                name, format=suffix[1:], dpi=DPI, metadata=METADATA[suffix], facecolor="white"
            )
        _allow_reading(Path(name))
        Path(name).replace(target)
    finally:
        Path(name).unlink(missing_ok=True)
    return target


def _allow_reading(path: Path) -> None:
    """Give a temporary file the rights any new file would have."""
    mask = os.umask(0)
    os.umask(mask)
    path.chmod(0o666 & ~mask)
