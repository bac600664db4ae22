"""A spec: a kind and its attributes in canonical form. Equal specs are one row of the database."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.kinds import KINDS
from partsbin.kinds.forms.form import nearest
from partsbin.kinds.forms.text import TextForm
from partsbin.kinds.names import OTHER_NAMES

if TYPE_CHECKING:
    from partsbin.kinds.forms.form import Form, Value
    from partsbin.kinds.kind import Kind

FREE = TextForm()
ALIKE = frozenset({"axle_mm", "steerer_mm"})
"""Attributes that would lose their unit to another one's name."""
LONGEST_REASON, LONGEST_START = 500, 300
"""Characters of a fault that are told, and how many of them from its start: a value may be huge."""


class SpecError(UsageError, ValueError):
    """A kind, attribute or value that is not known; names it and offers the nearest known word."""

    def __init__(self, kind: str, attribute: str, reason: str) -> None:
        if len(reason) > LONGEST_REASON:
            reason = f"{reason[:LONGEST_START]} ... {reason[LONGEST_START - LONGEST_REASON :]}"
        self.kind = kind
        self.attribute = attribute
        self.reason = reason
        super().__init__(": ".join(filter(None, (kind, attribute, reason))))


@dataclass(frozen=True)
class Spec:
    """A kind with the attributes that are known, as they were recorded, in the order of names.

    >>> spec = Spec.read("seatpost", {"diameter_mm": "27,2 mm"})
    >>> spec == Spec.check("seatpost", {"diameter_mm": 27.2})
    True
    >>> str(spec)
    'seatpost, diameter 27.2 mm'
    """

    kind: str
    values: tuple[tuple[str, Value], ...] = ()
    assumed: frozenset[str] = frozenset()

    @classmethod
    def read(cls, kind: str, typed: Mapping[str, str], assumed: Iterable[str] = ()) -> Spec:
        """Return the spec of what a person typed; empty texts are unknown.

        Raises `SpecError` for an unknown kind or attribute or a value that is not allowed.
        """
        known = kind_named(kind)
        given = {name: text for name, text in typed.items() if text.strip()}
        return cls._of(known, {n: _read(known, n, text) for n, text in given.items()}, assumed)

    @classmethod
    def check(cls, kind: str, raw: Mapping[str, object], assumed: Iterable[str] = ()) -> Spec:
        """Return the spec of what a JSON file holds; nulls are unknown. Raises `SpecError`."""
        known = kind_named(kind)
        checked = {name: _check(known, name, value) for name, value in raw.items()}
        given = {name: value for name, value in checked.items() if value is not None}
        return cls._of(known, given, assumed)

    @classmethod
    def from_text(cls, text: str) -> Spec:
        """Return the spec that `text` wrote."""
        held = json.loads(text)
        return cls.check(held["kind"], held["attributes"], held.get("assumed", ()))

    @classmethod
    def _of(cls, kind: type[Kind], values: Mapping[str, Value], assumed: Iterable[str]) -> Spec:
        marked = frozenset(assumed).intersection(values)
        return cls(kind.word, tuple(sorted(values.items())), marked)

    @property
    def text(self) -> str:
        """The spec as one line of JSON, the same for equal specs."""
        held: dict[str, object] = {"kind": self.kind, "attributes": self.plain()}
        if self.assumed:
            held["assumed"] = sorted(self.assumed)
        return json.dumps(held, sort_keys=True, separators=(",", ":"))

    @cached_property
    def piece(self) -> Kind:
        """The piece that the rules of fit read."""
        return KINDS[self.kind].of(self)

    def get(self, name: str) -> Value | None:
        """Return the recorded value of an attribute, None if it is unknown."""
        return dict(self.values).get(name)

    def plain(self) -> dict[str, object]:
        """Return the attributes as JSON holds them."""
        kind = KINDS[self.kind]
        return {name: form_of(kind, name).plain(value) for name, value in self.values}

    def shown(self) -> dict[str, str]:
        """Return the attributes as a person reads them."""
        kind = KINDS[self.kind]
        return {
            name: form_of(kind, name).show(value) + (" (assumed)" if name in self.assumed else "")
            for name, value in self.values
        }

    def with_values(self, other: Spec) -> Spec:
        """Return this spec with the other's values before its own; those are assumed no more."""
        values = {**dict(self.values), **dict(other.values)}
        still = {name for name in self.assumed if other.get(name) is None} | other.assumed
        return Spec(self.kind, tuple(sorted(values.items())), frozenset(still))

    @property
    def brief(self) -> str:
        """The kind and what a mechanic asks for first, for lists and labels.

        >>> Spec.check("seatpost", {"diameter_mm": 27.2, "material": "steel"}).brief
        'seatpost, diameter 27.2 mm'
        """
        shown = self.shown()
        first = [n for n in KINDS[self.kind].first if n in shown] or list(shown)[:2]
        return ", ".join([in_words(self.kind), *(f"{in_words(n)} {shown[n]}" for n in first)])

    def __str__(self) -> str:
        """Return the kind and all that is known of it, what a mechanic asks for first in front."""
        first = KINDS[self.kind].first
        shown = self.shown()
        order = [n for n in first if n in shown] + [n for n in shown if n not in first]
        return ", ".join([in_words(self.kind), *(f"{in_words(n)} {shown[n]}" for n in order)])


def in_words(name: str) -> str:
    """Return a kind's or an attribute's name as a person says it, without the unit.

    >>> in_words("seat_tube_bore_mm"), in_words("rear_derailleur")
    ('seat tube bore', 'rear derailleur')

    Two attributes that would be called alike keep what they measure.

    >>> in_words("steerer"), in_words("steerer_mm")
    ('steerer', 'steerer diameter')
    """
    if name in ALIKE:
        name = name.replace("_mm", "_diameter")
    for unit in ("_mm", "_deg", "_nm", "_percent", "_in", "_teeth"):
        name = name.removesuffix(unit)
    return name.replace("_", " ")


def kind_named(word: str) -> type[Kind]:
    """Return the kind of that word; `SpecError` offers the nearest one.

    >>> kind_named("Disc Caliper").word, kind_named("tire").word
    ('disc_calliper', 'tyre')
    """
    found = KINDS.get(word)
    if found is None:
        cleaned = "_".join(word.lower().replace("-", " ").split())
        found = KINDS.get(OTHER_NAMES.get(cleaned, cleaned))
    if found is None:
        hint = nearest(word, [*KINDS, *OTHER_NAMES])
        raise SpecError("", "", f"unknown kind {word.strip()!r}{hint}")
    return found


def form_of(kind: type[Kind], name: str) -> Form:
    """Return the form of a kind's attribute; `SpecError` offers the nearest name."""
    attribute = kind.attributes.get(name)
    if attribute is not None:
        return attribute.form
    if kind.free and name.isidentifier():
        return FREE
    hint = nearest(name, list(kind.attributes))
    raise SpecError(kind.word, name, f"unknown attribute{hint}")


def _read(kind: type[Kind], name: str, text: str) -> Value:
    try:
        return form_of(kind, name).read(text)
    except SpecError:
        raise
    except ValueError as fault:
        raise SpecError(kind.word, name, str(fault)) from None


def _check(kind: type[Kind], name: str, raw: object) -> Value | None:
    form = form_of(kind, name)
    if raw is None:
        return None
    if form is FREE and not isinstance(raw, str):
        raw = json.dumps(raw)
    try:
        return form.check(raw)
    except ValueError as fault:
        raise SpecError(kind.word, name, str(fault)) from None
