"""How much longer or shorter than the frame was drawn for a fork may be."""

from __future__ import annotations

from partsbin.standards.length import Length, mm

SAG_SOURCE = "carboncycles.cc viewtopic 4551"
SAG_PERCENT = (20, 30)
"""How far a sprung fork sinks under the rider, of its travel. Source: as above."""

SAME = mm(5)
"""A rigid fork 5 mm off the computed length is sold as the replacement. Source: as above."""

LONGER = mm(20)
SHORTER = mm(35)
"""Past these the steering, the pedals' clearance or the frame suffers. From memory."""


def length_off(axle_to_crown: Length, travel: Length | None, drawn_for: Length) -> Length:
    """Return by how much a fork is longer than the frame was drawn for, negative if shorter.

    The frame's figure may be of a rigid fork or of a sprung one without a rider, so a sprung fork
    is compared with and without sag, and the nearer counts.

    >>> length_off(mm(525), mm(120), mm(490)), length_off(mm(525), mm(120), mm(485))
    (0, 4000)
    """
    unloaded = Length(axle_to_crown - drawn_for)
    if not travel:
        return unloaded
    least, most = (Length(unloaded - travel * percent // 100) for percent in reversed(SAG_PERCENT))
    ridden = least if least > 0 else most if most < 0 else Length(0)
    return min(unloaded, ridden, key=abs)
