"""Wear limits of rims, tyres and hub bearings."""

from __future__ import annotations

from partsbin.standards.brake_wear import Wear
from partsbin.standards.length import Length, mm

RIM_WALL_LEAST = mm(1.0)
"""Wall of an aluminium rim at which it is scrap; breaks are reported at about 0.7 mm.

Source: wheellab.cc/rim-wear; cyclechat.net 91460.
"""
RIM_WALL_LOW = mm(1.2)
"""Wall at which a rim is near its end. Common practice, no source."""

RIM_WALL_SOURCE = "wheellab.cc/rim-wear; cyclechat.net 91460"

TYRE_YEARS = 5
"""Age in years from which a tyre is looked at hard; age alone scraps none.

Source: vehiclestire.com and fixanswer.com old tyres, both weak: advice runs from 3 to 7 years.
"""
TYRE_AGE_SOURCE = "vehiclestire.com p=48395; fixanswer.com old tyres"
TYRE_CRACK_SOURCE = "forum.bikeradar.com 12694519; bikewrench wiki 'tired tires'"

RIM_PLAY = mm(3)
"""Most play of a hub's bearings, felt at the rim; 2 mm on a small wheel.

Source: docsbay.net M-shape bike safety check.
"""
SMALL_WHEEL_PLAY = mm(2)
SMALL_WHEEL = mm(507)
"""Bead seat of the largest wheel called small. From memory."""


def rim_wear(wall: Length) -> Wear:
    """Return how far the thinnest place of a rim's braking wall is worn.

    >>> rim_wear(mm(0.9)), rim_wear(mm(1.1)), rim_wear(mm(1.5))
    (<Wear.PAST: 'past'>, <Wear.NEAR: 'near'>, <Wear.WITHIN: 'within'>)
    """
    if wall <= RIM_WALL_LEAST:
        return Wear.PAST
    return Wear.NEAR if wall <= RIM_WALL_LOW else Wear.WITHIN


def tyre_wear(made_year: int | None, this_year: int, *, cracks: bool | None = None) -> Wear:
    """Return how far a tyre is past use: cracks end it, age only asks for a hard look.

    >>> tyre_wear(2024, 2026), tyre_wear(2018, 2026), tyre_wear(2024, 2026, cracks=True)
    (<Wear.WITHIN: 'within'>, <Wear.NEAR: 'near'>, <Wear.PAST: 'past'>)
    """
    if cracks:
        return Wear.PAST
    old = made_year is not None and this_year - made_year > TYRE_YEARS
    return Wear.NEAR if old else Wear.WITHIN


def hub_play_wear(play_at_rim: Length, bead_seat: Length) -> Wear:
    """Return whether the play of a wheel's bearings, measured at the rim, is too much.

    >>> hub_play_wear(mm(2.5), mm(622)), hub_play_wear(mm(2.5), mm(406))
    (<Wear.WITHIN: 'within'>, <Wear.PAST: 'past'>)
    """
    most = SMALL_WHEEL_PLAY if bead_seat <= SMALL_WHEEL else RIM_PLAY
    return Wear.PAST if play_at_rim > most else Wear.WITHIN
