from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.cli.exits import Exit
from inventory.core.planning.largest_set import LargestSet
from inventory.jobs.planning.readiness import Largest

if TYPE_CHECKING:
    from tests.cli.conftest import Typist


def told(small: Typist, *words: str) -> list[str]:
    answer = small(*words)
    assert answer.code == Exit.DONE, answer.err
    assert max(map(len, answer.out.splitlines()), default=0) <= 80
    return [" ".join(line.split()) for line in answer.out.splitlines()]


def test_one_step_tells_what_can_be_done_of_it(small: Typist) -> None:
    lines = told(small, "ready", "10-03")
    assert lines[:2] == ["step 10-03 Close", "can be begun"]
    assert lines[lines.index("can't be done:") + 3] == "AN3-5A 6 2 bolt"
    assert "can be done of it now:" not in lines
    lines = told(small, "ready", "10-02")
    assert "must be done first: 10-01" in lines
    assert lines[lines.index("can be done of it now:") + 3] == "T2-SPAR 1 S1 4 spar, front"
    assert small("ready", "10-02", "--json").content["readiness"] == "waits"


def test_a_started_step_and_missing_preparation_are_told(small: Typist) -> None:
    small("step", "start", "10-03")
    small("bin", "put", "T2-SKIN", "1", "--from", "opening", "--to", "A")
    small("bin", "put", "AN3-5A", "2", "--from", "opening", "--to", "C")
    lines = told(small, "ready", "10-03")
    assert lines[1] == "to be prepared (started)"
    assert lines[lines.index("to be prepared:") + 3] == "T2-SKIN 1 skin"
    assert "10-03 to be prepared Close not prepared: T2-SKIN; started" in told(small, "ready")


def test_three_answers_are_kept_apart(small: Typist) -> None:
    small("bin", "put", "T2-RIB", "1", "--from", "opening", "--to", "B", "--hand", "right")
    small("bin", "put", "T2-SKIN", "1", "--from", "opening", "--to", "A")
    small("bin", "put", "T2-ANGLE", "1", "--from", "opening", "--to", "RACK")
    # Of 12 bolts 10-02 takes 8 and 10-03 takes 6: both together can't be finished.
    assert told(small, "ready", "--largest")[:5] == [
        "Three different answers, not to be mixed:",
        "in build order, earlier steps holding theirs: 3 steps",
        "each alone, if no other took anything: 4 steps",
        "finished together, the largest set found: 3 steps",
        "Proved: no set is larger.",
    ]
    assert small("ready", "--largest", "--json").content["together"]["worth"] == 3


def test_bounds_are_told_where_the_largest_set_is_not_proved(
    small: Typist, monkeypatch: pytest.MonkeyPatch
) -> None:
    found = LargestSet(steps=("10-01",), worth=1, at_most=3, in_order=("10-01",))
    monkeypatch.setattr(
        "inventory.jobs.planning.readiness.largest",
        lambda _bench: Largest(found, (), {"10-01": "Spar"}),
    )
    lines = told(small, "ready", "--largest")
    assert lines[4] == "Not proved best: at least 1, at most 3."
    assert lines[-1] == "10-01 yes Spar"


def test_missing_parts_are_ranked_by_what_they_free(small: Typist) -> None:
    lines = told(small, "ready", "--frees")
    assert lines[2:] == [
        "1 1 x T2-RIB RIGHT 2 10-01, 10-02",
        "2 1 x T2-ANGLE 75 mm 1 10-04",
        "3 2 x AN3-5A; 1 x T2-SKIN 1 10-03",
    ]
    assert len(small("ready", "--frees", "--json").content) == 3


def test_steps_begin_when_what_they_wait_for_is_promised(small: Typist) -> None:
    small("bin", "put", "AN3-5A", "2", "--from", "opening", "--to", "C")
    lines = told(small, "ready", "--forecast", "--on", "2026-03-20")
    assert lines[2:] == [
        "10-01 no date T2-RIB RIGHT",
        "10-02 no date step 10-01",
        "10-03 no date T2-SKIN",
        "10-04 no date T2-ANGLE",
    ]
    small("bin", "put", "T2-RIB", "1", "--from", "opening", "--to", "B", "--hand", "right")
    lines = told(small, "ready", "--forecast", "--on", "2026-03-20")
    # 10-01 takes 2 days, 10-02 one: nobody waits for the rest, which has no date.
    assert lines[2:4] == [
        "10-01 2026-03-20 2026-03-22 0",
        "10-02 2026-03-22 2026-03-23 0 step 10-01",
    ]
    assert small("ready", "--forecast", "--json").content["promised"][0]["step"]["code"] == "10-01"


