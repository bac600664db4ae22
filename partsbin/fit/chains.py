"""Chains: their width between sprockets and on rings, and their wear."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.rule import interface
from partsbin.fit.sprockets import LISTED_SPEEDS, said, speeds_of
from partsbin.fit.verdict import About, Amount, Finding, adapts, clash, fits
from partsbin.kinds.drivetrain import Chain, Chainring, Chainset, Sprocket, SprocketCluster
from partsbin.standards import chain_wear
from partsbin.standards.chain_widths import (
    NARROW_INNER,
    SINGLE_SPROCKETS,
    WIDTHS,
    inner_for,
    speeds_for,
)
from partsbin.standards.length import Length, in_mm, mm
from partsbin.standards.sprocket_spacing import spacing

LEAST_GAP = mm("0.10")
"""Room that a chain needs to the neighbouring sprocket; chosen from the published cases."""
LOOSE_GAP = mm("0.90")
"""From here a narrow chain on wide sprockets is published as usable, not ideal."""
SIZES = "bike.bikegremlin.com/1220"
SINGLES = "en.wikibooks.org Bicycles/Maintenance_and_Repair/Chains/Chain_sizes"
WIDE_TRACK = mm("3.0")
"""An inner width of 3.175 mm and more is for single sprockets only."""


def outer_of(chain: Chain) -> Length:
    """Return the width over a chain's pins, measured or by its number of speeds."""
    if chain.known("outer_mm"):
        return chain.outer_mm
    return WIDTHS[_speeds_of(chain)].outer


def inner_of(chain: Chain) -> Length:
    """Return the width between a chain's inner plates, measured or by its number of speeds."""
    if chain.known("inner_mm"):
        return chain.inner_mm
    if chain.known("outer_mm") and not chain.known("speeds"):
        return inner_for(chain.outer_mm)
    return WIDTHS[_speeds_of(chain)].inner


def _speeds_of(chain: Chain) -> int:
    """Return the number of speeds by which a chain's widths are listed; others are asked for."""
    if chain.speeds in WIDTHS:
        return chain.speeds
    if chain.speeds < 5:
        return 1
    _ = chain.outer_mm  # asks for it
    return max(WIDTHS)


