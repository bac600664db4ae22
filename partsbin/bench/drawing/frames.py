"""Where to measure frames and forks."""

from __future__ import annotations

from partsbin.bench.drawing.pen import Pen


def frame_spacing() -> Pen:
    """Return two dropouts from behind, measured between their inner faces."""
    pen = Pen("Frame or fork from behind: the width between the inner faces of the dropouts")
    pen.path("M88 6L52 60V98H44V58L80 6ZM112 6L148 60V98H156V58L120 6Z")
    pen.line(36, 84, 164, 84, "far")
    pen.across(52, 72, 148, 72, "between faces")
    return pen


def steerer() -> Pen:
    """Return a fork's steerer, its outer diameter measured near its upper end."""
    pen = _fork("A fork: the outer diameter of the steerer near its upper end")
    pen.across(86, 18, 114, 18)
    pen.words(122, 22, "steerer", "start")
    return pen


def steerer_length() -> Pen:
    """Return a fork's steerer, measured from the seat of the crown race to its end."""
    pen = _fork("A fork: the length of the steerer from the crown race seat to its upper end")
    pen.from_edge(86, 6, 52, 6)
    pen.from_edge(84, 66, 52, 66)
    pen.across(60, 6, 60, 66)
    pen.words(50, 40, "length", "end")
    return pen


def crown_race() -> Pen:
    """Return a fork's crown, measured where the race is pressed on."""
    pen = _fork("A fork: the diameter of the seat at the foot of the steerer, without the race")
    pen.from_edge(84, 64, 84, 44)
    pen.from_edge(116, 64, 116, 44)
    pen.across(84, 50, 116, 50)
    pen.words(124, 54, "race seat", "start")
    return pen


def _fork(title: str) -> Pen:
    pen = Pen(title)
    pen.box(86, 6, 28, 54)
    pen.box(84, 60, 32, 6)
    pen.path("M68 66H132L136 110H122L120 80H80L78 110H64Z")
    return pen


def tube_bore() -> Pen:
    """Return the top of the seat tube, measured inside."""
    pen = Pen("The seat tube from above: its inner diameter, crosswise to the slot")
    pen.circle(100, 56, 42)
    pen.circle(100, 56, 33)
    pen.box(97, 88, 6, 13, "gap")
    pen.across(67, 56, 133, 56, "inside")
    return pen


def collar() -> Pen:
    """Return the top of the seat tube, measured outside."""
    pen = Pen("The seat tube from above: its outer diameter, below the slot")
    pen.circle(100, 60, 40)
    pen.circle(100, 60, 33)
    pen.from_edge(60, 60, 60, 10)
    pen.from_edge(140, 60, 140, 10)
    pen.across(60, 16, 140, 16, "outside")
    return pen


def shell_width() -> Pen:
    """Return a bottom bracket shell, measured from face to face."""
    pen = Pen("A bottom bracket shell: its width from face to face, without the cups")
    pen.box(58, 26, 84, 48)
    pen.path("M88 26L78 2H100L108 26M58 36H142M58 64H142", "far")
    pen.from_edge(58, 74, 58, 106)
    pen.from_edge(142, 74, 142, 106)
    pen.across(58, 100, 142, 100, "face to face")
    return pen
