"""Pages of a paper: title, text and rules from the top down, page numbers at the foot."""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING, TypeAlias

from inventory.documents.page_head import PageHead, PaperSize
from inventory.documents.wrapping import HEADING, PLAIN, SMALL, STRONG, TITLE, Type, wrapped
from labels.canvas import open_canvas
from labels.geometry import POINT, Rect, points
from labels.operators import Pen
from labels.placing import Text
from labels.printer import UNKNOWN_PRINTER
from labels.shapes import flag_path
from labels.symbol import Square, cells

if TYPE_CHECKING:
    from collections.abc import Callable

    from reportlab.pdfgen.canvas import Canvas

    from labels import Flag

MARGIN = 13.0
"""Millimetres kept white at every edge: room for punched holes and for any desk printer."""
FOOT = 6.0
BOX = 5.0
"""Side of a box to be ticked with a pencil, in millimetres."""
HAIRLINE, RULE = 0.15, 0.5
FLAG_WIDE = 2.2
"""What a flag's ends add to its word, over the height of the capitals."""
FLAG_TALL = 1.7
_SIZES = {PaperSize.A4: (210.0, 297.0), PaperSize.LETTER: (215.9, 279.4)}
_CELL = 6
"""Printer dots of a QR cell: half a millimetre at 300 to the inch."""

Drawing: TypeAlias = "str | Callable[[Canvas], None]"


