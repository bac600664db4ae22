"""Where the parts of one working bicycle agree: rows of places, with where that is published.

A place is an attribute of the part in a slot, written `rear wheel.bsd_mm`; `{end}` stands for
front and rear. Places of an agreement hold the same value. Others lead one to another.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from partsbin.kinds.forms.form import Value
from partsbin.kinds.kind import Kind
from partsbin.standards.brake_pull import RIM_BRAKES, family
from partsbin.standards.brake_pull import SOURCE as PULL
from partsbin.standards.chain_widths import SINGLE_SPROCKETS
from partsbin.standards.length import Length
from partsbin.standards.quill_sizes import QUILL_SOURCE, quill_row

PRACTICE = "common practice, no source"
BARS = "lovecitycycles.com/?page_id=796, Handlebar and Stem Dimension sheet"
HEADSET = "Wikipedia 'Headset'; canecreek.com headset-fit-finder"
SHELLS = "bikeraceinfo.com/tech/bottom-brackets.html"
POSTS = "bike.bikegremlin.com/3114, Seatpost diameter sizes"
BANDS = "bike.bikegremlin.com/1297"
BOLTS = "smontanaro.net/CR/2005/1/778"
BOSSES = "bikebuilding.blogspot.com 2006/12 braze-on distances"

Translation = Callable[[Value, Kind], Value | None]
"""What a giver's value means for the heir; takes the giving piece too. None if nothing."""


@dataclass(frozen=True, slots=True)
class Place:
    """An attribute of the part in a slot."""

    slot: str
    attribute: str

    @classmethod
    def of(cls, text: str) -> Place:
        """Return the place that a text names."""
        slot, _, attribute = text.rpartition(".")
        return cls(slot, attribute)


@dataclass(frozen=True, slots=True)
class Bequest:
    """One place that says what another one holds, how, and where that is published."""

    heir: Place
    giver: Place
    given: Translation
    source: str
    heir_kind: str = ""
    """The only kind that inherits in this way; empty if every kind of the slot does."""
    geared: bool = False
    """Whether it holds for derailleur gears only: a hub gear has one sprocket and many speeds."""


def _said(piece: Kind, name: str) -> Value | None:
    value: Value | None = piece.__dict__.get(name, piece.likely.get(name))
    return value


def _same(value: Value, _: Kind) -> Value:
    return value


def _if(name: str, *wanted: Value) -> Translation:
    """Return the translation to the same value, if another attribute of the giver is as wanted."""
    return lambda value, piece: value if _said(piece, name) in wanted else None


def _stem_type(build: Value, _: Kind) -> Value:
    return "quill" if build == "threaded" else "threadless"


def _steerer_build(type_: Value, _: Kind) -> Value:
    return "threaded" if type_ == "quill" else "threadless"


def _at_the_grips(band: Value, lever: Kind) -> Value | None:
    return None if _said(lever, "mount") == "tops" else band


def _on_flat_bars(grip: Value, bar: Kind) -> Value | None:
    """Return the band of a shifter; on a drop bar a plain one is mostly elsewhere."""
    return grip if _said(bar, "style") in ("flat", "riser", "swept") else None


def _quill(steerer: Value, fork: Kind) -> Value | None:
    if _said(fork, "steerer") != "threaded" or not isinstance(steerer, int):
        return None
    row = quill_row(Length(steerer))
    return row.quill if row else None


def _bore(code: Value, _: Kind) -> Value:
    """Return what a headset's code says of the frame: `EC34` of `EC34/28.6`."""
    return str(code).partition("/")[0]


def _bolt(mounts: Value, _: Kind) -> Value | None:
    assert isinstance(mounts, tuple)
    bolts = {"calliper-hole": "nut", "calliper-recessed": "recessed"}
    found = {bolts[str(mount)] for mount in mounts if mount in bolts}
    return found.pop() if len(found) == 1 else None


def _how_many(teeth: Value, _: Kind) -> Value | None:
    return len(teeth) if isinstance(teeth, tuple) and len(teeth) > 1 else None


def _brake_pull(type_: Value, _: Kind) -> Value:
    return family(RIM_BRAKES[str(type_)])


