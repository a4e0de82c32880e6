"""Units of quantity: their Rec 20 codes, the spellings in use, and exact sizes."""

from __future__ import annotations

from fractions import Fraction

from inventory.core.frozen import frozen
from inventory.core.items import Measure


@frozen
class Unit:
    """One unit a supplier may print beside a quantity."""

    code: str
    """UN/ECE Rec 20 (rev. 17) code; empty for packages, which that list gave up."""
    word: str
    measure: Measure
    size: Fraction
    """Smallest units of the measure in one: pieces, nm, ng, pL or square micrometres."""

    @property
    def packed(self) -> bool:
        """Say whether one of it may hold many pieces (a set, a box): counted as it is printed."""
        return self.measure is Measure.PIECES and self.word in _PACKED


_PACKED = frozenset({"set", "kit", "lot", "stick", "package", "box", "bag", "roll", "sheet"})

# Exact sizes: 16 CFR 500.19(a) for inch, pound and gallon; pints, quarts and fluid ounces are
# whole parts of the gallon of 231 cubic inches. Rec 20's own factors for these are rounded.
# Codes: UN/ECE Rec 20 rev. 17; the deprecated and deleted ones (NPR, QT, PT, OZ, ST, BX) are
# read as printed words only. Spellings: common practice, no source.
_INCH = Fraction(25_400_000)
_POUND = Fraction(453_592_370_000)
_GALLON = Fraction(3_785_411_784_000)
_PIECES = (
    "PC PCS PCE PIECE PIECES STK STCK STUECK STÜCK STUK STUKS STYCK SZT SZTUK SZTUKA SZTUKI KS KUS "
    "KUSY KUSŮ PIÈCE PIÈCES PIEZA PIEZAS UD UDS UND UNDS UNID UNIDAD UNIDADES PZ PEZZO PEZZI PÇ "
    "PÇS PEÇA PEÇAS DB DARAB KPL"
)
_PAIRS = "PR PRS PAIR PAIRS NPR PAAR PAIRE PAIRES PAR PARES PÁR PÁRY PARA PARY COPPIA COPPIE PARI"
_METRES = "MTR METER METERS METRE METRES MR LM LFM LFDM MB BM METR METRY METRI METROS"
"""The languages abroad from memory; in none of them does one of these words mean another unit."""
_ROWS = (
    ("EA", "each", Measure.PIECES, 1, "EA EACH"),
    ("H87", "piece", Measure.PIECES, 1, _PIECES),
    ("C62", "one", Measure.PIECES, 1, "UNIT UNITS UN NO NOS ONE UNITÉ UNITÉS UNITÀ"),
    ("PR", "pair", Measure.PIECES, 2, _PAIRS),
    ("SET", "set", Measure.PIECES, 1, "SET SETS SE"),
    ("KT", "kit", Measure.PIECES, 1, "KIT KITS KT"),
    ("AY", "assembly", Measure.PIECES, 1, "ASSY ASSYS ASY AY ASSEMBLY"),
    ("LO", "lot", Measure.PIECES, 1, "LOT LO"),
    ("LN", "stick", Measure.PIECES, 1, "LN LG LGTH LGTHS LENGTH LENGTHS STICK STICKS BAR BARS"),
    ("", "package", Measure.PIECES, 1, "PK PKG PKGS PACK PACKS PKT PACKET PACKAGE PACKAGES"),
    ("", "box", Measure.PIECES, 1, "BX BOX BOXES CASE CTN CARTON"),
    ("", "bag", Measure.PIECES, 1, "BG BAG BAGS"),
    ("", "can", Measure.PIECES, 1, "CN CAN CANS CA"),
    ("", "tube", Measure.PIECES, 1, "TU TUBE TUBES"),
    ("", "bottle", Measure.PIECES, 1, "BT BTL BOTTLE BOTTLES"),
    ("", "roll", Measure.PIECES, 1, "RO RL ROLL ROLLS REEL SPOOL"),
    ("", "sheet", Measure.PIECES, 1, "SH SHT SHTS SHEET SHEETS ST"),
    ("", "rod", Measure.PIECES, 1, "RD ROD RODS"),
    ("", "strip", Measure.PIECES, 1, "SP STRIP STRIPS"),
    ("DZN", "dozen", Measure.PIECES, 12, "DZ DOZ DZN DOZEN"),
    ("GRO", "gross", Measure.PIECES, 144, "GRO GROSS"),
    ("CEN", "hundred", Measure.PIECES, 100, "HD HUND HUNDRED CEN /100 /C C100 PER100"),
    ("MIL", "thousand", Measure.PIECES, 1000, "MX MPCS THD THOUSAND /1000 /M M1000 PER1000"),
    ("FOT", "foot", Measure.LENGTH, 12 * _INCH, "FT FEET FOOT FOT ' LFT LINFT"),
    ("LF", "linear foot", Measure.LENGTH, 12 * _INCH, "LF"),
    ("INH", "inch", Measure.LENGTH, _INCH, 'IN INCH INCHES INH " INS'),
    ("MMT", "millimetre", Measure.LENGTH, 10**6, "MM MMT MILLIMETRE MILLIMETER"),
    ("CMT", "centimetre", Measure.LENGTH, 10**7, "CM CMT CENTIMETRE CENTIMETER"),
    (
        "MTR",
        "metre",
        Measure.LENGTH,
        10**9,
        _METRES,
    ),
    ("YRD", "yard", Measure.LENGTH, 36 * _INCH, "YD YDS YARD YARDS YRD"),
    ("FTK", "square foot", Measure.AREA, (12 * _INCH / 1000) ** 2, "SQFT SF FT2 FTK FT²"),
    ("INK", "square inch", Measure.AREA, (_INCH / 1000) ** 2, "SQIN IN2 INK IN²"),
    ("YDK", "square yard", Measure.AREA, (36 * _INCH / 1000) ** 2, "SQYD SY YD2 YDK"),
    ("MTK", "square metre", Measure.AREA, 10**12, "SQM M2 MTK M²"),
    ("LBR", "pound", Measure.MASS, _POUND, "LB LBS LBR POUND POUNDS"),
    ("ONZ", "ounce", Measure.MASS, _POUND / 16, "ONZ OUNCE OUNCES"),
    ("KGM", "kilogram", Measure.MASS, 10**12, "KG KGS KGM KILO KILOGRAM"),
    ("GRM", "gram", Measure.MASS, 10**9, "G GM GMS GRM GRAM GRAMS"),
    ("GLL", "gallon", Measure.VOLUME, _GALLON, "GAL GALS GLL GALLON GALLONS GL"),
    ("GLI", "gallon (UK)", Measure.VOLUME, Fraction(4_546_090_000_000), "GLI IMPGAL UKGAL"),
    ("QTL", "quart", Measure.VOLUME, _GALLON / 4, "QT QTS QTL QUART QUARTS"),
    ("PTL", "pint", Measure.VOLUME, _GALLON / 8, "PTS PTL PINT PINTS"),
    ("OZA", "fluid ounce", Measure.VOLUME, _GALLON / 128, "FLOZ OZFL OZA FLUIDOUNCE"),
    ("MLT", "millilitre", Measure.VOLUME, 10**9, "ML MLT CC MILLILITRE MILLILITER"),
    ("LTR", "litre", Measure.VOLUME, 10**12, "LTR LITER LITERS LITRE LITRES LI"),
)
UNITS = {row[1]: Unit(row[0], row[1], row[2], Fraction(row[3])) for row in _ROWS}
"""Every unit by its word."""
EACH = UNITS["each"]
_SPELLINGS = {spelling: UNITS[row[1]] for row in _ROWS for spelling in row[4].split()}
_BY_CODE = {unit.code: unit for unit in UNITS.values() if unit.code}

