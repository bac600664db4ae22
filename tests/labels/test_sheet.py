"""Print jobs: where labels start, what is left out, and files that are whole or not there."""

from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2
import pytest
from PIL import Image

from labels import sheet
from labels.label import Label, Shape
from labels.layout import DoesNotFit
from labels.number import Thing, make
from labels.printer import Printer
from labels.sheet import PrintError, write_pdf
from labels.stock import load
from tests.labels.printed import Job, by_pdfium, part_labels

SHEET = load("a4-3x8-64x34")
PRINTER = Printer(dpi="203.2")


def text_of(path: Path) -> list[str]:
    """Return the text of each page, as pdfium reads it."""
    with pypdfium2.PdfDocument(path) as document:
        return [page.get_textpage().get_text_bounded() for page in document]


def filled(path: Path) -> list[set[int]]:
    """Return for each page the positions that have something on them."""
    pages = []
    with pypdfium2.PdfDocument(path) as document:
        for page in document:
            grey = page.render(scale=203.2 / 72, grayscale=True).to_numpy()
            dots = grey.reshape(grey.shape[:2]) < 128
            job = Job(SHEET, PRINTER, (), path)
            pages.append({at for at in range(1, SHEET.count + 1) if dots[job.box(at)].any()})
    return pages


@pytest.mark.parametrize(
    ("count", "options", "pages"),
    [
        (3, {}, [{1, 2, 3}]),
        (3, {"start": 7}, [{7, 8, 9}]),
        (3, {"start": 7, "skip": (8, 9)}, [{7, 10, 11}]),
        (2, {"copies": 2, "skip": (1,)}, [{2, 3, 4, 5}]),
        (3, {"start": 23}, [{23, 24}, {1}]),
        (2, {"start": 24, "skip": (1,)}, [{24}, {1}]),
        (25, {}, [set(range(1, 25)), {1}]),
    ],
    ids=["first", "used sheet", "skip", "copies", "next sheet", "skip first sheet only", "full"],
)
def test_where_labels_go(
    count: int, options: dict[str, Any], pages: list[set[int]], tmp_path: Path
) -> None:
    """Labels fill a sheet from `start`, row by row, past what is skipped, then whole sheets."""
    path = tmp_path / "labels.pdf"
    printed = write_pdf(part_labels(count), SHEET, PRINTER, path, **options)

    assert filled(path) == pages
    assert printed.pages == len(pages)
    assert printed.labels == sum(len(page) for page in pages)


def test_copies_follow_each_other(tmp_path: Path) -> None:
    """Two copies of a label stand side by side before the next label."""
    labels = part_labels(2)
    write_pdf(labels, SHEET, PRINTER, tmp_path / "labels.pdf", copies=2)
    page = by_pdfium(Job(SHEET, PRINTER, labels, tmp_path / "labels.pdf"))
    job = Job(SHEET, PRINTER, labels, tmp_path)
    first, second, third, fourth = (page[job.box(at)] for at in range(1, 5))

    assert np.array_equal(first, second)
    assert np.array_equal(third, fourth)
    assert not np.array_equal(second, third)


@pytest.mark.parametrize(
    ("options", "sentence"),
    [
        (
            {"start": 25},
            (
                "There is no label 25 on a4-3x8-64x34: its labels are 1 to 24, "
                "counted from the top left."
            ),
        ),
        (
            {"start": 0},
            (
                "There is no label 0 on a4-3x8-64x34: its labels are 1 to 24, "
                "counted from the top left."
            ),
        ),
        (
            {"skip": (3, 99)},
            (
                "There is no label 99 on a4-3x8-64x34: its labels are 1 to 24, "
                "counted from the top left."
            ),
        ),
        (
            {"start": 23, "skip": (23, 24)},
            "No label of the first sheet is left from 23 on: skip fewer or start earlier.",
        ),
        ({"copies": 0}, "0 copies cannot be printed: ask for 1 to 1000."),
    ],
    ids=["past the end", "before the start", "skip", "nothing left", "copies"],
)
def test_jobs_that_cannot_be_done(options: dict[str, Any], sentence: str, tmp_path: Path) -> None:
    """A job that asks for what the sheet has not is refused, and nothing is written."""
    with pytest.raises(PrintError) as refusal:
        write_pdf(part_labels(1), SHEET, PRINTER, tmp_path / "labels.pdf", **options)

    assert str(refusal.value) == sentence
    assert list(tmp_path.iterdir()) == []


def test_no_labels(tmp_path: Path) -> None:
    """A job without labels is refused, and nothing is written."""
    with pytest.raises(PrintError, match=r"There is no label to print: name at least one\."):
        write_pdf([], SHEET, PRINTER, tmp_path / "labels.pdf")

    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    """A file that cannot be made is said in a sentence."""
    path = tmp_path / "none" / "labels.pdf"
    with pytest.raises(PrintError) as refusal:
        write_pdf(part_labels(1), SHEET, PRINTER, path)

    assert str(refusal.value) == (
        f"{path} cannot be written (No such file or directory): name a file in a folder of yours."
    )


