"""The stem in or on the fork's steerer, by what is named: quill, bore, clamp and steerer."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.verdict import Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.cockpit import Shifter, Stem
from partsbin.kinds.frame import Fork
from partsbin.standards.length import Length, in_mm
from partsbin.standards.quill_sizes import (
    ADAPTER_TOP,
    QUILL_ADAPTERS,
    QUILL_SLEEVES,
    QUILL_SOURCE,
    SANDED,
    STEERER_SLEEVES,
    THREAD_STEERERS,
    quill_row,
    unusual_quills,
)
from partsbin.standards.sleeves import sleeve_words

THREADLESS = "federalprism.com steerer; brainybiker.com tapered forks"
BUILDS = "Wikipedia 'Stem (bicycle part)'; cyclopunk.blogspot.com 2012-01"


@interface("stem in fork", source=QUILL_SOURCE)
def stem_in_fork(stem: Stem, fork: Fork) -> Finding | None:
    """Quills go into a threaded steerer, a threadless stem round a threadless one.

    A threadless stem goes on a threaded fork through an adapter; a quill never in a threadless one.
    """
    quill, threaded = _is_quill(stem), _is_threaded(fork)
    if quill and threaded:
        return _quill_in_bore(stem, fork)
    if quill:
        return clash(
            "a quill cannot hold a threadless fork: nothing keeps its bearing adjusted",
            (stem, "type"),
            (fork, "steerer"),
            remedy="take a threadless stem",
            source=BUILDS,
        )
    if threaded:
        return _adapter_in_bore(stem, fork)
    return _clamp_round_steerer(stem, fork)


def _is_quill(stem: Stem) -> bool:
    """Return whether a stem has a quill; a recorded quill or steerer clamp tells it too."""
    if not stem.known("type"):
        if stem.known("quill_mm") and not stem.known("steerer_clamp_mm"):
            return True
        if stem.known("steerer_clamp_mm") and not stem.known("quill_mm"):
            return False
    return stem.type == "quill"


def _is_threaded(fork: Fork) -> bool:
    """Return whether a fork's steerer is threaded; a recorded thread or bore tells it too."""
    if not fork.known("steerer") and (fork.known("thread") or fork.known("steerer_bore_mm")):
        return True
    return fork.steerer == "threaded"


def _bore(fork: Fork, quill: Length | None) -> tuple[Length, tuple[Fork, str]]:
    """Return the bore of a threaded steerer and what tells it.

    An unmeasured bore is the usual one of its outside, unless the quill is one that some such
    steerers take and others do not.
    """
    if fork.known("steerer_bore_mm") or "steerer_bore_mm" in fork.open_values:
        return fork.steerer_bore_mm, (fork, "steerer_bore_mm")
    outside, told = None, "steerer_mm"
    if fork.known("steerer_mm"):
        outside = fork.steerer_mm
    elif fork.known("thread"):
        outside, told = THREAD_STEERERS.get(fork.thread), "thread"
    row = None if outside is None else quill_row(outside)
    if row is None or (outside is not None and quill in unusual_quills(outside)):
        return fork.steerer_bore_mm, (fork, "steerer_bore_mm")
    return row.quill, (fork, told)


def _quill_in_bore(stem: Stem, fork: Fork) -> Finding:
    quill = stem.quill_mm
    bore, told = _bore(fork, quill)
    about = ((stem, "quill_mm"), told)
    if quill == bore:
        return fits("the quill is made for this steerer", *about)
    have, need = Amount("quill", quill), Amount("steerer's bore", bore)
    if (quill, bore) in SANDED:
        return adapts(
            "the quill is a little thick for this bore; some enter, some do not",
            *about,
            have=have,
            need=need,
            change="sand the stem until it slides in, never ream the fork",
            source=SANDED[quill, bore],
        )
    if quill > bore:
        return clash(
            "the quill is too thick for the steerer",
            *about,
            have=have,
            need=need,
            remedy=f"take a stem with a {in_mm(bore)} mm quill",
        )
    if (quill, bore) in QUILL_SLEEVES:
        return adapts(
            "the quill is loose in the steerer",
            *about,
            have=have,
            need=need,
            adapter=Adapter(what=f"quill sleeve {sleeve_words(quill, bore)}"),
            change=(
                "clean and tighten it well and test by hand that it does not turn; a stem "
                f"with a {in_mm(bore)} mm quill is better"
            ),
            source=QUILL_SLEEVES[quill, bore],
        )
    return clash(
        "the quill is much too thin and would slip",
        *about,
        have=have,
        need=need,
        dangerous=True,
        remedy=f"take a stem with a {in_mm(bore)} mm quill",
    )


