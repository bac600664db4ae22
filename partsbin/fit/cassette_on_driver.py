"""Cassettes on hub bodies: the spline, and the spacer behind the sprockets."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.sprockets import said, speeds_of, used_of
from partsbin.fit.verdict import Adapter, Finding, adapts, clash, fits
from partsbin.kinds.drivetrain import Cassette, Freewheel
from partsbin.kinds.wheels import FREEWHEEL_THREADS, HubPart
from partsbin.standards.driver_bodies import (
    BODY_SOURCE,
    EXTENDED,
    FREEWHEEL_SOURCE,
    LONG,
    MIDDLE,
    ONE_WIDE,
    SHORT,
    SPACERS,
    TALL,
    Behind,
)
from partsbin.standards.length import Length, in_mm
from partsbin.standards.sprocket_spacing import spacing

THREADS = frozenset(FREEWHEEL_THREADS.split())
MODERN = range(7, 12)


@interface("cassette on hub body", source=BODY_SOURCE)
def cassette_on_driver(cassette: Cassette, hub: HubPart) -> Finding | None:
    """Match the splines, then take the spacer behind the cassette from the table.

    Cassettes for bodies with one wide spline go by their number of speeds, whichever of those
    bodies they were bought for.
    """
    if hub.known("side") and hub.side == "front":
        return None
    driver = hub.driver
    values = said(
        (cassette, "speeds"),
        (cassette, "spline"),
        (cassette, "spacing"),
        (cassette, "ring_behind_mm"),
        (hub, "driver"),
    )
    if driver == "none" or driver in THREADS:
        return clash(
            "a cassette slides on a splined body, and this hub has none",
            *values,
            remedy="take a freewheel with the hub's thread" if driver in THREADS else "",
            source=FREEWHEEL_SOURCE,
        )
    if driver in ONE_WIDE and _is_one_wide(cassette):
        return _on_one_wide(cassette, driver, hub)
    if cassette.spline == driver:
        return fits("spline and body are of one kind", *values)
    behind = EXTENDED.get((cassette.spline, driver))
    if behind is not None and behind.spacer:
        return _with_spacer(behind.spacer, cassette, hub, behind.source)
    return clash(
        "the splines are of different kinds",
        *values,
        remedy=f"take a cassette for {driver}, or another body or wheel",
    )


def _is_one_wide(cassette: Cassette) -> bool:
    """Return whether a cassette is for bodies with one wide spline, as its spacing may tell."""
    if not cassette.known("spline") and cassette.known("spacing", "speeds"):
        return cassette.spacing in {"standard", "flat-bar"} and cassette.speeds in MODERN
    return cassette.spline in ONE_WIDE


def _on_one_wide(cassette: Cassette, driver: str, hub: HubPart) -> Finding:
    group = _group(cassette, driver)
    behind = SPACERS.get((group, driver)) if group else None
    left_out = Length(0)
    if behind is None and group == "8 of 9":
        behind = SPACERS[("8-9", driver)]
        nine = spacing(9, "standard")
        left_out = nine.pitch if nine else left_out
    if behind is None:
        behind = _by_spline(cassette.spline, driver)
    if behind.spacer is None:
        return clash(
            "the cassette does not go on a body of this length or spline height",
            *said((cassette, "speeds"), (cassette, "spline"), (hub, "driver")),
            remedy="take a cassette of fewer sprockets, or leave sprockets out, never the smallest"
            if driver == SHORT
            else "take another cassette, or another body or wheel",
            source=behind.source,
        )
    thick = Length(behind.spacer + left_out)
    if thick:
        return _with_spacer(thick, cassette, hub, behind.source)
    values = said((cassette, "speeds"), (cassette, "spline"), (hub, "driver"))
    return fits("the cassette goes on the body without a spacer", *values, source=behind.source)


def _with_spacer(thick: Length, cassette: Cassette, hub: HubPart, source: str) -> Finding:
    return adapts(
        "the body is longer than the cassette needs",
        *said((cassette, "speeds"), (cassette, "spline"), (hub, "driver")),
        adapter=Adapter(what=f"spacer {in_mm(thick)} mm behind the largest sprocket"),
        source=source,
    )


def _group(cassette: Cassette, driver: str) -> str:
    """Return the row of the table that a cassette belongs to, empty if there is none."""
    if not (cassette.known("speeds") or cassette.known("cogs")) and cassette.known("spline"):
        return ""
    speeds = speeds_of(cassette)
    if speeds == 9 and used_of(cassette) == 8:
        return "8 of 9"
    if speeds == 10:
        # Without a spacer on the tall body, and on none of the short ones, ring or no ring.
        if driver in {TALL, SHORT}:
            return "10 with ring"
        return "10 with ring" if cassette.ring_behind_mm else "10"
    if speeds == 11:
        return "11 road" if _is_road_eleven(cassette) else "11 wide"
    return {7: "7", 8: "8-9", 9: "8-9"}.get(speeds, "")


def _is_road_eleven(cassette: Cassette) -> bool:
    """Return whether an 11-speed cassette is a road one, by the body that it names or its pitch."""
    if cassette.known("spline") and not (
        cassette.known("spacing") and cassette.spacing == "flat-bar"
    ):
        return cassette.spline == LONG
    return cassette.spacing != "flat-bar"


def _by_spline(spline: str, driver: str) -> Behind:
    """Return the spacer between two bodies of one outline, for cassettes of no listed number."""
    own = {SHORT: "7", MIDDLE: "8-9", TALL: "10 with ring", LONG: "11 road"}[spline]
    return SPACERS[(own, driver)]


@interface("freewheel on hub", source=FREEWHEEL_SOURCE)
def freewheel_on_hub(freewheel: Freewheel, hub: HubPart) -> Finding | None:
    """Require the thread of the hub; three threads of 24 to the inch interchange in general."""
    if hub.known("side") and hub.side == "front":
        return None
    values = said((freewheel, "thread"), (hub, "driver"))
    if hub.driver not in THREADS:
        return clash(
            "a freewheel screws on a thread, and this hub has none",
            *values,
            remedy="take a cassette for the hub's body" if hub.driver != "none" else "",
        )
    thread, driver = freewheel.thread, hub.driver
    if thread == driver:
        return fits("freewheel and hub have the same thread", *values)
    if {thread, driver} <= INTERCHANGE:
        return fits(
            "the threads interchange, except on a tandem or for a strong rider, who may strip them",
            *values,
        )
    if "bmx-30x1" in {thread, driver}:
        return clash("the threads are of different diameter", *values)
    return clash(
        "the freewheel starts by hand and then binds"
        if thread == "french-34.7x1"
        else "the freewheel seems to go on, and strips the thread under load",
        *values,
        remedy=f"take a freewheel with the thread {driver}; never try a French one on another",
    )


INTERCHANGE = frozenset({"iso-1.375x24", "british-1.370x24", "italian-35x24tpi"})

RULES = (cassette_on_driver, freewheel_on_hub)
