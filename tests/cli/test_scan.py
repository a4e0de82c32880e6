from __future__ import annotations

import os
import pty
import shutil
import subprocess
import sys
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

import pytest

from inventory.cli.bench.verdict import drawn_verdict, spoken_verdict
from inventory.cli.exits import Exit
from inventory.core.items import Item
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Need, Step
from inventory.core.scanning.scans import TEST_CARD, TEST_CARD_LINES
from inventory.jobs.acts import Bench
from inventory.jobs.bench.scanning import Answer, Verdict
from inventory.jobs.planning.planning import take_in_plan
from inventory.store.opening.database import open_store
from tests.conftest import slip
from tests.jobs.bench.test_scanning import PLAN, new_slip
from tests.jobs.shelf import stocked, taking, there

if TYPE_CHECKING:
    from collections.abc import Iterator

SCAN = (sys.executable, "-m", "inventory", "scan")
STEP = Place(PlaceKind.STEP, "10-02")


LONG = replace(
    PLAN,
    steps=(*PLAN.steps, Step(code="20-01", title="Rivet")),
    needs=(
        *PLAN.needs,
        Need(step="20-01", part="SPAR", quantity=300),
        Need(step="20-01", part="AN3-5A", quantity=300),
    ),
)


@pytest.fixture
def station(sqlite_bench: Bench) -> Bench:
    take_in_plan(sqlite_bench, LONG, slip("plan"))
    stocked(sqlite_bench, new_slip, ("A", taking("AN3-5A", 300)), ("A", taking("SPAR", 300)))
    return sqlite_bench


@pytest.fixture
def station_in_memory(station: Bench) -> Iterator[Bench]:
    """Lay the store on a disk of memory where there is one: 600 durable acts take time."""
    memory = Path("/dev") / "shm"
    with TemporaryDirectory(dir=memory if memory.is_dir() else None) as folder:
        copied = shutil.copy(station.store.address, folder)
        with closing(open_store(str(copied))) as store:
            yield Bench(store, station.kit)


def surroundings(bench: Bench, **more: str) -> dict[str, str]:
    return {**os.environ, "KITWRIGHT_STORE": bench.store.address, "COLUMNS": "80", **more}


def piped(bench: Bench, text: str, *options: str, **more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [*SCAN, *options],
        input=text,
        capture_output=True,
        text=True,
        check=False,
        env=surroundings(bench, **more),
    )


@dataclass(frozen=True)
class Screen:
    """What a terminal showed."""

    shown: bytes
    code: int


def at_terminal(bench: Bench, text: str, **more: str) -> Screen:
    """Type lines into a terminal as a scanner does: all at once, without waiting."""
    ours, theirs = pty.openpty()
    with subprocess.Popen(
        SCAN, stdin=theirs, stdout=theirs, stderr=theirs, env=surroundings(bench, **more)
    ) as running:
        os.close(theirs)
        typing = subprocess.Popen(
            [sys.executable, "-c", "import os, sys; os.write(1, sys.stdin.buffer.read())"],
            stdin=subprocess.PIPE,
            stdout=ours,
        )
        with typing:
            assert typing.stdin is not None
            typing.stdin.write(text.encode() + b"\x04")
            typing.stdin.close()
            shown = b"".join(iter(lambda: _read(ours), b""))
        code = running.wait(30)
    os.close(ours)
    return Screen(shown, code)


def _read(terminal: int) -> bytes:
    try:
        return os.read(terminal, 65536)
    except OSError:  # the other end was closed: the program has ended
        return b""


def test_piped_lines_are_answered_one_by_one_without_prompts(station: Bench) -> None:
    told = piped(station, "10-02\nSPAR\n\nzzz\nZUNDO\n", "--device", "bench")
    assert told.returncode == Exit.DONE
    assert told.stdout == (
        "NOTED: STEP 10-02: every part goes there now.\n"
        "OK: 1 x SPAR from bin A to step 10-02.\n"
        "NOT OK: no part ZZZ is known in this kit. "
        "Compare the number with the part and the packing list.\n"
        "UNDONE: 1 x SPAR from step 10-02 to bin A.\n"
    )
    assert told.stderr == "this session: 1 NOTED, 1 OK, 1 NOT OK, 1 UNDONE\n"


def test_six_hundred_pasted_lines_are_six_hundred_answers(station_in_memory: Bench) -> None:
    text = "20-01\n" + "SPAR\nAN3-5A\n" * 300
    screen = at_terminal(station_in_memory, text, TERM="dumb")
    assert "this session: 1 NOTED, 600 OK" in screen.shown.decode()
    assert there(station_in_memory, Place(PlaceKind.STEP, "20-01")) == {
        Item("SPAR"): 300,
        Item("AN3-5A"): 300,
    }


def test_screen_shows_state_verdict_and_bells(station: Bench) -> None:
    screen = at_terminal(station, "10-02\nSPAR\nzzz\n", TERM="xterm", PYTHONIOENCODING="utf-8")
    shown = screen.shown.decode()
    assert "next: bin or step > " in shown
    assert "step 10-02 - next: part > " in shown
    assert "\x1b[1;97;44m ✔ OK ✔  1 x SPAR from bin A to step 10-02" in shown
    assert "\x1b[1;30;103m ✖ NOT OK ✖  no part ZZZ is known in this kit" in shown
    assert shown.count("\a") == 3
    assert " > \r\nthis session: 1 NOTED, 1 OK, 1 NOT OK" in shown


