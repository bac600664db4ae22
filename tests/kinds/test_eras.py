"""Era templates: what is likely of a kind of bike, marked as assumed, and consistent as a bike."""

from __future__ import annotations

import re

import pytest

from partsbin.errors import UsageError
from partsbin.fit.judge import Judgement, judge
from partsbin.fit.verdict import Verdict
from partsbin.fit.words import why
from partsbin.kinds.eras import Template, names, template
from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import BY_NAME
from partsbin.kinds.spec import Spec
from partsbin.standards.tyre_marking import read_marking

TEMPLATES = [template(name) for name in names()]
SOURCELESS = {"common practice, no source", "from memory"}
PUBLISHED = re.compile(r"\w\.\w|Wikipedia '|Stack Exchange '|BMX bottom brackets")
"""An address, or the title of a page."""

LEFT_OPEN = {"tyre_clearance_mm", "fluid"}
"""What no era decides: it is measured on each frame and fork, or read off the brake."""
AS_BUILT = {
    # Mountain and children's bikes came with tyres over twice the rim's inside: the guideline of
    # syseidel.wordpress.com 2016/01/14, which de-rec-fahrrad.de etrtotabelle allows to be passed.
    "tyre width on rim",
    # Tabs 51 mm apart always take a bracket: bikeman.com 1638 disc mounting.
    "disc calliper on frame or fork",
}
"""Interfaces that bikes were sold with although they count as adapted."""

each_template = pytest.mark.parametrize("bike", TEMPLATES, ids=names())


def likely(bike: Template, slot: str) -> Spec:
    """Return what a template says of a slot that it fills."""
    spec = bike.assumed(slot)
    assert spec is not None
    return spec


def judged(bike: Template, *, known: bool) -> Judgement:
    """Return the judgement of a template's whole bike, its values taken as known or as assumed."""
    specs = [likely(bike, slot) for slot in bike.parts]
    if known:
        specs = [Spec(spec.kind, spec.values) for spec in specs]
    return judge([spec.piece for spec in specs], [BY_NAME[slot].end for slot in bike.parts])


def test_there_are_templates_of_every_style_of_frame() -> None:
    """Each style of frame that the vocabulary knows has a template."""
    styles = {str(likely(bike, "frame").get("style")) for bike in TEMPLATES}
    form = KINDS["frame"].attributes["style"].form
    assert styles == set(map(str, form.candidates()))
    assert len(TEMPLATES) >= 12


@each_template
def test_template_is_titled_and_dated(bike: Template) -> None:
    """A template says what bike of which years it is, and its name is plain words and figures."""
    first, last = bike.years
    assert 1900 < first < last < 2100
    assert bike.title
    assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", bike.name)


@each_template
def test_every_row_is_valid_and_has_a_source(bike: Template) -> None:
    """Slots, kinds, attributes and values are the vocabulary's, and each row has its source."""
    for slot, part in bike.parts.items():
        assert part.kind in BY_NAME[slot].kinds
        attributes = [row.attribute for row in part.rows]
        assert len(set(attributes)) == len(attributes)
        assert likely(bike, slot).piece.open_values == {}
        for row in part.rows:
            assert row.source in SOURCELESS or PUBLISHED.search(row.source)


@each_template
def test_tyre_marking_means_its_bead_seat(bike: Template) -> None:
    """The marking that a template's tyre likely bears is read as the bead seat beside it."""
    tyre = likely(bike, "rear tyre")
    marking = read_marking(str(tyre.get("marking")))
    assert marking is not None
    assert tyre.get("bsd_mm") in marking.seats


@each_template
def test_whole_bike_goes_together(bike: Template) -> None:
    """With every value taken as known, no interface of a template's bike clashes."""
    judgement = judged(bike, known=True)
    told = {
        j.rule.name: why(j.finding)
        for j in judgement.interfaces
        if j.finding.verdict is Verdict.CLASH
        or (j.finding.verdict is Verdict.ADAPTS and j.rule.name not in AS_BUILT)
        or any(trial.attribute not in LEFT_OPEN for trial in j.finding.open)
    }
    assert told == {}
    assert len(judgement.interfaces) > 25


