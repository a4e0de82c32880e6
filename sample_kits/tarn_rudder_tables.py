"""The rudder kit's lines, counts and plan as plain tables."""

from __future__ import annotations

HEAD: tuple[str, ...] = ("ITEM", "PART NUMBER", "DESCRIPTION", "HAND", "U/M", "ORD", "SHIP", "B/O")
HEAD += ("LENGTH", "CRATE", "BAG", "REV", "REMARKS")
TITLE = (
    "CURLEW SLIP KIT WORKS  -  PACKING LIST",
    "Mudlark Stairs 3, Port Merrow  (an invented firm in an invented harbour)",
    "Order: CS-2051      Customer: Evening class, Boat Shed 2      Kit: TARN T2, airframe 7",
    "Sub-kit: RUDDER      List revision: A      Date: 02 MAR 2026      Packed by: crew 4",
    "Carrier: Snail & Anchor Haulage      3 crates      Shipment 1",
)
NOTES = {
    "MS20470AD4-4": "Rivets need not be counted one by one; bags are filled by weight.",
    "T2-RU-0602": "Back-ordered parts follow with shipment 2.",
}

# part | description | hand | u/m | ord | ship | b/o | length | bag | rev | remark
SUB_KITS = {
    ("11 RUDDER FRAME", "2 OF 3"): """
T2-RU-0401 | SPAR, RUDDER, MAIN | | EA | 1 | 1 | 0 | | | B |
T2-RU-0402 | DOUBLER, SPAR, LOWER | | EA | 1 | 1 | 0 | | | A |
T2-RU-0403 | DOUBLER, SPAR, UPPER | | EA | 1 | 1 | 0 | | | A |
T2-RU-0410 | RIB, ROOT | | EA | 1 | 1 | 0 | | | A |
T2-RU-0411 | RIB, TIP | | EA | 1 | 1 | 0 | | | A |
T2-RU-0412 | RIB, NOSE | LH/RH | EA | 4 | 4 | 0 | | | C |
T2-RU-0413 | RIB, NOSE, LOWER | LH/RH | EA | 2 | 2 | 0 | | | C |
T2-RU-0414 | RIB, TRAILING | LH/RH | EA | 6 | 6 | 0 | | | A |
T2-RU-0433 | STIFFENER, SKIN | | EA | 10 | 8 | 2 | | | A | 2 B/O, SHIPMENT 2
T2-RU-0434 | STIFFENER, SKIN, SHORT | | EA | 6 | 6 | 0 | | | A |
T2-RU-0440 | GUSSET, HORN | LH/RH | EA | 2 | 2 | 0 | | | A |
""",
    ("12 RUDDER SKINS", "3 OF 3"): """
T2-RU-0501 | SKIN, RUDDER | LH | EA | 1 | 1 | 0 | | | B |
T2-RU-0501 | SKIN, RUDDER | RH | EA | 1 | 1 | 0 | | | B |
T2-RU-0502 | FAIRING, TIP | | EA | 1 | 1 | 0 | | | A | FILM ON
T2-RU-0503 | LEADING EDGE, LOWER | | EA | 1 | 1 | 0 | | | A |
T2-RU-0504 | LEADING EDGE, UPPER | | EA | 1 | 1 | 0 | | | A |
T2-RU-0505 | SHIM, SKIN JOINT | EITHER | EA | 4 | 4 | 0 | | | A | FITS BOTH SIDES
""",
    ("13 HINGES AND CONTROL", "2 OF 3"): """
T2-RU-0601 | HINGE BRACKET, UPPER | | EA | 1 | 1 | 0 | | | A |
T2-RU-0602 | HINGE BRACKET, CENTRE | | EA | 1 | 0 | 1 | | | A | B/O, SHIPMENT 2
T2-RU-0603 | HINGE BRACKET, LOWER | | EA | 1 | 1 | 0 | | | A |
T2-RU-0610 | HORN, RUDDER | | EA | 1 | 1 | 0 | | | D |
T2-RU-0611 | ARM, HORN | LH/RH | EA | 2 | 2 | 0 | | | A |
T2-RU-0620 | BUSHING, HINGE | | EA | 3 | 3 | 0 | | B1 | A |
T2-RU-0630 | COUNTERWEIGHT | | EA | 1 | 1 | 0 | | B1 | A |
T2-RU-0640 | STOP, CABLE | LH/RH | EA | 2 | 2 | 0 | | B1 | A |
""",
    ("14 TRIM TAB", "2 OF 3"): """
T2-RU-0701 | SKIN, TAB | | EA | 1 | 1 | 0 | | | A |
T2-RU-0702 | SPAR, TAB | | EA | 1 | 1 | 0 | | | A |
T2-RU-0703 | RIB, TAB | LH/RH | EA | 2 | 2 | 0 | | | A |
""",
    ("15 STOCK LENGTHS", "3 OF 3"): """
T2-ST-0075 | ANGLE 3/4 X 3/4 X .063, 6061-T6 | | EA | 2 | 2 | 0 | 48" | | |
T2-ST-0316 | TUBE 3/8 OD X .035 WALL, 6061-T6 | | EA | 1 | 1 | 0 | 6 FT | | |
MS20257P2 | HINGE, CONTINUOUS | | EA | 1 | 1 | 0 | 36" | | |
""",
    ("16 HARDWARE AND SMALL ITEMS", "1 OF 3"): """
AN3-5A | BOLT, HEX | | EA | 12 | 12 | 0 | | H1 | |
AN3-6A | BOLT, HEX | | EA | 4 | 4 | 0 | | H1 | |
AN365-1032A | NUT, SELF-LOCKING | | EA | 16 | 16 | 0 | | H1 | |
AN960-10 | WASHER | | EA | 24 | 24 | 0 | | H1 | |
AN960-10L | WASHER, LIGHT | | EA | 8 | 8 | 0 | | H1 | |
AN4-7 | BOLT, HEX | | EA | 3 | 3 | 0 | | H2 | |
AN310-4 | NUT, CASTLE | | EA | 3 | 3 | 0 | | H2 | |
AN960-416 | WASHER | | EA | 6 | 6 | 0 | | H2 | |
AN380-2-2 | PIN, COTTER | | EA | 6 | 6 | 0 | | H2 | |
MS20470AD4-4 | RIVET, UNIVERSAL HEAD | | EA | 200 | 200 | 0 | | H3 | |
MS20470AD4-5 | RIVET, UNIVERSAL HEAD | | EA | 100 | 100 | 0 | | H3 | |
MS20426AD3-3.5 | RIVET, FLUSH HEAD | | EA | 400 | 400 | 0 | | H3 | |
T2-TL-0001 | ROD, HINGE ALIGNMENT (TOOL) | | EA | 1 | 1 | 0 | | | |
T2-CN-0003 | PRIMER, TWO-PART | | EA | AR | AR | 0 | | | |
T2-DW-0010 | DRAWING SET, RUDDER | | EA | REF | REF | 0 | | | |
""",
}

