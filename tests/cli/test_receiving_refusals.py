"""Bad input at the crate: a clear refusal, and the store stays as it was, byte for byte."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from PIL import Image

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    from tests.cli.conftest import Typist

CASES: list[dict[str, Any]] = tomllib.loads(
    (Path(__file__).parents[1] / "cases" / "receiving_refusals.toml").read_text(encoding="utf-8")
)["case"]


@pytest.fixture(scope="session")
def bomb(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    path = tmp_path_factory.mktemp("bomb") / "bomb.png"
    Image.new("1", (60_000, 1_000)).save(path)
    return path.read_bytes()


@pytest.fixture
def pictures(listed: Typist, bomb: bytes) -> None:
    (listed.folder / "bomb.png").write_bytes(bomb)
    (listed.folder / "list.jpg").write_text("no picture")
    Image.new("RGB", (20, 20)).save(listed.folder / "lid.png")


@pytest.mark.usefixtures("pictures")
@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_refused_with_words_and_nothing_is_stored(listed: Typist, case: dict[str, Any]) -> None:
    store = listed.folder / "kits.kitwright"
    before = store.read_bytes()
    words = [
        word.replace("{folder}", str(listed.folder)).replace("{long}", "x" * 501)
        for word in case["words"]
    ]
    told = listed(*words)
    assert (told.code, told.out) == (Exit.REFUSED, "")
    assert case["says"] in told.err
    assert "try:   " in told.err
    assert store.read_bytes() == before
