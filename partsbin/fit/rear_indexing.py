"""Rear indexing: one click of the shifter must move the cage by one pitch of the sprockets."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.gear_shifters import is_friction, moves_rear
from partsbin.fit.index_error import (
    Click,
    Sprockets,
    cage_of,
    click_of,
    own_cage,
)
from partsbin.fit.index_match import compared, is_native, sprocket_key
from partsbin.fit.index_pairs import of_one_family, with_derailleur, with_sprockets
from partsbin.fit.rule import interface
from partsbin.fit.sprockets import kind_of, pitch_of, said, speeds_of, used_of
from partsbin.fit.verdict import About, Amount, Finding, Verdict, adapts, clash, fits
from partsbin.kinds.attribute import UndecidedError
from partsbin.kinds.cockpit import Shifter
from partsbin.kinds.drivetrain import RearDerailleur, SprocketCluster
from partsbin.standards.indexing_families import (
    CLOSED,
    FAMILIES,
)

CLOSED_SPEEDS = range(6, 9)
UNEVEN = "mtb-news.de/forum/showthread.php?t=132022"


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
    try:
        return _indexed(shifter, derailleur, cluster)
    except UndecidedError as undecided:
        if derailleur is None or undecided.piece is not cluster:
            raise
        # What two of the three cannot do, no sprockets mend, though these are not known.
        pair = _indexed(shifter, derailleur, None)
        if pair is None or pair.verdict is not Verdict.CLASH:
            raise
        return pair


def _indexed(
    shifter: Shifter, derailleur: RearDerailleur | None, cluster: SprocketCluster | None
) -> Finding | None:
    return _uneven(shifter, derailleur, cluster) or _even(shifter, derailleur, cluster)


def _even(
    shifter: Shifter, derailleur: RearDerailleur | None, cluster: SprocketCluster | None
) -> Finding | None:
    """Return what holds for parts with even clicks and gaps, or with only their mean known."""
    values = _about(shifter, derailleur, cluster)
    if cluster is None and derailleur is not None and of_one_family(shifter, derailleur):
        return fits("shifter and derailleur are of one family", *values)
    click = click_of(shifter)
    if click is None:
        return None
    if cluster is None:
        return with_derailleur(shifter, click, derailleur, values) if derailleur else None
    pitch = pitch_of(cluster)
    if pitch is None:
        return None
    sprockets = Sprockets(pitch, used_of(cluster))
    if derailleur is None:
        return with_sprockets(click, cluster, sprockets, values)
    return _all_three(shifter, click, derailleur, cluster, sprockets)


def _all_three(
    shifter: Shifter,
    click: Click,
    derailleur: RearDerailleur,
    cluster: SprocketCluster,
    sprockets: Sprockets,
) -> Finding:
    """Return what holds for all three; figures that match by chance promise nothing.

    Three parts of which two alone cannot work are refused, whatever the sum of the figures.
    """
    values = _about(shifter, derailleur, cluster)
    cage = cage_of(derailleur)
    if is_native(click, cage, cluster, sprockets):
        return fits("shifter, derailleur and sprockets are of one family", *values)
    finding = compared(click, cage, sprockets, sprocket_key(cluster), values)
    if finding.verdict is Verdict.CLASH or click.family is None or not cage.family:
        return finding
    strangers = with_sprockets(click, cluster, sprockets, values)
    if click.family.name != cage.family and strangers.verdict is not Verdict.CLASH:
        strangers = with_derailleur(shifter, click, derailleur, values)
    if strangers.verdict is not Verdict.CLASH:
        return finding
    return clash(
        "only the rounded figures come near: no two of the three were made to work together",
        *values,
        have=finding.have,
        need=finding.need,
        remedy="take a shifter and a derailleur of one family, for these sprockets",
    )


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


def _without_shifter(derailleur: RearDerailleur, cluster: SprocketCluster) -> Finding | None:
    """Return whether a shifter of the derailleur's own family indexes on these sprockets.

    Without a shifter nothing can clash, since a lever without clicks always goes.
    """
    if not (derailleur.known("index_family") and cluster.known("speeds")):
        return None
    key = sprocket_key(cluster)
    family = derailleur.index_family
    if key is None and not cluster.known("pitch_mm"):
        return None
    values = _about(None, derailleur, cluster)
    if family == CLOSED:
        made_for = key is not None and key[1] == CLOSED
    else:
        pitch = pitch_of(cluster)
        if pitch is None:
            return None
        sprockets = Sprockets(pitch, used_of(cluster))
        made_for = any(
            is_native(Click(row.pull, row), own_cage(row), cluster, sprockets)
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
