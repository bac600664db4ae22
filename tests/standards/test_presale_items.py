"""The list of the check before a sale."""

from __future__ import annotations

import pytest

from partsbin.kinds.slots import BY_NAME
from partsbin.standards.presale_items import BY_WORD, ITEMS, Item

NEEDED = {slot.name for slot in BY_NAME.values() if slot.needed}


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: item.word)
def test_every_item_names_its_rules(item: Item) -> None:
    """Each item says what to look at, and the rule behind it with where its text was seen."""
    assert item.look
    assert item.rules
    assert all(rule.name and rule.asks and rule.source for rule in item.rules)


@pytest.mark.parametrize("item", ITEMS, ids=lambda item: item.word)
def test_the_slots_of_the_items_are_slots(item: Item) -> None:
    """What makes a check void is a slot that bikes have."""
    assert set(item.slots) <= set(BY_NAME)


def test_every_needed_slot_is_looked_at() -> None:
    """No part that a bike must have can be changed without an item becoming void."""
    assert {slot for item in ITEMS for slot in item.slots} >= NEEDED


@pytest.mark.parametrize(
    ("word", "rule"),
    [
        # Titles of the sections of 16 CFR 1512, federal.elaws.us and the copies that ITEMS name.
        ("brakes", "16 CFR 1512.5"),
        ("steering", "16 CFR 1512.6"),
        ("wheels", "16 CFR 1512.11"),
        ("wheel fastening", "16 CFR 1512.12"),
        ("frame and fork", "16 CFR 1512.14"),
        ("saddle and post", "16 CFR 1512.15"),
        ("reflectors", "16 CFR 1512.16"),
        ("test ride", "16 CFR 1512.17"),
        # TBIS 4210-2:2018, chctest.tbnet.org.tw.
        ("brakes", "ISO 4210-2, 4.6.1"),
        ("bar ends", "ISO 4210-2, 4.7.2"),
        ("fasteners", "ISO 4210-2, 4.5"),
    ],
)
def test_sections_of_the_rules(word: str, rule: str) -> None:
    """An item names the section that its subject has in the regulation or the standard."""
    assert rule in {known.name for known in BY_WORD[word].rules}


FIGURES = [
    # 16 CFR 1512.5, 1512.11, 1512.12, 1512.14, 1512.17 as copied at law.cornell.edu, lexbuild.dev
    # and ecfr.io; wheellab.cc/rim-wear; citycyclingtips.com/?p=748.
    ("brakes", "68.1 kg", "4.57 m", "89 mm"),
    ("wheels", "1.6 mm", "1.0 mm"),
    ("wheel fastening", "1,780 N", "17 N m"),
    ("frame and fork", "890 N", "39.5 J"),
    ("test ride", "6.4 km", "68.1 kg"),
    ("drivetrain", "0.75 %", "0.5 %", "1 %"),
    ("reflectors", "76 mm"),
]


@pytest.mark.parametrize("row", FIGURES, ids=lambda row: row[0])
def test_figures_of_the_rules(row: tuple[str, ...]) -> None:
    """The figures are those of the regulation."""
    asked = " ".join(rule.asks for rule in BY_WORD[row[0]].rules)
    assert all(figure in asked for figure in row[1:])
