"""A served kit: two crates, four steps, a paired phone, and an unpaired stranger."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import timedelta
from itertools import count
from typing import TYPE_CHECKING, Any

import pytest
from starlette.testclient import TestClient

from inventory.core.items import Hand
from inventory.jobs.devices import invitation, pair
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.planning.planning import take_in_plan
from inventory.web.app import make_app
from inventory.web.guard import COOKIE
from inventory.web.serving import Serving
from tests.conftest import NOW, slip
from tests.jobs.bench.test_scanning import new_slip
from tests.jobs.conftest import PACKING_LIST, PLAN
from tests.jobs.shelf import stocked, taking

if TYPE_CHECKING:
    from datetime import datetime

    from httpx2 import Response

    from inventory.jobs.acts import Bench

HOST = "kits.example"
ORIGIN = f"http://{HOST}:8737"
_keys = count(1)


@dataclass
class Clock:
    """The server's clock; a test moves it."""

    at: datetime = NOW

    def __call__(self) -> datetime:
        return self.at

    def later(self, **by: float) -> None:
        self.at += timedelta(**by)


@dataclass
class House:
    """A served store, and ways to knock at its door."""

    bench: Bench
    serving: Serving
    clock: Clock
    told: list[str] = field(default_factory=list)

    @property
    def origin(self) -> str:
        return f"http://{HOST}:{self.serving.port}"

    def client(self, secret: str = "", *, raises: bool = True, **headers: str) -> TestClient:
        client = TestClient(
            make_app(self.serving),
            base_url=self.origin,
            follow_redirects=False,
            headers=headers,
            raise_server_exceptions=raises,
        )
        if secret:
            client.cookies.set(COOKIE, secret)
        return client

    def token(self) -> str:
        return invitation(self.bench.store, self.clock())

    def phone(self, name: str = "phone", person: str = "Ana") -> Phone:
        paired = pair(self.bench.store, self.token(), name, person, self.clock())
        return Phone(self.client(paired.secret, Origin=self.origin), paired.secret)


@dataclass
class Phone:
    """A paired device that looks at pages and sends forms."""

    client: TestClient
    secret: str

    def get(self, path: str) -> Response:
        return self.client.get(path)

    def act(self, name: str, slip: str = "", then: str = "/T2/", **fields: Any) -> Response:  # noqa: ANN401
        form = {**fields, "slip": slip or f"web-slip-{next(_keys)}", "then": then}
        return self.client.post(f"/T2/act/{name}", data=form)


def served(bench: Bench) -> House:
    """Serve a kit with a list of two crates and a plan of three steps."""
    take_in(bench, PACKING_LIST, slip("list"))
    take_in_plan(bench, PLAN, slip("plan"))
    clock = Clock()
    hosts = frozenset({HOST, "127.0.0.1"})
    house = House(bench, Serving(store=bench.store, hosts=hosts, now=clock), clock)
    house.serving.paired = lambda device: house.told.append(device.name)
    return house


def stock(house: House) -> None:
    """Fill two bins."""
    stocked(
        house.bench,
        new_slip,
        ("A", taking("AN3-5A", 12)),
        ("A", taking("SPAR", 2)),
        ("B", taking("RIB-1", 2, hand=Hand.LEFT)),
        ("B", taking("RIB-1", 2, hand=Hand.RIGHT)),
    )


@pytest.fixture
def house(sqlite_bench: Bench) -> House:
    return served(sqlite_bench)


@pytest.fixture
def phone(house: House) -> Phone:
    return house.phone()


@pytest.fixture
def stocked_house(house: House) -> House:
    stock(house)
    return house


def ask(phone: Phone, name: str, slip: str = "document-1", **fields: Any) -> Response:  # noqa: ANN401
    return phone.client.post(f"/api/v1/T2/{name}", json={"slip": slip, **fields})