def test_promised_dates_ranges_and_slips_move_the_start(small: Typist) -> None:
    small("bin", "put", "AN3-5A", "2", "--from", "opening", "--to", "C")
    day = ("--on", "2026-03-20")
    words = ("T2-SKIN", "2026-12-10", "--latest", "2026-12-20")
    assert small("claims", "promised", *words, *day).code == Exit.DONE
    # Three days of work from the promised day on; each row of --slip tells was and now.
    assert told(small, "ready", "--forecast", *day)[4] == "10-03 2026-12-10 2026-12-13 0 T2-SKIN"
    late = told(small, "ready", "--forecast", "--late", *day)
    assert late[4] == "10-03 2026-12-20 2026-12-23 0 T2-SKIN"
    slipped = "10-03 2026-12-10 2026-12-24"
    assert told(small, "ready", "--forecast", "--slip", "14", *day)[2:] == [slipped]
    assert told(small, "ready", "--slip", "14", "--source", "B/O", *day)[2:] == [slipped]


def test_a_slip_that_moves_nothing_says_so(small: Typist) -> None:
    assert told(small, "ready", "--forecast", "--slip", "14") == [
        "deliveries 14 days later move no step"
    ]
    assert told(small, "ready", "--slip", "3", "--source", "back-order") == [
        "deliveries 3 days later move no step"
    ]


@pytest.mark.parametrize(
    ("words", "error"),
    [
        (("--largest", "--frees"), "these are different questions"),
        (("10-01", "--forecast"), "these are different questions"),
        (("--source", "x"), ""),
        (("--forecast", "--slip", "-1"), "by how many days"),
        (("--forecast", "--source", "x"), "by how many days"),
        (("--slip", "2", "--source", "ship 9"), "no delivery still to come is named 'ship 9'"),
        (("99-01",), "no step '99-01'"),
    ],
)
def test_questions_that_make_no_sense_are_refused(
    small: Typist, words: tuple[str, ...], error: str
) -> None:
    answer = small("ready", *words)
    assert (answer.code == Exit.REFUSED, error in answer.err) == (bool(error), True)


def test_what_if_tells_what_goes_short_and_what_is_freed(small: Typist) -> None:
    assert told(small, "what-if", "AN3-5A", "--used", "5")[0:5] == [
        "if 5 x AN3-5A are used:",
        "step part number hand short now then description",
        "----- ----------- ---- --------- ---- -----------",
        "10-02 AN3-5A 0 1 bolt",
        "10-03 AN3-5A 2 6 bolt",
    ]
    lines = told(small, "what-if", "T2-RIB", "--came", "1", "--hand", "right")
    assert lines[-1] == "ready then: 10-01"
    small("bin", "put", "T2-RIB", "1", "--from", "opening", "--to", "B", "--hand", "right")
    lines = told(small, "what-if", "T2-RIB", "--used", "1", "--hand", "left")
    assert lines[-3:] == [
        "no longer ready: 10-01",
        "to be got again: 1 x T2-RIB LEFT",
        "can't be finished without: 10-01, 10-02",
    ]
    assert told(small, "what-if", "T2-RIB", "--came", "3", "--hand", "left") == [
        "if 3 x T2-RIB LEFT come:",
        "no step lacks more or less than now",
    ]
    assert small("what-if", "AN3-5A", "--used", "2", "--json").content["pieces"] == -2


@pytest.mark.parametrize(
    ("words", "error"),
    [
        (("AN3-5A",), "either some are used, or some come"),
        (("AN3-5A", "--used", "0"), "how many come, or are used"),
        (("AN3-5A", "--used", "13"), "12 of AN3-5A without a hand lie in the bins"),
        (("AN3-5A", "--used", "1", "--came", "1"), "either some are used, or some come"),
        (("T2-RIB", "--used", "1"), "several kinds of T2-RIB lie in the bins"),
        (("T2-NONE", "--used", "1"), "no part T2-NONE is known"),
    ],
)
def test_what_if_wants_one_kind_and_one_number(
    small: Typist, words: tuple[str, ...], error: str
) -> None:
    answer = small("what-if", *words)
    assert (answer.code, error in answer.err) == (Exit.REFUSED, True)


def test_left_over_tells_spare_from_forgotten(small: Typist) -> None:
    assert told(small, "left-over") == ["some step takes everything that lies in the bins"]
    small("bin", "put", "AN3-5A", "5", "--from", "opening", "--to", "A")
    small("bin", "put", "T2-CLEAT", "2", "--from", "opening", "--to", "C")
    assert told(small, "left-over")[2:] == [
        "AN3-5A 3 spare A, C bolt",
        "T2-CLEAT 2 not planned C",
    ]
    assert len(small("left-over", "--json").content) == 2
