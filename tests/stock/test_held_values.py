"""What can be chosen of the parts in bins: values of attributes, as conditions find them."""

from __future__ import annotations

import pytest

from partsbin.kinds.spec import Spec, SpecError
from partsbin.stock.database import Database
from partsbin.stock.held_values import HeldValues, values_held
from partsbin.stock.search import find
from tests.stock.making import add, shop

POSTS = (
    {"diameter_mm": "27.2", "length_mm": "300"},
    {"diameter_mm": "27.18", "rails": "round-7"},
    {"diameter_mm": "31.6"},
    {"diameter_mm": "27.1"},
)


@pytest.fixture
def stocked(database: Database) -> Database:
    """Return a database with seatposts, cassettes and a chain in a bin, and a post on a bike."""
    with database.changing("set up") as session:
        made = shop(session)
        for typed in POSTS:
            add(session, made.a1, Spec.read("seatpost", typed))
        add(session, made.slot, Spec.read("seatpost", {"diameter_mm": "25.4"}))
        add(session, made.a1, Spec.read("cassette", {"cogs": "11-13-32", "speeds": "8"}))
        add(session, made.a1, Spec.read("cassette", {"cogs": "12-32"}))
        add(session, made.a1, Spec.read("chain", {"wear_percent": "0.25"}))
    return database


def held(database: Database, kind: str) -> dict[str, HeldValues]:
    """Return what is held of a kind by attribute."""
    with database.reading() as session:
        return {one.name: one for one in values_held(session, kind)}


def test_readings_are_told_as_listed_sizes(stocked: Database) -> None:
    """27.18 is 27.2, 27.1 may be 27.0 or 27.2, and what is only on a bike is left out.

    Snapping to the nearest listed size, as `kinds/forms/lengths` does it.
    """
    assert held(stocked, "seatpost")["diameter_mm"].typed == ("27", "27.2", "31.6")


def test_order_is_that_of_the_kind(stocked: Database) -> None:
    """Attributes come as their kind lists them, and only those that something in a bin has."""
    assert list(held(stocked, "seatpost")) == ["diameter_mm", "length_mm", "rails"]
    assert held(stocked, "saddle") == {}


@pytest.mark.parametrize(
    ("kind", "name", "typed", "ranged"),
    [
        pytest.param("seatpost", "rails", ("round-7",), False, id="word"),
        pytest.param("seatpost", "length_mm", ("300",), True, id="length"),
        pytest.param("cassette", "speeds", ("8",), True, id="count"),
        pytest.param("cassette", "cogs", ("11", "12", "13", "32"), True, id="members of lists"),
        pytest.param("chain", "wear_percent", ("0.25",), True, id="decimal number"),
    ],
)
def test_each_form(
    stocked: Database, kind: str, name: str, typed: tuple[str, ...], ranged: bool
) -> None:
    """Each form of value is told as a condition takes it, numbers by size; words have no range."""
    found = held(stocked, kind)[name]
    assert (found.typed, found.ranged) == (typed, ranged)


def test_every_value_is_found_by_a_condition(stocked: Database) -> None:
    """What is offered to choose finds something: the search reads it back."""
    for kind in ("seatpost", "cassette", "chain"):
        for name, values in held(stocked, kind).items():
            for value in values.typed:
                with stocked.reading() as session:
                    found = find(session, [], [f"kind={kind}", f"{name}={value}"])
                assert found.rows, (kind, name, value)


def test_an_unknown_kind_is_told(stocked: Database) -> None:
    """An unknown kind is a fault that offers the nearest one."""
    with stocked.reading() as session, pytest.raises(SpecError, match="did you mean 'seatpost'"):
        values_held(session, "seatpots")
