"""What a bike that is for sale is worth to the workshop: to make it right, or to take it apart.

Nothing is written into the record: the bike is made up of an era template, of what is stated and of
the faults seen. What is assumed is taken as known for planning.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from labels.number import LabelNumber
from partsbin.errors import UsageError
from partsbin.kinds.eras import Template, names, template
from partsbin.kinds.inherit import placed
from partsbin.kinds.slots import slot_named
from partsbin.kinds.spec import Spec
from partsbin.stock.ids import BikeId, PartId, PlaceId
from partsbin.stock.lookup import Mounted
from partsbin.stock.money import NOTHING, Money
from partsbin.stock.words import Condition, Grade, Unit
from partsbin.workshop.donor import read_part
from partsbin.workshop.most_to_pay import Amounts, Terms, most_to_pay
from partsbin.workshop.part_out import Fetch, Gain, Market, Piece, gain_of, units_for, usable
from partsbin.workshop.planning.bench import Bench
from partsbin.workshop.planning.making import shelf_of
from partsbin.workshop.planning.optimum import optimum
from partsbin.workshop.planning.places import site
from partsbin.workshop.planning.telling import Told, told
from partsbin.workshop.surprise_record import NONE, Record, surprise_record
from partsbin.workshop.surprises import PRIOR, Risk, costs, quantile
from partsbin.workshop.turnover import Turnover, turnover

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.stock.ids import SpecId
    from partsbin.workshop.planning.answer import BikePlan, Plans

MISSING = "missing"
FAULTS = ("worn", "dead", MISSING)
YEAR = 4
"""Digits of a year."""
STRIP_MINUTES = 6
"""To take a part off, clean it and put it away. Common practice, no source."""
WHOLE = 100
"""Minor units of one unit of the currency; a surprise's cost is rounded up to whole ones."""
DECIDED_BY = {"marking": ("bsd_mm", "width_mm"), "speeds": ("cogs", "spline")}
"""What a template says of a part no longer holds once this is stated of it and is otherwise."""

CAUTIONS = (
    (
        "Meet by day where people are, and not alone; say where you are going. Pay nothing before "
        "you have seen and ridden it."
    ),
    (
        "Find the number on the frame, mostly under the bottom bracket. If it is filed, painted "
        "over or covered, walk away. Look it up in the registers of the region, though many "
        "thefts are never reported: finding nothing proves little."
    ),
    (
        "Ask for a receipt with that number. Note who sells and when. A seller in a hurry, parts "
        "that do not belong together or too low a price are reasons to refuse: a buyer may lose "
        "a stolen bike and the money."
    ),
)
"""In our own words, after mynextbike.co.uk (serial numbers) and engineerfix.com. That one meets
where people are is common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is said of a bike that is for sale, and what the workshop wants of it."""

    like: str
    terms: Terms
    """Without parts: those are found."""
    stated: Mapping[str, str] = field(default_factory=dict)
    """What is typed of the part in a slot, `kind; name=value; ...`."""
    faults: Mapping[str, str] = field(default_factory=dict)
    """worn, dead or missing, by slot."""
    asked: Money | None = None
    sure: Fraction = Fraction(4, 5)
    strip_minutes: int = STRIP_MINUTES


