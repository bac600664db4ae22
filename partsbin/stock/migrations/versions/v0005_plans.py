"""Prices of new parts, plans and reservations."""

from __future__ import annotations

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Make the tables."""


def downgrade() -> None:
    """Drop them."""
