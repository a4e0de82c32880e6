"""Words by which a row of a packing list is told for a heading, a total, a note or a footer."""

from __future__ import annotations

import re

from inventory.core.frozen import frozen
from inventory.core.patterns import pattern

_NUMBERED = r"(?:\s*(?:NO|NUMBER|NR|#)?[.:#\s]*)"
_CRATE = pattern(
    r"(?P<word>(?:WOODEN |PLYWOOD )?(?:CRATE|BOX|CARTON|CTN|PALLET|CONTAINER|CASE|SKID|PARCEL"
    r"|SHIPPING TUBE|PACKAGE|KISTE|KARTON|PACKSTÜCK|CAISSE|COLIS|CAJA|BULTO|CASSA|KIST|KASSE"
    r"|LÅDA|SKRZYNIA|KRAT|DOOS|COLLO|CAIXA|BEDNA|DEBNA|LAATIKKO|KOLLI))\b(?P<rest>.*)",
    re.IGNORECASE,
)
_BAG = pattern(
    r"(?P<word>(?:HARDWARE |PARTS? |SMALL PARTS |RIVET |FASTENER |POLY ?|ZIP ?)*"
    r"(?:BAG|SACK|ENVELOPE|POUCH|PACKET|BEUTEL|SACHET|BOLSA|SACCHETTO|ZAK|PÅSE|POSE"
    r"|BUSTA|SACO|WOREK|SÁČEK|VRECKO|PUSSI)S?)\b(?P<rest>.*)",
    re.IGNORECASE,
)
_SUB_KIT = pattern(
    r"(?P<word>SUB[- ]?KITS?|KITS?|SUB[- ]?ASS(?:Y|EMBLY)|SECTION|GROUP|ASSEMBLY|ASSY|STAGE"
    r"|MODULE|CHAPTER|PHASE|(?:UNTER)?BAUGRUPPE|BAUSATZ|TEILSATZ|(?:SOUS-)?ENSEMBLE|GROUPE"
    r"|(?:SUB)?CONJUNTO|GRUPO|(?:SOTTO)?GRUPPO|(?:SOTTO)?ASSIEME|SAMENSTELLING|DEELPAKKET|DELSATS"
    r"|DELSÆT|DELSETT|(?:POD)?ZESPÓŁ|(?:POD)?SESTAVA|(?:POD)?ZOSTAVA|OSAKOKOONPANO)\b(?P<rest>.*)",
    re.IGNORECASE,
)
_ENDS_AS_SUB_KIT = pattern(
    r".*\b(?:SUB-?KIT|KIT|ASSEMBLY|ASSY|GROUP|SECTION|HARDWARE|PARTS)[.:]?", re.IGNORECASE
)
_IN_NO_CRATE = pattern(
    r"(?:.*\W)?(?:NOT (?:IN|INSIDE)(?: AN?| ANY| THE)? (?:CRATE|BOX|CARTON)S?|NOT CRATED|UNCRATED"
    r"|OUTSIDE(?: THE)? CRATES?)\W*",
    re.IGNORECASE,
)
"""A title of what lies in none of the crates named above it."""
_IN_NO_BAG = pattern(
    r"LOOSE(?: (?:ITEMS|PARTS|HARDWARE))?"
    r"|(?:.*\W)?(?:NOT (?:IN(?: AN?| ANY)? BAGS?|BAGGED)|UNBAGGED)\W*",
    re.IGNORECASE,
)
_IDENTIFIED = pattern(rf"{_NUMBERED}(?P<name>.*?)[\s:.–—-]*", re.IGNORECASE | re.DOTALL)
_CRATE_NUMBER = pattern(
    r"([A-Z]{0,2}-?[0-9]+[A-Z]?(?:\s*(?:OF|/)\s*[0-9]+)?)(?=\s*(?:$|[-–—:,(]|\s{2}))", re.IGNORECASE
)
_TOTAL = pattern(
    r"\W*(?:(?:GRAND|SUB|SHEET|PAGE|CRATE|LIST|BAG|SECTION|KIT|SUB-?KIT|OVERALL|FINAL)[\s-]*)*"
    r"(?:TOTALS?|SUM)\b(?!\s+ENERGY)"
    r"|\W*(?:NO\.?|NUMBER|COUNT|QTY)\s+OF\s+(?:LINES|ITEMS|PIECES|PARTS|PCS)\b"
    r"|\W*(?:LINES|ITEMS|PIECES|PCS)\s*(?:LISTED|TOTAL|ON THIS (?:LIST|PAGE))?\s*[:=]\s*[0-9]"
    r"|\W*[0-9]+\s+(?:LINES|LINE ITEMS)\b"
    r"|\W*(?:LINES|ITEMS|PIECES|PCS) (?:ON|OF|IN) THIS (?:LIST|PAGE|CRATE|SHEET|SHIPMENT)\b"
    r"|\W*(?:RAZEM|OGÓŁEM|ŁĄCZNIE|SOMA|YHTEENSÄ|CELKEM|CELKOM|MEZISOUČET|MEDZISÚČET|SOUČET|ÖSSZESEN"
    r"|DELSUMM?A|SUM(?:MA)?|I ALT|TILSAMMEN|TOTALT|(?:SUB)?TOTAIS)\b"
    r"|\W*GESAMT(?=\W*(?:$|[0-9]))"
    r"|\W*(?:GESAMT|ZWISCHEN|END|TEIL)?SUMMEN?\b|\W*ÜBERTRAG\b|\W*(?:SOUS|À)?[- ]*REPORT(?:ER)?\b"
    r"|\W*SOUS-?\s?TOTAL\b|\W*SUMA(?: Y SIGUE|S)?\b|\W*SUBTOTAAL\b|\W*TOTA(?:LE|AL)\b"
    r"|\W*SUMMA\b|\W*(?:ANZAHL|NOMBRE|NÚMERO)\s+(?:DER |DE |D')?"
    r"(?:ZEILEN|POSITIONEN|LIGNES|LÍNEAS|LINEAS|ARTIKEL|ARTICLES|PARTIDAS)\b"
    r"|\W*(?:CARRIED|BROUGHT)\s+FORWARD\b|\W*[BC]/?FWD\b",
    re.IGNORECASE,
)
_COUNT_OF_ALL = pattern(
    r"\W*[0-9]+\s+(?:PIECES|PCS\.?|PARTS|ITEMS|LINES)(?: IN (?:ALL|TOTAL))?\W*", re.IGNORECASE
)
_FOOTER = pattern(
    r"\W*(?:PAGE|SHEET|PG\.?|SEITE|BLATT|PÁGINA|HOJA|PAGINA|BLAD|SIDA|SIDE|STRONA"
    r"|STRANA|STR\.|FOLHA|FOGLIO|FEUILLE|SIVU|OLDAL)\s*[0-9]+\s*"
    r"(?:(?:OF|/|VON|SUR|DE|DI|VAN|AV|AF|Z|ZE|\()\s*[0-9]+)?\b.*"
    r"|\W*[0-9]+\s*(?:OF|/)\s*[0-9]+\W*|.{0,80}\bPAGE\s+[0-9]+(?:\s+OF\s+[0-9]+)?\W*"
    r"|\W*(?:CONT(?:INUED|'?D)?\b.*|PRINTED\b.*|END OF (?:LIST|PAGE|REPORT|DOCUMENT)\b.*"
    r"|\*+\s*END\b.*|FORM\s+[A-Z0-9-]+\b.*|LAST PAGE.*|THIS PAGE .*)",
    re.IGNORECASE | re.DOTALL,
)
_PAGE = pattern(
    r"\W*(?:PAGE|PG\.?|SEITE|PÁGINA|PAGINA|SIDA|SIDE|STRONA|STRANA|SIVU|OLDAL)\s*[0-9]+\s*"
    r"(?:(?:OF|/|VON|SUR|DE|DI|VAN|AV|AF|Z|\()\s*[0-9]+)?\W*",
    re.IGNORECASE,
)
_NOTE = pattern(
    r"\W*(?:NOTES?\b|N\.?B\.?\b|\*|†|‡|§|REMARKS?\s*:|SEE\b|PLEASE\b|DO NOT\b|ALL\b|IMPORTANT\b"
    r"|CAUTION\b|WARNING\b|LEGEND\b|KEY\s*:|PACKED BY\b|CHECKED BY\b|COUNTED BY\b|SIGNED\b"
    r"|SIGNATURE\b|RECEIVED BY\b|INSPECTED BY\b|DATE\s*:|FOR QUESTIONS\b|THANK\b|IF\b|THIS\b"
    r"|THESE\b|ANY\b|REPORT\b|QUESTIONS\b|[0-9]{1,2}[.)]\s+[A-Z].{24,}|HANDLE\b|KEEP\b|STORE\b"
    r"|CONTACT\b|TEL\b|PHONE\b|E-?MAIL\b|CHECK\b|COUNT\b|INCLUDES?\b|CONSISTS\b)",
    re.IGNORECASE,
)
_SENTENCE = pattern(
    r"\b(?:is|are|be|been|will|must|should|need|needs|has|have|was|were|follows?|shall|may|can"
    r"|cannot|not|don't|ship|ships|shipped|refer|contains?|included|supplied|replaces?)\b",
    re.IGNORECASE,
)
_NOT_USED = pattern(
    r"\W*(?:NOT USED|UNUSED|RESERVED|VACANT|VOID|DELETED|SPARE LINE|LEFT BLANK|BLANK LINE"
    r"|(?:THIS (?:LINE|PAGE) )?INTENTIONALLY (?:LEFT )?BLANK|NO LONGER USED|LINE DELETED)\W*",
    re.IGNORECASE,
)
_NO_NAME = pattern(
    r"\W*(?:(?:PACKING|PARTS?|CONTENTS?|HARDWARE|COUNT|CHECK)[\s-]*)*"
    r"(?:LIST|INDEX|CONTENTS?|SUMMARY|OVERVIEW|SHEET|SLIP|CHECKLIST|LISTE|INHALT|LISTA)S?\W*",
    re.IGNORECASE,
)
"""What stands behind the word for a box where a list is named and no box: BAG LIST."""
_RULE = pattern(r"[\W_]+")
_LONG_HEADING = 64
_MANY_WORDS = 9


