"""The ids of rows, and the places that every workshop has."""

from __future__ import annotations

from typing import NewType

PartId = NewType("PartId", int)
PlaceId = NewType("PlaceId", int)
BikeId = NewType("BikeId", int)
SpecId = NewType("SpecId", int)
ActId = NewType("ActId", int)

# The first migration makes these places in this order.
SUPPLIER = PlaceId(1)
CLEARING = PlaceId(2)
QUARANTINE = PlaceId(3)
SCRAPPED = PlaceId(4)
SOLD = PlaceId(5)
