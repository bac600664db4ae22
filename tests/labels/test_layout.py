"""Layouts: nothing overlaps, nothing leaves the label, nothing gets too small to read."""

from functools import cache
from itertools import combinations
from math import ceil, floor
from pathlib import Path

import pypdfium2
import pytest

from labels import sheet, stock
from labels.code128 import QUIET as BARS_QUIET
from labels.column import Row
from labels.label import Label, Shape
from labels.layout import DoesNotFit, plan_for
from labels.lettering import CAP, line, whole, width
from labels.number import Thing, grouped, make
from labels.plan import Box, Plan
from labels.printer import Printer
from labels.qr import QUIET as QR_QUIET
from labels.stock import LabelStock, load
from labels.words import composed
from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import in_words

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


def bin_rows(plan: Plan, digits: int, name: str, *lines: str) -> tuple[Row, ...]:
    """Return the rows of a bin's label."""
    assert plan.words
    number = make(Thing.BIN, 7 if digits == 8 else 100_007)
    return composed(Label(number=number, shape=Shape.BIN, title=name, lines=lines), plan.words)


def test_bins_are_read_from_two_metres() -> None:
    """A short name has capitals of at least 2 m / 300 (common practice, no source) everywhere.

    So has the number on labels that are high enough for it: 99 x 68 mm and all others from 89 mm.
    """
    far = set()
    for one, printer, digits, plan in plans(Shape.BIN):
        names = [row for row in bin_rows(plan, digits, "B-12", "brake levers") if row.bold]
        assert [row.text for row in names] == ["B-12"], one.name
        assert printer.length_um(round(names[0].size * CAP)) >= 2_000_000 / 300, one.name
        if printer.length_um(round(plan.number.size * CAP)) >= 2_000_000 / 300:
            far.add(one.name)
    assert {one for one in stock.names() if load(one).label_width_um >= 89 * MM} <= far


def test_large_bin_labels_say_what_is_in_the_bin() -> None:
    """On 99 x 68 mm name, note and place are whole, beside bars and QR."""
    lines = ("indexed shifters and combined levers, 8 and 9 speed", "rack by the door, left")
    for one, _printer, digits, plan in plans(Shape.BIN):
        if one.name == "a4-2x4-99x68":
            rows = bin_rows(plan, digits, "Shifters", *lines)
            assert whole([row.text for row in rows], ("Shifters", *lines))
            assert plan.bars


def test_long_bin_names_are_whole() -> None:
    """A name too long for two metres is set smaller before it is cut."""
    name = "Freilaufnaben hinten links oben"
    for one, _printer, digits, plan in plans(Shape.BIN):
        if one.label_width_um >= 63 * MM:
            rows = bin_rows(plan, digits, name, "for hubs")
            assert whole([row.text for row in rows if row.bold], (name,)), one.name


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_titles_of_parts_are_never_cut(kind: str) -> None:
    """Every kind of part stands whole on every label with words, mark or not, on two rows at most.

    "combined lever" beside the mark on 36 x 17 mm as well.
    """
    title = in_words(kind)
    for one, printer, digits, plan in plans(Shape.PART):
        # The least and the most dots stand for those between, eight digits for ten.
        if plan.words is None or digits == 10 or printer not in (PRINTERS[0], PRINTERS[-1]):
            continue
        number = make(Thing.PART, 7)
        lines = ("long pull, about 15 mm", "22.2 mm", "speeds 8")
        rows = composed(
            Label(number=number, title=title, lines=lines, grade="good", bin_name="A1"), plan.words
        )
        titles = [row.text for row in rows if row.bold and row.text != "A1"]
        where = f"{one.name} {printer.dpi} {rows}"
        assert whole(titles, (title,)), where
        assert len(titles) <= 2, where
        least = min(row.size for row in rows)
        assert printer.length_um(least) >= 6.4 * 25_400 / 72 - 1, where


