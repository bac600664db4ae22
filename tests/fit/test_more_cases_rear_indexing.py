"""Rear indexing beside the printed combinations, from the same tables and sources."""

from __future__ import annotations

import pytest

from tests.fit.drivetrain_parts import NAMES
from tests.fit.written_parts import Case, judged


def _index(name: str) -> str:
    family = NAMES.get(name) or NAMES[name[0]]
    return f"index_family={family} speeds={name[1:]}"


def rear(shifter: str, derailleur: str, sprockets: str) -> tuple[str, ...]:
    """Return shifter, derailleur and cassette by the short names of the published tables."""
    number = "".join(c for c in sprockets.split(":", maxsplit=1)[0] if c.isdigit())
    letter = sprockets.split(":", maxsplit=1)[0].removeprefix(number)
    kind = {"": "standard", "i": "italian", "f": "flat-bar", "o": "uneven-old"}[letter]
    used = sprockets.partition(":")[2]
    cogs = f" cogs=[{','.join(str(11 + i) for i in range(int(used)))}]" if used else ""
    return (
        f"shifter side=rear {_index(shifter)}",
        f"rear_derailleur {_index(derailleur)}",
        f"cassette speeds={number} spacing={kind}{cogs}",
    )


JITETAN = "jitetan.com/term/shift_hi.html"
BRAINY = "brainybiker.com/do-10-speed-derailleurs-work-with-11-speed-cassettes"
LIMITS = "limits of 0.5 and 0.9 mm at the outermost sprockets, chosen from published cases"
MIXING = "brainybiker.com/the-secrets-behind-combining-road-shifters-with-mtb-derailleurs"

