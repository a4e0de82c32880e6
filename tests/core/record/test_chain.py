"""Seals: each fits all before it, and the first that doesn't is named."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime
from hashlib import sha256

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.errors import InventoryError
from inventory.core.items import Hand, Item, State
from inventory.core.places import Place, PlaceKind
from inventory.core.record.chain import START, Link, first_broken, link, printed_seal, read_seal
from inventory.core.record.ledger import Movement
from inventory.core.record.slips import Slip

SLIP = Slip(
    key="k-1",
    recorded_at=datetime(2026, 3, 14, 9, 30, tzinfo=UTC),
    happened_on=date(2026, 3, 13),
    person="Ada",
    device="phone",
    note="½ „wet“",
)
MOVEMENT = Movement(
    Item("T2-RU-0412", Hand.LEFT, "7", 5, State.NEW),
    3,
    Place(PlaceKind.SUPPLIER),
    Place(PlaceKind.BIN, "B-07"),
)


def sealed(moves: int) -> list[Link]:
    links = []
    before = START
    for number in range(1, moves + 1):
        before = link(before, number, "issue", SLIP, MOVEMENT)
        links.append(Link(number, "issue", SLIP, MOVEMENT, before))
    return links


def test_a_link_is_the_hash_of_the_one_before_and_of_the_movement_in_words() -> None:
    words = (
        '[1,["k-1","issue","Ada","phone","½ „wet“"],'
        '["2026-03-13","2026-03-14T09:30:00+00:00"],'
        '["T2-RU-0412","left","7",5,"new"],3,["supplier",""],["bin","B-07"]]'
    )
    assert link(START, 1, "issue", SLIP, MOVEMENT) == sha256(bytes(32) + words.encode()).digest()


def test_a_whole_chain_has_no_broken_link() -> None:
    assert first_broken([]) is None
    assert first_broken(sealed(5)) is None


@pytest.mark.parametrize(
    "changed",
    [
        {"movement": replace(MOVEMENT, quantity=4)},
        {"movement": replace(MOVEMENT, item=replace(MOVEMENT.item, hand=Hand.RIGHT))},
        {"movement": replace(MOVEMENT, item=replace(MOVEMENT.item, lot="8"))},
        {"movement": replace(MOVEMENT, destination=Place(PlaceKind.BIN, "B-08"))},
        {"act": "scrap"},
        {"slip": replace(SLIP, person="Bea")},
        {"slip": replace(SLIP, note="")},
        {"slip": replace(SLIP, happened_on=date(2026, 3, 12))},
        {"slip": replace(SLIP, device="other")},
        {"chain": bytes(31) + b"x"},
        {"number": 9},
    ],
)
def test_the_first_changed_movement_is_named(changed: dict[str, object]) -> None:
    links = sealed(5)
    links[2] = replace(links[2], **changed)  # type: ignore[arg-type]
    assert first_broken(links) == 3


def test_a_movement_taken_out_or_put_in_is_named() -> None:
    links = sealed(5)
    assert first_broken(links[:2] + links[3:]) == 3
    assert first_broken(links[1:]) == 1
    assert first_broken([*links[:3], links[2], *links[3:]]) == 4


def test_a_movement_cut_off_at_the_end_shows_only_against_a_printed_seal() -> None:
    assert first_broken(sealed(5)[:-1]) is None


def test_a_seal_is_printed_and_read_again() -> None:
    chain = bytes(range(32))
    assert printed_seal(412, chain) == "412:0001020304050607"
    assert read_seal(" 412: 0001 0203 0405 0607 ") == (412, "0001020304050607")
    assert read_seal("1:9F3A0C11") == (1, "9f3a0c11")


@pytest.mark.parametrize(
    "text", ["", "412", "412:", "412:xyz", "x:9f3a0c11", "1:9f3a0c1", "-1:9f3a0c11"]
)
def test_what_is_no_seal_is_refused(text: str) -> None:
    with pytest.raises(InventoryError) as refused:
        read_seal(text)
    assert refused.value.what == f"{text!r} is no seal"
    assert refused.value.remedy == "Type it as printed: 412:9f3a0c11d2e4b756."


@given(st.integers(0, 10**15 - 1), st.binary(min_size=32, max_size=32))
def test_every_printed_seal_can_be_read(number: int, chain: bytes) -> None:
    assert read_seal(printed_seal(number, chain)) == (number, chain.hex()[:16])
