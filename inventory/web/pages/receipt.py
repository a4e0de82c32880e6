"""Findings: what differs between goods, list and plan."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.jobs.receiving.receiving import crates, found
from inventory.web.showing import show_at
from inventory.web.visit import visit

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.core.receiving.findings import Finding


def findings_page(request: Request) -> Response:
    """Show the findings by whom they go to, the worst first."""
    at = visit(request)
    crate = request.query_params.get("crate", "")
    by_addressee: defaultdict[str, list[Finding]] = defaultdict(list)
    for each in found(at.bench, crate):
        by_addressee[each.addressee.value if each.claimed else "only due"].append(each)
    return show_at(
        request,
        at,
        "findings.html",
        title=f"Findings of {crate}" if crate else "Findings",
        section="Findings",
        crate=crate,
        groups=by_addressee,
        still_open=[each.crate for each in crates(at.bench) if each.state != "closed"],
    )
