"""Five offices on the Continent: German, French and Spanish columns, and two languages at once."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sample_kits.spreadsheets import Cell, Sheet
from tests.benchmarks.unseen_lists.page import Document, Meant, Page, amounts, meant
from tests.benchmarks.unseen_lists.supply import Part, group

if TYPE_CHECKING:
    from random import Random

    from tests.benchmarks.unseen_lists.page import Ask


def gannet(random: Random) -> Document:
    """A German delivery note: sums carried over, hands shortened, a column for the rest."""
    page = Page(Sheet("Lieferschein", widths=(6, 18, 40, 8, 8, 8, 8, 8, 8, 8, 30)))
    page.put("head", "GANNET FLUGZEUGBAU GmbH (erfunden)", bold=True)
    page.put(
        "head", f"Lieferschein Nr. {random.randrange(10000, 99999)}", None, "Datum: 04.11.2026"
    )
    page.put("head", "Kunde: Abendkurs Bootshaus 2", None, "Ihr Zeichen: T2")
    page.put("blank")
    columns: tuple[Cell, ...] = (
        *("Pos.", "Artikel-Nr.", "Bezeichnung", "Ausf.", "Bestellt", "Geliefert", "Rest", "Einh."),
        *("Karton", "Beutel", "Bemerkung"),
    )
    page.put("head", *columns, bold=True)
    hands = {"left": "li.", "right": "re.", "pair": "li.+re.", "either": "li. oder re."}
    position = pieces = 0
    for crate in (1, 2, 3):
        found = group(random, "letters", crate)
        page.put("heading", None, None, f"Baugruppe: {found.name}", bold=True)
        for part in found.parts:
            position += 1
            pieces += part.sent
            remark = random.choice((None, None, None, "gem. Zeichnung 12", "Folie beidseitig"))
            remark = "wird nachgeliefert" if part.due else remark
            hand = hands.get(part.hand)
            given = (part.pieces, part.sent, part.due, "Stk.", crate, part.bag or None, remark)
            truth = replace(meant(part), crate=str(crate), sub_kit=found.name)
            fair: Ask = "may" if part.hand == "either" else "no"
            page.part((position, part.number, part.words, hand, *given), [truth], fair)
        if crate < 3:
            page.put("total|note", None, None, "Übertrag", None, None, pieces)
            page.put("note", f"Seite {crate} von 3")
            page.put("head", *columns, bold=True)
    page.put("total", None, None, "Summe", None, None, pieces)
    page.put("note", "Ware bitte sofort prüfen. Eigentumsvorbehalt bis zur vollständigen Zahlung.")
    return Document("gannet", "xlsx", (page,))


def eider(random: Random) -> Document:
    """A French dispatch note in code page 1252: hands in words, thousands apart, what follows."""
    page = Page(Sheet("csv"))
    page.put("head", "EIDER AÉRONAUTIQUE (bureau inventé)")
    page.put(
        "head", f"Bordereau d'expédition n° {random.randrange(1000, 9999)}", "", "Le 4/11/2026"
    )
    page.put(
        "head", "Rep.", "Code article", "Libellé", "Main", "Qté", "Unité", "Colis", "Observations"
    )
    hands = {"left": "gauche", "right": "droite", "pair": "gauche + droite"}
    mark = pieces = 0
    for crate in (1, 2):
        found = group(random, "EA", crate)
        page.put("heading", "", "", f"Sous-ensemble {found.name}")
        for part in found.parts:
            mark += 1
            pieces += part.pieces
            whole = part.due == part.pieces
            remark = "à livrer ultérieurement" if part.due and whole else ""
            sent = part.pieces if not whole else 0
            given = amounts(part.pieces, sent, part.pieces - sent)
            hand = "none" if part.hand == "either" else part.hand
            truth = replace(meant(part), hand=hand, amounts=(given,), bag="", crate=str(crate))
            fair: Ask = "may" if remark else "no"
            cells = (mark, part.number, part.words, hands.get(part.hand, ""), part.pieces)
            page.part((*cells, "pce", crate, remark), [truth], fair)
    rivets = Meant(
        numbers=("MS20470AD4-4",), hand="none", amounts=(amounts(1250, 1250),), crate="2"
    )
    page.part((mark + 1, "MS20470AD4-4", "Rivet", "", "1\u00a0250", "pce", 2, ""), [rivets])
    page.put("total", "", "", "TOTAL", "", pieces + 1250)
    page.put("note", "Toute réserve doit être faite à la livraison.")
    return Document("eider", "csv;;;cp1252", (page,))


def avoceta(random: Random) -> Document:
    """A Spanish list, one sheet for each box, the box in the sheet's name."""
    pages = []
    for crate in (1, 2, 3):
        found = group(random, "dash", crate)
        page = Page(Sheet(f"Caja {crate}"))
        page.put("head", "AVOCETA AEROLIGEROS (oficina inventada)", None, "LISTA DE EMPAQUE")
        page.put("heading|head", f"Conjunto: {found.name}")
        page.put("blank")
        columns = ("Ítem", "N.º de pieza", "Descripción", "Mano", "Cant. pedida", "Cant. enviada")
        page.put("head", *columns, "Pendiente", "Ud.", "Bolsa", bold=True)
        hands = {"left": "izq.", "right": "der.", "pair": "izq./der."}
        for item, part in enumerate(found.parts, 1):
            hand = "none" if part.hand == "either" else part.hand
            given = (part.pieces, part.sent, part.due, "ud", part.bag or None)
            truth = replace(meant(part), hand=hand, crate=str(crate), sub_kit=found.name)
            page.part((item, part.number, part.words, hands.get(part.hand), *given), [truth])
        page.put("note", f"Página {crate} de 3")
        pages.append(page)
    return Document("avoceta", "ods", tuple(pages))


