"""The command line run in this interpreter, on a store of its own."""

from __future__ import annotations

import json
import shutil
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import pytest

from inventory.cli import context
from inventory.cli.app import run
from tests.cli.rudder_kit import build_counted, build_listed
from tests.cli.small_kit import build

if TYPE_CHECKING:
    from pathlib import Path


@dataclass(frozen=True)
class Told:
    """What a command answered."""

    code: int
    out: str
    err: str

    @property
    def content(self) -> Any:  # noqa: ANN401
        return json.loads(self.out)["content"]


class Typist:
    """Types command lines; words are given one by one, as a shell would split them."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.folder = folder
        self._capsys = capsys

    def __call__(self, *words: str) -> Told:
        self._capsys.readouterr()
        context.typed = context.Context()
        code = run(["--store", str(self.folder / "kits.kitwright"), *words])
        caught = self._capsys.readouterr()
        return Told(int(code), caught.out, caught.err)


@pytest.fixture
def typed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Typist:
    monkeypatch.setenv("COLUMNS", "80")
    for name in ("KITWRIGHT_STORE", "KITWRIGHT_KIT", "KITWRIGHT_BY", "KITWRIGHT_PAPER"):
        monkeypatch.delenv(name, raising=False)
    return Typist(tmp_path, capsys)


@pytest.fixture(scope="session")
def small_kit_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("small") / "kits.kitwright"
    build(path)
    return path


@pytest.fixture
def small(typed: Typist, small_kit_file: Path) -> Typist:
    """Return a typist at a small kit that is stowed and planned."""
    shutil.copyfile(small_kit_file, typed.folder / "kits.kitwright")
    return typed


@pytest.fixture(scope="session")
def rudder_listed_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("listed") / "kits.kitwright"
    build_listed(path)
    return path


@pytest.fixture(scope="session")
def rudder_counted_file(rudder_listed_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("counted") / "kits.kitwright"
    shutil.copyfile(rudder_listed_file, path)
    build_counted(path)
    return path


@pytest.fixture
def listed(typed: Typist, rudder_listed_file: Path) -> Typist:
    """Return a typist at the rudder kit, its packing list read."""
    shutil.copyfile(rudder_listed_file, typed.folder / "kits.kitwright")
    return typed


@pytest.fixture
def rudder_counted(typed: Typist, rudder_counted_file: Path) -> Typist:
    """Return a typist at the rudder kit, its crates counted and closed."""
    shutil.copyfile(rudder_counted_file, typed.folder / "kits.kitwright")
    return typed
