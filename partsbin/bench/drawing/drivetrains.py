"""Where to measure drivetrains and brakes."""

from __future__ import annotations

from math import cos, pi, sin

from partsbin.bench.drawing.pen import Pen


def spindle_length() -> Pen:
    """Return a bottom bracket's spindle, measured from end to end."""
    pen = Pen("A bottom bracket: the length of its spindle from end to end")
    pen.box(58, 44, 84, 40, round_=3)
    pen.path("M58 58H30L22 60V68L30 70H58M142 58H170L178 60V68L170 70H142")
    pen.from_edge(22, 60, 22, 18)
    pen.from_edge(178, 60, 178, 18)
    pen.across(22, 26, 178, 26, "end to end")
    return pen


def spindle_ends() -> Pen:
    """Return the ends of the usual spindles, seen from the side of the crank."""
    pen = Pen("Ends of spindles: a square taper, a splined one, a round hollow one")
    pen.path("M18 38H50V70H18ZM24 44H44V64H24Z")
    pen.words(34, 92, "taper")
    pen.path(_toothed(100, 54, 20, 16, 8))
    pen.circle(100, 54, 6)
    pen.words(100, 92, "splined")
    pen.circle(166, 54, 21)
    pen.circle(166, 54, 15)
    pen.words(166, 92, "24, 30 mm")
    return pen


def _toothed(x: float, y: float, outer: float, inner: float, teeth: int) -> str:
    """Return the path of a wheel of square teeth."""
    corners = []
    for tooth in range(teeth):
        for share, radius in ((0, inner), (0.5, inner), (0.5, outer), (1, outer)):
            angle = 2 * pi * (tooth + share) / teeth
            corners.append(f"{x + radius * cos(angle):.1f} {y + radius * sin(angle):.1f}")
    return f"M{'L'.join(corners)}Z"


def driver() -> Pen:
    """Return a splined body for a cassette beside a threaded hub for a freewheel."""
    pen = Pen("Left a splined body that a cassette slides onto, right a thread for a freewheel")
    pen.box(10, 24, 12, 64, round_=2)
    pen.box(22, 34, 50, 44)
    for y in (42, 51, 61, 70):
        pen.line(22, y, 72, y)
    pen.words(42, 104, "cassette")
    pen.box(116, 24, 12, 64, round_=2)
    pen.box(128, 38, 30, 36)
    for x in range(130, 158, 4):
        pen.line(x, 38, x + 3, 74)
    pen.words(142, 104, "freewheel")
    return pen


def sprockets() -> Pen:
    """Return a cassette from the side; its sprockets are counted."""
    pen = Pen("A cassette from the side: count its sprockets")
    for at in range(8):
        high = 24 + 9 * at
        pen.box(30 + 17 * at, 52 - high / 2, 8, high, round_=2)
        pen.words(34 + 17 * at, 108, str(at + 1))
    return pen


def bolt_circle() -> Pen:
    """Return a chainring's bolts, the circle through them and the distance of two neighbours."""
    pen = Pen("A chainring: the circle through the middles of its bolts")
    x, y, radius = 58, 56, 38
    pen.circle(x, y, 50)
    pen.circle(x, y, radius, "far")
    bolts = [(x + radius * sin(2 * pi * n / 5), y - radius * cos(2 * pi * n / 5)) for n in range(5)]
    for bolt in bolts:
        pen.circle(*bolt, 5)
    pen.across(*bolts[0], *bolts[1])
    pen.words(116, 22, "bolt to bolt", "start")
    pen.words(124, 60, "dashed:", "start")
    pen.words(124, 74, "the circle", "start")
    return pen


def crank_length() -> Pen:
    """Return a crank arm, measured from the spindle's middle to the pedal's."""
    pen = Pen("A crank: from the middle of the spindle to the middle of the pedal")
    pen.path("M36 46L156 52A14 14 0 0 1 156 80L36 86A20 20 0 0 1 36 46Z")
    pen.box(29, 59, 14, 14)
    pen.circle(156, 66, 7)
    pen.from_edge(36, 66, 36, 20)
    pen.from_edge(156, 66, 156, 20)
    pen.across(36, 28, 156, 28, "middle to middle")
    return pen


def cable_pull() -> Pen:
    """Return a lever's cable with a mark before and after a click."""
    pen = Pen("A cable out of its housing: how far a mark on it moves with one click")
    pen.box(10, 46, 54, 16, round_=3)
    pen.line(64, 54, 190, 54)
    pen.line(104, 46, 104, 62)
    pen.line(136, 46, 136, 62, "far")
    pen.across(104, 32, 136, 32, "one click")
    pen.from_edge(104, 46, 104, 26)
    pen.from_edge(136, 46, 136, 26)
    pen.words(36, 82, "housing")
    pen.words(120, 82, "mark on the cable")
    return pen


def brake_reach() -> Pen:
    """Return a rim brake, measured from its bolt to the pads."""
    pen = Pen("A rim brake: from the middle of its bolt down to the middle of the pad")
    pen.path("M100 14Q52 26 56 84M100 14Q148 26 144 84M100 26Q66 34 68 84M100 26Q134 34 132 84")
    pen.circle(100, 20, 6)
    pen.box(56, 78, 20, 12)
    pen.box(124, 78, 20, 12)
    pen.from_edge(100, 20, 184, 20)
    pen.from_edge(134, 84, 184, 84)
    pen.across(174, 20, 174, 84)
    return pen
