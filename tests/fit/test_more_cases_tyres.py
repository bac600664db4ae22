"""Tyres on rims beside the printed combinations, from the same sources."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import Case, judged

B26 = "sheldonbrown.com/26.html; bicycle-hangar.com"
SCHWALBE = "schwalbetires.com size_markings"
DOT = "dotbike.com tyre_size_reference"
CURMUDGEON = "nicecurmudgeon.com decimal size table"
BIKEFIX = "bikefix.co.uk/tyre-and-wheel-sizes"
LECYCLO = "lecyclo.com reifengroesse"
UNI = "unicyclist.com 48311"

MARKINGS: dict[str, tuple[str, int, str, str]] = {
    # printed on the tyre, bead seat of the wheel, verdict, source
    "26x1.5 on 559": ("26x1.5", 559, "fits", B26),
    "26x1 1/2 on 559": ("26x1 1/2", 559, "clash", B26),
    "26x1 1/2 on 584": ("26x1 1/2", 584, "fits", B26),
    "26x1.75 on 571": ("26x1.75", 571, "clash", B26),
    "26x1 3/4 on 571": ("26x1 3/4", 571, "fits", B26),
    "26x1 3/4 on 559": ("26x1 3/4", 559, "clash", B26),
    "26x1.95 on 559": ("26x1.95", 559, "fits", CURMUDGEON),
    "26x2.3 on 559": ("26 x 2.3", 559, "fits", CURMUDGEON),
    "26x1.375 on 590": ("26x1.375", 590, "clash", "bikeshedva.blogspot.com 2017/03"),
    "26x1.375 on 599": ("26x1.375", 599, "fits", "bikeshedva.blogspot.com 2017/03"),
    "26x1 3/8 on 590": ("26x1 3/8", 590, "measure", "590, or 597 marked S-6"),
    "26x1 3/8 on 559": ("26x1 3/8", 559, "clash", B26),
    "26x1 3/8 E.A.3 on 590": ("26x1 3/8 E.A.3", 590, "fits", B26),
    "26x1.25 on 559": ("26x1.25", 559, "measure", "559, or 599 on old ones: " + CURMUDGEON),
    "26 alone on 559": ("26 inch", 559, "measure", B26),
    "650A on 590": ("650A", 590, "fits", LECYCLO),
    "650B on 584": ("650x42B", 584, "fits", LECYCLO),
    "650C on 571": ("650x23C", 571, "fits", LECYCLO),
    "650B on 571": ("650B", 571, "clash", LECYCLO),
    "700C on 622": ("700x28C", 622, "fits", LECYCLO),
    "700C on 630": ("700x28C", 630, "clash", SCHWALBE),
    "700B on 635": ("700B", 635, "fits", LECYCLO),
    "700A on 642": ("700A", 642, "fits", LECYCLO),
    "700D on 587": ("700D", 587, "fits", LECYCLO),
    "29 in on 622": ("29x2.1", 622, "fits", SCHWALBE),
    "29 in on 559": ("29x2.1", 559, "clash", SCHWALBE),
    "28x1.40 on 622": ("28x1.40", 622, "fits", "syseidel.wordpress.com 2016/01/14"),
    "28x1 5/8x1 3/8 on 622": ("28x1 5/8x1 3/8", 622, "fits", SCHWALBE),
    "28x1 1/2 on 635": ("28x1 1/2", 635, "measure", "635, or 622 marked F.13"),
    "28x1 1/2 F10 on 635": ("28x1 1/2 F10", 635, "fits", "syseidel.wordpress.com 2016/01/14"),
    "28x1 1/2 F.13 on 622": ("28x1 1/2 F.13", 622, "fits", "syseidel.wordpress.com 2016/01/14"),
    "27x1 1/4 on 630": ("27x1 1/4", 630, "fits", BIKEFIX),
    "27x1 1/8 on 630": ("27x1 1/8", 630, "fits", BIKEFIX),
    "27x1 on 630": ("27x1", 630, "fits", BIKEFIX),
    "27x1 1/4 on 622": ("27x1 1/4", 622, "clash", BIKEFIX),
    "27.5 on 584": ("27.5x2.1", 584, "fits", B26),
    "27.5 on 630": ("27.5x2.1", 630, "clash", B26),
    "24x1.75 on 507": ("24x1.75", 507, "fits", CURMUDGEON),
    "24x1 on 520": ("24x1", 520, "fits", UNI),
    "24x1 on 507": ("24x1", 507, "clash", UNI),
    "24x1 3/8 on 507": ("24x1 3/8", 507, "clash", UNI),
    "24x1 3/8 E.5 on 540": ("24x1 3/8 E.5", 540, "fits", BIKEFIX),
    "600A on 540": ("600A", 540, "fits", BIKEFIX),
    "20x1.75 on 406": ("20x1.75", 406, "fits", CURMUDGEON),
    "20x1.5 on 406": ("20x1.5", 406, "fits", CURMUDGEON),
    "20x1 1/8 on 406": ("20x1 1/8", 406, "clash", UNI),
    "20x1 1/8 on 451": ("20x1 1/8", 451, "fits", UNI),
    "20x1 on 451": ("20x1", 451, "fits", UNI),
    "16x1.75 on 305": ("16x1.75", 305, "measure", "305, or 288 by michelinbicycle.com tiresizes"),
    "16x1 3/8 on 349": ("16x1 3/8", 349, "measure", "349, or 340 marked 400A: " + UNI),
    "16x1 3/8 on 305": ("16x1 3/8", 305, "clash", UNI),
    "400A on 340": ("400A", 340, "fits", UNI),
    "18x1.75 on 355": ("18x1.75", 355, "fits", CURMUDGEON),
    "22x1.75 on 457": ("22x1.75", 457, "fits", CURMUDGEON),
    "17x1 1/4 on 369": ("17x1 1/4", 369, "fits", UNI),
    "12 1/2x2 1/4 on 203": ("12 1/2x2 1/4", 203, "fits", DOT),
    "14x1.75 on 254": ("14x1.75", 254, "fits", DOT),
    "8 1/2x2 on 110": ("8 1/2x2", 110, "fits", DOT),
    "10x2 on 152": ("10x2", 152, "fits", DOT),
    "47-507 on 507": ("47-507", 507, "fits", "ISO 5775"),
    "37-622 on 622": ("37-622", 622, "fits", "ISO 5775"),
    "37-590 on 597": ("37-590", 597, "clash", "ISO 5775"),
    "32-630 on 622": ("32-630 (27x1 1/4)", 622, "clash", "ISO 5775"),
    "54 - 559 on 559": ("54 - 559", 559, "fits", "ISO 5775"),
    "36 in on 787": ("36x2.25", 787, "fits", "syseidel.wordpress.com 2016/01/14"),
}


@pytest.mark.parametrize(("printed", "rim", "verdict", "source"), MARKINGS.values(), ids=MARKINGS)
def test_marking_on_rim(printed: str, rim: int, verdict: str, source: str) -> None:
    """A printed size means its bead seats, a decimal and a fraction different ones."""
    parts = (f"tyre marking='{printed}'", f"wheel bsd_mm={rim}")
    wanted = next(j for j in judged(*parts).interfaces if j.rule.name == "tyre on rim")
    assert wanted.finding.verdict == verdict, source


TABLE = "ETRTO table of 2006, de-rec-fahrrad.de etrtotabelle"
GUIDE = "1.45 to 2 times the inner width: syseidel.wordpress.com; enginesite.blogg.se"
HOOKLESS = "Chris_King_Wheel_Tire_Statement.pdf"
BRITISH = "BS ISO 5775-2:2015"
ROWS: dict[str, Case] = {}
for _inner, _least, _old, _most in (
    (13, 18, 25, 25),
    (15, 23, 32, 32),
    (17, 25, 37, 50),
    (19, 28, 47, 62),
    (21, 35, 50, 62),
    (23, 37, 50, 62),
    (25, 44, 60, 62),
    (27, 47, 62, 62),
    (29, 54, 62, 62),
):
    _rim = f"rim rim_inner_mm={_inner}"
    for _width, _verdict in (
        (min(2 * _inner, _most), "fits"),
        (_most, "fits" if _most <= 2 * _inner else "adapts"),
        (_most + 13, "clash"),
        (_least - 8, "clash"),
    ):
        ROWS[f"{_width} on {_inner}"] = (_verdict, (f"tyre width_mm={_width}", _rim), TABLE)
ROWS |= {
    "23 on 24": ("clash", ("tyre width_mm=23", "rim rim_inner_mm=24"), "rim maker's chart"),
    "28.6 on 21": ("clash", ("tyre width_mm=28.6", "rim rim_inner_mm=21"), "min 30.4: " + GUIDE),
    "62 on 19": ("adapts", ("tyre width_mm=62", "wheel rim_inner_mm=19"), TABLE),
    "37 on 17": ("adapts", ("tyre width_mm=37", "wheel rim_inner_mm=17"), "over 2 x 17"),
    "32 on 17": ("fits", ("tyre width_mm=32", "wheel rim_inner_mm=17"), TABLE),
    "40 on 19": ("adapts", ("tyre width_mm=40", "wheel rim_inner_mm=19"), "over 2 x 19"),
    "38 on 19": ("fits", ("tyre width_mm=38", "wheel rim_inner_mm=19"), TABLE),
    "50 on 17": ("adapts", ("tyre width_mm=50", "wheel rim_inner_mm=17"), TABLE),
    "57 on 17": ("clash", ("tyre width_mm=57", "wheel rim_inner_mm=17"), TABLE),
    "35 on 13": ("clash", ("tyre width_mm=35", "wheel rim_inner_mm=13"), TABLE),
    "25 on 17": ("fits", ("tyre width_mm=25", "wheel rim_inner_mm=17"), TABLE),
    "tubeless 30 on hookless 25": (
        "fits",
        ("tyre tubeless=yes width_mm=40", "wheel rim_type=hookless rim_inner_mm=25"),
        HOOKLESS,
    ),
    "tubeless 25 on hookless 25": (
        "clash",
        ("tyre tubeless=yes width_mm=25", "wheel rim_type=hookless rim_inner_mm=25"),
        "least 28 or 29: " + HOOKLESS,
    ),
    "tube-type on hookless": ("clash", ("tyre tubeless=no", "wheel rim_type=hookless"), HOOKLESS),
    "tubeless on hookless": ("fits", ("tyre tubeless=yes", "rim rim_type=hookless"), HOOKLESS),
    "not known on hookless": ("measure", ("tyre", "rim rim_type=hookless"), HOOKLESS),
    "folding on straight side": (
        "clash",
        ("tyre bead=folding", "rim rim_type=straight-side"),
        BRITISH,
    ),
    "rigid on straight side": ("fits", ("tyre bead=rigid", "rim rim_type=straight-side"), BRITISH),
    "folding on crochet": ("fits", ("tyre bead=folding", "rim rim_type=crochet"), BRITISH),
    "540 on 541": ("fits", ("tyre bsd_mm=540", "rim bsd_mm=541"), BIKEFIX),
    "590 on 597": ("clash", ("tyre bsd_mm=590", "rim bsd_mm=597"), B26),
    "597 on 590": ("clash", ("tyre bsd_mm=597", "rim bsd_mm=590"), "dangerous: " + B26),
    "622 on 630": ("clash", ("tyre bsd_mm=622", "rim bsd_mm=630"), SCHWALBE),
    "630 on 622": ("clash", ("tyre bsd_mm=630", "rim bsd_mm=622"), SCHWALBE),
    "bead seat taped as 621": ("fits", ("tyre bsd_mm=622", "rim bsd_mm=621"), "snaps to 622"),
    "bead seat taped as 594": (
        "measure",
        ("tyre bsd_mm=590", "rim bsd_mm=593.5"),
        "between 590 and 597",
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), ROWS.values(), ids=ROWS)
def test_tyre_on_rim(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Width by table and guideline, edge by bead, diameter by bead seat."""
    assert judged(*parts).verdict == verdict, source
