"""The fixed words of the trade: every kind, its attributes and the values that they take."""

from __future__ import annotations

import pytest

from partsbin.kinds import KINDS
from partsbin.kinds.catalogue import AREAS, area_of, definition, overview
from partsbin.kinds.kind import Kind
from partsbin.kinds.spec import Spec

# A word in capitals stands for a row of values below; a name without values is a measure, a count,
# a number or a text.
VALUES = {
    "DISC": "is-51 post-74 post-68 flat-34",
    "FAMILY": (
        "ratio-1.7 ratio-1.9 ratio-1.2 ratio-1.1-flat-11 ratio-1.12-flat-11 ratio-1.4-road-11 "
        "ratio-1.4-road-10 ratio-1.1 ratio-1.3 italian-1.4 italian-1.5 uneven-old"
    ),
    "FREEWHEEL": "iso-1.375x24 british-1.370x24 italian-35x24tpi french-34.7x1 bmx-30x1",
    "HEADCODE": "EC34 ZS44 IS42 EC30.2-iso EC30.0-jis",
    "MOUNTS": (
        "canti-boss u-brake-boss calliper-hole calliper-recessed is-51 post-74 post-68 flat-34"
    ),
    "PEDAL": "9/16x20 1/2x20 14x1.25",
    "RAILS": "round-7 oval-7x9 plain-22.2",
    "ROTORMOUNT": "six-bolt-44 splined-lockring none",
    "SHELL": (
        "english-1.370x24 italian-36x24 french-35x1 swiss-35x1 pf41 pf42 pf46 pf37 t47 "
        "onepiece-51 spanish-37 mid-41"
    ),
    "SPACING": "standard italian flat-bar uneven-old",
    "SPINDLE": (
        "taper-jis taper-iso splined-8x22-short splined-8x22-long splined-10x21 integrated-24 "
        "integrated-24-22 integrated-30 integrated-28.99 bmx-19 bmx-22 cottered onepiece"
    ),
    "SPLINE": (
        "one-wide-spline-short one-wide-spline-35 tall-spline-10 one-wide-spline-36.8 "
        "italian-deep-spline short-spline-thread short-spline-thread-road fine-spline "
        "fine-spline-road equal-spline-threaded"
    ),
    "AXLETHREAD": "5/16x24 5/16x26 3/8x24 3/8x26 9x1 10x1 m12x1.0 m12x1.5 m12x1.75 m15x1.5",
    "VALVE": "schrader presta dunlop",
}
HUB = (
    "side=front|rear spacing_mm axle=qr|nutted|thru-12|thru-15|thru-20 axle_mm "
    "axle_thread=AXLETHREAD end_caps=fixed|changeable rotor_mount=ROTORMOUNT "
    "driver=SPLINE|FREEWHEEL|none spokes"
)
RIM = (
    "bsd_mm rim_inner_mm rim_type=crochet|straight-side|hookless rim_depth_mm rim_material "
    "rim_wall_mm brake_track=yes|no valve_hole_mm spokes"
)
SHIFTER = (
    "side=front|rear bar_mm speeds pull_per_click_mm index_family=FAMILY friction=yes|no "
    "front_pull=road|flat-bar shift_cable_head=large|small"
)
LEVER = "bar_mm brake_pull=long|short|hydraulic fluid=mineral|dot brake_cable_head=barrel|pear"
CLUSTER = "speeds spacing=SPACING pitch_mm cog_thickness_mm cogs"
VOCABULARY = {
    "frame": (
        "style=mtb|road|touring|hybrid|city|bmx|folding|kids "
        "material=steel|heat-treated-steel|aluminium|titanium|carbon seat_tube_length_mm "
        "top_tube_length_mm standover_mm seat_tube_bore_mm seat_tube_od_mm "
        "head_tube_upper=HEADCODE head_tube_lower=HEADCODE head_tube_length_mm bb_shell=SHELL "
        "bb_shell_width_mm rear_spacing_mm rear_axle=qr|nutted|thru-12 brake_mounts=MOUNTS "
        "brake_reach_mm native_rotor_mm wheel_bsd_mm dropout_slot_mm fork_axle_to_crown_mm "
        "tyre_clearance_mm fd_mount=clamp|braze-on|direct-42.7|direct-22.1|none "
        "hanger=integral|replaceable|none downtube_bosses=none|curved|flat down_tube_od_mm "
        "chainstay_mm rack_eyelets=yes|no mudguard_eyelets=yes|no bottle_bosses=yes|no "
        "serial_number"
    ),
    "fork": (
        "steerer=threaded|threadless steerer_mm steerer_lower_mm steerer_bore_mm "
        "steerer_length_mm steerer_material thread=24tpi|26tpi|m25x1 crown_race_mm "
        "axle=qr|nutted|thru-12|thru-15|thru-20 spacing_mm brake_mounts=MOUNTS brake_reach_mm "
        "native_rotor_mm wheel_bsd_mm max_wheel_bsd_mm dropout_slot_mm tyre_clearance_mm "
        "axle_to_crown_mm travel_mm"
    ),
    "headset": (
        "steerer=threaded|threadless steerer_mm thread=24tpi|26tpi|m25x1 upper=HEADCODE "
        "lower=HEADCODE crown_race_mm stack_mm"
    ),
    "bottom_bracket": "shell=SHELL shell_width_mm spindle=SPINDLE spindle_length_mm",
    "seat_clamp": "diameter_mm",
    "seatpost": "diameter_mm length_mm insertion_mark_mm rails=RAILS material",
    "seatpost_shim": "inner_mm outer_mm",
    "saddle": "rails=RAILS",
    "handlebar": (
        "style=flat|riser|swept|drop|bullhorn clamp_mm grip_mm bore_mm width_mm material"
    ),
    "bar_shim": "inner_mm outer_mm",
    "stem": (
        "type=quill|threadless bar_clamp_mm quill_mm steerer_clamp_mm height_mm length_mm angle_deg"
    ),
    "grips": "inner_mm",
    "bar_tape": "",
    "bar_plug": "inner_mm",
    "brake_lever": f"{LEVER} mount=grip|tops side=left|right",
    "shifter": f"{SHIFTER} mount=bar-clamp|bar-end|downtube|stem",
    "combined_lever": f"{SHIFTER} {LEVER} mount=bar-clamp|grip",
    "rear_derailleur": (
        "ratio index_family=FAMILY speeds max_cog capacity_teeth mount=hanger|claw|direct"
    ),
    "front_derailleur": (
        "mount=clamp|braze-on|direct-42.7|direct-22.1 clamp_mm cable_routing=top|bottom|dual "
        "front_pull=road|flat-bar rings max_ring capacity_teeth"
    ),
    "cassette": f"{CLUSTER} ring_behind_mm spline=SPLINE",
    "freewheel": f"{CLUSTER} thread=FREEWHEEL",
    "chain": "speeds inner_mm outer_mm links wear_percent",
    "sprocket": "width_in=3/32|1/8 teeth",
    "chainset": (
        "rings bcd_mm arms spindle=SPINDLE spindle_length_mm crank_length_mm chainline_mm speeds "
        "pedal_thread=PEDAL"
    ),
    "chainring": "teeth bcd_mm arms speeds",
    "pedals": "pedal_thread=PEDAL",
    "wheel": f"{HUB} {RIM}",
    "hub": HUB,
    "rim": f"{RIM} erd_mm",
    "spokes": "length_mm gauge_mm",
    "tyre": "bsd_mm marking width_mm made_year bead=rigid|folding tubeless=yes|no",
    "tube": ("bsd_mm width_min_mm width_max_mm valve=VALVE valve_length_mm removable_core=yes|no"),
    "valve_extender": "length_mm type=in-stem|on-core",
    "rim_tape": "bsd_mm width_mm",
    "valve_cap": "valve=VALVE",
    "pump_head": "valve=VALVE",
    "valve_grommet": "",
    "rotor": "rotor_mount=ROTORMOUNT diameter_mm thickness_mm min_thickness_mm",
    "skewer": "side=front|rear spacing_mm",
    "axle_nut": "thread=AXLETHREAD diameter_mm",
    "axle": "thread=AXLETHREAD diameter_mm",
    "rim_brake": (
        "type=linear-pull|mini-linear-pull|cantilever|side-pull|dual-pivot|centre-pull|u-brake "
        "side=front|rear reach_min_mm reach_max_mm brake_pull=long|short bolt=nut|recessed"
    ),
    "disc_calliper": (
        "mount=DISC side=front|rear brake_pull=long|short|hydraulic fluid=mineral|dot rotor_mm"
    ),
    "brake_adapter": "from_mount=DISC to_mount=DISC rotor_mm",
    "pull_adapter": "factor",
    "brake_pads": "shape thickness_mm for_brake=rim|disc",
    "brake_fluid": "fluid=mineral|dot-4|dot-5.1|dot-5-silicone",
    "brake_cable": "brake_cable_head=barrel|pear diameter_mm length_mm",
    "shift_cable": "shift_cable_head=large|small diameter_mm length_mm",
    "housing": "use=brake|shift outer_mm length_mm",
    "bottle_cage": "",
    "kickstand": "",
    "rack": "",
    "mudguards": "",
    "bell": "",
    "light": "",
    "reflector": "",
    "bearing_balls": "diameter_mm",
    "small_parts": "",
    "accessory": "",
}
FREE = (
    "bottle_cage kickstand rack mudguards bell light reflector bearing_balls small_parts accessory"
)
AREA = {"frame": "frame", "bottom_bracket": "frame", "saddle": "seat", "shifter": "cockpit"} | {
    "pedals": "drivetrain",
    "rotor": "wheels",
    "housing": "brakes",
    "bell": "other",
}

