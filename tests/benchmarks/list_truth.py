"""What is wrong with a row's reading, held against the truth about the row."""

from __future__ import annotations

import unicodedata
from collections import defaultdict
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any

Entry = Mapping[str, Any]
Fault = tuple[str, str]
PIECES = {"EA": 1, "C62": 1, "H87": 1, "PR": 2, "DZN": 12, "CEN": 100, "MIL": 1000, "GRO": 144}
MEASURES = {
    code: Fraction(factor)
    for code, factor in (
        *(("MMT", "1"), ("CMT", "10"), ("MTR", "1000"), ("INH", "25.4"), ("FOT", "304.8")),
        *(("YRD", "914.4"), ("GRM", "1"), ("KGM", "1000"), ("LBR", "453.59237")),
        *(("ONZ", "28.349523125"), ("MLT", "1"), ("LTR", "1000")),
    )
}
"""Factors of UN/ECE Rec 20 codes; the inch and the pound are those of 16 CFR 500.19."""
DASHES = dict.fromkeys(map(ord, "\u2010\u2011\u2012\u2013\u2014\u2212"), "-")


def row_faults(truth: Entry, found: Sequence[Entry]) -> list[Fault]:
    """Return every fault of a row: missing, wrong class, silently wrong, needlessly asked."""
    if not found:
        return [("missing", "the row isn't there")]
    asked = any(entry.get("questions") for entry in found)
    classes = {str(entry["class"]) for entry in found}
    faults: list[Fault] = []
    if not classes <= set(truth["classes"]):
        faults.append(("class", f"{sorted(classes)}, not {truth['classes']}"))
        if not asked and "part" in {*classes, *truth["classes"]}:
            faults.append(("silent", "a part lost or invented"))
    elif truth["ask"] == "must":
        faults += [] if asked else [("silent", f"not asked, though {truth['why']}")]
    elif "part" in classes and not asked:
        faults += [("silent", words) for words in part_faults(truth["parts"], found)]
    if asked and truth["ask"] == "no":
        texts = [str(one) for entry in found for one in entry.get("questions") or ()]
        faults.append(("needless", " / ".join(texts)[:200]))
    return faults


def part_faults(parts: Sequence[Entry], found: Sequence[Entry]) -> list[str]:
    """Return what is wrong with the parts of a row that was taken in without a question."""
    groups: dict[str, list[Entry]] = defaultdict(list)
    for entry in found:
        groups[plain(entry.get("part"))].append(entry)
    faults = []
    for part in parts:
        numbers = {plain(number) for number in part["numbers"]}
        matching = [entry for name in numbers for entry in groups.pop(name, [])]
        if matching:
            faults += one_part_faults(part, matching)
        else:
            faults.append(f"part {part['numbers'][0]} read as {sorted(groups) or 'nothing'}")
    return faults + [f"part {name} isn't on the row" for name in groups]


def one_part_faults(part: Entry, entries: Sequence[Entry]) -> list[str]:
    faults = []
    read = tuple(total(entries, name) for name in ("ordered", "shipped", "back_ordered"))
    right = [tuple(in_unit(text, part["unit"]) for text in one) for one in part["amounts"]]
    if right and not any(agree(read, one) for one in right):
        faults.append(f"amounts {shown(read)}, not {' or '.join(map(shown, right))}")
    if right:
        hand = hand_fault(part, entries)
        faults += [hand] if hand else []
    return faults


def agree(read: Sequence[Fraction | None], right: Sequence[Fraction | None]) -> bool:
    """Say whether amounts are the same; as-required and reference lines own none at all."""
    if right[0] is None:
        return read[0] is None and read[1] is None
    return tuple(read) == tuple(right)


def hand_fault(part: Entry, entries: Sequence[Entry]) -> str:
    """Return what is wrong with the hands: left and right apart, or none."""
    hands = {str(entry.get("hand")) for entry in entries}
    wanted = part["hand"]
    if wanted != "pair":
        return "" if hands == {wanted} else f"hand {sorted(hands)}, not {wanted}"
    if hands not in ({"pair"}, {"left", "right"}):
        return f"hand {sorted(hands)}, not a pair"
    left, right = (side_total(entries, side) for side in ("left", "right"))
    halves = [
        (whole / 2, whole / 2)
        for one in part["amounts"]
        for text in one[:2]
        if (whole := in_unit(text, part["unit"])) is not None
    ]
    sides = [tuple(map(Fraction, part["sides"]))] if part.get("sides") else halves
    return "" if (left, right) in sides else f"left {left} right {right}, not {sides[0]}"


def side_total(entries: Sequence[Entry], side: str) -> Fraction | None:
    """Return the pieces of one side over all entries."""
    sums = Fraction(0)
    for entry in entries:
        if str(entry.get("hand")) in {"pair", side}:
            value = entry.get(side)
            if value is None and str(entry.get("hand")) == side:
                value = entry.get("ordered")
            one = in_unit(value, unit_of(entry) if entry.get(side) is None else "EA")
            if one is None:
                return None
            sums += one
    return sums


def total(entries: Sequence[Entry], name: str) -> Fraction | None:
    """Return the sum of an amount over the entries of a part, in its smallest common unit."""
    values = [in_unit(entry.get(name), unit_of(entry)) for entry in entries]
    numbers = [value for value in values if value is not None]
    return sum(numbers, Fraction(0)) if len(numbers) == len(values) else None


def in_unit(value: object, unit: str) -> Fraction | None:
    """Return an amount in pieces, millimetres, grams or millilitres; AR and REF have none."""
    text = "" if value is None else str(value).strip().upper()
    if text in {"", "AR", "REF", "NONE"}:
        return None
    factor = PIECES.get(unit) or MEASURES.get(unit) or 1
    return Fraction(text) * factor


def unit_of(entry: Entry) -> str:
    """Return the unit's Rec 20 code, or its word where there is none."""
    unit = entry.get("unit") or "EA"
    text = unit.get("code") or unit.get("word") if isinstance(unit, Mapping) else unit
    return (str(text).split() or ["EA"])[0].upper()


def plain(number: object) -> str:
    text = unicodedata.normalize("NFKC", "" if number is None else str(number))
    return " ".join(text.translate(DASHES).upper().split())


def shown(values: Sequence[object]) -> str:
    return "/".join("-" if value is None else str(value) for value in values)