@pytest.mark.parametrize("calm", [{"NO_COLOR": "1", "TERM": "xterm"}, {"TERM": "dumb"}])
def test_no_escape_is_written_where_colour_isnt_welcome(
    station: Bench, calm: dict[str, str]
) -> None:
    screen = at_terminal(station, "10-02\nSPAR\n", **calm)
    assert b"\x1b" not in screen.shown
    assert b"======" in screen.shown


def test_ascii_terminal_gets_ascii(station: Bench) -> None:
    screen = at_terminal(station, "10-02\nSPAR\nANß\n", TERM="dumb", PYTHONIOENCODING="ascii")
    answers = screen.shown.partition(b"next: bin or step > ")[2]
    assert answers.isascii()  # before it, the terminal echoes what was typed
    assert b"+ OK +" in answers
    assert b"X NOT OK X" in answers


def test_bytes_that_are_no_text_are_answered(station: Bench) -> None:
    told = subprocess.run(
        SCAN, input=b"AN\xdf5\n", capture_output=True, check=False, env=surroundings(station)
    )
    assert told.stdout.startswith(b"NOT OK: U+DCDF is not on our labels")
    assert told.returncode == Exit.DONE


def test_all_that_was_shown_as_ok_survives_a_kill(station: Bench) -> None:
    with subprocess.Popen(
        SCAN, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, env=surroundings(station)
    ) as running:
        assert running.stdin is not None
        assert running.stdout is not None
        running.stdin.write("10-02\nAN3-5A\n")
        running.stdin.flush()
        answers = [running.stdout.readline() for _ in range(2)]
        running.kill()
    assert answers[-1] == "OK: 1 x AN3-5A from bin A to step 10-02.\n"
    assert there(station, STEP) == {Item("AN3-5A"): 1}


def test_ctrl_c_says_that_all_is_stored(station: Bench) -> None:
    with subprocess.Popen(
        SCAN,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env=surroundings(station),
    ) as running:
        assert running.stdin is not None
        assert running.stdout is not None
        running.stdin.write("10-02\n")
        running.stdin.flush()
        running.stdout.readline()
        running.send_signal(2)
        _, err = running.communicate(timeout=20)
    assert running.returncode == Exit.INTERRUPTED
    assert "this session: 1 NOTED" in err
    assert "all that was shown as recorded is stored" in err
    assert "Traceback" not in err


@pytest.mark.parametrize("card", [TEST_CARD, "\n".join(TEST_CARD_LINES)], ids=["one", "three"])
def test_scanner_that_fits(station: Bench, card: str) -> None:
    told = piped(station, card + "\n", "--test")
    assert told.stdout == "every character arrives as it is printed\n"
    assert told.returncode == Exit.DONE


def test_scanner_set_to_german(station: Bench) -> None:
    mangled = TEST_CARD.translate(str.maketrans("YZ-/", "ZYß-"))
    told = piped(station, mangled + "\n", "--test")
    assert told.stdout.splitlines()[:4] == [
        "Z arrives as Y",
        "Y arrives as Z",
        "- arrives as ß",
        "/ arrives as -",
    ]
    assert told.returncode == Exit.FINDINGS


def test_test_card_must_be_scanned_to_its_end(station: Bench) -> None:
    told = piped(station, TEST_CARD_LINES[0] + "\n", "--test")
    assert told.returncode == Exit.REFUSED
    assert "the test card wasn't scanned to its end" in told.stderr


NO = Verdict(Answer.NOT_OK, "this is the RIGHT one, step 10-01 needs LEFT", "Put it back.")


def test_verdict_has_word_sign_frame_and_bells() -> None:
    assert drawn_verdict(NO, 56, colour=False, unicode=True) == (
        "# # # # # # # # # # # # # # # # # # # # # # # # # # # # \n"
        " ✖ NOT OK ✖  this is the RIGHT one, step 10-01 needs\n"
        "   LEFT\n"
        "   Put it back.\n"
        "# # # # # # # # # # # # # # # # # # # # # # # # # # # # \n"
        "\a\a"
    )


def test_frames_and_bells_differ_without_colour() -> None:
    drawn = {
        answer: drawn_verdict(Verdict(answer, "x"), 20, colour=False, unicode=False)
        for answer in Answer
    }
    assert {answer: text[:2] for answer, text in drawn.items()} == {
        "OK": "==",
        "UNDONE": "~~",
        "NOT OK": "# ",
        "QUESTION": "? ",
        "NOTED": ". ",
    }
    assert [text.count("\a") for text in drawn.values()] == [1, 2, 0, 2, 1]


def test_part_number_is_never_cut_by_the_frame() -> None:
    number = "T2-FL-0412-" + "9" * 60
    drawn = drawn_verdict(Verdict(Answer.OK, f"1 x {number}"), 40, colour=True, unicode=True)
    assert number in drawn


def test_escape_sequences_in_a_description_are_shown_not_obeyed() -> None:
    verdict = Verdict(Answer.NOTED, "\x1b[2Jrib \u202eleft")
    assert spoken_verdict(verdict) == "NOTED: ⟨U+001B⟩[2Jrib ⟨U+202E⟩left.\n"


def test_question_keeps_its_own_mark() -> None:
    asked = Verdict(Answer.NOT_OK, "LEFT or RIGHT of what?", "Scan the part first.")
    assert spoken_verdict(asked) == "NOT OK: LEFT or RIGHT of what? Scan the part first.\n"