def test_viewers_are_told_to_print_at_full_size(tmp_path: Path) -> None:
    """The file asks for no scaling (ISO 32000-1, table 150: PrintScaling None)."""
    write_pdf(part_labels(1), SHEET, PRINTER, tmp_path / "labels.pdf")

    assert b"/PrintScaling /None" in (tmp_path / "labels.pdf").read_bytes()


def test_what_does_not_fit_leaves_the_old_file(tmp_path: Path) -> None:
    """The last label does not fit: the file of the last job stays as it was, and no other comes."""
    path = tmp_path / "labels.pdf"
    path.write_bytes(b"the last job")
    bin_label = Label(number=make(Thing.BIN, 1), shape=Shape.BIN, title="B-12")
    with pytest.raises(DoesNotFit):
        write_pdf([*part_labels(30), bin_label], load("roll-25x25"), PRINTER, path)

    assert path.read_bytes() == b"the last job"
    assert list(tmp_path.iterdir()) == [path]


def test_the_same_job_gives_the_same_bytes(tmp_path: Path) -> None:
    """Two runs of a job write equal files."""
    files = [tmp_path / "one.pdf", tmp_path / "two.pdf"]
    for path in files:
        write_pdf(part_labels(30), SHEET, PRINTER, path)

    assert files[0].read_bytes() == files[1].read_bytes()


def test_fonts_are_embedded(tmp_path: Path) -> None:
    """Every font of the file comes with it, so that it prints alike everywhere.

    ISO 32000-1, 9.9: an embedded TrueType font is a FontFile2.
    """
    path = tmp_path / "labels.pdf"
    write_pdf(part_labels(3), SHEET, PRINTER, path)
    content = path.read_bytes()

    assert content.count(b"/Subtype /TrueType") == content.count(b"/FontFile2 ") >= 2


def test_words_are_text(tmp_path: Path) -> None:
    """Another program finds the words and the number in the file, in any alphabet."""
    label = Label(
        number=make(Thing.PART, 123),
        title="Μπροστινή ζάντα",
        lines=("36 спиц", "622 mm"),
        grade="gut (ß)",
        bin_name="車輪 3",
    )
    printed = write_pdf([label], SHEET, PRINTER, tmp_path / "labels.pdf")
    text = text_of(tmp_path / "labels.pdf")[0]

    for words in ("Μπροστινή ζάντα", "36 спиц", "622 mm", "gut (ß)", "車輪 3", "2001 2362"):
        assert words in text
    assert printed.missing == ()


def test_a_character_without_a_font_is_told(tmp_path: Path) -> None:
    """What no embedded font has is printed as a box, and the job says so."""
    label = Label(number=make(Thing.PART, 1), title="Gabel \N{BICYCLE}", lines=("𓀀",))
    printed = write_pdf([label], SHEET, PRINTER, tmp_path / "labels.pdf")

    assert printed.missing == ("𓀀", "\N{BICYCLE}")
    (note,) = printed.notes
    assert note == (
        "No font here has 𓀀 (U+13000, egyptian hieroglyph a001), 🚲 (U+1F6B2, bicycle): a box is"
        " printed; write it another way."
    )
    assert "Gabel \N{WHITE SQUARE}" in text_of(tmp_path / "labels.pdf")[0]


def test_the_page_is_the_sheet(tmp_path: Path) -> None:
    """The page is as large as the sheet, to less than a dot of the printer (1/8 mm)."""
    path = tmp_path / "labels.pdf"
    write_pdf(part_labels(1), SHEET, PRINTER, path)
    with pypdfium2.PdfDocument(path) as document:
        size = document[0].get_size()

    assert [length / 72 * 25.4 for length in size] == pytest.approx([210, 297], abs=0.125)


def test_preview(tmp_path: Path) -> None:
    """A page comes out as a PNG of the asked resolution; a page that is not there is refused."""
    path = tmp_path / "labels.pdf"
    write_pdf(part_labels(25), SHEET, PRINTER, path)
    sheet.preview_png(path, tmp_path / "page.png", page=2, dpi=100)
    with Image.open(tmp_path / "page.png") as picture:
        assert picture.format == "PNG"
        assert picture.size == (827, 1170)
        assert picture.convert("L").getextrema() == (0, 255)
    with pytest.raises(PrintError, match=r"There is no page 3: the job has 2\."):
        sheet.preview_png(path, tmp_path / "other.png", page=3)
    assert not (tmp_path / "other.png").exists()


def test_reportlab_keeps_its_settings(tmp_path: Path) -> None:
    """Another user of ReportLab in the same program finds its setting as it was."""
    from reportlab import rl_config

    before = rl_config.useA85
    write_pdf(part_labels(1), SHEET, PRINTER, tmp_path / "labels.pdf")

    assert rl_config.useA85 == before
