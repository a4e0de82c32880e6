"""Tables of kits, and of the parts, items and places each has."""

from __future__ import annotations

from sqlalchemy import Column, Text, TypedColumns

from inventory.store.tables.base import OfKit, Whole, check, number, table, to, unique, words


class KitColumns(TypedColumns):
    """One airframe or project."""

    id: Column[int] = Column(Whole, primary_key=True, autoincrement=False)
    code: Column[str] = words()
    name: Column[str] = words()
    created_at: Column[str] = words()


class PartColumns(OfKit):
    """One part number of a kit."""

    key: Column[str] = words()
    printed: Column[str] = words()
    description: Column[str] = words("")
    measure: Column[str] = words("pieces")
    minimum: Column[int] = number(0)


class ItemColumns(OfKit):
    """A part of one hand, lot, length and state: what the ledger counts."""

    part: Column[int] = number()
    hand: Column[str] = words()
    lot: Column[str] = words("")
    length: Column[int] = number(0)
    state: Column[str] = words("new")


class PlaceColumns(OfKit):
    """Somewhere pieces can be."""

    kind: Column[str] = words()
    code: Column[str] = words("")
    shelf: Column[str] = words("")


class TagColumns(OfKit):
    """A number printed on a label of ours, and what it stands for."""

    code: Column[str] = words()
    subject: Column[str] = words()
    """place or item; a step is a place, too."""
    place: Column[int | None] = Column(Whole, nullable=True)
    item: Column[int | None] = Column(Whole, nullable=True)


class SettingColumns(TypedColumns):
    """A choice kept for the whole store."""

    name: Column[str] = Column(Text, primary_key=True)
    value: Column[str] = words()


kit = table("kit", KitColumns)
part = table("part", PartColumns, unique("kit", "key"))
item = table(
    "item",
    ItemColumns,
    unique("kit", "part", "hand", "lot", "length", "state"),
    check("length", "length >= 0"),
    to("part", "part"),
)
place = table("place", PlaceColumns, unique("kit", "kind", "code"))
tag = table("tag", TagColumns, unique("kit", "code"), to("place", "place"), to("item", "item"))
setting = table("setting", SettingColumns)
