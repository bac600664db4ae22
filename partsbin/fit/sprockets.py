"""What a cassette or freewheel says of its sprockets, by its own figures or by the table."""

from __future__ import annotations

from typing import Any

from partsbin.fit.verdict import About
from partsbin.kinds.drivetrain import SprocketCluster
from partsbin.kinds.kind import Kind
from partsbin.standards.length import Length
from partsbin.standards.sprocket_spacing import SPACINGS, spacing

SPACING_OF_SPLINE = {
    "italian-deep-spline": "italian",
    "one-wide-spline-short": "standard",
    "one-wide-spline-35": "standard",
    "one-wide-spline-36.8": "standard",
    "tall-spline-10": "standard",
}
"""A cassette is spaced as the maker of its body spaces. Source: bike.bikegremlin.com/1259"""

LISTED_SPEEDS = frozenset(speeds for speeds, _kind in SPACINGS)


def said(*values: tuple[Kind | None, str]) -> tuple[About, ...]:
    """Return those of some values that are known, to be named in a finding."""
    return tuple((piece, name) for piece, name in values if piece is not None and piece.known(name))


def speeds_of(cluster: SprocketCluster) -> int:
    """Return for how many speeds the sprockets are spaced; those there, if it does not say."""
    if not cluster.known("speeds") and cluster.known("cogs"):
        return len(cluster.cogs)
    return cluster.speeds


def used_of(cluster: SprocketCluster) -> int:
    """Return how many sprockets there are; a cassette may have been built up with fewer."""
    return len(cluster.cogs) if cluster.known("cogs") else cluster.speeds


def kind_of(cluster: SprocketCluster) -> str:
    """Return the kind of spacing, which a cassette's spline may tell."""
    if not cluster.known("spacing") and cluster.known("spline"):
        held: dict[str, Any] = cluster.__dict__
        told = SPACING_OF_SPLINE.get(held["spline"])
        if told is not None:
            wide_eleven = held["spline"] == "one-wide-spline-35" and speeds_of(cluster) == 11
            return "flat-bar" if wide_eleven else told
    return cluster.spacing


def pitch_of(cluster: SprocketCluster) -> Length | None:
    """Return the pitch, measured or by the table.

    Sprockets that are recorded so and have no row need their pitch measured. None where no such
    sprockets exist, which only happens while an unknown is tried.
    """
    if cluster.known("pitch_mm"):
        return cluster.pitch_mm
    speeds = speeds_of(cluster)
    if speeds not in LISTED_SPEEDS:
        return cluster.pitch_mm  # asks for it
    row = spacing(speeds, kind_of(cluster))
    if row is None and cluster.spec.get("spacing") is not None:
        return cluster.pitch_mm  # asks for it
    return row.pitch if row else None
