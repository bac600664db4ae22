"""Cases to judge, as one JSON object holds them: all are read before any is judged."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from partsbin.errors import UsageError
from partsbin.fit.judge import judge
from partsbin.fit.words import as_data
from partsbin.kinds.spec import Spec, SpecError

FORM = '{"cases": [{"id": "a", "parts": [{"kind": "seatpost", "diameter_mm": 27.2}, ...]}]}'
MOST_FAULTS = 20
"""How many faults are told at once; more are only counted."""


@dataclass(frozen=True, slots=True)
class Case:
    """One set of parts to judge."""

    id: object
    parts: tuple[Spec, ...]


def read_cases(text: str | bytes) -> list[Case]:
    """Return the cases of a JSON text. Raises `UsageError` that tells all faults with their place.

    >>> read_cases('{"cases": [{"id": 1, "parts": [{"kind": "saddel"}]}]}')
    Traceback (most recent call last):
    partsbin.errors.UsageError: case 1, part 1: unknown kind 'saddel'; did you mean 'saddle'?
    """
    try:
        held = json.loads(text)
    except (ValueError, RecursionError) as fault:
        raise UsageError(f"this is not JSON: {fault}; the form is {FORM}") from None
    cases = held.get("cases") if isinstance(held, dict) else None
    if not isinstance(cases, list):
        raise UsageError(f"there is no list of cases; the form is {FORM}")
    faults: list[str] = []
    read = [_read_case(case, at, faults) for at, case in enumerate(cases, start=1)]
    if faults:
        more = len(faults) - MOST_FAULTS
        shown = faults[:MOST_FAULTS] + ([f"and {more} more faults"] if more > 0 else [])
        raise UsageError("\n".join(shown))
    return read


def _read_case(case: object, at: int, faults: list[str]) -> Case:
    if not isinstance(case, dict) or not isinstance(case.get("parts"), list):
        faults.append(f"case {at}: it needs an id and a list of parts")
        return Case(at, ())
    name = case.get("id", at)
    specs = []
    for number, part in enumerate(case["parts"], start=1):
        place = f"case {name!s:.60}, part {number}"
        spec = _read_part(part, place, faults)
        if spec is not None:
            specs.append(spec)
    if not case["parts"]:
        faults.append(f"case {name!s:.60}: it has no parts")
    return Case(name, tuple(specs))


def _read_part(part: object, place: str, faults: list[str]) -> Spec | None:
    if not isinstance(part, dict) or not isinstance(part.get("kind"), str):
        faults.append(f"{place}: it needs a kind, as in {{'kind': 'seatpost'}}")
        return None
    attributes = {name: value for name, value in part.items() if name != "kind"}
    try:
        return Spec.check(part["kind"], attributes)
    except SpecError as fault:
        faults.append(f"{place}: {fault}")
        return None


def judge_cases(cases: list[Case]) -> list[dict[str, Any]]:
    """Return the verdict of each case in the order given, as JSON holds it."""
    return [
        {"id": case.id, **as_data(judge([spec.piece for spec in case.parts]))} for case in cases
    ]
