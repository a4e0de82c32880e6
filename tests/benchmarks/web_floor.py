"""The floors of the web: `python -m tests.benchmarks.web_floor bare|alone PORT`.

`bare` answers a document without a database; `alone` does, too, with SQLAlchemy loaded beside it.
"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

import uvicorn
from starlette.applications import Starlette
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

if TYPE_CHECKING:
    from starlette.requests import Request


async def scan(request: Request) -> Response:
    """Answer a document with one."""
    document = await request.json()
    return JSONResponse({"part": document["text"]})


def main() -> None:
    """Serve until stopped."""
    kind, port = sys.argv[1], int(sys.argv[2])
    app = Starlette(routes=[Route("/scan", scan, methods=["POST"])])
    if kind == "alone":
        from sqlalchemy import create_engine, text  # noqa: PLC0415

        with create_engine("sqlite://").connect() as db:
            db.execute(text("SELECT 1"))
    uvicorn.run(app, host="127.0.0.1", port=port, log_level="error", access_log=False)


if __name__ == "__main__":
    main()
