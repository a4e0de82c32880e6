"""The whole main job on the rudder kit, against results worked by hand beside it."""

from __future__ import annotations

import csv
import shutil
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from inventory.cli.exits import Exit
from inventory.core.measures.lengths import parse_length

if TYPE_CHECKING:
    from tests.cli.conftest import Typist

KIT = Path(__file__).parents[2] / "sample_kits" / "tarn_rudder"
_HANDS = {"": "none", "LH": "left", "RH": "right", "EITHER": "either"}


def expected(name: str) -> list[dict[str, str]]:
    with (KIT / "expected" / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture
def counted(typed: Typist) -> Typist:
    assert typed("kit", "new", "Tarn T2 rudder", "--code", "T2").code == Exit.DONE
    assert typed("packing-list", "read", str(KIT / "packing_list.xlsx")).code == Exit.DONE
    assert typed("crate", "count", "--file", str(KIT / "counts.csv")).code == Exit.DONE
    for crate in "123":
        assert typed("crate", "close", crate).code == Exit.DONE
    return typed


@pytest.fixture
def stowed(counted: Typist) -> Typist:
    with (KIT / "put_away.csv").open(encoding="utf-8", newline="") as file:
        bins = sorted({row["bin"] for row in csv.DictReader(file)})
    assert counted("bin", "add", *bins).code == Exit.DONE
    assert counted("bin", "put", "--file", str(KIT / "put_away.csv")).code == Exit.DONE
    assert counted("plan", "read", str(KIT / "plan.xlsx")).code == Exit.DONE
    return counted


def test_history_names_crates_lists_and_plans(stowed: Typist) -> None:
    stowed("step", "start", "14-01")
    lines = " ".join(stowed("history", "--all").out.split())
    for words in (
        "packing-list read: packing_list.xlsx",
        "crate closed: 1 OF 3",
        "plan read: plan.xlsx",
        "step start: 14-01",
    ):
        assert words in lines


def test_findings_are_those_worked_by_hand(counted: Typist) -> None:
    told = counted("findings", "--json").content
    found = sorted(
        (
            one["kind"].replace(" due", "").replace(" ", "-"),
            one["crate"],
            one["bag"],
            one["part"],
            one["hand"],
            one["pieces"],
        )
        for one in told
    )
    assert found == sorted(
        (
            row["finding"],
            row["crate"],
            row["bag"],
            row["part number"],
            _HANDS[row["hand"]],
            int(row["pieces"]),
        )
        for row in expected("findings.csv")
    )


def test_what_never_came_is_named_with_whom_it_should_come_from(counted: Typist) -> None:
    missing = ("short", "wrong-hand", "back-order", "package-missing")
    told = counted("findings", "--missing", "--json").content
    assert sorted((one["finding"]["part"], one["finding"]["pieces"]) for one in told) == sorted(
        (row["part number"], int(row["pieces"]))
        for row in expected("findings.csv")
        if row["finding"] in missing
    )
    assert {one["supplier"] for one in told} == {"CURLEW SLIP KIT WORKS"}
    assert counted("findings", "--missing", "--check").code == Exit.FINDINGS


def test_nothing_never_came_before_a_crate_is_closed(listed: Typist) -> None:
    told = listed("findings", "--missing")
    assert "not closed yet" in told.err
    assert "short" not in told.out


def test_short_is_what_was_worked_by_hand(stowed: Typist) -> None:
    def row(one: dict[str, Any]) -> tuple[object, ...]:
        need = one["need"]["need"]
        due = sum(share[1] for share in one["need"]["due"])
        short = one["need"]["short"]
        key = (need["step"], need["part"], need["hand"], need["length"])
        return (*key, need["quantity"], need["quantity"] - short, short, due)

    told = [row(one) for one in stowed("short", "--json").content]
    assert told == [
        (
            row["step"],
            row["part number"],
            _HANDS[row["hand"]],
            parse_length(row["length"]) if row["length"] else 0,
            int(row["needed"]),
            int(row["available"]),
            int(row["short"]),
            int(row["due"]),
        )
        for row in expected("short.csv")
    ]


def test_ready_is_what_was_worked_by_hand(stowed: Typist) -> None:
    told = stowed("ready", "--json").content
    assert [
        (
            one["step"]["code"],
            "yes" if one["readiness"] == "ready" else "no",
            " ".join(one["waits_for"]),
            " ".join(dict.fromkeys(net["need"]["part"] for net in one["short"])),
        )
        for one in told
    ] == [
        (row["step"], row["ready"], row["waits for"], row["short"]) for row in expected("ready.csv")
    ]


def test_rows_are_classed_as_worked_by_hand(typed: Typist) -> None:
    told = typed(
        "packing-list", "read", str(KIT / "packing_list.xlsx"), "--rows", "--dry-run", "--json"
    )
    assert [(one["row"], one["class"]) for one in told.content] == [
        (int(row["row"]), row["class"]) for row in expected("rows.csv")
    ]


def test_dry_run_leaves_the_store_byte_for_byte(counted: Typist) -> None:
    store = counted.folder / "kits.kitwright"
    before = store.read_bytes()
    changed = counted.folder / "other.xlsx"
    shutil.copyfile(KIT / "packing_list.xlsx", changed)
    assert counted("packing-list", "read", str(changed), "--dry-run").code == Exit.DONE
    assert counted("plan", "read", str(KIT / "plan.xlsx"), "--dry-run").code == Exit.DONE
    assert store.read_bytes() == before


def test_same_list_and_plan_twice_change_nothing(stowed: Typist) -> None:
    acts = len(stowed("history", "--json").content)
    again = stowed("packing-list", "read", str(KIT / "packing_list.xlsx"))
    assert (again.code, "done already" in again.err) == (Exit.DONE, True)
    assert "done already" in stowed("plan", "read", str(KIT / "plan.xlsx")).err
    assert len(stowed("history", "--json").content) == acts


def test_pick_says_why_something_lies_in_no_bin(stowed: Typist) -> None:
    said = {step: " ".join(stowed("pick", step).out.split()) for step in ("11-01", "12-01")}
    assert {step: words[words.index("NOT IN") :] for step, words in said.items()} == {
        "11-01": "NOT IN ANY BIN: 6 x 11-1/2 in x T2-ST-0075 (to be cut: kitwright cut plan 11-01)",
        "12-01": "NOT IN ANY BIN: 4 x T2-RU-0433 "
        "(back-order, row 17 of packing list 1 (2 B/O, SHIPMENT 2); 2 to order or claim)",
    }


def test_step_done_uses_up_what_the_step_needs(stowed: Typist) -> None:
    assert stowed("step", "done", "14-01", "--yes").code == Exit.DONE
    states = {one["step"]["code"]: one["readiness"] for one in stowed("ready", "--json").content}
    assert states["14-01"] == "done"
    lying = stowed("where", "T2-RU-0703", "--json").content["lying"]
    assert [(one["place"], one["quantity"]) for one in lying] == [
        ({"kind": "step", "code": "14-01"}, 1),
        ({"kind": "step", "code": "14-01"}, 1),
    ]


def test_papers_are_written(stowed: Typist) -> None:
    folder = stowed.folder
    assert stowed("findings", "-o", str(folder / "f.xlsx"), "--check").code == Exit.FINDINGS
    assert stowed("pick", "14-01", "-o", str(folder / "p.pdf")).code == Exit.DONE
    assert stowed("labels", "bins", "-o", str(folder / "l.pdf"), "--start", "4").code == Exit.DONE
    assert (folder / "f.xlsx").read_bytes()[:2] == b"PK"
    assert {(folder / name).read_bytes()[:5] for name in ("p.pdf", "l.pdf")} == {b"%PDF-"}
    refused = stowed("pick", "14-01", "-o", str(folder / "no" / "p.pdf"))
    assert (refused.code, "can't be written" in refused.err) == (Exit.REFUSED, True)


@pytest.mark.parametrize("kind", ["pdf", "xlsx", "csv"])
def test_bin_map_stock_list_and_step_sheet_are_written(stowed: Typist, kind: str) -> None:
    path = stowed.folder / f"paper.{kind}"
    head = {"pdf": b"%PDF", "xlsx": b"PK\x03\x04", "csv": "\ufeff".encode()}[kind]
    for words in (["bin", "show"], ["bin", "show", "--stock"], ["plan", "show", "12-01"]):
        assert stowed(*words, "-o", str(path)).code == Exit.DONE
        assert path.read_bytes().startswith(head)
    refused = stowed("bin", "show", "-o", str(stowed.folder / "paper.doc"))
    assert (refused.code, "End it in .pdf" in refused.err) == (Exit.REFUSED, True)
