"""Phones that ask a server without a pause, and how long each answer takes."""

from __future__ import annotations

import asyncio
import json
import re
import time
from itertools import count

from inventory.web.guard import COOKIE
from tests.benchmarks.filled_kit import WORKSHOP, part, step

_keys = count()


class Scans:
    """Scans sent to a server, each under a slip of its own, all to one step."""

    def __init__(self, port: int, secret: str) -> None:
        self.port = port
        self.path = "/api/v1/T2/scan"
        self.head = (
            f"Host: 127.0.0.1\r\nOrigin: http://127.0.0.1:{port}\r\nCookie: {COOKIE}={secret}\r\n"
        )
        self._wanted = [n % WORKSHOP.parts for n in range(0, WORKSHOP.needs, WORKSHOP.steps)]

    def begin(self) -> None:
        """Set the step that all parts go to."""
        lasted = asyncio.run(load(self, 1, 0.0))
        if not lasted:
            raise RuntimeError("the step was not taken")

    def document(self) -> bytes:
        """Return the next scan."""
        number = next(_keys)
        if number == 0:
            return json.dumps({"slip": "scan-00000000", "text": step(0, WORKSHOP)}).encode()
        text = "1P" + part(self._wanted[number % len(self._wanted)])
        slip = f"scan-{number:08}"
        return json.dumps({"slip": slip, "text": text, "after": "scan-00000000"}).encode()

    def check(self, answer: bytes) -> None:
        """Fail where a scan wasn't recorded."""
        if json.loads(answer)["answer"] not in ("OK", "NOTED"):
            raise RuntimeError(answer.decode())


class Echoes:
    """Requests to the floor."""

    path = "/scan"
    head = "Host: 127.0.0.1\r\n"

    def __init__(self, port: int) -> None:
        self.port = port

    def document(self) -> bytes:
        """Return a document of the size of a scan."""
        return b'{"slip": "scan-00000000", "text": "1PT2-FL-00042", "after": "scan-00000000"}'

    def check(self, answer: bytes) -> None:
        """Nothing can be wrong with an echo."""


async def load(asking: Scans | Echoes, clients: int, seconds: float) -> list[float]:
    """Ask from so many connections for so long; return how long each answer took, sorted."""
    until = time.perf_counter() + seconds
    taken = await asyncio.gather(*(client(asking, until) for _ in range(clients)))
    return sorted(each for one in taken for each in one)


async def client(asking: Scans | Echoes, until: float) -> list[float]:
    """Ask over one connection, one request after another."""
    reader, writer = await asyncio.open_connection("127.0.0.1", asking.port)
    taken: list[float] = []
    while True:
        body = asking.document()
        head = f"POST {asking.path} HTTP/1.1\r\n{asking.head}Content-Type: application/json\r\n"
        begun = time.perf_counter()
        writer.write(f"{head}Content-Length: {len(body)}\r\n\r\n".encode() + body)
        answer = await reader.readuntil(b"\r\n\r\n")
        length = re.search(rb"content-length: (\d+)", answer.lower())
        content = await reader.readexactly(int(length[1]) if length else 0)
        taken.append(time.perf_counter() - begun)
        asking.check(content)
        if time.perf_counter() > until:
            writer.close()
            return taken
