"""Options that are taken as typed: the same answers and refusals as Typer's own check gives."""

from __future__ import annotations

import subprocess
import sys
from enum import Enum
from pathlib import Path
from typing import Annotated

import pytest
import typer
from typer.exceptions import TyperException

from inventory.cli.as_typed import command_of


class Side(Enum):
    """A choice."""

    LEFT = "left"
    RIGHT = "right"


def _tree() -> typer.Typer:
    app = typer.Typer(rich_markup_mode=None, pretty_exceptions_enable=False)

    @app.callback()
    def common(store: Annotated[str, typer.Option()] = "") -> None:
        """Take what all commands take."""

    @app.command("put")
    def put(
        part: str,
        *,
        count: int = 3,
        file: Path | None = None,
        folder: Annotated[Path | None, typer.Option(exists=True, file_okay=False)] = None,
        share: Annotated[float, typer.Option(max=1)] = 0.5,
        side: Side = Side.LEFT,
        more: Annotated[list[str] | None, typer.Option()] = None,
        dry: bool = False,
    ) -> tuple[object, ...]:
        """Give back what came."""
        return part, count, file, folder, share, side, more, dry

    return app


def _said(run: object, words: list[str]) -> object:
    try:
        return run(words, standalone_mode=False, prog_name="x")  # type: ignore[operator]
    except TyperException as error:
        return type(error).__name__, error.format_message()


@pytest.mark.parametrize(
    "words",
    [
        ["put", "T2-1"],
        ["--store", "a b", "put", "T2-1", "--count", "7", "--file", "x.xlsx", "--dry"],
        ["put", "T2-1", "--count", "seven"],
        ["put", "T2-1", "--count", "-1"],
        ["put", "T2-1", "--count", "1.5"],
        ["put", ""],
        ["put"],
        ["put", "T2-1", "--file", "."],
        ["put", "T2-1", "--file", ""],
        ["put", "T2-1", "--folder", "no such"],
        ["put", "T2-1", "--folder", "."],
        ["put", "T2-1", "--share", "0.25"],
        ["put", "T2-1", "--share", "2"],
        ["put", "T2-1", "--side", "right"],
        ["put", "T2-1", "--side", "up"],
        ["put", "T2-1", "--more", "a", "--more", "b"],
        ["put", "T2-1", "--no-such"],
        ["take"],
    ],
    ids=" ".join,
)
def test_what_is_typed_is_answered_as_typer_answers_it(words: list[str]) -> None:
    assert _said(command_of(_tree()), words) == _said(_tree(), words)


@pytest.mark.parametrize("words", [["--help"], ["put", "--help"]])
def test_help_is_the_same(words: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    _said(command_of(_tree()), words)
    ours = capsys.readouterr().out
    _said(_tree(), words)
    assert ours == capsys.readouterr().out != ""


def test_a_plain_command_loads_no_library_that_checks_options(tmp_path: Path) -> None:
    store = tmp_path / "s.kitwright"
    asked = (
        "import sys\nfrom inventory.cli.app import run\n"
        f"assert run(['--store', {str(store)!r}, 'kit', 'new', 'T2']) == 0\n"
        f"assert run(['--store', {str(store)!r}, 'history']) == 0\n"
        "assert 'pydantic' not in sys.modules\n"
    )
    subprocess.run([sys.executable, "-c", asked], check=True, cwd=Path(__file__).parents[2])
