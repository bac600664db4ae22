"""Symbols on every stock are exact to the dot when painted by pdfium and by Ghostscript."""

from pathlib import Path

import numpy as np
import pytest
import zxingcpp
from pyzbar import pyzbar

from labels import code128, qr, stock
from labels.label import Label, Shape
from labels.printer import Printer
from tests.labels.printed import (
    Dots,
    Job,
    by_ghostscript,
    by_pdfium,
    line_of,
    named_labels,
    written,
)


def label_dots(page: Dots, job: Job, position: int) -> Dots:
    """Return the dots of one label."""
    return page[job.box(position)]


def assert_exact(dots: Dots, label: Label, job: Job) -> None:
    """Compare bars and QR, and the white around them, with the modules themselves."""
    plan = job.plan(label)
    top = dots.shape[0]
    unit, rows = plan.qr.unit, qr.rows(label.number)
    wanted = np.stack([line_of(row, unit, 4) for row in rows])
    wanted = np.repeat(np.pad(wanted, ((4, 4), (0, 0))), unit, axis=0)
    low, left = plan.qr.y - 4 * unit, plan.qr.x - 4 * unit
    painted = dots[top - low - len(wanted) : top - low, left : left + len(wanted)]
    assert np.array_equal(painted, wanted), f"QR of {label.number} on {job.stock.name}"
    if plan.bars is None:
        return
    line = line_of(code128.modules(label.number), plan.bars.unit, 10)
    left = plan.bars.x - 10 * plan.bars.unit
    low = top - plan.bars.y
    painted = dots[low - plan.bars.height : low, left : left + len(line)]
    assert (painted == line).all(), f"bars of {label.number} on {job.stock.name}"


def assert_page_exact(painted: Dots, job: Job) -> None:
    """Compare every label of a page with the modules."""
    shown = job.labels if job.stock.count > 1 else job.labels[:1]
    for position, label in enumerate(shown, 1):
        assert_exact(label_dots(painted, job, position), label, job)


@pytest.mark.parametrize("dpi", ["203.2", "300", "600"])
def test_every_stock_is_exact(dpi: str, tmp_path: Path) -> None:
    """Every module of every symbol is so many whole dots, its quiet zone is white.

    Widths are those of the standards (10 modules of white for Code 128: GS1 General
    Specifications 5.4.4.2; 4 for QR: keyence.com); the painters are pdfium and Ghostscript.
    """
    jobs = [written(tmp_path, name, Printer(dpi=dpi)) for name in stock.names()]
    by_gs = by_ghostscript(jobs, tmp_path)

    assert len(jobs) >= 20
    for job, page in zip(jobs, by_gs, strict=True):
        for painted in (page, by_pdfium(job)):
            assert_page_exact(painted, job)


@pytest.mark.parametrize(
    ("name", "shape"),
    [
        ("a4-3x7-64x38", Shape.BIN),
        ("roll-50x30", Shape.BIN),
        ("roll-89x36", Shape.BIKE),
        ("a4-3x4-64x72", Shape.BIKE),
    ],
    ids=str,
)
def test_bins_and_bikes_are_exact(name: str, shape: Shape, tmp_path: Path) -> None:
    """So are the symbols of bin labels and bike tags, on a head of 12 dots/mm."""
    labels = named_labels(shape, stock.load(name).count)
    job = written(tmp_path, name, Printer(dpi="304.8"), labels)

    assert_page_exact(by_pdfium(job), job)
    assert_page_exact(by_ghostscript([job], tmp_path)[0], job)


@pytest.mark.parametrize(
    "printer",
    [
        Printer(dpi=300, shift_x_um=730, shift_y_um=-410),
        Printer(dpi=300, scale_x_ppm=4_321, scale_y_ppm=-2_345),
        Printer(dpi="177.8", shift_x_um=-333, scale_y_ppm=999),
    ],
    ids=["shifted", "scaled", "odd resolution"],
)
def test_corrected_printers_are_exact(printer: Printer, tmp_path: Path) -> None:
    """Shift and scale move whole labels by whole dots: the symbols stay as they are."""
    job = written(tmp_path, "a4-3x7-64x38", printer)

    assert_page_exact(by_pdfium(job), job)
    assert_page_exact(by_ghostscript([job], tmp_path)[0], job)


@pytest.mark.parametrize("name", stock.names())
def test_two_readers_read_every_stock(name: str, tmp_path: Path) -> None:
    """Zbar and zxing-cpp read the number off the bars and off the QR, painted at 203.2 dpi.

    The label is read at its own dots doubled, as a camera 16 dots/mm near would see it.
    """
    job = written(tmp_path, name, Printer(dpi="203.2"))
    page = by_pdfium(job)
    for position in sorted({1, job.stock.count // 2 + 1, job.stock.count}):
        label = job.labels[position - 1]
        symbols = {"QRCODE", "CODE128"} if job.plan(label).bars else {"QRCODE"}
        dots = np.kron(~label_dots(page, job, position), np.ones((2, 2), bool))
        picture = np.pad(dots, 20, constant_values=True).astype(np.uint8) * 255
        by_zbar = {(found.type, found.data.decode()) for found in pyzbar.decode(picture)}
        by_zxing = {found.text for found in zxingcpp.read_barcodes(picture)}

        assert by_zbar == {(kind, label.number) for kind in symbols}
        assert by_zxing == {label.number}
