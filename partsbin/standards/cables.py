"""Inner cables: how thick the wire is for brakes and for shifting.

Source: bikeman.com 1641 cables and housing; bike.bikegremlin.com/8548. The pages differ by 0.1 mm
over shift wire; the wider range is taken, with 0.05 mm for the reading.
"""

from __future__ import annotations

from partsbin.standards.length import mm

SOURCE = "bikeman.com 1641 cables and housing; bike.bikegremlin.com/8548"
READING = mm(0.05)
BRAKE_WIRE = (mm(1.5), mm(1.6))
SHIFT_WIRE = (mm(1.1), mm(1.3))
