"""Labels from the command line: files, stocks, jobs; and nothing at all after a refusal."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tests.conftest import Shop

BIN_STOCK, PART_STOCK, TAGS = "a4-2x4-99x68", "a4-3x8-64x34", "roll-102x51"


@pytest.fixture(autouse=True)
def _in_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Work in a folder of the test's own, with stocks and printers of nobody else."""
    (tmp_path / "desk").mkdir()
    monkeypatch.chdir(tmp_path / "desk")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    for name in ("PARTSBIN_STOCK", "PARTSBIN_PRINTER"):
        monkeypatch.delenv(name, raising=False)


def printed(shop: Shop, *words: str) -> list[dict[str, Any]]:
    """Return the files that a print wrote."""
    files = shop.asked("label", *words)["files"]
    assert isinstance(files, list)
    return files


def number_of(shop: Shop, *terms: str) -> str:
    """Return the number of the first part that a search finds."""
    return str(shop.asked("find", *terms)["parts"][0]["number"])


def test_a_file_for_each_stock(shop: Shop) -> None:
    """Parts, bins and bikes on stocks of their own go into files with the stocks' names."""
    part = number_of(shop, "saddle")
    files = printed(
        shop,
        *("A1", part, "Teasel", "B1", "-o", "out.pdf", "--preview", "out.png"),
        *("--bin-stock", BIN_STOCK, "--bike-stock", TAGS),
    )
    assert {one["stock"]: one["labels"] for one in files} == {BIN_STOCK: 2, PART_STOCK: 1, TAGS: 1}
    assert sorted(path.name for path in Path().iterdir()) == sorted(
        f"out-{stock}.{ending}"
        for stock in (BIN_STOCK, PART_STOCK, TAGS)
        for ending in ("pdf", "png")
    )
    assert all(one["numbers"] == [part] for one in files if one["stock"] == PART_STOCK)


def test_one_stock_keeps_the_name(shop: Shop) -> None:
    """Labels that all go on one stock go into the file that was named."""
    shop.told("label", "A1", "Teasel", "-o", "out.pdf")
    assert [path.name for path in Path().iterdir()] == ["out.pdf"]


REFUSED = {
    "unknown name": (("Teazel", "-o", "x.pdf"), 1, "did you mean 'Teasel'?"),
    "no number": (("20000141", "-o", "x.pdf"), 2, "check digits"),
    "bin that does not fit": (
        ("Teasel", "A1", "-o", "x.pdf", "--bin-stock", "roll-25x13"),
        2,
        "use roll-51x19",
    ),
    "no folder": (("A1", "-o", "none/x.pdf"), 2, "none/x.pdf cannot be written"),
    "no folder for the preview": (
        ("A1", "-o", "x.pdf", "--preview", "none/x.png"),
        2,
        "none/x.png cannot be written",
    ),
    "labels in a picture": (("A1", "-o", "x.png"), 2, "x.png cannot take labels"),
    "preview over the labels": (
        ("A1", "-o", "x.pdf", "--preview", "x.pdf"),
        2,
        "x.pdf cannot take the preview; give it a name that ends in .png",
    ),
    "no label left": (
        ("A1", "-o", "x.pdf", "--stock", BIN_STOCK, "--start", "7", "--skip", "7,8"),
        2,
        "No label of the first sheet is left",
    ),
    "start of which sheet": (
        ("A1", "Teasel", "-o", "x.pdf", "--bin-stock", BIN_STOCK, "--start", "2"),
        2,
        "--start a4-2x4-99x68=7",
    ),
    "start of another sheet": (
        ("A1", "-o", "x.pdf", "--start", f"{TAGS}=1"),
        2,
        f"no label of these goes on '{TAGS}'",
    ),
    "start in words": (("A1", "-o", "x.pdf", "--start", "seven"), 2, "count from 1"),
    "stock like another": (
        ("A1", "-o", "x.pdf", "--stock", "a4-3x8-64x33"),
        2,
        f"did you mean '{PART_STOCK}'?",
    ),
    "stock like none": (("A1", "-o", "x.pdf", "--stock", "oval"), 2, "`partsbin label stocks`"),
    "unknown printer": (("A1", "-o", "x.pdf", "--printer", "laser"), 1, "label printer NAME"),
    "dots of no printer": (("A1", "-o", "x.pdf", "--dpi", "60000"), 2, "60000 dots per inch"),
    "printer and dots": (("A1", "-o", "x.pdf", "--printer", "p", "--dpi", "300"), 2, "own dots"),
    "no job yet": (("--again", "-o", "x.pdf"), 1, "no print job 'last'"),
    "job in words": (("--again", "first", "-o", "x.pdf"), 2, "'first' is no print job"),
    "things and all": (("A1", "--new", "-o", "x.pdf"), 2, "--new"),
    "from without a job": (("A1", "--from", "2", "-o", "x.pdf"), 2, "--again"),
    "no file": (("A1",), 2, "-o"),
    "verify no picture": (("verify", "none.png"), 1, "none.png"),
}


