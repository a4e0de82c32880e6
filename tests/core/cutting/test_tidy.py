"""Tidy plans of the same cost, worked out by hand."""

from __future__ import annotations

from collections import Counter

from inventory.core.cutting.job import CutJob, CutPiece, CutStock, Owned
from inventory.core.cutting.model import UNCUT, CutModel, Pattern, model_of
from inventory.core.cutting.tidy import _moved, _Search, _touched, tidied, without_surplus
from inventory.core.planning.workshop import Saw


def model(pieces: dict[int, int], *stock: CutStock) -> CutModel:
    return model_of(
        CutJob(
            pieces=tuple(CutPiece(length, count) for length, count in pieces.items()),
            stock=stock,
            saw=Saw(0, 0),
        )
    )


def remnant(length: int, quantity: int = 1) -> CutStock:
    return CutStock(length=length, quantity=quantity, owned=Owned.REMNANT)


def bar(length: int, quantity: int = 1) -> CutStock:
    return CutStock(length=length, quantity=quantity, owned=Owned.BAR)


SHOP = model({50: 2, 30: 2}, remnant(60), bar(70, 2), CutStock(length=100))


def test_a_bar_that_lies_there_weighs_twice_a_remnant_and_a_bought_one_nothing() -> None:
    patterns = (Pattern(0, (1, 0)), Pattern(1, (1, 0)), Pattern(2, (1, 0)), Pattern(UNCUT, (1, 0)))
    assert [_touched(SHOP, pattern) for pattern in patterns] == [60, 140, 0, 0]


def test_a_pattern_may_move_to_every_stick_that_lies_there_and_is_long_enough() -> None:
    plan = Counter({Pattern(2, (1, 0)): 1, Pattern(2, (0, 2)): 1, Pattern(UNCUT, (0, 1)): 1})
    long = Counter({Pattern(2, (1, 1)): 1})

    assert list(_moved(SHOP, plan)) == [
        Pattern(0, (1, 0)), Pattern(1, (1, 0)), Pattern(0, (0, 2)), Pattern(1, (0, 2)),
    ]  # fmt: skip
    assert list(_moved(SHOP, long)) == []


def test_what_a_plan_touches_and_its_longest_rest_are_counted_over_its_sticks() -> None:
    columns = (Pattern(0, (1, 0)), Pattern(1, (1, 0)), Pattern(2, (0, 2)), Pattern(UNCUT, (0, 1)))
    search = _Search(SHOP, columns, tuple(_touched(SHOP, each) for each in columns))
    plan = Counter({columns[0]: 1, columns[1]: 2, columns[2]: 1, columns[3]: 4})

    assert search.spent(plan) == 60 + 2 * 140
    assert search.longest(plan) == 100 - 60
    assert search.longest(Counter({columns[3]: 1})) == 0
    assert search.longest(Counter()) == 0


def test_a_plan_moves_to_the_remnant_that_wastes_least_of_what_is_owned() -> None:
    shop = model({50: 1}, bar(60), remnant(90), remnant(55))
    untidy = Counter({Pattern(0, (1,)): 1})

    assert tidied(shop, untidy, ()) == Counter({Pattern(2, (1,)): 1})
    assert tidied(shop, Counter({Pattern(1, (1,)): 1}), ()) == Counter({Pattern(2, (1,)): 1})


def test_a_remnant_of_less_than_twice_the_bar_goes_first() -> None:
    shop = model({50: 1}, bar(60), remnant(119))
    assert tidied(shop, Counter({Pattern(0, (1,)): 1}), ()) == Counter({Pattern(1, (1,)): 1})
    longer = model({50: 1}, bar(60), remnant(121))
    assert tidied(longer, Counter({Pattern(1, (1,)): 1}), ()) == Counter({Pattern(0, (1,)): 1})


def test_of_two_plans_with_the_same_sticks_the_one_with_the_long_rest_is_taken() -> None:
    # 50 + 30 and 30 leave 20 and 70; 50 and 30 + 30 leave 50 and 40.
    shop = model({50: 1, 30: 2}, CutStock(length=100))
    even = Counter({Pattern(0, (1, 0)): 1, Pattern(0, (0, 2)): 1})
    long = [Pattern(0, (1, 1)), Pattern(0, (0, 1))]

    assert tidied(shop, even, long) == Counter(long)
    assert tidied(shop, Counter(long), even) == Counter(long)


def test_nothing_dearer_is_taken_for_the_sake_of_a_rest() -> None:
    shop = model({50: 2}, CutStock(length=100, price=3), CutStock(length=60, price=2))
    plan = Counter({Pattern(0, (2,)): 1})
    assert tidied(shop, plan, [Pattern(1, (1,)), Pattern(0, (1,))]) == plan


def test_surplus_pieces_are_left_on_the_stick_with_the_longest_rest() -> None:
    # Two of 50 are wanted and three planned: the one on the bar of 70 is left out (70 > 100 - 50).
    shop = model({50: 2, 30: 1}, bar(70, 2), CutStock(length=100))
    plan = Counter({Pattern(1, (2, 0)): 1, Pattern(0, (1, 0)): 1, Pattern(1, (0, 1)): 1})
    assert without_surplus(shop, plan) == [(1, (0, 1)), (1, (2, 0))]

    whole = Counter({Pattern(1, (1, 1)): 1, Pattern(1, (1, 0)): 1, Pattern(0, (1, 0)): 1})
    assert without_surplus(shop, whole) == [(0, (1, 0)), (1, (1, 1))]
    uncut = Counter({Pattern(UNCUT, (1, 0)): 1})
    assert without_surplus(shop, whole + uncut) == [(0, (1, 0)), (1, (1, 1))]
