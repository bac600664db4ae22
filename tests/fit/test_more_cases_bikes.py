"""Whole bikes of some 25 parts: good ones, and the same with one thing wrong."""

from __future__ import annotations

import random

import pytest

from partsbin.fit.judge import Judgement, judge
from partsbin.fit.verdict import Verdict
from partsbin.fit.words import why
from tests.fit.written_parts import piece

MOUNTAIN = {
    "frame": "frame material=steel seat_tube_bore_mm=27.2 seat_tube_od_mm=28.6 head_tube_upper=EC34"
    " head_tube_lower=EC34 head_tube_length_mm=130 bb_shell=english-1.370x24 bb_shell_width_mm=68"
    " rear_spacing_mm=135 rear_axle=qr brake_mounts=[canti-boss] wheel_bsd_mm=559"
    " dropout_slot_mm=10 tyre_clearance_mm=60 fd_mount=clamp hanger=integral"
    " bottle_bosses=yes chainstay_mm=430",
    "fork": "fork steerer=threadless steerer_mm=28.6 steerer_lower_mm=28.6 steerer_length_mm=196"
    " crown_race_mm=30 material=steel axle=qr spacing_mm=100 brake_mounts=[canti-boss]"
    " wheel_bsd_mm=559 dropout_slot_mm=9 tyre_clearance_mm=60",
    "headset": "headset steerer=threadless steerer_mm=28.6 upper=EC34 lower=EC34 crown_race_mm=30"
    " stack_mm=28",
    "stem": "stem type=threadless steerer_clamp_mm=28.6 bar_clamp_mm=25.4 height_mm=40",
    "handlebar": "handlebar style=flat clamp_mm=25.4 grip_mm=22.2",
    "grips": "grips inner_mm=22.2",
    "left lever": "brake_lever side=left mount=grip bar_mm=22.2 brake_pull=long"
    " brake_cable_head=barrel",
    "right lever": "brake_lever side=right mount=grip bar_mm=22.2 brake_pull=long"
    " brake_cable_head=barrel",
    "front brake": "rim_brake side=front type=linear-pull",
    "rear brake": "rim_brake side=rear type=linear-pull",
    "front shifter": "shifter side=front mount=bar-clamp bar_mm=22.2 speeds=3 friction=no"
    " front_pull=flat-bar shift_cable_head=large",
    "rear shifter": "shifter side=rear mount=bar-clamp bar_mm=22.2 speeds=8 friction=no"
    " index_family=ratio-1.7 shift_cable_head=large",
    "front derailleur": "front_derailleur mount=clamp clamp_mm=28.6 front_pull=flat-bar rings=3"
    " max_ring=42 capacity_teeth=22",
    "rear derailleur": "rear_derailleur index_family=ratio-1.7 speeds=8 max_cog=34"
    " capacity_teeth=43 mount=hanger",
    "cassette": "cassette speeds=8 spacing=standard cogs=[11,13,15,17,20,23,26,32]"
    " spline=one-wide-spline-35",
    "chain": "chain speeds=8 links=110 wear_percent=0.2",
    "chainset": "chainset rings=[22,32,42] bcd_mm=104 arms=4 spindle=taper-jis"
    " spindle_length_mm=113 speeds=8 pedal_thread=9/16x20",
    "bottom bracket": "bottom_bracket shell=english-1.370x24 shell_width_mm=68 spindle=taper-jis"
    " spindle_length_mm=113",
    "pedals": "pedals pedal_thread=9/16x20",
    "front wheel": "wheel side=front bsd_mm=559 rim_inner_mm=21 rim_type=crochet rim_depth_mm=20"
    " spacing_mm=100 axle=qr axle_mm=9 brake_track=yes valve_hole_mm=8.5 rotor_mount=none",
    "rear wheel": "wheel side=rear bsd_mm=559 rim_inner_mm=21 rim_type=crochet rim_depth_mm=20"
    " spacing_mm=135 axle=qr axle_mm=10 brake_track=yes valve_hole_mm=8.5 rotor_mount=none"
    " driver=one-wide-spline-35",
    "tyre": "tyre bsd_mm=559 width_mm=40 bead=rigid",
    "tube": "tube bsd_mm=559 width_min_mm=35 width_max_mm=48 valve=schrader valve_length_mm=40",
    "seatpost": "seatpost diameter_mm=27.2 rails=round-7 length_mm=350 insertion_mark_mm=75",
    "saddle": "saddle rails=round-7",
    "collar": "seat_clamp diameter_mm=28.6",
}
ROAD = MOUNTAIN | {
    "frame": "frame material=steel seat_tube_bore_mm=27.2 seat_tube_od_mm=28.6"
    " head_tube_upper=EC30.2-iso head_tube_lower=EC30.2-iso head_tube_length_mm=120"
    " bb_shell=english-1.370x24 bb_shell_width_mm=68 rear_spacing_mm=130 rear_axle=qr"
    " brake_mounts=[calliper-recessed] brake_reach_mm=45 wheel_bsd_mm=622 dropout_slot_mm=10"
    " tyre_clearance_mm=30 fd_mount=braze-on hanger=integral chainstay_mm=410",
    "fork": "fork steerer=threaded steerer_mm=25.4 thread=24tpi steerer_bore_mm=22.2"
    " steerer_length_mm=161 crown_race_mm=26.4 material=steel axle=qr spacing_mm=100"
    " brake_mounts=[calliper-recessed] brake_reach_mm=45 wheel_bsd_mm=622 dropout_slot_mm=9"
    " tyre_clearance_mm=30",
    "headset": "headset steerer=threaded steerer_mm=25.4 thread=24tpi upper=EC30.2-iso"
    " lower=EC30.2-iso crown_race_mm=26.4 stack_mm=41",
    "stem": "stem type=quill quill_mm=22.2 bar_clamp_mm=26.0",
    "handlebar": "handlebar style=drop clamp_mm=26.0 grip_mm=23.8",
    "grips": "bar_tape",
    "left lever": "combined_lever side=front bar_mm=23.8 mount=grip brake_pull=short speeds=2"
    " front_pull=road friction=no brake_cable_head=pear shift_cable_head=large",
    "right lever": "combined_lever side=rear bar_mm=23.8 mount=grip brake_pull=short speeds=9"
    " index_family=ratio-1.7 friction=no brake_cable_head=pear shift_cable_head=large",
    "front brake": "rim_brake side=front type=dual-pivot bolt=recessed reach_min_mm=39"
    " reach_max_mm=49",
    "rear brake": "rim_brake side=rear type=dual-pivot bolt=recessed reach_min_mm=39"
    " reach_max_mm=49",
    "front shifter": "bottle_cage",
    "rear shifter": "brake_cable brake_cable_head=pear diameter_mm=1.6",
    "front derailleur": "front_derailleur mount=braze-on front_pull=road rings=2 max_ring=52"
    " capacity_teeth=14",
    "rear derailleur": "rear_derailleur index_family=ratio-1.7 speeds=9 max_cog=27"
    " capacity_teeth=29 mount=hanger",
    "cassette": "cassette speeds=9 spacing=standard cogs=[12,13,14,15,17,19,21,23,25]"
    " spline=one-wide-spline-35",
    "chain": "chain speeds=9 links=108 wear_percent=0.1",
    "chainset": "chainset rings=[39,52] bcd_mm=130 arms=5 spindle=splined-8x22-short speeds=9"
    " pedal_thread=9/16x20",
    "bottom bracket": "bottom_bracket shell=english-1.370x24 shell_width_mm=68"
    " spindle=splined-8x22-short",
    "front wheel": "wheel side=front bsd_mm=622 rim_inner_mm=15 rim_type=crochet rim_depth_mm=20"
    " spacing_mm=100 axle=qr axle_mm=9 brake_track=yes valve_hole_mm=6.5 rotor_mount=none",
    "rear wheel": "wheel side=rear bsd_mm=622 rim_inner_mm=15 rim_type=crochet rim_depth_mm=20"
    " spacing_mm=130 axle=qr axle_mm=10 brake_track=yes valve_hole_mm=6.5 rotor_mount=none"
    " driver=one-wide-spline-35",
    "tyre": "tyre marking=25-622 bead=folding",
    "tube": "tube bsd_mm=622 width_min_mm=18 width_max_mm=28 valve=presta valve_length_mm=48",
}
ROAD["frame"] += " bottle_bosses=yes"
BIKES = {"mountain": MOUNTAIN, "road": ROAD}


