"""Pages as a printer rasters them, and what two independent decoders read on them."""

from __future__ import annotations

import ctypes
import math
import warnings
from contextlib import contextmanager
from typing import TYPE_CHECKING

import pypdfium2
import pypdfium2.raw as pdfium
import zxingcpp

from tests.programs import require_library

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PIL import Image

    from labels.geometry import Rect

INCH = 25.4


@contextmanager
def old_version_parsing() -> Iterator[None]:
    """Let pylibdmtx be imported, which still compares versions by distutils."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        yield


def raster(pdf: bytes, dots_per_inch: float, page: int = 0, shift: float = 0.0) -> Image.Image:
    """Return a page in grey, its top left corner `shift` dots beside a corner of the dots.

    PDFium's usual call stretches a page to whole dots; a printer doesn't, so its matrix is given.
    """
    document = pypdfium2.PdfDocument(pdf)
    opened = document[page]
    width, height = opened.get_size()
    wide, tall = (math.ceil(side * dots_per_inch / 72 - 1e-6) for side in (width, height))
    bitmap = pypdfium2.PdfBitmap.new_native(wide, tall, pdfium.FPDFBitmap_Gray)
    bitmap.fill_rect((255, 255, 255, 255), 0, 0, wide, tall)
    scale = dots_per_inch / 72
    matrix = pdfium.FS_MATRIX(scale, 0, 0, scale, shift, shift)
    clip = pdfium.FS_RECTF(0, 0, wide, tall)
    pdfium.FPDF_RenderPageBitmapWithMatrix(
        bitmap.raw, opened.raw, ctypes.byref(matrix), ctypes.byref(clip), 0
    )
    image: Image.Image = bitmap.to_pil().convert("L")
    opened.close()
    document.close()
    return image


def printed(image: Image.Image, white: int = 128) -> Image.Image:
    """Return the picture in black and white, as a print head leaves it.

    A dot darker than `white` is black; with 255 any ink at all makes it so, as in some drivers.
    """
    return image.point(lambda grey: 255 if grey >= white else 0)


def cropped(image: Image.Image, rect: Rect, dots_per_inch: float) -> Image.Image:
    """Return a part of the page, given in millimetres."""
    dots = dots_per_inch / INCH
    corners = (rect.x, rect.y, rect.right, rect.bottom)
    return image.crop(tuple(round(side * dots) for side in corners))  # type: ignore[arg-type]


def read_zxing(image: Image.Image) -> set[tuple[str, str]]:
    """Return symbology and text of everything zxing-cpp reads."""
    kinds = zxingcpp.BarcodeFormat
    formats = zxingcpp.BarcodeFormats([kinds.Code128, kinds.QRCode, kinds.DataMatrix])
    found = zxingcpp.read_barcodes(image, formats=formats, text_mode=zxingcpp.TextMode.Plain)
    return {(_NAMES[str(one.format)], one.text) for one in found}


def read_zbar(image: Image.Image) -> set[tuple[str, str]]:
    """Return what zbar reads of Code 128 and QR, each distinct text once."""
    require_library("zbar")
    from pyzbar.pyzbar import ZBarSymbol, decode  # noqa: PLC0415  # loads the system library

    found = decode(image, symbols=[ZBarSymbol.CODE128, ZBarSymbol.QRCODE])
    kinds = {"CODE128": "Code 128", "QRCODE": "QR"}
    return {(kinds[one.type], one.data.decode()) for one in found}


def read_dmtx(image: Image.Image) -> set[tuple[str, str]]:
    """Return what libdmtx reads of Data Matrix."""
    require_library("dmtx")
    with old_version_parsing():
        from pylibdmtx.pylibdmtx import decode  # noqa: PLC0415  # loads the system library

    found = decode(image, timeout=4000, max_count=1)
    return {("Data Matrix", one.data.decode()) for one in found}


_NAMES = {"Code 128": "Code 128", "QR Code": "QR", "Data Matrix": "Data Matrix"}
