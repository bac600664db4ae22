"""Where to measure bars, stems, seatposts and saddles."""

from __future__ import annotations

from partsbin.bench.drawing.pen import Pen


def bar_clamp() -> Pen:
    """Return a bar with its thicker middle, measured where the stem holds it."""
    pen = Pen("A handlebar: the diameter of its thicker middle, where the stem holds it")
    pen.path("M6 48H58Q70 48 74 38H126Q130 48 142 48H194V64H142Q130 64 126 74H74Q70 64 58 64H6Z")
    pen.across(100, 38, 100, 74, "clamp")
    return pen


def bar_grip() -> Pen:
    """Return a bar's end, measured where levers and grips sit."""
    pen = Pen("A handlebar: the diameter of the tube where levers and grips sit")
    pen.path("M194 38H142Q130 38 126 28H96V84H126Q130 74 142 74H194", "far")
    pen.path("M6 48H96M6 64H96M6 48V64")
    pen.across(40, 48, 40, 64)
    pen.words(40, 38, "levers, grips")
    return pen


def bar_width() -> Pen:
    """Return a bar from end to end."""
    pen = Pen("A handlebar: its width from end to end")
    pen.path("M20 76L26 62Q60 74 84 60V52H116V60Q140 74 174 62L180 76")
    pen.path("M20 76Q60 90 84 74V82H116V74Q140 90 180 76")
    pen.from_edge(20, 76, 20, 18)
    pen.from_edge(180, 76, 180, 18)
    pen.across(20, 26, 180, 26, "end to end")
    return pen


def stem_clamp() -> Pen:
    """Return a stem from the side, measured inside the clamp for the bar."""
    pen = Pen("A stem from the side: the bore of the clamp for the bar")
    pen.box(16, 26, 34, 62, round_=4)
    pen.path("M50 44L118 38M50 66L118 74")
    pen.circle(146, 56, 32)
    pen.circle(146, 56, 22)
    pen.across(124, 56, 168, 56)
    pen.words(146, 50, "bar")
    return pen


def stem_length() -> Pen:
    """Return a stem from the side, measured from middle to middle."""
    pen = Pen("A stem from the side: from the middle of the steerer to the middle of the bar")
    pen.box(24, 34, 32, 62, round_=4)
    pen.path("M56 52L130 46M56 74L130 80")
    pen.circle(152, 63, 24)
    pen.circle(152, 63, 15)
    pen.from_edge(40, 34, 40, 12)
    pen.from_edge(152, 63, 152, 12)
    pen.across(40, 20, 152, 20, "middle to middle")
    return pen


def post_diameter() -> Pen:
    """Return a seatpost, measured below the insertion mark."""
    pen = _post("A seatpost: its diameter below the insertion mark")
    pen.across(92, 92, 116, 92)
    pen.words(124, 96, "below it", "start")
    pen.words(124, 76, "mark", "start")
    return pen


def post_length() -> Pen:
    """Return a seatpost, measured from end to end."""
    pen = _post("A seatpost: its whole length")
    pen.from_edge(92, 8, 62, 8)
    pen.from_edge(92, 106, 62, 106)
    pen.across(70, 8, 70, 106)
    pen.words(60, 60, "length", "end")
    return pen


def post_mark() -> Pen:
    """Return a seatpost, measured from its lower end to the insertion mark."""
    pen = _post("A seatpost: from its lower end to the insertion mark")
    pen.from_edge(92, 72, 62, 72)
    pen.from_edge(92, 106, 62, 106)
    pen.across(70, 72, 70, 106)
    pen.words(60, 92, "mark", "end")
    return pen


def _post(title: str) -> Pen:
    pen = Pen(title)
    pen.path("M92 24H116V106H92Z")
    pen.path("M84 8H126V16Q126 24 116 24H92Q84 24 84 16Z")
    for x in (94, 99, 104, 109):
        pen.line(x, 72, x + 4, 72)
    return pen


def rails() -> Pen:
    """Return saddle rails cut through: round and oval."""
    pen = Pen("Saddle rails cut through: round, or oval and higher than wide")
    pen.circle(60, 52, 20)
    pen.across(40, 52, 80, 52, "7")
    pen.words(60, 100, "round")
    pen.path("M120 52A20 27 0 0 1 160 52A20 27 0 0 1 120 52Z")
    pen.across(168, 25, 168, 79, "9")
    pen.words(140, 100, "oval")
    return pen
