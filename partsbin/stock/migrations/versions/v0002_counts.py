"""Counts of bins, minimum levels, and cost formulas."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

from partsbin.stock.migrations.append_only import refuse_edits

revision = "0002"
down_revision = "0001"

WHOLE = sa.BigInteger()
ID = sa.BigInteger().with_variant(sa.Integer(), "sqlite")
APPENDED = ("bin_count", "count_line", "formula_choice")


def _id() -> sa.Column[int]:
    return sa.Column("id", ID, primary_key=True)


def _refers(name: str, column: str, *, optional: bool = False) -> sa.Column[int]:
    """Return a reference; an optional one is of one row at most."""
    unique = True if optional else None
    return sa.Column(name, ID, sa.ForeignKey(column), nullable=optional, unique=unique)


def _whole(name: str) -> sa.Column[int]:
    return sa.Column(name, WHOLE, nullable=False)


def _word(column: str, constraint: str, *words: str) -> sa.Column[str]:
    kept = sa.Enum(*words, name=constraint, native_enum=False, create_constraint=True, length=20)
    return sa.Column(column, kept, nullable=False)


def _counts() -> None:
    op.create_table(
        "bin_count", _id(), _refers("act_id", "act.id"), _refers("place_id", "place.id")
    )
    op.create_table(
        "count_line",
        _id(),
        _refers("bin_count_id", "bin_count.id"),
        _refers("part_id", "part.id"),
        _whole("recorded"),
        _whole("counted"),
        _word("abc", "abcclass", "A", "B", "C"),
        sa.CheckConstraint("recorded >= 0", name="recorded_not_negative"),
        sa.CheckConstraint("counted >= 0", name="counted_not_negative"),
    )
    for table, columns in {
        "bin_count": ("act_id", "place_id"),
        "count_line": ("bin_count_id", "part_id"),
    }.items():
        for column in columns:
            op.create_index(f"ix_{table}_{column}", table, [column])


def _levels() -> None:
    op.create_table(
        "minimum_level",
        _id(),
        _refers("part_id", "part.id", optional=True),
        sa.Column("spec_text", sa.Text(), nullable=True, unique=True),
        _word("unit", "unit", "piece", "mm"),
        *map(_whole, ("minimum", "lead_days", "lead_spread_days", "pack")),
        sa.CheckConstraint("(part_id IS NULL) <> (spec_text IS NULL)", name="lot_or_spec"),
        sa.CheckConstraint("minimum >= 0", name="minimum_not_negative"),
        sa.CheckConstraint("lead_days >= 0", name="lead_days_not_negative"),
        sa.CheckConstraint("lead_spread_days >= 0", name="lead_spread_days_not_negative"),
        sa.CheckConstraint("pack >= 1", name="pack_holds_something"),
    )


def _formulas() -> None:
    op.create_table(
        "formula_choice",
        _id(),
        _refers("act_id", "act.id"),
        sa.Column("kind", sa.Text(), nullable=False),
        _word("formula", "costformula", "average", "fifo"),
    )
    op.create_index("ix_formula_choice_act_id", "formula_choice", ["act_id"])
    op.create_index("ix_formula_choice_kind", "formula_choice", ["kind"])


def upgrade() -> None:
    """Make the tables and the triggers of those that are only appended to."""
    _counts()
    _levels()
    _formulas()
    refuse_edits(*APPENDED)


def downgrade() -> None:
    """Drop them."""
    for table in ("formula_choice", "minimum_level", "count_line", "bin_count"):
        op.drop_table(table)
