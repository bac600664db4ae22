"""Cranks: rings, bottom brackets, shells, pedals and chainline."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.fit.words import why
from partsbin.kinds.kind import Kind
from partsbin.standards.bolt_circles import BOLT_CIRCLES, INNER_OF
from partsbin.standards.bottom_bracket_shells import CRANKS_IN_SHELLS, SHELLS
from partsbin.standards.chainlines import CHAINLINES
from tests.fit.brake_parts import certain, part, verdict
from tests.fit.drivetrain_parts import bracket, chainring, chainset, frame, pedals, rear_wheel

RING = "chainring on crank"
SMALLEST = "smallest ring on bolt circle"
RING_WIDTH = "chainring for chain width"
SHELL = "bottom bracket in shell"
SHELL_WIDTH = "bottom bracket in shell width"
SPINDLE = "crank on spindle"
SPINDLE_LENGTH = "spindle length"
CRANK_SHELL = "crank for shell"
PEDALS = "pedals in cranks"
LINE = "chainline"


@pytest.mark.parametrize("row", BOLT_CIRCLES.values(), ids=lambda row: f"{row.diameter}x{row.arms}")
def test_every_bolt_circle(row: Any) -> None:
    """A ring goes on its own circle from the smallest published size on."""
    circle = {"bcd_mm": row.diameter / 1000, "arms": row.arms}
    assert verdict(RING, chainring(**circle), chainset(**circle)) == "fits"
    if row.smallest:
        assert verdict(SMALLEST, chainring(teeth=row.smallest, **circle), chainset()) == "fits"
        assert verdict(SMALLEST, chainring(teeth=row.smallest - 1), chainset(**circle)) == "clash"
    else:
        assert verdict(SMALLEST, chainring(teeth=20, **circle), chainset()) == "none"


RINGS = {
    # sheldonbrown.com/cribsheet-bcd.html; velo.outsideonline.com FAQ (36 on 130)
    "36 on 130": (SMALLEST, {"teeth": 36, "bcd_mm": 130, "arms": 5}, {"bcd_mm": 130}, "clash"),
    "38 on 130": (SMALLEST, {"teeth": 38}, {"bcd_mm": 130, "arms": 5}, "fits"),
    "unlisted circle": (SMALLEST, {"teeth": 38, "bcd_mm": 125}, {}, "none"),
    "teeth unknown": (SMALLEST, {"bcd_mm": 130}, {"bcd_mm": 130}, "none"),
    "130 on 110": (RING, {"bcd_mm": 130}, {"bcd_mm": 110}, "clash"),
    "reading of 129.9": (RING, {"bcd_mm": 129.9}, {"bcd_mm": 130}, "fits"),
    "arms not told": (RING, {"bcd_mm": 104}, {"bcd_mm": 104}, "fits"),
    "arms told by one, and clear": (RING, {"bcd_mm": 104, "arms": 4}, {"bcd_mm": 104}, "fits"),
    "arms told by one, and wrong": (RING, {"bcd_mm": 104, "arms": 5}, {"bcd_mm": 104}, "clash"),
    "110 of five and four": (
        RING,
        {"bcd_mm": 110, "arms": 5},
        {"bcd_mm": 110, "arms": 4},
        "clash",
    ),
    "110 of five, other not told": (RING, {"bcd_mm": 110, "arms": 5}, {"bcd_mm": 110}, "measure"),
    "86 of three, other not told": (RING, {"bcd_mm": 86}, {"bcd_mm": 86, "arms": 3}, "measure"),
    "74 on a double of 110": (RING, {"bcd_mm": 74}, {"bcd_mm": 110, "rings": [34, 50]}, "clash"),
    "74 on 110, rings not told": (RING, {"bcd_mm": 74}, {"bcd_mm": 110}, "measure"),
    "circle not told": (RING, {"teeth": 42}, {"bcd_mm": 110}, "measure"),
    "9 beside 10": (RING_WIDTH, {"speeds": 9}, {"speeds": 10}, "fits"),
    "6 beside 8": (RING_WIDTH, {"speeds": 6}, {"speeds": 8}, "fits"),
    "8 beside 11": (RING_WIDTH, {"speeds": 8}, {"speeds": 11}, "adapts"),
    "width not told": (RING_WIDTH, {"speeds": 8}, {}, "none"),
}


@pytest.mark.parametrize(("interface", "ring", "crank", "wanted"), RINGS.values(), ids=RINGS)
def test_chainrings(
    interface: str, ring: dict[str, Any], crank: dict[str, Any], wanted: str
) -> None:
    """Circle and arms must agree, and the ring must clear the bolts."""
    assert wanted == verdict(interface, chainring(**ring), chainset(**crank))


@pytest.mark.parametrize(("outer", "inner"), INNER_OF.items())
def test_inner_ring_of_a_triple(outer: int, inner: int) -> None:
    """A crank with three rings has its smaller circle too."""
    ring = chainring(bcd_mm=inner / 1000)

    assert verdict(RING, ring, chainset(bcd_mm=outer / 1000, rings=[24, 36, 46])) == "fits"
    assert verdict(RING, ring, chainset(bcd_mm=outer / 1000, rings=[36, 46])) == "clash"


@pytest.mark.parametrize("shell", SHELLS)
def test_a_bottom_bracket_goes_in_its_own_shell(shell: str) -> None:
    """Bearing and shell of one kind fit."""
    assert verdict(SHELL, bracket(shell=shell), frame(bb_shell=shell)) == "fits"


SHELL_CASES = {
    # bikeraceinfo.com/tech/bottom-brackets.html; velo.blogger.de (Swiss); skatepro BMX
    "English in Italian": ("english-1.370x24", "italian-36x24", "clash", "threads differ"),
    "French in Swiss": ("french-35x1", "swiss-35x1", "clash", "turns the other way"),
    "English in French": ("english-1.370x24", "french-35x1", "clash", "threads differ"),
    "41 in 46": ("pf41", "pf46", "clash", "bores differ"),
    "37 of both kinds": ("pf37", "spanish-37", "clash", "depth and bearings"),
    "41 of both kinds": ("mid-41", "pf41", "clash", "depth and bearings"),
    "English in a pressed shell": ("english-1.370x24", "pf42", "clash", "pressed in"),
    "English in a one-piece shell": ("english-1.370x24", "onepiece-51", "adapts", "51.3 mm"),
}


@pytest.mark.parametrize(("own", "shell", "wanted", "told"), SHELL_CASES.values(), ids=SHELL_CASES)
def test_shells(own: str, shell: str, wanted: str, told: str) -> None:
    """Other threads and bores do not go, and are never tried."""
    judged = certain(SHELL, bracket(shell=own), frame(bb_shell=shell))

    assert judged.finding.verdict == wanted
    assert told in why(judged.finding)


def test_unknown_shell() -> None:
    """An unknown shell is measured; a bore of 35 mm may be French or Swiss."""
    assert verdict(SHELL, bracket(shell="pf41"), frame()) == "measure"
    assert verdict(SHELL, bracket(shell="french-35x1"), frame(bb_shell=35)) == "measure"
    assert verdict(SHELL, bracket(shell="pf46"), frame(bb_shell=35)) == "clash"


WIDTHS = {
    # dansbikestuff.blogspot.com/2013/11; spacers are common practice
    "same": ({"shell_width_mm": 68, "spindle": "taper-jis"}, 68, "fits"),
    "73 in 68, cartridge": ({"shell_width_mm": 73, "spindle": "taper-jis"}, 68, "clash"),
    "68 in 73": ({"shell_width_mm": 68, "spindle": "integrated-24"}, 73, "clash"),
    "73 in 68, bearings outside": (
        {"shell_width_mm": 73, "spindle": "integrated-24"},
        68,
        "adapts",
    ),
    "73 in 68, spindle unknown": ({"shell_width_mm": 73}, 68, "measure"),
    "width unknown": ({"shell": "pf41", "spindle": "taper-jis"}, 68, "measure"),
}


@pytest.mark.parametrize(("own", "width", "wanted"), WIDTHS.values(), ids=WIDTHS)
def test_shell_widths(own: dict[str, Any], width: float, wanted: str) -> None:
    """The width must be the shell's; outside bearings take spacers."""
    assert wanted == verdict(SHELL_WIDTH, bracket(**own), frame(bb_shell_width_mm=width))