@dataclass(frozen=True, slots=True, kw_only=True)
class Offering:
    """What a bike is worth: made right, taken apart, and with what it may hide."""

    bike: Template
    plans: Plans
    contested: tuple[str, ...]
    """The slots whose part from stock the bikes in work would take first."""
    terms: Terms
    amounts: Amounts
    pieces: tuple[Piece, ...]
    gain: Gain
    turnover: Turnover
    """At which share parts that nobody waits for are counted."""
    record: Record
    risks: tuple[Risk, ...]
    uncosted: tuple[str, ...]
    """The slots that may surprise at a cost that nobody knows."""
    totals: Mapping[Money, Fraction]
    """How likely each total cost of surprises is."""
    sure: Fraction
    asked: Money | None

    @property
    def plan(self) -> BikePlan:
        """Return the plan that makes it right."""
        return self.plans.bikes[0]

    @property
    def to_buy(self) -> Money:
        """Return what the plan spends on new parts."""
        return Money(self.plan.money)

    @property
    def from_stock(self) -> Money:
        """Return the value of what the plan takes from stock."""
        return Money(sum(take.value for take in self.plan.take))

    @property
    def uncounted(self) -> tuple[str, ...]:
        """Return what making it right needs that has no price."""
        unpriced = (f"{buy.named or buy.slot}" for buy in self.plan.unpriced)
        return (*(unmet.slot for unmet in self.plan.unmet), *unpriced)

    @property
    def part_out(self) -> Money:
        """Return what its parts are worth, less the work to take them off."""
        return Money(sum(piece.gain for piece in self.pieces))

    @property
    def most_to_strip(self) -> Money:
        """Return the most to pay to take it apart, for the same profit, after transport."""
        terms = replace(self.terms, price=self.part_out, fee_share=Decimal(0), parts=NOTHING)
        return most_to_pay(replace(terms, labour_minutes=0)).most

    @property
    def strip(self) -> bool:
        """Return whether taking it apart is the better way."""
        return self.most_to_strip > self.amounts.most

    @property
    def surprises(self) -> Money:
        """Return what surprises do not exceed as often as was asked for."""
        return quantile(self.totals, self.sure)

    @property
    def cautious(self) -> Money:
        """Return the most to pay less those surprises."""
        return Money(self.amounts.most - self.surprises)

    @property
    def even(self) -> Money:
        """Return the price at which it brings neither profit nor loss, without surprises."""
        return Money(self.amounts.most + self.amounts.profit)

    def chance_of_loss(self, paid: Money) -> Fraction:
        """Return how likely surprises cost more than is left of the price at this price."""
        left = self.even - paid
        return sum((c for total, c in self.totals.items() if total > left), Fraction(0))


def offering(session: Session, asked: Asked) -> Offering:
    """Return what a bike is worth. Raises `UsageError` for an unknown template or slot."""
    bike = template_like(asked.like)
    on_bike = made_up(bike, asked.stated, asked.faults)
    gain = gain_of(session, on_bike)
    plans, contested = _plan(session, bike, on_bike, gain.uses)
    spent = Money(plans.money + sum(take.value for take in plans.bikes[0].take))
    terms = replace(asked.terms, parts=spent)
    good = usable(on_bike)
    market = Market(session, [part.spec.kind for part in good])
    turned = turnover(session)
    style = str(next((p.spec.get("style") for p in on_bike if p.slot == "frame"), "") or "")
    record = surprise_record(session, style)
    risks = [_risk(part, market, record) for part in good]
    known = tuple(risk for risk in risks if risk.cost)
    return Offering(
        bike=bike,
        plans=plans,
        contested=contested,
        terms=terms,
        amounts=most_to_pay(terms),
        pieces=tuple(_pieces(good, market, gain, turned, asked)),
        gain=gain,
        turnover=turned,
        record=record,
        risks=known,
        uncosted=tuple(risk.slot for risk in risks if not risk.cost),
        totals=costs(known),
        sure=asked.sure,
        asked=asked.asked,
    )


def template_like(text: str) -> Template:
    """Return the template of that name, or the only one to which all words of the text apply.

    A word may be a year, or stand in the name or the title: the style, the speeds, the brakes.
    Raises `UsageError` if several templates go with them, or none.

    >>> template_like("mtb 1992").name
    'mtb-rigid-1990-1994'
    """
    words = text.lower().replace("-", " ").split()
    found = [name for name in names() if _goes_with(template(name), words)]
    if len(found) > 1 and "-".join(words) not in found:
        raise UsageError(f"{text!r} may be {' or '.join(found)}; say more, or name one of them")
    return template(found[0] if len(found) == 1 else text)


def _goes_with(bike: Template, words: Sequence[str]) -> bool:
    first, last = bike.years
    told = f"{bike.name.replace('-', ' ')} {bike.title}".lower().replace("-", " ").split()
    return all(
        word in told or (word.isdecimal() and len(word) == YEAR and first <= int(word) <= last)
        for word in words
    )


