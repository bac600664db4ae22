"""Importing by command: files and folders, trials, spreadsheets with a mapping, faults by line."""

from __future__ import annotations

import os
import pty
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.conftest import Shop

HEAD = "What;Description;Where;Price;Colour;Size\n"
SHEET = HEAD + (
    "gear lever;left one, 8 speed;top drawer;£4,50;black;\n"
    "Saddle;;Shelf 2;2.00;;\n"
    "seat post;scratched;Shelf 2;;silver;27,2\n"
)
MAPPING = """
make_bins = true

[columns]
"What" = "kind"
"description" = "note"
"Where" = "bin"
"Price" = "cost"
"Size" = "attribute diameter"

[words.kind]
"gear lever" = "shifter"
"seat post" = "seatpost"

[words.bin]
"top drawer" = "D1"

[defaults]
grade = "fair"
origin = "the shed"
"""


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    """Return a spreadsheet that somebody kept, as another country's program saves it."""
    file = tmp_path / "shed.csv"
    file.write_text(SHEET, encoding="utf-8-sig")
    (tmp_path / "shed.toml").write_text(MAPPING)
    return file


def test_a_spreadsheet_comes_in_by_a_mapping(empty_shop: Shop, sheet: Path) -> None:
    """Words and columns are taken for what the mapping says; what it does not name is a note."""
    mapping = str(sheet.with_suffix(".toml"))

    told = empty_shop.asked("import", str(sheet), "--mapping", mapping)

    assert (told["taken_in"], told["parts"], told["to_inspect"]) == (True, 3, 2)
    parts = {p["kind"]: p for p in empty_shop.asked("find", "--everywhere")["parts"]}
    assert set(parts) == {"shifter", "saddle", "seatpost"}
    assert parts["shifter"]["place"] == "bin D1"
    assert parts["shifter"]["cost"] == "4.50"
    assert parts["shifter"]["note"] == "left one, 8 speed; Colour: black"
    assert parts["saddle"]["place"] == "bin Shelf 2"
    assert (parts["saddle"]["grade"], parts["saddle"]["origin"]) == ("fair", "the shed")
    assert parts["seatpost"]["attributes"] == {"diameter_mm": 27.2}
    assert parts["seatpost"]["note"] == "scratched; Colour: silver"


def test_faults_of_a_spreadsheet_have_its_own_words(empty_shop: Shop, sheet: Path) -> None:
    """A fault names the spreadsheet's line and column, and nothing is taken in."""
    sheet.write_text(SHEET + "sadle;;D1;ten;;\nsaddle;;;1;;\nseatpost;;D1;1;;272\n")

    result = empty_shop.run("import", str(sheet), "--mapping", str(sheet.with_suffix(".toml")))

    assert result.exit_code == 2
    for told in (
        "shed.csv line 5, What: unknown kind 'sadle'; did you mean 'saddle'?",
        "shed.csv line 6, Where: may not be empty",
        "shed.csv line 7, Size: ",
        "nothing was taken in",
    ):
        assert told in result.stderr
    assert empty_shop.asked("bin", "list") == []


MAPPINGS = {
    "no TOML": ("columns = ", "is no TOML"),
    "unknown section": ("[colums]\n", "did you mean 'columns'?"),
    "unknown meaning": ('[columns]\n"What" = "kynd"\n', "did you mean 'kind'?"),
    "no text": ("[columns]\nWhat = 3\n", "texts in quotes"),
    "two columns for one": ('[columns]\nWhat = "kind"\nSize = "kind"\n', "mean the same"),
    "words of a number": ('[words.cost]\nfree = "0"\n', "cost"),
    "no kind": ('[columns]\n"Where" = "bin"\n', "no column means the kind"),
    "missing column": ('[columns]\n"Wat" = "kind"\n', "did you mean 'what'?"),
    "make_bins is a word": ('make_bins = "yes"\n', "true or false"),
}


@pytest.mark.parametrize(("text", "told"), MAPPINGS.values(), ids=MAPPINGS)
def test_mappings_that_are_not_understood(
    empty_shop: Shop, sheet: Path, text: str, told: str
) -> None:
    """What is wrong with a mapping file is said with what is allowed."""
    sheet.with_suffix(".toml").write_text(text)

    result = empty_shop.run("import", str(sheet), "--mapping", str(sheet.with_suffix(".toml")))

    assert result.exit_code == 2
    assert told in result.stderr
    assert "Traceback" not in result.output


def test_a_trial_changes_nothing(
    shop: Shop, tmp_path: Path, snapshot: Callable[[Shop], str]
) -> None:
    """With --dry-run the same is told, and the record stays as it was to the last number."""
    (tmp_path / "bins.csv").write_text("name\nNew\n")
    (tmp_path / "parts.csv").write_text("kind,bin\nsaddle,New\nsaddle,A1\n")
    before = snapshot(shop)

    told = shop.asked("import", str(tmp_path), "--dry-run")

    assert (told["taken_in"], told["bins"], told["parts"]) == (False, 1, 2)
    assert snapshot(shop) == before
    assert shop.asked("import", str(tmp_path))["taken_in"]
    (tmp_path / "parts.csv").write_text("kind,bin\nsadle,New\n")
    assert shop.run("import", str(tmp_path), "--dry-run").exit_code == 2