def _chain_inside(width: Value, _: Kind) -> Value:
    return SINGLE_SPROCKETS[str(width)]


def _agree(source: str, *places: str, geared: bool = False) -> Iterator[Bequest]:
    """Yield a bequest to each place from each other one."""
    for row in _at_both_ends(*places):
        held = [Place.of(text) for text in row]
        for heir in held:
            for giver in held:
                if giver != heir:
                    yield Bequest(heir, giver, _same, source, geared=geared)


def _lead(
    source: str, givers: str, heirs: str, given: Translation = _same, kind: str = ""
) -> Iterator[Bequest]:
    """Yield the bequests from each giver to each heir; several are parted by bars."""
    for giver in givers.split(" | "):
        for heir in heirs.split(" | "):
            for of, to in _at_both_ends(giver, heir):
                yield Bequest(Place.of(to), Place.of(of), given, source, kind)


def _at_both_ends(*places: str) -> Iterator[tuple[str, ...]]:
    ends = ("front", "rear") if any("{end}" in place for place in places) else ("",)
    yield from (tuple(place.format(end=end) for place in places) for end in ends)


_SEAT_AND_STEERING = (
    *_agree(POSTS, "frame.seat_tube_bore_mm", "seatpost.diameter_mm"),
    *_agree("compulsioncycles.com clamps", "frame.seat_tube_od_mm", "seat clamp.diameter_mm"),
    *_agree("xjd.com saddle rail pages", "saddle.rails", "seatpost.rails"),
    *_agree(HEADSET, "fork.steerer", "headset.steerer"),
    *_agree(HEADSET, "fork.steerer_mm", "headset.steerer_mm"),
    *_agree(HEADSET, "fork.thread", "headset.thread"),
    *_agree(HEADSET, "fork.crown_race_mm", "headset.crown_race_mm"),
    *_lead(HEADSET, "frame.head_tube_upper", "headset.upper"),
    *_lead(HEADSET, "frame.head_tube_lower", "headset.lower"),
    *_lead(HEADSET, "headset.upper", "frame.head_tube_upper", _bore),
    *_lead(HEADSET, "headset.lower", "frame.head_tube_lower", _bore),
    *_lead(PRACTICE, "fork.steerer | headset.steerer", "stem.type", _stem_type),
    *_lead(PRACTICE, "stem.type", "fork.steerer | headset.steerer", _steerer_build),
    *_lead(PRACTICE, "fork.steerer_mm", "stem.steerer_clamp_mm", _if("steerer", "threadless")),
    *_lead(PRACTICE, "stem.steerer_clamp_mm", "fork.steerer_mm", _if("type", "threadless")),
    *_lead(QUILL_SOURCE, "fork.steerer_mm", "stem.quill_mm", _quill),
    *_agree(BARS, "handlebar.clamp_mm", "stem.bar_clamp_mm"),
)
_PULLS = (
    "left brake lever.brake_pull",
    "right brake lever.brake_pull",
    "front shifter.brake_pull",
    "rear shifter.brake_pull",
)
_FLUIDS = tuple(place.replace("brake_pull", "fluid") for place in _PULLS)
_LEVER_BANDS = "left brake lever.bar_mm | right brake lever.bar_mm"
# Which hand works which brake is a custom of the country, so that levers go with both brakes. A
# combined lever stands in its shifter's slot.
_CONTROLS = (
    *_agree(BARS, "grips.inner_mm", "handlebar.grip_mm"),
    *_lead(BARS, "handlebar.grip_mm", _LEVER_BANDS),
    *_lead(BARS, _LEVER_BANDS, "handlebar.grip_mm", _at_the_grips),
    *_lead(BARS, "handlebar.grip_mm", "{end} shifter.bar_mm", kind="combined_lever"),
    *_lead(BARS, "handlebar.grip_mm", "{end} shifter.bar_mm", _on_flat_bars, "shifter"),
    *_lead(BARS, "{end} shifter.bar_mm", "handlebar.grip_mm"),
    *_agree(PULL, *_PULLS, "front brake.brake_pull", "rear brake.brake_pull"),
    *_lead(PULL, "front brake.type | rear brake.type", " | ".join(_PULLS), _brake_pull),
    *_agree("trustysources.com DOT/mineral", *_FLUIDS, "front brake.fluid", "rear brake.fluid"),
    *_agree("noahsark.co.uk disc mounts", "{end} brake.rotor_mm", "{end} rotor.diameter_mm"),
    *_lead(BOLTS, "frame.brake_mounts", "rear brake.bolt", _bolt),
    *_lead(BOLTS, "fork.brake_mounts", "front brake.bolt", _bolt),
)
_DRIVETRAIN = (
    *_agree(
        "sheldonbrown.com/speeds.html",
        "sprockets.speeds",
        "rear shifter.speeds",
        "rear derailleur.speeds",
        "chain.speeds",
        "chainset.speeds",
        geared=True,
    ),
    *_agree(
        "bike.bikegremlin.com/1278", "rear shifter.index_family", "rear derailleur.index_family"
    ),
    *_agree("mtbr.com 933644", "front shifter.front_pull", "front derailleur.front_pull"),
    *_agree(PRACTICE, "front shifter.speeds", "front derailleur.rings"),
    *_lead(PRACTICE, "chainset.rings", "front shifter.speeds | front derailleur.rings", _how_many),
    *_agree("hulkbike.com/blog/deraillieur", "front derailleur.mount", "frame.fd_mount"),
    *_lead(BANDS, "frame.seat_tube_od_mm", "front derailleur.clamp_mm", _if("fd_mount", "clamp")),
    *_lead(BANDS, "front derailleur.clamp_mm", "frame.seat_tube_od_mm", _if("mount", "clamp")),
    *_lead("bike.bikegremlin.com/3555", "sprockets.width_in", "chain.inner_mm", _chain_inside),
    *_agree(SHELLS, "bottom bracket.shell", "frame.bb_shell"),
    *_agree(SHELLS, "bottom bracket.shell_width_mm", "frame.bb_shell_width_mm"),
    *_agree("moultoneer.wordpress.com/2022/03/17", "bottom bracket.spindle", "chainset.spindle"),
    *_agree(PRACTICE, "bottom bracket.spindle_length_mm", "chainset.spindle_length_mm"),
    *_agree("lfgss.com/comments/8473736", "chainset.pedal_thread", "pedals.pedal_thread"),
)
# Tubes of other sizes may have been stretched in, so that a tube says nothing of its wheel.
_WHEELS = (
    *_agree(
        "sheldonbrown.com/frame-spacing.html", "frame.rear_spacing_mm", "rear wheel.spacing_mm"
    ),
    *_agree("mountainbike-magazin.de Lexikon 412768", "fork.spacing_mm", "front wheel.spacing_mm"),
    *_agree("hotvehs.com wheel axle", "frame.rear_axle", "rear wheel.axle"),
    *_agree("hotvehs.com wheel axle", "fork.axle", "front wheel.axle"),
    *_agree("sheldonbrown.com/26.html", "{end} wheel.bsd_mm", "{end} tyre.bsd_mm"),
    *_agree(BOSSES, "frame.wheel_bsd_mm", "rear wheel.bsd_mm"),
    *_agree(BOSSES, "fork.wheel_bsd_mm", "front wheel.bsd_mm"),
    *_lead(
        "powermanmalaysia.com tube sizes",
        "{end} tyre.bsd_mm | {end} wheel.bsd_mm",
        "{end} tube.bsd_mm",
    ),
    *_agree("koovacomponents.com freehub guide", "rear wheel.driver", "sprockets.spline"),
    *_agree("sheldonbrown.com/freewheels.html", "rear wheel.driver", "sprockets.thread"),
    *_agree(
        "bike-advisor.com centerlock-or-six-bolts",
        "{end} rotor.rotor_mount",
        "{end} wheel.rotor_mount",
    ),
)

BEQUESTS: dict[Place, tuple[Bequest, ...]] = {}
"""All bequests by the place that inherits."""
for _bequest in (*_SEAT_AND_STEERING, *_CONTROLS, *_DRIVETRAIN, *_WHEELS):
    BEQUESTS[_bequest.heir] = (*BEQUESTS.get(_bequest.heir, ()), _bequest)
