"""Headset codes and head tube bores, crown race seats, fork lengths: every row of the tables."""

from __future__ import annotations

import pytest

from partsbin.standards.crown_races import (
    MILLED,
    REDUCED,
    SEATS,
    STEERER_OF_SEAT,
    seat_for,
)
from partsbin.standards.fork_lengths import length_off
from partsbin.standards.headset_codes import (
    BEHIND_SLASH,
    HEAD_TUBES,
    half_code,
    interference,
    read_code,
    same_bore,
)
from partsbin.standards.length import mm

# code, name of the bore, steerers that its own headsets carry; canecreek.com headset-fit-finder,
# one-inch bores doczz.net/doc/5531034, others from memory
CODES = {
    "EC30.0-jis": ("JIS", (25.4,)),
    "EC30.2-iso": ("ISO", (25.4, 25.0)),
    "EC30.2": ("ISO", (25.4, 25.0)),
    "EC30.0": ("JIS", (25.4,)),
    "EC32.7": ("one-piece crank", (25.4,)),
    "EC34": ("34", (28.6,)),
    "EC37": ("37", (31.8,)),
    "ZS41": ("41", (28.6,)),
    "IS41": ("41", (28.6,)),
    "IS42": ("42", (28.6,)),
    "ZS44": ("44", (28.6,)),
    "EC44": ("44", (28.6, 38.1)),
    "EC49": ("49", (38.1,)),
    "IS52": ("52", (38.1,)),
    "ZS56": ("56", (38.1,)),
    "ZS62": ("62", (38.1,)),
}


@pytest.mark.parametrize(("code", "row"), CODES.items(), ids=CODES)
def test_code_names_its_row(code: str, row: tuple[str, tuple[float, ...]]) -> None:
    """A code leads to its bore and the steerers that the bore was made for."""
    name, steerers = row
    tube = read_code(code).tube

    assert tube is not None
    assert (name, tuple(mm(size) for size in steerers)) == (tube.name, tube.steerers)


def test_every_row_is_reached() -> None:
    """No head tube stands in the table that no code leads to."""
    assert {id(read_code(code).tube) for code in CODES} == {id(row) for row in HEAD_TUBES}


def test_unlisted_bore_has_no_row() -> None:
    """A bore between the listed ones is a bore of its own, equal only to itself."""
    assert read_code("ZS55").tube is None
    assert same_bore(read_code("ZS55"), read_code("ZS55"))
    assert not same_bore(read_code("ZS55"), read_code("ZS56"))


# doczz.net/doc/5531034 (bores); overwheel.net column 2022-10-02 (cups); figures in micrometres
PRESSES = {
    ("EC30.2-iso", "EC30.2-iso"): (100, 150),
    ("EC30.0-jis", "EC30.0-jis"): (100, 150),
    ("EC30.2-iso", "EC30.0-jis"): (300, 350),
    ("EC30.0-jis", "EC30.2-iso"): (-100, -50),
    ("EC34", "EC30.2-iso"): None,
    ("EC30.2-iso", "EC34"): None,
}


@pytest.mark.parametrize(("pair", "press"), PRESSES.items(), ids=map("-".join, PRESSES))
def test_one_inch_interference(pair: tuple[str, str], press: tuple[int, int] | None) -> None:
    """The right one-inch cup is 0.10 to 0.15 mm larger than its bore, the wrong one is not."""
    cup, tube = (read_code(code).tube for code in pair)

    assert cup is not None
    assert tube is not None
    assert press == interference(cup, tube)


@pytest.mark.parametrize(("steerer", "figure"), BEHIND_SLASH.items())
def test_lower_half_is_named_by_its_race(steerer: int, figure: str) -> None:
    """A lower half is written with the crown race, an upper half with the steerer."""
    tube = read_code("ZS56").tube
    assert tube is not None

    assert f"ZS56/{figure}" == half_code("ZS", tube, "lower", mm(steerer / 1000))


@pytest.mark.parametrize("row", SEATS, ids=lambda row: str(row.steerer))
def test_crown_seat_follows_from_one_size_steerers(row: tuple[int, int, str]) -> None:
    """A steerer of one seat size names it, and the seat names the steerer again."""
    steerer, seat, _source = row

    assert seat_for(mm(steerer / 1000)) == seat
    assert STEERER_OF_SEAT[mm(seat / 1000)] == steerer


def test_one_inch_seat_may_be_either() -> None:
    """26.4 and 27.0 seats are both on one-inch forks, so the steerer does not tell."""
    assert seat_for(mm(25.4)) is None
    assert STEERER_OF_SEAT[mm(26.4)] == STEERER_OF_SEAT[mm(27.0)] == mm(25.4)
    assert STEERER_OF_SEAT[mm(33.0)] == mm(31.8)


def test_seats_are_milled_down_and_races_reduced_up() -> None:
    """Milling takes metal from the seat, a reducer race fills up; never the other way round."""
    assert all(seat > race for seat, race in MILLED)
    assert all(seat < race for seat, race in REDUCED)


# carboncycles.cc viewtopic 4551: 525 with 120 of travel is ridden as about 495
OFF = {
    "rigid": (395, None, 390, 5),
    "no travel": (395, 0, 400, -5),
    "ridden length": (525, 120, 495, 0),
    "unloaded length": (525, 120, 525, 0),
    "too long even when it sags": (525, 120, 470, 19),
    "shorter than its own length": (525, 120, 530, -5),
    "between unloaded and ridden": (525, 120, 505, -4),
}


@pytest.mark.parametrize(("length", "travel", "drawn", "off"), OFF.values(), ids=OFF)
def test_fork_length_off(length: float, travel: float | None, drawn: float, off: float) -> None:
    """A sprung fork is compared with sag and without, and the nearer counts."""
    sprung = None if travel is None else mm(travel)

    assert mm(off) == length_off(mm(length), sprung, mm(drawn))
