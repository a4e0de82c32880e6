"""Square symbols as rows of dark and light cells: QR (ISO/IEC 18004), Data Matrix (16022)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import cast

from labels.errors import LabelError


class Square(StrEnum):
    """Which square symbol a label carries."""

    QR = "QR"
    """What people's phones read unaided."""
    DATA_MATRIX = "Data Matrix"
    """Smaller, for tiny drawers; many phones need a page or program to read it."""


_DIGITS = bytes.maketrans(b"\x00\x01", b"01")
QUIET = {Square.QR: 4, Square.DATA_MATRIX: 1}
"""Cells of white on all sides (ISO/IEC 18004:2015, 9.1; ISO/IEC 16022:2006, 7.1)."""


@dataclass(frozen=True, slots=True)
class Cells:
    """A square symbol without its quiet zone: each row a string of ones (dark) and zeros."""

    rows: tuple[str, ...]
    quiet: int

    @property
    def size(self) -> int:
        """Cells on each side."""
        return len(self.rows)


@lru_cache(maxsize=4096)
def cells(text: str, kind: Square) -> Cells:
    """Return the symbol of a text; remembered, since choosing a mask takes a millisecond.

    Raises `LabelError` where the text is empty or too long, or the encoder isn't installed.
    """
    if not text:
        raise LabelError(f"nothing was given to stand in {kind}", "Give the text to encode.")
    rows = _qr_rows(text) if kind is Square.QR else _data_matrix_rows(text)
    return Cells(rows, QUIET[kind])


def _qr_rows(text: str) -> tuple[str, ...]:
    """Return a QR symbol of level M or better; never Micro QR, which few readers know."""
    import segno  # noqa: PLC0415  # only where a symbol is drawn

    try:
        symbol = segno.make(text, micro=False, error="m", boost_error=True)
    except segno.DataOverflowError as fault:
        raise _too_long(text, Square.QR) from fault
    return tuple(bytes(row).translate(_DIGITS).decode() for row in symbol.matrix)


def _data_matrix_rows(text: str) -> tuple[str, ...]:
    """Return a square ECC 200 symbol; without `force_square` short texts become oblongs."""
    try:
        import zxingcpp  # noqa: PLC0415  # not everyone wants Data Matrix
    except ImportError as fault:
        raise LabelError(
            "Data Matrix needs the zxing-cpp library",
            "Install kitwright[web], which brings it, or choose QR.",
        ) from fault
    try:
        symbol = zxingcpp.create_barcode(text, zxingcpp.BarcodeFormat.DataMatrix, force_square=True)
    except ValueError as fault:
        raise _too_long(text, Square.DATA_MATRIX) from fault
    image = symbol.to_image(scale=1, add_quiet_zones=False)
    side = image.shape[1]
    pixels = memoryview(cast("bytes", image))  # a buffer, though its stub doesn't say so
    dark = "".join("1" if grey == 0 else "0" for grey in pixels.tobytes())
    return tuple(dark[row : row + side] for row in range(0, len(dark), side))


def _too_long(text: str, kind: Square) -> LabelError:
    """Return the refusal of a text that the symbol can't hold."""
    return LabelError(f"{len(text)} characters are too many for {kind}", "Encode a shorter text.")