@each_template
def test_assumed_bike_is_only_likely(bike: Template) -> None:
    """With every value only assumed the bike must be measured, and each likely answer is good."""
    judgement = judged(bike, known=False)
    assert judgement.verdict is Verdict.MEASURE
    answers = [j.finding.likely.verdict for j in judgement.interfaces if j.finding.likely]
    assert len(answers) > 20
    assert set(answers) <= {Verdict.FITS, Verdict.ADAPTS}


def test_rest_is_filled_and_marked() -> None:
    """What is stated stays known; what is likely besides is filled in and marked as assumed."""
    bike = template("mtb-rigid-1990-1994")
    stated = Spec.check("rear_derailleur", {"speeds": 8})
    spec = bike.assumed("rear derailleur", stated)
    assert spec is not None
    assert spec.get("speeds") == 8
    assert spec.get("index_family") == "ratio-1.7"
    assert spec.assumed == {"index_family", "max_cog", "capacity_teeth", "mount"}


def test_stated_assumption_stays_one() -> None:
    """A value that was assumed before goes before the template's and stays assumed."""
    bike = template("mtb-rigid-1990-1994")
    stated = Spec.check("tyre", {"width_mm": 54}, assumed=["width_mm"])
    spec = bike.assumed("front tyre", stated)
    assert spec is not None
    assert spec.shown()["width_mm"] == "54 mm (assumed)"


def test_side_is_known_from_the_slot() -> None:
    """Where a part is mounted is seen, so that its side is not an assumption."""
    spec = likely(template("road-9-speed-2000s"), "rear wheel")
    assert spec.get("side") == "rear"
    assert "side" not in spec.assumed


def test_part_of_another_kind_is_left_alone() -> None:
    """A freewheel where a cassette is likely is taken as it is stated."""
    stated = Spec.check("freewheel", {"speeds": 7})
    assert template("mtb-rigid-1990-1994").assumed("sprockets", stated) == stated


def test_likely_empty_slot() -> None:
    """A slot that such a bike leaves empty gives nothing, or what is stated."""
    bike = template("city-3-speed-26")
    stated = Spec.check("front_derailleur", {"rings": 2})
    assert bike.assumed("front derailleur") is None
    assert bike.assumed("front derailleur", stated) == stated


def test_assumed_value_never_decides_and_names_the_likely_answer() -> None:
    """A post in a frame of which only the era is known must be measured, and likely fits."""
    frame = likely(template("road-12-speed-1980s"), "frame")
    post = Spec.check("seatpost", {"diameter_mm": 27.2})
    judgement = judge([frame.piece, post.piece])
    assert judgement.verdict is Verdict.MEASURE
    seat = next(j for j in judgement.interfaces if j.rule.name == "seatpost in seat tube")
    assert "seat tube bore of the frame is only assumed" in why(seat.finding)
    assert "likely fits" in why(seat.finding)


@pytest.mark.parametrize("typed", ["MTB rigid 1990-1994", "mtb_rigid_1990_1994"])
def test_name_is_read_loosely(typed: str) -> None:
    """Capitals, spaces and underscores do not matter in a template's name."""
    assert template(typed).name == "mtb-rigid-1990-1994"


@pytest.mark.parametrize(
    ("typed", "hint"),
    [
        ("mtb-rigid-1990", "did you mean 'mtb-rigid-1990-1994'?"),
        ("../slots", "known are bmx-20, city-3-speed-26"),
        ("", "known are bmx-20"),
    ],
)
def test_unknown_name_offers_what_is_known(typed: str, hint: str) -> None:
    """An unknown template is refused with the nearest name, or with all of them."""
    with pytest.raises(UsageError, match="unknown era template") as refused:
        template(typed)
    assert hint in str(refused.value)


def test_unknown_slot_offers_the_nearest() -> None:
    """An unknown slot is refused with the nearest one."""
    with pytest.raises(ValueError, match="did you mean 'rear wheel'"):
        template("bmx-20").assumed("rear weel")
