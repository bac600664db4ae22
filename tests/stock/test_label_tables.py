"""Print jobs are kept as they were: the database itself refuses to change one."""

from __future__ import annotations

import pytest
from sqlalchemy import insert, text
from sqlalchemy.exc import DBAPIError

from labels.number import Thing, make
from partsbin.stock.database import Database
from partsbin.stock.label_tables import PrintedLabel, PrintJob, RecordedPrinter
from partsbin.stock.ledger import act_of

JOB = {
    "file": "a.pdf",
    "stock": "roll-57x32",
    "printer": "",
    "dpi": "600",
    "start": 1,
    "skip": "",
    "copies": 1,
    "pages": 1,
}


def printed(database: Database, **changed: object) -> None:
    """Put a job with one label into the record."""
    with database.changing("label") as session:
        act = act_of(session)
        job = insert(PrintJob).values(**{**JOB, "act_id": act, **changed}).returning(PrintJob.id)
        row = {"job_id": session.scalar(job), "number": make(Thing.BIN, 1), "words": "{}"}
        session.execute(insert(PrintedLabel), [row])


@pytest.mark.parametrize("table", ["print_job", "printed_label"])
@pytest.mark.parametrize("change", ["UPDATE {} SET id = id + 1000", "DELETE FROM {}"])
def test_the_database_refuses_edits(database: Database, table: str, change: str) -> None:
    """A trigger refuses UPDATE and DELETE of what was printed."""
    printed(database)
    with (
        pytest.raises(DBAPIError, match=f"{table} is appended to, never edited"),
        database.changing("cheat") as session,
    ):
        session.execute(text(change.format(table)))


@pytest.mark.parametrize(
    ("wrong", "constraint"),
    [({"start": 0}, "start_counts_from_one"), ({"copies": 0}, "copies_at_least_one")],
)
def test_the_database_refuses_wrong_jobs(
    database: Database, wrong: dict[str, object], constraint: str
) -> None:
    """A job that no sheet can hold is refused by the database itself."""
    with pytest.raises(DBAPIError, match=constraint):
        printed(database, **wrong)


def test_a_printer_has_one_row(database: Database) -> None:
    """Two printers of one name, however it is written, are refused by the database itself."""
    kept = {"dpi": "600", "shift_x_um": 0, "shift_y_um": 0, "scale_x_ppm": 0, "scale_y_ppm": 0}
    with pytest.raises(DBAPIError, match=r"(?i)unique"), database.changing("cheat") as session:
        session.execute(
            insert(RecordedPrinter), [{"name": "laser", **kept}, {"name": "Laser", **kept}]
        )
