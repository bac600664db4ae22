"""Sheets as two renderers paint them: every stock at three resolutions, a dot a printer's dot."""

import subprocess
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
import pypdfium2
from numpy.typing import NDArray
from PIL import Image

from labels import sheet
from labels.label import Label, Shape
from labels.layout import plan_for
from labels.number import Thing, make
from labels.plan import Plan
from labels.printer import Printer
from labels.stock import LabelStock, load

Dots = NDArray[np.bool_]


@dataclass(frozen=True)
class Job:
    """A page of labels that was written, and the printer it was written for."""

    stock: LabelStock
    printer: Printer
    labels: tuple[Label, ...]
    path: Path

    def box(self, position: int) -> tuple[slice, slice]:
        """Return rows and columns of the page's dots that the label covers."""
        x, y = sheet.corner(self.stock, self.printer, position)
        height = sheet.page_dots(self.stock, self.printer)[1]
        wide = self.printer.dots(self.stock.label_width_um)
        high = self.printer.dots(self.stock.label_height_um)
        return slice(height - y - high, height - y), slice(x, x + wide)

    def plan(self, label: Label) -> Plan:
        """Return where things stand on the label."""
        return plan_for(self.stock, self.printer, label.shape, len(label.number), label.caution)


def part_labels(count: int, first: int = 1) -> tuple[Label, ...]:
    """Return labels of parts, every third with a caution, some with ten digits."""
    return tuple(
        Label(
            number=make(Thing.PART, first + at if at % 4 else 100_000 + first + at),
            shape=Shape.PART,
            title=("Rear derailleur", "Seatpost", "Натяжитель цепи", "Fork")[at % 4],
            lines=("27.2 mm", "aluminium", "350 mm long")[: at % 4],
            grade="good",
            bin_name="B-12",
            caution=at % 3 == 0,
        )
        for at in range(count)
    )


def named_labels(shape: Shape, count: int) -> tuple[Label, ...]:
    """Return labels of bins or bikes."""
    thing = {Shape.BIN: Thing.BIN, Shape.BIKE: Thing.BIKE}[shape]
    return tuple(
        Label(
            number=make(thing, at),
            shape=shape,
            title=("B-12", "Brakes left", "Laufräder 28 Zoll")[at % 3],
            lines=("levers", "callipers"),
        )
        for at in range(1, count + 1)
    )


def written(
    folder: Path,
    name: str,
    printer: Printer,
    labels: tuple[Label, ...] | None = None,
) -> Job:
    """Return a page full of labels on the stock of that name."""
    stock = load(name)
    labels = labels or part_labels(stock.count)
    path = folder / f"{name}-{printer.dpi}.pdf"
    sheet.write_pdf(labels, stock, printer, path)
    return Job(stock, printer, labels, path)


def by_pdfium(job: Job) -> Dots:
    """Return the first page as pdfium paints it, grey cut in the middle."""
    with pypdfium2.PdfDocument(job.path) as document:
        scale = float(job.printer.dots_per_inch) / 72
        picture = document[0].render(scale=scale, grayscale=True).to_numpy()
    grey: NDArray[np.uint8] = picture.reshape(picture.shape[:2])
    return grey < 128


def by_ghostscript(jobs: list[Job], folder: Path) -> list[Dots]:
    """Return the first page of each job as Ghostscript paints it, black and white."""
    dpi = str(jobs[0].printer.dpi)
    command = ["gs", "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=pbmraw", f"-r{dpi}"]
    command.append(f"-sOutputFile={folder}/{dpi}-%d.pbm")
    subprocess.run([*command, *[str(job.path) for job in jobs]], check=True)
    pages = []
    for at in range(1, len(jobs) + 1):
        page = folder / f"{dpi}-{at}.pbm"
        with Image.open(page) as picture:
            pages.append(np.array(picture) == 0)
        page.unlink()
    return pages


@cache
def line_of(modules: str, unit: int, quiet: int) -> Dots:
    """Return the dots of a row of modules, `unit` to a module, with quiet modules on both sides."""
    line = np.array([module == "1" for module in modules])
    return np.repeat(np.pad(line, quiet), unit)
