"""Counts of bins and minimum levels."""

from __future__ import annotations

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the tables."""


def downgrade() -> None:
    """Drop them."""
