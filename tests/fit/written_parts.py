"""Parts written as one line of text each, as a mechanic notes them, for tables of cases."""

from __future__ import annotations

import json
import shlex

from partsbin.fit.judge import Judgement, judge
from partsbin.kinds.kind import Kind
from partsbin.kinds.spec import Spec

Case = tuple[str, tuple[str, ...], str]
"""The verdict wanted, the parts, and where that is published."""


def piece(line: str) -> Kind:
    """Return the piece that a line writes: `cassette speeds=8 cogs=[11,34]`."""
    kind, *pairs = shlex.split(line)
    return Spec.check(kind, dict(map(_pair, pairs))).piece


def _pair(text: str) -> tuple[str, object]:
    name, _, value = text.partition("=")
    if value.startswith("["):
        return name, [_value(each) for each in value.strip("[]").split(",") if each]
    return name, _value(value)


def _value(text: str) -> object:
    try:
        return json.loads(text)
    except ValueError:
        return text


def judged(*lines: str) -> Judgement:
    """Return the judgement of parts; the verdict is the same in the opposite order."""
    pieces = [piece(line) for line in lines]
    there, back = judge(pieces), judge(pieces[::-1])
    assert there.verdict is back.verdict
    return there
