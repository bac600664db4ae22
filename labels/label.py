"""What is printed on a label: plain words and a number, whatever they mean to whoever prints."""

import enum
from dataclasses import dataclass

from labels.number import LabelNumber


class Shape(enum.Enum):
    """What the label hangs on, which decides its layout."""

    PART = "part"
    BIN = "bin"
    BIKE = "bike"


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One label: its number and, where there is room, its words.

    `title` is the kind of a part, the name of a bin or of a bike. `lines` are what is asked for
    first, most wanted first; what finds no room is left out with an ellipsis. `caution` draws the
    mark of a part that needs inspection, on parts, lots and bikes; a bin has none.
    """

    number: LabelNumber
    shape: Shape = Shape.PART
    title: str
    lines: tuple[str, ...] = ()
    grade: str = ""
    bin_name: str = ""
    caution: bool = False
