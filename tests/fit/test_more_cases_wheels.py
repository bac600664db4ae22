"""Wheel, tyre and tube combinations beside the printed ones, from the same tables and sources."""

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


POWERMAN = "powermanmalaysia.com tube sizes"
HANGAR = "bicycle-hangar.com; veloaporter.com tube size"
GENGRAS = "gengrasharley-davidson.com tube size"
HOLES = "bikefinest.com; healthfully.com valve stem types; en.wikipedia.org Dunlop_valve"
DEPTH = "thebestmagnets.com copy of an article on valve stems: rim and 15 mm"
TIPS = "handwiki.org Presta valve; en.wikipedia.org Dunlop_valve"
TUBES: dict[str, Case] = {
    "630 in 622": ("fits", ("tube bsd_mm=630", "tyre bsd_mm=622"), HANGAR),
    "622 in 630": ("fits", ("tube bsd_mm=622", "tyre bsd_mm=630"), HANGAR),
    "590 in 597": ("fits", ("tube bsd_mm=590", "tyre bsd_mm=597"), "firehouse-bicycles 597"),
    "597 in 590": ("fits", ("tube bsd_mm=597", "tyre bsd_mm=590"), "firehouse-bicycles 597"),
    "559 in 584": ("fits", ("tube bsd_mm=559", "tyre bsd_mm=584"), POWERMAN),
    "584 in 622": ("adapts", ("tube bsd_mm=584", "tyre bsd_mm=622"), POWERMAN),
    "559 in 622": ("clash", ("tube bsd_mm=559", "tyre bsd_mm=622"), "11 percent: " + POWERMAN),
    "451 in 406": ("clash", ("tube bsd_mm=451", "tyre bsd_mm=406"), "tadpolerider2.wordpress.com"),
    "406 in 451": ("clash", ("tube bsd_mm=406", "tyre bsd_mm=451"), "11 percent"),
    "622 in 559": ("clash", ("tube bsd_mm=622", "tyre bsd_mm=559"), "too long"),
    "584 in 559": ("clash", ("tube bsd_mm=584", "tyre bsd_mm=559"), "4.5 percent longer"),
    "35-43 in 40": ("fits", ("tube width_min_mm=35 width_max_mm=43", "tyre width_mm=40"), POWERMAN),
    "35-43 in 28": (
        "clash",
        ("tube width_min_mm=35 width_max_mm=43", "tyre width_mm=28"),
        POWERMAN,
    ),
    "1.5 in 1.95": (
        "adapts",
        ("tube width_min_mm=32 width_max_mm=38.1", "tyre width_mm=49.5"),
        GENGRAS,
    ),
    "1.5 in 2.3": (
        "clash",
        ("tube width_min_mm=32 width_max_mm=38.1", "tyre width_mm=58.4"),
        GENGRAS,
    ),
    "26x1.95-2.125 in 26x2.0": (
        "fits",
        ("tube bsd_mm=559 width_min_mm=49.5 width_max_mm=54", "tyre marking=26x2.0"),
        POWERMAN,
    ),
    "presta in 6.5": ("fits", ("tube valve=presta", "rim valve_hole_mm=6.5"), HOLES),
    "presta in 6.3": ("fits", ("tube valve=presta", "rim valve_hole_mm=6.3"), HOLES),
    "presta in 8.3": ("adapts", ("tube valve=presta", "rim valve_hole_mm=8.3"), HOLES),
    "presta in 8.5 with grommet": (
        "fits",
        ("tube valve=presta", "rim valve_hole_mm=8.5", "valve_grommet"),
        HOLES,
    ),
    "schrader in 6.5": ("clash", ("tube valve=schrader", "rim valve_hole_mm=6.5"), HOLES),
    "schrader in 8.5": ("fits", ("tube valve=schrader", "wheel valve_hole_mm=8.5"), HOLES),
    "dunlop in 6.5": ("clash", ("tube valve=dunlop", "rim valve_hole_mm=6.5"), HOLES),
    "dunlop in 8.5": ("fits", ("tube valve=dunlop", "rim valve_hole_mm=8.5"), HOLES),
    "stem of 8 mm in 6.5": (
        "clash",
        ("tube valve=8", "rim valve_hole_mm=6.5"),
        "schrader or dunlop, both too thick",
    ),
    "stem of 8 mm in 8.5": ("fits", ("tube valve=8", "rim valve_hole_mm=8.5"), "either fits"),
    "hole between": ("measure", ("tube valve=presta", "rim valve_hole_mm=7.5"), "6.5 or 8.5"),
    "40 in 25 deep": ("fits", ("tube valve_length_mm=40", "rim rim_depth_mm=25"), DEPTH),
    "40 in 30 deep": ("adapts", ("tube valve_length_mm=40", "rim rim_depth_mm=30"), DEPTH),
    "60 in 45 deep": ("fits", ("tube valve_length_mm=60", "rim rim_depth_mm=45"), DEPTH),
    "80 in 65 deep": ("fits", ("tube valve_length_mm=80", "rim rim_depth_mm=65"), DEPTH),
    "60 in 50 deep with extender": (
        "fits",
        (
            "tube valve_length_mm=60",
            "rim rim_depth_mm=50",
            "valve_extender length_mm=20 type=on-core",
        ),
        DEPTH,
    ),
    "extender in a fixed core": (
        "clash",
        ("tube removable_core=no", "valve_extender type=in-stem"),
        "slowtwitch.cloud",
    ),
    "extender in a removable core": (
        "fits",
        ("tube removable_core=yes", "valve_extender type=in-stem"),
        "slowtwitch.cloud",
    ),
    "schrader pump, presta": ("adapts", ("pump_head valve=schrader", "tube valve=presta"), TIPS),
    "presta pump, dunlop": ("fits", ("pump_head valve=presta", "tube valve=dunlop"), TIPS),
    "presta pump, schrader": ("clash", ("pump_head valve=presta", "tube valve=schrader"), TIPS),
    "schrader cap, presta": ("clash", ("valve_cap valve=schrader", "tube valve=presta"), TIPS),
    "presta cap, dunlop": ("fits", ("valve_cap valve=presta", "tube valve=dunlop"), TIPS),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), TUBES.values(), ids=TUBES)
