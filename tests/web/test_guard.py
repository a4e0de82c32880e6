"""The threat table: one test for each row."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from starlette.routing import Mount, Route

from inventory.jobs.devices import revoke
from inventory.web.guard import COOKIE, HEADERS, PICTURE_POLICY, POLICY, is_open
from inventory.web.routes import routes
from tests.web.conftest import ORIGIN

if TYPE_CHECKING:
    from collections.abc import Iterator

    from tests.web.conftest import House, Phone


def filled(path: str) -> str:
    return path.replace("{kit}", "T2").replace("{name}", "count").replace("{path:path}", "x")


def walked() -> list[tuple[str, str]]:
    """Return every method and path that a route answers."""
    found = []
    for route in routes():
        if isinstance(route, Mount):
            found.append(("GET", f"{route.path}/sheet.css"))
        elif isinstance(route, Route):
            found += [(method, filled(route.path)) for method in sorted(route.methods or ())]
    return found


WALK = walked()
CLOSED = [pair for pair in WALK if not is_open(pair[1])]


@pytest.mark.parametrize("host", ["evil.example", "evil.example:8737", "kits.example.evil", ""])
def test_dns_rebinding_gets_nothing(house: House, phone: Phone, host: str) -> None:
    answer = house.client(phone.secret, Host=host).get("/T2/")
    assert answer.status_code == 400
    assert "Tarn" not in answer.text


@pytest.mark.parametrize("origin", ["http://evil.example", "null", f"{ORIGIN}.evil", "https://x"])
def test_page_of_another_site_cant_act(house: House, phone: Phone, origin: str) -> None:
    client = house.client(phone.secret, Origin=origin)
    assert client.post("/T2/act/open-crate", data={"crate": "1"}).status_code == 403
    assert client.post("/pair", data={"token": house.token()}).status_code == 403


def test_without_an_origin_only_the_browser_s_own_word_counts(house: House, phone: Phone) -> None:
    bare = house.client(phone.secret)
    assert bare.post("/look", data={}).status_code == 403
    own = {"Sec-Fetch-Site": "same-origin"}
    assert bare.post("/look", data={}, headers=own).status_code == 303
    other = {"Sec-Fetch-Site": "cross-site"}
    assert bare.post("/look", data={}, headers=other).status_code == 403


@pytest.mark.parametrize(("method", "path"), CLOSED, ids=[" ".join(pair) for pair in CLOSED])
def test_every_route_refuses_who_isnt_paired(house: House, method: str, path: str) -> None:
    answer = house.client(Origin=ORIGIN).request(method, path)
    assert answer.status_code == 401
    assert "Tarn" not in answer.text


def test_who_isnt_paired_is_shown_the_way_in(house: House) -> None:
    assert "isn't paired" in house.client().get("/T2/crates").text


def test_only_pairing_and_still_files_are_open() -> None:
    assert {path for _, path in WALK if is_open(path)} <= {
        "/pair",
        "/static/sheet.css",
        "/manifest.webmanifest",
        "/sw.js",
    }


ENDING = [pair for pair in WALK if not pair[1].endswith("/events")]
"""Answers that end: the stream of events has a test of its own."""


@pytest.mark.parametrize(("method", "path"), ENDING, ids=[" ".join(pair) for pair in ENDING])
def test_every_answer_carries_the_headers(house: House, method: str, path: str) -> None:
    answer = house.phone().client.request(method, path)
    assert {name: answer.headers[name] for name in HEADERS} == HEADERS
    own = PICTURE_POLICY if path.endswith(".svg") else POLICY
    assert answer.headers["content-security-policy"] == own
    assert answer.headers["cache-control"] in {"no-store", "no-cache"}


def test_policy_lets_no_inline_code_run() -> None:
    assert "unsafe-inline" not in POLICY
    assert "unsafe-eval" not in POLICY.replace("wasm-unsafe-eval", "")
    assert POLICY.startswith("default-src 'none'")


def test_looking_changes_nothing(phone: Phone) -> None:
    """A GET of a page that acts is no act: SameSite alone would let a link through."""
    assert phone.get("/T2/act/open-crate?crate=1").status_code == 405
    assert phone.get("/devices/invite").status_code == 405


def test_revoked_device_is_shut_out_within_a_second(house: House, phone: Phone) -> None:
    seconds = [0.0]
    house.serving.known.clock = lambda: seconds[0]
    assert phone.get("/T2/").status_code == 200
    revoke(house.bench.store, 1, house.clock())
    seconds[0] = 1.0
    assert phone.get("/T2/").status_code == 401
    assert phone.act("open-crate", crate="1").status_code == 401


def test_made_up_secret_is_nobody(house: House) -> None:
    assert house.client("0" * 43).get("/T2/").status_code == 401
    assert house.client("x" * 5000).get("/T2/").status_code == 401


def test_secret_is_out_of_reach_of_scripts_and_other_sites(house: House) -> None:
    answer = house.client(Origin=ORIGIN).post("/pair", data={"token": house.token()})
    cookie = answer.headers["set-cookie"].lower()
    assert cookie.startswith(f"{COOKIE}=")
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert "secure" not in cookie
    house.serving.secure = True
    secure = house.client(Origin="https://kits.example:8737")
    answer = secure.post("/pair", data={"token": house.token()})
    assert "; secure" in answer.headers["set-cookie"].lower()


@pytest.mark.parametrize(
    "path",
    [
        "/static/../serving.py",
        "/static/..%2f..%2fserving.py",
        "/static/%2e%2e/serving.py",
        "/static//etc/passwd",
        "/static/..%5cserving.py",
        "/static/%00",
    ],
)
def test_no_path_leads_out_of_the_still_files(house: House, path: str) -> None:
    answer = house.client().get(path)
    assert answer.status_code in {401, 404, 405}
    assert "import" not in answer.text


def test_huge_body_is_refused_before_it_is_read(phone: Phone) -> None:
    answer = phone.act("count", crate="1", part="SPAR", pieces="1", note="x" * 70_000)
    assert answer.status_code == 413


def test_chunked_body_is_measured_while_it_comes(phone: Phone) -> None:
    def chunks() -> Iterator[bytes]:
        for _ in range(20):
            yield b"x" * 10_000

    kind = {"content-type": "application/x-www-form-urlencoded"}
    answer = phone.client.post("/T2/act/count", content=chunks(), headers=kind)
    assert answer.status_code == 413


def test_fault_of_ours_shows_no_traceback(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    phone = house.phone()
    monkeypatch.setattr("inventory.web.pages.today.looking", None)
    client = house.client(phone.secret, raises=False)
    answer = client.get("/T2/")
    assert answer.status_code == 500
    assert answer.text == "Internal Server Error"
    assert answer.headers["content-security-policy"] == POLICY
