"""Attributes as people type them: `speeds=8 side=rear`, or `speeds=8; side=rear` in one text.

A value that ends with `(assumed)` is recorded as assumed. One in double quotes is taken as it
stands, so that a free text may hold a semicolon or end with that word.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from partsbin.errors import UsageError
from partsbin.kinds.spec import Spec, kind_named

UNITS = ("_mm", "_deg", "_nm", "_percent", "_in", "_teeth")
ASSUMED = "(assumed)"
_PIECE = re.compile(r'[^;="]*=\s*"(?:[^"]|"")*"[^;]*|[^;]+')
"""What stands between two semicolons; those inside a quoted value part nothing."""


def read_spec(kind: str, typed: Iterable[str]) -> Spec:
    """Return the spec of a kind and its attributes, each typed as `name=value`.

    The unit may be left off a name. Raises `UsageError` for what is not understood.

    >>> str(read_spec("seatpost", ["diameter=27,2 mm", "rails=round-7 (assumed)"]))
    'seatpost, diameter 27.2 mm, rails round-7 (assumed)'
    """
    known = kind_named(kind)
    named: dict[str, str] = {}
    assumed = set()
    for short, text in assignments(typed).items():
        name = full_name(known.attributes, short)
        if name in named:
            raise UsageError(f"{name} is given twice")
        named[name], is_assumed = _value(text)
        if is_assumed:
            assumed.add(name)
    return Spec.read(kind, named, assumed)


def _value(text: str) -> tuple[str, bool]:
    """Return the value of a text without its quotes, and whether it is marked as assumed."""
    assumed = text.endswith(ASSUMED)
    bare = text.removesuffix(ASSUMED).rstrip() if assumed else text
    if len(bare) > 1 and bare[0] == bare[-1] == '"':
        bare = bare[1:-1].replace('""', '"')
    return bare, assumed


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

    >>> split('speeds=8; colour="red; faded";')
    ['speeds=8', 'colour="red; faded"']
    """
    return [piece.strip() for piece in _PIECE.findall(text) if piece.strip()]


def written(spec: Spec) -> str:
    """Return the attributes of a spec as one text that `split` and `read_spec` read again.

    >>> written(read_spec("seatpost", ["diameter=27,2", "rails=round-7 (assumed)"]))
    'diameter_mm=27.2; rails=round-7 (assumed)'
    """
    plain = spec.plain()
    return "; ".join(
        f"{name}={_typed(plain[name])}{f' {ASSUMED}' if name in spec.assumed else ''}"
        for name, _ in spec.values
    )


def as_typed(plain: object) -> str:
    """Return a value of a spec's `plain` as a person would type it into a field of its own.

    >>> as_typed([11, 13]), as_typed(27.2), as_typed([])
    ('11,13', '27.2', 'none')
    """
    if isinstance(plain, list):
        return ",".join(map(str, plain)) or "none"
    if isinstance(plain, float):
        return f"{plain:.6f}".rstrip("0").rstrip(".")
    return str(plain)


def _typed(plain: object) -> str:
    text = as_typed(plain)
    if isinstance(plain, list):
        return text
    if ";" in text or '"' in text or text.endswith(ASSUMED):
        return '"' + text.replace('"', '""') + '"'
    return text


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
