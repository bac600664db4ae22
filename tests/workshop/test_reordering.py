"""What to order, and when: published figures, and the list that follows from the record."""

from __future__ import annotations

import csv
import datetime as dt
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from partsbin.stock.database import open_database
from partsbin.workshop.reorder_point import Demand, demand_of, reorder_point, safety_stock, up
from partsbin.workshop.reordering import levels
from tests.conftest import Shop

pytestmark = pytest.mark.every_database

STEADY = Decimal(0)


@pytest.mark.parametrize(
    ("during_lead", "safety", "point"),
    [(150, 30, 180), (200, 30, 230)],
)
def test_reorder_point(during_lead: int, safety: int, point: int) -> None:
    """The reorder point is the demand over the lead time and the safety stock.

    Source: waycalculator.com, Reorder point: 150 + 30 = 180 and 200 + 30 = 230.
    """
    demand = Demand(Decimal(during_lead) / 10, STEADY)
    assert reorder_point(demand, 10, Decimal(safety)) == point


def test_safety_stock_of_variable_demand() -> None:
    """30 a day with a deviation of 5 over 10 days wants 26.1 more, so the point is 326.1.

    Source of the figures: operations-management textbook at flylib.com, figure 16.12; Z is 1.65.
    """
    demand = Demand(Decimal(30), Decimal(5))
    safety = safety_stock(demand, 10)
    assert round(safety, 1) == Decimal("26.1")
    assert round(reorder_point(demand, 10, safety), 1) == Decimal("326.1")


def test_safety_stock_with_a_variable_lead_time() -> None:
    """100 a day (20) over 7 days (2): deviation 206.9, safety stock 342, reorder point 1,042.

    Source: novacalculator.com, Reorder point; recomputed with Z 1.65: 341.4 and 1,041.4, of which
    the page shows the next whole piece.
    """
    demand = Demand(Decimal(100), Decimal(20))
    assert round(safety_stock(demand, 7, 2, Decimal(1)), 1) == Decimal("206.9")
    safety = safety_stock(demand, 7, 2)
    assert up(safety) == 342
    assert up(reorder_point(demand, 7, safety)) == 1042


def test_days_without_use_count() -> None:
    """A day on which nothing was used is a day of no demand, in the mean and in the deviation."""
    assert demand_of([], 30) == Demand(STEADY, STEADY)
    assert demand_of([5] * 30, 30) == Demand(Decimal(5), STEADY)
    # 2 on one day of four: mean 0.5, mean square 1, variance 0.75.
    demand = demand_of([2], 4)
    assert demand.mean == Decimal("0.5")
    assert demand.deviation**2 == pytest.approx(Decimal("0.75"))


def tubes(shop: Shop) -> list[dict[str, Any]]:
    """Return the lots of tubes for 622 mm rims."""
    found = shop.asked("find", "tube", "bsd=622")["parts"]
    assert isinstance(found, list)
    return found


def test_minimum_of_a_kind_with_attributes(shop: Shop) -> None:
    """A level of a kind sums all lots with those attributes, and orders whole packs."""
    assert sorted(lot["quantity"] for lot in tubes(shop)) == ["4", "6"]
    shop.told("reorder", "set", "tube", "bsd=622", "--minimum", "12", "--pack", "5")
    (row,) = shop.asked("reorder", "list")
    assert (row["what"], row["have"], row["order"], row["packs"]) == (
        "tube, bsd 622 mm",
        "10",
        "5",
        "1",
    )
    shop.told("reorder", "set", "tube", "bsd=622", "--minimum", "10")
    assert shop.asked("reorder", "list") == []
    (row,) = shop.asked("reorder", "list", "--all")
    assert (row["minimum"], row["order"]) == ("10", "0")


def test_unsafe_stock_is_none(shop: Shop) -> None:
    """What may not be used is not counted as there."""
    shop.told("reorder", "set", "tube", "bsd=622", "--minimum", "5")
    assert shop.asked("reorder", "list") == []
    for lot in tubes(shop):
        shop.told("part", "edit", lot["number"], "--grade", "unsafe")
    (row,) = shop.asked("reorder", "list")
    assert (row["have"], row["order"]) == ("0", "5")