ATTRIBUTES = [
    (kind, name, [v for row in allowed.split("|") if row for v in VALUES.get(row, row).split()])
    for kind, attributes in VOCABULARY.items()
    for name, _, allowed in (attribute.partition("=") for attribute in attributes.split())
]


@pytest.mark.parametrize("kind", VOCABULARY)
def test_kind_is_there(kind: str) -> None:
    """Every kind of the trade's list is known by exactly its word."""
    assert KINDS[kind].word == kind


@pytest.mark.parametrize(
    ("kind", "name", "values"), ATTRIBUTES, ids=[f"{k}.{n}" for k, n, _ in ATTRIBUTES]
)
def test_attribute_takes_its_words(kind: str, name: str, values: list[str]) -> None:
    """Every attribute of the list is known, and takes each of its words, from people and files."""
    form = KINDS[kind].attributes[name].form
    for value in values:
        (wanted,) = {value}
        listed = isinstance(form.check([value] if name == "brake_mounts" else value), tuple)
        assert form.read(value) == ((wanted,) if listed else wanted)


@pytest.mark.parametrize("kind", FREE.split())
def test_free_kind_takes_any_attribute(kind: str) -> None:
    """The kinds without tables take attributes of any name."""
    spec = Spec.check(kind, {"colour": "black", "bolts": 2})

    assert dict(spec.values) == {"colour": "black", "bolts": "2"}


