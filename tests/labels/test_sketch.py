"""Stocks drawn in a terminal."""

import re

import pytest

from labels import stock
from labels.sketch import sketch
from labels.stock import load


@pytest.mark.parametrize("name", stock.names())
def test_every_stock_can_be_drawn(name: str) -> None:
    """Lines are equally long and fit a terminal of 80; first and last label bear their numbers."""
    one = load(name)
    *drawing, measures = sketch(one).splitlines()
    numbers = [int(found) for line in drawing for found in re.findall(r"\d+", line)]

    assert len({len(line) for line in drawing}) == 1
    assert len(drawing[0]) <= 80
    assert (numbers[0], numbers[-1]) == (1, one.count)
    assert numbers == sorted(numbers)
    assert measures.endswith("on a roll") is one.roll