def _adapter_in_bore(stem: Stem, fork: Fork) -> Finding:
    about = [(stem, "type"), (fork, "steerer")]
    named = fork.known("thread") and fork.thread in THREAD_STEERERS
    if not (named or fork.known("steerer_bore_mm") or fork.known("steerer_mm")):
        bore_words = "of the steerer's bore"
        source = BUILDS
    else:
        bore, told = _bore(fork, None)
        about.append(told)
        if bore not in QUILL_ADAPTERS:
            return clash(
                "no adapter is made for this bore",
                *about,
                have=Amount("steerer's bore", bore),
                remedy=f"take a stem with a {in_mm(bore)} mm quill",
                source=BUILDS,
            )
        bore_words, source = f"{in_mm(bore)} mm", QUILL_ADAPTERS[bore]
    top = ADAPTER_TOP
    extra = ""
    if stem.known("steerer_clamp_mm"):
        about.append((stem, "steerer_clamp_mm"))
        top = stem.steerer_clamp_mm
        if top > ADAPTER_TOP:
            extra = f", and a sleeve {sleeve_words(ADAPTER_TOP, top)}"
            top = ADAPTER_TOP
    return adapts(
        "the fork is threaded and the stem clamps round a steerer that stands out",
        *about,
        adapter=Adapter(
            what=f"quill adapter, quill {bore_words}, top {in_mm(top)} mm{extra}",
        ),
        source=source,
    )


def _clamp_round_steerer(stem: Stem, fork: Fork) -> Finding:
    about = ((stem, "steerer_clamp_mm"), (fork, "steerer_mm"))
    clamp, steerer = stem.steerer_clamp_mm, fork.steerer_mm
    if clamp == steerer:
        return fits("clamp and steerer are the same size", *about, source=THREADLESS)
    have, need = Amount("clamp", clamp), Amount("steerer", steerer)
    if clamp < steerer:
        return clash(
            "the clamp does not go over the steerer",
            *about,
            have=have,
            need=need,
            source=THREADLESS,
        )
    source = STEERER_SLEEVES.get((steerer, clamp))
    if source is None:
        return clash(
            "the clamp is too wide, and no sleeve of that size is known",
            *about,
            have=have,
            need=need,
            remedy=f"take a {in_mm(steerer)} mm stem",
            source=THREADLESS,
        )
    return adapts(
        "the clamp is wider than the steerer",
        *about,
        have=have,
        need=need,
        adapter=Adapter(what=f"steerer sleeve {sleeve_words(steerer, clamp)}"),
        change="the top cap must press on the stem and not on the sleeve",
        source=source,
    )


@interface("shifter on stem", source="common practice, no source")
def shifter_on_stem(shifter: Shifter, stem: Stem) -> Finding | None:
    """Stem shifters have a band that goes round the quill; other stems have no place."""
    if not shifter.known("mount") or shifter.mount != "stem":
        return None
    if not _is_quill(stem):
        return clash(
            "a threadless stem has no shaft for the shifter's band",
            (shifter, "mount"),
            (stem, "type"),
            remedy="take a shifter for the bar",
        )
    about = ((shifter, "bar_mm"), (stem, "quill_mm"))
    band, quill = shifter.bar_mm, stem.quill_mm
    have, need = Amount("band", band), Amount("quill", quill)
    if band == quill:
        return fits("band and quill are the same size", *about)
    if band < quill:
        return clash("the band does not close round the quill", *about, have=have, need=need)
    return adapts(
        "the band is wider than the quill",
        *about,
        have=have,
        need=need,
        adapter=Adapter(what=f"sleeve {sleeve_words(quill, band)}"),
    )


RULES = (stem_in_fork, shifter_on_stem)
