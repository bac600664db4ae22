"""Faults of a spec: an unknown name is told even without a value, and a huge value is cut short."""

from __future__ import annotations

import pytest

from partsbin.kinds.spec import LONGEST_REASON, Spec, SpecError


def test_unknown_attribute_without_a_value_is_told() -> None:
    """A null says that a value is unknown, but not that any name is right."""
    assert Spec.check("seatpost", {"diameter_mm": None}) == Spec("seatpost")
    with pytest.raises(SpecError, match="diametr_mm: unknown attribute; did you mean"):
        Spec.check("seatpost", {"diametr_mm": None})


@pytest.mark.parametrize("kind", ["saddle" * 10_000, "seatpost"])
def test_huge_value_is_cut_short(kind: str) -> None:
    """The message names the start of what was wrong, and is short enough to be read."""
    with pytest.raises(SpecError) as caught:
        Spec.check(kind, {"rails": "oval" * 10_000})
    assert len(str(caught.value)) < LONGEST_REASON + 50
    assert kind[:20] in str(caught.value)
