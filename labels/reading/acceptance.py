"""When a number that was read may be acted on. Pure data: no picture, no clock, no database."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from labels.number import NumberError, validate

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from labels.number import LabelNumber
    from labels.reading.look import Reading


def number_in(text: str) -> LabelNumber | None:
    """Return the label number that a decoder's text is, or None.

    A symbol holds digits and nothing else: spaces and dashes, which people may type, are refused.

    >>> number_in("20012362")
    '20012362'
    >>> number_in("2001 2362") is None, number_in("20012363") is None
    (True, True)
    """
    if not (text.isascii() and text.isdigit()):
        return None
    try:
        return validate(text)
    except NumberError:
        return None


@dataclass(frozen=True, slots=True)
class Act:
    """This number may be acted on now."""

    number: LabelNumber


@dataclass(frozen=True, slots=True)
class Ask:
    """More than one number is in view: the user must say which is meant."""

    numbers: tuple[LabelNumber, ...]


@dataclass(frozen=True, slots=True)
class Unknown:
    """The label reads well, but nothing has this number."""

    number: LabelNumber


Decision = Act | Ask | Unknown


@dataclass(slots=True)
class _Sight:
    """One number in view: its first and last frame, and what is settled about it."""

    exists: bool
    first: int
    last: int
    agreed: bool = False
    done: bool = False


@dataclass(slots=True)
class Acceptance:
    """Frame after frame of a live picture, decides when a number may be acted on.

    A number is agreed when two looks are the same: in two frames not further apart than `memory`,
    or of both symbols, or of both decoders, in one frame. It leaves the view after `absence` frames
    without it: long, since a bad label is read only now and then. A number that was acted on, or
    reported unknown, is quiet until it has left the view. While another number was seen in the last
    `settle` frames nothing is acted on; if both are agreed, the user is asked.

    `exists` says whether anything has the number; it is asked once each time in view.
    """

    exists: Callable[[LabelNumber], bool]
    memory: int = 15
    absence: int = 30
    settle: int = 5
    _sights: dict[LabelNumber, _Sight] = field(default_factory=dict)
    _asked: frozenset[LabelNumber] = frozenset()
    _frame: int = 0

    def frame(self, readings: Iterable[Reading]) -> Decision | None:
        """Take the readings of the next frame (also none); return what may be done now, if any."""
        self._frame += 1
        for reading in readings:
            self._take(reading)
        self._sights = {
            number: sight
            for number, sight in self._sights.items()
            if self._frame - sight.last < self.absence
        }
        return self._unknown() or self._known()

    def choose(self, number: LabelNumber) -> Act:
        """Return the act for the number that the user named; all others in view stay quiet too."""
        for sight in self._sights.values():
            sight.done = True
        self._asked = frozenset()
        return Act(number)

    @property
    def in_view(self) -> tuple[LabelNumber, ...]:
        """The existing numbers that two looks agree on and that have not left the view."""
        agreed = (number for number, sight in self._sights.items() if sight.agreed and sight.exists)
        return tuple(sorted(agreed))

    def _take(self, reading: Reading) -> None:
        sight = self._sights.get(reading.number)
        if sight is None:
            sight = _Sight(self.exists(reading.number), self._frame, self._frame)
            self._sights[reading.number] = sight
        elif 0 < self._frame - sight.last <= self.memory:
            sight.agreed = True
        sight.agreed |= len(reading.symbols) == 2 or len(reading.decoders) == 2
        sight.last = self._frame

    def _unknown(self) -> Unknown | None:
        for number, sight in self._sights.items():
            if sight.agreed and not sight.exists and not sight.done:
                sight.done = True
                return Unknown(number)
        return None

    def _known(self) -> Act | Ask | None:
        fresh = [number for number in self.in_view if not self._sights[number].done]
        if not fresh:
            return None
        rivals = self._rivals(fresh[0])
        if not rivals:
            self._sights[fresh[0]].done = True
            return Act(fresh[0])
        question = frozenset((fresh[0], *rivals))
        together = all(self._together(fresh[0], rival) for rival in rivals)
        if not together or question == self._asked:
            return None
        self._asked = question
        return Ask(tuple(sorted(question)))

    def _rivals(self, number: LabelNumber) -> list[LabelNumber]:
        """Return the other existing numbers seen since this one came, or a moment ago."""
        came = min(self._sights[number].first, self._frame - self.settle + 1)
        return [
            other
            for other, sight in self._sights.items()
            if other != number and sight.exists and sight.last >= came
        ]

    def _together(self, one: LabelNumber, other: LabelNumber) -> bool:
        """Return whether both are agreed and were in view at the same time."""
        first, second = self._sights[one], self._sights[other]
        overlap = first.last >= second.first and second.last >= first.first
        return overlap and first.agreed and second.agreed


def known(readings: Sequence[Reading], exists: Callable[[LabelNumber], bool]) -> list[Reading]:
    """Return the readings of a picture whose number exists: enough to look things up."""
    return [reading for reading in readings if exists(reading.number)]
