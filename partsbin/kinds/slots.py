"""The slots of a bicycle: where a part is mounted, and which kinds go there.

A combined lever stands in its shifter's slot and fills the brake lever's slot of the same hand too.
"""

from __future__ import annotations

from dataclasses import dataclass

from partsbin.kinds.forms.form import nearest


@dataclass(frozen=True, slots=True)
class Slot:
    """One slot: its name and the kinds that fill it."""

    name: str
    kinds: tuple[str, ...]
    end: str = ""
    """front or rear where the bike has one at each end, otherwise empty."""
    needed: bool = True
    """Whether a bike that is to be sold needs it."""


SLOTS = (
    Slot("frame", ("frame",)),
    Slot("fork", ("fork",)),
    Slot("headset", ("headset",)),
    Slot("stem", ("stem",)),
    Slot("handlebar", ("handlebar",)),
    Slot("grips", ("grips", "bar_tape")),
    Slot("left brake lever", ("brake_lever", "combined_lever")),
    Slot("right brake lever", ("brake_lever", "combined_lever")),
    Slot("front brake", ("rim_brake", "disc_calliper"), "front"),
    Slot("rear brake", ("rim_brake", "disc_calliper"), "rear"),
    Slot("front rotor", ("rotor",), "front", needed=False),
    Slot("rear rotor", ("rotor",), "rear", needed=False),
    Slot("front shifter", ("shifter", "combined_lever"), "front", needed=False),
    Slot("rear shifter", ("shifter", "combined_lever"), "rear", needed=False),
    Slot("front derailleur", ("front_derailleur",), "front", needed=False),
    Slot("rear derailleur", ("rear_derailleur",), "rear", needed=False),
    Slot("bottom bracket", ("bottom_bracket",)),
    Slot("chainset", ("chainset",)),
    Slot("pedals", ("pedals",)),
    Slot("chain", ("chain",)),
    Slot("sprockets", ("cassette", "freewheel", "sprocket")),
    Slot("front wheel", ("wheel",), "front"),
    Slot("rear wheel", ("wheel",), "rear"),
    Slot("front tyre", ("tyre",), "front"),
    Slot("rear tyre", ("tyre",), "rear"),
    Slot("front tube", ("tube",), "front"),
    Slot("rear tube", ("tube",), "rear"),
    Slot("seatpost", ("seatpost",)),
    Slot("seat clamp", ("seat_clamp",)),
    Slot("saddle", ("saddle",)),
    Slot("rack", ("rack",), needed=False),
    Slot("mudguards", ("mudguards",), needed=False),
    Slot("kickstand", ("kickstand",), needed=False),
    Slot("bell", ("bell",), needed=False),
    Slot("front light", ("light",), "front", needed=False),
    Slot("rear light", ("light",), "rear", needed=False),
    Slot("bottle cage", ("bottle_cage",), needed=False),
    Slot("reflectors", ("reflector",), needed=False),
)
BY_NAME = {slot.name: slot for slot in SLOTS}


def slot_named(name: str) -> Slot:
    """Return the slot of that name; `ValueError` offers the nearest one.

    >>> slot_named("rear-derailleur").kinds
    ('rear_derailleur',)
    """
    cleaned = " ".join(name.lower().replace("-", " ").replace("_", " ").split())
    if cleaned not in BY_NAME:
        raise ValueError(f"unknown slot {name.strip()!r}{nearest(cleaned, list(BY_NAME))}")
    return BY_NAME[cleaned]


def slots_for(kind: str, side: str = "") -> tuple[Slot, ...]:
    """Return the slots that a kind goes into, only those of its end if its side is known.

    >>> [slot.name for slot in slots_for("wheel", "rear")]
    ['rear wheel']
    """
    return tuple(
        slot
        for slot in SLOTS
        if kind in slot.kinds and (not side or not slot.end or slot.end == side)
    )
