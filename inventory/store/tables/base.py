"""What all tables share: key types, constraint names, the kit at the head of every key.

Every row of a kit carries the kit's key, and no unique or foreign key crosses kits, so that a
shared store can be split by kit over many machines.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any, TypeAlias, TypeVar, cast

from sqlalchemy import (
    BigInteger,
    CheckConstraint,
    Column,
    ForeignKeyConstraint,
    Index,
    Integer,
    MetaData,
    PrimaryKeyConstraint,
    Table,
    Text,
    TypedColumns,
    UniqueConstraint,
    text,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sqlalchemy.schema import Constraint, SchemaItem

C = TypeVar("C", bound=TypedColumns)
Rule: TypeAlias = "Callable[[], SchemaItem]"

_rules: list[tuple[Table[Any], Rule]] = []
"""What still has to be described of which table."""

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


def to(table: str, *columns: str) -> Rule:
    """Return a foreign key inside one kit: `to("slip", "slip")` is (kit, slip) -> slip."""
    return partial(ForeignKeyConstraint, ["kit", *columns], [f"{table}.kit", f"{table}.id"])


def key(*columns: str) -> Rule:
    """Return a primary key other than (kit, id)."""
    return partial(PrimaryKeyConstraint, *columns)


def unique(*columns: str) -> Rule:
    """Return that no two rows have the same values there."""
    return partial(UniqueConstraint, *columns)


def index(*columns: str, name: str | None = None) -> Rule:
    """Return an index; without a name of its own it is called by its columns."""
    return partial(Index, name, *columns)


def check(name: str, condition: str) -> Rule:
    """Return what holds for each row."""
    return partial(CheckConstraint, condition, name=name)


def table(name: str, columns: type[C], *rules: Rule) -> Table[C]:
    """Return a strict table, its rows in the order of its key.

    Questions need its columns only: the rules are described where the whole record is gone over.
    """
    described = _columns_of(columns)
    made = Table(name, metadata, *described, sqlite_strict=True, sqlite_with_rowid=False)
    _rules.extend((made, rule) for rule in rules)
    return cast("Table[C]", made)


def describe_rules() -> None:
    """Add to all tables made so far their keys, checks and indexes."""
    while _rules:
        made, rule = _rules.pop(0)
        made.append_constraint(cast("Constraint", rule()))


def _columns_of(described: type[TypedColumns]) -> Iterator[Column[Any]]:
    """Yield the columns of a class and of those above it, each under its own name.

    SQLAlchemy would read types out of the annotations, which takes a third of a short question.
    """
    for above in reversed(described.__mro__):
        for name, column in vars(above).items():
            if isinstance(column, Column):
                own = column if above is described else column._copy()  # noqa: SLF001
                own.name = own.key = name
                yield own
