"""Tables of deliveries: what was written down before signing, which lists came, photographs."""

from __future__ import annotations

from sqlalchemy import Column

from inventory.store.tables.base import BySlip, Whole, check, index, number, table, to, words


class DeliveryColumns(BySlip):
    """One delivery by its number; all else may be mended, so it stands in `delivery_facts`."""


class DeliveryFactsColumns(BySlip):
    """What is known of a delivery; the newest row that isn't undone counts."""

    delivery: Column[int] = number()
    supplier: Column[str] = words("")
    carrier: Column[str] = words("")
    carriage: Column[str] = words("")
    """Mode of carriage: a code that the notice periods are kept by."""
    sale: Column[str] = words("")
    order_number: Column[str] = words("")
    invoice: Column[str] = words("")
    bill_of_lading: Column[str] = words("")
    pro_number: Column[str] = words("")
    delivered_on: Column[str] = words("")
    place: Column[str] = words("")
    country: Column[str] = words("")
    region: Column[str] = words("")
    packages_advised: Column[int] = number(0)
    packages_counted: Column[int] = number(0)
    seals: Column[str] = words("")
    late: Column[int] = number(0)
    window_days: Column[int] = number(0)
    """The supplier's own window; 0 where none was entered."""
    window_count: Column[str] = words("calendar")
    dates: Column[str] = words("{}")
    """Days of other events that periods run from, as a JSON object of event and day."""


class DeliveryExceptionColumns(BySlip):
    """Something wrong with a package, in concrete words."""

    delivery: Column[int] = number()
    crate: Column[str] = words("")
    kind: Column[str] = words()
    """missing, harmed or other."""
    words: Column[str] = words()
    on_receipt: Column[int] = number(0)
    """1 where the words stand on the paper that was signed."""


class DeliveryListColumns(BySlip):
    """A packing list that came with a delivery."""

    delivery: Column[int] = number()
    packing_list: Column[int] = number()


class PhotoColumns(BySlip):
    """A photograph and what it shows; the picture lies in the folder beside the store."""

    sha256: Column[str] = words()
    kind: Column[str] = words()
    name: Column[str] = words("")
    width: Column[int] = number()
    height: Column[int] = number()
    caption: Column[str] = words("")
    delivery: Column[int | None] = Column(Whole, nullable=True)
    crate: Column[str] = words("")
    part: Column[int | None] = Column(Whole, nullable=True)


delivery = table("delivery", DeliveryColumns, to("slip", "slip"))
delivery_facts = table(
    "delivery_facts",
    DeliveryFactsColumns,
    check("packages", "packages_advised >= 0 AND packages_counted >= 0"),
    index("kit", "delivery"),
    to("slip", "slip"),
    to("delivery", "delivery"),
)
delivery_exception = table(
    "delivery_exception",
    DeliveryExceptionColumns,
    index("kit", "delivery"),
    to("slip", "slip"),
    to("delivery", "delivery"),
)
delivery_list = table(
    "delivery_list",
    DeliveryListColumns,
    to("slip", "slip"),
    to("delivery", "delivery"),
    to("packing_list", "packing_list"),
)
photo = table(
    "photo", PhotoColumns, to("slip", "slip"), to("delivery", "delivery"), to("part", "part")
)
