"""Rear indexing: one click of the shifter must move the cage by one pitch of the sprockets."""

from __future__ import annotations

from collections.abc import Iterator

from partsbin.fit.aspect import about
from partsbin.fit.gear_shifters import is_friction, moves_rear
from partsbin.fit.index_error import (
    PLAY,
    Cage,
    Click,
    Sprockets,
    cage_of,
    click_of,
    end_error,
    error_of,
    own_cage,
    pulley,
)
from partsbin.fit.rule import interface
from partsbin.fit.sprockets import kind_of, pitch_of, said, speeds_of, used_of
from partsbin.fit.verdict import About, Amount, Finding, Verdict, adapts, clash, fits
from partsbin.kinds.cockpit import Shifter
from partsbin.kinds.drivetrain import RearDerailleur, SprocketCluster
from partsbin.standards.indexing_families import (
    CLAMP_CHANGES,
    CLOSED,
    FAMILIES,
    ROAD_ELEVEN,
    ClampChange,
)
from partsbin.standards.length import in_mm
from partsbin.standards.sprocket_spacing import spacing

CLOSED_SPEEDS = range(6, 9)
UNEVEN = "mtb-news.de/forum/showthread.php?t=132022"
PULLEY_CAUTION = "see that the pulley has cable travel enough and a place where it can sit"
UNPROMISED = "ratio-1.9"
"""Its pulls are derived, so no cassette is promised to a foreign shifter through it."""


@about("index_family", "speeds", "pull_per_click_mm", "friction", "ratio", "spacing", "pitch_mm")
@interface(
    "rear indexing",
    source="en.wikibooks.org Bicycles/Maintenance_and_Repair/Gear-changing_Dimensions; "
    "limits chosen from published combinations",
)
def rear_indexing(
    shifter: Shifter | None, derailleur: RearDerailleur | None, cluster: SprocketCluster | None
) -> Finding | None:
    """Let parts of one family index; compare others by pull times ratio against pitch.

    Lengths in micrometres. With the cable tuned at the middle sprocket, the outermost may be off by
    0.5 mm; up to 0.9 mm it is marginal. A shifter without clicks goes with anything.
    """
    if shifter is None:
        return _without_shifter(derailleur, cluster) if derailleur and cluster else None
    if (derailleur is None and cluster is None) or not moves_rear(shifter):
        return None
    if is_friction(shifter):
        return fits("a lever without clicks sets any travel", (shifter, "friction"))
    return _uneven(shifter, derailleur, cluster) or _even(shifter, derailleur, cluster)


def _even(
    shifter: Shifter, derailleur: RearDerailleur | None, cluster: SprocketCluster | None
) -> Finding | None:
    """Return what holds for parts with even clicks and gaps, or with only their mean known."""
    values = _about(shifter, derailleur, cluster)
    if cluster is None:
        assert derailleur is not None
        return _without_sprockets(shifter, derailleur, values)
    click = click_of(shifter)
    if click is None:
        return None
    pitch = pitch_of(cluster)
    if pitch is None:
        return None
    sprockets = Sprockets(pitch, used_of(cluster))
    if derailleur is None:
        return _without_derailleur(click, cluster, sprockets, values)
    cage = cage_of(derailleur)
    if _is_native(click, cage, cluster, sprockets):
        return fits("shifter, derailleur and sprockets are of one family", *values)
    return _compared(click, cage, sprockets, _sprocket_key(cluster), values)


def _about(
    shifter: Shifter | None, derailleur: RearDerailleur | None, cluster: SprocketCluster | None
) -> tuple[About, ...]:
    return said(
        (shifter, "index_family"),
        (shifter, "speeds"),
        (shifter, "pull_per_click_mm"),
        (derailleur, "index_family"),
        (derailleur, "ratio"),
        (cluster, "speeds"),
        (cluster, "spacing"),
        (cluster, "pitch_mm"),
    )


def _sprocket_key(cluster: SprocketCluster) -> tuple[int, str] | None:
    """Return the number and kind of sprockets as the tables name them, None if not known."""
    if not cluster.known("speeds") or not (cluster.known("spacing") or cluster.known("spline")):
        return None
    return cluster.speeds, kind_of(cluster)


