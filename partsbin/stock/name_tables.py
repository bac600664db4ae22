"""The user's own list: what is printed on a part, and the attributes that it stands for."""

from __future__ import annotations

from sqlalchemy import UniqueConstraint
from sqlalchemy.orm import Mapped

from partsbin.stock.columns import Id
from partsbin.stock.models import Base


class PrintedName(Base):
    """One entry of the list; a name may stand for parts of several kinds, once for each."""

    __tablename__ = "printed_name"
    __table_args__ = (UniqueConstraint("key", "kind"),)

    id: Mapped[Id]
    spec: Mapped[str]
    """The kind and its attributes as the canonical text that `Spec.from_text` reads."""
    kind: Mapped[str]
    printed: Mapped[str]
    """The text as the user wrote it."""
    key: Mapped[str]
    """Its words in small letters with single spaces, for looking it up."""
    note: Mapped[str]