SPINDLES = {
    # jitetan.com octalink; urbanvelo.org issue17; bike-mode.blogspot.com/2009/04
    ("taper-jis", "taper-jis"): "fits",
    ("splined-8x22-short", "splined-8x22-long"): "clash",
    ("splined-8x22-long", "splined-10x21"): "clash",
    ("splined-10x21", "splined-10x21"): "fits",
    ("taper-jis", "splined-10x21"): "clash",
    # moultoneer.wordpress.com and thegoldenwrench.blogspot.com disagree
    ("taper-jis", "taper-iso"): "adapts",
    ("taper-iso", "taper-jis"): "adapts",
    # accidentalrandonneur.wordpress.com/tag/bb92
    ("integrated-24", "integrated-24"): "fits",
    ("integrated-24-22", "integrated-24"): "adapts",
    ("integrated-24", "integrated-24-22"): "clash",
    ("integrated-24", "integrated-30"): "adapts",
    ("integrated-24", "integrated-28.99"): "adapts",
    ("integrated-28.99", "integrated-30"): "clash",
    ("integrated-30", "integrated-24"): "clash",
    ("bmx-19", "bmx-22"): "clash",
    ("onepiece", "onepiece"): "fits",
    ("cottered", "taper-jis"): "clash",
}


@pytest.mark.parametrize(("crank", "spindle"), SPINDLES, ids=lambda value: value)
def test_spindles(crank: str, spindle: str) -> None:
    """A crank goes on its own spindle, or in wider bearings with reducers."""
    parts = chainset(spindle=crank), bracket(spindle=spindle)

    assert SPINDLES[crank, spindle] == verdict(SPINDLE, *parts)


