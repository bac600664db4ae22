"""Where to hold the calliper or the rule: a line drawing for the attributes that need one.

They are drawn here from simple shapes and stand beside the words of how to measure.
"""

from __future__ import annotations

from collections.abc import Callable

from partsbin.bench.drawing import drivetrains, frames, seats_and_bars, wheels
from partsbin.bench.drawing.pen import Pen
from partsbin.kinds.kind import KINDS

Draw = Callable[[], Pen]

EVERYWHERE: dict[str, Draw] = {
    "bsd_mm": wheels.bead_seat,
    "wheel_bsd_mm": wheels.bead_seat,
    "rim_inner_mm": wheels.rim_inner,
    "rim_depth_mm": wheels.rim_depth,
    "rim_wall_mm": wheels.rim_wall,
    "rear_spacing_mm": frames.frame_spacing,
    "bar_mm": seats_and_bars.bar_grip,
    "grip_mm": seats_and_bars.bar_grip,
    "bar_clamp_mm": seats_and_bars.stem_clamp,
    "steerer_mm": frames.steerer,
    "steerer_length_mm": frames.steerer_length,
    "crown_race_mm": frames.crown_race,
    "insertion_mark_mm": seats_and_bars.post_mark,
    "rails": seats_and_bars.rails,
    "seat_tube_bore_mm": frames.tube_bore,
    "seat_tube_od_mm": frames.collar,
    "bb_shell_width_mm": frames.shell_width,
    "shell_width_mm": frames.shell_width,
    "spindle_length_mm": drivetrains.spindle_length,
    "spindle": drivetrains.spindle_ends,
    "driver": drivetrains.driver,
    "spline": drivetrains.driver,
    "valve": wheels.valves,
    "bcd_mm": drivetrains.bolt_circle,
    "pull_per_click_mm": drivetrains.cable_pull,
    "crank_length_mm": drivetrains.crank_length,
    "brake_reach_mm": drivetrains.brake_reach,
    "reach_max_mm": drivetrains.brake_reach,
}
"""By attribute, whatever kind has it."""
OF_KIND: dict[tuple[str, str], Draw] = {
    ("wheel", "spacing_mm"): wheels.hub_spacing,
    ("hub", "spacing_mm"): wheels.hub_spacing,
    ("fork", "spacing_mm"): frames.frame_spacing,
    ("handlebar", "clamp_mm"): seats_and_bars.bar_clamp,
    ("handlebar", "width_mm"): seats_and_bars.bar_width,
    ("stem", "length_mm"): seats_and_bars.stem_length,
    ("seatpost", "diameter_mm"): seats_and_bars.post_diameter,
    ("seatpost", "length_mm"): seats_and_bars.post_length,
    ("seat_clamp", "diameter_mm"): frames.collar,
    ("rotor", "diameter_mm"): wheels.rotor,
    ("cassette", "speeds"): drivetrains.sprockets,
    ("freewheel", "speeds"): drivetrains.sprockets,
    ("freewheel", "thread"): drivetrains.driver,
}
"""By kind and attribute, where other kinds mean something else by it."""


def drawings_of(kind: str) -> dict[str, str]:
    """Return the drawings for the attributes of a kind, as SVG by attribute."""
    found = {}
    for name in KINDS[kind].attributes:
        draw = OF_KIND.get((kind, name)) or EVERYWHERE.get(name)
        if draw is not None:
            found[name] = draw().svg()
    return found