@frozen
class Heading:
    """What a heading row opens: a crate, a bag or a sub-kit, and its name."""

    kind: str
    """crate, bag or sub_kit."""
    name: str


def keyword_heading(text: str) -> Heading | None:
    """Return what a row opens that begins with the word for it; None for any other text."""
    plain = " ".join(text.split()).strip("*=-–—_ ")
    if len(plain) > _LONG_HEADING:
        return None
    if _IN_NO_CRATE.fullmatch(plain):
        return Heading("crate", plain)
    if _IN_NO_BAG.fullmatch(plain):
        return Heading("bag", "")
    for kind, words in (("bag", _BAG), ("crate", _CRATE), ("sub_kit", _SUB_KIT)):
        found = words.fullmatch(plain)
        if found:
            listed = _NO_NAME.fullmatch(found["rest"])
            return None if listed else Heading(kind, _name(kind, found))
    return None


def _name(kind: str, found: re.Match[str]) -> str:
    rest = _IDENTIFIED.fullmatch(found["rest"].lstrip(" :.–—-"))
    name = rest["name"].strip(" :–—-") if rest else ""
    if not name:
        return found[0].strip(" :")
    word = found["word"].upper()
    plain = word in {"CRATE", "BAG"} or word.replace("-", "").replace(" ", "").startswith("SUBKIT")
    numbered = _CRATE_NUMBER.match(name) if kind == "crate" else None
    if numbered:
        name = numbered[1]
        return name if word == "CRATE" else f"{found['word']} {name}"
    if kind == "bag":
        return name.partition(" ")[0].rstrip(":,;") if re.search("[0-9]", name) else name
    return name if plain else found[0].strip(" :")


