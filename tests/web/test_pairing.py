from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.jobs.devices import NotInvitedError, devices, invitation, pair
from inventory.store.tables.devices import device as device_table
from inventory.store.tables.devices import invitation as invitation_table
from inventory.web.attempts import MOST_OF_ALL, Attempts, TooOftenError
from inventory.web.guard import COOKIE
from inventory.web.pairing import local_path
from tests.conftest import NOW
from tests.web.conftest import ORIGIN

if TYPE_CHECKING:
    from httpx2 import Response

    from inventory.store.opening.database import Store
    from tests.web.conftest import House, Phone


def try_token(house: House, token: str) -> Response:
    return house.client(Origin=ORIGIN).post(
        "/pair", data={"token": token, "name": "Ben's phone", "person": "Ben"}
    )


def test_code_lets_one_device_in_and_says_so(house: House) -> None:
    answer = try_token(house, house.token())
    assert answer.status_code == 303
    assert answer.headers["location"] == "/"
    assert house.told == ["Ben's phone"]
    assert house.client(answer.cookies[COOKIE]).get("/T2/").status_code == 200


def test_second_use_of_a_code_is_refused(house: House) -> None:
    token = house.token()
    try_token(house, token)
    assert try_token(house, token).status_code == 403


def test_code_older_than_ten_minutes_is_refused(house: House) -> None:
    token = house.token()
    house.clock.later(minutes=10)
    assert try_token(house, token).status_code == 403


def test_looking_at_the_page_uses_no_code_up(house: House) -> None:
    token = house.token()
    house.client().get(f"/pair?t={token}")
    assert try_token(house, token).status_code == 303


def test_five_wrong_codes_shut_an_address_out_for_a_minute(house: House) -> None:
    seconds = [0.0]
    house.serving.attempts = Attempts(lambda: seconds[0])
    answers = [try_token(house, "wrong").status_code for _ in range(6)]
    assert answers == [403] * 5 + [429]
    assert try_token(house, house.token()).status_code == 429
    seconds[0] = 60.0
    assert try_token(house, house.token()).status_code == 303


def test_guesses_from_many_addresses_add_up() -> None:
    attempts = Attempts(lambda: 0.0)
    for number in range(MOST_OF_ALL):
        attempts.wrong(f"192.0.2.{number}")
    with pytest.raises(TooOftenError):
        attempts.check("192.0.2.200")


def test_two_devices_of_one_name_are_told_apart(store: Store) -> None:
    names = [pair(store, invitation(store, NOW), "phone", "", NOW).device.name for _ in range(3)]
    assert names == ["phone", "phone 2", "phone 3"]


def test_same_code_at_once_lets_one_in(store: Store) -> None:
    token = invitation(store, NOW)
    pair(store, token, "a", "", NOW)
    with pytest.raises(NotInvitedError):
        pair(store, token, "b", "", NOW)
    assert [each.name for each in devices(store)] == ["a"]


def test_store_holds_neither_code_nor_secret(store: Store) -> None:
    token = invitation(store, NOW)
    paired = pair(store, token, "phone", "Ana", NOW)
    with store.reading() as db:
        rows = [*db.execute(device_table.select()), *db.execute(invitation_table.select())]
    assert token not in str(rows)
    assert paired.secret not in str(rows)


def test_device_row_is_never_forgotten(store: Store) -> None:
    pair(store, invitation(store, NOW), "phone", "Ana", NOW)
    with pytest.raises(Exception, match="never changed"), store.writing() as db:
        db.execute(device_table.delete())


def test_name_is_made_harmless_and_short(store: Store) -> None:
    name = "\x1b[2J" + "n" * 100
    device = pair(store, invitation(store, NOW), name, "", NOW).device
    assert device.name.startswith("⟨U+001B⟩[2J")
    assert len(device.name) == 40


def test_devices_are_listed_and_shut_out_from_a_page(house: House, phone: Phone) -> None:
    other = house.phone("tablet", "Ben")
    assert "tablet" in phone.get("/devices").text
    assert phone.client.post("/devices/revoke", data={"device": "2"}).status_code == 303
    assert "SHUT OUT" in phone.get("/devices").text
    assert other.get("/devices").status_code == 401
    assert phone.client.post("/devices/revoke", data={"device": "9"}).status_code == 404
    assert phone.client.post("/devices/revoke", data={"device": "x"}).status_code == 422


def test_code_for_one_more_device_is_shown_with_its_address(phone: Phone, house: House) -> None:
    page = phone.client.post("/devices/invite").text
    assert "<svg" in page
    token = page.split('<span class="number">')[-1].split("<")[0]
    assert try_token(house, token).status_code == 303


def test_holder_changes_and_stands_in_the_slips(house: House, phone: Phone) -> None:
    assert phone.client.post("/holder", data={"person": "Cleo"}).status_code == 303
    assert "Cleo" in phone.get("/devices").text
    assert devices(house.bench.store)[0].person == "Cleo"


@pytest.mark.parametrize(
    ("path", "kept"),
    [
        ("/T2/crates?x=1", "/T2/crates?x=1"),
        ("//evil.example", "/"),
        ("/\\evil.example", "/"),
        ("https://evil.example", "/"),
        ("/a\r\nSet-Cookie: x", "/"),
        ("", "/"),
    ],
)
def test_ways_back_stay_on_this_server(path: str, kept: str) -> None:
    assert local_path(path) == kept


def test_dark_look_is_kept_by_the_device(phone: Phone) -> None:
    phone.client.post("/look", data={"look": "dark", "then": "/T2/"})
    assert '<html lang="en" data-look="dark">' in phone.get("/T2/").text
    phone.client.post("/look", data={"look": "green"})
    assert 'data-look="dark"' in phone.get("/T2/").text
