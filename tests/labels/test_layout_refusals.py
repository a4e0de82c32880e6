"""What a label that can't be laid out is refused with, word for word."""

from __future__ import annotations

from dataclasses import replace

import pytest

from labels import Flag, Label, LabelError, Line, Printer, Role, Shape, Square
from labels.layout import lay_out
from labels.placing import Spot

BIN = Label(content="LT20042M", lines=(Line("B-07", Role.HEADLINE),))


def spot(width: float, height: float) -> Spot:
    return Spot((width, height), (1.5, 1.5), Printer(300))


SMALL = "a label of 10 by 8 mm is too small for"
WIDE = "can't be printed large enough to read on a label of 40 by 25 mm"


@pytest.mark.parametrize(
    ("label", "size", "what"),
    [
        (BIN, (10, 8), f"label LT20042M: {SMALL} its QR symbol and 1 line that can be read"),
        (
            replace(BIN, lines=(*BIN.lines, Line("T2-1", Role.NUMBER))),
            (10, 8),
            f"label LT20042M: {SMALL} its QR symbol and 2 lines that can be read",
        ),
        (
            replace(BIN, square=None),
            (10, 8),
            f"label LT20042M: {SMALL} its Code 128 symbol and 1 line that can be read",
        ),
        (
            replace(BIN, square=Square.DATA_MATRIX, lines=()),
            (10, 8),
            f"label LT20042M: {SMALL} its Data Matrix symbol and 0 lines that can be read",
        ),
        (
            replace(BIN, content="", lines=(*BIN.lines, Line("T2-1", Role.NUMBER))),
            (10, 8),
            f"label: {SMALL} 2 lines that can be read",
        ),
        (
            replace(BIN, lines=(Line("B" * 60, Role.HEADLINE), Line("T2-1", Role.NUMBER))),
            (40, 25),
            f"label LT20042M: {'B' * 60} {WIDE}",
        ),
        (
            Label(content="", lines=(), flag=Flag("LEFT" * 9, Shape.PLAIN)),
            (40, 25),
            f"label: {'LEFT' * 9} {WIDE}",
        ),
    ],
)
def test_a_refusal_names_the_label_its_size_and_what_is_too_much(
    label: Label, size: tuple[float, float], what: str
) -> None:
    with pytest.raises(LabelError) as refused:
        lay_out(label, spot(*size))
    assert (refused.value.what, refused.value.remedy) == (what, "")


def test_a_number_that_can_not_be_printed_is_named_with_its_sign() -> None:
    with pytest.raises(LabelError) as refused:
        lay_out(replace(BIN, lines=(Line("T2 \u0e01", Role.NUMBER),)), spot(66, 25))
    assert refused.value.what == (
        "T2 \u0e01 holds a character that can't be printed: U+0E01 THAI CHARACTER KO KAI"
    )
