"""What all tables share: key types, constraint names, the kit at the head of every key.

Every row of a kit carries the kit's key, and no unique or foreign key crosses kits, so that a
shared store can be split by kit over many machines.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from sqlalchemy import (
    BigInteger,
    Column,
    ForeignKeyConstraint,
    Integer,
    MetaData,
    Table,
    Text,
    TypedColumns,
    text,
)

if TYPE_CHECKING:
    from sqlalchemy.schema import SchemaItem

C = TypeVar("C", bound=TypedColumns)

metadata = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "fk": "fk_%(table_name)s_%(column_0_N_name)s",
        "pk": "pk_%(table_name)s",
    }
)

Whole = Integer().with_variant(BigInteger(), "postgresql")
"""A whole number of 64 bits on both databases; there is no other kind of number here."""


class OfKit(TypedColumns):
    """Columns of a row that belongs to one kit and has a number in it."""

    kit: Column[int] = Column(Whole, primary_key=True)
    id: Column[int] = Column(Whole, primary_key=True, autoincrement=False)


class BySlip(OfKit):
    """Columns of a row that an act recorded."""

    slip: Column[int] = Column(Whole, nullable=False)


def words(default: str | None = None) -> Column[str]:
    """Return a text column that is never NULL."""
    return Column(Text, nullable=False, server_default=default)


def number(default: int | None = None) -> Column[int]:
    """Return a whole-number column that is never NULL."""
    written = None if default is None else text(str(default))
    return Column(Whole, nullable=False, server_default=written)


def to(table: str, *columns: str) -> ForeignKeyConstraint:
    """Return a foreign key inside one kit: `to("slip", "slip")` is (kit, slip) -> slip."""
    return ForeignKeyConstraint(["kit", *columns], [f"{table}.kit", f"{table}.id"])


def table(name: str, columns: type[C], *constraints: SchemaItem) -> Table[C]:
    """Return a strict table, its rows in the order of its key."""
    return Table(name, metadata, columns, *constraints, sqlite_strict=True, sqlite_with_rowid=False)
