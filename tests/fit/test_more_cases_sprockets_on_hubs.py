"""Cassettes and freewheels on hubs beside the printed combinations, from the same sources."""

from __future__ import annotations

import pytest

from tests.fit.written_parts import Case, judged

HUBS = "charigaku.com/16/2183; cyclabo.com/topics/shpw0w3wbb"
SHORT, MIDDLE = "wheel driver=one-wide-spline-short", "wheel driver=one-wide-spline-35"
TALL, LONG = "wheel driver=tall-spline-10", "wheel driver=one-wide-spline-36.8"


def _std(speeds: int, more: str = "") -> str:
    return f"cassette speeds={speeds} spacing=standard {more}".strip()


DRIVERS: dict[str, Case] = {
    "7 on short": ("fits", (_std(7), SHORT), HUBS),
    "7 on 35": ("adapts", (_std(7), MIDDLE), "4.5: fitro.info"),
    "7 on tall": ("clash", (_std(7), TALL), HUBS),
    "7 on 36.8": ("adapts", (_std(7), LONG), "6.35: " + HUBS),
    "8 on short": ("clash", (_std(8), SHORT), HUBS),
    "8 on 35": ("fits", (_std(8), MIDDLE), HUBS),
    "8 on tall": ("clash", (_std(8), TALL), HUBS),
    "8 on 36.8": ("adapts", (_std(8), LONG), "1.85: " + HUBS),
    "9 on 35": ("fits", (_std(9), MIDDLE), HUBS),
    "9 on tall": ("clash", (_std(9), TALL), HUBS),
    "9 on 36.8": ("adapts", (_std(9), LONG), "1.85: " + HUBS),
    "10 with ring on 35": ("adapts", (_std(10, "ring_behind_mm=1.0"), MIDDLE), "1.0: " + HUBS),
    "10 without ring on 35": ("fits", (_std(10, "ring_behind_mm=0"), MIDDLE), HUBS),
    "10 on tall": ("fits", (_std(10), TALL), HUBS),
    "10 with ring on 36.8": ("adapts", (_std(10, "ring_behind_mm=1.0"), LONG), "2.85: " + HUBS),
    "10 without ring on 36.8": ("adapts", (_std(10, "ring_behind_mm=0"), LONG), "1.85: " + HUBS),
    "10 on 35, ring not known": ("measure", (_std(10), MIDDLE), HUBS),
    "10 on 36.8, ring not known": ("adapts", (_std(10), LONG), "with a spacer in any case"),
    "11 wide on 35": ("fits", ("cassette speeds=11 spacing=flat-bar", MIDDLE), HUBS),
    "11 wide on 36.8": ("adapts", ("cassette speeds=11 spacing=flat-bar", LONG), "1.85: " + HUBS),
    "11 wide on tall": ("clash", ("cassette speeds=11 spacing=flat-bar", TALL), HUBS),
    "11 road on 35": ("clash", (_std(11), MIDDLE), HUBS),
    "11 road on 36.8": ("fits", (_std(11), LONG), HUBS),
    "11 on 35, kind not known": ("measure", ("cassette speeds=11", MIDDLE), HUBS),
    "8 of 9 on short": (
        "fits",
        ("cassette speeds=9 spacing=standard cogs=[12,13,14,16,18,21,24,28]", SHORT),
        "bikefriday.com, Understanding nine-speed spacing",
    ),
    "spline told, 9 on 35": ("fits", ("cassette speeds=9 spline=one-wide-spline-35", MIDDLE), HUBS),
    "italian on 35": (
        "clash",
        ("cassette speeds=10 spline=italian-deep-spline", MIDDLE),
        "slowtwitch.com",
    ),
    "italian on italian": (
        "fits",
        ("cassette speeds=11 spline=italian-deep-spline", "hub driver=italian-deep-spline"),
        "slowtwitch.com",
    ),
    "10-tooth cassette on 35": (
        "clash",
        ("cassette speeds=12 spline=short-spline-thread", MIDDLE),
        "koovacomponents.com",
    ),
    "10-tooth cassette on its road body": (
        "adapts",
        ("cassette speeds=12 spline=short-spline-thread", "wheel driver=short-spline-thread-road"),
        "1.85 from memory",
    ),
    "road kind on the shorter body": (
        "clash",
        ("cassette speeds=12 spline=short-spline-thread-road", "wheel driver=short-spline-thread"),
        "handsonbike.blogspot.com/2022/10",
    ),
    "fine on fine road": (
        "clash",
        ("cassette speeds=12 spline=fine-spline", "wheel driver=fine-spline-road"),
        "handsonbike.blogspot.com/2022/10",
    ),
    "equal splines on 35": (
        "clash",
        ("cassette speeds=7 spline=equal-spline-threaded", MIDDLE),
        "bike.bikegremlin.com/3573",
    ),
    "cassette on a freewheel thread": (
        "clash",
        (_std(7), "wheel driver=iso-1.375x24"),
        "sheldonbrown.com/freewheels.html",
    ),
    "freewheel on a cassette body": (
        "clash",
        ("freewheel thread=iso-1.375x24", MIDDLE),
        "sheldonbrown.com/freewheels.html",
    ),
}
THREADS = "sheldonbrown.com/freewheels.html"
for _own, _hub, _verdict in (
    ("iso-1.375x24", "iso-1.375x24", "fits"),
    ("iso-1.375x24", "british-1.370x24", "fits"),
    ("iso-1.375x24", "italian-35x24tpi", "fits"),
    ("italian-35x24tpi", "iso-1.375x24", "fits"),
    ("british-1.370x24", "italian-35x24tpi", "fits"),
    ("french-34.7x1", "french-34.7x1", "fits"),
    ("french-34.7x1", "iso-1.375x24", "clash"),
    ("french-34.7x1", "british-1.370x24", "clash"),
    ("french-34.7x1", "italian-35x24tpi", "clash"),
    ("iso-1.375x24", "french-34.7x1", "clash"),
    ("italian-35x24tpi", "french-34.7x1", "clash"),
    ("bmx-30x1", "bmx-30x1", "fits"),
    ("bmx-30x1", "iso-1.375x24", "clash"),
    ("iso-1.375x24", "bmx-30x1", "clash"),
):
    DRIVERS[f"freewheel {_own} on {_hub}"] = (
        _verdict,
        (f"freewheel thread={_own}", f"hub driver={_hub}"),
        THREADS,
    )


@pytest.mark.parametrize(("verdict", "parts", "source"), DRIVERS.values(), ids=DRIVERS)
def test_sprockets_on_hub(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Spacers come from the table, never from the body's length less the stack."""
    assert judged(*parts).verdict == verdict, source
