"""Work out what a kit's counts and plan come to, without the program it is to check.

Run `python sample_kits/work_out.py FOLDER`; reads the kit's lines, counts, bins and plan, and
writes `expected/findings.csv`, `short.csv` and `ready.csv`. The rules are those of README.md
beside the kit, written down the plain way: dictionaries, one pass after the other.
"""

from __future__ import annotations

import csv
import sys
from collections import defaultdict
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

import openpyxl
from spreadsheets import Cell, write_table

KERF = Fraction(1, 8)
MIRROR = {"LH": "RH", "RH": "LH"}
Row = dict[str, str]
Place = tuple[str, str, str]
Tally = dict[Place, dict[str, Fraction]]


class Need(NamedTuple):
    """What one step wants of one part."""

    step: str
    part: str
    hand: str
    pieces: Fraction
    kind: str
    length: str
    taken: bool
    """Not so for tools, which come back, and for as-required amounts."""


def read(path: Path) -> list[Row]:
    """Return a table's rows by column name."""
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def inches(text: str) -> Fraction:
    """Return a length such as `11-1/2"`, `6 FT`, `6'-0"` or `1830 mm` in inches."""
    if "'" in text:
        feet, rest = text.split("'")
        return Fraction(feet) * 12 + inches(rest.strip("-"))
    if text.upper().endswith("FT"):
        return Fraction(text[:-2].strip()) * 12
    if text.endswith("mm"):
        return Fraction(text[:-2].strip()) / Fraction("25.4")
    return sum((Fraction(part) for part in text.rstrip('"').split("-")), Fraction(0))


def amount(text: str) -> Fraction:
    """Return a number such as `4`, `1/2` or `4500 ML`; as-required counts as one, there or not."""
    return Fraction(1) if text == "AR" else Fraction(text.split(maxsplit=1)[0])


def shown(number: Fraction) -> Cell:
    """Return a whole number as such, else the fraction's text."""
    return int(number) if number.denominator == 1 else str(number)


def findings(lines: list[Row], counts: list[Row]) -> list[list[Cell]]:
    """Compare the list with the count, bag by bag."""
    listed, found = listed_by_place(lines), counted_by_place(counts)
    rows: list[list[Cell]] = []
    for line in lines:
        if line["back-ordered"] not in {"", "0"}:
            due = shown(amount(line["back-ordered"]))
            rows.append(["back-order", *place_of(line), line["hand"], line["shipped"], None, due])
    for count in counts:
        if count["condition"] == "damaged":
            place, hand = place_of(count), count["hand"]
            amounts = (listed[place][hand], found[place][hand], amount(count["pieces"]))
            rows.append(["damaged", *place, hand, *map(shown, amounts)])
    rows += other_revisions(lines, counts)
    for place in sorted(set(listed) | set(found)):
        rows += differences(place, listed[place], found[place])
    return sorted(rows, key=lambda row: [str(cell) for cell in row])


def other_revisions(lines: list[Row], counts: list[Row]) -> list[list[Cell]]:
    """Return the counts that show another revision than the list."""
    revisions = {(place_of(line), line["hand"]): line["revision"] for line in lines}
    return [
        ["wrong-revision", *place_of(count), count["hand"], listed, count["revision"], pieces]
        for count in counts
        if (listed := revisions.get((place_of(count), count["hand"])))
        not in {None, count["revision"]}
        and (pieces := shown(amount(count["pieces"])))
    ]


def place_of(row: Row) -> Place:
    """Return crate, bag and part number: what is compared with what."""
    return row["crate"], row["bag"], row["part number"]


def listed_by_place(lines: list[Row]) -> Tally:
    """Return the pieces the list says are there; as-required lines as one, there or not."""
    listed: Tally = defaultdict(lambda: defaultdict(Fraction))
    for line in lines:
        if line["shipped"] != "REF":
            listed[place_of(line)][line["hand"]] += amount(line["shipped"])
    return listed


def counted_by_place(counts: list[Row]) -> Tally:
    """Return the pieces counted, good or not."""
    found: Tally = defaultdict(lambda: defaultdict(Fraction))
    for count in counts:
        found[place_of(count)][count["hand"]] += amount(count["pieces"])
    return found


def differences(
    place: Place, listed: dict[str, Fraction], found: dict[str, Fraction]
) -> list[list[Cell]]:
    """Return short, over, wrong hand and not listed for one part in one bag."""
    if not any(listed.values()):
        return [
            ["not-listed", *place, hand, 0, shown(pieces), shown(pieces)]
            for hand, pieces in found.items()
            if pieces and not listed.get(hand)
        ]
    gap = {hand: found[hand] - listed[hand] for hand in sorted(set(listed) | set(found))}
    rows: list[list[Cell]] = []
    for hand, more in gap.items():
        other = MIRROR.get(hand, "")
        swapped = min(more, -gap.get(other, Fraction(0)))
        if swapped > 0:
            amounts = (listed[hand], found[hand], swapped)
            rows.append(["wrong-hand", *place, hand, *map(shown, amounts)])
            gap[hand] -= swapped
            gap[other] += swapped
    for hand, more in gap.items():
        if more:
            kind = "over" if more > 0 else "short"
            amounts = (listed[hand], found[hand], abs(more))
            rows.append([kind, *place, hand, *map(shown, amounts)])
    return rows


