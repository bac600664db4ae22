"""Layouts: nothing overlaps, nothing leaves the label, nothing gets too small to read."""

from functools import cache
from itertools import combinations

import pytest

from labels import stock
from labels.code128 import QUIET as BARS_QUIET
from labels.label import Label, Shape
from labels.layout import DoesNotFit, plan_for
from labels.lettering import CAP, DESCENT, width
from labels.number import Thing, grouped, make
from labels.plan import Box, Plan
from labels.printer import Printer
from labels.qr import QUIET as QR_QUIET
from labels.stock import LabelStock, load
from labels.words import composed

PRINTERS = [Printer(dpi="203.2"), Printer(dpi=300), Printer(dpi="304.8"), Printer(dpi=600)]
MM = 1_000


@cache
def plans(shape: Shape) -> list[tuple[LabelStock, Printer, int, Plan]]:
    """Return every plan there is for that shape: all stocks and printers, with and without mark."""
    made = []
    for one in stock.bundled():
        for printer in PRINTERS:
            for digits in (8, 10):
                for caution in (False, True):
                    try:
                        plan = plan_for(one, printer, shape, digits, caution)
                    except DoesNotFit:
                        continue
                    made.append((one, printer, digits, plan))
    return made


def boxes(plan: Plan, digits: int) -> dict[str, Box]:
    """Return what stands on a label, quiet zones included."""
    quiet = QR_QUIET * plan.qr.unit
    side = plan.qr.height + 2 * quiet
    found = {"qr": Box(plan.qr.x - quiet, plan.qr.y - quiet, side, side)}
    sample = "0000 0000 00"[: 9 if digits == 8 else 12]
    text = sample if plan.number.rows == 1 else "0000"
    found["number"] = Box(
        plan.number.box.x,
        plan.number.box.y,
        round(width(text, bold=True) * plan.number.size),
        plan.number.height(plan.number.size, plan.number.rows),
    )
    if plan.bars:
        modules = 79 if digits == 8 else 90
        quiet = BARS_QUIET * plan.bars.unit
        found["bars"] = Box(
            plan.bars.x - quiet, plan.bars.y, modules * plan.bars.unit + 2 * quiet, plan.bars.height
        )
    if plan.words:
        found["words"] = plan.words.box
    if plan.caution:
        found["caution"] = plan.caution
    if plan.hole:
        x, y, radius = plan.hole
        found["hole"] = Box(x - radius, y - radius, 2 * radius, 2 * radius)
    return found


def overlap(one: Box, other: Box) -> bool:
    """Return whether two boxes share a dot."""
    return (
        one.x < other.x + other.width
        and other.x < one.x + one.width
        and one.y < other.y + other.height
        and other.y < one.y + one.height
    )


@pytest.mark.parametrize("shape", Shape)
def test_nothing_overlaps_or_is_clipped(shape: Shape) -> None:
    """On every stock and printer all blocks lie apart and inside what the printer can reach.

    The caution mark alone stands in the words' box, before the title.
    """
    made = plans(shape)

    assert len(made) > 100
    for one, printer, digits, plan in made:
        found = boxes(plan, digits)
        where = f"{one.name} {printer.dpi} {digits} {found}"
        rim_x, rim_y = (printer.dots(max(MM, rim)) for rim in one.rims(printer.edge_um))
        right = printer.dots(one.label_width_um) - rim_x
        top = printer.dots(one.label_height_um) - rim_y
        for box in found.values():
            assert box.x >= rim_x, where
            assert box.y >= rim_y, where
            assert box.x + box.width <= right, where
            assert box.y + box.height <= top, where
        for (name, box), (second, other) in combinations(found.items(), 2):
            if {name, second} != {"words", "caution"}:
                assert not overlap(box, other), f"{name} on {second}: {where}"


@pytest.mark.parametrize("shape", Shape)
def test_nothing_is_too_small(shape: Shape) -> None:
    """Bars, modules and type keep their least sizes on every stock and printer.

    X-dimension 0.25 mm and 8 point numbers: common practice, no source; bars 6.35 mm or 15 % of
    their length: reportlab's code128 names the rule of ISO/IEC 15417; QR module 0.25 mm, 0.375 mm
    beside words: our own measure of what a webcam resolves.
    """
    for one, printer, digits, plan in plans(shape):
        where = f"{one.name} {printer.dpi}"
        point = 25_400 / 72
        assert printer.length_um(plan.number.size) >= 8 * point - 1, where
        assert printer.length_um(plan.qr.unit) >= (375 if plan.words else 250), where
        if plan.words:
            assert printer.length_um(plan.words.title) >= 8 * point - 1, where
            assert printer.length_um(plan.words.line) >= 6.4 * point - 1, where
        if plan.bars:
            high = printer.length_um(plan.bars.height)
            assert printer.length_um(plan.bars.unit) >= 250, where
            assert high >= 6_350, where
            assert high >= 0.15 * printer.length_um((79 if digits == 8 else 90) * plan.bars.unit)
        if plan.caution:
            assert printer.length_um(plan.caution.height) >= 3_000, where


