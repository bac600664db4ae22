"""Down-tube levers, racks, mudguards and bottle cages on frames."""

from __future__ import annotations

import itertools
from typing import Any

import pytest

from partsbin.fit.judge import Judgement, judge
from partsbin.fit.words import why
from partsbin.kinds.spec import Spec

Part = tuple[str, dict[str, Any]]


def judged(*parts: Part) -> Judgement:
    """Return the judgement of parts, each a kind and its attributes."""
    return judge([Spec.check(kind, attributes).piece for kind, attributes in parts])


def told(judgement: Judgement) -> str:
    """Return all that the judgement says."""
    return " | ".join(why(judged.finding) for judged in judgement.interfaces)


def lever_on(**frame: Any) -> tuple[Part, Part]:
    """Return a down-tube lever and a frame."""
    return ("shifter", {"mount": "downtube"}), ("frame", frame)


def fitted(kind: str, **frame: Any) -> tuple[Part, Part]:
    """Return a fitting and a frame."""
    return (kind, {}), ("frame", frame)


CASES = {
    # blackmtncycles.com/details: the base is made for a 28.6 tube, filed on 31.8
    "curved": (lever_on(downtube_bosses="curved"), "fits", "made for each other"),
    "curved on 28.6": (
        lever_on(downtube_bosses="curved", down_tube_od_mm=28.6),
        "fits",
        "made for each other",
    ),
    "curved on 31.8": (
        lever_on(downtube_bosses="curved", down_tube_od_mm=31.8),
        "adapts",
        "file the base",
    ),
    # bikeforums.net t-231963
    "flat": (lever_on(downtube_bosses="flat"), "clash", "does not sit on a flat boss"),
    # bands from memory
    "none on 28.6": (
        lever_on(downtube_bosses="none", down_tube_od_mm=28.6),
        "adapts",
        "bosses, 28.6 mm",
    ),
    "none on 31.8": (
        lever_on(downtube_bosses="none", down_tube_od_mm=31.8),
        "adapts",
        "bosses, 31.8 mm",
    ),
    "none on 34.9": (
        lever_on(downtube_bosses="none", down_tube_od_mm=34.9),
        "clash",
        "no band is made",
    ),
    "none on an unmeasured tube": (
        lever_on(downtube_bosses="none"),
        "measure",
        "down tube od of the frame is not known",
    ),
    "bosses unknown": (
        lever_on(down_tube_od_mm=28.6),
        "measure",
        "downtube bosses of the frame are not known",
    ),
    "bar shifter shares nothing with the frame": (
        (
            ("shifter", {"mount": "bar-clamp", "bar_mm": 22.2}),
            ("frame", {"downtube_bosses": "flat"}),
        ),
        "fits",
        "",
    ),
    # common practice, no source
    "rack on eyes": (fitted("rack", rack_eyelets="yes"), "fits", "has the eyes"),
    "rack without eyes": (fitted("rack", rack_eyelets="no"), "adapts", "clips"),
    "rack on carbon": (fitted("rack", rack_eyelets="no", material="carbon"), "adapts", "carbon"),
    "rack, eyes unknown": (fitted("rack"), "measure", "rack eyelets of the frame"),
    "mudguards on eyes": (fitted("mudguards", mudguard_eyelets="yes"), "fits", "has the eyes"),
    "mudguards without": (fitted("mudguards", mudguard_eyelets="no"), "adapts", "clips"),
    "mudguards on carbon": (
        fitted("mudguards", mudguard_eyelets="no", material="carbon"),
        "adapts",
        "no clip goes on a carbon tube",
    ),
    "mudguards, eyes unknown": (fitted("mudguards"), "measure", "mudguard eyelets"),
    "cage on bosses": (fitted("bottle_cage", bottle_bosses="yes"), "fits", "has the eyes"),
    "cage without": (fitted("bottle_cage", bottle_bosses="no"), "adapts", "band"),
    "cage on carbon": (
        fitted("bottle_cage", bottle_bosses="no", material="carbon"),
        "adapts",
        "no clip goes on a carbon tube",
    ),
    "cage, bosses unknown": (fitted("bottle_cage"), "measure", "bottle bosses of the frame"),
    "kickstand shares nothing": (fitted("kickstand", rack_eyelets="no"), "fits", ""),
}


@pytest.mark.parametrize(("parts", "verdict", "says"), CASES.values(), ids=CASES)
def test_case(parts: tuple[Part, ...], verdict: str, says: str) -> None:
    """The verdict is the source's, it says the cause, and the order of parts never matters."""
    assert says in told(judged(*parts))
    assert {verdict} == {str(judged(*order).verdict) for order in itertools.permutations(parts)}