# counted otherwise than listed: (part, hand) -> rows of (hand, pieces, condition, note)
FOUND = {
    ("T2-RU-0412", "LH"): [("LH", 3, "good", "")],
    ("T2-RU-0412", "RH"): [("RH", 1, "good", "looked twice")],
    ("T2-RU-0433", ""): [("", 6, "good", ""), ("", 1, "damaged", "bent at the end")],
    ("T2-RU-0502", ""): [("", 1, "damaged", "dented corner, photo taken")],
    ("AN3-5A", ""): [("", 11, "good", "")],
    ("AN365-1032A", ""): [("", 18, "good", "")],
}
NOT_LISTED = ("2 OF 3", "", "T2-FL-0218", "LH", 1, "good", "A", "table 2", "lay between the ribs")
BINS = {"11": "S-01", "12": "S-02", "13": "S-03", "14": "S-04", "15": "RACK-1"}
BAG_BINS = {"H1": "D-01", "H2": "D-02", "H3": "D-03", "": "S-05"}
COUNT_HEAD: tuple[str, ...] = (
    "crate",
    "bag",
    "part number",
    "hand",
    "pieces",
    "condition",
    "revision",
)
COUNT_HEAD += ("by", "note")

PUT_AWAY_HEAD = ("crate", "bag", "part number", "hand", "pieces", "bin")
LINE_HEAD: tuple[str, ...] = (
    "row",
    "part number",
    "hand",
    "ordered",
    "shipped",
    "back-ordered",
    "unit",
    "length",
)
LINE_HEAD += ("crate", "bag", "sub-kit", "revision")

