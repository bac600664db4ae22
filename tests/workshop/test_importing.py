"""CSV files are taken in whole, or not at all with every fault by line."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from demo_db.loader import FOLDER
from partsbin.stock.database import open_database
from partsbin.workshop.csv_files import FaultsError
from partsbin.workshop.importing import import_folder
from tests.conftest import Shop


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a copy of the invented workshop's files."""
    copy = tmp_path / "files"
    shutil.copytree(FOLDER, copy, ignore=lambda _, names: [n for n in names if ".csv" not in n])
    return copy


def take_in(folder: Path, database: Path) -> None:
    """Take a folder of CSV files into a database."""
    with open_database(str(database), "ada") as opened, opened.changing("import") as session:
        import_folder(session, folder)


def test_every_fault_is_told_with_its_line(folder: Path, tmp_path: Path) -> None:
    """All faults of all files come out at once, each with file, line and column."""
    with (folder / "parts.csv").open("a") as file:
        file.write("seatpst,D1,good,,0,,,,\n")
        file.write("seatpost,Z9,fine,,ten,,,diameter=272,\n")
    with (folder / "mounted.csv").open("a") as file:
        file.write("Nobody,saddle,saddle,good,sound,,,\n")
        file.write("Teasel,bell,saddle,good,sound,,,\n")
    lines = len((FOLDER / "parts.csv").read_text().splitlines())
    with pytest.raises(FaultsError) as refused:
        take_in(folder, tmp_path / "shop.db")
    told = {(fault.file, fault.line - lines, fault.column) for fault in refused.value.faults}
    assert {
        ("parts.csv", 1, "kind"),
        ("parts.csv", 2, "bin"),
        ("parts.csv", 2, "grade"),
        ("parts.csv", 2, "cost"),
        ("parts.csv", 2, "attributes"),
    } <= told
    assert {fault.column for fault in refused.value.faults if fault.file == "mounted.csv"} == {
        "bike",
        "kind",
    }


def test_nothing_is_taken_in_with_a_fault(folder: Path, tmp_path: Path) -> None:
    """One fault in the last file leaves the database empty."""
    with (folder / "mounted.csv").open("a") as file:
        file.write("Teasel,nowhere,saddle,good,sound,,,\n")
    with pytest.raises(FaultsError):
        take_in(folder, tmp_path / "shop.db")
    from partsbin.stock.places import list_bins

    with open_database(str(tmp_path / "shop.db"), "ada") as opened, opened.reading() as session:
        assert list_bins(session) == []


CONTENTS = {
    "unknown column": ("kind,bin,colour\nsaddle,D1,red\n", "unknown column"),
    "missing column": ("kind\nsaddle\n", "this column is missing"),
    "no text": (b"\xff\xfe\x00kind", "no UTF-8 text"),
    "too many cells": ("kind,bin\nsaddle,D1,more\n", "3 cells under 2 heads"),
    "zero byte": ("kind,bin\nsaddle,D1\0\n", "line 2: a zero byte"),
    "open quote": ('kind,bin\n"saddle,D1\n', "no CSV"),
}


@pytest.mark.parametrize(("text", "told"), CONTENTS.values(), ids=CONTENTS)
def test_broken_files(folder: Path, tmp_path: Path, text: str | bytes, told: str) -> None:
    """A file that is no table of ours is refused with what is wrong with it."""
    raw = text if isinstance(text, bytes) else text.encode()
    (folder / "parts.csv").write_bytes(raw)
    with pytest.raises(FaultsError, match=told):
        take_in(folder, tmp_path / "shop.db")


def test_demo_workshop_is_as_large_as_promised() -> None:
    """The invented workshop has 12 bins, over 120 parts of over 30 kinds and 6 bikes."""
    import csv

    def rows(name: str) -> list[dict[str, str]]:
        with (FOLDER / name).open(newline="") as file:
            return list(csv.DictReader(file))

    parts = rows("parts.csv")
    assert len(rows("bins.csv")) == 12
    assert len(parts) >= 120
    assert len({part["kind"] for part in parts}) >= 30
    assert len({part["bin"] for part in parts}) == 12
    assert len(rows("bikes.csv")) == 6


def test_faults_of_minimum_levels_name_line_and_column(empty_shop: Shop, tmp_path: Path) -> None:
    """A level file is taken in as a whole or not at all, as every other file."""
    file = tmp_path / "levels.csv"
    file.write_text(
        "what,attributes,minimum,pack,lead days\n"
        "tube,bsd=622,six,10,5\n"
        "toob,,3,,\n"
        "40000099,,3,,-1\n"
        "tube,,3,,7\n"
    )
    refused = empty_shop.run("import", str(file))
    assert refused.exit_code == 2
    for place in ("line 2, minimum", "line 3, what", "line 4, lead days"):
        assert place in refused.stderr
    assert empty_shop.asked("reorder", "list") == []


def test_a_lead_time_that_no_order_has_is_refused(empty_shop: Shop, tmp_path: Path) -> None:
    """A figure that the record could not even hold is told with its place, as any other fault."""
    (tmp_path / "prices.csv").write_text(f"kind,price,lead days\nsaddle,3,{10**20}\n")
    refused = empty_shop.run("import", str(tmp_path / "prices.csv"))
    assert refused.exit_code == 2
    assert "prices.csv line 2, lead days" in refused.stderr
