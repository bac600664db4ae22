"""The check before a sale: nothing is ready that nobody looked at."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.standards.presale_items import ITEMS
from tests.conftest import Shop

ADA = ("--by", "Ada Quill")


def sound(shop: Shop) -> None:
    """Put a working shifter onto Teasel, its only need."""
    shop.told("unmount", "Teasel", "rear shifter", "A1", "--grade", "core")
    shop.told("mount", "20000625", "Teasel", "rear shifter")


def states(shop: Shop) -> dict[str, str]:
    """Return how each item of Teasel's check stands."""
    items: list[dict[str, Any]] = shop.asked("bike", "check", "Teasel")["items"]
    return {item["item"]: item["state"] for item in items}


def test_ready_needs_every_item(shop: Shop) -> None:
    """A bike is ready only when every single item is recorded as ok."""
    sound(shop)
    for item in ITEMS[:-1]:
        shop.told("bike", "check", "Teasel", f"{item.word}=ok", *ADA)
        assert shop.run("bike", "ready", "Teasel").exit_code == 1
    shop.told("bike", "check", "Teasel", f"{ITEMS[-1].word}=ok", *ADA)
    assert shop.asked("bike", "ready", "Teasel")["state"] == "ready"


def test_ready_needs_no_needs(shop: Shop) -> None:
    """A dead part stands in the way however much was checked, and is named."""
    shop.told("bike", "check", "Teasel", "--all-ok", *ADA)
    refused = shop.run("bike", "ready", "Teasel")
    assert refused.exit_code == 1
    assert "rear shifter dead" in refused.stderr


@pytest.mark.parametrize("edit", [("--grade", "unsafe"), ("cracked=yes",), ("bent=yes",)])
def test_ready_needs_safe_parts(shop: Shop, edit: tuple[str, ...]) -> None:
    """A part that is unsafe, cracked or bent stands in the way."""
    sound(shop)
    shop.told("bike", "check", "Teasel", "--all-ok", *ADA)
    parts = shop.asked("bike", "show", "Teasel")["parts"]
    fork = next(part["number"] for part in parts if part["slot"] == "fork")
    shop.told("part", "edit", fork, *edit)
    refused = shop.run("bike", "ready", "Teasel")
    assert refused.exit_code == 1
    assert "fork" in refused.stderr


def test_a_failure_stands_in_the_way(shop: Shop) -> None:
    """An item that failed is not ready until it was looked at again."""
    sound(shop)
    shop.told("bike", "check", "Teasel", "--all-ok", "tyres=fail: rear one cut", *ADA)
    assert "tyres (fail)" in shop.run("bike", "ready", "Teasel").stderr
    shop.told("bike", "check", "Teasel", "tyres=ok", *ADA)
    shop.told("bike", "ready", "Teasel")


def test_a_named_person_looks(shop: Shop) -> None:
    """Nothing is recorded without the name of who looked, nor a name without a finding."""
    assert shop.run("bike", "check", "Teasel", "--all-ok").exit_code == 2
    assert shop.run("bike", "check", "Teasel", *ADA).exit_code == 2
    assert set(states(shop).values()) == {"open"}
    shop.told("bike", "check", "Teasel", "brakes=ok", *ADA)
    held = shop.asked("bike", "check", "Teasel")["items"][0]
    assert (held["item"], held["state"], held["by"]) == ("brakes", "ok", "Ada Quill")


def test_changed_parts_make_a_check_void(shop: Shop) -> None:
    """A part that is changed after its item was checked calls for another look, others do not."""
    sound(shop)
    shop.told("bike", "check", "Teasel", "--all-ok", *ADA)
    shop.told("unmount", "Teasel", "front tyre", "D1")
    void = {item for item, state in states(shop).items() if state == "look again"}
    assert void == {"wheels", "tyres", "test ride"}


def test_what_was_ready_is_looked_at_again_at_its_sale(shop: Shop) -> None:
    """A bike that was called ready and then changed is refused at its sale."""
    sound(shop)
    shop.told("bike", "check", "Teasel", "--all-ok", *ADA)
    shop.told("bike", "ready", "Teasel")
    shop.told("unmount", "Teasel", "pedals", "D1")
    refused = shop.run("sell", "Teasel", "140")
    assert refused.exit_code == 1
    assert "pedals empty" in refused.stderr


def test_the_reason_for_selling_anyway_is_kept(shop: Shop) -> None:
    """What is not ready is sold only with a reason, which the history shows."""
    sold = shop.asked("sell", "Teasel", "20", "--anyway", "for parts, buyer knows")
    assert "rear shifter dead" in sold["overruled"]
    events = shop.asked("history", "Teasel")["events"]
    assert "for parts, buyer knows" in {event["why"] for event in events}


def test_a_check_that_fails_takes_ready_back(shop: Shop) -> None:
    """A bike that was ready is in work again when an item fails."""
    sound(shop)
    shop.told("bike", "check", "Teasel", "--all-ok", *ADA)
    shop.told("bike", "ready", "Teasel")
    shop.told("bike", "check", "Teasel", "brakes=fail: rear pads worn", *ADA)
    assert shop.asked("bike", "show", "Teasel")["state"] == "in work"


def test_a_returned_bike_is_checked_anew(shop: Shop) -> None:
    """What was out of the workshop was in other hands: every item is void."""
    sound(shop)
    shop.told("bike", "check", "Teasel", "--all-ok", *ADA)
    shop.told("sell", "Teasel", "140", "--anyway", "test")
    shop.told("return", "Teasel")
    assert set(states(shop).values()) == {"look again"}


def test_carbon_of_unknown_history_is_told(shop: Shop) -> None:
    """Damage in carbon may not show (zedler.de, durability of a carbon fork): it is told."""
    parts = shop.asked("bike", "show", "Teasel")["parts"]
    fork = next(part["number"] for part in parts if part["slot"] == "fork")
    shop.told("part", "edit", fork, "material=carbon")
    cautions = shop.asked("bike", "check", "Teasel")["cautions"]
    assert any("carbon" in caution for caution in cautions)
    shop.told("part", "edit", fork, "history=known")
    assert shop.asked("bike", "check", "Teasel")["cautions"] == []


def test_the_list_says_what_it_does_not_do(shop: Shop) -> None:
    """The texts defer to an inspection, local law, makers and mechanics, and name the rules."""
    result = shop.run("bike", "check", "Teasel", "--rules")
    assert "16 CFR 1512.5" in result.stdout
    assert "from memory" in result.stdout
    for word in ("does not replace an inspection", "Local law", "qualified mechanic"):
        assert word in result.stderr


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("breaks=ok", "did you mean 'brakes'?"),
        ("brakes=perhaps", "brakes=ok"),
        ("brakes", "brakes=ok"),
        ("brakes=fail", "what is wrong"),
    ],
)
def test_results_that_are_not_understood(shop: Shop, typed: str, told: str) -> None:
    """A slip of the finger is refused and records nothing."""
    refused = shop.run("bike", "check", "Teasel", typed, *ADA)
    assert refused.exit_code == 2
    assert told in refused.stderr
    assert set(states(shop).values()) == {"open"}
