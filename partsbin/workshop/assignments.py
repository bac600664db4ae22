"""Attributes as people type them: `speeds=8 side=rear`, or `speeds=8; side=rear` in one text."""

from __future__ import annotations

from collections.abc import Iterable

from partsbin.errors import UsageError
from partsbin.kinds.spec import Spec, kind_named

UNITS = ("_mm", "_deg", "_nm", "_percent", "_in", "_teeth")


def read_spec(kind: str, typed: Iterable[str]) -> Spec:
    """Return the spec of a kind and its attributes, each typed as `name=value`.

    The unit may be left off a name. Raises `UsageError` for what is not understood.

    >>> str(read_spec("seatpost", ["diameter=27,2 mm"]))
    'seatpost, diameter 27.2 mm'
    """
    known = kind_named(kind)
    named = assignments(typed)
    return Spec.read(kind, {full_name(known.attributes, n): value for n, value in named.items()})


def assignments(typed: Iterable[str]) -> dict[str, str]:
    """Return the names and values of texts like `name=value`.

    >>> assignments(["speeds=8", "side = rear"])
    {'speeds': '8', 'side': 'rear'}
    """
    named: dict[str, str] = {}
    for text in typed:
        name, sign, value = text.partition("=")
        name = name.strip().lower().replace("-", "_").replace(" ", "_")
        if not sign or not name:
            raise UsageError(f"{text!r} is not an attribute; type it like speeds=8")
        if name in named:
            raise UsageError(f"{name} is given twice")
        named[name] = value.strip()
    return named


def split(text: str) -> list[str]:
    """Return the assignments of one text that are parted by semicolons.

    >>> split("speeds=8; side=rear;")
    ['speeds=8', 'side=rear']
    """
    return [piece.strip() for piece in text.split(";") if piece.strip()]


def full_name(attributes: Iterable[str], name: str) -> str:
    """Return an attribute's name with its unit, if that was left off; others as they are.

    >>> full_name(["diameter_mm"], "diameter")
    'diameter_mm'
    """
    known = set(attributes)
    if name not in known:
        for unit in UNITS:
            if name + unit in known:
                return name + unit
    return name
