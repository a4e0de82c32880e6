"""What the columns of a packing list are called in the offices that send them."""

from __future__ import annotations

from inventory.sheets.columns import Vocabulary

SPELLINGS = {
    "item": (
        "ITEM", "ITEM NO", "LINE", "LINE NO", "LN", "LN NO", "POS", "POS NO", "POSITION", "SEQ",
        "SEQ NO", "NO", "FIND NO", "FIND", "BALLOON", "BALLOON NO", "INDEX", "ROW", "KEY",
        "ITEM LINE", "LINE ITEM", "F/N", "SR NO", "SL NO", "SERIAL", "REPERE", "POSICION",
        "POSIZIONE", "LP", "RIGA", "REGEL", "ZEILE", "LIGNE", "REP", "LINEA", "RENGLON",
        "RAD", "LINHA", "RIVI", "SOR", "RADEK", "RIADOK", "POZ", "POZYCJA", "POZICE", "PORADI",
    ),
    "part": (
        "PART NO", "PART", "PN", "PART ID", "PARTNO", "PARTNUMBER", "PART CODE", "ITEM CODE",
        "PART REF", "STOCK NO", "STOCK CODE", "CATALOG NO", "CAT NO", "CATALOGUE NO", "SKU",
        "MATERIAL NO", "ARTICLE", "ARTICLE NO", "ART NO", "PROD NO", "PRODUCT NO", "PRODUCT CODE",
        "PART OR STOCK NO", "PART DWG NO", "PART DRAWING NO", "OUR PART NO", "KIT PART NO",
        "NO CZESCI", "SACH NO",
        "TEILENUMMER", "TEILE NO", "ARTIKELNUMMER", "ARTIKEL NO", "SACHNUMMER", "REFERENCE",
        "NO REFERENCE", "REFERENCIA", "CODICE", "REF ARTICLE", "ARTIKELNO", "ARTIKELNR",
        "TEILENR", "SACHNR", "ONDERDEELNUMMER", "CODIGO", "ARTICOLO", "ARTIKEL", "DELNO",
        "DELNUMMER", "NO PIECE", "ITEM PART NO", "COMPONENT", "COMPONENT NO",
        "PART IDENT", "IDENTIFYING NO", "PART IDENTIFYING NO", "MARK NO", "PIECE MARK",
        "PART NO DESC", "CODE", "PART NOS", "ITEM CODE NO", "CODE NO", "PRODUCT ID", "ITEM ID",
        "DETAIL NO", "NUMBER PART", "CODE ARTICLE", "CODE PART", "CODIGO ARTICULO",
        "CODICE ARTICOLO", "HARDWARE PART NO", "HARDWARE NO", "FASTENER PART NO",
        "REF", "REFERENCIAS", "ARTIGO", "ARTIKKEL", "ARTIKKEL NO", "ARTIKKELNR", "INDEKS", "VARENR",
        "VARENUMMER", "CIKKSZAM", "ALKATRESZSZAM", "TUOTENUMERO", "NIMIKE", "KATALOG NO", "KAT NO",
    ),
    "description": (
        "DESC", "PART DESC", "ITEM DESC", "PART NAME", "ITEM NAME", "GOODS", "DESC GOODS",
        "CONTENTS", "CONTENT", "MATERIAL DESC", "PRODUCT", "PRODUCT DESC", "TITLE", "DETAILS",
        "DESC PART", "DESC CONTENTS", "PARTICULARS", "DESC 2", "LIBELLE", "ARTICLE DESC",
    ),
    "hand": ("HAND", "LEFT RIGHT", "L R", "LR", "HAND LEFT RIGHT", "HAND L R", "HAND AIRCRAFT"),
    "quantity": (
        "QTY", "AMOUNT", "COUNT", "NO OFF", "OFF", "QTY REQD", "REQD", "REQUIRED", "QTY REQUIRED",
        "NO REQD", "QTY EA", "QTY UNIT", "TOTAL NO", "EACH", "EA", "QTY KIT", "PCS QTY", "NO PCS",
        "NOS", "STK", "STCK", "UNITS QTY", "QTY SUPPLY", "UNHANDED", "NOT HANDED", "NO HAND",
        "ISSUE QTY", "QTY LEFT RIGHT", "QTY NO", "PACKING QTY", "QTY LIST", "QTY LISTED",
    ),
    "ordered": ("ORD", "QTY ORD", "QTY ON ORD", "ORD AMOUNT", "PO QTY", "QTY PO", "ORIGINAL QTY"),
    "shipped": (
        "SHP", "QTY SHP", "SHP QTY SHIPMENT", "QTY NOW SHP", "SHP NOW", "QTY BOX", "QTY CRATE",
        "QTY BAG", "QTY SHIPMENT", "NOW", "QTY INCLUDED", "INCLUDED", "INCL", "QTY INCL",
        "SHP SHIPMENT",
    ),
    "back_ordered": (
        "BO", "QTY BO", "BO QTY", "O S", "QTY O S", "OS", "QTY OS", "QTY OUTST", "FOLLOW",
        "QTY FOLLOW", "OUTSTANDING", "QTY OUTSTANDING", "OWING",
        "BALANCE", "QTY DUE", "QTY OWING", "BALANCE DUE", "BAL", "STILL DUE", "TBS", "OPEN QTY",
        "REMAINING", "QTY REMAINING", "QTY BALANCE", "PENDING", "QTY PENDING", "DUE",
    ),
    "shipped_before": (
        "SHP PREV", "PREV", "QTY PREV SHP", "QTY SHP PREV", "PREV QTY", "SHP BEFORE",
        "SHP EARLIER", "TOTAL SHP", "QTY PREV",
    ),
    "extended": ("EXT QTY", "EXTENDED QTY", "EXTENDED", "TOTAL QTY", "TOTAL", "QTY TOTAL", "EXT"),
    "per_assembly": (
        "QTY PER", "QTY PER ASSY", "QTY ASSY", "PER ASSY", "QTY/ASSY", "QTY PER KIT", "QPA",
        "JE SATZ", "JE BAUSATZ", "JE FLUGZEUG", "PAR KIT", "PER SATS", "NA SADU",
        "QTY PER SHIP SET", "QTY PER UNIT", "QTY PER SHP SET", "QTY PER AIRCRAFT", "QTY PER SET",
        "PER KIT", "PER SET", "QTY EACH ASSY",
    ),
    "per_package": (
        "PER PKG", "QTY PER PKG", "PER PACK", "QTY PER PACK", "PER BOX", "PACK SIZE", "PKG SIZE",
        "QTY PER BOX", "PCS PER PKG", "PACK QTY", "QTY PER CRATE", "PER PACKET", "QTY PER PACKET",
        "PER CRATE", "CONTENT PER PKG",
    ),
    "assemblies": ("ASSY", "NO ASSY", "ASSY QTY", "SETS", "NO SETS", "KITS", "NO KITS", "NO BAG",
        "SATZE", "ANZ SATZE", "JEUX", "SADY", "SATSER", "JUEGOS"),
    "unit": ("UNIT", "UNIT MEASURE", "UNIT ISSUE", "MEASURE", "UNIT QTY", "QTY UNIT MEASURE"),
    "length": (
        "LEN", "STOCK LEN", "CUT LEN", "LEN EACH", "LEN EA", "STICK LEN", "LEN PER PIECE",
        "LEN INCHES", "LEN IN", "LEN MM", "LEN FT", "LEN FEET", "LEN CM", "LEN M",
    ),
    "crate": ("CRATE", "CRATE NO", "NO CRATE", "CRATE CTN", "CRATE ID", "COLLI", "SHP CRATE"),
    "bag": ("BAG", "BAG NO", "BAG ID", "BAG REF", "BAG ITEM", "POLYBAG", "BAG CODE"),
    "sub_kit": (
        "SUBKIT", "SUBKIT NO", "KIT", "KIT NO", "SECTION", "GROUP", "SUBKIT ASSY", "SUBASSY",
        "SUBASSEMBLY", "SUBKITASSY", "STAGE", "MODULE", "CHAPTER", "SUBKITEMBLY", "KIT SECTION",
        "ENSEMBLE", "CONJUNTO", "GRUPPO", "SESTAVA", "SATS", "RAKENNE",
    ),
    "revision": (
        "INDICE", "IND", "ANDERUNGSSTAND", "STAND", "REV", "REV LEVEL",
        "REV LETTER", "DWG REV", "PART REV", "REV NO"),
    "remark": ("REM", "STATUS", "MEMO", "INFO", "REASON", "EXCEPTIONS", "ANNOTATION", "REM STATUS"),
    "left": ("LEFT", "QTY LEFT", "LEFT QTY", "LEFT HAND", "L", "QTY L", "LEFT HAND QTY", "NO LEFT"),
    "right": (
        "RIGHT", "QTY RIGHT", "RIGHT QTY", "RIGHT HAND", "R", "QTY R", "RIGHT HAND QTY", "NO RIGHT",
    ),
    "unhanded": (
        "UNHANDED", "NON HANDED", "NOT HANDED", "NO HAND", "QTY UNHANDED", "NEUTRAL", "NEITHER",
        "NONHANDED", "QTY NEUTRAL", "COMMON", "QTY COMMON", "CENTRE", "CENTER", "N", "SYM",
        "SYMMETRICAL", "QTY NON HANDED", "QTY NOT HANDED",
        "SENZA HAND", "SANS HAND", "SIN HAND", "OHNE HAND", "SEM HAND", "UTAN HAND", "UDEN HAND",
    ),
    "received": (
        "RECD", "QTY RECD", "CHK", "COUNTED", "QTY COUNTED", "FOUND", "BY", "CHK BY", "RECD BY",
        "RECD OK", "QTY CHK", "ACTUAL", "SIGN", "SIGNED", "DATE RECD", "BUILDER", "CUSTOMER CHK",
        "CHK OFF", "QTY FOUND", "INVENTORIED", "CHK RECD", "PACKER", "SHP CHK", "SHP BY", "X",
        "TICK HERE", "BUILDER CHK", "RECD CHK", "WE", "MONT",
    ),
    "old_part": (
        "OLD PART NO", "OLD PN", "SUPERSEDES", "SUPERSEDED", "FORMER PART NO", "REPLACES", "WAS",
        "PREV PART NO", "OLD NO",
    ),
    "other_part": (
        "VENDOR PN", "VENDOR PART NO", "SUPPLIER PN", "SUPPLIER PART NO", "MFR PN", "MFR PART NO",
        "MFG PART NO", "CUSTOMER PART NO", "CUST PART NO", "ALT PART NO", "ALTERNATE PART NO",
        "EQUIVALENT", "ALTERNATE", "SPEC", "SPECIFICATION", "CAGE", "CAGE CODE", "BARCODE", "EAN",
        "YOUR PART NO", "MANUFACTURER",
    ),
    "drawing": (
        "DWG", "DWG NO", "DRG", "DRG NO", "DRAWING",
        "DRAWING NO", "SHEET", "SHEET NO", "PAGE", "PLAN", "FIG",
    ),
    "date": (
        "DATE", "SHP DATE", "PROMISE DATE", "ETA", "EXPECTED", "DUE DATE", "PROMISED", "SHP ON",
        "AVAILABLE", "LIVRAISON PREVUE", "PREVUE", "DATE SHP BO", "VERWACHT", "ENTREGA",
    ),
    "other": (
        "PRICE", "UNIT PRICE", "COST", "VALUE", "EXT PRICE", "WEIGHT", "WT", "GROSS WT", "NET WT",
        "WEIGHT KG", "WEIGHT LB", "MATERIAL", "ALLOY", "FINISH", "COLOUR", "COLOR", "SIZE", "DIA",
        "THICKNESS", "GAUGE", "WIDTH", "LOT", "LOT NO", "BATCH", "BATCH NO", "HTS", "ORIGIN",
        "COUNTRY ORIGIN", "CUSTOMS", "DIMENSIONS", "DIM", "USED ON", "NEXT ASSY", "LOCATION",
        "WEIGHT G", "WEIGHT EACH", "TOTAL WEIGHT", "UNIT WEIGHT", "LEVEL", "LVL",
        "PHOTO", "PICTURE", "TYPE",
        "CLASS", "CATEGORY", "FAMILY", "COMMODITY", "CURRENCY", "DISC", "TAX", "PO", "PO NO",
    ),
}  # fmt: skip
"""Common practice, no source; a layout adds what one supplier says otherwise."""

AMOUNTS = frozenset(
    {
        *("quantity", "ordered", "shipped", "back_ordered", "extended", "per_assembly"),
        *("left", "right", "unhanded"),
    }
)
COUNTED = AMOUNTS | {"shipped_before", "assemblies", "per_package"}
"""Columns whose cells are quantities."""
NEEDED = (frozenset({"part", "description"}), AMOUNTS | {"length", "unit", "hand", "item"})
LOOSE = frozenset({"description", "remark", "received", "other", "other_part", "old_part"})
VOCABULARY = Vocabulary(SPELLINGS, NEEDED, LOOSE)