REAR: dict[str, Case] = {
    # the family of ratio 1.7 interchanges up to nine speeds, and its road ten with its own nine
    "A6 on A8, 6": ("fits", rear("A6", "A8", "6"), MIXING),
    "A7 on A8, 7": ("fits", rear("A7", "A8", "7"), MIXING),
    "A7 on A9, 7": ("fits", rear("A7", "A9", "7"), MIXING),
    "A8 on A7, 8": ("fits", rear("A8", "A7", "8"), MIXING),
    "A8 on A8, 8": ("fits", rear("A8", "A8", "8"), JITETAN),
    "A9 on A8, 9": ("fits", rear("A9", "A8", "9"), MIXING),
    "A9 on A10, 9": ("fits", rear("A9", "A10", "9"), MIXING),
    "A10 on A9, 10": ("fits", rear("A10", "A9", "10"), MIXING),
    # native pairs first, whatever the rounded figures say
    "B10 native": ("fits", rear("B10", "B10", "10"), BRAINY),
    "C11 native": ("fits", rear("C11", "C11", "11f"), BRAINY),
    "D10 native": ("fits", rear("D10", "D10", "10"), "cyqle.ca/other_content/deraileurs.html"),
    "D11 native": ("fits", rear("D11", "D11", "11"), BRAINY),
    "E7 native": ("fits", rear("E7", "E7", "7"), LIMITS),
    "E8 native": ("fits", rear("E8", "E8", "8"), LIMITS),
    "E9 native": ("fits", rear("E9", "E9", "9"), LIMITS),
    "F10 native": ("fits", rear("F10", "F10", "10"), BRAINY),
    "F11 native": ("fits", rear("F11", "F11", "11"), BRAINY),
    "G11 native": ("fits", rear("G11", "G11", "11f"), LIMITS),
    "I8 native": ("fits", rear("I8", "I8", "8i"), "rookiejournal.com/archives/428"),
    "I9 native": ("fits", rear("I9", "I9", "9i"), JITETAN),
    "J9 native": ("fits", rear("J9", "J9", "9i"), JITETAN),
    "J10 native": ("fits", rear("J10", "J10", "10i"), JITETAN),
    "J11 native": ("fits", rear("J11", "J11", "11i"), "bikeforums.net/20561928-post11.html"),
    "O7 native": ("fits", rear("O7", "O7", "7"), JITETAN),
    "O8 native": ("fits", rear("O8", "O8", "8"), JITETAN),
    "K8 native": ("fits", rear("K8", "K8", "8o"), "mtb-news.de/forum/showthread.php?t=132022"),
    "K7 native": ("fits", rear("K7", "K7", "7o"), "mtb-news.de/forum/showthread.php?t=132022"),
    # the other way round than the printed refusals
    "A8 on B10, 8": ("clash", rear("A8", "B10", "8"), LIMITS),
    "B10 on A9, 9": ("clash", rear("B10", "A9", "9"), LIMITS),
    "B10 on A10, 10": ("clash", rear("B10", "A10", "10"), LIMITS),
    "B10 on C11, 10": ("clash", rear("B10", "C11", "10"), LIMITS),
    "C11 on A9, 11f": ("clash", rear("C11", "A9", "11f"), LIMITS),
    "D11 on C11, 11f": ("clash", rear("D11", "C11", "11f"), "bare; a pulley of 1.31 mends it"),
    "C11 on D11, 11": ("clash", rear("C11", "D11", "11"), LIMITS),
    "A10 on D10, 10": ("clash", rear("A10", "D10", "10"), "brainybiker.com, late 10-speed group"),
    "D10 on A10, 10": ("clash", rear("D10", "A10", "10"), "brainybiker.com, late 10-speed group"),
    "D10 on B10, 10": ("clash", rear("D10", "B10", "10"), LIMITS),
    "E9 on A9, 9": ("clash", rear("E9", "A9", "9"), LIMITS),
    "A9 on E9, 9": ("clash", rear("A9", "E9", "9"), LIMITS),
    "E8 on A8, 8": ("clash", rear("E8", "A8", "8"), LIMITS),
    "F10 on A10, 10": ("clash", rear("F10", "A10", "10"), LIMITS),
    "A10 on F10, 10": ("clash", rear("A10", "F10", "10"), LIMITS),
    "F11 on D11, 11": ("clash", rear("F11", "D11", "11"), "2.9 x 1.4 = 4.06: off by 1.6"),
    "I9 on J10, 9i": ("clash", rear("I9", "J10", "9i"), "derived: 1.0 at the ends"),
    "I8 on A8, 8": ("clash", rear("I8", "A8", "8"), LIMITS),
    "A8 on I8, 8": ("clash", rear("A8", "I8", "8"), LIMITS),
    "K8 on A8, 8": ("clash", rear("K8", "A8", "8"), "uneven clicks index among themselves"),
    "A8 on K8, 8": ("clash", rear("A8", "K8", "8"), "uneven clicks index among themselves"),
    "A8 on A8, 8 uneven": ("clash", rear("A8", "A8", "8o"), "uneven gaps"),
    # sprockets of another pitch than the shifter's
    "A7 on A7, 8": ("clash", rear("A7", "A7", "8"), "seven positions for eight sprockets"),
    "A9 on A9, 8": ("clash", rear("A9", "A9", "8"), "4.25 on 4.8: off by 1.9"),
    "A8 on A8, 9": ("clash", rear("A8", "A8", "9"), "eight positions for nine sprockets"),
    "A9 on A9, 10": ("clash", rear("A9", "A9", "10"), "nine positions for ten sprockets"),
    "A9 on A9, 8 of 9": ("fits", rear("A9", "A9", "9:8"), "citizenrider.blogspot.com/2014/07"),
    "A8 on A8, 8 of 9": ("clash", rear("A8", "A8", "9:8"), "foldableflyer.com/abike/service.html"),
    "A9 on A9, 7 of 9": ("fits", rear("A9", "A9", "9:7"), "spare positions are blocked"),
    "A7 on A7, 6 wide": ("clash", rear("A7", "A7", "6"), "4.93 on 5.5: off by 1.4"),
    # clamp changes named with their factor
    "J10 on A9, 9": ("adapts", rear("J10", "A9", "9"), "hubbub.bike, original solution"),
    "O8 on A8, 8": ("adapts", rear("O8", "A8", "8"), "bikeforums.net/23152999-post28.html"),
    "C11 on B10, 11f": ("adapts", rear("C11", "B10", "11f"), "faqload.com drivetrain"),
    # eleven-speed road cassettes of three makers interchange
    "D11, italian 11": ("fits", rear("D11", "D11", "11i"), "isolution.pro bi13067231"),
    "F11, italian 11": ("fits", rear("F11", "F11", "11i"), "isolution.pro bi13067231"),
    "J11, standard 11": ("fits", rear("J11", "J11", "11"), "colabike.blogspot.com/2015/03"),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), REAR.values(), ids=REAR)
