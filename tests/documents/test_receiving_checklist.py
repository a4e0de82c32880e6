"""The paper for the day of delivery: what is known of it, and lines for the rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.documents.receiving_checklist import ExpectedDelivery, receiving_checklist_pdf
from tests.documents.pages import HEAD, LETTER, pages, words
from tests.documents.test_papers import DELIVERY

if TYPE_CHECKING:
    from inventory.documents.page_head import PageHead


@pytest.mark.parametrize("head", [HEAD, LETTER], ids=["a4", "letter"])
@pytest.mark.parametrize("delivery", [DELIVERY, ExpectedDelivery()], ids=["known", "unknown"])
def test_checklist_is_one_page(head: PageHead, delivery: ExpectedDelivery) -> None:
    assert len(pages(receiving_checklist_pdf(head, delivery))) == 1


def test_checklist_shows_what_is_known_and_leaves_lines_for_the_rest() -> None:
    known = words(receiving_checklist_pdf(HEAD, DELIVERY))
    assert "3 advised" in known
    assert "By 2026-12-02" in known
    assert "1 OF 3" in known
    unknown = words(receiving_checklist_pdf(HEAD, ExpectedDelivery()))
    assert "______ advised" in unknown
    assert "Before the first notice period ends" in unknown
