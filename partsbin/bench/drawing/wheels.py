"""Where to measure wheels: rims, hubs, valves, rotors."""

from __future__ import annotations

from math import cos, pi, sin

from partsbin.bench.drawing.pen import Pen


def bead_seat() -> Pen:
    """Return a rim cut through at top and bottom, measured from bead seat to bead seat."""
    pen = Pen("A rim cut through: the diameter between the bead seats, below the hooks")
    for top, down in ((10, 1), (102, -1)):
        y = [top + down * step for step in (0, 6, 12, 20)]
        pen.path(
            f"M60 {y[0]}V{y[2]}Q60 {y[3]} 75 {y[3]}Q90 {y[3]} 90 {y[2]}V{y[0]}"
            f"M60 {y[1]}H66V{y[0]}M90 {y[1]}H84V{y[0]}"
        )
        pen.from_edge(66, y[1], 140, y[1])
    pen.across(130, 16, 130, 96, "bead seats")
    return pen


def rim_inner() -> Pen:
    """Return a rim's profile, measured between the inner sides of its walls."""
    pen = _rim("A rim cut through: the width between the inner sides of its walls")
    pen.from_edge(62, 30, 62, 12)
    pen.from_edge(138, 30, 138, 12)
    pen.across(62, 18, 138, 18, "inner width")
    return pen


def rim_depth() -> Pen:
    """Return a rim's profile, its height measured."""
    pen = _rim("A rim cut through: its height from the spoke holes to the outer edge")
    pen.from_edge(148, 30, 176, 30)
    pen.from_edge(100, 96, 176, 96)
    pen.across(168, 30, 168, 96)
    return pen


def rim_wall() -> Pen:
    """Return a rim's profile with the thickness of the wall that the brake wears."""
    pen = _rim("A rim cut through: the thickness of the wall that the brake pads wear")
    pen.from_edge(142, 48, 142, 14)
    pen.from_edge(148, 48, 148, 14)
    pen.line(118, 20, 142, 20, "dim")
    pen.line(148, 20, 172, 20, "dim")
    pen.path("M142 20L135 17.4L135 22.6ZM148 20L155 17.4L155 22.6Z", "head")
    pen.words(116, 24, "wall", "end")
    return pen


def _rim(title: str) -> Pen:
    pen = Pen(title)
    pen.path(
        "M52 30V60Q52 96 100 96Q148 96 148 60V30H138V37H142V58Q136 66 100 66Q64 66 58 58V37H62V30Z"
    )
    return pen


def hub_spacing() -> Pen:
    """Return a hub between its locknuts, measured over their outer faces."""
    pen = Pen("A hub: the width over the outer faces of its locknuts, without the axle ends")
    pen.box(58, 44, 84, 26, round_=6)
    for x in (66, 126):
        pen.box(x, 30, 8, 54, round_=2)
    pen.box(46, 48, 12, 18)
    pen.box(142, 48, 12, 18)
    pen.box(24, 53, 22, 8)
    pen.box(154, 53, 22, 8)
    pen.from_edge(46, 48, 46, 10)
    pen.from_edge(154, 48, 154, 10)
    pen.across(46, 18, 154, 18, "over locknuts")
    return pen


def valves() -> Pen:
    """Return the three valves side by side."""
    pen = Pen("Valves: a wide one with thread to the end, a thin one with a nut, one with a collar")
    pen.box(26, 24, 20, 64)
    pen.path("M26 34H46M26 40H46M26 46H46M33 24V18H39V24")
    pen.words(36, 104, "schrader")
    pen.box(94, 34, 12, 54)
    pen.path("M97 34V24H103V34M95 24H105V18H95ZM100 18V12")
    pen.words(100, 104, "presta")
    pen.box(156, 40, 16, 48)
    pen.path("M153 40V28H175V40ZM160 28V18H168V28")
    pen.words(164, 104, "dunlop")
    return pen


def rotor() -> Pen:
    """Return a rotor, measured across."""
    pen = Pen("A rotor: its outer diameter")
    pen.circle(100, 58, 46)
    pen.circle(100, 58, 34)
    for n in range(6):
        angle = pi * n / 3
        pen.circle(100 + 14 * cos(angle), 58 + 14 * sin(angle), 2.5)
    pen.from_edge(54, 58, 54, 4)
    pen.from_edge(146, 58, 146, 4)
    pen.across(54, 8, 146, 8)
    return pen
