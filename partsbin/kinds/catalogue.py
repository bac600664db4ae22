"""The kinds and their attributes as data, for people to look up and for programs to read."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from partsbin.kinds import KINDS
from partsbin.kinds.forms.lengths import LengthForm
from partsbin.kinds.forms.words import WordForm, WordsForm
from partsbin.kinds.spec import kind_named
from partsbin.standards.length import in_mm

if TYPE_CHECKING:
    from partsbin.kinds.attribute import Attribute
    from partsbin.kinds.kind import Kind

AREAS = ("frame", "seat", "cockpit", "drivetrain", "wheels", "brakes", "other")
"""The areas of a bicycle, from the frame outwards; each is one module of this room."""
UNITS = {"_mm": "mm", "_deg": "degrees", "_percent": "percent", "_in": "in", "_teeth": "teeth"}


def area_of(kind: type[Kind]) -> str:
    """Return the area that a kind belongs to.

    >>> area_of(KINDS["seatpost"])
    'seat'
    """
    return kind.__module__.rpartition(".")[2]


def unit_of(name: str) -> str:
    """Return the unit of an attribute, as its name ends; empty if it has none.

    >>> unit_of("diameter_mm"), unit_of("speeds")
    ('mm', '')
    """
    return next((unit for ending, unit in UNITS.items() if name.endswith(ending)), "")


def overview() -> list[dict[str, Any]]:
    """Return all kinds, area by area, each with what it is and what is asked of it first."""
    return [
        {
            "kind": kind.word,
            "area": area_of(kind),
            "what": what_is(kind),
            "first": list(kind.first),
            "inspected": bool(kind.inspection),
        }
        for area in AREAS
        for kind in KINDS.values()
        if area_of(kind) == area
    ]


def definition(word: str) -> dict[str, Any]:
    """Return one kind with its attributes, how to measure each, its caution and its inspection.

    Raises `SpecError` for an unknown kind, which offers the nearest one.
    """
    kind = kind_named(word)
    return {
        "kind": kind.word,
        "area": area_of(kind),
        "what": what_is(kind),
        "free": kind.free,
        "first": list(kind.first),
        "caution": kind.caution,
        "inspection": list(kind.inspection),
        "attributes": [_attribute(attribute) for attribute in kind.attributes.values()],
    }


def what_is(kind: type[Kind]) -> str:
    """Return what a kind is, in one sentence.

    >>> what_is(KINDS["saddle"])
    'A saddle.'
    """
    return (kind.__doc__ or "").strip().splitlines()[0]


def _attribute(attribute: Attribute) -> dict[str, Any]:
    form = attribute.form
    told: dict[str, Any] = {
        "name": attribute.name,
        "unit": unit_of(attribute.name),
        "allowed": form.allowed,
        "listed": [form.plain(value) for value in form.candidates()],
        "measure": attribute.measure,
    }
    if isinstance(form, WordForm | WordsForm):
        told["listed"] = list(form.words)
        told["also"] = dict(form.also)
    if isinstance(form, WordForm) and form.measured:
        told["measured_mm"] = {in_mm(size): list(may) for size, may in form.measured.items()}
    if isinstance(form, LengthForm | WordForm) and form.sizes:
        told["source"] = form.sizes.source
    return told
