from __future__ import annotations

from dataclasses import replace

import pytest

from labels import (
    Label,
    LabelError,
    Line,
    Printer,
    Role,
    Square,
    capacity,
    fit,
    for_all,
    load_stock,
    remarks,
    stock_names,
    stocks_for,
)

BIN = Label(content="LT20042M", lines=(Line("B-07", Role.HEADLINE),))
LONG = replace(BIN, lines=(Line("SHELF-12-LEFT-OF-DOOR", Role.HEADLINE),))
TINY = load_stock("a4-5x13-38.1x21.2")


def test_a_refusal_names_the_stocks_that_fit() -> None:
    with pytest.raises(LabelError) as refusal:
        fit(LONG, TINY)
    assert refusal.value.remedy.startswith("It fits on a4-1x12-70x20-wrap, ")
    assert "a4-5x13-38.1x21.2" not in refusal.value.remedy
    assert str(refusal.value) == f"{refusal.value.what}. {refusal.value.remedy}"


def test_stocks_named_as_fitting_do_fit() -> None:
    fitting = stocks_for(LONG)
    assert 3 < len(fitting) < len(stock_names())
    assert all(fit(LONG, load_stock(name)) for name in fitting)


def test_label_that_fits_nowhere_says_so() -> None:
    with pytest.raises(LabelError) as refusal:
        fit(replace(BIN, lines=(Line("B" * 200, Role.HEADLINE),)), TINY)
    assert refusal.value.remedy == "It fits on none of the stocks."


def test_a_refusal_with_its_own_remedy_is_kept() -> None:
    with pytest.raises(LabelError) as refusal:
        fit(replace(BIN, lines=(Line("\u0e01", Role.NUMBER),)), TINY)
    assert refusal.value.remedy == "Write the number as the drawing shows it."


def test_remarks_count_the_labels_they_concern() -> None:
    plain = [replace(BIN, content=f"LT2{number:04d}LONGER") for number in range(3)]
    assert remarks([*plain, BIN], TINY) == ("no room for Code 128 (4 labels)",)
    assert remarks(plain[:1], TINY) == ("no room for Code 128 (1 label)",)
    assert remarks([BIN], load_stock("letter-2x5-101.6x50.8")) == ()


def test_a_character_that_no_typeface_has_is_said_in_words() -> None:
    thai = replace(BIN, lines=(Line("B-07", Role.HEADLINE), Line("ก ข")))
    assert remarks([thai, thai], load_stock("a4-2x7-99.1x38.1")) == (
        "“ก ข” holds what no typeface here has: U+0E01 THAI CHARACTER KO KAI and 1 more (2 labels)",
    )


def test_labels_that_fit_on_no_stock_together_say_so() -> None:
    nowhere = replace(BIN, lines=(Line("B" * 200, Role.HEADLINE),))
    fault = LabelError("too long", "It fits on none of the stocks.")
    assert for_all(fault, [BIN, nowhere], TINY, Printer()) is fault
    told = for_all(fault, [nowhere, LONG, nowhere], TINY, Printer())
    assert (told.what, told.remedy) == (
        "too long; nor can 2 others",
        "No stock fits all; name fewer.",
    )


def test_continuous_roll_is_cut_where_everything_has_room() -> None:
    roll = load_stock("roll-62")
    assert fit(BIN, roll).spot.size == (62, 20)
    more = replace(BIN, lines=(*BIN.lines, *[Line(f"line {number}") for number in range(8)]))
    assert fit(more, roll).spot.size == (62, 42)
    assert roll.cut_to(42).page == (62, 42)


def test_the_longest_length_of_a_roll_is_taken_where_something_stays_out() -> None:
    long = replace(BIN, content="1PMS20470AD4-6-AND-A-TAIL")
    laid_out = fit(long, load_stock("roll-62"))
    assert (laid_out.spot.size, laid_out.left_out) == ((62, 100), ("no room for Code 128",))


@pytest.mark.parametrize("name", ["letter-3x10-66.7x25.4", "a4-5x13-38.1x21.2", "roll-57x32"])
@pytest.mark.parametrize("dots_per_inch", [203, 300, 600])
def test_capacity_is_exact(name: str, dots_per_inch: int) -> None:
    stock, printer = load_stock(name), Printer(dots_per_inch)
    told = capacity(stock, printer)
    one = (Line("B", Role.HEADLINE),)

    def fits(label: Label) -> bool:
        try:
            fit(label, stock, printer)
        except LabelError:
            return False
        return True

    for kind, longest in ((Square.QR, told.qr), (Square.DATA_MATRIX, told.data_matrix)):
        assert fits(Label(content="A" * longest, lines=one, square=kind))
        assert not fits(Label(content="A" * (longest + 1), lines=one, square=kind))
    linear = Label(content="A" * told.code128, lines=one)
    assert fit(linear, stock, printer).frame.bar
    assert not fit(replace(linear, content=linear.content + "A"), stock, printer).frame.bar
    headline = Label(content="LT2000017X", lines=(Line("B" * told.headline, Role.HEADLINE),))
    assert fits(headline)
    assert not fits(replace(headline, lines=(Line("B" * (told.headline + 1), Role.HEADLINE),)))


def test_capacity_of_the_commonest_sheet() -> None:
    # by hand at 300 to the inch: 66.675 mm are 262 modules of 0.254 mm; less 10 and a dot at both
    # ends 241; start, 18 characters and check of 11 each, and 13 for stop are 233, one more is 244
    assert capacity(load_stock("letter-3x10-66.7x25.4")).code128 == 18


def test_lengths_on_which_the_symbol_has_no_room_are_passed_over() -> None:
    """With 50 characters the symbol and a headline stand above each other, on 75 mm and more."""
    roll, long = load_stock("roll-62"), replace(BIN, content="A" * 50, linear=False)
    with pytest.raises(LabelError, match="too small for its QR symbol"):
        fit(long, replace(roll, lengths=(20.0, 60.0)))
    assert fit(long, roll).spot.size == (62, 75)
