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


def test_supplier_and_carrier_are_asked_for_different_things() -> None:
    assert asked_of(Addressee.SUPPLIER, FindingKind.SHORT) == "send what is missing"
    assert "settle the loss" in asked_of(Addressee.CARRIER, FindingKind.SHORT)
    assert asked_of(Addressee.CARRIER, FindingKind.BACK_ORDER) == "say what to do"


def test_carriers_letter_asks_for_an_inspection_and_claims_no_fault_of_the_supplier() -> None:
    assert "inspect them" in letter_text(Addressee.CARRIER)
    assert "not claimed here" in letter_text(Addressee.SUPPLIER)


@pytest.mark.parametrize(
    "kind", [kind for kind in FindingKind if kind is not FindingKind.BACK_ORDER]
)
def test_every_kind_that_is_claimed_asks_for_something(kind: FindingKind) -> None:
    assert asked_of(Addressee.SUPPLIER, kind) != "say what to do"


def test_what_is_over_is_settled_by_no_pieces_sent() -> None:
    assert FindingKind.OVER not in REPLACED
    assert FindingKind.SHORT in REPLACED


def test_code_names_its_list_and_is_empty_where_none_was_read() -> None:
    short = Finding(kind=FindingKind.SHORT, part="P", words="w")
    ordered = Finding(kind=FindingKind.SHORT, comparison=Comparison.LIST_ORDER, part="P", words="w")
    assert code_of(short) == "SF 364 S1"
    assert code_of(ordered) == "SF 364 S2, EDIFACT 4221 CP"
    assert code_of(Finding(kind=FindingKind.WRONG_PART, part="P", words="w")) == ""
