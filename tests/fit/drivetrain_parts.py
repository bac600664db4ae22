"""Parts for the tests of the drivetrain, also by the short names of published tables."""

from __future__ import annotations

from functools import partial
from typing import Any

from partsbin.kinds.kind import Kind
from tests.fit.brake_parts import part

rear_shifter = partial(part, "shifter", side="rear")
front_shifter = partial(part, "shifter", side="front")
derailleur = partial(part, "rear_derailleur")
front_derailleur = partial(part, "front_derailleur")
cassette = partial(part, "cassette")
freewheel = partial(part, "freewheel")
chain = partial(part, "chain")
sprocket = partial(part, "sprocket")
chainset = partial(part, "chainset")
chainring = partial(part, "chainring")
bracket = partial(part, "bottom_bracket")
pedals = partial(part, "pedals")
pulley = partial(part, "pull_adapter")
frame = partial(part, "frame")
rear_wheel = partial(part, "wheel", side="rear")

NAMES = {
    "A": "ratio-1.7",
    "B": "ratio-1.2",
    "C": "ratio-1.1-flat-11",
    "D10": "ratio-1.4-road-10",
    "D11": "ratio-1.4-road-11",
    "E": "ratio-1.1",
    "F": "ratio-1.3",
    "G": "ratio-1.12-flat-11",
    "I": "italian-1.4",
    "J": "italian-1.5",
    "K": "uneven-old",
    "O": "ratio-1.9",
}
"""Letters for the indexing families, with the number of speeds behind them: A8, D11."""
KINDS = {"": "standard", "r": "standard", "i": "italian", "f": "flat-bar", "o": "uneven-old"}
"""Letters behind a number of sprockets: 9 standard, 9i Italian, 11f flat-bar, 8o uneven."""


def family(name: str) -> dict[str, Any]:
    """Return family and speeds of a short name such as A8."""
    return {"index_family": NAMES.get(name) or NAMES[name[0]], "speeds": int(name[1:])}


def shifts(name: str) -> Kind:
    """Return a rear shifter of a family by its short name."""
    return rear_shifter(**family(name))


def moves(name: str) -> Kind:
    """Return a rear derailleur of a family by its short name."""
    return derailleur(**family(name))


def stack(name: str, used: int | None = None) -> Kind:
    """Return a cassette by its short name, perhaps built up with fewer sprockets."""
    number, letter = (name, "") if name.isdigit() else (name[:-1], name[-1])
    cogs = None if used is None else list(range(11, 11 + used))
    return cassette(speeds=int(number), spacing=KINDS[letter], cogs=cogs)
