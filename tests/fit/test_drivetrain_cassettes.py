"""Cassettes and freewheels on hubs."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from partsbin.kinds.wheels import FREEWHEEL_THREADS, SPLINES
from partsbin.standards.driver_bodies import LONG, MIDDLE, SHORT, SPACERS, TALL
from tests.fit.brake_parts import certain, part, verdict
from tests.fit.drivetrain_parts import cassette, frame, freewheel, rear_wheel

BODY = "cassette on hub body"
HUB = "freewheel on hub"
WIDTH = "freewheel between the dropouts"

GROUPS: dict[str, dict[str, Any]] = {
    "7": {"speeds": 7, "spacing": "standard"},
    "8-9": {"speeds": 9, "spacing": "standard"},
    "8 of 9": {"speeds": 9, "spacing": "standard", "cogs": list(range(11, 19))},
    "10 with ring": {"speeds": 10, "spacing": "standard", "ring_behind_mm": 1.0},
    "10": {"speeds": 10, "spacing": "standard", "ring_behind_mm": 0},
    "11 wide": {"speeds": 11, "spacing": "flat-bar"},
    "11 road": {"speeds": 11, "spacing": "standard"},
}


@pytest.mark.parametrize(("group", "driver"), SPACERS, ids=lambda value: value)
def test_every_row_of_the_spacers(group: str, driver: str) -> None:
    """A cassette goes on a body with the spacer of the table, or not at all."""
    row = SPACERS[group, driver]
    finding = certain(BODY, cassette(**GROUPS[group]), rear_wheel(driver=driver)).finding

    if row.spacer is None:
        assert finding.verdict == "clash"
    elif row.spacer == 0:
        assert finding.verdict == "fits"
    else:
        assert finding.verdict == "adapts"
        assert finding.adapter is not None
        assert finding.adapter.what.startswith(f"spacer {row.spacer / 1000:g} mm")


PUBLISHED = {
    "7 on 35 mm: fitro.info": (7, MIDDLE, SHORT, "adapts", "4.5 mm"),
    "8 on 36.8 mm: charigaku.com/16/2183": (8, LONG, MIDDLE, "adapts", "1.85 mm"),
    "9 on 36.8 mm: charigaku.com/16/2183": (9, LONG, MIDDLE, "adapts", "1.85 mm"),
    "10 on the tall body": (10, TALL, MIDDLE, "fits", ""),
    "8 on the tall body": (8, TALL, MIDDLE, "clash", ""),
    "11 wide on 35 mm: rookiejournal.com": (11, MIDDLE, MIDDLE, "fits", ""),
    "11 road on 35 mm: charigaku.com/16/2183": (11, MIDDLE, LONG, "clash", ""),
    "11 Italian on an Italian body: colabike.blogspot.com": (
        11,
        "italian-deep-spline",
        "italian-deep-spline",
        "fits",
        "",
    ),
    "9 on an Italian body": (9, "italian-deep-spline", MIDDLE, "clash", ""),
    "Italian 9 on 35 mm": (9, MIDDLE, "italian-deep-spline", "clash", ""),
    "10-tooth on its longer road body, from memory": (
        12,
        "short-spline-thread-road",
        "short-spline-thread",
        "adapts",
        "1.85 mm",
    ),
    "and not the other way": (
        12,
        "short-spline-thread",
        "short-spline-thread-road",
        "clash",
        "",
    ),
    "12 on 36.8 mm, by its spline": (12, LONG, MIDDLE, "adapts", "1.85 mm"),
    "9 on a thread": (9, "iso-1.375x24", MIDDLE, "clash", ""),
    "9 on nothing": (9, "none", MIDDLE, "clash", ""),
}


@pytest.mark.parametrize(
    ("speeds", "driver", "spline", "wanted", "told"), PUBLISHED.values(), ids=PUBLISHED
)
def test_published_cassettes(speeds: int, driver: str, spline: str, wanted: str, told: str) -> None:
    """Cassettes go on bodies as published, with the spacer named."""
    parts = cassette(speeds=speeds, spline=spline), rear_wheel(driver=driver)

    if told:
        assert told in why(certain(BODY, *parts).finding)
    if (speeds, driver) == (10, TALL):
        assert verdict(BODY, *parts) == "fits"
    assert wanted == verdict(BODY, *parts)


@pytest.mark.parametrize("spline", SPLINES.split())
def test_a_cassette_fits_the_body_that_it_is_for(spline: str) -> None:
    """The same spline fits where nothing else is known."""
    assert verdict(BODY, cassette(spline=spline), rear_wheel(driver=spline)) == "fits"


def test_a_sprocket_left_out_leaves_its_pitch_to_fill() -> None:
    """Eight of nine sprockets on the longer bodies want the place of the ninth filled."""
    eight = cassette(**GROUPS["8 of 9"])

    assert "spacer 4.34 mm" in why(certain(BODY, eight, rear_wheel(driver=MIDDLE)).finding)
    assert "spacer 6.19 mm" in why(certain(BODY, eight, rear_wheel(driver=LONG)).finding)


UNKNOWN = {
    "ring behind ten": ({"speeds": 10, "spline": MIDDLE}, {"driver": MIDDLE}, "measure"),
    "ring behind ten, whatever": ({"speeds": 10, "spline": MIDDLE}, {"driver": TALL}, "fits"),
    "ring on the long body": ({"speeds": 10, "spline": MIDDLE}, {"driver": LONG}, "adapts"),
    "spline": ({"speeds": 8}, {"driver": MIDDLE}, "measure"),
    "driver": ({"speeds": 8, "spline": MIDDLE}, {}, "measure"),
    "spline on a thread": ({"speeds": 8}, {"driver": "iso-1.375x24"}, "clash"),
    "road or wide eleven": ({"speeds": 11, "spacing": "standard"}, {"driver": MIDDLE}, "clash"),
    "eleven of a wide body": ({"speeds": 11, "spline": MIDDLE}, {"driver": LONG}, "adapts"),
    "front wheel": ({"speeds": 8, "spline": MIDDLE}, {"side": "front"}, "none"),
    "flat-bar eleven of a long body": (
        {"speeds": 11, "spline": LONG, "spacing": "flat-bar"},
        {"driver": MIDDLE},
        "fits",
    ),
}


@pytest.mark.parametrize(("given", "wheel", "wanted"), UNKNOWN.values(), ids=UNKNOWN)
def test_unknown_of_a_cassette(given: dict[str, Any], wheel: dict[str, Any], wanted: str) -> None:
    """An unknown is asked where it decides, and only there."""
    assert wanted == verdict(BODY, cassette(**given), part("wheel", **{"side": "rear", **wheel}))


FRENCH, BMX = "french-34.7x1", "bmx-30x1"
THREADS = {
    # sheldonbrown.com/freewheels.html
    **{(thread, thread): "fits" for thread in FREEWHEEL_THREADS.split()},
    ("iso-1.375x24", "british-1.370x24"): "fits",
    ("iso-1.375x24", "italian-35x24tpi"): "fits",
    ("british-1.370x24", "italian-35x24tpi"): "fits",
    (FRENCH, "iso-1.375x24"): "clash",
    ("iso-1.375x24", FRENCH): "clash",
    (FRENCH, "italian-35x24tpi"): "clash",
    ("british-1.370x24", FRENCH): "clash",
    (BMX, "iso-1.375x24"): "clash",
    (FRENCH, BMX): "clash",
    ("iso-1.375x24", MIDDLE): "clash",
    ("iso-1.375x24", "none"): "clash",
}


@pytest.mark.parametrize(("thread", "driver"), THREADS, ids=lambda value: value)
def test_freewheel_threads(thread: str, driver: str) -> None:
    """Three threads interchange, French ones never do."""
    parts = freewheel(thread=thread), rear_wheel(driver=driver)

    assert THREADS[thread, driver] == verdict(HUB, *parts)


def test_unknown_freewheel_thread() -> None:
    """An unknown thread decides, and a reading between three that interchange does not."""
    assert verdict(HUB, freewheel(speeds=6), rear_wheel(driver="iso-1.375x24")) == "measure"
    assert verdict(HUB, freewheel(thread="iso-1.375x24"), rear_wheel(bsd_mm=622)) == "measure"
    assert verdict(HUB, freewheel(thread=34.86), rear_wheel(driver="iso-1.375x24")) == "fits"
    assert verdict(HUB, freewheel(speeds=6), rear_wheel(driver=MIDDLE)) == "clash"
    front = part("wheel", side="front", driver="none")
    assert verdict(HUB, freewheel(thread="iso-1.375x24"), front) == "none"


def test_the_warning_of_mixed_threads_and_of_french_ones() -> None:
    """Mixed threads are not for tandems; a French freewheel binds, another one strips."""
    mixed = freewheel(thread="iso-1.375x24"), rear_wheel(driver="italian-35x24tpi")
    assert "tandem" in why(certain(HUB, *mixed).finding)
    binds = freewheel(thread=FRENCH), rear_wheel(driver="iso-1.375x24")
    assert "starts by hand and then binds" in why(certain(HUB, *binds).finding)
    strips = freewheel(thread="iso-1.375x24"), rear_wheel(driver=FRENCH)
    assert "strips the thread" in why(certain(HUB, *strips).finding)


WIDTHS = {
    # sheldonbrown.com/cribsheet-spacing.html; forum.bikeradar.com/discussion/12905742
    "5 in 120": (freewheel(speeds=5), rear_wheel(spacing_mm=120), "fits"),
    "5 in 126": (freewheel(speeds=5), rear_wheel(spacing_mm=126), "fits"),
    "6 in 126": (freewheel(speeds=6), frame(rear_spacing_mm=126), "fits"),
    "6 wide in 120": (freewheel(speeds=6), frame(rear_spacing_mm=120), "clash"),
    "6 narrow in 120": (freewheel(speeds=6, pitch_mm=5.0), frame(rear_spacing_mm=120), "fits"),
    "7 in 126": (freewheel(speeds=7), rear_wheel(spacing_mm=126), "fits"),
    "7 in 120": (freewheel(speeds=7), rear_wheel(spacing_mm=120), "clash"),
    "8 in 126": (freewheel(speeds=8), rear_wheel(spacing_mm=126), "clash"),
    "3 in 114": (freewheel(speeds=3), rear_wheel(spacing_mm=114), "fits"),
    "5 in 114": (freewheel(speeds=5), rear_wheel(spacing_mm=114), "clash"),
    "counted by teeth": (freewheel(cogs=[14, 17, 20]), rear_wheel(spacing_mm=114), "fits"),
    "unknown width": (freewheel(speeds=7), rear_wheel(bsd_mm=622), "none"),
    "unknown sprockets": (freewheel(), rear_wheel(spacing_mm=126), "none"),
    "front wheel": (freewheel(speeds=7), part("wheel", side="front", spacing_mm=100), "none"),
}


@pytest.mark.parametrize(("block", "holder", "wanted"), WIDTHS.values(), ids=WIDTHS)
def test_freewheel_between_the_dropouts(block: Kind, holder: Kind, wanted: str) -> None:
    """More sprockets need a wider hub."""
    assert wanted == verdict(WIDTH, block, holder)
