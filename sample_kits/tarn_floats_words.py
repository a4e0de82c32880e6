"""Names, materials and hardware of the float kit, as plain tables."""

from __future__ import annotations

TITLE = (
    "CURLEW SLIP KIT WORKS",
    "PACKING LIST  -  TARN T2 FLOAT KIT  -  SUB-KIT {number} {name}",
    "Order CS-2077   Customer: Evening class, Boat Shed 2   Airframe 7   Shipment 1",
    "List revision {revision}   Carrier: Snail & Anchor Haulage   5 crates",
)
NOT_A_FIRM = "Mudlark Stairs 3, Port Merrow  (an invented firm in an invented harbour)"
UPPER = ("LINE", "PART NO.", "DESCRIPTION", "SIDE", "QTY", None, None, "UM", "STOCK", "BAG", "REV")
LOWER = (None, None, None, None, "ORD", "SHP", "B/O", None, "LENGTH", None, None)

FLAT, LONG, FORMED, FITTINGS, BAGS = (f"{number} OF 5" for number in range(1, 6))
CRATES = {
    FLAT: "FLAT SHEETS AND SKINS",
    LONG: "LONG PARTS",
    FORMED: "FORMED PARTS",
    FITTINGS: "FITTINGS",
    BAGS: "BAGS AND SMALL ITEMS",
}

# sub-kit -> name, place, parts: noun, handed, pieces for one float, crate, material
SUB_KITS: dict[str, tuple[str, str, tuple[tuple[str, bool, int, str, str], ...]]] = {
    "41": (
        "KEEL AND BOTTOM",
        "BOTTOM BAY",
        (
            ("SKIN, BOTTOM", True, 1, FLAT, ".040 2024-T3"),
            ("KEEL SECTION", False, 1, LONG, "6061-T6"),
            ("CHINE STRIP", True, 1, LONG, ".050 6061-T6"),
            ("FLOOR", True, 2, FORMED, ".032 2024-T3"),
            ("STIFFENER, BOTTOM", False, 4, FORMED, ".025 2024-T3"),
            ("CLIP, FLOOR", False, 6, FORMED, ".032 2024-T3"),
            ("GUSSET, KEEL", True, 2, FORMED, ".040 2024-T3"),
            ("WEAR STRIP", False, 1, LONG, ".063 6061-T6"),
        ),
    ),
    "42": (
        "FRAMES AND BULKHEADS",
        "FRAME",
        (
            ("FRAME, OUTER", True, 1, FORMED, ".032 2024-T3"),
            ("FRAME, INNER", True, 1, FORMED, ".032 2024-T3"),
            ("WEB", False, 1, FLAT, ".025 2024-T3"),
            ("CAP", True, 2, FORMED, ".040 2024-T3"),
            ("INTERCOSTAL", True, 3, FORMED, ".025 2024-T3"),
            ("TIE", False, 4, FORMED, ".040 6061-T6"),
            ("RING, HAND HOLE", False, 1, FITTINGS, ".050 6061-T6"),
        ),
    ),
    "43": (
        "SIDES AND DECK",
        "SIDE BAY",
        (
            ("SKIN, SIDE, INBOARD", True, 1, FLAT, ".032 2024-T3"),
            ("SKIN, SIDE, OUTBOARD", True, 1, FLAT, ".032 2024-T3"),
            ("SKIN, DECK", False, 1, FLAT, ".032 2024-T3"),
            ("STRINGER", True, 2, LONG, ".032 2024-T3"),
            ("CORNER, DECK", True, 2, FORMED, ".040 6061-T6"),
            ("DOUBLER, DECK", False, 2, FORMED, ".040 2024-T3"),
            ("SPLICE, SIDE", False, 3, FORMED, ".032 2024-T3"),
            ("STRIP, SEAL", False, 2, LONG, ".025 6061-T6"),
        ),
    ),
    "44": (
        "SPREADER BARS AND STRUTS",
        "STRUT STATION",
        (
            ("FAIRING, STRUT", True, 1, LONG, ".025 6061-T6"),
            ("CUFF, STRUT", True, 1, FORMED, ".040 6061-T6"),
            ("FITTING, STRUT", True, 2, FITTINGS, "7075-T651"),
            ("SADDLE", False, 2, FITTINGS, ".125 6061-T6"),
            ("SHIM, SADDLE, EITHER SIDE", False, 2, FITTINGS, ".016 301"),
            ("PLATE, BACKING", False, 4, FITTINGS, ".090 2024-T3"),
            ("BUSHING", False, 4, FITTINGS, "4130"),
        ),
    ),
    "45": (
        "WATER RUDDERS AND STEERING",
        "STEERING GROUP",
        (
            ("BLADE, HALF", True, 1, FLAT, ".040 6061-T6"),
            ("POST, RUDDER", False, 1, FITTINGS, "4130"),
            ("BELLCRANK", True, 1, FITTINGS, ".125 2024-T3"),
            ("BRACKET, PULLEY", True, 2, FITTINGS, ".063 2024-T3"),
            ("PULLEY", False, 2, FITTINGS, "PHENOLIC"),
            ("GUARD, CABLE", False, 2, FITTINGS, ".040 6061-T6"),
            ("LINK, RETRACT", False, 1, FITTINGS, ".090 2024-T3"),
        ),
    ),
    "46": (
        "HATCHES AND BILGE FITTINGS",
        "COMPARTMENT",
        (
            ("HATCH COVER", False, 1, FLAT, ".040 6061-T6"),
            ("COAMING", True, 1, FORMED, ".050 6061-T6"),
            ("RETAINER, SEAL", False, 2, FORMED, ".025 6061-T6"),
            ("TUBE, PUMP-OUT", True, 1, FITTINGS, "3/8 OD 6061-T6"),
            ("FITTING, PUMP-OUT", False, 1, FITTINGS, "NYLON"),
            ("CLAMP, TUBE", False, 3, FITTINGS, "CUSHIONED"),
            ("PLUG, DRAIN", False, 1, FITTINGS, "BRASS"),
        ),
    ),
    "47": (
        "CLEATS, STEPS AND BUMPERS",
        "DECK FITTING",
        (
            ("CLEAT", False, 1, FITTINGS, "6061-T6"),
            ("BASE, CLEAT", True, 1, FITTINGS, ".090 6061-T6"),
            ("TREAD", False, 1, FITTINGS, ".063 6061-T6"),
            ("BRACKET, TREAD", True, 2, FITTINGS, ".090 6061-T6"),
            ("PAD, BUMPER", False, 2, FITTINGS, "NEOPRENE"),
            ("RETAINER, BUMPER", True, 1, FORMED, ".040 6061-T6"),
        ),
    ),
}
PLACES = 14
"""Bays, frames, stations and so on in each of these sub-kits."""

