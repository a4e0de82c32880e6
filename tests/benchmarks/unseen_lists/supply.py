"""What invented kits hold: groups of parts, bags of hardware, stock, odds and ends."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from random import Random


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One thing a kit holds, whatever an office makes of it on paper."""

    number: str
    words: str
    hand: str = "none"
    """`none`, `left`, `right`, `either`, or `pair` for both, half the pieces each."""
    pieces: int
    due: int = 0
    """Pieces of these that aren't in this shipment."""
    hardware: bool = False
    revision: str = ""
    bag: str = ""
    length: str = ""

    @property
    def sent(self) -> int:
        """Pieces in this shipment."""
        return self.pieces - self.due


@dataclass(frozen=True, slots=True)
class Group:
    """A sub-kit: what is made of sheet and bar, then its bags."""

    name: str
    crate: int
    parts: tuple[Part, ...]


PLACES = (
    *("WING, OUTER PANEL", "WING, CENTRE SECTION", "TAILPLANE", "ELEVATOR", "FIN", "AILERON"),
    *("FUSELAGE, FORWARD", "FUSELAGE, AFT", "COWLING", "FLAP", "CANOPY FRAME", "UNDERCARRIAGE"),
    *("SEATS", "FUEL TANK", "CONTROL RUNS", "INSTRUMENT PANEL"),
)
HANDED = (
    "SKIN",
    "RIB",
    "NOSE RIB",
    "BRACKET",
    "GUSSET",
    "CAP STRIP",
    "FAIRING",
    "STIFFENER",
    "ARM",
)
PLAIN = (
    "SPAR",
    "WEB",
    "DOUBLER",
    "CLIP",
    "SHIM",
    "PLATE",
    "TUBE",
    "ANGLE",
    "COVER",
    "PLUG",
    "STRAP",
)
HARDWARE = (
    ("AN3-5A", "BOLT"),
    ("AN3-10A", "BOLT"),
    ("AN4-7A", "BOLT"),
    ("AN4-14", "BOLT, DRILLED SHANK"),
    ("AN5-21A", "BOLT"),
    ("AN310-4", "NUT, CASTLE"),
    ("AN310D5R", "NUT, CASTLE"),
    ("AN316-4R", "NUT, CHECK"),
    ("AN365-1032A", "NUT, LOCKING"),
    ("AN365-428A", "NUT, LOCKING"),
    ("AN960-10", "WASHER"),
    ("AN960-10L", "WASHER, THIN"),
    ("AN960-416", "WASHER"),
    ("AN960-416L", "WASHER, THIN"),
    ("AN970-3", "WASHER, LARGE"),
    ("AN380-2-2", "COTTER PIN"),
    ("AN525-832R8", "SCREW"),
    ("AN507C632R8", "SCREW, FLUSH"),
    ("MS27039-1-08", "SCREW"),
    ("MS21047L3", "NUTPLATE"),
    ("MS21047L08", "NUTPLATE"),
    ("MS20470AD4-5", "RIVET"),
    ("MS20470AD4-3.5", "RIVET"),
    ("MS20426AD3-3.5", "RIVET, FLUSH"),
    ("MS20426AD4-6", "RIVET, FLUSH"),
    ("NAS1149F0363P", "WASHER"),
)
STOCK = ("ANGLE 3/4 X 3/4 X 1/16", "TUBE 1/2 OD X .035 WALL", "STRIP 1 X 1/8", "HINGE, CONTINUOUS")


def part_number(random: Random, style: str) -> str:
    """Return a part number of the office's own kind; never one a spreadsheet would change."""
    number = random.randrange(100, 9800)
    match style:
        case "dash":
            return f"WX-{number:04}-{random.randrange(1, 40):02}"
        case "dots":
            return f"{number // 100 + 1}.{number % 100:02}.{random.randrange(100, 999)}"
        case "zeros":
            return f"{number:06}"
        case "letters":
            return f"{random.choice('FWTC')}{random.choice('ABHK')}{number}{random.choice('CGN')}"
        case _:
            return f"{style}{number:04}"


def group(random: Random, style: str, crate: int, *, size: int = 7) -> Group:
    """Return one sub-kit with parts of all hands, a few back-orders and up to three bags."""
    name = random.choice(PLACES)
    parts: list[Part] = []
    taken = set()
    while len(parts) < size:
        number = part_number(random, style)
        if number in taken:
            continue
        taken.add(number)
        parts += some_part(random, number, name)
    for bag in range(random.randrange(1, 4)):
        code = f"{random.choice('BHS')}{crate}{bag + 1}"
        for number, words in random.sample(HARDWARE, random.randrange(3, 7)):
            pieces = random.choice((2, 4, 6, 8, 12, 16, 24, 50, 100, 250))
            parts.append(Part(number=number, words=words, pieces=pieces, hardware=True, bag=code))
    return Group(name, crate, tuple(parts))


def some_part(random: Random, number: str, place: str) -> list[Part]:
    """Return one part, or a left and a right one."""
    revision = random.choice(("", "A", "A", "B", "C", "-"))
    kind = random.random()
    plain = Part(
        number=number,
        words=f"{random.choice(PLAIN)}, {place}",
        pieces=random.choice((1, 1, 2, 3, 4, 6, 10)),
        revision=revision,
    )
    if kind < 0.45:
        owed = random.random() < 0.15
        return [replace(plain, due=random.randrange(1, plain.pieces + 1) if owed else 0)]
    handed = replace(plain, words=f"{random.choice(HANDED)}, {place}")
    if kind < 0.75:
        pieces = random.choice((2, 2, 2, 4, 4, 6, 8))
        due = random.choice((0, 0, 0, 0, 0, 0, pieces))
        return [replace(handed, hand="pair", pieces=pieces, due=due)]
    if kind < 0.95:
        each = random.choice((1, 1, 1, 2, 3))
        return [replace(handed, hand=hand, pieces=each) for hand in ("left", "right")]
    return [replace(handed, hand="either", pieces=random.choice((2, 4)))]


def stock(random: Random, style: str, lengths: tuple[str, ...]) -> list[Part]:
    """Return bars of a length, the length as the office writes it."""
    return [
        Part(
            number=part_number(random, style),
            words=words,
            pieces=random.choice((1, 2, 3, 6)),
            length=random.choice(lengths),
        )
        for words in random.sample(STOCK, 3)
    ]
