"""Bead seat diameters, and the names of tyre sizes that mean each of them.

A tyre goes on a rim only if both have the same bead seat; the inch name is no sure key to it. A
width with a decimal point and the same width as a fraction are different tyres.
"""

from __future__ import annotations

from typing import NamedTuple

from partsbin.standards.length import Length, mm

MEMORY = "from memory"
DOT = "dotbike.com tyre_size_reference"
UNI = "unicyclist.com 48311"
NCU = "nicecurmudgeon.com decimal size table"
S26 = "sheldonbrown.com/26.html"
BFX = "bikefix.co.uk/tyre-and-wheel-sizes"
BSV = "bikeshedva.blogspot.com 2017/03 vintage utility tyres"
LCY = "lecyclo.com/de-ch reifengroesse"
SCH = "schwalbetires.com size_markings"
SYS = "syseidel.wordpress.com 2016/01/14"
MCH = "michelinbicycle.com tiresizes, against nicecurmudgeon.com decimal size table"


class BeadSeat(NamedTuple):
    """A bead seat diameter in whole millimetres with names of its tyres, parted by commas.

    A name without a width is the wheel's; `16x#.#` stands for any decimal width.
    """

    seat: int
    names: str
    source: str


ROWS = (
    BeadSeat(93, "7x1 3/4", DOT),
    BeadSeat(94, "8x2, 200x50", DOT),
    BeadSeat(110, "8 1/2x2, 8 1/2x2 1/8", DOT),
    BeadSeat(137, "8x1 1/4", DOT),
    BeadSeat(152, "10x2", DOT),
    BeadSeat(194, "10x1 5/8", DOT),
    BeadSeat(203, "12 1/2x#.#, 12 1/2x2 1/4, 12x#.#", DOT),
    BeadSeat(222, "11x1 3/4", DOT),
    BeadSeat(239, "12 1/2x1 3/8x1 1/4, 300A", DOT),
    BeadSeat(248, "12x1 1/4, 300x32", DOT),
    BeadSeat(251, "14 1/2x2 1/4", DOT),
    BeadSeat(254, "14x#.#", DOT),
    BeadSeat(279, "14x1 1/2, 350B", DOT),
    BeadSeat(288, "14x1 3/8, 14x1 5/8x1 3/8, 350A", DOT),
    BeadSeat(288, "16x1.75", MCH),
    BeadSeat(298, "14x1 1/4, 350", MEMORY),
    BeadSeat(305, "16x#.#, 16x1.75", f"{NCU}; {UNI}"),
    BeadSeat(317, "16x1 3/4", MEMORY),
    BeadSeat(330, "16x1 1/2, 400B", MEMORY),
    BeadSeat(337, "16x1 3/8", MEMORY),
    BeadSeat(340, "16x1 3/8, 400A", UNI),
    BeadSeat(349, "16x1 3/8, 16x1", UNI),
    BeadSeat(355, "18x#.#", NCU),
    BeadSeat(369, "17x1 1/4", UNI),
    BeadSeat(390, "18x1 3/8, 450A", MEMORY),
    BeadSeat(400, "18x1 1/4", MEMORY),
    BeadSeat(406, "20x#.#", f"{NCU}; {UNI}; ratrodbikes.com 111847"),
    BeadSeat(406, "20x2", MEMORY),
    BeadSeat(419, "20x1 3/4", MEMORY),
    BeadSeat(428, "20x2", MEMORY),
    BeadSeat(432, "20x1 1/2", MEMORY),
    BeadSeat(438, "20x1 3/8", MEMORY),
    BeadSeat(440, "20x1 3/8, 500A", MEMORY),
    BeadSeat(451, "20x1 1/8, 20x1 1/4, 20x1 3/8, 20x1", f"{UNI}; ratrodbikes.com 111847"),
    BeadSeat(457, "22x#.#", NCU),
    BeadSeat(484, "22x1 1/2", MEMORY),
    BeadSeat(489, "22x1 3/8", MEMORY),
    BeadSeat(490, "22x1 3/8, 550A", MEMORY),
    BeadSeat(498, "22x1 3/8, 22x1 1/4", MEMORY),
    BeadSeat(501, "22x1 3/8, 22x1 1/4", MEMORY),
    BeadSeat(507, "24x#.#", f"{NCU}; {UNI}; {BFX}"),
    BeadSeat(520, "24x1, 24x1 1/8", f"{UNI}; {BFX}"),
    BeadSeat(534, "24x1 1/4", MEMORY),
    BeadSeat(540, "24x1 3/8, 600A", f"{UNI}; {BFX}"),
    BeadSeat(541, "24x1 3/8", BFX),
    BeadSeat(547, "24x1 3/8, 24x1 1/4", MEMORY),
    BeadSeat(559, "26x#.#, 26x1.25", f"{S26}; {NCU}"),
    BeadSeat(565, "", MEMORY),  # old 26 in roadsters; its markings are not known
    BeadSeat(571, "26x1, 26x1 3/4, 650C", f"{S26}; {LCY}"),
    BeadSeat(584, "26x1 1/2, 650B, 27.5", f"{S26}; {LCY}; elecycles.com"),
    BeadSeat(587, "700D", LCY),
    BeadSeat(590, "26x1 3/8, 650A", f"{S26}; {LCY}"),
    BeadSeat(597, "26x1 1/4, 26x1 3/8, 650", f"{S26}; {BSV}"),
    BeadSeat(599, "26x1.25, 26x1.375", f"{NCU}; {BSV}"),
    BeadSeat(609, "27x1 1/2", MEMORY),
    BeadSeat(622, "700C, 28x#.#, 28x/x/, 29", f"{SYS}; {LCY}; {SCH}"),
    BeadSeat(622, "28x1 1/2", SYS),
    BeadSeat(630, "27, 27x1, 27x1 1/8, 27x1 1/4, 27x1 3/8, 27x1 1/2", f"{SCH}; {BFX}"),
    BeadSeat(635, "28x1 1/2, 700B", f"{SYS}; {LCY}; {BFX}"),
    BeadSeat(642, "28x1 3/8, 700A", LCY),
    BeadSeat(686, "32", SYS),
    BeadSeat(787, "36", SYS),
)
"""All bead seats with their names. `28x/x/` stands for 28 in followed by two fractions."""

