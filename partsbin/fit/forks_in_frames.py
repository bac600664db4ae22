"""The fork in the frame: its steerer through the head tube, and how high it carries the frame."""

from __future__ import annotations

from dataclasses import replace

from partsbin.fit.rule import interface
from partsbin.fit.verdict import About, Adapter, Amount, Finding, Verdict, adapts, clash, fits
from partsbin.kinds.attribute import UndecidedError
from partsbin.kinds.frame import Fork, Frame, Headset
from partsbin.standards.crown_races import STEERER_OF_SEAT
from partsbin.standards.fork_lengths import LONGER, SAG_SOURCE, SAME, SHORTER, length_off
from partsbin.standards.headset_codes import (
    BEHIND_SLASH,
    FINDER,
    FRENCH,
    INCH,
    ISO_INCH,
    TAPER_LENGTH,
    TAPERED,
    half_code,
    read_code,
)
from partsbin.standards.length import Length, in_mm

THROUGH = f"{FINDER}; mtbr.com 'What is a tapered fork'; brainybiker.com tapered forks"
EXTERNAL = f"{FINDER}; highlandmist.blogspot.com 2016-10"
REDUCER = f"{FINDER}; forum.bikeradar.com 12956029"
INCH_REDUCER = f"{FINDER}; velo.outsideonline.com Technical Q&A, fork fit"


@interface("steerer in head tube, upper end", source=THROUGH)
def steerer_in_upper_end(fork: Fork, frame: Frame, headset: Headset | None) -> Finding | None:
    """Upper end of the steerer: it goes through the tube's top with a headset of that bore.

    A headset among the parts has rules of its own; then only the room for the steerer counts.
    """
    if headset is not None and not (fork.known("steerer_mm") and frame.known("head_tube_upper")):
        return None
    about = ((fork, "steerer_mm"), (frame, "head_tube_upper"))
    finding = _through(fork.steerer_mm, frame.head_tube_upper, "upper", *about)
    return _through_headset(finding, headset)


@interface("steerer in head tube, lower end", source=THROUGH)
def steerer_in_lower_end(fork: Fork, frame: Frame, headset: Headset | None) -> Finding | None:
    """Lower end of the steerer: it goes through the tube's bottom with a headset of that bore.

    A fork of which no taper is recorded is taken for straight where a straight one goes bare.
    """
    lower, told = _lower_end(fork)
    if headset is not None and not frame.known("head_tube_lower"):
        return None
    end = (frame, "head_tube_lower")
    if lower is not None:
        finding = _through(lower, frame.head_tube_lower, "lower", told, end)
        return _through_headset(finding, headset)
    if headset is not None and not fork.known("steerer_mm"):
        return None
    straight = _through(fork.steerer_mm, frame.head_tube_lower, "lower", told, end)
    if headset is None and straight.verdict is Verdict.ADAPTS and not _needs_upper(fork, frame):
        # Straight or tapered decides now: reading the unknown lower end asks for it.
        return _through(fork.steerer_lower_mm, frame.head_tube_lower, "lower", told, end)
    return _through_headset(straight, headset)


def _needs_upper(fork: Fork, frame: Frame) -> bool:
    """Return whether the fork needs a reducing upper half, so that it adapts in any case."""
    if not frame.known("head_tube_upper"):
        return False
    about = ((fork, "steerer_mm"), (frame, "head_tube_upper"))
    upper = _through(fork.steerer_mm, frame.head_tube_upper, "upper", *about)
    return upper.verdict is Verdict.ADAPTS


def _lower_end(fork: Fork) -> tuple[Length | None, About]:
    """Return the steerer's lower end and what tells it, None if it may be tapered or straight."""
    if fork.known("steerer_lower_mm"):
        return fork.steerer_lower_mm, (fork, "steerer_lower_mm")
    threaded = fork.known("steerer") and fork.steerer == "threaded"
    if fork.known("steerer_mm") and (threaded or fork.steerer_mm not in TAPERED):
        return fork.steerer_mm, (fork, "steerer_mm")
    if fork.known("crown_race_mm"):
        return STEERER_OF_SEAT.get(fork.crown_race_mm), (fork, "crown_race_mm")
    return None, (fork, "steerer_mm")


