"""What remarks on a packing list say about delivery: to follow, not shipped, replaced."""

from __future__ import annotations

import re
from functools import lru_cache

from inventory.core.frozen import frozen
from inventory.core.lists.hand_words import hand_in_text
from inventory.core.lists.packing import ListedHand
from inventory.core.measures.quantity_forms import BACK_ORDER
from inventory.core.patterns import pattern


@frozen(kw_only=True)
class Marks:
    """What a remark says beyond itself; all false and empty where it says nothing of the kind."""

    to_follow: bool = False
    """Back-ordered, in whatever words."""
    number: int | None = None
    """How many are to follow, where that is said."""
    hand: ListedHand = ListedHand.NONE
    """The hand that is to follow, where that is said."""
    how_many: bool = False
    """True where a number stands beside the word and it isn't plain that it counts."""
    unclear: str = ""
    """N/S, NIS, cancelled: words that don't say whether anything follows."""
    replaced_by: str = ""
    """Another number that may be in the crate instead."""
    note: str = ""
    """The number or sign of a note that is pointed to."""


NO_MARKS = Marks()

# All words: common practice, no source. BP (to follow) and CP (nothing to follow) are different
# things in UN/EDIFACT 4221, so words that don't say which are asked about.
_FOLLOWS_ABROAD = (
    r"KOMMT NACH|NACHGESANDT|WIRD NACHGE\w+|SERA (?:LIVR|EXPÉDI|ENVOY)ÉE?|SERONT \w+ÉE?S|A SPEDIRE"
    r"|VERRÀ SPEDITO|SPEDIREMO|SE ENVÍAN?|ENVIAREMOS|SERÁ ENVIAD[AO]|A ENVIAR|POR ENVIAR|SEGUIRÁ"
    r"|SEGUE DEPOIS|WORDT NA(?:GE\w+|GEZONDEN)|NAGEZONDEN|NAGESTUURD|EFTERSÄNDS|EFTERLEVERERAS"
    r"|(?:SKICKAS|LEVERERAS|SENDES|LEVERES) (?:SENARE|SENERE)|ETTERSENDES|EFTERSENDES"
    r"|TOIMITETAAN MYÖHEMMIN|DOŚLEMY|DOSTARCZYMY|ZOSTANIE DOSŁAN[AEY]|DO DOSŁANIA|DODÁME|DODÁ SE"
    r"|DOŠLEME|DOPOŠLEME|BUDE DODÁNO|DODÁVKA POZDĚJI|UTÁNSZÁLLÍT\w*"
)
"""From memory; common practice, no source."""
_FOLLOWS = pattern(
    rf"(?<![A-Z0-9/]){BACK_ORDER}(?![A-Z0-9/])"
    r"|\bBACK[- ]?ORDER|\b(?:WILL|TO|SHALL) (?:FOLLOW|BE (?:SHIPPED|SENT|SUPPLIED|DELIVERED))\b"
    r"|\b(?:SHIPS?|SHIPPING|SENT|SUPPLIED|COMES?|FOLLOWS?|DELIVERED) (?:LATER|SEPARATELY|NEXT|WITH"
    r" (?:SHIPMENT|DELIVERY|CRATE|KIT))\b|\bOUT OF STOCK\b|\bON (?:ORDER|BACK)\b"
    r"|\bAWAITING (?:STOCK|PARTS|DELIVERY)\b"
    r"|\bNACHGELIEFERT\b|\bNACHLIEFERUNG\b|\bFOLG(?:T|EN)\b|\bIM RÜCKSTAND\b"
    r"|\bRELIQUAT\b|\bÀ SUIVRE\b|\bSUIVRA\b|\bLIVR(?:ER|ÉE?S?) (?:ULTÉRIEUREMENT|PLUS TARD)\b"
    r"|\bPENDIENTES?\b|\bSE ENVIARÁN?\b|\bA SEGUIRE?\b|\bSEGUIRÀ\b|\bINEVASO\b"
    r"|\bNALEVERING\b|\bNAGELEVERD\b|\bVOLGT\b|\bRESTNOTERAD\b|\bETTERLEVERES\b"
    rf"|\b(?:{_FOLLOWS_ABROAD})\b"
    r"|\bNEXT SHIPMENT\b|\bNOT YET (?:AVAILABLE|SHIPPED|IN STOCK)\b|\bFOLLOWS\b"
)
_NOTHING_FOLLOWS = pattern(
    rf"\b(?:NO|NOT|ZERO|WAS|FORMERLY|0)\s+(?:ON\s+)?{BACK_ORDER}"
    rf"|{BACK_ORDER}\s*[:=-]?\s*"
    r"(?:0|NIL|NONE|-$|FILLED|COMPLETED?|CLEARED|CLOSED|SHIPPED|DONE)(?![0-9])"
)
_UNCLEAR = pattern(
    r"(?<![A-Z0-9])(?:N/S|NIS|N\.?I\.?S\.|N\.S\.|NOT (?:SHIPPED|SUPPLIED|INCLUDED|SENT|IN STOCK"
    r"|STOCKED|AVAILABLE|PACKED|IN KIT|PART OF KIT)|CANCEL(?:L?ED)?|DELETED?|VOID|OMIT(?:TED)?"
    r"|DISCONTINUED|NO LONGER (?:USED|SUPPLIED|AVAILABLE)|SHORTAGE|SHORT(?=\s*(?:$|[0-9(,;]))"
    r"|MISSING|NLA|BRAK|O/S|SOLD OUT"
    r"|OBSOLETE|FEHLT|FEHLEND|NICHT GELIEFERT|MANQUANTE?S?|NON LIVRÉE?S?|RUPTURE"
    r"|FALTAN?|NO ENVIAD[OA]S?|MANCANTE|NON CONSEGNATO|ONTBREEKT|SAKNAS)"
    r"(?![A-Z0-9])"
)
_NUMBER = pattern(
    r"(?<![A-Z0-9/.-])([0-9]{1,5})\s*(?:EA|PCS?|PIECES?|OFF)?\.?\s*[-–]?\s*(?:(?:IS|ARE|ON)\s+)?"
    rf"\(?{BACK_ORDER}"
    rf"|{BACK_ORDER}\s*(?:QTY)?\s*[:=(-]?\s*([0-9]{{1,5}})(?![0-9]*[/A-Z-])"
    r"|(?<![A-Z0-9/.-])([0-9]{1,5})\s*(?:EA|PCS?|PIECES?)?\.?\s*(?:WILL|TO)\s+(?:FOLLOW|BE S)"
    rf"|\b(?:BALANCE|REST|REMAINING)(?: OF)? ([0-9]{{1,5}})\b"
    rf"|(?<![A-Z0-9/.-])([0-9]{{1,5}})\s*(?:[A-ZÁ-Ž]{{1,3}}\.?\s+)?(?:{_FOLLOWS_ABROAD})\b"
)
_PART = r"[:\s]+(?:P/?N[:\s]*)?((?=[A-Z0-9.-]*[0-9])(?=[A-Z0-9.-]*[A-Z-])[A-Z0-9][A-Z0-9.-]{3,})"
_REPLACED = pattern(
    r"\b(?:USE|USING|REPLACED (?:BY|WITH)|SUPERSEDED BY|SUPPLIED AS|SHIPPED AS|SENT AS|NOW|NOW USE"
    r"|SUBST?(?:ITUTED?)?\.? (?:BY|WITH)|SUBST?(?:ITUTE)?:|CHANGED TO|SEND|SUBSTITUTE WITH"
    rf"|SUPERCEDED BY){_PART}"
)
_NOTE = pattern(r"\bSEE\s+(?:FOOT)?NOTE\s*#?\s*([0-9A-Z]{1,2})\b|\bNOTE\s+([0-9]{1,2})\b")


