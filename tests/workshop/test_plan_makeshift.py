"""What only gets a rider home is no repair, and what has no price is not passed over in silence."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.conftest import Shop
from tests.workshop.test_plan_acts import built, of_slot, seat

__all__ = ["built"]

Rows = list[dict[str, str]]
Built = Callable[..., Shop]

# A 584 tube in a 622 tyre is "in an emergency" only: powermanmalaysia.com tube sizes. It stretches
# by 65 per mille.
SMALL = {"kind": "tube", "attributes": "bsd_mm=584; width_min_mm=28; width_max_mm=47"}
RIGHT = {"kind": "tube", "attributes": "bsd_mm=622; width_min_mm=28; width_max_mm=47"}
WHEEL: Rows = [
    {"slot": "frame", "kind": "frame", "attributes": "style=hybrid; wheel_bsd_mm=622"},
    {"slot": "front tyre", "kind": "tyre", "attributes": "bsd_mm=622; width_mm=37"},
    {"slot": "front tube", **RIGHT},
    {"slot": "rear tyre", "kind": "tyre", "attributes": "bsd_mm=622; width_mm=37"},
    {"slot": "rear tube", "condition": "dead", **RIGHT},
]


def wheel(bike: str) -> Rows:
    """Return a frame and two tyres, one with a good tube and one with a dead one."""
    return [{"bike": bike, **row} for row in WHEEL]


def stocked(row: dict[str, str], value: str) -> dict[str, str]:
    """Return a part in stock of some value."""
    return {**row, "value": value}


def priced(row: dict[str, str], price: str) -> dict[str, str]:
    """Return a line of the price list."""
    return {**row, "price": price}


TAKEN: dict[str, tuple[Rows, Rows, str, str]] = {
    "of less value, beside the right one in stock": (
        [stocked(SMALL, "1.00"), stocked(RIGHT, "2.00")],
        [],
        "take",
        "622",
    ),
    "in stock, beside the right one on the price list": (
        [stocked(SMALL, "1.00")],
        [priced(RIGHT, "6.00")],
        "buy",
        "622",
    ),
    "cheaper on the price list": (
        [],
        [priced(SMALL, "2.00"), priced(RIGHT, "6.00")],
        "buy",
        "622",
    ),
    "all there is": ([stocked(SMALL, "1.00")], [], "take", "584"),
}


@pytest.mark.parametrize(("parts", "prices", "verb", "size"), TAKEN.values(), ids=TAKEN)
def test_a_makeshift_is_taken_only_where_nothing_else_serves(
    built: Built, parts: Rows, prices: Rows, verb: str, size: str
) -> None:
    """The tube that gets a rider home stays where it is if a right one is in stock or to be had."""
    shop = built(parts, wheel("Ash"), prices)

    told = shop.asked("plan", "Ash")

    chosen = of_slot(told, verb, "rear tube")
    assert str(chosen["attributes"]["bsd_mm"]).startswith(size)
    (bike,) = told["bikes"]
    makeshift = [change["makeshift"] for change in bike["changes"]]
    assert makeshift == ([True] if size == "584" else [])
    assert told["proven"]


def test_a_makeshift_is_told(built: Built) -> None:
    """Where nothing else serves the plan says that it is no repair, and why."""
    shop = built([stocked(SMALL, "1.00")], wheel("Ash"))

    told = " ".join(shop.told("plan", "Ash").split())

    assert "no repair: nothing that is free in stock" in told
    assert "to get home only" in told


def test_why_the_cheaper_makeshift_was_passed_over(built: Built) -> None:
    """The right tube stands in the plan with the reason that the cheaper one is no repair."""
    shop = built([stocked(SMALL, "1.00"), stocked(RIGHT, "2.00")], wheel("Ash"))

    instead = of_slot(shop.asked("plan", "Ash"), "take", "rear tube")["instead"]

    assert "584" in instead
    assert "to get home only" in instead


def test_two_bikes_and_one_right_tube(built: Built) -> None:
    """With one right tube for two bikes one of them gets the makeshift, and is told so alone."""
    shop = built(
        [stocked(SMALL, "1.00"), stocked(SMALL, "1.00"), stocked(RIGHT, "9.00")],
        [*wheel("Ash"), *wheel("Birch")],
    )

    told = shop.asked("plan", "Ash", "Birch", "--keep", "front tube")

    made = [any(c["makeshift"] for c in bike["changes"]) for bike in told["bikes"]]
    assert sorted(made) == [False, True]
    stages = {stage["objective"]: stage["value"] for stage in told["objectives"]}
    assert (stages["makeshift"], stages["value"]) == ("1", "10.00")
    assert told["proven"]


def test_fit_ranks_a_makeshift_last_and_tells_what_to_buy(built: Built) -> None:
    """A tube that stretches a little comes before one that gets a rider home, whatever its value.

    584 in 622 is the latter, powermanmalaysia.com tube sizes; 597 in 622 is 42 per mille, under the
    50 that the rule makes of 559 in 584.
    """
    little = {"kind": "tube", "attributes": "bsd_mm=597; width_min_mm=28; width_max_mm=47"}
    shop = built([stocked(SMALL, "1.00"), stocked(little, "9.00")], wheel("Ash"))

    found = shop.asked("fit", "Ash", "rear tube")

    order = [one["parts"][0]["attributes"]["bsd_mm"] for one in found["suggestions"]]
    assert order == [597, 584]
    assert [one["verdict"] for one in found["suggestions"]] == ["adapts", "adapts"]
    assert "buy" not in found


def test_fit_tells_what_to_buy_beside_a_makeshift(built: Built) -> None:
    """If all there is only gets a rider home, the tube to buy is told too."""
    shop = built([stocked(SMALL, "1.00")], wheel("Ash"))

    found = shop.asked("fit", "Ash", "rear tube")

    assert found["suggestions"][0]["interfaces"][0]["makeshift"] is True
    assert found["buy"]["attributes"]["bsd_mm"].startswith("622")


PILLAR = "saddle clamp for a 22.2 mm pillar and round 7 mm rails"


def pillar(bike: str) -> Rows:
    """Return a frame with a plain pillar and a dead saddle."""
    frame, post, saddle = seat(bike)
    return [
        frame,
        {**post, "attributes": "diameter_mm=27.2; rails=plain-22.2; length_mm=300"},
        saddle,
    ]


ROUND = {"kind": "saddle", "attributes": "rails=round-7", "value": "3.00"}


def test_an_adapter_without_a_price_is_to_be_bought(built: Built) -> None:
    """What stands between a pillar and rails is listed with what to buy, and counted as unpriced.

    A pillar without a clamp: xjd.com saddle rail pages; Wikipedia, Bicycle seatpost.
    """
    shop = built([ROUND], pillar("Ash"))

    told = shop.asked("plan", "Ash", "--keep", "seatpost")

    (buy,) = told["bikes"][0]["buy"]
    assert (buy["what"], buy["price"], buy["adapter"]) == (PILLAR, None, True)
    assert told["unpriced"] == told["bikes"][0]["unpriced"] == [PILLAR]
    said = " ".join(shop.told("plan", "Ash", "--keep", "seatpost").split())
    assert f"adapter: {PILLAR} (no price known)" in said
    assert f"to spend: 0.00, and on top 1 without a known price: {PILLAR}" in said


def test_an_adapter_with_a_price_is_money(built: Built) -> None:
    """Once the price list names it, its price is spent and nothing is unpriced."""
    shop = built([ROUND], pillar("Ash"), [{"adapter": PILLAR, "price": "4.50"}])

    told = shop.asked("plan", "Ash", "--keep", "seatpost")

    assert (told["money"], told["unpriced"]) == ("4.50", [])
