"""The types of the columns: what may be stored, and in what unit."""

from __future__ import annotations

import datetime as dt
import enum
from typing import TYPE_CHECKING, Annotated, Any

from sqlalchemy import BigInteger, DateTime, Enum, ForeignKey, Integer, Text, TypeDecorator
from sqlalchemy.orm import mapped_column

from partsbin.stock.money import Money

if TYPE_CHECKING:
    from sqlalchemy.engine import Dialect


class WholeNumber(TypeDecorator[int]):
    """A 64-bit whole number; a float or a text is refused before it reaches the database.

    SQLite would store 0.1 in an integer column as it is, and PostgreSQL sums to a Decimal.
    """

    impl = BigInteger
    cache_ok = True

    def process_bind_param(self, value: Any, dialect: Dialect) -> int | None:  # noqa: ARG002
        """Return the number itself. Raises `TypeError` for anything but an int."""
        if value is None:
            return None
        if type(value) is not int:
            raise TypeError(f"{value!r} is not a whole number")
        return value

    def process_result_value(self, value: Any, dialect: Dialect) -> int | None:  # noqa: ARG002
        """Return an int."""
        return None if value is None else int(value)


class UtcTime(TypeDecorator[dt.datetime]):
    """A moment, stored in UTC and always returned with its zone."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(
        self,
        value: dt.datetime | None,
        dialect: Dialect,  # noqa: ARG002
    ) -> dt.datetime | None:
        """Return the moment in UTC. Raises `TypeError` for one without a zone."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise TypeError(f"{value!r} has no time zone")
        return value.astimezone(dt.UTC)

    def process_result_value(
        self,
        value: dt.datetime | None,
        dialect: Dialect,  # noqa: ARG002
    ) -> dt.datetime | None:
        """Return the moment in UTC."""
        if value is None:
            return None
        return value.replace(tzinfo=dt.UTC) if value.tzinfo is None else value


def stored_values(words: type[enum.Enum]) -> list[str]:
    """Return the words of an enumeration as they are stored."""
    return [str(word.value) for word in words]


IDENTITY = BigInteger().with_variant(Integer, "sqlite")
"""SQLite numbers rows by itself only in a column of exactly the type INTEGER."""

TYPES = {
    str: Text,
    int: WholeNumber,
    Money: WholeNumber,
    dt.datetime: UtcTime,
    enum.Enum: Enum(
        enum.Enum,
        native_enum=False,
        create_constraint=True,
        length=20,
        values_callable=stored_values,
    ),
}
"""What the annotations of the models stand for."""

Id = Annotated[int, mapped_column(IDENTITY, primary_key=True)]


def refers(column: str, **options: Any) -> Any:
    """Return a column that holds the id of another table's row."""
    return mapped_column(IDENTITY, ForeignKey(column), **options)
