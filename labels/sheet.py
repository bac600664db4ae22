"""Labels on sheets or a roll, as a PDF with vector bars; and its pages as pictures."""

import os
import tempfile
import unicodedata
from collections.abc import Collection, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import chain, repeat
from pathlib import Path
from typing import TYPE_CHECKING

from labels.drawing import PARTS, Drawing, Pen
from labels.label import Label
from labels.layout import plan_for
from labels.printer import Printer
from labels.stock import LabelStock

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

POINTS_PER_INCH = 72
MOST_COPIES = 1_000
PAGE_SLACK = Fraction(1, 50)
"""Dots by which a page is smaller than whole dots, so that no renderer adds one more."""


class PrintError(ValueError):
    """A print job that cannot be done as asked."""


@dataclass(frozen=True, slots=True)
class Printed:
    """What was written: labels, pages, and the characters that no font has (drawn as boxes)."""

    labels: int
    pages: int
    missing: tuple[str, ...] = ()

    @property
    def notes(self) -> tuple[str, ...]:
        """Sentences that whoever prints should read."""
        if not self.missing:
            return ()
        listed = ", ".join(
            f"{letter} (U+{ord(letter):04X}, {unicodedata.name(letter, 'unnamed').lower()})"
            for letter in self.missing
        )
        return (f"No font here has {listed}: a box is printed; write it another way.",)


def write_pdf(
    labels: Iterable[Label],
    stock: LabelStock,
    printer: Printer,
    path: Path,
    *,
    start: int = 1,
    skip: Collection[int] = (),
    copies: int = 1,
) -> Printed:
    """Write the labels to a PDF at `path` and return what was written.

    `start` is the first free label of the first sheet, `skip` are labels of the first sheet that
    are gone or damaged, counted from 1 at the top left; `copies` of each label follow each other.
    The same job gives the same bytes. Raises PrintError or DoesNotFit, and then nothing is written.
    """
    places = _places(stock, start, skip, copies)
    turn = chain.from_iterable(repeat(label, copies) for label in labels)
    with document(stock, printer, path) as canvas:
        pen = Pen(canvas)
        drawings = Drawings(pen, stock, printer)
        page = count = 0
        for label, (here, position) in zip(turn, places, strict=False):
            count += 1
            if here != page:
                if page:
                    canvas.showPage()
                page = here
                open_page(canvas, printer)
            canvas.addLiteral(drawings.at(position, label))
        if not count:
            raise PrintError("There is no label to print: name at least one.")
        canvas.showPage()
    return Printed(count, page, tuple(sorted(pen.missing)))


class Drawings:
    """Draws labels of any shape at any position of a stock's page."""

    def __init__(self, pen: Pen, stock: LabelStock, printer: Printer) -> None:
        self._corners = [corner(stock, printer, at) for at in range(1, stock.count + 1)]
        self._of = cache(lambda *asked: Drawing(pen, plan_for(stock, printer, *asked)))

    def at(self, position: int, label: Label) -> str:
        """Return the operators of the label at a position, the first being 1."""
        drawing: Drawing = self._of(label.shape, len(label.number), label.caution)
        return drawing.label(label, *self._corners[position - 1])


def corner(stock: LabelStock, printer: Printer, position: int) -> tuple[int, int]:
    """Return the lower left corner of a label in dots from the page's lower left corner."""
    left_um, top_um = stock.corner(position)
    x, down = printer.place(left_um, top_um)
    height = printer.dots(stock.page_height_um)
    return x, height - down - printer.dots(stock.label_height_um)


def page_dots(stock: LabelStock, printer: Printer) -> tuple[int, int]:
    """Return the page's width and height in whole dots."""
    return printer.dots(stock.page_width_um), printer.dots(stock.page_height_um)


def preview_png(pdf: Path, path: Path, *, page: int = 1, dpi: int = 150) -> None:
    """Write a page of the PDF as a PNG of that resolution; the first page is 1.

    Raises PrintError for a page that is not there.
    """
    import pypdfium2

    with pypdfium2.PdfDocument(pdf) as document:
        if not 1 <= page <= len(document):
            raise PrintError(f"There is no page {page}: the job has {len(document)}.")
        picture = document[page - 1].render(scale=dpi / POINTS_PER_INCH).to_pil()
    with _replacing(path) as unfinished:
        picture.save(unfinished, format="PNG")


def _places(
    stock: LabelStock, start: int, skip: Collection[int], copies: int
) -> Iterator[tuple[int, int]]:
    """Return pages and positions in printing order; raises PrintError for what is not there."""
    if not 1 <= copies <= MOST_COPIES:
        raise PrintError(f"{copies} copies cannot be printed: ask for 1 to {MOST_COPIES}.")
    for position in (start, *skip):
        if not 1 <= position <= stock.count:
            raise PrintError(
                f"There is no label {position} on {stock.name}: its labels are 1 to {stock.count}, "
                "counted from the top left."
            )
    first = [at for at in range(start, stock.count + 1) if at not in set(skip)]
    if not first:
        raise PrintError(
            f"No label of the first sheet is left from {start} on: skip fewer or start earlier."
        )
    rest = ((page, at) for page in _from(2) for at in range(1, stock.count + 1))
    return chain(((1, at) for at in first), rest)


def _from(number: int) -> Iterator[int]:
    """Return the whole numbers from `number` on."""
    while True:
        yield number
        number += 1


def open_page(canvas: "Canvas", printer: Printer) -> None:
    """Set the unit of a new page to a quarter of the printer's dot."""
    unit = POINTS_PER_INCH / printer.dots_per_inch / PARTS
    canvas.addLiteral(f"{unit:.10f} 0 0 {unit:.10f} 0 0 cm\n")


@contextmanager
def document(stock: LabelStock, printer: Printer, path: Path) -> Iterator["Canvas"]:
    """Yield a canvas whose pages are whole dots, and put it at `path` if all went well."""
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    # Pages as plain bytes: ReportLab would spell them out in ASCII, a quarter longer and slowly.
    spelled, rl_config.useA85 = rl_config.useA85, 0
    dot = POINTS_PER_INCH / Fraction(printer.dots_per_inch)
    size = tuple(float((dots - PAGE_SLACK) * dot) for dots in page_dots(stock, printer))
    with _replacing(path) as unfinished:
        canvas = Canvas(
            str(unfinished), pagesize=(size[0], size[1]), pageCompression=1, invariant=1
        )
        canvas.setTitle(f"Labels on {stock.name}")
        # Viewers that heed it offer to print at 100 %; "fit to page" would undo whole dots.
        canvas.setViewerPreference("PrintScaling", "None")
        try:
            yield canvas
            canvas.save()
        finally:
            rl_config.useA85 = spelled


@contextmanager
def _replacing(path: Path) -> Iterator[Path]:
    """Yield a file beside `path` that takes its place if all went well, and goes if not.

    Raises PrintError where no file can be made.
    """
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    except OSError as refused:
        raise PrintError(
            f"{path} cannot be written ({refused.strerror}): name a file in a folder of yours."
        ) from None
    os.close(handle)
    unfinished = Path(name)
    try:
        yield unfinished
        unfinished.chmod(0o644)
        unfinished.replace(path)
    finally:
        unfinished.unlink(missing_ok=True)
