"""Part, hand, lot and state: what is the same, what fits what."""

from __future__ import annotations

import pytest

from inventory.core.items import Hand, Item, State, fits, mirror, part_key

L, R, E, N = Hand.LEFT, Hand.RIGHT, Hand.EITHER, Hand.NONE


@pytest.mark.parametrize(
    ("need", "have", "may"),
    [
        (L, L, True), (L, R, False), (L, E, True), (L, N, False),
        (R, L, False), (R, R, True), (R, E, True), (R, N, False),
        (E, L, False), (E, R, False), (E, E, True), (E, N, True),
        (N, L, False), (N, R, False), (N, E, True), (N, N, True),
    ],
)  # fmt: skip
def test_left_never_fills_right_and_no_hand_fills_no_side(
    need: Hand, have: Hand, *, may: bool
) -> None:
    assert fits(need, have) is may


@pytest.mark.parametrize(("hand", "other"), [(L, R), (R, L), (E, E), (N, N)])
def test_the_mirror_of_a_part_is_the_same_part_of_the_other_hand(hand: Hand, other: Hand) -> None:
    item = Item("RIB", hand, "lot 7", 5, State.WORKED)
    assert mirror(item) == Item("RIB", other, "lot 7", 5, State.WORKED)


@pytest.mark.parametrize(
    ("printed", "key"),
    [
        ("t2-ru-0412", "T2-RU-0412"),
        ("T2‐RU‑0412", "T2-RU-0412"),
        ("T2–RU—0412", "T2-RU-0412"),
        ("T2−RU－0412", "T2-RU-0412"),
        (" T2-RU \u00a0 0412\u200b ", "T2-RU 0412"),
        ("Ｔ２", "T2"),
        ("T2-RU-O412", "T2-RU-O412"),
        ("0412", "0412"),
        ("412", "412"),
        ("T2RU0412", "T2RU0412"),
    ],
)
def test_numbers_are_evened_out_and_never_repaired(printed: str, key: str) -> None:
    assert part_key(printed) == key
