"""Cables and housing: the head in its pocket, the wire's thickness, and which housing where."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.brake_pull import is_hydraulic
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.brakes import BrakeCable, DiscCalliper, Housing, RimBrake, ShiftCable
from partsbin.kinds.cockpit import BrakeLever, CombinedLever, Shifter
from partsbin.kinds.drivetrain import FrontDerailleur, RearDerailleur
from partsbin.standards.cables import BRAKE_WIRE, READING, SHIFT_WIRE, SOURCE
from partsbin.standards.length import Length

HOUSING_SOURCE = "bike.bikegremlin.com/8548; velo-orange.blogspot.com 2017/02"
BRAKE_HOUSING = Adapter(
    what="brake housing of wound flat wire, 5 mm", kind="housing", values={"use": "brake"}
)
SHIFT_HOUSING = Adapter(
    what="shift housing of lengthwise wires, 4 or 5 mm", kind="housing", values={"use": "shift"}
)


@about("brake_cable_head")
@interface("brake cable in lever", source=SOURCE)
def brake_cable_in_lever(cable: BrakeCable, lever: BrakeLever) -> Finding | None:
    """Seat barrel heads in flat-bar levers and pears in drop-bar ones, never the other."""
    if is_hydraulic(lever):
        return None
    values = ((cable, "brake_cable_head"), (lever, "brake_cable_head"))
    if cable.brake_cable_head == lever.brake_cable_head:
        return fits("the head is the pocket's", *values)
    return clash(
        "the head does not seat in the lever's pocket and can slip out",
        *values,
        dangerous=True,
        remedy=f"take a cable with a {lever.brake_cable_head} head, or cut the other end's off "
        "where the cable has one of each",
    )


@about("shift_cable_head")
@interface("shift cable in shifter", source=SOURCE)
def shift_cable_in_shifter(cable: ShiftCable, shifter: Shifter) -> Finding | None:
    """Refuse a large head in a small pocket; a small one in a large pocket is usable.

    The last is from memory.
    """
    values = ((cable, "shift_cable_head"), (shifter, "shift_cable_head"))
    mine, theirs = cable.shift_cable_head, shifter.shift_cable_head
    if mine == theirs:
        return fits("the head is the pocket's", *values)
    if mine == "large":
        return clash(
            "the head does not enter the shifter's pocket",
            *values,
            remedy="take a cable with a small head",
        )
    return adapts(
        "the head sits loosely in the pocket",
        *values,
        change="pull it home by hand and see that it sits straight; a large head is better",
    )


@about("diameter_mm")
@interface("brake wire", source=SOURCE)
def brake_wire(cable: BrakeCable, lever: BrakeLever) -> Finding | None:
    """Brake wire is 1.5 to 1.6 mm; gear wire on a brake is too weak. Unmeasured wire is no case."""
    if not cable.known("diameter_mm") or is_hydraulic(lever):
        return None
    return _wire(cable, BRAKE_WIRE, dangerous=True)


@about("diameter_mm")
@interface("shift wire", source=SOURCE)
def shift_wire(cable: ShiftCable, _shifter: Shifter) -> Finding | None:
    """Shift wire is 1.1 to 1.3 mm. Unmeasured wire is no case."""
    if not cable.known("diameter_mm"):
        return None
    return _wire(cable, SHIFT_WIRE, dangerous=False)


def _wire(
    cable: BrakeCable | ShiftCable, limits: tuple[Length, Length], *, dangerous: bool
) -> Finding:
    least, most = limits
    size = cable.diameter_mm
    values = ((cable, "diameter_mm"),)
    have = Amount("wire", size)
    if size < least - READING:
        return clash(
            "the wire is too thin for its work",
            *values,
            dangerous=dangerous,
            have=have,
            need=Amount("at least", least),
            remedy="take the right inner cable",
        )
    if size > most + READING:
        return clash(
            "the wire is too thick for lever and housing",
            *values,
            have=have,
            need=Amount("at most", most),
            remedy="take the right inner cable",
        )
    return fits("the wire is of the usual thickness", *values, have=have)


@about("use")
@interface("housing on brake", source=HOUSING_SOURCE)
def housing_on_brake(
    housing: Housing, part: BrakeLever | RimBrake | DiscCalliper | BrakeCable
) -> Finding | None:
    """Brakes need brake housing; shift housing splits under their force.

    A combined lever takes both housings, so that it settles nothing.
    """
    if isinstance(part, CombinedLever):
        return None
    if isinstance(part, BrakeLever | DiscCalliper) and is_hydraulic(part):
        return None
    values = ((housing, "use"),)
    if housing.use == "brake":
        return fits("the housing is made for brakes", *values)
    return clash(
        "brakes need wound housing: shift housing splits under their force and the brake is gone",
        *values,
        dangerous=True,
        adapter=BRAKE_HOUSING,
    )


@about("use")
@interface("housing on gears", source=HOUSING_SOURCE)
def housing_on_gears(
    housing: Housing, part: Shifter | RearDerailleur | FrontDerailleur | ShiftCable
) -> Finding | None:
    """Indexed shifters need shift housing; on friction shifters brake housing is acceptable.

    A derailleur or a cable does not tell which shifter it has.
    """
    if isinstance(part, CombinedLever):
        return None
    values = ((housing, "use"),)
    if housing.use == "shift":
        return fits("the housing is made for shifting", *values)
    if isinstance(part, Shifter) and _is_indexed(part):
        return clash(
            "brake housing shortens under load, and indexed shifting misses its places",
            *values,
            adapter=SHIFT_HOUSING,
        )
    return adapts(
        "brake housing gives a little under load",
        *values,
        adapter=SHIFT_HOUSING,
        change="usable with friction levers only, with a softer feel",
    )


def _is_indexed(shifter: Shifter) -> bool:
    """Return whether a shifter clicks; a family or a pull for each click on record tells it."""
    if not shifter.known("friction") and (
        shifter.known("index_family") or shifter.known("pull_per_click_mm")
    ):
        return True
    return shifter.friction == "no"


RULES = (
    brake_cable_in_lever,
    shift_cable_in_shifter,
    brake_wire,
    shift_wire,
    housing_on_brake,
    housing_on_gears,
)
