"""The files that ``arrange swap`` writes."""

from __future__ import annotations

from arrange.data.swap import Swap
from arrange.output import Folder, Maker


def write_files(swap: Swap, folder: Folder, suffix: str) -> tuple[str, ...]:
    """The picture before and after if there is one, and ``swap.json``, last of all."""
    from arrange.draw import save  # noqa: PLC0415
    from arrange.draw.before_after import before_after_sheet  # noqa: PLC0415
    from arrange.results import as_text  # noqa: PLC0415
    from arrange.results.swap import SWAP, swap_data  # noqa: PLC0415

    makers: list[tuple[str, Maker]] = []
    if any(a.works for r in (swap.free, swap.held) for a in (r.before, r.after)):
        sheet = before_after_sheet(swap)
        makers.append((f"before-after.{suffix}", lambda path: save(sheet, path)))
    names = (*(name for name, _ in makers), SWAP)
    data = as_text(swap_data(swap, names)).encode()
    folder.write([*makers, (SWAP, lambda path: path.write_bytes(data))])
    return names
