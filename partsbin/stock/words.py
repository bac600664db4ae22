"""The words that the record stores: grades, units, states and types of place."""

from __future__ import annotations

import enum


class Grade(enum.StrEnum):
    """How good a part is, best first. `CORE` is kept for its pieces; `UNSAFE` is never used."""

    NEW = "new"
    GOOD = "good"
    FAIR = "fair"
    POOR = "poor"
    CORE = "core"
    UNSAFE = "unsafe"


class Unit(enum.StrEnum):
    """What a quantity counts: pieces, or millimetres of cable and housing."""

    PIECE = "piece"
    MM = "mm"


class Condition(enum.StrEnum):
    """How a part on a bike is; a worn or dead one is a need of the bike."""

    SOUND = "sound"
    WORN = "worn"
    DEAD = "dead"


class PlaceType(enum.StrEnum):
    """What kind of place a part can be in.

    `BIKE` is a bike outside its slots, for a shim or a cable. The cost of a donor passes through
    `CLEARING` when it is split over the donor's parts; no part is ever there.
    """

    BIN = "bin"
    SLOT = "slot"
    BIKE = "bike"
    QUARANTINE = "quarantine"
    SCRAPPED = "scrapped"
    SOLD = "sold"
    SUPPLIER = "supplier"
    CLEARING = "clearing"


class BikeState(enum.StrEnum):
    """How far a bike has come."""

    BOUGHT = "bought"
    IN_WORK = "in work"
    READY = "ready"
    SOLD = "sold"
    KEPT = "kept"
    STRIPPED = "stripped"


class EntryType(enum.StrEnum):
    """What an entry in a bike's account is for."""

    LABOUR = "labour"
    FEE = "fee"
    TRANSPORT = "transport"
    SALE = "sale"
