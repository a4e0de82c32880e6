"""Four offices that send text: an e-mail's columns, tabs, commas, semicolons."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sample_kits.spreadsheets import Cell, Sheet
from tests.benchmarks.unseen_lists.page import Amount, Document, Meant, Page, amounts, meant
from tests.benchmarks.unseen_lists.supply import Part, group

if TYPE_CHECKING:
    from random import Random

    from tests.benchmarks.unseen_lists.page import Ask


def ternpoint(random: Random) -> Document:
    """An e-mail with columns by blanks, long names going on in the next line."""
    page = Page(Sheet("text"))
    page.put("head|note", "Hello, here is what went into your crates at Tern Point (invented).")
    page.put("blank")
    widths = (5, 15, 34, 14, 6, 6, 6)
    texts = ("Line", "Part no.", "Description", "Hand", "Ord", "Ship", "B/O")

    def laid_out(*cells: Cell) -> str:
        padded = zip(cells, widths, strict=False)
        return "".join(
            f"{'' if cell is None else cell:<{width}}" for cell, width in padded
        ).rstrip()

    page.put("head", laid_out(*texts))
    page.put("head|note|blank", laid_out(*("-" * (width - 2) for width in widths)))
    hands = {"left": "left", "right": "right", "pair": "left+right", "either": "either"}
    line = 0
    for crate in (1, 2):
        found = group(random, "TP", crate)
        page.put("heading", f"CRATE {crate} - {found.name}")
        for part in found.parts:
            line += 1
            given = (part.pieces, part.sent, part.due)
            cells = (line, part.number, part.words[:32], hands.get(part.hand, ""), *given)
            truth = replace(meant(part), bag="", crate=str(crate))
            page.part([laid_out(*cells)], [truth])
            if len(part.words) > 32:
                page.put("note", laid_out(None, None, part.words[32:].strip()))
    page.put("blank")
    page.put("note", "Call if something is missing. The shop.")
    return Document("ternpoint", "txt", (page,))


def whinchat(random: Random) -> Document:
    """Tabs in UTF-16; quantities as a person writes them."""
    page = Page(Sheet("tsv"))
    page.put("head", "WHINCHAT SUPPLY (an invented office)")
    page.put("head", "Part", "What", "Quantity", "Bag", "Box")
    for crate in (1, 2, 3):
        found = group(random, "dash", crate)
        page.put("heading", found.name)
        for part in found.parts:
            quantity, truth, ask, why = written(random, replace(part, due=0))
            box = replace(truth, bag=part.bag, crate=f"{crate}")
            words = part.words + {"left": ", LH", "right": ", RH"}.get(part.hand, "")
            words += ", LH OR RH" if part.hand == "either" else ""
            words += ", LH AND RH" if part.hand == "pair" else ""
            page.part((part.number, words, quantity, part.bag or None, crate), [box], ask, why)
    for number, words, quantity, truth in odds_and_ends():
        ounces = "oz" in quantity  # of mass or of volume
        page.part((number, words, quantity), [truth], "may" if ounces else "no")
    return Document("whinchat", "csv;\t;utf-16", (page,))


def written(random: Random, part: Part) -> tuple[str | None, Meant, Ask, str]:
    """Return a quantity in one of many spellings, what it means, and whether one has to ask."""
    truth, n = meant(part), part.pieces
    if part.hand == "pair":
        half = n // 2
        if half == 1 and random.random() < 0.5:
            return random.choice(("1 pr", "1 PAIR")), truth, "no", ""
        return (
            random.choice((f"{n} ({half}L {half}R)", f"{n} ea", f"{half}+{half}")),
            truth,
            "no",
            "",
        )
    if part.hardware and n == 100 and random.random() < 0.5:
        readings: tuple[Amount, ...] = (amounts(100, 100), amounts(1, 1))
        return "1 pkg (100)", replace(truth, amounts=readings), "may", "package"
    if part.hardware and random.random() < 0.06:
        return random.choice((None, "-", "some")), truth, "must", "no quantity that can be read"
    return (
        random.choice((f"{n} ea", f"{n} EA.", f"x{n}", f"{n}", f"{n} pcs", f"{n} off")),
        truth,
        "no",
        "",
    )


def odds_and_ends() -> list[tuple[str, str, str, Meant]]:
    """Return rows by weight and length, as required, and for reference."""
    table = (
        ("MS20470AD3-4", "RIVET", "1/4 LB", "1/4", "LBR"),
        ("MS20426AD3-4", "RIVET, FLUSH", ".5 lb", "1/2", "LBR"),
        ("WX-9001-01", "EDGE TRIM", "12 FT", "12", "FOT"),
        ("WX-9002-01", "PRIMER, TWO-PART", "500 ml", "500", "MLT"),
        ("WX-9003-01", "GREASE", "4 oz", "4", "ONZ"),
        ("WX-9004-01", "ISOLATING TAPE", "A/R", "AR", "EA"),
        ("WX-9005-01", "DRAWINGS, LARGE", "REF", "REF", "EA"),
        ("WX-9006-01", "DECAL SET", "1 set", "1", "SET"),
    )
    return [
        (
            number,
            words,
            text,
            Meant(numbers=(number,), hand="none", amounts=(amounts(amount, amount),), unit=unit),
        )
        for number, words, text, amount, unit in table
    ]


def turnstone(random: Random) -> Document:
    """Commas, no title; names over two lines in one cell; pieces a set, sets, and their product."""
    page = Page(Sheet("csv"))
    columns = ("Assembly", "Part Number", "Rev", "Description", "L/R", "Qty per Assy", "Assys")
    page.put("head", *columns, "Ext Qty", "UOM", "Carton")
    hands = {"left": "LH", "right": "RH", "pair": "LH/RH", "either": "EITHER"}
    for crate in (1, 2, 3):
        found = group(random, "TS", crate)
        for part in found.parts:
            each = 2 if part.pieces % 2 == 0 and part.hand != "pair" else 1
            per = part.pieces // each
            words = part.words.replace(", ", ",\n", 1) if random.random() < 0.3 else part.words
            given = (per, each, part.pieces, "EA", f"{crate} of 3")
            truth = replace(
                meant(part),
                amounts=(amounts(part.pieces, part.pieces),),
                bag="",
                revision=part.revision,
                sub_kit=found.name,
                crate=f"{crate} of 3",
            )
            hand = hands.get(part.hand, "")
            page.part((found.name, part.number, part.revision, words, hand, *given), [truth], "may")
    return Document("turnstone", "csv;,;utf-8-sig", (page,))


def gullane(random: Random) -> Document:
    """A German office: semicolons, decimal commas, code page 1252."""
    page = Page(Sheet("csv"))
    page.put("head", "Gullane Flugzeugteile (erfunden)", "Packliste", "Auftrag 7731")
    page.put(
        "head", "Pos.", "Teilenummer", "Benennung", "Seite", "Menge", "ME", "Rückstand", "Kiste"
    )
    hands = {"left": "links", "right": "rechts", "pair": "li/re", "either": ""}
    position = 0
    for crate in (1, 2):
        found = group(random, "GF", crate)
        page.put("heading", f"Baugruppe {found.name}")
        for part in found.parts:
            position += 10
            hand = "none" if part.hand == "either" else part.hand
            printed = (position, part.number, part.words, hands.get(part.hand, ""), part.pieces)
            readings = (
                amounts(part.pieces, part.sent, part.due),
                amounts(part.pieces + part.due, part.pieces, part.due),
            )
            truth = replace(meant(part), hand=hand, amounts=readings, bag="", crate=str(crate))
            page.part((*printed, "Stk", part.due, crate), [truth], "may", "another language")
        heavy = Meant(
            numbers=("GF9001",), hand="none", amounts=(amounts("3/2", "3/2"),), unit="KGM"
        )
        if crate == 1:
            page.part(
                (position + 1, "GF9001", "Niete, lose", "", "1,5", "kg", 0, crate),
                [replace(heavy, crate=str(crate))],
                "may",
                "another language",
            )
    page.put("total|note", "", "Summe", f"{position // 10} Positionen")
    return Document("gullane", "csv;;;cp1252", (page,))
