"""That the first parts of a spec are found by its index, however many parts there are."""

from __future__ import annotations

from partsbin.stock.in_order_of_use import WORTH


def test_the_order_of_use_is_asked_for_in_the_words_of_its_index() -> None:
    """An index over an expression serves only a query that has it word for word.

    A value bound apart is another expression, so that all parts of a spec are read and sorted.
    The index `ix_part_in_order_of_use` is over `coalesce(value, 0)`. Source:
    sqlite.org/expridx.html.
    """
    assert str(WORTH.compile()) == "coalesce(part.value, 0)"
