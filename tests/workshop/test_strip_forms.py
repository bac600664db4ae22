"""A teardown by CSV, by options and by questions: what is not stated follows from the bike."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from demo_db.photograph import photograph
from tests.conftest import Shop

pytestmark = pytest.mark.every_database


@pytest.fixture
def donor(shop: Shop) -> str:
    """Return the name of a donor of which only the frame and an eight-speed cassette are known."""
    shop.told("bike", "add", "Hawthorn", "--price", "20", "seat_tube_bore=27.2", "wheel_bsd=622")
    words = ("part", "add", "cassette", "speeds=8", "--bike", "Hawthorn", "--slot", "sprockets")
    shop.told(*words, "--value", "5")
    return "Hawthorn"


def off(stripped: dict[str, Any], slot: str) -> dict[str, Any]:
    """Return what came off a slot."""
    found = [p for p in stripped["parts"] if p["from"] == f"{stripped['bike']}, {slot}"]
    assert len(found) == 1, stripped
    part: dict[str, Any] = found[0]
    return part


def attributes(shop: Shop, number: str) -> dict[str, Any]:
    """Return what is known of a part."""
    held = shop.asked("part", "show", number)["places"][0]["attributes"]
    assert isinstance(held, dict)
    return held


@pytest.fixture
def sheet(tmp_path: Path) -> Callable[[str], str]:
    """Return a function that writes a CSV file and returns its name."""

    def write(text: str) -> str:
        file = tmp_path / "donor.csv"
        file.write_text(text)
        return str(file)

    return write


WHOLE = """slot,kind,attributes,grade,inspected,bin,value,cost,keep,note
rear shifter,shifter,index_family=ratio-1.7,fair,,A1,8,,,lever a little loose
seatpost,,,good,yes,D1,6,,,
frame,,,,,,,,yes,
"""


def test_an_eight_speed_bike_gives_an_eight_speed_shifter(
    shop: Shop, donor: str, sheet: Callable[[str], str]
) -> None:
    """What the record lacked comes off with what its neighbours say of it, marked as assumed."""
    stripped = shop.asked("bike", "strip", donor, "--from", sheet(WHOLE))
    shifter = off(stripped, "rear shifter")
    assert shifter["to"] == "bin A1"
    held = attributes(shop, shifter["part"])
    assert (held["speeds"], held["side"], held["index_family"]) == (8, "rear", "ratio-1.7")
    assert "speeds 8 (assumed)" in shop.told("part", "show", shifter["part"])[:400]
    shown = shop.asked("part", "show", shifter["part"])["places"][0]
    assert (shown["grade"], shown["note"]) == ("fair", "lever a little loose")
    post = off(stripped, "seatpost")
    assert post["to"] == "bin D1"
    assert attributes(shop, post["part"])["diameter_mm"] == 27.2


def test_the_price_is_split_over_what_was_found(
    shop: Shop, donor: str, sheet: Callable[[str], str]
) -> None:
    """Sales values of 8, 6 and 5 share what the frame cost; all of it lands, the frame stays."""
    before = shop.asked("books", donor)["cost"]
    stripped = shop.asked("bike", "strip", donor, "--from", sheet(WHOLE))
    costs = {part["from"]: Decimal(part["cost"]) for part in stripped["parts"]}
    # The frame is kept with the price that it carries, so what comes off cost nothing.
    assert set(costs.values()) == {Decimal(0)}
    assert shop.asked("books", donor)["cost"] == before
    again = shop.asked(
        "bike", "strip", donor, "--bin", "frame=E1", "--inspected", "--value", "frame=9"
    )
    assert off(again, "frame")["cost"] == "20.00"
    assert "everything adds up" in shop.told("db", "check")


def test_shares_by_sales_value(shop: Shop, sheet: Callable[[str], str]) -> None:
    """A donor for 200 gives parts worth 200, 250 and 350 that cost 50, 62.5 and 87.5.

    Source: smallbusiness.chron.com, Joint costs (the first share; the others by the same rule).
    """
    shop.told("bike", "add", "Hawthorn", "--price", "200")
    text = "slot,bin,value,inspected\nframe,E1,200,yes\nsaddle,D1,250,yes\nchain,C1,350,yes\n"
    stripped = shop.asked("bike", "strip", "Hawthorn", "--from", sheet(text))
    costs = [off(stripped, slot)["cost"] for slot in ("frame", "saddle", "chain")]
    assert costs == ["50.00", "62.50", "87.50"]


def test_options_do_the_same(shop: Shop, donor: str) -> None:
    """What the record lacks can be stated by options; a template fills in the rest."""
    stripped = shop.asked(
        *("bike", "strip", donor, "--found", "rear shifter=combined_lever; bar=22.2"),
        *("--found", "chain=chain", "--keep", "frame", "--like", "hybrid-8-speed-1998-2005"),
    )
    shifter = attributes(shop, off(stripped, "rear shifter")["part"])
    assert (shifter["speeds"], shifter["bar_mm"]) == (8, 22.2)
    assert shifter["index_family"] == "ratio-1.7"
    assert attributes(shop, off(stripped, "chain")["part"])["speeds"] == 8


def test_a_reading_sets_the_grade(shop: Shop, donor: str, sheet: Callable[[str], str]) -> None:
    """A chain that the sheet says is stretched past its limit does not come off as good."""
    text = "slot,attributes,grade,keep\nchain,wear_percent=1.2,good,\nframe,,,yes\n"
    stripped = shop.asked("bike", "strip", donor, "--from", sheet(text))
    number = off(stripped, "chain")["part"]
    assert shop.asked("part", "show", number)["places"][0]["grade"] != "good"


def test_it_is_one_act(shop: Shop, donor: str, sheet: Callable[[str], str]) -> None:
    """One undo takes a teardown back, with the parts that it found."""
    before = shop.asked("bike", "show", donor)
    stripped = shop.asked("bike", "strip", donor, "--from", sheet(WHOLE))
    shop.told("undo")
    assert shop.asked("bike", "show", donor) == before
    shown = shop.asked("part", "show", off(stripped, "rear shifter")["part"])
    assert shown["places"] == []
    assert "everything adds up" in shop.told("db", "check")


FAULTS = {
    "unknown slot": ("slot\nrear shiftr\n", "line 2, slot: unknown slot 'rear shiftr'; did you"),
    "slot twice": ("slot\nchain\nchain\n", "line 3, slot: chain is on a line before"),
    "kind of another slot": ("slot,kind\nchain,saddle\n", "line 2, kind: chain takes chain"),
    "kind that is not clear": ("slot\nrear shifter\n", "line 2, kind: say what the rear shifter"),
    "another kind is recorded": (
        "slot,kind\nsprockets,freewheel\n",
        "line 2, kind: the record has a cassette",
    ),
    "grade": ("slot,grade\nchain,fine\n", "line 2, grade: 'fine' is not one of"),
    "yes or no": ("slot,inspected\nchain,ja\n", "line 2, inspected: 'ja' is not one of yes, no"),
    "bin": ("slot,bin\nchain,Z9\n", "line 2, bin: there is no bin 'Z9'"),
    "money": ("slot,value\nchain,ten\n", "line 2, value: 'ten' is not an amount"),
    "attribute": ("slot,attributes\nchain,spedes=8\n", "line 2, attributes:"),
    "unknown column": ("slot,colour\nchain,red\n", "line 1, colour: unknown column"),
    "no slot": ("grade\ngood\n", "line 1, slot: this column is missing"),
}


@pytest.mark.parametrize(("text", "told"), FAULTS.values(), ids=FAULTS)
def test_faults_of_the_sheet(
    shop: Shop,
    donor: str,
    sheet: Callable[[str], str],
    snapshot: Callable[[Shop], str],
    text: str,
    told: str,
) -> None:
    """Each fault is told with its line and column, and nothing is changed."""
    before = snapshot(shop)
    result = shop.run("bike", "strip", donor, "--from", sheet(text))
    assert result.exit_code == 2, result.output
    assert told in result.stderr
    assert snapshot(shop) == before


def test_all_faults_come_out_at_once(shop: Shop, donor: str, sheet: Callable[[str], str]) -> None:
    """A sheet with three faults tells all three."""
    text = "slot,grade,bin\nchain,fine,Z9\nsadle,,\n"
    result = shop.run("bike", "strip", donor, "--from", sheet(text))
    assert result.stderr.count("donor.csv line") == 3


def test_labels_of_what_came_off(
    shop: Shop, donor: str, sheet: Callable[[str], str], tmp_path: Path
) -> None:
    """One sheet holds the labels of all that came off, and they read back."""
    pdf = tmp_path / "off.pdf"
    stripped = shop.asked("bike", "strip", donor, "--from", sheet(WHOLE), "--labels", str(pdf))
    photograph(pdf, tmp_path / "off.jpg")
    read = shop.asked("scan", str(tmp_path / "off.jpg"))["read"]
    assert {entry["number"] for entry in read} == {part["part"] for part in stripped["parts"]}


def test_labels_that_cannot_be_written_change_nothing(
    shop: Shop, donor: str, tmp_path: Path, snapshot: Callable[[Shop], str]
) -> None:
    """If the sheet of labels cannot be made, the bike stays as it is."""
    before = snapshot(shop)
    words = ("--keep", "frame", "--labels", str(tmp_path / "none" / "off.pdf"))
    result = shop.run("bike", "strip", donor, *words)
    assert result.exit_code in (1, 2)
    assert "Traceback" not in result.output
    assert snapshot(shop) == before


def test_the_walk(shop: Shop, donor: str) -> None:
    """Slot by slot it asks what is there, how good it is, whether it was inspected, and the bin."""
    answers = [
        "rear shifter, seatpost",  # what the record lacks
        "shifter; index_family=ratio-1.7",
        "",  # a seatpost, nothing more known
        *("", "keep"),  # the frame stays
        *("", "good", "5", "C1"),  # the cassette
        *("", "perfect", "fair", "8", "Z9", "A1"),  # the shifter: a wrong grade, a wrong bin
        *("length=300", "", "y", "6", "D1"),  # the seatpost, inspected
    ]
    result = shop.run("bike", "strip", donor, "--ask", typed="\n".join(answers) + "\n")
    assert result.exit_code == 0, result.output
    assert "speeds 8 (assumed)" in result.output
    assert "'perfect' is no grade" in result.output
    assert "there is no bin 'Z9'" in result.output
    assert "diameter 27.2 mm (assumed)" in result.output
    left = shop.asked("bike", "show", donor)["parts"]
    assert [part["slot"] for part in left] == ["frame"]
    found = shop.asked("find", "seatpost", "length=300")["parts"]
    assert any(part["place"] == "bin D1" and part["value"] == "6.00" for part in found)
    assert "everything adds up" in shop.told("db", "check")


def test_a_walk_that_ends_changes_nothing(
    shop: Shop, donor: str, snapshot: Callable[[Shop], str]
) -> None:
    """Answers that break off leave the bike as it is."""
    before = snapshot(shop)
    result = shop.run("bike", "strip", donor, "--ask", typed="\n\ngood\n")
    assert result.exit_code == 1
    assert "Traceback" not in result.output
    assert snapshot(shop) == before
