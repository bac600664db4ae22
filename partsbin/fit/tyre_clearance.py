"""Tyre clearance: the width of tyre that a frame or fork leaves room for."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.rule import interface
from partsbin.fit.tyre_width import named_width, width_of
from partsbin.fit.verdict import Amount, Finding, clash, fits
from partsbin.kinds.frame import Fork, Frame
from partsbin.kinds.wheels import Tyre
from partsbin.standards.length import mm

SOURCE = "16 CFR 1512.11: at least 1.6 mm between tyre and fork or frame"
ROUNDING = mm(0.5)
"""Widths from inches are compared so near: 2.1 in is 53.3 mm."""


@about("tyre_clearance_mm", "width_mm")
@interface("tyre clearance in frame", source=SOURCE)
def tyre_clearance_in_frame(tyre: Tyre, frame: Frame) -> Finding | None:
    """Fits if the tyre is no wider than the widest that the rear end leaves 1.6 mm a side."""
    return _clearance(tyre, frame)


@about("tyre_clearance_mm", "width_mm")
@interface("tyre clearance in fork", source=SOURCE)
def tyre_clearance_in_fork(tyre: Tyre, fork: Fork) -> Finding | None:
    """Fits if the tyre is no wider than the widest that the fork leaves 1.6 mm a side."""
    return _clearance(tyre, fork)


def _clearance(tyre: Tyre, holder: Frame | Fork) -> Finding:
    widest, width = holder.tyre_clearance_mm, width_of(tyre)
    values = (named_width(tyre), (holder, "tyre_clearance_mm"))
    have, need = Amount("tyre", width), Amount(f"widest in the {holder.word}", widest)
    if width <= widest + ROUNDING:
        return fits("the tyre turns with air on both sides", *values, have=have, need=need)
    return clash(
        f"the tyre comes too near the {holder.word} and may rub or jam",
        *values,
        have=have,
        need=need,
        remedy="take a narrower tyre",
    )


RULES = (tyre_clearance_in_frame, tyre_clearance_in_fork)
