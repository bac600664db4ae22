"""Print jobs: what was printed when, so that a jammed sheet can be repeated and changes be told.

A job is kept when its file is written: the number of every label, and the words that stood on it.
A job whose act was taken back counts no more, so that its labels are due again.
"""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import func, insert, select

from labels.label import Label, Shape
from labels.number import LabelNumber
from partsbin.errors import UsageError
from partsbin.stock.errors import UnknownError
from partsbin.stock.label_tables import PrintedLabel, PrintJob
from partsbin.stock.ledger import act_of
from partsbin.stock.models import Act
from partsbin.stock.undone import stands
from partsbin.workshop.labelling import all_labels

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from labels.sheet import Printed
    from partsbin.workshop.printers import NamedPrinter
    from partsbin.workshop.printing import Order


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A file of labels as it was printed."""

    id: int
    at: dt.datetime
    who: str
    file: str
    stock: str
    printer: str
    dpi: str
    copies: int
    pages: int
    labels: int
    """How many were printed, copies counted."""


def keep_jobs(
    session: Session,
    orders: Sequence[Order],
    written: Sequence[Printed],
    printer: NamedPrinter,
    *,
    sent: bool = False,
) -> list[int]:
    """Keep what was printed and return the numbers of the jobs.

    Of a file that is `sent` away, to a browser, only the name is kept.
    """
    kept = []
    for one, printed in zip(orders, written, strict=True):
        job = PrintJob(
            act_id=act_of(session),
            file=one.path.name if sent else str(one.path.resolve()),
            stock=one.asked,
            printer=printer.name,
            dpi=str(printer.printer.dots_per_inch),
            start=one.start,
            skip=",".join(map(str, one.skip)),
            copies=one.copies,
            pages=printed.pages,
        )
        session.add(job)
        session.flush()
        rows = [
            {"job_id": job.id, "number": label.number, "words": words_of(label)}
            for label in one.labels
        ]
        session.execute(insert(PrintedLabel), rows)
        kept.append(job.id)
    return kept


def words_of(label: Label) -> str:
    """Return the words of a label as a job keeps them."""
    held = {
        "shape": label.shape.value,
        "title": label.title,
        "lines": label.lines,
        "grade": label.grade,
        "bin": label.bin_name,
        "caution": label.caution,
    }
    return json.dumps(held, ensure_ascii=False)


def label_with(number: LabelNumber, words: str) -> Label:
    """Return the label of a number with the words that a job kept."""
    held = json.loads(words)
    return Label(
        number=number,
        shape=Shape(held["shape"]),
        title=held["title"],
        lines=tuple(held["lines"]),
        grade=held["grade"],
        bin_name=held["bin"],
        caution=held["caution"],
    )


def due(session: Session) -> list[Label]:
    """Return the labels that were never printed, or whose words have changed since they were."""
    undone = select(PrintJob.id).where(~stands(PrintJob.act_id))
    latest = (
        select(func.max(PrintedLabel.id))
        .where(PrintedLabel.job_id.not_in(undone))
        .group_by(PrintedLabel.number)
    )
    query = select(PrintedLabel.number, PrintedLabel.words).where(PrintedLabel.id.in_(latest))
    printed = {row.number: row.words for row in session.execute(query)}
    return [label for label in all_labels(session) if printed.get(label.number) != words_of(label)]


def list_jobs(session: Session, most: int) -> list[Job]:
    """Return the newest jobs, the newest first."""
    count = (
        select(func.count())
        .select_from(PrintedLabel)
        .where(PrintedLabel.job_id == PrintJob.id)
        .scalar_subquery()
    )
    query = (
        select(PrintJob, Act, count)
        .join(Act, Act.id == PrintJob.act_id)
        .where(stands(PrintJob.act_id))
        .order_by(PrintJob.id.desc())
        .limit(most)
    )
    return [
        Job(
            id=job.id,
            at=act.at,
            who=act.who,
            file=job.file,
            stock=job.stock,
            printer=job.printer,
            dpi=job.dpi,
            copies=job.copies,
            pages=job.pages,
            labels=labels * job.copies,
        )
        for job, act, labels in session.execute(query)
    ]


def job_numbered(session: Session, number: int | None) -> PrintJob:
    """Return the job of that number, or the last one. Raises `UnknownError` if there is none."""
    query = select(PrintJob).where(stands(PrintJob.act_id)).order_by(PrintJob.id.desc()).limit(1)
    found = session.scalar(query if number is None else query.where(PrintJob.id == number))
    if found is None:
        what = "last" if number is None else str(number)
        raise UnknownError("print job", what, "; `partsbin label jobs` lists them")
    return found


def labels_of(session: Session, job: PrintJob, first: int = 1) -> list[Label]:
    """Return the labels of a job as they came out of the printer, from the `first` on.

    Raises `UsageError` for a label that the job does not have.
    """
    rows = session.execute(
        select(PrintedLabel.number, PrintedLabel.words)
        .where(PrintedLabel.job_id == job.id)
        .order_by(PrintedLabel.id)
    )
    printed = [label_with(row.number, row.words) for row in rows for _ in range(job.copies)]
    if not 1 <= first <= len(printed):
        raise UsageError(f"job {job.id} has the labels 1 to {len(printed)}, not {first}")
    return printed[first - 1 :]
