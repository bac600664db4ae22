"""The end of the bicycle that a piece belongs to, as far as the piece itself tells."""

from __future__ import annotations

from partsbin.kinds.frame import Fork, Frame
from partsbin.kinds.kind import Kind


def end_of(piece: Kind) -> str:
    """Return `front` or `rear`, empty if the piece may stand at either.

    A frame carries the rear brake and wheel, a fork the front ones; the others say it as `side`.
    """
    if isinstance(piece, Frame):
        return "rear"
    if isinstance(piece, Fork):
        return "front"
    return str(piece.__dict__.get("side", ""))


def apart(*pieces: Kind | None) -> bool:
    """Return whether two of the pieces are known to belong to different ends."""
    ends = {end_of(piece) for piece in pieces if piece is not None}
    return len(ends - {""}) > 1
