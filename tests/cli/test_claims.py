from __future__ import annotations

from typing import TYPE_CHECKING

import openpyxl
import pytest
from icalendar import Calendar

from inventory.cli.exits import Exit
from inventory.cli.receiving.match_words import match_lines
from inventory.jobs.lists.later_lists import Matching
from tests.cli.rudder_kit import KIT
from tests.cli.test_deliveries import text_of

if TYPE_CHECKING:
    from pathlib import Path

    from tests.cli.conftest import Typist

DELIVERED = ("--carriage", "us-truck", "--delivered", "2026-07-02", "--country", "US")


@pytest.fixture
def counted(rudder_counted: Typist) -> Typist:
    """Return a typist at the rudder kit whose delivery of Thu 2 July 2026 is recorded."""
    typed = rudder_counted
    sides = ("--supplier", "Curlew Slip Kit Works", "--carrier", "Tern Freight", "--window", "30")
    assert typed("delivery", "record", *DELIVERED, *sides, "--list", "1").code == Exit.DONE
    return typed


def report(counted: Typist, side: str, name: str, *words: str) -> Path:
    path = counted.folder / name
    told = counted("claims", "report", side, "-o", str(path), "--on", "2026-07-04", *words)
    assert told.code == Exit.DONE, told.err
    return path


def test_claims_say_whom_to_tell_by_when_with_the_caution(counted: Typist) -> None:
    out = counted("claims", "--on", "2026-07-04").out
    # Worked example: five business days from Thu 2 July 2026 end on Fri 10 July.
    assert out.startswith("CARRIER, delivery 1: 2 findings\n")
    assert "send by Fri 2026-07-10 (6 days left); last day Fri 2026-07-10" in out
    # Thirty calendar days end on Sat 1 August: send by Fri 31 July.
    assert "send by Fri 2026-07-31 (27 days left); last day Sat 2026-08-01" in out
    assert "OVER since 2026-07-02: visible damage" in out
    assert "A reminder, not legal advice." in out
    assert max(map(len, out.splitlines())) <= 80


def test_claim_that_was_told_stands_behind_the_others_and_presses_no_more(counted: Typist) -> None:
    report(counted, "carrier", "r.pdf")
    counted("claims", "sent", "1", "--how", "e-mail", "--on", "2026-07-04")
    out = counted("claims", "--on", "2026-07-04").out
    assert out.startswith("SUPPLIER")
    assert "told; last day for it Fri 2026-07-10" in out
    assert "6 days left" not in out


def test_damage_noted_on_the_receipt_is_not_over(counted: Typist) -> None:
    words = ("lid broken", "--crate", "2", "--harmed", "--on-receipt")
    counted("delivery", "exception", *words)
    out = counted("claims", "--on", "2026-07-04").out
    assert "noted on the receipt, 2026-07-02: crate 2 OF 3: lid broken" in out


def test_day_itself_and_days_too_late_are_said(counted: Typist) -> None:
    assert "(TODAY)" in counted("claims", "--on", "2026-07-10").out
    late = counted("claims", "--on", "2026-08-01").out
    assert "(LATE: send it at once)" in late
    assert "OVER since 2026-07-10: concealed damage" in late


def test_no_country_says_why_dates_are_earlier(counted: Typist) -> None:
    counted("delivery", "record", "1", "--country", "", "--region", "")
    out = " ".join(counted("claims", "--on", "2026-07-04").out.split())
    assert "No holiday calendar is set" in out


def test_findings_without_a_delivery_show_no_period(listed: Typist) -> None:
    typed = listed
    assert "nothing to claim as far as it was counted" in typed("claims").out
    typed("crate", "count", "2", "T2-RU-0401", "1", "--damaged", "1")
    out = typed("claims").out
    assert "no delivery said" in out
    assert "no period can be shown" in out


def test_json_carries_the_caution_and_check_ends_with_4(counted: Typist) -> None:
    told = counted("claims", "--json", "--on", "2026-07-04")
    assert "legal advice" in told.content["caution"]
    assert told.content["claims"][0]["claim"]["days_left"] == 6
    assert counted("claims", "--check").code == Exit.FINDINGS