def test_bins_are_read_from_two_metres() -> None:
    """Name and number of a bin have capitals of at least 2 m / 300 (common practice, no source)."""
    for one, printer, digits, plan in plans(Shape.BIN):
        assert plan.words
        label = Label(
            number=make(Thing.BIN, 7 if digits == 8 else 100_007),
            shape=Shape.BIN,
            title="Freilaufnaben hinten links oben",
        )
        rows = composed(label, plan.words)
        least = min(row.size for row in rows)
        for size in (plan.number.size, least):
            assert printer.length_um(round(size * CAP)) >= 2_000_000 / 300, one.name


@pytest.mark.parametrize("shape", Shape)
@pytest.mark.parametrize(
    "title",
    [
        "A",
        "Seatpost",
        "Vorderradnabe mit Schnellspanner und Achse",
        "W" * 60,
        "Натяжитель " * 9,
        "",
    ],
    ids=["short", "usual", "long", "one word", "many words", "none"],
)
def test_words_stay_in_their_box(shape: Shape, title: str) -> None:
    """Whatever is typed, every row ends before the box does and stands above its foot."""
    label = Label(
        number=make(Thing.PART, 1),
        shape=shape,
        title=title,
        lines=("27.2 mm", "a very long attribute that somebody typed " * 3, "x", "350 mm") * 3,
        grade="good" * 9,
        bin_name="Shelf 3, left, top " * 4,
    )
    for one, printer, _digits, plan in plans(shape):
        if plan.words is None:
            continue
        box = plan.words.box
        for row in composed(label, plan.words):
            where = f"{one.name} {printer.dpi} {row}"
            assert row.x >= box.x, where
            assert row.x + row.size * width(row.text, bold=row.bold) <= box.x + box.width + 1, where
            assert row.y - DESCENT * row.size >= box.y - 1, where
            assert row.y + CAP * row.size <= box.y + box.height + 1, where


@pytest.mark.parametrize(
    ("name", "has"),
    [
        ("a4-3x8-70x37", {"qr", "bars", "words", "number"}),
        ("a4-4x10-46x25", {"qr", "bars", "words", "number"}),
        ("roll-57x32", {"qr", "bars", "words", "number"}),
        ("a4-5x13-38x21", {"qr", "words", "number"}),
        ("a4-7x27-25x10", {"qr", "number"}),
        ("roll-25x25", {"qr", "number"}),
    ],
    ids=str,
)
def test_the_size_decides(name: str, has: set[str]) -> None:
    """Large labels have all, smaller ones lose the bars, the smallest the words as well."""
    plan = plan_for(load(name), PRINTERS[0], Shape.PART, 8, caution=False)

    assert set(boxes(plan, 8)) == has


@pytest.mark.parametrize("printer", PRINTERS, ids=lambda printer: str(printer.dpi))
@pytest.mark.parametrize("name", stock.names())
def test_parts_go_on_every_stock(name: str, printer: Printer) -> None:
    """Every stock that comes with the package takes a part, with ten digits and a mark as well."""
    plan = plan_for(load(name), printer, Shape.PART, 10, caution=True)

    assert plan.caution is not None


def test_bikes_have_a_hole() -> None:
    """A bike tag has a hole mark at its end, parts and bins have none."""
    wide = plan_for(load("roll-89x36"), PRINTERS[1], Shape.BIKE, 8, caution=False)
    high = plan_for(load("a4-3x4-64x72"), PRINTERS[1], Shape.BIKE, 8, caution=False)
    part = plan_for(load("roll-89x36"), PRINTERS[1], Shape.PART, 8, caution=False)

    assert wide.hole is not None
    assert high.hole is not None
    assert wide.hole[0] < wide.qr.x
    assert high.hole[1] > high.qr.y + high.qr.height
    assert part.hole is None


def test_what_does_not_fit_names_stocks_that_do() -> None:
    """A bin's label on a tiny roll: the sentence names the smallest rolls on which it goes."""
    with pytest.raises(DoesNotFit) as refusal:
        plan_for(load("roll-25x25"), PRINTERS[0], Shape.BIN, 8, caution=False)
    sentence = str(refusal.value)
    named = [name for name in stock.names() if name in sentence and name != "roll-25x25"]

    assert sentence == (
        "A bin label does not fit on roll-25x25 (25 x 25 mm) at 203.2 dots per inch without "
        f"becoming hard to read: use {' or '.join(sorted(named, key=sentence.index))}."
    )
    assert 1 <= len(named) <= 3
    for name in named:
        plan_for(load(name), PRINTERS[0], Shape.BIN, 8, caution=False)


def test_numbers_are_grouped_as_measured() -> None:
    """The widest numbers have the widths that layouts reckon with: all digits are equally wide."""
    widths = {width(digit, bold=True) for digit in "0123456789"}

    assert len(widths) == 1
    assert grouped(make(Thing.BIKE, 9_999_999)).count(" ") == 2
