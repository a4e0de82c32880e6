"""Laying a section's parts out: the roll to tick, each part scanned down, what is missing kept."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.items import State, fits
from inventory.core.parts.hands import hand_in_words
from inventory.core.places import PlaceKind
from inventory.core.planning.layout_roll import laid_of, missing_of, others_of, pieces_of, roll_of
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.planning.workshop_today import today_within
from inventory.store.planning.lay_outs import all_lay_outs, begin_lay_out, end_lay_out

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from inventory.core.items import Item
    from inventory.core.planning.layout_roll import Missing, RollEntry
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.planning.workshop_today import Today
    from inventory.store.kits import Kit
    from inventory.store.ledger.stock import Lying
    from inventory.store.opening.database import Connection
    from inventory.store.planning.lay_outs import LayOut


@frozen
class Section:
    """A section of the plan, and how often its parts were laid out."""

    name: str
    steps: tuple[str, ...]
    major_parts: int
    """Pieces to lay out for the steps not done."""
    lay_outs: tuple[LayOut, ...]


@frozen(kw_only=True)
class RollLine:
    """One part of one hand at one place of the plans, with where it lies today."""

    entry: RollEntry
    laid: int
    """Pieces laid down and identified in the lay-out that runs."""
    lying: tuple[Lying, ...]
    """In bins, and in the steps that ask for it."""
    elsewhere: tuple[Lying, ...]
    """In crates and on hold: to be looked at before it is called missing."""
    instead: tuple[RollEntry, ...] = ()
    """What does as well: one of these suffices."""
    spared: bool = False
    """True where another one of these is taken, so that this one isn't missing."""

    @property
    def missing(self) -> int:
        """Pieces that lie neither in a bin nor in their step, and are needed."""
        return 0 if self.spared else max(0, self.entry.pieces - self.there)

    @property
    def there(self) -> int:
        """Pieces that lie in bins or in their step."""
        return sum(lies.quantity for lies in self.lying)


@frozen(kw_only=True)
class Roll:
    """The roll of a section as it stands."""

    section: str
    lines: tuple[RollLine, ...]
    running: LayOut | None
    """The lay-out that was begun and hasn't come to its end."""
    missing: tuple[Missing, ...]
    """What isn't laid down in it yet."""

    @property
    def pieces(self) -> int:
        """Pieces to lay out."""
        return pieces_of(line.entry for line in self.lines)


def sections(bench: Bench) -> list[Section]:
    """Return the sections in the order of the plan."""
    with bench.store.reading() as db:
        now = today_within(db, bench.kit)
        lay_outs = all_lay_outs(db, bench.kit.id)
    names = dict.fromkeys(step.section for step in now.plan.steps if step.section)
    return [
        Section(
            name,
            tuple(step.code for step in now.plan.steps if step.section == name),
            pieces_of(roll_of(now.plan, name, now.workshop.done)),
            tuple(each for each in lay_outs if each.section == name),
        )
        for name in names
    ]


def roll(bench: Bench, section: str) -> Roll:
    """Return what is to be laid out for a section, where each lies, and what is laid already."""
    with bench.store.reading() as db:
        return roll_within(db, bench.kit, section)


def roll_within(db: Connection, kit: Kit, section: str) -> Roll:
    """Return the roll of a section inside a transaction."""
    now = today_within(db, kit)
    name = known_section(now, section)
    entries = roll_of(now.plan, name, now.workshop.done)
    running = running_within(db, kit, name)
    laid = laid_in(running)
    lines = [
        RollLine(
            entry=entry,
            laid=pieces,
            lying=_lying(now.lying, entry, (PlaceKind.BIN, PlaceKind.STEP)),
            elsewhere=_lying(now.lying, entry, (PlaceKind.CRATE, PlaceKind.HOLD)),
            instead=others_of(entries, entry),
        )
        for entry, pieces in zip(entries, laid_of(entries, laid), strict=True)
    ]
    return Roll(
        section=name,
        lines=tuple(map(_sparing(lines), lines)),
        running=running,
        missing=missing_of(entries, laid),
    )


def _sparing(lines: Sequence[RollLine]) -> Callable[[RollLine], RollLine]:
    """Return how to note on a line that it isn't needed, since another one does.

    That is one that is laid down or lies there in full, the one that stands first before others.
    """
    of_group: dict[tuple[str, ...], RollLine] = {}
    for full in (_laid_in_full, _there_in_full, bool):
        for line in lines:
            if full(line):
                of_group.setdefault(line.entry.one_of, line)

    def noted(line: RollLine) -> RollLine:
        return replace(line, spared=bool(line.instead) and of_group[line.entry.one_of] is not line)

    return noted


