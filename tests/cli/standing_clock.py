"""A clock that stands still, so that what is due, expired or overdue is the same on every day."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Self

if TYPE_CHECKING:
    import pytest

CLOCKS = (
    "inventory.cli.context",
    "inventory.cli.papers",
    "inventory.cli.receiving.claim_papers",
    "inventory.jobs.planning.shelf_lives",
)
"""The modules that look at the clock."""


def stand_still(patch: pytest.MonkeyPatch, moment: dt.datetime) -> None:
    """Let every command think it is this moment."""

    class Standing(dt.datetime):
        @classmethod
        def now(cls, tz: dt.tzinfo | None = None) -> Self:
            there = moment.astimezone(tz)
            return cls.combine(there.date(), there.timetz())

    for module in CLOCKS:
        patch.setattr(f"{module}.datetime", Standing)