STEPS = """
11-01 | Join the doublers to the spar | 11 Frame | frame | | 1
11-02 | Rivet the root, tip and nose ribs | 11 Frame | frame | 11-01 | 2
11-03 | Rivet the trailing ribs | 11 Frame | frame | 11-01 | 1
12-01 | Back-rivet the stiffeners to the skins | 12 Skins | skins | | 2
12-02 | Fit the leading edges and close the skins | 12 Skins | rudder | 11-02, 11-03, 12-01 | 3
13-01 | Bolt on the hinge brackets | 13 Hinges and control | rudder | 11-02 | 1
13-02 | Bolt on the horn and its arms | 13 Hinges and control | rudder | 11-02 | 1
13-03 | Cut the cable guide tubes | 13 Hinges and control | rudder | | 1
14-01 | Build the trim tab | 14 Trim tab | trim tab | | 2
14-02 | Hang the trim tab | 14 Trim tab | rudder | 12-02, 14-01 | 1
15-01 | Fit the tip fairing and the counterweight | 15 Close | rudder | 12-02, 13-02 | 1
"""
# step | part | hand | quantity | kind | length | drawing sheet | find number | spare | remark
NEEDS = """
11-01 | T2-RU-0401 | | 1 | part | | RU-1 | 1 | 0 |
11-01 | T2-RU-0402 | | 1 | part | | RU-1 | 2 | 0 |
11-01 | T2-RU-0403 | | 1 | part | | RU-1 | 3 | 0 |
11-01 | T2-ST-0075 | | 6 | cut | 11-1/2" | RU-1 | 4 | 0 | kerf 1/8"
11-01 | MS20470AD4-5 | | 60 | hardware | | RU-1 | 20 | 4 |
11-02 | T2-RU-0410 | | 1 | part | | RU-2 | 1 | 0 |
11-02 | T2-RU-0411 | | 1 | part | | RU-2 | 2 | 0 |
11-02 | T2-RU-0412 | LH | 2 | part | | RU-2 | 3 | 0 |
11-02 | T2-RU-0412 | RH | 2 | part | | RU-2 | 4 | 0 |
11-02 | T2-RU-0413 | LH | 1 | part | | RU-2 | 5 | 0 |
11-02 | T2-RU-0413 | RH | 1 | part | | RU-2 | 6 | 0 |
11-02 | MS20470AD4-4 | | 72 | hardware | | RU-2 | 20 | 5 |
11-03 | T2-RU-0414 | LH | 3 | part | | RU-2 | 7 | 0 |
11-03 | T2-RU-0414 | RH | 3 | part | | RU-2 | 8 | 0 |
11-03 | MS20470AD4-4 | | 48 | hardware | | RU-2 | 20 | 4 |
12-01 | T2-RU-0501 | LH | 1 | part | | RU-3 | 1 | 0 |
12-01 | T2-RU-0501 | RH | 1 | part | | RU-3 | 2 | 0 |
12-01 | T2-RU-0433 | | 10 | part | | RU-3 | 3 | 0 |
12-01 | T2-RU-0434 | | 6 | part | | RU-3 | 4 | 0 |
12-01 | MS20426AD3-3.5 | | 160 | hardware | | RU-3 | 20 | 10 |
12-01 | T2-CN-0003 | | AR | consumable | | RU-3 | 30 | 0 |
12-02 | T2-RU-0503 | | 1 | part | | RU-3 | 5 | 0 |
12-02 | T2-RU-0504 | | 1 | part | | RU-3 | 6 | 0 |
12-02 | T2-RU-0505 | LH | 2 | part | | RU-3 | 7 | 0 |
12-02 | T2-RU-0505 | RH | 2 | part | | RU-3 | 8 | 0 |
12-02 | MS20426AD3-3.5 | | 180 | hardware | | RU-3 | 20 | 10 |
13-01 | T2-RU-0601 | | 1 | part | | RU-4 | 1 | 0 |
13-01 | T2-RU-0602 | | 1 | part | | RU-4 | 2 | 0 |
13-01 | T2-RU-0603 | | 1 | part | | RU-4 | 3 | 0 |
13-01 | T2-RU-0620 | | 3 | part | | RU-4 | 4 | 0 |
13-01 | AN3-5A | | 8 | hardware | | RU-4 | 20 | 0 |
13-01 | AN960-10 | | 16 | hardware | | RU-4 | 21 | 0 |
13-01 | AN365-1032A | | 8 | hardware | | RU-4 | 22 | 0 |
13-01 | T2-TL-0001 | | 1 | tool | | RU-4 | 40 | 0 | comes back
13-02 | T2-RU-0610 | | 1 | part | | RU-4 | 5 | 0 |
13-02 | T2-RU-0611 | LH | 1 | part | | RU-4 | 6 | 0 |
13-02 | T2-RU-0611 | RH | 1 | part | | RU-4 | 7 | 0 |
13-02 | T2-RU-0440 | LH | 1 | part | | RU-4 | 8 | 0 |
13-02 | T2-RU-0440 | RH | 1 | part | | RU-4 | 9 | 0 |
13-02 | AN3-5A | | 4 | hardware | | RU-4 | 20 | 0 |
13-02 | AN3-6A | | 4 | hardware | | RU-4 | 23 | 0 |
13-02 | AN960-10 | | 8 | hardware | | RU-4 | 21 | 0 |
13-02 | AN365-1032A | | 8 | hardware | | RU-4 | 22 | 0 |
13-02 | T2-TL-0001 | | 1 | tool | | RU-4 | 40 | 0 | comes back
13-03 | T2-ST-0316 | | 5 | cut | 16" | RU-5 | 1 | 0 | kerf 1/8"
14-01 | T2-RU-0701 | | 1 | part | | RU-6 | 1 | 0 |
14-01 | T2-RU-0702 | | 1 | part | | RU-6 | 2 | 0 |
14-01 | T2-RU-0703 | LH | 1 | part | | RU-6 | 3 | 0 |
14-01 | T2-RU-0703 | RH | 1 | part | | RU-6 | 4 | 0 |
14-01 | MS20470AD4-4 | | 36 | hardware | | RU-6 | 20 | 2 |
14-02 | MS20257P2 | | 1 | cut | 17-1/4" | RU-6 | 5 | 0 |
14-02 | MS20426AD3-3.5 | | 30 | hardware | | RU-6 | 21 | 2 |
15-01 | T2-RU-0502 | | 1 | part | | RU-7 | 1 | 0 |
15-01 | T2-RU-0630 | | 1 | part | | RU-7 | 2 | 0 |
15-01 | AN960-10L | | 2 | hardware | | RU-7 | 20 | 0 |
"""
STEP_HEAD = ("Step", "Title", "Section", "Sub-assembly", "After", "Days")
NEED_HEAD: tuple[str, ...] = ("Step", "Part number", "Hand", "Quantity", "Unit", "Kind", "Length")
NEED_HEAD += ("Drawing sheet", "Find number", "Spare", "Remark")