def _laid_in_full(line: RollLine) -> bool:
    return line.laid >= line.entry.pieces


def _there_in_full(line: RollLine) -> bool:
    return line.there >= line.entry.pieces


def running_within(db: Connection, kit: Kit, section: str) -> LayOut | None:
    """Return the lay-out of a section that was begun and hasn't come to its end."""
    every = all_lay_outs(db, kit.id)
    return next((each for each in every if each.section == section and not each.ended), None)


def laid_in(lay_out: LayOut | None) -> Mapping[Item, int]:
    """Return what was laid down in a lay-out."""
    laid: Counter[Item] = Counter()
    for item, pieces in lay_out.laid if lay_out else ():
        laid[item] += pieces
    return laid


def known_section(now: Today, text: str) -> str:
    """Return the section as the plan writes it; `41` finds `41 Keel` if no other begins so."""
    names = list(dict.fromkeys(step.section for step in now.plan.steps if step.section))
    wanted = text.casefold().split()
    words = {name: name.casefold().split() for name in names}
    found = [name for name in names if words[name] == wanted] or [
        name for name in names if wanted and words[name][: len(wanted)] == wanted
    ]
    if len(found) == 1:
        return found[0]
    raise NotFoundError(
        f"there is no section {text!r} in the plan",
        remedy=f"There are: {', '.join(names)}." if names else "The plan names no sections.",
    )


def _lying(
    there: Sequence[Lying], entry: RollEntry, kinds: tuple[PlaceKind, ...]
) -> tuple[Lying, ...]:
    return tuple(
        lies
        for lies in there
        if lies.item.part == entry.need.part
        and lies.place.kind in kinds
        and (lies.place.kind is not PlaceKind.STEP or lies.place.code in entry.steps)
        and lies.item.state is State.NEW
        and fits(entry.need.hand, lies.item.hand)
    )


@tried_again
def begin(bench: Bench, section: str, slip: Slip) -> Roll:
    """Begin a lay-out, or go on with the one that runs."""
    before = roll(bench, section)
    if before.running is not None:
        return before
    if not before.lines:
        raise InventoryError(
            f"section {before.section} has no major parts to lay out",
            remedy="Hardware, cut pieces, consumables and tools aren't laid out.",
        )
    with acting(bench, "lay-out", slip) as act:
        begin_lay_out(act.db, bench.kit.id, act.recorded.id, before.section)
        return roll_within(act.db, bench.kit, before.section)


@tried_again
def end(bench: Bench, section: str, slip: Slip) -> Roll:
    """End the lay-out that runs and keep what is missing, with the day and who."""
    with acting(bench, "lay-out ended", slip) as act:
        seen = roll_within(act.db, bench.kit, section)
        if seen.running is None:
            raise InventoryError(
                f"no lay-out of section {seen.section} runs",
                remedy=f"Begin one: kitwright lay-out {seen.section} --scan",
            )
        lines = [_kept_line(each) for each in seen.missing]
        end_lay_out(act.db, bench.kit.id, act.recorded.id, seen.running.id, lines)
        return seen


def _kept_line(missing: Missing) -> dict[str, str]:
    need = missing.entry.need
    return {
        "part": need.printed or need.part,
        "hand": need.hand.value,
        "pieces": str(missing.pieces),
        "plans": " ".join(filter(None, (need.sheet, need.find_number))),
    }


def result_words(lay_out: LayOut) -> str:
    """Return the day of a lay-out, who laid it out, and what came of it."""
    by = f" by {lay_out.person}" if lay_out.person else ""
    if lay_out.ended is None:
        return f"begun {lay_out.on}{by}"
    missing = sum(int(each["pieces"]) for each in lay_out.missing)
    return f"{lay_out.ended}{by}: {f'{missing} missing' if missing else 'complete'}"


def entry_words(entry: RollEntry) -> str:
    """Return what an entry of the roll is, in words: part, hand, place on the plans."""
    need = entry.need
    place = " ".join(filter(None, (need.sheet, need.find_number)))
    told = f"{need.printed or need.part} {hand_in_words(need.hand)}"
    return f"{told}, plans {place}" if place else told
