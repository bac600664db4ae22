"""Parts as they are made, of every kind: random, but no part contradicts itself.

Attributes that a table ties together are drawn from one of its rows: the pull of a shifter and its
family, the widths of a chain and its speeds, the grip area of a bar and its clamp.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Any

from partsbin.kinds import KINDS
from partsbin.kinds.forms.codes import CodeForm
from partsbin.kinds.forms.form import Form
from partsbin.kinds.forms.lengths import LengthForm
from partsbin.kinds.forms.numbers import CountForm, CountsForm, NumberForm
from partsbin.kinds.forms.words import WordForm, WordsForm
from partsbin.standards.bar_table import BARS
from partsbin.standards.brake_pull import RIM_BRAKES, family
from partsbin.standards.chain_widths import WIDTHS
from partsbin.standards.front_derailleurs import DIFFERENCES
from partsbin.standards.indexing_families import FAMILIES, RATIOS
from partsbin.standards.length import in_mm
from partsbin.standards.sprocket_spacing import SPACINGS

Attributes = dict[str, Any]
MARKINGS = ("26x1.95", "700x28C", "37-622", "26x1 3/8", "28x1 1/2", "20x1.75", "27x1 1/4")


def any_value(form: Form, draw: random.Random) -> Any:
    """Return a value that a form allows, as a JSON file holds it; mostly one that is listed."""
    value: Any = "as printed"
    if isinstance(form, LengthForm):
        within = [size for size in form.candidates() if form.low <= size <= form.high]  # type: ignore[operator] # sizes are ints
        listed = within and draw.random() < 0.9
        value = float(in_mm(draw.choice(within))) if listed else _between(form, draw)
    elif isinstance(form, WordForm):
        value = draw.choice(form.words)
    elif isinstance(form, WordsForm):
        value = draw.sample(form.words, draw.randint(0, 2))
    elif isinstance(form, CountForm):
        value = draw.choice(form.listed or range(form.low, form.high + 1))
    elif isinstance(form, CountsForm):
        value = sorted(draw.sample(range(form.low, form.high), 3))
    elif isinstance(form, NumberForm):
        value = round(draw.uniform(float(form.low), float(form.high)), 2)
    elif isinstance(form, CodeForm):
        value = draw.choice(form.usual)
    return value


def _between(form: LengthForm, draw: random.Random) -> float:
    return round(draw.uniform(form.low / 1000, form.high / 1000), 1)


def _lever(_draw: random.Random, held: Attributes) -> Attributes:
    if held["brake_pull"] == "hydraulic":
        return {"brake_cable_head": None}
    return {"fluid": None}


def _combined(draw: random.Random, held: Attributes) -> Attributes:
    drop = draw.random() < 0.5
    pulls = ("short", "hydraulic") if drop else ("long", "short", "hydraulic")
    shape = {
        "bar_mm": 23.8 if drop else 22.2,
        "front_pull": "road" if drop else "flat-bar",
        "brake_pull": draw.choice(pulls),
    }
    return {**_shifter(draw, held), **shape, **_lever(draw, {**held, **shape})}


def _shifter(draw: random.Random, held: Attributes) -> Attributes:
    if held.get("mount") == "tops":
        held["mount"] = "bar-clamp"
    if held["side"] == "front":
        clicks = {"pull_per_click_mm": None, "index_family": None}
        return {**clicks, "speeds": draw.choice((2, 3))}
    row = draw.choice(list(FAMILIES.values()))
    return {
        "index_family": row.name,
        "speeds": row.speeds,
        "pull_per_click_mm": float(in_mm(row.pull)),
        "front_pull": None,
        "friction": "no",
    }


CAGES = (
    {"max_cog": 27, "capacity_teeth": 29},
    {"max_cog": 34, "capacity_teeth": 33},
    {"max_cog": 34, "capacity_teeth": 43},
    {"max_cog": 36, "capacity_teeth": 45},
)


def _rear_derailleur(draw: random.Random, _held: Attributes) -> Attributes:
    row = draw.choice(list(FAMILIES.values()))
    return {
        "index_family": row.name,
        "speeds": row.speeds,
        "ratio": float(RATIOS[row.name][0]),
        **draw.choice(CAGES),
    }


def _front_derailleur(draw: random.Random, held: Attributes) -> Attributes:
    rings = draw.choice((2, 3))
    own: Attributes = {"rings": rings, "capacity_teeth": DIFFERENCES[rings]}
    return own if held["mount"] == "clamp" else {**own, "clamp_mm": None}


def _cluster(draw: random.Random, _held: Attributes) -> Attributes:
    row = draw.choice(list(SPACINGS.values()))
    smallest = draw.choice((11, 12, 13))
    return {
        "speeds": row.speeds,
        "spacing": row.kind,
        "pitch_mm": float(in_mm(row.pitch)),
        "cog_thickness_mm": float(in_mm(row.thickness)),
        "cogs": [smallest + 2 * at for at in range(row.speeds)],
    }


def _cassette(draw: random.Random, held: Attributes) -> Attributes:
    cluster = _cluster(draw, held)
    speeds, spacing = cluster["speeds"], cluster["spacing"]
    spline = "one-wide-spline-35"
    if spacing == "italian":
        spline = "italian-deep-spline"
    elif spacing == "uneven-old" or speeds < 7:
        spline = "equal-spline-threaded"
    elif speeds == 7:
        spline = "one-wide-spline-short"
    elif (speeds, spacing) == (11, "standard"):
        spline = "one-wide-spline-36.8"
    ring = draw.choice((0, 1.0)) if speeds == 10 and spacing == "standard" else 0
    return {**cluster, "spline": spline, "ring_behind_mm": ring}


def _chain(draw: random.Random, _held: Attributes) -> Attributes:
    speeds, row = draw.choice(list(WIDTHS.items()))
    return {
        "speeds": speeds,
        "inner_mm": float(in_mm(row.inner)),
        "outer_mm": float(in_mm(row.outer)),
    }


def _handlebar(draw: random.Random, _held: Attributes) -> Attributes:
    row = draw.choice(BARS)
    return {
        "style": draw.choice(sorted(row.shapes)),
        "clamp_mm": float(in_mm(row.clamp)),
        "grip_mm": float(in_mm(row.grip)),
        "material": row.material or "aluminium",
    }


def _rim_brake(draw: random.Random, held: Attributes) -> Attributes:
    own: Attributes = {"brake_pull": family(RIM_BRAKES[held["type"]])}
    if held["type"] in {"side-pull", "dual-pivot", "centre-pull"}:
        least = draw.choice((39, 47, 55))
        return {**own, "reach_min_mm": least, "reach_max_mm": least + 10}
    return {**own, "reach_min_mm": None, "reach_max_mm": None, "bolt": None}


def _disc_calliper(_draw: random.Random, held: Attributes) -> Attributes:
    return {} if held["brake_pull"] == "hydraulic" else {"fluid": None}


STEERERS = {
    "24tpi": (25.4, 22.2),
    "m25x1": (25.0, 22.0),
    "26tpi": (28.6, 25.4),
}


def _fork(draw: random.Random, held: Attributes) -> Attributes:
    if held["steerer"] == "threaded":
        thread, (outside, bore) = draw.choice(list(STEERERS.items()))
        seat = 30.0 if outside == 28.6 else draw.choice((26.4, 27.0))
        steerer: Attributes = {"thread": thread, "steerer_mm": outside, "steerer_bore_mm": bore}
        steerer |= {"steerer_lower_mm": None, "crown_race_mm": seat}
    else:
        lower = draw.choice((28.6, 38.1))
        steerer = {"thread": None, "steerer_mm": 28.6, "steerer_bore_mm": None}
        steerer |= {"steerer_lower_mm": lower, "crown_race_mm": 30.0 if lower == 28.6 else 39.8}
    metal = draw.choice(("steel", "aluminium"))
    more = {"material": metal, "steerer_material": metal, "travel_mm": draw.choice((0, 100))}
    return {**steerer, **_dropouts(draw), **_brakes(held), **more, "max_wheel_bsd_mm": None}


def _brakes(held: Attributes) -> Attributes:
    mounts = set(held["brake_mounts"])
    reach = {} if mounts & {"calliper-hole", "calliper-recessed"} else {"brake_reach_mm": None}
    disc = {} if mounts & {"post-74", "post-68", "flat-34"} else {"native_rotor_mm": None}
    return reach | disc


def _dropouts(draw: random.Random) -> Attributes:
    axle, width = draw.choice((("qr", 100), ("nutted", 96), ("thru-15", 110), ("thru-12", 100)))
    slot = {} if axle in {"qr", "nutted"} else {"dropout_slot_mm": None}
    return {"axle": axle, "spacing_mm": width, **slot}


def _frame(draw: random.Random, held: Attributes) -> Attributes:
    axle, width = draw.choice((("qr", 130), ("qr", 135), ("nutted", 120), ("thru-12", 142)))
    upper, lower = draw.choice((("EC34", "EC34"), ("ZS44", "ZS56"), ("EC30.2-iso", "EC30.2-iso")))
    own: Attributes = {
        "rear_axle": axle,
        "rear_spacing_mm": width,
        "head_tube_upper": upper,
        "head_tube_lower": lower,
        "seat_tube_od_mm": 34.9,
        "seat_tube_bore_mm": draw.choice((27.2, 30.9, 31.6)),
    }
    slot = {} if axle in {"qr", "nutted"} else {"dropout_slot_mm": None, "hanger": "replaceable"}
    return {**own, **slot, **_brakes(held)}


def _headset(_draw: random.Random, held: Attributes) -> Attributes:
    if held["steerer"] == "threaded":
        return {
            "steerer_mm": 25.4,
            "thread": "24tpi",
            "upper": "EC30.2-iso",
            "lower": "EC30.2-iso",
            "crown_race_mm": 26.4,
        }
    return {
        "thread": None,
        "steerer_mm": 28.6,
        "upper": "ZS44/28.6",
        "lower": "ZS56/40",
        "crown_race_mm": 39.8,
    }


def _stem(_draw: random.Random, held: Attributes) -> Attributes:
    return {"steerer_clamp_mm" if held["type"] == "quill" else "quill_mm": None}


def _hub(draw: random.Random, held: Attributes) -> Attributes:
    front = held["side"] == "front"
    places = (
        (("qr", 100, 9), ("thru-15", 110, 15))
        if front
        else (("qr", 130, 10), ("nutted", 120, 9.52), ("thru-12", 142, 12))
    )
    axle, width, thick = draw.choice(places)
    own: Attributes = {"axle": axle, "spacing_mm": width, "axle_mm": thick}
    own |= {"end_caps": "fixed"} if axle == "nutted" else {}
    return {**own, "driver": None} if front else own


def _tyre(draw: random.Random, _held: Attributes) -> Attributes:
    return (
        {"marking": None}
        if draw.random() < 0.7
        else {"marking": draw.choice(MARKINGS), "bsd_mm": None, "width_mm": None}
    )


def _chainset(draw: random.Random, held: Attributes) -> Attributes:
    circle, arms = draw.choice(((110, 5), (130, 5), (104, 4), (94, 5)))
    rings = draw.choice(([22, 32, 42], [34, 50], [32], [30, 39, 50]))
    threads = {"onepiece": "1/2x20"}
    pedal = threads.get(held["spindle"], "9/16x20")
    return {"bcd_mm": circle, "arms": arms, "rings": rings, "pedal_thread": pedal}


def _chainring(draw: random.Random, _held: Attributes) -> Attributes:
    circle, arms = draw.choice(((110, 5), (130, 5), (104, 4), (74, 5)))
    return {"bcd_mm": circle, "arms": arms}


def _tube(draw: random.Random, _held: Attributes) -> Attributes:
    least = draw.choice((18, 28, 35, 45))
    return {"width_min_mm": least, "width_max_mm": least + 10}


def _rotor(draw: random.Random, _held: Attributes) -> Attributes:
    return {"min_thickness_mm": draw.choice((1.5, 1.52, 1.55))}


def _seatpost(draw: random.Random, _held: Attributes) -> Attributes:
    return {"length_mm": draw.choice((250, 300, 350)), "insertion_mark_mm": 75}


TIES: dict[str, Callable[[random.Random, Attributes], Attributes]] = {
    "brake_lever": _lever,
    "combined_lever": _combined,
    "shifter": _shifter,
    "rear_derailleur": _rear_derailleur,
    "front_derailleur": _front_derailleur,
    "cassette": _cassette,
    "freewheel": _cluster,
    "chain": _chain,
    "handlebar": _handlebar,
    "rim_brake": _rim_brake,
    "rotor": _rotor,
    "seatpost": _seatpost,
    "disc_calliper": _disc_calliper,
    "fork": _fork,
    "frame": _frame,
    "headset": _headset,
    "stem": _stem,
    "wheel": _hub,
    "hub": _hub,
    "tyre": _tyre,
    "tube": _tube,
    "chainset": _chainset,
    "chainring": _chainring,
}
"""Kinds of which some attributes hang together: what they are then, None where there is none."""


def made(kind: str, draw: random.Random) -> Attributes:
    """Return all attributes of a part of a kind, so that they do not contradict each other."""
    held = {name: any_value(a.form, draw) for name, a in KINDS[kind].attributes.items()}
    held |= TIES[kind](draw, held) if kind in TIES else {}
    return {name: value for name, value in held.items() if value is not None}


def some_of(held: Attributes, draw: random.Random) -> Attributes:
    """Return some of a part's attributes, from none to all."""
    share = draw.random()
    return {name: value for name, value in held.items() if draw.random() < share}
