"""Wear limits of brake parts: pads and rotors."""

from __future__ import annotations

from enum import StrEnum

from partsbin.standards.length import Length, mm


class Wear(StrEnum):
    """How far a part is worn: well within its limit, near it, or past it and unsafe."""

    WITHIN = "within"
    NEAR = "near"
    PAST = "past"


ROTOR_MARKS = (mm(1.5), mm(1.52), mm(1.55))
"""Least thicknesses that makers mark on rotors, lowest first.

Source: feedbacksports.com rotor wear; sumlon.com rotor-replace.
"""
ROTOR_SOURCE = "feedbacksports.com rotor wear; sumlon.com rotor-replace"

DISC_PAD_LEAST = mm(0.5)
"""Lining of a disc pad at which it is scrap. Source: whafi.com disc pads."""

DISC_PAD_LOW = mm(1.2)
"""Lining at which cautious shops change disc pads. Source: bikeforums.net 20722528-post26."""

DISC_PAD_SOURCE = "whafi.com disc pads; bikeforums.net 20722528-post26"

RIM_PAD_LEAST = mm(1)
"""Rubber of a rim pad at which it is scrap, if the wear line cannot be read. From memory."""

RIM_PAD_SOURCE = (
    "single-speed.co.uk safety check: wear line gone or metal showing; 1 mm from memory"
)


def rotor_wear(thickness: Length, marked: Length | None = None) -> Wear:
    """Return how far a rotor is worn; the figure marked on it rules.

    Without a mark it is past its limit below the lowest figure in use, and near it up to the
    highest, because then the mark would decide.

    >>> rotor_wear(mm(1.49), mm(1.5)), rotor_wear(mm(1.53))
    (<Wear.PAST: 'past'>, <Wear.NEAR: 'near'>)
    """
    if marked is not None:
        return Wear.PAST if thickness < marked else Wear.WITHIN
    if thickness < ROTOR_MARKS[0]:
        return Wear.PAST
    return Wear.WITHIN if thickness >= ROTOR_MARKS[-1] else Wear.NEAR


def pad_wear(thickness: Length, for_brake: str) -> Wear:
    """Return how far a pad's lining is worn; `for_brake` is `rim` or `disc`.

    >>> pad_wear(mm(0.5), "disc"), pad_wear(mm(1.2), "disc"), pad_wear(mm(4), "rim")
    (<Wear.PAST: 'past'>, <Wear.NEAR: 'near'>, <Wear.WITHIN: 'within'>)
    """
    if for_brake == "rim":
        return Wear.PAST if thickness <= RIM_PAD_LEAST else Wear.WITHIN
    if thickness <= DISC_PAD_LEAST:
        return Wear.PAST
    return Wear.NEAR if thickness <= DISC_PAD_LOW else Wear.WITHIN
