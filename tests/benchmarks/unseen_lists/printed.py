"""Print sheets as a PDF with a text layer, a page each, its columns at given places."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from sample_kits.spreadsheets import Sheet

TOP, LINE, SIZE = 800, 13, 8
"""Points; a page is A4."""


def write_pdf(sheets: Sequence[Sheet], path: Path) -> None:
    """Print each sheet on a page of its own; a sheet's widths are the left edges of its columns."""
    from reportlab.pdfgen.canvas import Canvas  # noqa: PLC0415

    canvas = Canvas(str(path), invariant=1)
    for sheet in sheets:
        canvas.setFont("Helvetica", SIZE)
        for number, row in enumerate(sheet.rows):
            for place, value in zip(sheet.widths, row, strict=False):
                height = TOP - LINE * number
                if isinstance(value, int):
                    canvas.drawRightString(place + 20, height, str(value))
                elif value is not None:
                    canvas.drawString(place, height, str(value))
        canvas.showPage()
    canvas.save()
