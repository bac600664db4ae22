"""Handlebar, stem clamp and lever band diameters."""

from partsbin.standards.sizes import sizes

CLAMPS = sizes(
    "22.2 23.8 25.0 25.4 25.8 26.0 26.4 27.0 31.8 35.0",
    source="lovecitycycles.com/?page_id=796, Handlebar and Stem Dimension sheet; 35.0 from memory",
    same={"31.7": "31.8"},
)
"""Middle of the bar, and the stem's clamp."""

GRIPS = sizes(
    "22.2 23.5 23.8",
    source="lovecitycycles.com/?page_id=796, Handlebar and Stem Dimension sheet; "
    "24.0 = 23.8: bikeforums.net t-645002",
    same={"24.0": "23.8"},
)
"""Where the grips, levers and shifters sit."""

BANDS = sizes(
    "22.2 23.8 25.4 26.0 31.8",
    source="urbanvelo.org issue 12 p. 70 (22.2, 23.8); bikeforums.net t-645002 (24.0, 26.0, 31.8 "
    "of levers at the tops); 25.4 from memory",
    same={"24.0": "23.8", "31.7": "31.8"},
)
"""Bands of levers and shifters; the larger ones go on the thick middle of the bar."""

GRIP_BORES = sizes(
    "22.2 23.8",
    source="velogear.com.au, which grip fits",
    same={"24.0": "23.8"},
)
