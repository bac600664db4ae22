"""A hub between dropouts: equal, narrower with spacers, wider in steel, by its end caps."""

from __future__ import annotations

from partsbin.fit.verdict import About, Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.frame import Fork, Frame
from partsbin.kinds.wheels import HubPart
from partsbin.standards import hub_spacing
from partsbin.standards.hub_spacing import SLOTTED, TWINS
from partsbin.standards.length import Length, in_mm


def hub_between(hub: HubPart, holder: Frame | Fork, width: str, axle: str) -> Finding:
    """Return how a hub's width goes between a frame's or fork's dropouts.

    `width` and `axle` name the holder's attributes. Widths in micrometres.
    """
    values: tuple[About, ...] = ((hub, "spacing_mm"), (holder, width))
    own, wanted = hub.spacing_mm, Length(getattr(holder, width))
    if hub_spacing.one_width(own, wanted):
        return fits("hub and dropouts are of one width", *values)
    return _of_other_width(hub, holder, axle, *values)


def _of_other_width(hub: HubPart, holder: Frame | Fork, axle: str, *values: About) -> Finding:
    own, wanted = hub.spacing_mm, Length(getattr(*values[1]))
    have, need = Amount("hub", own), Amount("between dropouts", wanted)
    if hub_spacing.twins(own, wanted):
        return _by_end_caps(hub, values, have, need, hub_spacing.TWIN_SOURCE)
    # Some widths are met with thru axles only, so that a slotted hub's spacers do not help.
    end = "front" if isinstance(holder, Fork) else "rear"
    thru = _is_thru(hub, "axle", own, end) or _is_thru(holder, axle, wanted, end)
    if own < wanted:
        if not thru:
            return _narrower(values, have, need)
        told = hub.known("end_caps") or hub.known("axle") or holder.known(axle)
        if {own, wanted} <= TWINS.keys() and not told:
            return _by_kit(values, have, need)
        return _by_end_caps(hub, values, have, need, hub_spacing.SPACER_SOURCE)
    if thru or own in TWINS or wanted in TWINS:
        return clash(
            "the hub is too wide, and thru-axle dropouts may not be spread",
            *values,
            have=have,
            need=need,
            remedy=f"take a hub of {in_mm(wanted)} mm",
        )
    return _wider(holder, values, have, need)


def _is_thru(piece: HubPart | Frame | Fork, axle: str, width: Length, end: str) -> bool:
    """Return whether a piece takes a thru axle, as recorded or as its width is met only."""
    kind = piece.__dict__.get(axle)
    if kind is None:
        return hub_spacing.thru_only(width, end)
    return kind not in SLOTTED


def _by_end_caps(
    hub: HubPart, values: tuple[About, ...], have: Amount, need: Amount, source: str
) -> Finding:
    """Return that only the hub's own end caps change its width, if it has such."""
    values = (*values, (hub, "end_caps"))
    if hub.end_caps == "changeable":
        return adapts(
            "the hub has another width with other end caps",
            *values,
            have=have,
            need=need,
            adapter=Adapter(what=f"end caps of the hub's maker for {in_mm(int(need.value))} mm"),
            change="see that rotor and sprockets stand right afterwards",
            source=source,
        )
    return clash(
        "a hub with fixed ends keeps its width, and loose spacers do not go with a thru axle",
        *values,
        have=have,
        need=need,
        remedy=f"take a hub of {in_mm(int(need.value))} mm",
        source=source,
    )


def _by_kit(values: tuple[About, ...], have: Amount, need: Amount) -> Finding:
    """Return that a narrower thru-axle hub goes where its maker has a kit for the wider frame."""
    return adapts(
        "the hub is too narrow for the dropouts, which take a thru axle",
        *values,
        have=have,
        need=need,
        adapter=Adapter(what=f"end cap kit of the hub's maker for {in_mm(int(need.value))} mm"),
        change="it is made for some hubs only; see that rotor and sprockets stand right afterwards",
        source=hub_spacing.KIT_SOURCE,
    )


def _narrower(values: tuple[About, ...], have: Amount, need: Amount) -> Finding:
    gap = int(need.value) - int(have.value)
    if gap > hub_spacing.MOST_SPACERS:
        return clash(
            "the hub is too narrow for spacers: so long an axle bends",
            *values,
            have=have,
            need=need,
            source=hub_spacing.SPACER_SOURCE,
        )
    return adapts(
        "the hub is too narrow for the dropouts",
        *values,
        have=have,
        need=need,
        adapter=Adapter(what=f"axle spacers of {in_mm(gap)} mm together"),
        change="a longer axle if its ends no longer reach the dropouts, and the rim dished anew",
        source=hub_spacing.SPACER_SOURCE,
    )


def _wider(holder: Frame | Fork, values: tuple[About, ...], have: Amount, need: Amount) -> Finding:
    spread = Length(int(have.value) - int(need.value))
    remedy = f"take a hub of {in_mm(int(need.value))} mm"
    if spread > hub_spacing.COLD_SET:
        return clash(
            "the hub is far too wide to go in", *values, have=have, need=need, remedy=remedy
        )
    sprung = isinstance(holder, Fork) and holder.known("travel_mm") and holder.travel_mm > 0
    material, named = ("aluminium", "travel_mm") if sprung else _material(holder)
    values = (*values, (holder, named))
    if material != "steel":
        cause, source = hub_spacing.NO_SPREAD[material]
        if sprung:
            cause, source = "the legs of a sprung fork may not be spread", hub_spacing.MEMORY
        return clash(
            f"the hub is too wide, and {cause}",
            *values,
            have=have,
            need=need,
            remedy=remedy,
            source=source,
        )
    side = in_mm(spread // 2)
    by_hand = spread <= hub_spacing.SPRINGS_IN
    change = f"spring the dropouts apart by hand, {side} mm a side, or cold-set them"
    if not by_hand:
        change = f"cold-set the steel by {side} mm a side, and set the dropouts parallel again"
    return adapts(
        "the hub is a little too wide, and steel gives",
        *values,
        have=have,
        need=need,
        change=f"{change}; try a magnet first",
    )


def _material(holder: Frame | Fork) -> tuple[str, str]:
    """Return what the blades or stays are of: a steerer's metal stands for a fork's blades."""
    if (
        isinstance(holder, Fork)
        and not holder.known("material")
        and holder.known("steerer_material")
    ):
        return holder.steerer_material, "steerer_material"
    return holder.material, "material"