def _is_native(click: Click, cage: Cage, cluster: SprocketCluster, sprockets: Sprockets) -> bool:
    """Return whether shifter, derailleur and sprockets were made for each other.

    A family's own pair moves by exactly its native pitch, so no rounded figure is asked.
    """
    row = click.family
    if row is None or row.name != cage.family:
        return False
    if row.speeds == 11 and row.spacing in ROAD_ELEVEN and not cluster.known("pitch_mm"):
        return speeds_of(cluster) == 11 and kind_of(cluster) in ROAD_ELEVEN
    return end_error(row.pitch, *sprockets) <= PLAY


def _compared(
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
    off = f"tuned at the middle sprocket the outermost are {in_mm(error.nominal)} mm off"
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
            change=change.change,
            source=change.source,
        )
    remedy = PULLEY_CAUTION if adapter else "take a shifter of the derailleur's family"
    return clash(f"{off}", *values, have=have, need=need, adapter=adapter, remedy=remedy)


def _clamp_change(click: Click, cage: Cage, key: tuple[int, str] | None) -> ClampChange | None:
    if click.family is None or key is None:
        return None
    return CLAMP_CHANGES.get(((click.family.name, click.family.speeds), cage.family, key))


def _uneven(
    shifter: Shifter, derailleur: RearDerailleur | None, cluster: SprocketCluster | None
) -> Finding | None:
    """Return what holds for parts with uneven clicks or gaps, None if there are none.

    They index among themselves; on even sprockets with some spacers exchanged; else not.
    """
    of_shifter = not shifter.known("pull_per_click_mm") and shifter.index_family == CLOSED
    of_derailleur = derailleur is not None and _has_uneven_cage(derailleur)
    of_cluster = cluster is not None and _has_uneven_gaps(cluster)
    if not (of_shifter or of_derailleur or of_cluster):
        return None
    if of_shifter and shifter.known("speeds") and shifter.speeds not in CLOSED_SPEEDS:
        return None
    values = _about(shifter, derailleur, cluster)
    same_cage = derailleur is None or of_derailleur
    if of_shifter and same_cage and cluster is None:
        return fits("shifter and derailleur are of one uneven family", *values, source=UNEVEN)
    if of_shifter and same_cage and cluster and shifter.speeds == speeds_of(cluster):
        if of_cluster:
            return fits("all are of one uneven family", *values, source=UNEVEN)
        return adapts(
            "uneven clicks build up an error toward the outermost of even sprockets",
            *values,
            change="exchange two or three of the spacers for those of one speed less or more, and "
            "try every gear",
            source=UNEVEN,
        )
    return clash(
        "uneven clicks and gaps index only among themselves",
        *values,
        remedy="use a lever without clicks, or its friction mode",
        source=UNEVEN,
    )


def _has_uneven_cage(derailleur: RearDerailleur) -> bool:
    return not derailleur.known("ratio") and derailleur.index_family == CLOSED


def _has_uneven_gaps(cluster: SprocketCluster) -> bool:
    if cluster.known("pitch_mm") or speeds_of(cluster) not in CLOSED_SPEEDS:
        return cluster.known("spacing") and cluster.spacing == CLOSED
    return kind_of(cluster) == CLOSED


def _of_one_family(shifter: Shifter, derailleur: RearDerailleur) -> bool:
    """Return whether both name one family, and no measured figure says otherwise."""
    if not (shifter.known("index_family") and derailleur.known("index_family")):
        return False
    family = shifter.index_family
    if family != derailleur.index_family or cage_of(derailleur).family != family:
        return False
    click = click_of(shifter) if shifter.known("pull_per_click_mm") else None
    return click is None or click.family is not None or not shifter.known("speeds")


def _without_sprockets(
    shifter: Shifter, derailleur: RearDerailleur, values: tuple[About, ...]
) -> Finding | None:
    """Return whether a shifter and a derailleur belong together for some sprockets.

    Those are the sprockets of the shifter's family, or those that the derailleur is marked for.
    """
    if _of_one_family(shifter, derailleur):
        return fits("shifter and derailleur are of one family", *values)
    click = click_of(shifter)
    if click is None:
        return None
    cage = cage_of(derailleur)
    if click.family is None:
        speeds = shifter.speeds
        own = spacing(speeds, "standard")
        found = [(Sprockets(own.pitch, speeds), (speeds, "standard"))] if own else []
    else:
        own_row = click.family
        key = own_row.speeds, own_row.spacing
        found = [(Sprockets(own_row.pitch, own_row.speeds), key)]
    found += _marked(derailleur, cage, found[0][0].used if found else shifter.speeds)
    findings = [_compared(click, cage, sprockets, key, values) for sprockets, key in found]
    return min(findings, key=lambda finding: finding.verdict.rank)


