"""Wheels in frames and forks beside the printed combinations, from the same sources."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import Case, judged

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
