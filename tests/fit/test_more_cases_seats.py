"""Seatposts, collars and saddles beside the printed combinations, from the same sources."""

from __future__ import annotations

import pytest

from partsbin.fit.words import why
from tests.fit.written_parts import Case, judged

POSTS = "bike.bikegremlin.com/3114, Seatpost diameter sizes"
COLLARS = "compulsioncycles.com clamps; bikeforums.net t-645002"
RAILS = "xjd.com saddle rail pages; Wikipedia 'Bicycle seatpost'"


def _post(post: float, bore: float, *more: str) -> tuple[str, ...]:
    return (f"seatpost diameter_mm={post}", f"frame seat_tube_bore_mm={bore}", *more)


SEATS: dict[str, Case] = {
    "27.2 in 27.2": ("fits", _post(27.2, 27.2), POSTS),
    "27.2 in 27.0": ("clash", _post(27.2, 27.0), POSTS),
    "27.0 in 27.2": ("adapts", _post(27.0, 27.2), "wall 0.1: " + POSTS),
    "26.8 in 27.2": ("adapts", _post(26.8, 27.2), "wall 0.2: " + POSTS),
    "25.4 in 27.2": ("adapts", _post(25.4, 27.2), "wall 0.9: " + POSTS),
    "25.4 in 25.2": ("clash", _post(25.4, 25.2), POSTS),
    "25.0 in 25.2": ("adapts", _post(25.0, 25.2), POSTS),
    "27.2 in 31.6": ("adapts", _post(27.2, 31.6), "wall 2.2: " + POSTS),
    "30.9 in 31.6": ("adapts", _post(30.9, 31.6), "wall 0.35: " + POSTS),
    "31.6 in 30.9": ("clash", _post(31.6, 30.9), POSTS),
    "31.6 in 34.9": ("adapts", _post(31.6, 34.9), "wall 1.65: " + POSTS),
    "30.8 in 30.9": ("adapts", _post(30.8, 30.9), "two sizes: " + POSTS),
    "30.9 in 30.8": ("clash", _post(30.9, 30.8), "two sizes: " + POSTS),
    "22.2 in 25.4": ("adapts", _post(22.2, 25.4), "wall 1.6: " + POSTS),
    "27.18 in 27.2": ("fits", _post(27.18, 27.2), POSTS),
    "27.24 in 27.2": ("fits", _post(27.24, 27.2), "nearest listed size"),
    "27.26 in 27.2": ("measure", _post(27.26, 27.2), "within 0.05 of the middle"),
    "27.2 in 27.12": ("measure", _post(27.2, 27.12), "within 0.05 of the middle"),
    "26.98 in 26.98": ("fits", _post(26.98, 26.98), "both snap to 27.0"),
    "30.85 in 30.9": ("measure", _post(30.85, 30.9), "between 30.8 and 30.9"),
    "31.9 in 31.6": ("clash", _post(31.9, 31.6), "31.8 or 32.0, both too thick"),
    "with its sleeve": (
        "fits",
        _post(25.0, 27.0, "seatpost_shim inner_mm=25.0 outer_mm=27.0"),
        POSTS,
    ),
    "with a sleeve too thick outside": (
        "clash",
        _post(25.0, 27.0, "seatpost_shim inner_mm=25.0 outer_mm=27.2"),
        POSTS,
    ),
    "too thick, sleeve or not": (
        "clash",
        _post(27.2, 26.8, "seatpost_shim inner_mm=27.2 outer_mm=31.6"),
        POSTS,
    ),
    "tube outside only": (
        "measure",
        ("seatpost diameter_mm=27.2", "frame seat_tube_od_mm=28.6"),
        "the wall decides",
    ),
    "post as thick as the tube outside": (
        "clash",
        ("seatpost diameter_mm=28.6", "frame seat_tube_od_mm=28.6"),
        POSTS,
    ),
    "collar 28.6 on 28.6": (
        "fits",
        ("seat_clamp diameter_mm=28.6", "frame seat_tube_od_mm=28.6"),
        COLLARS,
    ),
    "collar 31.8 on 28.6": (
        "clash",
        ("seat_clamp diameter_mm=31.8", "frame seat_tube_od_mm=28.6"),
        COLLARS,
    ),
    "collar 28.6 on 31.8": (
        "clash",
        ("seat_clamp diameter_mm=28.6", "frame seat_tube_od_mm=31.8"),
        COLLARS,
    ),
    "collar 32 on 31.8": (
        "fits",
        ("seat_clamp diameter_mm=32", "frame seat_tube_od_mm=31.8"),
        COLLARS,
    ),
    "collar 34.9 on 35": (
        "fits",
        ("seat_clamp diameter_mm=34.9", "frame seat_tube_od_mm=35.0"),
        COLLARS,
    ),
    "collar by the post alone": (
        "fits",
        ("seat_clamp diameter_mm=31.8", "seatpost diameter_mm=27.2"),
        "the post does not fix the collar: they share no interface",
    ),
    "rails round on round": ("fits", ("saddle rails=round-7", "seatpost rails=round-7"), RAILS),
    "rails measured 7 on round": ("fits", ("saddle rails=7", "seatpost rails=round-7"), RAILS),
    "rails oval on round": ("clash", ("saddle rails=oval-7x9", "seatpost rails=round-7"), RAILS),
    "rails round on a plain pillar": (
        "adapts",
        ("saddle rails=round-7", "seatpost rails=plain-22.2"),
        RAILS,
    ),
    "rails not known": ("measure", ("saddle", "seatpost rails=round-7"), RAILS),
    "mark 54.4 for 27.2": (
        "fits",
        ("seatpost diameter_mm=27.2 insertion_mark_mm=54.4", "frame seat_tube_bore_mm=27.2"),
        "16 CFR 1512.15",
    ),
    "mark 60 for 31.6": (
        "adapts",
        ("seatpost diameter_mm=31.6 insertion_mark_mm=60", "frame seat_tube_bore_mm=31.6"),
        "63.2: 16 CFR 1512.15",
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), SEATS.values(), ids=SEATS)
def test_seat(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Posts, sleeves, collars and rails, with readings that snap or lie between sizes."""
    assert judged(*parts).verdict == verdict, source


@pytest.mark.parametrize(
    ("post", "bore", "wall"),
    [
        (27.0, 27.2, "0.1"),
        (26.8, 27.2, "0.2"),
        (25.0, 27.0, "1"),
        (30.9, 31.6, "0.35"),
        (27.2, 28.6, "0.7"),
        (27.2, 30.9, "1.85"),
        (30.9, 34.9, "2"),
    ],
)
def test_sleeve_wall(post: float, bore: float, wall: str) -> None:
    """The sleeve's wall is half the difference of the diameters, by geometry."""
    first = judged(*_post(post, bore)).interfaces[0]
    assert f"wall {wall} mm" in why(first.finding)
