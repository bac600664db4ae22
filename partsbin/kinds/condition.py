"""What inspection finds: attributes that many kinds share."""

from __future__ import annotations

from partsbin.kinds.attribute import word, yes_no
from partsbin.kinds.kind import Kind


class Stressed(Kind, abstract=True):
    """A part that carries the rider or brakes, and whose break throws somebody."""

    bent: str = yes_no(
        "sight along the part and turn it against a straight edge; look for ripples in the paint"
    )
    cracked: str = yes_no(
        "clean, then look with a lamp and a lens at welds, clamp edges, holes and sharp corners"
    )
    history: str = word(
        "known unknown",
        "ask the seller: known means one owner, no crash, papers or the shop's own record",
    )
