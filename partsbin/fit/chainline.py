"""Chainline: the rings in line with the sprockets."""

from __future__ import annotations

from partsbin.fit.ends import end_of
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Amount, Finding, adapts, clash, fits
from partsbin.kinds.drivetrain import Chainset
from partsbin.kinds.frame import Frame
from partsbin.kinds.wheels import HubPart
from partsbin.standards.chainlines import TOLERANCE, TRIPLES, USABLE, chainline_for


@interface("chainline", source=TRIPLES)
def chainline(chainset: Chainset, holder: HubPart | Frame) -> Finding | None:
    """Compare the crank's chainline with the range that the rear hub's width wants, if both tell.

    Micrometres. Half a millimetre beyond the range is no matter, up to 5 mm is usable.
    """
    name = "rear_spacing_mm" if isinstance(holder, Frame) else "spacing_mm"
    if end_of(holder) == "front" or not (holder.known(name) and chainset.known("chainline_mm")):
        return None
    width = holder.rear_spacing_mm if isinstance(holder, Frame) else holder.spacing_mm
    row = chainline_for(width)
    if row is None:
        return None
    line = chainset.chainline_mm
    nearest = min(max(line, row.low), row.high)
    off = abs(line - nearest)
    values = ((chainset, "chainline_mm"), (holder, name))
    have, need = Amount("chainline", line), Amount("nearest for the hub", nearest)
    if off <= TOLERANCE:
        return fits("rings and sprockets are in line", *values, source=row.source)
    if off <= USABLE:
        return adapts(
            "the rings stand out of line with the sprockets",
            *values,
            have=have,
            need=need,
            change="usable, not ideal: a spindle longer or shorter by twice the difference, or "
            "spacers at ring or cup, bring it right",
            source=row.source,
        )
    return clash(
        "the rings stand so far out of line that the chain comes off or wears fast",
        *values,
        have=have,
        need=need,
        remedy="take another spindle length or another chainset",
        source=row.source,
    )


RULES = (chainline,)
