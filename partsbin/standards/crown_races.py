"""Crown race seats: which fork has which, and what makes another race go."""

from __future__ import annotations

from typing import NamedTuple

from partsbin.standards.length import Length, mm


class SeatRow(NamedTuple):
    """The seat of the crown race on forks of one steerer, at its lower end."""

    steerer: Length
    seat: Length
    source: str


SEATS = (
    SeatRow(mm(28.6), mm(30.0), "transwikia.com copy of Bicycles Stack Exchange 'straight 1 1/8'"),
    SeatRow(mm(38.1), mm(39.8), "bike-advisor.com headsets explained (code 40); 39.8 from memory"),
)
"""Only steerers whose seat is one size; one-inch forks are 26.4 or 27.0."""

STEERER_OF_SEAT = {
    mm(26.4): mm(25.4),  # overwheel.net column 2022-10-02
    mm(27.0): mm(25.4),  # the same
    mm(30.0): mm(28.6),  # as in SEATS
    mm(33.0): mm(31.8),  # from memory
    mm(39.8): mm(38.1),  # as in SEATS
}
"""Lower end of the steerer by its crown seat."""

MILLED = {
    (mm(27.0), mm(26.4)): "Wikipedia 'Headset'; forums.pelicanparts.com post 12020038",
}
"""Fork seat and the smaller race for which a mechanic mills it down."""

REDUCED = {
    (mm(30.0), mm(39.8)): "highlandmist.blogspot.com 2016-10; forum.bikeradar.com 12956029",
    (mm(30.0), mm(33.0)): "from memory",
    (mm(33.0), mm(39.8)): "from memory",
}
"""Fork seat and the larger race that a reducer race replaces."""


def seat_for(lower_steerer: Length) -> Length | None:
    """Return the crown race seat of a fork by its steerer's lower end, None if it may be several.

    >>> seat_for(mm(28.6)), seat_for(mm(25.4))
    (30000, None)
    """
    return next((row.seat for row in SEATS if row.steerer == lower_steerer), None)
