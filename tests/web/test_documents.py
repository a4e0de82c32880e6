"""Documents that ask for an act: what can't be read is refused with words, and asks for nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from tests.web.conftest import ask

if TYPE_CHECKING:
    from tests.web.conftest import Phone

BODIES = [
    (b"", "no JSON object"),
    (b"[]", "no JSON object"),
    (b"{", "no JSON object"),
    (b"[" * 60_000, "no JSON object"),
    (b'{"slip": "document-1"}', "'crate' is missing"),
    (b'{"slip": "document-1", "crate": 1}', "'crate' holds no text"),
    (b'{"slip": "document-1", "crate": "1", "x": "y"}', "there is no field 'x'"),
    (b'{"slip": "document-1", "crate": "\\ud800"}', "holds no text"),
    (b'{"slip": "document-1", "crate": "\\u0000"}', "holds no text"),
    (b'{"slip": "short", "crate": "1"}', "the slip has no key of its own"),
    (b'{"slip": 12345678, "crate": "1"}', "the slip has no key of its own"),
    (b'{"crate": "1"}', "the slip has no key of its own"),
    (b'{"slip": "document-1", "crate": "' + b"1" * 501 + b'"}', "more than 500 characters"),
]


@pytest.mark.parametrize(("body", "words"), BODIES, ids=[str(body[:40]) for body, _ in BODIES])
def test_document_that_cant_be_read_is_refused(phone: Phone, body: bytes, words: str) -> None:
    answer = phone.client.post("/api/v1/T2/open-crate", content=body)
    assert answer.status_code == 422
    assert words in answer.json()["refused"]


@pytest.mark.parametrize("value", [1.5, "2", True, -1, None, 10**16])
def test_number_must_be_whole(phone: Phone, value: object) -> None:
    fields: dict[str, Any] = {"part": "SPAR", "from": "A", "to": "B", "pieces": value}
    assert ask(phone, "put", **fields).status_code == 422


def test_unknown_act_and_kit_are_not_found(phone: Phone) -> None:
    assert phone.client.post("/api/v1/T2/fly", json={}).status_code == 404
    assert phone.client.post("/api/v1/XX/undo", json={"slip": "12345678", "act": 1}).json() == {
        "refused": "there is no kit 'XX' here",
        "where": "",
        "remedy": "Choose one of the kits.",
        "problems": [],
    }
    assert phone.act("fly").status_code == 404


def test_page_of_a_former_version_is_told_to_load_itself_anew(phone: Phone) -> None:
    headers = {"Kitwright-Version": "0.0.1.00000000"}
    fields = {"slip": "document-1", "crate": "1"}
    answer = phone.client.post("/api/v1/T2/open-crate", json=fields, headers=headers)
    assert answer.status_code == 412
    assert phone.client.post("/api/v1/T2/open-crate", json=fields).json()["again"] is False