@pytest.mark.parametrize("shape", Shape)
@pytest.mark.parametrize(
    "title",
    [
        "A",
        "Seatpost",
        "Vorderradnabe mit Schnellspanner und Achse",
        "W" * 60,
        "Натяжитель " * 9,
        "ÅÉjgÇ " * 4,
        "ที่นั่งรถจักรยาน",
        "ལྕགས་ཐག་གི་འཁོར་ལོ",
        "ខ្សែច្រវាក់ កង់",
        "زنجیر دوچرخه",
        "",
    ],
    ids=[
        "short",
        "usual",
        "long",
        "one word",
        "many words",
        "accents",
        "Thai",
        "Tibetan",
        "Khmer",
        "Persian",
        "none",
    ],
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
    for one, printer, digits, plan in plans(shape):
        if plan.words is None or digits == 10 or printer not in (PRINTERS[0], PRINTERS[-1]):
            continue
        box = plan.words.box
        rows = composed(label, plan.words)
        for row in rows:
            drawn = line(row.text, bold=row.bold)
            ink = ink_of(row)
            where = f"{one.name} {printer.dpi} {row} {ink} {box}"
            assert row.x >= box.x, where
            assert row.x + row.size * drawn.width <= box.x + box.width + 1, where
            assert ink.y >= box.y, where
            assert ink.y + ink.height <= box.y + box.height + 1, where
            if plan.caution:
                assert not overlap(ink, plan.caution), where
        for row, other in combinations(rows, 2):
            assert not overlap(ink_of(row), ink_of(other)), f"{one.name} {printer.dpi} {rows}"


def ink_of(row: Row) -> Box:
    """Return the box of a row's ink, in dots, as the font's outlines have it."""
    drawn = line(row.text, bold=row.bold)
    low, high = row.size * drawn.bottom, row.size * drawn.top
    foot = row.y + floor(low + 0.5)
    return Box(row.x, foot, ceil(row.size * drawn.width), max(0, floor(high - low)))


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


@pytest.mark.parametrize("name", stock.names())
def test_no_ink_reaches_the_rim(name: str, tmp_path: Path) -> None:
    """As pdfium paints them, labels with high, deep and long words leave their rim white."""
    printer = PRINTERS[0]
    titles = ("ÅÉjgÇ Ŏ", "ལྕགས་ཐག་གི་འཁོར་ལོ", "combined lever", "ที่นั่งรถจักรยาน", "W" * 40)
    labels = [
        Label(
            number=make(Thing.BIKE if shape is Shape.BIKE else Thing.PART, at + 1),
            shape=shape,
            title=title,
            lines=(title, "ခြင်္သေ့ကြိုးတွေ", "27.2 mm"),
            grade="good",
            bin_name=title,
            caution=at % 2 == 0,
        )
        for shape in Shape
        for at, title in enumerate(titles)
        if _goes(name, printer, shape)
    ]
    one = load(name)
    sheet.write_pdf(labels, one, printer, tmp_path / "rim.pdf")
    rim_x, rim_y = (printer.dots(max(MM, rim)) for rim in one.rims(printer.edge_um))
    with pypdfium2.PdfDocument(tmp_path / "rim.pdf") as document:
        scale = float(printer.dots_per_inch) / 72
        pages = [page.render(scale=scale, grayscale=True).to_numpy() for page in document]
    for at in range(len(labels)):
        page, position = divmod(at, one.count)
        x, y = sheet.corner(one, printer, position + 1)
        high, wide = printer.dots(one.label_height_um), printer.dots(one.label_width_um)
        top = sheet.page_dots(one, printer)[1] - y - high
        inside = pages[page][top : top + high, x : x + wide].squeeze() < 128
        assert inside.any()
        inside[rim_y : high - rim_y, rim_x : wide - rim_x] = False
        assert not inside.any(), f"{labels[at].shape} {labels[at].title}"


def _goes(name: str, printer: Printer, shape: Shape) -> bool:
    """Return whether labels of that shape go on the stock."""
    try:
        plan_for(load(name), printer, shape, 8, caution=True)
    except DoesNotFit:
        return False
    return True