SEATS = frozenset(row.seat for row in ROWS)

MARKS = {
    "S6": 597,
    "EA1": 597,
    "EA3": 590,
    "E5": 540,
    "S5": 547,
    "F10": 635,
    "F25": 635,
    "F13": 622,
}
"""Codes printed beside a size that settle its bead seat, without their points and hyphens.

Source: sheldonbrown.com/26.html; syseidel.wordpress.com 2016/01/14; bikefix.co.uk; S-5 from memory.
"""

TELL = {
    "26x1 3/8": "S-6 or E.A.1 on the side wall is 597, E.A.3 is 590; a 590 tyre only seems to go "
    "on a 597 rim and is ruined",
    "26x1.25": "a modern tyre is 559, an obsolete American one 599",
    "28x1 1/2": "F10 or F25 on the side wall is 635, F13 is 622",
    "24x1 3/8": "E.5 on the side wall is 540, S-5 is 547",
    "16x1.75": "most lists say 305, one tyre maker's says 288",
    "26": "a decimal width is 559; of the fractions 1 1/2 is 584, 1 3/4 is 571, 1 1/4 is 597",
    "28": "700C and two fractions are 622, 1 1/2 is 635, 1 3/8 is 642",
    "24": "a decimal width is 507, 1 and 1 1/8 are 520, 1 3/8 is about 540",
    "20": "a decimal width is 406, a thin fraction mostly 451",
    "650": "the letter tells: A is 590, B is 584, C is 571",
    "700": "the letter tells: A is 642, B is 635, C is 622, D is 587",
}
"""How to tell the bead seats of an ambiguous name apart.

Source: sheldonbrown.com/26.html; bikeshedva.blogspot.com 2017/03; bicycle-hangar.com wheel sizes;
lecyclo.com reifengroesse (letters).
"""

INTERCHANGE = frozenset({(mm(540), mm(541)), (mm(541), mm(540))})
"""Bead seats of one nominal size whose tyres go on each other's rims. Source: bikefix.co.uk."""


def same_seat(one: Length, other: Length) -> bool:
    """Return whether a tyre of one bead seat goes on a rim of the other.

    >>> same_seat(mm(622), mm(622)), same_seat(mm(541), mm(540)), same_seat(mm(590), mm(597))
    (True, True, False)
    """
    return one == other or (one, other) in INTERCHANGE
