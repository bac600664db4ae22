"""Front derailleurs: bands and shims, pull, and what a cage tolerates."""

from __future__ import annotations

from decimal import Decimal

from partsbin.standards.length import mm

MOUNTS = "bike.bikegremlin.com/1297; hulkbike.com/blog/deraillieur"
BANDS = (mm("28.6"), mm("31.8"), mm("34.9"))
"""Clamp diameters that are made. Source: bike.bikegremlin.com/1297"""
THICKEST_SHIM = mm("3.2")
"""Wall of the shim from 34.9 to 28.6 mm, the thickest that is made; from memory."""

ROAD_BY_FLAT = Decimal("0.746")
"""Cable that a road front derailleur takes per that of a flat-bar one. Source: mtbr.com 933644"""
PULL_SOURCE = "mtbr.com 933644; cyclinguk.org/cycle, page on front shifting"
PULL_SLACK = Decimal("0.05")
"""How far a pulley's factor may be off; common practice, no source."""

SMALLER_OUTER = 4
"""Teeth that the big ring may have fewer than the cage was made for.

Source: cyclinguk.org/cycle, page on front shifting.
"""
SMALLER_USABLE = 8
"""Common practice, no source: beyond, the cage stands too far off the ring to shift."""

DIFFERENCES = {2: 16, 3: 22}
"""Largest less smallest ring that derailleurs for 2 and 3 rings take as a rule.

Source: defietssite.nl capacity (14 and 22); 16 for compact doubles from memory.
"""
CAGE_SOURCE = "brainybiker 10-speed front derailleur with 9-speed chain"
