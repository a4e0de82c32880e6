"""The float kit's plan, and what the class counted and put away."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import tarn_floats_words as words
from make_tarn_rudder import Counted
from spreadsheets import Cell, Sheet
from tarn_rudder_tables import NEED_HEAD, STEP_HEAD

if TYPE_CHECKING:
    from collections.abc import Iterator
    from random import Random

    from tarn_floats_list import Line

FLOATS = {"L": ("left", "LH"), "R": ("right", "RH")}
DOING = {
    "41": "Rivet",
    "42": "Assemble",
    "43": "Close",
    "44": "Fit",
    "45": "Rig",
    "46": "Seal and close",
    "47": "Bolt on",
}
BEFORE = {"43": ("43", "41", "42"), "44": ("43",), "46": ("43",), "47": ("47", "46")}
BEFORE |= {"41": ("41",), "42": (), "45": ()}
"""The sub-kits whose same place comes first; of the sub-kit itself, the place before."""
EARLIER = {"T2-FL-43044": "A", "T2-FL-44113": "B"}
"""Parts that came in another revision than listed."""
HANDS = {"L": "LH", "R": "RH", "EITHER": "EITHER", "": ""}


class Half(NamedTuple):
    """One hand of a line, as the truth names it."""

    line: Line
    hand: str
    ordered: str
    shipped: str
    due: str


def halves(line: Line) -> list[Half]:
    """Return a line as it is, or its left and right half."""
    amounts = (line.ordered, line.shipped, line.due)
    if line.side != "L&R":
        return [Half(line, HANDS[line.side], *amounts)]
    each = [str(int(amount) // 2) for amount in amounts]
    return [Half(line, hand, *each) for hand in ("LH", "RH")]


def plan(lines: list[Line], random: Random) -> list[Sheet]:
    """Return the plan's two sheets: each place of each sub-kit, left float and right float."""
    steps = Sheet("Steps", widths=(8, 44, 32, 16, 20, 6))
    needs = Sheet("Needs", widths=(8, 18, 6, 9, 6, 12, 10, 14, 12, 7, 14))
    steps.add(*STEP_HEAD, bold=True)
    needs.add(*NEED_HEAD, "Part revision", bold=True)
    wanting = set(random.sample([line.part for line in lines if line.place and line.bag == ""], 4))
    for sub_kit, (name, place_name, _) in words.SUB_KITS.items():
        for place in range(1, words.PLACES + 1):
            for float_, (side, _) in FLOATS.items():
                code = f"{sub_kit}-{place:02}{float_}"
                earlier = [(kit, place - (kit == sub_kit)) for kit in BEFORE[sub_kit]]
                before = [f"{kit}-{number:02}{float_}" for kit, number in earlier if number]
                title = f"{DOING[sub_kit]} {place_name.lower()} {place}, {side} float"
                section = f"{sub_kit} {name.capitalize()}"
                days = 1 + (place + int(sub_kit)) % 3
                steps.add(code, title, section, f"{side} float", ", ".join(before) or None, days)
                for find, need in enumerate(needs_of(lines, sub_kit, place, float_), 1):
                    part, hand, amount, unit, kind, length, spare, revision = need
                    if part in wanting and isinstance(amount, int):
                        amount += 1
                    page = f"FL-{sub_kit}-{place:02}"
                    head = (code, part, hand or None, amount, unit)
                    needs.add(*head, kind, length, page, find, spare, None, revision)
    return [steps, needs]


def needs_of(
    lines: list[Line], sub_kit: str, place: int, float_: str
) -> Iterator[tuple[str, str, Cell, str, str, str | None, int, str | None]]:
    """Yield part, hand, amount, unit, kind, length, spare and revision of one step."""
    hand = FLOATS[float_][1]
    for line in lines:
        if (line.sub_kit, line.place) != (sub_kit, place) or line.side not in {
            "",
            "L&R",
            "EITHER",
            float_,
        }:
            continue
        rivet = line.part in words.RIVETS
        pieces = int(line.ordered) - (10 if rivet else 0)
        pieces = pieces if line.side == float_ else pieces // 2
        kind = "hardware" if line.bag else "part"
        asked = (line.revision or None) if kind == "part" else None
        spare = 5 if rivet else 0
        yield line.part, hand if line.side else "", pieces, "EA", kind, None, spare, asked
    for part, (_, _, _, length, pieces, used) in words.STOCK.items():
        if used == sub_kit:
            yield part, "", pieces, "EA", "cut", length, 0, None
    if sub_kit in words.CONSUMED:
        part, amount = words.CONSUMED[sub_kit]
        yield part, "", amount, "ML", "consumable", None, 0, None
    if sub_kit in words.TOOLS:
        yield words.TOOLS[sub_kit], "", 1, "EA", "tool", None, 0, None
    if sub_kit == "47":
        yield "T2-CN-0006", "", "AR", "EA", "consumable", None, 0, None


