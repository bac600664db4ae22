"""Parts for the tests of wheels; what the judge finds is asked as in the tests of brakes."""

from __future__ import annotations

from functools import partial

from tests.fit.brake_parts import part

tyre = partial(part, "tyre")
tube = partial(part, "tube")
wheel = partial(part, "wheel")
rim = partial(part, "rim")
hub = partial(part, "hub")
frame = partial(part, "frame")
fork = partial(part, "fork")
extender = partial(part, "valve_extender")
grommet = partial(part, "valve_grommet")
tape = partial(part, "rim_tape")
cap = partial(part, "valve_cap")
pump = partial(part, "pump_head")
skewer = partial(part, "skewer")
nut = partial(part, "axle_nut")
axle = partial(part, "axle")
front = partial(part, "wheel", side="front")
rear = partial(part, "wheel", side="rear")