def test_usage_makes_a_reorder_point(shop: Shop) -> None:
    """What was used sets the point: 4 on one of 30 days, over 9 days, with its safety stock.

    Mean 0.1333 and deviation 0.718 a day: 1.2 over 9 days and 1.65 * 0.718 * 3 = 3.55 of safety, so
    the point is 5. With 2 left, 3 to reach it and 2 that the lead time uses make 5.
    """
    lot = next(lot for lot in tubes(shop) if lot["quantity"] == "6")["number"]
    shop.told("reorder", "set", lot, "--lead-days", "9")
    assert shop.asked("reorder", "list") == []
    shop.told("use", lot, "4", "--onto", "Teasel")
    (row,) = shop.asked("reorder", "list")
    assert (row["used"], row["days"], row["reorder_point"], row["order"]) == ("4", "30", "5", "5")


def test_what_was_not_used_makes_no_demand(shop: Shop) -> None:
    """A loss that a count found, a move between bins and a use taken back are no usage."""
    lot = next(lot for lot in tubes(shop) if lot["quantity"] == "6")["number"]
    shop.told("reorder", "set", lot, "--lead-days", "9", "--minimum", "1")
    shop.told("part", "move", lot, "A1", "--quantity", "2")
    shop.told("use", lot, "1", "--onto", "Teasel")
    shop.told("undo")
    result = shop.run("count", "A1", "--keys", "--yes", typed=f"{lot}=1\n")
    assert result.exit_code == 0
    (row,) = shop.asked("reorder", "list", "--all")
    assert (row["have"], row["used"], row["reorder_point"]) == ("5", "0", "0")


def test_usage_of_a_year_only(shop: Shop) -> None:
    """What was used more than a year ago sets no point any more."""
    lot = next(lot for lot in tubes(shop) if lot["quantity"] == "6")["number"]
    shop.told("reorder", "set", lot, "--lead-days", "9")
    shop.told("use", lot, "4")
    today = dt.datetime.now(dt.UTC).date()
    with open_database(shop.address, "tester") as database, database.reading() as session:
        used = [levels(session, today + dt.timedelta(days))[0].used for days in (0, 365, 366)]
    assert used == [4, 4, 0]


def test_lengths(shop: Shop) -> None:
    """Housing is set and listed in metres."""
    shop.told("reorder", "set", "housing", "--minimum", "60 m", "--pack", "25 m")
    (row,) = shop.asked("reorder", "list")
    assert (row["minimum"], row["order"], row["packs"]) == ("60 m", "25 m", "1")


def test_csv_and_drop(shop: Shop, tmp_path: Path) -> None:
    """The CSV file holds what JSON tells; a level that is dropped is listed no more."""
    shop.told("reorder", "set", "tube", "bsd=622", "--minimum", "30", "--pack", "5")
    file = tmp_path / "order.csv"
    listed = shop.asked("reorder", "list", "--csv", str(file))
    with file.open(newline="") as rows:
        assert [list(row.values()) for row in csv.DictReader(rows)] == [
            list(row.values()) for row in listed
        ]
    shop.told("reorder", "drop", "tube", "bsd=622")
    assert shop.asked("reorder", "list", "--all") == []
    shop.asked("reorder", "list", "--csv", str(file))
    assert file.read_text().startswith("what,have,")


REFUSED = {
    "single part": (("reorder", "set", "20000140", "--minimum", "2"), 1, "name its kind"),
    "unknown kind": (("reorder", "set", "tubee"), 2, "did you mean 'tube'?"),
    "unknown attribute": (("reorder", "set", "tube", "bds=622"), 2, "unknown attribute"),
    "quantity": (("reorder", "set", "tube", "--minimum", "-2"), 2, "-2"),
    "lead time": (("reorder", "set", "tube", "--lead-days", "9999"), 2, "730"),
    "no level": (("reorder", "drop", "tube"), 1, "no minimum level"),
    "empty pack": (("reorder", "set", "tube", "--pack", "0"), 2, "'0'"),
}


@pytest.mark.parametrize(("words", "code", "told"), REFUSED.values(), ids=REFUSED)
def test_refused(shop: Shop, words: tuple[str, ...], code: int, told: str) -> None:
    """What is wrong is said in a sentence."""
    result = shop.run(*words)
    assert result.exit_code == code, result.output
    assert told in result.stderr
