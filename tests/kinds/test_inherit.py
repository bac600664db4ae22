"""What the neighbours on a donor say of a part: assumed values, never more than they agree on."""

from __future__ import annotations

from typing import Any

import pytest

from partsbin.kinds.agreements import BEQUESTS
from partsbin.kinds.eras import names, template
from partsbin.kinds.inherit import inherited, placed
from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import BY_NAME
from partsbin.kinds.spec import Spec


def bike(**parts: dict[str, Any]) -> dict[str, Spec]:
    """Return a bike by slot; underscores in the names stand for spaces."""
    return {
        slot.replace("_", " "): Spec.check(
            part["kind"], {k: v for k, v in part.items() if k != "kind"}
        )
        for slot, part in parts.items()
    }


CASSETTE = {"kind": "cassette", "speeds": 8, "spline": "one-wide-spline-35"}
FREEWHEEL = {"kind": "freewheel", "thread": "iso-1.375x24"}
THREADED = {"kind": "fork", "steerer": "threaded", "steerer_mm": 28.6}
BARE = {"kind": "fork", "steerer": "threadless", "steerer_mm": 28.6}
CASES: dict[str, tuple[dict[str, Spec], str, str, str, object]] = {
    # sheldonbrown.com/speeds.html
    "shifter from cassette": (bike(sprockets=CASSETTE), "shifter", "rear shifter", "speeds", 8),
    "chain from cassette": (bike(sprockets=CASSETTE), "chain", "chain", "speeds", 8),
    "derailleur from cassette": (
        bike(sprockets=CASSETTE),
        "rear_derailleur",
        "rear derailleur",
        "speeds",
        8,
    ),
    "cassette from derailleur": (
        bike(rear_derailleur={"kind": "rear_derailleur", "speeds": 9}),
        "cassette",
        "sprockets",
        "speeds",
        9,
    ),
    # bike.bikegremlin.com/1278
    "family from derailleur": (
        bike(rear_derailleur={"kind": "rear_derailleur", "index_family": "ratio-1.1"}),
        "combined_lever",
        "rear shifter",
        "index_family",
        "ratio-1.1",
    ),
    # koovacomponents.com freehub guide; sheldonbrown.com/freewheels.html
    "driver from cassette": (
        bike(sprockets=CASSETTE),
        "wheel",
        "rear wheel",
        "driver",
        "one-wide-spline-35",
    ),
    "thread from wheel": (
        bike(rear_wheel={"kind": "wheel", "driver": "iso-1.375x24"}),
        "freewheel",
        "sprockets",
        "thread",
        "iso-1.375x24",
    ),
    "no spline from a thread": (
        bike(rear_wheel={"kind": "wheel", "driver": "iso-1.375x24"}),
        "cassette",
        "sprockets",
        "spline",
        None,
    ),
    "driver from freewheel": (
        bike(sprockets=FREEWHEEL),
        "wheel",
        "rear wheel",
        "driver",
        "iso-1.375x24",
    ),
    "no driver in front": (bike(sprockets=CASSETTE), "wheel", "front wheel", "driver", None),
    # bike.bikegremlin.com/3114
    "post from frame": (
        bike(frame={"kind": "frame", "seat_tube_bore_mm": 27.2}),
        "seatpost",
        "seatpost",
        "diameter_mm",
        27.2,
    ),
    "frame from reading of post": (
        bike(seatpost={"kind": "seatpost", "diameter_mm": 27.18}),
        "frame",
        "frame",
        "seat_tube_bore_mm",
        27.2,
    ),
    "reading between sizes says nothing": (
        bike(seatpost={"kind": "seatpost", "diameter_mm": 27.1}),
        "frame",
        "frame",
        "seat_tube_bore_mm",
        None,
    ),
    "collar from frame": (
        bike(frame={"kind": "frame", "seat_tube_od_mm": 31.8}),
        "seat_clamp",
        "seat clamp",
        "diameter_mm",
        31.8,
    ),
    # sheldonbrown.com/frame-spacing.html; mountainbike-magazin.de Lexikon 412768
    "rear hub from frame": (
        bike(frame={"kind": "frame", "rear_spacing_mm": 130}),
        "wheel",
        "rear wheel",
        "spacing_mm",
        130,
    ),
    "front hub not from frame": (
        bike(frame={"kind": "frame", "rear_spacing_mm": 130}),
        "wheel",
        "front wheel",
        "spacing_mm",
        None,
    ),
    "front hub from fork": (
        bike(fork={"kind": "fork", "axle": "thru-15"}),
        "wheel",
        "front wheel",
        "axle",
        "thru-15",
    ),
    "no 15 mm axle in a frame": (
        bike(rear_wheel={"kind": "wheel", "axle": "thru-15"}),
        "frame",
        "frame",
        "rear_axle",
        None,
    ),
    # sheldonbrown.com/26.html; powermanmalaysia.com tube sizes
    "tyre from wheel": (
        bike(front_wheel={"kind": "wheel", "bsd_mm": 590}),
        "tyre",
        "front tyre",
        "bsd_mm",
        590,
    ),
    "tyre not from the other wheel": (
        bike(front_wheel={"kind": "wheel", "bsd_mm": 590}),
        "tyre",
        "rear tyre",
        "bsd_mm",
        None,
    ),
    "tube from tyre": (
        bike(rear_tyre={"kind": "tyre", "bsd_mm": 622}),
        "tube",
        "rear tube",
        "bsd_mm",
        622,
    ),
    "wheel not from tube": (
        bike(rear_tube={"kind": "tube", "bsd_mm": 622}),
        "wheel",
        "rear wheel",
        "bsd_mm",
        None,
    ),
    # lovecitycycles.com Handlebar and Stem Dimension sheet
    "lever from bar": (
        bike(handlebar={"kind": "handlebar", "grip_mm": 22.2}),
        "brake_lever",
        "left brake lever",
        "bar_mm",
        22.2,
    ),
    "bar from stem": (
        bike(stem={"kind": "stem", "bar_clamp_mm": 26.0}),
        "handlebar",
        "handlebar",
        "clamp_mm",
        26.0,
    ),
    "stem from bar": (
        bike(handlebar={"kind": "handlebar", "clamp_mm": 31.8}),
        "stem",
        "stem",
        "bar_clamp_mm",
        31.8,
    ),
    "bar not from a lever on its tops": (
        bike(left_brake_lever={"kind": "brake_lever", "bar_mm": 26.0, "mount": "tops"}),
        "handlebar",
        "handlebar",
        "grip_mm",
        None,
    ),
    "shifter band from a flat bar": (
        bike(handlebar={"kind": "handlebar", "style": "flat", "grip_mm": 22.2}),
        "shifter",
        "rear shifter",
        "bar_mm",
        22.2,
    ),
    "no shifter band from a drop bar": (
        bike(handlebar={"kind": "handlebar", "style": "drop", "grip_mm": 23.8}),
        "shifter",
        "rear shifter",
        "bar_mm",
        None,
    ),
    "combined lever from a drop bar": (
        bike(handlebar={"kind": "handlebar", "style": "drop", "grip_mm": 23.8}),
        "combined_lever",
        "rear shifter",
        "bar_mm",
        23.8,
    ),
    # bicycle-forum.net quill measurements 2007; motorbicycling.com p=105482
    "quill from threaded steerer": (bike(fork=THREADED), "stem", "stem", "quill_mm", 25.4),
    "no quill from threadless steerer": (bike(fork=BARE), "stem", "stem", "quill_mm", None),
    "stem type from fork": (bike(fork=THREADED), "stem", "stem", "type", "quill"),
    "fork from stem type": (
        bike(stem={"kind": "stem", "type": "threadless"}),
        "fork",
        "fork",
        "steerer",
        "threadless",
    ),
    "clamp from threadless steerer": (bike(fork=BARE), "stem", "stem", "steerer_clamp_mm", 28.6),
    "no clamp from threaded steerer": (
        bike(fork=THREADED),
        "stem",
        "stem",
        "steerer_clamp_mm",
        None,
    ),
    # Wikipedia 'Headset'; canecreek.com headset-fit-finder
    "headset from fork": (bike(fork=BARE), "headset", "headset", "steerer_mm", 28.6),
    "frame from headset": (
        bike(headset={"kind": "headset", "lower": "EC44/40"}),
        "frame",
        "frame",
        "head_tube_lower",
        "EC44",
    ),
    # bike.bikegremlin.com/1402
    "lever pull from brake type": (
        bike(rear_brake={"kind": "rim_brake", "type": "linear-pull"}),
        "brake_lever",
        "right brake lever",
        "brake_pull",
        "long",
    ),
    "combined lever pull from calliper": (
        bike(front_brake={"kind": "rim_brake", "type": "dual-pivot"}),
        "combined_lever",
        "front shifter",
        "brake_pull",
        "short",
    ),
    "lever pull from hydraulic disc": (
        bike(front_brake={"kind": "disc_calliper", "brake_pull": "hydraulic"}),
        "brake_lever",
        "left brake lever",
        "brake_pull",
        "hydraulic",
    ),
    "two unlike brakes say nothing": (
        bike(
            front_brake={"kind": "disc_calliper", "brake_pull": "hydraulic"},
            rear_brake={"kind": "rim_brake", "type": "linear-pull"},
        ),
        "brake_lever",
        "left brake lever",
        "brake_pull",
        None,
    ),
    # trustysources.com DOT/mineral
    "fluid from calliper": (
        bike(front_brake={"kind": "disc_calliper", "fluid": "mineral"}),
        "brake_lever",
        "left brake lever",
        "fluid",
        "mineral",
    ),
    # smontanaro.net/CR/2005/1/778
    "bolt from recessed frame": (
        bike(frame={"kind": "frame", "brake_mounts": ["calliper-recessed"]}),
        "rim_brake",
        "rear brake",
        "bolt",
        "recessed",
    ),
    "no bolt from bosses": (
        bike(frame={"kind": "frame", "brake_mounts": ["canti-boss"]}),
        "rim_brake",
        "rear brake",
        "bolt",
        None,
    ),
    # bikeraceinfo.com/tech/bottom-brackets.html; moultoneer.wordpress.com/2022/03/17
    "shell from frame": (
        bike(frame={"kind": "frame", "bb_shell": "italian-36x24"}),
        "bottom_bracket",
        "bottom bracket",
        "shell",
        "italian-36x24",
    ),
    "spindle from cranks": (
        bike(chainset={"kind": "chainset", "spindle": "taper-jis"}),
        "bottom_bracket",
        "bottom bracket",
        "spindle",
        "taper-jis",
    ),
    # mtbr.com 933644
    "front pull from front derailleur": (
        bike(front_derailleur={"kind": "front_derailleur", "front_pull": "road"}),
        "shifter",
        "front shifter",
        "front_pull",
        "road",
    ),
    "front positions from rings": (
        bike(chainset={"kind": "chainset", "rings": [26, 36, 46]}),
        "shifter",
        "front shifter",
        "speeds",
        3,
    ),
    "no front positions from one ring": (
        bike(chainset={"kind": "chainset", "rings": [46]}),
        "shifter",
        "front shifter",
        "speeds",
        None,
    ),
    # bike.bikegremlin.com/1297
    "front band from seat tube": (
        bike(frame={"kind": "frame", "seat_tube_od_mm": 34.9, "fd_mount": "clamp"}),
        "front_derailleur",
        "front derailleur",
        "clamp_mm",
        34.9,
    ),
    "no front band where it is brazed on": (
        bike(frame={"kind": "frame", "seat_tube_od_mm": 34.9, "fd_mount": "braze-on"}),
        "front_derailleur",
        "front derailleur",
        "clamp_mm",
        None,
    ),
    # bike.bikegremlin.com/3555
    "chain inside from sprocket": (
        bike(sprockets={"kind": "sprocket", "width_in": "1/8"}),
        "chain",
        "chain",
        "inner_mm",
        3.175,
    ),
    # A hub gear has one sprocket and several positions: common practice.
    "hub gear says nothing of the chain": (
        bike(sprockets={"kind": "sprocket"}, rear_shifter={"kind": "shifter", "speeds": 3}),
        "chain",
        "chain",
        "speeds",
        None,
    ),
    "shifter alone says nothing of the chain": (
        bike(rear_shifter={"kind": "shifter", "speeds": 3}),
        "chain",
        "chain",
        "speeds",
        None,
    ),
    # bike-advisor.com centerlock-or-six-bolts; noahsark.co.uk disc mounts
    "rotor mount from wheel": (
        bike(front_wheel={"kind": "wheel", "rotor_mount": "six-bolt-44"}),
        "rotor",
        "front rotor",
        "rotor_mount",
        "six-bolt-44",
    ),
    "rotor size from calliper": (
        bike(rear_brake={"kind": "disc_calliper", "rotor_mm": 160}),
        "rotor",
        "rear rotor",
        "diameter_mm",
        160,
    ),
}


