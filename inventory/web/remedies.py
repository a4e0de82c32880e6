"""Remedies in the words of the pages, where those of the terminal name options no page has."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.scanning.issuing import TooManyError
from inventory.jobs.bench.finding_items import LooksAlikeError, SeveralKindsError
from inventory.jobs.bench.issuing import ExpiredError
from inventory.jobs.receiving.letters import NobodyNamedError
from inventory.jobs.receiving.receiving import CountedBeforeError

if TYPE_CHECKING:
    from inventory.core.errors import InventoryError

_COUNTED = "Open the row anew: it asks whether this number takes that one's place, or adds to it."
_TOO_MANY = (
    "Count again. If they are used there all the same, issue them on the page of their bin, and "
    "tick that the step needs fewer."
)
_EXPIRED = (
    "If whoever decides lets it be used, issue it on the page of its bin: tick that it is past "
    "its date, and write who decided."
)
_SEVERAL = "Say which one: its hand, lot or length. The page of the bin lists each."
_LOOKS_ALIKE = "Type it anew as it is printed; or say that it is another part."
_NOBODY = "Write name and address into the form; the next report remembers them."
_REMEDIES: tuple[tuple[type[InventoryError], str], ...] = (
    (CountedBeforeError, _COUNTED),
    (TooManyError, _TOO_MANY),
    (ExpiredError, _EXPIRED),
    (SeveralKindsError, _SEVERAL),
    (LooksAlikeError, _LOOKS_ALIKE),
    (NobodyNamedError, _NOBODY),
)


_ASKED: tuple[tuple[type[InventoryError], str], ...] = ((LooksAlikeError, "new_part"),)


def asked_by(error: InventoryError) -> str:
    """Return the field whose YES answers what a refusal asks; empty where it asks nothing."""
    return next((field for kind, field in _ASKED if isinstance(error, kind)), "")


def remedy_on_a_page(error: InventoryError) -> str:
    """Return what a person at a page does about a refusal."""
    return next((words for kind, words in _REMEDIES if isinstance(error, kind)), error.remedy)
