"""Everything else: kinds whose attributes are free, because no table decides what they fit."""

from __future__ import annotations

from partsbin.kinds.attribute import count, length, word
from partsbin.kinds.kind import Kind
from partsbin.standards import wheel_sizes
from partsbin.standards.length import Length


class BottleCage(Kind):
    """A bottle cage."""

    free = True


class Kickstand(Kind):
    """A kickstand."""

    free = True


class Rack(Kind):
    """A luggage rack."""

    free = True
    caution = "A rack that comes loose jams the wheel; keep to the load stamped on it."


class Mudguards(Kind):
    """A pair of mudguards with their stays."""

    free = True
    caution = "A front mudguard that catches stops the wheel: stays need a release or a safe gap."


class Bell(Kind):
    """A bell."""

    free = True


class Light(Kind):
    """A lamp."""

    free = True
    first = ("side",)
    side: str = word("front rear", "white light is front, red is rear")


class Reflector(Kind):
    """A reflector."""

    free = True


class BearingBalls(Kind):
    """Loose balls of one size, counted."""

    free = True
    first = ("diameter_mm",)
    diameter_mm: Length = length(
        1, 12, "micrometer or calliper over three cleaned balls", wheel_sizes.BALLS
    )


class SmallParts(Kind):
    """Bolts, washers, springs and other small parts."""

    free = True


class Accessory(Kind):
    """Anything else that goes with a bicycle."""

    free = True


class Helmet(Kind):
    """A helmet; damage to it need not show, so that a used one is not passed on."""

    free = True
    first = ("made_year", "crashed")
    caution = (
        "A used helmet is not resold: it may have been in a crash that does not show. One that is "
        "kept must be uncrashed and carry the label that the law asks for."
    )
    inspection = (
        "owner known and says that it was never in a crash",
        "no crack, dent or loose liner; straps and buckle hold; safety label there",
    )
    made_year: int = count(1980, 2099, "read the label under the liner")
    crashed: str = word("yes no unknown", "ask the owner; without a sure answer it is unknown")