@pytest.mark.parametrize(("on", "kind", "slot", "name", "value"), CASES.values(), ids=CASES)
def test_neighbours_say(
    on: dict[str, Spec], kind: str, slot: str, name: str, value: object
) -> None:
    """A part is assumed to have been what its neighbours need, and nothing beyond that."""
    spec = inherited(kind, slot, on)
    assert spec.plain().get(name) == value
    assert (name in spec.assumed) == (value is not None)


def test_neighbours_that_disagree_say_nothing() -> None:
    """An eight-speed cassette beside a nine-speed shifter leaves the chain open."""
    on = bike(sprockets=CASSETTE, rear_shifter={"kind": "shifter", "speeds": 9})
    assert inherited("chain", "chain", on).get("speeds") is None


def test_known_goes_before_assumed() -> None:
    """What one neighbour is known to be outweighs what another is only assumed to be."""
    on = bike(sprockets=CASSETTE)
    on["rear shifter"] = Spec.check("shifter", {"speeds": 7}, assumed=["speeds"])
    assert inherited("chain", "chain", on).get("speeds") == 8


def test_assumed_neighbour_is_better_than_none() -> None:
    """Where nothing is known, what a neighbour is assumed to be is passed on."""
    on = {"rear shifter": Spec.check("combined_lever", {"speeds": 7}, assumed=["speeds"])}
    assert inherited("rear_derailleur", "rear derailleur", on).get("speeds") == 7


