"""Front derailleurs on frames: band and seat tube, tab, or bolted straight on."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.sprockets import said
from partsbin.fit.verdict import Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.drivetrain import FrontDerailleur
from partsbin.kinds.frame import Frame
from partsbin.standards.front_derailleurs import BANDS, MOUNTS, THICKEST_SHIM
from partsbin.standards.length import Length, in_mm

SHIMS = "shims from memory; bands: bike.bikegremlin.com/1297"


@interface("front derailleur on frame", source=MOUNTS)
def derailleur_on_frame(derailleur: FrontDerailleur, frame: Frame) -> Finding | None:
    """Match band with tube, tab with tab, and bolt holes with bolt holes.

    A tab derailleur goes on a round tube with an adapter clamp. A band of a known size, or a tube
    of a known size, speaks for itself where the mount is not told.
    """
    values = said(
        (derailleur, "mount"),
        (derailleur, "clamp_mm"),
        (frame, "fd_mount"),
        (frame, "seat_tube_od_mm"),
    )
    band = not derailleur.known("mount") and derailleur.known("clamp_mm")
    mount = "clamp" if band else derailleur.mount
    by_tube = mount == "clamp" and frame.known("seat_tube_od_mm") and not frame.known("fd_mount")
    place = "clamp" if by_tube else frame.fd_mount
    if mount == place:
        if mount == "clamp":
            return _band_on_tube(derailleur, frame)
        return fits("mount and frame are of one kind", *values)
    if mount == "braze-on" and place == "clamp":
        return _tab_on_tube(derailleur, frame)
    if mount == "clamp" and place == "braze-on":
        cause, remedy = (
            "the frame's tab is where the band would sit",
            "take a braze-on derailleur; a tab that is bolted on may come off",
        )
    elif place == "none":
        cause, remedy = "the frame has no place for a front derailleur", "run a single ring"
    else:
        cause, remedy = "the mounts are of different kinds", f"take a derailleur for {place}"
    return clash(cause, *values, remedy=remedy)


def _band_on_tube(derailleur: FrontDerailleur, frame: Frame) -> Finding:
    """Return how a band goes on a tube: a wider one with a shim, a narrower one never."""
    band, tube = derailleur.clamp_mm, frame.seat_tube_od_mm
    values = ((derailleur, "clamp_mm"), (frame, "seat_tube_od_mm"))
    if band == tube:
        return fits("band and seat tube are the same size", *values)
    have, need = Amount("band", band), Amount("seat tube", tube)
    wall = Length((band - tube) // 2)
    if 0 < wall <= THICKEST_SHIM:
        what = f"shim {in_mm(tube)} to {in_mm(band)} mm (wall {in_mm(wall)} mm)"
        return adapts(
            "the band is too wide for the seat tube",
            *values,
            have=have,
            need=need,
            adapter=Adapter(what=what),
            source=SHIMS,
        )
    return clash(
        "the band is too narrow for the seat tube and cannot be opened"
        if band < tube
        else "the band is far too wide for the seat tube, and no shim is so thick",
        *values,
        have=have,
        need=need,
        remedy=f"take a derailleur with a band of {in_mm(tube)} mm, or a tab derailleur with an "
        "adapter clamp",
    )


def _tab_on_tube(derailleur: FrontDerailleur, frame: Frame) -> Finding:
    values = said((derailleur, "mount"), (frame, "fd_mount"), (frame, "seat_tube_od_mm"))
    tube = frame.seat_tube_od_mm if frame.known("seat_tube_od_mm") else None
    size = f" of {in_mm(tube)} mm" if tube is not None else ""
    if tube is not None and tube > BANDS[-1]:
        return clash("no adapter clamp is made for so thick a seat tube", *values)
    return adapts(
        "the derailleur wants a tab, and the seat tube is round and plain",
        *values,
        adapter=Adapter(what=f"adapter clamp{size} with a tab"),
    )


RULES = (derailleur_on_frame,)
