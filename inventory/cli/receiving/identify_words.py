"""Numbers and measures in words, for the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli.paragraphs import paragraph
from inventory.cli.show import hand_word
from inventory.cli.table import Column, drawn
from inventory.core.cautions import HARDWARE, MEASURED, NEAR_NUMBER, SUBSTITUTION
from inventory.core.measures.lengths import show_length
from inventory.core.parts.hardware_grammar import Reading
from inventory.core.plain import plain
from inventory.core.receiving.weighing import GRAM

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from inventory.core.lists.packing import PackingLine
    from inventory.core.parts.hardware import HardwareNumber
    from inventory.core.parts.measuring import Candidate, Deviation
    from inventory.core.parts.supersession import Replacement
    from inventory.core.planning.plan import Need
    from inventory.jobs.receiving.identifying import Identified
    from inventory.jobs.receiving.measured_parts import Candidates, Identification

_HOW_SURE = {
    Reading.FULL: "read in full",
    Reading.PARTIAL: "read in part",
    Reading.TABLE_NEEDED: "its size stands only in the standard's table",
    Reading.UNKNOWN: "not read",
}
_MOST_UNSIZED = 12
_MOST_NAMED = 5
"""Rows of lists and steps said one by one."""


def number_lines(found: Identified) -> Iterator[str]:
    """Return the lines that say what a number means, is replaced by, and is in this kit."""
    yield from _hardware(found.number)
    if found.mass:
        low, high = found.mass.low / GRAM, found.mass.high / GRAM
        yield f"  one weighs about {low:.3g} to {high:.3g} g (computed)"
    for each in found.replacements:
        yield from _replacement(each)
    yield from _in_this_kit(found)
    if found.number.reading is not Reading.UNKNOWN:
        yield from paragraph(HARDWARE)
    if found.replacements:
        yield from paragraph(SUBSTITUTION)
    if found.near:
        yield from paragraph(NEAR_NUMBER)


def _hardware(number: HardwareNumber) -> Iterator[str]:
    yield f"{plain(number.printed)}: {number.item or _HOW_SURE[number.reading]}"
    if number.normal and number.normal != number.printed:
        yield f"  spelled alike: {number.normal}"
    for fact in number.facts:
        yield f"  {fact.name:<14} {fact}"
    if number.reading is not Reading.UNKNOWN:
        checked = "" if number.checked else ", rule from memory, not verified"
        yield from paragraph(f"{_HOW_SURE[number.reading]}{checked}; source: {number.source}", "  ")
    for words in (number.why, number.remark):
        if words:
            yield from paragraph(words, "  ")


def _replacement(each: Replacement) -> Iterator[str]:
    arrow = "one way" if each.one_way else "both ways"
    sure = each.source if each.checked else f"UNVERIFIED: {each.source}"
    pair = f"{each.old} -> {each.words}" if each.words else each.old
    told = f"{pair}: {each.kind}, {arrow}; {each.condition} ({sure})"
    yield from paragraph(told, "  ")


def _in_this_kit(found: Identified) -> Iterator[str]:
    if found.part is not None:
        yield f"in this kit: {plain(found.part.printed)}  {plain(found.part.description)}".rstrip()
    yield from _first(map(_listed, found.lines), "rows", "kitwright where PART --listed")
    yield from _first(map(_needed, found.needs), "steps", "kitwright where PART")
    if found.same_on_paper:
        yield from paragraph(f"one part on paper with: {', '.join(found.same_on_paper)}")
    if found.near:
        yield from paragraph(f"not in this kit. Is it {' or '.join(found.near)}?")


def _listed(line: PackingLine) -> str:
    hand = hand_word(line.hand)
    crate = f"crate {line.crate}" if line.crate else ""
    told = (f"row {line.row}", hand, f"{line.shipped} shipped", crate, line.bag)
    return "  ".join(word for word in told if word)


def _needed(need: Need) -> str:
    return (
        f"step {need.step}  {hand_word(need.hand)}".rstrip() + f"  {need.sheet} {need.find_number}"
    )


def _first(told: Iterable[str], what: str, where: str) -> Iterator[str]:
    """Return the first lines, and where the others are to be seen."""
    lines = [plain(f"  {each}".rstrip()) for each in told]
    few = lines if len(lines) <= _MOST_NAMED + 1 else lines[:_MOST_NAMED]
    yield from few
    if len(lines) > len(few):
        yield f"  and {len(lines) - len(few)} more {what}: {where}"


def candidate_lines(found: Candidates) -> Iterator[str]:
    """Return the lines that show which parts it may be, how far off each is, and what to ask."""
    ranking = found.ranking
    if ranking.candidates:
        columns = (
            Column("part number"), Column("hand"), Column("likely", number=True), Column("fits"),
            Column("off", words=True),
        )  # fmt: skip
        yield from drawn(columns, map(_candidate, ranking.candidates)).splitlines()
    else:
        yield "no open part has its sizes recorded"
    for question in found.questions:
        if not question.startswith("no sizes are recorded"):
            yield from paragraph(f"- {question}")
    if ranking.unsized:
        some = ", ".join(ranking.unsized[:_MOST_UNSIZED])
        more = len(ranking.unsized) - _MOST_UNSIZED
        told = f"{some} and {more} more" if more > 0 else some
        yield from paragraph(f"can't be ruled out, since their sizes aren't recorded: {told}")
    yield from paragraph(MEASURED)


def _candidate(each: Candidate) -> tuple[str, ...]:
    holes = [] if each.holes_off is None else [f"holes {each.holes_off:+d}"]
    return (
        each.part,
        hand_word(each.hand),
        f"{each.share:.0%}" if each.fits else "-",
        "yes" if each.fits else "NO",
        ", ".join([*map(_deviation, each.deviations), *holes]),
    )


def _deviation(each: Deviation) -> str:
    sign = "-" if each.off < 0 else "+"
    return f"{each.dimension} {sign}{show_length(abs(each.off))} ({each.of_tolerance:+.1f} tol.)"


def waiting_lines(found: Sequence[Identification]) -> Iterator[str]:
    """Return the lines that show what waits for a second person."""
    if not found:
        yield "nothing waits for a second person"
        return
    columns = (
        Column("no.", number=True), Column("pieces", number=True), Column("part number"),
        Column("hand"), Column("crate"), Column("bag"), Column("says", words=True),
    )  # fmt: skip
    rows = [
        (each.number, each.pieces, each.part, hand_word(each.hand), each.crate, each.bag, each.by)
        for each in found
    ]
    yield from drawn(columns, rows).splitlines()
