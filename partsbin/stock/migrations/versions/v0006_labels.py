"""Printers and print jobs."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from partsbin.stock.migrations.append_only import refuse_edits

revision = "0006"
down_revision = "0005"

WHOLE = sa.BigInteger()
ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
APPENDED = ("print_job", "printed_label")


def _id() -> sa.Column[int]:
    return sa.Column("id", ID, primary_key=True)


def _refers(name: str, column: str) -> sa.Column[int]:
    return sa.Column(name, ID, sa.ForeignKey(column), nullable=False)


def _text(name: str) -> sa.Column[str]:
    return sa.Column(name, sa.Text(), nullable=False)


def _whole(name: str) -> sa.Column[int]:
    return sa.Column(name, WHOLE, nullable=False)


def _printers() -> None:
    corrections = ("shift_x_um", "shift_y_um", "scale_x_ppm", "scale_y_ppm")
    op.create_table("printer", _id(), _text("name"), _text("dpi"), *map(_whole, corrections))
    op.create_index("uq_printer_name", "printer", [sa.text("lower(name)")], unique=True)


def _jobs() -> None:
    op.create_table(
        "print_job",
        _id(),
        _refers("act_id", "act.id"),
        *map(_text, ("file", "stock", "printer", "dpi")),
        _whole("start"),
        _text("skip"),
        _whole("copies"),
        _whole("pages"),
        sa.CheckConstraint("start >= 1", name="start_counts_from_one"),
        sa.CheckConstraint("copies >= 1", name="copies_at_least_one"),
    )
    op.create_index("ix_print_job_act_id", "print_job", ["act_id"])
    op.create_table(
        "printed_label",
        _id(),
        _refers("job_id", "print_job.id"),
        sa.Column("number", sa.String(10), nullable=False),
        _text("words"),
    )
    for column in ("job_id", "number"):
        op.create_index(f"ix_printed_label_{column}", "printed_label", [column])


def upgrade() -> None:
    """Make the tables, and the triggers of those that are only appended to."""
    _printers()
    _jobs()
    refuse_edits(*APPENDED)


def downgrade() -> None:
    """Drop them."""
    for table in ("printed_label", "print_job", "printer"):
        op.drop_table(table)
