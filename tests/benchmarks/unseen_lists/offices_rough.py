"""Five offices whose sheets carry marks, codes, totals that disagree, or a second language."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from sample_kits.spreadsheets import Cell, Sheet
from tests.benchmarks.unseen_lists.page import Document, Meant, Page, amounts, meant
from tests.benchmarks.unseen_lists.supply import Part, group

if TYPE_CHECKING:
    from random import Random


def sandpiper(random: Random) -> Document:
    """Columns in another order, under other names; a column for the issue."""
    page = Page(Sheet("Kit contents", widths=(10, 8, 8, 8, 16, 36, 6, 8)))
    page.put("head", "SANDPIPER HOMEBUILT SERVICES (an invented office)", bold=True)
    page.put("blank")
    columns = (
        "Req'd",
        "Sent",
        "Owing",
        "U/I",
        "P/N",
        "Nomenclature",
        "Hand",
        "Issue",
        "Pouch",
        "Box",
    )
    page.put("head", *columns, bold=True)
    hands = {"left": "PORT", "right": "STBD", "pair": "PORT/STBD", "either": "EITHER"}
    lines = pieces = 0
    for crate in (1, 2):
        found = group(random, "letters", crate)
        page.put("heading", None, None, None, None, None, found.name, bold=True)
        for part in found.parts:
            lines += 1
            pieces += part.sent
            truth = replace(meant(part), revision=part.revision, crate=str(crate))
            given: list[Cell] = [part.pieces, part.sent, part.due or None, "ea", part.number]
            given += [part.words, hands.get(part.hand), part.revision or None, part.bag or None]
            page.part([*given, crate], [truth])
        page.put("blank")
    page.put("total", None, pieces, None, None, f"{lines} lines", "total sent", bold=True)
    return Document("sandpiper", "xlsx", (page,))


def fulmar(random: Random) -> Document:
    """Lines struck out, rows hidden, comments, formulas, numbers the spreadsheet has changed."""
    page = Page(Sheet("Fulmar", widths=(6, 16, 40, 8, 6, 20)))
    page.put("head", "FULMAR FLYING MACHINES (an invented office)")
    page.put("head", "ITEM", "PART #", "DESCRIPTION", "SIDE", "QTY", "REMARKS", bold=True)
    hands = {"left": "LEFT", "right": "RIGHT", "pair": "LEFT & RIGHT", "either": "EITHER"}
    item = 0
    for crate in (1, 2):
        found = group(random, "zeros", crate, size=10)
        page.put("heading", f"{found.name}  (BOX {crate})")
        for part in (replace(one, due=0) for one in found.parts):
            item += 1
            number: Cell = part.number if part.hardware else int(part.number)
            row = page.part(
                (item, number, part.words, hands.get(part.hand), part.pieces),
                [replace(meant(part), bag="")],
            )
            if not part.hardware:
                page.sheet.formats[row, 2] = "000000"
            marks(random, page, row)
    first = len(page.sheet.rows)
    changed: list[tuple[Cell, Cell, str]] = [
        (date(2026, 3, 4), 2, "the number has become a date"),
        ("WX-4411-02", "=2*3", "a formula that was never calculated"),
        ("WX-4412-02", "#REF!", "a formula that broke"),
        ("AN365-1032A or MS21044N3", 8, "two numbers in one cell"),
    ]
    for number, quantity, why in changed:
        item += 1
        page.part((item, number, "PLATE", None, quantity), [], "must", why)
    page.put("total", None, "TOTAL", None, None, f"=SUM(E3:E{first})")
    return Document("fulmar", "xlsx", (page,))


def marks(random: Random, page: Page, row: int) -> None:
    """Give a row, now and then, what only the eye sees; then a question is fair but not owed."""
    chance = random.random()
    if chance < 0.05:
        page.sheet.struck.add(row)
    elif chance < 0.09:
        page.sheet.hidden.add(row)
    elif chance < 0.13:
        page.sheet.notes[row, 5] = "back-ordered"
    else:
        return
    truth = page.truths[-1]
    parts = tuple(replace(part, amounts=()) for part in truth.parts)
    page.truths[-1] = replace(truth, parts=parts, ask="may", why="struck out, hidden or commented")


def dipper(random: Random) -> Document:
    """A French office; hands as G and D."""
    page = Page(Sheet("Liste de colisage", widths=(8, 16, 40, 6, 8, 8, 8, 8)))
    page.put("head", "DIPPER AVIATION (bureau inventé)", bold=True)
    columns = ("Repère", "Référence", "Désignation", "Côté", "Qté cdée", "Qté livrée", "Reliquat")
    page.put("head", *columns, "Caisse", "Sachet", bold=True)
    hands = {"left": "G", "right": "D", "pair": "G+D"}
    mark = 0
    for crate in (1, 2):
        found = group(random, "DA", crate)
        page.put("heading", found.name, bold=True)
        for part in found.parts:
            mark += 1
            hand = "none" if part.hand == "either" else part.hand
            given = (part.pieces, part.sent, part.due, crate, part.bag or None)
            truth = replace(meant(part), hand=hand, crate=str(crate))
            cells = (mark, part.number, part.words, hands.get(part.hand), *given)
            page.part(cells, [truth], "may", "another language")
    page.put("note|total", f"Total : {mark} repères")
    return Document("dipper", "xlsx", (page,))


def pochard(random: Random) -> Document:
    """Crate headings; the issue behind the number; long dashes; hundreds, dozens and pairs."""
    page = Page(Sheet("A", widths=(18, 40, 6, 8, 8)))
    page.put("head", "POCHARD AIRCRAFT (an invented office)", None, None, "SHEET 1 OF 1")
    page.put("head", "PART NO. / REV", "DESCRIPTION", "LH/RH", "QUANTITY", "UNIT", "BAG NO.")
    hands = {"left": "LH", "right": "RH", "pair": "LH+RH", "either": "LH OR RH"}
    for crate in (1, 2, 3):
        found = group(random, "dash", crate)
        page.put("heading", f"CRATE {crate} OF 3", bold=True)
        page.put("heading", found.name)
        for part in (replace(one, due=0) for one in found.parts):
            letter = part.revision if part.revision not in {"", "-"} else ""
            dashed = random.random() < 0.3
            printed = part.number.replace("-", "\u2013") if dashed else part.number
            printed += f" REV {letter}" if letter else ""
            quantity, unit, truth = packed(part)
            truth = replace(truth, revision=letter, crate=f"{crate} OF 3")
            given = (quantity, unit, part.bag or None)
            page.part((printed, part.words, hands.get(part.hand), *given), [truth])
    page.put("note", "Units: EA each, PR pair, HD hundred, DZ dozen.")
    return Document("pochard", "xlsx", (page,))


def packed(part: Part) -> tuple[int, str, Meant]:
    """Return quantity and unit as this office packs, and the truth in pieces."""
    truth = meant(part)
    if part.hand == "pair":
        return part.pieces // 2, "PR", truth
    if part.hardware and part.pieces == 100:
        return 1, "HD", truth
    if part.hardware and part.pieces % 12 == 0:
        return part.pieces // 12, "DZ", truth
    return part.pieces, "EA", truth


def scoter(random: Random) -> Document:
    """A second shipment that shows the whole order again."""
    page = Page(Sheet("Shipment 2", widths=(6, 16, 40, 8, 9, 12, 12, 10)))
    page.put("head", "SCOTER KITPLANES (an invented office)", None, None, "SHIPMENT 2")
    columns = ("LN", "PART", "DESCRIPTION", "HAND", "ORDERED", "SHIPPED PREV.", "THIS SHIPMENT")
    page.put("head", *columns, "BALANCE DUE", "CRATE", bold=True)
    hands = {"left": "LH", "right": "RH", "pair": "LH/RH", "either": "LH OR RH"}
    line = 0
    for crate in (4, 5):
        found = group(random, "SK", crate)
        page.put("heading", found.name, bold=True)
        for part in found.parts:
            line += 1
            before = random.choice((0, part.sent)) if part.hand != "pair" else 0
            now = part.sent - before
            given = (part.pieces, before, now, part.due, f"{crate} OF 5")
            readings = (
                amounts(part.pieces, now, part.due),
                amounts(part.pieces - before, now, part.due),
            )
            truth = replace(meant(part), amounts=readings, bag="", crate=f"{crate} OF 5")
            cells = (line, part.number, part.words, hands.get(part.hand), *given)
            page.part(cells, [truth], "may" if before else "no")
    return Document("scoter", "xlsx", (page,))


def plover(random: Random) -> Document:
    """Hands as the end of the number; and rows that nobody can read without asking."""
    page = Page(Sheet("PL", widths=(6, 18, 40, 6, 6, 6, 8, 24)))
    page.put("head", "PLOVER STREET AEROPLANES (an invented office)")
    page.put("head", "#", "PART", "DESCRIPTION", "QTY", "B/O", "UM", "BAG", "REMARKS", bold=True)
    ends = {"left": "-L", "right": "-R", "pair": "-L/R"}
    line = 0
    for crate in (1, 2):
        found = group(random, "PS", crate)
        page.put("heading", None, f"{found.name}, CRATE {crate}")
        for part in found.parts:
            line += 1
            printed = part.number + ends.get(part.hand, "")
            words = part.words + (" (EITHER SIDE)" if part.hand == "either" else "")
            numbers = (part.number, printed, f"{part.number}-L", f"{part.number}-R")
            readings = (
                amounts(part.pieces, part.sent, part.due),
                *([amounts(part.pieces + part.due, part.pieces, part.due)] if part.sent else []),
            )
            truth = replace(meant(part), numbers=numbers, amounts=readings, crate=str(crate))
            cells = (line, printed, words, part.pieces, part.due or None, "EA", part.bag or None)
            fair = part.due or part.hand in {"left", "right"}
            page.part(cells, [truth], "may" if fair else "no")
    for printed, words, quantity, due, unit, why in UNREADABLE:
        line += 1
        page.part((line, printed, words, quantity, due, unit), [], "must", why)
    page.put("note", "N/S lines are explained in our letter.")
    return Document("plover", "xlsx", (page,))


UNREADABLE: tuple[tuple[str, str, Cell, Cell, str, str], ...] = (
    ("PS0501-L/R", "RIB, NOSE", 3, None, "EA", "an odd total of left and right"),
    ("PS0502-L/R", "GUSSET", 1, None, "EA", "one piece of two hands"),
    ("PS0503-1/-2", "BRACKET", 2, None, "EA", "dash numbers don't tell the hand"),
    ("PS0504", "EDGE TRIM", 3, None, "M", "metres or thousands"),
    ("PS0505", "COVER", 2, "N/S", "EA", "not shipped, or not stocked"),
    ("PS0506", "CLIP", None, None, "EA", "no quantity"),
    ("PS0507", "STRAP", "-3", None, "EA", "a negative quantity"),
    ("PS0508", "PLATE", "2 1/2", None, "EA", "half a piece"),
    ("PS0509", "BLOCK", "2 or 3", None, "EA", "two quantities"),
)
