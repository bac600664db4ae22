"""Verdicts as data: what a rule found, which values decided it, and what would help."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from partsbin.fit.rule import Rule
    from partsbin.kinds.forms.form import Value
    from partsbin.kinds.kind import Kind


class Verdict(StrEnum):
    """The four verdicts, from best to worst."""

    FITS = "fits"
    ADAPTS = "adapts"
    MEASURE = "measure"
    CLASH = "clash"

    @property
    def rank(self) -> int:
        """Return how bad the verdict is: 0 fits, 3 clash."""
        return _RANK[self]


_RANK = {verdict: rank for rank, verdict in enumerate(Verdict)}

About = tuple["Kind", str]
"""A value that decided: the piece and the name of its attribute."""


class Amount(NamedTuple):
    """A computed figure that decided: its name, value and unit; a length is in micrometres."""

    what: str
    value: int | Decimal | float
    unit: str = "mm"


def _within(value: Value, wanted: Value | tuple[Value, Value]) -> bool:
    if isinstance(wanted, tuple):
        low, high = wanted
        return low <= value <= high  # type: ignore[operator] # an adapter's range is of one form
    return value == wanted


@dataclass(frozen=True, slots=True, kw_only=True)
class Adapter:
    """A part that makes two others go together, as a kind with the values it must have.

    A pair of values is a range. An adapter of no kind in the vocabulary has only its name.
    """

    what: str
    kind: str = ""
    values: Mapping[str, Value | tuple[Value, Value]] | None = None

    def undecided(self, piece: Kind) -> str | None:
        """Return the attribute that decides, empty if the piece will do, None if it will not."""
        unknown = ""
        for name, wanted in (self.values or {}).items():
            possible = piece.open_values.get(name, ())
            if piece.known(name):
                possible = (piece.__dict__[name],)
            right = [value for value in possible if _within(value, wanted)]
            if possible and not right:
                return None
            if len(right) < max(len(possible), 1):
                unknown = unknown or name
        return unknown

    def is_met_by(self, piece: Kind) -> bool:
        """Return whether a piece of this adapter's kind is known to do."""
        return self.undecided(piece) == ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """A rule with its pieces, and the unknown that decides it, to be tried with other values."""

    rule: Rule
    pieces: tuple[Kind | None, ...]
    at: int
    attribute: str

    @property
    def piece(self) -> Kind:
        """Return the piece whose attribute is unknown."""
        piece = self.pieces[self.at]
        assert piece is not None
        return piece


@dataclass(slots=True, kw_only=True)  # not frozen: thousands are made, and frozen ones are dear
class Finding:
    """What one rule says of some pieces; it is never changed.

    `because` is the cause in a few words. `about` are the recorded values that decided, `have` and
    `need` the computed figures. `change` is a modification a mechanic makes; `remedy` is what to
    try. `open` lists the unknowns of a `measure`, `whatever` those that made no difference.
    `makeshift` is what gets a rider home and is no repair.
    """

    verdict: Verdict
    because: str
    about: tuple[About, ...] = ()
    have: Amount | None = None
    need: Amount | None = None
    adapter: Adapter | None = None
    change: str = ""
    remedy: str = ""
    dangerous: bool = False
    makeshift: bool = False
    source: str = ""
    open: tuple[Trial, ...] = ()
    whatever: tuple[About, ...] = ()
    through: Kind | None = None
    likely: Finding | None = None


def fits(
    because: str,
    *about: About,
    have: Amount | None = None,
    need: Amount | None = None,
    source: str = "",
) -> Finding:
    """Return that an interface is satisfied."""
    return Finding(
        verdict=Verdict.FITS, because=because, about=about, have=have, need=need, source=source
    )


def adapts(
    because: str,
    *about: About,
    adapter: Adapter | None = None,
    change: str = "",
    makeshift: bool = False,
    have: Amount | None = None,
    need: Amount | None = None,
    source: str = "",
) -> Finding:
    """Return that an interface works with an adapter, or with a change that a mechanic makes."""
    return Finding(
        verdict=Verdict.ADAPTS,
        because=because,
        about=about,
        adapter=adapter,
        change=change,
        makeshift=makeshift,
        have=have,
        need=need,
        source=source,
    )


def clash(
    because: str,
    *about: About,
    remedy: str = "",
    adapter: Adapter | None = None,
    dangerous: bool = False,
    have: Amount | None = None,
    need: Amount | None = None,
    source: str = "",
) -> Finding:
    """Return that parts do not go together, or must not.

    `adapter` names a part that mends it if it is among the parts; without it the clash stands.
    """
    return Finding(
        verdict=Verdict.CLASH,
        because=because,
        about=about,
        remedy=remedy,
        adapter=adapter,
        dangerous=dangerous,
        have=have,
        need=need,
        source=source,
    )
