from __future__ import annotations

from dataclasses import replace

import pytest

from inventory.core.receiving.counts import Count
from inventory.core.receiving.findings import (
    Comparison,
    Finding,
    FindingKind,
    OpenCodes,
    finding_of_count,
    finding_of_line,
)
from tests.core.received import LEFT, line

# By the lists themselves: discrepancy codes as printed on US Standard Form 364 (report of
# discrepancy), and UN/EDIFACT data element 4221 (discrepancy nature identification code,
# directories D.97A to D.00A): AC over-shipped, AE delivered but not advised, AF goods delivered
# damaged, BP shipment partial with the balance to follow, CP shipment partial and complete with
# nothing to follow, IS item substituted.
SF364 = {
    "C1": (FindingKind.DAMAGED, Comparison.COUNT_LIST),
    "C2": (FindingKind.EXPIRED, Comparison.COUNT_LIST),
    "D1": (FindingKind.PAPERS_MISSING, Comparison.COUNT_LIST),
    "O1": (FindingKind.OVER, Comparison.COUNT_LIST),
    "O2": (FindingKind.OVER, Comparison.LIST_ORDER),
    "O3": (FindingKind.DUPLICATE, Comparison.COUNT_LIST),
    "Q1": (FindingKind.DEFECTIVE, Comparison.COUNT_LIST),
    "S1": (FindingKind.SHORT, Comparison.COUNT_LIST),
    "S2": (FindingKind.SHORT, Comparison.LIST_ORDER),
    "T1": (FindingKind.UNMARKED, Comparison.COUNT_LIST),
}
EDIFACT = {
    "AC": {
        (FindingKind.OVER, Comparison.COUNT_LIST),
        (FindingKind.OVER, Comparison.LIST_ORDER),
    },
    "AE": {(FindingKind.NOT_LISTED, Comparison.COUNT_LIST)},
    "AF": {(FindingKind.DAMAGED, Comparison.COUNT_LIST)},
    "BP": {(FindingKind.BACK_ORDER, Comparison.LIST_ORDER)},
    "CP": {(FindingKind.SHORT, Comparison.LIST_ORDER)},
    "IS": {(FindingKind.SUBSTITUTE, Comparison.COUNT_LIST)},
}


@pytest.mark.parametrize("comparison", Comparison)
@pytest.mark.parametrize("kind", FindingKind)
def test_difference_has_the_codes_that_the_lists_print_for_it(
    kind: FindingKind, comparison: Comparison
) -> None:
    found = Finding(kind=kind, comparison=comparison, part="P", words="w")
    of_form = [code for code, difference in SF364.items() if difference == (kind, comparison)]
    of_standard = [code for code, these in EDIFACT.items() if (kind, comparison) in these]
    assert found.codes == OpenCodes("".join(of_form), "".join(of_standard))


def test_finding_of_a_count_tells_the_line_and_where_the_pieces_lay() -> None:
    listed = replace(line(bag="A"), printed="T2 FL 0412")
    count = Count(part="T2-FL-0412", hand=LEFT, crate="2", bag="B", pieces_good=3, pieces_damaged=1)
    assert finding_of_count(FindingKind.DAMAGED, count, listed, "words") == Finding(
        kind=FindingKind.DAMAGED, sheet="Floats", row=12, crate="2", bag="B", part="T2-FL-0412",
        printed="T2 FL 0412", description="frame", hand=LEFT, listed=8, counted=4, pieces=4,
        words="words",
    )  # fmt: skip


def test_part_sent_for_another_is_printed_as_it_came() -> None:
    count = Count(part="T2-FL-0500", crate="1", pieces_good=3, instead_of="T2-FL-0412")
    assert finding_of_count(FindingKind.SUBSTITUTE, count, line(), "w").printed == "T2-FL-0500"


def test_finding_of_a_count_that_no_line_lists_says_only_what_was_counted() -> None:
    count = Count(part="T2-RU-9", crate="2", pieces_good=3)
    assert finding_of_count(FindingKind.NOT_LISTED, count, None, "w") == Finding(
        kind=FindingKind.NOT_LISTED, crate="2", part="T2-RU-9", printed="T2-RU-9",
        counted=3, pieces=3, words="w",
    )  # fmt: skip


def test_finding_of_a_line_says_what_is_listed_and_no_pieces_yet() -> None:
    assert finding_of_line(FindingKind.SHORT, line(hand=LEFT, bag="A"), "w") == Finding(
        kind=FindingKind.SHORT, sheet="Floats", row=12, crate="1", bag="A", part="T2-FL-0412",
        printed="T2-FL-0412", description="frame", hand=LEFT, listed=8, words="w",
    )  # fmt: skip
