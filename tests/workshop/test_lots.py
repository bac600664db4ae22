"""Lots are bought by the pack, used bit by bit, and what they cost follows."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.cli.lot import FORMULAS
from partsbin.stock.count_tables import CostFormula
from tests.conftest import Shop

pytestmark = pytest.mark.every_database


@pytest.fixture
def balls(shop: Shop) -> str:
    """Return the number of a lot of 100 balls for 2.00, in bin A1."""
    words = ("part", "add", "bearing_balls", "diameter=6.35", "--bin", "A1", "--grade", "new")
    number = shop.asked(*words, "--quantity", "100", "--cost", "2")["part"]
    assert isinstance(number, str)
    return number


def shelves(shop: Shop, number: str) -> dict[str, Any]:
    """Return the places of a lot with their quantity, cost and layers."""
    return {
        place["place"]: (
            place["quantity"],
            place["cost"],
            [(layer["quantity"], layer["cost"]) for layer in place["layers"]],
        )
        for place in shop.asked("lot", "show", number)["places"]
    }


@pytest.mark.parametrize(
    ("formula", "used", "left"),
    [
        # 100 for 2.00, then 100 for 3.00: of 150, FIFO takes 2.00 + 1.50, the average 3.75.
        ("fifo", "3.50", ("50", "1.50", [("50", "1.50")])),
        ("average", "3.75", ("50", "1.25", [("50", "1.25")])),
    ],
)
def test_formulas(shop: Shop, balls: str, formula: str, used: str, left: object) -> None:
    """What is used costs what the formula says, and the rest of the cost stays with the rest."""
    shop.told("lot", "formula", formula)
    shop.told("lot", "add", balls, "--quantity", "100", "--cost", "3")
    done = shop.asked("use", balls, "150", "--onto", "Teasel")
    assert done["cost"] == used
    assert shelves(shop, balls)["bin A1"] == left
    assert "everything adds up" in shop.told("db", "check")


def test_used_on_a_bike(shop: Shop, balls: str) -> None:
    """What is used on a bike is on it, loose, and in its books."""
    before = shop.asked("books", "Teasel")["from_stock"]
    shop.told("use", balls, "25", "--onto", "Teasel")
    assert shelves(shop, balls)["bike Teasel"][:2] == ("25", "0.50")
    after = shop.asked("books", "Teasel")["from_stock"]
    assert round(float(after) - float(before), 2) == 0.5


def test_consumed(shop: Shop, balls: str) -> None:
    """What is used on no bike is written off as consumed."""
    assert shop.asked("use", balls, "10")["to"] == "consumed"
    assert shelves(shop, balls) == {"bin A1": ("90", "1.80", [("90", "1.80")])}
    assert "everything adds up" in shop.told("db", "check")


def test_undo_leaves_the_layers_as_they_were(shop: Shop, balls: str) -> None:
    """A use that is taken back costs nothing, and the oldest purchase is the oldest again."""
    shop.told("lot", "formula", "fifo", "--kind", "bearing_balls")
    shop.told("lot", "add", balls, "--quantity", "100", "--cost", "3")
    before = shelves(shop, balls)
    shop.told("use", balls, "30")
    shop.told("undo")
    assert shelves(shop, balls) == before
    assert shop.asked("use", balls, "100")["cost"] == "2.00"


def test_by_the_pack(shop: Shop, balls: str) -> None:
    """Packs are counted as the minimum level of the lot, or of its kind, says."""
    refused = shop.run("lot", "add", balls, "--packs", "2", "--cost", "1")
    assert refused.exit_code == 1
    assert "--pack QUANTITY" in refused.stderr
    shop.told("reorder", "set", "bearing_balls", "--pack", "72")
    shop.told("lot", "add", balls, "--packs", "2", "--cost", "1")
    assert shelves(shop, balls)["bin A1"][0] == "244"
    shop.told("reorder", "set", balls, "--pack", "10")
    shop.told("lot", "add", balls, "--packs", "1")
    assert shelves(shop, balls)["bin A1"][0] == "254"


def test_by_the_metre(shop: Shop) -> None:
    """A roll is bought in metres and cut in metres or centimetres; a cable may be a roll too."""
    words = ("--bin", "B2", "--grade", "new", "--quantity", "30 m", "--cost", "15")
    number = shop.asked("part", "add", "shift_cable", *words)["part"]
    assert shop.asked("use", number, "1,8", "--onto", "Teasel")["cost"] == "0.90"
    assert shop.asked("use", number, "20 cm")["cost"] == "0.10"
    assert shelves(shop, number)["bin B2"][:2] == ("28 m", "14.00")


def test_the_bin_that_has_enough(shop: Shop, balls: str) -> None:
    """Of a lot in two bins, the one with enough gives; a bin can be named."""
    shop.told("part", "move", balls, "B2", "--quantity", "90")
    assert shop.asked("use", balls, "20")["from"].startswith("bin B2")
    assert shop.asked("use", balls, "5", "--from", "A1")["from"].startswith("bin A1")


REFUSED = {
    "more than there is": (("use", "LOT", "101"), 1, "only 100 is there"),
    "single part": (("use", "20000140", "1"), 1, "is a single part, not a lot"),
    "no quantity": (("lot", "add", "LOT"), 2, "--quantity"),
    "no number of packs": (("lot", "add", "LOT", "--packs", "0"), 1, "--pack"),
    "unknown bike": (("use", "LOT", "1", "--onto", "Teazel"), 1, "did you mean 'Teasel'?"),
    "unknown kind": (("lot", "formula", "fifo", "--kind", "bals"), 2, "unknown kind"),
    "unknown formula": (("lot", "formula", "lifo"), 2, "lifo"),
}


@pytest.mark.parametrize(("words", "code", "told"), REFUSED.values(), ids=REFUSED)
def test_refused(shop: Shop, balls: str, words: tuple[str, ...], code: int, told: str) -> None:
    """What is wrong is said in a sentence, and nothing is changed."""
    before = shelves(shop, balls)
    result = shop.run(*(balls if word == "LOT" else word for word in words))
    assert result.exit_code == code, result.output
    assert told in result.stderr
    assert shelves(shop, balls) == before


def test_words_of_the_formulas() -> None:
    """The formulas on the command line are those of the record."""
    assert tuple(CostFormula) == FORMULAS
