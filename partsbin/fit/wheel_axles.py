"""Axles in dropouts: the kind of axle, and its thickness in an open slot."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.ends import apart
from partsbin.fit.rule import interface
from partsbin.fit.verdict import About, Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.frame import Fork, Frame
from partsbin.kinds.wheels import HubPart
from partsbin.standards.hub_spacing import SLOTTED, axles_met
from partsbin.standards.length import Length, in_mm, mm

AXLE_SOURCE = "blog.flocycling.com QR and thru axle; raceface.com how to fit a wheelset"
TWO_110_SOURCE = "rovalcomponents.com 6-millimeter conundrum; mountainbike-magazin.de Lexikon"
PRACTICE = "common practice, no source"

TIGHT = mm(0.4)
"""An axle so much thicker than the slot still enters: threads are under their nominal size, as
old 5/16 in (7.94 mm) axles in slots of 7.6 mm; 8.2 mm ones do not (smontanaro.net/CR/2007/6/1373).
"""
NEAR_SIZE = mm(0.5)
"""A reading so near the size that it is taken for is the better figure for a slot."""

LOOSE = mm(0.6)
"""An axle so much thinner than the slot is held in its middle. Common practice, no source."""

SLOT_SOURCE = "smontanaro.net/CR/2007/6/1373; lawrencegeraldacc5.web.app thru axle vs QR"


@about("axle", "rear_axle")
@interface("wheel axle in frame", source=AXLE_SOURCE)
def axle_in_frame(hub: HubPart, frame: Frame) -> Finding | None:
    """Fits if the axle is of the dropouts' kind; see `axle_in_fork`."""
    if apart(hub, frame):
        return None
    return _of_kind(hub, frame, "rear_axle", "rear_spacing_mm", "rear")


@about("axle")
@interface("wheel axle in fork", source=AXLE_SOURCE)
def axle_in_fork(hub: HubPart, fork: Fork) -> Finding | None:
    """Open slots take quick-release and nutted axles, closed holes the thru axle of their size.

    Another kind goes only with end caps that the hub's maker has for it, never with a skewer alone.
    """
    if apart(hub, fork):
        return None
    return _of_kind(hub, fork, "axle", "spacing_mm", "front")


def _of_kind(hub: HubPart, holder: Frame | Fork, name: str, width: str, end: str) -> Finding:
    values: tuple[About, ...] = ((hub, "axle"), (holder, name))
    own, wanted = hub.__dict__.get("axle"), holder.__dict__.get(name)
    # One side that is not recorded is told by its width, where that is met with one kind only.
    if own is None and wanted is not None:
        own = _by_width(hub, "spacing_mm", end) or hub.axle
    elif wanted is None:
        own = hub.axle
        wanted = _by_width(holder, width, end) or getattr(holder, name)
    if own == wanted:
        return fits("axle and dropouts are of one kind", *values)
    if own in SLOTTED and wanted in SLOTTED:
        return fits("both kinds of axle go into open slots", *values)
    remedy = f"take a wheel with a {wanted} axle"
    if own == "nutted":
        return clash(
            "a solid axle with nuts does not go into closed dropouts", *values, remedy=remedy
        )
    if {own, wanted} == {"thru-15", "thru-20"} and hub.__dict__.get("spacing_mm") == mm(110):
        return clash(
            "hubs of 110 mm for 15 and for 20 mm axles are two designs that no end caps join",
            *values,
            remedy=remedy,
            source=TWO_110_SOURCE,
        )
    values = (*values, (hub, "end_caps"))
    if hub.end_caps == "changeable":
        return adapts(
            "the hub takes another kind of axle with other end caps",
            *values,
            adapter=Adapter(what=f"end caps of the hub's maker for {_meant(wanted)}"),
        )
    return clash("the hub's ends are made for another kind of axle", *values, remedy=remedy)


def _by_width(piece: HubPart | Frame | Fork, width: str, end: str) -> str:
    """Return the kind of axle that a recorded width is met with, empty if it is not one kind."""
    known = piece.__dict__.get(width)
    met = axles_met(known, end) if known is not None else frozenset()
    if met and met <= SLOTTED:
        return "qr"
    return next(iter(met)) if len(met) == 1 else ""


def _meant(wanted: object) -> str:
    return (
        "open dropouts" if wanted in SLOTTED else f"a {str(wanted).removeprefix('thru-')} mm axle"
    )


@about("dropout_slot_mm")
@interface("axle in dropout slot", source=SLOT_SOURCE)
def axle_in_slot(hub: HubPart, holder: Frame | Fork) -> Finding | None:
    """Compare the axle's thickness with the slot's width; thru axles have no slot."""
    if apart(hub, holder) or _is_thru(hub.__dict__.get("axle")) or _is_thru(_dropouts(holder)):
        return None
    values = ((hub, "axle_mm"), (holder, "dropout_slot_mm"))
    slot, thick = holder.dropout_slot_mm, _as_read(hub)
    have, need = Amount("axle", thick), Amount("slot", slot)
    if thick > slot + TIGHT:
        return clash(
            "the axle is too thick for the slot",
            *values,
            have=have,
            need=need,
            remedy="take a hub with a thinner axle; steel dropouts can be filed, by little",
        )
    if thick < slot - LOOSE:
        return adapts(
            "the axle is thin for the slot and may clamp off its middle",
            *values,
            have=have,
            need=need,
            adapter=Adapter(what=f"dropout washers or bushes for a {in_mm(thick)} mm axle"),
            source=PRACTICE,
        )
    return fits("the axle goes into the slot", *values, have=have, need=need)


def _as_read(hub: HubPart) -> Length:
    """Return the axle's thickness as it was read: the listed size may be too near another."""
    size = hub.axle_mm
    read = hub.spec.get("axle_mm")
    return Length(read) if isinstance(read, int) and abs(read - size) < NEAR_SIZE else size


def _is_thru(kind: object) -> bool:
    return kind is not None and kind not in SLOTTED


def _dropouts(holder: Frame | Fork) -> object:
    return holder.__dict__.get("rear_axle" if isinstance(holder, Frame) else "axle")


RULES = (axle_in_frame, axle_in_fork, axle_in_slot)