def test_rear_indexing(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Shifter, derailleur and sprockets index as families and figures say."""
    assert judged(*parts).verdict == verdict, source


LAW = "en.wikibooks.org Bicycles/Maintenance_and_Repair/Gear-changing_Dimensions"
FRICTION = "brainybiker.com/archives/22292"
MEASURED: dict[str, Case] = {
    "pull and ratio measured": (
        "fits",
        (
            "shifter pull_per_click_mm=2.8 speeds=8",
            "rear_derailleur ratio=1.7",
            "cassette speeds=8 pitch_mm=4.8",
        ),
        LAW,
    ),
    "pull measured, family of the derailleur": (
        "fits",
        (
            "shifter pull_per_click_mm=2.8 speeds=8",
            "rear_derailleur index_family=ratio-1.7",
            "cassette speeds=8 spacing=standard",
        ),
        LAW,
    ),
    "pull measured, too long": (
        "clash",
        (
            "shifter pull_per_click_mm=4.3 speeds=8",
            "rear_derailleur ratio=1.7",
            "cassette speeds=8 pitch_mm=4.8",
        ),
        LAW,
    ),
    "pitch measured, marginal": (
        "adapts",
        (
            "shifter pull_per_click_mm=2.8 speeds=7",
            "rear_derailleur ratio=1.7",
            "cassette speeds=7 pitch_mm=5.0",
        ),
        "0.24 mm a click over six gaps is 0.72 at the ends: " + LIMITS,
    ),
    "no clicks": (
        "fits",
        (
            "shifter friction=yes",
            "rear_derailleur index_family=ratio-1.2 speeds=10",
            "cassette speeds=9 spacing=standard",
        ),
        FRICTION,
    ),
    "no clicks on uneven sprockets": (
        "fits",
        (
            "shifter friction=yes",
            "rear_derailleur index_family=uneven-old speeds=7",
            "cassette speeds=7 spacing=uneven-old",
        ),
        "mtb-news.de/forum/showthread.php?t=132022",
    ),
    "mode without clicks, too few positions": (
        "fits",
        ("shifter side=rear speeds=6 friction=yes", "cassette speeds=8 spacing=standard"),
        FRICTION,
    ),
    "shifter of nine for eight sprockets": (
        "measure",
        ("shifter side=rear speeds=9 friction=no", "cassette cogs=[11,12,14,16,18,21,24,28]"),
        "radreise-forum.de/posts/1500566",
    ),
    "one position too few": (
        "clash",
        ("shifter side=rear speeds=7", "cassette speeds=8"),
        "radreise-forum.de/posts/1500566",
    ),
    "family of the shifter not known": (
        "measure",
        (
            "shifter side=rear speeds=8",
            "rear_derailleur index_family=ratio-1.7",
            "cassette speeds=8 spacing=standard",
        ),
        LAW,
    ),
    "spacing of eight not known": (
        "measure",
        (
            f"shifter side=rear {_index('I8')}",
            f"rear_derailleur {_index('I8')}",
            "cassette speeds=8",
        ),
        LAW,
    ),
    "pulley that mends it is there": (
        "fits",
        (*rear("A10", "B10", "10"), "pull_adapter factor=1.43"),
        "derived: 3.95 / (2.3 x 1.2) = 1.43",
    ),
    "pulley of another factor": (
        "clash",
        (*rear("A10", "B10", "10"), "pull_adapter factor=1.1"),
        "derived: 3.95 / (2.3 x 1.2) = 1.43",
    ),
    "pulley for a road shifter on a flat-bar eleven": (
        "fits",
        (*rear("D11", "C11", "11f"), "pull_adapter factor=1.31"),
        "derived: 3.9 / (2.7 x 1.1) = 1.31",
    ),
    "no slip of spelling": (
        "fits",
        (
            "Shifter side=right index_family='Ratio 1.7' speeds=8",
            "rear-derailleur index_family=RATIO-1.7 speeds=8",
            "cassette speeds=8 spacing=Standard",
        ),
        LAW,
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), MEASURED.values(), ids=MEASURED)
def test_measured_indexing(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Measured figures, unknown ones, levers without clicks and pulleys."""
    assert judged(*parts).verdict == verdict, source
