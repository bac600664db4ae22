"""What a part must have been from its neighbours on one bike, as assumed values for teardown.

Neighbours that disagree say nothing, and a known value goes before an assumed one.
"""

from __future__ import annotations

from collections.abc import Mapping

from partsbin.kinds.agreements import BEQUESTS, Place
from partsbin.kinds.forms.form import Value
from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import slot_named
from partsbin.kinds.spec import Spec

Bike = Mapping[str, Spec]
"""What is mounted, by slot."""


def placed(kind: str, slot: str) -> Spec:
    """Return what the slot itself says of a part: the side that it is mounted on.

    >>> print(placed("brake_lever", "left brake lever"))
    brake lever, side left
    """
    attribute = KINDS[kind].attributes.get("side")
    side = slot.partition(" ")[0]
    if attribute is None or side not in attribute.form.candidates():
        return Spec(kind)
    return Spec(kind, (("side", side),))


def inherited(kind: str, slot: str, bike: Bike) -> Spec:
    """Return what a part of a kind, mounted in a slot, must have been from its neighbours.

    All values but the side are marked assumed; what the neighbours leave open, or disagree on,
    is left out. `bike` is what is mounted, by slot; what it holds in the part's own slot is not
    asked. Raises `ValueError` for an unknown slot.

    >>> bike = {"sprockets": Spec.check("cassette", {"speeds": 8})}
    >>> print(inherited("chain", "chain", bike))
    chain, speeds 8 (assumed)
    """
    name = slot_named(slot).name
    found = {
        attribute: value
        for attribute in KINDS[kind].attributes
        if (value := _agreed(kind, Place(name, attribute), bike)) is not None
    }
    assumed = Spec(kind, tuple(sorted(found.items())), frozenset(found))
    return assumed.with_values(placed(kind, name))


def _agreed(kind: str, heir: Place, bike: Bike) -> Value | None:
    """Return the one value that the neighbours give a place, None if there is none or several."""
    known: set[Value] = set()
    likely: set[Value] = set()
    for bequest in BEQUESTS.get(heir, ()):
        spec = bike.get(bequest.giver.slot)
        if (
            spec is None
            or bequest.heir_kind not in ("", kind)
            or (bequest.geared and not _is_geared(kind, heir.slot, bike))
        ):
            continue
        piece, name = spec.piece, bequest.giver.attribute
        for values, into in ((piece.__dict__, known), (piece.likely, likely)):
            given = bequest.given(values[name], piece) if name in values else None
            if given is not None and _is_allowed(kind, heir.attribute, given):
                into.add(given)
    agreed = known or likely
    return agreed.pop() if len(agreed) == 1 else None


def _is_allowed(kind: str, attribute: str, value: Value) -> bool:
    form = KINDS[kind].attributes[attribute].form
    try:
        form.check(form.plain(value))
    except ValueError:
        return False
    return True


def _is_geared(kind: str, slot: str, bike: Bike) -> bool:
    """Return whether a bike is known to have derailleur gears."""
    kinds = {kind, *(spec.kind for at, spec in bike.items() if at != slot)}
    return "sprocket" not in kinds and bool(kinds & {"cassette", "freewheel", "rear_derailleur"})
