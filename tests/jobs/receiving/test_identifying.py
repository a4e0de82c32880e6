from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, ProblemsError
from inventory.core.parts.hardware_grammar import Reading
from inventory.core.receiving.findings import FindingKind
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.receiving.counting import TypedCount, count_typed
from inventory.jobs.receiving.identifying import identify_number
from inventory.jobs.receiving.own_hardware import OwnHardware, own_hardware
from inventory.jobs.receiving.receiving import close_crate, found
from tests.jobs.conftest import line
from tests.jobs.received import a_list

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    Slips = Callable[..., Slip]

NONE = OwnHardware()
OWN = """
[[family]]
name = "boat-shed screw"
begins = "^BS"
pattern = "BS(?P<size>[0-9]+)"
normal = "BS{size}"
item = "screw of the boat shed"
reading = "full"
source = "the shed's own drawer labels"

[[pair]]
old = "BS7"
new = "BS8"
kind = "superseded"
condition = "longer head"
source = "drawer label"
checked = true
"""


def test_number_of_the_kit_is_shown_with_its_lines_and_steps(bench: Bench) -> None:
    # FAA-H-8083-30, chapter 5: AN3 is 3/16 in, dash 5 is 5/8 in, A an undrilled shank.
    told = identify_number(bench, "an3-5a", NONE)
    assert (told.number.item, told.number.reading) == ("hex bolt", Reading.FULL)
    assert [(each.row, each.bag) for each in told.lines] == [(4, "H1")]
    assert [need.step for need in told.needs] == ["10-02", "10-03"]
    assert (told.near, told.part is not None) == ((), True)


def test_number_that_looks_like_one_of_the_kit_is_a_question(bench: Bench) -> None:
    told = identify_number(bench, "RlB-1", NONE)
    assert (told.part, told.lines) == (None, ())
    assert told.near[0] == "RIB-1"


def test_number_alone_is_read_without_a_kit() -> None:
    told = identify_number(None, "MS20470AD4-4", NONE)
    assert told.mass is not None
    assert {each.old for each in told.replacements if each.together} == {"AN470AD4-4"}
    with pytest.raises(InventoryError, match="a number is missing"):
        identify_number(None, "  ", NONE)


def test_own_families_and_rules_come_from_a_file_beside_the_store(
    bench: Bench, tmp_path: Path
) -> None:
    assert own_hardware(bench.store.address) == NONE
    (tmp_path / "hardware.toml").write_text(OWN, encoding="utf-8")
    own = own_hardware(bench.store.address)
    told = identify_number(bench, "BS8", own)
    assert told.number.item == "screw of the boat shed"
    assert [each.old for each in told.replacements] == ["BS7"]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("[[family]\n", "this is no TOML"),
        ("x = 1\n", "there is no [[family]]"),
        ('[[family]]\nname = "x"\n', "begins"),
        ('[[pair]]\nold = "A"\n', "a rule can't be read"),
    ],
)
def test_own_file_with_a_mistake_is_refused_whole(tmp_path: Path, text: str, why: str) -> None:
    path = tmp_path / "mine.toml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(ProblemsError) as refused:
        own_hardware("kits.kitwright", path)
    assert why in str(refused.value.problems[0])


def test_own_file_that_is_no_text_or_too_large_is_refused(tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_bytes(b"\xff\xfe")
    with (tmp_path / "b.toml").open("wb") as file:
        file.truncate(1_000_001)
    for name, why in (("a.toml", "as text"), ("b.toml", "too large"), ("c.toml", "as text")):
        with pytest.raises(InventoryError, match=why):
            own_hardware("kits.kitwright", tmp_path / name)
    assert own_hardware("postgresql://ada@localhost/club") == NONE


def test_superseded_rivets_are_counted_together_and_shown(bench: Bench, slip: Slips) -> None:
    # FAA AC 43.13-1B, 4-57: AN470 and MS20470 rivets are the same by material and size.
    rivets = line("MS20470AD4-4", 9, 100, crate="2 OF 2", bag="H2")
    take_in(bench, a_list(7, rivets), slip())
    old = TypedCount(crate="2", bag="H2", asked=Asked(part="AN470AD4-4"), pieces="100")
    assert count_typed(bench, old, slip()).instead_of == "MS20470AD4-4"
    close_crate(bench, "2", slip())
    of_rivets = [one for one in found(bench, "2") if "470" in one.part]
    assert [one.kind for one in of_rivets] == [FindingKind.SUBSTITUTE]
    assert "listed as MS20470AD4-4" in of_rivets[0].words


def test_unverified_replacement_is_not_counted_together(bench: Bench, slip: Slips) -> None:
    washers = line("AN960-10", 9, 10, crate="2 OF 2", bag="H2")
    take_in(bench, a_list(7, washers), slip())
    new = TypedCount(crate="2", bag="H2", asked=Asked(part="NAS1149F0363P"), pieces="10")
    assert count_typed(bench, new, slip()).instead_of == ""


def test_numbers_that_are_one_part_on_paper_are_named(bench: Bench, slip: Slips) -> None:
    take_in(bench, a_list(7, line("MS20470AD4-4", 9, 100, crate="2 OF 2")), slip())
    told = identify_number(bench, "AN470AD4-4", NONE)
    assert told.same_on_paper == ("MS20470AD4-4",)
