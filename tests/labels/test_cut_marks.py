"""Where cut and fold marks stand, in millimetres from the page's top left corner."""

from __future__ import annotations

import re
from dataclasses import replace

from labels import load_stock
from labels.cut_marks import cut_marks, fold_marks
from labels.geometry import Rect

HEIGHT = 297.0
Stroke = tuple[float, float, float, float]


def strokes(operators: str) -> list[Stroke]:
    """Return each line from its start to its end, sorted."""
    found = re.findall(r"([0-9.]+) ([0-9.]+) m ([0-9.]+) ([0-9.]+) l", operators)
    lines = []
    for line in found:
        x, y, to_x, to_y = (float(each) * 25.4 / 72 for each in line)
        places = (x, HEIGHT - y, to_x, HEIGHT - to_y)
        lines.append(
            (round(places[0], 1), round(places[1], 1), round(places[2], 1), round(places[3], 1))
        )
    return sorted(lines)


def test_a_label_is_cut_along_two_marks_of_2_mm_at_each_corner() -> None:
    drawn = cut_marks(Rect(10, 20, 60, 30), HEIGHT)
    assert strokes(drawn) == [
        (10, 20, 10, 22), (10, 20, 12, 20), (10, 50, 10, 48), (10, 50, 12, 50),
        (70, 20, 68, 20), (70, 20, 70, 22), (70, 50, 68, 50), (70, 50, 70, 48),
    ]  # fmt: skip
    assert drawn.startswith("q 0.25 w ")
    assert drawn.endswith(" l S Q")


def test_a_tag_is_folded_between_dashes_at_both_ends_of_the_line() -> None:
    """Six tags of 90 by 90 mm, the first 13 mm from both edges, folded across their middle."""
    stock = load_stock("a4-2x3-90x45-fold")
    drawn = fold_marks(stock, next(stock.rects()), HEIGHT)
    assert sorted(set(strokes(drawn))) == [(13, 58, 15, 58), (101, 58, 103, 58)]
    assert drawn.startswith("q 0.4 w [0.6 0.6] 0 d ")
    assert drawn.endswith(" l S Q")


def test_a_strip_is_folded_where_its_faces_end() -> None:
    """Strips of 160 by 20 mm, the first at 25 and 13 mm, with faces of 70 mm at both ends."""
    stock = load_stock("a4-1x12-70x20-wrap")
    drawn = fold_marks(stock, next(stock.rects()), HEIGHT)
    assert strokes(drawn) == [
        (95, 13, 95, 15),
        (95, 31, 95, 33),
        (115, 13, 115, 15),
        (115, 31, 115, 33),
    ]


def test_a_label_of_one_face_is_not_folded() -> None:
    stock = load_stock("a4-2x3-90x45-fold")
    whole = replace(stock, faces=())
    assert fold_marks(whole, next(whole.rects()), HEIGHT) == ""
