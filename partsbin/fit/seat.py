"""Seat: the post in the frame, the saddle on the post, the collar round the seat tube."""

from __future__ import annotations

from partsbin.fit.rule import interface
from partsbin.fit.verdict import Adapter, Amount, Finding, adapts, clash, fits
from partsbin.kinds.frame import Frame
from partsbin.kinds.seat import Seatpost
from partsbin.standards.length import in_mm


@interface(
    "seatpost in seat tube",
    source="bike.bikegremlin.com/3114, Seatpost diameter sizes",
)
def seatpost_in_seat_tube(post: Seatpost, frame: Frame) -> Finding | None:
    """Equal sizes fit; a thinner post takes a sleeve, a thicker one never enters.

    Sizes in micrometres. The sleeve's wall is half the difference of the two diameters.
    """
    about = ((post, "diameter_mm"), (frame, "seat_tube_bore_mm"))
    size, bore = post.diameter_mm, frame.seat_tube_bore_mm
    if size == bore:
        return fits("post and seat tube are the same size", *about)
    if size > bore:
        return clash(
            "the post is too thick and will not enter; forced, it jams",
            *about,
            have=Amount("post", size),
            need=Amount("seat tube", bore),
            remedy=f"take a {in_mm(bore)} mm post",
        )
    return adapts(
        "the post is too thin to be clamped bare: it would slip, and overtightening cracks frames",
        *about,
        have=Amount("post", size),
        need=Amount("seat tube", bore),
        adapter=Adapter(
            what=f"sleeve {in_mm(size)} to {in_mm(bore)} mm (wall {in_mm((bore - size) // 2)} mm)",
            kind="seatpost_shim",
            values={"inner_mm": size, "outer_mm": bore},
        ),
    )


RULES = (seatpost_in_seat_tube,)
