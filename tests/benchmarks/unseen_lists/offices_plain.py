"""Five offices that keep to columns: hands in words, in a column, in the number, side by side."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sample_kits.spreadsheets import Cell, Sheet
from tests.benchmarks.unseen_lists.page import Document, Meant, Page, amounts, meant
from tests.benchmarks.unseen_lists.supply import Group, Part, group, stock

if TYPE_CHECKING:
    from random import Random

    from tests.benchmarks.unseen_lists.page import Ask


def owed(part: Part, words: tuple[str, str]) -> tuple[str | None, Ask]:
    """Return the remark for what is owed: the whole line, or some of it."""
    if not part.due:
        return None, "no"
    whole, some = words
    return (whole if part.due == part.pieces else some.format(part.due)), "may"


def otterbank(random: Random) -> Document:
    """One quantity; the hand at the end of the description; back-orders in the remarks."""
    page = Page(Sheet("Sheet1", widths=(6, 16, 40, 6, 6, 8, 8, 30)))
    page.put("head", "OTTERBANK COMPONENTS  (an invented office)", bold=True)
    page.put("head", f"Packing list for order OB{random.randrange(1000, 9999)}")
    page.put("head", "Kit no. 14", None, "Ship date 4/11/26")
    page.put("blank")
    columns = ("Item", "Part No.", "Description", "Qty", "Unit", "Crate", "Bag", "Remarks")
    page.put("head", *columns, bold=True)
    ends = {"left": ", LH", "right": ", RH", "pair": ", LH & RH", "either": ", LH OR RH"}
    item = pieces = 0
    for crate in (1, 2, 3):
        found = group(random, "dash", crate)
        page.put("heading", None, found.name, bold=True)
        for part in found.parts:
            item += 1
            pieces += part.pieces
            remark, ask = owed(part, ("B/O", "{} B/O"))
            blank = random.choice(("", "", "", " ", "\u00a0"))
            cells = (item, f"{part.number}{blank}", part.words + ends.get(part.hand, ""))
            readings = (
                amounts(part.pieces, part.sent, part.due),
                *([amounts(part.pieces + part.due, part.pieces, part.due)] if part.sent else []),
            )
            truth = replace(meant(part), crate=str(crate), sub_kit=found.name, amounts=readings)
            page.part((*cells, part.pieces, "EA", crate, part.bag or None, remark), [truth], ask)
        if random.random() < 0.5:
            page.put("note", None, None, "Check all small bags before throwing away the paper.")
    page.put("blank")
    page.put("total", None, "Total", f"{item} items", pieces)
    return Document("otterbank", "xlsx", (page,))


def heronloft(random: Random) -> Document:
    """A head of two rows, again on each page; a hand column; bag cells merged downwards."""
    page = Page(Sheet("PACKING LIST", widths=(6, 14, 40, 6, 6, 6, 6, 6, 8, 6, 8, 24)))
    title = f"HERON LOFT AVIATION WORKSHOP (an invented office)   S.O. {random.randrange(10**5)}"
    page.put("head", title, bold=True)
    page.put("head", "Customer copy", None, None, None, "Date", "11 JUN 2026")
    upper = ("NO.", "PART NUMBER", "NOMENCLATURE", "HAND", "QTY", None, None, "U/M", "CRATE", "BAG")
    lower = (None, None, None, None, "ORD", "SHP", "B/O")

    def head() -> None:
        page.put("head", *upper, "RCVD", "NOTES", bold=True)
        page.put("head", *lower, bold=True)

    head()
    hands = {"left": "L", "right": "R", "pair": "L&R", "either": "EITHER"}
    item, sheets = 0, 3
    for crate in range(1, sheets + 1):
        found = group(random, "letters", crate)
        page.put("heading", f"SUB-KIT {found.name}", bold=True)
        begun = ("", 0)
        for part in [*found.parts, *stock(random, "letters", ('72"', '48"', "6 FT", "1830 mm"))]:
            item += 1
            tick = random.choice((None, None, "\u2713", "ok", "JB"))
            note = f"L = {part.length}" if part.length else None
            cells: list[Cell] = [item, part.number, part.words, hands.get(part.hand)]
            cells += [part.pieces, part.sent, part.due, "EA", f"{crate} OF {sheets}"]
            first = part.bag != begun[0]
            cells += [part.bag or None if first else None, tick, note]
            truth = replace(meant(part), crate=f"{crate} OF {sheets}", sub_kit=found.name)
            row = page.part(cells, [truth])
            if first:
                begun = (part.bag, row)
            elif part.bag:
                page.sheet.merges = [one for one in page.sheet.merges if one[0] != begun[1]]
                page.sheet.merges.append((begun[1], 10, row, 10))
        page.put("note", None, f"Page {crate} of {sheets}")
        if crate < sheets:
            page.put("blank")
            head()
    return Document("heronloft", "xlsx", (page,))


def spindrift(random: Random) -> Document:
    """A sheet for each sub-kit; bags with quantity 1, their contents after a dot."""
    index = Page(Sheet("INDEX"))
    index.put("head|note", "SPINDRIFT KITS (an invented office)")
    pages = [index]
    suffix = {"left": "-LH", "right": "-RH", "pair": "-LH/RH"}
    for crate in (1, 2, 3, 4):
        found = group(random, "dash", crate)
        page = Page(Sheet(f"SK{crate}"))
        index.put("note|heading", f"SK{crate}", found.name)
        page.put(
            "head|heading", f"SUB-KIT {crate}: {found.name}", None, None, None, None, "CRATE", crate
        )
        page.put(
            "head", "FIND", "P/N", "DESCRIPTION", "QTY ORD'D", "QTY SENT", "BAL", "UM", bold=True
        )
        bag = ""
        for find, part in enumerate(found.parts, 1):
            if part.bag != bag:
                page.put("heading", None, f"BAG {part.bag}", "HARDWARE", 1, 1, 0, "EA")
                bag = part.bag
            dot = ". " if bag else ""
            printed = part.number + suffix.get(part.hand, "")
            words = part.words + (" (FITS EITHER SIDE)" if part.hand == "either" else "")
            given = (part.pieces, part.sent, part.due, "EA")
            numbers = (part.number, printed, *(f"{part.number}-{hand}" for hand in ("LH", "RH")))
            truth = replace(meant(part), crate=str(crate), sub_kit=found.name, numbers=numbers)
            page.part((find, dot + printed, dot + words, *given), [truth])
        page.put("total", None, f"TOTAL LINES {len(found.parts)}")
        pages.append(page)
    return Document("spindrift", "ods", tuple(pages))


def kelp(random: Random) -> Document:
    """Numbers that are numbers, and a column of pieces for each hand."""
    page = Page(Sheet("LIST"))
    page.put("head", "Kelp Boatyard and Aero  (an invented office)", None, None, "Consignment 3")
    page.put("head", "DRG NO", "PART", "LEFT", "RIGHT", "UNHANDED", "CASE", "PACKET", "COMMENT")
    for crate in (1, 2):
        found = group(random, "dash", crate, size=12)
        page.put("heading", found.name)
        for part in found.parts:
            number = part.number if part.hardware else str(random.randrange(10000, 99999))
            remark, ask = owed(part, ("TO FOLLOW", "{} TO FOLLOW"))
            each = part.pieces // 2
            columns: dict[str, tuple[Cell, Cell, Cell]] = {
                "left": (part.pieces, None, None),
                "right": (None, part.pieces, None),
                "pair": (each, each, None),
            }
            counts = columns.get(part.hand, (None, None, part.pieces))
            printed: Cell = int(number) if number.isdigit() else number
            words = part.words + (", LH OR RH" if part.hand == "either" else "")
            readings = (
                amounts(part.pieces, part.sent, part.due),
                *([amounts(part.pieces + part.due, part.pieces, part.due)] if part.sent else []),
            )
            truth = replace(meant(part), numbers=(number,), amounts=readings, crate=f"{crate}")
            cells = (printed, words, *counts, f"Case {crate}", part.bag or None, remark)
            page.part(cells, [truth], ask)
        page.put("blank")
    page.put("note", "E. & O. E.")
    return Document("kelp", "xls", (page,))


def barnacle(random: Random) -> Document:
    """Two tables side by side: the left one goes on at the right."""
    page = Page(Sheet("Contents"))
    page.put("head", "BARNACLE LIGHT AIRCRAFT (an invented office) - CONTENTS OF SHIPMENT")
    for crate in (1, 2):
        found = group(random, "dots", crate, size=14)
        page.put("heading", f"Box {crate} - {found.name}", bold=True)
        block = ("No.", "Part number", "Name", "Side", "Qty")
        page.put("head", *block, None, *block, bold=True)
        parts = [part for part in found.parts if not part.bag]
        half = (len(parts) + 1) // 2
        for number in range(half):
            cells: list[Cell] = []
            truths: list[Meant] = []
            for place in (number, number + half):
                if place < len(parts):
                    one, truth = side_by_side(parts[place], place + 1, crate, found)
                    cells += [*one, None]
                    truths.append(truth)
            page.part(cells[:-1] if len(truths) > 1 else cells, truths)
        page.put("blank")
    return Document("barnacle", "xlsx", (page,))


def side_by_side(part: Part, number: int, crate: int, found: Group) -> tuple[list[Cell], Meant]:
    """Return one table's cells of a row; this office lists only what it sends."""
    hands = {"left": "left", "right": "right", "pair": "left/right", "either": "either"}
    truth = replace(
        meant(part),
        amounts=(amounts(part.pieces, part.pieces),),
        crate=f"{crate}",
        sub_kit=found.name,
    )
    return [number, part.number, part.words, hands.get(part.hand), part.pieces], truth
