"""Tyre on rim: bead seats from numbers and markings, widths, rim edges, clearance."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.fit.judge import judge
from partsbin.fit.words import as_data, why
from partsbin.kinds.kind import Kind
from partsbin.kinds.spec import Spec
from partsbin.standards.rim_widths import MEASURING_RIMS, ROWS
from tests.fit.brake_parts import certain, verdict
from tests.fit.wheel_parts import fork, frame, rim, tyre, wheel

SEAT = "tyre on rim"
WIDTH = "tyre width on rim"
EDGE = "tyre bead on rim edge"
IN_FRAME = "tyre clearance in frame"
IN_FORK = "tyre clearance in fork"

SEATS = {
    # ratrodbikes.com posts/1021414
    "26x1.95 on 26x1 3/8": (tyre(marking="26x1.95"), 590, "clash"),
    # bikeshedva.blogspot.com 2017/03
    "590 on the rim of 26x1.375": (tyre(bsd_mm=590), 599, "clash"),
    "26x1.375 on its rim": (tyre(marking="26x1.375"), 599, "fits"),
    "26x1 3/8 on the rim of 26x1.375": (tyre(marking="26x1 3/8"), 599, "clash"),
    # bicycle-hangar.com; archive.roadbikereview.com
    "26x1.75 on 26x1 3/4": (tyre(marking="26x1.75"), 571, "clash"),
    "26x1 3/4 on 26x1.75": (tyre(marking="26x1 3/4"), 559, "clash"),
    "29 in on 700C": (tyre(marking="29x2.1"), 622, "fits"),
    "29 in on 700C by numbers": (tyre(bsd_mm=622), 622, "fits"),
    # bikeforums.net archive t-633731
    "40-406 on 20x2.125": (tyre(marking="40-406"), 406, "fits"),
    "20x1 3/8 on 20x2.125": (tyre(marking="20x1 3/8"), 406, "clash"),
    # cyclinglabs.net tyre-sizes-explained
    "27x1 3/8 on 27x1 1/4": (tyre(marking="27x1 3/8"), 630, "fits"),
    "26x1.5 on 650B": (tyre(marking="26x1.5"), 584, "clash"),
    # bikefix.co.uk/tyre-and-wheel-sizes
    "540 on 541": (tyre(bsd_mm=540), 541, "fits"),
    "541 on 540": (tyre(bsd_mm=541), 540, "fits"),
    "540 on 547": (tyre(bsd_mm=540), 547, "clash"),
    # By the rule: bead seats must be equal.
    "590 on 597": (tyre(bsd_mm=590), 597, "clash"),
    "597 on 590": (tyre(bsd_mm=597), 590, "clash"),
    "584 on 559": (tyre(bsd_mm=584), 559, "clash"),
    "27 in on 700C": (tyre(marking="27x1 1/4"), 622, "clash"),
    "700C on 27 in": (tyre(marking="700x28C"), 630, "clash"),
    "27.5 is not 27": (tyre(marking="27.5x2.25"), 630, "clash"),
    # Ambiguous names: sheldonbrown.com/26.html; syseidel.wordpress.com 2016/01/14
    "26x1 3/8 on 590": (tyre(marking="26x1 3/8"), 590, "measure"),
    "26x1 3/8 on 597": (tyre(marking="26x1 3/8"), 597, "measure"),
    "26x1 3/8 on 559": (tyre(marking="26x1 3/8"), 559, "clash"),
    "26x1 3/8 with S-6 on 597": (tyre(marking="26x1 3/8 S-6"), 597, "fits"),
    "26x1.25 on 559": (tyre(marking="26x1.25"), 559, "measure"),
    "26 alone on 559": (tyre(marking="26"), 559, "measure"),
    "26 alone on 622": (tyre(marking="26"), 622, "clash"),
    "28x1 1/2 on 635": (tyre(marking="28x1 1/2"), 635, "measure"),
    "28x1 1/2 F10 on 635": (tyre(marking="28x1 1/2 F10"), 635, "fits"),
    "24x1 3/8 on 540": (tyre(marking="24x1 3/8"), 540, "measure"),
    "20x1 3/4 on 419": (tyre(marking="20x1 3/4"), 419, "measure"),
    "20x1 3/4 on 406": (tyre(marking="20x1 3/4"), 406, "clash"),
    "28 alone on 622": (tyre(marking="28"), 622, "measure"),
    # Numbers win over what is printed.
    "number and other marking": (tyre(bsd_mm=571, marking="26x1.75"), 571, "fits"),
    "number settles the name": (tyre(bsd_mm=590, marking="26x1 3/8"), 590, "fits"),
    "number against the name": (tyre(bsd_mm=559, marking="700x28C"), 622, "clash"),
    # Nothing is known, or the marking is not understood.
    "nothing on the tyre": (tyre(), 622, "measure"),
    "worn marking": (tyre(marking="winter"), 622, "measure"),
    "reading between two sizes": (tyre(bsd_mm=593.5), 590, "measure"),
}


@pytest.mark.parametrize("holder", [rim, wheel], ids=["rim", "wheel"])
@pytest.mark.parametrize(("one", "seat", "wanted"), SEATS.values(), ids=SEATS)
def test_bead_seat(one: Kind, seat: float, wanted: str, holder: Any) -> None:
    """Tyres go on rims of their own bead seat, however it is told; so says the whole verdict."""
    assert wanted == verdict(SEAT, one, holder(bsd_mm=seat))
    assert wanted == judge([one, holder(bsd_mm=seat)]).verdict


def test_unknown_rim_is_measured() -> None:
    """A rim of unknown size is to be measured, and the text says how and what each size means."""
    judged = certain(SEAT, tyre(marking="700x28C"), rim())
    text = why(judged.finding)

    assert "bsd of the rim is not known" in text
    assert "fits if 622 mm" in text


def test_ambiguous_marking_says_how_to_tell() -> None:
    """A name with two bead seats lists them and the way to tell: bikeshedva 2017/03."""
    text = why(certain(SEAT, tyre(marking="26x1 3/8"), rim(bsd_mm=590)).finding)

    assert "three-digit number" in text
    assert "E.A.1 on the side wall is 597" in text
    assert "fits if 590 mm, clash if 597 mm" in text


def test_contradiction_is_said() -> None:
    """A marking that means another bead seat than the recorded number is pointed out."""
    odd = why(certain(SEAT, tyre(bsd_mm=571, marking="26x1.75"), rim(bsd_mm=571)).finding)
    even = why(certain(SEAT, tyre(bsd_mm=559, marking="26x1.75"), rim(bsd_mm=559)).finding)

    assert "marking means 559 mm" in odd
    assert "means" not in even


@pytest.mark.parametrize(
    ("seat", "dangerous"), [(630, True), (635, False), (584, False)], ids=["8 over", "13 over", "x"]
)
def test_loose_tyre_is_dangerous(seat: float, dangerous: bool) -> None:
    """A tyre a little too large goes on and comes off under pressure; a smaller one never goes."""
    assert dangerous is certain(SEAT, tyre(bsd_mm=seat), rim(bsd_mm=622)).finding.dangerous


def test_assumed_marking_never_decides() -> None:
    """A marking that is only assumed gives measure with the likely answer."""
    said = {"marking": "37-622", "width_mm": 37}
    assumed = Spec.check("tyre", said, assumed=["marking"]).piece
    finding = certain(SEAT, assumed, rim(bsd_mm=622, rim_inner_mm=19, rim_type="crochet")).finding

    assert finding.verdict == "measure"
    assert "likely fits" in why(finding)


def test_known_marking_goes_before_assumed_number() -> None:
    """A printed size counts although a number was assumed before."""
    piece = Spec.check("tyre", {"marking": "37-622", "bsd_mm": 559}, assumed=["bsd_mm"]).piece

    assert verdict(SEAT, piece, rim(bsd_mm=622)) == "fits"


# ETRTO 2006 (de-rec-fahrrad.de etrtotabelle), guideline syseidel.wordpress.com 2016/01/14.
WIDTHS = {
    "23 on 15": (23, 15, "fits"),
    "25 on 17": (25, 17, "fits"),
    "28 on 17": (28, 17, "fits"),
    "28 on 19": (28, 19, "fits"),
    "35 on 19": (35, 19, "fits"),
    # Past twice the inner width but in the table.
    "37 on 17": (37, 17, "adapts"),
    "50 on 17": (50, 17, "adapts"),
    "47 on 19": (47, 19, "adapts"),
    "62 on 19": (62, 19, "adapts"),
    "32 on 15": (32, 15, "adapts"),
    # In the table but under the guideline.
    "18 on 13": (18, 13, "adapts"),
    # Outside the table.
    "25 on 19": (25, 19, "clash"),
    "23 on 17": (23, 17, "clash"),
    "28 on 13": (28, 13, "clash"),
    "54 on 17": (54, 17, "clash"),
    "40 on 25": (40, 25, "clash"),
    # recommended_tire_size_chart.pdf of a rim maker
    "23 on 24": (23, 24, "clash"),
    # bikeforums.net 16974279: the rule wants 30.4
    "28.6 on 21": (28.6, 21, "clash"),
    # Between two rows.
    "28 on 18": (28, 18, "fits"),
    "25 on 18": (25, 18, "clash"),
    "40 on 24": (40, 24, "fits"),
    "35 on 24": (35, 24, "clash"),
    "40 on 16": (40, 16, "adapts"),
    "54 on 16": (54, 16, "clash"),
    # The table is silent: the guideline, and measuring rims of vittoria.com 2020 ETRTO.
    "20 on 12": (20, 12, "fits"),
    "16 on 12": (16, 12, "clash"),
    "54 on 35": (54, 35, "fits"),
    "45 on 35": (45, 35, "clash"),
    "60 on 30": (60, 30, "fits"),
    "62 on 30": (62, 30, "adapts"),
    "65 on 29": (65, 29, "adapts"),
    "71 on 30": (71, 30, "clash"),
    "98 on 80": (98, 80, "fits"),
    "65 on 19": (65, 19, "clash"),
}


@pytest.mark.parametrize(("width", "inner", "wanted"), WIDTHS.values(), ids=WIDTHS)
def test_width_on_rim(width: float, inner: float, wanted: str) -> None:
    """A width is judged by the table, then the guideline; past the guideline it is marginal."""
    parts = tyre(width_mm=width), rim(rim_inner_mm=inner)

    assert wanted == verdict(WIDTH, *parts)
    assert wanted == judge(parts).verdict


def test_width_says_since_when_it_is_listed() -> None:
    """The edition of 2006 widened the table; what only it has is said to be so."""
    old = why(certain(WIDTH, tyre(width_mm=47), rim(rim_inner_mm=19)).finding)
    new = why(certain(WIDTH, tyre(width_mm=50), rim(rim_inner_mm=19)).finding)

    assert "before 2006" not in old
    assert "not in the table before 2006" in new


@pytest.mark.parametrize("row", ROWS, ids=[f"{row.inner}C" for row in ROWS])
def test_each_row_of_the_table(row: Any) -> None:
    """Each row's narrowest and widest tyre goes, the next ones do not: ETRTO 2006."""
    inner = row.inner

    assert verdict(WIDTH, tyre(width_mm=row.narrowest), rim(rim_inner_mm=inner)) != "clash"
    assert verdict(WIDTH, tyre(width_mm=row.widest), rim(rim_inner_mm=inner)) != "clash"
    assert verdict(WIDTH, tyre(width_mm=row.narrowest - 1), rim(rim_inner_mm=inner)) == "clash"
    if row.widest < 62:
        assert verdict(WIDTH, tyre(width_mm=row.widest + 1), rim(rim_inner_mm=inner)) == "clash"


