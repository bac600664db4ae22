"""Rim brakes: what each type bolts to, the reach of callipers, the play of a boss brake's pads."""

from __future__ import annotations

from partsbin.standards.length import Length, mm

CALLIPER_HOLES = frozenset({"calliper-hole", "calliper-recessed"})
BOSSES = frozenset({"canti-boss", "u-brake-boss"})
RIM_MOUNTS = CALLIPER_HOLES | BOSSES
MOUNTS = {
    "linear-pull": frozenset({"canti-boss"}),
    "mini-linear-pull": frozenset({"canti-boss"}),
    "cantilever": frozenset({"canti-boss"}),
    # Its bosses stand above the rim, those of a cantilever below: bikecad.ca/canti_bosses.
    "u-brake": frozenset({"u-brake-boss"}),
    "side-pull": CALLIPER_HOLES,
    "dual-pivot": CALLIPER_HOLES,
    "centre-pull": CALLIPER_HOLES,
}
"""What a rim brake of each type is mounted on."""

MOUNTS_SOURCE = "bikerhub.net purchasing fork; bikecad.ca/canti_bosses; bikeforums.net 682238"

REACHES = (
    ("short", mm(39), mm(49)),
    ("medium", mm(47), mm(57)),
    ("long", mm(55), mm(73)),
)
"""Usual ranges of calliper reach, mounting bolt to middle of pad.

Source: copy of bicycles.stackexchange 44041; cycledepot.blogspot.com 2012/10. The words are used
loosely in the trade, so that only the figures may decide (smontanaro.net/CR/2005/1/778).
"""

REACH_SOURCE = "copy of bicycles.stackexchange 44041; bmxworks.com.au how to callipers reach"

EASY_SLOT, USUAL_SLOT, LONG_SLOT = mm(5), mm(8), mm(12.5)
"""How far pads go up or down on a boss brake: any brake, a usual one, and one with long slots.

All from memory; bikeforums.net 682238 has 31.5 mm as out of the question. 12.5 mm is the step from
584 to 559.
"""


def pad_shift(placed_for: Length, wheel: Length) -> Length:
    """Return how far the pads must go down for a wheel, up if negative: half the difference.

    >>> pad_shift(mm(630), mm(622)), pad_shift(mm(559), mm(622))
    (4000, -31500)
    """
    return Length((placed_for - wheel) // 2)


def callipers_reaching(needed: Length) -> str:
    """Return the usual classes of calliper that reach so far, empty if there is none.

    >>> callipers_reaching(mm(56))
    'medium (47 to 57 mm) or long (55 to 73 mm)'
    """
    return " or ".join(
        f"{name} ({least // 1000} to {most // 1000} mm)"
        for name, least, most in REACHES
        if least <= needed <= most
    )
