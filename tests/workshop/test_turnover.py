"""How many parts find a use within a year, and what it makes of the worth of a donor's parts."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest

from partsbin.stock.database import open_database
from partsbin.workshop.turnover import Turnover, turnover
from tests.conftest import Shop
from tests.workshop.offer_shops import LIKE, SADDLE, bike, build

pytestmark = pytest.mark.every_database


def record(shop: Shop, days: int) -> Turnover:
    """Return the turnover as it is seen so many days from now."""
    now = dt.datetime.now(dt.UTC) + dt.timedelta(days=days)
    with open_database(shop.address, "tester") as database, database.reading() as session:
        return turnover(session, now)


def saddles(shop: Shop) -> list[str]:
    """Return the numbers of the saddles in bins."""
    found = shop.asked("find", "kind=saddle")["parts"]
    return [part["number"] for part in found if part["place"].startswith("bin")]


def made(shop: Shop, folder: Path) -> Shop:
    """Return a workshop of four saddles, a lot of tubes, and a bike without a saddle."""
    return build(
        shop,
        folder,
        parts=[
            *({**SADDLE, "value": "4.00"} for _ in range(4)),
            {"kind": "tube", "quantity": "9", "value": "1.00"},
        ],
        bikes=[{"name": "Ash", "state": "in work"}],
        mounted=bike("Ash", "dead")[:2],
    )


def test_what_was_mounted_or_sold_was_used(empty_shop: Shop, tmp_path: Path) -> None:
    """Of four saddles one was mounted and one sold, one was scrapped; a lot does not count.

    A part counts once it has had a year; what was mounted on the bike was never in a bin.
    """
    shop = made(empty_shop, tmp_path / "shop")
    mounted, sold, scrapped, _ = saddles(shop)
    shop.told("mount", mounted, "Ash", "saddle")
    shop.told("part", "sell", sold, "--price", "5.00")
    shop.told("part", "scrap", scrapped)

    assert record(shop, 300) == Turnover(0, 0)
    assert record(shop, 366) == Turnover(2, 4)


def test_a_use_that_was_taken_back_is_none(empty_shop: Shop, tmp_path: Path) -> None:
    """An act that was undone used nothing."""
    shop = made(empty_shop, tmp_path / "shop")
    shop.told("mount", saddles(shop)[0], "Ash", "saddle")
    shop.told("undo", "--reason", "wrong one")

    assert record(shop, 366) == Turnover(0, 4)


SHARES = {"no record": (0, 0, "1/2"), "all": (20, 20, "3/4"), "none of many": (0, 180, "1/20")}


@pytest.mark.parametrize(("used", "parts", "share"), SHARES.values(), ids=SHARES)
def test_the_share_is_a_posterior_mean(used: int, parts: int, share: str) -> None:
    """Own arithmetic: (10 + used) / (20 + parts), the mean of a Beta(10, 10) prior's posterior."""
    assert str(Turnover(used, parts).share) == share


def test_what_nobody_waits_for_counts_at_the_share(empty_shop: Shop, tmp_path: Path) -> None:
    """The post fetches 9.00 and counts at 4.50; the saddle that Ash waits for saves all its 12.00.

    Own arithmetic, at the prior of one half.
    """
    shop = build(
        empty_shop,
        tmp_path / "shop",
        parts=[{"kind": "seatpost", "attributes": "diameter_mm=26.8", "value": "9.00"}],
        bikes=[{"name": "Ash", "state": "in work"}],
        mounted=bike("Ash", "dead"),
        prices=[{**SADDLE, "price": "12.00"}],
    )

    told = shop.asked("offer", *LIKE, "--expect", "100")
    said = " ".join(shop.told("offer", *LIKE, "--expect", "100").split())

    parts = {part["slot"]: part for part in told["part_out"]["parts"]}
    assert (parts["seatpost"]["fetches"], parts["seatpost"]["worth"]) == ("9.00", "4.50")
    assert parts["saddle"]["worth"] == "12.00"
    assert told["part_out"]["value"] == "16.50"
    assert told["part_out"]["counted_if_unwanted"] == {
        "share": 0.5,
        "used_in_a_year": 0,
        "of_parts": 0,
        "prior": ["10", "10"],
    }
    assert "parts that nobody waits for are counted at 50%: 0 of 0 parts on record" in said
