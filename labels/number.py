"""The number that a label carries: what it is, a running number and two check digits.

A number is digits only, so that Code 128 packs it two to a symbol character: the first digit says
what it is, then a running number of five digits, then two check digits after ISO/IEC 7064,
MOD 97-10. Running numbers past 99 999 take seven digits, and the number is then ten long.

>>> number = make(Thing.PART, 123)
>>> number
'20012362'
>>> grouped(number)
'2001 2362'
>>> validate("2001-2362") == number
True
>>> thing_of(number), running_of(number)
(<Thing.PART: '2'>, 123)
>>> is_valid("2001 2326")
False
"""

import enum
import unicodedata
from typing import NewType

LabelNumber = NewType("LabelNumber", str)
"""A number that went through `make` or `validate`: digits only, check digits right."""

SHORT_LENGTH = 8
LONG_LENGTH = 10
LARGEST_SHORT_RUNNING = 99_999
LARGEST_RUNNING = 9_999_999

GROUP = 4
"""Digits in a printed group."""


class Thing(enum.Enum):
    """What a number names; the value is the number's first digit."""

    BIN = "1"
    PART = "2"
    BIKE = "3"
    LOT = "4"


class NumberError(ValueError):
    """What was typed or read is no label number."""


class InvalidFormat(NumberError):  # noqa: N818 - the fault is the name
    """Something other than digits, spaces and dashes."""

    def __init__(self, text: str, stranger: str) -> None:
        super().__init__(
            f"{text!r} has {stranger!r} in it, but a label number is digits only: "
            "type the digits under the bars."
        )


class InvalidLength(NumberError):  # noqa: N818 - the fault is the name
    """Neither 8 nor 10 digits, or 10 where 8 hold the number."""

    def __init__(self, text: str, digits: int) -> None:
        super().__init__(
            f"{text!r} has {digits} digits, but a label number has {SHORT_LENGTH}, "
            f"or {LONG_LENGTH} past running number {LARGEST_SHORT_RUNNING}: "
            "type all digits under the bars."
        )


class InvalidThing(NumberError):  # noqa: N818 - the fault is the name
    """The first digit names nothing."""

    def __init__(self, text: str) -> None:
        names = ", ".join(f"{thing.value} {thing.name.lower()}" for thing in Thing)
        super().__init__(
            f"{text!r} does not start with a digit that a label can start with ({names}): "
            "look at the first digit again."
        )


class InvalidCheckDigits(NumberError):  # noqa: N818 - the fault is the name
    """The check digits do not go with the rest, so at least one digit is wrong."""

    def __init__(self, text: str) -> None:
        super().__init__(
            f"{text!r} has a digit that is wrong or out of place (the check digits do not agree): "
            "type it again from the label."
        )


class InvalidRunning(NumberError):  # noqa: N818 - the fault is the name
    """A running number that no label can carry."""

    def __init__(self, running: int) -> None:
        super().__init__(
            f"Running number {running} does not go on a label: "
            f"give one from 1 to {LARGEST_RUNNING}."
        )


def check_digits(payload: str) -> str:
    """Return the two digits that follow `payload`, a string of digits.

    Source: ISO/IEC 7064, MOD 97-10, simplified procedure (its worked example 794, 79444 stands at
    usersite.datalab.eu, "Calculation of Check Digits According to MODULUS 97-10").

    >>> check_digits("794")
    '44'
    """
    return f"{98 - int(payload) * 100 % 97:02d}"


def make(thing: Thing, running: int) -> LabelNumber:
    """Return the number of the `running`th bin, part, bike or lot; the first is 1.

    Raises InvalidRunning outside 1 to 9 999 999.

    >>> make(Thing.BIN, 1), make(Thing.LOT, 100_000)
    ('10000119', '4010000080')
    """
    if not 1 <= running <= LARGEST_RUNNING:
        raise InvalidRunning(running)
    width = 5 if running <= LARGEST_SHORT_RUNNING else 7
    payload = f"{thing.value}{running:0{width}d}"
    return LabelNumber(payload + check_digits(payload))


def compact(text: str) -> str:
    r"""Return `text` as plain digits, whatever the grouping: spaces and dashes of any kind go.

    Digits of other scripts become 0 to 9; everything else is kept, for `validate` to refuse.

    >>> compact(" 2001\u20132362 ")
    '20012362'
    """
    return "".join(_plain(letter) for letter in text)


def _plain(letter: str) -> str:
    """Return the ASCII digit of `letter`, nothing for what only separates, else the letter."""
    if letter.isdecimal():
        return str(unicodedata.decimal(letter))
    # Pd: dashes; Cf: soft hyphens, joiners and direction marks that copying brings along.
    if (
        letter.isspace()
        or unicodedata.category(letter) in {"Pd", "Cf"}
        or letter == "\N{MINUS SIGN}"
    ):
        return ""
    return letter


def validate(text: str) -> LabelNumber:
    """Return the number that `text` stands for, in its one form.

    Raises the NumberError that says what is wrong: InvalidFormat, InvalidLength, InvalidThing,
    InvalidCheckDigits or InvalidRunning (the running number 0 is never given out).
    """
    digits = compact(text)
    stranger = next((letter for letter in digits if not ("0" <= letter <= "9")), None)
    if stranger is not None:
        raise InvalidFormat(text, stranger)
    if len(digits) not in {SHORT_LENGTH, LONG_LENGTH}:
        raise InvalidLength(text, len(digits))
    if digits[0] not in {thing.value for thing in Thing}:
        raise InvalidThing(text)
    if check_digits(digits[:-2]) != digits[-2:]:
        raise InvalidCheckDigits(text)
    running = int(digits[1:-2])
    if running == 0:
        raise InvalidRunning(running)
    if len(digits) == LONG_LENGTH and running <= LARGEST_SHORT_RUNNING:
        raise InvalidLength(text, len(digits))
    return LabelNumber(digits)


def is_valid(text: str) -> bool:
    """Return whether `text` stands for a label number, in any grouping."""
    try:
        validate(text)
    except NumberError:
        return False
    return True


def thing_of(number: LabelNumber) -> Thing:
    """Return what the number names: a bin, a part, a bike or a lot."""
    return Thing(number[0])


def running_of(number: LabelNumber) -> int:
    """Return the running number between the first digit and the check digits."""
    return int(number[1:-2])


def grouped(number: LabelNumber) -> str:
    """Return the number as it is printed for people, four digits to a group.

    >>> grouped(make(Thing.LOT, 100_000))
    '4010 0000 80'
    """
    return " ".join(number[at : at + GROUP] for at in range(0, len(number), GROUP))
