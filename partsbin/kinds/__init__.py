"""What a part is: one module per area of the bike, typed attributes and how to measure each."""

from partsbin.kinds import brakes, cockpit, drivetrain, frame, other, seat, wheels
from partsbin.kinds.kind import KINDS, Kind

__all__ = [
    "KINDS",
    "Kind",
    "brakes",
    "cockpit",
    "drivetrain",
    "frame",
    "other",
    "seat",
    "wheels",
]
