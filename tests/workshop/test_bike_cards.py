"""Bikes at a glance, and how their slots stand: the same as their accounts and needs say."""

from __future__ import annotations

import pytest

from partsbin.kinds.slots import SLOTS
from partsbin.stock.bikes import bike_named
from partsbin.stock.database import open_database
from partsbin.stock.ids import BikeId
from partsbin.stock.lookup import mounted
from partsbin.workshop.bike_cards import ORDER, cards, counts
from partsbin.workshop.books import books
from partsbin.workshop.mounting import needs
from partsbin.workshop.slot_states import SlotState, needing_first, standings
from tests.conftest import Shop

pytestmark = pytest.mark.every_database


def test_cards_cost_what_the_books_say(shop: Shop) -> None:
    """A card's cost is that of the bike's account, after work, parts, a teardown and a sale.

    Source: the account itself, `books`, which tests of its own hold against hand-made sums.
    """
    shop.told("bike", "work", "Teasel", "90min", "--rate", "12")
    shop.told("bike", "fee", "Juniper", "2.50")
    shop.told("part", "add", "bell", "--bike", "Sorrel", "--slot", "bell", "--cost", "3")
    shop.told("unmount", "Teasel", "rear shifter", "A1")
    shop.told("mount", "20000625", "Teasel", "rear shifter", "--anyway")
    shop.told("bike", "strip", "Bracken", "--inspected")
    shop.told("sell", "Clover", "45", "--fee", "2", "--anyway", "a test")
    with open_database(shop.address, "tester") as database, database.reading() as session:
        found = cards(session, ORDER, 50)
        told = {card.name: card.cost for card in found}
        assert told == {name: books(session, name).cost for name in told}
        assert len(found) == sum(counts(session).values()) == 6
        states = [card.state for card in found]
        assert states == sorted(states, key=ORDER.index)
        some = cards(session, ORDER, 2, 3)
        assert some == found[3:5]


def test_every_slot_stands_somehow(shop: Shop) -> None:
    """Each slot is told once; those with a need are the bike's needs, and they come first."""
    with open_database(shop.address, "tester") as database, database.reading() as session:
        for name in ("Teasel", "Sorrel", "Clover", "Yarrow", "Juniper"):
            on_bike = mounted(session, BikeId(bike_named(session, name).id))
            standing = standings(on_bike)
            assert [one.slot for one in standing] == list(SLOTS)
            wanted = [(one.slot, str(one.state)) for one in standing if one.needs]
            assert wanted == needs(on_bike)
            ordered = [one.needs for one in needing_first(standing)]
            assert ordered == sorted(ordered, reverse=True)
            for one in standing:
                nothing = one.state in (SlotState.EMPTY, SlotState.UNUSED, SlotState.SHARED)
                assert (one.part is None) == nothing
