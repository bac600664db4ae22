"""Cassettes on hub bodies: the spacer behind each kind of cassette, and which never go.

Spacers stand in this table and are never body length less stack: the stack overhangs the body.
"""

from __future__ import annotations

from typing import NamedTuple

from partsbin.standards.length import Length, mm

SHORT = "one-wide-spline-short"
MIDDLE = "one-wide-spline-35"
TALL = "tall-spline-10"
LONG = "one-wide-spline-36.8"
ONE_WIDE = (SHORT, MIDDLE, TALL, LONG)
"""Bodies of one outline, whose cassettes differ by spacers."""

HUBS_72 = "charigaku.com/16/2183"
HUBS_73 = "cyclabo.com/topics/shpw0w3wbb"
HUBS_71 = "rookiejournal.com, 11-speed hubs part 1"
SEVEN = "fitro.info 7-speed cassette on 8-speed hub; forum.bikeradar.com/discussion/12905742"
MIXED = "bike.bikegremlin.com/1259"


class Behind(NamedTuple):
    """The spacer behind a cassette on a body, in micrometres; None where it does not go."""

    spacer: Length | None
    source: str


def _row(spacer: str, source: str) -> Behind:
    return Behind(None if spacer == "no" else mm(spacer), source)


SPACERS = {
    ("7", SHORT): _row("0", MIXED),
    ("7", MIDDLE): _row("4.5", SEVEN),
    ("7", TALL): _row("no", HUBS_72),
    ("7", LONG): _row("6.35", f"{SEVEN}; {HUBS_72} (4.5 and 1.85)"),
    ("8-9", SHORT): _row("no", MIXED),
    ("8-9", MIDDLE): _row("0", HUBS_72),
    ("8-9", TALL): _row("no", HUBS_72),
    ("8-9", LONG): _row("1.85", HUBS_72),
    ("8 of 9", SHORT): _row("0", "bikefriday.com, Understanding nine-speed spacing"),
    ("10 with ring", SHORT): _row("no", MIXED),
    ("10 with ring", MIDDLE): _row("1.0", HUBS_72),
    ("10 with ring", TALL): _row("0", HUBS_72),
    ("10 with ring", LONG): _row("2.85", f"{HUBS_73} (1.0 and 1.85)"),
    ("10", MIDDLE): _row("0", HUBS_73),
    ("10", LONG): _row("1.85", HUBS_73),
    ("11 wide", SHORT): _row("no", HUBS_71),
    ("11 wide", MIDDLE): _row("0", HUBS_71),
    ("11 wide", TALL): _row("no", HUBS_71),
    ("11 wide", LONG): _row("1.85", HUBS_71),
    ("11 road", SHORT): _row("no", HUBS_72),
    ("11 road", MIDDLE): _row("no", HUBS_72),
    ("11 road", TALL): _row("no", HUBS_72),
    ("11 road", LONG): _row("0", HUBS_72),
}

EXTENDED = {
    ("short-spline-thread", "short-spline-thread-road"): _row("1.85", "from memory"),
}
"""Cassettes of other splines on bodies that are only longer."""

BODY_SOURCE = (
    "icancycling.com, freehub and cassette compatibility; handsonbike.blogspot.com/2022/10"
)
FREEWHEEL_SOURCE = "sheldonbrown.com/freewheels.html"
