from __future__ import annotations

import pytest

from inventory.core.lists.mark_words import NO_MARKS, Marks, read_marks
from inventory.core.lists.packing import ListedHand


@pytest.mark.parametrize(
    "remark",
    ["B/O", "BO", "B.O.", "back order", "Backordered - ship 03/12", "TBS", "to follow", "BKO",
     "follows", "ships later", "will be sent", "out of stock", "next shipment", "BO'd",
     "wird nachgeliefert", "Nachlieferung", "folgt", "reliquat", "à livrer ultérieurement",
     "livré plus tard", "pendiente", "se enviará", "seguirà", "nalevering", "volgt"],
)  # fmt: skip
def test_every_spelling_of_to_follow_is_one(remark: str) -> None:
    assert read_marks(remark).to_follow


@pytest.mark.parametrize(
    "remark",
    ["", "FILM ON", "no B/O", "B/O: 0", "B/O filled", "not back-ordered", "BOX 4", "BOAT",
     "FOLLOWER", "short stiffener"],
)  # fmt: skip
def test_other_remarks_say_nothing_about_delivery(remark: str) -> None:
    assert read_marks(remark) == NO_MARKS


@pytest.mark.parametrize(
    ("remark", "number"),
    [("2 B/O", 2), ("B/O 2", 2), ("B/O: 12", 12), ("3 to follow", 3), ("qty 2 b/o 06-15", 2),
     ("1 pc on back order", 1), ("B/O, balance 4", 4), ("B/O", None), ("B/O 03/12", None),
     ("B/O 12 MAR", None), ("B/O 2, May 3", 2)],
)  # fmt: skip
def test_the_number_to_follow_is_read_where_it_stands(remark: str, number: int | None) -> None:
    assert read_marks(remark).number == number


@pytest.mark.parametrize(
    "remark", ["N/S", "NIS", "not shipped", "CANCELLED", "2 SHORT", "void", "fehlt", "manquant"]
)
def test_words_that_do_not_say_whether_it_follows_stay_unclear(remark: str) -> None:
    marks = read_marks(remark)
    assert marks.unclear
    assert not marks.to_follow


@pytest.mark.parametrize(
    ("remark", "number"),
    [("USE T2-100-3", "T2-100-3"), ("replaced by MS20365-1032A", "MS20365-1032A"),
     ("superseded by T2-2-B", "T2-2-B"), ("use with AN3-5A", ""), ("use 2 per hinge", ""),
     ("sub for AN960-10", ""), ("was AN365-1032A", ""), ("or equiv", "")],
)  # fmt: skip
def test_only_words_for_another_part_sent_name_a_substitute(remark: str, number: str) -> None:
    assert read_marks(remark).replaced_by == number


@pytest.mark.parametrize(
    ("remark", "asked"),
    [("2 LH, B/O", True), ("4 needed, B/O", True), ("B/O", False), ("2 B/O", False),
     ("B/O 03/12", False), ("B/O crate 3", False), ("B/O 3 weeks", False),
     ("B/O T2-100-3", False), ("B/O 12 March", False), ("see note 3", False),
     ("not shipped 2", False)],
)  # fmt: skip
def test_a_number_that_may_count_or_not_is_asked_about(remark: str, *, asked: bool) -> None:
    assert read_marks(remark).how_many is asked


@pytest.mark.parametrize(
    ("remark", "marks"),
    [
        ("B/O", Marks(to_follow=True)),
        ("3 to follow", Marks(to_follow=True, number=3)),
        ("2 LH, B/O", Marks(to_follow=True, hand=ListedHand.LEFT, how_many=True)),
        ("see note 3", Marks(note="3")),
        ("not  shipped", Marks(unclear="NOT SHIPPED")),
        ("USE T2-100-3", Marks(replaced_by="T2-100-3")),
        ("cancelled, RH to follow", Marks(to_follow=True, hand=ListedHand.RIGHT)),
        ("RH cancelled", Marks(unclear="CANCELLED")),
    ],
)
def test_a_remark_says_this_and_no_more(remark: str, marks: Marks) -> None:
    assert read_marks(remark) == marks


def test_the_hand_that_is_to_follow_is_read() -> None:
    assert read_marks("RH B/O").hand is ListedHand.RIGHT
    assert read_marks("1 LH to follow").hand is ListedHand.LEFT


def test_a_note_that_is_pointed_to_is_named() -> None:
    assert read_marks("see note 3").note == "3"
    assert read_marks("note 4").note == "4"