@pytest.mark.parametrize(("words", "code", "told"), REFUSED.values(), ids=REFUSED)
def test_a_refusal_writes_nothing(
    shop: Shop, snapshot: Callable[[Shop], str], words: tuple[str, ...], code: int, told: str
) -> None:
    """What is refused leaves no file, no job and no trace, also of the other files of the run."""
    before = snapshot(shop)
    result = shop.run("label", *words)
    assert result.exit_code == code, result.output
    assert told in result.stderr
    assert "Traceback" not in result.output
    assert list(Path().iterdir()) == []
    assert snapshot(shop) == before


def test_start_skip_and_copies(shop: Shop) -> None:
    """Labels flow round those that are gone; copies follow each other; stocks have their own."""
    held = printed(shop, "A1", "A2", "-o", "a.pdf", "--stock", BIN_STOCK, "--start", "7")
    assert (held[0]["labels"], held[0]["pages"]) == (2, 1)
    held = printed(
        shop, "A1", "A2", "-o", "a.pdf", "--stock", BIN_STOCK, "--start", "7", "--skip", "8"
    )
    assert (held[0]["labels"], held[0]["pages"]) == (2, 2)
    held = printed(shop, "A1", "-o", "a.pdf", "--stock", BIN_STOCK, "--copies", "9")
    assert (held[0]["labels"], held[0]["pages"]) == (9, 2)
    several = ("--bin-stock", BIN_STOCK, "--start", f"{BIN_STOCK}=8", "--copies", "2")
    held = printed(shop, "A1", "Teasel", "-o", "a.pdf", *several)
    assert {one["stock"]: one["pages"] for one in held} == {BIN_STOCK: 2, PART_STOCK: 1}


@pytest.mark.every_database
def test_new_prints_what_came_in_or_changed(shop: Shop) -> None:
    """All is new once; then only what came in, moved or was graded anew, until it is printed."""
    found = shop.asked("find", "--most", "1000")["parts"]
    binned = {part["number"] for part in found if part["place"].startswith("bin")}
    bins = {one["number"] for one in shop.asked("bin", "list")}
    first = printed(shop, "--new", "-o", "new.pdf")[0]["numbers"]
    bikes = {number for number in first if number.startswith("3")}
    assert set(first) == binned | bins | bikes
    assert len(bikes) == len(shop.asked("bike", "list"))

    result = shop.run("label", "--new", "-o", "none.pdf")
    assert result.exit_code == 0
    assert "nothing came in or changed" in result.stderr
    assert not Path("none.pdf").exists()
    assert printed(shop, "--new", "-o", "none.pdf") == []

    bell = number_of(shop, "bell")
    shop.told("part", "move", bell, "B1")
    saddle = number_of(shop, "saddle")
    shop.told("part", "edit", saddle, "--grade", "poor")
    shop.told("bin", "add", "Z9")
    came = shop.asked("bin", "show", "Z9")["number"]
    assert set(printed(shop, "--new", "-o", "new.pdf")[0]["numbers"]) == {bell, saddle, came}
    assert printed(shop, "--new", "-o", "none.pdf") == []


def test_what_is_printed_by_name_is_not_new(shop: Shop) -> None:
    """A label that was printed by its name or number counts as printed."""
    shop.told("label", "A1", "-o", "a.pdf")
    numbers = printed(shop, "--new", "-o", "new.pdf")[0]["numbers"]
    assert shop.asked("bin", "show", "A1")["number"] not in numbers


@pytest.mark.every_database
def test_a_part_on_a_bike_is_not_new(shop: Shop) -> None:
    """A part on a bike goes by the bike's tag, and one that was scrapped needs no label."""
    bell = number_of(shop, "bell")
    shop.told("part", "scrap", bell)
    on_bikes = {
        part["number"]
        for bike in shop.asked("bike", "list")
        for part in shop.asked("bike", "show", bike["bike"])["parts"]
    }
    numbers = set(printed(shop, "--new", "-o", "new.pdf")[0]["numbers"])
    assert bell not in numbers
    assert on_bikes
    assert not on_bikes & numbers


@pytest.mark.every_database
def test_a_jammed_sheet_is_printed_again(shop: Shop) -> None:
    """A job is repeated byte for byte, with the words of then, also when a part has moved since."""
    bell = number_of(shop, "bell")
    shop.told("label", "A1", bell, "Teasel", "-o", "first.pdf", "--dpi", "203.2")
    shop.told("part", "move", bell, "B1")
    shop.told("label", "B1", "-o", "second.pdf")

    shop.told("label", "--again", "1", "-o", "again.pdf")
    assert Path("again.pdf").read_bytes() == Path("first.pdf").read_bytes()
    shop.told("label", bell, "-o", "now.pdf")
    last = printed(shop, "--again", "-o", "last.pdf")[0]
    assert last["numbers"] == [bell]
    assert Path("last.pdf").read_bytes() == Path("now.pdf").read_bytes()


