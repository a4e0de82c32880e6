from __future__ import annotations

import tomllib
from pathlib import Path

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

KEPT: dict[str, str] = tomllib.loads(
    (Path(__file__).parents[2] / "cases" / "kept_values.toml").read_text(encoding="utf-8")
)["headings"]
EDIT = "Export a layout and edit that, or take the line out"
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
    lines = layout_text(layout).splitlines()
    head = [line for line in lines if line.startswith("#")]
    assert head == [
        "# How the packing lists of one supplier are read. Below [columns] stands each",
        '# heading with its meaning, as "Still owed" = "back_ordered". It may mean:',
        *(f"#   {meaning:<14} {MEANINGS[meaning]}" for meaning in KEPT),
        "# Below [answers] stand questions that every list of the supplier asks, with the",
        '# answer: "quantity of a pair" = "together".',
    ]
    assert max(map(len, head)) <= 80
    assert lines[len(head) :] == [
        'name = "Curlew Slip"',
        "",
        "[columns]",
        '"QTY RQD" = "ordered"',
        "",
        "[answers]",
        '"unit M" = "metre"',
    ]


@pytest.mark.parametrize(
    ("text", "why", "remedy"),
    [
        ("name = 3", "the layout has no name", 'Give it one: name = "…"'),
        ("", "the layout has no name", 'Give it one: name = "…"'),
        ('name = " "', "the layout has no name", 'Give it one: name = "…"'),
        ('name = "a"\ncolour = 1', "a layout has no 'colour'", EDIT),
        ('name = "a"\ncolumns = 1', "'columns' must be a table of texts", EDIT),
        ('name = "a"\nanswers = 1', "'answers' must be a table of texts", EDIT),
        (
            'name = "a"\n[columns]\n"QTY" = 1',
            "'QTY' in 'columns' must be a text in quotes",
            EDIT,
        ),
        (
            'name = "a"\n[columns]\n"QTY" = "amount"',
            "'QTY' can't mean 'amount'",
            f"Use one of {', '.join(KEPT)}",
        ),
    ],
)
def test_layout_that_cannot_be_used_is_refused_with_words(text: str, why: str, remedy: str) -> None:
    with pytest.raises(InventoryError) as refusal:
        layout_from_text(text)
    assert (refusal.value.what, refusal.value.remedy) == (why, remedy)


def test_text_that_is_no_toml_is_refused_with_its_line() -> None:
    with pytest.raises(InventoryError) as refusal:
        layout_from_text('name = "a"\n= 3')
    assert refusal.value.what.startswith("the layout isn't TOML: ")
    assert "line 2" in refusal.value.what
    assert refusal.value.remedy == EDIT


def test_layout_of_a_name_alone_says_nothing_yet() -> None:
    layout = layout_from_text('name = "Curlew Slip"')
    assert (layout.columns, layout.answers) == ({}, {})


def test_what_a_heading_may_mean_keeps_its_names() -> None:
    """Kept layouts and files of a person's own name them."""
    assert list(MEANINGS.items()) == list(KEPT.items())


def test_only_answers_for_the_whole_list_are_remembered() -> None:
    layout = learned(
        SupplierLayout(name="a", answers={"comma": "decimal"}),
        {"unit M": "metre", "LIST row 14 hand": "left"},
    )
    assert layout.answers == {"comma": "decimal", "unit M": "metre"}
