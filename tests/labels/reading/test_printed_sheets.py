"""Our own sheets, painted by another program, are read by the reader: what we print we can read."""

from pathlib import Path

import numpy as np
import pypdfium2
import pytest

from labels.label import Label, Shape
from labels.number import Thing, make
from labels.printer import Printer
from labels.reading.reader import Reader
from labels.sheet import write_pdf
from labels.stock import LabelStock, load
from tests.labels.reading.camera_simulator import Camera, View, shoot
from tests.labels.reading.label_faces import DOTS, Face, Grey


def page(path: Path, stock: LabelStock, count: int, dpi: int) -> Grey:
    """Return a page of labels as paper: 1 is white."""
    labels = [
        Label(
            number=make(Thing.PART, 500 + at),
            shape=Shape.PART,
            title="Seatpost",
            lines=("27.2 mm", "350 mm long"),
            grade="good",
            bin_name="B-12",
        )
        for at in range(count)
    ]
    write_pdf(labels, stock, Printer(dpi=300), path)
    document = pypdfium2.PdfDocument(path)
    try:
        painted = document[0].render(scale=dpi / 72, grayscale=True).to_numpy()
    finally:
        document.close()
    return np.asarray(painted.reshape(painted.shape[:2]) / 255, np.float32)


@pytest.mark.parametrize(
    "name", ["a4-4x10-46x25", "a4-3x8-64x34", "a4-5x13-38x21", "a4-7x27-25x10"]
)
def test_every_label_of_a_scanned_sheet_is_read(tmp_path: Path, name: str) -> None:
    """A sheet scanned at 200 dpi, turned by a little: all its numbers and no other."""
    stock = load(name)
    count = stock.columns * stock.rows
    paper = page(tmp_path / "sheet.pdf", stock, count, 200)
    with Reader() as reader:
        found = {reading.number for reading in reader.still((paper * 255).astype(np.uint8))}

    assert found == {make(Thing.PART, 500 + at) for at in range(count)}


@pytest.mark.parametrize("turn", [10, 47, 100, 215])
def test_a_printed_label_is_read_by_the_camera(tmp_path: Path, turn: int) -> None:
    """One label cut from a sheet and held before the camera at any turn."""
    stock = load("a4-4x10-46x25")
    dpi = 600
    paper = page(tmp_path / "sheet.pdf", stock, 1, dpi)
    ink = np.nonzero(paper < 0.5)
    window = paper[
        max(ink[0].min() - 30, 0) : ink[0].max() + 30, max(ink[1].min() - 30, 0) : ink[1].max() + 30
    ]
    number = make(Thing.PART, 500)
    # 8 dots at 600 dpi are 0.34 mm, about the X of such a label.
    face = Face(window, number, None, None)
    held = View(pixels_per_module=2.0 * DOTS / 8, turn=turn)
    frame = shoot([(face, held)], Camera(), np.random.default_rng(turn)).frame
    with Reader() as reader:
        found = [reading.number for reading in reader.still(frame)]

    assert found == [number]
