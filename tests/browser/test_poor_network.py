"""What a phone asks for is kept until it is answered, and done once, however poor the network."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from contextlib import contextmanager
from typing import TYPE_CHECKING

import pytest
from playwright.sync_api import expect

from inventory.core.items import Item
from inventory.core.places import Place, PlaceKind
from inventory.jobs.bench.undoing import history
from inventory.jobs.devices import devices, revoke
from inventory.web.serving import utc_now
from tests.browser.conftest import phone_of
from tests.jobs.shelf import there

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, Page, Route

    from inventory.jobs.acts import Bench
    from tests.browser.conftest import Hand, Served

KEPT = """async () => {
  const cache = await caches.open((await caches.keys())[0] ?? "none");
  return Boolean(await cache.match("/T2/waiting") && await cache.match("/T2/scan"));
}"""
STEP = Place(PlaceKind.STEP, "10-02")
BOLT = Item("AN3-5A")


def scan(page: Page, *lines: str) -> None:
    for line in lines:
        page.locator("#text").fill(line)
        page.keyboard.press("Enter")
        expect(page.locator("#text")).to_have_value("")


def answer(page: Page, word: str) -> None:
    expect(page.locator("#answer .word")).to_contain_text(word)


def issues(bench: Bench) -> int:
    return sum(entry.recorded.act == "issue" for entry in history(bench))


def ready_to_issue(hand: Hand) -> Page:
    page = hand.open("scan")
    scan(page, "10-02", "A")
    answer(page, "NOTED")
    expect(page.locator("#set")).to_contain_text("bin A")
    return page


def kept_for_offline(page: Page) -> None:
    """Wait until the page would open without a network."""
    for _ in range(100):
        if page.evaluate(KEPT):
            return
        page.wait_for_timeout(50)
    pytest.fail("the page was never kept for offline")


def until_issued(page: Page, server: Served, acts: int) -> None:
    """Wait for what waited: its number is hidden, too, while a page loads itself anew."""
    for _ in range(100):
        if issues(server.bench) == acts:
            return
        page.wait_for_timeout(100)


def test_scans_wait_offline_and_outlive_a_reload(hand: Hand, server: Served) -> None:
    page = ready_to_issue(hand)
    kept_for_offline(page)
    hand.context.set_offline(True)
    scan(page, "AN3-5A", "SPAR", "AN3-5A")
    answer(page, "WAITING, not checked")
    expect(page.locator("#answer .verdict")).to_have_class("verdict waits")
    expect(page.locator("#waiting")).to_have_text("3 waiting")
    page.reload()
    expect(page.locator("#waiting")).to_have_text("3 waiting")
    assert there(server.bench, STEP) == {}
    hand.context.set_offline(False)
    expect(page.locator("#waiting")).to_be_hidden()
    assert there(server.bench, STEP) == {BOLT: 2, Item("SPAR"): 1}
    assert issues(server.bench) == 3


def test_answer_that_was_lost_twice_is_said_the_third_time(hand: Hand, server: Served) -> None:
    page = ready_to_issue(hand)
    lost: list[int] = []

    def lose(route: Route) -> None:
        reply = route.fetch()
        if len(lost) < 2:
            lost.append(reply.status)
            route.abort()
        else:
            assert reply.json()["again"] is True
            route.fulfill(response=reply)

    page.route("**/api/v1/T2/scan", lose)
    scan(page, "SPAR")
    for _ in range(2):
        answer(page, "WAITING")
        page.evaluate("dispatchEvent(new Event('online'))")  # sooner than after three seconds
        page.wait_for_timeout(150)
    answer(page, "OK")
    assert lost == [200, 200]
    assert issues(server.bench) == 1


def test_refusal_that_comes_later_stays_listed_until_dealt_with(hand: Hand) -> None:
    page = ready_to_issue(hand)
    hand.context.set_offline(True)
    scan(page, "SPAR", "RIB-1", "zzz")
    hand.context.set_offline(False)
    expect(page.locator("#waiting")).to_have_text("2 not accepted")
    page.locator("#waiting").click()
    expect(page.locator("#refused li")).to_have_count(2)
    expect(page.locator("#refused")).to_contain_text("no part ZZZ is known in this kit")
    page.get_by_role("button", name="Dealt with: zzz").click()
    expect(page.locator("#refused li")).to_have_count(1)
    page.reload()
    expect(page.locator("#refused li")).to_have_count(1)


def test_device_that_is_shut_out_keeps_what_waits_and_sends_it_once_paired_again(
    hand: Hand, server: Served
) -> None:
    page = ready_to_issue(hand)
    revoke(server.bench.store, devices(server.bench.store)[0].id, utc_now())
    server.serving.known.forget()
    scan(page, "SPAR")
    answer(page, "PAIR AGAIN")
    assert issues(server.bench) == 0
    page.goto(f"{server.origin}/pair#t={server.token()}")
    page.get_by_role("button", name="Pair").click()
    page.wait_for_url("**/T2/")
    expect(page.locator("#waiting")).to_be_hidden()
    until_issued(page, server, 1)
    assert issues(server.bench) == 1


def test_count_waits_as_well(hand: Hand, server: Served) -> None:
    page = hand.open("count?crate=1&part=SPAR")
    hand.context.set_offline(True)
    page.get_by_role("button", name="One more").click()
    page.get_by_role("button", name="Record and next").click()
    answer(page, "WAITING, not checked")
    hand.context.set_offline(False)
    expect(page.get_by_text("1 x SPAR counted in crate 1 OF 2")).to_be_visible()
    assert there(server.bench, Place(PlaceKind.CRATE, "1 OF 2")) == {Item("SPAR"): 1}


AT_ONCE = """async () => {
  const version = document.body.dataset.version;
  const put = { part: "AN3-5A", pieces: 2, from: "A", to: "B" };
  const body = JSON.stringify({ slip: "twelve-at-once", ...put });
  const headers = { "Content-Type": "application/json", "Kitwright-Version": version };
  const sent = { method: "POST", headers, body };
  const ask = () => fetch("/api/v1/T2/put", sent).then((reply) => reply.json());
  return (await Promise.all(Array.from({ length: 12 }, ask))).map((answer) => answer.again);
}"""


def test_twelve_posts_of_one_key_at_once_are_done_once(hand: Hand, server: Served) -> None:
    page = hand.open("scan")
    assert sorted(page.evaluate(AT_ONCE)) == [False] + [True] * 11
    assert there(server.bench, Place(PlaceKind.BIN, "B"))[BOLT] == 2


@contextmanager
def program(store: str, port: int = 0) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """Run the real command; give it and the address it shows."""
    command = [sys.executable, "-m", "inventory", "--store", store, "serve", "--port", str(port)]
    with subprocess.Popen(
        command,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    ) as running:
        assert running.stdout is not None
        yield running, running.stdout.readline().split()[1]
        running.kill()


def test_server_killed_in_between_loses_nothing_and_doubles_nothing(
    browser: Browser, server: Served
) -> None:
    server.stop()
    store = server.bench.store.address
    with phone_of(browser, server) as hand:
        with program(store) as (running, address):
            page = hand.page
            page.goto(address)
            page.get_by_role("button", name="Pair").click()
            page.wait_for_url("**/T2/")
            page.goto(page.url + "scan")
            scan(page, "10-02", "A", "AN3-5A")
            answer(page, "OK")
            kept_for_offline(page)
            running.send_signal(signal.SIGKILL)
            running.wait()
        scan(page, "SPAR", "AN3-5A", "2", "AN3-5A", "1")
        answer(page, "WAITING, not checked")
        expect(page.locator("#waiting")).to_have_text("5 waiting")  # all are written down by now
        page.reload()
        expect(page.locator("#waiting")).to_have_text("5 waiting")
        port = re.search(r":(\d+)/", page.url)
        assert port is not None
        with program(store, int(port[1])):
            page.evaluate("dispatchEvent(new Event('online'))")
            expect(page.locator("#waiting")).to_be_hidden(timeout=15_000)
            until_issued(page, server, 4)
    assert there(server.bench, STEP) == {BOLT: 4, Item("SPAR"): 1}
    assert issues(server.bench) == 4
