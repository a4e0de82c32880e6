"""Six offices that write by hand: a column a bag, a column a hand, remarks in cells, e-mail."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sample_kits.spreadsheets import Cell, Sheet
from tests.benchmarks.unseen_lists.page import Document, Meant, Page, amounts, meant
from tests.benchmarks.unseen_lists.supply import HARDWARE, Part, group

if TYPE_CHECKING:
    from random import Random

    from tests.benchmarks.unseen_lists.page import Ask


def murre(random: Random) -> Document:
    """Hardware in a table: a column for each bag, the total at the right."""
    page = Page(Sheet("Hardware"))
    page.put("head", "MURRE SPORT AIRCRAFT (an invented office)", None, "HARDWARE KIT, FLOATS")
    page.put("head", "PART NO", "DESCRIPTION", "BAG 1", "BAG 2", "BAG 3", "TOTAL", bold=True)
    for number, words in random.sample(HARDWARE, 18):
        each = [random.choice((None, None, 2, 4, 12, 50)) for _ in range(3)]
        if not any(each):
            each[0] = 8
        total = sum(filter(None, each))
        truth = Meant(numbers=(number,), hand="none", amounts=(amounts(total, total),))
        page.part((number, words, *each, total), [truth], "may")
    page.put("blank")
    page.put("note", "Rivets need not be counted.")
    return Document("murre", "xlsx", (page,))


def phalarope(random: Random) -> Document:
    """Heads over heads: part, quantity (left, right, total) and place, each over its columns."""
    page = Page(Sheet("List", widths=(16, 6, 40, 6, 6, 8, 8, 8)))
    page.put("head", "PHALAROPE BOATS AND WINGS (an invented office)", bold=True)
    top = page.put("head", "PART", None, None, "QUANTITY", None, None, "LOCATION", None, bold=True)
    page.put("head", "NUMBER", "REV", "NAME", "L/H", "R/H", "TOTAL", "CRATE", "BAG", bold=True)
    page.sheet.merges += [(top, 1, top, 3), (top, 4, top, 6), (top, 7, top, 8)]
    for crate in (1, 2, 3):
        found = group(random, "dash", crate)
        page.put("heading", found.name, bold=True)
        for part in (replace(one, due=0) for one in found.parts if one.hand != "either"):
            half = part.pieces // 2
            left, right = {
                "left": (part.pieces, None),
                "right": (None, part.pieces),
                "pair": (half, half),
            }.get(part.hand, (None, None))
            truth = replace(meant(part), crate=str(crate), sub_kit=found.name)
            given = (left, right, part.pieces, crate, part.bag or None)
            page.part((part.number, part.revision or None, part.words, *given), [truth])
    return Document("phalarope", "xlsx", (page,))


def jaeger(random: Random) -> Document:
    """Boxes to tick; quantities with their hands in one cell; bags as rows; B/O with a date."""
    page = Page(Sheet("Checklist"))
    page.put("head", "JAEGER KITS (an invented office) - check everything off before you sign")
    page.put("head", "\u2610", "Qty", "Part #", "Desc", "Remarks", bold=True)
    for crate in (1, 2):
        found = group(random, "JG", crate)
        page.put("heading", f"CRATE {crate}: {found.name}", bold=True)
        bag = ""
        for part in found.parts:
            if part.bag != bag:
                bag = part.bag
                page.put("heading", None, None, f"BAG #{bag}", "hardware")
            half = part.pieces // 2
            spelt = {
                "pair": random.choice(
                    (f"{half}L/{half}R", f"{part.pieces} (L&R)", f"{half}L + {half}R")
                ),
                "left": f"{part.pieces} L",
                "right": f"{part.pieces} R",
            }
            quantity: Cell = spelt.get(part.hand, part.pieces)
            words = part.words + (", either side" if part.hand == "either" else "")
            whole = part.due and part.due == part.pieces
            remark = "BACKORDER - est. 8/26" if whole else None
            given = amounts(part.pieces, 0 if whole else part.pieces, part.pieces if whole else 0)
            truth = replace(meant(part), amounts=(given,), crate=str(crate))
            fair: Ask = "may" if whole or part.hand in {"left", "right"} else "no"
            page.part(("\u2610", quantity, part.number, words, remark), [truth], fair)
    page.put("note", None, None, "Signed: ____________   Date: ________")
    return Document("jaeger", "xls", (page,))


def whimbrel(random: Random) -> Document:
    """Two tables side by side that aren't alike: sheet parts at the left, hardware at the right."""
    page = Page(Sheet("A3"))
    page.put("head", "WHIMBREL AEROWORKS (an invented office)")
    left, right = ("Part No", "Name", "Hand", "Qty"), ("Bag", "Hardware P/N", "Count")
    page.put("head", *left, None, *right, bold=True)
    found = group(random, "dash", 1, size=14)
    hands = {"left": "LH", "right": "RH", "pair": "LH/RH", "either": "LH or RH"}
    sheet = [replace(part, due=0) for part in found.parts if not part.bag]
    hardware = [part for part in found.parts if part.bag]
    for number in range(max(len(sheet), len(hardware))):
        cells: list[Cell] = [None] * 8
        truths = []
        if number < len(sheet):
            part = sheet[number]
            cells[:4] = part.number, part.words, hands.get(part.hand), part.pieces
            truths.append(meant(part))
        if number < len(hardware):
            part = hardware[number]
            cells[5:] = part.bag, part.number, part.pieces
            truths.append(meant(part))
        page.part(cells, truths)
    page.put("blank")
    page.put("note", "Hardware bags are in the long crate.")
    return Document("whimbrel", "xlsx", (page,))


