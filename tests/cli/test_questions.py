"""Each question of README's table is answered, on the float kit at full size, by its one command.

The answers stand in tests/cases/questions.toml with where they come from: the kit's own files, or
what the class did since.
"""

from __future__ import annotations

import re
import shlex
import shutil
import tomllib
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pypdfium2
import pytest

from tests.cli.floats_kit import KIT, build
from tests.cli.standing_clock import stand_still

if TYPE_CHECKING:
    from tests.cli.conftest import Told, Typist

ROOT = Path(__file__).parents[2]
TODAY = datetime(2026, 7, 6, 10, 0, tzinfo=UTC)
"""The Monday after the class counted the kit."""
SECTION = re.compile(r"^## Questions it answers$(.*?)^## ", re.MULTILINE | re.DOTALL)
ROW = re.compile(r"^\| (.+?) \| `(.+?)` \|$", re.MULTILINE)
ANSWERS: list[dict[str, Any]] = tomllib.loads(
    (ROOT / "tests" / "cases" / "questions.toml").read_text(encoding="utf-8")
)["question"]

pytestmark = pytest.mark.xdist_group("float kit at full size")


def commands() -> dict[str, str]:
    """Return the questions of README's table and the command beside each."""
    found = SECTION.search((ROOT / "README.md").read_text(encoding="utf-8"))
    assert found is not None
    return dict(ROW.findall(found[1]))


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("floats")
    with pytest.MonkeyPatch.context() as patch:
        stand_still(patch, TODAY)
        build(folder)
    shutil.copyfile(KIT / "packing_list_b.xlsx", folder / "packing_list_b.xlsx")
    return folder


@pytest.fixture
def floats(typed: Typist, built: Path, monkeypatch: pytest.MonkeyPatch) -> Typist:
    """Return a typist in a folder with the store and the later lists."""
    stand_still(monkeypatch, TODAY)
    shutil.copytree(built, typed.folder, dirs_exist_ok=True)
    monkeypatch.chdir(typed.folder)
    return typed


def test_the_table_has_the_questions_that_have_answers() -> None:
    asked = [row["asks"] for row in ANSWERS]
    assert len(asked) == len(set(asked)) == 25
    assert set(commands()) == set(asked)


@pytest.mark.parametrize("row", ANSWERS, ids=lambda row: row["asks"])
def test_one_command_answers(row: dict[str, Any], floats: Typist) -> None:
    told = floats(*shlex.split(commands()[row["asks"]]))
    assert told.code == 0, told.err
    answer = _answer(row, told, floats.folder)
    for fact in row["says"]:
        assert fact in answer
    for start, lines in row.get("lines", {}).items():
        assert len(re.findall(rf"(?<!\S){start}(?!\S)", answer)) == lines, start


@pytest.mark.parametrize("words", [("short", "43-04L"), ("plan", "show", "43-04L")], ids=" ".join)
def test_another_revision_than_the_plans_is_named_with_the_step(
    words: tuple[str, ...], floats: Typist
) -> None:
    told = floats(*words)
    assert told.code == 0
    lines = " ".join(told.out.split())
    assert "T2-FL-43044: the plan asks for revision B; listed or counted: A." in lines
    assert "revision" not in floats(*words[:-1], "41-01R").out


def _answer(row: dict[str, Any], told: Told, folder: Path) -> str:
    """Return what was answered in one line: on the terminal, or in the file that was written."""
    text = told.out
    if "file" in row:
        path = folder / row["file"]
        text = _pages(path, row["pages"]) if path.suffix == ".pdf" else path.read_text("utf-8")
    return " ".join(text.split())


def _pages(path: Path, pages: int) -> str:
    with pypdfium2.PdfDocument(path) as paper:
        assert len(paper) == pages
        return "\n".join(page.get_textpage().get_text_bounded() for page in paper)
