"""What goes into a slot: best first, near misses with their cause, what to buy."""

from __future__ import annotations

from typing import Any

from tests.conftest import Shop


def kinds_of(suggestions: list[dict[str, Any]]) -> list[tuple[str, str]]:
    """Return verdict and kind of each suggestion."""
    return [(s["verdict"], s["parts"][0]["kind"]) for s in suggestions]


def test_eight_speed_shifter_for_an_eight_speed_bike(shop: Shop) -> None:
    """A native shifter fits; one with too few positions, and one of another pull, clash.

    Rules: positions, radreise-forum.de/posts/1500566; families, jitetan.com/term/shift_hi.html.
    """
    shop.told("bike", "strip", "Bracken", "--inspected")
    answer = shop.asked("fit", "Teasel", "rear shifter")
    best = answer["suggestions"][0]
    assert best["verdict"] == "fits"
    assert best["parts"][0]["attributes"]["speeds"] == 8
    assert best["parts"][0]["attributes"]["index_family"] == "ratio-1.7"
    missed = {
        (m["parts"][0]["attributes"]["speeds"], m["parts"][0]["attributes"]["index_family"])
        for m in answer["near_misses"]
    }
    assert {(7, "ratio-1.7"), (8, "ratio-1.1"), (10, "ratio-1.2")} <= missed


def test_combined_lever_takes_both_slots(shop: Shop) -> None:
    """A combined lever is offered with the brake lever that it replaces, and only if that fits."""
    answer = shop.asked("fit", "Teasel", "rear shifter")
    combined = [s for s in answer["suggestions"] if s["parts"][0]["kind"] == "combined_lever"]
    assert [s["also_replaces"] for s in combined] == ["right brake lever"]
    assert combined[0]["parts"][0]["attributes"]["brake_pull"] == "long"


def test_combined_lever_wants_the_brake_lever_off_first(shop: Shop) -> None:
    """Both halves go on together: with a plain lever on that hand it is refused."""
    answer = shop.asked("fit", "Teasel", "rear shifter")
    combined = next(s for s in answer["suggestions"] if s["also_replaces"])
    number = combined["parts"][0]["number"]
    shop.told("unmount", "Teasel", "rear shifter", "A1")
    refused = shop.run("mount", number, "Teasel", "rear shifter")
    assert refused.exit_code == 1
    assert "take off brake lever" in refused.stderr
    shop.told("unmount", "Teasel", "right brake lever", "A2")
    assert shop.asked("mount", number, "Teasel", "rear shifter")["verdict"] == "fits"
    assert shop.asked("bike", "show", "Teasel")["needs"] == []


def test_adapter_in_stock_is_named(shop: Shop) -> None:
    """A thin post is offered with the sleeve that is in stock."""
    answer = shop.asked("fit", "Teasel", "seatpost")
    thin = next(
        s for s in answer["suggestions"] if s["parts"][0]["attributes"]["diameter_mm"] == 25.4
    )
    assert thin["verdict"] == "adapts"
    assert thin["adapters"][0]["in_stock"]["attributes"] == {"inner_mm": 25.4, "outer_mm": 27.2}


def test_what_to_buy_is_told_when_nothing_goes(empty_shop: Shop) -> None:
    """Without stock the specification names the size that the frame wants."""
    empty_shop.told("bike", "add", "Larch", "seat_tube_bore=26.8", "--price", "5")
    answer = empty_shop.asked("fit", "Larch", "seatpost")
    assert answer["suggestions"] == []
    assert answer["buy"]["attributes"]["diameter_mm"] == "26.8 mm"


def test_unsafe_parts_are_never_suggested(shop: Shop) -> None:
    """The cracked shifter of the right kind and the worn-out wheel stay out of every answer."""
    for slot in ("rear shifter", "rear wheel", "seatpost"):
        answer = shop.asked("fit", "Teasel", slot)
        for found in (*answer["suggestions"], *answer["near_misses"]):
            assert all(part["grade"] != "unsafe" for part in found["parts"])
