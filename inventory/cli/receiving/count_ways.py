"""The ways to count: one part by eye or scale, a file, a scanner, a crate line by line."""

from __future__ import annotations

import sys
from dataclasses import field
from typing import TYPE_CHECKING

from inventory.cli import context
from inventory.cli.show import hand_word, note, say
from inventory.core.counted import counted
from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.places import crate_code

if TYPE_CHECKING:
    from pathlib import Path

    from inventory.core.receiving.counts import Count, Remark
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked
    from inventory.jobs.receiving.counting import TypedCount
    from inventory.jobs.receiving.weighing import Weighed


@frozen
class Ways:
    """Where is counted, and how the number stands to an earlier one."""

    crate: str
    bag: str
    words: str
    again: str
    """recount, more, second (another person's count), or empty for a first count."""


@frozen
class Many:
    """How many parts are counted in one go: from a file, by scanner, else line by line."""

    file: Path | None = None
    by_scan: bool = False
    blind: bool = False
    new_parts: bool = False
    """Numbers that look like listed ones are other parts."""


@frozen
class Marks:
    """What is marked on the pieces, or said of them."""

    revision: str = ""
    expires: str = ""
    instead_of: str = ""
    remarks: frozenset[Remark] = field(default_factory=frozenset)
    as_listed: bool = False


def typed_count(
    ways: Ways, which: Asked, numbers: tuple[str, str, str], marks: Marks
) -> TypedCount:
    """Return the count that was typed; `numbers` are all pieces, damaged ones, other parts."""
    from inventory.core.planning.shelf_life import read_date
    from inventory.core.receiving.counts import Method
    from inventory.jobs.receiving.counting import TypedCount

    pieces, damaged, wrong = numbers
    return TypedCount(
        crate=ways.crate,
        bag=ways.bag,
        asked=which,
        pieces=pieces,
        damaged=damaged,
        wrong=wrong,
        revision=marks.revision,
        method=Method.TAKEN_FROM_LIST if marks.as_listed else Method.COUNTED,
        remarks=marks.remarks,
        expires=read_date(marks.expires) if marks.expires else None,
        instead_of=marks.instead_of,
    )


def count_one(ways: Ways, typed: TypedCount, weigh: str, *, blind: bool, only_try: bool) -> None:
    """Record one count, and show what the list says beside it unless that is hidden."""
    if weigh:
        _by_weight(ways, typed, weigh, blind=blind, only_try=only_try)
        return
    if not typed.pieces:
        raise nothing_counted()
    bench, slip = context.open_bench(), context.new_slip(ways.words)
    counted = _recorded(bench, ways.again, typed, slip)
    say(counted_words(bench, counted, blind=blind or ways.again == "second"))


def _recorded(bench: Bench, again: str, typed: TypedCount, slip: Slip) -> Count:
    from inventory.jobs.receiving.counting import ask_about, count_typed
    from inventory.jobs.receiving.left_to_count import count_second

    ask_about(bench, typed.asked)
    if again == "second":
        return count_second(bench, typed, slip)
    return count_typed(bench, typed, slip, recount=again == "recount", more=again == "more")


def count_many(ways: Ways, many: Many) -> None:
    """Record the counts of a file, of a scanner, or of a walk along a crate's lines."""
    bench = context.open_bench()
    if many.file is not None:
        from inventory.jobs.receiving.counts_file import count_from_file

        slip = context.new_slip(ways.words)
        told = count_from_file(bench, many.file, slip, new_parts=many.new_parts)
        say(f"{counted(told.rows, 'row')} taken in, {counted(told.pieces, 'piece')} counted")
    elif not ways.crate:
        raise nothing_counted()
    elif many.by_scan:
        _by_scan(bench, ways)
    else:
        from inventory.cli.receiving.count_walk import walk

        second = ways.again == "second"
        walk(bench, ways.crate, ways.bag, second=second, blind=many.blind or second)


def nothing_counted() -> InventoryError:
    """Return the refusal where it isn't said what was counted."""
    return InventoryError(
        "what was counted?",
        remedy="For instance: kitwright crate count 2 T2-RU-0412 3 --hand left",
    )


