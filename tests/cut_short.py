"""Programs that are killed in the middle of their acts, and what the record must be then."""

from __future__ import annotations

import os
import random
import signal
import time
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from sqlalchemy import func, select

from partsbin.stock.bikes import NewBike, add_bike, bike_named
from partsbin.stock.check import check
from partsbin.stock.check_tables import Edit
from partsbin.stock.database import open_database
from partsbin.stock.ids import BikeId
from partsbin.stock.ledger import act_of
from partsbin.stock.lookup import mounted
from partsbin.stock.models import Act, Movement
from partsbin.stock.money import Money
from partsbin.stock.places import add_bin
from partsbin.workshop.intake import Intake, correct, take_in
from partsbin.workshop.mounting import mount, unmount
from tests.at_work import PROCESSES

if TYPE_CHECKING:
    from multiprocessing.connection import Connection

    from sqlalchemy.orm import Session

SWAP = "swap"
LONGEST_S = 0.1
"""The time in which a program is killed after its first act; it does several acts in that time."""


@dataclass(frozen=True, slots=True)
class Bench:
    """A bench with a bike of its own and two posts: one is on it, the other in a bin."""

    bike: str
    posts: tuple[str, str]


@dataclass(slots=True)
class Kills:
    """What became of the acts of programs that were killed."""

    killed: int = 0
    returned: int = 0
    cut_short: int = 0
    """Acts that were kept, though their program did not live to tell."""
    faults: list[str] = field(default_factory=list)


def fill_benches(address: str, count: int) -> list[Bench]:
    """Make a shop with some benches."""
    with open_database(address, "owner") as database, database.changing("set up") as session:
        add_bin(session, "A1")
        return [_bench(session, f"Bike {i}") for i in range(count)]


def _bench(session: Session, bike: str) -> Bench:
    add_bike(session, NewBike(name=bike, style="mtb"))
    post = Intake(
        kind="seatpost", attributes=["diameter=27.2"], bin="A1", inspected=True, cost=Money(333)
    )
    first, second = (take_in(session, post).number for _ in range(2))
    mount(session, first, bike)
    return Bench(bike, (first, second))


def swap_on(address: str, who: str, bench: Bench, on_bike: int, pipe: Connection) -> None:
    """Swap the posts of a bike for ever, and tell the number of each act that returned."""
    with open_database(address, who) as database:
        while True:
            on_bike = 1 - on_bike
            with database.changing(SWAP) as session:
                act = act_of(session)
                unmount(session, bench.bike, "seatpost", "A1")
                mount(session, bench.posts[on_bike], bench.bike)
                correct(session, bench.posts[on_bike], note=f"put on by act {act}")
            pipe.send(act)


def kill(address: str, benches: Sequence[Bench], rounds: int, chance: random.Random) -> Kills:
    """Kill a program at each bench so many times, at a random instant, and say what was kept."""
    found = Kills()
    known = 0
    for _ in range(rounds):
        told = _one_round(address, benches, chance)
        with open_database(address, "owner") as database, database.reading() as session:
            found.faults += map(str, check(session))
            kept = _acts_after(session, known)
        for who, acts in told.items():
            lost = set(acts) - set(kept.get(who, ()))
            more = len(kept.get(who, ())) - len(acts)
            if lost or more not in (0, 1):
                found.faults.append(f"{who}: {lost} returned and are lost, {more} more were kept")
            found.returned += len(acts)
            found.cut_short += more
            found.killed += 1
        whole = {act: is_whole for acts in kept.values() for act, is_whole in acts.items()}
        found.faults += [f"act {act} is half there" for act in whole if not whole[act]]
        known = max(known, *whole)
    return found


def _one_round(
    address: str, benches: Sequence[Bench], chance: random.Random
) -> dict[str, list[int]]:
    """Start a program at each bench, kill them, and return the acts that each told of."""
    with open_database(address, "owner") as database, database.reading() as session:
        at = [_on_bike(session, bench) for bench in benches]
    told: dict[str, list[int]] = {}
    started = []
    for bench, on_bike in zip(benches, at, strict=True):
        here, there = PROCESSES.Pipe(duplex=False)
        program = PROCESSES.Process(
            target=swap_on, args=(address, bench.bike, bench, on_bike, there), daemon=True
        )
        program.start()
        there.close()
        started.append((program, here, bench.bike))
    for program, here, who in started:
        told[who] = [here.recv()]
        time.sleep(chance.uniform(0, LONGEST_S))
        assert program.pid is not None
        os.kill(program.pid, signal.SIGKILL)
        program.join()
        told[who] += _rest(here)
        here.close()
    return told


def _rest(pipe: Connection) -> list[int]:
    """Return all that a program that is gone had sent."""
    sent: list[int] = []
    try:
        while True:
            sent.append(pipe.recv())
    except EOFError:
        return sent


def _on_bike(session: Session, bench: Bench) -> int:
    """Return which of a bench's posts is on its bike."""
    (post,) = mounted(session, BikeId(bike_named(session, bench.bike).id))
    return bench.posts.index(post.number)


def _acts_after(session: Session, known: int) -> dict[str, dict[int, bool]]:
    """Return the acts after one, by who did them, and whether each is whole."""
    moves = select(func.count()).where(Movement.act_id == Act.id).scalar_subquery()
    edits = (
        select(func.count()).where(Edit.act_id == Act.id, Edit.field == "note").scalar_subquery()
    )
    query = select(Act.id, Act.who, moves, edits).where(Act.what == SWAP, Act.id > known)
    found: dict[str, dict[int, bool]] = defaultdict(dict)
    for act, who, moved, edited in session.execute(query):
        found[who][act] = (moved, edited) == (2, 1)
    return found
