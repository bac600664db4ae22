from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from tests.conftest import Shop
from tests.workshop.offer_shops import SADDLE, bike, build

IN_WORK = {"name": "Ash", "state": "in work"}
DONOR = {"name": "Birch", "state": "bought"}


def test_a_part_saves_what_would_be_bought(empty_shop: Shop, tmp_path: Path) -> None:
    """The donor's saddle takes the place of the one that would be bought for 12."""
    shop = build(
        empty_shop,
        tmp_path / "shop",
        bikes=[IN_WORK, DONOR],
        mounted=[*bike("Ash", "dead"), *bike("Birch", "sound")],
        prices=[{**SADDLE, "price": "12.00"}],
    )

    told = shop.asked("worth", "Birch")

    given = {part["slot"]: part["for"] for part in told["parts"]}
    assert given["frame"] is None
    assert given["seatpost"] is None
    assert given["saddle"] == {
        "bike": "Ash",
        "slot": "saddle",
        "verdict": "fits",
        "instead": "buying a saddle, rails round-7",
        "money": "12.00",
        "stock": "0.00",
        "only": False,
    }
    assert (told["money"], told["stock"], told["needs"]) == ("12.00", "0.00", 0)
    assert "Ash, saddle" in shop.told("worth", "Birch")


def test_a_part_spares_the_one_in_stock(empty_shop: Shop, tmp_path: Path) -> None:
    """Where stock would meet the need, the donor spares the value of that part."""
    shop = build(
        empty_shop,
        tmp_path / "shop",
        parts=[{**SADDLE, "value": "5.00"}],
        bikes=[IN_WORK, DONOR],
        mounted=[*bike("Ash", "dead"), *bike("Birch", "sound")],
        prices=[{**SADDLE, "price": "12.00"}],
    )

    told = shop.asked("worth", "Birch")

    assert (told["money"], told["stock"]) == ("0.00", "5.00")


def test_a_need_that_nothing_else_meets(empty_shop: Shop, tmp_path: Path) -> None:
    """Without stock or price the donor meets one more need."""
    shop = build(
        empty_shop,
        tmp_path / "shop",
        bikes=[IN_WORK, DONOR],
        mounted=[*bike("Ash", "dead"), *bike("Birch", "sound")],
    )

    told = shop.asked("worth", "Birch")

    saddle = next(part["for"] for part in told["parts"] if part["slot"] == "saddle")
    assert saddle["only"] is True
    assert told["needs"] == 1


def test_a_dead_part_gives_nothing(empty_shop: Shop, tmp_path: Path) -> None:
    """What is dead on the donor is not among its usable parts."""
    shop = build(
        empty_shop,
        tmp_path / "shop",
        bikes=[IN_WORK, DONOR],
        mounted=[*bike("Ash", "dead"), *bike("Birch", "dead")],
    )
    told = shop.asked("worth", "Birch")
    assert [part["slot"] for part in told["parts"]] == ["frame", "seatpost"]


def test_a_bike_in_work_does_not_give_to_itself(empty_shop: Shop, tmp_path: Path) -> None:
    """The donor's own needs do not count, and with no other bike in work nothing is wanted."""
    shop = build(empty_shop, tmp_path / "shop", bikes=[IN_WORK], mounted=list(bike("Ash", "sound")))
    assert shop.asked("worth", "Ash")["bikes_in_work"] == []
    assert "nothing of Ash is wanted" in shop.told("worth", "Ash")


def test_nothing_is_written(shop: Shop, snapshot: Callable[[Shop], str]) -> None:
    """To ask leaves the record as it was; the demo's donor serves several bikes in work."""
    before = snapshot(shop)
    told = shop.asked("worth", "Bracken")
    assert snapshot(shop) == before
    assert told["proven"] is True
    assert any(part["for"] for part in told["parts"])


def test_an_unknown_bike_is_refused(shop: Shop) -> None:
    """A slip in the name gets the nearest one."""
    result = shop.run("worth", "Brackn")
    assert result.exit_code == 1
    assert "Bracken" in result.output
