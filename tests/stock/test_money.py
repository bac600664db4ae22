from __future__ import annotations

import pytest

from partsbin.errors import UsageError
from partsbin.stock.money import Money, read_money, share, show_money
from partsbin.stock.quantity import read_quantity, show_quantity
from partsbin.stock.words import Unit


@pytest.mark.parametrize(
    ("typed", "cents"),
    [
        pytest.param("12,50", 1250, id="comma"),
        pytest.param("12.5", 1250, id="one decimal"),
        pytest.param(" 7 ", 700, id="whole"),
        pytest.param(".05", 5, id="no whole"),
        pytest.param("0", 0, id="nothing"),
    ],
)
def test_reads_what_people_type(typed: str, cents: int) -> None:
    """An amount is read exactly, with a point or a comma."""
    assert read_money(typed) == cents


@pytest.mark.parametrize(
    "typed", ["", "abc", "1.234", "-5", "1e3", "1.250,00", "NaN", "٣", "9" * 20, "1 000"]
)
def test_refuses_what_is_no_amount(typed: str) -> None:
    """Anything but a plain amount is refused, never guessed."""
    with pytest.raises(UsageError):
        read_money(typed)


def test_the_refusal_says_how_to_type_it() -> None:
    """The sentence quotes what was typed and shows the form."""
    with pytest.raises(UsageError, match=r"^'x' is not an amount of money; type it like 12\.50$"):
        read_money("x")


@pytest.mark.parametrize(
    ("cents", "shown"), [(0, "0.00"), (5, "0.05"), (-1250, "-12.50"), (10**14, "1000000000000.00")]
)
def test_shows_two_places(cents: int, shown: str) -> None:
    """Money is shown with two places whatever its size and sign."""
    assert show_money(cents) == shown


# The inputs are a worked example on the cost formulas of IAS 2 (paragraphs 25 to 27), published at
# wp.cuong.cc: 1,000 at 10, 300 at 9.5, 200 at 9.7 and 400 at 9.6, of which 1,400 are sold. The
# weighted average is 9.80526, the cost of sales 13,727.37 and the closing stock 4,902.63.
RECEIPTS = ((1000, 1000), (300, 950), (200, 970), (400, 960))


def test_weighted_average_of_the_published_example() -> None:
    """The cost of sales and the closing stock are those of the worked example, to the cent."""
    cost = Money(sum(quantity * price for quantity, price in RECEIPTS))
    of = sum(quantity for quantity, _ in RECEIPTS)

    sold = share(cost, 1400, of)

    assert (show_money(sold), show_money(cost - sold)) == ("13727.37", "4902.63")


@pytest.mark.parametrize(("quantity", "of"), [(2, 1), (-1, 1), (0, 0)])
def test_no_share_of_what_is_not_there(quantity: int, of: int) -> None:
    """A share of more than the whole is a fault of the caller."""
    with pytest.raises(ValueError, match="have no share"):
        share(Money(100), quantity, of)


@pytest.mark.parametrize(
    ("typed", "unit", "quantity", "shown"),
    [
        pytest.param("12", Unit.PIECE, 12, "12", id="pieces"),
        pytest.param("2,5", Unit.MM, 2500, "2.5 m", id="metres"),
        pytest.param("2.5 m", Unit.MM, 2500, "2.5 m", id="metres with unit"),
        pytest.param("800 mm", Unit.MM, 800, "0.8 m", id="millimetres"),
    ],
)
def test_quantities(typed: str, unit: Unit, quantity: int, shown: str) -> None:
    """Pieces are whole; a length is read in metres unless it says otherwise."""
    assert read_quantity(typed, unit) == quantity
    assert show_quantity(quantity, unit) == shown


@pytest.mark.parametrize(
    ("typed", "unit"),
    [("0", Unit.PIECE), ("1.5", Unit.PIECE), ("x", Unit.MM), ("-1", Unit.MM), ("1e12", Unit.MM)],
)
def test_refuses_what_is_no_quantity(typed: str, unit: Unit) -> None:
    """Nothing, parts of a piece and unreadable texts are refused."""
    with pytest.raises(UsageError):
        read_quantity(typed, unit)
