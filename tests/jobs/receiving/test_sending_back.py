from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotEnoughError, NotFoundError
from inventory.core.items import Item
from inventory.core.places import Place, PlaceKind
from inventory.jobs.bench.undoing import undo
from inventory.jobs.receiving.sending_back import ReturnNote, send_back, sent_back
from tests.jobs.received import received
from tests.jobs.shelf import OPENING, taking, there

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    Slips = Callable[..., Slip]

HOLD = Place(PlaceKind.HOLD, "HOLD")
RETURNED = Place(PlaceKind.RETURNED)
CURLEW = ReturnNote(recipient="Curlew", reference="RMA-7", wanted="replacement")


def test_what_is_sent_back_is_out_of_stock_at_once(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    send_back(bench, taking("SPAR", 1, HOLD), CURLEW, slip())
    assert there(bench, HOLD) == {}
    assert there(bench, RETURNED) == {Item("SPAR"): 1}
    (told,) = sent_back(bench)
    assert (told.note, told.movements[0].quantity) == (CURLEW, 1)


def test_undone_return_lies_on_hold_again(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    send_back(bench, taking("SPAR", 1, HOLD), CURLEW, slip())
    undo(bench, slip())
    assert there(bench, HOLD) == {Item("SPAR"): 1}
    assert sent_back(bench) == []


def test_returns_that_make_no_sense_are_refused(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    for origin, pieces, note, refusal in (
        (HOLD, 1, ReturnNote(recipient=" "), InventoryError),
        (HOLD, 1, ReturnNote(recipient="C", wanted="gold"), InventoryError),
        (HOLD, 1, ReturnNote(recipient="C", report=4), NotFoundError),
        (HOLD, 2, CURLEW, NotEnoughError),
        (OPENING, 1, CURLEW, InventoryError),
    ):
        with pytest.raises(refusal):
            send_back(bench, taking("SPAR", pieces, origin), note, slip())
    assert there(bench, HOLD) == {Item("SPAR"): 1}
