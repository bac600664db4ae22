"""The tables of sizes: each has a source, and an attribute reaches each of its rows."""

from __future__ import annotations

import pytest

from partsbin.kinds import KINDS
from partsbin.kinds.attribute import Attribute
from partsbin.kinds.forms.lengths import LengthForm
from partsbin.kinds.forms.words import WordForm
from partsbin.standards import bar_sizes, drivetrain_sizes, seat, steerer_sizes, wheel_sizes
from partsbin.standards.sizes import Sizes

TABLES = {
    f"{module.__name__.rpartition('.')[2]}.{name}": table
    for module in (bar_sizes, drivetrain_sizes, seat, steerer_sizes, wheel_sizes)
    for name, table in vars(module).items()
    if isinstance(table, Sizes)
}


def _users(table: Sizes) -> list[Attribute]:
    return [
        attribute
        for kind in KINDS.values()
        for attribute in kind.attributes.values()
        if isinstance(attribute.form, LengthForm) and attribute.form.sizes is table
    ]


@pytest.mark.parametrize("table", TABLES.values(), ids=list(TABLES))
def test_every_row_of_a_size_table_is_reached(table: Sizes) -> None:
    """Every table has its source and is used, and every row of it is within the limits."""
    users = _users(table)

    assert table.source
    assert users
    for size in table.listed:
        for attribute in users:
            value = attribute.form.check(size / 1000)
            assert attribute.form.possible(value) == (size,)
    for other, usual in table.same.items():
        assert usual in table.listed
        assert users[0].form.possible(other) == (usual,)


MEASURED_WORDS = [
    (f"{kind.word}.{attribute.name}", attribute.form)
    for kind in KINDS.values()
    for attribute in kind.attributes.values()
    if isinstance(attribute.form, WordForm) and attribute.form.measured
]


@pytest.mark.parametrize("form", [f for _, f in MEASURED_WORDS], ids=[n for n, _ in MEASURED_WORDS])
def test_every_measured_size_means_listed_words(form: WordForm) -> None:
    """Every size that a word may be measured by is published, and means words of the list."""
    assert form.sizes is not None
    assert form.sizes.source
    for size, means in form.measured.items():
        assert set(means) <= set(form.words)
        assert form.possible(size) == means
