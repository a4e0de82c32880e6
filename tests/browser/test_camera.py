"""Labels from the real label sheet, read from a photograph and from the live camera."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from inventory.jobs.bench.labelling import numbered_bins
from inventory.web.certificates import certificates
from tests.browser.conftest import launched, phone_of
from tests.browser.scenes import label, photo, scene, video

if TYPE_CHECKING:
    from pathlib import Path

    from PIL.Image import Image
    from playwright.sync_api import Browser, FilePayload, Page, Playwright

    from tests.browser.conftest import Hand, Served

FAKE = ("--use-fake-ui-for-media-stream", "--use-fake-device-for-media-stream")


@pytest.fixture
def labels(server: Served) -> list[Image]:
    return [label(each.own_id, each.place.code) for each in numbered_bins(server.bench)]


def sent(picture: bytes, kind: str = "image/jpeg") -> FilePayload:
    return {"name": "photo", "mimeType": kind, "buffer": picture}


def answers(page: Page, word: str, words: str) -> None:
    expect(page.locator("#answer .word")).to_contain_text(word)
    expect(page.locator("#answer")).to_contain_text(words)


def test_photograph_of_a_label_is_scanned(hand: Hand, labels: list[Image]) -> None:
    page = hand.open("scan")
    page.set_input_files("#photo", sent(photo(scene(labels[:1], tilt=20))))
    answers(page, "NOTED", "BIN A")


def test_photograph_works_without_https_on_any_name(
    browser: Browser, server: Served, labels: list[Image]
) -> None:
    origin = f"http://bench.example:{server.serving.port}"
    with phone_of(browser, server, origin=origin) as hand:
        page = hand.open("scan")
        page.get_by_role("button", name="Live camera").click()
        expect(page.locator("#live-words")).to_contain_text("by https only")
        page.set_input_files("#photo", sent(photo(scene(labels[1:2]))))
        answers(page, "NOTED", "BIN B")


def test_what_isnt_one_label_is_not_guessed_at(hand: Hand, labels: list[Image]) -> None:
    page = hand.open("scan")
    for picture, words in (
        (photo(scene(labels)), "2 different codes are in the picture"),
        (photo(scene([])), "no code of ours can be read"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "no JPEG, PNG or WebP"),
    ):
        page.set_input_files("#photo", sent(picture))
        answers(page, "NOT OK", words)


def live(page: Page) -> None:
    page.get_by_role("button", name="Live camera").click()


def test_live_camera_refuses_two_labels_and_takes_one_once(
    playwright: Playwright, server: Served, labels: list[Image], tmp_path: Path
) -> None:
    both, one, none = scene(labels), scene(labels[:1]), scene([])
    film = video([both] * 45 + [none] * 60 + [one] * 90, tmp_path / "labels.mjpeg")
    with (
        launched(playwright, *FAKE, f"--use-file-for-fake-video-capture={film}") as browser,
        phone_of(browser, server) as hand,
    ):
        page = hand.open("scan")
        live(page)
        answers(page, "NOT OK", "2 different codes are in view")
        answers(page, "NOTED", "BIN A")
        page.wait_for_timeout(500)
        expect(page.locator("#session li")).to_have_count(1)


def test_live_camera_works_by_https_for_who_trusts_the_authority(
    playwright: Playwright, server: Served, labels: list[Image], tmp_path: Path
) -> None:
    keys = certificates(tmp_path / "keys", ["bench.example"])
    film = video([scene(labels[:1])] * 4, tmp_path / "label.mjpeg")
    server.stop()
    server.serving.secure = True
    server.start(keys.server)
    flags = (
        *FAKE,
        f"--use-file-for-fake-video-capture={film}",
        f"--ignore-certificate-errors-spki-list={spki(keys.server)}",
    )
    origin = f"https://bench.example:{server.serving.port}"
    with launched(playwright, *flags) as browser, phone_of(browser, server, origin=origin) as hand:
        page = hand.open("scan")
        live(page)
        answers(page, "NOTED", "BIN A")
    with launched(playwright) as browser:
        page = browser.new_page()
        with pytest.raises(Exception, match="ERR_CERT_AUTHORITY_INVALID"):
            page.goto(f"{origin}/pair")


def spki(pem: Path) -> str:
    """Return the digest of a certificate's public key, as the browser's flag wants it."""
    from base64 import b64encode  # noqa: PLC0415
    from hashlib import sha256  # noqa: PLC0415

    from cryptography import x509  # noqa: PLC0415
    from cryptography.hazmat.primitives.serialization import (  # noqa: PLC0415
        Encoding,
        PublicFormat,
    )

    text = pem.read_text()
    first = text[text.index("-----BEGIN CERTIFICATE-----") :]
    key = x509.load_pem_x509_certificate(first.encode()).public_key()
    spki_bytes = key.public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    return b64encode(sha256(spki_bytes).digest()).decode()
