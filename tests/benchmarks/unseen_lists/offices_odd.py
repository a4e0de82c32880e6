"""Three offices whose files themselves are odd: empty columns, wrong endings, ragged rows."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sample_kits.spreadsheets import Cell, Sheet
from tests.benchmarks.unseen_lists.page import Document, Meant, Page, amounts, meant
from tests.benchmarks.unseen_lists.supply import group

if TYPE_CHECKING:
    from random import Random

    from tests.benchmarks.unseen_lists.page import Ask


def wigeon(random: Random) -> Document:
    """Empty columns between; small letters and soft hyphens; remarks that name other numbers."""
    page = Page(Sheet("Packing", widths=(4, 18, 3, 40, 3, 8, 8, 30)))
    page.put("head", None, "WIGEON CREEK SPORT PLANES (an invented office)", bold=True)
    page.put("head", None, "Ship to: boat shed 2", None, "Packed 3 July 2026 by shift B")
    page.put("blank")
    columns = ("Part", None, "Description", None, "Side", "Qty", "Remarks")
    page.put("head", None, *columns, bold=True)
    hands = {"left": "lh", "right": "rh", "pair": "lh+rh", "either": "either"}
    for crate in (1, 2):
        found = group(random, "dash", crate, size=11)
        top = page.put("heading", None, f"CARTON {crate}: {found.name}", bold=True)
        page.sheet.merges.append((top, 2, top, 8))
        for part in found.parts:
            printed = disguised(random, part.number)
            remark, ask, readings = remarked(random, part.pieces)
            truth = replace(meant(part), amounts=readings, bag="", crate=str(crate))
            cells = (None, printed, None, part.words, None, hands.get(part.hand), part.pieces)
            page.part((*cells, remark), [truth], ask)
        page.put("blank")
        page.put("note|blank", None, "* * *")
    lines = sum(bool(truth.parts) for truth in page.truths)
    page.put("total", None, "TOTAL LINES", None, None, None, None, lines + 1, ask="may")
    page.put("note", None, "Lines may differ from the order. See the letter.")
    return Document("wigeon", "xlsx", (page,))


def disguised(random: Random, number: str) -> str:
    """Return a part number as it comes out of careless typing; it still is the same number."""
    changes = (
        number,
        number,
        number.lower(),
        f" {number}",
        f"{number}\u00a0",
        number.replace("-", "\u2011"),
        f"{number[:3]}\u00ad{number[3:]}",
    )
    return random.choice(changes)


def remarked(
    random: Random, pieces: int
) -> tuple[str | None, Ask, tuple[tuple[str, str, str], ...]]:
    """Return a remark, whether a question is fair, and the amounts it leaves."""
    plain = (amounts(pieces, pieces),)
    all_due = (amounts(pieces, 0, pieces),)
    choices: tuple[tuple[str | None, Ask, tuple[tuple[str, str, str], ...]], ...] = (
        *((None, "no", plain),) * 10,
        ("film on both faces", "no", plain),
        ("see drawing 14", "no", plain),
        ("used with WX-0001-01", "may", plain),
        ("SUB FOR WX-0002-02", "may", plain),
        ("BACKORDERED", "may", all_due),
        ("to follow", "may", all_due),
        ("NIS", "may", (*all_due, *plain)),
    )
    return random.choice(choices)


def garganey(random: Random) -> Document:
    """A stock system's export: tabs under the ending .xls, upper case, a line for each hand."""
    page = Page(Sheet("export"))
    columns = ("LINE", "ITEM CODE", "ITEM DESC", "HAND", "QTY ORDERED", "QTY SHIPPED", "QTY B/O")
    page.put("head", *columns, "UOM", "CASE")
    hands = {"left": "L", "right": "R", "either": "E"}
    line = 0
    for crate in (1, 2, 3):
        for part in group(random, "zeros", crate).parts:
            halves = [part]
            if part.hand == "pair":
                half = replace(part, pieces=part.pieces // 2, due=part.due // 2)
                halves = [replace(half, hand=hand) for hand in ("left", "right")]
            for one in halves:
                line += 1
                given = (one.pieces, one.sent, one.due, "EA", crate)
                cells = (line, one.number, one.words, hands.get(one.hand, ""), *given)
                fair: Ask = "may" if one.hand == "either" else "no"
                page.part(cells, [replace(meant(one), bag="", crate=str(crate))], fair)
    page.put("total|note", "END", "", f"{line} RECORDS")
    return Document("garganey", "xls;\t;cp1252", (page,))


def knot(random: Random) -> Document:
    """Short rows, a bag to a heading, stock by length in the quantity, a number in the name."""
    page = Page(Sheet("Knot"))
    page.put("head", "KNOT HARBOUR HOMEBUILTS (an invented office)")
    page.put("head", "Qty", "Part number", "Description", "Notes")
    ends = {"left": " (LEFT)", "right": " (RIGHT)", "pair": " (LEFT AND RIGHT)"}
    for crate in (1, 2):
        found = group(random, "KN", crate)
        page.put("heading", f"{found.name} KIT")
        bag = ""
        for part in found.parts:
            if part.bag != bag:
                bag = part.bag
                page.put("heading", f"Bag {bag}")
            words = part.words + ends.get(part.hand, "")
            words += " (EITHER SIDE)" if part.hand == "either" else ""
            truth = replace(meant(part), amounts=(amounts(part.pieces, part.pieces),))
            cells: list[Cell] = [part.pieces, part.number, words]
            page.part(cells, [truth])
    page.put("heading", "Raw stock")
    for number, text, pieces in (("KN9001", '2 @ 72"', 2), ("KN9002", "3 x 6 ft", 3)):
        stock = Meant(numbers=(number,), hand="none", amounts=(amounts(pieces, pieces),))
        page.part([text, number, "ANGLE 1 X 1 X 1/8"], [stock], "may")
    return Document("knot", "ods", (page,))
