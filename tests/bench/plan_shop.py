"""Invented workshops of any size: specs near those of the demo, many of them, with parts."""

from __future__ import annotations

import csv
import random
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from typing import Any

from partsbin.kinds.kind import KINDS
from partsbin.kinds.spec import Spec
from partsbin.workshop.assignments import read_spec, split
from partsbin.workshop.planning.making import KINDS_PLANNED

DEMO = Path(__file__).parent.parent.parent / "demo_db"
KNOWN = 0.88
"""The share of a varied spec's attributes that stay as they are on record."""


@cache
def demo_specs() -> dict[str, list[Spec]]:
    """Return the specs of the demo by kind."""
    found: dict[str, dict[Spec, None]] = {}
    for name in ("parts", "mounted"):
        with (DEMO / f"{name}.csv").open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                spec = read_spec(row["kind"], split(row["attributes"]))
                found.setdefault(spec.kind, {})[spec] = None
    return {kind: list(specs) for kind, specs in found.items()}


def varied(random_: random.Random, kind: str) -> Spec:
    """Return a spec of a kind: one of the demo's with some values changed or unknown."""
    pool = demo_specs().get(kind) or [Spec(kind)]
    base, other = random_.choice(pool), random_.choice(pool)
    values: dict[str, Any] = {}
    for name, attribute in KINDS[kind].attributes.items():
        value = base.get(name)
        roll = random_.random()
        if roll > KNOWN + 0.1:
            candidates = attribute.form.candidates()
            value = random_.choice(candidates) if candidates and value is not None else value
        elif roll > KNOWN + 0.05:
            value = other.get(name)
        elif roll > KNOWN:
            value = None
        if value is not None:
            values[name] = value
    if kind == "tyre":
        values = dict(random_.choice(pool).values)
    if not KINDS[kind].attributes or random_.random() < 0.2:
        values = dict(base.values)
    return Spec(kind, tuple(sorted(values.items())))


def many_specs(random_: random.Random, count: int) -> list[Spec]:
    """Return so many different specs over all kinds that a plan asks for."""
    found: dict[str, Spec] = {}
    tries = 0
    while len(found) < count:
        spec = varied(random_, random_.choice(KINDS_PLANNED))
        if KINDS[spec.kind].free or spec.text in found or tries > 40 * count:
            mark = (("model", f"type {len(found)}"),) if KINDS[spec.kind].free else ()
            spec = Spec(spec.kind, tuple(sorted({**dict(spec.values), **dict(mark)}.items())))
        found[spec.text] = spec
        tries += 1
    return list(found.values())


def some_needs(random_: random.Random, slots: Sequence[str], count: int) -> set[str]:
    """Return so many of the slots, never the frame."""
    return set(random_.sample([slot for slot in slots if slot != "frame"], count))
