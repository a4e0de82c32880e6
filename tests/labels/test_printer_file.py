from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from labels import LabelError, Printer, keep_printer, load_printers

if TYPE_CHECKING:
    from pathlib import Path


def test_printers_are_kept_beside_each_other(tmp_path: Path) -> None:
    path = tmp_path / "settings" / "printers.toml"
    keep_printer(path, 'büro "2"', Printer(600, 0.25, -1.5))
    keep_printer(path, "bench", Printer(203))
    keep_printer(path, "bench", Printer(203, offset_x=1))
    assert load_printers(path) == {
        'büro "2"': Printer(600, 0.25, -1.5),
        "bench": Printer(203, offset_x=1.0),
    }


def test_no_file_means_no_printers(tmp_path: Path) -> None:
    assert load_printers(tmp_path / "none.toml") == {}


@pytest.mark.parametrize(
    "text",
    [
        "[bench",
        "bench = 1",
        "[bench]\ndots_per_inch = 300\noffset_x = 0",
        "[bench]\ndots_per_inch = 300\noffset_x = nan\noffset_y = 0",
        "[bench]\ndots_per_inch = 300\noffset_x = 9\noffset_y = 0",
    ],
)
def test_file_that_cannot_be_understood_is_refused(tmp_path: Path, text: str) -> None:
    path = tmp_path / "printers.toml"
    path.write_text(text)
    with pytest.raises(LabelError):
        load_printers(path)


@pytest.mark.parametrize("name", ["", "a\nb"])
def test_name_must_be_a_line(tmp_path: Path, name: str) -> None:
    with pytest.raises(LabelError, match="line of letters"):
        keep_printer(tmp_path / "printers.toml", name, Printer())
