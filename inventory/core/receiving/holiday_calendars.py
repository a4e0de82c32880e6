"""Public holidays of the place of delivery."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    import datetime as dt

_YEARS_AHEAD = 4
"""The longest period kept is two years and a day."""


def holidays_of(country: str, region: str, delivered: dt.date) -> frozenset[dt.date]:
    """Return the public holidays around a delivery, with the days they are observed on instead.

    `country` is an ISO 3166-1 code of two letters, `region` the part behind the dash of an
    ISO 3166-2 code, or empty. Source: the library `holidays`.
    """
    import holidays  # noqa: PLC0415

    years = range(delivered.year, delivered.year + _YEARS_AHEAD)
    try:
        found = holidays.country_holidays(
            country.strip().upper(), subdiv=region.strip().upper() or None, years=years
        )
    except NotImplementedError as unknown:
        raise InventoryError(
            f"no holiday calendar is known for {country} {region}".rstrip(),
            remedy="Give the country as two letters (US, DE) and the region as its ISO 3166-2 "
            "code without the country, or leave the region empty.",
        ) from unknown
    return frozenset(found)