def test_dates_go_into_a_calendar(counted: Typist) -> None:
    path = counted.folder / "claims.ics"
    date = ("--event", "claim received=2026-07-03")
    counted("delivery", "record", "1", *date)
    counted("claims", "--ics", str(path), "--on", "2026-07-04")
    events = Calendar.from_ical(path.read_bytes()).walk("VEVENT")
    days = {str(each["uid"]).split("@")[0].split("-1-")[1]: str(each.decoded("dtstart"))
            for each in events}  # fmt: skip
    assert days["us-truck-concealed"] == "2026-07-10"
    assert days["supplier-window"] == "2026-07-31"
    assert "us-carrier-answers" in days
    assert all("legal advice" in str(each["description"]) for each in events)


def test_report_is_numbered_and_printed_again_as_it_was(counted: Typist) -> None:
    words = text_of(report(counted, "supplier", "one.pdf", "--to", "Curlew\\nSlipway 1"))
    assert "Discrepancy report 1 of 2026-07-04" in words
    assert "Slipway 1" in words
    assert "On back-order: due, not claimed here" in words
    report(counted, "supplier", "two.pdf")
    assert [each["number"] for each in counted("claims", "reports", "--json").content] == [1]
    counted("claims", "sent", "1", "--how", "e-mail", "--on", "2026-07-05")
    again = counted.folder / "again.pdf"
    assert counted("claims", "print", "1", "-o", str(again)).code == Exit.DONE
    assert "sent, e-mail" in text_of(again)
    assert "Slipway 1" in text_of(again)


def test_letter_is_edited_as_text(counted: Typist) -> None:
    letter = counted.folder / "letter.txt"
    assert counted("claims", "letter", "carrier", "-o", str(letter)).code == Exit.DONE
    assert "ask you to inspect them" in letter.read_text(encoding="utf-8")
    letter.write_text("Guten Tag, Größe ½.", encoding="utf-8")
    words = text_of(report(counted, "carrier", "r.pdf", "--letter", str(letter)))
    assert "Guten Tag, Größe ½." in words
    assert "inspect it where it lies" in words


@pytest.mark.parametrize("content", [b"", b"\xff\xfe\x00", b"x" * 10_001])
def test_letter_that_is_no_text_is_refused(counted: Typist, content: bytes) -> None:
    letter = counted.folder / "letter.txt"
    letter.write_bytes(content)
    told = counted("claims", "report", "carrier", "-o", str(counted.folder / "r.pdf"),
                   "--letter", str(letter))  # fmt: skip
    assert (told.code, "letter" in told.err) == (Exit.REFUSED, True)
    assert not (counted.folder / "r.pdf").exists()


def test_report_as_a_workbook_has_its_lines_and_what_is_due(counted: Typist) -> None:
    book = openpyxl.load_workbook(report(counted, "supplier", "r.xlsx"))
    assert len(book.worksheets) >= 2
    cells = {str(cell.value) for sheet in book for row in sheet.iter_rows() for cell in row}
    assert {"T2-RU-0433", "AN3-5A", "SF 364 S1", "On back-order"} & cells >= {"AN3-5A"}


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("report", "boss", "-o", "r.pdf"), "is no addressee"),
        (("report", "supplier", "-o", "r.doc"), "isn't written as .doc"),
        (("report", "supplier", "-o", "r.pdf", "--delivery", "9"), "nothing to tell"),
        (("print", "9", "-o", "r.pdf"), "there is no report 9"),
        (("sent", "1"), "by which way"),
        (("promised", "T2-RU-0602", "soon"), "is no date"),
        (("promised", "NO-SUCH", "2027-01-01"), "nothing of NO-SUCH"),
    ],
)
def test_wrong_words_are_refused(counted: Typist, words: tuple[str, ...], why: str) -> None:
    told = counted("claims", *words)
    assert (told.code, why in told.err) == (Exit.REFUSED, True)


def test_answer_promise_and_what_is_overdue(counted: Typist) -> None:
    report(counted, "supplier", "r.pdf")
    days = ("--promised", "2026-08-01", "--latest", "2026-08-20", "--on", "2026-07-10")
    told = counted("claims", "answered", "1", "in one box", "--will-send", *days)
    assert "to come: 1 x AN3-5A" in told.out
    promised = counted("claims", "promised", "T2-RU-0602", "2026-09-01", "--on", "2026-07-10")
    assert "2026-09-01" in promised.out
    due = counted("claims", "due", "--on", "2026-08-21").out
    assert due.count("OVERDUE") == 3
    assert "T2-RU-0602" not in counted("claims", "due", "--overdue", "--on", "2026-08-21").out
    assert counted("claims", "due", "--check", "--on", "2026-08-21").code == Exit.FINDINGS
    assert counted("claims", "due", "--check", "--on", "2026-08-20").code == Exit.DONE
    assert "nothing is overdue" in counted("claims", "due", "--overdue", "--on", "2026-07-10").out
    assert len(counted("claims", "due", "--json").content) >= 3


