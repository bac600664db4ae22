"""Plots the chance of a loss over the price that is paid, as SVG or PNG."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

from labels.typefaces import BOLD, FOLDER, PLAIN
from partsbin.errors import UsageError
from partsbin.stock.money import Money, show_money
from partsbin.workshop.plots import COST, GAIN, INK, QUIET, RULE, Colour

if TYPE_CHECKING:
    from partsbin.workshop.offering import Offering

WIDE, HIGH = 720, 420
LEFT, RIGHT, TOP, BOTTOM = 64, 690, 92, 360
FINER = 2
"""Dots of a PNG for each unit of the plot."""
FORMATS = (".svg", ".png")
TENTHS = 5
HALO = 3
"""How wide the white around words is, so that a line behind them does not cross them."""
FIRST_LABEL, LABEL_STEP = TOP + 12, 18

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through some points."""

    points: tuple[Point, ...]
    colour: Colour
    wide: float = 1.0


@dataclass(frozen=True, slots=True)
class Words:
    """A text on its base line; `at` is its start, its middle or its end."""

    at: Point
    text: str
    size: int = 12
    colour: Colour = INK
    align: str = "start"
    bold: bool = False


def write_plot(found: Offering, file: Path) -> None:
    """Write the plot in the format that the file's name ends with.

    Raises `UsageError` for another ending than .svg or .png.
    """
    ending = file.suffix.lower()
    if ending not in FORMATS:
        raise UsageError(f"{file.name} is neither .svg nor .png; name the plot with one of them")
    marks = list(drawn(found))
    if ending == ".svg":
        file.write_text(svg(marks), encoding="utf-8")
    else:
        _png(marks, file)


def drawn(found: Offering) -> Iterator[Stroke | Words]:
    """Yield the strokes and words of the plot."""
    highest = max(found.terms.price, found.even, found.asked or 0, 100)

    def x(price: int) -> float:
        return LEFT + (RIGHT - LEFT) * price / highest

    def y(chance: float) -> float:
        return BOTTOM - (BOTTOM - TOP) * chance

    yield Words((LEFT, 32), "Chance of a loss by the price that you pay", 17, bold=True)
    yield Words((LEFT, 52), f"{found.bike.title}; parts, work and fees paid", 12, QUIET)
    for n in range(TENTHS + 1):
        chance = n / TENTHS
        yield Stroke(((LEFT, y(chance)), (RIGHT, y(chance))), RULE)
        yield Words((LEFT - 8, y(chance) + 4), f"{chance:.0%}", 11, QUIET, "end")
        price = Money(highest * n // TENTHS)
        yield Words((x(price), BOTTOM + 18), show_money(price), 11, QUIET, "middle")
    yield Words(((LEFT + RIGHT) / 2, BOTTOM + 40), "price paid", 12, QUIET, "middle")
    yield Stroke(tuple((x(p), y(c)) for p, c in steps(found, highest)), COST, 2.5)
    inside = [one for one in _prices(found) if 0 <= one[1] <= highest]
    for _, price, colour in inside:
        yield Stroke(((x(price), TOP - 18), (x(price), BOTTOM)), colour, 1.5)
    for n, (name, price, colour) in enumerate(inside):
        at = x(price)
        chance = float(found.chance_of_loss(price))
        told = f"{name} {show_money(price)}: {chance:.0%}"
        right = at > (LEFT + RIGHT) / 2
        spot = (at - 5 if right else at + 5, FIRST_LABEL + LABEL_STEP * n)
        yield Words(spot, told, 12, colour, "end" if right else "start", bold=True)


def steps(found: Offering, highest: int) -> list[tuple[int, float]]:
    """Return the corners of the chance of a loss from a price of nothing to the highest.

    It steps up just above each price at which another total of surprises is no longer covered.
    """
    corners: list[tuple[int, float]] = [(0, float(found.chance_of_loss(Money(0))))]
    for total in sorted(found.totals, reverse=True):
        price = found.even - total
        if 0 <= price < highest:
            corners.append((price, corners[-1][1]))
            corners.append((price, float(found.chance_of_loss(Money(price + 1)))))
    return [*corners, (highest, corners[-1][1])]


def _prices(found: Offering) -> Iterator[tuple[str, Money, Colour]]:
    yield "cautious", found.cautious, GAIN
    yield "most to pay", found.amounts.most, INK
    if found.asked is not None:
        yield "asked", found.asked, COST


def svg(marks: Sequence[Stroke | Words]) -> str:
    """Return marks as an SVG text."""
    body = "\n".join(_svg(mark) for mark in marks)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE} {HIGH}" '
        f'width="{WIDE}" height="{HIGH}" font-family="DejaVu Sans Condensed, sans-serif">\n'
        f'<rect width="{WIDE}" height="{HIGH}" fill="#ffffff"/>\n{body}\n</svg>\n'
    )


def _svg(mark: Stroke | Words) -> str:
    colour = "#" + "".join(f"{part:02x}" for part in _bytes(mark.colour))
    if isinstance(mark, Stroke):
        points = " ".join(f"{x:.2f},{y:.2f}" for x, y in mark.points)
        return (
            f'<polyline points="{points}" fill="none" stroke="{colour}" '
            f'stroke-width="{mark.wide}"/>'
        )
    x, y = mark.at
    weight = ' font-weight="bold"' if mark.bold else ""
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-size="{mark.size}" fill="{colour}" '
        f'text-anchor="{mark.align}" stroke="#ffffff" stroke-width="{HALO}" '
        f'paint-order="stroke"{weight}>{escape(mark.text)}</text>'
    )


def _bytes(colour: Colour) -> tuple[int, int, int]:
    red, green, blue = (round(255 * part) for part in colour)
    return red, green, blue


def _png(marks: Sequence[Stroke | Words], file: Path) -> None:
    from PIL import Image, ImageDraw, ImageFont

    image = Image.new("RGB", (WIDE * FINER, HIGH * FINER), "white")
    draw = ImageDraw.Draw(image)
    anchors = {"start": "ls", "middle": "ms", "end": "rs"}
    for mark in marks:
        if isinstance(mark, Stroke):
            points = [(FINER * x, FINER * y) for x, y in mark.points]
            draw.line(points, _bytes(mark.colour), round(FINER * mark.wide))
        else:
            name = BOLD if mark.bold else PLAIN
            face = ImageFont.truetype(str(FOLDER / f"{name}.ttf"), FINER * mark.size)
            spot = (FINER * mark.at[0], FINER * mark.at[1])
            draw.text(
                spot,
                mark.text,
                _bytes(mark.colour),
                face,
                anchors[mark.align],
                stroke_width=HALO,
                stroke_fill="white",
            )
    image.save(file, "PNG")
