"""The tables of printers and of print jobs; jobs and what they printed are only appended to."""

from __future__ import annotations

from sqlalchemy import CheckConstraint, Index, text
from sqlalchemy.orm import Mapped, mapped_column, relationship

from labels.number import LabelNumber
from partsbin.stock.columns import Id, refers
from partsbin.stock.ids import ActId
from partsbin.stock.models import Act, Base


class RecordedPrinter(Base):
    """A printer of the workshop: its dots, and what its test pages showed."""

    __tablename__ = "printer"
    __table_args__ = (Index("uq_printer_name", text("lower(name)"), unique=True),)

    id: Mapped[Id]
    name: Mapped[str]
    dpi: Mapped[str]
    """Dots per inch as an exact decimal number."""
    shift_x_um: Mapped[int]
    shift_y_um: Mapped[int]
    scale_x_ppm: Mapped[int]
    scale_y_ppm: Mapped[int]


class PrintJob(Base):
    """A file of labels that was written, and all that is needed to write it again."""

    __tablename__ = "print_job"
    __table_args__ = (
        CheckConstraint("start >= 1", name="start_counts_from_one"),
        CheckConstraint("copies >= 1", name="copies_at_least_one"),
    )

    id: Mapped[Id]
    act_id: Mapped[ActId] = refers("act.id", index=True)
    file: Mapped[str]
    stock: Mapped[str]
    """The name of a label stock, or the file that describes it."""
    printer: Mapped[str]
    """The printer's name, empty if only its dots were given."""
    dpi: Mapped[str]
    start: Mapped[int]
    skip: Mapped[str]
    """The labels of the first sheet that were left out, as `3,9`."""
    copies: Mapped[int]
    pages: Mapped[int]

    act: Mapped[Act] = relationship()


class PrintedLabel(Base):
    """One label of a job, in printing order: its number and the words that stood on it."""

    __tablename__ = "printed_label"

    id: Mapped[Id]
    job_id: Mapped[int] = refers("print_job.id", index=True)
    number: Mapped[LabelNumber] = mapped_column(index=True)
    words: Mapped[str]
    """A JSON object; see `workshop.print_jobs`."""