def made_up(bike: Template, stated: Mapping[str, str], faults: Mapping[str, str]) -> list[Mounted]:
    """Return the parts of a bike like a template, with what is stated and the faults seen."""
    for slot, fault in faults.items():
        if fault not in FAULTS:
            raise UsageError(f"{slot} cannot be {fault!r}; say {', '.join(FAULTS)}")
    on_bike = []
    slots = dict.fromkeys((*bike.parts, *(slot_named(name).name for name in stated)))
    for n, slot in enumerate(slots, 1):
        if faults.get(slot) == MISSING:
            continue
        spec = _likely(bike, slot, stated.get(slot, ""))
        on_bike.append(
            Mounted(
                slot=slot,
                place=PlaceId(0),
                part=PartId(n),
                number=LabelNumber(""),
                spec=spec,
                grade=Grade.GOOD,
                condition=Condition(faults.get(slot, Condition.SOUND)),
                quantity=1,
                unit=Unit.PIECE,
                cost=NOTHING,
                value=None,
                note="",
            )
        )
    strange = [slot for slot in faults if slot not in slots]
    if strange:
        raise UsageError(f"a {bike.title} has no {strange[0]}; state what is there first")
    return on_bike


def _likely(bike: Template, slot: str, typed: str) -> Spec:
    """Return what is stated of a slot and what is likely, all as if it were known."""
    likely = bike.assumed(slot)
    if not typed:
        assert likely is not None
        return replace(likely, assumed=frozenset())
    there = {slot: likely} if likely is not None and "=" in typed.split(";", maxsplit=1)[0] else {}
    read = read_part(slot, typed, there)
    stated = placed(read.kind, slot).with_values(read)
    if likely is None or likely.kind != stated.kind:
        return replace(stated, assumed=frozenset())
    moot = {
        name
        for known, names in DECIDED_BY.items()
        if stated.get(known) not in (None, likely.get(known))
        for name in names
    }
    kept = tuple((name, value) for name, value in likely.values if name not in moot)
    return replace(Spec(likely.kind, kept).with_values(stated), assumed=frozenset())


def _plan(
    session: Session, bike: Template, on_bike: Sequence[Mounted], others: Mapping[SpecId, int]
) -> tuple[Plans, tuple[str, ...]]:
    """Return the plan that makes the bike right, and what of it the bikes in work take first."""
    shelf = shelf_of(session, ())
    bench = Bench(shelf)
    sites = [site(0, BikeId(0), bike.name, on_bike, shelf)]
    units = units_for(session, ())
    best = optimum(sites, shelf, units, None, bench)
    taken = [(place.name, choice.stock.id) for place, choice in best.chosen[0] if choice.stock]
    uses = Counter(spec for _, spec in taken)
    wanted = {spec: count + others[spec] for spec, count in uses.items() if spec in others}
    short = {
        spec
        for spec, found in units(wanted).items()
        if sum(unit.quantity for unit in found) < wanted[spec]
    }
    plans = told(session, Told(sites, shelf, bench, best, units))
    return plans, tuple(slot for slot, spec in taken if spec in short)


def _pieces(
    good: Sequence[Mounted], market: Market, gain: Gain, turned: Turnover, asked: Asked
) -> Iterator[Piece]:
    stripping = most_to_pay(
        Terms(price=NOTHING, labour_minutes=asked.strip_minutes, rate=asked.terms.rate)
    ).labour
    for part in good:
        fetch = market.used(part.spec)
        net = most_to_pay(Terms(price=fetch.amount, fee_share=asked.terms.fee_share)).most
        yield Piece(
            slot=part.slot,
            spec=part.spec,
            given=gain.given.get(part.slot),
            fetch=Fetch(net, fetch.basis),
            share=turned.share,
            stripping=stripping,
        )


def _risk(part: Mounted, market: Market, record: Record) -> Risk:
    """Return how likely a sound part must be replaced, and what that costs, rounded up."""
    seen = record.slots.get(part.slot, NONE)
    price = market.new(part.spec)
    cost = market.used(part.spec).amount if price is None else price
    whole = Money(-(-cost // WHOLE) * WHOLE)
    return Risk(part.slot, PRIOR.chance(seen.surprises, seen.bikes), whole)
