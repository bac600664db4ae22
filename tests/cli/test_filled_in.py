"""What nobody stated is filled in: by the user's list of names, by an era, by the bike's parts."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from partsbin.kinds.eras import names, template
from tests.conftest import Shop

NAMES = """printed,kind,attributes,note
Larkspur RD7,rear_derailleur,"speeds=7; index_family=ratio-1.7; max_cog=28",
Larkspur RD7 long,rear_derailleur,"speeds=7; max_cog=34",
Larkspur,shifter,"speeds=8; side=rear (assumed)",the whole group
Vetch 100,rear_derailleur,speeds=9,
Vetch 100 black,rear_derailleur,speeds=9,
"""
ERA = "mtb-rigid-1990-1994"


@pytest.fixture
def listed(empty_shop: Shop, tmp_path: Path) -> Shop:
    """Return a workshop with a bin and a list of invented names."""
    file = tmp_path / "names.csv"
    file.write_text(NAMES)
    empty_shop.told("bin", "add", "A1")
    told = empty_shop.asked("names", "import", str(file))
    assert told == {"new": 5, "changed": 0, "same": 0, "removed": 0}
    return empty_shop


def test_a_printed_name_fills_attributes_in(listed: Shop) -> None:
    """What is printed says the rest; what is stated goes before; the command tells both."""
    told = listed.asked(
        *("part", "add", "rear_derailleur", "--named", "larkspur  rd-7"),
        *("max_cog=30", "--bin", "A1"),
    )

    assert told["attributes"] == {"speeds": 7, "index_family": "ratio-1.7", "max_cog": 30}
    assert told["assumed"] == []
    assert told["filled"] == [
        "from your list of names, 'Larkspur RD7': index family ratio-1.7, speeds 7"
    ]
    shown = listed.run("part", "add", "shifter", "--named", "LARKSPUR lever", "--bin", "A1")
    assert "from your list of names, 'Larkspur': side rear, speeds 8 (the whole group)" in (
        shown.stderr
    )
    assert "side rear (assumed)" in listed.told("part", "show", shown.stdout[:9])


@pytest.mark.parametrize(
    ("text", "code", "told"),
    [
        pytest.param("Larkspur", 2, "may be any of 2", id="several"),
        pytest.param("Larksput RD9", 1, "did you mean 'Larkspur RD7'?", id="none"),
        pytest.param("--", 2, "is no name", id="no words"),
    ],
)
def test_names_that_say_nothing(
    listed: Shop, snapshot: Callable[[Shop], str], text: str, code: int, told: str
) -> None:
    """A text that may be several entries, or none, is refused and nothing is added."""
    before = snapshot(listed)

    result = listed.run("part", "add", "rear_derailleur", f"--named={text}", "--bin", "A1")

    assert (result.exit_code, told in result.stderr) == (code, True), result.output
    assert snapshot(listed) == before


def test_entries_that_agree_are_one(listed: Shop) -> None:
    """Several entries that say the same are no question."""
    told = listed.asked("part", "add", "rear_derailleur", "--named", "vetch", "--bin", "A1")
    assert told["attributes"] == {"speeds": 9}


def test_the_list_is_the_users(listed: Shop, tmp_path: Path) -> None:
    """An import replaces equal names of a kind, keeps the others, or with --only forgets them."""
    file = tmp_path / "more.csv"
    file.write_text("printed,kind,attributes\nlarkspur,shifter,speeds=9\nLARKSPUR,chain,speeds=9\n")

    assert listed.asked("names", "import", str(file)) == {
        "new": 1,
        "changed": 1,
        "same": 4,
        "removed": 0,
    }
    assert [e["kind"] for e in listed.asked("names", "find", "Larkspur")] == ["chain", "shifter"]
    assert len(listed.asked("names", "list")) == 6
    assert listed.asked("names", "import", str(file), "--only")["removed"] == 4
    assert listed.run("names", "find", "vetch").exit_code == 1


FAULTY = {
    "unknown kind": ("printed,kind\nVetch,sadle\n", "line 2, kind"),
    "unknown attribute": ("printed,kind,attributes\nVetch,saddle,spedes=8\n", "line 2, attributes"),
    "twice": ("printed,kind\nVetch,saddle\nVETCH,saddle\n", "line 3, printed"),
    "no words": ("printed,kind\n--,saddle\n", "line 2, printed"),
    "no kind": ("printed\nVetch\n", "line 1, kind"),
}


@pytest.mark.parametrize(("text", "told"), FAULTY.values(), ids=FAULTY)
def test_faulty_lists(
    listed: Shop, tmp_path: Path, snapshot: Callable[[Shop], str], text: str, told: str
) -> None:
    """A list with a fault is not taken in; the fault is told with its line."""
    file = tmp_path / "names.csv"
    file.write_text(text)
    before = snapshot(listed)

    result = listed.run("names", "import", str(file), "--only")

    assert result.exit_code == 2
    assert told in result.stderr
    assert snapshot(listed) == before


def test_a_bike_like_its_era(empty_shop: Shop) -> None:
    """A frame gets what such bikes likely have, marked as assumed; what is stated is known."""
    told = empty_shop.asked("bike", "add", "Tansy", "--like", ERA, "seat_tube_bore=26.4")
    shown = empty_shop.asked("bike", "show", "Tansy")["parts"][0]

    likely = template(ERA).assumed("frame")
    assert likely is not None
    assert told["filled"].startswith("assumed, as of rigid mountain bike")
    assert shown["attributes"] == {**likely.plain(), "seat_tube_bore_mm": 26.4}
    assert set(shown["assumed"]) == likely.assumed - {"seat_tube_bore_mm"}
    assert "(assumed)" in empty_shop.told("part", "show", shown["number"])
    assert empty_shop.asked("bike", "list")[0]["style"] == "mtb"


def test_the_bikes_own_parts_go_before_its_era(empty_shop: Shop) -> None:
    """An eight-speed cassette makes the chain eight-speed, whatever the template says."""
    empty_shop.told("bike", "add", "Tansy", "--like", ERA)
    on = ("--bike", "Tansy", "--like", ERA, "--slot")
    empty_shop.told("part", "add", "cassette", "speeds=8", *on, "sprockets")

    told = empty_shop.asked("part", "add", "chain", *on, "chain")

    assert told["attributes"]["speeds"] == 8
    assert "speeds" in told["assumed"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        pytest.param(("--like", "mtb-rigid", "--bin", "A1"), "--bike", id="on no bike"),
        pytest.param(
            ("--like", "mtb-rigid-1990", "--bike", "Tansy", "--slot", "chain"),
            f"did you mean '{ERA}'?",
            id="unknown era",
        ),
    ],
)
def test_eras_that_cannot_be(listed: Shop, words: tuple[str, ...], told: str) -> None:
    """A template for a part in a bin, or an unknown one, is refused with what to do."""
    listed.told("bike", "add", "Tansy")

    result = listed.run("part", "add", "chain", *words)

    assert result.exit_code == 2
    assert told in result.stderr


def test_the_eras_are_listed(empty_shop: Shop) -> None:
    """`kinds --eras` lists all templates and `--era` shows one with its sources."""
    listed = [row["era"] for row in empty_shop.asked("kinds", "--eras")]
    shown = empty_shop.asked("kinds", "--era", ERA)

    assert tuple(listed) == names()
    assert all(row["source"] for part in shown["parts"] for row in part["likely"])
    assert "(assumed)" in empty_shop.told("kinds", "--era", ERA)


def test_where_a_bike_came_from(shop: Shop) -> None:
    """Its serial number and its seller can be recorded later; a new number was not checked yet."""
    words = ("bike", "edit", "Teasel")
    shop.told(*words, "--serial", "W1", "--serial-checked", "--seller-note", "a flea market")
    shown = shop.asked("bike", "show", "Teasel")["provenance"]
    assert (shown["serial_number"], shown["serial_checked"]) == ("W1", "yes")
    assert shown["seller_note"] == "a flea market"

    shop.told(*words, "--serial", "W2", "--name", "Fern", "--bought", "2026-10-18")

    shown = shop.asked("bike", "show", "Fern")["provenance"]
    assert (shown["serial_number"], shown["serial_checked"]) == ("W2", "no")
    assert (shown["seller_note"], shown["bought"]) == ("a flea market", "2026-10-18")
    assert shop.run("bike", "edit", "Fern", "--name", "juniper").exit_code == 1
    assert "a flea market" in shop.told("bike", "show", "Fern")
