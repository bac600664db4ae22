"""Drivetrain combinations beside the printed ones, from the same tables and sources."""

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


SIZES = "bike.bikegremlin.com/1220"
CHAINS: dict[str, Case] = {
    "6 on 6": ("fits", ("chain speeds=6", "freewheel speeds=6"), SIZES),
    "6 on 7": ("fits", ("chain speeds=6", "cassette speeds=7"), "gap 0.17: " + SIZES),
    "6 on 8": ("clash", ("chain speeds=6", "cassette speeds=8"), "gap 0.00: " + SIZES),
    "7 on 8": ("fits", ("chain speeds=7", "cassette speeds=8"), "gap 0.25: " + SIZES),
    "7 on 9": ("clash", ("chain speeds=7", "cassette speeds=9"), SIZES),
    "8 on 7": ("fits", ("chain speeds=8", "cassette speeds=7"), SIZES),
    "8 on 8 italian": ("fits", ("chain speeds=8", "cassette speeds=8 spacing=italian"), SIZES),
    "8 on 10": ("clash", ("chain speeds=8", "cassette speeds=10"), SIZES),
    "9 on 7": ("fits", ("chain speeds=9", "cassette speeds=7"), "gap 0.78: " + SIZES),
    "9 on 8": ("fits", ("chain speeds=9", "cassette speeds=8"), "gap 0.60: " + SIZES),
    "9 on 9": ("fits", ("chain speeds=9", "cassette speeds=9"), "gap 0.15: " + SIZES),
    "9 on 9 italian": ("fits", ("chain speeds=9", "cassette speeds=9 spacing=italian"), SIZES),
    "9 on thick teeth": (
        "clash",
        ("chain speeds=9", "cassette speeds=7 cog_thickness_mm=2.35"),
        "inner 2.18 mm on teeth of 2.35: jitetan.com/cassette.html table 1",
    ),
    "7 on thick teeth": (
        "adapts",
        ("chain speeds=7", "cassette speeds=7 cog_thickness_mm=2.35"),
        "tight inside: jitetan.com/cassette.html table 1",
    ),
    "10 on 9": ("fits", ("chain speeds=10", "cassette speeds=9"), "gap 0.50: " + SIZES),
    "10 on 10": ("fits", ("chain speeds=10", "cassette speeds=10"), SIZES),
    "10 on 10 italian": ("fits", ("chain speeds=10", "cassette speeds=10 spacing=italian"), SIZES),
    "10 on 11": ("clash", ("chain speeds=10", "cassette speeds=11"), "gap -0.01: " + SIZES),
    "11 on 10": ("fits", ("chain speeds=11", "cassette speeds=10"), "gap 0.35: " + SIZES),
    "11 on 11": ("fits", ("chain speeds=11", "cassette speeds=11"), "gap 0.14: " + SIZES),
    "8 on 11": ("clash", ("chain speeds=8", "cassette speeds=11"), SIZES),
    "12 on 12": ("fits", ("chain speeds=12", "cassette speeds=12"), SIZES),
    "11 on 12": ("clash", ("chain speeds=11", "cassette speeds=12"), SIZES),
    "measured 7.3 on 8": ("fits", ("chain outer_mm=7.3", "cassette speeds=8"), SIZES),
    "measured 6.6 on 10": ("clash", ("chain outer_mm=6.6", "cassette speeds=10"), SIZES),
    "1/8 on derailleur sprockets": (
        "clash",
        ("chain inner_mm=3.175", "cassette speeds=8"),
        "velogear.com.au Chains",
    ),
    "1/8 on 1/8": ("fits", ("chain inner_mm=3.175", "sprocket width_in=1/8"), SIZES),
    "1/8 on 3/32": ("fits", ("chain inner_mm=3.175", "sprocket width_in=3/32"), SIZES),
    "3/32 on 3/32": ("fits", ("chain inner_mm=2.38", "sprocket width_in=3/32"), SIZES),
    "3/32 on 1/8": ("clash", ("chain inner_mm=2.38", "sprocket width_in=1/8"), SIZES),
    "single-speed chain on 1/8": ("fits", ("chain speeds=1", "sprocket width_in=1/8"), SIZES),
    "8-speed chain on 1/8": ("clash", ("chain speeds=8", "sprocket width_in=1/8"), SIZES),
    "8-speed chain on 3/32": ("fits", ("chain speeds=8", "sprocket width_in=3/32"), SIZES),
    "chain for 9 on rings for 10": (
        "fits",
        ("chain speeds=9", "chainset speeds=10"),
        "brainybiker 10-speed chain, 9 crankset",
    ),
    "chain for 10 on rings for 9": (
        "fits",
        ("chain speeds=10", "chainset speeds=9"),
        "brainybiker 10-speed chain, 9 crankset",
    ),
    "width not known": ("measure", ("chain", "cassette speeds=9"), SIZES),
    "sprockets not known": ("measure", ("chain speeds=8", "cassette"), SIZES),
    "narrowest on unknown sprockets": ("measure", ("chain speeds=11", "cassette"), SIZES),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), CHAINS.values(), ids=CHAINS)