def _marked(
    derailleur: RearDerailleur, cage: Cage, positions: int
) -> list[tuple[Sprockets, tuple[int, str]]]:
    """Return the sprockets that a derailleur's family is made for, of its own number if marked."""
    marked = derailleur.speeds if derailleur.known("speeds") else None
    return [
        (Sprockets(row.pitch, min(row.speeds, positions)), (row.speeds, row.spacing))
        for row in FAMILIES.values()
        if row.name == cage.family and (row.speeds == marked if marked else row.speeds <= positions)
    ]


def _without_derailleur(
    click: Click, cluster: SprocketCluster, sprockets: Sprockets, values: tuple[About, ...]
) -> Finding:
    """Return whether a shifter suits sprockets: with its own derailleur, or with theirs."""
    key = _sprocket_key(cluster)
    own = None
    if click.family is not None:
        cage = own_cage(click.family)
        if _is_native(click, cage, cluster, sprockets):
            return fits("shifter and sprockets are of one family", *values)
        own = _compared(click, cage, sprockets, key, values)
        if own.verdict is not Verdict.CLASH:
            return own
    for cage in _cages_of(sprockets):
        foreign = _compared(click, cage, sprockets, key, values)
        if foreign.verdict is not Verdict.CLASH:
            return adapts(
                f"it indexes only with a derailleur of ratio {cage.ratio}",
                *values,
                change=foreign.change or f"use a derailleur of the family {cage.family}",
            )
    wanted = sprockets.pitch / (click.pull or 1)
    return own or clash(
        f"no derailleur of these sprockets has the ratio {wanted:.2f} that it would need", *values
    )


def _cages_of(sprockets: Sprockets) -> Iterator[Cage]:
    """Yield the derailleurs of the families that were made for sprockets of this pitch."""
    for row in FAMILIES.values():
        if row.name != UNPROMISED and end_error(row.pitch, *sprockets) <= PLAY:
            yield own_cage(row)


def _without_shifter(derailleur: RearDerailleur, cluster: SprocketCluster) -> Finding | None:
    """Return whether a shifter of the derailleur's own family indexes on these sprockets.

    Without a shifter nothing can clash, since a lever without clicks always goes.
    """
    if not (derailleur.known("index_family") and cluster.known("speeds")):
        return None
    key = _sprocket_key(cluster)
    family = derailleur.index_family
    if key is None and not cluster.known("pitch_mm"):
        return None
    values = _about(None, derailleur, cluster)
    if family == CLOSED:
        made_for = key is not None and key[1] == CLOSED
    else:
        pitch = pitch_of(cluster)
        assert pitch is not None
        sprockets = Sprockets(pitch, used_of(cluster))
        made_for = any(
            _is_native(Click(row.pull, row), own_cage(row), cluster, sprockets)
            for row in FAMILIES.values()
            if row.name == family
        )
    if made_for:
        return fits("the derailleur's family has a shifter for these sprockets", *values)
    return adapts(
        "no shifter of the derailleur's own family clicks at this pitch",
        *values,
        change="use a lever without clicks, or a shifter whose pull times the ratio is the pitch",
    )


@interface("shifter positions for sprockets", source="radreise-forum.de/posts/1500566")
def positions_for_sprockets(shifter: Shifter, cluster: SprocketCluster) -> Finding | None:
    """Require a position for each sprocket; surplus ones the limit screw blocks."""
    if not (moves_rear(shifter) and shifter.known("speeds")) or is_friction(shifter):
        return None
    if not (cluster.known("speeds") or cluster.known("cogs")):
        return None
    have, need = shifter.speeds, used_of(cluster)
    values = ((shifter, "speeds"), *said((cluster, "speeds"), (cluster, "cogs")))
    if have < need:
        return clash(
            "the shifter has fewer positions than there are sprockets",
            *values,
            have=Amount("positions", have, ""),
            need=Amount("sprockets", need, ""),
            remedy=f"blocked by the limit screw {need - have} would stay unused; take a shifter of "
            f"{need} positions",
        )
    spare = "; the limit screw blocks the rest" if have > need else ""
    return fits(f"there is a position for each sprocket{spare}", *values)


RULES = (rear_indexing, positions_for_sprockets)
