"""Label stocks and printers from the command line: drawings, faults by line, what tests showed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pypdfium2
import pytest

from labels.stock import names
from tests.conftest import Shop

MINE = """note = "measured on the sheet"
media = "sheet"
page = [210, 297]
columns = 2
rows = 5
label = [90, 50]
first = [10, 20]
pitch = [95, 52]
"""


@pytest.fixture(autouse=True)
def _in_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Work in a folder of the test's own, with stocks of nobody else."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))


def own_stock(text: str, name: str = "a4-2x5-90x50") -> Path:
    """Put a stock into the user's own folder."""
    folder = Path("config/partsbin/stocks")
    folder.mkdir(parents=True, exist_ok=True)
    (folder / f"{name}.toml").write_text(text)
    return folder / f"{name}.toml"


def test_every_stock_is_drawn(shop: Shop) -> None:
    """The list has every stock by name, with a drawing of its labels and their measures."""
    drawn = shop.told("label", "stocks")
    assert all(name in drawn for name in names())
    assert "│ 22 │ 23 │ 24 │" in drawn
    assert "24 labels of 70 x 37 mm" in drawn
    assert max(map(len, drawn.splitlines())) <= 100
    assert [one["stock"] for one in shop.asked("label", "stocks")] == list(names())


def test_stocks_by_the_beginning_of_their_name(shop: Shop) -> None:
    """A beginning lists what begins like it; one alone also tells what goes on its labels."""
    rolls = [one["stock"] for one in shop.asked("label", "stocks", "roll")]
    assert rolls == [name for name in names() if name.startswith("roll")]
    alone = shop.told("label", "stocks", "roll-25x13")
    assert "part: QR, number" in alone
    assert "bin:  does not fit" in alone


def test_own_stock_by_name_and_file(shop: Shop) -> None:
    """A stock in the user's folder is used by name, and any other by its file."""
    file = own_stock(MINE)
    assert "10 labels of 90 x 50 mm" in shop.told("label", "stocks", "a4-2x5-90x50")
    shop.told("label", "A1", "-o", "a.pdf", "--stock", "a4-2x5-90x50")
    shop.told("label", "A1", "-o", "b.pdf", "--stock", str(file))
    shop.told("label", "--again", "-o", "c.pdf")
    assert Path("c.pdf").read_bytes() == Path("b.pdf").read_bytes() == Path("a.pdf").read_bytes()


def test_own_stock_with_a_fault(shop: Shop) -> None:
    """A faulty stock of the user's is told with its line; the others are listed all the same."""
    own_stock(MINE.replace("columns", "colums"), "broken")
    result = shop.run("label", "stocks")
    assert result.exit_code == 0
    assert "line 4" in result.stderr
    assert "a4-3x8-70x37" in result.stdout
    result = shop.run("label", "A1", "-o", "a.pdf", "--stock", "broken")
    assert result.exit_code == 2
    assert "line 4" in result.stderr
    assert not Path("a.pdf").exists()


FAULTS = {
    "misspelt key": (MINE.replace("columns", "colums"), 4, "did you mean `columns`?"),
    "labels past the page": (MINE.replace("rows = 5", "rows = 6"), 5, "past the page's height"),
    "no TOML": (MINE + "oops", 9, "no TOML"),
}


@pytest.mark.parametrize(("text", "line", "told"), FAULTS.values(), ids=FAULTS)
def test_check_tells_fault_and_line(shop: Shop, text: str, line: int, told: str) -> None:
    """Each fault of a stock is told with its line, and the command fails."""
    Path("mine.toml").write_text(text)
    result = shop.run("label", "stocks", "check", "mine.toml")
    assert result.exit_code == 1
    assert f"mine.toml, line {line}: " in result.stdout
    assert told in result.stdout
    held = shop.run("label", "stocks", "check", "mine.toml", "--json")
    assert f'"line": {line}' in held.stdout


def test_check_of_a_good_stock(shop: Shop) -> None:
    """A stock without a fault is drawn, with what goes on it and how it is used."""
    Path("mine.toml").write_text(MINE)
    result = shop.run("label", "stocks", "check", "mine.toml")
    assert result.exit_code == 0
    assert "│ 9  │ 10 │" in result.stdout
    assert "part: QR, bars, number, words" in result.stdout
    assert "config/partsbin/stocks" in result.stderr
    assert shop.run("label", "stocks", "check", "mine.txt").exit_code == 2
    missing = shop.run("label", "stocks", "check", "none.toml")
    assert missing.exit_code == 1
    assert "there is no file none.toml; check its name" in missing.stderr