def test_chain_width(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """The gap to the next sprocket and the room over the teeth decide."""
    assert judged(*parts).verdict == verdict, source


WEAR = "citycyclingtips.com/?p=748"
WORN: dict[str, Case] = {
    "0.5 on 11": ("clash", ("chain speeds=11 wear_percent=0.5", "cassette speeds=11"), WEAR),
    "0.4 on 11": ("fits", ("chain speeds=11 wear_percent=0.4", "cassette speeds=11"), WEAR),
    "0.5 on 9": ("fits", ("chain speeds=9 wear_percent=0.5", "cassette speeds=9"), WEAR),
    "0.75 on 9": ("clash", ("chain speeds=9 wear_percent=0.75", "cassette speeds=9"), WEAR),
    "0.75 on one": (
        "fits",
        ("chain inner_mm=3.175 wear_percent=0.75", "sprocket width_in=1/8"),
        WEAR,
    ),
    "1.0 on one": (
        "clash",
        ("chain inner_mm=3.175 wear_percent=1.0", "sprocket width_in=1/8"),
        WEAR,
    ),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), WORN.values(), ids=WORN)
def test_chain_wear(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """A chain at its limit is refused, the limit by the number of speeds."""
    assert judged(*parts).verdict == verdict, source


LENGTH = "bit1024.com Chain-Length; calculatorultra.com chain length"


def _chain(links: int, stay: float, ring: int, sprocket: int) -> tuple[str, ...]:
    return (
        f"chain links={links}",
        f"frame chainstay_mm={stay}",
        f"chainset rings=[{ring}]",
        f"cassette cogs=[{sprocket}]",
    )


LENGTHS: dict[str, Case] = {
    "16 in, 44 and 12, exact": ("fits", _chain(96, 406.4, 44, 12), "47.45 in: " + LENGTH),
    "16 in, 44 and 12, simple": ("adapts", _chain(94, 406.4, 44, 12), "47.0 in: " + LENGTH),
    "16 in, 44 and 12, short": ("clash", _chain(92, 406.4, 44, 12), LENGTH),
    "18 in, 50 and 18": ("fits", _chain(110, 457.2, 50, 18), "54.39 in: " + LENGTH),
    "16 in, 50 and 20": ("fits", _chain(102, 406.4, 50, 20), "50.89 in: " + LENGTH),
    "17 in, 52 and 18": ("fits", _chain(106, 431.8, 52, 18), "52.96 in: " + LENGTH),
    "17 in, 52 and 18, short": ("clash", _chain(104, 431.8, 52, 18), LENGTH),
}


@pytest.mark.parametrize(("verdict", "parts", "source"), LENGTHS.values(), ids=LENGTHS)
def test_chain_length(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """The exact loop and an inch, rounded up to an even count; the simple form is marginal."""
    wanted = next(j for j in judged(*parts).interfaces if j.rule.name == "chain length")
    assert wanted.finding.verdict == verdict, source


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


CAGES = "libstdc.com/us/q/bicycles/7264; bluecollarmtb.com 2007-06-19"
RINGS = "chainset rings=[22,32,42]"
FRONT = "mtbr.com 933644; cyclinguk.org/cycle, page on front shifting"
CRANKS: dict[str, Case] = {
    "42 teeth, long cage of 45": (
        "fits",
        ("rear_derailleur capacity_teeth=45 max_cog=34", "cassette cogs=[12,34]", RINGS),
        CAGES,
    ),
    "42 teeth, medium cage of 33": (
        "clash",
        ("rear_derailleur capacity_teeth=33 max_cog=34", "cassette cogs=[12,34]", RINGS),
        CAGES,
    ),
    "42 teeth, 44/32/24": (
        "fits",
        (
            "rear_derailleur capacity_teeth=42 max_cog=34",
            "cassette cogs=[12,34]",
            "chainset rings=[24,32,44]",
        ),
        CAGES,
    ),
    "29 teeth, short cage": (
        "fits",
        (
            "rear_derailleur capacity_teeth=29 max_cog=27",
            "cassette cogs=[12,25]",
            "chainset rings=[34,50]",
        ),
        CAGES,
    ),
    "30 teeth, short cage of 29": (
        "clash",
        (
            "rear_derailleur capacity_teeth=29 max_cog=27",
            "cassette cogs=[12,26]",
            "chainset rings=[34,50]",
        ),
        CAGES,
    ),
    "single ring, 10 to 52": (
        "fits",
        (
            "rear_derailleur capacity_teeth=42 max_cog=52",
            "cassette cogs=[10,52]",
            "chainset rings=[32]",
        ),
        CAGES,
    ),
    "sprocket at the rating": (
        "fits",
        ("rear_derailleur max_cog=34", "cassette cogs=[11,34]"),
        CAGES,
    ),
    "26-rated cage on 28": (
        "adapts",
        ("rear_derailleur max_cog=26", "cassette cogs=[12,28]"),
        "roadbikereview.com, largest cog",
    ),
    "28-rated cage on 32": (
        "adapts",
        ("rear_derailleur max_cog=28", "cassette cogs=[11,32]"),
        "velonews.com, with a washer at the hanger",
    ),
    "27-rated cage on 36": (
        "clash",
        ("rear_derailleur max_cog=27", "cassette cogs=[11,36]"),
        CAGES,
    ),
    "road shifter, road front derailleur": (
        "fits",
        ("shifter side=front front_pull=road", "front_derailleur front_pull=road"),
        FRONT,
    ),
    "flat-bar shifter, road front derailleur": (
        "clash",
        ("shifter side=front front_pull=flat-bar", "front_derailleur front_pull=road"),
        FRONT,
    ),
    "road shifter, flat-bar front derailleur": (
        "clash",
        ("shifter side=front front_pull=road", "front_derailleur front_pull=flat-bar"),
        FRONT,
    ),
    "friction front shifter": (
        "fits",
        ("shifter side=front friction=yes", "front_derailleur front_pull=flat-bar"),
        FRONT,
    ),
    "combined drop-bar lever, flat-bar front derailleur": (
        "clash",
        (
            "combined_lever side=front front_pull=road bar_mm=23.8",
            "front_derailleur front_pull=flat-bar",
        ),
        FRONT,
    ),
    "pulley of 0.75 in the front cable": (
        "fits",
        (
            "shifter side=front front_pull=flat-bar",
            "front_derailleur front_pull=road",
            "pull_adapter factor=0.75",
        ),
        FRONT,
    ),
    "two positions, three rings": ("clash", ("shifter side=front speeds=2", RINGS), FRONT),
    "three positions, two rings": (
        "fits",
        ("shifter side=front speeds=3", "chainset rings=[34,50]"),
        FRONT,
    ),
    "double derailleur on a triple": ("clash", ("front_derailleur rings=2", RINGS), "brainybiker"),
    "triple derailleur on a double": (
        "fits",
        ("front_derailleur rings=3", "chainset rings=[34,50]"),
        "brainybiker",
    ),
    "46 ring, cage for 50": (
        "fits",
        ("front_derailleur max_ring=50", "chainset rings=[34,46]"),
        FRONT,
    ),
    "50 ring, cage for 50": (
        "fits",
        ("front_derailleur max_ring=50", "chainset rings=[34,50]"),
        FRONT,
    ),
    "52 ring, cage for 48": (
        "clash",
        ("front_derailleur max_ring=48", "chainset rings=[42,52]"),
        FRONT,
    ),
    "band 28.6 on 28.6": (
        "fits",
        ("front_derailleur mount=clamp clamp_mm=28.6", "frame fd_mount=clamp seat_tube_od_mm=28.6"),
        "bike.bikegremlin.com/1297",
    ),
    "band 31.8 on 28.6": (
        "adapts",
        ("front_derailleur mount=clamp clamp_mm=31.8", "frame fd_mount=clamp seat_tube_od_mm=28.6"),
        "shim from memory",
    ),
    "band 34.9 on 31.8": (
        "adapts",
        ("front_derailleur clamp_mm=34.9", "frame seat_tube_od_mm=31.8"),
        "shim from memory",
    ),
    "band 28.6 on 31.8": (
        "clash",
        ("front_derailleur clamp_mm=28.6", "frame seat_tube_od_mm=31.8"),
        "bike.bikegremlin.com/1297",
    ),
    "band 34.9 on 35.0": (
        "fits",
        ("front_derailleur clamp_mm=34.9", "frame seat_tube_od_mm=35.0"),
        "bikeforums.net t-645002",
    ),
    "tab on a plain tube": (
        "adapts",
        ("front_derailleur mount=braze-on", "frame fd_mount=clamp seat_tube_od_mm=28.6"),
        "hulkbike.com/blog/deraillieur",
    ),
    "tab on tab": (
        "fits",
        ("front_derailleur mount=braze-on", "frame fd_mount=braze-on"),
        "hulkbike.com/blog/deraillieur",
    ),
    "two bolts of 42.7 on 22.1": (
        "clash",
        ("front_derailleur mount=direct-42.7", "frame fd_mount=direct-22.1"),
        "hulkbike.com/blog/deraillieur",
    ),
    "no place for it": (
        "clash",
        ("front_derailleur mount=clamp", "frame fd_mount=none"),
        "hulkbike.com/blog/deraillieur",
    ),
}
BCD = "sheldonbrown.com/cribsheet-bcd.html; sheldonbrown.com/numbers.html"
for _circle, _arms, _teeth, _verdict in (
    (151, 5, 44, "fits"),
    (151, 5, 43, "clash"),
    (144, 5, 41, "fits"),
    (144, 5, 40, "clash"),
    (135, 5, 39, "fits"),
    (135, 5, 38, "clash"),
    (130, 5, 38, "fits"),
    (130, 5, 36, "clash"),
    (128, 5, 38, "fits"),
    (128, 5, 37, "clash"),
    (122, 5, 38, "fits"),
    (122, 5, 37, "clash"),
    (118, 5, 36, "fits"),
    (118, 5, 35, "clash"),
    (116, 5, 35, "fits"),
    (116, 5, 34, "clash"),
    (110, 5, 34, "fits"),
    (110, 5, 32, "clash"),
    (94, 5, 29, "fits"),
    (94, 5, 28, "clash"),
    (86, 5, 28, "fits"),
    (86, 5, 27, "clash"),
    (74, 5, 24, "fits"),
    (74, 5, 22, "clash"),
    (58, 5, 20, "fits"),
    (58, 5, 19, "clash"),
    (56, 5, 20, "fits"),
    (56, 5, 19, "clash"),
    (112, 4, 34, "fits"),
    (112, 4, 33, "clash"),
    (68, 4, 22, "fits"),
    (68, 4, 20, "clash"),
    (104, 4, 32, "fits"),
    (104, 4, 30, "clash"),
    (64, 4, 22, "fits"),
    (64, 4, 20, "clash"),
):
    CRANKS[f"{_teeth} on {_circle}"] = (
        _verdict,
        (
            f"chainring teeth={_teeth} bcd_mm={_circle} arms={_arms}",
            f"chainset bcd_mm={_circle} arms={_arms}",
        ),
        BCD,
    )
TAPER = "moultoneer.wordpress.com/2022/03/17"
SPLINES = "jitetan.com/term/octalink.html; urbanvelo.org/issue17/p70-71"
SHELLS = "bikeraceinfo.com/tech/bottom-brackets.html"
PEDALS = "lfgss.com/comments/8473736; smontanaro.net/CR/2003/05/0420"
CRANKS |= {
    "130 ring on 110 crank": (
        "clash",
        ("chainring bcd_mm=130 arms=5", "chainset bcd_mm=110 arms=5"),
        BCD,
    ),
    "110 ring of four holes on five arms": (
        "clash",
        ("chainring bcd_mm=110 arms=4", "chainset bcd_mm=110 arms=5"),
        BCD,
    ),
    "74 ring inside a 110 triple": (
        "fits",
        ("chainring bcd_mm=74 arms=5 teeth=26", "chainset bcd_mm=110 arms=5 rings=[26,36,46]"),
        BCD,
    ),
    "circle read between two sizes": (
        "measure",
        ("chainring bcd_mm=129", "chainset bcd_mm=130"),
        BCD,
    ),
    "square on square": (
        "fits",
        ("chainset spindle=taper-jis", "bottom_bracket spindle=taper-jis"),
        TAPER,
    ),
    "short splines on long": (
        "clash",
        ("chainset spindle=splined-8x22-short", "bottom_bracket spindle=splined-8x22-long"),
        SPLINES,
    ),
    "eight splines on ten": (
        "clash",
        ("chainset spindle=splined-8x22-long", "bottom_bracket spindle=splined-10x21"),
        SPLINES,
    ),
    "ten splines on ten": (
        "fits",
        ("chainset spindle=splined-10x21", "bottom_bracket spindle=splined-10x21"),
        SPLINES,
    ),
    "square on splines": (
        "clash",
        ("chainset spindle=taper-jis", "bottom_bracket spindle=splined-10x21"),
        SPLINES,
    ),
    "cottered on square": (
        "clash",
        ("chainset spindle=cottered", "bottom_bracket spindle=taper-jis"),
        SPLINES,
    ),
    "24 in 30 mm bearings": (
        "adapts",
        ("chainset spindle=integrated-24", "bottom_bracket spindle=integrated-30"),
        "bike.bikegremlin.com/1652",
    ),
    "24/22 in 24 mm bearings": (
        "adapts",
        ("chainset spindle=integrated-24-22", "bottom_bracket spindle=integrated-24"),
        "accidentalrandonneur.wordpress.com/tag/bb92",
    ),
    "30 in 24 mm bearings": (
        "clash",
        ("chainset spindle=integrated-30", "bottom_bracket spindle=integrated-24"),
        "accidentalrandonneur.wordpress.com/tag/bb92",
    ),
    "30 crank in a 41 bore": (
        "adapts",
        ("chainset spindle=integrated-30", "frame bb_shell=pf41"),
        "byka.info BB86",
    ),
    "24 crank in a 46 bore": (
        "adapts",
        ("chainset spindle=integrated-24", "frame bb_shell=pf46"),
        "bike.bikegremlin.com/1652",
    ),
    "one-piece crank in a threaded shell": (
        "clash",
        ("chainset spindle=onepiece", "frame bb_shell=english-1.370x24"),
        "skatepro BMX",
    ),
    "pedals 1/2 in a 9/16 crank": (
        "clash",
        ("pedals pedal_thread=1/2x20", "chainset pedal_thread=9/16x20"),
        PEDALS,
    ),
    "pedals 9/16 in a one-piece crank": (
        "clash",
        ("pedals pedal_thread=9/16x20", "chainset pedal_thread=1/2x20"),
        PEDALS,
    ),
    "English pedals in a French crank": (
        "adapts",
        ("pedals pedal_thread=9/16", "chainset pedal_thread=14x1.25"),
        PEDALS,
    ),
    "French pedals in an English crank": (
        "clash",
        ("pedals pedal_thread=14x1.25", "chainset pedal_thread=9/16x20"),
        PEDALS,
    ),
    "pedals 9/16 in 9/16": (
        "fits",
        ("pedals pedal_thread='9/16 x 20'", "chainset pedal_thread=9/16x20"),
        PEDALS,
    ),
}
for _own, _shell, _verdict in (
    ("english-1.370x24", "english-1.370x24", "fits"),
    ("italian-36x24", "english-1.370x24", "clash"),
    ("english-1.370x24", "italian-36x24", "clash"),
    ("french-35x1", "swiss-35x1", "clash"),
    ("swiss-35x1", "french-35x1", "clash"),
    ("french-35x1", "english-1.370x24", "clash"),
    ("english-1.370x24", "french-35x1", "clash"),
    ("t47", "t47", "fits"),
    ("t47", "english-1.370x24", "clash"),
    ("pf41", "pf46", "clash"),
    ("pf46", "pf46", "fits"),
    ("english-1.370x24", "pf42", "clash"),
    ("onepiece-51", "english-1.370x24", "clash"),
    ("spanish-37", "mid-41", "clash"),
    ("mid-41", "mid-41", "fits"),
):
    CRANKS[f"{_own} in {_shell}"] = (
        _verdict,
        (f"bottom_bracket shell={_own}", f"frame bb_shell={_shell}"),
        SHELLS,
    )


@pytest.mark.parametrize(("verdict", "parts", "source"), CRANKS.values(), ids=CRANKS)
def test_derailleurs_and_cranks(verdict: str, parts: tuple[str, ...], source: str) -> None:
    """Capacity, front shifting, bolt circles, spindles, shells and pedals."""
    assert judged(*parts).verdict == verdict, source
