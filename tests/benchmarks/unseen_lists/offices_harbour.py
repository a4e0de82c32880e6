"""Seven offices with foreign headings, decimal commas, exports and letters."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sample_kits.spreadsheets import Sheet
from tests.benchmarks.unseen_lists.page import Document, Page, meant
from tests.benchmarks.unseen_lists.supply import Group, Part, group

if TYPE_CHECKING:
    from random import Random

    from tests.benchmarks.unseen_lists.page import Ask, Meant

WORDS = {"left": "left", "right": "right", "pair": "L&R", "either": "L or R", "none": ""}
MAY: dict[str, Ask] = {"either": "may"}


def truth(part: Part, *, bag: str = "", crate: str = "", revision: str = "") -> Meant:
    """Return a part's truth on a list that doesn't speak of bags."""
    return replace(meant(part), bag=bag, crate=crate, revision=revision)


def whole(found: Group) -> list[Part]:
    """Return a group's parts with nothing owed, for lists that have one quantity."""
    return [replace(part, due=0) for part in found.parts]


def pintail(random: Random) -> Document:
    """German headings with English below a stroke; pieces as `Stk`; a sum at the end."""
    page = Page(Sheet("Packliste"))
    page.put("head", "PINTAIL BOOTSBAU (an invented office)")
    page.put("head", "Packliste Nr. / Packing list no.", "P-4411")
    page.put("blank")
    columns = ("Pos.", "Teilenummer / Part no.", "Benennung / Description", "Seite / Side")
    page.put("head", *columns, "Menge / Qty", "Einheit / Unit", bold=True)
    sides = {"left": "links", "right": "rechts", "pair": "links+rechts", "either": "", "none": ""}
    count = pieces = 0
    for crate in (1, 2):
        found = group(random, "dash", crate, size=9)
        page.put("heading", f"Kiste {crate} / Crate {crate}: {found.name}", bold=True)
        for part in whole(found):
            one = replace(part, hand="none") if part.hand == "either" else part
            count, pieces = count + 1, pieces + one.pieces
            cells = (count, one.number, one.words, sides[one.hand], one.pieces, "Stk")
            page.part(cells, [truth(one)])
    page.put("total", None, None, "Summe / Total", None, pieces, "Stk")
    return Document("pintail", "xlsx", (page,))


def merlin(random: Random) -> Document:
    """A French table with decimal commas in every quantity, in the encoding of old Windows."""
    page = Page(Sheet("liste"))
    page.put("head", "Référence", "Désignation", "Côté", "Qté commandée", "Qté livrée", "Reste")
    sides = {"left": "gauche", "right": "droite", "pair": "G+D", "either": "", "none": ""}
    for crate in (1, 2):
        for part in group(random, "zeros", crate, size=10).parts:
            one = replace(part, hand="none") if part.hand == "either" else part
            numbers = (f"{n},00" for n in (one.pieces, one.sent, one.due))
            page.part((one.number, one.words, sides[one.hand], *numbers), [truth(one)])
    return Document("merlin", "csv;;;cp1252", (page,))


def garza(random: Random) -> Document:
    """A Spanish list with what is still to come in a column of its own."""
    page = Page(Sheet("Lista"))
    page.put("head", "TALLER GARZA (oficina inventada)")
    page.put("head", "Lista de embalaje / Packing list")
    columns = ("Referencia", "Descripción", "Lado", "Cantidad pedida", "Enviado", "Pendiente")
    page.put("head", *columns, bold=True)
    sides = {"left": "izquierdo", "right": "derecho", "pair": "izq + der", "either": "", "none": ""}
    for crate in (1, 2):
        found = group(random, "letters", crate, size=10)
        page.put("heading", f"CAJA {crate}: {found.name}", bold=True)
        for part in found.parts:
            one = replace(part, hand="none") if part.hand == "either" else part
            cells = (one.number, one.words, sides[one.hand], one.pieces, one.sent, one.due)
            page.part(cells, [truth(one)])
    page.put("note", "Piezas pendientes: envío en junio.")
    return Document("garza", "ods", (page,))


def bocian(random: Random) -> Document:
    """Polish and English headings; pieces as `szt.`; semicolons between."""
    page = Page(Sheet("lista"))
    page.put("head", "Lp.", "Nr części / Part number", "Nazwa / Description", "Ilość / Qty", "J.m.")
    count = 0
    for crate in (1, 2):
        for part in whole(group(random, "dash", crate, size=8)):
            count += 1
            plain = replace(part, hand="none")
            page.part((count, part.number, part.words, part.pieces, "szt."), [truth(plain)])
    page.put("total", None, None, "Razem / Total lines", count)
    return Document("bocian", "csv;;;utf-8-sig", (page,))


def export(random: Random) -> Document:
    """An export of a stock program: field names for headings, three places after the point."""
    page = Page(Sheet("EXPORT"))
    columns = ("LINE_NO", "ITEM_NO", "ITEM_DESC", "QTY_ORD", "QTY_SHIP", "QTY_BO", "UOM", "BOX_NO")
    page.put("head", *columns)
    count = 0
    for crate in (1, 2, 3):
        for part in group(random, "FT", crate, size=6).parts:
            count += 10
            plain = replace(part, hand="none")
            numbers = (f"{n}.000" for n in (part.pieces, part.sent, part.due))
            cells = (f"{count:06}", part.number, part.words, *numbers, "EA", f"{crate:03}")
            page.part(cells, [truth(plain, crate=f"{crate:03}")])
    return Document("export", "csv;\t;utf-16", (page,))


def letter(random: Random) -> Document:
    """An e-mail: a greeting, a list between, a name below."""
    page = Page(Sheet("mail"))
    page.put("head|note", "Hello all,")
    page.put("blank")
    page.put("head|note", "here is what went out this morning with the van:")
    page.put("blank")
    page.put("head", f"{'Part no.':<16}{'Description':<44}{'Side':<8}Qty")
    for crate in (1, 2):
        found = group(random, "dash", crate, size=9)
        for part in whole(found):
            line = f"{part.number:<16}{part.words[:42]:<44}{WORDS[part.hand]:<8}{part.pieces}"
            page.part([line], [truth(part)], MAY.get(part.hand, "no"))
        page.put("blank")
    page.put("note", "The rest follows next week, we are waiting for the anodiser.")
    page.put("blank")
    page.put("note", "Kind regards")
    page.put("note", "The stores, Office 41")
    return Document("letter", "txt", (page,))


def paper(random: Random) -> Document:
    """A printed form on two pages, with its head and foot on each."""
    pages = []
    for crate in (1, 2):
        page = Page(Sheet(f"page {crate}", widths=(40, 130, 360, 420, 480)))
        page.put("head|note", "OFFICE 42 (invented)  PACKING SLIP")
        page.put("head", "Part No", "Description", "Hand", "Ordered", "Shipped")
        for part in group(random, "dash", crate, size=12).parts:
            side = {"left": "LH", "right": "RH", "pair": "LH/RH", "either": ""}.get(part.hand, "")
            one = replace(part, hand="none") if part.hand == "either" else part
            ask: Ask = "may" if part.due else "no"
            page.part((part.number, part.words, side, part.pieces, part.sent), [truth(one)], ask)
        page.put("note", f"Page {crate} of 2")
        pages.append(page)
    return Document("paper", "pdf", tuple(pages))
