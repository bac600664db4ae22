"""What fastens a wheel: skewers for their hubs, nuts and loose axles by their threads."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.ends import apart
from partsbin.fit.rule import interface
from partsbin.fit.verdict import About, Amount, Finding, adapts, clash, fits
from partsbin.kinds.wheels import Axle, AxleNut, HubPart, Skewer
from partsbin.standards import axle_threads
from partsbin.standards.axle_threads import seem_alike, thread
from partsbin.standards.length import in_mm, mm

PRACTICE = "common practice, no source"
SKEWER_SPARE = mm(5)
"""A skewer made for so much more still closes; with twice as much its nut may find no thread."""


@about("spacing_mm", "axle")
@interface("skewer in hub", source=PRACTICE)
def skewer_in_hub(skewer: Skewer, hub: HubPart) -> Finding | None:
    """Require a hollow axle of the width that the skewer was made for, or a little less."""
    if apart(skewer, hub):
        return None
    if hub.known("axle") and hub.axle != "qr":
        return clash(
            "a skewer needs a hollow quick-release axle",
            (hub, "axle"),
            remedy=f"a {hub.axle} axle has its own fastening",
        )
    values = ((skewer, "spacing_mm"), (hub, "spacing_mm"))
    spare = skewer.spacing_mm - hub.spacing_mm
    have, need = Amount("made for", skewer.spacing_mm), Amount("hub", hub.spacing_mm)
    if 0 <= spare <= SKEWER_SPARE:
        return fits("the skewer is as long as the hub asks for", *values)
    if 0 < spare <= 2 * SKEWER_SPARE:
        return adapts(
            "the skewer is long for the hub",
            *values,
            have=have,
            need=need,
            change="use it only if the nut clamps before its thread ends and nothing sticks out",
        )
    if spare > 0:
        return clash(
            "the nut runs out of thread before the skewer clamps",
            *values,
            have=have,
            need=need,
            dangerous=True,
            remedy=f"take a skewer for {in_mm(hub.spacing_mm)} mm",
        )
    return clash(
        "the skewer is too short for its nut to hold by all its thread",
        *values,
        have=have,
        need=need,
        dangerous=True,
        remedy=f"take a skewer for {in_mm(hub.spacing_mm)} mm",
    )


@about("thread", "axle_thread")
@interface("nut on wheel axle", source=axle_threads.SOURCE)
def nut_on_wheel(nut: AxleNut, hub: HubPart) -> Finding | None:
    """Compare the threads of nut and axle; a calliper alone does not tell them apart."""
    return _threads((nut, "thread"), (hub, "axle_thread"), "nut")


@about("thread")
@interface("nut on axle", source=axle_threads.SOURCE)
def nut_on_axle(nut: AxleNut, axle: Axle) -> Finding | None:
    """Compare the threads of a loose nut and a loose axle."""
    return _threads((nut, "thread"), (axle, "thread"), "nut")


@about("thread", "axle_thread")
@interface("axle in hub", source=axle_threads.SOURCE)
def axle_in_hub(axle: Axle, hub: HubPart) -> Finding | None:
    """Compare the threads of a loose axle and the hub whose cones or ends it must take."""
    return _threads((axle, "thread"), (hub, "axle_thread"), "axle")


def _threads(loose: About, fixed: About, what: str) -> Finding:
    own, wanted = str(getattr(*loose)), str(getattr(*fixed))
    if thread(own) == thread(wanted):
        return fits("the threads are one", loose, fixed)
    if seem_alike(own, wanted):
        return clash(
            f"the {what} seems to start, then binds or strips and lets the wheel loose",
            loose,
            fixed,
            have=Amount(f"the {what}'s pitch", thread(own).pitch),
            need=Amount("wanted pitch", thread(wanted).pitch),
            dangerous=True,
            remedy="check with a thread gauge or a nut of known thread",
        )
    return clash(
        "the threads differ",
        loose,
        fixed,
        have=Amount(f"the {what}'s diameter", thread(own).diameter),
        need=Amount("wanted diameter", thread(wanted).diameter),
        remedy=f"take one with thread {wanted}",
    )


RULES = (skewer_in_hub, nut_on_wheel, nut_on_axle, axle_in_hub)