@pytest.mark.parametrize("row", MEASURING_RIMS, ids=[f"{r.inner} mm" for r in MEASURING_RIMS])
def test_measuring_rims_are_no_clash_for_new_tyres(row: Any) -> None:
    """A tyre made since 2020 goes on the rim that it is measured on: vittoria.com 2020 ETRTO."""
    for width in (row.narrowest, row.widest):
        new = tyre(width_mm=width, made_year=2021)
        assert verdict(WIDTH, new, rim(rim_inner_mm=row.inner)) in {"fits", "adapts"}


def test_measuring_rim_counts_only_for_new_tyres() -> None:
    """What was made before 2020, or when is not known, is judged by the older table."""
    assert verdict(WIDTH, tyre(width_mm=25, made_year=2021), rim(rim_inner_mm=19)) == "adapts"
    assert verdict(WIDTH, tyre(width_mm=25, made_year=2015), rim(rim_inner_mm=19)) == "clash"


def test_width_comes_from_the_marking() -> None:
    """A printed width counts: 700x23 is too narrow for 24 mm, 26x2.0 is listed as 50."""
    assert verdict(WIDTH, tyre(marking="700x23"), rim(rim_inner_mm=24)) == "clash"
    assert verdict(WIDTH, tyre(marking="26x2.0"), rim(rim_inner_mm=17)) == "adapts"
    assert verdict(WIDTH, tyre(marking="26x1 3/8"), rim(rim_inner_mm=21)) == "fits"
    assert verdict(WIDTH, tyre(marking="700x23", width_mm=35), rim(rim_inner_mm=24)) == "clash"


