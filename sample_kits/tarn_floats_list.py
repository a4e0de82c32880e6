"""The float kit's packing list as lines, and its later issues."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import tarn_floats_words as words

if TYPE_CHECKING:
    from collections.abc import Iterator
    from random import Random


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One row of the list; `L&R` holds both hands, half the pieces each."""

    sub_kit: str
    place: int = 0
    crate: str
    bag: str = ""
    part: str
    words: str
    side: str = ""
    ordered: str
    shipped: str
    due: str = "0"
    unit: str = "EA"
    length: str = ""
    revision: str = ""
    remark: str = ""

    @property
    def key(self) -> tuple[str, str, str, str]:
        """What stays the same of a line when the list is revised."""
        return self.sub_kit, self.bag, self.part, self.side


def lines_of(random: Random) -> list[Line]:
    """Return revision A, sub-kit by sub-kit and crate by crate."""
    lines = [line for sub_kit in words.SUB_KITS for line in sub_kit_lines(sub_kit, random)]
    revisions = {line.part: line.revision for line in reversed(lines)}
    lines = [replace(line, revision=revisions[line.part]) for line in lines]
    for part, (what, length, bars, *_) in words.STOCK.items():
        lines.append(
            Line(
                sub_kit="48",
                crate=words.LONG,
                part=part,
                words=what,
                ordered=str(bars),
                shipped=str(bars),
                length=length,
            )
        )
    for part, what, unit, amount, remark in words.LOOSE:
        lines.append(
            Line(
                sub_kit="49",
                crate=words.BAGS,
                part=part,
                words=what,
                ordered=amount,
                shipped=amount,
                unit=unit,
                remark=remark,
            )
        )
    return back_ordered(lines, random)


def sub_kit_lines(sub_kit: str, random: Random) -> list[Line]:
    """Return the parts of a sub-kit by crate, then its hardware bags."""
    _, place_name, parts = words.SUB_KITS[sub_kit]
    lines = []
    for place in range(1, words.PLACES + 1):
        for number, (noun, handed, pieces, crate, material) in enumerate(parts, 1):
            line = Line(
                sub_kit=sub_kit,
                place=place,
                crate=crate,
                part=f"T2-FL-{sub_kit}{place:02}{number}",
                words=f"{noun}, {place_name} {place}, {material}",
                side="L&R" if handed else "EITHER" if "EITHER" in noun else "",
                ordered=str(2 * pieces),
                shipped=str(2 * pieces),
                revision=random.choice("AAABBC"),
            )
            apart = handed and crate == words.FLAT
            lines += one_row_a_hand(line) if apart else [line]
        lines += bag(sub_kit, place, place_name, random)
    lines += rings(sub_kit)
    return sorted(lines, key=lambda line: line.crate)


def one_row_a_hand(line: Line) -> list[Line]:
    """Return a row for the left and one for the right, as the list has large parts."""
    half = str(int(line.ordered) // 2)
    return [replace(line, side=side, ordered=half, shipped=half) for side in "LR"]


def rings(sub_kit: str) -> Iterator[Line]:
    """Yield the hand-hole rings of frames 3 and 9, which hatches use once more."""
    if sub_kit == "46":
        for place in (3, 9):
            yield Line(
                sub_kit=sub_kit,
                place=place,
                crate=words.FITTINGS,
                part=f"T2-FL-42{place:02}7",
                words=f"RING, HAND HOLE, FRAME {place}, .050 6061-T6",
                ordered="2",
                shipped="2",
                remark="SAME AS SUB-KIT 42",
            )


def bag(sub_kit: str, place: int, place_name: str, random: Random) -> list[Line]:
    """Return the hardware of one place: two rivets and one or two sets of bolts, washers, nuts."""
    amounts = {rivet: 2 * random.randrange(12, 60) + 10 for rivet in random.sample(words.RIVETS, 2)}
    names = dict.fromkeys(amounts, "RIVET")
    for chosen in random.sample(words.SETS, 2 if place % 2 else 1):
        pieces = 2 * random.randrange(2, 9)
        for part, name in chosen:
            names[part] = name
            amounts[part] = amounts.get(part, 0) + pieces
    return [
        Line(
            sub_kit=sub_kit,
            place=place,
            crate=words.BAGS,
            bag=f"{sub_kit}-{place:02}",
            part=part,
            words=f"{names[part]}, {place_name} {place}" if part in words.RIVETS else names[part],
            ordered=str(amount),
            shipped=str(amount),
        )
        for part, amount in amounts.items()
    ]


def back_ordered(lines: list[Line], random: Random) -> list[Line]:
    """Return the lines with 26 of them not wholly shipped; one of these has nothing to follow."""
    formed = [n for n, line in enumerate(lines) if line.place and not line.bag and line.side != "R"]
    for count, number in enumerate(sorted(random.sample(formed, 25))):
        line = lines[number]
        ordered = int(line.ordered)
        owed = ordered if count % 3 == 0 or ordered == 1 else 2 * ((ordered + 2) // 4)
        remark = random.choice(("B/O", "TO FOLLOW", "BACK ORDER, SHIPMENT 2"))
        lines[number] = replace(line, shipped=str(ordered - owed), due=str(owed), remark=remark)
    for number, line in enumerate(lines):
        if line.part == "T2-ST-0316":
            lines[number] = replace(line, ordered="6", due="3", remark="3 B/O, TOO LONG FOR CRATE")
        if line.part == "T2-FL-47016" and line.side == "L&R":
            lines[number] = replace(line, ordered="4", remark="COMPLETE, NOTHING TO FOLLOW")
    return lines


def revised(lines: list[Line], random: Random, changes: int) -> list[Line]:
    """Return a later issue of the list: some lines changed, some added, some left out."""
    hardware = [n for n, line in enumerate(lines) if line.bag]
    parts = [n for n, line in enumerate(lines) if line.place and not line.bag and line.due == "0"]
    new = list(lines)
    for number in random.sample(hardware, changes):
        more = str(int(lines[number].ordered) + 2 * random.randrange(1, 6))
        new[number] = replace(lines[number], ordered=more, shipped=more)
    for number in random.sample(parts, changes // 2):
        new[number] = replace(lines[number], revision=chr(ord(lines[number].revision) + 1))
    gone = set(random.sample(hardware, changes // 3))
    added = {n: extra(lines[n], k) for k, n in enumerate(random.sample(parts, changes // 2))}
    issue: list[Line] = []
    for number, line in enumerate(new):
        issue += [] if number in gone else [line]
        issue += [added[number]] if number in added else []
    return issue


def extra(line: Line, number: int) -> Line:
    """Return a line that a revision brings in after the line given."""
    part = f"{line.part[:-1]}{8 + number % 2}-{number + 1}"
    return replace(line, part=part, words=f"DOUBLER TO {line.part}", remark="NEW", revision="A")