def test_tubes_and_valves(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Tubes by size and width, valves by hole, depth and pump."""
    assert judged(*parts).verdict == verdict, source


SPREAD = "sheldonbrown.com/frame-spacing.html; roadbikereview.com, Cold setting frames"
THRU = "blog.flocycling.com QR and thru axle; rovalcomponents.com 6-millimeter conundrum"


def _rear(hub: float, frame: float, more: str = "", hub_more: str = "") -> tuple[str, str]:
    return (
        f"wheel side=rear spacing_mm={hub} {hub_more}",
        f"frame rear_spacing_mm={frame} {more}",
    )


WIDTHS: dict[str, Case] = {
    "130 in 130": ("fits", _rear(130, 130), SPREAD),
    "126 in 130 steel": ("adapts", _rear(126, 130, "material=steel"), "spacers of 4 mm"),
    "126 in 135": ("adapts", _rear(126, 135), "standardbikes.ca FldHelpId=1378"),
    "120 in 126": ("adapts", _rear(120, 126), "standardbikes.ca FldHelpId=1378"),
    "130 in 126 steel": ("adapts", _rear(130, 126, "material=steel"), SPREAD),
    "135 in 130 steel": ("adapts", _rear(135, 130, "material=steel"), SPREAD),
    "135 in 126 steel": ("adapts", _rear(135, 126, "material=steel"), "smontanaro.net"),
    "130 in 120 steel": ("adapts", _rear(130, 120, "material=steel"), "thechainlink.org"),
    "135 in 120 steel": ("clash", _rear(135, 120, "material=steel"), "more than 10 mm"),
    "130 in 126 heat-treated": (
        "clash",
        _rear(130, 126, "material=heat-treated-steel"),
        "cyclechat.net 145681",
    ),
    "135 in 130 aluminium": ("clash", _rear(135, 130, "material=aluminium"), "mtbr.com"),
    "130 in 126 carbon": ("clash", _rear(130, 126, "material=carbon"), "from memory"),
    "135 in 130 titanium": ("clash", _rear(135, 130, "material=titanium"), "from memory"),
    "135 in 130, material not known": ("measure", _rear(135, 130), SPREAD),
    "126 in 130, material not known": ("adapts", _rear(126, 130), "spacers whatever it is"),
    "148 in 142": ("clash", _rear(148, 142), "bikeradar.com, axle standards"),
    "142 in 148, fixed caps": ("clash", _rear(142, 148, "", "end_caps=fixed"), THRU),
    "142 in 148, its maker's kit": ("adapts", _rear(142, 148, "", "end_caps=changeable"), THRU),
    "135 in 142, fixed": ("clash", _rear(135, 142, "", "end_caps=fixed"), THRU),
    "135 in 142, changeable": ("adapts", _rear(135, 142, "", "end_caps=changeable"), THRU),
    "read as 134.8": ("fits", _rear(135, 134.8), "snaps to 135"),
    "100 in 96 steel fork": (
        "adapts",
        ("wheel side=front spacing_mm=100", "fork spacing_mm=96 material=steel"),
        "fixed.org.au 42786",
    ),
    "100 in 96 carbon fork": (
        "clash",
        ("wheel side=front spacing_mm=100", "fork spacing_mm=96 material=carbon"),
        "from memory",
    ),
    "100 in 100": ("fits", ("wheel side=front spacing_mm=100", "fork spacing_mm=100"), SPREAD),
    "qr in thru-15, fixed": (
        "clash",
        ("hub side=front axle=qr end_caps=fixed", "fork axle=thru-15"),
        THRU,
    ),
    "qr in thru-15, changeable": (
        "adapts",
        ("hub side=front axle=qr end_caps=changeable", "fork axle=thru-15"),
        THRU,
    ),
    "qr in thru-15, caps not known": (
        "measure",
        ("hub side=front axle=qr", "fork axle=thru-15"),
        THRU,
    ),
    "thru-15 in qr, fixed": (
        "clash",
        ("hub side=front axle=thru-15 end_caps=fixed", "fork axle=qr"),
        THRU,
    ),
    "thru-15 in qr, changeable": (
        "adapts",
        ("hub side=front axle=thru-15 end_caps=changeable", "fork axle=qr"),
        THRU,
    ),
    "nutted in thru-12": ("clash", ("hub side=rear axle=nutted", "frame rear_axle=thru-12"), THRU),
    "nutted in qr dropouts": ("fits", ("hub side=rear axle=nutted", "frame rear_axle=qr"), THRU),
    "15x110 in 20x110": (
        "clash",
        ("hub side=front axle=thru-15 spacing_mm=110", "fork axle=thru-20 spacing_mm=110"),
        "two different 110s: " + THRU,
    ),
    "rear wheel and fork": (
        "fits",
        ("wheel side=rear spacing_mm=135", "fork spacing_mm=100"),
        "they do not meet",
    ),
    "old slot of 7.6, axle of 8.2 or more": (
        "clash",
        ("hub side=front axle_mm=9", "fork dropout_slot_mm=7.6"),
        "smontanaro.net/CR/2007/6/1373",
    ),
    "old slot of 7.6, 5/16 axle": (
        "fits",
        ("hub side=front axle_mm=7.94", "fork dropout_slot_mm=7.6"),
        "smontanaro.net/CR/2007/6/1373",
    ),
    "10 mm nut on 3/8 axle": (
        "clash",
        ("axle_nut thread=10x1", "wheel axle_thread=3/8x26"),
        "wrenchfu.com axle-nut",
    ),
    "3/8x24 nut on 3/8x26": (
        "clash",
        ("axle_nut thread=3/8x24", "axle thread=3/8x26"),
        "bikealmanac.com/standards",
    ),
    "9x1 on 9x1": ("fits", ("axle_nut thread=M9x1", "axle thread='9 x 1'"), "wrenchfu.com"),
    "32 hub, 36 rim": ("clash", ("hub spokes=32", "rim spokes=36"), "filtersweep.blogspot.com"),
    "36 hub, 32 rim": ("clash", ("hub spokes=36", "rim spokes=32"), "sheldonbrown.com/mismatch"),
    "28 and 28": ("fits", ("hub spokes=28", "rim spokes=28"), "filtersweep.blogspot.com"),
    "6 speeds wide in 120": (
        "clash",
        ("freewheel speeds=6", "frame rear_spacing_mm=120"),
        "forum.bikeradar 12905742",
    ),
    "5 speeds in 120": (
        "fits",
        ("freewheel speeds=5", "frame rear_spacing_mm=120"),
        "forum.bikeradar 12905742",
    ),
    "7 speeds in 126": (
        "fits",
        ("freewheel speeds=7", "frame rear_spacing_mm=126"),
        "forum.bikeradar 12905742",
    ),
    "tyre 40, room 42": (
        "fits",
        ("tyre width_mm=37", "frame tyre_clearance_mm=42"),
        "16 CFR 1512.11",
    ),
    "tyre 47, room 42": (
        "clash",
        ("tyre width_mm=47", "frame tyre_clearance_mm=42"),
        "16 CFR 1512.11",
    ),
    "tyre 32, fork 28": (
        "clash",
        ("tyre marking=32-622", "fork tyre_clearance_mm=28"),
        "16 CFR 1512.11",
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), WIDTHS.values(), ids=WIDTHS)
def test_wheel_in_frame(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Widths, axles, threads, holes and room."""
    assert judged(*parts).verdict == verdict, source