def test_printed_width_alone_asks_nothing() -> None:
    """A marking settles the bead seat; that the rim's inside is unknown is only noted."""
    judgement = judge([tyre(marking="700x28C"), rim(bsd_mm=622)])

    assert judgement.verdict == "fits"
    assert WIDTH in judgement.unchecked


def test_recorded_width_asks_for_the_rim() -> None:
    """A recorded width with a rim of unknown inside is to be measured there."""
    found = as_data(judge([tyre(width_mm=28), rim()]))["interfaces"]

    assert isinstance(found, list)
    assert "rim_inner_mm" in [m["attribute"] for row in found for m in row.get("measure", ())]


HOOKLESS = {
    # Chris_King_Wheel_Tire_Statement.pdf: on 25 mm, 28 under ETRTO 2022 and 29 under 2023
    "28 on 25": (28, 25, "adapts"),
    "29 on 25": (29, 25, "fits"),
    "27 on 25": (27, 25, "clash"),
    "50 on 30": (50, 30, "fits"),
    "62 on 30": (62, 30, "adapts"),
    "71 on 25": (71, 25, "clash"),
}


@pytest.mark.parametrize(("width", "inner", "wanted"), HOOKLESS.values(), ids=HOOKLESS)
def test_width_on_hookless_rim(width: float, inner: float, wanted: str) -> None:
    """On a hookless rim the tyre is wider than the inside, by the newer edition 4 mm."""
    holder = rim(rim_inner_mm=inner, rim_type="hookless")

    assert wanted == verdict(WIDTH, tyre(width_mm=width, tubeless="yes"), holder)


