"""The short way for plain rows gives what the long way gives."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from inventory.sheets.formats.reading import read_book
from inventory.sheets.packing.packing_list import packing_list_of
from inventory.sheets.packing.plain_rows import PlainRows
from tests.sheets.written_lists import read

if TYPE_CHECKING:
    from inventory.core.lists.packing import PackingLine
    from inventory.sheets.packing.row_results import PartRow

ROOT = Path(__file__).parents[3]
LISTS = sorted(
    [
        *(Path(__file__).parents[1] / "samples").iterdir(),
        *ROOT.glob("sample_kits/*/packing_list*.xlsx"),
    ]
)
HEAD = ("ITEM", "PART NUMBER", "DESCRIPTION", "HAND", "ORD", "SHP", "B/O", "U/M", "REV", "REMARKS")
LONE = ("ITEM", "PART NUMBER", "DESCRIPTION", "HAND", "QTY", "", "", "U/M", "REV", "REMARKS")
ROW = st.tuples(
    st.sampled_from(["", "1", "2a"]),
    st.sampled_from(
        [
            *("T2-101", "t2-101", "T2-102-LH", "T2-102-RH", "T2-103-L", "T2-103-R", "T2-104-L"),
            *("AN960-10L", "T2-105 REV B", "T2-O12", "T2-1/T2-2", "00412", "T2-106*", "PRIMER"),
        ]
    ),
    st.sampled_from(
        [
            *("RIB", "RIB, LH", "RIB, RIGHT", "RIB, L&R", "RIB (B/O)", "ANGLE 1 X 1 X 1/8 X 6'"),
            *("SKIN, PORT", "SKIN, STBD", "RIB, L", "KIT, HINGE", ""),
        ]
    ),
    st.sampled_from(["", "LH", "R", "-", "L&R", "EITHER", "BOTH"]),
    st.sampled_from(["2", "4", "0", "AR", "2 ea", "2.5", ""]),
    st.sampled_from(["2", "4", "0", "x", ""]),
    st.sampled_from(["", "0", "2", "x"]),
    st.sampled_from(["", "EA", "pcs", "PR", "FT", "M", "SET"]),
    st.sampled_from(["", "A"]),
    st.sampled_from(["", "FILM ON", "B/O", "2 B/O", "LH", "N/S", "(1 LH, 1 RH)", "see note 1"]),
)


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.name)
def test_samples_read_the_same_either_way(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book = read_book(path)
    short = packing_list_of(book)
    monkeypatch.setattr(PlainRows, "line", lambda _self, _part: None)
    assert packing_list_of(book) == short


@given(st.lists(ROW, min_size=1, max_size=8), st.sampled_from([HEAD, LONE]))
@settings(
    max_examples=250, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_any_rows_read_the_same_either_way(
    monkeypatch: pytest.MonkeyPatch, rows: list[tuple[str, ...]], head: tuple[str, ...]
) -> None:
    short = read(*rows, head=head)
    with monkeypatch.context() as changed:
        changed.setattr(PlainRows, "line", lambda _self, _part: None)
        assert read(*rows, head=head) == short


def test_most_rows_of_a_usual_list_take_the_short_way(monkeypatch: pytest.MonkeyPatch) -> None:
    taken: list[bool] = []
    short_way = PlainRows.line

    def noted(self: PlainRows, part: PartRow) -> PackingLine | None:
        line = short_way(self, part)
        taken.append(line is not None)
        return line

    monkeypatch.setattr(PlainRows, "line", noted)
    packing_list_of(read_book(ROOT / "sample_kits" / "tarn_floats" / "packing_list.xlsx"))
    assert sum(taken) > 0.7 * len(taken)
