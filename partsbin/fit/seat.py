"""Seat: the post in the frame, bare or in a sleeve, and the saddle on the post."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.verdict import Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.frame import Frame
from partsbin.kinds.seat import Saddle, Seatpost, SeatpostShim
from partsbin.standards.length import in_mm
from partsbin.standards.seat_insertion import CARBON_PLAY, MARK_SOURCE, least_depth
from partsbin.standards.sleeves import sleeve_words

SIZES = "bike.bikegremlin.com/3114, Seatpost diameter sizes"
RAILS = "xjd.com saddle rail pages; Wikipedia 'Bicycle seatpost'; clamp shapes from memory"


@interface("seatpost in seat tube", source=SIZES)
def seatpost_in_seat_tube(post: Seatpost, frame: Frame) -> Finding | None:
    """Equal sizes fit; a thinner post takes a sleeve, a thicker one never enters.

    Sizes in micrometres. The sleeve's wall is half the difference of the two diameters.
    """
    size = post.diameter_mm
    if not frame.known("seat_tube_bore_mm") and frame.known("seat_tube_od_mm"):
        outside = frame.seat_tube_od_mm
        if size >= outside:
            return clash(
                "the post is as thick as the seat tube is outside",
                (post, "diameter_mm"),
                (frame, "seat_tube_od_mm"),
                have=Amount("post", size),
                need=Amount("seat tube outside", outside),
            )
    bore = frame.seat_tube_bore_mm
    about = ((post, "diameter_mm"), (frame, "seat_tube_bore_mm"))
    if size == bore:
        return fits("post and seat tube are the same size", *about)
    have, need = Amount("post", size), Amount("seat tube", bore)
    if size > bore:
        return clash(
            "the post is too thick and will not enter; forced, it jams",
            *about,
            have=have,
            need=need,
            remedy=f"take a {in_mm(bore)} mm post",
        )
    return adapts(
        "the post is too thin to be clamped bare: it would slip, and overtightening cracks frames",
        *about,
        have=have,
        need=need,
        adapter=Adapter(
            what=f"sleeve {sleeve_words(size, bore)}",
            kind="seatpost_shim",
            values={"inner_mm": size, "outer_mm": bore},
        ),
        change=_carbon_caution(post, frame),
    )


def _carbon_caution(post: Seatpost, frame: Frame) -> str:
    """Return what carbon asks of a sleeve, empty if neither piece is known to be carbon.

    Source: carbon-bike-service.eu seatpost clamping; mrbike.com tapered post column 2006.
    """
    carbon = [p for p in (post, frame) if p.known("material") and p.material == "carbon"]
    if not carbon:
        return ""
    return (
        f"carbon takes no more than {in_mm(CARBON_PLAY)} mm of play on the diameter: "
        "use a plastic sleeve as long as the clamped part and the least torque that holds"
    )


@interface("sleeve in seat tube", source=SIZES)
def sleeve_in_seat_tube(shim: SeatpostShim, frame: Frame) -> Finding | None:
    """Outside of the sleeve and seat tube are the same size, or it does not go."""
    about = ((shim, "outer_mm"), (frame, "seat_tube_bore_mm"))
    outer, bore = shim.outer_mm, frame.seat_tube_bore_mm
    if outer == bore:
        return fits("sleeve and seat tube are the same size", *about)
    because = "the sleeve is too thick" if outer > bore else "the sleeve is loose in the tube"
    return clash(because, *about, have=Amount("sleeve", outer), need=Amount("seat tube", bore))


@interface("seatpost in sleeve", source=SIZES)
def seatpost_in_sleeve(post: Seatpost, shim: SeatpostShim) -> Finding | None:
    """Inside of the sleeve and post are the same size, or it does not go."""
    about = ((post, "diameter_mm"), (shim, "inner_mm"))
    size, inner = post.diameter_mm, shim.inner_mm
    if size == inner:
        return fits("post and sleeve are the same size", *about)
    because = "the post is too thick" if size > inner else "the post is loose in the sleeve"
    return clash(because, *about, have=Amount("post", size), need=Amount("sleeve", inner))


@interface("seatpost depth in frame", source=MARK_SOURCE)
def seatpost_depth(post: Seatpost, _frame: Frame) -> Finding | None:
    """Two diameters stay in the frame: so low stands the mark at least, and the post is longer."""
    if not post.known("diameter_mm"):
        return None
    least = Amount("least in the frame", least_depth(post.diameter_mm))
    if post.known("length_mm") and post.length_mm <= least.value:
        return clash(
            "the post is too short to be clamped safely",
            (post, "length_mm"),
            (post, "diameter_mm"),
            have=Amount("post", post.length_mm),
            need=least,
        )
    if not post.known("insertion_mark_mm"):
        return None
    about = ((post, "insertion_mark_mm"), (post, "diameter_mm"))
    mark = Amount("mark above the lower end", post.insertion_mark_mm)
    if mark.value >= least.value:
        return fits("the mark keeps enough of the post in the frame", *about, have=mark, need=least)
    return adapts(
        "the mark stands too low: the post was cut, or it is no insertion mark",
        *about,
        have=mark,
        need=least,
        change=f"keep {in_mm(int(least.value))} mm in the frame whatever the mark says",
    )


@interface("saddle on seatpost", source=RAILS)
def saddle_on_seatpost(saddle: Saddle, post: Seatpost) -> Finding | None:
    """Rails and clamp are of one shape; a plain pillar takes a separate saddle clamp."""
    about = ((saddle, "rails"), (post, "rails"))
    rails, clamp = saddle.rails, post.rails
    if rails == clamp:
        return fits("rails and clamp are of one shape", *about)
    if "oval-7x9" in (rails, clamp):
        oval = rails == "oval-7x9"
        return clash(
            "oval rails do not go into round grooves"
            if oval
            else "round rails are loose in oval grooves",
            *about,
            remedy="take a post with oval grooves or a top-and-bottom clamp"
            if oval
            else "take a post whose clamp has round 7 mm grooves",
        )
    if clamp == "plain-22.2":
        return adapts(
            "the pillar has no clamp of its own",
            *about,
            adapter=Adapter(what="saddle clamp for a 22.2 mm pillar and round 7 mm rails"),
        )
    return adapts(
        "the saddle brings a clamp for a plain pillar and the post has its own",
        *about,
        change="take the saddle's own clamp off; its rails must be round and 7 mm thick",
    )


RULES = (
    seatpost_in_seat_tube,
    sleeve_in_seat_tube,
    seatpost_in_sleeve,
    seatpost_depth,
    saddle_on_seatpost,
)
