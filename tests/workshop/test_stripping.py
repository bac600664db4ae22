"""Teardown: parts go where they belong and the price goes with them."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.conftest import Shop

pytestmark = pytest.mark.every_database


def total_cost(parts: list[dict[str, str]]) -> Decimal:
    """Return what parts cost together."""
    return sum((Decimal(part["cost"]) for part in parts), Decimal(0))


def test_price_goes_with_the_parts(shop: Shop) -> None:
    """What the parts of a donor cost adds up to its price; a scrapped frame carries none of it."""
    stripped = shop.asked("bike", "strip", "Bracken", "--inspected")
    assert total_cost(stripped["parts"]) == Decimal("25.00")
    frame = next(part for part in stripped["parts"] if part["from"] == "Bracken, frame")
    assert (frame["to"], frame["cost"]) == ("scrapped", "0.00")
    assert stripped["written_off"] == "0.00"
    account = shop.asked("books", "Bracken")
    assert (account["state"], account["taken_off"], account["cost"]) == (
        "stripped",
        "-25.00",
        "0.00",
    )
    assert account["needs"] == []
    assert "everything adds up" in shop.told("db", "check")


def test_costs_follow_the_sales_values(shop: Shop) -> None:
    """Two parts of the same sales value cost the same to a minor unit."""
    parts = shop.asked("bike", "strip", "Bracken", "--inspected")["parts"]
    wheels = [Decimal(part["cost"]) for part in parts if part["spec"].startswith("wheel")]
    assert len(wheels) == 2
    assert abs(wheels[0] - wheels[1]) <= Decimal("0.01")


def test_zero_cost_salvage_writes_the_price_off(shop: Shop) -> None:
    """With a split of zero the parts cost nothing and the whole price is written off."""
    stripped = shop.asked(
        "bike", "strip", "Sorrel", "--inspected", "--split", "zero", "--bin", "frame=E1"
    )
    assert total_cost(stripped["parts"]) == 0
    assert stripped["written_off"] == "15.00"
    assert "everything adds up" in shop.told("db", "check")


def test_split_by_hand_must_add_up(shop: Shop) -> None:
    """Costs that do not add up to the price are refused; those that do are taken."""
    words = ("bike", "strip", "Bracken", "--inspected", "--split", "hand")
    refused = shop.run(*words, "--cost", "fork=10", "--cost", "rear wheel=10")
    assert refused.exit_code == 2
    assert "add up to 20.00, but 25.00 is to be split" in refused.stderr
    done = shop.asked(*words, "--cost", "fork=10", "--cost", "rear wheel=15")
    costs = {part["from"]: part["cost"] for part in done["parts"] if part["cost"] != "0.00"}
    assert costs == {"Bracken, fork": "10.00", "Bracken, rear wheel": "15.00"}


def test_uninspected_parts_wait_in_quarantine(shop: Shop) -> None:
    """Kinds that can hurt someone are not used before they were inspected, others are."""
    parts = shop.asked("bike", "strip", "Bracken")["parts"]
    where = {part["from"].removeprefix("Bracken, "): part["to"] for part in parts}
    assert where["fork"] == "quarantine"
    assert where["grips"] == "bin D2"
    fork = next(part["part"] for part in parts if part["from"] == "Bracken, fork")
    refused = shop.run("part", "move", fork, "D2")
    assert refused.exit_code == 1
    assert "waits for its inspection" in refused.stderr
    assert shop.asked("part", "move", fork, "D2", "--inspected")["to"] == "bin D2"


def test_kept_slots_stay_on_the_bike(shop: Shop) -> None:
    """A slot that is kept is not stripped, and the bike is not called stripped."""
    shop.told("bike", "strip", "Bracken", "--inspected", "--keep", "frame", "--keep", "fork")
    left = shop.asked("bike", "show", "Bracken")
    assert [part["slot"] for part in left["parts"]] == ["frame", "fork"]
    assert left["state"] == "bought"


@pytest.mark.parametrize("grade", ["unsafe"])
def test_a_part_graded_unsafe_is_scrapped(shop: Shop, grade: str) -> None:
    """What is found to be unsafe while stripping never reaches a bin."""
    words = ("bike", "strip", "Bracken", "--inspected", "--grade", f"stem={grade}")
    parts = shop.asked(*words)["parts"]
    assert next(p["to"] for p in parts if p["from"] == "Bracken, stem") == "scrapped"
    assert total_cost(parts) == Decimal("25.00")