def counted_words(bench: Bench, counted: Count, *, blind: bool) -> str:
    """Return in words what was recorded, and beside it what is listed unless that is hidden."""
    from inventory.jobs.receiving.left_to_count import beside

    told = beside(bench, counted)
    bad = [f"{told.damaged} damaged"] if counted.pieces_damaged else []
    bad += [f"{told.wrong} wrong"] if counted.pieces_wrong else []
    where = f"crate {crate_code(counted.crate)}" + (f" bag {counted.bag}" if counted.bag else "")
    part = f"{counted.part} {hand_word(counted.hand)}".rstrip()
    words = f"{told.good} x {part} counted in {where}"
    words += f"; on hold: {', '.join(bad)}" if bad else ""
    if blind:
        return words
    return f"{words}; " + ("not on the list here" if told.listed is None else
                           f"listed {told.listed}")  # fmt: skip


def _by_weight(ways: Ways, typed: TypedCount, text: str, *, blind: bool, only_try: bool) -> None:
    from inventory.core.cautions import WEIGHED
    from inventory.jobs.receiving.counting import ask_about
    from inventory.jobs.receiving.weighing import count_weighed, typed_weighing, weighed

    if ways.again == "second":
        raise InventoryError(
            "a second count by weight isn't taken", remedy="Count by eye, or say --recount."
        )
    scale = typed_weighing(text)
    if only_try:
        found = weighed(scale, typed.asked.part)
    else:
        slip = context.new_slip(ways.words)
        bench = context.open_bench()
        ask_about(bench, typed.asked)
        counted, found = count_weighed(bench, typed, scale, slip, again=ways.again)
        about = "about " if counted.about else ""
        say(about + counted_words(bench, counted, blind=blind))
        if not blind:
            _say_doubt(bench, counted)
    say_weighed(found)
    note(WEIGHED)


def _say_doubt(bench: Bench, counted: Count) -> None:
    """Say that a listed number which the weight can't rule out is no shortage."""
    from inventory.jobs.receiving.left_to_count import beside

    listed = beside(bench, counted).listed or ""
    if listed.isdecimal() and 0 < abs(int(listed) - counted.pieces_good) <= counted.about:
        say(f"the scale can't tell that from the {listed} listed: neither short nor over")


def say_weighed(found: Weighed) -> None:
    """Show what the scale says, how sure it is, and what would make it surer."""
    result = found.result
    say(f"by weight: {result}; estimate {result.estimate:.2f}, bound {result.bound:.2f} pieces")
    if result.exact:
        say("this can be called a count: the bound is below half a piece")
    elif result.sample_needed is None:
        say("no sample makes it exact on this scale; "
            f"this one counts up to {result.largest_exact} pieces exactly")  # fmt: skip
    else:
        more = result.sample_needed - found.weighing.sample.pieces
        say(f"a sample of {result.sample_needed} pieces would make it exact: {more} more")
    if not result.spread_measured:
        say("how much the pieces differ was assumed; ten weighed one by one would tell it: "
            '"sample 1 0.24g 0.25g ..."')  # fmt: skip
    if found.doubt:
        say(f"look again: {found.doubt}")


def _by_scan(bench: Bench, ways: Ways) -> None:
    """Count by scanning: each scan is one piece; all are stored together at the end."""
    from inventory.jobs.receiving.count_by_scan import ScanCount

    counting = ScanCount(bench, ways.crate, ways.bag)
    if sys.stdin.isatty():
        note("each scan is one piece; UNDO takes the last one off; Ctrl-D stores the count")
    try:
        for line in sys.stdin:
            if line.strip():
                say(counting.scan(line))
                sys.stdout.flush()
    except KeyboardInterrupt:
        note("interrupted: what was scanned is stored; to go on, add --more to the same command")
    stored = counting.store(context.new_slip(ways.words), again=ways.again)
    pieces = counted(sum(each.pieces_good for each in stored), "piece")
    say(f"stored: {pieces} of {counted(len(stored), 'kind')}")
