"""What the rows of each CSV file mean: bins, parts, bikes, what is on them, their accounts.

`parts.csv` and `mounted.csv` name a lot that is in several places once for each, by its number.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from sqlalchemy import select

from labels.number import LabelNumber, Thing
from partsbin.errors import NotFoundError
from partsbin.kinds.kind import KINDS
from partsbin.kinds.slots import slot_named
from partsbin.kinds.spec import Spec
from partsbin.stock.bikes import (
    LOOSE,
    NewBike,
    add_bike,
    add_entry,
    bike_named,
    loose_place,
    slot_place,
)
from partsbin.stock.ids import QUARANTINE, SCRAPPED, SOLD, SUPPLIER, BikeId, PartId, PlaceId
from partsbin.stock.models import Bike, Holding, Part, Place
from partsbin.stock.money import NOTHING, Money, read_money, show_money
from partsbin.stock.movements import carry_cost, move
from partsbin.stock.numbers import keep_numbers
from partsbin.stock.parts import AT_ONCE, NewPart, add_part, add_parts
from partsbin.stock.places import add_bin, bin_named, read_number
from partsbin.stock.quantity import read_quantity
from partsbin.stock.words import BikeState, Condition, EntryType, Grade
from partsbin.workshop.csv_files import Fault, Row
from partsbin.workshop.intake import by_readings, unit_of
from partsbin.workshop.row_values import (
    check_thing,
    money_of,
    number_of,
    read_row_spec,
    signed_money,
)

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

GRADES = tuple(grade.value for grade in Grade)
CONDITIONS = tuple(condition.value for condition in Condition)
PLACES = {"quarantine": QUARANTINE, "scrapped": SCRAPPED, "sold": SOLD}
"""What may stand for a bin: the places that every workshop has."""
GONE = ("scrapped", "sold")
"""Where a part went that was on a bike."""
COST_ONLY = "0"
"""The quantity of a row that writes off a cost of a part that is elsewhere."""


@dataclass(frozen=True, slots=True)
class _Moved:
    """A quantity of a part of the import, by its position, that goes into a place."""

    part: int
    place: PlaceId
    quantity: int
    cost: Money
    source: PlaceId = SUPPLIER


@dataclass(slots=True)
class Incoming:
    """One import as it goes on: the session, what was read so far, and the faults."""

    session: Session
    advance: Callable[[int], None]
    """Is told how many rows were dealt with."""
    faults: list[Fault] = field(default_factory=list)
    make_bins: bool = False
    """Whether a bin that is not there yet is made."""
    _parts: list[NewPart] = field(default_factory=list)
    _by_number: dict[LabelNumber, int] = field(default_factory=dict)
    """Where in the list of parts one with a number stands."""
    _more: list[_Moved] = field(default_factory=list)
    """Further places of such parts."""
    _gone: list[_Moved] = field(default_factory=list)
    """Single parts that came onto a bike and were sold or scrapped from there."""
    _left: list[_Moved] = field(default_factory=list)
    """What else left where it arrived: lots, and what came onto a bike by way of the stock."""
    _written_off: list[Row] = field(default_factory=list)
    """Costs that were written off of parts that are elsewhere."""
    _filled: set[PlaceId] = field(default_factory=set)
    _unpaid: dict[BikeId, Money] = field(default_factory=dict)
    """The price of bikes whose frame is to carry it."""
    _stated: dict[BikeId, tuple[Money, Row]] = field(default_factory=dict)
    """What the parts on a bike are said to cost, less those that were read."""
    _bins: dict[str, PlaceId] = field(default_factory=dict)
    _bikes: dict[str, BikeId] = field(default_factory=dict)
    _grades: dict[tuple[Spec, Grade], Grade] = field(default_factory=dict)
    _specs: dict[tuple[str, str], Spec] = field(default_factory=dict)

    def take(self, rows: Iterable[Row], of_row: Callable[[Row], object]) -> int:
        """Take in rows and return how many there were; what is wrong is in `faults` then."""
        count = 0
        for row in rows:
            if not row.faults:
                of_row(row)
            self.faults += row.faults
            count += 1
            self.advance(1)
        return count

    def keep_numbers(self, rows: Iterable[Row], *things: Thing) -> None:
        """See that no number that a row states is given to another row, or is in use."""
        stated: dict[LabelNumber, Row] = {}
        for row in rows:
            number = row.read("number", lambda text: read_number(text, *things), None)
            if number is None:
                continue
            if number in stated and not {Thing.LOT, Thing.PART} & set(things):
                row.fault("number", f"{number} is on line {stated[number].line} already")
            stated.setdefault(number, row)
        known = {Thing.BIN: Place.number, Thing.BIKE: Bike.number}.get(things[0], Part.number)
        numbers = list(stated)
        for start in range(0, len(numbers), AT_ONCE):
            some = numbers[start : start + AT_ONCE]
            for used in self.session.scalars(select(known).where(known.in_(some))):
                assert used is not None  # it is one of `some`
                reason = f"{used} is in use in the record already; leave it empty for a new number"
                stated[used].fault("number", reason)
        keep_numbers(self.session, numbers)

    def bin(self, row: Row) -> None:
        """Make the bin of a row."""
        note, location = row.verbatim("note"), row.verbatim("location")
        number = number_of(row, Thing.BIN)
        row.read("name", lambda name: add_bin(self.session, name, note, location, number), None)

    @property
    def to_inspect(self) -> int:
        """How many used parts went into bins that are of a kind which needs an inspection."""
        bins = set(self._bins.values())
        return sum(
            bool(KINDS[part.spec.kind].inspection)
            for part in self._parts
            if part.place in bins and part.grade is not Grade.NEW
        )

    def part(self, row: Row) -> None:
        """Read the part or lot of a row; with a quantity it is a lot."""
        place = row.read("bin", self._place, PlaceId(0))
        if place == SCRAPPED and row.text("quantity") == COST_ONLY:
            self._written_off.append(row)
            return
        self._arrival(row, place, row.verbatim("origin"), money_of(row, "cost"))

    def bike(self, row: Row) -> None:
        """Make the bike of a row."""
        new = NewBike(
            name=row.text("name"),
            style=row.verbatim("style"),
            state=BikeState(row.word("state", [s.value for s in BikeState], "bought")),
            price=money_of(row, "price"),
            bought_on=row.read("bought", dt.date.fromisoformat, None),
            seller_note=row.verbatim("seller note"),
            serial_number=row.verbatim("serial number"),
            serial_checked=row.word("serial checked", ("yes", "no"), "no") == "yes",
            note=row.verbatim("note"),
            number=number_of(row, Thing.BIKE),
        )
        if row.faults:
            return
        made = row.read("name", lambda _: add_bike(self.session, new), None)
        if made is not None:
            bike = self._bikes[made.name.lower()] = BikeId(made.id)
            self._unpaid[bike] = NOTHING if row.text("parts cost") else new.price
            if row.text("parts cost"):
                self._stated[bike] = row.read("parts cost", read_money, NOTHING), row

    def mounted(self, row: Row) -> None:
        """Read the part of a row in its slot, or loose on its bike.

        Where no cost is stated, the frame carries the price of its bike and all else costs nothing.
        """
        bike = row.read("bike", self._bike, None)
        slot = None if row.text("slot").lower() == LOOSE else row.read("slot", slot_named, None)
        spec = self._spec(row)
        if slot is not None and not row.faults and spec.kind not in slot.kinds:
            row.fault("kind", f"{slot.name} takes {' or '.join(slot.kinds)}")
        if bike is None or row.faults:
            return
        gone = row.word("gone", GONE, "")
        cost = self._cost_on(row, bike)
        single = not row.text("quantity")
        if slot is None or (gone and not single):
            place = loose_place(self.session, bike)
        elif gone:
            place = slot_place(self.session, bike, slot.name)
        else:
            place = self._slot(row, bike, slot.name)
        stocked = row.word("from stock", ("yes", "no"), "no") == "yes" and not gone
        origin = row.verbatim("origin") if row.has("origin") else f"came with {row.text('bike')}"
        came = self._arrival(row, QUARANTINE if stocked else place, origin, cost)
        if came and gone:
            left = replace(came, place=PLACES[gone], source=place)
            (self._gone if single else self._left).append(left)
        elif came and stocked:
            self._left.append(replace(came, place=place, source=QUARANTINE))

    def _cost_on(self, row: Row, bike: BikeId) -> Money:
        """Return what a part on a bike cost; the frame carries the price where none is stated."""
        price = self._unpaid.get(bike, NOTHING)
        framed = row.text("slot").lower() == "frame"
        if price and (framed or row.text("cost")):
            self._unpaid[bike] = NOTHING
        cost = money_of(row, "cost") if row.text("cost") or not framed else price
        if bike in self._stated and not row.text("gone"):
            left, of_bike = self._stated[bike]
            self._stated[bike] = Money(left - cost), of_bike
        return cost

    def entry(self, row: Row) -> None:
        """Append the entry of a row to the account of its bike."""
        bike = row.read("bike", self._bike, None)
        type_ = row.word("type", [t.value for t in EntryType], "fee")
        amount = row.read("amount", signed_money, NOTHING)
        minutes = row.read("minutes", int, None)
        rate = row.read("rate", read_money, None)
        day = row.read("day", dt.date.fromisoformat, None)
        if minutes is not None and rate is None:
            row.fault("rate", "minutes need a rate in money per hour")
        if minutes is not None and abs(minutes) > 10**6:
            row.fault("minutes", f"{minutes} is more than a bike takes; check the figure")
        if bike is not None and day is not None and not row.faults:
            note = row.verbatim("note")
            add_entry(
                self.session,
                bike,
                EntryType(type_),
                amount,
                day,
                minutes=minutes,
                rate=rate,
                note=note,
            )

    def last_number(self, row: Row) -> None:
        """Give no number up to that of the row out again."""
        number = row.read("last", lambda text: read_number(text, *Thing), None)
        if number is not None:
            keep_numbers(self.session, [number])

    def finish(self) -> None:
        """Put the parts that were read into their places, if nothing is wrong."""
        if not self.faults:
            self._check_costs()
            self._check_written_off()
        if self.faults:
            return
        ids: dict[int, PartId] = {}
        for gone in self._gone:
            # One by one, because several may have been in the same slot.
            ids[gone.part] = add_part(self.session, self._parts[gone.part]).id
            self._move(ids[gone.part], gone)
        rest = [at for at in range(len(self._parts)) if at not in ids]
        for start in range(0, len(rest), AT_ONCE):
            some = rest[start : start + AT_ONCE]
            added = add_parts(self.session, [self._parts[at] for at in some])
            ids.update(zip(some, (part.id for part in added), strict=True))
            self.advance(len(some))
        for told in (*self._more, *self._left):
            self._move(ids[told.part], told)
        for row in self._written_off:
            number = number_of(row, Thing.PART, Thing.LOT)
            assert number is not None  # `_check_written_off` saw to it
            part, cost = ids[self._by_number[number]], money_of(row, "cost")
            carry_cost(self.session, part, SUPPLIER, SCRAPPED, cost)

    def _move(self, part: PartId, told: _Moved) -> None:
        move(self.session, part, told.quantity, told.source, told.place, cost=told.cost)

    def _check_costs(self) -> None:
        """See that the price of each bike is carried by what is on it."""
        if any(self._unpaid.values()):
            reason = "a bike with a price needs its frame in mounted.csv to carry it"
            self.faults.append(Fault("bikes.csv", 1, "price", reason))
        for left, row in self._stated.values():
            if left:
                word = "less" if left > 0 else "more"
                reason = f"its parts in mounted.csv cost {show_money(abs(left))} {word}"
                self.faults.append(Fault(row.file, row.line, "parts cost", reason))

    def _check_written_off(self) -> None:
        """See that a cost that was written off is that of a part of the same import."""
        for row in self._written_off:
            if number_of(row, Thing.PART, Thing.LOT) not in self._by_number:
                row.fault("number", "a cost without a quantity needs the number of another line")
            elif not money_of(row, "cost") and not row.faults:
                row.fault("cost", "a line without a quantity needs a cost")
            self.faults += row.faults

    def _arrival(self, row: Row, place: PlaceId, origin: str, cost: Money) -> _Moved | None:
        """Note what a row brings into a place; a number that is known brings more of that part."""
        number = number_of(row, Thing.PART, Thing.LOT)
        at = self._by_number.get(number) if number else None
        spec = self._spec(row)
        unit = unit_of(spec.kind, row.text("quantity"))
        lot = bool(row.text("quantity"))
        quantity = row.read("quantity", lambda text: read_quantity(text, unit), 1)
        if number:
            check_thing(row, number, lot=lot, known=at is not None)
        if at is not None and self._parts[at].spec != spec:
            row.fault("number", f"{number} is that of another part on a line before")
        new = NewPart(
            spec=spec,
            place=place,
            grade=self._grade(spec, Grade(row.word("grade", GRADES, "good"))),
            condition=Condition(row.word("condition", CONDITIONS, "sound")),
            lot=lot,
            unit=unit,
            quantity=quantity,
            cost=cost,
            value=row.read("value", read_money, None),
            origin=origin,
            note=row.verbatim("note"),
            number=number,
        )
        if row.faults:
            return None
        if at is None:
            at = len(self._parts)
            self._parts.append(new)
            if number:
                self._by_number[number] = at
        else:
            self._more.append(_Moved(at, place, quantity, cost))
        return _Moved(at, place, quantity, cost)

    def _place(self, name: str) -> PlaceId:
        """Return the place that stands in the column of bins."""
        key = " ".join(name.lower().split())
        if key in PLACES:
            return PLACES[key]
        found = self._bins.get(key)
        if found is None:
            try:
                found = PlaceId(bin_named(self.session, name).id)
            except NotFoundError:
                if not self.make_bins:
                    raise
                found = PlaceId(add_bin(self.session, name).id)
            self._bins[key] = found
        return found

    def _bike(self, name: str) -> BikeId:
        """Return the bike of a row, of this import or of the record."""
        found = self._bikes.get(" ".join(name.lower().split()))
        return BikeId(bike_named(self.session, name).id) if found is None else found

    def _slot(self, row: Row, bike: BikeId, slot: str) -> PlaceId:
        """Return the place of a bike's slot, which must be free."""
        place = slot_place(self.session, bike, slot)
        filled = place in self._filled
        if not filled and bike not in self._unpaid:
            here = select(Holding.part_id).where(Holding.place_id == place, Holding.quantity > 0)
            filled = self.session.scalar(here.limit(1)) is not None
        if filled:
            row.fault("slot", f"{slot} of {row.text('bike')} is filled already")
        self._filled.add(place)
        return place

    def _grade(self, spec: Spec, stated: Grade) -> Grade:
        """Return the grade that a part's readings leave to it."""
        if (spec, stated) not in self._grades:
            self._grades[spec, stated], _ = by_readings(spec, stated)
        return self._grades[spec, stated]

    def _spec(self, row: Row) -> Spec:
        """Return the spec of a row, an empty one of any kind after a fault."""
        told = row.text("kind"), row.text("attributes")
        known = self._specs.get(told)
        if known is None:
            known = self._specs[told] = read_row_spec(row)
            if row.faults:
                del self._specs[told]
        return known
