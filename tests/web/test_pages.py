from __future__ import annotations

import re
import shutil
from contextlib import closing
from html.parser import HTMLParser
from typing import TYPE_CHECKING, Any

import pytest
from sqlalchemy import event

from inventory.core.items import Hand
from inventory.core.lists.packing import PackingList
from inventory.jobs.acts import Bench
from inventory.jobs.bench.putting_away import hold
from inventory.jobs.kits import begin_kit
from inventory.jobs.lists.unpacking import take_in
from inventory.store.opening.database import open_store
from tests.conftest import NOW, slip
from tests.jobs.bench.test_scanning import new_slip
from tests.jobs.conftest import line
from tests.jobs.shelf import bin_, taking
from tests.web.conftest import ask, served, stock

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from tests.web.conftest import House, Phone

PAGES = [
    "",
    "crates",
    "crate?crate=1",
    "crate?crate=1&blind=1",
    "count?crate=1",
    "measure?crate=1",
    "measure?crate=1&length=10in",
    "count?crate=1&part=RIB-1&hand=right",
    "count?crate=2&part=AN3-5A&bag=H1",
    "scan",
    "waiting",
    "find",
    "find?text=rib",
    "find?text=zzz",
    "part?number=RIB-1",
    "bins",
    "bin?name=A",
    "hold",
    "plan",
    "plan?size=whole",
    "plan.svg",
    "step?code=10-01",
    "step?code=10-02",
    "short",
    "plan?state=waits",
    "shipments",
    "shipment?number=1",
    "lots",
    "lot?part=SPAR",
    "cutting",
    "findings",
    "findings?crate=1",
    "history",
    "history?part=SPAR",
]


@pytest.fixture(scope="module")
def busy_phone(migrated_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Phone]:
    """A phone in a house in which something of everything has happened; it only looks."""
    copied = shutil.copy(migrated_file, tmp_path_factory.mktemp("busy") / "store.kitwright")
    with closing(open_store(str(copied))) as store:
        house = served(Bench(store, begin_kit(store, "Tarn T2", "T2", NOW)))
        stock(house)
        phone = house.phone()
        happen(phone)
        hold(house.bench, taking("SPAR", 2, bin_("A")), new_slip("dented"))
        yield phone


def happen(phone: Phone) -> None:
    """Open, count, start, issue and finish."""
    counted = {"left_pieces": "3", "right_pieces": "1", "right_damaged": "1"}
    answers = [
        ask(phone, "record-delivery", slip="it-came-in", supplier="Curlew", packages_counted=2),
        ask(phone, "except-package", slip="it-is-wet", delivery=1, crate="1", words="wet"),
        ask(phone, "record-lot", slip="lot-marked", part="SPAR", lot="H-9", expires="2026-10"),
        ask(phone, "open-crate", slip="opens-it", crate="1"),
        ask(phone, "count-sides", slip="counts-it", crate="1", part="RIB-1", **counted),
        ask(phone, "count", slip="counts-x", crate="1", part="STRAY-1", hand="none", pieces="2"),
        ask(phone, "start-step", slip="starts-it", step="10-01"),
        ask(phone, "issue", slip="issues-it", part="RIB-1", hand="left", pieces=1, step="10-01"),
        ask(phone, "finish-step", slip="finishes", step="10-03"),
    ]
    assert [each.status_code for each in answers] == [200] * 9


class Shape(HTMLParser):
    """Checks that a page's tags close in order, and collects what it refers to."""

    VOID = frozenset({"meta", "link", "input", "br", "hr", "img", "rect", "path", "circle"})

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.links: list[str] = []
        self.ids: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        named = dict(attrs)
        self.links += [value for name in ("href", "src") if (value := named.get(name))]
        self.ids += [value for name, value in attrs if name == "id" and value]
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, _tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.links += [value for name, value in attrs if name in {"href", "src"} and value]

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


@pytest.mark.parametrize("page", PAGES)
def test_page_opens_whole_and_leads_nowhere_else(busy_phone: Phone, page: str) -> None:
    answer = busy_phone.get(f"/T2/{page}")
    assert answer.status_code == 200
    shape = Shape()
    shape.feed(answer.text)
    assert shape.open == []
    assert len(shape.ids) == len(set(shape.ids))
    assert [link for link in shape.links if not link.startswith(("/", "#"))] == []


def test_every_link_of_every_page_opens(busy_phone: Phone) -> None:
    phone = busy_phone
    links: set[str] = set()
    for page in PAGES:
        shape = Shape()
        shape.feed(phone.get(f"/T2/{page}").text)
        links |= {link for link in shape.links if link.startswith("/T2/")}
    wrong = {link: code for link in links if (code := phone.get(link).status_code) >= 400}
    assert wrong == {}


@pytest.mark.parametrize(
    ("page", "words"),
    [
        ("", ["Crates to count", "Steps that can start", "2 kinds of things on hold"]),
        ("crate?crate=1", ["1 over", "1 short", "1 damaged", "STRAY-1", "opened"]),
        ("count?crate=1&part=RIB-1", ["LEFT", "RIGHT", "counted before by Ana", "List: <b>2</b>"]),
        ("part?number=RIB-1", ["bin B", "10-01", "S1", "LEFT", "RIGHT"]),
        ("bin?name=A", ["AN3-5A", "12", "Scrap"]),
        ("hold", ["SPAR", "dented"]),
        ("step?code=10-01", ["and begun", "Rivet the ribs", "RIB-1", "Issued"]),
        ("step?code=10-02", ["Waits for", "Pick list", "In no bin:", "SPAR"]),
        ("short", ["SPAR", "nobody knows", "stops 1 step"]),
        ("findings", ["DAMAGED", "NOT LISTED", "For the"]),
        ("history", ["step start", "Undo", "Ada"]),
        ("find?text=zzz", ["no part ZZZ is known in this kit"]),
        ("plan", ["Bolt the spar", "done", "waits"]),
    ],
)
def test_page_tells(busy_phone: Phone, page: str, words: list[str]) -> None:
    text = " ".join(busy_phone.get(f"/T2/{page}").text.split())
    assert [each for each in words if each not in text] == []


