"""What holds of every judgement, over random parts of all kinds with some attributes known."""

from __future__ import annotations

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from partsbin.fit.judge import Judgement, judge
from partsbin.fit.rules import RULES
from partsbin.fit.verdict import Verdict
from partsbin.fit.words import as_data, headline
from partsbin.kinds import KINDS
from partsbin.kinds.kind import Kind
from partsbin.kinds.spec import Spec
from tests.fit.made_parts import Attributes, any_value, made, some_of

SETS = 8
"""Sets of parts in one example."""
ADAPTERS = frozenset(
    {
        "bar_shim",
        "brake_adapter",
        "housing",
        "pull_adapter",
        "pump_head",
        "seatpost_shim",
        "valve_extender",
        "valve_grommet",
    }
)
"""Kinds that a rule names as what makes two others go together."""
MARKERS = frozenset(
    {"side", "mount", "axle", "rear_axle", "fluid", "brake_pull", "brake_cable_head", "type"}
    | {"brake_mounts", "friction", "speeds", "front_pull", "pull_per_click_mm", "spindle"}
    | {"bcd_mm", "arms", "rings", "thread", "steerer", "rotor_mount", "brake_track", "index_family"}
)
"""Attributes that may tell that two parts do not meet in a way at all."""
USUAL = {
    # Unknown spacing, pitch and thickness of sprockets are the standard ones.
    "chain on sprockets": {"spacing", "pitch_mm", "cog_thickness_mm"},
    # Where neither side tells the arms, the bolt circle is all that is asked.
    "chainring on crank": {"arms"},
    # A shifter clicks unless it is known that it does not.
    "front shifter and derailleur": {"friction"},
    # Parts of one family are made for each other; figures measured in its place only come near.
    "rear indexing": {
        "index_family",
        "pull_per_click_mm",
        "speeds",
        "pitch_mm",
        "spacing",
        "ratio",
    },
    # Of a bar whose middle is not known, the part beside it counts.
    "second lever on handlebar": {"clamp_mm"},
    # Bosses stand on a usual tube, and a skewer is tried in a hub with a hollow axle.
    "shifter on down tube": {"down_tube_od_mm"},
    "skewer in hub": {"axle"},
    # A steerer of which no taper is known is straight where a straight one goes bare.
    "steerer in head tube, lower end": {"steerer_lower_mm", "steerer_mm", "crown_race_mm"},
    # An adapter of the steerer's bore is named though the bore is not known.
    "stem in fork": {"steerer_mm", "steerer_bore_mm"},
    # Rims are crochet unless it is known that they are not.
    "tyre width on rim": {"rim_type"},
    # What turns under the crown, or has no braking track, is not asked for its brake.
    "wheel size in fork": {"wheel_bsd_mm", "brake_mounts"},
    "wheel size in frame": {"brake_mounts"},
}
"""Interfaces that take what is not known for the usual, so that a rarer value changes them."""

seeds = st.integers(0, 2**32 - 1)
steady = settings(max_examples=120, derandomize=True, deadline=None)


def draw_kinds(draw: random.Random) -> list[str]:
    """Return kinds that meet in one rule, without some of those that it can do without."""
    rule = draw.choice(RULES)
    return [
        draw.choice([word for word in KINDS if parameter.takes(word)])
        for parameter in rule.parameters
        if not parameter.optional or draw.random() < 0.6
    ]


def draw_parts(draw: random.Random) -> list[tuple[str, Attributes]]:
    """Return parts that meet in one rule, each with some of its attributes; a side is known."""
    parts = []
    for kind in draw_kinds(draw):
        held = made(kind, draw)
        side = {"side": held["side"]} if "side" in held else {}
        parts.append((kind, {**some_of(held, draw), **side}))
    return parts


def pieces(parts: list[tuple[str, Attributes]]) -> list[Kind]:
    """Return the pieces that the rules see."""
    return [Spec.check(kind, held).piece for kind, held in parts]


