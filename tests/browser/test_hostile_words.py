"""Words of a hostile spreadsheet, in a real browser: every page shows them, none obeys them."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import quote

from playwright.sync_api import expect

from inventory.core.items import Hand
from inventory.core.lists.packing import PackingList
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.planning.planning import take_in_plan
from tests.conftest import slip
from tests.jobs.conftest import PLAN, line
from tests.web.conftest import ask
from tests.web.test_pages import HOSTILE, PAGES, happen

if TYPE_CHECKING:
    from tests.browser.conftest import Hand as Phone
    from tests.browser.conftest import Served

NUMBER = "X<img src=/x onerror=alert(2)>1"


def test_no_page_obeys_what_a_spreadsheet_says(hand: Phone, server: Served) -> None:
    """No dialog, no fault in the console, no foreign request: the phone watches all its pages."""
    bench = server.bench
    lines = (
        line(NUMBER, 2, 2, crate="3 OF 3", description=HOSTILE, remark=HOSTILE, hand=Hand.LEFT),
        line("X2", 3, 2, crate="3 OF 3", description=HOSTILE, bag="<script>"),
    )
    take_in(bench, PackingList(source="s.xlsx", sha256="f" * 64, lines=lines), slip("hostile"))
    steps = tuple(type(each)(code=each.code, title=HOSTILE, section=HOSTILE, after=each.after)
                  for each in PLAN.steps)  # fmt: skip
    take_in_plan(bench, type(PLAN)(sha256="9" * 64, steps=steps, needs=PLAN.needs), slip("plan-9"))
    other = server.house.phone("<script>alert(3)</script>", HOSTILE[:40])
    happen(other)
    ask(other, "count", slip="hostile-1", crate="3", part="X2", bag="<script>", pieces="1",
        note=HOSTILE)  # fmt: skip
    ask(other, "add-bins", slip="hostile-2", names="<b>1", shelf=HOSTILE)
    more = ("crate?crate=3", "count?crate=3", f"part?number={quote(NUMBER)}", "find?text=<script>")
    for path in (*PAGES, *more):
        page = hand.open(path)
        assert page.evaluate("document.querySelectorAll('img[onerror], main script').length") == 0
    page = hand.open("crate?crate=3")
    expect(page.get_by_text("onerror=alert(1)").first).to_be_visible()