def smew(random: Random) -> Document:
    """Every heading in two languages; the hand in the description, in both."""
    page = Page(Sheet("csv"))
    page.put("head", "SMEW LEICHTFLUGZEUGE / LIGHT AIRCRAFT (erfunden / invented)")
    columns = ("Pos. / Item", "Teile-Nr. / Part No.", "Benennung / Description", "Menge / Qty")
    page.put("head", *columns, "ME / Unit", "Kiste / Crate", "Beutel / Bag", "Hinweis / Note")
    ends = {"left": ", links / left", "right": ", rechts / right", "pair": ", li + re / L + R"}
    position = 0
    for crate in (1, 2):
        found = group(random, "dots", crate)
        page.put("heading", f"Baugruppe / Sub-kit: {found.name}")
        for part in (replace(one, due=0) for one in found.parts):
            position += 1
            hand = "none" if part.hand == "either" else part.hand
            truth = replace(meant(part), hand=hand, crate=str(crate), sub_kit=found.name)
            cells = (position, part.number, part.words + ends.get(part.hand, ""), part.pieces)
            page.part((*cells, "Stk/ea", crate, part.bag, ""), [truth])
    page.put("note", "Fehlteile bitte binnen 7 Tagen melden. / Report shortages within 7 days.")
    return Document("smew", "csv;;;utf-8", (page,))


def brent(random: Random) -> Document:
    """A German goods system: every quantity with a decimal comma, thousands with a point."""
    page = Page(Sheet("Auftrag"))
    page.put("head", "BRENT BAUSÄTZE (erfunden)", "", "Packliste zum Auftrag", "4471")
    page.put(
        "head", "Zeile", "Sachnummer", "Bezeichnung", "L/R", "Sollmenge", "Istmenge", "Packstück"
    )
    hands = {"left": "L", "right": "R", "pair": "L+R"}
    line = 0
    for crate in (1, 2):
        found = group(random, "zeros", crate)
        for part in found.parts:
            line += 10
            hand = "none" if part.hand == "either" else part.hand
            truth = replace(meant(part), hand=hand, bag="", crate=str(crate))
            cells = (f"{line:04}", part.number, part.words, hands.get(part.hand, ""))
            page.part((*cells, german(part.pieces), german(part.sent), crate), [truth], owing(part))
    many = Meant(numbers=("MS20426AD3-4",), hand="none", amounts=(amounts(1500, 1500),), crate="2")
    page.part((f"{line + 10:04}", "MS20426AD3-4", "Niet", "", "1.500,00", "1.500,00", 2), [many])
    page.put("total|note", "", "", "Anzahl Zeilen", "", line // 10 + 1)
    return Document("brent", "csv;;;iso-8859-1", (page,))


def german(number: int) -> str:
    return f"{number},00"


def owing(part: Part) -> Ask:
    """Nothing says that what isn't here follows: it may be asked."""
    return "may" if part.due else "no"
