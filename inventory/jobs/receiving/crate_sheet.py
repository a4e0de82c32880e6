"""One crate as it is counted: its lines side by side, each with what was counted there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.lists.side_by_side import Row, side_by_side
from inventory.jobs.receiving.receiving import known_crate, to_be_counted
from inventory.store.ledger.events import crate_states
from inventory.store.receiving.counts import all_counts, counts_that_stand
from inventory.store.receiving.packing_lists import current_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.counts import Count
    from inventory.jobs.acts import Bench

NOT_OPENED = "not opened yet"


@frozen
class CountedLine:
    """A line of the list, and the counts of exactly this pile that stand."""

    line: PackingLine
    counts: tuple[Count, ...]

    @property
    def pieces(self) -> int:
        """All pieces counted, damaged ones among them."""
        return sum(each.pieces_counted for each in self.counts)

    @property
    def damaged(self) -> int:
        """Damaged pieces among them."""
        return sum(each.pieces_damaged for each in self.counts)

    @property
    def wrong(self) -> int:
        """Other parts that lay where this one should."""
        return sum(each.pieces_wrong for each in self.counts)

    @property
    def by(self) -> str:
        """Who counted it."""
        return ", ".join(dict.fromkeys(each.by for each in self.counts if each.by))


@frozen
class SheetRow:
    """What is counted together: one line, or a left and a right one."""

    line: CountedLine | None
    left: CountedLine | None
    right: CountedLine | None

    @property
    def lines(self) -> tuple[CountedLine, ...]:
        """The lines of the row, left before right."""
        return tuple(each for each in (self.line, self.left, self.right) if each is not None)

    @property
    def first(self) -> PackingLine:
        """The line that names the row."""
        return self.lines[0].line

    @property
    def done(self) -> bool:
        """Whether every line of the row was counted at least once."""
        return all(each.counts for each in self.lines)


@frozen
class CrateSheet:
    """A crate with all that should be in it and all that was counted in it."""

    crate: str
    state: str
    rows: tuple[SheetRow, ...]
    unlisted: tuple[Count, ...]
    """Counts of what no line of this crate names."""

    @property
    def bags(self) -> dict[str, list[SheetRow]]:
        """The rows bag by bag; those in no bag first."""
        found: dict[str, list[SheetRow]] = {}
        for row in sorted(self.rows, key=lambda row: row.first.bag):
            found.setdefault(row.first.bag, []).append(row)
        return found

    @property
    def open_rows(self) -> list[SheetRow]:
        """The rows that nobody has counted wholly."""
        return [row for row in self.rows if not row.done]


def crate_sheet(bench: Bench, crate: str) -> CrateSheet:
    """Return one crate; lines that are only mentioned, or not shipped, aren't counted."""
    with bench.store.reading() as db:
        name = known_crate(db, bench.kit, crate)
        lines = [each for each in current_lines(db, bench.kit.id) if each.crate == name]
        counts = [
            each.count
            for each in counts_that_stand(all_counts(db, bench.kit.id))
            if each.count.crate == name
        ]
        state = crate_states(db, bench.kit.id).get(name, NOT_OPENED)
    wanted = [line for line in lines if to_be_counted(line)]
    listed = {_pile(line) for line in lines}
    return CrateSheet(
        crate=name,
        state=state,
        rows=tuple(_row(row, counts) for row in side_by_side(wanted)),
        unlisted=tuple(each for each in counts if _pile(each) not in listed),
    )


def _row(row: Row, counts: Sequence[Count]) -> SheetRow:
    return SheetRow(*(_counted(line, counts) for line in (row.line, row.left, row.right)))


def _counted(line: PackingLine | None, counts: Iterable[Count]) -> CountedLine | None:
    if line is None:
        return None
    here = (each for each in counts if _pile(each) == _pile(line))
    return CountedLine(
        line, tuple(each for each in here if each.length in (0, line.length) or not line.length)
    )


def _pile(one: PackingLine | Count) -> tuple[str, str, str]:
    return one.bag, one.part, one.hand
