"""The one writer that turns plans into lines and JSON: take, buy, measure, change, and why."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from labels.number import grouped
from partsbin.fit.words import how_to_measure, why
from partsbin.kinds.spec import in_words
from partsbin.stock.money import show_money

if TYPE_CHECKING:
    from partsbin.fit.specify import Specification
    from partsbin.workshop.planning.answer import (
        BikePlan,
        Buy,
        Conflict,
        Instead,
        Measure,
        Plans,
        Take,
        Unmet,
    )
    from partsbin.workshop.planning.solving import Stage

STAGES = {
    "unmet": "needs left open",
    "makeshift": "fits that only get a rider home",
    "money": "money to spend",
    "doubts": "doubts",
    "value": "value of stock used",
    "adapters": "adapters",
    "age": "age of the parts used",
}
IN_MONEY = ("money", "value")
NO_REPAIR = "no repair: nothing that is free in stock or on the price list serves this need better"


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a plan: what to do in which slot, and the reasons that stand below it."""

    verb: str
    slot: str
    what: str
    below: tuple[str, ...] = ()


def lines(plan: BikePlan) -> Iterator[Line]:
    """Yield the lines of a bike's plan in the order of the work: measure, take, buy, change."""
    for measure in plan.measure:
        yield Line("measure", " - ".join(measure.slots), *_measure(measure))
    for take in plan.take:
        yield Line("adapter" if take.adapter else "take", slot_of(take), *_take(take))
    for buy in plan.buy:
        yield Line("buy", slot_of(buy), *_buy(buy))
    for change in plan.changes:
        told = why(change.judged.finding, brief=True)
        below = (NO_REPAIR, told) if change.judged.finding.makeshift else (told,)
        yield Line(
            "change", " - ".join(map(slot_name, change.pieces)), change.judged.rule.name, below
        )
    for unmet in plan.unmet:
        yield Line("open", unmet.slot, *_unmet(unmet))


def slot_name(name: str) -> str:
    """Return a place as a person says it; an adapter's place is named for its rule."""
    return name.partition(": ")[2] if name.startswith("adapter") else name


def slot_of(one: Take | Buy) -> str:
    """Return the slot of a part, with the one that a combined lever fills besides."""
    also = f" and {one.also_fills}" if one.also_fills else ""
    return slot_name(one.slot) + also


def what_to_buy(buy: Buy) -> str:
    """Return what to buy in a few words."""
    return str(buy.spec) if buy.spec is not None else buy.named


def _take(take: Take) -> tuple[str, tuple[str, ...]]:
    what = f"{grouped(take.number)}  bin {take.place}: {take.spec.brief}"
    return what, tuple(_below(take))


def _buy(buy: Buy) -> tuple[str, tuple[str, ...]]:
    price = "no price known" if buy.price is None else show_money(buy.price)
    lead = "" if buy.lead_days is None else f", {buy.lead_days} days"
    below = []
    if buy.ranges is not None and (shown := ranges(buy.ranges)):
        below.append(f"anything goes with {shown}")
    if buy.note:
        below.append(buy.note)
    what = f"adapter: {what_to_buy(buy)}" if buy.adapter else what_to_buy(buy)
    return f"{what} ({price}{lead})", (*below, *_below(buy))


def to_spend(plans: Plans) -> str:
    """Return the money to spend, and what comes on top of it at prices that nobody knows.

    Each is told by its specification, with how many are needed.
    """
    text = show_money(plans.money)
    if not plans.unpriced:
        return text
    counts = Counter(map(what_to_buy, plans.unpriced))
    told = ", ".join(what if n == 1 else f"{n} x {what}" for what, n in counts.items())
    return f"{text}, and on top {len(plans.unpriced)} without a known price: {told}"


def _below(one: Take | Buy) -> Iterator[str]:
    if one.works and one.replaces is not None:
        yield f"takes the place of a working {one.replaces.brief}"
    elif one.replaces is not None:
        yield f"take off first: {one.replaces.brief}"
    if one.also_replaces is not None:
        yield f"take off too: {one.also_replaces.brief}"
    if one.instead is not None:
        yield instead(one.instead)


def instead(found: Instead) -> str:
    """Return why the part that looks cheaper is not in the plan."""
    text = f"not the cheaper {found.spec.brief}: "
    if found.clash is not None:
        return text + f"{found.clash.rule.name}: {why(found.clash.finding, brief=True)}"
    if found.taken_by:
        return text + f"{found.taken_by} gets it"
    if found.doubt is not None:
        return text + f"{found.doubt.rule.name}: {why(found.doubt.finding, brief=True)}"
    return text + "the whole would cost more with it"


def ranges(found: Specification) -> str:
    """Return the values that a part to buy may have."""
    return ", ".join(f"{in_words(name)} {text}" for name, text in found.shown().items())


def _measure(measure: Measure) -> tuple[str, tuple[str, ...]]:
    trial = measure.trials[0]
    what = f"{in_words(trial.attribute)} of the {in_words(trial.piece.word)}"
    return what, (f"how: {how_to_measure(trial)}", _meaning(measure), _otherwise(measure))


def _meaning(measure: Measure) -> str:
    return f"{measure.judged.rule.name}: {why(measure.judged.finding, brief=True)}"


def _otherwise(measure: Measure) -> str:
    """Return how the plan changes if the measurement says no."""
    if not measure.tried:
        return "what to do if it does not go was not looked for in the time given"
    if not measure.otherwise:
        return "if it does not go: there is no other way, the need stays open"
    swaps = "; ".join(
        f"{slot_name(swap.slot)}: {swap.after} instead of {swap.before}"
        for swap in measure.otherwise
        if not swap.slot.startswith("adapter") or swap.after != "nothing"
    )
    more = f"; {show_money(measure.money)} more to spend" if measure.money > 0 else ""
    left = f"; left open: {', '.join(measure.unmet)}" if measure.unmet else ""
    return f"if it does not go: {swaps}{more}{left}"


