"""Readings of wear and damage against their limits, and the grade that a part then has.

Only what was read counts: an assumed value is never decisive for safety.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from partsbin.kinds.brakes import BrakePads
from partsbin.kinds.condition import Stressed
from partsbin.kinds.drivetrain import Chain
from partsbin.kinds.forms.form import Value
from partsbin.kinds.kind import KINDS, Kind
from partsbin.kinds.other import Helmet
from partsbin.kinds.spec import Spec, in_words
from partsbin.kinds.wheels import RimPart, Rotor, Tyre, Wheel
from partsbin.standards import brake_wear, chain_wear, damage, wheel_wear
from partsbin.standards.brake_wear import Wear
from partsbin.standards.length import in_mm

GRADES = ("new", "good", "fair", "poor", "core", "unsafe")
"""All grades, best first."""


class Action(StrEnum):
    """What a reading asks for, worst first: scrap the part, replace it soon, or look closer."""

    SCRAP = "scrap"
    REPLACE = "replace"
    INSPECT = "inspect"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """One reading that tells against a part: the limit, what to do, why, and the source.

    `limit` is a value of the same attribute, None where the reading itself is the fault;
    `reading` is None where the part is held back because nothing was read.
    """

    kind: str
    attribute: str
    reading: Value | None
    action: Action
    because: str
    advice: str
    source: str
    limit: Value | None = None


def limits(spec: Spec, year: int) -> list[Sign]:
    """Return every reading of a part that is past or near its limit, worst first.

    `year` is this year, for ages. Readings well within their limits are not listed.
    """
    found = [sign for check in CHECKS if (sign := check(spec.piece, year)) is not None]
    return sorted(found, key=lambda sign: list(Action).index(sign.action))


def graded(spec: Spec, grade: str, year: int) -> tuple[str, list[Sign]]:
    """Return the grade that the readings leave to a part, and the signs that say so.

    Past a limit of safety a part is `unsafe` whatever was typed; one to be replaced soon is no
    better than `poor`. Raises `ValueError` for an unknown grade.

    >>> graded(Spec.read("chain", {"speeds": "11", "wear_percent": "0.6"}), "good", 2026)[0]
    'unsafe'
    """
    if grade not in GRADES:
        raise ValueError(f"unknown grade {grade!r}; it is one of {', '.join(GRADES)}")
    signs = limits(spec, year)
    actions = {sign.action for sign in signs}
    best = 0
    if Action.SCRAP in actions:
        best = GRADES.index("unsafe")
    elif Action.REPLACE in actions:
        best = GRADES.index("poor")
    return GRADES[max(best, GRADES.index(grade))], signs


def sentence(sign: Sign) -> str:
    """Return a sign in words: the reading and its limit, what it means, what to do, the source.

    >>> chain = Spec.read("chain", {"speeds": "11", "wear_percent": "0.6"})
    >>> sentence(limits(chain, 2026)[0])
    'wear of the chain 0.6%, limit 0.5%: it is worn out, skips and wears its sprockets; scrap it
    (citycyclingtips.com/?p=748)'
    """
    form = KINDS[sign.kind].attributes[sign.attribute].form
    reading = "not recorded" if sign.reading is None else form.show(sign.reading)
    text = f"{in_words(sign.attribute)} of the {in_words(sign.kind)} {reading}"
    if sign.limit is not None:
        text += f", limit {form.show(sign.limit)}"
    return f"{text}: {sign.because}; {sign.advice} ({sign.source})"


def _sign(
    piece: Kind,
    attribute: str,
    action: Action,
    because: str,
    source: str,
    *,
    advice: str = "scrap it",
    limit: Value | None = None,
) -> Sign:
    return Sign(
        kind=piece.word,
        attribute=attribute,
        reading=piece.__dict__.get(attribute),
        action=action,
        because=because,
        advice=advice,
        source=source,
        limit=limit,
    )


def _chain(piece: Kind, _: int) -> Sign | None:
    """Elongation: at its limit by number of speeds a chain is worn out."""
    if not isinstance(piece, Chain) or not piece.known("wear_percent"):
        return None
    wear, source = piece.wear_percent, chain_wear.GAUGES
    of_all = [row.percent for row in chain_wear.LIMITS]
    limit = chain_wear.limit(piece.speeds) if piece.known("speeds") else max(of_all)
    if wear >= limit:
        advice = "scrap it"
        if wear >= chain_wear.SPROCKETS_TOO:
            advice += ", and expect its sprockets to be worn too"
        because = "it is worn out, skips and wears its sprockets"
        return _sign(
            piece, "wear_percent", Action.SCRAP, because, source, advice=advice, limit=limit
        )
    if piece.known("speeds") or wear < min(of_all):
        return None
    because = "it is worn out if it is a narrow chain for many speeds"
    advice = "record its speeds, which decide"
    return _sign(
        piece, "wear_percent", Action.INSPECT, because, source, advice=advice, limit=min(of_all)
    )


def _rotor(piece: Kind, _: int) -> Sign | None:
    """Thickness: under the figure marked on it a rotor is scrap, at that figure used up."""
    if not isinstance(piece, Rotor) or not piece.known("thickness_mm"):
        return None
    thick, source = piece.thickness_mm, brake_wear.ROTOR_SOURCE
    marked = piece.min_thickness_mm if piece.known("min_thickness_mm") else None
    wear = brake_wear.rotor_wear(thick, marked)
    least = brake_wear.ROTOR_MARKS[0] if marked is None else marked
    if wear is Wear.PAST:
        because = "it overheats and can break"
        return _sign(piece, "thickness_mm", Action.SCRAP, because, source, limit=least)
    if wear is Wear.NEAR:
        because, advice = "makers mark different limits", "read the figure after 'min' on it"
        limit = brake_wear.ROTOR_MARKS[-1]
        return _sign(
            piece, "thickness_mm", Action.INSPECT, because, source, advice=advice, limit=limit
        )
    if thick > least:
        return None
    because, advice = "nothing is left to wear", "replace it"
    return _sign(piece, "thickness_mm", Action.REPLACE, because, source, advice=advice, limit=least)


def _pads(piece: Kind, _: int) -> Sign | None:
    """Lining: disc pads at 0.5 mm, rim pads at 1 mm are scrap; thin disc pads are near that."""
    if not isinstance(piece, BrakePads) or not piece.known("thickness_mm"):
        return None
    sorts = [piece.for_brake] if piece.known("for_brake") else ["rim", "disc"]
    wears = {brake_wear.pad_wear(piece.thickness_mm, sort) for sort in sorts}
    if wears == {Wear.WITHIN}:
        return None
    rim = sorts == ["rim"]
    source = brake_wear.RIM_PAD_SOURCE if rim else brake_wear.DISC_PAD_SOURCE
    scrap_at = brake_wear.RIM_PAD_LEAST if rim else brake_wear.DISC_PAD_LEAST
    if wears == {Wear.PAST}:
        because = "metal will soon press on the rim or rotor"
        return _sign(piece, "thickness_mm", Action.SCRAP, because, source, limit=scrap_at)
    if len(sorts) == 1:
        because, advice = "little is left", "use new ones before the bike is handed over"
        limit = brake_wear.DISC_PAD_LOW
        return _sign(
            piece, "thickness_mm", Action.REPLACE, because, source, advice=advice, limit=limit
        )
    because, advice = "rim and disc pads have different limits", "record for which brake they are"
    source = f"{brake_wear.DISC_PAD_SOURCE}; {brake_wear.RIM_PAD_SOURCE}"
    return _sign(piece, "thickness_mm", Action.INSPECT, because, source, advice=advice)


def _rim_wall(piece: Kind, _: int) -> Sign | None:
    """Wall: at 1.0 mm an aluminium rim that pads wear is scrap."""
    if not isinstance(piece, RimPart) or not piece.known("rim_wall_mm"):
        return None
    wear, source = wheel_wear.rim_wear(piece.rim_wall_mm), wheel_wear.RIM_WALL_SOURCE
    if wear is Wear.WITHIN:
        return None
    least = wheel_wear.RIM_WALL_LEAST
    steel = piece.known("rim_material") and piece.rim_material == "steel"
    if steel or (piece.known("brake_track") and piece.brake_track == "no"):
        because = "the limit is for aluminium that brake pads have worn"
        advice = "look for a hollow, a crack and a bulge"
        action = Action.INSPECT
    elif wear is Wear.NEAR:
        because, advice, action = "it is near its end", "replace it soon", Action.REPLACE
    else:
        because, advice, action = "the tyre can burst it", "scrap it", Action.SCRAP
    return _sign(piece, "rim_wall_mm", action, because, source, advice=advice, limit=least)


def _tyre_cracks(piece: Kind, _: int) -> Sign | None:
    """Cracks: a cracked tyre can burst and is not sold."""
    if not isinstance(piece, Tyre) or not piece.known("cracks") or piece.cracks == "no":
        return None
    return _sign(piece, "cracks", Action.SCRAP, "it can burst", wheel_wear.TYRE_CRACK_SOURCE)


def _tyre_age(piece: Kind, year: int) -> Sign | None:
    """Age: an old tyre is looked at hard; age alone scraps none."""
    if not isinstance(piece, Tyre) or not piece.known("made_year"):
        return None
    source, advice = wheel_wear.TYRE_AGE_SOURCE, "read the four figures again"
    if piece.made_year > year:
        because = "that year has not come yet"
        return _sign(piece, "made_year", Action.INSPECT, because, source, advice=advice)
    if wheel_wear.tyre_wear(piece.made_year, year) is Wear.WITHIN:
        return None
    because = "rubber grows hard and cracks with age"
    advice = "bend side wall and tread under a lamp"
    limit = year - wheel_wear.TYRE_YEARS
    return _sign(piece, "made_year", Action.INSPECT, because, source, advice=advice, limit=limit)


def _hub_play(piece: Kind, _: int) -> Sign | None:
    """Play: bearings that knock are set again, and the play is measured at the rim."""
    if not isinstance(piece, Wheel) or not piece.known("hub_play") or piece.hub_play == "no":
        return None
    small = piece.known("bsd_mm") and piece.bsd_mm <= wheel_wear.SMALL_WHEEL
    most = wheel_wear.SMALL_WHEEL_PLAY if small else wheel_wear.RIM_PLAY
    because = f"more than {in_mm(most)} mm at the rim is too much"
    advice, source = "adjust or renew the bearings", "docsbay.net M-shape bike safety check"
    return _sign(piece, "hub_play", Action.INSPECT, because, source, advice=advice)


def _bent(piece: Kind, _: int) -> Sign | None:
    """Bends: a part that carries the rider is not used bent."""
    if not isinstance(piece, Stressed) or not piece.known("bent") or piece.bent == "no":
        return None
    row = damage.BENT[piece.word]
    advice = "scrap it"
    if piece.word == "frame" and piece.__dict__.get("material") == "steel":
        advice = "scrap it, or have it straightened by somebody who can and record it anew"
    return _sign(piece, "bent", Action.SCRAP, row.because, row.source, advice=advice)


def _cracked(piece: Kind, _: int) -> Sign | None:
    """Cracks: a part that carries the rider is not used cracked."""
    if not isinstance(piece, Stressed) or not piece.known("cracked") or piece.cracked == "no":
        return None
    row = damage.CRACKED[piece.word]
    return _sign(piece, "cracked", Action.SCRAP, row.because, row.source)


def _carbon(piece: Kind, _: int) -> Sign | None:
    """Carbon: without a known history it is not used again.

    Where nobody has asked yet, frames and rims are looked at, the others held back.
    """
    materials = ("material", "rim_material", "steerer_material")
    if not isinstance(piece, Stressed) or piece.__dict__.get("history") == "known":
        return None
    if "carbon" not in {piece.__dict__.get(name) for name in materials}:
        return None
    row = damage.CARBON
    held = piece.known("history") or piece.word in damage.CARBON_UNTIL_KNOWN
    action = Action.SCRAP if held else Action.INSPECT
    advice = "do not sell it on unless its whole history is known and recorded"
    return _sign(piece, "history", action, row.because, row.source, advice=advice)


def _helmet(piece: Kind, _: int) -> Sign | None:
    """Helmets: one that was, or may have been, in a crash is not passed on."""
    if not isinstance(piece, Helmet) or not piece.known("crashed") or piece.crashed == "no":
        return None
    return _sign(piece, "crashed", Action.SCRAP, damage.HELMET.because, damage.HELMET.source)


CHECKS: tuple[Callable[[Kind, int], Sign | None], ...] = (
    _cracked,
    _bent,
    _carbon,
    _rim_wall,
    _rotor,
    _pads,
    _tyre_cracks,
    _tyre_age,
    _chain,
    _hub_play,
    _helmet,
)
"""All that is checked, in this order."""