def read_plan(path: Path) -> tuple[dict[str, list[str]], list[Need]]:
    """Return each step's predecessors, in the order of the sheet, and all needs."""
    book = openpyxl.load_workbook(path)
    steps = {
        str(row[0]): [code.strip() for code in str(row[4] or "").split(",") if code.strip()]
        for row in book["Steps"].iter_rows(min_row=2, values_only=True)
    }
    needs = []
    for row in book["Needs"].iter_rows(min_row=2, values_only=True):
        step, part, hand, pieces, _, kind, length, *_ = (str(cell or "") for cell in row)
        taken = pieces != "AR" and kind != "tool"
        needs.append(Need(step, part, hand, amount(pieces), kind, length, taken))
    return steps, needs


def in_order(steps: dict[str, list[str]]) -> list[str]:
    """Return the steps, each after those it waits for, else as the sheet has them."""
    order: list[str] = []

    def visit(step: str) -> None:
        if step not in order:
            for before in steps[step]:
                visit(before)
            order.append(step)

    for step in steps:
        visit(step)
    return order


class Stock:
    """What lies in the bins, and what earlier steps took of it."""

    def __init__(self, put_away: list[Row], lines: list[Row]) -> None:
        self.bars = {line["part number"]: line["length"] for line in lines if line["length"]}
        self.pieces: dict[tuple[str, str], Fraction] = defaultdict(Fraction)
        for row in put_away:
            self.pieces[row["part number"], row["hand"]] += amount(row["pieces"])
        self.cuts = {
            part: [inches(length)] * int(self.pieces[part, ""])
            for part, length in self.bars.items()
        }

    def take(self, need: Need) -> tuple[Fraction, Fraction]:
        """Return how many of the need could be had before it took them, and how many it lacks."""
        if need.kind == "cut":
            return self.cut(need)
        hands = {need.hand, "EITHER"}
        there = sum((self.pieces[need.part, hand] for hand in hands), Fraction(0))
        if need.taken:
            left = need.pieces
            for hand in sorted(hands, key=lambda one: one != need.hand):
                taken = min(left, self.pieces[need.part, hand])
                self.pieces[need.part, hand] -= taken
                left -= taken
        return there, max(Fraction(0), need.pieces - there)

    def cut(self, need: Need) -> tuple[Fraction, Fraction]:
        """Cut pieces one by one from the shortest bar that holds them."""
        piece, made = inches(need.length), Fraction(0)
        bars = self.cuts.get(need.part, [])
        while made < need.pieces and any(bar >= piece for bar in bars):
            bar = min(bar for bar in bars if bar >= piece)
            bars.remove(bar)
            bars.append(max(Fraction(0), bar - piece - KERF))
            made += 1
        return made, need.pieces - made


def main(folder: Path) -> None:
    """Write the three tables of expected results."""
    lines, counts = read(folder / "expected" / "lines.csv"), read(folder / "counts.csv")
    head = ["finding", "crate", "bag", "part number", "hand", "listed", "counted", "pieces"]
    write_table(folder / "expected" / "findings.csv", head, findings(lines, counts))
    steps, needs = read_plan(folder / "plan.xlsx")
    due: dict[tuple[str, str], Fraction] = defaultdict(Fraction)
    for line in lines:
        due[line["part number"], line["hand"]] += amount(line["back-ordered"])
    stock = Stock(read(folder / "put_away.csv"), lines)
    short: list[list[Cell]] = []
    for step in in_order(steps):
        for need in needs:
            if need.step == step:
                there, lacking = stock.take(need)
                amounts = (need.pieces, there, lacking, due[need.part, need.hand])
                row = [step, need.part, need.hand, need.length, *map(shown, amounts)]
                short += [row] if lacking else []
    head = ["step", "part number", "hand", "length", "needed", "available", "short", "due"]
    write_table(folder / "expected" / "short.csv", head, short)
    stopped = {row[0] for row in short}
    ready: list[list[Cell]] = [
        [
            step,
            "no" if before or step in stopped else "yes",
            " ".join(before),
            " ".join(str(row[1]) for row in short if row[0] == step),
        ]
        for step, before in steps.items()
    ]
    write_table(folder / "expected" / "ready.csv", ["step", "ready", "waits for", "short"], ready)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
