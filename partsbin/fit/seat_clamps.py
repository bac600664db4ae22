"""The collar round the top of the seat tube: chosen by the tube's outside, never by the post."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.verdict import Amount, Finding, clash, fits
from partsbin.kinds.frame import Frame
from partsbin.kinds.seat import SeatClamp, Seatpost
from partsbin.standards.length import in_mm

COLLARS = "compulsioncycles.com clamps; 34.9 = 35.0: bikeforums.net t-645002"


@interface("collar round seat tube", source=COLLARS)
def collar_round_seat_tube(collar: SeatClamp, frame: Frame) -> Finding | None:
    """Collar bore and the seat tube's outside are the same size.

    A tube of unknown outside is at least thicker than its own bore.
    """
    size = collar.diameter_mm
    if not frame.known("seat_tube_od_mm") and frame.known("seat_tube_bore_mm"):
        bore = frame.seat_tube_bore_mm
        if size <= bore:
            return clash(
                "the collar is no wider than the seat tube is inside",
                (collar, "diameter_mm"),
                (frame, "seat_tube_bore_mm"),
                have=Amount("collar", size),
                need=Amount("seat tube inside", bore),
            )
    outside = frame.seat_tube_od_mm
    about = ((collar, "diameter_mm"), (frame, "seat_tube_od_mm"))
    if size == outside:
        return fits("collar and seat tube are the same size", *about)
    return clash(
        "the collar does not go over the tube"
        if size < outside
        else "the collar closes before it grips the tube",
        *about,
        have=Amount("collar", size),
        need=Amount("seat tube outside", outside),
        remedy=f"take a {in_mm(outside)} mm collar",
    )


@interface("collar round seatpost", source="by geometry")
def collar_round_seatpost(collar: SeatClamp, post: Seatpost) -> Finding | None:
    """Collars go round tube and post, so one no wider than the post is for another frame.

    Which wider collar it is, only the seat tube's outside says.
    """
    if not (collar.known("diameter_mm") and post.known("diameter_mm")):
        return None
    size, thickness = collar.diameter_mm, post.diameter_mm
    if size > thickness:
        return None
    return clash(
        "the collar leaves no room for a seat tube round the post",
        (collar, "diameter_mm"),
        (post, "diameter_mm"),
        have=Amount("collar", size),
        need=Amount("post", thickness),
    )


RULES = (collar_round_seat_tube, collar_round_seatpost)
