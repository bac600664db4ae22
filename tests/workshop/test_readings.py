"""A reading past its limit makes a part unsafe, whatever was typed, and it is never suggested."""

from __future__ import annotations

import pytest

from tests.conftest import Shop

# Limits: chain elongation citycyclingtips.com/?p=748; rim wall wheellab.cc/rim-wear; rotor
# feedbacksports.com rotor wear; bent post bikepartsquick.blogspot.com/2012/07.
PAST = {
    "worn chain": ("chain", ("speeds=11", "wear=0.6"), "C1"),
    "worn rim": ("wheel", ("side=front", "bsd=622", "rim_wall=0.9"), "E1"),
    "worn rotor": ("rotor", ("thickness=1.49", "min_thickness=1.5"), "B1"),
    "bent post": ("seatpost", ("diameter=27.2", "bent=yes"), "D1"),
    "cracked tyre": ("tyre", ("marking=37-622", "cracks=yes"), "E2"),
}


@pytest.mark.parametrize(("kind", "attributes", "bin_name"), PAST.values(), ids=PAST)
def test_reading_past_its_limit(
    shop: Shop, kind: str, attributes: tuple[str, ...], bin_name: str
) -> None:
    """The part comes in as unsafe although it was called good, and the reason is told."""
    done = shop.asked("part", "add", kind, *attributes, "--bin", bin_name, "--inspected")
    assert done["signs"]
    shown = shop.asked("part", "show", done["part"])["places"][0]
    assert shown["grade"] == "unsafe"


def test_an_edited_reading_takes_a_part_out_of_use(shop: Shop) -> None:
    """A chain that was suggested is not any more once its wear was measured."""
    before = shop.asked("fit", "Clover", "chain")["suggestions"]
    number = before[0]["parts"][0]["number"]
    edited = shop.asked("part", "edit", number, "wear=0.9")
    assert edited["grade"] == "unsafe"
    after = shop.asked("fit", "Clover", "chain")["suggestions"]
    assert number not in {part["number"] for s in after for part in s["parts"]}


def test_a_core_is_never_suggested(shop: Shop) -> None:
    """A dead shifter that went into a bin for its pieces does not come back as a suggestion."""
    dead = next(
        part["number"]
        for part in shop.asked("bike", "show", "Teasel")["parts"]
        if part["slot"] == "rear shifter"
    )
    shop.told("unmount", "Teasel", "rear shifter", "A1", "--grade", "core")
    answer = shop.asked("fit", "Teasel", "rear shifter")
    found = (*answer["suggestions"], *answer["near_misses"])
    assert dead not in {part["number"] for s in found for part in s["parts"]}