def test_own_slot_is_not_asked() -> None:
    """A part inherits from its neighbours, not from what the record has in its own slot."""
    on = bike(chain={"kind": "chain", "speeds": 11}, sprockets=CASSETTE)
    assert inherited("chain", "chain", on).get("speeds") == 8


def test_unknown_slot_offers_the_nearest() -> None:
    """An unknown slot is refused with the nearest one."""
    with pytest.raises(ValueError, match="did you mean 'chain'"):
        inherited("chain", "chian", {})


@pytest.mark.parametrize(
    ("kind", "slot", "side"),
    [
        ("wheel", "front wheel", "front"),
        ("brake_lever", "left brake lever", "left"),
        ("combined_lever", "rear shifter", "rear"),
        ("combined_lever", "left brake lever", None),
        ("tyre", "rear tyre", None),
        ("bottom_bracket", "bottom bracket", None),
    ],
)
def test_slot_says_the_side(kind: str, slot: str, side: str | None) -> None:
    """The slot decides the side of a part that has one, and that is known, not assumed."""
    assert placed(kind, slot).plain() == ({"side": side} if side else {})
    assert placed(kind, slot).assumed == frozenset()


def test_every_place_is_a_slot_and_an_attribute() -> None:
    """Each agreement names slots of a bike and attributes of kinds that go there."""
    places = {
        place
        for bequests in BEQUESTS.values()
        for bequest in bequests
        for place in (bequest.heir, bequest.giver)
    }
    wrong = [
        place
        for place in places
        if not any(place.attribute in KINDS[kind].attributes for kind in BY_NAME[place.slot].kinds)
    ]
    assert wrong == []
    assert all(bequest.source for bequests in BEQUESTS.values() for bequest in bequests)


