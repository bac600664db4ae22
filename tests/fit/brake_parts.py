"""Parts for the tests of brakes, and what the judge finds of one interface among them."""

from __future__ import annotations

from functools import partial
from itertools import permutations
from typing import Any

from partsbin.fit.judge import Judged, judge
from partsbin.kinds.kind import Kind
from partsbin.kinds.spec import Spec

Parts = tuple[Kind, ...]


def part(kind: str, **attributes: Any) -> Kind:
    """Return a piece as a JSON file writes it."""
    return Spec.check(kind, attributes).piece


lever = partial(part, "brake_lever")
combined = partial(part, "combined_lever")
shifter = partial(part, "shifter")
rim_brake = partial(part, "rim_brake")
calliper = partial(part, "disc_calliper")
pulley = partial(part, "pull_adapter")
bracket = partial(part, "brake_adapter")
rotor = partial(part, "rotor")
frame = partial(part, "frame")
fork = partial(part, "fork")
wheel = partial(part, "wheel")
pads = partial(part, "brake_pads")
bottle = partial(part, "brake_fluid")
brake_cable = partial(part, "brake_cable")
shift_cable = partial(part, "shift_cable")
housing = partial(part, "housing")


def found(interface: str, *parts: Kind) -> Judged | None:
    """Return what is found of an interface, the same in every order of the parts."""
    first: Judged | None = None
    for at, order in enumerate(permutations(parts)):
        judged = next((j for j in judge(order).interfaces if j.rule.name == interface), None)
        if at == 0:
            first = judged
        assert (judged and judged.finding.verdict) == (first and first.finding.verdict)
    return first


def verdict(interface: str, *parts: Kind) -> str:
    """Return the verdict on an interface, `none` where the parts do not share it."""
    judged = found(interface, *parts)
    return "none" if judged is None else str(judged.finding.verdict)


def certain(interface: str, *parts: Kind) -> Judged:
    """Return what is found of an interface that the parts do share."""
    judged = found(interface, *parts)
    assert judged is not None, f"the parts do not share {interface}"
    return judged