def test_test_page(shop: Shop) -> None:
    """A test page is one page of the stock, and it is said how long its rulers should be."""
    told = shop.told("label", "test", "--stock", "roll-57x32", "-o", "t.pdf")
    assert "rulers of 20 mm" in told
    assert "--ruler 20" in told
    held = shop.asked("label", "test", "--stock", "a4-3x8-70x37", "-o", "t.pdf", "--dpi", "300")
    assert held["ruler_mm"] == 100
    with pypdfium2.PdfDocument("t.pdf") as document:
        assert len(document) == 1


def edges(pdf: str) -> tuple[int, int]:
    """Return the first dark column and row of a page in tenths of a millimetre."""
    with pypdfium2.PdfDocument(pdf) as document:
        page = document[0].render(scale=254 / 72, grayscale=True).to_numpy()
    dark = page.reshape(page.shape[:2]) < 128
    return int(np.argmax(dark.any(0))), int(np.argmax(dark.any(1)))


@pytest.mark.every_database
def test_what_a_test_page_showed_is_applied(shop: Shop) -> None:
    """Frames that lie 1 mm right of and 2 mm above the edges move the next print left and down."""
    shop.told("label", "printer", "laser", "--dpi", "600", "--right", "1", "--down", "-2,0")
    shop.told("label", "A1", "-o", "plain.pdf")
    shop.told("label", "A1", "-o", "moved.pdf", "--printer", "Laser")
    plain, moved = edges("plain.pdf"), edges("moved.pdf")
    assert moved[0] - plain[0] == pytest.approx(-10, abs=1)
    assert moved[1] - plain[1] == pytest.approx(20, abs=1)
    assert shop.asked("label", "jobs")[0]["printer"] == "laser"
    shop.told("label", "--again", "-o", "again.pdf")
    assert Path("again.pdf").read_bytes() == Path("moved.pdf").read_bytes()


@pytest.mark.every_database
def test_readings_add_up(shop: Shop) -> None:
    """A second test page shows what the first left; `--afresh` forgets both; dots stay."""
    keep = ("label", "printer", "laser")
    shop.told(*keep, "--dpi", "203.2", "--right", "1", "--ruler-x", "99.5")
    held = shop.asked(*keep, "--right", "-0.2", "--ruler-x", "10.02", "--ruler", "10")[0]
    assert held["right_um"] == -800
    # 100 / 99.5 and 10 / 10.02, as millionths to be added.
    assert held["wider_ppm"] == 5025 - 1996
    assert held["dpi"] == "203.2"
    assert shop.asked(*keep) == [held]
    assert shop.asked("label", "printers") == [held]
    held = shop.asked(*keep, "--afresh", "--down", "0.5")[0]
    assert (held["right_um"], held["down_um"], held["wider_ppm"]) == (0, -500, 0)
    assert held["dpi"] == "203.2"


REFUSED = {
    "new printer without dots": (("laser", "--right", "1"), 2, "--dpi"),
    "unknown printer": (("laser",), 1, "no printer 'laser'"),
    "ruler of a metre": (("laser", "--dpi", "600", "--ruler-x", "998"), 2, "measure it again"),
    "shift past reason": (("laser", "--dpi", "600", "--right", "30"), 2, "measure the test page"),
    "no length": (("laser", "--dpi", "600", "--right", "far"), 2, "type it like 0.4"),
    "no dots": (("laser", "--dpi", "fine"), 2, "no resolution"),
    "no name": (("supplier", "--dpi", "600"), 2, "means something else"),
}


@pytest.mark.parametrize(("words", "code", "told"), REFUSED.values(), ids=REFUSED)
def test_a_refused_reading_is_not_kept(
    shop: Shop, snapshot: Callable[[Shop], str], words: tuple[str, ...], code: int, told: str
) -> None:
    """A reading that no printer gives is one sentence, and nothing is kept of it."""
    before = snapshot(shop)
    result = shop.run("label", "printer", *words)
    assert result.exit_code == code, result.output
    assert told in result.stderr
    assert result.stdout == ""
    assert snapshot(shop) == before