def whole(bike: dict[str, str], **changed: str) -> Judgement:
    """Return the judgement of a bike, some of its parts with other attributes added or changed."""
    written = dict(bike)
    for slot, attributes in changed.items():
        written[slot.replace("_", " ")] += f" {attributes}"
    return judge([piece(part) for part in written.values()])


@pytest.mark.parametrize("name", BIKES)
def test_good_bike_fits(name: str) -> None:
    """Parts that were made for each other fit as a whole, and each interface is told once."""
    judgement = whole(BIKES[name])
    told = [(j.rule.name, why(j.finding)) for j in judgement.interfaces if j.finding.verdict.rank]
    assert told == []
    names = [judged.rule.name for judged in judgement.interfaces]
    assert len(names) == len(set(names)) > 30


# What is wrong, where, and the interface that must say it; sources as in the tables of pairs.
WRONG = {
    "post too thick": ("mountain", {"seatpost": "diameter_mm=27.4"}, "seatpost in seat tube"),
    "collar for another tube": ("road", {"collar": "diameter_mm=31.8"}, "collar round seat tube"),
    "oval rails": ("road", {"saddle": "rails=oval-7x9"}, "saddle on seatpost"),
    "bar too thick": ("mountain", {"handlebar": "clamp_mm=31.8"}, "handlebar in stem"),
    "narrow band": ("road", {"left_lever": "bar_mm=22.2"}, "control on handlebar"),
    "wide steerer": ("mountain", {"headset": "steerer_mm=25.4"}, "headset on steerer"),
    "JIS cups": ("road", {"headset": "upper=EC30.0-jis"}, "headset upper half in head tube"),
    "JIS race": ("road", {"headset": "crown_race_mm=27.0"}, "crown race on fork"),
    "short steerer": ("road", {"fork": "steerer_length_mm=155"}, "steerer length"),
    "thick quill": ("road", {"stem": "quill_mm=25.4"}, "stem in fork"),
    "Italian cups": (
        "mountain",
        {"bottom_bracket": "shell=italian-36x24"},
        "bottom bracket in shell",
    ),
    "long splines": ("road", {"bottom_bracket": "spindle=splined-8x22-long"}, "crank on spindle"),
    "half-inch pedals": ("mountain", {"pedals": "pedal_thread=1/2x20"}, "pedals in cranks"),
    "narrow band on the seat tube": (
        "mountain",
        {"frame": "seat_tube_od_mm=31.8", "collar": "diameter_mm=31.8"},
        "front derailleur on frame",
    ),
    "road pull in front": (
        "mountain",
        {"front_derailleur": "front_pull=road"},
        "front shifter and derailleur",
    ),
    "short cage": ("mountain", {"rear_derailleur": "capacity_teeth=29"}, "derailleur capacity"),
    "foreign family": (
        "mountain",
        {"rear_derailleur": "index_family=ratio-1.2 speeds=10"},
        "rear indexing",
    ),
    "nine-speed cassette": (
        "mountain",
        {"cassette": "speeds=9 cogs=[11,12,14,16,18,21,24,28,32]"},
        "shifter positions for sprockets",
    ),
    "wide chain": ("road", {"chain": "speeds=8"}, "chain on sprockets"),
    "worn chain": ("road", {"chain": "wear_percent=0.8"}, "chain wear"),
    "short chain": ("mountain", {"chain": "links=90"}, "chain length"),
    "linear-pull on a road bike": (
        "road",
        {"rear_brake": "type=linear-pull"},
        "brake lever with brake",
    ),
    "short-pull lever": ("mountain", {"right_lever": "brake_pull=short"}, "brake lever with brake"),
    "barrel cable": ("road", {"rear_shifter": "brake_cable_head=barrel"}, "brake cable in lever"),
    "27-inch tyre": ("road", {"tyre": "marking=32-630"}, "tyre on rim"),
    "tyre too wide for the fork": ("road", {"fork": "tyre_clearance_mm=22"}, "tyre clearance in"),
    "700C wheel behind": ("mountain", {"rear_wheel": "bsd_mm=622"}, "brake bosses for wheel size"),
    "thru axle in front": (
        "mountain",
        {"fork": "axle=thru-15", "front_wheel": "end_caps=fixed"},
        "wheel axle in fork",
    ),
    "148 behind": ("mountain", {"rear_wheel": "spacing_mm=148"}, "wheel width in frame"),
    "no braking track": ("road", {"front_wheel": "brake_track=no"}, "rim brake on rim"),
    "long reach": ("road", {"rear_brake": "reach_min_mm=55 reach_max_mm=73"}, "reach of calliper"),
    "schrader tube": ("road", {"tube": "valve=schrader"}, "valve in rim hole"),
    "wide tube": ("road", {"tube": "width_min_mm=35 width_max_mm=43"}, "tube width in tyre"),
    "freewheel thread": ("mountain", {"rear_wheel": "driver=iso-1.375x24"}, "cassette on hub body"),
}


