"""Statements that are compiled once and then only sent.

SQLAlchemy takes ten times as long as SQLite for a statement that finds one row, even if it has it
compiled already. So what the common acts ask and write stands in their modules as a `Question` or
a `Change`, with a `bindparam` for every value: the first sending compiles it for the database's
dialect, every other one hands text and values to the driver. Rows come back as tuples, never as
objects of the session; what the session changed itself is written before.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, Generic, TypeVar, TypeVarTuple, cast

from sqlalchemy import Connection, bindparam

if TYPE_CHECKING:
    from sqlalchemy import Dialect
    from sqlalchemy.orm import Session
    from sqlalchemy.sql.base import ExecutableStatement
    from sqlalchemy.sql.dml import UpdateBase
    from sqlalchemy.sql.selectable import TypedReturnsRows

T = TypeVar("T")
Ts = TypeVarTuple("Ts")


class _Compiled:
    """A statement in a dialect: its text, and how values go in and come out."""

    def __init__(self, statement: Any, dialect: Dialect) -> None:
        compiled = statement.compile(dialect=dialect)
        binds = {name: bind for bind, name in compiled.bind_names.items()}
        self._text = str(compiled)
        self._names = tuple(binds)
        self._order = compiled.positiontup
        """The names of the values in the order of the text; None where the text names them."""
        self._fixed = {n: bind.effective_value for n, bind in binds.items() if not bind.required}
        self._writers = _processors(
            {
                n: bind.type.dialect_impl(dialect).bind_processor(dialect)
                for n, bind in binds.items()
            }
        )
        types = [column.type.dialect_impl(dialect) for column in statement.exported_columns]
        self._readers = _processors(
            {at: type_.result_processor(dialect, None) for at, type_ in enumerate(types)}
        )

    def send(self, cursor: Any, values: Mapping[str, object]) -> None:
        """Send the statement. Raises the driver's own errors, `KeyError` for a missing value."""
        cursor.execute(self._text, self._written(values))

    def send_all(self, cursor: Any, rows: Sequence[Mapping[str, object]]) -> None:
        """Send the statement for each row of values, in one batch."""
        cursor.executemany(self._text, [self._written(row) for row in rows])

    def fetched(self, cursor: Any) -> list[tuple[Any, ...]]:
        """Return the rows that a cursor brings, as the types of their columns read them."""
        rows = [list(row) for row in cursor.fetchall()]
        for row in rows:
            for at, read in self._readers:
                row[at] = read(row[at])
        return [tuple(row) for row in rows]

    def _written(self, values: Mapping[str, object]) -> Any:
        given = {**self._fixed, **values}
        for name, write in self._writers:
            given[name] = write(given[name])
        if self._order is None:
            return {name: given[name] for name in self._names}
        return [given[name] for name in self._order]


def _processors(
    found: Mapping[T, Callable[[Any], Any] | None],
) -> list[tuple[T, Callable[[Any], Any]]]:
    """Return those that do anything."""
    return [(at, process) for at, process in found.items() if process is not None]


class _Prepared:
    """A statement with its compiled form in each dialect that it was sent in."""

    def __init__(self, statement: ExecutableStatement) -> None:
        self._statement = statement
        self._compiled: dict[str, _Compiled] = {}

    def _on(self, session: Session) -> tuple[_Compiled, Any]:
        """Return the compiled statement and a cursor in the transaction of the session."""
        session.flush()
        connection = session.bind
        # An act that was taken back already must not go on, one statement at a time.
        if not isinstance(connection, Connection) or not connection.in_transaction():
            raise RuntimeError("only a session that Database gave can be asked, until it ends")
        dialect = connection.dialect
        compiled = self._compiled.get(dialect.name)
        if compiled is None:
            compiled = self._compiled[dialect.name] = _Compiled(self._statement, dialect)
        return compiled, connection.connection.cursor()


class Question(_Prepared, Generic[*Ts]):
    """A statement that brings rows: a SELECT, or a change with RETURNING."""

    def __init__(self, statement: TypedReturnsRows[*Ts]) -> None:
        super().__init__(statement)

    def rows(self, session: Session, **values: object) -> list[tuple[*Ts]]:
        """Return all rows that the statement brings with these values."""
        compiled, cursor = self._on(session)
        compiled.send(cursor, values)
        return cast("list[tuple[*Ts]]", compiled.fetched(cursor))

    def first(self, session: Session, **values: object) -> tuple[*Ts] | None:
        """Return the first row, None if there is none."""
        return next(iter(self.rows(session, **values)), None)

    def value(self: Question[T], session: Session, **values: object) -> T | None:
        """Return the one column of the first row, None if there is no row."""
        row = self.first(session, **values)
        return None if row is None else row[0]


class Change(_Prepared):
    """A statement that changes rows and brings none."""

    def __init__(self, statement: UpdateBase) -> None:
        super().__init__(statement)

    def send(self, session: Session, **values: object) -> int:
        """Change what the statement says with these values and return how many rows it changed."""
        compiled, cursor = self._on(session)
        compiled.send(cursor, values)
        return int(cursor.rowcount)

    def send_all(self, session: Session, rows: Sequence[Mapping[str, object]]) -> None:
        """Change what the statement says with each row of values, if there are any."""
        if rows:
            compiled, cursor = self._on(session)
            compiled.send_all(cursor, rows)


def named(*columns: str) -> dict[str, Any]:
    """Return a value that is still to be given for each of these columns of an INSERT."""
    return {column: bindparam(column) for column in columns}
