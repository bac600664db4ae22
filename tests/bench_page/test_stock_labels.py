"""Labels as PDF files from the page, kept as print jobs like those of the command."""

from __future__ import annotations

import re
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

import pypdfium2
import pytest

from labels.label import Label
from labels.stock import load
from partsbin.bench.rooms.stock_labels import next_free
from partsbin.workshop.printing import Order
from tests.bench_page.conftest import BenchClient
from tests.conftest import Shop

if TYPE_CHECKING:
    from werkzeug.test import TestResponse

    from labels.number import LabelNumber

PARTS = ["20000140", "20000237"]
BIN = "10000119"


def pages_of(answer: TestResponse) -> int:
    """Return the pages of a PDF that was sent."""
    assert answer.status_code == 200, answer.get_data(as_text=True)
    assert answer.mimetype == "application/pdf"
    with pypdfium2.PdfDocument(BytesIO(answer.get_data())) as pdf:
        return len(pdf)


def test_numbers_become_a_pdf(client: BenchClient) -> None:
    """The labels of numbers come as a PDF to keep, and the job stands in the list of jobs."""
    answer = client.post("/stock/labels", data={"number": PARTS})
    assert pages_of(answer) == 1
    assert answer.headers["Content-Disposition"].startswith("attachment")
    job = client.shop.asked("label", "jobs")[0]
    assert (job["labels"], job["who"], job["file"]) == (2, "ada", "labels-20000140.pdf")
    assert job["stock"] == "a4-3x8-64x34"


def test_a_job_of_the_page_is_printed_again(client: BenchClient, tmp_path: Path) -> None:
    """What was printed on the page is not new any more, and the command prints it again."""
    due = len(re.findall(r"<strong>shifter", client.read("/stock/labels?due=yes")))
    client.post("/stock/labels", data={"number": PARTS})
    assert len(re.findall(r"<strong>shifter", client.read("/stock/labels?due=yes"))) == due - 2
    client.shop.told("label", "--again", "-o", str(tmp_path / "again.pdf"))


def test_all_that_is_new(client: BenchClient) -> None:
    """Everything of one shape that was never printed comes as one file, and then is new no more."""
    page = client.read("/stock/labels?due=yes")
    assert "12 labels of bins" in page
    sent = {"due": "yes", "shape": "bin", "stock": "a4-2x4-99x68"}
    assert pages_of(client.post("/stock/labels", data=sent)) == 2
    assert "labels of bins" not in client.read("/stock/labels?due=yes")
    again = client.post("/stock/labels", data=sent)
    assert "Nothing came in or changed" in again.get_data(as_text=True)


def test_the_sheet_is_remembered(client: BenchClient) -> None:
    """A device keeps its sheet for each shape and which label of it is free next."""
    sent = {"number": PARTS, "stock": "a4-3x8-70x37", "start": "7", "skip": "8"}
    client.post("/stock/labels", data=sent)
    page = client.read("/stock/labels?number=20000334")
    assert "<option selected>a4-3x8-70x37</option>" in page
    assert re.search(r'name="start"[^>]*value="10"', page)
    assert re.search(r'name="start"[^>]*value="1"', client.read(f"/stock/labels?number={BIN}"))


def test_several_shapes_ask_first(client: BenchClient) -> None:
    """Labels that go on several stocks are shown in piles, each with its own sheet."""
    answer = client.post("/stock/labels", data={"number": [*PARTS, BIN]})
    page = answer.get_data(as_text=True)
    assert answer.mimetype == "text/html"
    assert "2 labels of parts" in page
    assert "1 label of a bin" in page
    one_sheet = {"number": [*PARTS, BIN], "stock": "a4-2x4-99x68"}
    assert pages_of(client.post("/stock/labels", data=one_sheet)) == 1


def test_marked_parts_are_shown_first(client: BenchClient) -> None:
    """From a list the labels are shown before they are printed, and nothing is kept yet."""
    page = client.post("/stock/labels", data={"number": PARTS, "choose": "1"})
    assert "2 labels of parts" in page.get_data(as_text=True)
    assert client.shop.asked("label", "jobs") == []


def test_numbers_and_names_are_typed(client: BenchClient) -> None:
    """Numbers in any grouping and names of bins and bikes may be typed, parted by commas."""
    page = client.read("/stock/labels?numbers=A1, 2000 0140, Teasel")
    for told in ("1 label of a part", "1 label of a bin", "1 tag of a bike"):
        assert told in page


@pytest.mark.parametrize(
    ("sent", "status"),
    [
        pytest.param({}, 400, id="nothing"),
        pytest.param({"number": ["20000141"]}, 400, id="wrong check digits"),
        pytest.param({"number": ["29999967"]}, 404, id="no part of that number"),
        pytest.param({"number": PARTS, "stock": "a5-1x1"}, 422, id="unknown stock"),
        pytest.param({"number": PARTS, "stock": "../../etc/passwd.toml"}, 422, id="a strange file"),
        pytest.param({"number": PARTS, "start": "99"}, 422, id="past the sheet"),
        pytest.param({"number": PARTS, "start": "first"}, 422, id="no number"),
        pytest.param({"number": PARTS, "skip": "x"}, 422, id="no labels to skip"),
        pytest.param({"number": PARTS, "copies": "0"}, 422, id="no copies"),
        pytest.param({"number": PARTS, "printer": "nobody's"}, 404, id="unknown printer"),
        pytest.param({"number": [BIN], "stock": "roll-25x13"}, 422, id="too small a label"),
    ],
)
def test_refusals_print_nothing(
    client: BenchClient, snapshot: Callable[[Shop], str], sent: dict[str, object], status: int
) -> None:
    """What cannot be printed is told, and no job is kept of it."""
    before = snapshot(client.shop)
    assert client.post("/stock/labels", data=sent).status_code == status
    assert snapshot(client.shop) == before


def test_a_kept_printer(client: BenchClient) -> None:
    """A printer that the workshop keeps can be chosen, and is remembered."""
    client.shop.told("label", "printer", "laser", "--dpi", "600")
    assert pages_of(client.post("/stock/labels", data={"number": PARTS, "printer": "laser"})) == 1
    assert client.shop.asked("label", "jobs")[0]["printer"] == "laser"
    assert "<option selected>laser</option>" in client.read("/stock/labels?number=20000140")


@pytest.mark.parametrize(
    ("labels", "start", "skip", "copies", "following"),
    [
        pytest.param(3, 1, (), 1, 4, id="next on the sheet"),
        pytest.param(3, 7, (8,), 1, 11, id="past one that was gone"),
        pytest.param(24, 1, (), 1, 1, id="a full sheet"),
        pytest.param(25, 1, (), 1, 2, id="one on the second sheet"),
        pytest.param(5, 23, (), 2, 9, id="copies"),
    ],
)
def test_the_next_free_label(
    labels: int, start: int, skip: tuple[int, ...], copies: int, following: int
) -> None:
    """After a job the next free label of the last sheet of 24 is known. Counted by hand."""
    stock = load("a4-3x8-70x37")
    number: LabelNumber = PARTS[0]  # type: ignore[assignment] # any number will do
    one = Order(
        labels=[Label(number=number, title="chain")] * labels,
        stock=stock,
        asked=stock.name,
        path=Path("labels.pdf"),
        preview=None,
        start=start,
        skip=skip,
        copies=copies,
    )
    assert next_free(one, stock) == following
