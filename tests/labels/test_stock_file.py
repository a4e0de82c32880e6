from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from labels import LabelError, load_stock, stock_names

if TYPE_CHECKING:
    from pathlib import Path

GOOD = """page = [210, 297]
label = [60, 30]
grid = [3, 8]
first = [10, 15]
pitch = [63, 32]
"""


def written(tmp_path: Path, text: str) -> Path:
    path = tmp_path / "mine.toml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("name", stock_names())
def test_every_stock_of_the_package_can_be_printed(name: str) -> None:
    assert load_stock(name).name == name


def test_own_stock_is_read_from_a_file(tmp_path: Path) -> None:
    stock = load_stock(written(tmp_path, GOOD + "margin = [2, 3]\ncut = true\n"))
    assert (stock.name, stock.margin, stock.cut, stock.per_page) == ("mine", (2, 3), True, 24)


def test_faces_and_lengths_are_read(tmp_path: Path) -> None:
    face = "[[face]]\nx = 0\ny = 0\nwidth = 30\nheight = 30\nturned = true\n"
    stock = load_stock(written(tmp_path, GOOD + "lengths = [20, 30]\n" + face))
    faces = [(one.area.width, one.turned) for one in stock.faces]
    assert (list(stock.lengths), faces) == ([20, 30], [(30, True)])


def test_unknown_name_is_refused_with_the_known_ones() -> None:
    with pytest.raises(LabelError, match="no label stock is named a5-1x1") as refusal:
        load_stock("a5-1x1")
    assert "letter-3x10-66.7x25.4" in refusal.value.remedy


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("page = [", "can't be read as a label stock"),
        (GOOD + "colour = 1", "colour is no measure of a stock"),
        (GOOD.replace("first", "fist"), "fist is no measure"),
        ("page = [1, 2]", "label is missing"),
        (GOOD.replace("[3, 8]", "[3.5, 8]"), "grid must be two whole numbers"),
        (GOOD.replace("[3, 8]", "[3, 8, 1]"), "grid must be two numbers"),
        (GOOD.replace("[60, 30]", "60"), "label must be a list of numbers"),
        (GOOD.replace("[60, 30]", '["60", 30]'), "label must be a list of numbers"),
        (GOOD.replace("[60, 30]", "[nan, 30]"), "label must be a list of numbers"),
        (GOOD + "cut = 1", "cut must be true or false"),
        (GOOD + "face = 1", "face must be a list of tables"),
        (GOOD + "face = [1]", "face must be a list of tables"),
        (GOOD + "[[face]]\nx = 0", "each face needs x, y, width and height"),
        (GOOD + "[[face]]\nx = 0\ny = 0\nwidth = 1\nheight = 1\nz = 1", "each face needs"),
        (GOOD + "[[face]]\nx = 0\ny = 0\nwidth = 9\nheight = 9\nturned = 2", "turned must be"),
        (GOOD.replace("[210, 297]", "[100, 297]"), "off the page"),
    ],
)
def test_file_that_describes_no_sheet_is_refused(tmp_path: Path, text: str, words: str) -> None:
    with pytest.raises(LabelError, match=words):
        load_stock(written(tmp_path, text))


def test_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(LabelError, match=r"none\.toml can't be read"):
        load_stock(tmp_path / "none.toml")


def test_own_file_may_carry_a_name_of_the_package(tmp_path: Path) -> None:
    path = tmp_path / "roll-57x32.toml"
    path.write_text(GOOD)
    assert load_stock(path).per_page == 24