class Paper:
    """A paper being written; lengths in millimetres from the page's top left corner."""

    def __init__(self, head: PageHead, title: str, *, landscape: bool = False) -> None:
        size = _SIZES[head.paper]
        self.width, self.height = size[::-1] if landscape else size
        self.left, self.right = MARGIN, self.width - MARGIN
        self.bottom = self.height - MARGIN - FOOT
        self.y = 0.0
        """How far down the page is written."""
        self._head = head
        self._title = title
        self._written = BytesIO()
        self._canvas = open_canvas(self._written)
        self._canvas.setTitle(f"{title}, {head.kit}")
        self._canvas.setPageSize((points(self.width), points(self.height)))
        self._pen = Pen(self._canvas, UNKNOWN_PRINTER)
        self._pages: list[list[Drawing]] = []
        self.new_page()

    @property
    def inner(self) -> float:
        """How wide text may run."""
        return self.right - self.left

    @property
    def room(self) -> float:
        """How much of the page is left."""
        return self.bottom - self.y

    @property
    def tallest(self) -> float:
        """How much room any page but the first has, a table's headings taken off."""
        return self.bottom - MARGIN - 20

    def new_page(self) -> None:
        """Begin a page with the title, small on every page but the first."""
        self._pages.append([])
        first = len(self._pages) == 1
        self.bar(Rect(self.left, MARGIN, 16, 1.4 if first else 0.7))
        kind = TITLE if first else STRONG
        text = self._title if first else f"{self._title}, continued"
        self.y = MARGIN + (4.2 if first else 2.4)
        self.write(text, kind)
        self.y += 0.6
        self.rule(RULE)
        self.y += 2.2

    def need(self, height: float) -> bool:
        """Turn the page unless there is so much room; say whether it was turned."""
        turned = height > self.room
        if turned:
            self.new_page()
        return turned

    def gap(self, height: float) -> None:
        """Leave some room."""
        self.y += height

    def heading(self, text: str, *, keep: float = 20.0) -> None:
        """Write a heading that stays on the page of what follows."""
        self.need(HEADING.line + keep)
        self.gap(2.5)
        self.write(text, HEADING)
        self.gap(0.6)

    def write(self, text: str, kind: Type = PLAIN, *, x: float = 0.0, width: float = 0.0) -> None:
        """Write a paragraph `x` in from the margin, over as many lines and pages as it takes."""
        for line in wrapped(text, kind, (width or self.inner) - x):
            self.need(kind.line)
            self.text(self.left + x, self.y + kind.cap, line, kind)
            self.y += kind.line

    def text(self, x: float, base: float, text: str, kind: Type = PLAIN) -> None:
        """Put one line of type on the page, from its left end and base line."""
        self.draw(self._pen.text(Text(x, base, kind.cap, kind.face, text)))

    def text_right(self, x: float, base: float, text: str, kind: Type = PLAIN) -> None:
        """Put one line of type on the page so that it ends at `x`."""
        self.text(x - kind.width(text), base, text, kind)

    def text_middle(self, x: float, base: float, text: str, kind: Type = PLAIN) -> None:
        """Put one line of type on the page with its middle at `x`."""
        self.text(x - kind.width(text) / 2, base, text, kind)

    def rule(self, thick: float = HAIRLINE) -> None:
        """Draw a line across the page."""
        self.line((self.left, self.y), (self.right, self.y), thick)

    def line(
        self, start: tuple[float, float], end: tuple[float, float], thick: float = HAIRLINE
    ) -> None:
        """Draw a straight line."""
        (x, y), (x2, y2) = start, end
        self.draw(
            f"{points(thick):.2f} w {points(x):.2f} {-points(y):.2f} m"
            f" {points(x2):.2f} {-points(y2):.2f} l S"
        )

    def box(self, area: Rect, thick: float = 0.35) -> None:
        """Draw an empty box."""
        self.draw(f"{points(thick):.2f} w {_rectangle(area)} S")

    def bar(self, area: Rect, grey: float = 0.0) -> None:
        """Draw a filled box, black or grey (0 is black, 1 is white)."""
        self.draw(f"{grey:g} g {_rectangle(area)} f 0 g")

    def flag(self, x: float, y: float, flag: Flag, kind: Type = STRONG) -> float:
        """Draw a hand's word in its shape; return how wide it is."""
        word = kind.width(flag.word)
        area = Rect(x, y, word + FLAG_WIDE * kind.cap, FLAG_TALL * kind.cap)
        base = y + (area.height + kind.cap) / 2
        mark = Text(x + FLAG_WIDE / 2 * kind.cap, base, kind.cap, kind.face, flag.word)
        self.draw(f"{flag_path(flag.shape, area)} 1 g {self._pen.text(mark)} 0 g")
        return area.width

    def code(self, content: str, right: float, y: float) -> float:
        """Draw a QR symbol that ends at `right`, with its text below; return its height."""
        side = cells(content, Square.QR).size * _CELL * UNKNOWN_PRINTER.dot
        area = Rect(right - side, y, side, side)
        self.square(content, area, _CELL)
        self.text_right(right, area.bottom + 2 * SMALL.cap, content, SMALL)
        return side + 3 * SMALL.cap

    def square(self, content: str, area: Rect, cell: int) -> None:
        """Draw a QR symbol whose cells are so many printer dots."""
        self.draw(self._pen.square(content, Square.QR, area, cell))

    def linear(self, content: str, area: Rect, bar: int) -> None:
        """Draw a Code 128 symbol whose narrowest bar is so many printer dots."""
        self.draw(self._pen.linear(content, area, bar))

    def signature(self, words: str) -> None:
        """Leave room for a name and a day to be written by hand."""
        self.need(18)
        self.gap(10)
        x = self.left
        for word, length in ((words, 60.0), ("on", 34.0)):
            self.text(x, self.y, word)
            x += PLAIN.width(word) + 2
            self.line((x, self.y + 0.6), (x + length, self.y + 0.6))
            x += length + 5
        self.gap(3)

    def draw(self, drawing: Drawing) -> None:
        """Keep operators, or a call of the canvas, for the page."""
        self._pages[-1].append(drawing)

    def save(self) -> bytes:
        """Return the PDF, each page with its number and the count of pages."""
        for number, page in enumerate(self._pages, start=1):
            self._pen.write(f"q 1 0 0 1 0 {points(self.height):.3f} cm")
            self._foot(page, number)
            for drawing in page:
                if isinstance(drawing, str):
                    self._pen.write(drawing)
                else:
                    drawing(self._canvas)
            self._pen.write("Q")
            self._canvas.showPage()
        self._canvas.save()
        return self._written.getvalue()

    def _foot(self, page: list[Drawing], number: int) -> None:
        """Add the line at the foot of a page."""
        base = self.height - MARGIN
        texts = [
            Text(self.left, base, SMALL.cap, SMALL.face, self._head.foot()),
        ]
        words = f"page {number} of {len(self._pages)}"
        x = self.right - STRONG.width(words)
        texts.append(Text(x, base, STRONG.cap, STRONG.face, words))
        page.extend(self._pen.text(text) for text in texts)


def _rectangle(area: Rect) -> str:
    """Return a rectangle's path in points, y upwards from the top of the page."""
    return (
        f"{points(area.x):.2f} {-points(area.bottom):.2f}"
        f" {area.width / POINT:.2f} {area.height / POINT:.2f} re"
    )
