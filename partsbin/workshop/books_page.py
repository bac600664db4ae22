"""The books of the workshop on one page: the figures that matter, and plots of their causes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from labels.typefaces import PLAIN, font
from partsbin.workshop.plots import (
    BOTH,
    COST,
    GAIN,
    PAPER,
    QUIET,
    ROW,
    SMALL,
    Area,
    Bar,
    Pencil,
    shown,
)

if TYPE_CHECKING:
    from partsbin.workshop.stock_value import Stock
    from partsbin.workshop.workshop_books import Result, Saved, WorkshopBooks

WIDE, HIGH = 595.28, 841.89
"""ISO 216 A4 in points."""
MARGIN = 42.0
GAP = 26.0
HALF = (WIDE - 2 * MARGIN - GAP) / 2
MOST_BIKES = 9
MOST_MONTHS = 24
MATCHED = (
    "Costs of a bike count on the day of its sale. An hour of work brought the profit and the "
    "labour, shared over the hours."
)
WORTH = (
    "Worth is the lower of cost and of the price that can be had, less the cost to complete and "
    "to sell (IAS 2, paragraph 9), item by item."
)


def write_page(kept: WorkshopBooks, file: Path) -> None:
    """Write the page as a PDF file of vectors; a file of that name is replaced when it is whole."""
    from reportlab.pdfgen.canvas import Canvas

    unfinished = file.with_name(file.name + ".part")
    font(PLAIN)
    canvas = Canvas(
        str(unfinished),
        pagesize=(WIDE, HIGH),
        pageCompression=1,
        invariant=1,
        initialFontName=PLAIN,  # type: ignore[arg-type] # the stubs take the name for a number
    )
    canvas.setTitle(f"Workshop books {kept.start} to {kept.end}")
    pencil = Pencil(canvas)
    _draw(pencil, kept)
    canvas.showPage()
    canvas.save()
    unfinished.replace(file)


def _draw(pencil: Pencil, kept: WorkshopBooks) -> None:
    right = MARGIN + HALF + GAP
    pencil.words(MARGIN, HIGH - 58, "Workshop books", 22, bold=True)
    period = f"{kept.start} to {kept.end}"
    pencil.words(WIDE - MARGIN, HIGH - 58, period, 13, colour=QUIET, align="right")
    _tiles(pencil, kept)
    top = HIGH - 168
    pencil.lying(
        Area(MARGIN, top, HALF, 190), "From sales to profit", "each cost takes its step off",
        list(staircase(kept.result)),
    )  # fmt: skip
    name, bars = over_time(kept)
    pencil.standing(Area(right, top, HALF, 190), f"Profit by {name}", "in whole units", bars)
    top -= 222
    pencil.lying(
        Area(MARGIN, top, HALF, 190), "What each bike brought",
        "profit, and what an hour of work on it brought", bike_bars(kept.bikes),
    )  # fmt: skip
    pencil.lying(
        Area(right, top, HALF, 130), "How old the parts are", "what they cost, by days in stock",
        age_bars(kept.stock),
    )  # fmt: skip
    top -= 238
    pencil.lying(
        Area(MARGIN, top, HALF, 110), f"The stock on {kept.stock.day}",
        "what it cost, and the lower of that and what can be had", list(stock_bars(kept.stock)),
    )  # fmt: skip
    _saved(pencil, kept, Area(right, top, HALF, 110))
    _notes(pencil, kept)


def _tiles(pencil: Pencil, kept: WorkshopBooks) -> None:
    result = kept.result
    margin = "" if result.margin is None else f"{result.margin} % of the sales"
    hour = "no hours" if result.earned_per_hour is None else shown(result.earned_per_hour)
    tiles = (
        ("profit", shown(result.profit), margin),
        ("sales", shown(result.sales), _count(len(kept.bikes), "bike")),
        ("stock is worth", shown(kept.stock.whole.lower), f"cost {shown(kept.stock.whole.cost)}"),
        ("an hour of work brought", hour, f"{result.minutes / 60:.1f} hours on bikes sold"),
    )
    wide = (WIDE - 2 * MARGIN - 3 * 9) / 4
    for at, (name, figure, note) in enumerate(tiles):
        x = MARGIN + at * (wide + 9)
        pencil.block(x, HIGH - 142, wide, 64, PAPER)
        loss = figure.startswith("\N{MINUS SIGN}")
        pencil.block(x, HIGH - 142, 3, 64, COST if loss else GAIN)
        pencil.words(x + 11, HIGH - 93, name, SMALL, colour=QUIET)
        pencil.whole(x + 11, HIGH - 115, figure, 18, room=wide - 16)
        pencil.words(x + 11, HIGH - 133, note, SMALL, colour=QUIET, room=wide - 14)


def staircase(result: Result) -> Iterator[Bar]:
    """Yield the steps from the sales to the profit, each cost one of them."""
    yield Bar("sales", result.sales, colour=GAIN)
    left = int(result.sales)
    for account, amount in result.costs:
        yield Bar(str(account), -amount, start=left)
        left -= amount
    yield Bar("profit", result.profit)


def over_time(kept: WorkshopBooks) -> tuple[str, list[tuple[str, str, int]]]:
    """Return whether the profit is told by month or year, and its bars."""
    if len(kept.months) <= MOST_MONTHS:
        # The year stands under January and under the first bar, if there is room between the two.
        first = kept.months[0][0]
        roomy = len(kept.months) <= 12 or first.month <= 10
        with_year = {day for day, _ in kept.months if day.month == 1 or (day == first and roomy)}
        return "month", [
            (f"{day:%m}", f"{day:%Y}" if day in with_year else "", own.profit)
            for day, own in kept.months
        ]
    years: Counter[str] = Counter()
    for day, own in kept.months:
        years[f"{day:%Y}"] += own.profit
    return "year", [(year, "", profit) for year, profit in years.items()]


def bike_bars(bikes: Sequence[tuple[str, Result]]) -> list[Bar]:
    """Return the bikes with the most profit and those with the least, best first."""
    told = [_bike(bike, own) for bike, own in bikes]
    if len(told) <= MOST_BIKES:
        return told
    middle = bikes[MOST_BIKES - 3 : -2]
    rest = sum(own.profit for _, own in middle)
    return [*told[: MOST_BIKES - 3], Bar(f"{len(middle)} others", rest, colour=BOTH), *told[-2:]]


def _bike(bike: str, own: Result) -> Bar:
    hour = own.earned_per_hour
    return Bar(bike, own.profit, "" if hour is None else f"({shown(hour)} an hour)")


def age_bars(stock: Stock) -> list[Bar]:
    """Return a bar for what the parts of each band of age cost."""
    return [
        Bar(_band(age.days_from, age.days_to), age.cost, f"({age.parts} parts)", BOTH)
        for age in stock.ages
    ]


def _band(start: int, end: int | None) -> str:
    return f"over {start}" if end is None else f"{start} to {end}"


def stock_bars(stock: Stock) -> Iterator[Bar]:
    """Yield what parts and bikes cost, and what they are worth."""
    for name, worth in (("parts", stock.parts), ("bikes", stock.bikes)):
        yield Bar(f"{name}, cost", worth.cost, f"({worth.count})", BOTH)
        yield Bar(f"{name}, worth", worth.lower)
    if stock.own_fleet:
        yield Bar("own fleet, cost", stock.own_fleet, colour=BOTH)


def _saved(pencil: Pencil, kept: WorkshopBooks, area: Area) -> None:
    saved = kept.saved
    parts = _count(saved.parts, "part")
    what = f"{parts} fitted from the bins, {saved.known} with a known new price"
    pencil.lying(area, "What the bins saved", what, saved_bars(saved))
    lost = kept.write_offs
    if lost:
        y = area.top - 31 - 4 * ROW
        total = shown(sum(line.amount for line in lost))
        words = f"written off: {total} in {_count(len(lost), 'part')}"
        pencil.words(area.left, y, words, SMALL, colour=QUIET, room=area.width)


def saved_bars(saved: Saved) -> list[Bar]:
    """Return what the parts from the bins would have cost new, what they cost, and the rest."""
    if not saved.known:
        return []
    return [
        Bar("bought new", saved.new_price, colour=COST),
        Bar("from the bins", saved.cost, colour=BOTH),
        Bar("saved", saved.saved),
    ]


def _notes(pencil: Pencil, kept: WorkshopBooks) -> None:
    stock = kept.stock
    notes = [MATCHED, WORTH]
    if stock.whole.unpriced:
        notes.append(
            f"{_count(stock.parts.unpriced, 'part')} and {_count(stock.bikes.unpriced, 'bike')} "
            "have no price that can be had on record; their cost stands."
        )
    y = MARGIN + 10 * len(notes)
    pencil.rule(MARGIN, y + 6, WIDE - MARGIN, y + 6)
    for at, note in enumerate(notes):
        pencil.words(MARGIN, y - 6 - 10 * at, note, SMALL, colour=QUIET, room=WIDE - 2 * MARGIN)


def _count(number: int, word: str) -> str:
    return f"{number} {word}" + ("" if number == 1 else "s")
