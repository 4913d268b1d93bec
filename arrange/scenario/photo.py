"""Opens a photo that may come from anybody: PNG or JPEG, beside the scenario, not too large.

What is in its head is read before anything is decoded: what kind of file it is, how many pixels
it would make, which side is up. Its colours are taken for sRGB.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path, PureWindowsPath
from typing import TYPE_CHECKING

from arrange.errors import Fault, ScenarioError

if TYPE_CHECKING:
    import numpy as np
    import numpy.typing as npt

ENDINGS = (".png", ".jpg", ".jpeg")
LARGEST = 12_000_000  # bytes; a photo of 12 megapixels has 5 million
MOST_PIXELS = 16_000_000
LONGEST_SIDE = 12_000
KEPT = 700  # pixels that the longer side has at most, of what is kept of it
PNG, JPEG = b"\x89PNG\r\n\x1a\n", b"\xff\xd8"
# Marks in a JPEG file that tell its size: all C0 to CF but DHT, JPG and DAC.
FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
ALONE = frozenset({0x01, *range(0xD0, 0xD9)})  # nothing comes with these
EXIF, UP = b"Exif\0\0", 0x0112  # where EXIF begins, and what tells which side is up
SMALLER = "save it as an ordinary PNG or JPEG, up to 16 megapixels"


@dataclass(frozen=True, slots=True)
class Head:
    """What the head of a photo tells: pixels, colours a pixel, and EXIF's number for its turn."""

    width: int
    height: int
    channels: int
    turn: int = 1


def beside(scenario: str, name: str) -> Path | None:
    """Where a photo lies that a scenario file names; None for a name that leads elsewhere."""
    path = Path(name)
    inside = not path.is_absolute() and not PureWindowsPath(name).drive and ".." not in path.parts
    if not name or not inside or path.suffix.casefold() not in ENDINGS:
        return None
    return Path(scenario).parent / path


@lru_cache(maxsize=64)
def pixels(file: str) -> npt.NDArray[np.uint8]:
    """A photo as rows of pixels: red, green, blue, and how opaque each is, 0 to 255.

    The upper side comes first. A large photo is brought down by taking means of squares.

    Raises
    ------
    ScenarioError
        In one sentence, whatever is wrong with it.
    """
    data = _bytes(file)
    head = head_of(data)
    if head is None:
        raise _refused(file, "not a PNG or JPEG file that we can read")
    if head.width * head.height > MOST_PIXELS or max(head.width, head.height) > LONGEST_SIDE:
        raise _refused(file, f"{head.width} x {head.height} pixels")
    if head.channels > 3 and not data.startswith(PNG):
        raise _refused(file, "colours for printing (CMYK)")
    return _decoded(file, data, head)


def _bytes(file: str) -> bytes:
    path = Path(file)
    try:
        if path.exists() and not path.is_file():  # a named pipe waits for its writer
            raise _refused(file, "this is not a file")
        with path.open("rb") as opened:
            data = opened.read(LARGEST + 1)
    except (OSError, ValueError) as error:
        if isinstance(error, ScenarioError):
            raise
        reason = getattr(error, "strerror", None) or str(error)
        raise _refused(file, f"cannot be read ({reason})") from None
    if len(data) > LARGEST:
        raise _refused(file, f"over {LARGEST // 10**6} MB")
    return data


def _decoded(file: str, data: bytes, head: Head) -> npt.NDArray[np.uint8]:
    import io  # noqa: PLC0415
    import warnings  # noqa: PLC0415

    import numpy as np  # noqa: PLC0415  for photos alone
    from matplotlib.image import imread  # noqa: PLC0415

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            found = imread(io.BytesIO(data), format="png" if data.startswith(PNG) else "jpg")
    except Exception:  # a decoder may raise anything at what is broken
        raise _refused(file, "broken, or cut off") from None
    if found.shape[:2] != (head.height, head.width):
        raise _refused(file, "broken, or cut off")
    if found.dtype != np.uint8:
        found = np.round(255 * np.clip(found.astype(np.float32), 0, 1)).astype(np.uint8)
    if found.ndim == 2:
        found = np.repeat(found[:, :, None], 3, axis=2)
    elif found.shape[2] == 2:  # grey, and how opaque
        found = np.concatenate((np.repeat(found[:, :, :1], 3, axis=2), found[:, :, 1:]), axis=2)
    if found.shape[2] == 3:
        opaque = np.full((*found.shape[:2], 1), 255, dtype=np.uint8)
        found = np.concatenate((found, opaque), axis=2)
    return _upright(_smaller(found), head.turn)


