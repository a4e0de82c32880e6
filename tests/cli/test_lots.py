from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.cli.exits import Exit

if TYPE_CHECKING:
    from tests.cli.conftest import Typist


@pytest.fixture
def stocked(typed: Typist) -> Typist:
    for words in (
        ("kit", "new", "Tarn T2"),
        ("bin", "add", "B"),
        ("bin", "put", "SEALANT", "4", "--from", "bought", "--to", "B", "--lot", "7A"),
    ):
        told = typed(*words)
        assert told.code == Exit.DONE, told.err
    return typed


def test_lot_is_recorded_shown_and_found_expired(stocked: Typist) -> None:
    told = stocked("lot", "record", "SEALANT", "7A", "--made", "2025-01", "--type", "H",
                   "--certificate", "C 12")  # fmt: skip
    # Type I code H: twelve months; from 31 January 2025 to 31 January 2026.
    assert told.out == (
        "SEALANT lot 7A: type I, made 2025-01-31, 12 months; last day of use 2026-01-31, "
        "certificate C 12\n"
    )
    shown = stocked("lot", "show", "--on", "2026-02-01")
    assert "EXPIRED" in shown.out
    assert "4 in bin B" in shown.out
    assert "Past its date" in shown.err
    assert stocked("lot", "show", "--check", "--on", "2026-02-01").code == Exit.FINDINGS
    fresh = stocked("lot", "show", "--check", "--on", "2026-01-31")
    assert (fresh.code, "expires soon" in fresh.out) == (Exit.DONE, True)
    assert stocked("lot", "show", "--json").content["lots"][0]["lot"]["lot"] == "7A"


def test_opened_lot_and_its_extension(stocked: Typist) -> None:
    words = ("--made", "03/25", "--months", "12", "--type", "II")
    assert "no last day" not in stocked("lot", "record", "SEALANT", "7A", *words).out
    told = stocked("lot", "extend", "SEALANT", "7A", "--why", "test strip passed, Ana")
    assert "last day of use 2026-09-30" in told.out
    opened = ("--opened", "2026-02-01", "--open-days", "30", "--failed-test")
    told = stocked("lot", "record", "SEALANT", "7A", *opened)
    assert "opened 2026-02-01, 30 days once opened, failed a test" in told.out
    assert "can't be extended" in stocked("lot", "extend", "SEALANT", "7A", "--why", "w").err


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("--type", "III"), "is no type of shelf life"),
        (("--type", "M", "--months", "6"), "code M means 24 months"),
        (("--expires", "01/02/2026"), "can't be read as a date"),
        (("--made", "2099-01"), "still to come"),
    ],
)
def test_wrong_marks_are_refused(stocked: Typist, words: tuple[str, ...], why: str) -> None:
    told = stocked("lot", "record", "SEALANT", "7A", *words)
    assert (told.code, why in told.err) == (Exit.REFUSED, True)


def test_bulletin_holds_back_and_traces(stocked: Typist) -> None:
    assert stocked("lot", "hold", "7A").code == Exit.REFUSED
    told = stocked("lot", "hold", "7A", "--why", "bulletin 12")
    assert told.out.startswith("held back: 4 x SEALANT lot 7A: bin B -> hold HOLD\n")
    assert "hold HOLD" in stocked("lot", "trace", "7A").out
    again = stocked("lot", "hold", "--part", "SEALANT", "--why", "bulletin 12").out
    assert again.startswith("nothing of it lies in bins or crates\n")
    assert stocked("lot", "trace", "7A", "--json").content["traced"][0]["lies"]["quantity"] == 4
    assert "no lot 9" in stocked("lot", "trace", "9").err


def test_lot_that_only_has_papers_is_traced_to_nothing(stocked: Typist) -> None:
    stocked("lot", "record", "SEALANT", "8")
    assert stocked("lot", "trace", "8").out == "no piece of it is in the record\n"
    assert "nothing" in stocked("lot", "show").out


def test_film_is_put_on_and_taken_off(stocked: Typist) -> None:
    told = stocked("lot", "film", "SEALANT", "--since", "2026-01-10")
    assert told.out == "film is on SEALANT since 2026-01-10\n"
    assert "TAKE IT OFF" in stocked("lot", "show", "--on", "2026-03-14").out
    assert stocked("lot", "show", "--check", "--on", "2026-03-14").code == Exit.FINDINGS
    off = stocked("lot", "film", "SEALANT", "--off")
    assert "mark it before the film goes" in off.err
    assert "film on" not in stocked("lot", "show").out


def test_empty_record_says_so(typed: Typist) -> None:
    typed("kit", "new", "Tarn T2")
    assert typed("lot", "show").out == "no lot is in the record\n"
