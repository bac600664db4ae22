"""The headset in the frame's head tube and on the fork's steerer: each half, size and thread."""

from __future__ import annotations

from partsbin.fit import aspect
from partsbin.fit.rule import interface
from partsbin.fit.verdict import About, Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.attribute import UndecidedError
from partsbin.kinds.frame import Fork, Frame, Headset
from partsbin.standards.crown_races import MILLED, REDUCED, seat_for
from partsbin.standards.headset_codes import (
    FINDER,
    GUIDE,
    Code,
    interference,
    read_code,
    same_bore,
)
from partsbin.standards.length import Length, in_mm, mm

MATCH = "Wikipedia 'Headset'; " + FINDER
INCH_NORMS = f"bores: {GUIDE}; cups and races: overwheel.net column 2022-10-02"
CRACKED = f"{INCH_NORMS}; cracked lugs: rennrad-news.de thread 92675"


@interface("headset upper half in head tube", source=FINDER)
def upper_half_in_head_tube(headset: Headset, frame: Frame) -> Finding | None:
    """Upper half: its code names the bore and build of the head tube's top."""
    return _half_in_tube(
        headset.upper, frame.head_tube_upper, (headset, "upper"), (frame, "head_tube_upper")
    )


# To read a code, its letters are made `upper`: that is not the other half.
@aspect.about("lower", "head_tube_lower")
@interface("headset lower half in head tube", source=FINDER)
def lower_half_in_head_tube(headset: Headset, frame: Frame) -> Finding | None:
    """Lower half: its code names the bore and build of the head tube's bottom."""
    return _half_in_tube(
        headset.lower, frame.head_tube_lower, (headset, "lower"), (frame, "head_tube_lower")
    )


def _half_in_tube(half: str, end: str, *about: About) -> Finding:
    """Return how a headset half of one code goes into a head tube's end of another.

    Pressed cups of one bore go into each other's tubes, bearings without a cup only on a seat that
    the frame has. One-inch cups of 30.2 and 30.0 mm are two sizes: one cracks the tube, one is
    loose.
    """
    cup, tube = read_code(half), read_code(end)
    for code, (piece, name) in zip((cup, tube), about, strict=True):
        if code.ambiguous and _is_inch(cup) and _is_inch(tube):
            raise UndecidedError(piece, name)
    have, need = Amount("headset bore", cup.bore), Amount("head tube bore", tube.bore)
    if (cup.build == "IS") != (tube.build == "IS"):
        return clash(
            "a bearing without a cup needs its own seat in the frame"
            if cup.build == "IS"
            else "a pressed cup does not go on a bearing seat of the frame",
            *about,
        )
    if same_bore(cup, tube):
        if cup.build == tube.build:
            return fits("headset and head tube are one size and build", *about)
        return fits(
            "the cup is of the tube's bore; if it stands proud the recess is too shallow for it",
            *about,
            source=f"{FINDER}; highlandmist.blogspot.com 2016-10",
        )
    press = interference(cup.tube, tube.tube) if cup.tube and tube.tube else None
    if press is not None:
        return _wrong_inch(press, *about)
    if cup.bore > tube.bore:
        return clash("the cup is too large for the tube", *about, have=have, need=need)
    return clash(
        "the cup is loose in the tube",
        *about,
        have=have,
        need=need,
        remedy=f"take a headset for a {in_mm(tube.bore)} mm bore; some carry a thinner steerer",
    )


def _is_inch(code: Code) -> bool:
    return code.ambiguous or (code.tube is not None and code.tube.cup is not None)


def _wrong_inch(press: tuple[Length, Length], *about: About) -> Finding:
    """Return the clash of a one-inch cup of one norm in a tube of the other."""
    least, most = press
    if least > 0:
        return clash(
            "the cup is far too thick for the tube and cracks it when pressed in",
            *about,
            have=Amount("interference up to", most),
            need=Amount("right is up to", mm(0.15)),
            dangerous=True,
            remedy="take a headset with 30.0 mm cups, or have the tube reamed to 30.05 to 30.10 mm",
            source=CRACKED,
        )
    return clash(
        "the cup is loose in the tube and works free",
        *about,
        have=Amount("play up to", -least),
        remedy="take a headset with 30.2 mm cups",
        source=INCH_NORMS,
    )


@interface("headset and steerer build", source=MATCH)
def headset_and_steerer_build(headset: Headset, fork: Fork) -> Finding | None:
    """Threaded goes with threaded, threadless with threadless; a thread tells the build too."""
    about = ((headset, "steerer"), (fork, "steerer"))
    threaded = _is_threaded(headset)
    if threaded == _is_threaded(fork):
        return fits("headset and fork are of one build", *about)
    return clash(
        "the locknut has no thread to hold on"
        if threaded
        else "a threadless headset is held by a stem round the steerer, which a thread is not for",
        *about,
        remedy=f"take a {'threadless' if threaded else 'threaded'} headset",
    )


def _is_threaded(piece: Headset | Fork) -> bool:
    if not piece.known("steerer") and piece.known("thread"):
        return True
    return piece.steerer == "threaded"


