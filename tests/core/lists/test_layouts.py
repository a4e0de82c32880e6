from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.errors import InventoryError
from inventory.core.lists.layouts import (
    MEANINGS,
    SupplierLayout,
    layout_from_text,
    layout_text,
    learned,
)

TEXTS = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=12)


@given(
    st.text(st.characters(exclude_categories=["Cs"]), min_size=1).filter(str.strip),
    st.dictionaries(TEXTS, st.sampled_from(sorted(MEANINGS)), max_size=4),
    st.dictionaries(TEXTS, TEXTS, max_size=4),
)
def test_layout_reads_back_the_same(
    name: str, columns: dict[str, str], answers: dict[str, str]
) -> None:
    layout = SupplierLayout(name=name, columns=columns, answers=answers)
    assert layout_from_text(layout_text(layout)) == layout


def test_layout_is_plain_to_read_and_edit() -> None:
    layout = SupplierLayout(
        name="Curlew Slip", columns={"QTY RQD": "ordered"}, answers={"unit M": "metre"}
    )
    assert layout_text(layout).splitlines()[2:] == [
        'name = "Curlew Slip"',
        "",
        "[columns]",
        '"QTY RQD" = "ordered"',
        "",
        "[answers]",
        '"unit M" = "metre"',
    ]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("name = ", "isn't TOML"),
        ("", "has no name"),
        ('name = " "', "has no name"),
        ("name = 3", "has no name"),
        ('name = "a"\ncolour = 1', "has no 'colour'"),
        ('name = "a"\ncolumns = 1', "must be a table"),
        ('name = "a"\n[columns]\n"QTY" = 1', "must be a text"),
        ('name = "a"\n[columns]\n"QTY" = "amount"', "can't mean 'amount'"),
    ],
)
def test_layout_that_cannot_be_used_is_refused_with_words(text: str, why: str) -> None:
    with pytest.raises(InventoryError) as refusal:
        layout_from_text(text)
    assert why in refusal.value.what
    assert refusal.value.remedy


def test_only_answers_for_the_whole_list_are_remembered() -> None:
    layout = learned(
        SupplierLayout(name="a", answers={"comma": "decimal"}),
        {"unit M": "metre", "LIST row 14 hand": "left"},
    )
    assert layout.answers == {"comma": "decimal", "unit M": "metre"}
