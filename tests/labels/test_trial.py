"""The test page: frames on the labels' edges and rulers of the length that they say."""

from itertools import groupby
from pathlib import Path

import numpy as np
import pypdfium2
import pytest

from labels import stock, trial
from labels.printer import Printer
from labels.stock import load
from tests.labels.printed import Dots, Job, by_pdfium


def page(name: str, printer: Printer, folder: Path) -> tuple[Job, int, Dots]:
    """Return the test page of a stock as pdfium paints it, and the length of its rulers in mm."""
    job = Job(load(name), printer, (), folder / "test.pdf")
    length = trial.write_test_page(job.stock, printer, job.path)
    return job, length, by_pdfium(job)


def longest(dots: Dots) -> int:
    """Return the longest run of dark dots in a line."""
    return max((len(list(run)) for dark, run in groupby(dots.tolist()) if dark), default=0)


@pytest.mark.parametrize("name", stock.names())
def test_every_stock_has_one(name: str, tmp_path: Path) -> None:
    """Each stock has a page of its own with rulers of at least 5 mm, and the figure beside them."""
    job, length, dots = page(name, Printer(dpi="203.2"), tmp_path)
    with pypdfium2.PdfDocument(job.path) as document:
        assert len(document) == 1
        assert f"{length} mm" in document[0].get_textpage().get_text_bounded()

    assert 5 <= length <= 100
    assert dots.any()


def test_frames_are_on_the_edges(tmp_path: Path) -> None:
    """The line along each label's edge runs the length of the label, a dot around the edge."""
    job, _length, dots = page("a4-3x7-64x38", Printer(dpi="203.2"), tmp_path)
    for position in (1, 5, 21):
        rows, columns = job.box(position)
        for row in (rows.start, rows.stop):
            assert dots[row - 1 : row + 1, columns].all(axis=1).any()
        for column in (columns.start, columns.stop):
            assert dots[rows, column - 1 : column + 1].all(axis=0).any()


@pytest.mark.parametrize(
    ("printer", "across", "down"),
    [
        (Printer(dpi="203.2"), 800, 800),
        (Printer(dpi="203.2", scale_x_ppm=10_000, scale_y_ppm=-5_000), 808, 796),
    ],
    ids=["as it is", "scaled"],
)
def test_rulers_have_their_length(printer: Printer, across: int, down: int, tmp_path: Path) -> None:
    """A ruler of 100 mm is 800 dots long at 8 dots/mm, and follows the printer's correction."""
    _job, length, dots = page("a4-2x7-99x38", printer, tmp_path)
    middle = dots.shape[1] // 2
    # The vertical ruler stands between the two columns of labels, the horizontal one inside a row.
    vertical = max(longest(dots[:, column]) for column in (middle - 1, middle))
    rows = dots[dots.shape[0] // 2 - 2 : dots.shape[0] // 2 + 2]
    horizontal = max(longest(row) for row in rows)

    assert length == 100
    assert vertical == pytest.approx(down, abs=2)
    assert horizontal == pytest.approx(across, abs=2)


def test_the_shift_moves_frames(tmp_path: Path) -> None:
    """A printer's shift moves the whole page of frames by so many dots."""
    _job, _length, straight = page("a4-3x7-64x38", Printer(dpi="203.2"), tmp_path)
    shifted = Printer(dpi="203.2", shift_x_um=1_000, shift_y_um=500)
    _job, _length, moved = page("a4-3x7-64x38", shifted, tmp_path)
    corner = slice(0, 600), slice(0, 600)

    assert np.array_equal(straight[:600, :600], np.roll(moved, (-4, -8), (0, 1))[corner])
