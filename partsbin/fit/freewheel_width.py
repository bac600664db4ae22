"""Freewheels between the dropouts: more sprockets need a wider hub."""

from __future__ import annotations

from partsbin.fit.ends import end_of
from partsbin.fit.rule import interface
from partsbin.fit.sprockets import said, speeds_of
from partsbin.fit.verdict import Amount, Finding, clash, fits
from partsbin.kinds.drivetrain import Freewheel
from partsbin.kinds.frame import Frame
from partsbin.kinds.wheels import HubPart
from partsbin.standards.freewheel_spacing import least_spacing
from partsbin.standards.sprocket_spacing import CRIB


@interface("freewheel between the dropouts", source=CRIB)
def freewheel_between_dropouts(freewheel: Freewheel, holder: HubPart | Frame) -> Finding | None:
    """Require the over-locknut width that so many sprockets need; a wider one does no harm."""
    name = "rear_spacing_mm" if isinstance(holder, Frame) else "spacing_mm"
    if end_of(holder) == "front" or not holder.known(name):
        return None
    if not (freewheel.known("speeds") or freewheel.known("cogs")):
        return None
    pitch = freewheel.pitch_mm if freewheel.known("pitch_mm") else None
    need = least_spacing(speeds_of(freewheel), pitch)
    width = holder.rear_spacing_mm if isinstance(holder, Frame) else holder.spacing_mm
    values = said((freewheel, "speeds"), (freewheel, "pitch_mm"), (holder, name))
    have, wanted = Amount("over the locknuts", width), Amount("needed", need)
    if width < need:
        return clash(
            "the smallest sprocket touches the frame",
            *values,
            have=have,
            need=wanted,
            remedy="take a freewheel of fewer sprockets, or the narrow kind of six",
        )
    return fits("there is room for the sprockets", *values, have=have, need=wanted)


RULES = (freewheel_between_dropouts,)