DONORS = {
    name: {slot: Spec(p.kind, p.spec(slot).values) for slot, p in template(name).parts.items()}
    for name in names()
}
"""The bikes of the era templates, their values taken as known; they go together."""

LEVER, CALLIPER = {"fluid": "dot"}, {"kind": "disc_calliper", "fluid": "dot"}
HYDRAULIC = bike(
    left_brake_lever={"kind": "brake_lever", **LEVER},
    right_brake_lever={"kind": "brake_lever", **LEVER},
    front_shifter={"kind": "combined_lever", **LEVER},
    rear_shifter={"kind": "combined_lever", **LEVER},
    front_brake=CALLIPER,
    rear_brake=CALLIPER,
)


@pytest.mark.parametrize("donor", DONORS.values(), ids=DONORS)
def test_neighbours_agree_with_a_bike_that_goes_together(donor: dict[str, Spec]) -> None:
    """On a consistent bike no part inherits anything but what it is."""
    for slot, spec in donor.items():
        taken = inherited(spec.kind, slot, donor).plain()
        own = spec.plain()
        wrong = {n: v for n, v in taken.items() if n in own and _bore(own[n]) != _bore(v)}
        assert (slot, wrong) == (slot, {})


def _bore(value: object) -> object:
    """Return a value, of a headset's code only what it says of the frame: EC34 of EC34/28.6."""
    return value.partition("/")[0] if isinstance(value, str) and value[:1].isupper() else value


def test_every_place_inherits_on_some_bike() -> None:
    """Each row of the agreements is reached by one of the bikes here."""
    reached = {
        (slot, name)
        for donor in (*DONORS.values(), HYDRAULIC, *(case[0] for case in CASES.values()))
        for slot in BY_NAME
        for kind in BY_NAME[slot].kinds
        for name in inherited(kind, slot, donor).assumed
    }
    assert {(place.slot, place.attribute) for place in BEQUESTS} - reached == set()