def test_files_by_name(shop: Shop, tmp_path: Path) -> None:
    """Files are taken in by what they are called, in the order that they need."""
    (tmp_path / "mounted.csv").write_text(
        "bike,slot,kind,condition\nTansy,frame,frame,\nTeasel,bell,saddle,\n"
    )
    (tmp_path / "Bikes.csv").write_text("name,price\nTansy,12.50\n")
    files = [str(tmp_path / name) for name in ("mounted.csv", "Bikes.csv")]
    refused = shop.run("import", *files)
    assert "mounted.csv line 3, slot" in refused.stderr or "line 3, kind" in refused.stderr
    (tmp_path / "mounted.csv").write_text("bike,slot,kind\nTansy,frame,frame\n")

    assert shop.asked("import", *files)["mounted"] == 1
    assert shop.asked("bike", "show", "Tansy")["parts"][0]["cost"] == "12.50"


NUMBERED = {
    "in use": ("number,kind,bin\n20000140,saddle,A1\n", "in use"),
    "of another thing": ("number,kind,bin\n10000119,saddle,A1\n", "number of a bin"),
    "a wrong digit": ("number,kind,bin\n20000141,saddle,A1\n", "check digits"),
    "twice": ("number,kind,bin\n20099953,saddle,A1\n20099953,saddle,A1\n", "on a line before"),
    "of two parts": (
        "number,kind,bin,quantity\n40099995,grips,A1,2\n40099995,saddle,A1,2\n",
        "another part",
    ),
    "a lot without quantity": ("number,kind,bin\n40099995,grips,A1\n", "a quantity"),
    "a part with quantity": ("number,kind,bin,quantity\n20099953,grips,A1,2\n", "no quantity"),
    "nothing written off": (
        "number,kind,bin,quantity,cost\n20099953,grips,scrapped,0,5\n",
        "number of another line",
    ),
}


@pytest.mark.parametrize(("text", "told"), NUMBERED.values(), ids=NUMBERED)
def test_numbers_that_cannot_be(
    shop: Shop, tmp_path: Path, snapshot: Callable[[Shop], str], text: str, told: str
) -> None:
    """A label number means one thing for ever: what would break that is refused by line."""
    (tmp_path / "parts.csv").write_text(text)
    before = snapshot(shop)

    result = shop.run("import", str(tmp_path / "parts.csv"))

    assert result.exit_code == 2
    assert told in result.stderr
    assert "parts.csv line " in result.stderr
    assert snapshot(shop) == before


def test_a_slot_holds_one_part(shop: Shop, tmp_path: Path) -> None:
    """A slot that is filled, in the record or by a line before, is told by line."""
    (tmp_path / "bikes.csv").write_text("name\nTansy\n")
    (tmp_path / "mounted.csv").write_text(
        "bike,slot,kind\nTansy,saddle,saddle\nTansy,saddle,saddle\nTeasel,saddle,saddle\n"
    )

    result = shop.run("import", str(tmp_path))

    assert "line 3, slot: saddle of Tansy is filled already" in result.stderr
    assert "line 4, slot: saddle of Teasel is filled already" in result.stderr


def test_files_that_say_nothing(empty_shop: Shop, tmp_path: Path) -> None:
    """A file that is called something else, or is not there, is refused with what to do."""
    (tmp_path / "part.csv").write_text("kind,bin\n")

    named = empty_shop.run("import", str(tmp_path / "part.csv"))
    missing = empty_shop.run("import", str(tmp_path / "none"))
    empty = empty_shop.run("import", str(tmp_path))

    assert named.exit_code == 2
    assert "--mapping" in named.stderr
    assert "did you mean 'parts'?" in named.stderr
    assert missing.exit_code == empty.exit_code == 1


def test_progress_is_shown_on_a_terminal_only(shop: Shop, tmp_path: Path) -> None:
    """A terminal sees the bar on standard error; a pipe sees nothing but the messages."""
    (tmp_path / "bins.csv").write_text("name\n" + "".join(f"N{at}\n" for at in range(300)))
    words = [sys.executable, "-m", "partsbin", "--db", str(shop.database), "import", "--dry-run"]
    words.append(str(tmp_path / "bins.csv"))

    piped = subprocess.run(words, capture_output=True, text=True, check=True)
    reader, terminal = pty.openpty()
    shown = subprocess.run(words, stdout=subprocess.PIPE, stderr=terminal, text=True, check=True)
    os.close(terminal)

    assert "taking in" not in piped.stderr + piped.stdout + shown.stdout
    assert "taking in" in os.read(reader, 100_000).decode()
    os.close(reader)