def counted(lines: list[Line], random: Random) -> list[Counted]:
    """Return what the class counted: all of it, with findings of every kind."""
    rows = []
    shipped = [half for line in lines for half in halves(line) if half.shipped not in {"0", "REF"}]
    found = planted(shipped, random)
    for number, half in enumerate(shipped):
        line = half.line
        pieces = 1 if half.shipped == "AR" else half.shipped
        plain = [(half.hand, pieces if line.unit == "EA" else f"{pieces} {line.unit}", "good")]
        for hand, amount, condition in found.get(number, plain):
            by = f"table {line.crate[0]}"
            revision = EARLIER.get(line.part, line.revision)
            note = line.remark if line.remark.startswith("EXP") else ""
            note = "" if condition == "good" and not note else note or "photo taken"
            place = (line.crate, line.bag, line.part, hand, amount, condition)
            rows.append(Counted(*place, revision, by, note))  # type: ignore[arg-type]
    for part, hand in (("T2-RU-0412", "RH"), ("T2-FL-51021", ""), ("AN3-6A", "")):
        rows.append(Counted("4 OF 5", "", part, hand, 2, "good", "", "table 4", "not on the list"))
    return sorted(rows, key=lambda row: (row.crate, row.bag))


def planted(shipped: list[Half], random: Random) -> dict[int, list[tuple[str, Cell, str]]]:
    """Return the lines that were counted otherwise than listed: hand, amount, condition."""
    found: dict[int, list[tuple[str, Cell, str]]] = {}
    plain = [n for n, half in enumerate(shipped) if half.line.unit == "EA" and half.line.place]
    many = [
        n for n in plain if int(shipped[n].shipped) > 1 and shipped[n].line.part not in words.RIVETS
    ]
    for number in random.sample(many, 12):
        half = shipped[number]
        found[number] = [(half.hand, int(half.shipped) - 1 - number % 2, "good")]
    for number in random.sample([n for n in plain if n not in found], 7):
        half = shipped[number]
        found[number] = [(half.hand, int(half.shipped) + 1 + number % 3, "good")]
    for number in random.sample([n for n in many if n not in found], 8):
        half = shipped[number]
        good = int(half.shipped) - 1
        found[number] = [(half.hand, good, "good"), (half.hand, 1, "damaged")]
    pairs = [
        number
        for number in many
        if shipped[number].line.side == "L&R"
        and shipped[number].hand == "LH"
        and not {number, number + 1} & set(found)
    ]
    for number in random.sample(pairs, 4):
        each = int(shipped[number].shipped)
        found[number] = [("LH", each + 1, "good")]
        found[number + 1] = [("RH", each - 1, "good")]
    ring = next(n for n, half in enumerate(shipped) if half.line.part == "T2-FL-42097")
    found[ring] = [("", int(shipped[ring].shipped) - 1, "good")]
    sealant = next(n for n, half in enumerate(shipped) if half.line.part == "T2-CN-0001")
    found[sealant] = [("", "4500 ML", "good")]
    return {number: [one for one in rows if one[1]] for number, rows in found.items()}


def put_away(rows: list[Counted], lines: list[Line]) -> list[tuple[Cell, ...]]:
    """Return where the good pieces went: parts by sub-kit and hand, hardware by number."""
    sub_kit = {line.part: line.sub_kit for line in reversed(lines)}
    hardware = sorted({line.part for line in lines if line.bag})
    places: list[tuple[Cell, ...]] = []
    for row in rows:
        if row.condition != "good" or row.part not in sub_kit or row.note == "not on the list":
            continue
        if row.part in hardware:
            place = f"D-{hardware.index(row.part) + 1:02}"
        else:
            side = f"-{row.hand[0]}" if row.hand in {"LH", "RH"} else ""
            place = f"S-{sub_kit[row.part]}{side}"
        places.append((*row[:5], place))
    return places