def _through(steerer: Length, end: str, half: str, *about: About) -> Finding:
    """Return how a steerer of that diameter goes through one end of a head tube.

    Fits with the headset that the tube was made for, adapts with an outside or a reducing half.
    """
    code = read_code(end)
    # Either one-inch bore takes the one-inch steerer; the French one is known in one of them.
    tube = read_code(ISO_INCH).tube if code.ambiguous and steerer != FRENCH else code.tube
    if tube is None:
        piece, name = about[-1]
        raise UndecidedError(piece, name)
    if steerer in tube.steerers:
        return fits("the tube was made for a steerer of this size", *about)
    if half == "lower" and steerer in tube.external:
        outside = half_code("EC", tube, half, steerer)
        return adapts(
            "the steerer goes through only if the lower bearing sits outside the tube",
            *about,
            adapter=Adapter(what=f"outside lower headset half {outside}"),
            change="measure the recess: the cup must not be deeper than it",
            source=EXTERNAL,
        )
    largest = max(tube.steerers)
    if steerer > largest or steerer not in BEHIND_SLASH:
        return clash(
            "no bearing has room between steerer and head tube"
            if steerer > largest
            else "no headset for this steerer and this bore is known",
            *about,
            have=Amount("steerer", steerer),
            need=Amount("at most" if steerer > largest else "made for", largest),
        )
    reducing = half_code(code.build, tube, half, steerer)
    return adapts(
        "the tube was made for a thicker steerer",
        *about,
        adapter=Adapter(what=f"reducing {half} headset half {reducing}"),
        source=INCH_REDUCER if steerer == INCH else REDUCER,
    )


def _through_headset(finding: Finding, headset: Headset | None) -> Finding:
    """Return the finding as `fits` through a headset among the parts, unless there is no room."""
    if headset is None or finding.verdict is not Verdict.ADAPTS:
        return finding
    return replace(finding, verdict=Verdict.FITS, through=headset)


@interface("taper in head tube", source="brainybiker.com tapered forks")
def taper_in_head_tube(fork: Fork, frame: Frame) -> Finding | None:
    """Taper of the steerer: about 86 mm long, it must end inside the head tube."""
    if not (fork.known("steerer_lower_mm", "steerer_mm") and frame.known("head_tube_length_mm")):
        return None
    if fork.steerer_lower_mm <= fork.steerer_mm:
        return None
    about = ((frame, "head_tube_length_mm"), (fork, "steerer_lower_mm"))
    tube, taper = frame.head_tube_length_mm, TAPER_LENGTH
    have, need = Amount("head tube", tube), Amount("usual taper", taper)
    if tube > taper:
        return fits("the head tube is longer than a usual taper", *about, have=have, need=need)
    return adapts(
        "the taper may reach above the head tube",
        *about,
        have=have,
        need=need,
        change=f"measure the taper from the crown race seat: it must be under {in_mm(tube)} mm",
    )


@interface("fork length", source=f"{SAG_SOURCE}; limits from memory")
def fork_length(fork: Fork, frame: Frame) -> Finding | None:
    """Fork and frame: axle to crown is what the frame was drawn for, with sag or without."""
    if not (fork.known("axle_to_crown_mm") and frame.known("fork_axle_to_crown_mm")):
        return None
    about = ((fork, "axle_to_crown_mm"), (frame, "fork_axle_to_crown_mm"))
    longer = fork.axle_to_crown_mm - frame.fork_axle_to_crown_mm > SAME
    # Sag shortens a fork, so that it matters whether a long one is sprung; others count as rigid.
    travel = fork.travel_mm if longer or fork.known("travel_mm") else None
    off = length_off(fork.axle_to_crown_mm, travel, frame.fork_axle_to_crown_mm)
    have = Amount("longer by" if off > 0 else "shorter by", abs(off))
    if abs(off) <= SAME:
        return fits("the fork is as long as the frame was drawn for", *about)
    if -SHORTER <= off <= LONGER:
        return adapts(
            "the fork changes the steering a little",
            *about,
            have=have,
            change="ride it with care first: a longer fork slows the steering and lifts the "
            "pedals, a shorter one quickens it and lowers them",
        )
    return clash(
        "the fork is too long: it strains the head tube and spoils the steering"
        if off > 0
        else "the fork is too short: pedals come low and the steering turns nervous",
        *about,
        have=have,
    )


RULES = (steerer_in_upper_end, steerer_in_lower_end, taper_in_head_tube, fork_length)
