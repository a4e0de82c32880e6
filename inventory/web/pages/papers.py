"""Papers to take along: the findings as a workbook, and reports as they were written."""

from __future__ import annotations

import re
from datetime import datetime
from typing import TYPE_CHECKING

from starlette.responses import Response

from inventory.core.errors import NotFoundError
from inventory.documents.discrepancy_report import discrepancy_book, discrepancy_pdf
from inventory.documents.findings_book import findings_book
from inventory.documents.kept_letter import report_of_letter
from inventory.documents.page_head import PageHead
from inventory.documents.pictures import Photo
from inventory.jobs.receiving.letters import report_by_number
from inventory.jobs.receiving.photographs import picture
from inventory.jobs.receiving.receiving import found
from inventory.jobs.record.page_facts import page_facts
from inventory.web.visit import visit

if TYPE_CHECKING:
    from starlette.requests import Request

    from inventory.jobs.acts import Bench

WORKBOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
"""As IANA's list of media types names it."""
_MAKERS = {"pdf": (discrepancy_pdf, "application/pdf"), "xlsx": (discrepancy_book, WORKBOOK)}
_NAMED = re.compile(r"([0-9]{1,9})\.(pdf|xlsx)")


def findings_paper(request: Request) -> Response:
    """Return all findings, or those of one crate, as a workbook."""
    at = visit(request)
    crate = request.query_params.get("crate", "")
    content = findings_book(_head(at.bench), found(at.bench, crate))
    return _to_keep(content, WORKBOOK, "findings.xlsx")


def report_paper(request: Request) -> Response:
    """Return a report as it was written, with what was sent and answered since."""
    at = visit(request)
    named = _NAMED.fullmatch(request.path_params["name"])
    if named is None:
        raise NotFoundError("no report has this name", remedy="Reports are named as `1.pdf`.")
    number, ending = named.groups()
    report = report_by_number(at.bench, int(number))
    make, kind = _MAKERS[ending]
    paper = report_of_letter(
        report.letter,
        f"{report.number} of {report.written_on.isoformat()}",
        ((each.on, str(each)) for each in report.events),
        (
            Photo(picture(at.bench, each.sha256, each.kind), each.caption)
            for each in report.letter.photos
        ),
    )
    return _to_keep(make(_head(at.bench), paper), kind, f"report-{report.number}.{ending}")


def _head(bench: Bench) -> PageHead:
    facts = page_facts(bench)
    return PageHead(
        kit=bench.kit.name,
        kit_code=bench.kit.code,
        store_id=facts.store_id,
        printed_on=datetime.now().astimezone().date(),
        seal=f"{facts.seal} at {facts.movements}",
    )


def _to_keep(content: bytes, kind: str, name: str) -> Response:
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return Response(content, media_type=kind, headers=headers)
