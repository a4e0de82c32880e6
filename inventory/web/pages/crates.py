"""Counting: all crates, one crate, and one row of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.responses import RedirectResponse

from inventory.core.errors import NotFoundError
from inventory.core.items import Hand
from inventory.jobs.receiving.crate_sheet import crate_sheet
from inventory.jobs.receiving.measured_parts import waiting
from inventory.jobs.receiving.photographs import photographs
from inventory.jobs.receiving.receiving import crates
from inventory.web.addresses import to
from inventory.web.drawings.receipt import receipt_svg
from inventory.web.presence import Present
from inventory.web.showing import drawing, show_at
from inventory.web.visit import visit

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.core.lists.packing import PackingLine
    from inventory.jobs.receiving.crate_sheet import CrateSheet, SheetRow
    from inventory.web.visit import Visit


def crates_page(request: Request) -> Response:
    """Show how far each crate is counted, and who counts there now."""
    at = visit(request)
    states = crates(at.bench)
    return show_at(
        request,
        at,
        "crates.html",
        title="Crates",
        section="Count",
        crates=states,
        picture=drawing(receipt_svg(states)),
        there=_there(at),
    )


def crate_page(request: Request) -> Response:
    """Show one crate, bag by bag."""
    at = visit(request)
    sheet = crate_sheet(at.bench, request.query_params.get("crate", ""))
    _come(at, sheet.crate)
    return show_at(
        request,
        at,
        "crate.html",
        title=f"Crate {sheet.crate}",
        section="Count",
        sheet=sheet,
        blind=bool(request.query_params.get("blind")),
        there=[each for each in _there(at) if each.spot == sheet.crate],
        pictures=[each for each in photographs(at.bench) if each.of.crate == sheet.crate],
        held=[each for each in waiting(at.bench) if each.crate == sheet.crate],
    )


def count_page(request: Request) -> Response:
    """Show one row of a crate to be counted: big keys, left and right apart."""
    at = visit(request)
    sheet = crate_sheet(at.bench, request.query_params.get("crate", ""))
    _come(at, sheet.crate)
    if "part" not in request.query_params and not sheet.open_rows:
        return RedirectResponse(to(at.bench.kit.code, "crate", crate=sheet.crate), 303)
    row = _row(sheet, request)
    after = [each for each in sheet.open_rows if each is not row]
    return show_at(
        request,
        at,
        "count.html",
        title=row.first.printed,
        section="Count",
        sheet=sheet,
        row=row,
        blind=bool(request.query_params.get("blind")),
        next_row=_next(sheet, row, after),
        left_to_count=len(after),
        there=[each for each in _there(at) if each.spot == sheet.crate],
        pictures=[
            each
            for each in photographs(at.bench)
            if (each.of.crate, each.of.part) == (sheet.crate, row.first.part)
        ],
    )


def _row(sheet: CrateSheet, request: Request) -> SheetRow:
    """Return the row that the address names, or the first that nobody counted."""
    part = request.query_params.get("part", "")
    bag = request.query_params.get("bag", "")
    wanted = request.query_params.get("hand", "")
    for row in sheet.rows:
        for each in row.lines:
            named = each.line.part == part and each.line.bag == bag
            if named and wanted in ("", _side(each.line)):
                return row
    if not part and sheet.open_rows:
        return sheet.open_rows[0]
    raise NotFoundError(
        f"nothing of that name is listed in crate {sheet.crate}",
        where=f"crate {sheet.crate}",
        remedy="Count it as a part that isn't listed.",
    )


def _side(line: PackingLine) -> str:
    return "" if line.hand is Hand.NONE else line.hand.value


def _next(sheet: CrateSheet, row: SheetRow, after: list[SheetRow]) -> SheetRow | None:
    """Return the next row nobody counted: the one below this one, else the first."""
    place = sheet.rows.index(row)
    below = [each for each in sheet.rows[place + 1 :] if each in after]
    return next(iter([*below, *after]), None)


def _come(at: Visit, crate: str) -> None:
    present = Present(at.device.name, at.device.person, crate)
    at.serving.presence.at(at.bench.kit.code, present)


def _there(at: Visit) -> list[Present]:
    return at.serving.presence.others(at.bench.kit.code, at.device.name)