def names_sub_kit(text: str) -> bool:
    """Say whether a text ends as titles of sub-kits do: RUDDER ASSEMBLY, TAIL KIT."""
    return _ENDS_AS_SUB_KIT.fullmatch(" ".join(text.split())) is not None


def is_total(text: str) -> bool:
    """Say whether a text begins as a total or a subtotal."""
    return _TOTAL.match(text) is not None


def in_no_box(text: str) -> bool:
    """Say whether a title stands over what lies in none of the crates or bags: not in a crate."""
    plain = " ".join(text.split())
    return any(words.fullmatch(plain) for words in (_IN_NO_CRATE, _IN_NO_BAG))


def is_count_of_all(text: str) -> bool:
    """Say whether a row is only how many there are of all: 20 pieces."""
    return _COUNT_OF_ALL.fullmatch(text) is not None


def is_footer(text: str) -> bool:
    """Say whether a text is what stands at the foot of a page."""
    return _FOOTER.fullmatch(text) is not None


def is_page_number(text: str) -> bool:
    """Say whether a text is a page's number and nothing else: Page 2 of 3."""
    return _PAGE.fullmatch(text) is not None


def is_not_used(text: str) -> bool:
    """Say whether a text says that the line is left free: NOT USED, RESERVED."""
    return _NOT_USED.fullmatch(text) is not None


def is_rule(text: str) -> bool:
    """Say whether a text is only a drawn line: dashes, stars."""
    return bool(text) and _RULE.fullmatch(text) is not None


def is_sentence(text: str) -> bool:
    """Say whether a text reads as a remark to a person rather than as a title."""
    plain = text.strip()
    if _NOTE.match(plain) or len(plain) > _LONG_HEADING or plain.count(" ") >= _MANY_WORDS:
        return True
    return plain.endswith((".", "!", ";", ",")) or _SENTENCE.search(plain) is not None


def is_upper(text: str) -> bool:
    """Say whether all letters of a text are capitals."""
    return text.upper() == text and any(map(str.isalpha, text))


def one_line(text: str) -> str:
    """Return a text as it is compared with a page head that repeats it to the letter."""
    return " ".join(text.split()).upper()


def same_but_numbers(text: str) -> str:
    """Return a text as it is compared with a page head seen before: numbers don't count."""
    return re.sub(r"[0-9]+", "#", one_line(text))