def _unmet(unmet: Unmet) -> tuple[str, tuple[str, ...]]:
    below = []
    if unmet.none:
        below.append("neither stock nor the price list has one")
    elif unmet.also_wanted_by and not unmet.conflicts:
        below.append(f"what would do goes to {', '.join(unmet.also_wanted_by)}")
    elif unmet.conflicts:
        told = "; ".join(map(conflict, unmet.conflicts))
        below.append(f"these cannot all hold: {told}")
    else:
        below.append("stock has too few of what would do")
    wanted = ""
    if unmet.wanted is not None:
        shown = ranges(unmet.wanted)
        wanted = f": buy a {in_words(unmet.wanted.kind)}" + (f", {shown}" if shown else "")
    return f"{unmet.why}{wanted}", tuple(below)


def conflict(found: Conflict) -> str:
    """Return one of the things that cannot all hold."""
    if not found.interface:
        return f"the {found.places[0]} is filled too"
    return f"{found.interface} ({', '.join(map(slot_name, found.places))})"


def proof(plans: Plans) -> str:
    """Return how sure it is that no plan is better."""
    if plans.proven:
        return f"proven: no plan is better ({plans.seconds:.2f} s)"
    told = ", ".join(
        f"{STAGES[stage.objective]} {shown(stage, stage.value)},"
        f" at best {shown(stage, stage.bound)} (gap {stage.gap:.0%})"
        for stage in plans.stages
        if not stage.proven and stage.objective != "age"
    )
    return f"not proven in the time given: {told or 'only the age of the parts is open'}"


def shown(stage: Stage, figure: int) -> str:
    """Return a figure of an objective in its unit."""
    return show_money(figure) if stage.objective in IN_MONEY else str(figure)


def as_data(plans: Plans) -> dict[str, Any]:
    """Return plans as JSON holds them."""
    return {
        "proven": plans.proven,
        "seconds": round(plans.seconds, 3),
        "money": show_money(plans.money),
        "unpriced": list(map(what_to_buy, plans.unpriced)),
        "objectives": [
            {
                "objective": stage.objective,
                "value": shown(stage, stage.value),
                "bound": shown(stage, stage.bound),
                "proven": stage.proven,
                "gap": round(stage.gap, 4),
            }
            for stage in plans.stages
        ],
        "bikes": [_bike_as_data(bike) for bike in plans.bikes],
    }


def _bike_as_data(bike: BikePlan) -> dict[str, Any]:
    return {
        "bike": bike.name,
        "verdict": str(bike.judgement.verdict),
        "money": show_money(bike.money),
        "unpriced": list(map(what_to_buy, bike.unpriced)),
        "needs": [{"slot": slot, "why": text} for slot, text in bike.needs],
        "take": [_take_as_data(take) for take in bike.take],
        "buy": [_buy_as_data(buy) for buy in bike.buy],
        "changes": [
            {
                "interface": change.judged.rule.name,
                "between": list(map(slot_name, change.pieces)),
                "why": why(change.judged.finding, brief=True),
                "makeshift": change.judged.finding.makeshift,
            }
            for change in bike.changes
        ],
        "measure": [_measure_as_data(measure) for measure in bike.measure],
        "open": [_unmet_as_data(unmet) for unmet in bike.unmet],
        "cautions": list(bike.cautions),
    }


def _common(one: Take | Buy) -> dict[str, Any]:
    return {
        "slot": slot_name(one.slot),
        "also_fills": one.also_fills,
        "adapter": one.adapter,
        "replaces": None if one.replaces is None else str(one.replaces),
        "replaced_works": one.works,
        "also_replaces": None if one.also_replaces is None else str(one.also_replaces),
        "instead": None if one.instead is None else instead(one.instead),
    }


def _take_as_data(take: Take) -> dict[str, Any]:
    return {
        "number": take.number,
        "bin": take.place,
        "kind": take.spec.kind,
        "attributes": take.spec.plain(),
        "value": show_money(take.value),
        **_common(take),
    }


def _buy_as_data(buy: Buy) -> dict[str, Any]:
    return {
        "kind": buy.spec.kind if buy.spec else "",
        "what": what_to_buy(buy),
        "attributes": buy.spec.plain() if buy.spec else {},
        "ranges": buy.ranges.shown() if buy.ranges else {},
        "price": None if buy.price is None else show_money(buy.price),
        "lead_days": buy.lead_days,
        "note": buy.note,
        **_common(buy),
    }


def _measure_as_data(measure: Measure) -> dict[str, Any]:
    trial = measure.trials[0]
    return {
        "kind": trial.piece.word,
        "attribute": trial.attribute,
        "how": how_to_measure(trial),
        "interface": measure.judged.rule.name,
        "between": list(map(slot_name, measure.slots)),
        "otherwise": [
            {"slot": slot_name(swap.slot), "before": swap.before, "after": swap.after}
            for swap in measure.otherwise
        ],
        "costs_more": show_money(measure.money),
        "left_open": list(measure.unmet),
    }


def _unmet_as_data(unmet: Unmet) -> dict[str, Any]:
    return {
        "slot": unmet.slot,
        "why": unmet.why,
        "none": unmet.none,
        "conflicts": [
            {"interface": found.interface, "places": list(map(slot_name, found.places))}
            for found in unmet.conflicts
        ],
        "also_wanted_by": list(unmet.also_wanted_by),
        "buy": None
        if unmet.wanted is None
        else {"kind": unmet.wanted.kind, "attributes": unmet.wanted.shown()},
    }