def test_written_refusal_starts_another_clock(counted: Typist) -> None:
    report(counted, "carrier", "r.pdf")
    counted("claims", "answered", "1", "--refused", "--how", "letter", "--on", "2026-07-20")
    assert "2028-07-20" in counted("claims", "--on", "2026-07-21").out


def test_reports_are_a_table_with_what_became_of_them(counted: Typist) -> None:
    report(counted, "supplier", "r.pdf")
    report(counted, "carrier", "c.pdf")
    counted("claims", "sent", "2", "--how", "registered letter", "--on", "2026-07-06")
    out = " ".join(counted("claims", "reports").out.split())
    assert "not sent yet" in out
    assert "2026-07-06 sent, registered letter" in out
    assert len(counted("claims", "reports", "2").out.splitlines()) < len(
        counted("claims", "reports").out.splitlines()
    )
    told = " ".join(counted("claims", "--on", "2026-07-06").out.split())
    assert "report 1 is written, not sent yet" in told
    assert "report 2: 2026-07-06 sent" in told
    counted("crate", "count", "3", "T2-RU-0504", "1", "--more", "--damaged", "1")
    assert "something NEW" in counted("claims", "--on", "2026-07-06").out


def test_later_slip_closes_and_frees(counted: Typist) -> None:
    slip = counted.folder / "slip.csv"
    slip.write_text(
        "PART NUMBER,DESCRIPTION,QTY\nT2-RU-0602,HINGE BRACKET,1\nT2-RU-0434,STIFFENER,1\n"
    )
    assert counted("packing-list", "read", str(slip)).code == Exit.DONE
    counted("plan", "read", str(KIT / "plan.xlsx"))
    dry = counted("delivery", "match", "2", "--dry-run")
    out = " ".join(dry.out.split())
    assert "back-order, row 29 of packing list 1" in out
    assert "nothing open; is it T2-RU-0433?" in out
    assert "Two different parts can be one character apart" in out
    assert "nothing was stored" in dry.err
    told = counted("delivery", "match", "2", "--json").content
    assert [each["pieces"] for each in told["matched"]] == [1]
    again = counted("delivery", "match", "2", "--dry-run").out
    assert "T2-RU-0602" not in again


def test_steps_that_a_parcel_frees_and_helps_are_named() -> None:
    told = list(match_lines(Matching(2, (), (), ("10-03",), ("10-01", "10-02"))))
    assert told == [
        "every line of list 2 was matched before",
        "once it lies in bins, these steps are short no more: 10-03",
        "short of less, yet still short: 10-01, 10-02",
    ]


def test_slip_that_closes_nothing_similar_is_said(counted: Typist) -> None:
    slip = counted.folder / "slip.csv"
    slip.write_text("PART NUMBER,DESCRIPTION,QTY\nQX-99-7,SOMETHING,1\n")
    counted("packing-list", "read", str(slip))
    assert "nothing open: new, or sent twice" in counted("delivery", "match", "2", "--dry-run").out
    assert counted("delivery", "match", "2").code == Exit.REFUSED


def test_pieces_go_back_from_hold(counted: Typist) -> None:
    assert counted("send-back").err == "nothing was sent back\n"
    words = ("--to", "Curlew", "--reference", "RMA-7", "--wanted", "replacement")
    told = counted("send-back", "T2-RU-0502", "1", *words)
    assert told.out == "1 x T2-RU-0502: hold HOLD -> returned\n"
    assert "RMA-7" in counted("send-back").out
    assert counted("send-back", "--json").content[0]["note"]["reference"] == "RMA-7"
    assert "how many go back?" in counted("send-back", "T2-RU-0502").err
    assert "to whom" in counted("send-back", "T2-RU-0433", "1").err


def test_findings_by_line_and_against_the_plan(counted: Typist) -> None:
    lines = counted("findings", "--lines")
    assert "  10     8    2     6    1      0" in lines.out
    tallies = counted("findings", "--lines", "--json").content
    assert {"pieces_good", "pieces_damaged", "pieces_wrong"} <= set(tallies[0]["tally"])
    assert "hold all that the plan needs" in counted("findings", "--plan").out
    counted("plan", "read", str(KIT / "plan.xlsx"))
    found = counted("findings", "--plan", "--json").content
    assert {each["comparison"] for each in found} <= {"listed against the plan"}
