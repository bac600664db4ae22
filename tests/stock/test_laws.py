"""Laws that hold after any acts, in any order, whether they are refused or not."""

from __future__ import annotations

import shutil
import tempfile
from collections import Counter
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from partsbin.errors import PartsbinError
from partsbin.kinds import KINDS
from partsbin.kinds.spec import Spec
from partsbin.stock.balance import balance
from partsbin.stock.check import check
from partsbin.stock.database import Database, open_database
from partsbin.stock.ids import CLEARING, QUARANTINE, SCRAPPED, SOLD, SUPPLIER, PartId, PlaceId
from partsbin.stock.lookup import where_is
from partsbin.stock.money import Money, share
from partsbin.stock.movements import carry_cost, move
from partsbin.stock.search import find
from tests.stock.making import BALLS, POST, Shop, add, shop

COSTS = st.integers(0, 10_000)
PLACES = st.integers(0, 6)
PARTS = st.integers(0, 30)


@given(cost=COSTS, taken=st.lists(st.integers(1, 50), min_size=1, max_size=20))
def test_shares_of_a_cost_add_up(cost: int, taken: list[int]) -> None:
    """Taken bit by bit, a lot hands out exactly what it cost, and never less than nothing."""
    left, quantity = Money(cost), sum(taken)
    for piece in taken:
        carried = share(left, piece, quantity)
        assert 0 <= carried <= left
        left, quantity = Money(left - carried), quantity - piece

    assert (left, quantity) == (0, 0)


class Workshop(RuleBasedStateMachine):
    """Random acts, some of which must be refused, beside a plain count of what is where."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        self.database: Database
        self.made: Shop
        self.places: tuple[PlaceId, ...] = ()
        self.parts: list[PartId] = []
        self.there: Counter[tuple[PartId, PlaceId]] = Counter()
        self.bought = 0

    @initialize()
    def open(self) -> None:
        """Open an empty workshop."""
        self.database = open_database(str(self.folder / "record.db"), "tester")
        with self.database.changing("set up") as session:
            self.made = shop(session)
        made = self.made
        self.places = (made.a1, made.b2, made.slot, QUARANTINE, SCRAPPED, SOLD, SUPPLIER)

    @rule(place=PLACES, cost=COSTS, lot=st.booleans(), quantity=st.integers(1, 9))
    def add(self, place: int, cost: int, lot: bool, quantity: int) -> None:
        """Buy a single part or a lot."""
        where, quantity = self.places[place], quantity if lot else 1
        try:
            with self.database.changing("add") as session:
                spec = BALLS if lot else POST
                part = add(session, where, spec, cost, lot=lot, quantity=quantity).id
        except PartsbinError:
            assert where == SUPPLIER or self._filled(where)
            return
        self.parts.append(part)
        self.there[part, where] += quantity
        self.bought += cost

    @rule(part=PARTS, source=PLACES, into=PLACES, quantity=st.integers(0, 9))
    def move(self, part: int, source: int, into: int, quantity: int) -> None:
        """Move something, from where it is or from where it is not."""
        if not self.parts:
            return
        moved = self.parts[part % len(self.parts)]
        out, to = self.places[source], self.places[into]
        try:
            with self.database.changing("move") as session:
                given = Money(0) if out == SUPPLIER else None
                cost = move(session, moved, quantity, out, to, cost=given)
        except PartsbinError:
            return
        self.bought -= cost if to == SUPPLIER else 0
        for place, change in ((out, -quantity), (to, quantity)):
            if place != SUPPLIER:
                self.there[moved, place] += change

    @rule(part=PARTS, source=PLACES, cost=st.integers(1, 5000), other=PARTS, onto=PLACES)
    def split(self, part: int, source: int, cost: int, other: int, onto: int) -> None:
        """Take a cost off one part and put it onto another."""
        if not self.parts:
            return
        giver, taker = (self.parts[at % len(self.parts)] for at in (part, other))
        out, to = self.places[source], self.places[onto]
        if SUPPLIER in (out, to):
            return
        try:
            with self.database.changing("split") as session:
                carry_cost(session, giver, out, CLEARING, Money(cost))
                carry_cost(session, taker, CLEARING, to, Money(cost))
        except PartsbinError:
            return

    def _filled(self, place: PlaceId) -> bool:
        slot = place == self.made.slot
        return slot and any(self.there[part, place] for part in self.parts)

    @invariant()
    def adds_up(self) -> None:
        """Prove the record, and that its quantities and its money are those counted here."""
        with self.database.reading() as session:
            assert check(session) == []
            assert balance(session).bought == self.bought
            held = {
                (part, row.place): row.quantity
                for part in self.parts
                for row in where_is(session, part)
            }
        assert held == +self.there

    def teardown(self) -> None:
        """Close the workshop and remove its file."""
        self.database.close()
        shutil.rmtree(self.folder)


TestWorkshop = pytest.mark.filterwarnings("error")(Workshop.TestCase)
TestWorkshop.settings = settings(max_examples=15, stateful_step_count=15, deadline=None)


@st.composite
def specs(draw: st.DrawFn) -> Spec:
    """Draw a spec of any kind with some of the values that its tables list."""
    kind = KINDS[draw(st.sampled_from(sorted(KINDS)))]
    known: dict[str, str] = {}
    for name, attribute in kind.attributes.items():
        listed = attribute.form.candidates()
        value = draw(st.sampled_from(("", *listed)))
        if value != "":
            known[name] = attribute.form.show(value).partition(" (")[0]
    return Spec.read(kind.word, known)


@given(spec=specs())
@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_what_was_added_is_found(database: Database, spec: Spec) -> None:
    """A part is found by its kind's name and by each of its attributes as they are shown."""
    with database.changing("add") as session:
        bins = find(session, ["A1"]).rows
        place = bins[0].place if bins else shop(session).a1
        part = add(session, place, spec).id

    with database.reading() as session:
        kind = KINDS[spec.kind]
        asked = [f"{name}={kind.attributes[name].form.show(v)}" for name, v in spec.values]
        for condition in ([], *([one] for one in asked), asked):
            found = find(session, [spec.kind], [c.partition(" (")[0] for c in condition])
            assert part in {row.part for row in found.rows}
