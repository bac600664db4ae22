"""Era templates: what a kind of bike of some years likely has in each slot, as assumed values.

Each template is one file of `era_templates/`; its name is the file's. Per slot it names the kind
and, row by row, an attribute, the likely value (lengths in millimetres) and where the value is
published, `common practice, no source` or `from memory`; a slot may be `like` its twin. That bikes
of those years likely had it is common practice throughout: one bike may always differ.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any, NamedTuple

from partsbin.errors import UsageError
from partsbin.kinds.forms.form import nearest
from partsbin.kinds.inherit import placed
from partsbin.kinds.slots import slot_named
from partsbin.kinds.spec import Spec

DATA = files("partsbin.kinds") / "era_templates"


class Likely(NamedTuple):
    """One row of a template: an attribute, its likely value, and the source of that."""

    attribute: str
    value: object
    source: str


@dataclass(frozen=True, slots=True)
class LikelyPart:
    """What a slot of a template likely holds."""

    kind: str
    rows: tuple[Likely, ...]

    def spec(self, slot: str) -> Spec:
        """Return the part as a spec: the side that the slot decides, all else assumed."""
        raw = {row.attribute: row.value for row in self.rows}
        return Spec.check(self.kind, raw, assumed=raw).with_values(placed(self.kind, slot))


@dataclass(frozen=True, slots=True)
class Template:
    """A kind of bike of some years: what it is in words, and what its slots likely hold."""

    name: str
    title: str
    years: tuple[int, int]
    parts: Mapping[str, LikelyPart]

    def assumed(self, slot: str, stated: Spec | None = None) -> Spec | None:
        """Return what is stated of the part in a slot, and what is likely, marked as assumed.

        A slot that such a bike likely leaves empty gives back what is stated, so None if nothing
        is; a part of another kind than the likely one is taken as it is stated. Raises
        `ValueError`, which offers the nearest one, for an unknown slot.
        """
        name = slot_named(slot).name
        part = self.parts.get(name)
        if part is None or (stated is not None and stated.kind != part.kind):
            return stated
        likely = part.spec(name)
        return likely.with_values(stated) if stated is not None else likely


def names() -> tuple[str, ...]:
    """Return the names of all templates, in order.

    >>> "mtb-rigid-1990-1994" in names()
    True
    """
    held = (entry.name for entry in DATA.iterdir())
    return tuple(sorted(name.removesuffix(".toml") for name in held if name.endswith(".toml")))


def template(name: str) -> Template:
    """Return the template of that name; `UsageError` for an unknown one offers the nearest.

    >>> bike = template("mtb-rigid-1990-1994")
    >>> print(bike.assumed("seatpost", Spec.read("seatpost", {"length_mm": "350"})))
    seatpost, diameter 26.8 mm (assumed), length 350 mm, rails round-7 (assumed)
    """
    cleaned = "-".join(name.lower().replace("_", " ").replace("-", " ").split())
    if cleaned not in names():
        hint = nearest(cleaned, names()) or f"; known are {', '.join(names())}"
        raise UsageError(f"unknown era template {name.strip()!r}{hint}")
    return _read(cleaned)


@cache
def _read(name: str) -> Template:
    held = tomllib.loads((DATA / f"{name}.toml").read_text(encoding="utf-8"))
    first, last = held["years"]
    slots = held["slots"]
    parts = {slot: _part(slots[told.get("like", slot)]) for slot, told in slots.items()}
    return Template(name, held["title"], (first, last), MappingProxyType(parts))


def _part(told: Mapping[str, Any]) -> LikelyPart:
    return LikelyPart(told["kind"], tuple(Likely(*row) for row in told["rows"]))
