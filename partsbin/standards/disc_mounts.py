"""Disc brake mounts: which calliper goes on which mount, and which rotor a mount begins with."""

from __future__ import annotations

from dataclasses import dataclass

from partsbin.standards.length import Length, mm

DISC_MOUNTS = frozenset({"is-51", "post-74", "post-68", "flat-34"})
SPACING_SOURCE = "bikeman.com 1638 disc mounting; 34 mm from memory"


@dataclass(frozen=True, slots=True)
class Bracket:
    """An adapter from a frame's or fork's mount to a calliper's; how one gets it, and source."""

    caution: str
    source: str


BRACKETS = {
    ("is-51", "post-74"): Bracket(
        "the bracket is made for one rotor size and one end: the one for 160 mm at the rear gives "
        "180 mm at the front",
        "bikeman.com 1638 disc mounting; blog.artscyclery.com disc brake adapters",
    ),
    ("flat-34", "post-74"): Bracket(
        "only as a special bracket; see that calliper and frame clear each other", "from memory"
    ),
}
"""Mounts of frame or fork and calliper that an ordinary bracket joins."""

SMALLEST_IS = {"front": mm(160), "rear": mm(140)}
"""Smallest rotor on the two-tab mount. Source: ja.bicycles.asklobster.com/posts/44161."""

SMALLEST_IS_SOURCE = "ja.bicycles.asklobster.com/posts/44161"
WASHERS = mm(2)
"""Rotors of 200 and 203 mm differ by 1.5 mm of radius, which washers make up; more they do not."""


def lift(native: Length, rotor: Length) -> Length:
    """Return how far outward a calliper must go from its own rotor size to a rotor: half of it.

    >>> lift(mm(160), mm(180)), lift(mm(203), mm(200))
    (10000, -1500)
    """
    return Length((rotor - native) // 2)
