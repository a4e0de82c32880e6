"""Five offices of forwarders and goods systems: weights, tariff codes, technical headings, PDF."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sample_kits.spreadsheets import Cell, Sheet
from tests.benchmarks.unseen_lists.page import Document, Page, amounts, meant
from tests.benchmarks.unseen_lists.supply import group

if TYPE_CHECKING:
    from random import Random

    from tests.benchmarks.unseen_lists.page import Ask


def skua(random: Random) -> Document:
    """A forwarder's list: packages merged downwards, weights, tariff codes, countries, sizes."""
    page = Page(Sheet("Packing & weight list", widths=(8, 16, 40, 8, 8, 10, 10, 12, 10)))
    page.put("head", "SKUA FREIGHT FORWARDING (an invented office)", bold=True)
    page.put("head", "PACKING LIST AND WEIGHT NOTE", None, "B/L No. SKU-2026-118")
    page.put("head", "Shipper:", "Tarn works", None, "Consignee:", "Evening class, boat shed 2")
    page.put("blank")
    columns = ("Pkg No.", "Article No.", "Description of goods", "Quantity", "Unit")
    more = ("Net wt (kg)", "Gross wt (kg)", "HS code", "Origin")
    page.put("head", *columns, *more, bold=True)
    ends = {"left": " - left hand", "right": " - right hand", "pair": " - left and right hand"}
    packages = 3
    for crate in range(1, packages + 1):
        found = group(random, "dash", crate)
        page.put("heading|note", f"CASE {crate}/{packages}", None, "3200 x 600 x 400 mm", bold=True)
        first = row = 0
        for part in found.parts:
            weight = random.randrange(1, 400) / 100
            begins = not first
            words = part.words + ends.get(part.hand, "")
            words += ", fits left or right" if part.hand == "either" else ""
            cells: list[Cell] = [crate if begins else None, part.number, words, part.pieces, "PCS"]
            cells += [weight, None, random.choice(("8807.30", "7616.10", "7318.15")), "NZ"]
            given = (amounts(part.pieces, part.pieces),)
            truth = replace(meant(part), amounts=given, bag="", crate=str(crate))
            row = page.part(cells, [truth])
            first = first or row
        page.sheet.merges.append((first, 1, row, 1))
        page.put("total", None, None, f"Total case {crate}", None, None, 61.4, 78.0)
    page.put("total", None, None, "TOTAL 3 PACKAGES", None, None, 184.2, 234.0, bold=True)
    page.put("note", "Freight prepaid. Handle with care, keep dry.")
    return Document("skua", "xlsx", (page,))


def razorbill(random: Random) -> Document:
    """A cover sheet, then a sheet for each crate, each with its columns elsewhere."""
    cover = Page(Sheet("Cover"))
    cover.put("head|note", "RAZORBILL AVIATION (an invented office)")
    cover.put("head|note", "Order 5521 for the evening class, shipped in 3 crates")
    cover.put("blank")
    pages = [cover]
    orders = ((0, 1, 2, 3, 4), (2, 0, 4, 1, 3), (1, 2, 3, 4, 0))
    titles = ("Part ID", "Part name", "Side", "Pcs", "Bag #")
    hands = {"left": "Left", "right": "Right", "pair": "Both", "either": "Either"}
    for crate, order in enumerate(orders, 1):
        found = group(random, "RZ", crate)
        page = Page(Sheet(f"Crate {crate}"))
        cover.put("note|heading", f"Crate {crate}", found.name)
        for _ in range(crate - 1):
            page.put("blank")
        page.put("heading|head", *[None] * (crate - 1), f"{found.name}", bold=True)
        page.put("head", *[None] * (crate - 1), *(titles[place] for place in order), bold=True)
        for part in (replace(one, due=0) for one in found.parts):
            cells: tuple[Cell, ...] = (
                *(part.number, part.words, hands.get(part.hand), part.pieces),
                part.bag or None,
            )
            truth = replace(meant(part), crate=str(crate), sub_kit=found.name)
            fair: Ask = "may" if part.hand == "pair" else "no"  # "Both" can be of either side, too
            page.part([*[None] * (crate - 1), *(cells[place] for place in order)], [truth], fair)
        page.put("blank")
        page.put("note", *[None] * (crate - 1), "Packed by: ______   Checked by: ______")
        pages.append(page)
    return Document("razorbill", "xlsx", tuple(pages))


