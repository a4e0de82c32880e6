"""Why something is short, as lines a person can check against bins, papers and history."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING

from inventory.cli.amounts import amount, movement_words, needed
from inventory.cli.paragraphs import hanging
from inventory.cli.show import hand_word, kind_words
from inventory.core.measures.amounts import amount_words
from inventory.core.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from inventory.core.items import Measure
    from inventory.core.planning.shortage import NetNeed
    from inventory.core.receiving.arrivals import ListedLine
    from inventory.jobs.acts import Bench
    from inventory.jobs.planning.why_short import Because, Moved

MOST_NAMED = 5
"""So many steps or movements are named; the rest is counted."""
_INDENT = " " * 15


def because_lines(because: Because) -> Iterator[str]:
    """Yield everything behind one need, a heading first."""
    net = because.net
    need = net.need
    name = f"{need.printed or need.part} {hand_word(need.hand)}".rstrip()
    yield f"{name}  {need.description}".rstrip()
    place = ", ".join(filter(None, (need.sheet, need.find_number)))
    yield from _line("needed", f"{needed(need)}{f'; plans {place}' if place else ''}; {need.where}")
    yield from _line("issued", amount(need, net.issued, bare=True) if net.issued else "")
    yield from _line("in bins", _bins(because))
    yield from _line(
        "before it",
        ", ".join(
            f"{t.step} takes {amount(need, t.quantity, bare=True)}" for t in because.taken_before
        ),
    )
    yield from _line("short", _sum(net))
    for share in net.due:
        day = f" on {share.due.promised}" if share.due.promised else ", no date"
        yield from _line(
            "due", f"{amount(need, share.quantity, bare=True)}: {share.due.source}{day}"
        )
    yield from _line(
        "not prepared",
        f"{amount(need, net.unprepared, bare=True)}: {need.prepared}" if net.unprepared else "",
    )
    for each in because.aside:
        words = (amount(need, each.quantity, bare=True), each.why, each.step, kind_words(each.item))
        yield from _line("aside", " ".join(word for word in words if word))
    for rule in because.replacements:
        yield from _line("on paper", f"{rule.words}: {rule.kind}, {rule.condition or rule.source}")
    yield from _line("stops", named(because.stops))
    for line in because.lines:
        yield from _line("listed", _listed(line))
    yield from _moves(because.moved, need.measure)


def _line(word: str, words: str) -> Iterator[str]:
    if words.strip("; "):
        yield f"  {word:<12} {words.rstrip('; ')}"


def why_missing(net: NetNeed) -> str:
    """Return in a few words why a need can't be fetched, or what is to be done before."""
    words = [f"to be cut: kitwright cut plan {net.need.step}"] if net.to_cut else []
    words += [f"made by step {taken.step}" for taken in net.from_steps]
    words += [share.due.source for share in net.due]
    words += [f"not prepared: {net.need.prepared}"] if net.unprepared else []
    lacking = net.short - sum(share.quantity for share in net.due)
    if lacking > 0:
        words += ["earlier steps take it"] if net.short_alone < net.short else []
        words.append(f"{amount(net.need, lacking, bare=True)} to order or claim")
    return "; ".join(words) or f"see kitwright where {net.need.printed or net.need.part}"


def missing_lines(net: NetNeed, lacking: int) -> list[str]:
    """Return how much of which part lies in no bin, and why."""
    need = net.need
    name = f"{need.printed or need.part} {hand_word(need.hand)}".rstrip()
    words = f"NOT IN ANY BIN: {amount(need, lacking)} x {name} ({why_missing(net)})"
    return hanging(words, len("NOT IN ANY BIN: "))


def revision_lines(bench: Bench, needs: Iterable[NetNeed]) -> Iterator[str]:
    """Yield which parts of a step came in another revision than its plans ask for."""
    from inventory.jobs.planning.other_revisions import revisions_beside

    for each in revisions_beside(bench, (net.need for net in needs)):
        asked, other = " and ".join(each.asked), " and ".join(each.other)
        name = each.need.printed or each.need.part
        words = f"{name}: the plan asks for revision {asked}; listed or counted: {other}."
        yield from hanging(f"{words} Compare with the plans, and ask the supplier.", 4)


def named(steps: Sequence[str]) -> str:
    """Return the first few steps by name, and how many more there are."""
    shown = ", ".join(steps[:MOST_NAMED])
    return f"{shown} and {len(steps) - MOST_NAMED} more" if len(steps) > MOST_NAMED else shown


def _bins(because: Because) -> str:
    need = because.net.need
    return ", ".join(
        f"{amount(need, quantity, bare=True)} {item.part if item.part != need.part else ''} in "
        f"{place.code}".replace("  ", " ")
        for place, item, quantity in because.lying
    ) or "none"  # fmt: skip


def _sum(net: NetNeed) -> str:
    """Return the shortage with the sum it comes from."""
    need = net.need
    if net.absent:
        return "none is there; as required"
    if not net.short:
        return ""
    filled = net.open - net.short
    parts = [f"{amount(need, need.quantity, bare=True)} needed"]
    parts += [f"{amount(need, net.issued, bare=True)} issued"] if net.issued else []
    parts += [f"{amount(need, filled, bare=True)} left over for it"] if filled else []
    alone = net.short_alone != net.short
    words = f"{amount(need, net.short, bare=True)} = {' - '.join(parts)}"
    alone_words = f"; this step alone would lack {amount(need, net.short_alone, bare=True)}"
    return words + alone_words if alone else words


def _listed(each: ListedLine) -> str:
    line = each.line
    crate = f", crate {line.crate}{f' bag {line.bag}' if line.bag else ''}" if line.crate else ""
    back = f", back-ordered {amount_words(line, line.back_ordered)}" if line.back_ordered else ""
    remark = f" ({line.remark})" if line.remark else ""
    return (
        f"list {each.packing_list}, {line.sheet} row {line.row}: ordered "
        f"{amount_words(line, line.ordered)}, shipped {amount_words(line, line.shipped)}"
        f"{back}{crate}{remark}"
    )


def _moves(moved: Sequence[Moved], measure: Measure) -> Iterator[str]:
    if len(moved) > MOST_NAMED:
        yield from _line(
            "moved", f"{len(moved) - MOST_NAMED} earlier movements: see history --part"
        )
    for each in moved[-MOST_NAMED:]:
        slip = each.act.slip
        who = f" {slip.person}" if slip.person else ""
        undone = " (UNDONE)" if each.undone else ""
        move = each.movement.movement
        told = movement_words(move, {move.item.part: measure})
        yield from _line("moved", f"act {each.act.id}, {slip.happened_on}{who}: {told}{undone}")


def all_lines(reasons: Iterable[Because], width: int) -> Iterator[str]:
    """Yield the lines of several needs, no wider than `width`, a blank line between."""
    for number, because in enumerate(reasons):
        if number:
            yield ""
        for line in because_lines(because):
            yield from wrap(
                plain(line),
                width,
                subsequent_indent=_INDENT,
                break_long_words=False,
                break_on_hyphens=False,
            )
