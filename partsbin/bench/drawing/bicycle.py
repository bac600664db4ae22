"""A bicycle from its side, and its bar from above: a few outlines for each slot.

Drawn from lengths by the trade's plain geometry; the shapes are our own. Each slot's outlines lie
over those of the slots before it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import pi, radians
from typing import TYPE_CHECKING

from partsbin.bench.drawing.from_above import HIGH as COCKPIT_HIGH
from partsbin.bench.drawing.from_above import cockpit
from partsbin.bench.drawing.lengths import Lengths, Places, lengths_of, places_of
from partsbin.bench.drawing.shapes import (
    Point,
    arc,
    bar,
    between,
    disc,
    heading,
    polygon,
    ribbon,
    ring,
    spokes,
    toothed,
)

if TYPE_CHECKING:
    from partsbin.kinds.spec import Spec

MARGIN = 40
HUB = 24


@dataclass(frozen=True, slots=True)
class Shape:
    """The outlines of one slot."""

    slot: str
    outlines: tuple[str, ...]
    mark: Point
    """Where a sign that it needs something goes, clear of the others."""
    lines: str = ""
    """Fine lines, such as spokes."""


@dataclass(frozen=True, slots=True)
class Picture:
    """All of a bicycle, in the window of the drawing: left, top, width and height."""

    shapes: tuple[Shape, ...]
    window: tuple[int, int, int, int]
    cockpit: Point
    """Where the words over the bar from above stand."""


def picture(on_bike: Mapping[str, Spec], style: str = "") -> Picture:
    """Return the drawing of a bike with these parts in its slots."""
    lengths = lengths_of(on_bike, style)
    places = places_of(lengths)
    side = {shape.slot: shape for shape in _side(on_bike, lengths, places)}
    left = -places.radius - MARGIN
    right = places.front.x + places.radius + MARGIN
    top = min(places.saddle.y, places.bar.y, places.bar.y - 40) - MARGIN - 70
    above = Point((left + right) / 2, top - COCKPIT_HIGH / 2 - 20)
    for slot, outlines, mark in cockpit(above, on_bike):
        here = side.get(slot)
        if here is None:
            side[slot] = Shape(slot, outlines, mark)
        else:
            side[slot] = Shape(slot, (*here.outlines, *outlines), here.mark, here.lines)
    window_top = above.y - COCKPIT_HIGH / 2 - 60
    return Picture(
        tuple(side.values()),
        (round(left), round(window_top), round(right - left), round(MARGIN - window_top)),
        Point(left + 30, window_top + 50),
    )


def _side(on_bike: Mapping[str, Spec], lengths: Lengths, at: Places) -> Iterator[Shape]:
    """Yield the shapes of the side view, what is behind first."""
    yield from _wheel("rear", at.rear, on_bike, lengths)
    yield from _wheel("front", at.front, on_bike, lengths)
    yield from _guards(at)
    yield from _frame(at)
    yield from _steering(on_bike, lengths, at)
    yield from _brakes(on_bike, lengths, at)
    yield from _drivetrain(lengths, at)
    yield from _seat(at)
    yield from _lights(at)


def _wheel(end: str, axle: Point, on_bike: Mapping[str, Spec], lengths: Lengths) -> Iterator[Shape]:
    rim = lengths.bsd / 2
    outer = rim + lengths.tyre
    out = pi * 0.78 if end == "rear" else pi * 0.22
    yield Shape(f"{end} tyre", (ring(axle, outer, rim + 9),), axle.to(outer - 14, out))
    yield Shape(f"{end} tube", (ring(axle, rim + 9, rim - 5),), axle.to(rim - 34, pi / 2))
    lines = spokes(axle, HUB - 4, rim - 25, 28)
    hoop = (ring(axle, rim - 5, rim - 25), disc(axle, HUB))
    yield Shape(f"{end} wheel", hoop, axle.to(rim * 0.55, out), lines)
    if f"{end} rotor" in on_bike:
        yield Shape(f"{end} rotor", (ring(axle, 84, 62),), axle.to(74, radians(60)))


def _guards(at: Places) -> Iterator[Shape]:
    clear = at.radius + 16
    rear = ribbon(arc(at.rear, clear, radians(150), radians(312)), 10)
    front = ribbon(arc(at.front, clear, radians(176), radians(300)), 10)
    yield Shape("mudguards", (rear, front), at.rear.to(clear, radians(205)))
    deck = at.rear.moved(-120, -at.radius - 62), at.rear.moved(170, -at.radius - 62)
    legs = (bar(deck[0].moved(110), at.rear.moved(-8), 9), bar(deck[0].moved(40), at.rear, 9))
    yield Shape("rack", (bar(*deck, 16), *legs), deck[0].moved(20))
    foot = Point(at.bottom.x - 150, -6)
    stand = bar(between(at.rear, at.bottom, 0.72), foot, 14)
    yield Shape("kickstand", (stand,), foot.moved(0, -40))


def _frame(at: Places) -> Iterator[Shape]:
    behind = between(at.seat_top, at.bottom, 0.07)
    front_high, front_low = at.head_top.to(-26, at.up_head), at.head_low.to(26, at.up_head)
    stays = (bar(behind, at.rear, 20, 16), bar(at.bottom, at.rear, 24, 18))
    main = (
        bar(at.top_rear, front_high, 29),
        bar(at.bottom, front_low, 37, 35),
        bar(at.bottom, at.seat_top, 33),
        bar(at.head_low, at.head_top, 42),
    )
    yield Shape("frame", (*stays, *main), between(at.bottom, front_low, 0.5))
    down = heading(at.bottom, front_low)
    low = between(at.bottom, front_low, 0.42).to(52, down - pi / 2)
    cage = polygon([low.to(a, down).to(b, down - pi / 2) for a, b in
                    ((-10, -24), (130, -24), (140, 26), (70, 34), (0, 26))])  # fmt: skip
    yield Shape("bottle cage", (cage,), low.to(60, down))


def _steering(on_bike: Mapping[str, Spec], lengths: Lengths, at: Places) -> Iterator[Shape]:
    bend = between(at.crown, at.front, 0.62).to(-16, at.up_head + pi / 2)
    blade = ribbon([at.crown, between(at.crown, bend, 0.6), bend, at.front], 26)
    yield Shape(
        "fork", (blade, disc(at.crown, 27), disc(at.front, 13)), between(at.crown, bend, 0.6)
    )
    low, high = at.head_low.to(-13, at.up_head), at.head_top.to(13, at.up_head)
    cups = (bar(low, low.to(5, at.up_head), 52), bar(high, high.to(-5, at.up_head), 52))
    yield Shape("headset", cups, at.head_top.moved(40, 26))
    clamp = at.head_top.to(lengths.rise, at.up_head)
    yield Shape(
        "stem",
        (bar(at.head_top.to(20, at.up_head), clamp, 32), bar(clamp, at.bar, 30)),
        between(clamp, at.bar, 0.35).moved(-26, -34),
    )
    drop = on_bike.get("handlebar")
    yield Shape(
        "handlebar",
        _bar_side(str(drop.get("style") or "") if drop else "", at.bar),
        at.bar.moved(44, -30),
    )


def _bar_side(style: str, clamp: Point) -> tuple[str, ...]:
    """Return a bar from its side: the hook of a drop bar, else its end that points back."""
    if style == "drop":
        hook = [clamp, clamp.moved(75, -4), *arc(clamp.moved(78, 62), 66, -pi / 2, pi / 2)]
        return disc(clamp, 20), ribbon([*hook, clamp.moved(-20, 128)], 26)
    if style == "bullhorn":
        return disc(clamp, 20), ribbon([clamp, clamp.moved(90, 6), clamp.moved(150, -26)], 26)
    back = -95 if style == "swept" else -40
    return disc(clamp, 20), bar(clamp, clamp.moved(back, -10), 26)


def _brakes(on_bike: Mapping[str, Spec], lengths: Lengths, at: Places) -> Iterator[Shape]:
    behind = between(at.seat_top, at.bottom, 0.07)
    for end, axle, up in (
        ("front", at.front, heading(at.front, at.crown)),
        ("rear", at.rear, heading(at.rear, behind)),
    ):
        spec = on_bike.get(f"{end} brake")
        away = 1 if end == "front" else -1
        if spec is not None and spec.kind == "disc_calliper":
            middle = axle.to(78, -pi * 0.78 if end == "front" else -pi * 0.70)
            yield Shape(f"{end} brake", (bar(middle, middle.to(40, up), 44),), middle.to(24, up))
            continue
        pad = axle.to(lengths.bsd / 2 - 8, up)
        top = axle.to(at.radius + 26, up)
        side = up + pi / 2 * away
        arm = ribbon([pad, pad.to(22, side), top.to(26, side), top], 17)
        block = bar(pad.to(-30, up + pi / 2), pad.to(30, up + pi / 2), 20)
        yield Shape(f"{end} brake", (arm, block), top.to(52, side))


def _drivetrain(lengths: Lengths, at: Places) -> Iterator[Shape]:
    rear, bottom = at.rear, at.bottom
    lower = rear.moved(26, 96 + lengths.sprocket * 0.25)
    guide = rear.moved(14, lengths.sprocket + 22)
    away = heading(rear, bottom)
    high, low = away - pi / 2, away + pi / 2
    runs = (
        bar(rear.to(lengths.sprocket, high), bottom.to(lengths.ring, high), 11),
        bar(lower.moved(0, 14), bottom.to(lengths.ring, low), 11),
    )
    yield Shape("chain", runs, between(lower, bottom.to(lengths.ring, low), 0.5).moved(0, 22))
    teeth = round(lengths.sprocket / (12.7 / 2 / pi))
    cogs = (toothed(rear, lengths.sprocket, teeth), disc(rear, 17))
    yield Shape("sprockets", cogs, rear.to(lengths.sprocket, radians(215)))
    cage = (
        bar(guide, lower, 20),
        disc(guide, 17),
        disc(lower, 17),
        bar(rear.moved(6, 22), guide, 18),
    )
    yield Shape("rear derailleur", cage, lower.moved(-44, 6))
    crank = bottom.to(170, radians(24)), bottom.to(170, radians(204))
    wheel = toothed(bottom, lengths.ring, round(lengths.ring / (12.7 / 2 / pi)))
    spider = (bar(bottom, bottom.to(lengths.ring - 12, n * pi / 2.5), 16) for n in range(5))
    hollow = wheel + disc(bottom, lengths.ring - 20)
    arms = (hollow, *(bar(bottom, end, 26, 20) for end in crank), *spider)
    yield Shape("chainset", arms, bottom.to(lengths.ring + 4, radians(75)))
    yield Shape("bottom bracket", (disc(bottom, 21),), bottom.moved(-8, -36))
    treads = tuple(bar(end.moved(-42), end.moved(42), 24) for end in crank)
    yield Shape("pedals", treads, crank[0].moved(40, 30))
    up = at.up_seat
    plate = arc(bottom, lengths.ring + 16, -radians(118), -radians(72), 8)
    mech = (ribbon(plate, 24), bar(plate[3], bottom.to(lengths.ring + 62, up), 16))
    yield Shape("front derailleur", mech, plate[-1].moved(30, -18))


def _seat(at: Places) -> Iterator[Shape]:
    clamp = at.seat_top
    yield Shape(
        "seatpost", (bar(clamp, at.saddle.moved(0, 22), 26),), between(clamp, at.saddle, 0.5)
    )
    across = at.up_seat + pi / 2
    band = (bar(clamp.to(-20, across), clamp.to(24, across), 18), disc(clamp.to(30, across), 11))
    yield Shape("seat clamp", band, clamp.moved(56, 8))
    top = at.saddle
    rails = ribbon([top.moved(-80, 6), top.moved(-30, 24), top.moved(40, 22), top.moved(90, 4)], 8)
    shell = polygon(
        [
            *(top.moved(-130, -16), top.moved(-110, -30), top.moved(-60, -28), top.moved(10, -20)),
            *(top.moved(90, -22), top.moved(132, -16), top.moved(136, -4), top.moved(70, 4)),
            *(top.moved(0, 6), top.moved(-60, 22), top.moved(-112, 20), top.moved(-134, 0)),
        ]
    )
    yield Shape("saddle", (rails, shell), top.moved(0, -8))


def _lights(at: Places) -> Iterator[Shape]:
    front = at.bar.moved(64, 18)
    beam = polygon([front.moved(-14, -16), front.moved(22, -24), front.moved(22, 24),
                    front.moved(-14, 16)])  # fmt: skip
    yield Shape("front light", (beam,), front.moved(40, 20))
    back = between(at.seat_top, at.saddle, 0.45).moved(-30)
    yield Shape("rear light", (bar(back.moved(0, -18), back.moved(0, 18), 22),), back.moved(-26))
    below = at.rear.moved(-at.radius - 8, -at.radius * 0.42)
    sides = tuple(disc(axle.to(at.radius * 0.5, radians(130)), 17) for axle in (at.rear, at.front))
    tail = bar(below.moved(0, -16), below.moved(0, 16), 18)
    yield Shape("reflectors", (tail, *sides), below.moved(6, -46))
