"""Tables of wheels: bead seats and their names, markings as printed, widths, threads, wear."""

from __future__ import annotations

import pytest

from partsbin.standards import bead_seats, hub_spacing, rim_widths, tube_sizes, wheel_sizes
from partsbin.standards.axle_threads import ROWS as THREADS
from partsbin.standards.axle_threads import seem_alike, thread
from partsbin.standards.bead_seats import MARKS, ROWS, TELL
from partsbin.standards.brake_wear import Wear
from partsbin.standards.length import in_mm, mm
from partsbin.standards.tyre_marking import read_marking
from partsbin.standards.valves import VALVES, needed_length
from partsbin.standards.wheel_wear import hub_play_wear, rim_wear, tyre_wear


def seats(text: str) -> list[int]:
    """Return the bead seats that a marking may mean, in millimetres."""
    marking = read_marking(text)
    return [] if marking is None else [seat // 1000 for seat in marking.seats]


NAMES = [(row.seat, name) for row in ROWS for name in row.names.split(", ") if name]


@pytest.mark.parametrize(("seat", "name"), NAMES, ids=[f"{n} = {s}" for s, n in NAMES])
def test_every_name_of_the_table_means_its_seat(seat: int, name: str) -> None:
    """Each listed name is read, and its bead seat is among those it may mean."""
    printed = name.replace("#.#", "1.95").replace("x/x/", "x1 5/8x1 1/4")

    assert seat in seats(printed)


def test_listed_seats_are_those_that_can_be_recorded() -> None:
    """The table of names and the list that readings are taken for have the same bead seats."""
    assert sorted(bead_seats.SEATS) == [seat // 1000 for seat in wheel_sizes.BEAD_SEATS.listed]


@pytest.mark.parametrize("seat", sorted(bead_seats.SEATS))
def test_iso_form(seat: int) -> None:
    """Width and bead seat with a hyphen between settle both, whatever else is printed."""
    marking = read_marking(f"37-{seat}")

    assert marking is not None
    assert marking.seats == (mm(seat),)
    assert marking.width == mm(37)


# sheldonbrown.com/26.html; schwalbetires.com size_markings; lecyclo.com (letters);
# syseidel.wordpress.com 2016/01/14; nicecurmudgeon.com decimal size table; bikefix.co.uk
PRINTED = {
    "26x1.75": ([559], 44.45),
    "26 x 1.75": ([559], 44.45),
    "26X1.75": ([559], 44.45),
    "26\N{MULTIPLICATION SIGN}1.75": ([559], 44.45),
    '26" x 1.75"': ([559], 44.45),
    "26x1,75": ([559], 44.45),
    "26x1 3/4": ([571], 44.45),
    "26x1-3/4": ([571], 44.45),
    "26x1¾": ([571], 44.45),
    "26x1 3/8": ([590, 597], 34.925),
    "26x13/8": ([590, 597], 34.925),
    "26 x 1⅜": ([590, 597], 34.925),
    "26x1.375": ([599], 34.925),
    "26x1.25": ([559, 599], 31.75),
    "26x1 1/4": ([597], 31.75),
    "26x1 1/2": ([584], 38.1),
    "26x1.5": ([559], 38.1),
    "26x1.50": ([559], 38.1),
    "26x1": ([571], 25.4),
    "26x1.0": ([559], 25.4),
    "26x2 1/8": ([559, 571, 584, 590, 597, 599], 53.975),
    "26": ([559, 571, 584, 590, 597, 599], None),
    "26 inch": ([559, 571, 584, 590, 597, 599], None),
    "26x1.75x2": ([559], None),
    "37-622": ([622], 37),
    "37\N{EN DASH}622": ([622], 37),
    "622-37": ([622], 37),
    "622x37": ([622], 37),
    "47-559 26x1.75": ([559], 47),
    "26x1 3/8 (37-590)": ([590], 37),
    "26x1 3/8 (590)": ([590], 34.925),
    "28-622/700x28C": ([622], 28),
    "700x28C": ([622], 28),
    "700x28c folding": ([622], 28),
    "700 x 28 C": ([622], 28),
    "700Cx28": ([622], 28),
    "700x23": ([622], 23),
    "700C": ([622], None),
    "700x38B": ([635], 38),
    "700x35A": ([642], 35),
    "700D": ([587], None),
    "700": ([587, 622, 635, 642], None),
    "650B": ([584], None),
    "650x38B": ([584], 38),
    "650Bx2.1": ([584], 53.34),
    "650x35A": ([590], 35),
    "650x23C": ([571], 23),
    "650": ([571, 584, 590, 597], None),
    "650x35": ([571, 584, 590, 597], 35),
    "28x1 5/8x1 3/8": ([622], 34.925),
    "28 x 1⅝ x 1⅜": ([622], 34.925),
    "28x1.40": ([622], 35.56),
    "28x1 1/2": ([622, 635], 38.1),
    "28x1 1/2 F.10": ([635], 38.1),
    "28x1 1/2 F13": ([622], 38.1),
    "28x1 3/8": ([642], 34.925),
    "28x1 3/4": ([622, 635, 642], 44.45),
    "28": ([622, 635, 642], None),
    "27x1 1/4": ([630], 31.75),
    "27x1.25": ([630], 31.75),
    "27": ([630], None),
    "27.5x2.25": ([584], 57.15),
    "27,5 x 2.25": ([584], 57.15),
    "27.5+ x 2.8": ([584], 71.12),
    "29x2.1": ([622], 53.34),
    "29er": ([622], None),
    "24x1.75": ([507], 44.45),
    "24x1 3/8": ([540, 541, 547], 34.925),
    "24x1 3/8 E.5": ([540], 34.925),
    "24x1": ([520], 25.4),
    "20x1.75": ([406], 44.45),
    "20x1 1/8": ([451], 28.575),
    "20x1 3/8": ([438, 440, 451], 34.925),
    "20x2": ([406, 428], 50.8),
    "16x1.75": ([288, 305], 44.45),
    "16x1.95": ([305], 49.53),
    "16x1 3/8": ([337, 340, 349], 34.925),
    "12 1/2x2 1/4": ([203], 57.15),
    "12½ x 2¼": ([203], 57.15),
    "12.5x2.25": ([203], 57.15),
    "12 1/2x1 3/8x1 1/4": ([239], 31.75),
    "300x32A": ([239], 32),
    "300x32": ([248], 32),
    "350x38B": ([279], 38),
    "200x50": ([94], 50),
    "400-32": ([330, 340], None),
    "32-400": ([400], 32),
    "36": ([787], None),
    # Names that are only known from memory stay open within their diameter.
    "20x1 3/4": ([419, 428, 432, 438, 440, 451], 44.45),
    "18x1 3/8": ([390, 400], 34.925),
    "450A": ([390, 400], None),
    "350": ([279, 288, 298], None),
    "14x1 1/4": ([279, 288, 298], 31.75),
    "26x1 3/8 E.A.1": ([597], 34.925),
    "winter": ([], None),
    "60-623": ([], None),
    "19x1.75": ([], None),
}


@pytest.mark.parametrize(("text", "wanted"), PRINTED.items(), ids=PRINTED)
def test_marking(text: str, wanted: tuple[list[int], float | None]) -> None:
    """A printed size gives its possible bead seats and its width."""
    marking = read_marking(text)
    width = None if marking is None or marking.width is None else float(in_mm(marking.width))

    assert seats(text) == wanted[0]
    if wanted[0]:
        assert width == wanted[1]


@pytest.mark.parametrize("name", [name for _, name in NAMES])
def test_no_sure_seat_rests_on_memory(name: str) -> None:
    """A name that one bead seat alone answers to has a published source for it."""
    found = seats(name.replace("#.#", "1.95").replace("x/x/", "x1 5/8x1 1/4"))
    sources = [row.source for row in ROWS if name in row.names.split(", ")]

    assert len(found) > 1 or set(sources) != {bead_seats.MEMORY}


@pytest.mark.parametrize("whole", ["1", "2"])
@pytest.mark.parametrize("decimal", ["25", "5", "75"])
def test_decimal_and_fraction_of_26_in_differ(whole: str, decimal: str) -> None:
    """No 26 in decimal width means what the same fraction means: sheldonbrown.com/26.html."""
    fraction = {"25": "1/4", "5": "1/2", "75": "3/4"}[decimal]

    assert seats(f"26x{whole}.{decimal}") != seats(f"26x{whole} {fraction}")


@pytest.mark.parametrize("mark", MARKS)
def test_marks_settle_a_seat(mark: str) -> None:
    """Each code beside a size settles one bead seat."""
    assert seats(f"26x1 3/8 {mark}") == [MARKS[mark]]


@pytest.mark.parametrize("name", TELL)
def test_every_way_to_tell_is_of_an_ambiguous_name(name: str) -> None:
    """The ways to tell stand beside names that leave more than one bead seat."""
    marking = read_marking(name)

    assert marking is not None
    assert marking.tell == TELL[name]
    assert len(marking.seats) > 1


@pytest.mark.parametrize("row", rim_widths.ROWS, ids=[str(r.inner) for r in rim_widths.ROWS])
def test_pairs_before_2006_are_in_the_table(row: rim_widths.Row) -> None:
    """What the older table had, the edition of 2006 has too."""
    inner = mm(row.inner)
    before = row.widest_before

    assert rim_widths.listed_before_2006(inner, mm(row.narrowest)) is (before is not None)
    assert before is None or before <= row.widest
    assert not rim_widths.listed_before_2006(inner, mm(row.widest + 1))


def test_twins_and_widths_are_listed() -> None:
    """Every width in the rules of hubs can be recorded."""
    listed = wheel_sizes.OVER_LOCKNUT.listed

    assert {mm(row.width) for row in hub_spacing.ROWS} <= set(listed)
    assert {*hub_spacing.TWINS, *hub_spacing.TWINS.values()} <= set(listed)
    assert all(widths <= set(listed) for widths in hub_spacing.ONE_WIDTH)


def test_tube_limits_stand_between_the_published_cases() -> None:
    """622 in 630 and 559 in 584 go, 584 in 622 only in an emergency, 451 in 406 not."""
    assert tube_sizes.stretch(mm(630), mm(622)) == "interchange"
    assert tube_sizes.stretch(mm(559), mm(584)) == "interchange"
    assert tube_sizes.stretch(mm(584), mm(622)) == "emergency"
    assert tube_sizes.stretch(mm(451), mm(406)) == "too large"


@pytest.mark.parametrize(
    ("code", "diameter", "pitch"),
    [
        # wrenchfu.com axle-nut, in inches by arithmetic
        ("9x1", 9.0, 1.0),
        ("10x1", 10.0, 1.0),
        ("5/16x24", 7.938, 1.058),
        ("5/16x26", 7.938, 0.977),
        ("3/8x24", 9.525, 1.058),
        ("3/8x26", 9.525, 0.977),
        ("m12x1.75", 12.0, 1.75),
        ("m15x1.5", 15.0, 1.5),
    ],
)
def test_thread(code: str, diameter: float, pitch: float) -> None:
    """A thread's code gives diameter and pitch."""
    assert thread(code) == (mm(diameter), mm(pitch))


@pytest.mark.parametrize("code", THREADS)
def test_listed_thread_is_read_and_differs_from_the_others(code: str) -> None:
    """No two listed threads are the same, and each has its source."""
    assert [other for other in THREADS if thread(other) == thread(code)] == [code]
    assert THREADS[code]


def test_unreadable_thread_is_refused() -> None:
    """What is no thread's code is an error that names it."""
    with pytest.raises(ValueError, match="'fine' is not an axle thread"):
        thread("fine")


def test_trap_threads_seem_alike() -> None:
    """10 mm by 1, 9 mm by 1 and 3/8 in by 26 can be started on each other."""
    assert seem_alike("10x1", "3/8x26")
    assert seem_alike("3/8x24", "3/8x26")
    assert seem_alike("9x1", "3/8x26")
    assert not seem_alike("9x1", "10x1")


@pytest.mark.parametrize(("depth", "length"), [(25, 40), (30, 45), (45, 60), (65, 80)])
def test_needed_valve_length(depth: float, length: float) -> None:
    """Rim depth and 15 mm: copy of a CyclingTips article on valve stems."""
    assert needed_length(mm(depth)) == mm(length)


@pytest.mark.parametrize("valve", VALVES)
def test_valve_hole_is_a_listed_one(valve: str) -> None:
    """Every valve's hole is one that can be recorded."""
    assert VALVES[valve].hole in wheel_sizes.VALVE_HOLES.listed


@pytest.mark.parametrize(
    ("wall", "wanted"),
    [(0.9, Wear.PAST), (1.0, Wear.PAST), (1.1, Wear.NEAR), (1.5, Wear.WITHIN)],
)
def test_rim_wall(wall: float, wanted: Wear) -> None:
    """A wall of 1.0 mm or less is scrap: wheellab.cc/rim-wear."""
    assert rim_wear(mm(wall)) is wanted


@pytest.mark.parametrize(
    ("year", "cracks", "wanted"),
    [
        (2020, False, Wear.WITHIN),
        (2015, False, Wear.NEAR),
        (2025, True, Wear.PAST),
        (None, None, Wear.WITHIN),
        (None, True, Wear.PAST),
    ],
)
def test_tyre_wear(year: int | None, cracks: bool | None, wanted: Wear) -> None:
    """Cracks end a tyre, age only warns: forum.bikeradar.com 12694519; vehiclestire.com."""
    assert tyre_wear(year, 2025, cracks=cracks) is wanted


@pytest.mark.parametrize(
    ("play", "seat", "wanted"),
    [
        (3, 622, Wear.WITHIN),
        (3.5, 622, Wear.PAST),
        (2, 406, Wear.WITHIN),
        (3, 406, Wear.PAST),
    ],
)
def test_hub_play(play: float, seat: float, wanted: Wear) -> None:
    """Bearing play at the rim is 3 mm at most, 2 on small wheels: docsbay.net M-shape check."""
    assert hub_play_wear(mm(play), mm(seat)) is wanted
