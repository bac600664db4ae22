"""What the neighbours on a donor say of a part: assumed values, never more than they agree on."""

from __future__ import annotations

import pytest

from partsbin.kinds.agreements import BEQUESTS
from partsbin.kinds.eras import names, template
from partsbin.kinds.inherit import inherited, placed
from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import BY_NAME
from partsbin.kinds.spec import Spec
from tests.kinds import inherited_cockpit, inherited_drivetrain, inherited_wheels_and_brakes
from tests.kinds.donor_bikes import bike

CASES = inherited_cockpit.CASES | inherited_drivetrain.CASES | inherited_wheels_and_brakes.CASES
CASSETTE = inherited_drivetrain.CASSETTE


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
