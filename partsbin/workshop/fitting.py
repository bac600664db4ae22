"""What in stock goes into a slot of a bike: suggestions best first, near misses, what to buy."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from partsbin.fit.judge import Judgement, judge
from partsbin.fit.specify import Specification, specification
from partsbin.fit.verdict import Adapter, Verdict
from partsbin.kinds.slots import BY_NAME, Slot
from partsbin.stock.words import Condition, Grade

if TYPE_CHECKING:
    from partsbin.kinds.kind import Kind
    from partsbin.kinds.spec import Spec
    from partsbin.stock.lookup import Mounted, Stocked

COUPLED = {
    "rear shifter": "right brake lever",
    "front shifter": "left brake lever",
    "right brake lever": "rear shifter",
    "left brake lever": "front shifter",
}
"""The slots that one combined lever fills together (the shifter's hand is common practice)."""
GRADES = tuple(Grade)
MOST_NEAR_MISSES = 5


@dataclass(frozen=True, slots=True)
class Suggestion:
    """Parts of one spec for a slot: what the judge says, and what else changes with them."""

    spec: Spec
    parts: tuple[Stocked, ...]
    judgement: Judgement
    also_replaces: str = ""
    """The slot that a combined lever fills besides."""
    leaves_open: str = ""
    """The slot that stays empty when a plain part takes a combined lever's place."""
    adapters: tuple[tuple[Adapter, Stocked | None], ...] = ()
    """The adapters needed, each with one from stock if there is one."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What goes into a slot: suggestions best first, near misses, else the part to buy."""

    slot: Slot
    suggestions: tuple[Suggestion, ...]
    near_misses: tuple[Suggestion, ...]
    buy: Specification | None


def suggest(slot: Slot, mounted: Sequence[Mounted], stock: Sequence[Stocked]) -> Answer:
    """Return what in stock goes into a slot of a bike with these parts mounted.

    `stock` holds the usable parts of the slot's kinds and all that may serve as adapters. Parts
    that are dead do not count as neighbours: they will be replaced themselves.
    """
    judged = [
        _suggestion(slot, spec, parts, mounted, stock)
        for spec, parts in _by_spec(p for p in stock if goes_in(p.spec, slot)).items()
    ]
    judged.sort(key=_goodness)
    good = [s for s in judged if s.judgement.verdict is not Verdict.CLASH]
    missed = [s for s in judged if s.judgement.verdict is Verdict.CLASH]
    missed.sort(key=lambda s: len(_clashes(s.judgement)))
    certain = any(
        s.judgement.verdict in (Verdict.FITS, Verdict.ADAPTS) and not s.judgement.makeshift
        for s in good
    )
    buy = None if certain else _to_buy(slot, mounted)
    return Answer(slot, tuple(good), tuple(missed[:MOST_NEAR_MISSES]), buy)


def judge_in_slot(spec: Spec, slot: Slot, mounted: Sequence[Mounted]) -> Judgement:
    """Return the judgement of a part in a slot, with all that is mounted in the others."""
    neighbours, ends = _neighbours(slot, mounted, also=_also_replaced(spec, slot))
    return judge((spec.piece, *neighbours), (slot.end, *ends), about=0)


def _suggestion(
    slot: Slot,
    spec: Spec,
    parts: list[Stocked],
    mounted: Sequence[Mounted],
    stock: Sequence[Stocked],
) -> Suggestion:
    judgement = judge_in_slot(spec, slot, mounted)
    now = next((m for m in mounted if m.slot == slot.name), None)
    plain_for_combined = (
        now is not None and now.spec.kind == "combined_lever" and spec.kind != "combined_lever"
    )
    parts.sort(key=lambda part: (GRADES.index(part.grade), part.value or 0, part.number))
    return Suggestion(
        spec,
        tuple(parts),
        judgement,
        also_replaces=_also_replaced(spec, slot),
        leaves_open=COUPLED.get(slot.name, "") if plain_for_combined else "",
        adapters=tuple(_adapters(judgement, stock)),
    )


def _also_replaced(spec: Spec, slot: Slot) -> str:
    return COUPLED.get(slot.name, "") if spec.kind == "combined_lever" else ""


def goes_in(spec: Spec, slot: Slot) -> bool:
    """Return whether a part's kind, and its side if known, are the slot's."""
    if spec.kind not in slot.kinds:
        return False
    side = spec.get("side")
    if spec.kind == "combined_lever" and "shifter" not in slot.name:
        return side is None or COUPLED[slot.name].startswith(str(side))
    if side in ("front", "rear") and slot.end:
        return side == slot.end
    if side in ("left", "right"):
        return slot.name.startswith(str(side))
    return True


def _neighbours(
    slot: Slot, mounted: Sequence[Mounted], also: str = ""
) -> tuple[list[Kind], list[str]]:
    """Return the pieces that a part in the slot must go with, and at which end each is."""
    stay = [
        m for m in mounted if m.slot not in (slot.name, also) and m.condition is not Condition.DEAD
    ]
    ends = [BY_NAME[m.slot].end if m.slot in BY_NAME else "" for m in stay]
    return [m.spec.piece for m in stay], ends


def _by_spec(parts: Iterable[Stocked]) -> dict[Spec, list[Stocked]]:
    found: dict[Spec, list[Stocked]] = {}
    for part in parts:
        found.setdefault(part.spec, []).append(part)
    return found


def _goodness(suggestion: Suggestion) -> tuple[int, bool, int, int, int, str]:
    best = suggestion.parts[0]
    missing = sum(found is None for _, found in suggestion.adapters)
    rank, makeshift = suggestion.judgement.verdict.rank, suggestion.judgement.makeshift
    return rank, makeshift, missing, GRADES.index(best.grade), best.value or 0, best.number


def _clashes(judgement: Judgement) -> list[str]:
    return [j.rule.name for j in judgement.interfaces if j.finding.verdict is Verdict.CLASH]


def _adapters(
    judgement: Judgement, stock: Sequence[Stocked]
) -> Iterable[tuple[Adapter, Stocked | None]]:
    for judged in judgement.interfaces:
        adapter = judged.finding.adapter
        if adapter is None or judged.finding.verdict is not Verdict.ADAPTS:
            continue
        found = (part for part in stock if part.spec.kind == adapter.kind)
        yield adapter, next((p for p in found if adapter.is_met_by(p.spec.piece)), None)


def _to_buy(slot: Slot, mounted: Sequence[Mounted]) -> Specification:
    """Return the exact specification of a part for the slot, of the kind that was there."""
    now = next((m for m in mounted if m.slot == slot.name), None)
    like = now.spec.piece if now else None
    kind = now.spec.kind if now and now.spec.kind in slot.kinds else slot.kinds[0]
    neighbours, ends = _neighbours(slot, mounted)
    return specification(kind, neighbours, ends, like, slot.end)
