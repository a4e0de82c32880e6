"""The lines of an export, written and read."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.errors import InventoryError
from inventory.core.record.export_form import (
    Foot,
    Value,
    foot_line,
    head_line,
    read_foot,
    read_head,
    read_line,
    read_value,
    row_line,
)


def test_lines_read_as_they_are_described() -> None:
    assert head_line(5) == '{"kitwright export":1,"schema":5}'
    assert row_line("tag", {"kit": 1, "code": "½ ✈\n", "item": None, "chain": b"\x00\xff"}) == (
        '{"table":"tag","kit":1,"code":"½ ✈\\n","item":null,"chain":"00ff"}'
    )
    assert foot_line(Foot({"kit": 1}, "ab")) == '{"rows":{"kit":1},"sha256":"ab"}'
    assert foot_line(Foot({}, "ab", "x")) == '{"rows":{},"sha256":"ab","lost":"x"}'


def test_head_and_foot_come_back() -> None:
    assert read_head(head_line(7)) == 7
    for foot in (Foot({"kit": 1}, "ab"), Foot({}, "cd", lost="line: 3 rows")):
        assert read_foot(read_line(foot_line(foot), 9), 9) == foot


@pytest.mark.parametrize(
    "text",
    ["", "{}", "[]", "{", '{"kitwright export":2,"schema":5}', '{"kitwright export":1}',
     '{"kitwright export":1,"schema":true}', '{"kitwright export":1,"schema":"5"}'],
)  # fmt: skip
def test_what_is_no_head_is_refused(text: str) -> None:
    with pytest.raises(InventoryError) as refused:
        read_head(text)
    assert refused.value.where == "line 1 of the export"
    assert refused.value.what in {
        "the line can't be read as JSON",
        "the line is no JSON object",
        "the file isn't an export of form 1",
    }
    assert refused.value.remedy.endswith("Nothing was stored.")


@pytest.mark.parametrize(
    "line",
    [{}, {"rows": []}, {"rows": {}, "sha256": 1}, {"rows": {}, "sha256": "", "lost": 1}],
)
def test_what_is_no_foot_is_refused(line: dict[str, object]) -> None:
    cut = "^the last line is no foot: the file is cut off or was changed$"
    with pytest.raises(InventoryError, match=cut) as refused:
        read_foot(line, 12)
    assert refused.value.where == "line 12 of the export"


@pytest.mark.parametrize(
    ("value", "kind"),
    [(1.0, int), (True, int), ("1", int), (None, int), (1, str), (None, str), ("0g", bytes),
     (1, bytes), ([1], str), ({}, str)],
)  # fmt: skip
def test_a_value_of_another_kind_is_refused(value: object, kind: type[Value]) -> None:
    with pytest.raises(InventoryError, match=r"^quantity holds") as refused:
        read_value(value, kind, 3, "quantity")
    assert refused.value.where == "line 3 of the export"


def test_a_refusal_shows_forty_characters_at_most() -> None:
    with pytest.raises(InventoryError) as refused:
        read_value("x" * 41, int, 3, "quantity")
    assert refused.value.what == f"quantity holds '{'x' * 40}'"
    with pytest.raises(InventoryError) as refused:
        read_value("0g", bytes, 3, "chain")
    assert refused.value.what == "chain holds no hexadecimal digits"


@pytest.mark.parametrize(
    ("text", "what"),
    [("{", "the line can't be read as JSON"), ("[]", "the line is no JSON object")],
)
def test_a_line_that_cannot_be_read_is_named(text: str, what: str) -> None:
    with pytest.raises(InventoryError) as refused:
        read_line(text, 7)
    assert (refused.value.what, refused.value.where) == (what, "line 7 of the export")


row = st.dictionaries(
    st.sampled_from("abcd"), st.one_of(st.integers(), st.text(), st.binary()), min_size=1
)


@given(row)
def test_every_row_comes_back_from_its_line(values: dict[str, Value]) -> None:
    line = read_line(row_line("part", values), 2)
    assert line.pop("table") == "part"
    assert {
        name: read_value(line[name], type(value), 2, name) for name, value in values.items()
    } == values
    assert "\n" not in row_line("part", values)
