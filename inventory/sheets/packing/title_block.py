"""What stands above the table: supplier, order, revision, and where the sheet's parts lie."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from inventory.core.patterns import pattern
from inventory.sheets.packing.row_words import is_sentence, keyword_heading

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.sheets.formats.book import Row

_KEYS = {
    "order": r"(?:SALES |PURCHASE |WORK |OUR |YOUR |CUSTOMER )?ORDER(?: NO| NUMBER| NR| #)?"
    r"|S\.?O\.?(?: NO)?"
    r"|P\.?O\.?(?: NO| NUMBER| #)?|JOB(?: NO)?"
    r"|AUFTRAGS?-?(?: ?NR| ?NUMMER)?|BESTELL(?:UNG|-?NR|NUMMER)|COMMANDE(?: N[O°º])?"
    r"|PEDIDO(?: N[O°º])?|ORDINE(?: N[O°º])?|BESTELLING|ZAMÓWIENIE",
    "revision": r"(?:PACKING )?(?:LIST )?REV(?:ISION)?(?: LEVEL| NO)?|ISSUE|(?:LIST )?VERSION",
    "supplier": r"SUPPLIER|SHIPPER|FROM|SHIPPED FROM|SOLD BY|VENDOR|CONSIGNOR|SENDER"
    r"|LIEFERANT|ABSENDER|FOURNISSEUR|EXPÉDITEUR|PROVEEDOR|REMITENTE|FORNITORE|MITTENTE"
    r"|LEVERANCIER|AFZENDER|LEVERANTÖR|AVSÄNDARE|DOSTAWCA",
    "crate": r"CRATE(?: NO| NUMBER| #)?|BOX(?: NO| #)?|CARTON(?: NO| #)?",
    "bag": r"BAG(?: NO| NUMBER| #)?",
    "sub_kit": r"SUB-?\s?KIT(?: NO| NUMBER| NAME)?|KIT SECTION|SECTION",
    "other": r"DATUM|FECHA|DATA|KUNDE|EMPFÄNGER|CLIENT|DESTINATAIRE|CLIENTE|KLANT|KUND"
    r"|DATE|CUSTOMER|CONSIGNEE|SHIP TO|SOLD TO|BILL TO|KIT|KIT NO|SERIAL(?: NO)?|PACKED BY"
    r"|CHECKED BY|CARRIER|SHIPMENT|PAGE|WEIGHT|GROSS|NET|PACKED|VIA|AIRFRAME|MODEL|TERMS|REF"
    r"|PACKER|CONTACT|PHONE|TEL|FAX|ATTN|DELIVERY|INVOICE(?: NO)?|ADDRESS|STATUS|TO|BY",
}  # fmt: skip
_KEY = pattern(
    "|".join(
        rf"(?P<{name}>(?<![A-Z])(?:{words}))\s*(?:[:#=]\s*|\.\s*:?\s*(?=[A-Z0-9]))"
        for name, words in _KEYS.items()
    ),
    re.IGNORECASE,
)
_SUB_KIT_INSIDE = pattern(r"\s[-–—|]\s*SUB-?\s?KIT\s+([^-–—|]+)", re.IGNORECASE)
_SUPPLIER_END = pattern(r"\s+(?:-|–|—|\|)\s+|\s*[:|]\s*", re.IGNORECASE)
_LIST_NAME = pattern(
    r"\b(?:PACKING|PARTS|SHIPPING|PACK|DISPATCH|DELIVERY|CONTENTS|INVENTORY)\s+"
    r"(?:LIST|SLIP|NOTE|SHEET)\b|\bPACKLIST\b",
    re.IGNORECASE,
)
_GREETING = pattern(
    r"(?:HELLO|HI|HEY|DEAR|GOOD (?:MORNING|DAY|AFTERNOON|EVENING)|GREETINGS|HALLO|GUTEN TAG"
    r"|SEHR GEEHRTE[RN]?|MOIN|LIEBE[RS]?|BONJOUR|CHERS?|HOLA|BUENOS D[IÍ]AS|ESTIMAD[OA]S?|CIAO"
    r"|BUONGIORNO|GENTILI|DZIEŃ DOBRY|WITAM|BESTE|HEJ)\b",
    re.IGNORECASE,
)
"""How letters begin; common practice, no source."""
_JUST_A_KEY = pattern(r"(?:" + "|".join(_KEYS.values()) + r")\s*[:.#]*\s*", re.IGNORECASE)


def title_facts(rows: Iterable[Row]) -> dict[str, str]:
    """Return what a title block says under order, revision, supplier, crate, bag and sub_kit."""
    facts: dict[str, str] = {}
    for row in rows:
        cells = [text for text in row.texts if text]
        for text in _with_values(cells):
            for key, value in _pairs(text):
                if value:
                    facts.setdefault(key, value)
        for cell in cells:
            heading = keyword_heading(cell)
            if (
                heading is not None
                and not _bare_word(cell)
                and ":" not in cell
                and heading.kind not in facts
            ):
                facts[heading.kind] = heading.name
            inside = _SUB_KIT_INSIDE.search(cell)
            if inside and ":" not in inside[0]:
                facts.setdefault("sub_kit", inside[1].strip())
    return facts


def _bare_word(cell: str) -> bool:
    """Say whether a cell is only the word for a box, as a heading of a column is: Box."""
    return cell.strip(" .").isalpha()


def _with_values(cells: Sequence[str]) -> list[str]:
    """Join a cell that is only a key with the one right of it."""
    texts: list[str] = []
    for cell in cells:
        if texts and _JUST_A_KEY.fullmatch(texts[-1]):
            texts[-1] = f"{texts[-1].rstrip(' :.#')}: {cell}"
        else:
            texts.append(cell)
    return texts


def _pairs(text: str) -> list[tuple[str, str]]:
    found = list(_KEY.finditer(text))
    if not found:
        return []
    ends = [key.start() for key in found[1:]] + [len(text)]
    pairs = [
        (next(n for n, v in key.groupdict().items() if v), text[key.end() : end].strip(" ,;-|"))
        for key, end in zip(found, ends, strict=True)
    ]
    return [(name, re.split(r"\s{2,}|\t", value)[0]) for name, value in pairs if name != "other"]


def supplier_of(rows: Sequence[Row], facts: dict[str, str]) -> str:
    """Return the supplier's name: named so, else what the first line says beside PACKING LIST."""
    if facts.get("supplier"):
        return facts["supplier"]
    for row in rows:
        for text in _with_values([text for text in row.texts if text]):
            rest = _LIST_NAME.sub("", text)
            names = [part.strip(" -–—|:") for part in _SUPPLIER_END.split(rest)]
            first = next((name for name in names if name), "")
            if (
                first
                and not _KEY.search(text)
                and not (_GREETING.match(first) or is_sentence(first))
            ):
                return first
    return ""
