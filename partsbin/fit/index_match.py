"""Whether a click, a derailleur and sprockets match: by family first, then by figures."""

from __future__ import annotations

from partsbin.fit.index_error import (
    PLAY,
    Cage,
    Click,
    Sprockets,
    end_error,
    error_of,
    pulley,
)
from partsbin.fit.sprockets import kind_of, speeds_of
from partsbin.fit.verdict import About, Amount, Finding, Verdict, adapts, clash, fits
from partsbin.kinds.drivetrain import SprocketCluster
from partsbin.standards.indexing_families import CLAMP_CHANGES, ROAD_ELEVEN, ClampChange
from partsbin.standards.length import Length, in_mm

PULLEY_CAUTION = "see that the pulley has cable travel enough and a place where it can sit"


def sprocket_key(cluster: SprocketCluster) -> tuple[int, str] | None:
    """Return the number and kind of sprockets as the tables name them, None if not known."""
    if not cluster.known("speeds") or not (cluster.known("spacing") or cluster.known("spline")):
        return None
    return cluster.speeds, kind_of(cluster)


def is_native(click: Click, cage: Cage, cluster: SprocketCluster, sprockets: Sprockets) -> bool:
    """Return whether shifter, derailleur and sprockets were made for each other.

    A family's own pair moves by exactly its native pitch, so no rounded figure is asked.
    """
    row = click.family
    if row is None or row.name != cage.family:
        return False
    road = row.speeds == 11 and row.spacing in ROAD_ELEVEN and not cluster.known("pitch_mm")
    if road and speeds_of(cluster) == 11 and kind_of(cluster) in ROAD_ELEVEN:
        return True
    return end_error(row.pitch, *sprockets) <= PLAY


def compared(
    click: Click,
    cage: Cage,
    sprockets: Sprockets,
    key: tuple[int, str] | None,
    values: tuple[About, ...],
) -> Finding:
    """Return what the figures say of parts of different families."""
    error = error_of(click.pull, cage, sprockets)
    have = Amount("cage travel per click", error.travel)
    need = Amount("sprocket pitch", sprockets.pitch)
    nominal = in_mm(Length(round(error.nominal, -1)))
    off = f"tuned at the middle sprocket the outermost are {nominal} mm off"
    if error.verdict is Verdict.FITS:
        return fits(f"{off}, within the play of the derailleur", *values, have=have, need=need)
    if error.verdict is Verdict.ADAPTS:
        return adapts(
            f"{off}, which is marginal",
            *values,
            have=have,
            need=need,
            change="tune it at the middle sprocket and try every gear on the road",
        )
    adapter = pulley(click.pull, cage, sprockets)
    change = _clamp_change(click, cage, key)
    if change is not None:
        factor = sprockets.pitch / (click.pull * float(cage.ratio))
        return adapts(
            f"{off}; a changed arm of the cable mends it (factor {factor:.2f})",
            *values,
            have=have,
            need=need,
            adapter=adapter,
            change=f"or, without one, {change.change}",
            source=change.source,
        )
    remedy = PULLEY_CAUTION if adapter else "take a shifter of the derailleur's family"
    return clash(f"{off}", *values, have=have, need=need, adapter=adapter, remedy=remedy)


def _clamp_change(click: Click, cage: Cage, key: tuple[int, str] | None) -> ClampChange | None:
    if click.family is None or key is None:
        return None
    return CLAMP_CHANGES.get(((click.family.name, click.family.speeds), cage.family, key))