def gap(pitch: Length, thickness: Length, outer: Length) -> Length:
    """Return the free space between a chain and the neighbouring sprocket.

    >>> gap(mm("3.95"), mm("1.6"), mm("6.6"))
    -150
    """
    return Length(pitch - (thickness + outer) // 2)


@interface("chain on sprockets", source=SIZES)
def chain_on_sprockets(chain: Chain, cluster: SprocketCluster) -> Finding | None:
    """Compute the gap to the neighbouring sprocket and the room between the inner plates.

    Micrometres. A gap of 0.1 mm and 0.1 mm of room over the tooth are enough; sprockets whose
    spacing is not told have the standard one, and beyond the table the number of speeds decides.
    """
    values = said(
        (chain, "speeds"),
        (chain, "inner_mm"),
        (chain, "outer_mm"),
        (cluster, "speeds"),
        (cluster, "spacing"),
        (cluster, "pitch_mm"),
        (cluster, "cog_thickness_mm"),
    )
    if _is_wide(chain):
        return clash("the chain is for a single sprocket and far too wide", *values, source=SINGLES)
    figures = _figures(cluster)
    if figures is None:
        return _by_speeds(chain, cluster)
    pitch, closest, thickness = figures
    inner = inner_of(chain)
    if inner <= thickness:
        return clash(
            "the sprocket's teeth do not go between the chain's inner plates",
            *values,
            have=Amount("inside the chain", inner),
            need=Amount("sprocket", thickness),
        )
    outer = outer_of(chain)
    loose = gap(pitch, thickness, outer) >= LOOSE_GAP and inner <= NARROW_INNER
    return _in_the_gap(gap(closest, thickness, outer), inner - thickness, values, loose=loose)


def _in_the_gap(free: Length, room: int, values: tuple[About, ...], *, loose: bool) -> Finding:
    """Return what the gap beside the chain and the room over the teeth mean."""
    have = Amount("gap to the next sprocket", free)
    if free < LEAST_GAP:
        return clash(
            "the chain is too wide and rubs or rides up on the next sprocket",
            *values,
            have=have,
            need=Amount("least gap", LEAST_GAP),
            remedy="take a chain for at least as many speeds as the sprockets",
        )
    if room <= LEAST_GAP:
        return adapts(
            "the chain is tight over the teeth",
            *values,
            have=Amount("room over the teeth", room),
            change="try it on every sprocket; it may run rough until worn in",
        )
    if loose:
        return adapts(
            "the chain is much narrower than the sprockets need",
            *values,
            have=have,
            change="usable, not ideal: shifts may be slow, and on wide rings it may ride between",
            source="brainybiker 10-speed chain on 8-speed cassette",
        )
    return fits("the chain clears the next sprocket and goes over the teeth", *values, have=have)


def _figures(cluster: SprocketCluster) -> tuple[Length, Length, Length] | None:
    """Return pitch, closest pitch and thickness of the sprockets, None beyond the table."""
    if cluster.known("pitch_mm", "cog_thickness_mm"):
        return cluster.pitch_mm, cluster.pitch_mm, cluster.cog_thickness_mm
    speeds = speeds_of(cluster)
    kind = cluster.spacing if cluster.known("spacing") else "standard"
    row = (
        (spacing(speeds, kind) or spacing(speeds, "standard")) if speeds in LISTED_SPEEDS else None
    )
    if row is None:
        return None
    pitch, closest = row.pitch, row.closest
    if cluster.known("pitch_mm"):
        pitch = closest = cluster.pitch_mm
    thick = cluster.cog_thickness_mm if cluster.known("cog_thickness_mm") else row.thickness
    return pitch, closest, thick


def _by_speeds(chain: Chain, cluster: SprocketCluster) -> Finding:
    """Return what the numbers of speeds say: narrower on fewer speeds goes, wider does not."""
    of_chain = chain.speeds if chain.known("speeds") else None
    if of_chain is None:
        of_chain = speeds_for(chain.outer_mm) if chain.known("outer_mm") else chain.speeds
    of_cluster = speeds_of(cluster)
    values = said((chain, "speeds"), (chain, "outer_mm"), (cluster, "speeds"))
    if of_chain < max(of_cluster, 5):
        return clash("the chain is for fewer speeds and too wide", *values)
    if of_chain > of_cluster + 1:
        return adapts(
            "the chain is for more speeds and narrower than needed",
            *values,
            change="usable, not ideal: try it on every sprocket",
        )
    return fits("the chain is for these speeds", *values)


@interface("chain on single sprocket", source=SINGLES)
def chain_on_sprocket(chain: Chain, sprocket: Sprocket) -> Finding | None:
    """Require the chain's inner width to take the sprocket's; a wider chain runs as well."""
    values = said(
        (chain, "speeds"), (chain, "inner_mm"), (chain, "outer_mm"), (sprocket, "width_in")
    )
    need = SINGLE_SPROCKETS[sprocket.width_in]
    inner = inner_of(chain)
    if inner >= need:
        return fits("the chain is as wide as the sprocket or wider", *values)
    have, wanted = Amount("inside the chain", inner), Amount("chain for the sprocket", need)
    if sprocket.width_in == "3/32":
        return adapts(
            "the chain is narrower than those made for such a sprocket",
            *values,
            have=have,
            need=wanted,
            change=f"calliper a tooth: it must be under {in_mm(inner - LEAST_GAP)} mm",
        )
    return clash(
        "the sprocket's teeth do not go between the chain's inner plates",
        *values,
        have=have,
        need=wanted,
        remedy="take a 1/8 in chain, or a 3/32 in sprocket",
    )


RING_SOURCE = "bike.bikegremlin.com/1220; brainybiker 10-speed chain with 9-speed crankset"


@about("speeds", "inner_mm", "outer_mm")
@interface("chain on chainrings", source=RING_SOURCE)
def chain_on_rings(chain: Chain, rings: Chainset | Chainring) -> Finding | None:
    """Compare numbers of speeds; rings forgive one step, and a narrow chain more than a wide one.

    Rings that do not say for how many speeds they are go with any chain for derailleurs.
    """
    values = said((chain, "speeds"), (chain, "inner_mm"), (chain, "outer_mm"), (rings, "speeds"))
    if not rings.known("speeds"):
        several = isinstance(rings, Chainset) and rings.known("rings") and len(rings.rings) > 1
        return _too_wide(values) if several and _is_wide(chain) else None
    of_chain, of_rings = _step(_speeds_by_width(chain)), _step(rings.speeds)
    if of_rings == 1:
        return _single_ring(chain, rings)
    if of_chain == 1:
        return _too_wide(values)
    if abs(of_chain - of_rings) <= 1:
        return fits("chain and rings are at most one step apart", *values)
    return adapts(
        "chain and rings are several steps apart",
        *values,
        change="usable, not ideal: a narrow chain may ride between the rings, a wide one rub",
    )


def _too_wide(values: tuple[About, ...]) -> Finding:
    return clash("a chain for single sprockets is too wide for these rings", *values)


def _is_wide(chain: Chain) -> bool:
    """Return whether a chain is known to be one for single sprockets."""
    if chain.known("inner_mm"):
        return chain.inner_mm >= WIDE_TRACK
    if chain.known("speeds"):
        return chain.speeds < 5
    return chain.known("outer_mm") and inner_for(chain.outer_mm) >= WIDE_TRACK


def _single_ring(chain: Chain, rings: Chainset | Chainring) -> Finding:
    values = said((chain, "speeds"), (chain, "inner_mm"), (rings, "speeds"))
    if inner_of(chain) >= SINGLE_SPROCKETS["1/8"]:
        return fits("the chain is as wide as a single ring may be", *values)
    return adapts(
        "a single ring may be 1/8 in wide, on which this chain does not go",
        *values,
        change=f"calliper a tooth: it must be under {in_mm(inner_of(chain) - LEAST_GAP)} mm",
    )


def _speeds_by_width(chain: Chain) -> int:
    if chain.known("outer_mm"):
        return speeds_for(chain.outer_mm)
    return 1 if _is_wide(chain) else chain.speeds


def _step(speeds: int) -> int:
    """Return the step of a chain's width: up to 8 speeds they have one inner width."""
    return 1 if speeds < 5 else max(speeds, 8)


@interface("chain wear", source=chain_wear.GAUGES)
def chain_wear_limit(chain: Chain, driven: SprocketCluster | Sprocket) -> Finding | None:
    """Refuse a chain that is past the limit for its number of speeds."""
    if not chain.known("wear_percent"):
        return None
    if isinstance(driven, Sprocket):
        speeds = 1
    else:
        told = chain.known("speeds") or not driven.known("speeds")
        speeds = chain.speeds if told else speeds_of(driven)
    limit = chain_wear.limit(speeds)
    have = Amount("elongation", chain.wear_percent, "%")
    need = Amount("limit", limit, "%")
    values = said((chain, "wear_percent"), (driven, "speeds"))
    if not chain_wear.worn(chain.wear_percent, speeds):
        return fits("the chain is not worn out", *values, have=have, need=need)
    too = ", and sprockets that it ran on" if chain.wear_percent >= chain_wear.SPROCKETS_TOO else ""
    return clash(
        "the chain is worn out: it skips under load and wears the teeth",
        *values,
        have=have,
        need=need,
        remedy=f"fit a new chain{too}",
    )


RULES = (chain_on_sprockets, chain_on_sprocket, chain_on_rings, chain_wear_limit)