def test_mixed_tapers_are_to_be_looked_at() -> None:
    """The sources disagree on mixed tapers, so the eye decides; 4.5 mm is named."""
    finding = certain(SPINDLE, chainset(spindle="taper-iso"), bracket(spindle="taper-jis")).finding

    assert "contested" in why(finding)
    assert "4.5 mm" in why(finding)
    assert verdict(SPINDLE, chainset(), bracket(spindle="taper-jis")) == "measure"
    assert verdict(SPINDLE, chainset(spindle="taper-jis"), bracket(spindle=22)) == "clash"


LENGTHS = {
    # half of a difference moves the chainline; 0.5 to 2 mm: roadbikereview.com
    "same": (113, 113, {}, "fits"),
    "1 mm longer": (113, 114, {}, "fits"),
    "3 mm longer": (110, 113, {"spindle": "taper-jis"}, "adapts"),
    "5 mm shorter": (113, 108, {"spindle": "taper-jis"}, "clash"),
    "located by a stop": (113, 126, {"spindle": "splined-10x21"}, "none"),
    "spindle of the crank": (113, 126, {"spindle": "integrated-24"}, "none"),
    "not told": (None, 113, {}, "none"),
}


@pytest.mark.parametrize(
    ("wanted_length", "length", "more", "wanted"), LENGTHS.values(), ids=LENGTHS
)
def test_spindle_lengths(
    wanted_length: float | None, length: float, more: dict[str, Any], wanted: str
) -> None:
    """A spindle of another length moves the chainline by half of it."""
    parts = chainset(spindle_length_mm=wanted_length), bracket(spindle_length_mm=length, **more)

    assert wanted == verdict(SPINDLE_LENGTH, *parts)


@pytest.mark.parametrize(("crank", "shell"), CRANKS_IN_SHELLS, ids=lambda value: value)
def test_every_crank_in_its_shell(crank: str, shell: str) -> None:
    """Cranks with a spindle of their own go in shells as published."""
    row = CRANKS_IN_SHELLS[crank, shell]
    parts = chainset(spindle=crank), frame(bb_shell=shell)
    bearings = bracket(shell=shell, spindle=crank)

    assert verdict(CRANK_SHELL, *parts) == ("adapts" if row.adapter or row.caution else "fits")
    assert verdict(CRANK_SHELL, *parts, bearings) == (
        "adapts" if row.caution else "none" if row.adapter else "fits"
    )


def test_cranks_and_shells_beyond_the_table() -> None:
    """A one-piece crank wants its own shell; of pairs without a source nothing is said."""
    onepiece = chainset(spindle="onepiece")

    assert verdict(CRANK_SHELL, onepiece, frame(bb_shell="english-1.370x24")) == "clash"
    assert verdict(CRANK_SHELL, chainset(spindle="taper-jis"), frame(bb_shell="pf46")) == "none"
    assert verdict(CRANK_SHELL, chainset(), frame(bb_shell="pf46")) == "none"
    thin = certain(CRANK_SHELL, chainset(spindle="integrated-30"), frame(bb_shell="pf41"))
    assert "not advised" in why(thin.finding)


