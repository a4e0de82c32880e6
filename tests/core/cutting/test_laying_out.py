from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.cutting import laying_out
from inventory.core.cutting.laying_out import Laid, Rest, lay_out

rooms = st.integers(1, 12)
pieces = st.lists(
    st.builds(Laid, rooms, st.sets(st.integers(0, 1), min_size=1)), min_size=1, max_size=5
)
sticks = st.lists(st.builds(Rest, rooms, st.integers(0, 1)), min_size=1, max_size=3)


def fits(laid: list[Laid], on: list[Rest], at: tuple[int, ...]) -> bool:
    used = [0] * len(on)
    for piece, stick in zip(laid, at, strict=True):
        used[stick] += piece.room
    return all(
        on[stick].stock in piece.stock for piece, stick in zip(laid, at, strict=True)
    ) and all(room <= stick.room for room, stick in zip(used, on, strict=True))


@given(pieces, sticks)
def test_a_way_is_found_where_trying_all_finds_one(laid: list[Laid], on: list[Rest]) -> None:
    ways = product(range(len(on)), repeat=len(laid))
    found = lay_out(laid, on)

    assert (found is not None) == any(fits(laid, on, at) for at in ways)
    assert found is None or fits(laid, on, tuple(found))


def test_the_search_gives_up_in_time() -> None:
    # 11 sticks of 11 take 3 pieces of 3 each, 33 in all; 40 of them are 120 of 121.
    laid = [Laid(3, {0})] * 40

    assert lay_out(laid, [Rest(11, 0)] * 11) is None
    assert laying_out.MOST_TRIED <= 10_000
