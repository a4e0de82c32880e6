"""Each act typed on the command line, and what it answers."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    from tests.cli.conftest import Typist


@pytest.fixture
def stocked(typed: Typist) -> Typist:
    typed("kit", "new", "Tarn T2", "--code", "T2")
    typed("bin", "add", "A", "B", "--shelf", "left wall")
    typed("bin", "put", "AN3-5A", "12", "--from", "opening", "--to", "A")
    return typed


def test_bins_are_shown_with_what_lies_in_them(stocked: Typist) -> None:
    told = stocked("bin", "show", "--all").out.splitlines()
    assert told[2].split() == ["A", "AN3-5A", "12", "left", "wall"]
    assert told[3].split() == ["B", "-", "empty", "0", "left", "wall"]
    assert stocked("bin", "show", "A", "--json").content[0]["lying"][0]["quantity"] == 12


def test_bins_alone_are_shown_on_a_line_each(stocked: Typist) -> None:
    for part in ("T2-RU-0401", "AN960-8", "AN960-416"):
        stocked("bin", "put", part, "2", "--from", "opening", "--to", "A")
    told = stocked("bin", "show")
    lines = [line.split() for line in told.out.splitlines()[2:]]
    assert lines == [
        ["A", "left", "wall", "4", "AN3-5A,", "AN960-416,", "AN960-8,", "and", "1", "more"],
        ["B", "left", "wall", "0", "empty"],
    ]
    assert "kitwright bin show BIN" in told.err


def test_put_wants_to_know_what_from_where_into_which_bin(stocked: Typist) -> None:
    told = stocked("bin", "put", "AN3-5A", "2")
    assert (told.code, "from where into which bin" in told.err) == (Exit.REFUSED, True)


def test_recount_says_the_difference_or_that_the_record_agrees(stocked: Typist) -> None:
    assert "1 x AN3-5A: bin A -> difference" in stocked("bin", "recount", "A", "AN3-5A", "11").out
    assert stocked("bin", "recount", "A", "AN3-5A", "11").out == "the record agrees\n"


def test_hold_and_release_name_the_reason(stocked: Typist) -> None:
    held = stocked("hold", "AN3-5A", "2", "--from", "A", "--why", "rolled thread")
    assert held.out == "2 x AN3-5A: bin A -> hold HOLD\n"
    assert "hold: rolled thread" in " ".join(stocked("history").out.split())
    freed = stocked("release", "AN3-5A", "2", "--to", "B", "--why", "mail of 3 May")
    assert freed.out == "2 x AN3-5A: hold HOLD -> bin B\n"


def test_undo_names_what_it_took_back(stocked: Typist) -> None:
    told = stocked("undo", "--why", "wrong bin")
    assert told.out == "act 2 (bin put) is undone\n  12 x AN3-5A: bin A -> opening\n"
    assert "bin put (UNDONE)" in " ".join(stocked("history").out.split())


def test_history_tells_the_day_that_was_said_and_who(stocked: Typist) -> None:
    stocked("bin", "add", "C", "--on", "2026-01-02", "--by", "Ana", "--device", "bench")
    newest = stocked("history", "--json").content[0]["recorded"]["slip"]
    assert (newest["happened_on"], newest["person"], newest["device"]) == (
        "2026-01-02",
        "Ana",
        "bench",
    )
    assert "Ana (bench)" in stocked("history").out


def test_history_names_what_an_act_without_pieces_was_about(stocked: Typist) -> None:
    stocked("bin", "add", "C-01..C-09")
    stocked("bin", "add", "D", "--on", "2026-01-02")
    stocked("to-order", "place", "AN3-5A", "5", "--from", "Heron")
    stocked("lot", "record", "AN3-5A", "L7")
    told = {row["recorded"]["id"]: row for row in stocked("history", "--json").content}
    assert [told[number]["recorded"]["slip"]["note"] for number in (1, 3, 4)] == [
        "A, B",
        "C-01 to C-09, 9 in all",
        "D",
    ]
    assert [told[number]["about"] for number in (2, 5, 6)] == [[], ["AN3-5A"], ["AN3-5A"]]
    lines = " ".join(stocked("history").out.split())
    assert "bin add: A, B" in lines
    assert "ordered: AN3-5A" in lines


def test_long_history_is_cut_and_says_so(stocked: Typist) -> None:
    for number in range(20):
        stocked("bin", "add", f"X{number}")
    assert "2 older acts: kitwright history --all" in stocked("history").err
    assert stocked("history", "--all").err == ""


def test_scrap_says_to_cut_it(stocked: Typist) -> None:
    told = stocked("scrap", "AN3-5A", "1", "--from", "A", "--why", "bent")
    assert told.out == "1 x AN3-5A: bin A -> scrap\n"
    assert "cut it" in told.err


@pytest.fixture
def planned(stocked: Typist) -> Typist:
    import openpyxl  # noqa: PLC0415

    book = openpyxl.Workbook()
    steps = book.active
    assert steps is not None
    steps.title = "Steps"
    for row in (("Step", "Title", "After"), ("10-01", "Bolt", None), ("10-02", "Close", "10-01")):
        steps.append(row)
    needs = book.create_sheet("Needs")
    for need in (
        ("Step", "Part number", "Quantity", "Drawing sheet", "Find number"),
        ("10-01", "AN3-5A", 8, "S1", 4),
        ("10-02", "AN3-5A", 6, "S2", 1),
    ):
        needs.append(need)
    path = stocked.folder / "plan.xlsx"
    book.save(path)
    assert stocked("plan", "read", str(path)).code == Exit.DONE
    return stocked


def test_issue_and_take_back(planned: Typist) -> None:
    assert planned("issue", "AN3-5A", "8", "--step", "10-01").out == (
        "8 x AN3-5A: bin A -> step 10-01\n"
    )
    over = planned("issue", "AN3-5A", "1", "--step", "10-01", "--from", "A")
    assert (over.code, "would be too many" in over.err) == (Exit.REFUSED, True)
    assert planned("issue", "AN3-5A", "1", "--step", "10-01", "--over").code == Exit.DONE
    back = planned("take-back", "AN3-5A", "1", "--step", "10-01", "--to", "B", "--worked")
    assert back.out.splitlines()[-1] == "1 x AN3-5A worked: made -> bin B"


def test_steps_are_started_done_and_reopened(planned: Typist) -> None:
    assert planned("step", "start", "10-01").out == "step 10-01 is started\n"
    assert "comes after 10-01" in planned("step", "start", "10-02").err
    nobody = planned("step", "done", "10-01")
    assert (nobody.code, "nobody is there to say yes" in nobody.err) == (Exit.REFUSED, True)
    unknown = planned("step", "done", "10-01", "99-99", "--yes")
    assert (unknown.code, unknown.out) == (Exit.REFUSED, "")
    assert "step 10-01 is done" in planned("step", "done", "10-01", "--yes").out
    assert planned("step", "reopen", "10-01").out == "step 10-01 is open again\n"
    assert "built before the record began: 10-01" in (
        planned("step", "done", "10-01", "--built-before").out
    )
    short = planned("step", "done", "10-02", "--yes")
    assert (short.code, "lie in no bin" in short.err) == (Exit.REFUSED, True)
    assert planned("step", "done", "10-02", "--yes", "--even-if-short").code == Exit.DONE


def test_plan_is_shown_and_checked(planned: Typist) -> None:
    assert [line.split()[0] for line in planned("plan", "show").out.splitlines()[2:]] == [
        "10-01",
        "10-02",
    ]
    assert "after 10-01" in planned("plan", "show", "10-02").out
    assert planned("plan", "show", "10-02", "--json").content["needs"][0]["short"] == 2
    assert planned("plan", "check").out == "the plan holds together\n"


def test_short_and_ready_speak_plainly(planned: Typist) -> None:
    told = planned("short", "10-02", "--check")
    assert (told.code, "set aside 8 for 10-01" in " ".join(told.out.split())) == (
        Exit.FINDINGS,
        True,
    )
    assert planned("short", "10-01").out == "nothing is short for step 10-01\n"
    assert "READY" in planned("ready").out
    assert "waits" in planned("ready", "--all").out


def test_where_wants_a_part_number(planned: Typist) -> None:
    assert planned("where", " ").err.splitlines() == [
        "error: no part number is given",
        "try:   Type it as printed on the part.",
    ]


def test_pick_and_where_lead_to_the_plans(planned: Typist) -> None:
    assert "S1 4" in planned("pick", "10-01").out
    assert "NOT IN ANY BIN" not in planned("pick", "10-02").out
    told = planned("where", "AN3-5A").out
    assert [line.split() for line in told.splitlines()[-2:]] == [
        ["10-01", "8", "8", "S1", "4"],
        ["10-02", "6", "4", "S2", "1"],
    ]


def test_kit_show_counts(planned: Typist) -> None:
    assert planned("kit", "show", "--json").content["steps"] == 2
    assert "steps done" in planned("kit", "show").out


def test_labels_name_the_stocks(stocked: Typist) -> None:
    assert "a4-3x7-63.5x38.1" in stocked("labels", "stocks").out
    told = stocked("labels", "bins", "Z", "-o", str(stocked.folder / "l.pdf"))
    assert (told.code, "there is no bin Z" in told.err) == (Exit.REFUSED, True)
