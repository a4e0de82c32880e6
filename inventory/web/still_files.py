"""Files that come with the package: style, scripts, decoder; and the two that name its version."""

from __future__ import annotations

import json
import mimetypes
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from starlette.responses import Response
from starlette.staticfiles import StaticFiles

from inventory.web.visit import serving_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.types import Scope

FOLDER = Path(__file__).parent / "static"
# The system's own table can be spoilt, and a decoder that is sent as text doesn't start.
KINDS = {".js": "text/javascript", ".wasm": "application/wasm", ".svg": "image/svg+xml"}
MANIFEST = {
    "name": "Kitwright",
    "short_name": "Kitwright",
    "start_url": "/",
    "display": "standalone",
    "background_color": "#f6f4ec",
    "theme_color": "#12161c",
    "icons": [{"src": "/static/mark.svg", "sizes": "any", "type": "image/svg+xml"}],
}


class StillFiles(StaticFiles):
    """Static files that a browser keeps, and asks about each time whether they changed."""

    async def get_response(self, path: str, scope: Scope) -> Response:
        """Return the file, or that it is still the same."""
        response = await super().get_response(path, scope)
        response.headers["Cache-Control"] = "no-cache"
        return response


def still_files() -> StillFiles:
    """Return the folder of static files, each with its right kind."""
    for ending, kind in KINDS.items():
        mimetypes.add_type(kind, ending)
    return StillFiles(directory=FOLDER)


async def manifest(_request: Request) -> Response:
    """Return what a phone asks when the pages are put on its home screen."""
    return Response(json.dumps(MANIFEST), media_type="application/manifest+json")


@cache
def _worker() -> str:
    """Return the script with the list of the files that every page may need."""
    ours = sorted(path.name for path in FOLDER.iterdir() if path.is_file())
    files = json.dumps([f"/static/{name}" for name in ours if name != "worker.js"])
    return f"const FILES = {files};\n" + (FOLDER / "worker.js").read_text(encoding="utf-8")


async def service_worker(request: Request) -> Response:
    """Return the script that keeps pages for offline, under the name of this version."""
    version = json.dumps(serving_of(request).version)
    script = f"const VERSION = {version};\n{_worker()}"
    headers = {"Cache-Control": "no-cache"}
    return Response(script, media_type="text/javascript", headers=headers)
