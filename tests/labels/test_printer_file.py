from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from labels import LabelError, Printer, keep_printer, load_printers

if TYPE_CHECKING:
    from pathlib import Path

GOOD = "[bench]\ndots_per_inch = 300\noffset_x = 1.5\noffset_y = 2\n"


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


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("bench = 1", "printers.toml: bench is no printer"),
        ("[bench]\ndots_per_inch = 300", "printers.toml: bench is no printer"),
        (GOOD.replace("offset_y = 2", "offset_y = inf"), "printers.toml: bench is no printer"),
        (GOOD.replace("offset_x = 1.5", "offset_x = inf"), "printers.toml: bench is no printer"),
        (GOOD.replace("dots_per_inch = 300", "dots_per_inch = 300.0"),
         "printers.toml: bench is no printer"),
    ],
)  # fmt: skip
def test_what_is_no_printer_is_named(tmp_path: Path, text: str, words: str) -> None:
    path = tmp_path / "printers.toml"
    path.write_text(text)
    with pytest.raises(LabelError) as refused:
        load_printers(path)
    assert refused.value.what == words
    assert refused.value.remedy == "Mend it, or delete it and calibrate again."


def test_a_file_written_by_hand_is_read(tmp_path: Path) -> None:
    path = tmp_path / "printers.toml"
    path.write_text(GOOD)
    assert load_printers(path) == {"bench": Printer(300, 1.5, 2.0)}


def test_file_that_is_no_toml_is_named(tmp_path: Path) -> None:
    path = tmp_path / "printers.toml"
    path.write_text("[bench")
    with pytest.raises(LabelError) as refused:
        load_printers(path)
    assert refused.value.what.startswith("printers.toml can't be read: ")
    assert refused.value.remedy == "Mend it, or delete it and calibrate again."


def test_the_file_is_one_that_a_person_can_read(tmp_path: Path) -> None:
    path = tmp_path / "printers.toml"
    keep_printer(path, "büro", Printer(600, 0.25, -1.5))
    assert path.read_text(encoding="utf-8") == (
        "# Printers and their offsets in millimetres, from the calibration page\n"
        '\n["büro"]\ndots_per_inch = 600\noffset_x = 0.25\noffset_y = -1.5\n'
    )
    assert [each.name for each in tmp_path.iterdir()] == ["printers.toml"]


@pytest.mark.parametrize("name", ["", "a\nb"])
def test_name_must_be_a_line(tmp_path: Path, name: str) -> None:
    with pytest.raises(LabelError) as refused:
        keep_printer(tmp_path / "printers.toml", name, Printer())
    assert refused.value.what == "a printer's name must be a line of letters"
    assert refused.value.remedy == "Choose another name."
