"""How far a click of the shifter, times the derailleur's ratio, misses the sprockets' pitch."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from typing import NamedTuple

from partsbin.fit.verdict import Adapter, Verdict
from partsbin.kinds.cockpit import Shifter
from partsbin.kinds.drivetrain import RearDerailleur
from partsbin.standards.indexing_families import FAMILIES, IMPLIED_RATIOS, RATIOS, Family
from partsbin.standards.length import Length, mm

PLAY = mm("0.50")
"""Half of the free play of about 1 mm that is designed into an indexed derailleur.

Source: cyclingforums.com/threads/mix'n-match-gear-systems.15065.
"""
LIMIT = mm("0.90")
"""Beyond this at the outermost sprockets no published combination works; chosen from those."""

SAME_PULL = mm("0.1")
"""A measured pull that near to the family's own is the family's."""
SAME_RATIO = Decimal("0.05")
"""A measured ratio that near to the family's own is the family's."""
LISTED_SPEEDS = frozenset(speeds for _name, speeds in FAMILIES)
PULLEYS = (Decimal("0.6"), Decimal("1.7"))
"""Factors within which pulley adapters are made; common practice, no source."""


class Sprockets(NamedTuple):
    """What the derailleur must match: the pitch, and how many sprockets are used."""

    pitch: Length
    used: int


class Cage(NamedTuple):
    """How a derailleur moves: the published ratio, and those that its family's pairs imply."""

    ratio: Decimal
    implied: tuple[float, ...]
    family: str


class Click(NamedTuple):
    """What a shifter pulls per click, and the row of its family if it is of one."""

    pull: Length
    family: Family | None


class Error(NamedTuple):
    """How far off the outermost sprockets are, by the published ratio and by the implied ones."""

    travel: Length
    nominal: Length
    calibrated: Length

    @property
    def verdict(self) -> Verdict:
        """Return what both forms say together; where they disagree it is marginal."""
        forms = _grade(self.nominal) + _grade(self.calibrated)
        if not forms:
            return Verdict.FITS
        return Verdict.ADAPTS if forms < 3 else Verdict.CLASH


def _grade(error: Length) -> int:
    return (error > PLAY) + (error > LIMIT)


def end_error(travel: float, pitch: Length, used: int) -> Length:
    """Return how far the cage is off at the outermost sprockets, tuned at the middle one.

    >>> end_error(4760, mm("4.8"), 8)
    140
    """
    return Length(round(abs(travel - pitch) * (used - 1) / 2))


def error_of(pull: Length, cage: Cage, sprockets: Sprockets) -> Error:
    """Return the error of a pull and a derailleur over some sprockets, in both forms.

    The calibrated form takes the ratio from the family's own pitch and pull, so that the rounding
    of the published ratio drops out.
    """
    pitch, used = sprockets
    travel = float(pull * cage.ratio)
    nominal = end_error(travel, pitch, used)
    calibrated = min((end_error(pull * r, pitch, used) for r in cage.implied), default=nominal)
    return Error(Length(round(travel)), nominal, calibrated)


def click_of(shifter: Shifter) -> Click | None:
    """Return the click of a shifter; None for one that is in no table, while unknowns are tried."""
    if shifter.known("pull_per_click_mm"):
        return Click(shifter.pull_per_click_mm, _family_by_pull(shifter))
    if shifter.known("speeds") and shifter.speeds not in LISTED_SPEEDS:
        return Click(shifter.pull_per_click_mm, None)  # asks for it
    row = FAMILIES.get((shifter.index_family, shifter.speeds))
    if row is not None:
        return Click(row.pull, row)
    if shifter.spec.get("index_family") is not None and shifter.spec.get("speeds") is not None:
        return Click(shifter.pull_per_click_mm, None)  # asks for it
    return None


def _family_by_pull(shifter: Shifter) -> Family | None:
    """Return the one row of a shifter's family that has the pull measured, None if none is sure."""
    if not shifter.known("index_family"):
        return None
    rows = [
        row
        for (name, speeds), row in FAMILIES.items()
        if name == shifter.index_family
        and not (shifter.known("speeds") and shifter.speeds != speeds)
        and abs(row.pull - shifter.pull_per_click_mm) <= SAME_PULL
    ]
    return rows[0] if len(rows) == 1 else None


def cage_of(derailleur: RearDerailleur) -> Cage:
    """Return how a derailleur moves; a measured ratio goes before the family's."""
    if not derailleur.known("ratio"):
        family = derailleur.index_family
        return Cage(RATIOS[family][0], IMPLIED_RATIOS[family], family)
    ratio = derailleur.ratio
    if derailleur.known("index_family"):
        family = derailleur.index_family
        if family in RATIOS and abs(RATIOS[family][0] - ratio) <= SAME_RATIO:
            return Cage(RATIOS[family][0], IMPLIED_RATIOS[family], family)
    return Cage(ratio, (), "")


def own_cage(family: Family) -> Cage:
    """Return the derailleur that belongs to a shifter's family."""
    return Cage(RATIOS[family.name][0], IMPLIED_RATIOS[family.name], family.name)


def pulley(pull: Length, cage: Cage, sprockets: Sprockets) -> Adapter | None:
    """Return the pulley that makes the travel equal the pitch, None if none is made."""
    pitch, used = sprockets
    factor = pitch / (pull * cage.ratio)
    if used < 2 or not PULLEYS[0] <= factor <= PULLEYS[1]:
        return None
    slack = Decimal(2 * PLAY) / (used - 1) / pitch
    low = (factor * (1 - slack)).quantize(Decimal("0.01"), ROUND_CEILING)
    high = (factor * (1 + slack)).quantize(Decimal("0.01"), ROUND_FLOOR)
    return Adapter(
        what=f"pulley adapter in the gear cable, factor {factor:.2f}",
        kind="pull_adapter",
        values={"factor": (low, high)},
    )