def test_width_on_straight_side_rim() -> None:
    """The table of 2006 is for crochet rims; straight sides go by the guideline."""
    old = rim(rim_inner_mm=19, rim_type="straight-side")

    assert verdict(WIDTH, tyre(width_mm=35), old) == "fits"
    assert verdict(WIDTH, tyre(width_mm=62), old) == "clash"


EDGES = {
    # BS ISO 5775-2:2015
    "rigid on straight side": (tyre(bead="rigid"), "straight-side", "fits"),
    "folding on straight side": (tyre(bead="folding"), "straight-side", "clash"),
    "unknown on straight side": (tyre(), "straight-side", "measure"),
    "folding on crochet": (tyre(bead="folding"), "crochet", "fits"),
    "unknown on crochet": (tyre(), "crochet", "fits"),
    # Chris_King_Wheel_Tire_Statement.pdf
    "tubeless on hookless": (tyre(tubeless="yes"), "hookless", "fits"),
    "tube type on hookless": (tyre(tubeless="no"), "hookless", "clash"),
    "unknown on hookless": (tyre(bead="folding"), "hookless", "measure"),
    "folding on an unknown rim": (tyre(bead="folding"), None, "measure"),
    "rigid and tubeless on any": (tyre(bead="rigid", tubeless="yes"), None, "fits"),
}


@pytest.mark.parametrize(("one", "edge", "wanted"), EDGES.values(), ids=EDGES)
def test_bead_on_edge(one: Kind, edge: str | None, wanted: str) -> None:
    """Straight sides need a rigid bead, hookless rims a tubeless tyre, hooks hold all."""
    assert wanted == verdict(EDGE, one, rim(rim_type=edge))


def test_edge_clashes_are_dangerous_and_hookless_names_its_pressure() -> None:
    """A bead that is blown off is dangerous; a hookless rim takes at most 5 bar."""
    slipped = certain(EDGE, tyre(bead="folding"), rim(rim_type="straight-side")).finding
    blown = certain(EDGE, tyre(tubeless="no"), rim(rim_type="hookless")).finding
    good = certain(EDGE, tyre(tubeless="yes"), rim(rim_type="hookless")).finding

    assert "dangerous" in why(slipped)
    assert "dangerous" in why(blown)
    assert "5 bar" in why(good)


CLEAR = {
    "narrower": (tyre(width_mm=37), 40, "fits"),
    "equal": (tyre(width_mm=40), 40, "fits"),
    "wider": (tyre(width_mm=42), 40, "clash"),
    "from the marking": (tyre(marking="26x2.1"), 53, "fits"),
    "marking too wide": (tyre(marking="26x2.35"), 53, "clash"),
    "width not known": (tyre(bsd_mm=622), 40, "measure"),
}


@pytest.mark.parametrize(("one", "widest", "wanted"), CLEAR.values(), ids=CLEAR)
def test_clearance(one: Kind, widest: float, wanted: str) -> None:
    """The widest tyre that a frame or fork leaves room for is the limit: 16 CFR 1512.11."""
    assert wanted == verdict(IN_FRAME, one, frame(tyre_clearance_mm=widest))
    assert wanted == verdict(IN_FORK, one, fork(tyre_clearance_mm=widest))


def test_unknown_clearance_is_measured() -> None:
    """A known tyre and a frame of unknown clearance ask for it by name."""
    found = certain(IN_FRAME, tyre(width_mm=40), frame()).finding

    assert [trial.attribute for trial in found.open] == ["tyre_clearance_mm"]