@aspect.about("steerer_mm")
@interface("headset on steerer", source=MATCH)
def headset_on_steerer(headset: Headset, fork: Fork) -> Finding | None:
    """Headset and steerer are the same size at the steerer's upper end."""
    size, told = _coded(headset, "steerer_mm", "upper")
    about = (told, (fork, "steerer_mm"))
    steerer = fork.steerer_mm
    if size is None:
        size = headset.steerer_mm
    if size == steerer:
        return fits("headset and steerer are the same size", *about)
    return clash(
        "the steerer does not go through the headset"
        if size < steerer
        else "the steerer is too thin for the headset",
        *about,
        have=Amount("headset", size),
        need=Amount("steerer", steerer),
        remedy=f"take a {in_mm(steerer)} mm headset",
    )


@interface("steerer through headset halves", source=FINDER)
def steerer_through_headset_halves(headset: Headset, fork: Fork) -> Finding | None:
    """No half carries a thicker steerer than its bore leaves room for; only recorded ends count."""
    ends = (("upper", "steerer_mm"), ("lower", "steerer_lower_mm"))
    room: list[About] = []
    for half, end in ends:
        if not (headset.known(half) and fork.known(end)):
            continue
        tube = read_code(getattr(headset, half)).tube
        if tube is None:
            continue
        about = ((headset, half), (fork, end))
        steerer, largest = getattr(fork, end), max(tube.steerers)
        if steerer > largest:
            return clash(
                f"the steerer does not go through the {half} half",
                *about,
                have=Amount("steerer", steerer),
                need=Amount("at most", largest),
            )
        room.extend(about)
    return fits("the halves have room for the steerer", *room) if room else None


def _coded(headset: Headset, name: str, half: str) -> tuple[Length | None, About]:
    """Return a headset's recorded size, else what a half's code says behind the slash, or None."""
    if not headset.known(name) and headset.known(half):
        other = read_code(headset.__dict__[half]).other
        if other is not None:
            listed = headset.attributes[name].form.possible(other)
            if len(listed) == 1 and isinstance(listed[0], int):
                return Length(listed[0]), (headset, half)
    return headset.__dict__.get(name), (headset, name)


@aspect.about("thread")
@interface("headset thread", source="rennrad-news.de thread 92675")
def headset_thread(headset: Headset, fork: Fork) -> Finding | None:
    """Headset and threaded steerer have one thread; the same pitch on two diameters is two."""
    for piece in (headset, fork):
        if piece.known("steerer") and piece.steerer == "threadless":
            return None
    about = ((headset, "thread"), (fork, "thread"))
    if headset.thread == fork.thread:
        return fits("headset and steerer have one thread", *about)
    return clash(
        "the threads differ: forced, they strip, and then the locknut holds nothing",
        *about,
        dangerous=True,
        remedy=f"take a headset with {fork.thread}",
    )


@aspect.about("crown_race_mm")
@interface("crown race on fork", source=MATCH)
def crown_race_on_fork(headset: Headset, fork: Fork) -> Finding | None:
    """Race and crown seat are the same size; a 27.0 mm seat may be milled for a 26.4 mm race.

    A larger race gets a reducer where one is made. A seat that was not measured follows from the
    steerer's lower end where it is one size only.
    """
    race, told = _coded(headset, "crown_race_mm", "lower")
    seat, seat_told = _seat(fork)
    if race is None:
        race = headset.crown_race_mm
    if seat is None:
        seat = fork.crown_race_mm
    about = (told, seat_told)
    if race == seat:
        return fits("race and crown seat are the same size", *about)
    have, need = Amount("race", race), Amount("crown seat", seat)
    if (seat, race) in MILLED and not _is_carbon(fork):
        return adapts(
            "the race does not go down on the thicker seat",
            *about,
            have=have,
            need=need,
            change=f"have the crown seat milled from {in_mm(seat)} to {in_mm(race)} mm",
            source=MILLED[seat, race],
        )
    if (seat, race) in REDUCED:
        return adapts(
            "the headset is made for a thicker fork",
            *about,
            have=have,
            need=need,
            adapter=Adapter(what=f"reducer race {in_mm(seat)} to {in_mm(race)} mm"),
            change="it must be made for this headset's lower bearing",
            source=REDUCED[seat, race],
        )
    return clash(
        "the race is loose on the crown" if race > seat else "the race does not go on the crown",
        *about,
        have=have,
        need=need,
        remedy=f"take a headset or race for a {in_mm(seat)} mm seat",
        source=INCH_NORMS if {race, seat} == {mm(26.4), mm(27.0)} else "",
    )


def _is_carbon(fork: Fork) -> bool:
    """Return whether a fork is known to be carbon, of which nothing is milled off."""
    return fork.known("steerer_material") and fork.steerer_material == "carbon"


def _seat(fork: Fork) -> tuple[Length | None, About]:
    """Return a fork's crown seat and what tells it, None if that must be measured."""
    told: About = (fork, "crown_race_mm")
    if fork.known("crown_race_mm"):
        return fork.crown_race_mm, told
    if "crown_race_mm" in fork.open_values:
        return None, told
    lower, name = None, "steerer_mm"
    if fork.known("steerer_lower_mm"):
        lower, name = fork.steerer_lower_mm, "steerer_lower_mm"
    elif fork.known("steerer", "steerer_mm") and fork.steerer == "threaded":
        lower = fork.steerer_mm
    seat = None if lower is None else seat_for(lower)
    return seat, told if seat is None else (fork, name)


RULES = (
    upper_half_in_head_tube,
    lower_half_in_head_tube,
    headset_and_steerer_build,
    headset_on_steerer,
    steerer_through_headset_halves,
    headset_thread,
    crown_race_on_fork,
)
