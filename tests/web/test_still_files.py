from __future__ import annotations

import json
import re
import tomllib
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from inventory.web.still_files import FOLDER

if TYPE_CHECKING:
    from tests.web.conftest import House

OURS = [path for path in FOLDER.rglob("*") if path.is_file() and "vendor" not in path.parts]
VENDORED = (FOLDER / "vendor", Path(__file__).parent / "vendor")
ADDRESS = re.compile(r"(?:https?:)?//[a-z0-9.-]+\.[a-z]{2,}")
STANDARDS = {"http://www.w3.org"}
"""Names of XML vocabularies: nothing is fetched from there."""


@pytest.mark.parametrize("folder", VENDORED, ids=["served", "for tests"])
def test_every_file_of_others_is_listed_and_unchanged(folder: Path) -> None:
    libraries = tomllib.loads((folder / "VENDORED.toml").read_text())["library"]
    listed = {name: digest for each in libraries for name, digest in each["sha256"].items()}
    there = {
        path.relative_to(folder).as_posix(): sha256(path.read_bytes()).hexdigest()
        for path in folder.rglob("*")
        if path.is_file() and path.name != "VENDORED.toml"
    }
    assert listed == there
    assert all(each["version"] and each["licence"] and each["why"] for each in libraries)


@pytest.mark.parametrize("path", OURS, ids=[path.name for path in OURS])
def test_nothing_of_ours_names_another_site(path: Path) -> None:
    assert set(ADDRESS.findall(path.read_text())) <= STANDARDS


@pytest.mark.parametrize(
    "template", sorted((FOLDER.parent / "templates").iterdir()), ids=lambda path: path.name
)
def test_no_template_holds_inline_code_or_style(template: Path) -> None:
    text = template.read_text()
    assert not re.search(r"<script(?![^>]*\bsrc=)", text)
    assert not re.search(r"\s(?:on[a-z]+|style)\s*=", text)
    assert "|safe" not in text
    assert "<style" not in text


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("sheet.css", "text/css; charset=utf-8"),
        ("sheet.js", "text/javascript; charset=utf-8"),
        ("mark.svg", "image/svg+xml"),
        ("vendor/zxing-wasm/zxing_reader.wasm", "application/wasm"),
    ],
)
def test_file_is_served_as_what_it_is(house: House, path: str, kind: str) -> None:
    answer = house.client().get(f"/static/{path}")
    assert answer.headers["content-type"] == kind
    assert answer.headers["cache-control"] == "no-cache"
    again = {"If-None-Match": answer.headers["etag"]}
    assert house.client().get(f"/static/{path}", headers=again).status_code == 304


def test_worker_is_named_after_the_version(house: House) -> None:
    answer = house.client().get("/sw.js")
    assert answer.text.startswith(f'const VERSION = "{house.serving.version}";\n')
    assert answer.headers["content-type"].startswith("text/javascript")


def test_manifest_is_served_to_who_isnt_paired(house: House) -> None:
    answer = house.client().get("/manifest.webmanifest")
    assert json.loads(answer.text)["start_url"] == "/"
    assert answer.headers["content-type"] == "application/manifest+json"


def test_first_page_is_light(house: House) -> None:
    """All that a phone loads for its first page, without the decoder: under 150 kB."""
    phone = house.phone()
    page = phone.get("/T2/").text
    files = set(re.findall(r'/static/[^"?]+', page)) | {"/static/queue.js"}
    weight = len(page.encode()) + sum(len(phone.get(path).content) for path in files)
    assert weight < 150_000