MEASURED = [
    (kind, attribute.name, attribute.measure)
    for kind, of in KINDS.items()
    for attribute in of.attributes.values()
]


@pytest.mark.parametrize(
    ("kind", "name", "measure"), MEASURED, ids=[f"{k}.{n}" for k, n, _ in MEASURED]
)
def test_attribute_says_how_to_measure(kind: str, name: str, measure: str) -> None:
    """Every attribute says how it is measured or seen, in one sentence without a full stop."""
    assert len(measure) > 20, (kind, name)
    assert measure == " ".join(measure.split())
    assert not measure.endswith(".")


@pytest.mark.parametrize("kind", KINDS.values(), ids=list(KINDS))
def test_first_attributes_exist(kind: type[Kind]) -> None:
    """What a mechanic asks for first is at most three attributes, all of the kind."""
    assert len(kind.first) <= 3
    assert set(kind.first) <= set(kind.attributes)
    assert kind.first or not kind.attributes


DANGEROUS = (
    "frame fork headset handlebar stem seatpost saddle brake_lever combined_lever chainset pedals "
    "chain wheel hub rim tyre rotor skewer axle axle_nut rim_brake disc_calliper brake_pads "
    "brake_cable housing helmet"
)


@pytest.mark.parametrize("kind", DANGEROUS.split())
def test_dangerous_kind_is_inspected(kind: str) -> None:
    """What can hurt someone carries a caution and the inspection that it needs before reuse."""
    assert KINDS[kind].caution
    assert KINDS[kind].inspection


@pytest.mark.parametrize(("kind", "area"), AREA.items())
def test_area(kind: str, area: str) -> None:
    """A kind's area is the module that defines it."""
    assert area_of(KINDS[kind]) == area
    assert definition(kind)["area"] == area


def test_overview_lists_every_kind_once() -> None:
    """The overview has each kind once, in the order of the areas."""
    rows = overview()

    assert sorted(row["kind"] for row in rows) == sorted(KINDS)
    assert [row["area"] for row in rows] == sorted((row["area"] for row in rows), key=AREAS.index)


def test_definition_tells_all_of_an_attribute() -> None:
    """A definition gives unit, limits, listed sizes and measure of an attribute, in that order."""
    told = definition("Tire")["attributes"][0]

    assert (told["name"], told["unit"]) == ("bsd_mm", "mm")
    assert told["allowed"] == "a length from 90 to 800 mm"
    assert {559, 584, 622} <= set(told["listed"])
    assert "sheldonbrown.com" in told["source"]


def test_definition_tells_measured_words() -> None:
    """A definition of a word that can be measured tells which sizes mean which words."""
    told = {row["name"]: row for row in definition("tube")["attributes"]}["valve"]

    assert told["measured_mm"] == {"6": ["presta"], "8": ["schrader", "dunlop"]}