def test_blind_count_shows_no_number_of_the_list(busy_phone: Phone) -> None:
    phone = busy_phone
    crate = phone.get("/T2/crate?crate=1&blind=1").text
    assert " of 2" not in crate.split('id="live-rows"')[1]
    assert "List:" not in phone.get("/T2/count?crate=1&part=RIB-1&blind=1").text
    assert "List:" in phone.get("/T2/count?crate=1&part=RIB-1").text


def test_count_leads_to_the_next_row_nobody_counted(busy_phone: Phone) -> None:
    page = busy_phone.get("/T2/count?crate=1&part=RIB-1").text
    then = re.search(r'name="then" value="([^"]+)"', page)
    assert then is not None
    assert "part=SPAR" in then[1]
    assert "Record and next" in page


def test_crate_counted_to_its_end_offers_to_be_closed(stocked_house: House) -> None:
    phone = stocked_house.phone()
    happen(phone)
    ask(phone, "count", slip="counts-spar", crate="1", part="SPAR", pieces="1")
    answer = phone.get("/T2/count?crate=1")
    assert (answer.status_code, answer.headers["location"]) == (303, "/T2/crate?crate=1%20OF%202")
    assert "Close: counted to its end" in phone.get(answer.headers["location"]).text


@pytest.mark.parametrize(
    ("text", "location"),
    [
        ("SPAR", "/T2/part?number=SPAR"),
        ("b", "/T2/bin?name=B"),
        ("10-02", "/T2/step?code=10-02"),
    ],
)
def test_what_is_named_exactly_is_opened(busy_phone: Phone, text: str, location: str) -> None:
    assert busy_phone.get(f"/T2/find?text={text}").headers["location"] == location


def test_what_is_also_a_piece_of_other_numbers_is_asked(busy_phone: Phone) -> None:
    page = busy_phone.get("/T2/find?text=a").text
    assert 'href="/T2/bin?name=A">Open A' in page
    assert "SPAR" in page


def test_missing_things_are_said_on_a_page(busy_phone: Phone) -> None:
    phone = busy_phone
    for page in ("part?number=NONE", "bin?name=Z", "bin", "step?code=99", "crate?crate=9",
                 "count?crate=1&part=NONE"):  # fmt: skip
        answer = phone.get(f"/T2/{page}")
        assert answer.status_code == 404
        assert "NOT RECORDED" not in answer.text
    assert phone.get("/XX/").status_code == 404


def test_kits_are_chosen_where_there_are_several(house: House) -> None:
    phone = house.phone()
    assert phone.get("/").headers["location"] == "/T2/"
    begin_kit(house.bench.store, "Second", "S2", NOW)
    assert 'href="/S2/"' in phone.get("/").text
    assert "No packing list was read yet" in phone.get("/S2/crates").text


HOSTILE = "<img src=x onerror=alert(1)>\u202e\x1b[2J"


def test_words_of_a_spreadsheet_command_nothing(house: House) -> None:
    lines = (
        line("X<q>1", 2, 2, crate="3 OF 3", description=HOSTILE, remark=HOSTILE, hand=Hand.LEFT),
        line("X<q>2", 3, 2, crate="3 OF 3", description=HOSTILE, bag="<i>"),
    )
    hostile = PackingList(source="<s>.xlsx", sha256="f" * 64, lines=lines)
    take_in(house.bench, hostile, slip("hostile"))
    phone = house.phone("<u>phone", "<u>Ana")
    note = {"note": HOSTILE, "pieces": "1", "part": "X<q>2", "bag": "<i>"}
    ask(phone, "count", slip="hostile-count", crate="3", **note)
    more = ("crate?crate=3", "count?crate=3", "part?number=X%3Cq%3E1", "find?text=<q>")
    for page in (*PAGES, *more):
        text = phone.get(f"/T2/{page}").text
        assert not re.search(r"<(?:img|q>|i>|u>|s>)", text), page
        assert "\u202e" not in text
        assert "\x1b" not in text
    assert "&lt;img src=x onerror=alert(1)&gt;" in phone.get("/T2/crate?crate=3").text
    assert "⟨U+202E⟩" in phone.get("/T2/crate?crate=3").text


def test_pages_hide_nothing_from_who_uses_no_scripts(phone: Phone) -> None:
    page = phone.get("/T2/scan").text
    assert "Read the picture" in page
    assert "Take it" in page
    assert page.count('name="slip"') == 3


def test_today_reads_the_counts_once(stocked_house: House, phone: Phone) -> None:
    said: list[str] = []

    def note(*given: Any) -> None:  # noqa: ANN401 - the event's own arguments
        said.append(" ".join(given[2].split()))

    event.listen(stocked_house.bench.store.engine, "before_cursor_execute", note)
    phone.client.get("/T2/")
    assert sum(" FROM count " in each for each in said) == 1


def test_what_isnt_found_in_a_kit_leads_on_to_its_pages(phone: Phone) -> None:
    page = phone.get("/T2/part?number=NIX")
    assert page.status_code == 404
    assert 'href="/T2/crates"' in page.text
    strange = phone.get("/XX/part?number=NIX")
    assert strange.status_code == 404
    assert 'aria-label="Pages"' not in strange.text