@pytest.mark.every_database
def test_the_rest_of_a_job(shop: Shop) -> None:
    """`--from` counts labels as they came out, copies too; another stock may be taken."""
    numbers = printed(shop, "A1", "A2", "-o", "a.pdf", "--copies", "2")[0]["numbers"]
    rest = printed(shop, "--again", "--from", "2", "-o", "b.pdf", "--stock", BIN_STOCK)[0]
    assert rest["numbers"] == [numbers[0], numbers[1], numbers[1]]
    assert rest["stock"] == BIN_STOCK
    result = shop.run("label", "--again", "1", "--from", "5", "-o", "c.pdf")
    assert result.exit_code == 2
    assert "labels 1 to 4" in result.stderr


@pytest.mark.every_database
def test_jobs_are_listed(shop: Shop) -> None:
    """The list of jobs says when, who, how many on what, the newest first."""
    assert shop.asked("label", "jobs") == []
    shop.told("label", "A1", "-o", "a.pdf", "--copies", "3")
    shop.told("--who", "Robin", "label", "B1", "-o", "b.pdf", "--dpi", "300")
    newest, oldest = shop.asked("label", "jobs")
    assert (newest["job"], newest["who"], newest["dpi"]) == (2, "Robin", "300")
    assert (oldest["job"], oldest["labels"], oldest["stock"]) == (1, 3, PART_STOCK)
    assert shop.told("label", "jobs").splitlines()[1].startswith("2 ")
    assert len(shop.asked("label", "jobs", "--most", "1")) == 1


def test_a_name_like_a_command(shop: Shop) -> None:
    """A bin whose name is a command of the group is given after `print`, or by its number."""
    number = shop.asked("bin", "add", "test")["number"]
    assert printed(shop, "print", "test", "-o", "a.pdf")[0]["numbers"] == [number]
    assert printed(shop, number, "-o", "b.pdf")[0]["numbers"] == [number]
    assert shop.run("label", "test", "-o", "c.pdf").exit_code == 2


@pytest.mark.every_database
def test_a_print_that_is_undone(shop: Shop) -> None:
    """Labels of a print that was taken back, since they came to nothing, are due again."""
    number = printed(shop, "A1", "-o", "a.pdf")[0]["numbers"][0]
    shop.told("label", "B1", "-o", "b.pdf")
    shop.told("undo")
    shop.told("undo")
    assert shop.asked("label", "jobs") == []
    assert shop.run("label", "--again", "1", "-o", "c.pdf").exit_code == 1
    assert number in printed(shop, "--new", "-o", "new.pdf")[0]["numbers"]


@pytest.mark.every_database
def test_a_bin_and_a_bike_of_one_name(shop: Shop) -> None:
    """What two things are called is not guessed: the number is asked for."""
    number = shop.asked("bin", "add", "teasel")["number"]
    result = shop.run("label", "Teasel", "-o", "a.pdf")
    assert result.exit_code == 2
    assert number in result.stderr


def test_letters_that_no_font_has(shop: Shop) -> None:
    """A letter that cannot be drawn is told, and the label is printed with a box."""
    shop.told("bin", "add", "Bin \N{FLAG IN HOLE}")
    result = shop.run("label", "Bin \N{FLAG IN HOLE}", "-o", "a.pdf")
    assert result.exit_code == 0
    assert "No font here has" in result.stderr


def test_verify_grades_a_print(shop: Shop) -> None:
    """Bars and QR as they are drawn earn the best grade, and it is said to be an estimate."""
    from labels.sheet import preview_png

    number = number_of(shop, "saddle")
    shop.told("label", number, "-o", "a.pdf", "--stock", "roll-57x32")
    preview_png(Path("a.pdf"), Path("a.png"), dpi=600)
    held = shop.asked("label", "verify", "a.png")
    assert "estimate" in held["estimate"].lower()
    for symbols in (held["labels"], held["squares"]):
        assert [(one["number"], one["letter"], one["grade"]) for one in symbols] == [
            (number, "A", 4.0)
        ]
    result = shop.run("label", "verify", "a.png")
    assert "decodability" in result.stdout
    assert "unused error correction" in result.stdout
    assert "estimate" in result.stderr.lower()


def test_verify_without_bars(shop: Shop) -> None:
    """A picture in which no bars can be graded is said, and the command fails."""
    from PIL import Image

    Image.new("L", (640, 480), 200).save("wall.png")
    result = shop.run("label", "verify", "wall.png")
    assert result.exit_code == 1
    assert "no bars or QR could be graded" in result.stderr
