"""Quill of the stem, bore and outside of the threaded steerer, and what joins other pairs."""

from __future__ import annotations

from typing import NamedTuple

from partsbin.standards.length import Length, mm


class QuillRow(NamedTuple):
    """One threaded steerer: outside, the quill that it takes, whether that is usual, source."""

    steerer: Length
    quill: Length
    usual: bool
    source: str


QUILL_SOURCE = "motorbicycling.com p=105482; bicycle-forum.net quill measurements 2007"
QUILLS = (
    QuillRow(mm(25.4), mm(22.2), usual=True, source=QUILL_SOURCE),
    QuillRow(
        mm(25.4),
        mm(21.1),
        usual=False,
        source="velo-orange.blogspot.com 2008/02; motorbicycling.com p=105482",
    ),
    QuillRow(
        mm(25.0),
        mm(22.0),
        usual=True,
        source="bicycle-forum.net quill measurements 2007; rennrad-news.de thread 92675",
    ),
    QuillRow(mm(28.6), mm(25.4), usual=True, source="motorbicycling.com p=105482"),
    QuillRow(
        mm(31.8),
        mm(28.6),
        usual=True,
        source="velo-orange.blogspot.com 2008/02; size by the eighth of an inch",
    ),
)
THREAD_STEERERS = {"m25x1": mm(25.0)}
"""Threads that name their steerer. Source: rennrad-news.de thread 92675."""

SANDED = {(mm(22.2), mm(22.0)): "velo-orange.blogspot.com 2008/02"}
"""Quill and the smaller bore that it sometimes enters after the stem is sanded."""

QUILL_SLEEVES = {
    (mm(22.0), mm(22.2)): "motorbicycling.com p=105482",
    (mm(22.2), mm(25.4)): "forum.cyclinguk.org 152655; motorbicycling.com p=105482",
    (mm(25.4), mm(28.6)): "motorbicycling.com p=105482",
}
"""Quill and the next larger bore, which a sleeve fills; riders' reports, nothing official."""

QUILL_ADAPTERS = {mm(22.2): "cyclopunk.blogspot.com 2012-01", mm(25.4): "from memory"}
"""Quills of the adapters that carry a threadless stem on a threaded fork."""

ADAPTER_TOP = mm(28.6)
"""What such an adapter measures where the stem clamps it. Source: cyclopunk.blogspot.com 2012-01;
some are 25.4, from memory."""

STEERER_SLEEVES = {
    (mm(25.4), mm(28.6)): "thebiketube.com stem; bikeforums.net 20076552",
    (mm(28.6), mm(31.8)): "from memory",
    (mm(28.6), mm(38.1)): "from memory",
    (mm(31.8), mm(38.1)): "from memory",
}
"""Threadless steerer and the wider stem clamp, between which a sleeve is sold."""


def quill_row(steerer: Length) -> QuillRow | None:
    """Return the usual row of a threaded steerer, None if none is listed.

    >>> quill_row(mm(28.6)).quill
    25400
    """
    return next((row for row in QUILLS if row.steerer == steerer and row.usual), None)


def unusual_quills(steerer: Length) -> tuple[Length, ...]:
    """Return the quills that only some steerers of that outside take.

    >>> unusual_quills(mm(25.4))
    (21100,)
    """
    return tuple(row.quill for row in QUILLS if row.steerer == steerer and not row.usual)
