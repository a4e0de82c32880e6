"""Taking a packing list in: read, shown, and stored whole or not at all."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import AlreadyDoneError, InventoryError, problems_in
from inventory.core.places import Place, PlaceKind, crate_code
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.store.ledger.names import place_ids
from inventory.store.receiving.packing_lists import (
    current_lines,
    lines_of,
    rows_of,
    save_list,
    saved_lists,
)

if TYPE_CHECKING:
    from inventory.core.lists.packing import PackingLine, PackingList, SourceRow
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.store.receiving.packing_lists import SavedList


@tried_again
def take_in(
    bench: Bench, packing_list: PackingList, slip: Slip, replaces: int | None = None
) -> int:
    """Store a list with every row of its sheet; refused while a question or problem stands.

    The same file a second time changes nothing: `AlreadyDoneError`.
    """
    if packing_list.problems:
        raise problems_in(
            packing_list.source,
            packing_list.problems,
            "Mend them in the sheet, or ask the supplier.",
        )
    if packing_list.questions:
        count = len(packing_list.questions)
        open_ = "1 question" if count == 1 else f"{count} questions"
        raise InventoryError(
            f"{open_} about {packing_list.source} {'is' if count == 1 else 'are'} open; "
            "nothing was stored",
            remedy="Answer them on a terminal, or in a file with --answers FILE: a line for each, "
            'the words in quotes after QUESTION, then = "your answer".',
        )
    with acting(bench, "packing-list read", slip) as act:
        for saved in saved_lists(act.db, bench.kit.id):
            if saved.sha256 == packing_list.sha256:
                raise AlreadyDoneError(
                    f"{packing_list.source} was taken in before, as list {saved.id}",
                    remedy="Nothing was changed.",
                )
        number = save_list(act.db, bench.kit.id, act.recorded.id, packing_list, replaces)
        place_ids(act.db, bench.kit.id, _crates(packing_list))
        return number


def _crates(packing_list: PackingList) -> list[Place]:
    named = dict.fromkeys((line.crate, line.bag) for line in packing_list.lines)
    return [Place(PlaceKind.CRATE, crate_code(crate, bag)) for crate, bag in named]


def taken_in(bench: Bench) -> list[tuple[SavedList, list[PackingLine]]]:
    """Return the lists that were taken in, each with its lines."""
    with bench.store.reading() as db:
        return [
            (saved, lines_of(db, bench.kit.id, saved.id)) for saved in saved_lists(db, bench.kit.id)
        ]


def source_rows(bench: Bench, number: int) -> list[SourceRow]:
    """Return every row of the sheet a list was read from."""
    with bench.store.reading() as db:
        return rows_of(db, bench.kit.id, number)


def lines_that_count(bench: Bench) -> list[PackingLine]:
    """Return the lines of all lists that no later one replaced."""
    with bench.store.reading() as db:
        return current_lines(db, bench.kit.id)
