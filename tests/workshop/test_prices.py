from __future__ import annotations

from pathlib import Path

import pytest

from tests.conftest import Shop

GOOD = (
    "kind,adapter,attributes,price,lead days,note\n"
    "saddle,,rails=round-7,12.00,2,plain\n"
    ',"spacer 3 mm, steel",,1.50,,\n'
)


def write(tmp_path: Path, text: str) -> str:
    """Write a price list and return its name."""
    file = tmp_path / "prices.csv"
    file.write_text(text, encoding="utf-8")
    return str(file)


def test_the_file_is_the_list(empty_shop: Shop, tmp_path: Path) -> None:
    """What is taken in takes the place of what was there."""
    empty_shop.told("prices", "import", write(tmp_path, GOOD))
    first = empty_shop.asked("prices", "list")
    empty_shop.told("prices", "import", write(tmp_path, GOOD.replace("12.00", "11.00")))

    assert [(p["kind"], p["adapter"], p["price"], p["lead_days"]) for p in first] == [
        ("saddle", "", "12.00", 2),
        ("", "spacer 3 mm, steel", "1.50", None),
    ]
    assert [p["price"] for p in empty_shop.asked("prices", "list")] == ["11.00", "1.50"]


def test_a_dry_run_takes_nothing_in(empty_shop: Shop, tmp_path: Path) -> None:
    """With `--dry-run` the file is only looked at."""
    told = empty_shop.asked("prices", "import", write(tmp_path, GOOD), "--dry-run")

    assert told == {"prices": 2, "taken_in": False}
    assert empty_shop.asked("prices", "list") == []


@pytest.mark.parametrize(
    ("line", "said"),
    [
        pytest.param("sadle,,,3.00,,", "saddle", id="an unknown kind"),
        pytest.param("saddle,,rail=round-7,3.00,,", "rails", id="an unknown attribute"),
        pytest.param("saddle,,rails=round-7,3.00,,", "line 2", id="the same part twice"),
        pytest.param("saddle,spacer,,3.00,,", "not both", id="kind and adapter"),
        pytest.param(",,,3.00,,", "give a kind", id="neither"),
        pytest.param("bell,,,three,,", "amount of money", id="no money"),
        pytest.param("bell,,,,,", "may not be empty", id="no price"),
        pytest.param("bell,,,3.00,soon,", "give 0 to 730 days", id="no lead time"),
    ],
)
def test_a_fault_is_told_by_line(empty_shop: Shop, tmp_path: Path, line: str, said: str) -> None:
    """A faulty list is refused as a whole, and the fault is told with its line."""
    refused = empty_shop.run("prices", "import", write(tmp_path, GOOD + line + "\n"))

    assert refused.exit_code == 2
    assert "line 4" in refused.stderr
    assert said in refused.stderr
    assert empty_shop.asked("prices", "list") == []
