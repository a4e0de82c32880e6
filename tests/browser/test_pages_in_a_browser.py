from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from playwright.sync_api import expect

from inventory.core.items import Item
from inventory.core.places import Place, PlaceKind
from inventory.jobs.devices import revoke
from inventory.web.serving import utc_now
from tests.browser.scenes import photo, scene
from tests.jobs.shelf import bin_, there
from tests.web.test_pages import PAGES, happen

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

    from tests.browser.conftest import Hand, Served

AXE = Path(__file__).parents[1] / "web/vendor/axe-core/axe.min.js"
ALIKE = (
    ".svg",
    "whole",
    "hand=right",
    "SPAR",
    "H1",
    "blind=1",
    "zzz",
    "10-02",
    "findings",
    "find",
    "state=waits",
)
SEEN = [page for page in PAGES if not page.endswith(ALIKE)]
OPEN_ALL = "for (const each of document.querySelectorAll('details')) each.open = true"
TOO_LARGE_OR_SMALL = """
[...document.querySelectorAll('button, .key, .code, summary, input:not([type=hidden]), .rail a')]
.filter((each) => each.checkVisibility() && !each.closest('.more, label.choice, .keyed')
                  && each.getBoundingClientRect().height < 63.5)
.map((each) => `${each.textContent.trim()} ${each.name ?? ''} is too small`)
.concat(document.documentElement.scrollWidth > innerWidth ? ['the page is too wide'] : [])
"""


def test_code_is_gone_from_the_address_and_works_once(browser: Browser, server: Served) -> None:
    page = browser.new_context().new_page()
    token = server.token()
    for outcome in ("**/T2/", "**/pair"):
        page.context.clear_cookies()
        page.goto("about:blank")
        page.goto(f"{server.origin}/pair#t={token}")
        expect(page.locator("#token")).to_have_value(token)
        assert page.url == f"{server.origin}/pair"
        page.get_by_role("button", name="Pair").click()
        page.wait_for_url(outcome)
    expect(page.get_by_text("NOT PAIRED")).to_be_visible()
    page.context.close()


def test_device_that_was_shut_out_is_shown_the_way_in(hand: Hand, server: Served) -> None:
    revoke(server.bench.store, 1, utc_now())
    server.serving.known.forget()
    expect(hand.open("scan").get_by_text("This device isn't paired")).to_be_visible()


def test_pages_can_be_used_by_everybody_at_every_width(hand: Hand, server: Served) -> None:
    """Axe finds nothing serious; nothing is wider than the screen, no key smaller than a thumb."""
    happen(server.house.phone("tablet"))
    wrong: list[str] = []
    for path in SEEN:
        page = hand.open(path)
        page.evaluate(OPEN_ALL)
        for width in (1280, 768, 360):
            page.set_viewport_size({"width": width, "height": 740})
            wrong += [f"{path} at {width}: {each}" for each in page.evaluate(TOO_LARGE_OR_SMALL)]
        wrong += [f"{path}: {each}" for each in axe(page)]
    assert wrong == []


def test_dark_look_is_readable(hand: Hand, server: Served) -> None:
    happen(server.house.phone("tablet"))
    page = hand.open("scan")
    page.get_by_role("button", name="Dark").click()
    expect(page.locator("html")).to_have_attribute("data-look", "dark")
    page.locator("#text").fill("zzz")
    page.keyboard.press("Enter")
    expect(page.locator("#answer")).to_contain_text("NOT OK")
    wrong = axe(page)
    for path in ("", "crate?crate=1", "step?code=10-01", "plan"):
        wrong += axe(hand.open(path))
    assert wrong == []


def axe(page: Page) -> list[str]:
    page.evaluate(AXE.read_text())
    result: dict[str, Any] = page.evaluate("axe.run({resultTypes: ['violations']})")
    return [
        f"{each['id']} {node['target']} {node['failureSummary']}"
        for each in result["violations"]
        if each["impact"] in {"serious", "critical"}
        for node in each["nodes"]
    ]


def test_counting_left_and_right_by_thumb_leads_to_the_next_row(hand: Hand, server: Served) -> None:
    page = hand.open("count?crate=1")
    for label, times in (("One more LEFT", 2), ("One more RIGHT", 3), ("One less RIGHT", 1)):
        for _ in range(times):
            page.get_by_role("button", name=label).click()
    expect(page.get_by_label("Pieces RIGHT")).to_have_value("2")
    page.get_by_role("button", name="Record and next").click()
    expect(page.get_by_text("2 x RIB-1 LEFT counted in crate 1 OF 2")).to_be_visible()
    expect(page.get_by_role("heading", level=1)).to_have_text("SPAR")
    page.get_by_role("button", name="One more").click()
    page.get_by_role("button", name="Record").click()
    expect(page.get_by_text("1 x SPAR counted in crate 1 OF 2")).to_be_visible()
    assert len(there(server.bench, Place(PlaceKind.CRATE, "1 OF 2"))) == 3


