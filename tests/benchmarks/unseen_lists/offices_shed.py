"""Seven offices that type by hand: columns for hands, strokes, bags in bags, cut lengths."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sample_kits.spreadsheets import Cell, Sheet
from tests.benchmarks.unseen_lists.offices_harbour import MAY, WORDS, truth, whole
from tests.benchmarks.unseen_lists.page import Document, Page, amounts
from tests.benchmarks.unseen_lists.supply import group, stock

if TYPE_CHECKING:
    from random import Random


def ruff(random: Random) -> Document:
    """An old workbook with a sheet for each crate; pieces of either hand in columns apart."""
    pages = []
    for crate in (1, 2):
        page = Page(Sheet(f"Crate {crate}"))
        page.put("head", f"Contents of crate {crate} of 2")
        page.put("head", "Part number", "Description", "LH", "RH", "No hand", "Notes")
        for part in whole(group(random, "dash", crate, size=10)):
            half = part.pieces // 2
            columns = {"left": (part.pieces, None, None), "right": (None, part.pieces, None)}
            columns["pair"] = (half, half, None)
            cells = columns.get(part.hand, (None, None, part.pieces))
            one = replace(part, hand="none") if part.hand == "either" else part
            page.part((part.number, part.words, *cells, None), [truth(one)])
        pages.append(page)
    return Document("ruff", "xls", tuple(pages))


def stint(random: Random) -> Document:
    """Quantities with words, small spelling mistakes, a few lines struck out."""
    page = Page(Sheet("Sheet1"))
    page.put("head", "Stint Light Metal, an invented office")
    page.put("head", "packed by: night shift")
    page.put("blank")
    page.put("head", "part #", "discription", "L/R", "quanity")
    forms = ("{} ea", "{} pcs", "{}pc", "x{}", "{}", "{} EA.")
    for crate in (1, 2):
        found = group(random, "letters", crate, size=9)
        page.put("heading", f"{found.name} (box {crate})")
        for part in whole(found):
            text = random.choice(forms).format(part.pieces)
            cells = (part.number.lower(), part.words.lower(), WORDS[part.hand], text)
            row = page.part(cells, [truth(part)], MAY.get(part.hand, "no"))
            if random.random() < 0.05:
                page.sheet.struck.add(row)
                page.truths[-1] = replace(page.truths[-1], ask="may")
    page.put("note", "struck = on a later list")
    return Document("stint", "xlsx", (page,))


def redshank(random: Random) -> Document:
    """Two tables side by side, an empty column between."""
    page = Page(Sheet("List"))
    names = ("Part No.", "Description", "Qty")
    page.put("head", "REDSHANK WORKS (invented): shipping list")
    page.put("head", *names, None, *names)
    parts = [replace(p, hand="none") for crate in (1, 2) for p in whole(group(random, "FT", crate))]
    half = (len(parts) + 1) // 2
    for place in range(half):
        left, right = parts[place], parts[half + place] if half + place < len(parts) else None
        cells: list[Cell] = [left.number, left.words, left.pieces]
        if right and right.number == left.number:
            right = None  # a truth tells the parts of one row apart by their numbers
        if right:
            cells += [None, right.number, right.words, right.pieces]
        page.part(cells, [truth(one) for one in (left, right) if one])
    return Document("redshank", "xlsx", (page,))


def godwit(random: Random) -> Document:
    """Descriptions that run on in the next row; the revision in a column of its own."""
    page = Page(Sheet("GODWIT"))
    page.put("head", "Item", "Part Number", "Rev", "Description", "Qty Req'd", "Qty Sent", "B/O")
    item = 0
    for crate in (1, 2):
        found = group(random, "dash", crate, size=9)
        page.put("heading", None, None, None, f"SUB-KIT {crate} {found.name}", bold=True)
        for part in found.parts:
            item += 1
            one = replace(part, hand="none")
            cells = (item, one.number, one.revision, one.words, one.pieces, one.sent, one.due)
            page.part(cells, [truth(one, revision=one.revision)])
            if random.random() < 0.15:
                page.put("note", None, None, None, "   holes drilled to final size, deburred")
    page.put("total", None, None, None, "LINES ON THIS LIST", item)
    return Document("godwit", "xlsx", (page,))


def lapwing(random: Random) -> Document:
    """Bags in bags: a bag is a row with quantity one, its contents stand below, indented."""
    page = Page(Sheet("bags"))
    page.put("head", "Part", "Contents", "Qty")
    for crate in (1, 2):
        found = group(random, "dash", crate, size=6)
        page.put("heading", f"CRATE {crate}", found.name)
        page.put("heading", f"BAG {crate}00", "hardware, all bags of this crate", 1)
        bag = ""
        for part in sorted(whole(found), key=lambda one: (one.bag == "", one.bag)):
            if part.bag != bag and part.bag:
                page.put("heading", f"  BAG {part.bag}", "bolts and nuts", 1)
            elif part.bag != bag:
                page.put("heading", "LOOSE", "not in bags")
            bag = part.bag
            page.part(
                (f"    {part.number}", part.words, part.pieces),
                [truth(replace(part, hand="none"), bag=bag)],
            )
    return Document("lapwing", "csv;,;utf-8", (page,))


def avocet(random: Random) -> Document:
    """Bars by length in a column, quantities as required, reference lines."""
    page = Page(Sheet("Stock"))
    page.put("head", "AVOCET METALS (invented)", None, None, "Order", "K-208")
    page.put("head", "P/N", "Description", "Length", "Pcs", "Remark")
    for crate in (1, 2):
        found = group(random, "dots", crate, size=8)
        bars = stock(random, "dots", ('72"', "6 ft", "1830 mm", '48 1/2"'))
        for part in (*whole(found), *bars):
            one = replace(part, hand="none")
            page.part((one.number, one.words, one.length or None, one.pieces, None), [truth(one)])
        for number, amount in ((f"77.{crate}0.101", "A/R"), (f"77.{crate}0.102", "REF")):
            name = "AR" if amount == "A/R" else amount
            given = replace(truth(bars[0]), numbers=(number,), amounts=(amounts(name, name, name),))
            page.part((number, "sealant", None, amount, None), [given])
    page.put("note|total", None, "pieces", None, None, "see the scales", ask="may")
    return Document("avocet", "ods", (page,))


def dotterel(random: Random) -> Document:
    """Italian headings; lines folded away; boxes named `Box 2 - NAME`."""
    page = Page(Sheet("Distinta"))
    page.put("head", "Codice / Part no.", "Descrizione / Description", "Lato / Side", "Q.tà / Qty")
    sides = {"left": "SX", "right": "DX", "pair": "SX+DX", "either": "", "none": ""}
    for crate in (1, 2):
        found = group(random, "dash", crate, size=9)
        page.put("heading", f"Box {crate} - {found.name}", bold=True)
        for part in whole(found):
            one = replace(part, hand="none") if part.hand == "either" else part
            cells = (one.number, one.words, sides[one.hand], one.pieces)
            row = page.part(cells, [truth(one, crate=str(crate))])
            if random.random() < 0.05:
                page.sheet.hidden.add(row)
                page.truths[-1] = replace(page.truths[-1], ask="may")
    return Document("dotterel", "xlsx", (page,))
