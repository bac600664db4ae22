"""Valves: in the rim's hole, long enough for the rim, with pump, cap and extender; rim tape."""

from __future__ import annotations

from partsbin.fit.aspect import about
from partsbin.fit.rule import interface
from partsbin.fit.verdict import Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.wheels import PumpHead, RimPart, Tube, ValveCap, ValveExtender
from partsbin.standards import valves
from partsbin.standards.length import Length, in_mm
from partsbin.standards.valves import NARROW, VALVES, WIDE

LONGEST_EXTENDER = Length(160_000)


@about("valve", "valve_hole_mm")
@interface("valve in rim hole", source=valves.HOLE_SOURCE)
def valve_in_hole(tube: Tube, rim: RimPart) -> Finding | None:
    """Match valve and hole; a thin valve takes a grommet, a thick one does not enter."""
    values = ((tube, "valve"), (rim, "valve_hole_mm"))
    made_for = VALVES[tube.valve].hole
    hole = rim.valve_hole_mm
    if hole == made_for:
        return fits("the hole is the valve's", *values, source=VALVES[tube.valve].source)
    if hole > made_for:
        return adapts(
            "the valve is thin for the hole: bare it chafes and its nut sinks in",
            *values,
            have=Amount("hole", hole),
            need=Amount("made for", made_for),
            adapter=Adapter(
                what=f"valve hole grommet {in_mm(WIDE)} to {in_mm(NARROW)} mm", kind="valve_grommet"
            ),
        )
    return clash(
        "the valve is too thick for the hole",
        *values,
        have=Amount("hole", hole),
        need=Amount("made for", made_for),
        remedy=valves.drilling(rim.rim_material if rim.known("rim_material") else None),
    )


@about("valve_length_mm", "rim_depth_mm")
@interface("valve length for rim depth", source=valves.LENGTH_SOURCE)
def valve_length(tube: Tube, rim: RimPart) -> Finding | None:
    """Require 15 mm more than the rim is deep; an extender makes up what is missing."""
    values = ((tube, "valve_length_mm"), (rim, "rim_depth_mm"))
    needed = valves.needed_length(rim.rim_depth_mm)
    have, need = Amount("valve", tube.valve_length_mm), Amount("needed", needed)
    if tube.valve_length_mm >= needed:
        return fits("the valve stands out far enough to pump", *values, have=have, need=need)
    missing = Length(needed - tube.valve_length_mm)
    return adapts(
        "the valve is too short to pump through the rim",
        *values,
        have=have,
        need=need,
        adapter=Adapter(
            what=f"valve extender of {in_mm(missing)} mm or more; one in the stem needs a "
            "removable core",
            kind="valve_extender",
            values={"length_mm": (missing, LONGEST_EXTENDER)},
        ),
    )


@about("type", "removable_core")
@interface("valve extender on valve", source=valves.EXTENDER_SOURCE)
def extender_on_valve(extender: ValveExtender, tube: Tube) -> Finding | None:
    """One that screws in place of the core needs a removable core, one on top does not."""
    if extender.type == "on-core":
        return fits("it screws on top of the valve", (extender, "type"))
    values = ((extender, "type"), (tube, "removable_core"))
    if tube.removable_core == "yes":
        return fits("the core comes out and goes into the extender's end", *values)
    return clash(
        "it takes the core's place and this core does not come out",
        *values,
        remedy="take an extender that screws on top, or a tube with a removable core",
    )


@interface("pump head on valve", source=valves.TIP_SOURCE)
def pump_head_on_valve(pump: PumpHead, tube: Tube) -> Finding | None:
    """Presta heads serve dunlop too; a schrader head reaches both through a screwed adapter."""
    values = ((pump, "valve"), (tube, "valve"))
    if VALVES[pump.valve].tip == VALVES[tube.valve].tip:
        return fits("the head takes this valve", *values)
    if pump.valve == "schrader":
        return adapts(
            "the head is too wide for the valve's tip",
            *values,
            adapter=Adapter(
                what="screwed adapter from the thin valve to schrader",
                kind="pump_head",
                values={"valve": "presta"},
            ),
        )
    return clash(
        "the head is too narrow for the valve",
        *values,
        remedy="take a pump with a schrader head",
    )


@interface("cap on valve", source=valves.TIP_SOURCE)
def cap_on_valve(cap: ValveCap, tube: Tube) -> Finding | None:
    """Compare the threads of cap and tip; presta and dunlop share theirs."""
    values = ((cap, "valve"), (tube, "valve"))
    if VALVES[cap.valve].tip == VALVES[tube.valve].tip:
        return fits("the threads are one", *values)
    return clash(
        f"the cap's thread is {VALVES[cap.valve].tip}, the valve's {VALVES[tube.valve].tip}",
        *values,
        remedy=f"take a cap for a {tube.valve} valve",
    )


RULES = (valve_in_hole, valve_length, extender_on_valve, pump_head_on_valve, cap_on_valve)
