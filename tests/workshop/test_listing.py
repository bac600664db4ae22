"""The advertisement: only what is recorded, and what is wrong as plainly as what is right."""

from __future__ import annotations

import pytest

from tests.conftest import Shop


def listed(shop: Shop, bike: str = "Teasel") -> str:
    """Return the advertisement of a bike."""
    text: str = shop.asked("bike", "listing", bike)["text"]
    return text


def frame_of(shop: Shop, bike: str = "Teasel") -> str:
    """Return the number of a bike's frame."""
    parts = shop.asked("bike", "show", bike)["parts"]
    return next(str(part["number"]) for part in parts if part["slot"] == "frame")


def test_sizes_in_both_units(shop: Shop) -> None:
    """A size is told in centimetres and inches, with whom it suits and who says so."""
    shop.told("part", "edit", frame_of(shop), "seat_tube_length=520", "standover=780")
    text = listed(shop)
    assert "seat tube 52.0 cm (20.5 in)" in text
    # bikeride.com/bike-size-chart: 20 to 22 in for 6 ft 1 to 6 ft 4.
    assert "185 to 193 cm (6 ft 1 to 6 ft 4)" in text
    assert "bikeride.com/bike-size-chart" in text
    # 16 CFR 1512.19: one inch to stand over it; 780 + 25 mm.
    assert "inside leg of 80.5 cm (31.7 in) or more" in text


def test_no_size_no_claim(shop: Shop) -> None:
    """A frame that nobody measured has no size and suits nobody."""
    shop.told("bike", "add", "Vetchling", "--style", "city", "style=city")
    text = listed(shop, "Vetchling")
    assert "Size: not measured." in text
    assert "Suits" not in text


def test_nobody_looked(shop: Shop) -> None:
    """What was not checked is called so, and nothing is found in order."""
    text = listed(shop)
    assert "found in order" not in text
    assert "Not checked, or not in order: brakes, steering" in text


def test_who_looked_at_what(shop: Shop) -> None:
    """What was checked stands with the name of who did it; a failure stands with its reason."""
    shop.told(
        "bike", "check", "Teasel", "brakes=ok", "tyres=fail: rear one cut", "--by", "Ada Quill"
    )
    text = listed(shop)
    assert "Looked at by Ada Quill on" in text
    assert "found in order: brakes." in text
    assert "Fault, tyres: rear one cut." in text


def test_known_faults_are_told(shop: Shop) -> None:
    """A part that is dead, a note and a slot that is empty are told."""
    shop.told("unmount", "Teasel", "pedals", "D1")
    text = listed(shop)
    assert "- rear shifter: dead" in text
    assert "- pedals: missing" in text
    assert "No faults are on record." not in text


def test_new_and_used(shop: Shop) -> None:
    """What is new is told apart from what is used, by its grade."""
    shop.told("part", "add", "bell", "--bike", "Teasel", "--slot", "bell", "--grade", "new")
    text = listed(shop)
    assert "New: bell." in text
    assert "Used, good: frame, fork" in text


@pytest.mark.parametrize(
    ("checked", "told"),
    [
        ((), "was not looked up in a register"),
        (("--serial-checked",), "proves nothing of thefts that nobody reported"),
    ],
    ids=["unchecked", "checked"],
)
def test_the_frame_number(shop: Shop, checked: tuple[str, ...], told: str) -> None:
    """A search in a register is told for what it is (mynextbike.co.uk: most thefts unreported)."""
    shop.told("bike", "add", "Vetchling", "--style", "city", *checked, "style=city")
    assert told in listed(shop, "Vetchling")


def test_it_defers(shop: Shop) -> None:
    """The text ends with what it is not, and who knows better."""
    last = listed(shop).split("\n\n")[-1]
    for words in ("not a guarantee", "qualified mechanic", "local rules"):
        assert words in last


def test_what_is_sold_is_not_advertised(shop: Shop) -> None:
    """A bike that is gone has no advertisement."""
    shop.told("sell", "Teasel", "9", "--anyway", "test")
    refused = shop.run("bike", "listing", "Teasel")
    assert refused.exit_code == 1
    assert "Teasel is sold" in refused.stderr
