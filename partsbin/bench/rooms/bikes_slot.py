"""One slot of a bike: what is there, and what in stock goes into it, in the order of `fit`."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from flask import render_template, request
from flask.typing import ResponseReturnValue

from labels.number import LabelNumber
from partsbin.bench.drawing.measure import drawings_of
from partsbin.bench.kept import kept
from partsbin.bench.kind_form import Filled, fields
from partsbin.bench.shop import record
from partsbin.bench.telling import Refusal
from partsbin.errors import NotFoundError, UsageError
from partsbin.fit.verdict import Verdict
from partsbin.fit.words import headline, source, why
from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import slot_named
from partsbin.kinds.spec import in_words
from partsbin.stock.ids import BikeId
from partsbin.stock.words import Condition, Grade
from partsbin.workshop.slot_states import standings

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sqlalchemy.orm import Session

    from partsbin.fit.specify import Specification
    from partsbin.kinds.kind import Kind
    from partsbin.kinds.slots import Slot
    from partsbin.workshop.fitting import Suggestion

MOST = 12
"""Suggestions that are shown at first; the best are in front."""
MOST_EVER = 200
ALIKE = 4
"""Parts of one spec that are named besides the first."""


@dataclass(frozen=True, slots=True)
class Reason:
    """What one interface says of a part."""

    rule: str
    verdict: Verdict
    told: str
    source: str


@dataclass(frozen=True, slots=True)
class Offered:
    """A part for the slot, with all that is said of it."""

    found: Suggestion
    reasons: tuple[Reason, ...]
    """The decisive one first, then all others that are not a plain fit."""
    fits_too: tuple[str, ...]

    @property
    def caution(self) -> str:
        """Return what can hurt somebody about its kind."""
        return KINDS[self.found.spec.kind].caution


@dataclass(frozen=True, slots=True)
class Told:
    """What is told of a slot."""

    offered: tuple[Offered, ...]
    hidden: int
    """How many more there are than are told."""
    missed: tuple[tuple[Suggestion, str], ...]
    buy: Specification | None
    usual: str
    """The bin where most parts are of the kind that is there, empty for none."""


def slot_of(text: str) -> Slot:
    """Return the slot of an address. Raises `NotFoundError` with the nearest name."""
    try:
        return slot_named(text)
    except ValueError as fault:
        raise NotFoundError(str(fault)) from None


def slot(number: LabelNumber, slot: str) -> ResponseReturnValue:
    """Show a slot of a bike."""
    return shown(number, slot_of(slot))


def shown(number: LabelNumber, slot: Slot, refusal: Refusal | None = None, part: str = "") -> str:
    """Return the page of a slot; `part` is the number that the refusal is about."""
    from partsbin.stock.bikes import bike_named
    from partsbin.stock.lookup import mounted

    most = MOST_EVER if request.args.get("all") == "yes" else MOST
    with record().reading() as session:
        bike = bike_named(session, number)
        on_bike = mounted(session, BikeId(bike.id))
        told = kept(session, _told, number, slot.name, most)
        bins = _bins(session)
    standing = next(one for one in standings(on_bike) if one.slot is slot)
    return render_template(
        "bikes/slot.html",
        bike=bike,
        slot=slot,
        standing=standing,
        kind=KINDS[standing.part.spec.kind] if standing.part else None,
        told=told,
        bin_numbers=bins,
        alike=ALIKE,
        grades=[grade.value for grade in Grade],
        conditions=[condition.value for condition in Condition],
        refusal=refusal,
        about=part,
        typed=request.form,
    )


def _bins(session: Session) -> dict[str, LabelNumber]:
    """Return the number of every bin by its name, in the order of names."""
    from partsbin.stock.places import list_bins

    return {one.name: one.number for one in list_bins(session)}


def _told(session: Session, number: LabelNumber, slot: str, most: int) -> Told:
    """Return what fits a slot, so many of it, and where the part that is there belongs."""
    from partsbin.stock.bikes import bike_named
    from partsbin.stock.bin_choice import bin_of_kind
    from partsbin.stock.lookup import mounted
    from partsbin.workshop.choosing import what_fits

    answer = what_fits(session, number, slot)
    on_bike = mounted(session, BikeId(bike_named(session, number).id))
    kind = next((part.spec.kind for part in on_bike if part.slot == slot), "")
    place = bin_of_kind(session, kind) if kind else None
    return Told(
        offered=tuple(map(_offered, answer.suggestions[:most])),
        hidden=max(len(answer.suggestions) - most, 0),
        missed=tuple((found, headline(found.judgement)) for found in answer.near_misses),
        buy=answer.buy,
        usual=place.name if place else "",
    )


def _offered(found: Suggestion) -> Offered:
    """Return a suggestion with its reasons, as `partsbin fit` sorts them."""
    interfaces = found.judgement.interfaces
    told = [j for n, j in enumerate(interfaces) if n == 0 or j.finding.verdict is not Verdict.FITS]
    reasons = [Reason(j.rule.name, j.finding.verdict, why(j.finding), source(j)) for j in told]
    plain = [j.rule.name for j in interfaces if j not in told]
    return Offered(found, tuple(reasons), tuple(plain))


def found(number: LabelNumber, slot: str, kind: str) -> ResponseReturnValue:
    """Show the form of a part that is on the bike and not in the record yet."""
    place = slot_of(slot)
    return found_form(number, place, kind_in(place, kind), Filled(), {"condition": "sound"})


def kind_in(slot: Slot, word: str) -> type[Kind]:
    """Return a kind that goes into a slot. Raises `UsageError` for another."""
    if word not in slot.kinds:
        told = " or ".join(map(in_words, slot.kinds))
        raise UsageError(f"{slot.name} takes {told}; nothing was changed")
    return KINDS[word]


def found_form(
    number: LabelNumber,
    slot: Slot,
    kind: type[Kind],
    filled: Filled,
    told: Mapping[str, str],
    refused: str = "",
) -> str:
    """Return the form, with what was typed and what was refused."""
    from partsbin.kinds.eras import names, template
    from partsbin.stock.bikes import bike_named

    with record().reading() as session:
        bike = bike_named(session, number)
    return render_template(
        "bikes/found.html",
        bike=bike,
        slot=slot,
        kind=kind,
        fields=fields(kind),
        filled=filled,
        drawings=drawings_of(kind.word),
        told=told,
        refused=refused,
        eras=[(name, template(name).title) for name in names()],
        grades=[grade.value for grade in Grade],
        conditions=[condition.value for condition in Condition],
    )
