"""Cranks beside the printed combinations: rings, spindles, shells and pedals."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import Case, judged

BCD = "sheldonbrown.com/cribsheet-bcd.html; sheldonbrown.com/numbers.html"
CRANKS: dict[str, Case] = {}
for _circle, _arms, _teeth, _verdict in (
    (151, 5, 44, "fits"),
    (151, 5, 43, "clash"),
    (144, 5, 41, "fits"),
    (144, 5, 40, "clash"),
    (135, 5, 39, "fits"),
    (135, 5, 38, "clash"),
    (130, 5, 38, "fits"),
    (130, 5, 36, "clash"),
    (128, 5, 38, "fits"),
    (128, 5, 37, "clash"),
    (122, 5, 38, "fits"),
    (122, 5, 37, "clash"),
    (118, 5, 36, "fits"),
    (118, 5, 35, "clash"),
    (116, 5, 35, "fits"),
    (116, 5, 34, "clash"),
    (110, 5, 34, "fits"),
    (110, 5, 32, "clash"),
    (94, 5, 29, "fits"),
    (94, 5, 28, "clash"),
    (86, 5, 28, "fits"),
    (86, 5, 27, "clash"),
    (74, 5, 24, "fits"),
    (74, 5, 22, "clash"),
    (58, 5, 20, "fits"),
    (58, 5, 19, "clash"),
    (56, 5, 20, "fits"),
    (56, 5, 19, "clash"),
    (112, 4, 34, "fits"),
    (112, 4, 33, "clash"),
    (68, 4, 22, "fits"),
    (68, 4, 20, "clash"),
    (104, 4, 32, "fits"),
    (104, 4, 30, "clash"),
    (64, 4, 22, "fits"),
    (64, 4, 20, "clash"),
):
    CRANKS[f"{_teeth} on {_circle}"] = (
        _verdict,
        (
            f"chainring teeth={_teeth} bcd_mm={_circle} arms={_arms}",
            f"chainset bcd_mm={_circle} arms={_arms}",
        ),
        BCD,
    )
TAPER = "moultoneer.wordpress.com/2022/03/17"
SPLINES = "jitetan.com/term/octalink.html; urbanvelo.org/issue17/p70-71"
SHELLS = "bikeraceinfo.com/tech/bottom-brackets.html"
PEDALS = "lfgss.com/comments/8473736; smontanaro.net/CR/2003/05/0420"
CRANKS |= {
    "130 ring on 110 crank": (
        "clash",
        ("chainring bcd_mm=130 arms=5", "chainset bcd_mm=110 arms=5"),
        BCD,
    ),
    "110 ring of four holes on five arms": (
        "clash",
        ("chainring bcd_mm=110 arms=4", "chainset bcd_mm=110 arms=5"),
        BCD,
    ),
    "74 ring inside a 110 triple": (
        "fits",
        ("chainring bcd_mm=74 arms=5 teeth=26", "chainset bcd_mm=110 arms=5 rings=[26,36,46]"),
        BCD,
    ),
    "circle read between two sizes": (
        "measure",
        ("chainring bcd_mm=129", "chainset bcd_mm=130"),
        BCD,
    ),
    "square on square": (
        "fits",
        ("chainset spindle=taper-jis", "bottom_bracket spindle=taper-jis"),
        TAPER,
    ),
    "short splines on long": (
        "clash",
        ("chainset spindle=splined-8x22-short", "bottom_bracket spindle=splined-8x22-long"),
        SPLINES,
    ),
    "eight splines on ten": (
        "clash",
        ("chainset spindle=splined-8x22-long", "bottom_bracket spindle=splined-10x21"),
        SPLINES,
    ),
    "ten splines on ten": (
        "fits",
        ("chainset spindle=splined-10x21", "bottom_bracket spindle=splined-10x21"),
        SPLINES,
    ),
    "square on splines": (
        "clash",
        ("chainset spindle=taper-jis", "bottom_bracket spindle=splined-10x21"),
        SPLINES,
    ),
    "cottered on square": (
        "clash",
        ("chainset spindle=cottered", "bottom_bracket spindle=taper-jis"),
        SPLINES,
    ),
    "24 in 30 mm bearings": (
        "adapts",
        ("chainset spindle=integrated-24", "bottom_bracket spindle=integrated-30"),
        "bike.bikegremlin.com/1652",
    ),
    "24/22 in 24 mm bearings": (
        "adapts",
        ("chainset spindle=integrated-24-22", "bottom_bracket spindle=integrated-24"),
        "accidentalrandonneur.wordpress.com/tag/bb92",
    ),
    "30 in 24 mm bearings": (
        "clash",
        ("chainset spindle=integrated-30", "bottom_bracket spindle=integrated-24"),
        "accidentalrandonneur.wordpress.com/tag/bb92",
    ),
    "30 crank in a 41 bore": (
        "adapts",
        ("chainset spindle=integrated-30", "frame bb_shell=pf41"),
        "byka.info BB86",
    ),
    "24 crank in a 46 bore": (
        "adapts",
        ("chainset spindle=integrated-24", "frame bb_shell=pf46"),
        "bike.bikegremlin.com/1652",
    ),
    "one-piece crank in a threaded shell": (
        "clash",
        ("chainset spindle=onepiece", "frame bb_shell=english-1.370x24"),
        "skatepro BMX",
    ),
    "pedals 1/2 in a 9/16 crank": (
        "clash",
        ("pedals pedal_thread=1/2x20", "chainset pedal_thread=9/16x20"),
        PEDALS,
    ),
    "pedals 9/16 in a one-piece crank": (
        "clash",
        ("pedals pedal_thread=9/16x20", "chainset pedal_thread=1/2x20"),
        PEDALS,
    ),
    "English pedals in a French crank": (
        "adapts",
        ("pedals pedal_thread=9/16", "chainset pedal_thread=14x1.25"),
        PEDALS,
    ),
    "French pedals in an English crank": (
        "clash",
        ("pedals pedal_thread=14x1.25", "chainset pedal_thread=9/16x20"),
        PEDALS,
    ),
    "pedals 9/16 in 9/16": (
        "fits",
        ("pedals pedal_thread='9/16 x 20'", "chainset pedal_thread=9/16x20"),
        PEDALS,
    ),
}
for _own, _shell, _verdict in (
    ("english-1.370x24", "english-1.370x24", "fits"),
    ("italian-36x24", "english-1.370x24", "clash"),
    ("english-1.370x24", "italian-36x24", "clash"),
    ("french-35x1", "swiss-35x1", "clash"),
    ("swiss-35x1", "french-35x1", "clash"),
    ("french-35x1", "english-1.370x24", "clash"),
    ("english-1.370x24", "french-35x1", "clash"),
    ("t47", "t47", "fits"),
    ("t47", "english-1.370x24", "clash"),
    ("pf41", "pf46", "clash"),
    ("pf46", "pf46", "fits"),
    ("english-1.370x24", "pf42", "clash"),
    ("onepiece-51", "english-1.370x24", "clash"),
    ("spanish-37", "mid-41", "clash"),
    ("mid-41", "mid-41", "fits"),
):
    CRANKS[f"{_own} in {_shell}"] = (
        _verdict,
        (f"bottom_bracket shell={_own}", f"frame bb_shell={_shell}"),
        SHELLS,
    )


@pytest.mark.parametrize(("verdict", "parts", "source"), CRANKS.values(), ids=CRANKS)
def test_cranks(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Bolt circles, spindles, shells and pedals."""
    assert judged(*parts).verdict == verdict, source
