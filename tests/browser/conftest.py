"""A real browser on a real server; nothing that isn't this computer is ever reached."""

from __future__ import annotations

import shutil
import socket
import threading
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

import pytest
import uvicorn
from playwright.sync_api import Error, expect, sync_playwright

from inventory.jobs.acts import Bench
from inventory.jobs.devices import invitation, pair
from inventory.jobs.kits import begin_kit
from inventory.store.opening.database import open_store
from inventory.web.app import make_app
from inventory.web.guard import COOKIE
from inventory.web.serving import Serving, utc_now
from tests.conftest import NOW
from tests.programs import require_program
from tests.web.conftest import HOST, House, served, stock

if TYPE_CHECKING:
    from collections.abc import Iterator

    from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, Playwright, Route

PHONE = {"width": 360, "height": 740}
FLAGS = (
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync"),
    *("--disable-background-networking", "--disable-component-update"),
    "--host-resolver-rules=MAP bench.example 127.0.0.1",
)
expect.set_options(timeout=15_000)  # a slow machine is no failure; what fails, fails slowly

NO_FAULTS = ("Failed to load resource", "An unknown error occurred when fetching the script")
"""What the browser itself says of a server that refuses, or isn't there."""
NAMES = frozenset({"127.0.0.1", "bench.example", HOST})


@dataclass
class Served:
    """A server that runs in this test, on a port of its own."""

    bench: Bench
    serving: Serving
    house: House
    _server: uvicorn.Server | None = None
    _thread: threading.Thread | None = None

    @property
    def origin(self) -> str:
        return f"{self.serving.scheme}://127.0.0.1:{self.serving.port}"

    def token(self) -> str:
        return invitation(self.bench.store, utc_now())

    def start(self, keys: Path | None = None) -> None:
        listening = socket.socket()
        listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        listening.bind(("127.0.0.1", self.serving.port))
        self.serving.port = listening.getsockname()[1]
        config = uvicorn.Config(
            make_app(self.serving),
            log_level="error",
            ssl_certfile=keys,
            timeout_graceful_shutdown=1,
            lifespan="off",
        )
        self._server = uvicorn.Server(config)
        self.serving.ending = lambda: bool(self._server and self._server.should_exit)
        run = self._server.run
        self._thread = threading.Thread(target=run, kwargs={"sockets": [listening]}, daemon=True)
        self._thread.start()

    def stop(self) -> None:
        if self._server is not None and self._thread is not None:
            self._server.should_exit = True
            self._thread.join(10)
        self._server = self._thread = None


@contextmanager
def served_kit(migrated_file: Path) -> Iterator[Served]:
    """Serve a stocked kit whose store lies on a disk of memory where there is one."""
    memory = Path("/dev") / "shm"
    with TemporaryDirectory(dir=memory if memory.is_dir() else None) as folder:
        copied = shutil.copy(migrated_file, Path(folder) / "store.kitwright")
        with closing(open_store(str(copied))) as store:
            bench = Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))
            house = served(bench)
            stock(house)
            house.serving = Serving(store=store, hosts=NAMES, port=0)
            running = Served(bench, house.serving, house)
            try:
                yield running
            finally:
                running.stop()


@pytest.fixture
def server(migrated_file: Path) -> Iterator[Served]:
    with served_kit(migrated_file) as running:
        running.start()
        yield running


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    with launched(playwright) as started:
        yield started


@contextmanager
def launched(playwright: Playwright, *flags: str) -> Iterator[Browser]:
    """Start the system's own browser."""
    program = require_program("chromium", "chromium-browser")
    started = playwright.chromium.launch(executable_path=program, args=[*FLAGS, *flags])
    yield started
    started.close()


@dataclass
class Watcher:
    """What went wrong on a page without anybody seeing it."""

    faults: list[str] = field(default_factory=list)
    foreign: list[str] = field(default_factory=list)

    def watch(self, context: BrowserContext, page: Page) -> None:
        page.on("console", self._console)
        page.on("pageerror", lambda error: self.faults.append(str(error)))
        page.on("dialog", lambda dialog: self.faults.append(f"dialog {dialog.message}"))
        context.route(lambda url: not _ours(url), self._abort)

    def _console(self, message: ConsoleMessage) -> None:
        if message.type == "error" and not any(word in message.text for word in NO_FAULTS):
            self.faults.append(message.text)

    def _abort(self, route: Route) -> None:
        self.foreign.append(route.request.url)
        route.abort()


def _ours(url: str) -> bool:
    parts = urlsplit(url)
    return parts.scheme in {"data", "blob"} or parts.hostname in NAMES


@dataclass
class Hand:
    """A phone in somebody's hand."""

    page: Page
    context: BrowserContext
    watcher: Watcher
    origin: str

    def open(self, path: str) -> Page:
        self.page.goto(f"{self.origin}/T2/{path}")
        return self.page


@contextmanager
def phone_of(
    browser: Browser, server: Served, name: str = "phone", *, origin: str = "", **more: object
) -> Iterator[Hand]:
    """Give a paired phone, and watch over all its pages until it is put down."""
    context = browser.new_context(viewport=PHONE, **more)  # type: ignore[arg-type]
    context.set_default_timeout(15_000)
    page = context.new_page()
    watcher = Watcher()
    watcher.watch(context, page)
    at = origin or server.origin
    paired = pair(server.bench.store, server.token(), name, "Ana", utc_now())
    context.add_cookies([{"name": COOKIE, "value": paired.secret, "url": at}])
    yield Hand(page, context, watcher, at)
    with suppress(Error):
        context.close()
    assert watcher.faults == []
    assert watcher.foreign == []


@pytest.fixture
def hand(browser: Browser, server: Served) -> Iterator[Hand]:
    with phone_of(browser, server) as paired:
        yield paired
