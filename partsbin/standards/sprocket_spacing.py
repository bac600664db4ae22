"""Sprocket pitch, thickness and stack by number of sprockets and kind of spacing."""

from __future__ import annotations

from dataclasses import dataclass

from partsbin.standards.length import Length, mm

CRIB = "sheldonbrown.com/cribsheet-spacing.html"
SPACERS = "jitetan.com/cassette.html table 1"
GEAR_SYSTEMS = "cyclingforums.com/threads/mix'n-match-gear-systems.15065"
OLD_JAPANESE = "mtb-news.de/forum/showthread.php?t=132022"


@dataclass(frozen=True, slots=True)
class Spacing:
    """The pitch of neighbouring sprockets (middle to middle) and the thickness of one.

    `closest` is the smallest gap's pitch where the gaps are uneven and `pitch` is their mean.
    """

    speeds: int
    kind: str
    pitch: Length
    thickness: Length
    source: str
    closest: Length

    @property
    def stack(self) -> Length:
        """Return the width of the whole stack: the pitches and one sprocket more."""
        return Length(self.pitch * (self.speeds - 1) + self.thickness)


def _row(
    speeds: int, kind: str, pitch: str, thickness: str, source: str, closest: str = ""
) -> Spacing:
    return Spacing(speeds, kind, mm(pitch), mm(thickness), source, mm(closest or pitch))


SPACINGS = {
    (row.speeds, row.kind): row
    for row in (
        _row(5, "standard", "5.5", "2.0", CRIB),
        _row(6, "standard", "5.5", "2.0", CRIB),
        _row(7, "standard", "5.0", "1.85", SPACERS),
        _row(8, "standard", "4.8", "1.8", SPACERS),
        _row(9, "standard", "4.34", "1.78", SPACERS),
        _row(10, "standard", "3.95", "1.6", SPACERS),
        _row(
            11,
            "standard",
            "3.74",
            "1.6",
            "pitch from memory; thickness: brainybiker 10-speed chain and 9-speed cassette",
        ),
        _row(
            11,
            "flat-bar",
            "3.9",
            "1.6",
            "faqload.com bicycle-components/drivetrain; thickness from memory",
        ),
        _row(8, "italian", "5.0", "1.9", SPACERS),
        _row(9, "italian", "4.55", "1.75", SPACERS),
        _row(10, "italian", "4.12", "1.7", GEAR_SYSTEMS),
        _row(
            11,
            "italian",
            "3.85",
            "1.6",
            "uneven gaps: isolution.pro bi13067231; mean and thickness from memory",
        ),
        _row(6, "uneven-old", "5.5", "1.9", OLD_JAPANESE),
        _row(7, "uneven-old", "4.87", "1.9", OLD_JAPANESE, "4.7"),
        _row(8, "uneven-old", "4.9", "1.9", OLD_JAPANESE, "4.7"),
    )
}


def spacing(speeds: int, kind: str) -> Spacing | None:
    """Return the row of a number of sprockets, None if the table has none.

    Up to ten speeds flat-bar cassettes have the standard pitch.

    >>> spacing(8, "standard").stack
    35400
    >>> spacing(10, "flat-bar").pitch
    3950
    """
    row = SPACINGS.get((speeds, kind))
    if row is None and kind == "flat-bar":
        return SPACINGS.get((speeds, "standard"))
    return row
