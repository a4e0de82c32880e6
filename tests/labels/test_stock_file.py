from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from labels import LabelError, LabelStock, load_stock, stock_names
from labels.geometry import Rect
from labels.stock import Face

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


SEE = "Start from a copy of one of the package's stocks."


def test_unknown_name_is_refused_with_the_known_ones() -> None:
    with pytest.raises(LabelError) as refusal:
        load_stock("a5-1x1")
    assert refusal.value.what == "no label stock is named a5-1x1"
    assert refusal.value.remedy == f"Known: {', '.join(stock_names())}."


def test_stocks_are_offered_in_order() -> None:
    names = list(stock_names())
    assert names == sorted(names)
    assert {"a4-3x7-63.5x38.1", "letter-3x10-66.7x25.4", "roll-62"} <= set(names)


FACE = "[[face]]\nx = 0\ny = 0\nwidth = 9\nheight = 9\n"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (GOOD + "colour = 1", "colour is no measure of a stock"),
        (GOOD.replace("first", "fist"), "fist is no measure of a stock"),
        ("page = [1, 2]", "label is missing"),
        ("page = [1, 2]\nlabel = [1, 2]", "grid is missing"),
        (GOOD.replace("first = [10, 15]\n", ""), "first is missing"),
        (GOOD.replace("pitch = [63, 32]\n", ""), "pitch is missing"),
        (GOOD.replace("[3, 8]", "[3.5, 8]"), "grid must be two whole numbers"),
        (GOOD.replace("[3, 8]", "[3, 8.5]"), "grid must be two whole numbers"),
        (GOOD.replace("[3, 8]", "[3, 8, 1]"), "grid must be two numbers, across and down"),
        (GOOD.replace("[10, 15]", "[10]"), "first must be two numbers, across and down"),
        (GOOD.replace("[63, 32]", "[63]"), "pitch must be two numbers, across and down"),
        (GOOD.replace("[210, 297]", "[]"), "page must be two numbers, across and down"),
        (GOOD + "margin = [2]", "margin must be two numbers, across and down"),
        (GOOD + "lengths = 20", "lengths must be a list of numbers"),
        (GOOD.replace("[60, 30]", "60"), "label must be a list of numbers"),
        (GOOD.replace("[60, 30]", '["60", 30]'), "label must be a list of numbers"),
        (GOOD.replace("[60, 30]", "[nan, 30]"), "label must be a list of numbers"),
        (GOOD.replace("[60, 30]", "[60, inf]"), "label must be a list of numbers"),
        (GOOD + "cut = 1", "cut must be true or false"),
        (GOOD + "face = 1", "face must be a list of tables"),
        (GOOD + "face = [1]", "face must be a list of tables"),
        (
            GOOD + "[[face]]\nx = 0",
            "each face needs x, y, width and height, and may be turned",
        ),
        (GOOD + FACE + "z = 1", "each face needs x, y, width and height, and may be turned"),
        (GOOD + FACE + "turned = 2", "turned must be true or false"),
        (GOOD + FACE.replace("9", '"9"'), "face must be a list of numbers"),
    ],
)
def test_file_that_describes_no_sheet_is_refused(tmp_path: Path, text: str, words: str) -> None:
    with pytest.raises(LabelError) as refusal:
        load_stock(written(tmp_path, text))
    assert (refusal.value.what, refusal.value.remedy) == (f"label stock mine: {words}", SEE)


def test_file_that_is_no_toml_is_refused_by_its_name(tmp_path: Path) -> None:
    with pytest.raises(LabelError) as refusal:
        load_stock(written(tmp_path, "page = ["))
    assert refusal.value.what.startswith("mine.toml can't be read as a label stock: ")
    assert refusal.value.remedy == SEE


def test_sheet_that_cannot_be_printed_is_refused_when_it_is_read(tmp_path: Path) -> None:
    with pytest.raises(LabelError, match="off the page"):
        load_stock(written(tmp_path, GOOD.replace("[210, 297]", "[100, 297]")))


def test_what_a_file_leaves_out_is_1_5_mm_of_margin_and_nothing_else(tmp_path: Path) -> None:
    stock = load_stock(written(tmp_path, GOOD))
    assert stock == LabelStock(
        name="mine", page=(210, 297), label=(60, 30), grid=(3, 8), first=(10, 15), pitch=(63, 32)
    )
    assert (stock.margin, stock.lengths, stock.faces, stock.cut) == ((1.5, 1.5), (), (), False)


def test_a_face_stands_upright_unless_it_says_otherwise(tmp_path: Path) -> None:
    face = "[[face]]\nx = 1\ny = 2\nwidth = 30\nheight = 20\n"
    assert load_stock(written(tmp_path, GOOD + face)).faces == (Face(Rect(1, 2, 30, 20)),)


def test_a_relative_file_beside_the_person_is_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    written(tmp_path, GOOD)
    monkeypatch.chdir(tmp_path)
    assert load_stock("mine.toml").per_page == 24


def test_file_that_is_not_there_is_refused(tmp_path: Path) -> None:
    with pytest.raises(LabelError, match=r"none\.toml can't be read"):
        load_stock(tmp_path / "none.toml")


def test_own_file_may_carry_a_name_of_the_package(tmp_path: Path) -> None:
    path = tmp_path / "roll-57x32.toml"
    path.write_text(GOOD)
    assert load_stock(path).per_page == 24