def curlew(random: Random) -> Document:
    """A goods system's export with technical headings; what is owed has its own column."""
    page = Page(Sheet("tsv"))
    columns = ("ORDER_NO", "LINE_NO", "ITEM_ID", "ITEM_DESCR", "QTY_ORD", "QTY_SHIP", "QTY_BO")
    page.put("head", *columns, "UOM", "LOT_NO", "SHIP_DATE", "PKG_ID", "WEIGHT_LB")
    ends = {"left": " LH", "right": " RH", "pair": " LH/RH", "either": " LH OR RH"}
    line = 0
    for crate in (1, 2, 3):
        for part in group(random, "CW", crate).parts:
            line += 1
            lot = f"{random.randrange(10**5, 10**6)}" if part.hardware else ""
            words = part.words + ends.get(part.hand, "")
            given = (part.pieces, part.sent, part.due, "EA", lot, "2026-11-04", f"P{crate:03}")
            truth = replace(meant(part), bag="")
            cells = ("88123", line, part.number, words, *given, f"{random.random():.2f}")
            page.part(cells, [truth])
    return Document("curlew", "tsv;\t;utf-8", (page,))


def dunlin(random: Random) -> Document:
    """An old system's printout: bars between the columns, a page head again and again."""
    page = Page(Sheet("text"))
    widths = (4, 14, 36, 4, 6, 6, 4)
    titles = ("LN", "PART-NO", "NOMENCLATURE", "HD", "ORDER", "SHIP", "UM")

    def drawn(*cells: Cell) -> str:
        padded = zip(cells, widths, strict=True)
        return "|".join(f"{'' if cell is None else cell:<{width}}" for cell, width in padded)

    def top(number: int) -> None:
        page.put("head|note", f"DUNLIN KITS (INVENTED)    PACKING SLIP 0471    PAGE {number}")
        page.put("head", drawn(*titles))
        page.put("head|note|blank", "+".join("-" * width for width in widths))

    hands = {"left": "L", "right": "R", "pair": "L+R", "either": "L/R"}
    line = 0
    for crate in (1, 2):
        found = group(random, "DN", crate)
        top(crate)
        page.put("heading", f"CRATE {crate} OF 2   {found.name}")
        for part in (replace(one, due=0) for one in found.parts if one.hand != "either"):
            line += 1
            cells = (line, part.number, part.words[:35], hands.get(part.hand, ""))
            truth = replace(meant(part), bag="", crate=f"{crate} OF 2")
            page.part([drawn(*cells, part.pieces, part.sent, "EA")], [truth])
    page.put("note|total", f"*** END OF SLIP *** {line} LINES")
    return Document("dunlin", "txt", (page,))


def shearwater(random: Random) -> Document:
    """A PDF of several pages, the head again on each, numbers at the right of their columns."""
    pages = []
    hands = {"left": "LH", "right": "RH", "pair": "LH & RH", "either": "LH or RH"}
    for crate in (1, 2, 3):
        found = group(random, "SW", crate)
        page = Page(Sheet(f"page {crate}", widths=(40, 75, 165, 350, 405, 450, 495, 530)))
        page.put("head", "SHEARWATER KIT AIRCRAFT (an invented office)")
        titles = ("Item", "Part number", "Description", "Hand", "Qty", "Shipped", "B/O", "Bag")
        page.put("head", *titles)
        page.put("heading", f"Crate {crate} of 3: {found.name}")
        for item, part in enumerate(found.parts, 1):
            given = (part.pieces, part.sent, part.due, part.bag or None)
            truth = replace(meant(part), crate=f"{crate} of 3")
            page.part((item, part.number, part.words, hands.get(part.hand), *given), [truth])
        page.put("note", f"Page {crate} of 3")
        pages.append(page)
    return Document("shearwater", "pdf", tuple(pages))