def petrel(random: Random) -> Document:
    """An e-mail without columns: so many times a number, its name, its hand in brackets."""
    page = Page(Sheet("text"))
    page.put("head|note", "Hi all, this is what we put in the box for you (Petrel Bay, invented):")
    page.put("blank")
    ends = {"left": " (LH)", "right": " (RH)", "pair": " (LH & RH)", "either": " (LH or RH)"}
    found = group(random, "PB", 1, size=9)
    for part in (replace(one, due=0) for one in found.parts):
        words = part.words.title() + ends.get(part.hand, "")
        page.part(
            [f"{part.pieces} x {part.number}  {words}"], [replace(meant(part), bag="")], "may"
        )
    page.put("blank")
    page.put("note", "The cowling follows next month, sorry about that!")
    page.put("note", "Cheers, the packing team")
    return Document("petrel", "txt", (page,))


STORES: tuple[tuple[str, str, str, str, Ask], ...] = (
    ("2 sheets", "SHEET .025 X 48 X 144", "2", "", "may"),
    ("1 roll", "FABRIC TAPE 2 IN", "1", "", "may"),
    ("3 @ 72 in", "ANGLE 3/4 X 3/4 X 1/8", "3", "", "may"),
    ("2.5 m", "FUEL HOSE 8 MM", "5/2", "MTR", "may"),
    ("1 qt", "VARNISH", "", "", "may"),
    ("250 g", "MICROBALLOONS", "250", "GRM", "no"),
    ("0.5 kg", "COTTON FLOCK", "1/2", "KGM", "no"),
    ("750 mL", "HARDENER", "750", "MLT", "no"),
    ("2 dz", "CLAMP, SMALL", "24", "EA", "no"),
    ("100 ea", "WASHER, SPECIAL", "100", "EA", "no"),
    ("as req'd", "THREAD SEALANT", "AR", "EA", "no"),
    ("A.R.", "GREASE", "AR", "EA", "no"),
    ("ref.", "DRAWING SET", "REF", "EA", "no"),
    ("N/A", "SPARE CAP", "", "", "may"),
)


def gadwall(random: Random) -> Document:
    """Everything that isn't counted in ones, as a storekeeper writes it."""
    page = Page(Sheet("Stores"))
    page.put("head", "GADWALL STORES (an invented office)")
    page.put("head", "Stock No.", "Item description", "Issue qty", "Locn", "Remarks", bold=True)
    for place, (text, words, amount, unit, ask) in enumerate(random.sample(STORES, len(STORES)), 1):
        number = f"GW{1000 + 7 * place}"
        readings = (amounts(amount, amount),) if amount and unit else ()
        truth = Meant(numbers=(number,), hand="none", amounts=readings, unit=unit or "EA")
        page.part((number, words, text, f"Shelf {place % 3 + 1}", None), [truth], ask)
    plain = [
        part for part in group(random, "GW", 1).parts if part.hand in {"none", "left", "right"}
    ]
    for part in plain:
        words = one_handed(part)
        truth = replace(meant(part), amounts=(amounts(part.pieces, part.pieces),), bag="")
        page.part((part.number, words, f"{part.pieces} no.", "Shelf 4", None), [truth])
    return Document("gadwall", "xlsx", (page,))


def one_handed(part: Part) -> str:
    """Return the name with its hand before it, as it is spoken."""
    return {"left": "LEFT ", "right": "RIGHT "}.get(part.hand, "") + part.words
