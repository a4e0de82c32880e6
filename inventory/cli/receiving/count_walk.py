"""A walk along a crate's lines: each is counted and stored before the next is asked."""

from __future__ import annotations

import re
import sys
from typing import TYPE_CHECKING

from inventory.cli import context
from inventory.cli.paragraphs import paragraph
from inventory.cli.progress import bar
from inventory.cli.receiving.count_ways import counted_words
from inventory.cli.show import hand_word, note, say
from inventory.core.counted import counted
from inventory.core.errors import InventoryError
from inventory.core.items import Measure
from inventory.core.lists.packing import CountRule
from inventory.core.measures.amounts import amount_words
from inventory.core.places import crate_code
from inventory.core.plain import plain

if TYPE_CHECKING:
    from inventory.core.lists.packing import PackingLine
    from inventory.jobs.acts import Bench
    from inventory.jobs.receiving.left_to_count import Left, Said

_ANSWER = re.compile(r"(?P<pieces>\S+)(?:\s+(?P<damaged>[0-9]+)d)?(?:\s+(?P<wrong>[0-9]+)w)?")
HOW = "pieces, then `1d` for a damaged, `1w` for a wrong one; Enter skips, q stops"


def walk(bench: Bench, crate: str, bag: str, *, second: bool, blind: bool) -> None:
    """Ask line by line what lies there; stop and go on at any time."""
    from inventory.jobs.receiving.left_to_count import left_to_count, left_to_recount

    person = context.new_slip().person
    if second and not person:
        raise InventoryError(
            "who counts a second time?", remedy="Say it with --by, so that two persons are told."
        )
    left = left_to_recount(bench, crate, person, bag) if second else left_to_count(
        bench, crate, bag
    )  # fmt: skip
    if not left.lines:
        say(f"nothing in crate {crate_code(left.crate)} is left to count")
        return
    note(HOW)
    stored = _ask_all(bench, left, second=second, blind=blind)
    rest = len(left.lines) - stored
    say(
        f"{counted(stored, 'line')} counted; "
        + (f"{rest} left: the same command goes on" if rest else "all done")
    )
    if second:
        note(f"what differs: kitwright crate check {crate_code(left.crate).split()[0]}")


def _ask_all(bench: Bench, left: Left, *, second: bool, blind: bool) -> int:
    stored = 0
    done = 0 if second else left.all_lines - len(left.lines)
    whole = len(left.lines) if second else left.all_lines
    for line in left.lines:
        say(f"{bar(done + stored, whole)} {_line_words(line, blind=blind)}")
        answer = _answer(bench, line, second=second)
        if answer is None:
            break
        stored += answer
    return stored


def _answer(bench: Bench, line: PackingLine, *, second: bool) -> bool | None:
    """Ask until the line is stored (True), skipped (False), or the person stops (None)."""
    from inventory.jobs.receiving.left_to_count import count_line

    while True:
        sys.stdout.write("> ")
        sys.stdout.flush()
        text = sys.stdin.readline()
        typed = text.strip()
        if not text or typed.casefold() == "q":
            return None
        if not typed:
            return False
        try:
            said = _said(typed, line)
            counted = count_line(bench, line, said, context.new_slip(), recount=second)
        except InventoryError as refused:
            for part in paragraph(f"NOT STORED: {refused.what}. {refused.remedy}"):
                say(part)
            continue
        say(counted_words(bench, counted, blind=True))
        return True


def _said(typed: str, line: PackingLine) -> Said:
    from inventory.jobs.receiving.left_to_count import Said

    if line.measure is not Measure.PIECES:
        return Said(pieces=typed)
    found = _ANSWER.fullmatch(typed)
    if found is None:
        raise InventoryError(f"{typed[:40]!r} isn't clear", remedy=f"Type {HOW}.")
    return Said(
        pieces=found["pieces"], damaged=found["damaged"] or "0", wrong=found["wrong"] or "0"
    )


def _line_words(line: PackingLine, *, blind: bool) -> str:
    words = [f"bag {line.bag}" if line.bag else "", line.printed, hand_word(line.hand)]
    words += [line.description] if line.description else []
    if line.count_rule is CountRule.AS_REQUIRED:
        words.append("as required: there or not")
    elif not blind:
        words.append(f"listed {amount_words(line, line.shipped)}")
    return plain("  ".join(word for word in words if word))
