"""Makes the plans of bikes from the record: asks it, finds the optimum, tells what comes of it."""

from __future__ import annotations

import gc
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING

from sqlalchemy import select

from partsbin.errors import UsageError
from partsbin.kinds.slots import SLOTS, slot_named
from partsbin.stock.bikes import bike_named, list_bikes
from partsbin.stock.ids import BikeId
from partsbin.stock.in_order_of_use import first_of_each, units_of
from partsbin.stock.lookup import mounted
from partsbin.stock.price_tables import Price
from partsbin.stock.specs import spec_of
from partsbin.stock.words import BikeState
from partsbin.workshop.choosing import ADAPTERS
from partsbin.workshop.planning.answer import Plans
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.optimum import optimum
from partsbin.workshop.planning.places import Offer, PriceItem, StockItem, Unit, offer, site
from partsbin.workshop.planning.telling import Told, told

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.ids import SpecId
    from partsbin.stock.models import Bike

KINDS_PLANNED = tuple(sorted({kind for slot in SLOTS for kind in slot.kinds} | set(ADAPTERS)))
"""The kinds that fill a slot or stand between two parts."""


@contextmanager
def _uncollected() -> Iterator[None]:
    """Keep the collector of cycles off: it would look again and again at millions of live rows.

    What a plan leaves behind refers one way only and is freed without it.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


@_uncollected()
def plan(
    session: Session,
    names: Sequence[str],
    keep: Sequence[str] = (),
    limit: float | None = None,
) -> Plans:
    """Return the best plan for the needs of some bikes, together; for all in work without names.

    The slots in `keep` are left as they are. Raises `UsageError` for an unknown slot, and
    `UnknownError` for an unknown bike.
    """
    bikes = bikes_named(session, names)
    kept = _slots(keep)
    ids = [BikeId(bike.id) for bike in bikes]
    shelf = shelf_of(session, ids)
    sites = [
        site(i, id_, bike.name, mounted(session, id_), shelf, kept)
        for i, (id_, bike) in enumerate(zip(ids, bikes, strict=True))
    ]
    bench = Bench(shelf)

    def units(wanted: Mapping[SpecId, int]) -> Mapping[SpecId, Sequence[Unit]]:
        found = units_of(session, wanted, ids)
        return {spec: [Unit(u.part, u.value, u.quantity) for u in us] for spec, us in found.items()}

    best = optimum(sites, shelf, units, limit, bench)
    return told(session, Told(sites, shelf, bench, best, units))


def bikes_named(session: Session, names: Sequence[str]) -> list[Bike]:
    """Return the bikes of some names or numbers, each once; those in work without names."""
    if not names:
        found = list_bikes(session, BikeState.IN_WORK)
        if not found:
            raise UsageError("no bike is in work; name the bikes to be planned")
        return found
    return list({bike.id: bike for bike in (bike_named(session, n) for n in names)}.values())


def _slots(names: Sequence[str]) -> frozenset[str]:
    try:
        return frozenset(slot_named(name).name for name in names)
    except ValueError as fault:
        raise UsageError(str(fault)) from None


def shelf_of(session: Session, bikes: Sequence[BikeId]) -> Offer:
    """Return what some bikes may draw on: what is free in stock, and the price list."""
    stock = [
        StockItem(spec, spec_of(text), (Unit(first.part, first.value, first.quantity),))
        for spec, (text, first) in first_of_each(session, KINDS_PLANNED, bikes).items()
    ]
    return offer(stock, price_items(session))


def price_items(session: Session) -> list[PriceItem]:
    """Return the price list in the order in which it was taken in."""
    return [
        PriceItem(
            row.id,
            spec_of(row.spec.text) if row.spec is not None else None,
            row.named,
            row.price,
            row.lead_days,
            row.note,
        )
        for row in session.scalars(select(Price).order_by(Price.id))
    ]
