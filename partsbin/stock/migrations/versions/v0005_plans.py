"""Prices of new parts, plans and reservations."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"

ID = sa.BigInteger().with_variant(sa.Integer, "sqlite")


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "price",
        sa.Column("id", ID, primary_key=True),
        sa.Column("spec_id", ID, sa.ForeignKey("spec.id"), nullable=True, unique=True),
        sa.Column("named", sa.Text, nullable=False),
        sa.Column("price", sa.BigInteger, nullable=False),
        sa.Column("lead_days", sa.BigInteger, nullable=True),
        sa.Column("note", sa.Text, nullable=False),
        sa.CheckConstraint("price >= 0", name="price_not_negative"),
        sa.CheckConstraint("(spec_id IS NULL) = (named <> '')", name="spec_or_name"),
    )
    named = sa.text("named <> ''")
    op.create_index(
        "uq_price_named",
        "price",
        ["named"],
        unique=True,
        sqlite_where=named,
        postgresql_where=named,
    )
    op.create_table(
        "reservation",
        sa.Column("id", ID, primary_key=True),
        sa.Column("act_id", ID, sa.ForeignKey("act.id"), nullable=False),
        sa.Column("part_id", ID, sa.ForeignKey("part.id"), nullable=False),
        sa.Column("bike_id", ID, sa.ForeignKey("bike.id"), nullable=False),
        sa.Column("slot", sa.Text, nullable=False),
        sa.Column("quantity", sa.BigInteger, nullable=False),
        sa.CheckConstraint("quantity > 0", name="quantity_above_nothing"),
    )
    op.create_index("ix_reservation_part_id", "reservation", ["part_id", "bike_id"])
    op.create_index("ix_reservation_bike_id", "reservation", ["bike_id"])
    binned = sa.text("in_bins > 0")
    op.create_index(
        "ix_part_in_order_of_use",
        "part",
        ["spec_id", sa.text("coalesce(value, 0)"), "id"],
        sqlite_where=binned,
        postgresql_where=binned,
    )


def downgrade() -> None:
    """Drop them."""
    op.drop_index("ix_part_in_order_of_use", "part")
    op.drop_table("reservation")
    op.drop_table("price")
