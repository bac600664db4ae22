"""Any acts of the trade in any order, and the laws that hold after each, refused or not."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule
from sqlalchemy import func, select

from partsbin.errors import PartsbinError
from partsbin.stock.balance import balance
from partsbin.stock.bikes import NewBike
from partsbin.stock.check import check
from partsbin.stock.cost_layers import FOR_ALL, choose_formula
from partsbin.stock.count_tables import CostFormula
from partsbin.stock.database import Database, open_database
from partsbin.stock.ledger import act_of
from partsbin.stock.models import Act, Bike, Holding, Movement, Part
from partsbin.stock.money import Money
from partsbin.stock.places import add_bin
from partsbin.stock.words import Condition, EntryType, Grade
from partsbin.workshop import counting, selling, stripping
from partsbin.workshop.abc import classes_now
from partsbin.workshop.buying import buy_bike
from partsbin.workshop.count_writing import write
from partsbin.workshop.counter import sell_part
from partsbin.workshop.intake import Intake, correct, put, scrap, take_in
from partsbin.workshop.lots import buy_more
from partsbin.workshop.mounting import mount, unmount
from partsbin.workshop.undoing import undo

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from tests.databases import Databases

WHO = "mechanic"
BINS = ("A1", "B2", "C3")
BIKES = ("Sorrel", "Teasel")
SINGLES = (
    ("seatpost", ("diameter=27.2",), "seatpost"),
    ("seatpost", ("diameter=26.8",), "seatpost"),
    ("saddle", (), "saddle"),
    ("rear_derailleur", ("speeds=8",), "rear derailleur"),
)
LOTS = (("bearing_balls", "12"), ("brake_cable", "5"), ("housing", "2.5 m"))
SLOTS = ("frame", "seatpost", "saddle", "rear derailleur")

COSTS = st.integers(0, 9999).map(Money)
INDEX = st.integers(0, 40)
QUANTITIES = st.sampled_from(("", "", "", "1", "2", "3", "0.7 m"))
MOSTLY = st.sampled_from((True, True, False))
GRADES = st.sampled_from(tuple(Grade))


class AnyActs(RuleBasedStateMachine):
    """A small workshop in which anybody does anything, beside a plain sum of what was paid."""

    databases: Databases
    """Where each run gets a fresh database from."""

    def __init__(self) -> None:
        super().__init__()
        self.address = self.databases.copy_of("any acts", _fill)
        self.database: Database = open_database(self.address, WHO)
        self.numbers: list[str] = []
        self.paid: dict[int, int] = {}
        """What each act that stands paid a supplier."""
        self.kept: Counter[str] = Counter()
        self.refused: Counter[str] = Counter()
        self.before: list[tuple[int, dict[str, Any]]] = []
        """The acts that stand, oldest first, and how all was before each."""

    @initialize(cost=COSTS)
    def begin(self, cost: Money) -> None:
        """Begin with a bike, a post and a lot, so that the first act finds something."""
        self.add_bike(0, cost)
        self.add(0, 0, cost, Grade.GOOD, inspected=True)
        self.add_lot(0, 0, cost)

    @contextmanager
    def _act(self, what: str, paid: int = 0) -> Iterator[Session]:
        """Do an act; if it is refused, prove that nothing was changed."""
        before = self._state()
        try:
            with self.database.changing(what) as session:
                yield session
                act = act_of(session)
        except PartsbinError:
            assert self._state() == before
            self.refused[what] += 1
            return
        self.kept[what] += 1
        self.before.append((act, before))
        self.paid[act] = paid

    def _state(self) -> dict[str, Any]:
        """Return all that acts change, by what it is of."""
        with self.database.reading() as session:
            held = select(Holding.part_id, Holding.place_id, Holding.quantity, Holding.cost)
            parts = select(Part.id, Part.spec_id, Part.grade, Part.condition, Part.value, Part.note)
            bikes = select(Bike.id, Bike.name, Bike.state, Bike.price)
            counts = select(select(func.count(Movement.id)).scalar_subquery(), func.max(Act.id))
            return {
                "held": sorted(map(tuple, session.execute(held))),
                "parts": {row.id: tuple(row) for row in session.execute(parts)},
                "bikes": {row.id: tuple(row) for row in session.execute(bikes)},
                "counts": tuple(session.execute(counts).one()),
            }

    def _number(self, index: int) -> str:
        return self.numbers[index % len(self.numbers)]

    @rule(bike=INDEX, cost=COSTS)
    def add_bike(self, bike: int, cost: Money) -> None:
        """Buy a bike of which only the frame is known; a name is taken once."""
        new = NewBike(name=BIKES[bike % len(BIKES)], style="mtb", price=cost)
        with self._act("bike add", cost) as session:
            buy_bike(session, new, ["seat_tube_bore=27.2"])

    @rule(kind=INDEX, bin=INDEX, cost=COSTS, grade=GRADES, inspected=MOSTLY)
    def add(self, kind: int, bin: int, cost: Money, grade: Grade, *, inspected: bool) -> None:
        """Buy a part."""
        word, attributes, _ = SINGLES[kind % len(SINGLES)]
        told = Intake(
            kind=word,
            attributes=attributes,
            bin=BINS[bin % len(BINS)],
            cost=cost,
            grade=grade,
            inspected=inspected,
            value=Money(cost + 1),
        )
        with self._act("part add", cost) as session:
            self.numbers.append(take_in(session, told).number)

    @rule(kind=INDEX, bike=INDEX, cost=COSTS, condition=st.sampled_from(tuple(Condition)))
    def add_on_bike(self, kind: int, bike: int, cost: Money, condition: Condition) -> None:
        """Buy a part that is on a bike."""
        word, attributes, slot = SINGLES[kind % len(SINGLES)]
        told = Intake(
            kind=word,
            attributes=attributes,
            bike=BIKES[bike % len(BIKES)],
            slot=slot,
            cost=cost,
            condition=condition,
            value=Money(500),
        )
        with self._act("part add", cost) as session:
            self.numbers.append(take_in(session, told).number)

    @rule(kind=INDEX, bin=INDEX, cost=COSTS)
    def add_lot(self, kind: int, bin: int, cost: Money) -> None:
        """Buy a lot."""
        word, quantity = LOTS[kind % len(LOTS)]
        told = Intake(
            kind=word, bin=BINS[bin % len(BINS)], quantity=quantity, cost=cost, inspected=True
        )
        with self._act("part add", cost) as session:
            self.numbers.append(take_in(session, told).number)

    @rule(part=INDEX, bin=INDEX, cost=COSTS, quantity=QUANTITIES)
    def buy_more(self, part: int, bin: int, cost: Money, quantity: str) -> None:
        """Buy more of a lot."""
        with self._act("lot buy", cost) as session:
            where = BINS[bin % len(BINS)]
            buy_more(session, self._number(part), cost, quantity=quantity or "4", bin_name=where)

    @rule(formula=st.sampled_from(tuple(CostFormula)))
    def choose(self, formula: CostFormula) -> None:
        """Choose the formula by which lots cost."""
        with self._act("formula") as session:
            choose_formula(session, FOR_ALL, formula)

    @rule(part=INDEX, bin=INDEX, quantity=QUANTITIES, inspected=MOSTLY)
    def put(self, part: int, bin: int, quantity: str, *, inspected: bool) -> None:
        """Move a part or some of a lot into a bin."""
        with self._act("part move") as session:
            put(session, self._number(part), BINS[bin % len(BINS)], quantity, inspected=inspected)

    @rule(part=INDEX, quantity=QUANTITIES)
    def scrap(self, part: int, quantity: str) -> None:
        """Scrap a part or some of a lot."""
        with self._act("part scrap") as session:
            scrap(session, self._number(part), quantity)

    @rule(part=INDEX, price=COSTS, fee=COSTS, quantity=QUANTITIES, anyway=MOSTLY)
    def sell_part(
        self, part: int, price: Money, fee: Money, quantity: str, *, anyway: bool
    ) -> None:
        """Sell a part by itself, or some of a lot."""
        why = "any reason" if anyway else ""
        with self._act("part sell") as session:
            sell_part(session, self._number(part), price, quantity=quantity, fee=fee, anyway=why)

    @rule(part=INDEX, grade=GRADES, value=COSTS, note=st.sampled_from(("", "rusty", "rusty rail")))
    def correct(self, part: int, grade: Grade, value: Money, note: str) -> None:
        """Correct what is known of a part."""
        with self._act("part edit") as session:
            correct(session, self._number(part), grade=grade, value=value, note=note)

    @rule(part=INDEX, bike=INDEX, anyway=MOSTLY)
    def mount(self, part: int, bike: int, *, anyway: bool) -> None:
        """Put a part onto a bike."""
        with self._act("mount") as session:
            mount(session, self._number(part), BIKES[bike % len(BIKES)], anyway=anyway)

    @rule(bike=INDEX, slot=INDEX, bin=INDEX, grade=st.none() | GRADES)
    def unmount(self, bike: int, slot: int, bin: int, grade: Grade | None) -> None:
        """Take a part off a bike."""
        named = SLOTS[slot % len(SLOTS)]
        with self._act("unmount") as session:
            unmount(session, BIKES[bike % len(BIKES)], named, BINS[bin % len(BINS)], grade)

    @rule(
        bike=INDEX,
        split=st.sampled_from((stripping.Split.VALUE, stripping.Split.ZERO)),
        inspected=MOSTLY,
        keep=st.sampled_from(((), ("frame",))),
        grade=GRADES,
    )
    def strip(
        self,
        bike: int,
        split: stripping.Split,
        keep: tuple[str, ...],
        grade: Grade,
        *,
        inspected: bool,
    ) -> None:
        """Take a bike apart."""
        orders = stripping.Orders(
            into="C3",
            split=split,
            inspected=inspected,
            keep=keep,
            grades={"seatpost": grade},
            values={"frame": Money(700)},
        )
        with self._act("bike strip") as session:
            done = stripping.strip(session, BIKES[bike % len(BIKES)], orders)
            self.numbers += [one.number for one in done.parts if one.number not in self.numbers]

    @rule(bike=INDEX, price=COSTS, fee=COSTS)
    def sell(self, bike: int, price: Money, fee: Money) -> None:
        """Sell a bike, ready or not."""
        with self._act("sell") as session:
            selling.sell(session, BIKES[bike % len(BIKES)], price, fee=fee, anyway="no time")

    @rule(bike=INDEX, refund=st.none() | COSTS)
    def take_back(self, bike: int, refund: Money | None) -> None:
        """Take a sale back."""
        with self._act("return") as session:
            selling.take_back(session, BIKES[bike % len(BIKES)], refund=refund)

    @rule(bike=INDEX)
    def keep(self, bike: int) -> None:
        """Take a bike into the workshop's own fleet."""
        with self._act("keep") as session:
            selling.keep(session, BIKES[bike % len(BIKES)])

    @rule(bike=INDEX, minutes=st.integers(1, 90), fee=COSTS)
    def work(self, bike: int, minutes: int, fee: Money) -> None:
        """Work on a bike and pay a fee for it."""
        name = BIKES[bike % len(BIKES)]
        with self._act("work") as session:
            selling.work(session, name, minutes, Money(1200))
            selling.pay(session, name, EntryType.FEE, fee)

    @rule(bin=INDEX, seen=st.lists(st.tuples(INDEX, QUANTITIES), max_size=3), leave=st.booleans())
    def count(self, bin: int, seen: list[tuple[int, str]], *, leave: bool) -> None:
        """Count a bin in which something is, is missing, or does not belong."""
        today = dt.datetime.now(dt.UTC).date()
        with self._act("count") as session:
            looks = [counting.Seen(self._number(at), quantity) for at, quantity in seen]  # type: ignore[arg-type] # the number of a part that was added
            abc = classes_now(session, today)
            count = counting.compare(session, BINS[bin % len(BINS)], looks, abc)
            write(session, count, leave_missing=leave)

    @precondition(lambda self: self.before)
    @rule()
    def undo(self) -> None:
        """Take the last act back: all is as it was, but for what is new in the record and empty."""
        act, before = self.before[-1]
        try:
            with self.database.changing("undo") as session:
                undone = undo(session)
        except PartsbinError as refused:
            # An act without an opposite stays, and so do those before it.
            if "changed nothing that could be taken back" not in str(refused):
                raise
            self.before.clear()
            return
        self.kept["undo"] += 1
        now = self._state()
        if undone.act == act:
            assert now["held"] == before["held"]
            for table in ("parts", "bikes"):
                assert {id_: now[table][id_] for id_ in before[table]} == before[table]
            self.before.pop()
        else:
            self.before.clear()
        self.paid.pop(undone.act)

    @invariant()
    def adds_up(self) -> None:
        """Prove the record, and that its money is what was paid."""
        with self.database.reading() as session:
            assert [str(fault) for fault in check(session)] == []
            sums = balance(session)
        assert sums.missing == 0
        assert sums.bought == sum(self.paid.values())

    def teardown(self) -> None:
        """Close the workshop and remove its database."""
        self.database.close()
        self.databases.drop(self.address)


def _fill(address: str) -> None:
    with open_database(address, "owner") as database, database.changing("set up") as session:
        for name in BINS:
            add_bin(session, name)


def machine(databases: Databases, base: type[AnyActs] = AnyActs) -> type[AnyActs]:
    """Return the machine whose runs get their databases from there."""
    return type("AnyActsThere", (base,), {"databases": databases})
