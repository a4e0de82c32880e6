from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli.exits import Exit
from inventory.cli.why_words import named

if TYPE_CHECKING:
    from tests.cli.conftest import Typist


def told(small: Typist, *words: str) -> list[str]:
    answer = small(*words)
    assert answer.code == Exit.DONE, answer.err
    assert max(map(len, answer.out.splitlines()), default=0) <= 80
    return answer.out.splitlines()


def test_why_leads_down_to_lines_and_movements(small: Typist) -> None:
    small("scrap", "T2-RIB", "1", "--from", "B", "--why", "hole too near the edge", "--by", "Ana")
    lines = told(small, "short", "10-01", "--why")
    assert lines[0] == "T2-RIB RIGHT  rib, nose"
    assert [line.split(maxsplit=1) for line in lines[1:9]] == [
        ["needed", "2; plans S1, 3"],
        ["in", "bins      none"],
        ["short", "2 = 2 needed"],
        ["due", "2: crate 1 OF 1, not counted yet, no date"],
        ["aside", "2 of the other hand LEFT"],
        ["stops", "10-01, 10-02"],
        ["listed", "list 1, List row 3: ordered 2, shipped 2, crate 1 OF 1"],
        ["moved", "act 4, 2026-03-14 Ana: 1 x T2-RIB RIGHT: opening -> bin B"],
    ]
    assert "1 x T2-RIB RIGHT: bin B -> scrap" in lines[9]


def test_why_names_earlier_steps_set_aside_due_and_preparation(small: Typist) -> None:
    lines = [" ".join(line.split()) for line in told(small, "short", "10-03", "--why")]
    assert "before it 10-02 takes 8" in lines
    assert "short 2 = 6 needed - 4 left over for it; this step alone would lack 0" in lines
    assert "due 1: back-order, row 9 of packing list 1 (B/O), no date" in lines
    small("set-aside", "AN3-5A", "8", "--step", "10-02")
    lines = [" ".join(line.split()) for line in told(small, "short", "10-03", "--why")]
    assert "aside 8 set aside for another step 10-02" in lines
    small("bin", "put", "T2-SKIN", "1", "--from", "opening", "--to", "A")
    lines = [" ".join(line.split()) for line in told(small, "short", "10-03", "--why")]
    assert "not prepared 1: primed" in lines


def test_why_shows_what_replaces_a_number_on_paper(small: Typist) -> None:
    path = small.folder / "hardware.toml"
    path.write_text(
        '[[pair]]\nold = "AN3-5A"\nnew = "NAS6203-5"\nkind = "conditional"\n'
        'condition = "ask the plans"\nsource = "our plans, note 3"\nchecked = true\n'
    )
    lines = [" ".join(line.split()) for line in told(small, "short", "10-03", "--why")]
    assert "on paper NAS6203-5: conditional, ask the plans" in lines


def test_why_wants_one_step(small: Typist) -> None:
    assert "of which step?" in small("short", "--why").err
    assert told(small, "short", "10-04", "--why")[0].startswith("T2-ANGLE")
    small("bin", "put", "T2-RIB", "1", "--from", "opening", "--to", "B", "--hand", "right")
    assert told(small, "short", "10-01", "--why") == ["nothing is short for step 10-01"]


def test_a_row_for_each_part_tells_how_many_and_which_step_first(small: Typist) -> None:
    rows = [line.split() for line in told(small, "short", "--parts")[2:]]
    assert rows == [
        ["AN3-5A", "2", "10-03", "bolt"],
        ["T2-ANGLE", "1", "x", "75", "mm", "10-04", "angle", "3/4", "x", "3/4"],
        ["T2-RIB", "RIGHT", "1", "10-01", "rib,", "nose"],
        ["T2-SKIN", "1", "10-03", "skin"],
    ]
    assert [row.split()[0] for row in told(small, "short", "10-03", "--parts")[2:]] == [
        "AN3-5A",
        "T2-SKIN",
    ]
    assert small("short", "--parts", "--json", "--check").code == Exit.FINDINGS


def test_all_answers_agree_on_what_is_short(small: Typist) -> None:
    by_need = small("short", "--json").content
    by_part = small("short", "--parts", "--json").content
    sums: dict[str, int] = {}
    for one in by_need:
        need = one["need"]
        sums[need["need"]["part"]] = sums.get(need["need"]["part"], 0) + need["short"]
    assert {one["part"]: one["short"] for one in by_part} == sums
    why = small("short", "10-03", "--why", "--json").content
    assert [each["net"]["short"] for each in why] == [2, 1]


def test_long_lists_of_steps_are_counted() -> None:
    assert named(("1", "2", "3", "4", "5")) == "1, 2, 3, 4, 5"
    assert named(("1", "2", "3", "4", "5", "6", "7")) == "1, 2, 3, 4, 5 and 2 more"
