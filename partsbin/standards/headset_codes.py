"""Headset identification codes: how the cup is built in, the head tube's bore, what goes through.

`EC34` is a cup outside a 34 mm bore, `ZS44` one inside a 44 mm bore, `IS42` a bearing that lies on
a seat of the frame itself. Behind a slash stands the steerer (upper half) or the crown race seat
(lower half): `EC44/40`.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from partsbin.standards.length import Length, in_mm, mm

FINDER = "canecreek.com headset-fit-finder"
GUIDE = "Headset identification and specification guide Rev F+ 2010, doczz.net/doc/5531034"


class HeadTube(NamedTuple):
    """One bore that head tubes are made in, and the steerers that its own headsets carry.

    `figures` is the span of the figures that codes and callipers give for it; `bore` the span of
    the tube's true inside and `cup` the outside of its cup, where a source gives them. `steerers`
    go with the headset that the tube was made for, `external` only with a lower half outside it.
    """

    name: str
    builds: str
    figures: tuple[Length, Length]
    bore: tuple[Length, Length] | None
    cup: Length | None
    steerers: tuple[Length, ...]
    external: tuple[Length, ...]
    source: str


INCH, INCH_EIGHTH, INCH_QUARTER, INCH_HALF = mm(25.4), mm(28.6), mm(31.8), mm(38.1)
FRENCH = mm(25.0)
HEAD_TUBES = (
    HeadTube(
        "JIS",
        "EC",
        (mm(29.8), mm(30.0)),
        (mm(29.85), mm(29.90)),
        mm(30.0),
        (INCH,),
        (),
        f"bore: {GUIDE}; cup: overwheel.net column 2022-10-02",
    ),
    HeadTube(
        "ISO",
        "EC",
        (mm(30.05), mm(30.2)),
        (mm(30.05), mm(30.10)),
        mm(30.2),
        (INCH, FRENCH),
        (),
        f"bore: {GUIDE}; cup: overwheel.net column 2022-10-02; French steerer from memory",
    ),
    HeadTube("one-piece crank", "EC", (mm(32.5), mm(32.8)), None, None, (INCH,), (), "from memory"),
    HeadTube(
        "34",
        "EC",
        (mm(33.8), mm(34.2)),
        None,
        None,
        (INCH_EIGHTH,),
        (),
        f"{FINDER}; bikerhub.net purchasing fork",
    ),
    HeadTube("37", "EC", (mm(36.8), mm(37.1)), None, None, (INCH_QUARTER,), (), "from memory"),
    HeadTube("41", "ZS IS", (mm(41), mm(41.3)), None, None, (INCH_EIGHTH,), (), "from memory"),
    HeadTube("42", "IS", (mm(41.8), mm(42.1)), None, None, (INCH_EIGHTH,), (), "from memory"),
    HeadTube("44", "ZS", (mm(43.9), mm(44.1)), None, None, (INCH_EIGHTH,), (INCH_HALF,), FINDER),
    HeadTube("44", "EC", (mm(43.9), mm(44.1)), None, None, (INCH_EIGHTH, INCH_HALF), (), FINDER),
    HeadTube("49", "EC ZS IS", (mm(49), mm(49.7)), None, None, (INCH_HALF,), (), FINDER),
    HeadTube("52", "IS", (mm(51.8), mm(52.2)), None, None, (INCH_HALF,), (), "from memory"),
    HeadTube("56", "ZS EC", (mm(55.9), mm(56.1)), None, None, (INCH_HALF,), (), FINDER),
    HeadTube("62", "ZS EC", (mm(61.8), mm(62.1)), None, None, (INCH_HALF,), (), FINDER),
)
ISO_INCH = "EC30.2-iso"
"""Code of the usual one-inch head tube. A bore written as plain 30 may be this or the JIS one."""

BEHIND_SLASH = {INCH: "26.4", INCH_EIGHTH: "30", INCH_QUARTER: "33", INCH_HALF: "40"}
"""Crown race figure of a lower half by the steerer's lower end. 30 and 40: FINDER; rest memory."""

TAPERED = frozenset({INCH_EIGHTH, INCH_QUARTER})
"""Upper ends of steerers of which some are tapered. Source: brainybiker.com tapered forks;
1 1/4 in from memory."""

TAPER_LENGTH = mm(86)
"""Length of the tapered part of a steerer, about. Source: brainybiker.com tapered forks."""


class Code(NamedTuple):
    """A code taken apart; `other` is the figure behind the slash, `tube` the listed head tube.

    `tube` is None if the bore is not in the table or, as plain 30, may be one of two.
    """

    build: str
    bore: Length
    other: Length | None
    tube: HeadTube | None
    ambiguous: bool


@lru_cache(maxsize=512)
def read_code(code: str) -> Code:
    """Return a code taken apart.

    >>> read_code("EC44/40").other, read_code("EC30.0-jis").tube.name, read_code("EC30").ambiguous
    (40000, 'JIS', True)
    """
    figures, _, norm = code.partition("-")
    bore_figure, _, other = figures[2:].partition("/")
    build, bore = figures[:2], mm(bore_figure)
    ambiguous = bore_figure == "30" and not norm
    tube = None
    if norm:
        tube = next(row for row in HEAD_TUBES if row.name == norm.upper())
    elif not ambiguous:
        tube = _listed(build, bore)
    return Code(build, bore, mm(other) if other else None, tube, ambiguous)


def _listed(build: str, bore: Length) -> HeadTube | None:
    near = [row for row in HEAD_TUBES if row.figures[0] <= bore <= row.figures[1]]
    right = [row for row in near if build in row.builds.split()]
    return next(iter(right or near), None)


def same_bore(one: Code, other: Code) -> bool:
    """Return whether two codes name the same bore.

    >>> same_bore(read_code("EC44/40"), read_code("ZS44"))
    True
    """
    if one.tube is None or other.tube is None:
        return one.bore == other.bore
    return one.tube.name == other.tube.name


def interference(cup: HeadTube, tube: HeadTube) -> tuple[Length, Length] | None:
    """Return by how much a cup is larger than a tube's bore, least and most; None if not known.

    A negative figure is play. Cup and bores: see each row's source.

    >>> iso, jis = read_code("EC30.2-iso").tube, read_code("EC30.0-jis").tube
    >>> interference(iso, jis), interference(jis, iso)
    ((300, 350), (-100, -50))
    """
    if cup.cup is None or tube.bore is None:
        return None
    return Length(cup.cup - tube.bore[1]), Length(cup.cup - tube.bore[0])


def half_code(build: str, tube: HeadTube, half: str, steerer: Length) -> str:
    """Return the code of the headset half that carries a steerer in a head tube.

    >>> half_code("EC", read_code("ZS44").tube, "lower", mm(38.1))
    'EC44/40'
    >>> half_code("ZS", read_code("ZS56").tube, "upper", mm(28.6))
    'ZS56/28.6'
    """
    behind = BEHIND_SLASH[steerer] if half == "lower" else in_mm(steerer)
    return f"{build}{tube.name}/{behind}"
