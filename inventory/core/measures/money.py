"""Money in whole millionths of a currency unit, read and shown as people write it."""

from __future__ import annotations

import re

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen

MILLION = 1_000_000
_AMOUNT = re.compile(r"([0-9]{1,9})(?:\.([0-9]{1,6}))?")
_AT_LETTERS = re.compile(r"(?<=[0-9])(?=[A-Z])|(?<=[A-Z])(?=[0-9])")
_CURRENCY = re.compile(r"[A-Z]{3}")
_CENTS = 2


@frozen
class Price:
    """An amount in millionths of a unit, with the currency's ISO 4217 code where it was said."""

    amount: int
    currency: str = ""

    def __str__(self) -> str:
        """As a person writes it: `12.50 EUR`; two decimals, more only where they say something."""
        whole, rest = divmod(self.amount, MILLION)
        decimals = f"{rest:06d}".rstrip("0").ljust(_CENTS, "0")
        return f"{whole}.{decimals} {self.currency}".rstrip()


def parse_price(text: str) -> Price:
    """Return the price that is written: `12.50`, `12.50 EUR`, `EUR 12.50` or `12.50EUR`.

    A comma is refused, since it may part decimals or thousands; so is a currency sign, since
    several currencies share one.
    """
    amount, *rest = _AT_LETTERS.sub(" ", text.upper()).split() or [""]
    if _CURRENCY.fullmatch(amount) and len(rest) == 1:
        amount, rest = rest[0], [amount]
    found = _AMOUNT.fullmatch(amount)
    currency = rest[0] if rest else ""
    if found is None or len(rest) > 1 or (currency and not _CURRENCY.fullmatch(currency)):
        raise InventoryError(
            f"{text.strip()[:40]!r} can't be read as a price",
            remedy="Write it with a point and the currency's three letters, for instance 12.50 EUR",
        )
    return Price(int(found[1]) * MILLION + int((found[2] or "").ljust(6, "0")), currency)
