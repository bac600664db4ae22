"""Damage that ends a part whatever its wear: bends, cracks, and carbon of which nobody knows."""

from __future__ import annotations

from typing import NamedTuple

POSTS = "bikepartsquick.blogspot.com/2012/07 Seat post sizing tips"
FRAMES = "croftonbikedoctor.com 2016; londonbmx.co.uk M-check"
BARS = "lfgss.com 16192636"
RIMS = "wheellab.cc/rim-wear"
CARBON_FORK = "zedler.de durability carbon fork"
MEMORY = "from memory"


class Damage(NamedTuple):
    """What a sign of damage means on one kind of part."""

    because: str
    source: str


BENT = {
    "frame": Damage("it no longer runs straight and may be cracked at the bend", FRAMES),
    "fork": Damage("it can break there without warning", MEMORY),
    "handlebar": Damage("it can break there without warning", MEMORY),
    "stem": Damage("it can break there without warning", MEMORY),
    "seatpost": Damage("it bends again at the same place", POSTS),
    "chainset": Damage("it can break there under the rider's foot", MEMORY),
    "wheel": Damage("its rim does not come true again and can fold", MEMORY),
    "rim": Damage("it does not come true again and can fold", MEMORY),
}
"""Kinds that a bend ends."""

CRACKED = {
    "frame": Damage("a crack grows until the tube parts", FRAMES),
    "fork": Damage("a crack grows until the fork breaks", MEMORY),
    "handlebar": Damage("a crack grows until the bar breaks, mostly at the clamp's edge", BARS),
    "stem": Damage("a crack grows until the stem breaks", BARS),
    "seatpost": Damage("a crack grows until the post breaks", POSTS),
    "chainset": Damage("a crack grows until the arm breaks off", MEMORY),
    "wheel": Damage("a cracked rim lets the spokes out or bursts", RIMS),
    "rim": Damage("a cracked rim lets the spokes out or bursts", RIMS),
}
"""Kinds that a crack ends."""

CARBON = Damage(
    "damage to carbon need not show, and no later test proves it sound",
    f"{CARBON_FORK}; manuzoid.com copy of an aerobar manual",
)
"""Why carbon is not used again unless its history is known. For frames and rims: from memory."""

CARBON_UNTIL_KNOWN = frozenset({"fork", "handlebar", "stem", "seatpost"})
"""Kinds that are held back in carbon even while nobody has asked for the history."""

HELMET = Damage("damage to a helmet need not show", "helmets.org/yardsale.htm")