@pytest.mark.parametrize(("name", "wrong", "interface"), WRONG.values(), ids=WRONG)
def test_one_thing_wrong_is_found(name: str, wrong: dict[str, str], interface: str) -> None:
    """One wrong part among twenty-five makes the bike clash, and the interface says so."""
    judgement = whole(BIKES[name], **wrong)
    assert judgement.verdict is Verdict.CLASH
    clashes = [j.rule.name for j in judgement.interfaces if j.finding.verdict is Verdict.CLASH]
    assert any(told.startswith(interface) for told in clashes), clashes


@pytest.mark.parametrize("name", BIKES)
def test_one_unknown_never_clashes(name: str) -> None:
    """Without any one attribute a good bike fits still, or the part that lacks it is asked for.

    A side is not left out: a part of unknown side is taken to meet frame and fork both.
    """
    for slot, written in BIKES[name].items():
        kind, *attributes = written.split(" ")
        for missing in attributes:
            if missing.startswith("side="):
                continue
            left = " ".join([kind, *(each for each in attributes if each != missing)])
            parts = BIKES[name] | {slot: left}
            judgement = judge([piece(part) for part in parts.values()])
            assert judgement.verdict in {Verdict.FITS, Verdict.MEASURE}, (slot, missing)
            asked = {t.piece.word for j in judgement.interfaces for t in j.finding.open}
            assert not asked or kind in asked, (slot, missing, asked)


def test_order_of_a_whole_bike_never_matters() -> None:
    """Every interface of a bike comes out the same in any order of its parts."""
    draw = random.Random(7)
    parts = [piece(part) for part in ROAD.values()]
    wanted = {j.rule.name: j.finding.verdict for j in judge(parts).interfaces}
    for _ in range(20):
        mixed = draw.sample(parts, len(parts))
        assert {j.rule.name: j.finding.verdict for j in judge(mixed).interfaces} == wanted