_MONTH = (
    r"(?:JAN(?:UARY)?|FEB(?:RUARY)?|MAR(?:CH)?|APR(?:IL)?|MAY|JUNE?|JULY?|AUG(?:UST)?"
    r"|SEPT?(?:EMBER)?|OCT(?:OBER)?|NOV(?:EMBER)?|DEC(?:EMBER)?)\b\.?"
)
_DAYS = pattern(
    rf"\b[0-9]{{1,2}}\.?\s*{_MONTH}(?:\s*[0-9]{{2,4}})?\b|\b{_MONTH}\s*[0-9]{{1,2}}(?:,?\s*[0-9]{{4}})?\b"
)
_NO_COUNT = pattern(
    r"\b(?:SHIPMENT|DELIVERY|CRATE|BOX|BAG|CTN|CARTON|NOTE|WEEK|WK|PO|ORDER|LIST|PAGE|ITEM|LINE"
    r"|SHEET|REV|DWG|DRAWING|BY|DUE|ETA|ON|SHIP|CALL)\b[\s#.:NO]*[0-9][0-9/.-]*"
    r"|[0-9]{1,4}[-/.][0-9]{1,2}(?:[-/.][0-9]{2,4})?|[0-9]{1,2}\. ?[0-9]{1,2}\.(?: ?[0-9]{4})?"
    rf"|[0-9]{{1,2}}\s*{_MONTH}(?:\s*[0-9]{{2,4}})?|{_MONTH}\s*[0-9]{{1,4}}(?:,?\s*[0-9]{{4}})?"
    r"|[0-9]+\s*(?:DAYS?|WEEKS?|WKS?|MONTHS?)|[A-Z]+-?[0-9][A-Z0-9-]*"
)


def _loose_number(plain: str) -> bool:
    """Say whether a number is left that isn't a date, a shipment's or a part's."""
    return re.search("[0-9]", _NO_COUNT.sub(" ", plain)) is not None


@lru_cache(maxsize=4096)
def read_marks(text: str) -> Marks:
    """Return what a remark says about delivery; most remarks say nothing about it."""
    plain = " ".join(text.upper().split())
    follows = _FOLLOWS.search(_NOTHING_FOLLOWS.sub(" ", plain)) is not None
    unclear = _UNCLEAR.search(plain)
    replaced = _REPLACED.search(plain)
    note = _NOTE.search(plain)
    if not (follows or unclear or replaced or note):
        return NO_MARKS
    found = _NUMBER.search(_DAYS.sub(" ", plain)) if follows else None
    number = next((int(each) for each in found.groups() if each), None) if found else None
    return Marks(
        to_follow=follows,
        number=number,
        how_many=follows and number is None and _loose_number(plain),
        hand=hand_in_text(plain).hand if follows else ListedHand.NONE,
        unclear=unclear[0] if unclear and not follows else "",
        replaced_by=replaced[1] if replaced else "",
        note=(note[1] or note[2]) if note else "",
    )
