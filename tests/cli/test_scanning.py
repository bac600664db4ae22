"""From the record to a PDF, to a picture, to a number, and back to the part."""

from __future__ import annotations

from pathlib import Path

import pytest

from demo_db.photograph import photograph
from labels.number import Thing as Named
from labels.number import grouped, make
from tests.conftest import Shop


def first(shop: Shop, *terms: str) -> str:
    """Return the number of the first part that a search finds."""
    number = shop.asked("find", *terms)["parts"][0]["number"]
    assert isinstance(number, str)
    return number


def pictured(shop: Shop, folder: Path, *things: str) -> str:
    """Return the name of a picture of a sheet with the labels of some things."""
    shop.told("label", *things, "-o", str(folder / "sheet.pdf"))
    photograph(folder / "sheet.pdf", folder / "sheet.jpg")
    return str(folder / "sheet.jpg")


def test_label_to_picture_to_part(shop: Shop, tmp_path: Path) -> None:
    """A part, a bin and a bike in one picture are read and looked up."""
    number = first(shop, "saddle")
    read = shop.asked("scan", pictured(shop, tmp_path, number, "A1", "Teasel"))["read"]
    what = {entry["number"]: entry["what"] for entry in read}
    assert what[number].startswith("saddle")
    assert {w.split(",")[0] for w in what.values()} >= {"bin A1", "bike Teasel"}


def test_scan_into_a_bin(shop: Shop, tmp_path: Path) -> None:
    """Parts in a picture are put into a bin, and a second picture says they are there already."""
    numbers = [part["number"] for part in shop.asked("find", "bell")["parts"]]
    picture = pictured(shop, tmp_path, *numbers)
    done = shop.asked("scan", picture, "--into", "A1")["read"]
    assert sorted(entry["part"] for entry in done) == sorted(numbers)
    again = shop.run("scan", picture, "--into", "A1")
    assert again.exit_code == 1
    assert "in bin A1 already" in again.stderr


def test_keyboard_scanner(shop: Shop) -> None:
    """Lines on standard input act; a wrong digit, and a number that nothing has, are told."""
    number = first(shop, "bell")
    wrong = number[:-1] + str((int(number[-1]) + 1) % 10)
    missing = make(Named.PART, 99)
    result = shop.run(
        "scan", "--keys", "--into", "A1", typed=f"{grouped(make(Named.PART, 9998))}\n"
    )
    assert result.exit_code == 1
    result = shop.run("scan", "--keys", "--into", "B1", typed=f"{wrong}\n{number}\n\n{missing}\n")
    assert "check digits" in result.stderr
    assert f"{grouped(make(Named.PART, 99))}" in result.output or missing in result.output
    assert "-> bin B1" in result.stdout


def test_a_bin_is_not_mounted(shop: Shop) -> None:
    """A label of something else than a part is said to be that, and nothing is done."""
    bin_number = shop.asked("bin", "list")[0]["number"]
    result = shop.run("scan", "--keys", "--onto", "Teasel", typed=f"{bin_number}\n")
    assert result.exit_code == 1
    assert "is bin A1, not a part" in result.stderr


def test_start_leaves_used_labels_free(shop: Shop, tmp_path: Path) -> None:
    """A sheet that starts at its seventh label still reads."""
    number = first(shop, "bell")
    sheet = tmp_path / "sheet.pdf"
    shop.told("label", number, "-o", str(sheet), "--start", "7")
    photograph(sheet, tmp_path / "sheet.jpg")
    read = shop.asked("scan", str(tmp_path / "sheet.jpg"))["read"]
    assert [entry["number"] for entry in read] == [number]


@pytest.mark.parametrize("stock", ["a4-3x8-70x37", "letter-3x10-67x25", "roll-57x32"])
def test_stocks_read_back(shop: Shop, tmp_path: Path, stock: str) -> None:
    """An A4, a US Letter and a roll stock print labels that read back from a preview."""
    number = first(shop, "saddle")
    preview = tmp_path / "preview.png"
    pdf = str(tmp_path / "labels.pdf")
    shop.told("label", number, "-o", pdf, "--stock", stock, "--preview", str(preview))
    read = shop.asked("scan", str(preview))["read"]
    assert [entry["number"] for entry in read] == [number]


def test_a_sheet_is_told_in_reading_order(shop: Shop, tmp_path: Path) -> None:
    """A photographed sheet is told label by label as it was printed, row by row."""
    numbers = [part["number"] for part in shop.asked("find", "--most", "24")["parts"]]
    picture = pictured(shop, tmp_path, *numbers)
    read = shop.asked("scan", picture)["read"]
    assert [entry["number"] for entry in read] == numbers