# part -> words, stock length, bars; the piece that the plan cuts from it, pieces for one float
STOCK = {
    "T2-ST-0075": ("ANGLE 3/4 X 3/4 X .063, 6061-T6", '48"', 22, "75 mm", 12, "41"),
    "T2-ST-0100": ("ANGLE 1 X 1 X .093, 6061-T6", '72"', 15, '5-1/2"', 6, "42"),
    "T2-ST-0063": ("ANGLE 5/8 X 5/8 X .063, 6061-T6", "1830 mm", 9, "118 mm", 4, "43"),
    "T2-ST-0125": ("ANGLE 1-1/4 X 1-1/4 X .125, 6061-T6", "8 FT", 4, '11-3/8"', 1, "44"),
    "T2-ST-0316": ("TUBE 3/8 OD X .035 WALL, 6061-T6", "12 FT", 3, "640 mm", 1, "46"),
    "T2-ST-0225": ("STRIP 2 X .125, 6061-T6", "6'-0\"", 3, '4-1/4"', 1, "47"),
    "MS20257P3": ("HINGE, CONTINUOUS", '72"', 4, '9-5/8"', 1, "46"),
}
RIVETS = (
    "MS20470AD3-4",
    "MS20470AD4-4",
    "MS20470AD4-5",
    "MS20470AD5-6",
    "MS20426AD3-3.5",
    "MS20426AD4-5",
)
SETS = (
    (("AN3-5A", "BOLT, HEX"), ("AN960-10", "WASHER"), ("AN365-1032A", "NUT, SELF-LOCKING")),
    (("AN3-7A", "BOLT, HEX"), ("AN960-10L", "WASHER, LIGHT"), ("AN365-1032A", "NUT, SELF-LOCKING")),
    (("AN4-7A", "BOLT, HEX"), ("AN960-416", "WASHER"), ("AN365-428A", "NUT, SELF-LOCKING")),
    (
        ("AN4-12A", "BOLT, HEX"),
        ("AN960-416L", "WASHER, LIGHT"),
        ("AN365-428A", "NUT, SELF-LOCKING"),
    ),
    (("AN4-11", "BOLT, HEX, DRILLED"), ("AN310-4", "NUT, CASTLE"), ("AN380-2-2", "PIN, COTTER")),
    (("AN525-832R8", "SCREW, WASHER HEAD"), ("AN960-8", "WASHER"), ("MS21047L08", "NUTPLATE")),
    (("MS27039-1-08", "SCREW, PAN HEAD"), ("AN960-10", "WASHER"), ("MS21047L3", "NUTPLATE")),
)
# part, words, unit, quantity, remark
LOOSE = (
    ("MS20470AD3-3", "RIVET, UNIVERSAL HEAD, SHOP STOCK", "LB", "1/2", "BY WEIGHT"),
    ("MS20426AD3-3", "RIVET, FLUSH HEAD, SHOP STOCK", "LB", "1", "BY WEIGHT"),
    ("MS20470AD4-3", "RIVET, UNIVERSAL HEAD, SHOP STOCK", "LB", "2", "BY WEIGHT"),
    ("T2-CN-0001", "SEALANT, FUEL AND WATER, PART A+B", "ML", "6000", "EXP 10/2026"),
    ("T2-CN-0002", "PRIMER, EPOXY, PART A+B", "ML", "4000", "EXP 04/2027"),
    ("T2-CN-0004", "GREASE, WATERPROOF", "ML", "400", ""),
    ("T2-CN-0005", "ADHESIVE, NEOPRENE TO METAL", "ML", "500", "EXP 06/2026"),
    ("T2-CN-0006", "TAPE, ISOLATING", "EA", "AR", ""),
    ("T2-DW-0040", "DRAWING SET, FLOATS", "EA", "REF", "SENT BEFORE"),
    ("T2-DW-0041", "MANUAL, FLOATS", "EA", "REF", "SENT BEFORE"),
    ("T2-TL-0041", "TEMPLATE, KEEL LINE (TOOL)", "EA", "1", "RETURN NOT NEEDED"),
    ("T2-TL-0042", "BLOCK, CHINE BUCKING (TOOL)", "EA", "2", ""),
    ("T2-TL-0043", "GAUGE, STRUT ANGLE (TOOL)", "EA", "1", ""),
    ("T2-TL-0044", "DRIFT, BUSHING (TOOL)", "EA", "1", ""),
)
CONSUMED = {"41": ("T2-CN-0001", 150), "43": ("T2-CN-0002", 110), "46": ("T2-CN-0004", 12)}
"""Millilitres for one float and place."""
TOOLS = {"41": "T2-TL-0041", "43": "T2-TL-0042", "44": "T2-TL-0043", "45": "T2-TL-0044"}