def verdicts(judgement: Judgement) -> dict[str, Verdict]:
    """Return the verdict of each interface."""
    return {judged.rule.name: judged.finding.verdict for judged in judgement.interfaces}


@given(seeds)
@steady
def test_order_never_matters(seed: int) -> None:
    """Verdict, interfaces and what is unchecked are the same in every order of the parts."""
    draw = random.Random(seed)
    for _ in range(SETS):
        there = pieces(draw_parts(draw))
        back = draw.sample(there, len(there))
        one, other = judge(there), judge(back)
        assert one.verdict is other.verdict
        assert verdicts(one) == verdicts(other)
        assert set(one.unchecked) == set(other.unchecked)


@given(seeds)
@steady
def test_equal_specs_judge_equal(seed: int) -> None:
    """A part written down and read again is judged in the same words."""
    draw = random.Random(seed)
    for _ in range(SETS):
        first = pieces(draw_parts(draw))
        again = [Spec.from_text(piece.spec.text).piece for piece in first]
        assert as_data(judge(first)) == as_data(judge(again))


@given(seeds)
@steady
def test_what_becomes_known_never_contradicts(seed: int) -> None:
    """A verdict that stood while a value was unknown stands when the value is known.

    It may only fall away, where the value tells that the parts do not meet in that way at all (a
    hydraulic lever asks nothing of a cable); and where an interface takes the unknown for the
    usual, which `USUAL` lists, a rarer value may change it. Values of one part agree.
    """
    draw = random.Random(seed)
    for _ in range(SETS):
        parts = draw_parts(draw)
        places = [(at, name) for at, (_, held) in enumerate(parts) for name in held]
        places = [place for place in places if place[1] != "side"]
        if not places:
            continue
        at, name = draw.choice(places)
        kind, held = parts[at]
        hidden = [*parts]
        hidden[at] = (kind, {other: held[other] for other in held if other != name})
        known = verdicts(judge(pieces(parts)))
        for interface, stood in verdicts(judge(pieces(hidden))).items():
            if stood is Verdict.MEASURE or name in USUAL.get(interface, ()):
                continue
            if interface not in known:
                assert name in MARKERS, (interface, stood, kind, name)
            else:
                assert known[interface] is stood, (interface, kind, name, held[name])


@given(seeds)
@steady
def test_another_part_never_removes_a_clash(seed: int) -> None:
    """A clash stays when a part is added that is no adapter.

    A rim is an exception where it mends the reach: another wheel puts the pads elsewhere. What an
    added part can do is let a question rest: an interface of which neither side has a word recorded
    is asked only while its parts say nothing elsewhere.
    """
    draw = random.Random(seed)
    for _ in range(SETS):
        parts = pieces(draw_parts(draw))
        kind = draw.choice([word for word in KINDS if word not in ADAPTERS])
        added = Spec.check(kind, some_of(made(kind, draw), draw)).piece
        before, after = verdicts(judge(parts)), verdicts(judge([*parts, added]))
        for interface, stood in before.items():
            if stood is not Verdict.CLASH:
                continue
            if interface == "reach of calliper" and kind in {"rim", "wheel"}:
                continue
            assert after[interface] is Verdict.CLASH, (interface, kind)


@given(seeds)
@steady
def test_no_parts_are_too_odd_to_judge(seed: int) -> None:
    """Parts with any allowed values, even such as contradict each other, get a judgement."""
    draw = random.Random(seed)
    for _ in range(SETS):
        parts = []
        for kind in draw_kinds(draw):
            held = {n: any_value(a.form, draw) for n, a in KINDS[kind].attributes.items()}
            parts.append((kind, some_of(held, draw)))
        judgement = judge(pieces(parts))
        told = as_data(judgement)
        assert told["verdict"] == max(
            verdicts(judgement).values(), default=Verdict.FITS, key=lambda v: v.rank
        )
        assert headline(judgement)
