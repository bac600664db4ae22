from __future__ import annotations

import xml.etree.ElementTree as ET
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

from PIL import Image

from partsbin.stock.database import open_database
from partsbin.stock.money import Money
from partsbin.workshop.most_to_pay import Terms
from partsbin.workshop.offer_plot import HIGH, WIDE, steps
from partsbin.workshop.offering import Asked, Offering, offering
from tests.conftest import Shop
from tests.workshop.offer_shops import LIKE

WORDS = ("offer", *LIKE, "--expect", "120", "--asked", "40", "--profit", "30%")


def found(shop: Shop) -> Offering:
    """Return an offer for a bike that is expected to bring 120."""
    asked = Asked(like=LIKE[1], terms=Terms(price=Money(12000), profit=Money(3000)))
    with open_database(shop.address, "tester") as database, database.reading() as session:
        return offering(session, asked)


def test_the_steps_are_the_chance_of_a_loss(shop: Shop) -> None:
    """The curve only rises, and between its corners it is the chance at each price there."""
    of = found(shop)
    corners = steps(of, 12000)
    chances = [chance for _, chance in corners]
    assert chances == sorted(chances)
    assert (corners[0][0], corners[-1][0]) == (0, 12000)
    for (start, _), (end, chance) in pairwise(corners):
        if end > start:
            assert float(of.chance_of_loss(Money(end))) == chance


def test_the_chance_at_the_cautious_price_is_what_was_asked_for(shop: Shop) -> None:
    """At a price that leaves the profit out, surprises exceed the quantile in a fifth at most."""
    of = found(shop)
    without_profit = Money(of.cautious + of.amounts.profit)
    assert of.chance_of_loss(without_profit) <= 1 - of.sure
    assert of.chance_of_loss(Money(without_profit + 100)) > Fraction(1, 10)


def test_svg_says_each_figure(shop: Shop, tmp_path: Path) -> None:
    """The drawing is sound XML and names the prices with the chance at each."""
    file = tmp_path / "offer.svg"
    told = shop.asked(*WORDS, "--plot", str(file))
    root = ET.fromstring(file.read_text(encoding="utf-8"))
    words = [element.text or "" for element in root.iter("{http://www.w3.org/2000/svg}text")]
    assert f"asked 40.00: {told['chance_of_loss']:.0%}" in words
    assert any(text.startswith(f"most to pay {told['amounts']['most']}:") for text in words)


def test_png_is_a_picture(shop: Shop, tmp_path: Path) -> None:
    """The picture has the size of the drawing, in finer dots, and more than one colour."""
    file = tmp_path / "offer.PNG"
    shop.told(*WORDS, "--plot", str(file))
    with Image.open(file) as image:
        assert image.size == (2 * WIDE, 2 * HIGH)
        assert len(image.getcolors(100000) or []) > 4
