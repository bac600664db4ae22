"""Benches at work: programs that reach for the last few parts of one shop at the same time.

Each is a process of its own with a connection of its own, and tells which of its acts returned.
What they tell is then held against the record.
"""

from __future__ import annotations

import multiprocessing
import random
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from sqlalchemy import select

from partsbin.stock.bikes import NewBike, add_bike
from partsbin.stock.check import check
from partsbin.stock.database import Database, open_database
from partsbin.stock.errors import RefusedError
from partsbin.stock.ids import SUPPLIER
from partsbin.stock.ledger import act_of
from partsbin.stock.models import Act, Movement, Part
from partsbin.stock.money import Money
from partsbin.stock.places import add_bin
from partsbin.workshop.intake import Intake, put, take_in
from partsbin.workshop.mounting import mount, unmount

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from partsbin.workshop.mounting import Done

PROCESSES = multiprocessing.get_context("forkserver")
# The children of a server that has read the program already start at once.
PROCESSES.set_forkserver_preload(["pytest", "psycopg", "sqlalchemy.dialects.postgresql", __name__])

BINS = ("A1", "B2", "C3")
BIKES = ("Sorrel", "Teasel")
PIECES = 7


@dataclass(frozen=True, slots=True)
class Last:
    """The last few parts of a shop, for which everybody reaches."""

    posts: tuple[str, ...]
    lot: str


@dataclass(slots=True)
class Told:
    """What one bench tells of its work."""

    who: str
    kept: dict[int, tuple[str, int]] = field(default_factory=dict)
    """The acts that returned, each with the part that it moved and how much of it."""
    refused: Counter[str] = field(default_factory=Counter)
    """The refusals that are no fault: another bench was first."""
    faults: list[str] = field(default_factory=list)


def fill_last_parts(address: str) -> Last:
    """Make a shop of three bins and two bikes with three seatposts and seven bearing balls."""
    with open_database(address, "owner") as database, database.changing("set up") as session:
        for name in BINS:
            add_bin(session, name)
        for name in BIKES:
            add_bike(session, NewBike(name=name, style="mtb"))
        post = Intake(kind="seatpost", attributes=["diameter=27.2"], bin="A1", inspected=True)
        posts = tuple(take_in(session, post).number for _ in range(3))
        balls = Intake(kind="bearing_balls", bin="A1", quantity=str(PIECES), cost=Money(997))
        return Last(posts, take_in(session, balls).number)


def reach(address: str, who: str, last: Last, acts: int, seed: int) -> Told:
    """Reach for the last parts until so many acts were kept, and tell of them."""
    told, chance = Told(who), random.Random(seed)
    with open_database(address, who) as database:
        while len(told.kept) < acts:
            try:
                with database.changing("reach") as session:
                    done, quantity = _reach_once(session, last, chance)
                    act = act_of(session)
            except RefusedError as refused:
                told.refused[type(refused).__name__] += 1
            except Exception as fault:  # noqa: BLE001 - whatever it is, it would reach the user
                told.faults.append(f"{type(fault).__name__}: {fault}")
                if len(told.faults) > 9:
                    break
            else:
                told.kept[act] = (done.number, quantity)
    return told


def _reach_once(session: Session, last: Last, chance: random.Random) -> tuple[Done, int]:
    bin_, bike, post = (chance.choice(some) for some in (BINS, BIKES, last.posts))
    what = chance.random()
    if what < 0.3:
        quantity = chance.randint(1, 3)
        return put(session, last.lot, bin_, str(quantity)), quantity
    if what < 0.55:
        return put(session, post, bin_), 1
    if what < 0.8:
        return mount(session, post, bike), 1
    return unmount(session, bike, "seatpost", bin_), 1


def everybody(work: Callable[..., Told], *arguments: object, benches: int, acts: int) -> list[Told]:
    """Return what several benches tell that do the same work at the same time."""
    with PROCESSES.Pool(benches) as pool:
        asked = [(*arguments[:1], f"bench {i}", *arguments[1:], acts, i) for i in range(benches)]
        return pool.starmap(work, asked, chunksize=1)


def faults_of(database: Database, told: list[Told]) -> list[str]:
    """Return what is not in the record as the benches tell it, none if all is."""
    faults = [f"{one.who}: {fault}" for one in told for fault in one.faults]
    with database.reading() as session:
        faults += map(str, check(session))
        recorded = _recorded(session)
        for one in told:
            theirs = {act: moves for act, (who, moves) in recorded.items() if who == one.who}
            expected = {act: [move] for act, move in one.kept.items()}
            if theirs != expected:
                wrong = {
                    act for act in {*theirs, *expected} if theirs.get(act) != expected.get(act)
                }
                faults.append(f"{one.who} tells of other movements than the record: acts {wrong}")
        faults += _oversold(session)
    return faults


def _recorded(session: Session) -> dict[int, tuple[str, list[tuple[str, int]]]]:
    """Return who did each act, and what each of its movements moved."""
    found: dict[int, tuple[str, list[tuple[str, int]]]] = {}
    query = (
        select(Act.id, Act.who, Part.number, Movement.quantity)
        .outerjoin(Movement, Movement.act_id == Act.id)
        .outerjoin(Part, Part.id == Movement.part_id)
        .order_by(Act.id, Movement.id)
    )
    for act, who, number, quantity in session.execute(query):
        moves = found.setdefault(act, (who, []))[1]
        if number is not None:
            moves.append((number, quantity))
    return found


def _oversold(session: Session) -> Iterator[str]:
    """Yield each movement that took more than there was, by the order of the movements alone."""
    there: Counter[tuple[int, int]] = Counter()
    for moved in session.scalars(select(Movement).order_by(Movement.id)):
        if moved.from_place_id != SUPPLIER:
            there[moved.part_id, moved.from_place_id] -= moved.quantity
            if there[moved.part_id, moved.from_place_id] < 0:
                yield f"movement {moved.id} took what was not there"
        there[moved.part_id, moved.to_place_id] += moved.quantity
