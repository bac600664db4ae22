"""Attributes that nobody stated: from the user's list of names, from the bike, from its years.

What the list of names says is known, because it is printed on the part. What the bike's other
parts and an era template say is assumed.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from partsbin.errors import UsageError
from partsbin.kinds.eras import template
from partsbin.kinds.inherit import inherited
from partsbin.kinds.spec import Spec, in_words
from partsbin.workshop.names import named

if TYPE_CHECKING:
    from sqlalchemy.orm import Session


def from_names(session: Session, stated: Spec, text: str) -> tuple[Spec, str]:
    """Return a part with what the list says of a printed text, and a sentence that tells it.

    What is stated goes before. Raises as `names.named` does.
    """
    entry = named(session, stated.kind, text)
    filled = entry.spec.with_values(stated)
    told = f"from your list of names, {entry.printed!r}: {_new(filled, stated)}"
    return filled, f"{told} ({entry.note})" if entry.note else told


def from_era(
    stated: Spec, era: str, slot: str, on_bike: Mapping[str, Spec] | None = None
) -> tuple[Spec, str]:
    """Return a part with what the bike's other parts and a template say, and a sentence on it.

    `on_bike` is what is mounted, by slot. What is stated goes before the other parts, and they go
    before the template. Raises `UsageError` for an unknown template.
    """
    bike = template(era)
    likely = bike.assumed(slot) or Spec(stated.kind)
    if likely.kind != stated.kind:
        likely = Spec(stated.kind)
    neighbours = inherited(stated.kind, slot, on_bike or {})
    filled = likely.with_values(neighbours).with_values(stated)
    return filled, f"assumed, as of {bike.title} ({bike.name}): {_new(filled, stated)}"


def only_on_a_bike(era: str, bike: str) -> None:
    """Raise `UsageError` if a template is named for a part that is on no bike."""
    if era and not bike:
        raise UsageError("--like fills in what a part on a bike likely is; add --bike and --slot")


def _new(filled: Spec, stated: Spec) -> str:
    """Return what a part has that was not stated, in words."""
    shown = filled.shown()
    new = [
        f"{in_words(name)} {shown[name].removesuffix(' (assumed)')}"
        for name, _ in filled.values
        if stated.get(name) is None
    ]
    return ", ".join(new) or "nothing that was not known"