AMBIGUOUS = {
    "M": ("metre", "thousand"),
    "MIL": ("thousand", "thousandth of an inch"),
    "C": ("hundred", "one"),
    "PT": ("pint", "part", "pallet"),
    "GR": ("gross", "gram"),
    "GA": ("gallon", "gauge"),
    "#": ("pound", "number"),
    "OZ": ("ounce", "fluid ounce"),
    "T": ("thousand", "tonne"),
    "L": ("litre", "stick"),
}
"""Printed words that stand for units of different size: what each may mean. Never taken silently.

Words whose meanings are all counted alike (ST set or sheet, SH, BX, RD) are not among them.
"""


def _plain(word: str) -> str:
    return "".join(word.upper().replace(".", "").split()).strip(":;,()")


def find_unit(word: str) -> Unit | None:
    """Return the unit of a printed word; None where it is unknown or stands for several."""
    plain = _plain(word)
    if plain in AMBIGUOUS:
        return None
    return _SPELLINGS.get(plain) or _in_two_languages(plain)


def _in_two_languages(plain: str) -> Unit | None:
    """Return the unit of a word printed twice, `Stk/ea`, where both are of one size."""
    first, _, other = plain.partition("/")
    one, two = _SPELLINGS.get(first), _SPELLINGS.get(other)
    alike = one and two and (one.measure, one.size) == (two.measure, two.size)
    return one if alike else None


def unit_by_code(code: str) -> Unit | None:
    """Return the unit of a Rec 20 code that stands in the record."""
    return _BY_CODE.get(code)


def meanings(word: str) -> tuple[str, ...]:
    """Return the unit words that an ambiguous printed word may stand for; else nothing."""
    return AMBIGUOUS.get(_plain(word), ())


@frozen
class Amount:
    """A quantity in the smallest units of its measure."""

    quantity: int
    rounded: bool = False
    """True where a mass, volume or area wasn't whole and was rounded once, half to even."""


def amount_of(number: Fraction, unit: Unit) -> Amount | None:
    """Return so many of the unit in smallest units; None where pieces or a length aren't whole."""
    exact = number * unit.size
    if exact.denominator == 1:
        return Amount(int(exact))
    if unit.measure in {Measure.PIECES, Measure.LENGTH}:
        return None
    return Amount(round(exact), rounded=True)


def in_unit(quantity: int, unit: Unit) -> Fraction:
    """Return a quantity of smallest units as a number of the unit, as the list printed it.

    A rounded mass comes back as the fraction it was printed as: ½ oz is half a nanogram off.
    """
    return Fraction(quantity, unit.size).limit_denominator(1_000_000)
