from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    from tests.cli.conftest import Typist

ON = ("--on", "2026-03-20")


@pytest.fixture
def wanting(small: Typist) -> Typist:
    """Return the small kit with its crate counted, so that nothing uncounted is due."""
    for part, pieces, hand in (
        ("T2-RIB", "2", "left"), ("T2-RIB", "2", "right"), ("T2-SPAR", "1", "none"),
        ("AN3-5A", "12", "none"), ("T2-ANGLE", "2", "none"),
    ):  # fmt: skip
        small("crate", "count", "1", part, pieces, "--hand", hand)
    small("crate", "close", "1")
    return small


def lines(typist: Typist, *words: str) -> list[str]:
    told = typist("to-order", *words)
    assert told.code == Exit.DONE, told.err
    assert max(map(len, told.out.splitlines()), default=0) <= 80
    return [" ".join(line.split()) for line in told.out.splitlines()]


def test_the_list_is_by_supplier_with_days_and_reasons(wanting: Typist) -> None:
    told = lines(wanting, *ON)
    assert told[:2] == [
        "Curlew Slip Kit Works",
        "needed by pieces part number hand price why",
    ]
    assert told[3:] == [
        "2026-03-20 2 AN3-5A short for 10-03",
        "2026-03-20 1 x 75 mm T2-ANGLE short for 10-04; buy 1 x 48 in",
        "2026-03-20 1 T2-RIB RIGHT short for 10-01",
        "",
    ]
    assert wanting("to-order", "--check").code == Exit.FINDINGS
    assert lines(wanting, "--supplier", "heron") == ["nothing is to be ordered"]
    assert len(wanting("to-order", "--json").content) == 3


def test_an_offer_gives_price_and_the_last_day_to_order(wanting: Typist) -> None:
    told = wanting("to-order", "offer", "AN3-5A", "--from", "Heron", "--price", "0.42 EUR",
                   "--days", "14")  # fmt: skip
    assert told.out == "AN3-5A of Heron: 0.42 EUR each\n"
    shown = " ".join(lines(wanting, *ON))
    assert "2026-03-20 2 AN3-5A 0.42 EUR short for 10-03; order by 2026-03-06" in shown
    told = wanting("to-order", "offer", "T2-ANGLE", "--from", "Heron", "--length", "4ft")
    assert told.out == "T2-ANGLE of Heron: no price for a stick of 48 in\n"


def test_orders_are_placed_answered_and_come(wanting: Typist) -> None:
    told = wanting("to-order", "place", "AN3-5A", "2", "--from", "Heron", "--ref", "M 1",
                   "--price", "0.42 EUR", "--promised", "2026-03-30", *ON)  # fmt: skip
    assert told.out == "order 1: 2 x AN3-5A\n"
    assert "AN3-5A" not in " ".join(lines(wanting, *ON))
    shown = " ".join(lines(wanting, "placed", *ON)[2:])
    assert shown == "1 2 of 2 AN3-5A 2026-03-30 ordered Heron M 1, 0.42 2026-03-20 EUR each"
    told = wanting("to-order", "answered", "1", "--promised", "2026-04-02", "--latest",
                   "2026-04-05", "--words", "by sea", *ON)  # fmt: skip
    assert told.out == "order 1 of Heron (M 1): answered, promised for 2026-04-02\n"
    assert lines(wanting, "placed", "--overdue", *ON) == ["nothing is overdue"]
    late = wanting("to-order", "placed", "--overdue", "--check", "--on", "2026-04-06")
    assert (late.code, "OVERDUE" in late.out) == (Exit.FINDINGS, True)
    told = wanting("to-order", "came", "1", "1", "--to", "C", "--lot", "H 7")
    assert told.out == "1 x AN3-5A lot H 7: bought -> bin C\norder 1: 1 still to come\n"
    told = wanting("to-order", "cancelled", "1", "--words", "no longer made")
    assert told.out == "order 1 of Heron (M 1): cancelled, promised for 2026-04-02\n"
    assert (
        wanting("to-order", "placed", "--json").content[0]["purchase"]["events"][1]["pieces"] == 1
    )
    told = wanting("to-order", "came", "1", "1", "--to", "C")
    assert (told.code, "order 1 is settled" in told.err) == (Exit.REFUSED, True)


def test_the_whole_list_of_a_supplier_is_placed_at_once(wanting: Typist) -> None:
    told = wanting("to-order", "place", "--all", "--from", "curlew slip kit works", *ON)
    assert told.out.splitlines() == [
        "order 1: 2 x AN3-5A",
        "order 2: 1 x T2-ANGLE",
        "order 3: 1 x T2-RIB RIGHT",
    ]
    assert lines(wanting, *ON) == ["nothing is to be ordered"]
    told = wanting("to-order", "came", "3", "1", "--to", "B")
    assert told.out.endswith("order 3 is complete\n")


def test_minimums_are_kept_and_shown(wanting: Typist) -> None:
    assert lines(wanting, "minimum") == ["no minimum is kept"]
    assert lines(wanting, "minimum", "an3-5a", "4") == ["AN3-5A: 4 should be left"]
    assert lines(wanting, "minimum")[2] == "AN3-5A 4"
    assert wanting("to-order", "minimum", "--json").content == {"AN3-5A": 4}
    assert "4 AN3-5A below the minimum" in lines(wanting, *ON)
    assert lines(wanting, "minimum", "AN3-5A", "0") == ["AN3-5A: no minimum"]


def test_the_list_is_printed_and_tabled(wanting: Typist) -> None:
    for name, begins in (
        ("o.pdf", b"%PDF-"),
        ("o.xlsx", b"PK"),
        ("o.csv", b"\xef\xbb\xbfSupplier"),
    ):
        path = wanting.folder / name
        told = wanting("to-order", "-o", str(path))
        assert (told.code, told.out, told.err) == (Exit.DONE, "", f"written: {path}\n")
        assert path.read_bytes().startswith(begins)


@pytest.mark.parametrize(
    ("words", "error"),
    [
        (("-o", "list.doc"), "isn't written as .doc"),
        (("place",), "what was ordered?"),
        (("place", "--all", "--from", "Nobody"), "nothing is to be ordered from Nobody"),
        (("place", "AN3-5A", "2", "--price", "12,50"), "can't be read as a price"),
        (("answered", "7"), "there is no order 7"),
        (("offer", "AN3-5A"), "whose offer is it?"),
    ],
)
def test_what_makes_no_sense_is_refused(
    wanting: Typist, words: tuple[str, ...], error: str
) -> None:
    told = wanting("to-order", *words)
    assert (told.code, error in told.err) == (Exit.REFUSED, True)


def test_nothing_is_placed_before_anything_is_ordered(small: Typist) -> None:
    assert lines(small, "placed") == ["no order is recorded"]
