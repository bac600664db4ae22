"""Indexing families: the pull of a shifter's click and the ratio of the derailleur it belongs to.

The trade names "2:1" and "1:1" of two families are no ratios: measured they are 1.7 and 1.1.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from partsbin.standards.length import Length, mm
from partsbin.standards.sprocket_spacing import spacing

SHIFT_RATIO = "jitetan.com/term/shift_hi.html"
MIXING = "brainybiker.com/do-10-speed-derailleurs-work-with-11-speed-cassettes"
SCIENCE = "Science Behind the Magic, Drivetrain Compatibility (de.scribd.com/document/392071911)"

RATIOS = {
    "ratio-1.7": (Decimal("1.7"), SHIFT_RATIO),
    "ratio-1.9": (Decimal("1.9"), SHIFT_RATIO),
    "ratio-1.2": (Decimal("1.2"), MIXING),
    "ratio-1.1-flat-11": (Decimal("1.1"), MIXING),
    "ratio-1.12-flat-11": (Decimal("1.12"), "from memory"),
    "ratio-1.4-road-11": (Decimal("1.4"), MIXING),
    "ratio-1.4-road-10": (Decimal("1.4"), "cyqle.ca/other_content/deraileurs.html"),
    "ratio-1.1": (Decimal("1.1"), "from memory"),
    "ratio-1.3": (Decimal("1.3"), MIXING),
    "italian-1.4": (Decimal("1.4"), "rookiejournal.com/archives/428"),
    "italian-1.5": (Decimal("1.5"), SHIFT_RATIO),
}
"""Cage travel per unit of cable. The family `uneven-old` has no published figure."""

CLOSED = "uneven-old"
"""The family whose clicks and gaps are uneven: it indexes only with itself."""


@dataclass(frozen=True, slots=True)
class Family:
    """One shifter of a family: its mean pull, and the sprockets that it was made for.

    `even` is false where the clicks differ, so that the mean is no measure of the ratio.
    """

    name: str
    speeds: int
    pull: Length
    spacing: str
    source: str
    even: bool = True

    @property
    def pitch(self) -> Length:
        """Return the pitch of the sprockets that it was made for."""
        row = spacing(self.speeds, self.spacing)
        assert row is not None
        return row.pitch


def _row(
    name: str, speeds: int, pull: str, spacing: str, source: str, *, even: bool = True
) -> Family:
    return Family(name, speeds, mm(pull), spacing, source, even)


FAMILIES = {
    (row.name, row.speeds): row
    for row in (
        _row("ratio-1.7", 6, "3.2", "standard", "from memory"),
        _row(
            "ratio-1.7",
            7,
            "2.9",
            "standard",
            "brainybiker.com/can-i-put-a-10-speed-derailleur-on-a-7-speed-cassette",
        ),
        _row("ratio-1.7", 8, "2.8", "standard", SHIFT_RATIO),
        _row("ratio-1.7", 9, "2.5", "standard", "from memory"),
        _row("ratio-1.7", 10, "2.3", "standard", MIXING),
        _row("ratio-1.2", 10, "3.4", "standard", MIXING),
        _row("ratio-1.1-flat-11", 11, "3.6", "flat-bar", MIXING),
        _row("ratio-1.4-road-11", 11, "2.7", "standard", MIXING),
        _row("ratio-1.4-road-10", 10, "2.8", "standard", "from memory"),
        _row("ratio-1.9", 7, "2.6", "standard", f"derived from {SHIFT_RATIO}"),
        _row("ratio-1.9", 8, "2.53", "standard", f"derived from {SHIFT_RATIO}"),
        _row("ratio-1.1", 7, "4.5", "standard", "from memory"),
        _row("ratio-1.1", 8, "4.3", "standard", "from memory"),
        _row("ratio-1.1", 9, "4.0", "standard", "from memory"),
        _row("ratio-1.3", 10, "3.1", "standard", "from memory"),
        _row("ratio-1.3", 11, "2.9", "standard", "from memory"),
        _row(
            "ratio-1.12-flat-11",
            11,
            "3.48",
            "flat-bar",
            "gist.github.com/moonwatcher/71bb3c3bb9723c09c86c1d72dbb901cb",
        ),
        _row("italian-1.4", 8, "3.5", "italian", "rookiejournal.com/archives/428"),
        _row("italian-1.4", 9, "3.2", "italian", "from memory"),
        _row("italian-1.5", 9, "3.0", "italian", "from memory"),
        _row("italian-1.5", 10, "2.83", "italian", SCIENCE, even=False),
        _row("italian-1.5", 11, "2.6", "italian", "rookiejournal.com/archives/428", even=False),
    )
}
"""Families by name and speeds, as the shifter says them."""

ROAD_ELEVEN = frozenset({"standard", "italian"})
"""Spacings of 11-speed road cassettes, which interchange in practice in spite of their pitches.

Source: isolution.pro bi13067231; colabike.blogspot.com/2015/03.
"""


def _implied(name: str) -> tuple[float, ...]:
    rows = [row for row in FAMILIES.values() if row.name == name and row.even]
    return tuple(row.pitch / row.pull for row in rows)


IMPLIED_RATIOS = {name: _implied(name) for name in RATIOS}
"""Per family: native pitch by native pull of each of its shifters with even clicks.

These ratios carry no rounding of the published one; a family's derailleurs are one mechanism,
whatever number of speeds is printed on them.
"""


@dataclass(frozen=True, slots=True)
class ClampChange:
    """A shifter and derailleur that go together if the cable is clamped at another place."""

    shifter: tuple[str, int]
    derailleur: str
    sprockets: tuple[int, str]
    change: str
    source: str


CLAMP_CHANGES = {
    (row.shifter, row.derailleur, row.sprockets): row
    for row in (
        ClampChange(
            ("italian-1.5", 10),
            "ratio-1.7",
            (9, "standard"),
            "clamp the cable at the other place of its bolt, where the arm is 11 percent longer",
            "hubbub.bike, original solution; bikeforums.net/archive t-679866",
        ),
        ClampChange(
            ("ratio-1.9", 8),
            "ratio-1.7",
            (8, "standard"),
            "clamp the cable at the other place of its bolt, where the arm is 11 percent shorter, "
            "and set the limit screws again",
            "bikeforums.net/23152999-post28.html",
        ),
        ClampChange(
            ("ratio-1.1-flat-11", 11),
            "ratio-1.2",
            (11, "flat-bar"),
            "clamp the cable over a 2.1 mm spacer, which lengthens the 31 mm arm by 7 percent",
            "faqload.com bicycle-components/drivetrain",
        ),
    )
}
"""Changes of the clamp that have been done; by arithmetic alone none is promised."""
