"""From values to a page: one environment for all templates, escaping everything."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from markupsafe import Markup
from starlette.responses import HTMLResponse

from inventory.core.plain import plain
from inventory.jobs.answering import first_answer
from inventory.web.addresses import to
from inventory.web.visit import device_of, new_key, serving_of
from inventory.web.words import FILTERS, lives, quantities

if TYPE_CHECKING:
    from collections.abc import Mapping

    from jinja2 import Environment
    from starlette.requests import Request

    from inventory.web.visit import Visit

DONE = 200
LOOKS = ("", "dark", "light")
LOOK_COOKIE = "look"
MORE_PAGES = (
    ("shipments", "Shipments"),
    ("findings", "Findings"),
    ("bins", "Bins"),
    ("hold", "On hold"),
    ("lots", "Lots"),
    ("short", "Short"),
    ("cutting", "Cutting"),
    ("history", "History"),
)
"""Pages that stand below the five of every day."""


@cache
def environment() -> Environment:
    """Return the templates; every value is escaped, and invisible characters are shown."""
    from jinja2 import Environment, PackageLoader, StrictUndefined  # noqa: PLC0415

    made = Environment(
        loader=PackageLoader("inventory.web"),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_finalized,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters.update(FILTERS)
    made.globals["to"] = to
    made.globals["new_key"] = new_key
    made.globals["more_pages"] = MORE_PAGES
    return made


def _finalized(value: object) -> object:
    if isinstance(value, str) and not isinstance(value, Markup):
        return plain(value)
    return value


def drawing(svg: str) -> Markup:
    """Return a drawing of ours as it may stand in a page; its words are escaped already."""
    return Markup(svg)  # noqa: S704 - made by the drawing functions alone, never sent by anyone


def show(
    request: Request, template: str, /, *, title: str, status: int = 200, **values: object
) -> HTMLResponse:
    """Return a page that belongs to no kit."""
    return _page(request, template, {"title": title, **values}, status)


def show_at(
    request: Request, at: Visit, template: str, /, *, title: str, **values: object
) -> HTMLResponse:
    """Return a page of a kit, with what the act before it was answered."""
    key = request.query_params.get("done", "")
    answer = first_answer(at.bench, key) if key else None
    done = answer.content.get("words", ()) if answer and answer.status == DONE else ()
    common = {
        "title": title,
        "kit": at.bench.kit,
        "done": done,
        "much": quantities(at.bench),
        "life": lives(at.bench, at.today),
    }
    return _page(request, template, {**common, **values}, DONE)


def _page(
    request: Request, template: str, values: Mapping[str, object], status: int
) -> HTMLResponse:
    serving = serving_of(request)
    look = request.cookies.get(LOOK_COOKIE, "")
    common = {
        "look": look if look in LOOKS else "",
        "version": serving.page_version,
        "here": request.url.path + (f"?{request.url.query}" if request.url.query else ""),
        "device": device_of(request),
        "kit": None,
        "section": "",
        "done": (),
    }
    html = environment().get_template(template).render({**common, **values})
    return HTMLResponse(html, status)
