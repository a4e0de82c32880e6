"""Pictures sent by a phone: decoded with care, and encoded anew without anything but pixels."""

from __future__ import annotations

import threading
import warnings
from io import BytesIO
from typing import TYPE_CHECKING, TypeVar

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Callable

    from PIL.Image import Image
    from PIL.ImageFile import ImageFile

T = TypeVar("T")

MOST_BYTES = 12_000_000
MOST_PIXELS = 50_000_000
LONGEST_SIDE = 4096
"""Pixels; a larger picture is made smaller."""
_QUALITY = 88
_AS_JPEG = "Send it as JPEG or PNG; phones can be set to `most compatible`."


_ONE_AT_A_TIME = threading.Lock()
"""One picture's pixels can fill 200 MB; and warnings are silenced for the whole program."""


class _TooLargeError(Exception):
    """More pixels than are ever decoded."""


@frozen
class CleanPicture:
    """A picture encoded anew: upright, without place, time, camera or comment."""

    content: bytes
    kind: str
    """jpg or png."""
    width: int
    height: int


def clean_picture(raw: bytes, label: str) -> CleanPicture:
    """Return the picture's pixels encoded anew; refuse what is too large, damaged or no picture.

    Only JPEG, PNG and WebP, each by the decoder that the first bytes name.
    """
    kind, image = _opened(raw, label, _pixels)
    return CleanPicture(_encoded(image, kind), kind, image.width, image.height)


def grey_picture(raw: bytes, label: str, longest: int) -> Image:
    """Return the picture upright and in grey, its longer side at most so many pixels.

    Refused as by `clean_picture`. A JPEG is decoded at a fraction of its size where that suffices.
    """

    def grey(opened: ImageFile, sniffed: str) -> Image:
        from PIL import ImageOps  # noqa: PLC0415

        if sniffed == "JPEG":
            opened.draft("L", (longest, longest))
        opened.load()
        upright = ImageOps.exif_transpose(opened).convert("L")
        upright.thumbnail((longest, longest))
        return upright

    return _opened(raw, label, grey)


def _kind_of(raw: bytes) -> str:
    if raw.startswith(b"\xff\xd8\xff"):
        return "JPEG"
    if raw.startswith(b"\x89PNG\r\n\x1a\n"):
        return "PNG"
    if raw[:4] == b"RIFF" and raw[8:12] == b"WEBP":
        return "WebP"
    return ""


def _opened(raw: bytes, label: str, pixels: Callable[[ImageFile, str], T]) -> T:
    if not raw:
        raise InventoryError("the picture is empty", where=label, remedy="Send it again.")
    if len(raw) > MOST_BYTES:
        raise InventoryError(
            f"the picture has {len(raw) / 1e6:.1f} MB; the most is {MOST_BYTES / 1e6:.0f} MB",
            where=label,
            remedy="Send it in a smaller size.",
        )
    sniffed = _kind_of(raw)
    if not sniffed:
        raise InventoryError("this is no JPEG, PNG or WebP picture", where=label, remedy=_AS_JPEG)
    try:
        with _ONE_AT_A_TIME, warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of metadata that is left behind anyway
            return _checked(raw, sniffed, pixels)
    except _TooLargeError as bomb:
        raise InventoryError(
            f"the picture has more than {MOST_PIXELS // 10**6} million pixels",
            where=label,
            remedy="Send it in a smaller size.",
        ) from bomb
    except Exception as fault:  # a mangled picture raises anything, struct.error and TypeError too
        raise InventoryError(
            f"the {sniffed} picture is damaged or cut off", where=label, remedy="Send it again."
        ) from fault


def _checked(raw: bytes, sniffed: str, pixels: Callable[[ImageFile, str], T]) -> T:
    from PIL.Image import DecompressionBombError  # noqa: PLC0415

    try:
        opened = _decoder(sniffed)(BytesIO(raw))
    except DecompressionBombError as bomb:
        raise _TooLargeError from bomb
    with opened:
        if opened.width * opened.height > MOST_PIXELS:
            raise _TooLargeError
        return pixels(opened, sniffed)


def _pixels(opened: ImageFile, sniffed: str) -> tuple[str, Image]:
    from PIL import ImageOps  # noqa: PLC0415

    if sniffed == "JPEG":
        opened.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
    opened.load()
    upright = ImageOps.exif_transpose(opened)
    clear = sniffed != "JPEG" and upright.has_transparency_data
    mode = "L" if upright.mode in {"1", "L"} and not clear else "RGBA" if clear else "RGB"
    pixels = upright.convert(mode)
    pixels.thumbnail((LONGEST_SIDE, LONGEST_SIDE))
    return ("png" if sniffed == "PNG" or clear else "jpg"), pixels


def _encoded(image: Image, kind: str) -> bytes:
    """Encode the pixels and nothing else of the picture."""
    from PIL import Image as pictures  # noqa: PLC0415, N813

    bare = pictures.frombytes(image.mode, image.size, image.tobytes())
    file = BytesIO()
    if kind == "png":
        bare.save(file, "PNG")
    else:
        bare.save(file, "JPEG", quality=_QUALITY)
    return file.getvalue()


def _decoder(sniffed: str) -> Callable[[BytesIO], ImageFile]:
    """Return the one decoder asked for: no other format can be smuggled in.

    Pillow's own opener would only warn of a bomb, and look at its size after trying all formats.
    """
    from PIL.JpegImagePlugin import JpegImageFile  # noqa: PLC0415
    from PIL.PngImagePlugin import PngImageFile  # noqa: PLC0415
    from PIL.WebPImagePlugin import WebPImageFile  # noqa: PLC0415

    if sniffed == "JPEG":
        return JpegImageFile
    return PngImageFile if sniffed == "PNG" else WebPImageFile
