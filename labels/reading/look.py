"""What a decoder saw: one look at one symbol, and the reading that several looks make."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from labels.number import LabelNumber

Point = tuple[float, float]
#: The four corners of a symbol in pixels of the picture, going round.
Corners = tuple[Point, Point, Point, Point]


class Symbol(Enum):
    """The two symbols that stand on a label."""

    CODE_128 = "code-128"
    QR = "qr"


class Decoder(Enum):
    """The two libraries that read them."""

    ZBAR = "zbar"
    ZXING = "zxing"


@dataclass(frozen=True, slots=True)
class RawLook:
    """A text as the decoder returned it, nothing about it checked."""

    text: str
    corners: Corners
    symbol: Symbol
    decoder: Decoder


@dataclass(frozen=True, slots=True)
class Look:
    """One sight of a label number whose length and check digits hold."""

    number: LabelNumber
    corners: Corners
    symbol: Symbol
    decoder: Decoder
    reading_pass: str

    @property
    def centre(self) -> Point:
        """The middle of the symbol, in pixels of the picture."""
        return (
            sum(x for x, _ in self.corners) / 4,
            sum(y for _, y in self.corners) / 4,
        )


@dataclass(frozen=True, slots=True)
class Reading:
    """A number read in one picture, where it stands, and every look that says so."""

    number: LabelNumber
    corners: Corners
    looks: tuple[Look, ...]

    @property
    def symbols(self) -> frozenset[Symbol]:
        """Which of the label's symbols were read."""
        return frozenset(look.symbol for look in self.looks)

    @property
    def decoders(self) -> frozenset[Decoder]:
        """Which libraries read it."""
        return frozenset(look.decoder for look in self.looks)


def merged(looks: Iterable[Look]) -> list[Reading]:
    """Return one reading for each number, in reading order: rows from the top, then from the left.

    The corners are those of the number's first look.
    """
    by_number: dict[LabelNumber, list[Look]] = {}
    for look in looks:
        by_number.setdefault(look.number, []).append(look)
    readings = [
        Reading(number, found[0].corners, tuple(found)) for number, found in by_number.items()
    ]
    return sorted(readings, key=lambda reading: _place(reading.looks[0]))


def _place(look: Look) -> tuple[int, float]:
    """Return a sorting key that takes labels of one height in the picture as one row."""
    x, y = look.centre
    return int(y // 80), x