def _smaller(found: npt.NDArray[np.uint8]) -> npt.NDArray[np.uint8]:
    import numpy as np  # noqa: PLC0415  for photos alone

    by = -(-max(found.shape[:2]) // KEPT)
    rows, columns = (max(1, n // by) for n in found.shape[:2])
    by_rows, by_columns = (min(by, n) for n in found.shape[:2])
    cut = found[: rows * by_rows, : columns * by_columns]
    squares = cut.reshape(rows, by_rows, columns, by_columns, 4)
    return np.asarray(np.round(squares.mean(axis=(1, 3))).astype(np.uint8))


def _upright(found: npt.NDArray[np.uint8], turn: int) -> npt.NDArray[np.uint8]:
    """Turned and mirrored as the camera says it was held (EXIF 2.3, orientation; from memory)."""
    import numpy as np  # noqa: PLC0415  for photos alone

    if turn in (5, 6, 7, 8):
        found = found.transpose(1, 0, 2)
    if turn in (2, 3, 6, 7):
        found = found[:, ::-1]
    if turn in (3, 4, 7, 8):
        found = found[::-1]
    return np.ascontiguousarray(found)


def head_of(data: bytes) -> Head | None:
    """What the head tells; None if it is neither PNG nor JPEG, or tells nothing."""
    if data.startswith(PNG):
        return _png(data)
    return _jpeg(data) if data.startswith(JPEG) else None


def _png(data: bytes) -> Head | None:
    if len(data) < 33 or data[12:16] != b"IHDR":
        return None
    width, height, _, kind = struct.unpack(">IIBB", data[16:26])
    channels = {0: 1, 2: 3, 3: 3, 4: 2, 6: 4}.get(kind)
    return Head(width, height, channels) if channels and width and height else None


def _jpeg(data: bytes) -> Head | None:
    at, turn = 2, 1
    while at + 4 <= len(data):
        if data[at] != 0xFF:
            return None
        mark = data[at + 1]
        if mark == 0xFF or mark in ALONE:
            at += 1 if mark == 0xFF else 2
            continue
        size = struct.unpack(">H", data[at + 2 : at + 4])[0]
        part = data[at + 4 : at + 2 + size]
        if mark in FRAMES:
            if len(part) < 6:
                return None
            height, width, channels = struct.unpack(">HHB", part[1:6])
            return Head(width, height, channels, turn) if width and height else None
        if mark == 0xE1 and part.startswith(EXIF):
            turn = _turn(part[len(EXIF) :])
        if size < 2:
            return None
        at += 2 + size
    return None


def _turn(tiff: bytes) -> int:
    """Which side is up, as EXIF counts it from 1 to 8; 1 where nothing sound is said."""
    order = {b"II": "<", b"MM": ">"}.get(tiff[:2])
    if order is None or len(tiff) < 8:
        return 1
    start = struct.unpack(f"{order}I", tiff[4:8])[0]
    entries = tiff[start : start + 2]
    count = struct.unpack(f"{order}H", entries)[0] if len(entries) == 2 else 0
    for i in range(min(count, 100)):
        entry = tiff[start + 2 + 12 * i : start + 14 + 12 * i]
        if len(entry) < 12:
            break
        tag, _, _, value = struct.unpack(f"{order}HHIH", entry[:10])
        if tag == UP:
            return value if 1 <= value <= 8 else 1
    return 1


def _refused(file: str, given: str) -> ScenarioError:
    return ScenarioError(file, (Fault("", given, SMALLER),))
