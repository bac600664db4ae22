"""The bar from above, as the rider sees it: levers and shifters lie beside each other there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import pi
from typing import TYPE_CHECKING

from partsbin.bench.drawing.shapes import Point, bar, disc, ribbon

if TYPE_CHECKING:
    from partsbin.kinds.spec import Spec

HIGH = 230
"""How high this part of the drawing is."""
HALF = 560
"""From the middle to an end of the bar, wider than life: a thumb must find what is on it."""

Outlines = tuple[str, tuple[str, ...], Point]


def cockpit(middle: Point, on_bike: Mapping[str, Spec]) -> Iterator[Outlines]:
    """Yield each slot of the bar with its outlines and the place for a sign."""
    drop = "handlebar" in on_bike and on_bike["handlebar"].get("style") in ("drop", "bullhorn")
    clamp = middle.moved(0, 40)
    yield "stem", (bar(clamp, clamp.moved(0, 66), 40),), clamp
    yield "handlebar", _bar(clamp, drop=drop), clamp
    yield "grips", tuple(_grip(clamp, side, drop=drop) for side in (-1, 1)), _grip_mark(clamp, drop)
    for side, hand, shifter in ((-1, "left", "front"), (1, "right", "rear")):
        yield f"{hand} brake lever", *_lever(clamp, side, drop=drop)
        yield f"{shifter} shifter", *_shifter(clamp, side)
    bell = clamp.moved(-108, -46)
    yield (
        "bell",
        (disc(bell, 27), bar(bell.moved(0, 10), clamp.moved(-108), 10)),
        bell.moved(0, -44),
    )


def _bar(clamp: Point, *, drop: bool) -> tuple[str, ...]:
    if drop:
        left, right = clamp.moved(-HALF + 130), clamp.moved(HALF - 130)
        return bar(left, right, 30), disc(clamp, 24)
    bend = [clamp.moved(-HALF, 26), clamp.moved(-240, 4), clamp.moved(-90)]
    other = [Point(2 * clamp.x - p.x, p.y) for p in reversed(bend)]
    return ribbon([*bend, *other], 28), disc(clamp, 24)


def _grip(clamp: Point, side: int, *, drop: bool) -> str:
    if drop:
        end = clamp.moved(side * (HALF - 130))
        return ribbon([end.moved(-side * 200), end, end.moved(side * 26, -34)], 40)
    return bar(clamp.moved(side * (HALF - 150), 18), clamp.moved(side * HALF, 26), 40)


def _grip_mark(clamp: Point, drop: bool) -> Point:
    return clamp.moved(-HALF + 130 if drop else -HALF + 60, 62)


def _lever(clamp: Point, side: int, *, drop: bool) -> tuple[tuple[str, ...], Point]:
    """Return a lever: before the grip of a flat bar, at the end of a drop bar's curve."""
    if drop:
        end = clamp.moved(side * (HALF - 96), -42)
        return (bar(end, end.moved(side * 8, -76), 46, 34),), end.moved(side * 50, -50)
    hold = clamp.moved(side * (HALF - 190), 8)
    knee = hold.moved(side * 14, -46)
    blade = ribbon([hold, knee, knee.moved(side * 70, -14), knee.moved(side * 196, 4)], 20)
    return (blade, disc(hold, 24)), knee.moved(side * 120, -44)


def _shifter(clamp: Point, side: int) -> tuple[tuple[str, ...], Point]:
    pod = clamp.moved(side * 270, 6)
    turned = 0.0 if side > 0 else pi
    paddle = bar(pod.moved(0, 22), pod.moved(0, 22).to(56, turned - side * 0.35), 16)
    return (disc(pod, 31), paddle), pod.moved(0, 66)
