"""Where cut and fold marks stand, in millimetres from the page's top left corner."""

from __future__ import annotations

from dataclasses import replace

from labels import load_stock
from labels.cut_marks import cut_marks, fold_marks
from labels.geometry import Rect

HEIGHT = 297.0
DASHED = "0.4 w [0.6 0.6] 0 d"
Stroke = tuple[float, float, float, float]


def strokes(operators: str, pen: str) -> list[Stroke]:
    """Return each line from its start to its end, sorted; the pen must be the one expected."""
    assert operators.startswith(f"q {pen} ")
    assert operators.endswith(" l S Q")
    words = operators.removeprefix(f"q {pen} ").removesuffix(" S Q").split()
    lines = []
    for place in range(0, len(words), 6):
        x, y, begin, to_x, to_y, end = words[place : place + 6]
        assert (begin, end) == ("m", "l")
        across = [round(float(each) * 25.4 / 72, 1) for each in (x, to_x)]
        down = [round(HEIGHT - float(each) * 25.4 / 72, 1) for each in (y, to_y)]
        lines.append((across[0], down[0], across[1], down[1]))
    return sorted(lines)


def test_a_label_is_cut_along_two_marks_of_2_mm_at_each_corner() -> None:
    drawn = cut_marks(Rect(10, 20, 60, 30), HEIGHT)
    assert strokes(drawn, "0.25 w") == [
        (10, 20, 10, 22), (10, 20, 12, 20), (10, 50, 10, 48), (10, 50, 12, 50),
        (70, 20, 68, 20), (70, 20, 70, 22), (70, 50, 68, 50), (70, 50, 70, 48),
    ]  # fmt: skip


def test_a_tag_is_folded_between_dashes_at_both_ends_of_the_line() -> None:
    """Six tags of 90 by 90 mm, the first 13 mm from both edges, folded across their middle."""
    stock = load_stock("a4-2x3-90x45-fold")
    drawn = fold_marks(stock, next(stock.rects()), HEIGHT)
    assert sorted(set(strokes(drawn, DASHED))) == [(13, 58, 15, 58), (101, 58, 103, 58)]


def test_a_strip_is_folded_where_its_faces_end() -> None:
    """Strips of 160 by 20 mm, the first at 25 and 13 mm, with faces of 70 mm at both ends."""
    stock = load_stock("a4-1x12-70x20-wrap")
    drawn = fold_marks(stock, next(stock.rects()), HEIGHT)
    assert strokes(drawn, DASHED) == [
        (95, 13, 95, 15),
        (95, 31, 95, 33),
        (115, 13, 115, 15),
        (115, 31, 115, 33),
    ]


def test_a_label_of_one_face_is_not_folded() -> None:
    stock = load_stock("a4-2x3-90x45-fold")
    whole = replace(stock, faces=())
    assert fold_marks(whole, next(whole.rects()), HEIGHT) == ""
