"""Mounting and unmounting: stock, cost and needs follow."""

from __future__ import annotations

import pytest

from tests.conftest import Shop

pytestmark = pytest.mark.every_database


def test_a_part_carries_its_cost_onto_the_bike(shop: Shop) -> None:
    """What a part cost in the bin is what it costs the bike, and it leaves the bin."""
    before = shop.asked("find", "cassette", "speeds=8", "grade=new")["parts"][0]
    assert before["cost"] == "13.50"
    shop.told("unmount", "Teasel", "sprockets", "C1")
    done = shop.asked("mount", before["number"], "Teasel")
    assert (done["to"], done["cost"], done["verdict"]) == ("Teasel, sprockets", "13.50", "fits")
    account = shop.asked("books", "Teasel")
    assert (account["price"], account["from_stock"], account["cost"]) == ("30.00", "13.50", "43.50")
    assert before["number"] not in {p["number"] for p in shop.asked("find", "cassette")["parts"]}


def test_a_piece_of_a_lot_carries_its_share(shop: Shop) -> None:
    """One tube of a lot of four at 12.00 costs 3.00 and three stay."""
    lot = shop.asked("find", "tube", "bsd=559")["parts"][0]
    assert (lot["quantity"], lot["cost"]) == ("4", "12.00")
    shop.told("unmount", "Sorrel", "front tube", "E2")
    done = shop.asked("mount", lot["number"], "Sorrel", "front tube")
    assert done["cost"] == "3.00"
    left = [
        p for p in shop.asked("find", "tube", "bsd=559")["parts"] if p["number"] == lot["number"]
    ]
    assert [(p["quantity"], p["cost"]) for p in left] == [("3", "9.00")]


def test_a_clash_is_refused_unless_overruled(shop: Shop) -> None:
    """A part that clashes is not mounted, and the cause is told; --anyway mounts it."""
    shop.told("unmount", "Teasel", "rear shifter", "A1")
    seven = shop.asked("find", "shifter", "speeds=7", "grade=good")["parts"][0]["number"]
    refused = shop.run("mount", seven, "Teasel", "rear shifter")
    assert refused.exit_code == 1
    assert "fewer positions" in refused.stderr
    assert shop.asked("mount", seven, "Teasel", "rear shifter", "--anyway")["verdict"] == "clash"


def test_unsafe_part_is_never_mounted(shop: Shop) -> None:
    """A part graded unsafe is refused even with --anyway."""
    unsafe = shop.asked("find", "shifter", "grade=unsafe")["parts"][0]["number"]
    shop.told("unmount", "Teasel", "rear shifter", "A1")
    refused = shop.run("mount", unsafe, "Teasel", "rear shifter", "--anyway")
    assert refused.exit_code == 1
    assert "unsafe" in refused.stderr


def test_needs_follow_what_is_mounted(shop: Shop) -> None:
    """A dead part is a need, taking it off leaves an empty slot, a sound one fills it."""
    assert shop.asked("bike", "show", "Teasel")["needs"] == [
        {"slot": "rear shifter", "why": "dead"}
    ]
    shop.told("unmount", "Teasel", "rear shifter", "A1", "--grade", "core")
    empty = {"slot": "rear shifter", "why": "empty"}
    assert shop.asked("bike", "show", "Teasel")["needs"] == [empty]
    shifter = shop.asked("find", "combined lever", "brake_pull=long")["parts"][0]["number"]
    shop.told("unmount", "Teasel", "right brake lever", "A2")
    shop.told("mount", shifter, "Teasel", "rear shifter")
    assert shop.asked("bike", "show", "Teasel")["needs"] == []
