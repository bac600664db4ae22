"""Two of shifter, derailleur and sprockets: whether a third makes them index."""

from __future__ import annotations

from collections.abc import Iterator

from partsbin.fit.index_error import (
    PLAY,
    SAME_PULL,
    Cage,
    Click,
    Sprockets,
    cage_of,
    click_of,
    end_error,
    own_cage,
)
from partsbin.fit.index_match import compared, is_native, sprocket_key
from partsbin.fit.verdict import About, Finding, Verdict, adapts, clash, fits
from partsbin.kinds.cockpit import Shifter
from partsbin.kinds.drivetrain import RearDerailleur, SprocketCluster
from partsbin.standards.indexing_families import CLOSED, FAMILIES
from partsbin.standards.sprocket_spacing import SPACINGS

MOST_POSITIONS = 14
UNPROMISED = "ratio-1.9"
"""Its pulls are derived, so no cassette is promised to a foreign shifter through it."""
Key = tuple[int, str]


def of_one_family(shifter: Shifter, derailleur: RearDerailleur) -> bool:
    """Return whether both name one family, and no measured figure says otherwise."""
    if not (shifter.known("index_family") and derailleur.known("index_family")):
        return False
    family = shifter.index_family
    if (
        family == CLOSED
        or family != derailleur.index_family
        or cage_of(derailleur).family != family
    ):
        return False
    click = click_of(shifter) if shifter.known("pull_per_click_mm") else None
    return click is None or click.family is not None or not shifter.known("speeds")


def with_derailleur(
    shifter: Shifter, click: Click, derailleur: RearDerailleur, values: tuple[About, ...]
) -> Finding:
    """Return whether a shifter and a derailleur belong together for some sprockets.

    Those are the shifter's own, or those that the derailleur is marked for; with others of the
    table they go only if they go well. Where a measured figure stands for a family, any may do.
    """
    cage = cage_of(derailleur)
    positions = shifter.speeds if shifter.known("speeds") else MOST_POSITIONS
    home = [compared(click, cage, *stack, values) for stack in _at_home(click, derailleur, cage)]
    best = min(home, key=_rank, default=None)
    if best is not None and best.verdict is not Verdict.CLASH:
        return best
    away = [
        (key, compared(click, cage, sprockets, key, values))
        for key, sprockets in _elsewhere(click, cage, positions)
    ]
    (speeds, kind), other = min(away, key=lambda found: _rank(found[1]), default=((0, ""), best))
    if best is None:
        return other or clash("no sprockets have the pitch that they would move by", *values)
    if other is None or other.verdict is not Verdict.FITS:
        return best
    only = f"use sprockets of {speeds} speeds, {kind} spacing, with them"
    return adapts(other.because, *values, have=other.have, need=other.need, change=only)


def _rank(finding: Finding) -> int:
    return finding.verdict.rank


def _at_home(
    click: Click, derailleur: RearDerailleur, cage: Cage
) -> Iterator[tuple[Sprockets, Key]]:
    """Yield the sprockets that shifter or derailleur are made for, as far as they say."""
    own = click.family
    if own is None:
        return
    yield Sprockets(own.pitch, own.speeds), (own.speeds, own.spacing)
    marked = derailleur.speeds if derailleur.known("speeds") else 0
    row = FAMILIES.get((cage.family, marked))
    if row is not None:
        yield Sprockets(row.pitch, min(row.speeds, own.speeds)), (row.speeds, row.spacing)


def _elsewhere(click: Click, cage: Cage, positions: int) -> Iterator[tuple[Key, Sprockets]]:
    """Yield other sprockets: of the derailleur's family, or any where figures are measured."""
    if click.family is not None and cage.family:
        for row in FAMILIES.values():
            if row.name == cage.family and row.speeds <= positions:
                yield (row.speeds, row.spacing), Sprockets(row.pitch, row.speeds)
        return
    for key, listed in SPACINGS.items():
        if listed.kind != CLOSED and listed.speeds <= positions:
            yield key, Sprockets(listed.pitch, listed.speeds)


def with_sprockets(
    click: Click, cluster: SprocketCluster, sprockets: Sprockets, values: tuple[About, ...]
) -> Finding:
    """Return whether a shifter suits sprockets: with its own derailleur, or with theirs."""
    key = sprocket_key(cluster)
    own = None
    if click.family is not None:
        cage = own_cage(click.family)
        if is_native(click, cage, cluster, sprockets):
            return fits("shifter and sprockets are of one family", *values)
        own = compared(click, cage, sprockets, key, values)
        if own.verdict is not Verdict.CLASH:
            return own
    for cage in _cages_for(click, sprockets):
        foreign = compared(click, cage, sprockets, key, values)
        if foreign.verdict is not Verdict.CLASH:
            return adapts(
                f"it indexes only with a derailleur of ratio {cage.ratio}",
                *values,
                change=foreign.change or f"use a derailleur of the family {cage.family}",
            )
    wanted = sprockets.pitch / (click.pull or 1)
    return own or clash(f"no derailleur has the ratio {wanted:.2f} that it would need", *values)


def _cages_for(click: Click, sprockets: Sprockets) -> Iterator[Cage]:
    """Yield the derailleurs of families made for this pitch, or for a pull that was measured."""
    for row in FAMILIES.values():
        own = click.family is None and abs(row.pull - click.pull) <= SAME_PULL
        if own or (row.name != UNPROMISED and end_error(row.pitch, *sprockets) <= PLAY):
            yield own_cage(row)
