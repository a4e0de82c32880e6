from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.cutting.cut_needs import CutWanted, Stick, pieces_to_cut
from inventory.core.planning.filling import Share
from inventory.core.planning.workshop import Saw

MM = 1_000_000


def shares(
    wanted: list[tuple[int, int]], sticks: list[int], saw: Saw
) -> list[tuple[Share[str], ...]]:
    """Return what is cut of one stock for lengths and quantities; millimetres."""
    return pieces_to_cut(
        [CutWanted(length * MM, quantity, ("bar",)) for length, quantity in wanted],
        [Stick("bar", length * MM) for length in sticks],
        saw,
    )


def test_trims_and_a_kerf_between_two_pieces_come_off_the_stick() -> None:
    # 100 less 10 for the ends: two pieces of 44 and a kerf of 2 are just 90.
    saw = Saw(2 * MM, 10 * MM)

    assert shares([(44, 2)], [100], saw) == [(Share("bar", 2),)]
    assert shares([(45, 2)], [100], saw) == [(Share("bar", 1),)]
    assert shares([(90, 1)], [100], saw) == [(Share("bar", 1),)]
    assert shares([(91, 1)], [100], saw) == [()]


def test_what_an_earlier_need_takes_a_later_one_lacks_but_a_shorter_piece_still_fits() -> None:
    found = shares([(60, 3), (60, 1), (35, 2)], [100, 100], Saw(0, 0))

    assert found == [(Share("bar", 2),), (), (Share("bar", 2),)]


def test_pieces_laid_before_move_where_that_makes_room() -> None:
    # 50 goes to the stick of 60 first; for 60 it moves to the other one.
    assert shares([(50, 1), (60, 1)], [60, 50], Saw(0, 0)) == [
        (Share("bar", 1),),
        (Share("bar", 1),),
    ]


def test_a_need_takes_only_stock_it_may_be_cut_from() -> None:
    wanted = [CutWanted(10, 2, ("b", "c")), CutWanted(10, 1, ("a",))]
    sticks = [Stick("a", 30), Stick("b", 10), Stick("c", 10)]

    assert [set(each) for each in pieces_to_cut(wanted, sticks, Saw(0, 0))] == [
        {Share("b", 1), Share("c", 1)},
        {Share("a", 1)},
    ]


lengths = st.integers(1, 9)


@given(st.lists(lengths, max_size=4), st.lists(st.integers(1, 12), min_size=1, max_size=2))
def test_each_piece_in_turn_is_cut_if_it_fits_beside_those_cut_before(
    pieces: list[int], sticks: list[int]
) -> None:
    """Held against all ways to lay them out; kerf 1, trim 2."""
    kept: list[int] = []
    expected = []
    for piece in pieces:
        ways = product(range(len(sticks)), repeat=len(kept) + 1)
        fits = any(fit([*kept, piece], sticks, way) for way in ways)
        expected.append(int(fits))
        kept += [piece] if fits else []
    found = pieces_to_cut(
        [CutWanted(piece, 1, ("bar",)) for piece in pieces],
        [Stick("bar", stick) for stick in sticks],
        Saw(1, 2),
    )

    assert [sum(share.quantity for share in each) for each in found] == expected


def fit(pieces: list[int], sticks: list[int], way: tuple[int, ...]) -> bool:
    """Say whether each stick holds its pieces, a kerf between each two, less its trims."""
    on = [
        [piece for piece, at in zip(pieces, way, strict=True) if at == number]
        for number in range(len(sticks))
    ]
    return all(
        not laid or sum(laid) + len(laid) - 1 + 2 <= stick
        for laid, stick in zip(on, sticks, strict=True)
    )