PEDAL_CASES: dict[str, tuple[str | None, dict[str, Any], str]] = {
    # lfgss.com/comments/8473736; smontanaro.net/CR/2003/05/0420
    "same": ("9/16x20", {"pedal_thread": "9/16x20"}, "fits"),
    "English pedal in French crank": ("9/16x20", {"pedal_thread": "14x1.25"}, "adapts"),
    "French pedal in English crank": ("14x1.25", {"pedal_thread": "9/16x20"}, "clash"),
    "1/2 in a three-piece crank": ("1/2x20", {"pedal_thread": "9/16x20"}, "clash"),
    "9/16 in a one-piece crank": ("9/16x20", {"spindle": "onepiece"}, "clash"),
    "1/2 in a one-piece crank": ("1/2x20", {"spindle": "onepiece"}, "fits"),
    "9/16 in a crank with its spindle": ("9/16x20", {"spindle": "integrated-24"}, "fits"),
    "square taper does not tell": ("9/16x20", {"spindle": "taper-jis"}, "measure"),
    "unknown pedal": (None, {"pedal_thread": "9/16x20"}, "measure"),
    "French pedal in a one-piece crank": ("14x1.25", {"pedal_thread": "1/2x20"}, "clash"),
}


@pytest.mark.parametrize(("pedal", "crank", "wanted"), PEDAL_CASES.values(), ids=PEDAL_CASES)
def test_pedals(pedal: str | None, crank: dict[str, Any], wanted: str) -> None:
    """Threads must agree; a 14 mm crank is tapped for a 9/16 in pedal."""
    assert wanted == verdict(PEDALS, pedals(pedal_thread=pedal), chainset(**crank))


def test_a_loose_pedal_is_dangerous() -> None:
    """A 14 mm pedal starts in a 9/16 in crank and pulls out."""
    parts = pedals(pedal_thread="14x1.25"), chainset(pedal_thread="9/16x20")

    assert "dangerous" in why(certain(PEDALS, *parts).finding)


@pytest.mark.parametrize("row", CHAINLINES, ids=lambda row: f"to {row.widest_hub / 1000} mm")
def test_every_row_of_chainlines(row: Any) -> None:
    """Within its range a chainline fits a hub of the row, 5 mm off is the limit."""
    hub = rear_wheel(spacing_mm=row.widest_hub / 1000)
    for line, wanted in (
        (row.low, "fits"),
        (row.high, "fits"),
        (row.low - 1500, "adapts"),
        (row.high + 4500, "adapts"),
        (row.high + 5500, "clash"),
    ):
        assert verdict(LINE, chainset(chainline_mm=line / 1000), hub) == wanted


LINES: dict[str, tuple[float | None, Kind, str]] = {
    # renehersecycles.com; mtbr.com 933644; bikeradar.com axle standards
    "road double": (43.5, frame(rear_spacing_mm=130), "fits"),
    "flat-bar triple": (50, frame(rear_spacing_mm=135), "fits"),
    "flat-bar triple on a road hub": (50, rear_wheel(spacing_mm=130), "adapts"),
    "road double on a wide hub": (43.5, rear_wheel(spacing_mm=148), "clash"),
    "track": (42, rear_wheel(spacing_mm=120), "fits"),
    "hub beyond the table": (50, rear_wheel(spacing_mm=160), "none"),
    "front wheel": (50, part("wheel", side="front", spacing_mm=110), "none"),
    "side unknown, narrow": (50, part("wheel", spacing_mm=100), "none"),
    "line unknown": (None, rear_wheel(spacing_mm=130), "none"),
    "width unknown": (50, frame(), "none"),
}


@pytest.mark.parametrize(("line", "holder", "wanted"), LINES.values(), ids=LINES)
def test_chainline(line: float | None, holder: Kind, wanted: str) -> None:
    """The crank's chainline must suit the rear hub's width."""
    assert wanted == verdict(LINE, chainset(chainline_mm=line), holder)
