from __future__ import annotations

import datetime as dt
import json

import pytest

from inventory.core.items import Hand
from inventory.core.receiving.findings import Addressee, Comparison, Finding, FindingKind
from inventory.core.receiving.reporting import (
    REPLACED,
    Letter,
    LetterDue,
    LetterLine,
    LetterPhoto,
    asked_of,
    code_of,
    content_of,
    letter_from,
    letter_text,
)

LETTER = Letter(
    addressee=Addressee.CARRIER,
    recipient="Tern Freight",
    sender="Ada",
    text="Größe",
    delivered_on=dt.date(2026, 7, 2),
    lines=(LetterLine(kind=FindingKind.DAMAGED, part="P", printed="P", hand=Hand.LEFT, pieces=1),),
    due=(LetterDue(printed="Q", quantity="2"),),
    photos=(LetterPhoto("a" * 64, "jpg", "lid"),),
)


@pytest.mark.parametrize("letter", [LETTER, Letter(addressee=Addressee.SUPPLIER, recipient="C",
                                                   sender="A", text="t")])  # fmt: skip
def test_letter_written_down_is_the_same_letter_again(letter: Letter) -> None:
    assert letter_from(json.loads(json.dumps(content_of(letter)))) == letter


WHAT_SETTLES = {
    FindingKind.PACKAGE_MISSING: "find the package, or settle what was in it",
    FindingKind.WRONG_HAND: "send the hand that is listed; say what to do with the other",
    FindingKind.WRONG_PART: "say what to do with what came",
    FindingKind.DAMAGED: "replace it, or credit it",
    FindingKind.DEFECTIVE: "replace it, or credit it",
    FindingKind.SHORT: "send what is missing",
    FindingKind.EXPIRED: "send stock that is in date",
    FindingKind.WRONG_REVISION: "send the revision listed, or confirm this one in writing",
    FindingKind.SUBSTITUTE: "send the part listed, or confirm this one in writing",
    FindingKind.UNMARKED: "say how to tell it from others",
    FindingKind.PAPERS_MISSING: "send the papers",
    FindingKind.NOT_LISTED: "say what to do with it",
    FindingKind.DUPLICATE: "say what to do with it",
    FindingKind.OVER: "say what to do with it",
    FindingKind.BACK_ORDER: "say what to do",
}


@pytest.mark.parametrize("kind", FindingKind)
def test_a_letter_asks_for_what_settles_the_difference(kind: FindingKind) -> None:
    assert asked_of(Addressee.SUPPLIER, kind) == WHAT_SETTLES[kind]
    of_carrier = {
        FindingKind.DAMAGED: "inspect it where it lies, and settle the damage",
        FindingKind.SHORT: "look for it, and settle the loss",
    }
    assert asked_of(Addressee.CARRIER, kind) == of_carrier.get(kind, WHAT_SETTLES[kind])


def test_letters_begin_with_what_was_done_and_end_with_what_is_to_be_answered() -> None:
    counted, answer = letter_text(Addressee.SUPPLIER).split("\n\n")
    assert counted.startswith("We counted this delivery against your packing list.")
    assert answer == "Please answer in writing and name the number of this report."
    came, confirm = letter_text(Addressee.CARRIER).split("\n\n")
    assert came.startswith("This delivery came with the loss or damage listed below;")
    assert confirm == (
        "Please confirm in writing that you have this notice, and name your reference."
    )


def test_carriers_letter_asks_for_an_inspection_and_claims_no_fault_of_the_supplier() -> None:
    assert "inspect them" in letter_text(Addressee.CARRIER)
    assert "not claimed here" in letter_text(Addressee.SUPPLIER)


def test_what_is_over_is_settled_by_no_pieces_sent() -> None:
    assert FindingKind.OVER not in REPLACED
    assert FindingKind.SHORT in REPLACED


def test_code_names_its_list_and_is_empty_where_none_was_read() -> None:
    short = Finding(kind=FindingKind.SHORT, part="P", words="w")
    ordered = Finding(kind=FindingKind.SHORT, comparison=Comparison.LIST_ORDER, part="P", words="w")
    assert code_of(short) == "SF 364 S1"
    assert code_of(ordered) == "SF 364 S2, EDIFACT 4221 CP"
    assert code_of(Finding(kind=FindingKind.WRONG_PART, part="P", words="w")) == ""
