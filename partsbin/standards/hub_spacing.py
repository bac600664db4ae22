"""Over-locknut widths: where each is met, what a width difference asks for, thru-axle twins."""

from __future__ import annotations

from typing import NamedTuple

from partsbin.standards.length import Length, mm

MEMORY = "from memory"
MORUYA = "moruyabicycles.com.au d1281"
TRIAL = "trial-bikes.com rear hubs, front hubs"
LEXICON = "mountainbike-magazin.de Lexikon 412768"
ROVAL = "rovalcomponents.com 6-millimeter conundrum"
GLOSSARY = "cyclingfortransport.com glossary oln"


class Spacing(NamedTuple):
    """An over-locknut width, the end it is met at, the axles met with it, and its source."""

    width: int
    end: str
    axles: frozenset[str]
    source: str


SLOTTED = frozenset({"qr", "nutted"})
UNSURE: frozenset[str] = frozenset()

ROWS = (
    Spacing(70, "front", SLOTTED, TRIAL),
    Spacing(74, "front", SLOTTED, MEMORY),
    Spacing(90, "front", SLOTTED, "copy of de.wikipedia Fahrradnabe"),
    Spacing(91, "front", SLOTTED, "copy of de.wikipedia Fahrradnabe"),
    Spacing(92, "front", SLOTTED, "copy of de.wikipedia Fahrradnabe"),
    Spacing(96, "front", SLOTTED, "fixed.org.au 42786"),
    Spacing(100, "front", SLOTTED | {"thru-12", "thru-15"}, LEXICON),
    Spacing(110, "front", frozenset({"thru-15", "thru-20"}), f"{LEXICON}; {ROVAL}"),
    Spacing(110, "rear", SLOTTED, f"{TRIAL}; quiz.appmatch.jp BMX hub width"),
    Spacing(114, "rear", SLOTTED, MEMORY),
    Spacing(116, "rear", SLOTTED, GLOSSARY),
    Spacing(118, "rear", SLOTTED, MEMORY),
    Spacing(120, "rear", SLOTTED, MORUYA),
    Spacing(126, "rear", SLOTTED, f"{MORUYA}; {GLOSSARY}"),
    Spacing(130, "rear", SLOTTED, MORUYA),
    Spacing(135, "rear", SLOTTED, f"{MORUYA}; {LEXICON}"),
    Spacing(141, "rear", SLOTTED, MEMORY),
    Spacing(142, "rear", frozenset({"thru-12"}), "lawrencegeraldacc5.web.app thru axle vs QR"),
    Spacing(148, "rear", frozenset({"thru-12"}), ROVAL),
    Spacing(150, "rear", UNSURE, "askvity.info how to measure a hub"),
    Spacing(157, "rear", UNSURE, "daniellawrencek2ja.web.app road-bike-axle-standards"),
)
"""Widths met, in millimetres. Fat-bike widths are left out: all are from memory."""

TWINS = {mm(142): mm(135), mm(148): mm(141)}
"""A thru-axle width and the slotted width of the same hub body with its quick-release end caps.

Source: lawrencegeraldacc5.web.app thru axle vs QR (142 is 135); 141 from memory.
"""
TWIN_SOURCE = "lawrencegeraldacc5.web.app thru axle vs QR; blog.flocycling.com; 141 from memory"

ONE_WIDTH = (frozenset({mm(90), mm(91), mm(92)}),)
"""Widths of one utility class, named from 90 to 92. Source: copy of de.wikipedia Fahrradnabe."""

SPRINGS_IN = mm(4)
"""What steel gives by hand: 130 in 126, 2 mm a side of a fork.

Source: sheldonbrown.com/frame-spacing.html; roadbikereview.com 130 to 126; fixed.org.au 42786.
"""
SPREAD_SOURCE = "sheldonbrown.com/frame-spacing.html; roadbikereview.com 130 to 126"

COLD_SET = mm(10)
"""Most that steel is cold-set, as 120 to 130 or 126 to 135. Common practice, no source."""

MOST_SPACERS = mm(15)
"""Most that spacers make up, as 120 to 135: longer axles bend. Common practice, no source."""

SPACER_SOURCE = "standardbikes.ca FldHelpId=1378"
KIT_SOURCE = ROVAL

NO_SPREAD = {
    "heat-treated-steel": (
        "the maker of thin heat-treated tubes forbids cold-setting",
        "cyclechat.net 145681",
    ),
    "aluminium": ("aluminium may not be bent", "mtbr.com fitting 135 hub into 130 aluminium"),
    "titanium": ("titanium may not be bent", MEMORY),
    "carbon": ("carbon may not be bent", MEMORY),
}
"""Materials that take no wider hub: why, and where it is published."""


def one_width(hub: Length, frame: Length) -> bool:
    """Return whether a hub and a frame or fork are of one width.

    >>> one_width(mm(135), mm(135)), one_width(mm(92), mm(90)), one_width(mm(141), mm(142))
    (True, True, False)
    """
    return hub == frame or any({hub, frame} <= widths for widths in ONE_WIDTH)


def twins(one: Length, other: Length) -> bool:
    """Return whether two widths are one hub body's, with end caps for thru axle and for slots.

    >>> twins(mm(142), mm(135)), twins(mm(148), mm(142))
    (True, False)
    """
    return TWINS.get(one) == other or TWINS.get(other) == one


def thru_only(width: Length, end: str) -> bool:
    """Return whether a width is met at an end with thru axles and with no others.

    >>> thru_only(mm(142), "rear"), thru_only(mm(135), "rear"), thru_only(mm(110), "front")
    (True, False, True)
    """
    met = axles_met(width, end)
    return bool(met) and met.isdisjoint(SLOTTED)


def axles_met(width: Length, end: str) -> frozenset[str]:
    """Return the axles met with a width at an end, empty if that is not sure.

    >>> sorted(axles_met(mm(130), "rear")), sorted(axles_met(mm(148), "rear"))
    (['nutted', 'qr'], ['thru-12'])
    """
    for row in ROWS:
        if row.width * 1000 == width and row.end == end:
            return row.axles
    return UNSURE
