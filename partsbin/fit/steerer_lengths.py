"""Whether the steerer is long enough for head tube, headset and stem, and what fills the rest."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.verdict import About, Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.cockpit import Stem
from partsbin.kinds.frame import Fork, Frame, Headset
from partsbin.standards.length import Length, in_mm
from partsbin.standards.steerer_stack import (
    GAP_SOURCE,
    LARGEST_GAP,
    LOWEST_STEM,
    STACK_SOURCE,
    USUAL_GAP,
)

LEAST_RECORDED = 2
"""So many of steerer, head tube and stack make it worth asking for the rest."""

LENGTHS = f"{STACK_SOURCE}; {GAP_SOURCE}"


@interface("steerer length", source=LENGTHS)
def steerer_length(
    frame: Frame, fork: Fork, headset: Headset | None, stem: Stem | None
) -> Finding | None:
    """Steerer against head tube, headset and stem: as long as they are; spacers fill the rest.

    Lengths in micrometres. A threaded steerer may not be shorter than head tube and stack; a
    threadless one ends at most 5 mm below the stem's top and a little below it. Nothing is asked
    where two of the three lengths are not recorded.
    """
    about: list[About] = [(fork, "steerer_length_mm"), (frame, "head_tube_length_mm")]
    bare = _bare(frame, fork, about)
    if headset is None or bare is not None:
        return bare
    recorded = [fork.known("steerer_length_mm"), frame.known("head_tube_length_mm")]
    if sum((*recorded, headset.known("stack_mm"))) < LEAST_RECORDED:
        return None
    above = fork.steerer_length_mm - frame.head_tube_length_mm
    left = Length(above - headset.stack_mm)
    about.append((headset, "stack_mm"))
    if left < 0:
        return clash(
            "the steerer is too short for head tube and headset",
            *about,
            have=Amount("above the head tube", above),
            need=Amount("headset stack", headset.stack_mm),
            remedy="take a headset of lower stack, or a fork with a longer steerer",
        )
    if _threaded(fork, headset, stem):
        return _threaded_rest(left, about)
    if stem is None or (stem.known("type") and stem.type == "quill"):
        return _room_for_stem(left, about)
    return _stem_on_rest(left, stem, about)


def _bare(frame: Frame, fork: Fork, about: list[About]) -> Finding | None:
    """Return a clash if the steerer does not come out of the head tube; more needs the headset."""
    if not (fork.known("steerer_length_mm") and frame.known("head_tube_length_mm")):
        return None
    steerer, tube = fork.steerer_length_mm, frame.head_tube_length_mm
    if steerer > tube:
        return None
    return clash(
        "the steerer was cut for a shorter head tube",
        *about,
        have=Amount("steerer", steerer),
        need=Amount("head tube and headset, more than", tube),
    )


def _threaded(fork: Fork, headset: Headset, stem: Stem | None) -> bool:
    """Return whether the steerer is threaded, as fork, headset or stem tell."""
    if not fork.known("steerer"):
        if fork.known("thread") or headset.known("thread"):
            return True
        if headset.known("steerer"):
            return headset.steerer == "threaded"
        if stem is not None and stem.known("type"):
            return stem.type == "quill"
    return fork.steerer == "threaded"


def _threaded_rest(left: Length, about: list[About]) -> Finding:
    if left == 0:
        return fits("steerer, head tube and stack agree", *about)
    return adapts(
        "the steerer is longer than head tube and stack",
        *about,
        have=Amount("over", left),
        adapter=Adapter(what=f"spacers of {in_mm(left)} mm in all under the locknut"),
        change="or cut the steerer, if its thread reaches down far enough",
    )


def _room_for_stem(left: Length, about: list[About]) -> Finding:
    room = Amount("left for stem and spacers", left)
    least = LOWEST_STEM - LARGEST_GAP
    if left < least:
        return clash(
            "too little of the steerer is left for any stem",
            *about,
            have=room,
            need=Amount("for the lowest stem", least),
        )
    return fits("the steerer comes out above the headset", *about, have=room)


def _stem_on_rest(left: Length, stem: Stem, about: list[About]) -> Finding:
    height = stem.height_mm
    about = [*about, (stem, "height_mm")]
    gap = height - left
    have, need = Amount("steerer ends below the stem's top by", gap), LARGEST_GAP
    if gap > need:
        return clash(
            "the steerer is too short for this stem, whose upper bolt would clamp air",
            *about,
            have=have,
            need=Amount("at most", need),
            dangerous=True,
            remedy=f"take a stem at most {in_mm(left + LARGEST_GAP)} mm high, or another fork",
        )
    if gap > 0:
        return fits(
            "the steerer ends a little below the stem's top",
            *about,
            have=have,
            need=Amount("at most", need),
        )
    spacers = in_mm(USUAL_GAP - gap)
    return adapts(
        "the steerer stands out of the stem, so that the top cap cannot press",
        *about,
        have=Amount("over", -gap),
        adapter=Adapter(what=f"spacers of {spacers} mm in all, below or above the stem"),
        change="or cut the steerer",
    )


RULES = (steerer_length,)