def test_count_that_is_refused_stays_to_be_mended(hand: Hand) -> None:
    page = hand.open("count?crate=1")
    page.get_by_label("Pieces LEFT").fill("2")
    page.get_by_text("Damaged, wrong, another revision").click()
    page.get_by_label("LEFT damaged").fill("3")
    page.get_by_role("button", name="Record and next").click()
    expect(page.locator("#answer")).to_contain_text("NOT RECORDED")
    expect(page.get_by_label("Pieces LEFT")).to_have_value("2")
    page.get_by_label("LEFT damaged").fill("")
    page.get_by_role("button", name="Record and next").click()
    expect(page.get_by_text("2 x RIB-1 LEFT counted in crate 1 OF 2")).to_be_visible()


def test_photograph_is_sent_once_it_is_taken(hand: Hand) -> None:
    page = hand.open("crate?crate=1")
    page.get_by_label("What is seen on it").fill("dented corner")
    page.get_by_label("Take a photograph").set_input_files(
        {"name": "dent.jpg", "mimeType": "image/jpeg", "buffer": photo(scene([]))}
    )
    expect(page.get_by_text("the photograph is kept")).to_be_visible()
    page.get_by_text("dented corner, crate 1 OF 2").click()
    shown = page.get_by_role("img", name="dented corner")
    expect(shown).to_be_visible()
    expect(shown).to_have_js_property("naturalWidth", 1280)


def test_two_who_count_one_pile_at_once_dont_count_it_twice(
    browser: Browser, hand: Hand, server: Served
) -> None:
    from tests.browser.conftest import phone_of  # noqa: PLC0415

    with phone_of(browser, server, "tablet") as other:
        pages = [each.open("count?crate=1&part=SPAR") for each in (hand, other)]
        for page in pages:
            page.get_by_role("button", name="One more").click()
        pages[0].get_by_role("button", name="Record").click()
        expect(pages[0].get_by_text("1 x SPAR counted in crate 1 OF 2")).to_be_visible()
        pages[1].get_by_role("button", name="Record").click()
        expect(pages[1].locator("#answer")).to_contain_text(
            "was counted before by Ana: 1Open the row anew"
        )
    assert there(server.bench, Place(PlaceKind.CRATE, "1 OF 2")) == {Item("SPAR"): 1}


def test_what_another_records_shows_without_loading_anew(hand: Hand, server: Served) -> None:
    page = hand.open("crates")
    page.evaluate("window.sameLoad = true")
    expect(page.get_by_role("link", name="0 of 3 lines counted")).to_be_visible()
    happen(server.house.phone("tablet", "Ben"))
    expect(page.get_by_role("link", name="2 of 3 lines counted")).to_be_visible()
    assert page.evaluate("window.sameLoad") is True


def test_who_counts_where_shows_to_the_others(browser: Browser, hand: Hand, server: Served) -> None:
    from tests.browser.conftest import phone_of  # noqa: PLC0415

    with phone_of(browser, server, "tablet") as other:
        other.open("crate?crate=1")
        expect(hand.open("crates").get_by_text("Ana counts here now")).to_be_visible()


def test_whole_scan_is_done_by_keyboard_alone(hand: Hand, server: Served) -> None:
    page = hand.open("scan")
    for line, words in (("A", "BIN A"), ("SPAR", "SPAR"), ("10-02", "from bin A to step 10-02")):
        page.keyboard.type(line)
        page.keyboard.press("Enter")
        expect(page.locator("#answer")).to_contain_text(words)
        expect(page.locator("#text")).to_be_focused()
    assert there(server.bench, bin_("A"))[Item("SPAR")] == 1
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    expect(page.get_by_role("button", name="UNDO")).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator("#answer")).to_contain_text("UNDONE")


def test_answers_differ_by_word_sign_and_frame(hand: Hand) -> None:
    page = hand.open("scan")
    looks = {}
    for line, word in (("A", "NOTED"), ("10-02", "NOTED"), ("SPAR", "OK"), ("zzz", "NOT OK")):
        page.locator("#text").fill(line)
        page.keyboard.press("Enter")
        expect(page.locator("#answer .word")).to_contain_text(word)
        page.wait_for_timeout(60)
        looks[word] = page.evaluate(
            """(() => { const box = document.querySelector('#answer .verdict');
            const look = getComputedStyle(box);
            return [look.borderTopStyle, look.borderTopWidth,
                    document.querySelector('#answer .word span').textContent]; })()"""
        )
    assert looks == {
        "NOTED": ["solid", "2px", "· "],
        "OK": ["solid", "6px", "✔ "],
        "NOT OK": ["dashed", "8px", "✖ "],
    }
